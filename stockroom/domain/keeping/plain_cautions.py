"""What to bear in mind beside a best-by from the plain table."""

from __future__ import annotations

from stockroom.domain.keeping.interface import (
    QUALITY_NOT_SAFETY,
    KeepingCase,
    PackageKind,
)
from stockroom.domain.keeping.plain_events import Edge
from stockroom.domain.working import Trace

TABLE_TEMPERATURE_DC = 210
"""The table speaks of 21 °C."""

EXTRAPOLATED_MONTHS = 120
"""Beyond ten years a life is called extrapolated (engineering judgement)."""


def add_cautions(case: KeepingCase, high: Edge, trace: Trace) -> None:
    """Add the cautions that apply; `high` is the high edge of the band."""
    trace.caution(f"{QUALITY_NOT_SAFETY.capitalize()}: follow local codes and licensed guidance.")
    trace.caution(
        "The storage temperature is not in this table, which speaks of 21 °C;"
        " warmer shortens the life."
    )
    warmest = warmest_dc(case)
    if warmest is not None and warmest > TABLE_TEMPERATURE_DC:
        trace.caution(
            f"A place on its way is at {warmest / 10:.1f} °C: expect less than this table says."
        )
    if high.months > EXTRAPOLATED_MONTHS:
        trace.caution("Beyond ten years this is extrapolated.")
    if case.package_kind is PackageKind.JAR:
        trace.caution("Light is not in this table: keep clear glass in the dark.")


def warmest_dc(case: KeepingCase) -> int | None:
    """The warmest temperature of all stays, month by month; None where none is known."""
    known = [
        degree
        for stay in case.stays
        for degree in (stay.monthly_dc or (stay.temperature_dc,))
        if degree is not None
    ]
    return max(known, default=None)
