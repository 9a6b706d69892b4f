"""What opening, a lost seal and drying again do to a life read from the plain table.

The rules: drying again gives back crispness, never the quality already spent; once open, or no
longer tight, a package has the short opened life, and never longer than it had sealed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from stockroom.domain.keeping.dates import day_after, months_between, months_of_days
from stockroom.domain.keeping.events import breaks
from stockroom.domain.keeping.interface import LONGEST_MONTHS, KeepingCase


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of the band: its day, and the life from sealing before rounding."""

    day: date
    months: Fraction


def sealed_edge(sealed_on: date, months: Fraction) -> Edge:
    """A life spent sealed throughout, held at 25 years."""
    held = min(months, Fraction(LONGEST_MONTHS))
    return Edge(day_after(sealed_on, held), held)


def opened_edge(sealed_on: date, edge: Edge, opened_on: date, days: int) -> Edge:
    """`days` from the opening, and never later than the edge it had sealed."""
    months = min(edge.months, months_between(sealed_on, opened_on) + months_of_days(days))
    return Edge(min(edge.day, opened_on + timedelta(days=days)), months)


def share_used(
    case: KeepingCase, redried_on: date, sealed_months: Fraction, air_months: Fraction
) -> Fraction:
    """Share of the quality life spent by the day it was dried again, 0 to 1.

    Time tight counts against the sealed life, time open or leaking against the life in air. A
    share on record goes before the dates.
    """
    if case.life_used_before_redrying is not None:
        return min(Fraction(1), case.life_used_before_redrying)
    broken_on = breaks(case).before_redrying or redried_on
    tight = months_between(case.sealed_on, min(broken_on, redried_on))
    open_ = months_between(broken_on, redried_on)
    return min(Fraction(1), tight / sealed_months + open_ / min(air_months, sealed_months))


def redried_edge(sealed_on: date, redried_on: date, months_left: Fraction) -> Edge:
    """A life counted from the redrying; the whole never passes 25 years from sealing."""
    ceiling = sealed_edge(sealed_on, Fraction(LONGEST_MONTHS))
    months = min(months_between(sealed_on, redried_on) + months_left, ceiling.months)
    return Edge(min(day_after(redried_on, months_left), ceiling.day), months)
