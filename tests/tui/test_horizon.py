"""The Horizon by keys: what would be wasted, doing what saves it, rates, targets, the windows."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from threading import Event
from typing import Any

import pytest
from textual.app import App
from textual.widgets import Static

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.advice import Advice, AdviceKind
from stockroom.domain.horizon.household_eating import Basis
from stockroom.services import foods, places
from stockroom.services.eating_rates import list_rates, set_rate
from stockroom.services.horizon import horizon, horizon_odds, rotation
from stockroom.services.places import PlaceKind
from stockroom.services.provision import cover, targets
from stockroom.tui.screens import horizon as horizon_screen
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.horizon import HorizonScreen
from stockroom.tui.screens.horizon_file import ListFileForm
from stockroom.tui.screens.horizon_plot import StockAheadPlot, name_of
from stockroom.tui.screens.horizon_report import CoverWindow, OddsWindow, WholeHorizonWindow
from stockroom.tui.screens.horizon_round import RotationWindow
from stockroom.tui.screens.horizon_words import advice_key, food_key
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.whatif import WhatIfScreen
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.screens.working import WorkingScreen
from tests.horizon_store import stock
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import BEEF_RAW, PEAS, World

SameScreen = Callable[[App[Any], str], None]

WASTING = ((30, 20), (30, 25), (30, 40))
"""Servings and days until the best-by: at one a day 20 are eaten of the first 30, 5 of the next
30 and 15 of the last, so 10, 25 and 15 pass (worked out by hand)."""


def ahead(world: World) -> tuple[str, ...]:
    """Peas that pass their best-by on a hot shelf, and a food nobody spoke of; codes of peas."""
    room = world.room
    places.add_place(room, "Cold cellar", temperature_dc=40)
    places.add_place(room, "Hot shelf", temperature_dc=300)
    codes = stock(world, WASTING, place="Hot shelf")
    set_rate(room, PEAS, Fraction(1))
    foods.add_food(room, HARD_NAME, like="Beef stew, canned", water_percent=Fraction(76))
    stock(world, [(12, 25)], food=HARD_NAME, place="Cold cellar")
    world.recipe("Pea [soup]")
    return codes


async def to_horizon(driver: Driver) -> HorizonScreen:
    """Open the Horizon from the Round."""
    await driver.press("5")
    assert isinstance(driver.screen, HorizonScreen)
    return driver.screen


async def stand_on(driver: Driver, kind: AdviceKind) -> Advice:
    """Move the cursor to the advice of a kind about the peas."""
    screen = driver.screen
    assert isinstance(screen, HorizonScreen) and screen.page is not None
    (advice,) = [
        one for one in screen.page.advice if one.kind is kind and one.food == PEAS
    ]  # fmt: skip
    assert screen.table.go_to_key(advice_key(advice))
    await driver.settle()
    return advice


async def stand_on_food(driver: Driver, name: str) -> None:
    """Move the cursor to a food."""
    screen = driver.screen
    assert isinstance(screen, HorizonScreen) and screen.page is not None
    (food,) = [one for one in screen.page.foods if one.food.name == name]
    assert screen.table.go_to_key(food_key(food.food.food_id))
    await driver.settle()


def about(driver: Driver) -> str:
    """What is said of the line under the cursor."""
    return str(driver.screen.query_one("#about-line", Static).render())


def rate(world: World, food: str = PEAS) -> tuple[Basis, Fraction | None]:
    """How a food is eaten, on record."""
    (found,) = [one.how for one in list_rates(world.room) if one.food.name == food]
    return found.basis, found.servings_per_day


# The page


@pytest.mark.parametrize("size", SIZES)
async def test_the_horizon(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        screen = await to_horizon(driver)
        assert "50 servings pass their best-by" in driver.words
        assert screen.page is not None
        first, *_ = screen.page.advice
        assert screen.table.cursor_key == advice_key(first), "the cursor is on the best advice"
        same_screen(driver.app, "horizon")
        await driver.press("end")
        assert HARD_NAME in driver.text and "Press e to say how fast" in driver.words
        same_screen(driver.app, "horizon-food")


@pytest.mark.parametrize("size", SIZES)
async def test_an_empty_store_says_what_to_do(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        screen = await to_horizon(driver)
        assert (
            "Nothing is on the shelves to look ahead for. Load a run on the Bench" in driver.words
        )
        same_screen(driver.app, "horizon-empty")
        await driver.press("r", "o", "g", "f", "e", "w")
        assert driver.screen is screen, "what needs food does not open"
        await driver.press("v")
        assert isinstance(driver.screen, CoverWindow)


@pytest.mark.parametrize("size", SIZES)
async def test_nothing_about_a_line_is_cut_off(world: World, size: tuple[int, int]) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        screen = await to_horizon(driver)
        for key in (*screen.advice, *screen.foods):
            assert screen.table.go_to_key(key)
            await driver.settle()
            part = screen.query_one("#about-line", Static)
            assert part.size.height >= part.virtual_size.height, key
            assert part.region.bottom <= size[1] - 1, key
            assert screen.table.size.height >= 5, key


async def test_the_foods_are_named_before_anything_is_reckoned(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    ahead(world)
    painted = Event()

    def after_the_paint(*args: Any, **wanted: Any) -> Any:
        painted.wait(10)
        return horizon(*args, **wanted)

    monkeypatch.setattr(horizon_screen, "horizon", after_the_paint)
    async with driving(world) as driver:
        await driver.pilot.press("5")
        for _ in range(500):
            if "1 packed" in driver.text:
                break
            await driver.pilot.pause(0.01)
        before = driver.words
        painted.set()
        await driver.settle()
        assert "Foods · 2" in before and "3 packed" in before and HARD_NAME in before
        assert "Looking ahead" in before and "pass their best-by" not in before
        assert "50 servings pass their best-by" in driver.words


async def test_the_looking_can_be_stopped_and_begun_again(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    ahead(world)
    stopped: list[bool] = []

    def until_stopped(*args: Any, **wanted: Any) -> Any:
        if "cancelled" in wanted and not stopped:
            wanted["progress"](1, 40)
            while not wanted["cancelled"]():
                pass
            stopped.append(True)
        return horizon(*args, **wanted)

    monkeypatch.setattr(horizon_screen, "horizon", until_stopped)
    async with driving(world) as driver:
        await driver.pilot.press("5")
        screen = driver.screen
        assert isinstance(screen, HorizonScreen)
        line = screen.query_one("#looking", Static)
        for _ in range(500):
            if "1 of 40" in str(line.render()):
                break
            await driver.pilot.pause(0.01)
        assert "Weighing up what would save food: 1 of 40 · Esc stops" in driver.words
        assert "50 servings pass" in driver.words, "the forecast stands already"
        await driver.pilot.press("escape")
        await driver.settle()
        assert stopped and "Stopped early" in driver.words
        await driver.press("a")
        assert "Stopped early" not in driver.words
        kinds = {one.kind for one in screen.page.advice} if screen.page else set()
        assert AdviceKind.MOVE in kinds


async def test_the_cursor_stays_on_its_line_when_another_program_writes(world: World) -> None:
    ahead(world)
    async with driving(world) as driver:
        screen = await to_horizon(driver)
        await stand_on_food(driver, PEAS)
        key = screen.table.cursor_key
        set_rate(world.beside().room, PEAS, Fraction(2))
        driver.app.on_app_focus()
        await driver.settle()
        assert screen.table.cursor_key == key
        # At two a day 40 of the first 60 are eaten by day 20 and 50 by day 25: 10 pass.
        assert "10 servings pass their best-by" in driver.words


# Doing what saves food


async def test_advice_to_eat_sets_the_rate_after_asking_and_u_takes_it_back(world: World) -> None:
    ahead(world)
    async with driving(world, notices=True) as driver:
        await to_horizon(driver)
        advice = await stand_on(driver, AdviceKind.EAT)
        await driver.press("enter")
        assert isinstance(driver.screen, ConfirmScreen)
        assert "Best-by is a quality estimate, not safety" in driver.words
        await driver.press("escape")
        assert rate(world) == (Basis.SET, 1)
        await driver.press("enter", "enter")
        assert rate(world) == (Basis.SET, advice.servings_per_day)
        assert "nothing passes its best-by" in driver.words
        await driver.press("u")
        assert rate(world) == (Basis.SET, 1)
        assert "50 servings pass" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_advice_to_move_moves_those_packages(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    codes = ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        advice = await stand_on(driver, AdviceKind.MOVE)
        assert set(advice.codes) <= set(codes) and advice.place == "Cold cellar"
        await driver.press("enter")
        same_screen(driver.app, "horizon-move")
        await driver.press("enter")
        for code in codes:
            wanted = "Cold cellar" if code in advice.codes else "Hot shelf"
            assert world.package(code).place == wanted
        await driver.press("u")
        assert {world.package(code).place for code in codes} == {"Hot shelf"}


@pytest.mark.parametrize("size", SIZES)
async def test_advice_to_give_takes_packages_off_the_book_after_asking(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    codes = ahead(world)
    # At a rate of none every package passes whole.
    set_rate(world.room, PEAS, Fraction(0))
    async with driving(world, size) as driver:
        await to_horizon(driver)
        advice = await stand_on(driver, AdviceKind.GIVE)
        assert set(advice.codes) == set(codes)
        await driver.press("enter")
        same_screen(driver.app, "horizon-give")
        assert all(code in driver.words for code in codes)
        await driver.press("enter")
        assert {world.package(code).condition for code in codes} == {"discarded"}
        await driver.press("u")
        assert "discarded" not in {world.package(code).condition for code in codes}


async def test_advice_to_repack_opens_what_if(world: World) -> None:
    codes = ahead(world)
    async with driving(world) as driver:
        await to_horizon(driver)
        advice = await stand_on(driver, AdviceKind.REPACK)
        await driver.press("enter")
        assert isinstance(driver.screen, WhatIfScreen)
        assert advice.codes[0] in codes and f"What if: {advice.codes[0]}" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, HorizonScreen)


async def test_advice_to_cook_opens_the_sheet_of_the_dish(world: World) -> None:
    ahead(world)
    async with driving(world) as driver:
        await to_horizon(driver)
        await stand_on(driver, AdviceKind.COOK)
        assert "Pea [soup]" in about(driver)
        await driver.press("enter")
        assert "Cook Pea [soup]" in driver.words
        await driver.clear()
        await driver.enter("3")
        assert isinstance(driver.screen, CookScreen) and driver.screen.order.people == 3
        await driver.press("escape")
        assert isinstance(driver.screen, HorizonScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_enter_on_a_food_lists_its_packages(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    codes = ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await stand_on_food(driver, PEAS)
        await driver.press("enter")
        assert isinstance(driver.screen, ReadScreen)
        same_screen(driver.app, "horizon-packages")
        lines = {line.split()[0]: line for line in driver.screen.lines if line}
        assert all("partly used in time" in lines[code] for code in codes)


# Rates and targets


@pytest.mark.parametrize("size", SIZES)
async def test_how_a_food_is_eaten(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await stand_on_food(driver, HARD_NAME)
        await driver.press("e")
        same_screen(driver.app, "horizon-eating")
        await driver.enter("many")
        await driver.press("f9")
        assert "servings: “many” cannot be read" in driver.words
        await driver.clear()
        await driver.enter("3")
        await driver.clear()
        await driver.enter("5 days")
        assert rate(world, HARD_NAME) == (Basis.SET, Fraction(3, 5))
        await stand_on_food(driver, HARD_NAME)
        assert "as set, 4.2 a week" in " ".join(about(driver).split())


async def test_a_rate_stands_in_its_form_exactly_and_can_be_forgotten(world: World) -> None:
    ahead(world)
    for set_to in (Fraction(1), Fraction(3, 14), Fraction(6, 5), Fraction(2, 13), Fraction(0)):
        set_rate(world.room, PEAS, set_to)
        async with driving(world) as driver:
            await to_horizon(driver)
            await stand_on_food(driver, PEAS)
            await driver.press("e", "f9")
            assert rate(world) == (Basis.SET, set_to)
    async with driving(world) as driver:
        await to_horizon(driver)
        await stand_on_food(driver, PEAS)
        await driver.press("e", "enter")
        await driver.clear()
        await driver.enter("as")
        assert isinstance(driver.screen, HorizonScreen)
    assert rate(world) == (Basis.NOBODY, None)


@pytest.mark.parametrize("size", SIZES)
async def test_targets(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await driver.press("t")
        same_screen(driver.app, "horizon-target")
        await driver.enter("", "6 moons")
        assert "target: “6 moons” cannot be read" in driver.words
        await driver.clear()
        await driver.enter("6 months")
        assert (targets(world.room).days, targets(world.room).was_set) == (183, True)
        await driver.press("t")
        await driver.clear()
        await driver.enter("vegetable", "60")
        groups = {one.group: one for one in targets(world.room).groups}
        assert groups[FoodGroup.VEGETABLE].servings == 60
        await driver.press("t", "f9")
        assert not targets(world.room).was_set


# The windows


@pytest.mark.parametrize("size", SIZES)
async def test_the_round_of_using(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    codes = ahead(world)
    (past,) = stock(world, [(5, -3)], place="Cold cellar")
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await driver.press("r")
        assert isinstance(driver.screen, RotationWindow)
        same_screen(driver.app, "horizon-round")
        page = rotation(world.room)
        assert page.stops and [one.package.code for one in page.past] == [past]
        assert list(driver.screen.stops) == [
            one.package.package_id for one in (*page.stops, *page.past)
        ]
        assert driver.text.index("Cold cellar") < driver.text.index("Hot shelf")
        await driver.press("end")
        assert "past its best-by already" in driver.words
        await driver.press("home", "down", "enter")
        assert isinstance(driver.screen, PackageScreen)
        assert any(code in driver.text for code in codes)
        await driver.press("escape")
        assert isinstance(driver.screen, RotationWindow)
        await driver.press("o")
        assert isinstance(driver.screen, WholeHorizonWindow)
        assert "in walking order" in driver.words


async def test_a_list_is_copied_or_written_and_no_other_file_is_lost(
    world: World, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    codes = ahead(world)
    monkeypatch.setenv("HOME", str(tmp_path))
    other = tmp_path / "notes.txt"
    other.write_text("my own\n", encoding="utf-8")
    written = ""
    async with driving(world, notices=True) as driver:
        await to_horizon(driver)
        await driver.press("r", "c", "enter")
        assert all(code in driver.app.clipboard for code in codes)
        for _ in range(2):  # the second takes the place of the first unasked
            await driver.press("c", "down", "enter")
            assert isinstance(driver.screen, ListFileForm)
            await driver.press("f9")
            written = (tmp_path / "stockroom-rotation.txt").read_text(encoding="utf-8")
            assert written == driver.app.clipboard and isinstance(driver.screen, RotationWindow)
        await driver.press("c", "down", "enter")
        await driver.clear()
        await driver.enter(str(tmp_path / "round.csv"))
        table = (tmp_path / "round.csv").read_text(encoding="utf-8").splitlines()
        assert table[0].startswith("place,code,food,servings")
        assert len(table) == 1 + len(rotation(world.room).stops)
        await driver.press("c", "down", "enter")
        await driver.clear()
        await driver.enter(str(other))
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("escape")
        assert other.read_text(encoding="utf-8") == "my own\n"
        await driver.press("enter", "enter")
        assert other.read_text(encoding="utf-8") == written


async def test_the_store_itself_and_a_folder_are_refused(world: World, tmp_path: Path) -> None:
    ahead(world)
    async with driving(world) as driver:
        await to_horizon(driver)
        await driver.press("f", "c", "down", "enter")
        for path, said in ((world.path, "is the store itself"), (tmp_path, "it is a folder")):
            await driver.clear()
            await driver.enter(str(path))
            assert isinstance(driver.screen, ListFileForm)
            assert said in " ".join(str(driver.screen.query_one(".foot", Static).render()).split())


@pytest.mark.parametrize("size", SIZES)
async def test_cover_and_the_power_out(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    ahead(world)
    places.add_place(world.room, "Chest", kind=PlaceKind.FREEZER, temperature_dc=-180)
    stock(world, [(20, 400)], place="Chest")
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await driver.press("v")
        assert isinstance(driver.screen, CoverWindow)
        same_screen(driver.app, "horizon-cover")
        on, out = (cover(world.room, power_out=out).provision for out in (False, True))
        assert on.days_by_energy > out.days_by_energy
        assert f"for {float(on.days_by_energy):.1f} days by its energy" in driver.words
        await driver.press("p")
        wanted = f"for {float(out.days_by_energy):.1f} days with the power out"
        assert wanted in driver.words
        await driver.press("p")
        assert "power out by" not in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_the_odds_are_the_same_each_time(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await driver.press("o")
        assert isinstance(driver.screen, OddsWindow)
        same_screen(driver.app, "horizon-odds")
        odds = horizon_odds(world.room, months=12, rounds=200, seed=1)
        (peas,) = odds.foods
        assert f"{peas.unused_servings:.2f}" in driver.words
        assert driver.screen.report is not None
        assert driver.screen.report.title.startswith("Odds from")


async def test_the_odds_show_how_far_they_are_and_can_be_stopped(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    ahead(world)

    def slow(*args: Any, **wanted: Any) -> Any:
        told = wanted["progress"]
        over = wanted["cancelled"]

        def progress(done: int, of: int) -> None:
            told(done, of)
            while done == 7 and not over():
                pass

        return horizon_odds(*args, **{**wanted, "progress": progress})

    monkeypatch.setattr("stockroom.services.horizon.horizon_odds", slow)
    async with driving(world) as driver:
        await to_horizon(driver)
        await driver.pilot.press("o")
        window = driver.screen
        assert isinstance(window, OddsWindow)
        for _ in range(500):
            if window.has_class("-counting") and "%" in driver.text:
                break
            await driver.pilot.pause(0.01)
        assert "%" in driver.text
        await driver.pilot.press("s")
        await driver.settle()
        assert "by 7 rounds" in driver.words
        await driver.press("end")
    assert window.report is not None
    said = [line for block in window.report.blocks for line in getattr(block, "lines", ())]
    assert "Stopped after 7 rounds of 200." in said


@pytest.mark.parametrize("size", SIZES)
async def test_the_stock_over_the_months(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await driver.press("g")
        assert isinstance(driver.screen, StockAheadPlot)
        assert "█" in driver.text and "░" in driver.text, "told apart without colour"
        same_screen(driver.app, "horizon-plot")
        await driver.press("n")
        (_, first, *_) = driver.screen.groups
        assert f"{name_of(first)}: servings in time" in driver.words
        await driver.press("p")
        assert "All foods: servings in time" in driver.words
        assert "2026-11-25       102           50           12" in "\n".join(driver.screen.figures)


@pytest.mark.parametrize("size", SIZES)
async def test_all_of_it_as_on_paper(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    ahead(world)
    async with driving(world, size) as driver:
        await to_horizon(driver)
        await driver.press("f")
        same_screen(driver.app, "horizon-whole")
        await driver.press("end")
        assert "giving it away (engineering judgement)." in driver.words, "the sources are last"


async def test_the_working_of_the_least_rate(world: World) -> None:
    ahead(world)
    async with driving(world) as driver:
        await to_horizon(driver)
        await stand_on(driver, AdviceKind.EAT)
        await driver.press("w")
        assert isinstance(driver.screen, WorkingScreen)
        # 60 servings are due by day 25, 90 by day 40, 30 by day 20: 60/25 asks for most.
        assert f"Least eating rate of {PEAS}: 2.4 (12/5) servings a day" in driver.words


def test_the_plot_is_imported_only_when_it_is_opened() -> None:
    code = (
        "import sys, stockroom.tui.screens.horizon, stockroom.tui.screens.horizon_round;"
        "print([name for name in sys.modules if 'plotext' in name])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


async def test_odds_of_which_nobody_spoke_say_so(world: World) -> None:
    stock(world, [(10, 20)])
    async with driving(world) as driver:
        await to_horizon(driver)
        await driver.press("o")
        assert "Nobody said how fast anything is eaten" in driver.words


async def test_what_is_past_or_raw_is_said_where_it_matters(world: World) -> None:
    stock(world, [(5, -3), (20, 300)])
    stock(world, [(8, 40)], food=BEEF_RAW)
    async with driving(world) as driver:
        await to_horizon(driver)
        await stand_on_food(driver, PEAS)
        assert "! 5 servings past the best-by already: look at them" in about(driver)
        await stand_on_food(driver, BEEF_RAW)
        assert "! 1 package raw: cook it after water is added" in about(driver)
