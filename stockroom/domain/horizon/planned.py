"""Planned uses are taken out first: a named package, or the first that still keeps on the day.

A use that names its package takes from that one. Any other takes, day by day, from the packages
whose best-by is still to come on its day, the earliest of them first: if any way serves all uses
in time, this one does (each use given up by one package could be swapped for an earlier best-by).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.horizon.stock import StockPackage, days_to_eat, in_parts


@dataclass(frozen=True, slots=True)
class PlannedUse:
    """So many servings of a food on a day; out of one package, where it is named."""

    food_id: int
    on_day: date
    servings: Fraction
    package_id: int | None = None


@dataclass(frozen=True, slots=True)
class Unserved:
    """A planned use that the shelf cannot serve, and how much is missing.

    In time, that is: a named package serves its use on whatever day.
    """

    use: PlannedUse
    missing_servings: Fraction


class Setting:
    """The packages of one food in best-by order while planned uses are taken out of them.

    A working place, not a record: what is left in each is in whole parts of a serving, and days
    are counted from the first; `days` are those in which each is eaten in time.
    """

    __slots__ = ("days", "first_use", "last_use", "left", "parts")

    def __init__(self, left: list[int], days: list[int], parts: int) -> None:
        self.parts = parts
        self.left = left
        self.days = days
        self.first_use: list[int | None] = [None] * len(left)
        self.last_use: list[int | None] = [None] * len(left)

    def take(self, at: int, wanted: int, on_day: int) -> int:
        """Take what there is of `wanted` out of one package; returns how much that was."""
        taken = min(wanted, self.left[at])
        if taken:
            self.left[at] -= taken
            first, last = self.first_use[at], self.last_use[at]
            self.first_use[at] = on_day if first is None else min(first, on_day)
            self.last_use[at] = on_day if last is None else max(last, on_day)
        return taken


def set_out(
    packages: Sequence[StockPackage], from_day: date, parts: int, *, count_best_by_day: bool
) -> Setting:
    """The packages of a food, nothing taken out yet."""
    return Setting(
        [in_parts(one.servings, parts) for one in packages],
        [days_to_eat(from_day, one.best_by, count_best_by_day=count_best_by_day)
         for one in packages],
        parts,
    )  # fmt: skip


def take_planned(
    packages: Sequence[StockPackage],
    setting: Setting,
    uses: Iterable[PlannedUse],
    from_day: date,
) -> tuple[Unserved, ...]:
    """Take the planned uses of a food out of its packages; returns what is missing.

    ValueError for a use before `from_day` or of nothing.
    """
    ordered = sorted(uses, key=lambda use: (use.package_id is None, use.on_day))
    if any(use.on_day < from_day or use.servings <= 0 for use in ordered):
        raise ValueError("a planned use lies in the past or is of nothing")
    if not ordered:
        return ()
    place = {one.package_id: at for at, one in enumerate(packages)}
    found: list[Unserved] = []
    first = 0
    for use in ordered:
        wanted, on_day = in_parts(use.servings, setting.parts), (use.on_day - from_day).days
        if use.package_id is not None:
            at = place.get(use.package_id)
            wanted -= 0 if at is None else setting.take(at, wanted, on_day)
        else:
            wanted, first = _take_earliest(setting, wanted, on_day, first)
        if wanted:
            found.append(Unserved(use, Fraction(wanted, setting.parts)))
    return tuple(found)


def _take_earliest(setting: Setting, wanted: int, on_day: int, first: int) -> tuple[int, int]:
    """Take from the first package that is in time and not empty, and on; what is missing, where.

    Uses come in order of day, so what is too old or empty now never comes back into question.
    """
    while wanted and first < len(setting.left):
        if setting.days[first] > on_day:
            wanted -= setting.take(first, wanted, on_day)
        if wanted:
            first += 1
    return wanted, first
