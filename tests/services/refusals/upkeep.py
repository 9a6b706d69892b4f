"""Refusals of the machine's checks and leak tests."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from stockroom.domain.leak import Between, BetweenDoesNotFit, NoRise, NoTime, NoVolume
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.errors import BadInput, NotFound
from stockroom.services import leak_tests, upkeep
from stockroom.services.leak_tests import Readings, VolumeUnknown
from stockroom.services.session import Stockroom
from stockroom.services.upkeep import SameInterval
from tests.services.refusals.base import ENDLESS, HALF_A_PAIR, TOMORROW, Refusal, nothing
from tests.world import TODAY, World


def _oil_left_out(world: World) -> None:
    upkeep.set_interval(world.room, "oil", OFF)


def readings(**wanted: Any) -> Readings:
    """A test of 40 L that passes, but for what is said."""
    said: dict[str, Any] = {
        "from_mbar": Fraction("0.3"),
        "to_mbar": Fraction("0.5"),
        "seconds": Fraction(600),
        "dry_empty": True,
        "volume_l": Fraction(40),
        **wanted,
    }
    return Readings(**said)


def _test(note: str = "", **wanted: Any) -> Callable[[Stockroom], object]:
    return lambda room: leak_tests.record_leak_test(room, readings(**wanted), note=note)


UPKEEP = (
    *(
        Refusal(f"upkeep.{name}", NotFound, nothing, act, ("check", "“gaskets”", "Nearest: gasket"))
        for name, act in (
            ("check_page", lambda room: upkeep.check_page(room, "gaskets")),
            ("record_check", lambda room: upkeep.record_check(room, "gaskets")),
            ("set_interval", lambda room: upkeep.set_interval(room, "gaskets", OFF)),
        )
    ),
    *(
        Refusal(
            "upkeep.record_check",
            BadInput,
            nothing,
            lambda room, note=note: upkeep.record_check(room, "gasket", note=note),
            ("note",),
        )
        for note in (ENDLESS, HALF_A_PAIR)
    ),
    Refusal(
        "upkeep.record_check",
        BadInput,
        nothing,
        lambda room: upkeep.record_check(room, "gasket", on_day=TOMORROW),
        ("day", TOMORROW.isoformat(), f"today ({TODAY.isoformat()})"),
    ),
    Refusal(
        "upkeep.past_day",
        BadInput,
        nothing,
        lambda room: upkeep.past_day(TOMORROW, room.today),
        ("day", TOMORROW.isoformat()),
    ),
    *(
        Refusal(
            "upkeep.set_interval",
            BadInput,
            nothing,
            lambda room, wanted=wanted: upkeep.set_interval(room, "oil", wanted),
            ("interval", "days or hours"),
        )
        for wanted in (
            Interval(Every.LOAD, 1),
            Interval(Every.RUN, 1),
            Interval(Every.DAYS, 3_661),
            Interval(Every.HOURS, 20_001),
            Interval(Every.DAYS, -1),
        )
    ),
    Refusal(
        "upkeep.set_interval",
        SameInterval,
        _oil_left_out,
        lambda room: upkeep.set_interval(room, "oil", OFF),
        ("pump oil", "left out"),
    ),
    *(
        Refusal(
            "upkeep.set_interval",
            SameInterval,
            nothing,
            lambda room, wanted=wanted: upkeep.set_interval(room, "coil", wanted),
            ("cooling coil and fan", "every 60 days"),
        )
        for wanted in (None, Interval(Every.DAYS, 60))
    ),
    Refusal(
        "leak_tests.record_leak_test",
        VolumeUnknown,
        nothing,
        _test(volume_l=None),
        ("volume of the chamber", "Say it once"),
    ),
    Refusal(
        "leak_tests.record_leak_test",
        NoRise,
        nothing,
        _test(to_mbar=Fraction("0.3")),
        ("did not rise",),
    ),
    # The record keeps thousandths of a millibar, and this rise is smaller.
    Refusal(
        "leak_tests.record_leak_test",
        NoRise,
        nothing,
        _test(to_mbar=Fraction("0.3004")),
        ("0.3 mbar, then 0.3 mbar",),
    ),
    *(
        Refusal(
            "leak_tests.record_leak_test",
            NoTime,
            nothing,
            _test(seconds=seconds),
            ("more than 0 s",),
        )
        for seconds in (Fraction(0), Fraction(1, 3))
    ),
    *(
        Refusal(
            "leak_tests.record_leak_test",
            NoVolume,
            nothing,
            _test(volume_l=volume),
            ("more than 0 L",),
        )
        for volume in (Fraction(0), Fraction(1, 3_000))
    ),
    *(
        Refusal(
            "leak_tests.record_leak_test",
            BetweenDoesNotFit,
            nothing,
            _test(between=Between(Fraction(mbar), Fraction(seconds))),
            ("in between does not fit",),
        )
        for mbar, seconds in (("0.6", 300), ("0.3", 300), ("0.4", 600), ("0.4", Fraction(1, 3)))
    ),
    *(
        Refusal("leak_tests.record_leak_test", BadInput, nothing, _test(**wanted), (what,))
        for what, wanted in (
            ("volume", {"volume_l": Fraction(100_001)}),
            ("seconds", {"seconds": Fraction(1_000_001)}),
            ("seconds", {"seconds": Fraction(-1)}),
            ("first pressure", {"from_mbar": Fraction(-1)}),
            ("last pressure", {"to_mbar": Fraction(1_101)}),
            ("note", {"note": ENDLESS}),
            ("note", {"note": HALF_A_PAIR}),
        )
    ),
    Refusal(
        "leak_tests.record_leak_test",
        BadInput,
        nothing,
        lambda room: leak_tests.record_leak_test(room, readings(), on_day=TOMORROW),
        ("day", TOMORROW.isoformat()),
    ),
)
