"""Constant weight: has the food stopped losing weight?

The rule: the last loss is at most one digit of the scale, or 0.05 % of the first weight in the
list where that is more; no reading is heavier than the one before by more than a digit; and where
hours are given, at least one hour lies between the last two readings. Standing: engineering
judgement, after the pharmacopoeia's 0.50 mg for each gram taken (from memory), which a scale of
1 g can only apply to a whole wet load.

A plateau is needed and not enough: lost vacuum, a cold shelf or a glassy sugar shell give one too.
Weights are whole tenths of a gram and are compared as such.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from stockroom.domain.dryness import SCALE_DG
from stockroom.domain.quantities import grams
from stockroom.domain.working import Source, Standing
from stockroom.errors import Refused

RATE = Fraction(5, 10_000)
"""Loss between two weighings over the first weight."""
LEAST_HOURS = 1

PLATEAU_RULE = Source(
    "plateau-rule",
    "The last loss at most one digit of the scale or 0.05 % of the first weight, an hour of"
    " drying between the last two weighings",
    Standing.ENGINEERING_JUDGEMENT,
)
NOT_ENOUGH = (
    "Constant weight is needed but not enough: break the thickest piece, and feel for a cold spot."
)

TOO_COARSE = "This scale is too coarse to tell on this tray: no loss this scale can see."
"""Stands beside constant weight where a digit of the scale is more than the rate on this tray. A
scale of 1 g can apply the rate to a whole wet load only (computed)."""

Hours = Sequence[int | float | Fraction | None]
"""Hours of drying at each weighing; None where nobody wrote down that one."""


class TooFewReadings(Refused):
    """One weight cannot show that nothing more is lost."""

    def __init__(self, count: int) -> None:
        """`count` readings were given."""
        super().__init__(
            f"Constant weight needs two weighings or more, not {count}.",
            "Dry for an hour more and weigh again.",
        )
        self.count = count


class NoWeight(Refused):
    """A reading of nothing, or below."""

    def __init__(self, position: int) -> None:
        """`position` counts the readings from 1."""
        super().__init__(
            f"Reading {position} has to be more than 0 g.",
            "Leave it out, or correct it.",
        )
        self.position = position


class HoursDoNotFit(Refused):
    """The hours are not those of the weights."""

    def __init__(self, why: str) -> None:
        """`why` says what does not fit."""
        super().__init__(
            f"The hours do not fit the weights: {why}.",
            "Give one hour count for each weight, each later than the one before.",
        )
        self.why = why


class NoScaleDigit(Refused):
    """A scale that shows nothing."""

    def __init__(self, resolution_dg: int) -> None:
        """`resolution_dg` is what was given for one digit."""
        super().__init__(
            f"One digit of the scale cannot be {grams(resolution_dg):g} g.",
            "Give what the scale shows, such as 1 or 0.1 g.",
        )
        self.resolution_dg = resolution_dg


@dataclass(frozen=True, slots=True)
class Plateau:
    """What a list of weighings says."""

    losses_dg: tuple[int, ...]
    """Between each reading and the next; negative for a gain."""
    final_dg: int
    reached: bool
    reason: str
    """Why, in one sentence."""
    too_coarse: bool
    """Whether one digit of the scale is more than 0.05 % of the first weight."""

    @property
    def coarse_words(self) -> str:
        """What constant weight on a scale too coarse for it means; empty in any other case."""
        return TOO_COARSE if self.reached and self.too_coarse else ""

    @property
    def losses_g(self) -> tuple[float, ...]:
        """The losses in grams."""
        return tuple(grams(loss) for loss in self.losses_dg)

    @property
    def losses_percent(self) -> tuple[float, ...]:
        """The losses in percent of the last weight, which is the denominator of them all."""
        return tuple(100 * loss / self.final_dg for loss in self.losses_dg)


def plateau(
    weights_dg: Sequence[int], *, hours: Hours | None = None, resolution_dg: int = SCALE_DG
) -> Plateau:
    """Whether the last of these weights, in the order taken, is constant.

    `hours` are the hours of drying at each weighing; None where nobody wrote them down.
    `resolution_dg` is one digit of the scale. Raises TooFewReadings, NoWeight, HoursDoNotFit.
    """
    _refuse_unfit(weights_dg, resolution_dg)
    losses = tuple(before - after for before, after in itertools.pairwise(weights_dg))
    between = _last_hours(hours, len(weights_dg))
    against = _gain(losses, resolution_dg) or _too_soon(between)
    if against is None and losses[-1] > _allowed_dg(weights_dg[0], resolution_dg):
        against = _still_losing(losses[-1], weights_dg[0], resolution_dg)
    reason = against or _constant(losses[-1], weights_dg[0], resolution_dg)
    coarse = _is_too_coarse(weights_dg[0], resolution_dg)
    return Plateau(losses, weights_dg[-1], against is None, reason, coarse)


def _refuse_unfit(weights_dg: Sequence[int], resolution_dg: int) -> None:
    """Refuse too few readings, one of nothing, and a scale without a digit."""
    if len(weights_dg) < 2:
        raise TooFewReadings(len(weights_dg))
    for position, weight in enumerate(weights_dg, start=1):
        if weight <= 0:
            raise NoWeight(position)
    if resolution_dg < 1:
        raise NoScaleDigit(resolution_dg)


def _allowed_dg(first_dg: int, resolution_dg: int) -> Fraction:
    """The largest last loss that still counts as constant, tenths of a gram."""
    return max(Fraction(resolution_dg), RATE * first_dg)


def _is_too_coarse(first_dg: int, resolution_dg: int) -> bool:
    """Whether one digit of the scale is more than the rate allows on this weight."""
    return resolution_dg > RATE * first_dg


def _last_hours(hours: Hours | None, count: int) -> Fraction | None:
    """Hours between the last two readings; None where nobody wrote them down."""
    if hours is None:
        return None
    if len(hours) != count:
        raise HoursDoNotFit(f"{len(hours)} hours for {count} weights")
    exact = [None if one is None else _exact(one) for one in hours]
    known = [one for one in exact if one is not None]
    if any(later <= earlier for earlier, later in itertools.pairwise(known)):
        raise HoursDoNotFit("they do not rise")
    earlier, later = exact[-2:]
    return None if earlier is None or later is None else later - earlier


def _exact(hour: int | float | Fraction) -> Fraction:
    """An hour count as the decimal it is written as."""
    if isinstance(hour, float):
        if hour != hour or abs(hour) == float("inf"):
            raise HoursDoNotFit("one of them is no number")
        return Fraction(Decimal(repr(hour)))
    return Fraction(hour)


def _gain(losses: tuple[int, ...], resolution_dg: int) -> str | None:
    """The sentence about the last reading heavier than the one before, if there is one."""
    gains = [place for place, loss in enumerate(losses) if -loss > resolution_dg]
    if not gains:
        return None
    place = gains[-1]
    return (
        f"Reading {place + 2} is {_shown(-losses[place])} heavier than reading {place + 1}: it took"
        " up moisture or was mis-weighed; leave a wrong reading out, or dry on and weigh again."
    )


def _too_soon(between: Fraction | None) -> str | None:
    """The sentence about readings less than an hour apart, if they are."""
    if between is None or between >= LEAST_HOURS:
        return None
    return (
        f"Only {float(between):.2g} h lie between the last two readings: dry for"
        f" {LEAST_HOURS} h and weigh again."
    )


def _still_losing(loss_dg: int, first_dg: int, resolution_dg: int) -> str:
    """The sentence about a loss that is too large."""
    allowed = _allowed_dg(first_dg, resolution_dg)
    which = "one digit of the scale" if allowed == resolution_dg else "0.05 % of the first weight"
    return (
        f"The last loss of {_shown(loss_dg)} is more than {_shown(allowed)} ({which}):"
        " still drying."
    )


def _constant(loss_dg: int, first_dg: int, resolution_dg: int) -> str:
    """The sentence about constant weight, honest about a coarse scale."""
    rate_dg = RATE * first_dg
    if _is_too_coarse(first_dg, resolution_dg):
        return (
            f"No loss this scale can see: the last change is within one digit,"
            f" {_shown(resolution_dg)}, where 0.05 % of the first weight would be"
            f" {_shown(rate_dg)}."
        )
    change = f"The last loss of {_shown(loss_dg)}" if loss_dg >= 0 else "The last change"
    return f"{change} is within 0.05 % of the first weight, {_shown(rate_dg)}."


def _shown(weight_dg: int | Fraction) -> str:
    """A small weight in grams, as many digits as it has."""
    return f"{float(weight_dg) / 10:.4g} g"
