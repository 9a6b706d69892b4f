"""The odds that a package passes its best-by uneaten, and when a food may run out.

The forecast is run again and again: each time the household eats a little more or less than it
thinks (`EATING_SPREAD`), and each package keeps a little longer or shorter than its date says
(`BAND_MEANING`, `SHARED_DOUBT`). The order of eating stays that of the dates on the packages,
since nobody knows the true ones. All of it is a quality estimate, not safety.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from math import ceil, exp, inf, log, sqrt
from typing import NamedTuple

from stockroom.domain.horizon.chance_stream import Chance
from stockroom.domain.horizon.eating import FoodEating
from stockroom.domain.horizon.planned import PlannedUse
from stockroom.domain.horizon.shelves import Frame, Shelf, shelves_of
from stockroom.domain.horizon.stock import StockPackage

EATING_SPREAD_SHARE = 0.25
"""Standard deviation of eating over its mean, where nothing is on record (`EATING_SPREAD`)."""
SHARED_PART = 0.5
"""Of the variance of a life's logarithm, shared by the packages of a food (`SHARED_DOUBT`)."""
NINTH_TENTH = 1.2815515655446004
"""Standard normal value that one in ten passes: how far the band's edges lie (`BAND_MEANING`)."""
_OWN, _SHARED = sqrt(1 - SHARED_PART), sqrt(SHARED_PART)
_QUANTILES = (0.1, 0.5, 0.9)
_HAIR = 1e-9
"""Of a day: food finished at midnight is not eaten on the next day for a rounding of the float."""


class PackageOdds(NamedTuple):
    """How often a package passes its true best-by with something in it."""

    package: StockPackage
    chance: float
    """Share of the rounds in which any of it passes."""
    unused_share: float
    """Mean share of its servings that pass."""
    standard_error: float
    """Of the chance, from the number of rounds alone."""


@dataclass(frozen=True, slots=True)
class FoodOdds:
    """The odds of one food; days are those by which one, five or nine rounds in ten ran out."""

    food_id: int
    packages: tuple[PackageOdds, ...]
    """In best-by order; what is past already or all planned is left out."""
    early: date | None
    middle: date | None
    late: date | None
    """The last day of eating; None where it lasts beyond the forecast."""
    lasts_share: float
    """Share of the rounds in which some is left, still good, at the end of the forecast."""
    unused_servings: float
    """Mean servings that pass."""


@dataclass(frozen=True, slots=True)
class Odds:
    """The odds of every food, and from how many rounds; fewer than asked where it was stopped."""

    foods: tuple[FoodOdds, ...]
    rounds: int
    asked_rounds: int

    @property
    def stopped(self) -> bool:
        """Whether the person stopped it before its end."""
        return self.rounds < self.asked_rounds


