"""Pressure-rise tests on record, put together from their readings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import pairwise

from stockroom.domain.leak import Between, Leak, PressureRise, leak
from stockroom.domain.pressures import to_microbar
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.upkeep_records import EquipmentReading


@dataclass(frozen=True, slots=True)
class LeakTest:
    """One pressure-rise test, whole, with what it says."""

    on_day: date
    leak: Leak
    note: str


def leak_tests(readings: Sequence[EquipmentReading]) -> tuple[LeakTest, ...]:
    """The tests of these readings, which are in the order they were taken and written down.

    Two parts of one test are put together. A reading without a rise that is no second part of
    anything says nothing and is left out: it may stand at the cut end of a list.
    """
    found: list[LeakTest] = []
    first: EquipmentReading | None = None
    for one in readings:
        if first is not None and one.goes_on_from(first):
            found[-1] = _test(first, one)
            first = None
        elif one.rises:
            found.append(_test(one))
            first = one
        else:
            first = None
    return tuple(found)


def as_readings(rise: PressureRise, on_day: date, note: str) -> tuple[EquipmentReading, ...]:
    """A test as the record keeps it: one reading, or two with the reading in between.

    Rounded to millilitres, thousandths of a millibar and seconds; their ids are 0.
    """
    volume_ml = nearest_whole(rise.volume_l * 1000)
    points = [(rise.from_mbar, Fraction(0)), (rise.to_mbar, rise.seconds)]
    if rise.between is not None:
        points.insert(1, (rise.between.mbar, rise.between.seconds))
    kept = [(to_microbar(mbar), nearest_whole(seconds)) for mbar, seconds in points]
    return tuple(
        EquipmentReading(
            0, on_day, volume_ml, first[0], last[0], last[1] - first[1], bool(rise.dry_empty), note
        )
        for first, last in pairwise(kept)
    )


def as_kept(readings: Sequence[EquipmentReading]) -> PressureRise:
    """The rise that one reading, or two that go on from one another, stand for."""
    first, last = readings[0], readings[-1]
    seconds = sum(one.seconds for one in readings)
    between = None
    if len(readings) > 1:
        between = Between(_mbar(first.to_microbar), Fraction(first.seconds))
    return PressureRise(
        Fraction(first.volume_ml, 1000),
        _mbar(first.from_microbar),
        _mbar(last.to_microbar),
        Fraction(seconds),
        first.dry_empty,
        between,
    )


def _test(*readings: EquipmentReading) -> LeakTest:
    """A test of one part or of two."""
    return LeakTest(readings[0].on_day, leak(as_kept(readings)), readings[0].note)


def _mbar(microbar: int) -> Fraction:
    """Millibars from thousandths of one."""
    return Fraction(microbar, 1000)
