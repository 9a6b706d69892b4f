"""What if, and gains: a package elsewhere or packed otherwise, by keys on a real store."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.services import history, packages, places
from stockroom.services.whatif import Choice, gains, what_if
from stockroom.tui.screens import gains as gains_module
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.gains import GainsScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.whatif import WhatIfScreen
from stockroom.tui.screens.whatif_words import gain_words, way_cell
from stockroom.tui.screens.windows import ReadScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import Stocked, stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]

CUPBOARD = "Galley cupboard"
CELLAR = "Cold cellar"


def warm(world: World) -> Stocked:
    """A household with a sound pouch of peas in the warm cupboard instead of the cellar."""
    stocked = stock(world)
    packages.move_packages(world.room, [stocked.peas[2]], CUPBOARD)
    return stocked


async def to_what_if(driver: Driver, code: str) -> WhatIfScreen:
    """Find a package on the Shelves and ask what if."""
    await driver.press("2", "slash", *code, "enter", "f")
    assert isinstance(driver.screen, WhatIfScreen)
    return driver.screen


async def to_choice(driver: Driver, screen: WhatIfScreen, kind: str) -> Choice:
    """Go down to the first choice of a kind."""
    row = next(at for at, one in enumerate(screen.ways) if one.kind == kind)
    await driver.press(*["down"] * row)
    return screen.ways[row]


@pytest.mark.parametrize("size", SIZES)
async def test_the_ways_on_side_by_side(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await to_what_if(driver, stocked.hard[0])
        same_screen(driver.app, "what-if")
        assert HARD_NAME in driver.text
        assert QUALITY_NOT_SAFETY in driver.words


async def test_every_way_has_its_date_band_limit_and_gain(world: World) -> None:
    stocked = warm(world)
    page = what_if(world.room, stocked.peas[2])
    async with driving(world, (120, 30)) as driver:
        await to_what_if(driver, stocked.peas[2])
        assert "Between" in driver.text and "Limit" in driver.text
        for place, choice in enumerate(page.choices):
            await driver.press("down")
            said = f"Best by {choice.best_by}, between {choice.low} and {choice.high}"
            assert said in driver.words
            assert f"Against leaving it: {gain_words(choice.gain_days)}." in driver.words, place
        assert page.choices


async def test_enter_on_a_move_asks_and_moves(world: World) -> None:
    stocked = warm(world)
    code = stocked.peas[2]
    before = world.package(code).best_by
    async with driving(world) as driver:
        screen = await to_what_if(driver, code)
        choice = await to_choice(driver, screen, "move")
        assert choice.place == CELLAR
        await driver.press("enter")
        assert isinstance(driver.screen, ConfirmScreen)
        assert QUALITY_NOT_SAFETY in driver.words
        assert world.package(code).place == CUPBOARD
        await driver.press("enter")
        assert isinstance(driver.screen, ShelvesScreen)
        moved = world.package(code)
        assert (moved.place, moved.best_by) == (CELLAR, choice.best_by)
        await driver.press("u")
        assert (world.package(code).place, world.package(code).best_by) == (CUPBOARD, before)


async def test_escape_leaves_the_package_where_it_is(world: World) -> None:
    stocked = warm(world)
    async with driving(world) as driver:
        screen = await to_what_if(driver, stocked.peas[2])
        await to_choice(driver, screen, "move")
        await driver.press("enter", "escape")
        assert driver.screen is screen
        await driver.press("escape")
        assert world.package(stocked.peas[2]).place == CUPBOARD


async def test_a_repacking_is_explained_not_done(world: World) -> None:
    stocked = stock(world)
    before = world.dump()
    async with driving(world, (80, 40)) as driver:
        screen = await to_what_if(driver, stocked.beef[0])
        await to_choice(driver, screen, "repack")
        await driver.press("enter")
        assert isinstance(driver.screen, ReadScreen)
        assert "Dry it again until two weighings in a row agree." in driver.words
        assert "local codes and licensed guidance" in driver.words
        assert "raw" in driver.words.split("begin anew.")[1]
    assert world.dump() == before


async def test_from_the_page_of_the_package_and_of_the_lot(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *stocked.hard[0], "enter", "enter", "f")
        assert isinstance(driver.screen, WhatIfScreen)
        await driver.press("escape")
        assert isinstance(driver.screen, PackageScreen)
        lot_code = world.package(stocked.hard[0]).lot_code
        driver.app.push_screen(LotScreen(lot_code))
        await driver.settle()
        await driver.press("f")
        assert isinstance(driver.screen, WhatIfScreen)
        assert driver.screen.page.package.lot_code == lot_code


async def test_a_package_that_is_gone_has_no_what_if(world: World) -> None:
    stocked = stock(world)
    packages.discard_packages(world.room, [stocked.hard[0]], "torn")
    async with driving(world) as driver:
        await driver.press("2", *"ttttttt", "f")
        assert isinstance(driver.screen, ShelvesScreen)


async def test_a_place_too_warm_for_a_date_says_why(world: World) -> None:
    stocked = stock(world)
    places.add_place(world.room, "Boiler room", temperature_dc=500)
    async with driving(world, (80, 30)) as driver:
        screen = await to_what_if(driver, stocked.peas[3])
        row = next(at for at, one in enumerate(screen.ways) if one.place == "Boiler room")
        await driver.press(*["down"] * row)
        assert "No best-by is given:" in driver.words
        assert "no date" in driver.text


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (1498, "+4.1 years"),
        (-731, "-2.0 years"),
        (150, "+5 months"),
        (-1, "-1 day"),
        (20, "+20 days"),
        (0, "the same"),
    ],
)
def test_gains_in_words(days: int, said: str) -> None:
    # 1498 days / 365.25 days a year (Julian year) = 4.10; 150 / 30.4375 = 4.93
    assert gain_words(days) == said


# The whole store


@pytest.mark.parametrize("size", SIZES)
async def test_gains_of_the_whole_store(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    warm(world)
    async with driving(world, size) as driver:
        await driver.press("2", "G")
        same_screen(driver.app, "gains")
        assert "Every date is a quality estimate, not safety." in driver.words


async def test_advice_carried_out_for_all_its_packages(world: World) -> None:
    stocked = stock(world)
    packages.move_packages(world.room, list(stocked.peas[2:]), CUPBOARD)
    advice = gains(world.room)
    row = next(at for at, one in enumerate(advice) if one.choice.kind == "move")
    assert {one.code for one in advice[row].packages} == set(stocked.peas[2:])
    async with driving(world) as driver:
        await driver.press("2", "G", *["down"] * row)
        assert way_cell(advice[row].choice) in driver.text
        await driver.press("enter", "enter")
        assert isinstance(driver.screen, GainsScreen)
        assert all(world.package(code).place == CELLAR for code in stocked.peas[2:])
        assert driver.screen.advice == gains(world.room)
        history.undo(world.room)
        assert all(world.package(code).place == CUPBOARD for code in stocked.peas[2:])


async def test_escape_stops_the_looking(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    stock(world)
    begun, go_on, seen = Event(), Event(), []

    def slowly(room: object, *, progress: Callable[[int, int], None], cancelled: Any) -> Any:
        progress(1, 4)
        begun.set()
        assert go_on.wait(10)
        seen.append(cancelled())
        return ()

    monkeypatch.setattr(gains_module, "gains", slowly)
    async with driving(world) as driver:
        await driver.press("2")
        await driver.pilot.press("G")
        assert begun.wait(10)
        await driver.pilot.pause()
        assert isinstance(driver.screen, GainsScreen)
        assert "Looking at every package" in driver.text
        assert "25%" in driver.text
        await driver.pilot.press("escape")
        go_on.set()
        await driver.settle()
        assert isinstance(driver.screen, ShelvesScreen)
        assert seen == [True]


async def test_an_empty_store_has_nothing_to_gain(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "G")
        assert "No move or repacking gains 60 days or more." in driver.words
