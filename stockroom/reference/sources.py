"""The sources behind every figure: those of data/sources.csv, then those written into the rules."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from stockroom.domain.cautions import CAUTION_SOURCES
from stockroom.domain.keeping.sources import KEEPING_SOURCES
from stockroom.domain.leak_sources import LEAK_SOURCES
from stockroom.domain.working import Source, Standing
from stockroom.reference.tables import ReferenceDamaged, Row, read_table


@cache
def sources() -> Mapping[str, Source]:
    """Every source by its key: the table's, then those of the rules and cautions."""
    found: dict[str, Source] = {}
    for source in (*_tabled(), *KEEPING_SOURCES, *CAUTION_SOURCES, *LEAK_SOURCES):
        if source.key in found:
            raise ReferenceDamaged("sources", f"the key {source.key} stands there twice")
        found[source.key] = source
    return MappingProxyType(found)


def source_of(table: str, row: Row) -> Source:
    """The source a row names; a row that names none raises ReferenceDamaged."""
    known = sources().get(row["source"])
    if known is None:
        raise ReferenceDamaged(table, f"there is no source “{row['source']}”")
    return known


def _tabled() -> tuple[Source, ...]:
    """The sources of the table."""
    return tuple(
        Source(row["key"], row["citation"], standing_of("sources", row))
        for row in read_table("sources")
    )


def standing_of(table: str, row: Row) -> Standing:
    """The standing a row states; an unknown word raises ReferenceDamaged."""
    try:
        return Standing(row["standing"])
    except ValueError:
        raise ReferenceDamaged(table, f"“{row['standing']}” is not a standing") from None
