"""The sample of a lot or a place by keys: how many, which ones, each look, what they say."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from typing import Any

import pytest
from scipy.stats import hypergeom
from textual import events
from textual.app import App
from textual.binding import Binding
from textual.worker import WorkerCancelled

from stockroom.domain.sample_page import Wish
from stockroom.services import packages, sampling
from stockroom.tui.help import key_sections
from stockroom.tui.palette import KeyCommands
from stockroom.tui.screens.decide import DecideScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.sample import SampleScreen
from stockroom.tui.screens.sample_words import CONFIDENCES, LOOKS
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import APPLE, TODAY, World

SameScreen = Callable[[App[Any], str], None]


@pytest.fixture
def lot(world: World) -> tuple[str, ...]:
    """Twenty pouches of one lot from nine days ago, in two bins of the cellar and in the loft."""
    world.places("Cold cellar", "Cold cellar/Rack 1", "Boat-shed loft", "Attic")
    world.places("Cold cellar/Rack 1/Bin 2", "Cold cellar/Rack 1/Bin 10")
    before = world.later(-9)
    code = before.dry_lot()
    split = "xpouch-400-foil:6,absorber=100"
    return (
        *before.pack(code, f"10{split}", place="Bin 2"),
        *before.pack(code, f"6{split}", place="Bin 10"),
        *before.pack(code, f"4{split}", place="Boat-shed loft"),
    )


async def to_sample(driver: Driver) -> SampleScreen:
    """From the Shelves, the lot of the package under the cursor."""
    await driver.press("2", "S")
    assert isinstance(driver.screen, SampleScreen)
    return driver.screen


async def burst(driver: Driver, *keys: str) -> None:
    """Press keys faster than the page is read; the reading of each but the last is cancelled."""
    for key in keys:
        driver.app.post_message(events.Key(key, None))
    for _ in keys:
        with suppress(WorkerCancelled):
            await driver.settle()
    await driver.settle()


def under_cursor(screen: SampleScreen) -> str:
    """The code under the cursor."""
    assert screen.package is not None
    return screen.package.code


# What is asked for


@pytest.mark.parametrize("size", SIZES)
async def test_the_number_and_the_picks_as_one_walks(
    world: World, lot: tuple[str, ...], size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        screen = await to_sample(driver)
        same_screen(driver.app, "sample")
        page = sampling.sample_of(world.room, "26320A")
        assert screen.page == page and len(page.picks) == 12
        assert page.sample.sentence in driver.words
        assert "So far: nothing looked at." in driver.words
        assert "A belief, not a guarantee." in driver.words
        places = [world.package(one.code).place for one in screen.listed]
        assert places.index("Cold cellar/Rack 1/Bin 2") < places.index("Cold cellar/Rack 1/Bin 10")
        assert under_cursor(screen) == page.picks[0].code


async def test_at_most_goes_from_none_to_all_but_one(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        await driver.press("minus")
        assert screen.page.sample.at_most == 1 and "at most 1 soft" in driver.words
        await driver.press("minus", "minus", "minus")
        assert screen.page.sample.at_most == 0
        assert "Look at 19 of 20" in driver.words
        await driver.press(*["plus"] * 10, *["equals_sign"] * 12)
        assert screen.page.sample.at_most == 19
        assert "at most 19 soft" in driver.words


async def test_two_quick_presses_are_two_steps(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        await burst(driver, "plus", "plus")
        assert screen.page.sample.at_most == 4


async def test_the_confidence_goes_round(world: World, lot: tuple[str, ...]) -> None:
    """Each number is the least whose chance to miss three soft ones of twenty is small enough."""
    async with driving(world) as driver:
        screen = await to_sample(driver)
        seen: list[Fraction] = []
        for _ in CONFIDENCES:
            await driver.press("p")
            confidence, inspect = screen.page.sample.confidence, screen.page.sample.inspect
            assert inspect is not None
            allowed = float(1 - confidence) + 1e-12
            misses = [float(hypergeom.pmf(0, 20, 3, n)) for n in (inspect, inspect - 1)]
            assert misses[0] <= allowed < misses[1]
            assert f"{100 * confidence} % sure" in driver.words
            seen.append(confidence)
        assert sorted(seen) == list(CONFIDENCES) and seen[-1] == Fraction(95, 100)


@pytest.mark.parametrize("size", SIZES)
async def test_a_look_that_is_never_enough_names_the_better_one(
    world: World, lot: tuple[str, ...], size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        screen = await to_sample(driver)
        await driver.press("h", "h", "minus", "minus")
        assert screen.look == LOOKS[2] and screen.page.sample.inspect is None
        same_screen(driver.app, "sample-impossible")
        assert "Impossible: even with all 20 checked in this way" in driver.words
        assert "open them, weigh them, break a piece" in driver.words
        assert "h squeezed: finds 80 %" in driver.words
        assert "That a look finds 80 % is engineering judgement" in driver.words
        assert len(screen.listed) == 20
        await driver.press("h", "h")
        assert screen.look == LOOKS[0] and screen.page.sample.inspect == 19


async def test_which_looks_count(world: World, lot: tuple[str, ...]) -> None:
    for code in lot[:3]:
        packages.check_package(world.later(-2).room, code, packages.Event.CRISP)
    async with driving(world) as driver:
        screen = await to_sample(driver)
        assert screen.page.checked == 0 and "since today" in driver.text
        await driver.press("t")
        assert isinstance(driver.screen, FormScreen)
        await driver.enter("-5")
        assert driver.screen is screen
        assert screen.page.checked == 3 and "since 2026-11-20" in driver.text
        assert screen.page == sampling.sample_of(
            world.room, "26320A", Wish(since=world.later(-5).room.today)
        )
        await driver.press("t")
        await driver.clear()
        await driver.enter("some day")
        assert isinstance(driver.screen, FormScreen) and "cannot be read" in driver.words
        await driver.clear()
        await driver.press("enter")
        assert driver.screen is screen and screen.page.checked == 0


# The looks


async def test_one_key_records_a_look_by_opening_and_goes_on(
    world: World, lot: tuple[str, ...]
) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        picks = [one.code for one in screen.page.picks]
        await driver.press("c", "c")
        for code in picks[:2]:
            package = world.package(code)
            assert (package.condition, package.opened_on) == ("opened", TODAY)
        assert under_cursor(screen) == picks[2]
        assert f"✓ {picks[1]} crisp, opened · u undoes" in driver.words
        assert "2 of 20 looked at, none soft: with 95 % confidence" in driver.words
        assert [one.code for one in screen.page.picks] == picks


async def test_a_burst_of_keys_looks_at_one_after_the_other(
    world: World, lot: tuple[str, ...]
) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        await driver.press("h", "h", "h")
        picks = [one.code for one in screen.page.picks]
        await burst(driver, "c", "c", "c", "l")
        found = [screen.page.found.get(code) for code in picks]
        assert found[:5] == ["crisp", "crisp", "crisp", "leak", None]
        assert under_cursor(screen) == picks[4]


async def test_a_squeeze_opens_nothing(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        await driver.press("h", "h")
        code = under_cursor(screen)
        await driver.press("c")
        assert (world.package(code).condition, world.package(code).opened_on) == ("sound", None)
        assert f"✓ {code} crisp · u undoes" in driver.words
        await driver.press("h", "h")
        assert "1 of 1 looked at was not opened: such a look may miss a soft one" in driver.words


async def test_looked_at_ones_are_passed_over(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        picks = [one.code for one in screen.page.picks]
        await driver.press("down", "c", "home", "c")
        assert under_cursor(screen) == picks[2]
        await driver.press("end", "c")
        assert under_cursor(screen) == picks[2]


async def test_an_undo_puts_the_cursor_back(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        first = under_cursor(screen)
        was = world.package(first)
        await driver.press("c")
        assert under_cursor(screen) != first
        await driver.press("u")
        assert under_cursor(screen) == first and screen.page.checked == 0
        assert world.package(first) == was
        assert "✓" not in driver.text


@pytest.mark.parametrize("size", SIZES)
async def test_enough_says_so_plainly(
    world: World, lot: tuple[str, ...], size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        screen = await to_sample(driver)
        await driver.press(*["c"] * 12)
        same_screen(driver.app, "sample-enough")
        assert "Enough: 12 of 20 looked at, none soft." in driver.words
        assert "with 95 % confidence at most 2 of the 20 are soft" in driver.words
        assert screen.query_one("#do").has_class("-good")


async def test_squeezes_are_not_passed_off_as_sure(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        for one in screen.page.picks:
            packages.check_package(world.beside().room, one.code, packages.Event.CRISP)
        driver.app.look_again()
        await driver.settle()
        assert "12 of 12 looked at were not opened" in driver.words
        assert screen.query_one("#do").has_class("-doubt")


@pytest.mark.parametrize("size", SIZES)
async def test_a_soft_one_asks_for_all_of_them(
    world: World, lot: tuple[str, ...], size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        screen = await to_sample(driver)
        first = under_cursor(screen)
        await driver.press("s")
        same_screen(driver.app, "sample-soft")
        assert f"✓ {first} soft, opened · 19 sisters are suspect now" in driver.words
        assert "1 soft: look at every package of the lot. a shows all 20." in driver.words
        assert world.package(first).opened_on == TODAY
        assert len(screen.listed) == 12
        await driver.press("a")
        assert {one.code for one in screen.listed} == set(lot)
        assert "All are listed." in driver.words
        await driver.press("a")
        assert len(screen.listed) == 12
        await driver.press("v")
        assert isinstance(driver.screen, DecideScreen)
        assert first in driver.words


async def test_every_one_looked_at_leaves_only_the_decision(
    world: World, lot: tuple[str, ...]
) -> None:
    async with driving(world) as driver:
        await to_sample(driver)
        await driver.press("s", "a", *["c"] * 19)
        assert "1 soft, every one looked at: decide what becomes of each. v asks." in driver.words


async def test_what_cannot_be_looked_at_any_more_is_refused(
    world: World, lot: tuple[str, ...]
) -> None:
    async with driving(world, notices=True) as driver:
        screen = await to_sample(driver)
        code = under_cursor(screen)
        packages.check_package(world.beside().room, code, packages.Event.CRISP)
        packages.draw_package(world.beside().room, code)
        entries = world.dump()
        await driver.press("c")
        assert "cannot be recorded as crisp" in driver.text
        assert world.dump() == entries


# Pages beside it, and the ways in and out


async def test_the_working_the_package_and_what_to_bear_in_mind(
    world: World, lot: tuple[str, ...]
) -> None:
    async with driving(world, (80, 40)) as driver:
        screen = await to_sample(driver)
        await driver.press("h", "h", "w")
        assert isinstance(driver.screen, WorkingScreen)
        wish = Wish(sensitivity=Fraction(8, 10))
        assert driver.screen.workings == sampling.sample_workings(world.room, "26320A", wish)
        await driver.press("escape", "exclamation_mark")
        assert isinstance(driver.screen, ReadScreen)
        assert "Opening a package uses it" in driver.words and "licensed guidance" in driver.words
        await driver.press("escape", "enter")
        assert isinstance(driver.screen, PackageScreen)
        assert driver.screen.detail.package.code == under_cursor(screen)
        await driver.press("escape", "escape")
        assert isinstance(driver.screen, ShelvesScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_a_place_under_the_cursor_of_the_panel(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "p")
        while "Cold cellar" not in driver.screen.query_one("#side").current.cells[0]:  # type: ignore[attr-defined]
            await driver.press("down")
        await driver.press("S")
        same_screen(driver.app, "sample-place")
        screen = driver.screen
        assert isinstance(screen, SampleScreen)
        assert screen.page == sampling.sample_of(world.room, "Cold cellar")
        assert "Sample of Cold cellar" in driver.text and HARD_NAME in driver.text
        await driver.press("s")
        assert "Their sisters" not in driver.words
        assert "look at every package here, and of their lots." in driver.words


async def test_a_place_without_sealed_packages_says_so(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world, notices=True) as driver:
        await driver.press("2", "p", "down", "S")
        assert isinstance(driver.screen, ShelvesScreen)
        assert "Attic has no sealed package to look at." in driver.words


async def test_an_empty_store_offers_no_sample(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "S")
        assert isinstance(driver.screen, ShelvesScreen)


async def test_from_the_lot_page_and_back_to_it(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        await driver.press("3")
        page = LotScreen("26320A")
        driver.app.push_screen(page)
        await driver.settle()
        await driver.press("S")
        assert isinstance(driver.screen, SampleScreen)
        assert "▸3 Bench" in driver.text
        await driver.press("3")
        assert driver.screen is page
        await driver.press("S", "1")
        assert isinstance(driver.screen, RoundScreen)


async def test_a_lot_without_packages_offers_no_sample(world: World) -> None:
    code = world.dry_lot(APPLE)
    async with driving(world) as driver:
        page = LotScreen(code)
        driver.app.push_screen(page)
        await driver.settle()
        await driver.press("S")
        assert driver.screen is page


async def test_help_and_palette_name_every_key(world: World, lot: tuple[str, ...]) -> None:
    async with driving(world) as driver:
        await driver.press("2")
        names = [hit.text async for hit in KeyCommands(driver.screen).discover()]
        assert "Sample" in names
        await driver.press("S")
        listed = {
            one.id: one for one in key_sections(driver.screen.active_bindings)["On this screen"]
        }
        bound = [one for one in SampleScreen.BINDINGS if isinstance(one, Binding)]
        assert {one.id for one in bound} - {"package-decide"} <= set(listed)
        assert listed["sample-more"].keys == ("+", "=")
        names = [hit.text async for hit in KeyCommands(driver.screen).discover()]
        assert {"How sure", "How looked", "Fewer soft", "Looks since", "All"} <= set(names)


async def test_a_package_thrown_away_elsewhere_leaves_the_list(
    world: World, lot: tuple[str, ...]
) -> None:
    async with driving(world) as driver:
        screen = await to_sample(driver)
        gone = screen.page.picks[0].code
        packages.discard_packages(world.beside().room, [gone], "torn")
        driver.app.look_again()
        await driver.settle()
        assert screen.page.sample.lot == 19
        assert gone not in {one.code for one in screen.listed}


async def test_the_day_turns(world: World, lot: tuple[str, ...]) -> None:
    """Another day picks others, and the looks of the day before count no more."""
    async with driving(world) as driver:
        screen = await to_sample(driver)
        await driver.press("h", "h", "c")
        assert screen.page.checked == 1
        driver.app.stockroom = world.later(1).room
        driver.app.look_again()
        await driver.settle()
        assert screen.page.checked == 0
        assert screen.page == sampling.sample_of(
            world.later(1).room, "26320A", Wish(sensitivity=Fraction(8, 10))
        )
