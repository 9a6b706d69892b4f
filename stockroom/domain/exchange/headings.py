"""Which column of a list holds what: by its heading, in the spellings people use.

A heading may carry its unit, in brackets or as its last word: "Dry weight (g)", "water_ml". Case,
accents of punctuation and doubled spaces make no difference.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from stockroom.errors import BadInput


class Field(StrEnum):
    """What a list of packages can tell."""

    FOOD = "food"
    DRY = "dry"
    WATER = "water"
    WET = "wet"
    CONTAINER = "container"
    ABSORBER = "absorber"
    VACUUM = "vacuum"
    SEALED_ON = "sealed_on"
    MADE_ON = "made_on"
    PLACE = "place"
    COUNT = "count"
    NOTE = "note"
    CODE = "code"


SPELLINGS: dict[Field, tuple[str, ...]] = {
    Field.FOOD: ("food", "item", "product", "contents", "content", "what", "food name", "name"),
    Field.DRY: (
        "dry", "dry weight", "dried weight", "weight dry", "net weight", "net", "weight",
        "dry wt", "dry each", "weight each",
    ),
    Field.WATER: (
        "water", "water to add", "add water", "water needed", "rehydration water",
        "water removed",
    ),
    Field.WET: ("wet", "wet weight", "fresh weight", "weight fresh", "start weight", "weight wet"),
    Field.CONTAINER: ("container", "package", "packaging", "pouch", "bag", "jar", "kept in"),
    Field.ABSORBER: (
        "absorber", "oxygen absorber", "absorber size", "o2 absorber", "oa", "absorbers",
    ),
    Field.VACUUM: ("vacuum", "vacuum sealed", "under vacuum", "vac"),
    Field.SEALED_ON: (
        "sealed on", "sealed", "date sealed", "sealing date", "packed", "packed on",
        "date packed", "pack date", "date",
    ),
    Field.MADE_ON: (
        "made on", "made", "date made", "dried on", "dried", "date dried", "run date",
        "finished", "drying date",
    ),
    Field.PLACE: ("place", "location", "shelf", "where", "stored in", "storage", "stored at"),
    Field.COUNT: (
        "count", "number", "quantity", "qty", "how many", "packages", "pieces", "amount", "n",
    ),
    Field.NOTE: ("note", "notes", "remark", "remarks", "comment", "comments"),
    Field.CODE: ("code", "own code", "label", "id", "no", "number of label", "package code"),
}  # fmt: skip
"""The headings that are known, the surest first; any other is named with --column."""

UNITS: dict[str, str] = {
    "g": "g", "gram": "g", "grams": "g", "gr": "g",
    "kg": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "oz": "oz", "ounce": "oz", "ounces": "oz",
    "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb",
    "ml": "ml", "millilitre": "ml", "millilitres": "ml", "milliliter": "ml", "milliliters": "ml",
    "l": "l", "litre": "l", "litres": "l", "liter": "l", "liters": "l",
    "cc": "cc", "ccs": "cc",
}  # fmt: skip
"""How units are written → the unit."""

_BRACKETS = re.compile(r"[(\[]([^)\]]*)[)\]]")


@dataclass(frozen=True, slots=True)
class Heading:
    """Where a field stands: the column from 0, its heading as written, and the unit it names."""

    at: int
    text: str
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class _Read:
    """A heading taken apart: whole, and without a unit at its end."""

    whole: str
    bare: str
    unit: str | None


def find_headings(cells: Sequence[str], said: Mapping[Field, str]) -> dict[Field, Heading]:
    """Field → its column in a row of headings; `said` are headings a person gave to fields.

    Every column is used once; a field takes the surest of its spellings that is there.
    """
    read = [_read(cell) for cell in cells]
    found: dict[Field, Heading] = {}
    for field, heading in said.items():
        at = _place_of(heading, read)
        if at is not None:
            found[field] = Heading(at, cells[at], read[at].unit)
    for whole in (True, False):
        for field in Field:
            if field not in found and field not in said:
                _find(field, cells, read, found, whole=whole)
    return found


def _find(
    field: Field,
    cells: Sequence[str],
    read: Sequence[_Read],
    found: dict[Field, Heading],
    *,
    whole: bool,
) -> None:
    taken = {one.at for one in found.values()}
    for spelling in SPELLINGS[field]:
        for at, one in enumerate(read):
            name = one.whole if whole else one.bare
            if at not in taken and name == spelling:
                found[field] = Heading(at, cells[at], None if whole else one.unit)
                return


def _place_of(heading: str, read: Sequence[_Read]) -> int | None:
    wanted = _read(heading).whole
    return next((at for at, one in enumerate(read) if one.whole == wanted), None)


def _read(cell: str) -> _Read:
    inside = [UNITS.get(text.strip().casefold()) for text in _BRACKETS.findall(cell)]
    unit = next((one for one in inside if one), None)
    words = _words(_BRACKETS.sub(" ", cell))
    whole = " ".join(_words(cell))
    if unit is None and len(words) > 1 and words[-1] in UNITS:
        return _Read(whole, " ".join(words[:-1]).removesuffix(" in"), UNITS[words[-1]])
    return _Read(whole, " ".join(words), unit)


def _words(text: str) -> list[str]:
    return re.sub(r"[^\w°%]+|_+", " ", text.casefold()).split()


def read_said(pairs: Sequence[str]) -> dict[Field, str]:
    """Headings given to fields: "place=Where it stands". Raises BadInput."""
    found: dict[Field, str] = {}
    for pair in pairs:
        name, equals, heading = pair.partition("=")
        wanted = "_".join(name.casefold().replace("-", " ").split())
        if not equals or not heading.strip() or wanted not in tuple(Field):
            raise BadInput("--column", pair, f"FIELD=HEADING, FIELD one of {', '.join(Field)}")
        found[Field(wanted)] = heading.strip()
    return found
