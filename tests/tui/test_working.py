"""The working of a best-by: long, so read by steps; every source written out once."""

from __future__ import annotations

import pytest
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.water import show_water
from stockroom.domain.working import Source, Working
from stockroom.services.workings import package_working
from stockroom.tui.screens.working import WorkingScreen, conclusion, step_lines
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import stock
from tests.world import World


async def to_working(driver: Driver, code: str) -> WorkingScreen:
    """Find a package on the Shelves and open its working."""
    await driver.press("2", "slash", *code, "enter", "w")
    assert isinstance(driver.screen, WorkingScreen)
    return driver.screen


def top(screen: WorkingScreen) -> str:
    """The heading that stands at the top of the view."""
    inside = screen.query_one(".inside", VerticalScroll)
    at = int(inside.scroll_offset.y)
    found = [one for one in inside.query(Static) if int(one.virtual_region.y) == at]
    return str(found[0].render())


@pytest.mark.parametrize("size", SIZES)
async def test_step_by_step_and_back(world: World, size: tuple[int, int]) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        screen = await to_working(driver, stocked.peas[3])
        await driver.press("t")
        assert top(screen) == screen.workings[0].title
        await driver.press("t")
        assert top(screen) == screen.workings[1].title
        first, second = screen.workings[1].steps[:2]
        await driver.press("n")
        assert top(screen) == f"1. {first.title}"
        await driver.press("n")
        assert top(screen) == f"2. {second.title}"
        await driver.press("p")
        assert top(screen) == f"1. {first.title}"


async def test_round_at_the_end(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_working(driver, stocked.peas[3])
        await driver.press("end", "n")
        assert top(screen) == f"1. {screen.workings[0].steps[0].title}"


async def test_the_band_and_its_shares_are_there(world: World) -> None:
    stocked = stock(world)
    async with driving(world, (80, 400)) as driver:
        screen = await to_working(driver, stocked.peas[3])
        best_by = screen.workings[1]
        assert "% of the low side" in driver.words
        assert all(" ".join(text.split()) in driver.words for text in best_by.cautions)
        assert "(quality estimate, not safety)" in driver.words


def test_every_source_is_written_out_once_and_called_by_its_number_after(world: World) -> None:
    (_, best_by) = package_working(world.room, stock(world).peas[3]).workings
    cited: dict[Source, int] = {}
    lines = [
        text
        for number, step in enumerate(best_by.steps, start=1)
        for look, text in step_lines(number, step, cited)
        if look == "source"
    ]
    written = [line for line in lines if not line.endswith("as above")]
    assert len(written) == len(best_by.sources) == len(cited)
    for source, number in cited.items():
        assert written[number - 1] == f"Source [{number}]: {source.words}"
    for step in best_by.steps:
        assert all(source in cited for source in step.sources)


def test_what_is_concluded_stands_at_the_top(world: World) -> None:
    water, best_by = package_working(world.room, stock(world).peas[3]).workings
    package = world.package(stock_code(world))
    assert conclusion(water) == f"Water to add: {show_water(package.water_dg)}"
    said = conclusion(best_by)
    assert said is not None and str(package.best_by) in said
    assert QUALITY_NOT_SAFETY in said
    assert conclusion(Working("Water", (), ())) is None


def stock_code(world: World) -> str:
    """The code of the last pouch of peas."""
    return world.listed("Peas")[-1]
