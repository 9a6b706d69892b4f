"""The trace of a package, the recall from it, and what soft packages have in common, by keys."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.services import foods, history, packages, tracing
from stockroom.tui.palette import KeyCommands
from stockroom.tui.screens.common import NO_CAUSE, CommonScreen, between
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.trace import TraceScreen
from stockroom.tui.screens.trace_rows import Fact, fetch_lines
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.traced import WHY, dried_again, found_soft, traced
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import PEAS, World

pytestmark = pytest.mark.painted
"""Which rows are read depends on what is painted."""

SameScreen = Callable[[App[Any], str], None]


async def to_trace(driver: Driver, code: str) -> TraceScreen:
    """Find a package on the Shelves, open it and trace it."""
    await driver.press("2", "slash", *code, "enter", "enter", "b")
    assert isinstance(driver.screen, TraceScreen)
    assert driver.screen.page.code == code
    return driver.screen


async def to_entry(driver: Driver, screen: TraceScreen, text: str) -> None:
    """Go down to the first line that has this text."""
    await driver.press("home")
    for _ in range(len(screen.table.entries)):
        row = screen.table.current
        if row is not None and any(text in cell for cell in row.cells):
            return
        await driver.press("down")
    raise AssertionError(text)


# The trace


@pytest.mark.parametrize("size", SIZES)
async def test_back_and_forward_in_sections(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    shelf = traced(world)
    async with driving(world, size) as driver:
        await to_trace(driver, shelf.wet[0])
        same_screen(driver.app, "trace")
        for words in ("Dried in run 2", "Sealed 2026-10-16", "P8", "green", "Lot 26289A"):
            assert words in driver.words, words


@pytest.mark.parametrize("size", SIZES)
async def test_food_dried_again_shows_both_runs(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    traced(world)
    old, new = dried_again(world)
    async with driving(world, size) as driver:
        screen = await to_trace(driver, new)
        same_screen(driver.app, "trace-again")
        assert "Dried again in run 4" in driver.words
        await to_entry(driver, screen, old)
        await driver.press("b")
        assert isinstance(driver.screen, TraceScreen)
        assert driver.screen.page.code == old
        assert "Went into" in driver.words
        await driver.press("escape")
        assert driver.screen is screen


async def test_a_line_too_long_is_read_whole_below(world: World) -> None:
    shelf = traced(world)
    async with driving(world, (60, 20)) as driver:
        screen = await to_trace(driver, shelf.wet[0])
        await to_entry(driver, screen, "not shown: no constant")
        assert "no cold-touch test." in driver.words
        await to_entry(driver, screen, WHY)
        assert f"although: dryness not shown: {WHY}" in driver.words


async def test_the_hard_name_stands_whole(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_trace(driver, stocked.hard[0])
        assert driver.text.count(HARD_NAME) >= 2
        await to_entry(driver, screen, stocked.hard[1])
        assert f"{stocked.hard[1]} {HARD_NAME}" in driver.words
        assert "not on record" in driver.words


async def test_a_package_opens_from_the_trace_and_goes_back_to_it(world: World) -> None:
    shelf = traced(world)
    async with driving(world) as driver:
        screen = await to_trace(driver, shelf.wet[0])
        await driver.press("enter")
        assert driver.screen is screen  # a tray is nothing to open
        await to_entry(driver, screen, shelf.wet[3])
        await driver.press("enter")
        assert isinstance(driver.screen, PackageScreen)
        assert driver.screen.detail.package.code == shelf.wet[3]
        await driver.press("escape")
        assert driver.screen is screen
        await driver.press("2")
        assert isinstance(driver.screen, PackageScreen)
        await driver.press("1")
        assert isinstance(driver.screen, RoundScreen)


async def test_a_long_group_names_its_whole_number(world: World) -> None:
    lot = world.dry_lot(wet_g=5_000, dry_g=900)
    codes = world.pack(lot, f"{tracing.LISTED + 7}xjar-475:5")
    async with driving(world) as driver:
        screen = await to_trace(driver, codes[0])
        assert f"Lot {lot} · 57 packages" in driver.words
        facts = [one.text for one in screen.table.entries.values() if isinstance(one, Fact)]
        assert "and 7 more, not named here" in facts
        assert "50 of them named above" in facts


async def test_a_change_elsewhere_is_shown(world: World) -> None:
    shelf = traced(world)
    async with driving(world) as driver:
        await to_trace(driver, shelf.wet[0])
        assert "6 sound" in driver.text
        packages.discard_packages(world.beside().room, [shelf.wet[0]], "torn")
        driver.app.look_again()
        await driver.settle()
        assert "· discarded ·" in driver.text and "5 sound · 1 discarded" in driver.text


# The recall


@pytest.mark.parametrize("size", SIZES)
async def test_a_recall_asks_for_the_group_and_the_reason(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    shelf = traced(world)
    async with driving(world, size) as driver:
        screen = await to_trace(driver, shelf.peas[0])
        await driver.press("r")
        same_screen(driver.app, "recall-form")
        assert isinstance(driver.screen, FormScreen)
        assert "none of it is eaten from until" in driver.words
        await driver.enter("packet")
        await driver.enter("absorbers [went] hard")
        assert isinstance(driver.screen, ReadScreen)
        same_screen(driver.app, "recall-fetch")
        assert "Recalled 6 packages of absorber packet P7: absorbers [went] hard." in driver.words
        assert {world.package(code).condition for code in shelf.peas} == {"suspect"}
        assert world.package(shelf.apples[0]).condition == "sound"
        await driver.press("escape")
        assert driver.screen is screen
        assert "Trace of 26269A01G · suspect" in driver.text
        await driver.press("u")
        assert {world.package(code).condition for code in shelf.peas} == {"sound"}
        assert "· sound ·" in driver.text


async def test_a_recall_is_refused_beside_the_form_and_nothing_typed_is_lost(
    world: World,
) -> None:
    shelf = traced(world)
    entries = len(history.journal_keys(world.room))
    async with driving(world) as driver:
        await to_trace(driver, shelf.peas[0])
        await driver.press("r")
        await driver.enter("run")
        await driver.press("enter")
        assert isinstance(driver.screen, FormScreen)
        assert "A recall needs a reason." in driver.words
        assert "run 1: 10 to recall" in driver.words
        await driver.press("escape", "escape")
        assert isinstance(driver.screen, TraceScreen)
    assert len(history.journal_keys(world.room)) == entries


async def test_no_group_no_recall(world: World) -> None:
    shelf = traced(world)
    async with driving(world) as driver:
        await to_trace(driver, shelf.peas[0])
        await driver.press("r", "escape", "enter")
        await driver.enter("damp")
        assert isinstance(driver.screen, FormScreen)
        assert "group: nothing cannot be read." in driver.words
        assert world.package(shelf.peas[0]).condition == "sound"


async def test_what_has_nothing_left_to_recall_offers_none(world: World) -> None:
    lot = world.dry_lot()
    (code,) = world.pack(lot, "1xjar-950:rest")
    tracing.recall(world.room, code, tracing.GroupKind.RUN, "the door")
    async with driving(world) as driver:
        screen = await to_trace(driver, code)
        assert "Recall" not in driver.text
        await driver.press("r")
        assert driver.screen is screen


def test_what_to_fetch_is_set_out_by_place(world: World) -> None:
    shelf = traced(world)
    found = [world.package(code) for code in (*shelf.peas[:2], *shelf.apples[:1])]
    assert fetch_lines(found) == [
        "cellar/bin",
        f"  {shelf.peas[0]} {PEAS}",
        f"  {shelf.peas[1]} {PEAS}",
        "loft",
        f"  {shelf.apples[0]} Apple, raw, peeled",
    ]


# In common


@pytest.mark.parametrize("size", SIZES)
async def test_what_stands_out_comes_first(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    shelf = traced(world)
    found_soft(world, shelf.wet[:5])
    async with driving(world, size) as driver:
        await driver.press("2", "slash", *shelf.wet[0], "enter", "enter", "C")
        assert isinstance(driver.screen, CommonScreen)
        same_screen(driver.app, "common")
        page = tracing.in_common(world.room)
        assert driver.screen.page == page
        assert NO_CAUSE in driver.words and "stand out by chance" in driver.words
        assert between(page.overall) in driver.words
        assert "soft more often" in driver.text and "not told apart" in driver.text


async def test_a_group_is_read_whole_with_its_sources(world: World) -> None:
    shelf = traced(world)
    found_soft(world, shelf.wet[:5])
    async with driving(world, (80, 30)) as driver:
        await driver.press("2", "slash", *shelf.wet[0], "enter", "enter", "C", "enter")
        assert isinstance(driver.screen, ReadScreen)
        for words in ("no proof of a cause", "Clopper and Pearson", "of lot 26289A", "one wet lot"):
            assert words in driver.words, words


async def test_only_one_food_or_since_a_day(world: World) -> None:
    shelf = traced(world)
    found_soft(world, shelf.wet[:5])
    async with driving(world) as driver:
        await driver.press("2", "slash", *shelf.wet[0], "enter", "enter", "C")
        screen = driver.screen
        assert isinstance(screen, CommonScreen)
        await driver.press("f")
        await driver.enter("peas", "2026-11-15")
        assert driver.screen is screen and screen.page is not None
        assert screen.page.overall.looked_at == 5
        assert f"5 of 5 packages of {PEAS} looked at since 2026-11-15 went soft" in driver.words
        await driver.press("f", "enter")
        await driver.clear()
        await driver.enter("May")
        assert "cannot be read" in driver.words


async def test_nothing_looked_at_is_said(world: World) -> None:
    lot = world.dry_lot()
    (code,) = world.pack(lot, "1xjar-950:rest")
    async with driving(world) as driver:
        await driver.press("2", "slash", *code, "enter", "enter", "C")
        assert "No package was ever looked at" in driver.words


async def test_a_food_renamed_meanwhile_is_told(world: World) -> None:
    shelf = traced(world)
    async with driving(world, notices=True) as driver:
        await driver.press("2", "slash", *shelf.wet[0], "enter", "enter")
        driver.app.push_screen(CommonScreen(world.room, food=PEAS))
        await driver.settle()
        assert "12 packages" in driver.words
        foods.change_food(world.beside().room, PEAS, new_name="Garden peas")
        await driver.press("f", "f9")
        assert "There is no food" in driver.words


async def test_both_are_in_the_palette_of_the_package(world: World) -> None:
    shelf = traced(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *shelf.wet[0], "enter", "enter")
        offered = KeyCommands(driver.screen)
        names = {active.binding.description for active in offered._actions()}
        assert {"Trace", "In common"} <= names
        await driver.press("b")
        names = {active.binding.description for active in KeyCommands(driver.screen)._actions()}
        assert {"Recall", "In common"} <= names
        await driver.press("escape", "escape")
        assert isinstance(driver.screen, ShelvesScreen)
