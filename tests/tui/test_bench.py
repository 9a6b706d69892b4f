"""The Bench by keys: runs, trays, weights, closing. The store is asked what was written."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual import events
from textual.app import App
from textual.widgets import Static

from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Tray
from stockroom.errors import BadInput
from stockroom.services import bench, finding, foods, history, packing
from stockroom.services.household import change_household
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.foods import FoodsScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.pack import PackScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.run_forms import nearness
from stockroom.tui.screens.run_sums import food_sums, missing_weights, sum_text, tray_text
from stockroom.tui.screens.run_weighing import read_gross
from stockroom.tui.screens.windows import ReadScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World

SameScreen = Callable[[App[Any], str], None]

WRONG_WEIGHTS = (
    ("", "nothing cannot be read"),
    ("abc", "“abc” cannot be read"),
    ("-5", "“-5” cannot be read"),
    ("999999999", "100 kg"),
    ("1,500", "without a comma"),
    ("冷", "“冷” cannot be read"),
    ("0", "above 0 g"),
)


def hard_food(world: World) -> None:
    """A food whose name is hard to show."""
    foods.add_food(world.room, HARD_NAME, like=APPLE)


def loaded(world: World, *trays: tuple[str, float]) -> int:
    """An open run with trays of (food, grams as loaded); its number."""
    run_id = bench.start_run(world.room).made_id
    for position, (food, wet_g) in enumerate(trays, start=1):
        bench.load_tray(world.room, position, food, gross_dg=int(wet_g * 10), run_id=run_id)
    return run_id


def weights(world: World, run_id: int) -> list[tuple[int, int | None, int | None]]:
    """What the store holds of a run's trays: number, loaded and dry weight."""
    trays = bench.run_detail(world.room, run_id).trays
    return [(tray.position, tray.wet_dg, tray.dry_dg) for tray in trays]


async def to_run(driver: Driver) -> RunScreen:
    """Open the first run of the Bench."""
    await driver.press("3", "enter")
    assert isinstance(driver.screen, RunScreen)
    return driver.screen


# An empty store, and the whole list


