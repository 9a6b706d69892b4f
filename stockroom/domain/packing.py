"""Dealing a lot out into packages, so that grams and water always add up.

A lot holds dry food and the water its drying removed. Packages and losses take the dry food in
some order; each gets the water between its start and its end in that order, rounded on the
running total. However it is dealt out, everything together is the lot, to the tenth of a gram.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.quantities import (
    UnitSystem,
    grams,
    read_weight,
    read_whole,
    share_of,
    unreadable,
)
from stockroom.errors import Refused

MOST_PACKAGES_AT_ONCE = 500
LARGEST_ABSORBER_CC = 5_000
DEEPEST_GAUGE_TENTH_INHG = 300

_LONGEST_INTO = 200
_INTO = re.compile(
    r"([0-9]+) ?[x×] ?([a-z0-9][a-z0-9-]*) ?(?:: ?([^,]*))?((?:,[^,]*)*)",
    re.ASCII | re.IGNORECASE,
)
_ACCEPTED_INTO = (
    "COUNTxCONTAINER, then :GRAMS or :rest, then ,absorber=CC or ,vacuum or ,vacuum=INHG;"
    " such as 6xpouch-1500:62,absorber=300"
)


class TooMuchPacked(Refused):
    """More was to be packed than the lot has left."""

    def __init__(self, code: str, asked_dg: int, left_dg: int) -> None:
        """`code` is the lot's code; both weights are dry food."""
        super().__init__(
            f"Lot {code} has {grams(left_dg):.1f} g of dry food left;"
            f" {grams(asked_dg):.1f} g was asked for.",
            "Pack less, or correct the lot's dry weight or its losses first.",
        )


class EmptyPackage(Refused):
    """A package or a loss of nothing was asked for."""

    def __init__(self, code: str) -> None:
        """`code` is the lot's code."""
        super().__init__(
            f"Each package or loss of lot {code} needs more than 0 g of dry food.",
            "Give a weight of 0.1 g or more for each, or fewer packages.",
        )


class TooMuchTaken(Refused):
    """More was to be taken from a package than is left in it."""

    def __init__(self, asked_dg: int, left_dg: int) -> None:
        """Both weights are dry food."""
        super().__init__(
            f"The package has {grams(left_dg):.1f} g of dry food left;"
            f" {grams(asked_dg):.1f} g was asked for.",
            "Take less, or take the rest from another package.",
        )


class ServingMissing(Refused):
    """Servings were asked for of a food without a serving weight."""

    def __init__(self) -> None:
        super().__init__(
            "This food has no serving weight, so servings cannot be counted.",
            "Give the food a serving weight (as eaten, with its water), or use grams.",
        )


@dataclass(frozen=True, slots=True)
class Share:
    """What one package or loss gets of a lot: tenths of a gram of dry food and of water."""

    dry_dg: int
    water_dg: int


@dataclass(frozen=True, slots=True)
class LotBalance:
    """Where a lot's dry food is: as loaded, dried, packed so far and lost so far.

    Lost is dry food that went into no package: eaten, spilt, tested, thrown away.
    """

    code: str
    wet_dg: int
    dry_dg: int
    packed_dg: int
    lost_dg: int

    @property
    def water_dg(self) -> int:
        """Water the whole lot lost in drying, which is also the water to add back."""
        return self.wet_dg - self.dry_dg

    @property
    def left_dg(self) -> int:
        """Dry food not yet accounted for."""
        return self.dry_dg - self.packed_dg - self.lost_dg

    @property
    def left_water_dg(self) -> int:
        """The water that belongs to what is left."""
        if self.left_dg <= 0:
            return 0
        return share_of(self.water_dg, self.dry_dg, self.packed_dg + self.lost_dg, self.left_dg)


@dataclass(frozen=True, slots=True)
class SplitRequest:
    """One typed wish: so many packages of one container.

    `each_dg` is the dry weight of each, or None to share out evenly what is left of the lot.
    `absorber_cc` is None when nothing was said and 0 when none is wanted.
    """

    count: int
    container: str
    each_dg: int | None
    absorber_cc: int | None
    vacuum: bool
    vacuum_tenth_inhg: int | None = None
    """What the gauge read at closing, tenths of an inch of mercury; None when not read."""


