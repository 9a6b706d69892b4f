"""Is it dry? By keys: several weights, tests of trays, extra hours, the gate of runs and lots."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from fractions import Fraction
from typing import Any

import pytest
from textual.app import App
from textual.widgets import Static

from stockroom.domain.dryness import NO_PROOF
from stockroom.domain.plateau import TOO_COARSE
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import BadInput
from stockroom.services import bench, dryness, foods, packing, redrying
from stockroom.services.dryness import DrynessTest
from stockroom.services.evidence import lot_evidence, run_evidence
from stockroom.services.household import change_household
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.dryness_words import extra_text, weight_word
from stockroom.tui.screens.gate_window import GateScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.tray_readings import ReadingsScreen, happenings
from stockroom.tui.screens.weigh_line import read_hours
from stockroom.tui.screens.working import WorkingScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, PEAS, TODAY, World

SameScreen = Callable[[App[Any], str], None]

COLD, BREAK = DrynessTest.COLD, DrynessTest.BREAK


@dataclass(frozen=True, slots=True)
class Hour:
    """A clock that stands at an hour of a day, universal time."""

    hour: int
    day: date = TODAY

    def today(self) -> date:
        """The day."""
        return self.day

    def now(self) -> datetime:
        """The hour of the day."""
        return datetime(self.day.year, self.day.month, self.day.day, self.hour, tzinfo=UTC)


def loaded(world: World, *trays: tuple[str, float]) -> int:
    """An open run with trays of (food, grams as loaded); its number."""
    run_id = bench.start_run(world.room).made_id
    for position, (food, wet_g) in enumerate(trays, start=1):
        bench.load_tray(world.room, position, food, gross_dg=int(wet_g * 10), run_id=run_id)
    return run_id


def readings(world: World, run_id: int, position: int) -> list[tuple[int, int | None]]:
    """The dry weighings of a tray on record: weight and tenths of hours."""
    record = run_evidence(world.room, run_id).trays[position - 1]
    return [(one.net_dg, one.hours_tenths) for one in record.dry]


def checks_of(world: World, run_id: int) -> list[tuple[int, str, bool]]:
    """The tests on record: tray, kind and whether it passed."""
    return [
        (record.tray.position, check.kind, check.passed)
        for record in run_evidence(world.room, run_id).trays
        for check in record.checks
    ]


async def to_run(driver: Driver) -> RunScreen:
    """Open the first run of the Bench."""
    await driver.press("3", "enter")
    assert isinstance(driver.screen, RunScreen)
    return driver.screen


def gate_words(driver: Driver) -> str:
    """What the run's page says of the gate, whether or not all of it is in view."""
    return " ".join(str(driver.screen.query_one("#gate", Static).render()).split())


# Several weights


async def test_a_tray_is_weighed_again_and_again_with_hours(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 900))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.enter("155.2 @24", "140@24.5 h")
        await driver.press("home")
        await driver.enter("154.9 @ 26")
        assert screen.tray is not None and screen.tray.position == 2
        assert "no loss seen" in driver.text
        await driver.press("up")
        assert TOO_COARSE in driver.words
    assert readings(world, run_id, 1) == [(1552, 240), (1549, 260)]
    assert readings(world, run_id, 2) == [(1400, 245)]


async def test_the_line_says_how_hours_are_typed(world: World) -> None:
    loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.type("155")
        assert "155 @26 was weighed after 26 hours of drying" in driver.words


@pytest.mark.parametrize("typed", ["155 @", "155 @x", "155 @-1", "155 @9999", "155 @1 @2", "@5"])
async def test_wrong_hours_are_refused_and_stay(world: World, typed: str) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("enter")
        await driver.enter(typed)
        assert "! " in driver.words
        assert screen.line.typed == typed
    assert readings(world, run_id, 1) == []


async def test_a_loaded_weight_has_no_hours(world: World) -> None:
    loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("w")
        await driver.enter("1040 @2")
        assert "hours of drying with a dry weight only" in driver.words