@pytest.mark.parametrize("size", SIZES)
async def test_an_empty_bench_says_what_to_do(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        await driver.press("3")
        assert isinstance(driver.screen, BenchScreen)
        assert "Press n to start one" in driver.words
        assert "No lot waits to be packed" in driver.words
        same_screen(driver.app, "bench-empty")


@pytest.mark.parametrize("size", SIZES)
async def test_runs_and_lots_on_one_page(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    hard_food(world)
    world.dry_run([(HARD_NAME, 1000, 155), (PEAS, 900, 160)])
    loaded(world, (PEAS, 800))
    world.dry_lot(BEEF_RAW, 900, 260)
    async with driving(world, size) as driver:
        await driver.press("3")
        same_screen(driver.app, "bench")
        states = [line.split()[2] for line in driver.text.splitlines() if "2026-11-25 " in line][:3]
        assert states[0] == "open"


async def test_the_open_run_stands_first(world: World) -> None:
    first = loaded(world, (PEAS, 800))
    world.dry_lot(APPLE, 1000, 150)
    world.dry_lot(APPLE, 1000, 150)
    async with driving(world) as driver:
        await driver.press("3")
        screen = driver.screen
        assert isinstance(screen, BenchScreen)
        assert list(screen.runs) == [first, first + 2, first + 1]


async def test_all_lots_and_back(world: World) -> None:
    code = world.dry_lot()
    world.pack(code, "1xjar-950")
    async with driving(world) as driver:
        await driver.press("3")
        assert code not in driver.text
        await driver.press("l")
        assert code in driver.text
        assert "nothing" in driver.text
        await driver.press("l")
        assert code not in driver.text


async def test_p_with_nothing_to_pack_says_so(world: World) -> None:
    async with driving(world, notices=True) as driver:
        await driver.press("3", "p")
        assert "Nothing to pack" in driver.text


async def test_f_opens_the_foods(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("3", "f")
        assert isinstance(driver.screen, FoodsScreen)
        await driver.press("escape")
        assert isinstance(driver.screen, BenchScreen)


# Starting a run


async def test_a_run_of_today_takes_three_keys(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("3", "n", "enter", "enter")
        assert isinstance(driver.screen, RunScreen)
        assert "Press a to add one" in driver.words
    (run,) = bench.list_runs(world.room)
    assert (run.started_on, run.state, run.note) == (TODAY, "open", "")


@pytest.mark.parametrize("typed", ["", "abc", "-", "9999-99-99", "2027-01-01", "10", "冷凍"])
async def test_a_wrong_day_is_refused_and_stays(world: World, typed: str) -> None:
    async with driving(world) as driver:
        await driver.press("3", "n")
        await driver.clear()
        await driver.enter(typed)
        await driver.press("f9")
        assert "! day:" in driver.words
        assert driver.screen.query_one("#field-day").text == typed  # type: ignore[attr-defined]
    assert bench.list_runs(world.room) == ()


# Trays


async def test_trays_by_keys(world: World) -> None:
    hard_food(world)
    run_id = loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("[/] jar", "1250", "400", "")
        assert HARD_NAME in driver.text
        await driver.press("a", "enter")
        await driver.enter("1040.5", "", "4")
        assert weights(world, run_id) == [(1, 8500, None), (4, 10405, None)]
        trays = bench.run_detail(world.room, run_id).trays
        assert [tray.food for tray in trays] == [HARD_NAME, HARD_NAME]


async def test_the_next_free_tray_is_offered(world: World) -> None:
    run_id = loaded(world, (PEAS, 900), (PEAS, 900))
    bench.unload_tray(world.room, 1, run_id=run_id)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a", "enter")
        await driver.enter("800")
        await driver.press("f9")
    assert weights(world, run_id) == [(1, 8000, None), (2, 9000, None)]


async def test_a_food_of_the_table_is_taken_over(world: World) -> None:
    run_id = loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.type("rhubarb")
        await driver.press("enter", "f9")
    (tray,) = bench.run_detail(world.room, run_id).trays
    assert "hubarb" in tray.food
    assert tray.food in [food.name for food in foods.list_foods(world.room)]


@pytest.mark.parametrize(("typed", "said"), [case for case in WRONG_WEIGHTS if case[0]])
async def test_a_wrong_loaded_weight_is_refused_and_stays(
    world: World, typed: str, said: str
) -> None:
    run_id = loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("peas")
        await driver.type(typed)
        await driver.press("f9")
        assert said in driver.words
        assert driver.screen.query_one("#field-weight").text == typed  # type: ignore[attr-defined]
    assert weights(world, run_id) == []


@pytest.mark.parametrize("typed", ["", "x", "-1", "0", "31", "9999999999", "1.5", "冷"])
async def test_a_wrong_tray_number_is_refused_and_stays(world: World, typed: str) -> None:
    run_id = loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("peas", "900", "")
        await driver.clear()
        await driver.enter(typed)
        assert "! tray:" in driver.words
        assert driver.screen.query_one("#field-tray").text == typed  # type: ignore[attr-defined]
    assert weights(world, run_id) == []


async def test_a_tray_used_twice_is_refused_and_the_form_stays(world: World) -> None:
    run_id = loaded(world, (PEAS, 900))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a", "enter")
        await driver.enter("800", "")
        await driver.clear()
        await driver.enter("1")
        assert f"Tray 1 already holds {PEAS}" in driver.words
        assert driver.screen.query_one("#field-weight").text == "800"  # type: ignore[attr-defined]
    assert weights(world, run_id) == [(1, 9000, None)]


async def test_a_tare_above_the_gross_weight_is_refused(world: World) -> None:
    run_id = loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("peas", "400", "500", "")
        assert "400.0 g with food but 500.0 g empty" in driver.words
    assert weights(world, run_id) == []


async def test_the_form_shows_the_cautions_of_the_food_that_is_picked(world: World) -> None:
    loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("beef, eye")
        assert "Raw stays raw" in driver.words
        await driver.press("shift+tab")
        await driver.clear()
        await driver.enter("peas, green, frozen")
        assert "Raw stays raw" not in driver.words


async def test_the_first_raw_food_opens_its_cautions_once(world: World) -> None:
    loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("beef, eye", "900", "", "")
        assert isinstance(driver.screen, ReadScreen)
        assert "Raw stays raw" in driver.words
        assert "Extension" in driver.words
        await driver.press("enter", "a", "enter")
        await driver.enter("900", "", "")
        assert isinstance(driver.screen, RunScreen)
        await driver.press("exclamation_mark")
        assert isinstance(driver.screen, ReadScreen)


async def test_d_takes_a_tray_out_and_u_puts_it_back(world: World) -> None:
    run_id = loaded(world, (PEAS, 900), (APPLE, 800))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("down", "d")
        assert weights(world, run_id) == [(1, 9000, None)]
        await driver.press("u")
        assert weights(world, run_id) == [(1, 9000, None), (2, 8000, None)]
        assert APPLE[:5] in driver.text


# Weights


async def test_digits_and_enter_are_the_dry_weight_and_the_cursor_goes_on(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 900), (APPLE, 800))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.enter("155.2", "140", "118,5")
        assert weights(world, run_id) == [(1, 10000, 1552), (2, 9000, 1400), (3, 8000, 1185)]
        assert screen.tray is not None
        assert screen.tray.position == 3
        assert "water removed 681.5 g, 5.75 g per g dry" in driver.words
        await driver.press("home")
        assert "water removed 844.8 g, 5.44 g per g dry" in driver.words


async def test_weights_that_come_in_one_burst_stay_in_order(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 900), (PEAS, 950))
    async with driving(world) as driver:
        await to_run(driver)
        for sign in "155.2\n140.3\n":
            key = "enter" if sign == "\n" else sign
            driver.app.post_message(events.Key("full_stop" if key == "." else key, sign))
        await driver.settle()
        await driver.settle()
    assert weights(world, run_id) == [(1, 10000, 1552), (2, 9000, 1403), (3, 9500, None)]


async def test_a_weight_takes_units_and_a_tare(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 900), (PEAS, 800))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.enter("0.155 kg", "540.3-400", "5 oz")
    assert weights(world, run_id) == [(1, 10000, 1550), (2, 9000, 1403), (3, 8000, 1417)]


@pytest.mark.parametrize(("typed", "said"), WRONG_WEIGHTS)
async def test_a_wrong_dry_weight_is_refused_and_stays(world: World, typed: str, said: str) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("enter")
        await driver.enter(typed)
        assert said in driver.words
        assert screen.line.typed == typed
        assert "Traceback" not in driver.text
    assert weights(world, run_id) == [(1, 10000, None)]


async def test_dry_above_wet_is_refused_and_can_be_mended(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.enter("1550")
        assert "Tray 1 weighs 1550.0 g dry but 1000.0 g as loaded" in driver.words
        assert screen.line.typed == "1550"
        await driver.press("backspace", "enter")
    assert weights(world, run_id) == [(1, 10000, 1550)]


async def test_w_corrects_the_loaded_weight(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("w")
        assert "Tray 1 as loaded" in driver.text
        await driver.enter("1040")
    assert weights(world, run_id) == [(1, 10400, None)]


async def test_t_takes_a_tare_and_then_the_gross_weight(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("t")
        assert "Tray 1 empty" in driver.text
        await driver.enter("400")
        assert "400.0 g are taken off" in driver.words
        await driver.enter("555.2")
    assert weights(world, run_id) == [(1, 10000, 1552)]


async def test_a_tare_is_not_taken_along_to_another_tray(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("t")
        await driver.enter("400")
        await driver.press("down")
        await driver.enter("155")
    assert weights(world, run_id) == [(1, 10000, None), (2, 10000, 1550)]


async def test_what_is_typed_goes_with_the_cursor(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (PEAS, 900))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.type("140")
        await driver.press("down")
        assert "Tray 2 dry" in driver.text
        await driver.press("enter")
    assert weights(world, run_id) == [(1, 10000, None), (2, 9000, 1400)]


async def test_escape_drops_a_weight_and_letters_are_commands_again(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.type("15u")
        assert screen.line.typed == "15u"
        await driver.press("escape")
        assert not screen.is_typing
        await driver.press("w")
        assert "as loaded" in driver.text
        await driver.press("escape", "escape")
        assert isinstance(driver.screen, BenchScreen)
    assert weights(world, run_id) == [(1, 10000, None)]


async def test_a_weight_can_be_pasted(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("enter")
        driver.app.post_message(events.Paste("155.2 g\n"))
        await driver.settle()
        await driver.press("enter")
    assert weights(world, run_id) == [(1, 10000, 1552)]


async def test_control_characters_that_are_pasted_are_shown_not_sent(world: World) -> None:
    loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("enter")
        driver.app.post_message(events.Paste("15\x1b[31m"))
        await driver.settle()
        assert "\x1b" not in driver.text
        assert screen.line.typed == "15␛[31m"


async def test_w_without_trays_says_what_to_do(world: World) -> None:
    loaded(world)
    async with driving(world, notices=True) as driver:
        await to_run(driver)
        await driver.press("w")
        assert "Press a to add a tray first" in driver.text


async def test_ounces_for_a_household_that_weighs_in_ounces(world: World) -> None:
    change_household(world.room, units=UnitSystem.US)
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.enter("5.5")
        assert "5.50 oz" in driver.text
        assert "2 lb 3.3 oz" in driver.text
    assert weights(world, run_id) == [(1, 10000, 1559)]


# What a run says


@pytest.mark.parametrize("size", SIZES)
async def test_a_run_with_trays(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    hard_food(world)
    run_id = loaded(world, (HARD_NAME, 1000), (HARD_NAME, 1040.5), (BEEF_RAW, 900))
    bench.weigh_tray(world.room, 1, "dry", 1552, run_id=run_id)
    async with driving(world, size) as driver:
        await to_run(driver)
        same_screen(driver.app, "run-open")
        await driver.press("tab", *["pagedown"] * 20)
        assert "A rule chosen for this program" in driver.words
        expected = driver.screen.query_one("#expected", Static).render()
        assert "Composition is a prior, never proof of dryness" in str(expected)
        await driver.press("home", "shift+tab", "down")
        await driver.enter("2000")
        same_screen(driver.app, "run-refused")


@pytest.mark.parametrize("size", SIZES)
async def test_the_form_for_a_tray(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    loaded(world)
    async with driving(world, size) as driver:
        await to_run(driver)
        await driver.press("a")
        await driver.enter("beef, eye")
        await driver.type("900")
        same_screen(driver.app, "run-add-tray")


def test_expected_water_is_that_of_the_composition(world: World) -> None:
    """85.56 g in 100 g: USDA SR28, apple with skin (NDB 09003)."""
    run_id = loaded(world, ("Apple, raw, with skin", 1000))
    assert bench.run_detail(world.room, run_id).expected_water_dg == 8556


def tray(position: int, wet_dg: int | None, dry_dg: int | None, food_id: int = 1) -> Tray:
    """A tray for sums."""
    return Tray(position, 1, position, food_id, f"food {food_id}", None, None, wet_dg, dry_dg)


def test_sums_by_food_are_the_balance_of_the_trays() -> None:
    trays = [tray(1, 10000, 1552), tray(2, 9000, 2000, 2), tray(3, 8000, 1448)]
    first, second = food_sums(trays)
    assert first.positions == (1, 3)
    assert first.totals is not None
    assert first.totals.water_removed_dg == 10000 + 8000 - 1552 - 1448
    assert first.totals.water_per_dry == Fraction(15000, 3000)
    assert second.totals is not None
    assert second.totals.water_per_dry == Fraction(7, 2)


def test_a_sum_with_a_missing_weight_is_no_sum() -> None:
    (one,) = food_sums([tray(1, 10000, 1552), tray(2, 9000, None)])
    assert one.totals is None
    assert sum_text(one, UnitSystem.METRIC) == (
        "food 1, trays 1, 2: loaded 1900.0 g, dry weights not complete."
    )


@pytest.mark.parametrize(
    ("wet_dg", "dry_dg", "said"),
    [
        (None, None, "not weighed yet"),
        (10000, None, "not weighed dry yet"),
        (None, 1552, "loaded weight missing"),
        (10000, 1552, "water removed 844.8 g, 5.44 g per g dry"),
    ],
)
def test_a_tray_says_what_is_known_of_it(wet_dg: int | None, dry_dg: int | None, said: str) -> None:
    assert said in tray_text(tray(3, wet_dg, dry_dg), UnitSystem.METRIC)


def test_every_missing_weight_is_named() -> None:
    trays = [tray(1, None, None), tray(2, 9000, None), tray(3, 8000, 1448)]
    assert missing_weights(trays) == (
        "tray 1, food 1: loaded weight",
        "tray 1, food 1: dry weight",
        "tray 2, food 1: dry weight",
    )


@given(st.integers(1, 99_999), st.integers(0, 9_999))
def test_a_gross_weight_and_its_tare_read_back(gross_g: int, tare_g: int) -> None:
    read = read_gross(f"{gross_g}-{tare_g}", UnitSystem.METRIC)
    assert read == (gross_g * 10, tare_g * 10)


@pytest.mark.parametrize("typed", ["-5", "5-", "--", "5-x", "5--5", "-"])
def test_a_gross_weight_that_cannot_be_read_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_gross(typed, UnitSystem.METRIC)


def test_names_that_begin_as_typed_come_first() -> None:
    names = ["Chickpeas, boiled", "Split peas, boiled", "Peas, green, raw"]
    assert sorted(names, key=lambda name: nearness(name, "peas")) == names[::-1]


# Closing and giving up


async def test_c_closes_a_run_into_a_lot_of_each_food(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (APPLE, 900), (PEAS, 800))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.enter("155", "130", "125")
        await driver.press("c")
        assert "It makes 2 lots" in driver.words
        assert "water removed 1520.0 g, 5.43 g per g dry" in driver.words
        await driver.press("enter")
        assert "26329A" in driver.text
    run = finding.find_run(world.room, run_id)
    assert run.state == "closed"
    lots = {lot.code: (lot.food, lot.wet_dg, lot.dry_dg) for lot in packing.list_lots(world.room)}
    assert lots == {"26329A": (PEAS, 18000, 2800), "26329B": (APPLE, 9000, 1300)}


@pytest.mark.parametrize("size", SIZES)
async def test_the_preview_of_a_closing(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    hard_food(world)
    run_id = loaded(world, (HARD_NAME, 1000), (BEEF_RAW, 900))
    bench.weigh_tray(world.room, 1, "dry", 1552, run_id=run_id)
    bench.weigh_tray(world.room, 2, "dry", 2600, run_id=run_id)
    async with driving(world, size) as driver:
        await to_run(driver)
        await driver.press("c")
        same_screen(driver.app, "run-close")


async def test_closing_names_every_missing_weight_and_goes_to_it(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000), (APPLE, 900))
    bench.weigh_tray(world.room, 1, "dry", 1550, run_id=run_id)
    async with driving(world) as driver:
        screen = await to_run(driver)
        await driver.press("c")
        assert "cannot be closed yet" in driver.words
        assert f"tray 2, {APPLE}: dry weight" in driver.words
        await driver.press("enter")
        await driver.enter("130")
        assert screen.is_open
    assert weights(world, run_id) == [(1, 10000, 1550), (2, 9000, 1300)]


async def test_a_run_without_trays_cannot_be_closed(world: World) -> None:
    run_id = loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("c")
        assert "It has no trays" in driver.words
    assert finding.find_run(world.room, run_id).state == "open"


@pytest.mark.parametrize("typed", ["", "soon", "2026-11-26", "2026-11-24", "冷凍"])
async def test_a_wrong_closing_day_is_refused_and_stays(world: World, typed: str) -> None:
    run_id = loaded(world, (PEAS, 1000))
    bench.weigh_tray(world.room, 1, "dry", 1550, run_id=run_id)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("c")
        await driver.clear()
        await driver.enter(typed)
        assert "cannot be read" in driver.words
        assert driver.screen.query_one("#field-closed").text == typed  # type: ignore[attr-defined]
    assert finding.find_run(world.room, run_id).state == "open"


async def test_a_closed_run_takes_no_weights_and_leads_to_its_lot(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("w")
        assert "as loaded" not in driver.text
        await driver.press("p")
        assert isinstance(driver.screen, PackScreen)
        await driver.press("escape", "enter")
        assert isinstance(driver.screen, LotScreen)
        assert driver.screen.code == code


async def test_the_screens_keys_work_on_a_closed_run(world: World) -> None:
    world.dry_lot()
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("4")
        assert driver.app.current_mode == "kitchen"


async def test_x_gives_a_run_up_after_asking(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("x", "escape")
        assert finding.find_run(world.room, run_id).state == "open"
        await driver.press("x", "enter")
        assert finding.find_run(world.room, run_id).state == "abandoned"
        assert "abandoned" in driver.text


async def test_undoing_the_start_of_a_run_leaves_its_page(world: World) -> None:
    loaded(world)
    async with driving(world) as driver:
        await to_run(driver)
        await driver.press("u")
        assert isinstance(driver.screen, BenchScreen)
        assert "Press n to start one" in driver.words


async def test_another_programs_weight_shows_without_a_restart(world: World) -> None:
    run_id = loaded(world, (PEAS, 1000))
    async with driving(world) as driver:
        await to_run(driver)
        bench.weigh_tray(world.beside().room, 1, "dry", 1552, run_id=run_id)
        driver.app.look_again()
        await driver.settle()
        assert "155.2 g" in driver.text


# The page of a lot


@pytest.mark.parametrize("size", SIZES)
async def test_the_page_of_a_lot(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    hard_food(world)
    world.places("cold cellar", "cold cellar/rack 1")
    code, _ = world.dry_run([(HARD_NAME, 1000, 155), (PEAS, 900, 140), (HARD_NAME, 900, 140)])
    world.pack(code, "3xpouch-1500-foil:62,absorber=300", place="cold cellar/rack 1")
    packing.record_loss(world.room, code, 25, packing.LossReason.TASTED)
    async with driving(world, size) as driver:
        await driver.press("3", "tab", "enter")
        assert isinstance(driver.screen, LotScreen)
        assert "Dry 295.0 g = packed 186.0 g in 3 packages + lost 2.5 g + left 106.5 g" in (
            driver.words
        )
        assert "1900.0 g" in driver.words
        same_screen(driver.app, "lot")


async def test_enter_on_a_package_opens_it(world: World) -> None:
    code = world.dry_lot()
    world.pack(code, "1xjar-950:100")
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter", "enter")
        assert isinstance(driver.screen, PackageScreen)
        await driver.press("escape")
        assert isinstance(driver.screen, LotScreen)


async def test_a_loss_by_keys(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter", "l")
        await driver.enter("2.5", "spilt", "fell off the bench")
        assert "2.5 g dry spilt, fell off the bench" in driver.words
    (loss,) = packing.lot_detail(world.room, code).losses
    assert (loss.reason, loss.dry_dg, loss.note) == ("spilt", 25, "fell off the bench")


async def test_a_loss_of_all_that_is_left(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter", "l", "f9")
    assert world.lot(code).left_dg == 0


@pytest.mark.parametrize("typed", ["abc", "-5", "0", "156", "999999999", "冷"])
async def test_a_wrong_loss_is_refused_and_stays(world: World, typed: str) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter", "l")
        await driver.type(typed)
        await driver.press("f9")
        assert "! " in driver.words
        assert driver.screen.query_one("#field-weight").text == typed  # type: ignore[attr-defined]
    assert world.lot(code).lost_dg == 0


async def test_reopening_a_run_leaves_the_page_of_its_lot(world: World) -> None:
    world.dry_lot()
    async with driving(world) as driver:
        await driver.press("3", "tab", "enter")
        history.undo(world.room)
        driver.app.announce()
        await driver.settle()
        assert isinstance(driver.screen, BenchScreen)


async def test_a_long_list_of_runs_is_cut_and_says_so(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("stockroom.tui.screens.bench.MOST_SHOWN", 3)
    for _ in range(4):
        bench.start_run(world.room)
    async with driving(world) as driver:
        await driver.press("3")
        assert isinstance(driver.screen, BenchScreen)
        assert list(driver.screen.runs) == [4, 3, 2]
        assert "the latest 3" in driver.text