def shares(balance: LotBalance, weights: Sequence[int]) -> tuple[Share, ...]:
    """Dry food and water for packages or losses of the given dry weights, in that order.

    Refuses a weight that is not above zero, and more in all than the lot has left.
    """
    if any(weight <= 0 for weight in weights):
        raise EmptyPackage(balance.code)
    if sum(weights) > balance.left_dg:
        raise TooMuchPacked(balance.code, sum(weights), balance.left_dg)
    position = balance.packed_dg + balance.lost_dg
    dealt: list[Share] = []
    for weight in weights:
        dealt.append(Share(weight, share_of(balance.water_dg, balance.dry_dg, position, weight)))
        position += weight
    return tuple(dealt)


def servings_in(dry_dg: int, water_dg: int, serving_dg: int) -> Fraction:
    """Servings in dry food and its water; `serving_dg` is one serving as eaten. Exact."""
    if serving_dg <= 0:
        raise ServingMissing()
    return Fraction(dry_dg + water_dg, serving_dg)


def part_water(
    package_dry_dg: int, package_water_dg: int, already_taken_dg: int, take_dg: int
) -> int:
    """Water to add to a part taken out of a package, so that the parts' water adds up.

    `already_taken_dg` is the dry food taken before. Refuses more than is left.
    """
    left_dg = package_dry_dg - already_taken_dg
    if take_dg > left_dg:
        raise TooMuchTaken(take_dg, left_dg)
    if take_dg == 0:
        return 0
    return share_of(package_water_dg, package_dry_dg, already_taken_dg, take_dg)


def read_split(text: str) -> SplitRequest:
    """A wish for packages: "6xpouch-1500:62", "2xjar-950:150,absorber=100,vacuum", "1xjar:rest".

    Grams left out, or `rest`, share out evenly what is left. A weight may carry its unit
    ("2.2 oz"); its decimal sign is a point, since a comma starts an option. Raises BadInput.
    """
    parts = _INTO.fullmatch(" ".join(text.split())) if len(text) <= _LONGEST_INTO else None
    if not parts:
        raise unreadable("packages", text, _ACCEPTED_INTO)
    count = read_whole(parts[1], "number of packages", 1, MOST_PACKAGES_AT_ONCE)
    absorber_cc, vacuum, gauge = _read_options(parts[4], text)
    return SplitRequest(count, parts[2].lower(), _read_each(parts[3]), absorber_cc, vacuum, gauge)


def _read_each(typed: str | None) -> int | None:
    """The dry weight of each package, None for an even share of the rest."""
    if typed is None or typed.strip().lower() == "rest":
        return None
    each_dg = read_weight(typed, UnitSystem.METRIC, "weight of each package")
    if each_dg == 0:
        raise unreadable("weight of each package", typed, "a weight above 0 g, or rest")
    return each_dg


def _read_options(options: str, text: str) -> tuple[int | None, bool, int | None]:
    """The absorber's size in cc, whether vacuum is drawn and its gauge; each may be said once."""
    absorber_cc: int | None = None
    vacuum = False
    gauge: int | None = None
    for option in options.lower().split(",")[1:]:
        name, said, value = (piece.strip() for piece in option.partition("="))
        if name == "absorber" and absorber_cc is None:
            absorber_cc = read_whole(value, "absorber", 0, LARGEST_ABSORBER_CC)
        elif name == "vacuum" and not vacuum:
            vacuum = True
            gauge = _read_gauge(value) if said else None
        else:
            raise unreadable("packages", text, _ACCEPTED_INTO)
    return absorber_cc, vacuum, gauge


def _read_gauge(typed: str) -> int:
    """A gauge reading in inches of mercury, as tenths."""
    digits = re.fullmatch(r"([0-9]{1,2})(?:\.([0-9]))?", typed, re.ASCII)
    tenths = int(digits[1]) * 10 + int(digits[2] or 0) if digits else 0
    if not 1 <= tenths <= DEEPEST_GAUGE_TENTH_INHG:
        raise unreadable("vacuum", typed, "what the gauge reads in inches of mercury, 0.1 to 30")
    return tenths
