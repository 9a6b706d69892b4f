"""The checks of the machine, from data/upkeep_checks.csv."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from types import MappingProxyType

from stockroom.domain.upkeep import UpkeepCheck
from stockroom.domain.upkeep_intervals import Every, Interval
from stockroom.errors import NotFound
from stockroom.reference.sources import source_of, sources, standing_of
from stockroom.reference.tables import ReferenceDamaged, Row, read_table, whole

_TABLE = "upkeep_checks"


@cache
def upkeep_checks() -> Mapping[str, UpkeepCheck]:
    """Every check by its key, in the order of the file. Raises ReferenceDamaged."""
    found: dict[str, UpkeepCheck] = {}
    for row in read_table(_TABLE):
        if row["key"] in found:
            raise ReferenceDamaged(_TABLE, f"the key {row['key']} stands there twice")
        found[row["key"]] = _check(row)
    for one in found.values():
        for key in one.after_trouble_with:
            if key not in found or key == one.key:
                raise ReferenceDamaged(_TABLE, f"{one.key} cannot come after trouble with {key}")
    return MappingProxyType(found)


def upkeep_check(key: str) -> UpkeepCheck:
    """The check of this key; case, and a space or hyphen for an underscore, make no difference.

    Raises NotFound with the nearest keys.
    """
    wanted = "_".join(key.casefold().replace("-", " ").replace("_", " ").split())
    found = upkeep_checks().get(wanted)
    if found is None:
        raise NotFound("check", key, get_close_matches(wanted, upkeep_checks(), n=3, cutoff=0.4))
    return found


def _check(row: Row) -> UpkeepCheck:
    """One row of the table."""
    return UpkeepCheck(
        key=row["key"],
        name=row["name"],
        look=row["look"],
        interval=_interval(row),
        after_trouble_with=tuple(row["after_trouble_with"].split()),
        source=source_of(_TABLE, row),
        standing=standing_of(_TABLE, row),
        anchor=sources()[row["anchor"]] if row["anchor"] else None,
    )


def _interval(row: Row) -> Interval:
    """How often, from two cells; a load or a run stands alone, days and hours are counted."""
    try:
        every = Every(row["every"])
    except ValueError:
        raise ReferenceDamaged(_TABLE, f"nothing goes by “{row['every']}”") from None
    count = whole(_TABLE, row, "count")
    if count < 1 or (every in (Every.LOAD, Every.RUN) and count != 1):
        raise ReferenceDamaged(_TABLE, f"{row['key']} cannot be every {count} {every}")
    return Interval(every, count)
