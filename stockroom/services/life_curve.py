"""A package's life as a curve: the share used by each day, with what happened on the way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from stockroom.domain.keeping.interface import KeepingCase, LifeUsed, Projection
from stockroom.domain.records import Package
from stockroom.services.finding import find_package
from stockroom.services.keeping import case_of
from stockroom.services.packages import refuse_gone
from stockroom.services.session import Stockroom
from stockroom.store.place_rows import place_paths
from stockroom.store.projections import stays_of

MOST_POINTS = 120
"""As many as the widest plot has columns for (engineering judgement)."""


@dataclass(frozen=True, slots=True)
class LifePoint:
    """The shares used by a day."""

    day: date
    used: LifeUsed


@dataclass(frozen=True, slots=True)
class LifeMark:
    """Something that happened, or will: what it was and the share used by then."""

    day: date
    words: str
    used: LifeUsed
    is_event: bool
    """True for what happened to the package, False for today and the edges of the estimate."""


@dataclass(frozen=True, slots=True)
class LifeCurve:
    """From sealing to the high edge of the best-by; a quality estimate, not safety."""

    package: Package
    projection: Projection
    points: tuple[LifePoint, ...]
    marks: tuple[LifeMark, ...]
    """In order of day."""


def life_curve(room: Stockroom, code: str) -> LifeCurve:
    """The curve of one package. Raises CannotProject, NotFound, CodeMistyped, StandsNowhere."""
    package = find_package(room, code)
    refuse_gone(package)
    case = case_of(room, package)
    projection = room.model.project(case)
    said = _said(room, package, case, projection)
    days = _days(case.sealed_on, max(projection.high, room.today))
    asked = sorted({*days, *(day for day, _, _ in said)})
    shares = room.model.life_used(case, [float((day - case.sealed_on).days) for day in asked])
    used = dict(zip(asked, shares, strict=True))
    return LifeCurve(
        package,
        projection,
        tuple(LifePoint(day, used[day]) for day in asked),
        tuple(LifeMark(day, words, used[day], is_event) for day, words, is_event in said),
    )


def _days(first: date, last: date) -> list[date]:
    """Days from first to last, evenly, both included."""
    length = (last - first).days
    step = max(1, -(-length // MOST_POINTS))
    return [*(first + timedelta(days=at) for at in range(0, length, step)), last]


def _said(
    room: Stockroom, package: Package, case: KeepingCase, projection: Projection
) -> list[tuple[date, str, bool]]:
    """What the curve is marked with: day, words, and whether it happened to the package."""
    paths = place_paths(room.store)
    said: list[tuple[date, str, bool]] = []
    for day, place_id in stays_of(room.store, [package.package_id])[package.package_id]:
        where = "no place" if place_id is None else paths.get(place_id, "")
        verb = "sealed, in" if not said else "moved to"
        said.append((max(day, case.sealed_on), f"{verb} {where}", True))
    if case.seal_lost_on is not None:
        said.append((case.seal_lost_on, "no longer tight", True))
    if case.opened_on is not None:
        said.append((case.opened_on, "opened", True))
    said += [
        (room.today, "today", False),
        (projection.low, "low edge", False),
        (projection.best_by, "best by", False),
        (projection.high, "high edge", False),
    ]
    return sorted(said, key=lambda one: one[0])