@pytest.mark.parametrize(
    ("typed", "hours"), [("6", 6), ("6.5", "13/2"), ("26 h", 26), ("0,25", "1/4"), (" 6h ", 6)]
)
def test_hours_are_read(typed: str, hours: int | str) -> None:
    assert read_hours(typed) == Fraction(hours)


@pytest.mark.parametrize("typed", ["", "h", "-6", "1e3", "6:30", "六", "6.555", "123456"])
def test_what_are_no_hours_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_hours(typed)


WEIGHED: tuple[tuple[tuple[tuple[float, float | None], ...], str], ...] = (
    ((), "to weigh"),
    (((150, None),), "one weight"),
    (((150, None), (149.4, None)), "no loss seen"),
    (((3000, None), (2998.6, None)), "plateau"),
    (((150, None), (147, None)), "still losing"),
    (((150, None), (154, None)), "gained"),
    (((150, 24), (149.5, 24.5)), "too soon"),
    (((150, 24), (149.5, 20)), "see hours"),
)
"""Dry weights in grams with their hours → the word for them. 0.05 % of 3,000 g is 1.5 g, of 150 g
0.075 g, which a scale of 1 g cannot show: the rule of the plateau."""


@pytest.mark.parametrize(("weights", "word"), WEIGHED)
def test_the_word_for_what_was_weighed(
    world: World, weights: tuple[tuple[float, float | None], ...], word: str
) -> None:
    run_id = loaded(world, (PEAS, 9000))
    for grams, hours in weights:
        exact = None if hours is None else Fraction(str(hours))
        bench.weigh_tray(world.room, 1, "dry", round(grams * 10), hours=exact, run_id=run_id)
    (record,) = run_evidence(world.room, run_id).trays
    assert weight_word(record) == word


# Tests by one key each


async def test_one_key_for_each_result_and_the_cursor_goes_on(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 900), (PEAS, 800))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("i", "I")
        assert screen.tray is not None and screen.tray.position == 3
        await driver.press("home", "b", "B")
        rows = [line for line in driver.text.splitlines() if "Peas" in line][:3]
        assert [row.split()[-2:] for row in rows[:2]] == [["none", "snaps"], ["found", "fails"]]
        assert rows[2].split()[-2:] == ["–", "–"]
    assert checks_of(world, run_id) == [
        (1, "cold", True),
        (1, "break", True),
        (2, "cold", False),
        (2, "break", False),
    ]


async def test_a_failed_test_says_what_to_do(world: World) -> None:
    loaded(world, (PEAS, 1000))
    async with driving(world, notices=True) as driver:
        await to_run(driver)
        await driver.press("B")
        assert "does not snap" in driver.words
        assert "Dry for a few more hours (h)" in driver.words


