"""One evaluation: with every figure at one value, when does the life of a package end?

Two counters run from sealing. Quality damage grows by dt over the quality life at the place's
temperature and never goes back; moisture grows by dt over the moisture life there and starts
again when the food is dried again (the life-fraction rule, published; the counters, engineering
judgement). Once open or not tight, quality goes at the pace of the life in air, and moisture no
slower than through the package itself; since nothing is known of how it was closed, the opened
rule (two weeks, or about two months airtight with an absorber) ends the life at the latest.
"""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from stockroom.domain.keeping.dates import DAYS_A_MONTH
from stockroom.domain.keeping.history import Climate, History, Piece
from stockroom.domain.keeping.interface import LONGEST_MONTHS
from stockroom.domain.keeping.moisture import (
    Isotherm,
    driving_kpa,
    moisture_life_days,
    package_permeance,
    uptake_integral,
)
from stockroom.domain.keeping.oxygen import ingress_cc_per_day, quality_life_days
from stockroom.domain.keeping.package_numbers import PackageNumbers
from stockroom.domain.keeping.temperature import REFUSE_ABOVE_C, temperature_factor

MONTH_DAYS = float(DAYS_A_MONTH)
YEAR_DAYS = 12 * MONTH_DAYS
CAP_DAYS = LONGEST_MONTHS * MONTH_DAYS


class Values(NamedTuple):
    """One value for every figure, in the order of `figures.VARIED`."""

    free_days: float
    """Life without oxygen at 21 °C."""
    air_days: float
    q10: float
    tolerance: float
    oxygen_transmission: float
    vapour_transmission: float
    lid_oxygen: float
    lid_vapour: float
    humidity_change: float
    """Added to the humidity of every room."""
    first_activity: float
    crisp_limit: float
    warmer_c: float
    """Added to every temperature that was not measured."""
    opened_days: float


class Ends(NamedTuple):
    """Days from sealing until each of the three ends the life; infinite for never."""

    quality: float
    moisture: float
    opened: float

    @property
    def life(self) -> float:
        """The first of them, and never past 25 years."""
        return min(self.quality, self.moisture, self.opened, CAP_DAYS)


class Subject(NamedTuple):
    """What one evaluation is about, besides the values."""

    package: PackageNumbers
    history: History
    isotherm: Isotherm


class Reached(NamedTuple):
    """Where a counter reached one: the day, and the piece with what was used before it."""

    day: float
    piece: Piece
    used_before: float


def ends_of(values: Values, subject: Subject) -> Ends:
    """All three ends."""
    return Ends(
        quality_end(values, subject).day,
        moisture_end(values, subject, values.crisp_limit).day,
        opened_end(values, subject),
    )


def opened_end(values: Values, subject: Subject) -> float:
    """The end by the opened rule; infinite for a package that is tight."""
    return subject.history.open_from + values.opened_days


def quality_end(values: Values, subject: Subject) -> Reached:
    """When the quality damage reaches one."""
    history = subject.history
    used = before = history.used_at_start
    lives = [0.0] * len(history.states)
    for piece in history.quality:
        start, days, _, _, state = piece
        life = lives[state]
        if not life:
            lives[state] = life = quality_life(values, subject.package, piece)
        left = (1 - used) * life
        if left <= days:
            return Reached(start + left if left > 0 else start, piece, used)
        before = used
        used += days / life
    return Reached(inf, history.quality[-1], before)


def quality_life(values: Values, package: PackageNumbers, piece: Piece) -> float:
    """Days the quality would last if the whole life were like this piece."""
    free, air = piece_lives(values, piece)
    tight = quality_life_days(
        free,
        air,
        package.left_cc,
        package.reserve_cc,
        ingress_cc_per_day(values.oxygen_transmission, package.area_m2, values.lid_oxygen),
        package.dry_g,
        values.tolerance,
    )
    return min(tight, air) if piece.open else tight


def piece_lives(values: Values, piece: Piece) -> tuple[float, float]:
    """The life without oxygen and the life in air at the temperature of a piece, days."""
    factor = temperature_factor(piece_c(values, piece.climate), values.q10)
    return values.free_days * factor, values.air_days * factor


def piece_c(values: Values, climate: Climate) -> float:
    """The temperature of a place in this evaluation; a doubt never carries it past 45 °C."""
    if climate.measured or values.warmer_c == 0:
        return climate.temperature_c
    return min(climate.temperature_c + values.warmer_c, REFUSE_ABOVE_C)


def moisture_end(values: Values, subject: Subject, limit: float) -> Reached:
    """When the food reaches the water activity `limit`, counted from its last drying."""
    history = subject.history
    used = before = 0.0
    lives = [0.0] * len(history.states)
    for piece in history.moisture:
        start, days, climate, _, state = piece
        life = lives[state]
        if not life:
            lives[state] = life = moisture_life(values, subject, climate, limit)
        left = (1 - used) * life
        if left <= days:
            return Reached(start + left, piece, used)
        before = used
        used += days / life
    return Reached(inf, history.moisture[-1], before)


def moisture_life(values: Values, subject: Subject, climate: Climate, limit: float) -> float:
    """Days until `limit` if the whole life were in this climate."""
    package = subject.package
    permeance = package_permeance(values.vapour_transmission, package.area_m2, values.lid_vapour)
    integral = uptake_integral(
        subject.isotherm, values.first_activity, limit, piece_humidity(values, climate)
    )
    pressure = driving_kpa(piece_c(values, climate))
    return moisture_life_days(package.solids_g, permeance, pressure, integral)


def piece_humidity(values: Values, climate: Climate) -> float:
    """The humidity of a place in this evaluation, 0 to 1."""
    return min(1.0, max(0.0, climate.humidity + values.humidity_change))


def share_by_age(values: Values, subject: Subject, until: float) -> float:
    """The share of the quality that time alone has used by a day, oxygen left out."""
    used = 0.0
    for piece in subject.history.quality:
        if piece.start >= until:
            break
        free, _ = piece_lives(values, piece)
        used += min(piece.days, until - piece.start) / free
    return used