def odds_of_waste(
    packages: Iterable[StockPackage],
    eating: Iterable[FoodEating],
    from_day: date,
    *,
    days: int,
    rounds: int,
    chance: Chance,
    planned: Iterable[PlannedUse] = (),
    spreads: Mapping[int, float] | None = None,
    count_best_by_day: bool = False,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Odds:
    """The odds over so many rounds; the same `chance` from its seed gives the same answer.

    Planned uses are taken out first, as in the forecast. `spreads` gives the relative spread of a
    food's eating; the usual one stands for the others. `progress` is told of rounds done and
    asked, `cancelled` is asked before each. ValueError for no rounds, and as in `forecast`.
    """
    if rounds < 1:
        raise ValueError(f"{rounds} rounds")
    frame = Frame(from_day, days, count_best_by_day)
    tables = [
        _FoodTable(shelf, frame, _spread(shelf.food_id, spreads))
        for shelf in shelves_of(packages, eating, planned, frame)
    ]
    done = 0
    while done < rounds and not (cancelled is not None and cancelled()):
        for table in tables:
            table.play(chance)
        done += 1
        if progress is not None:
            progress(done, rounds)
    return Odds(tuple(table.told(done) for table in tables), done, rounds)


def _spread(food_id: int, spreads: Mapping[int, float] | None) -> float:
    """The spread of a food's eating."""
    return EATING_SPREAD_SHARE if spreads is None else spreads.get(food_id, EATING_SPREAD_SHARE)


class _Life(NamedTuple):
    """How long a package keeps, in days; `up` and `down` are the widths of its logarithm."""

    sealed: int
    """Days from the start of the forecast to the day it was made: most often below nought."""
    days: int
    up: float
    down: float


class _Paces:
    """The pace of a food in plain numbers: quick, where the forecast is exact."""

    __slots__ = ("_before", "_rates", "_starts")

    def __init__(self, shelf: Shelf) -> None:
        parts = shelf.setting.parts
        self._starts = tuple(float(one) for one in shelf.curve.starts)
        self._before = tuple(one / parts for one in shelf.curve.before)
        self._rates = tuple(one / parts for one in shelf.curve.a_day)

    def eaten_by(self, day: float) -> float:
        """Servings eaten by a moment, if there is enough."""
        if day <= 0:
            return 0.0
        at = bisect_right(self._starts, day) - 1
        return self._before[at] + (day - self._starts[at]) * self._rates[at]

    def day_of(self, servings: float) -> int:
        """The day on which the last of so many servings is eaten."""
        at = max(bisect_left(self._before, servings) - 1, 0)
        rate = self._rates[at]
        moment = self._starts[at] + ((servings - self._before[at]) / rate if rate else 0.0)
        return max(ceil(moment - _HAIR) - 1, 0)


class _FoodTable:
    """One food made ready for many rounds, and what they came to."""

    __slots__ = (
        "_food_id",
        "_frame",
        "_last_days",
        "_lasts",
        "_lives",
        "_log_sd",
        "_lost",
        "_paces",
        "_packages",
        "_passed",
    )  # fmt: skip

    def __init__(self, shelf: Shelf, frame: Frame, spread: float) -> None:
        """`spread` is the standard deviation of eating over its mean."""
        self._packages = _in_play(shelf)
        self._lives = [_life(one, frame) for one, _ in self._packages]
        self._food_id, self._frame, self._paces = shelf.food_id, frame, _Paces(shelf)
        self._log_sd = sqrt(log(1 + spread * spread))
        self._passed = [0] * len(self._packages)
        self._lost = [0.0] * len(self._packages)
        self._last_days: list[int | None] = []
        self._lasts = 0

    def play(self, chance: Chance) -> None:
        """One round."""
        count = len(self._packages)
        drawn = chance.normals(count + 2)
        # The mean of a log-normal lies above its median: half the variance is taken off.
        scale = exp(self._log_sd * drawn[count] - self._log_sd**2 / 2)
        shared = _SHARED * drawn[count + 1]
        eaten_by, end = self._paces.eaten_by, float(self._frame.days)
        so_far, lasts = 0.0, False
        for at, ((_, servings), life) in enumerate(zip(self._packages, self._lives, strict=True)):
            value = _OWN * drawn[at] + shared
            sealed, days, up, down = life
            keeps = sealed + days * exp(value * (up if value > 0 else down))
            could = scale * eaten_by(keeps if keeps < end else end)
            if so_far + servings <= could:
                so_far += servings
                continue
            left = servings
            if so_far < could:
                left, so_far = so_far + servings - could, could
            if keeps > end:
                lasts = True
            else:
                self._passed[at] += 1
                self._lost[at] += left
        self._lasts += lasts
        self._last_days.append(None if lasts else self._paces.day_of(so_far / scale))

    def told(self, rounds: int) -> FoodOdds:
        """What the rounds came to; nothing of no round."""
        places = range(len(self._packages)) if rounds else ()
        return FoodOdds(
            self._food_id,
            tuple(self._package_odds(at, rounds) for at in places),
            *(self._day_by(share) for share in _QUANTILES),
            lasts_share=self._lasts / rounds if rounds else 0.0,
            unused_servings=sum(self._lost) / rounds if rounds else 0.0,
        )

    def _package_odds(self, at: int, rounds: int) -> PackageOdds:
        """The odds of one package."""
        package, servings = self._packages[at]
        chance = self._passed[at] / rounds
        error = sqrt(chance * (1 - chance) / rounds)
        return PackageOdds(package, chance, self._lost[at] / servings / rounds, error)

    def _day_by(self, share: float) -> date | None:
        """The day by which such a share of the rounds ran out; None: some lasted longer."""
        ordered = sorted(self._last_days, key=lambda day: inf if day is None else day)
        if not ordered:
            return None
        return self._frame.day(ordered[ceil(share * len(ordered)) - 1])


def _in_play(shelf: Shelf) -> list[tuple[StockPackage, float]]:
    """The packages that are not past, with what planned uses leave in them."""
    setting = shelf.setting
    return [
        (package, setting.left[at] / setting.parts)
        for at, package in enumerate(shelf.packages)
        if setting.left[at] and setting.days[at] > 0
    ]


def _life(package: StockPackage, frame: Frame) -> _Life:
    """How long a package keeps; a missing or empty edge of its band is no doubt to that side."""
    made_on, later = package.made_on, int(frame.count_best_by_day)
    days = max((package.best_by - made_on).days + later, 0)
    low = days if package.low is None else (package.low - made_on).days + later
    high = days if package.high is None else (package.high - made_on).days + later
    return _Life(
        (made_on - frame.from_day).days,
        days,
        log(high / days) / NINTH_TENTH if high > days > 0 else 0.0,
        log(days / max(low, 1)) / NINTH_TENTH if low < days > 0 else 0.0,
    )
