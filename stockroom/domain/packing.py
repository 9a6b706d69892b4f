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
from stockroom.domain.records import Lot
from stockroom.errors import Refused

MOST_PACKAGES_AT_ONCE = 500
LARGEST_ABSORBER_CC = 5_000
DEEPEST_GAUGE_TENTH_INHG = 300

MOST_TRAYS = 30
"""The highest number a tray has."""
LONGEST_STOCK_NAME = 80

_LONGEST_INTO = 400
_INTO = re.compile(
    r"([0-9]+) ?[x×] ?([a-z0-9][a-z0-9-]*) ?(?:: ?([^,]*))?((?:,[^,]*)*)",
    re.ASCII | re.IGNORECASE,
)
_ACCEPTED_INTO = (
    "COUNTxCONTAINER, then :GRAMS or :rest, then ,absorber=CC or ,vacuum or ,vacuum=INHG, then"
    " ,packet=NAME or ,box=NAME or ,tray=N; such as 6xpouch-1500:62,absorber=300"
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

    Lost is dry food that went into no package: eaten, spilt, tested, thrown away. What was
    accounted for before the rest was dried again is left out of the running total, for it took
    its water by the weights of that time.
    """

    code: str
    wet_dg: int
    dry_dg: int
    packed_dg: int
    lost_dg: int
    dealt_before_dg: int = 0
    dealt_before_water_dg: int = 0

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
        return self.share_at(self.packed_dg + self.lost_dg, self.left_dg)

    def share_at(self, position_dg: int, weight_dg: int) -> int:
        """Water that goes with `weight_dg` of dry food after `position_dg` of the lot."""
        return share_of(
            self.water_dg - self.dealt_before_water_dg,
            self.dry_dg - self.dealt_before_dg,
            position_dg - self.dealt_before_dg,
            weight_dg,
        )


def balance_of(lot: Lot) -> LotBalance:
    """The balance of a lot as it stands."""
    return LotBalance(
        lot.code,
        lot.wet_dg,
        lot.dry_dg,
        lot.packed_dg,
        lot.lost_dg,
        lot.dealt_before_dg,
        lot.dealt_before_water_dg,
    )


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
    absorber_packet: str = ""
    """The packet the absorbers came out of, as the person names it."""
    container_box: str = ""
    """The box the containers came out of, as the person names it."""
    tray_position: int | None = None
    """The tray the food comes from, where trays are packed apart."""

    @property
    def low_oxygen(self) -> bool:
        """Whether it takes the oxygen away: an absorber or vacuum."""
        return bool(self.absorber_cc) or self.vacuum


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
        dealt.append(Share(weight, balance.share_at(position, weight)))
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
    ("2.2 oz"); its decimal sign is a point, since a comma starts an option. The packet of the
    absorbers, the box of the containers and the tray may follow: ",absorber=300,packet=October".
    Raises BadInput.
    """
    parts = _INTO.fullmatch(" ".join(text.split())) if len(text) <= _LONGEST_INTO else None
    if not parts:
        raise unreadable("packages", text, _ACCEPTED_INTO)
    count = read_whole(parts[1], "number of packages", 1, MOST_PACKAGES_AT_ONCE)
    said = _read_options(parts[4], text)
    absorber_cc = _whole(said, "absorber", 0, LARGEST_ABSORBER_CC)
    if "packet" in said and not absorber_cc:
        raise unreadable("packages", text, "packet=NAME beside the absorber=CC that came out of it")
    return SplitRequest(
        count,
        parts[2].lower(),
        _read_each(parts[3]),
        absorber_cc,
        "vacuum" in said,
        _read_gauge(said["vacuum"]) if said.get("vacuum") else None,
        read_stock_name(said["packet"], "packet") if "packet" in said else "",
        read_stock_name(said["box"], "box") if "box" in said else "",
        _whole(said, "tray", 1, MOST_TRAYS),
    )


def read_stock_name(typed: str, what: str) -> str:
    """The name of an absorber packet or a container box as a person types it. Raises BadInput."""
    name = " ".join(typed.split())
    if not name or len(name) > LONGEST_STOCK_NAME or not name.isprintable():
        raise unreadable(what, typed, f"a name of at most {LONGEST_STOCK_NAME} plain characters")
    return name


def _read_each(typed: str | None) -> int | None:
    """The dry weight of each package, None for an even share of the rest."""
    if typed is None or typed.strip().lower() == "rest":
        return None
    each_dg = read_weight(typed, UnitSystem.METRIC, "weight of each package")
    if each_dg == 0:
        raise unreadable("weight of each package", typed, "a weight above 0 g, or rest")
    return each_dg


_OPTIONS = ("absorber", "vacuum", "packet", "box", "tray")


def _read_options(options: str, text: str) -> dict[str, str]:
    """What each option was given, "" for vacuum alone; each may be said once."""
    found: dict[str, str] = {}
    for option in options.split(",")[1:]:
        name, equals, value = (piece.strip() for piece in option.partition("="))
        key = name.lower()
        alone = key == "vacuum" and not equals
        if key not in _OPTIONS or key in found or not (value or alone):
            raise unreadable("packages", text, _ACCEPTED_INTO)
        found[key] = value
    return found


def _whole(said: dict[str, str], key: str, low: int, high: int) -> int | None:
    """The whole number an option was given; None when it was not said."""
    return read_whole(said[key], key, low, high) if key in said else None


def _read_gauge(typed: str) -> int:
    """A gauge reading in inches of mercury, as tenths."""
    digits = re.fullmatch(r"([0-9]{1,2})(?:\.([0-9]))?", typed, re.ASCII)
    tenths = int(digits[1]) * 10 + int(digits[2] or 0) if digits else 0
    if not 1 <= tenths <= DEEPEST_GAUGE_TENTH_INHG:
        raise unreadable("vacuum", typed, "what the gauge reads in inches of mercury, 0.1 to 30")
    return tenths
