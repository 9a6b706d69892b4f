"""How fast a closed chamber takes in gas: the pressure-rise test and what it says.

The chamber is pumped down, the pump shut off, and the pressure read twice: Q = V x dp / dt. The
limit is for a chamber that is clean, dry and empty; ice, food and damp walls give off vapour that
reads as a leak, so without that word there is a rate and no verdict. With a reading in between the
shape of the rise tells the two apart: air comes in evenly, vapour fills up and levels off.

All figures are exact fractions of what was typed, so a rate that is just the limit is within it.
The rate is as good as the volume and the gauge: 10 % off in either is 10 % off in the rate.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.pressures import PressureUnit, from_mbar
from stockroom.domain.units import ATM_KPA, MBAR_KPA
from stockroom.errors import Refused

LIMIT_MBAR_L_PER_S = Fraction(2, 100)
"""Monograph 7 of the Parenteral Society: clean, dry and empty freeze dryer (secondary copy)."""

STRAIGHT_FROM = Fraction(80, 100)
"""Speed of the second part over that of the first from which a rise counts as straight."""

AS_GOOD_AS = (
    "The rate is as good as the volume and the gauge: 10 % off in either is 10 % off in the rate."
)
EMPTY_FIRST = "Defrost, dry and wipe the empty chamber, pump it down again and repeat the test."


class LeakVerdict(StrEnum):
    """The rate against the limit; none where the limit does not apply."""

    WITHIN = "within"
    OVER = "over"
    NONE = "none"


class RiseShape(StrEnum):
    """How the pressure rose from the first part of the test to the second."""

    STRAIGHT = "straight"
    LEVELS_OFF = "levels off"


class NoRise(Refused):
    """A pressure that stayed or fell says nothing of a leak."""

    def __init__(self, from_mbar: Fraction, to_mbar: Fraction) -> None:
        """Both readings in millibars."""
        super().__init__(
            f"The pressure did not rise: {float(from_mbar):g} mbar, then {float(to_mbar):g} mbar.",
            "Shut the pump off from the chamber and wait longer; a gauge that shows no change"
            " cannot measure this rate.",
        )
        self.from_mbar = from_mbar
        self.to_mbar = to_mbar


class NoTime(Refused):
    """Two readings at the same moment, or in the wrong order."""

    def __init__(self, seconds: Fraction) -> None:
        """`seconds` lie between the readings, as was said."""
        super().__init__(
            f"The test has to last more than 0 s, not {float(seconds):g} s.",
            "Give the seconds from the first reading to the last; ten minutes are 600.",
        )
        self.seconds = seconds


class NoVolume(Refused):
    """A chamber of nothing."""

    def __init__(self, volume_l: Fraction) -> None:
        """`volume_l` in litres, as was said."""
        super().__init__(
            f"The chamber has to hold more than 0 L, not {float(volume_l):g} L.",
            "Take the volume from the machine's papers, or measure the inside: width x height x"
            " depth in decimetres gives litres.",
        )
        self.volume_l = volume_l


class BetweenDoesNotFit(Refused):
    """A reading said to lie between the two others that does not."""

    def __init__(self, why: str) -> None:
        """`why` says what does not fit."""
        super().__init__(
            f"The reading in between does not fit: {why}.",
            "Leave it out, or give a pressure and a time that lie between the first and the last.",
        )
        self.why = why


@dataclass(frozen=True, slots=True)
class Between:
    """A reading during the test: the pressure, and the seconds since the first reading."""

    mbar: Fraction
    seconds: Fraction


@dataclass(frozen=True, slots=True)
class PressureRise:
    """What was read: the chamber's volume in litres, two pressures, the seconds between them."""

    volume_l: Fraction
    from_mbar: Fraction
    to_mbar: Fraction
    seconds: Fraction
    dry_empty: bool | None = None
    """Whether the chamber was clean, dry and empty; None where nobody said."""
    between: Between | None = None


