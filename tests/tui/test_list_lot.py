"""A lot that came from a list, and its run, on the screens: there is no tray to show."""

from __future__ import annotations

from stockroom.services.list_importing import take_list
from stockroom.services.shelves import package_detail
from stockroom.tui.screens.gate_window import GateScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.run import RunScreen
from tests.services.cases_exchange import LIST, WISHES, with_cellar
from tests.tui.driving import driving
from tests.world import World


async def test_the_lot_says_that_nothing_shows_it_is_dry(world: World) -> None:
    with_cellar(world)
    take_list(world.room, LIST, WISHES)
    async with driving(world) as driver:
        driver.app.push_screen(LotScreen("26004A"))
        await driver.settle()
        assert "no tray of it is on record" in driver.words
        for keys in (("down", "up"), ("w", "escape"), ("r",)):
            await driver.press(*keys)
        assert isinstance(driver.screen, GateScreen)
        assert "no tray of it is on record" in driver.words
        for keys in (("down", "up"), ("w", "escape"), ("i",), ("b",), ("enter",), ("escape",)):
            await driver.press(*keys)
        await driver.press("escape")


async def test_its_run_and_its_packages_open(world: World) -> None:
    with_cellar(world)
    codes = take_list(world.room, LIST, WISHES).codes
    async with driving(world) as driver:
        run_id = world.lot("26004A").run_id
        driver.app.push_screen(RunScreen(run_id))
        await driver.settle()
        assert "Taken from the list larder.csv" in driver.words
        await driver.press("down", "w", "escape", "escape")
        driver.app.push_screen(PackageScreen("shelves", package_detail(world.room, codes[0])))
        await driver.settle()
        assert "own code A-1; für Zoë" in driver.words