async def test_a_test_is_undone(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("i", "u")
        assert "none" not in driver.text.splitlines()[3]
    assert checks_of(world, run_id) == []


async def test_letters_are_text_while_a_weight_is_typed(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.type("15ibIBhr")
        assert screen.line.typed == "15ibIBhr"
    assert checks_of(world, run_id) == []


async def test_tests_are_recorded_after_the_run_was_closed(world: World) -> None:
    world.dry_lot(tested=False)
    async with driving(world) as driver:
        screen = await to_run(driver)
        assert not screen.is_open
        await driver.press("i", "b")
        assert "no constant weight on tray 1" in gate_words(driver)
        assert "Its run is closed" in gate_words(driver)
    assert checks_of(world, 1) == [(1, "cold", True), (1, "break", True)]


async def test_an_abandoned_run_takes_no_tests(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    bench.abandon_run(world.room)
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("i", "B", "r", "h")
        assert driver.screen is screen
    assert checks_of(world, run_id) == []


# The gate of a run


async def test_the_gate_names_what_is_missing_until_it_opens(world: World) -> None:
    loaded(world, (PEAS, 1000), (PEAS, 900))
    async with driving(world) as driver:
        await to_run(driver)
        assert "weigh every tray, dry for an hour more and weigh again" in gate_words(driver)
        await driver.enter("155", "150")
        assert "no constant weight on trays 1 and 2" in gate_words(driver)
        assert "Next: Dry for an hour more and weigh trays 1 and 2 again." in gate_words(driver)
        await driver.press("home")
        await driver.enter("154.5", "149")
        assert "no break test on tray 2, the slowest" in gate_words(driver)
        await driver.press("b")
        assert "no cold-touch test" in gate_words(driver)
        await driver.press("I")
        assert "a cold spot on tray 2" in gate_words(driver)
        await driver.press("i")
        assert gate_words(driver) == (
            "Dryness is shown: constant weight on every tray, tray 2 snaps, no cold spot."
        )


async def test_each_food_has_a_gate_of_its_own(world: World) -> None:
    loaded(world, (PEAS, 1000), (APPLE, 900))
    world.show_dry(1, 1550, 1)
    world.show_dry(1, 1550, 1)
    async with driving(world) as driver:
        await to_run(driver)
        assert f"{PEAS}: Dryness is shown" in gate_words(driver)
        assert f"{APPLE}: Not weighed dry yet." in gate_words(driver)


async def test_the_slowest_tray_is_named_where_the_verdict_does_not(world: World) -> None:
    loaded(world, (PEAS, 1000), (PEAS, 900))
    for position, weights in ((1, (1550, 1545)), (2, (1400, 1399))):
        for weight in weights:
            bench.weigh_tray(world.room, position, "dry", weight)
    dryness.record_test(world.room, 2, BREAK, False)
    async with driving(world) as driver:
        await to_run(driver)
        assert "a piece that does not snap on tray 2" in gate_words(driver)
        assert "The slowest is tray 1: its thickest piece has to snap." in gate_words(driver)


async def test_closing_says_that_dryness_is_not_shown(world: World) -> None:
    loaded(world, (PEAS, 1000), (APPLE, 900))
    world.show_dry(2, 1300, 1)
    world.show_dry(2, 1300, 1)
    bench.weigh_tray(world.room, 1, "dry", 1550)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("c")
        assert f"! Not shown to be dry: {PEAS}. Once the run is closed" in driver.words
        assert f"{APPLE}. Once" not in driver.words


# A few more hours


async def test_a_few_more_hours_leave_the_evidence_behind(world: World, in_greenwich: None) -> None:
    run_id = loaded(world, (PEAS, 1000))
    world.show_dry(1, 1550, run_id)
    world.show_dry(1, 1550, run_id)
    async with driving(world) as driver:
        await to_run(driver)
        assert "Dryness is shown" in gate_words(driver)
        await driver.press("h")
        await driver.enter("2.5", "cold in the middle")
        assert isinstance(driver.screen, RunScreen)
        assert (
            "2.5 h more since 12:00 (cold in the middle): weigh and test again at 14:30."
            in gate_words(driver)
        )
        assert "Dryness is not shown" in gate_words(driver)
        row = driver.text.splitlines()[3]
        assert "weigh again" in row
        assert row.split()[-2:] == ["again", "again"]
        assert "Its cold touch is from before the extra hours and counts no more." in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, BenchScreen)
        assert "weigh 14:30" in driver.text
        driver.app.stockroom = replace(world.room, clock=Hour(15))
        driver.app.announce()
        await driver.settle()
        assert "weigh now" in driver.text
        await driver.press("enter")
        assert "weigh and test again now, it was for 14:30" in gate_words(driver)
        await driver.enter("154.8")
        assert "h more since" not in gate_words(driver)
        assert "no loss seen" in driver.text  # the hours lie between the two weights
        await driver.press("escape")
        assert "Dries on" not in driver.text


def test_hours_that_end_on_another_day_name_it(world: World, in_greenwich: None) -> None:
    loaded(world, (PEAS, 1000))
    dryness.dry_longer(world.room, Fraction(20))
    (extra,) = dryness.waited_for(world.room)
    assert "again at Thu 08:00" in extra_text(extra, world.room.clock.now(), TODAY)


@pytest.mark.parametrize("typed", ["", "0", "-2", "two", "2000", "冷"])
async def test_wrong_extra_hours_are_refused_and_stay(world: World, typed: str) -> None:
    loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("h")
        await driver.type(typed)
        await driver.press("f9")
        assert "! hours:" in driver.words
        assert driver.screen.query_one("#field-hours").text == typed  # type: ignore[attr-defined]
    assert dryness.waited_for(world.room) == ()


async def test_a_run_without_trays_is_not_dried_longer(world: World) -> None:
    loaded(world)
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("h", "r", "i")
        assert driver.screen is screen


# The page of a tray


def dried_on(world: World) -> int:
    """A tray weighed and tested, dried on for two hours, and weighed once since."""
    run_id = loaded(world, (PEAS, 1000))
    bench.weigh_tray(world.room, 1, "dry", 1600, hours=Fraction(24))
    bench.weigh_tray(world.room, 1, "dry", 1560, hours=Fraction(26))
    dryness.record_test(world.room, 1, COLD, False, note="the thick end")
    dryness.dry_longer(world.room, Fraction(2), note="cold")
    bench.weigh_tray(world.room, 1, "dry", 1555, hours=Fraction(28))
    dryness.record_test(world.room, 1, BREAK, True)
    return run_id


def test_what_happened_to_a_tray_stands_in_order_and_says_what_counts(world: World) -> None:
    evidence = run_evidence(world.room, dried_on(world))
    found = happenings(evidence.trays[0], evidence)
    assert [(one.what, one.counts, one.weight_dg, one.lost_dg, one.note) for one in found] == [
        ("weighed", "as loaded", 10000, None, ""),
        ("weighed dry", "before", 1600, None, ""),
        ("weighed dry", "start", 1560, 40, ""),
        ("a cold spot", "before", None, None, "the thick end"),
        ("2 h more", "", None, None, "cold"),
        ("weighed dry", "counts", 1555, 5, ""),
        ("snaps", "counts", None, None, ""),
    ]


@pytest.mark.parametrize("size", SIZES)
async def test_r_lists_everything_and_w_shows_the_working(
    world: World, size: tuple[int, int], same_screen: SameScreen, in_greenwich: None
) -> None:
    dried_on(world)
    async with driving(world, size) as driver:
        await to_run(driver)
        await driver.press("r")
        assert isinstance(driver.screen, ReadingsScreen)
        same_screen(driver.app, "tray-readings")
        await driver.press("w")
        assert isinstance(driver.screen, WorkingScreen)
        titles = [one.title for one in driver.screen.workings]
        assert titles == [
            "Constant weight of tray 1",
            "Dry enough to be packed without oxygen?",
        ]
        assert "156.0 g" in str(driver.screen.workings[0].steps[0].inputs)


async def test_a_tray_never_weighed_has_a_page_too(world: World) -> None:
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, 1, PEAS, run_id=run_id)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("r")
        assert "Nothing was weighed or tested on this tray yet" in driver.words
        await driver.press("w")
        assert "Not weighed dry" in driver.words


async def test_readings_in_ounces(world: World) -> None:
    dried_on(world)
    change_household(world.room, units=UnitSystem.US)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("r")
        assert "5.49 oz" in driver.text


# What it looks like


@pytest.mark.parametrize("size", SIZES)
async def test_a_run_on_its_way_to_dry(
    world: World, size: tuple[int, int], same_screen: SameScreen, in_greenwich: None
) -> None:
    foods.add_food(world.room, HARD_NAME, like=PEAS)
    loaded(world, (HARD_NAME, 1000), (HARD_NAME, 1040.5), (HARD_NAME, 900))
    for position, weights in ((1, (1600, 1552, 1549)), (2, (1800, 1700)), (3, (1400,))):
        for at, weight in enumerate(weights):
            bench.weigh_tray(world.room, position, "dry", weight, hours=Fraction(24 + 2 * at))
    dryness.record_test(world.room, 1, COLD, True)
    dryness.record_test(world.room, 1, BREAK, True)
    dryness.record_test(world.room, 2, BREAK, False)
    async with driving(world, size) as driver:
        await to_run(driver)
        await driver.press("down")
        same_screen(driver.app, "run-drying")
        await driver.press("h")
        same_screen(driver.app, "run-hours-form")
        await driver.enter("2", "cold in the middle")
        same_screen(driver.app, "run-hours")
        await driver.press("escape")
        same_screen(driver.app, "bench-hours")


# The gate of a lot


@pytest.mark.parametrize("size", SIZES)
async def test_the_trays_of_a_lot_are_tested_from_its_page(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    code, _ = world.dry_run(
        [(HARD_NAME, 1000, 155), (PEAS, 900, 140), (HARD_NAME, 900, 140)], tested=False
    )
    async with driving(world, size) as driver:
        await driver.press("3", "tab", "enter")
        assert isinstance(driver.screen, LotScreen)
        assert "Dryness is not shown" in driver.words
        assert "Its run is closed: dry it again" in driver.words
        await driver.press("r")
        assert isinstance(driver.screen, GateScreen)
        same_screen(driver.app, "lot-gate")
        await driver.press("i", "B")
        assert "does not snap on tray 3" in driver.words
        assert "does not snap" in str(driver.screen.query_one(".words", Static).render()).lower()
        await driver.press("enter")
        assert isinstance(driver.screen, ReadingsScreen)
        await driver.press("escape", "w")
        assert isinstance(driver.screen, WorkingScreen)
        await driver.press("escape", "escape")
        assert "a piece that does not snap on tray 3" in driver.words
    gate = dryness.dryness_of(world.room, code)
    assert [(one.position, one.cold, one.broken) for one in gate.trays] == [
        (1, True, None),
        (3, None, False),
    ]


async def test_a_failed_test_after_closing_leads_to_the_queue(world: World) -> None:
    world.dry_lot()
    async with driving(world, notices=True) as driver:
        await driver.press("3", "tab", "enter", "r", "I")
        assert "It is not dry: it goes in" in driver.words
        assert "machine (g on the lot's page)" in driver.words


async def test_a_lot_shows_what_the_estimate_is_worth(world: World) -> None:
    code = world.dry_lot()
    gate = dryness.dryness_of(world.room, code)
    assert gate.residual is not None
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter")
        found = gate.residual
        assert f"{100 * found.residual:.1f} %, between {100 * found.low:.1f} and" in driver.words
        assert NO_PROOF in driver.words


async def test_g_puts_the_rest_in_the_queue_and_takes_it_out(world: World) -> None:
    code = world.dry_lot()
    world.pack(code, "1xjar-950:100")
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter", "g")
        assert "55.0 g" in driver.words
        await driver.enter("a piece bends")
        assert isinstance(driver.screen, LotScreen)
        assert f"Waits for the machine since {TODAY} (a piece bends): number 1 of 1" in driver.words
        (entry,) = redrying.machine_queue(world.room)
        assert (entry.code, entry.dry_dg, entry.reason) == (code, 550, "a piece bends")
        await driver.press("p")
        assert isinstance(driver.screen, LotScreen)
        await driver.press("g")
        assert "Waits for the machine" not in driver.words
    assert redrying.machine_queue(world.room) == ()


async def test_a_lot_on_the_machine_stays_in_the_queue(world: World) -> None:
    code = world.dry_lot()
    redrying.hold_lot(world.room, code)
    bench.start_run(world.room)
    redrying.load_again(world.room, 1, [code], gross_dg=1550)
    async with driving(world, notices=True) as driver:
        await driver.press("3", "tab", "tab", "enter")
        assert isinstance(driver.screen, LotScreen)
        assert "on tray 1 of run 2" in driver.words
        await driver.press("g")
        assert "is on tray 1 of run 2 already" in driver.words
    assert len(redrying.machine_queue(world.room)) == 1


async def test_a_lot_dried_again_goes_by_its_new_tray(world: World) -> None:
    code = world.dry_lot()
    redrying.hold_lot(world.room, code)
    run_id = bench.start_run(world.room).made_id
    redrying.load_again(world.room, 2, [code], gross_dg=1550)
    bench.weigh_tray(world.room, 2, "dry", 1500)
    bench.close_run(world.room)
    assert lot_evidence(world.room, code).run.run_id == run_id
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter")
        assert "of food dried again nothing is known" in driver.words
        assert f"Dried again on tray 2: {code}" in driver.words
        await driver.press("r", "i")
    assert checks_of(world, run_id) == [(2, "cold", True)]
    assert packing.lot_detail(world.room, code).gate is not None
