"""Recording a pressure-rise test: the readings, and the leak test it counts as."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.leak import Between, Leak, LeakVerdict, PressureRise, leak
from stockroom.domain.leak_tests import as_kept, as_readings
from stockroom.domain.machine_cautions import cautions_beside
from stockroom.domain.pressures import HIGHEST_MBAR, LARGEST_CHAMBER_L
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.names import clean_note
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.upkeep import past_day
from stockroom.store import upkeep_rows

TASK = "leak"
"""The check that a test with a verdict counts as."""

LONGEST_TEST_S = 1_000_000
"""Eleven days and a half: engineering judgement, to catch slips."""


class VolumeUnknown(Refused):
    """Nobody has said how large the chamber is."""

    def __init__(self) -> None:
        super().__init__(
            "The volume of the chamber is not on record yet.",
            "Say it once with the test; the next ones take it from there.",
        )


@dataclass(frozen=True, slots=True)
class Readings:
    """What a person read off: pressures in millibars, seconds, and litres where they are said."""

    from_mbar: Fraction
    to_mbar: Fraction
    seconds: Fraction
    dry_empty: bool
    volume_l: Fraction | None = None
    """None for the volume written down last."""
    between: Between | None = None


def chamber_volume_ml(room: Stockroom) -> int | None:
    """The chamber's volume as last written down, millilitres; None when it never was."""
    return upkeep_rows.last_volume_ml(room.store)


def record_leak_test(
    room: Stockroom, read: Readings, *, note: str = "", on_day: date | None = None
) -> Done:
    """Record a pressure-rise test; with a verdict it counts as the leak test, passed or at fault.

    Raises VolumeUnknown, NoRise, NoTime, NoVolume, BetweenDoesNotFit or BadInput.
    """
    said, day = clean_note(note), past_day(on_day, room.today)
    _refuse_unbelievable(read)
    with acting(room, "leak-test") as act:
        rise = _rise(room, read)
        leak(rise)  # refuses what is no test before anything is rounded
        kept = as_readings(rise, day, said)
        found = leak(as_kept(kept))
        for reading in kept:
            upkeep_rows.insert_reading(room.store, reading)
        rate = f"{float(found.mbar_l_per_s):.3g} mbar L/s"
        act.words = f"leak test: {rate}, {_verdict_words(found)}"
        if found.verdict is not LeakVerdict.NONE:
            upkeep_rows.insert_check(
                room.store,
                task=TASK,
                on_day=day,
                passed=found.verdict is LeakVerdict.WITHIN,
                note=", ".join(part for part in (rate, said) if part),
            )
    over = found.verdict is LeakVerdict.OVER
    return Done(act.words, cautions_beside(TASK) if over else ())


def leak_of(room: Stockroom, read: Readings) -> Leak:
    """What a test would say, without recording it. Raises as `record_leak_test` does."""
    _refuse_unbelievable(read)
    return leak(_rise(room, read))


def _rise(room: Stockroom, read: Readings) -> PressureRise:
    """The rise with the chamber's volume in it."""
    volume_l = read.volume_l
    if volume_l is None:
        known_ml = upkeep_rows.last_volume_ml(room.store)
        if known_ml is None:
            raise VolumeUnknown
        volume_l = Fraction(known_ml, 1000)
    return PressureRise(
        volume_l, read.from_mbar, read.to_mbar, read.seconds, read.dry_empty, read.between
    )


def _refuse_unbelievable(read: Readings) -> None:
    """Refuse what no chamber, gauge or clock shows."""
    for what, value, most, unit in (
        ("volume", read.volume_l, LARGEST_CHAMBER_L, "L"),
        ("seconds", read.seconds, LONGEST_TEST_S, "s"),
        ("first pressure", read.from_mbar, HIGHEST_MBAR, "mbar"),
        ("last pressure", read.to_mbar, HIGHEST_MBAR, "mbar"),
    ):
        if value is not None and not 0 <= value <= most:
            raise BadInput(what, f"{float(value):g} {unit}", f"0 to {most} {unit}")


def _verdict_words(found: Leak) -> str:
    """The verdict for the journal."""
    words = {
        LeakVerdict.WITHIN: "within the limit",
        LeakVerdict.OVER: "over the limit",
        LeakVerdict.NONE: "no verdict",
    }[found.verdict]
    return f"{words}, {found.shape}" if found.shape else words