@dataclass(frozen=True, slots=True)
class Leak:
    """What a pressure-rise test says."""

    rise: PressureRise
    mbar_l_per_s: Fraction
    verdict: LeakVerdict
    shape: RiseShape | None
    """None without a reading in between."""
    second_to_first: Fraction | None
    """Speed of the second part of the rise over that of the first."""
    sentence: str
    """What it means and what to do, in words."""

    @property
    def mbar_per_min(self) -> Fraction:
        """The rise in a minute."""
        return self.mbar_l_per_s / self.rise.volume_l * 60

    @property
    def millitorr_per_min(self) -> Fraction:
        """The rise in a minute, in thousandths of a Torr (microns of mercury)."""
        return from_mbar(self.mbar_per_min, PressureUnit.MILLITORR)

    @property
    def torr_l_per_s(self) -> Fraction:
        """The rate in Torr litres a second."""
        return from_mbar(self.mbar_l_per_s, PressureUnit.TORR)

    @property
    def cm3_per_min(self) -> Fraction:
        """The same as cm3 of gas a minute at 0 C and one atmosphere, the chamber taken as at 0 C.

        A chamber at 20 C holds 7 % less gas than that (ideal gas, 273.15 / 293.15; computed).
        """
        return self.mbar_l_per_s * 60 * 1000 * MBAR_KPA / ATM_KPA


def leak(rise: PressureRise) -> Leak:
    """The leak rate and what it means. Raises NoVolume, NoTime, NoRise or BetweenDoesNotFit."""
    _refuse_unfit(rise)
    rate = rise.volume_l * (rise.to_mbar - rise.from_mbar) / rise.seconds
    ratio = _second_to_first(rise)
    shape = None
    if ratio is not None:
        shape = RiseShape.STRAIGHT if ratio >= STRAIGHT_FROM else RiseShape.LEVELS_OFF
    verdict = LeakVerdict.NONE
    if rise.dry_empty:
        verdict = LeakVerdict.WITHIN if rate <= LIMIT_MBAR_L_PER_S else LeakVerdict.OVER
    return Leak(rise, rate, verdict, shape, ratio, _sentence(verdict, shape, rise.dry_empty))


def _refuse_unfit(rise: PressureRise) -> None:
    """Refuse a test of nothing, in no time, without a rise, or with a stray reading."""
    if rise.volume_l <= 0:
        raise NoVolume(rise.volume_l)
    if rise.seconds <= 0:
        raise NoTime(rise.seconds)
    if rise.to_mbar <= rise.from_mbar:
        raise NoRise(rise.from_mbar, rise.to_mbar)
    between = rise.between
    if between is None:
        return
    if not 0 < between.seconds < rise.seconds:
        raise BetweenDoesNotFit(
            f"it was taken after {float(between.seconds):g} s of {float(rise.seconds):g} s"
        )
    if not rise.from_mbar < between.mbar <= rise.to_mbar:
        raise BetweenDoesNotFit(
            f"{float(between.mbar):g} mbar does not lie between {float(rise.from_mbar):g} and"
            f" {float(rise.to_mbar):g} mbar"
        )


def _second_to_first(rise: PressureRise) -> Fraction | None:
    """How fast the second part rose against the first; None without a reading in between."""
    between = rise.between
    if between is None:
        return None
    first = (between.mbar - rise.from_mbar) / between.seconds
    second = (rise.to_mbar - between.mbar) / (rise.seconds - between.seconds)
    return second / first


def _sentence(verdict: LeakVerdict, shape: RiseShape | None, dry_empty: bool | None) -> str:
    """What the figures mean, and the next thing to do."""
    levels_off = shape is RiseShape.LEVELS_OFF
    said = [_OF_LIMIT[verdict] if verdict is not LeakVerdict.NONE else _NO_VERDICT[dry_empty]]
    if shape is not None:
        said.append(_OF_SHAPE[shape])
    if verdict is not LeakVerdict.WITHIN and (levels_off or dry_empty is False):
        said.append(EMPTY_FIRST)
    elif verdict is LeakVerdict.OVER:
        said.append("Look for the leak, the door seal first.")
    return " ".join(said)


_OF_LIMIT = {
    LeakVerdict.WITHIN: "The rate is within 0.02 mbar L/s, the limit for a dry and empty chamber.",
    LeakVerdict.OVER: "The rate is over 0.02 mbar L/s, the limit for a dry and empty chamber.",
}
_NO_VERDICT = {
    None: "Nobody said whether the chamber was clean, dry and empty, and ice or damp in it reads as"
    " a leak: say so if it was.",
    False: "The chamber was not dry and empty, and ice or damp in it reads as a leak.",
}
_OF_SHAPE = {
    RiseShape.STRAIGHT: "The rise is straight, as that of an air leak.",
    RiseShape.LEVELS_OFF: "The rise levels off: moisture or outgassing more than an air leak.",
}
