"""The journal: what was done in words, undo and redo from there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.services import packages
from stockroom.services.history import journal_entries, journal_keys, journal_page
from stockroom.tui.screens.journal import JournalScreen
from stockroom.tui.screens.round import RoundScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]


def first_line(driver: Driver) -> str:
    """The words of the latest entry."""
    table = driver.screen.query_one("WindowTable")
    return (
        next(line for line in driver.text.splitlines() if line.startswith("▸  ")) if table else ""
    )


@pytest.mark.parametrize("size", SIZES)
async def test_who_did_what(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    stocked = stock(world)
    packages.note_package(world.who("Zoë").room, stocked.hard[0], "[/] the last one")
    async with driving(world, size) as driver:
        await driver.press("j")
        same_screen(driver.app, "journal")
        assert "Zoë: noted on 26327A019: [/] the last one" in driver.words
        await driver.press("down")
        assert HARD_NAME in driver.words


async def test_undo_and_redo_from_the_journal(world: World) -> None:
    stocked = stock(world)
    packages.note_package(world.room, stocked.hard[0], "a")
    async with driving(world) as driver:
        await driver.press("j", "u")
        assert world.package(stocked.hard[0]).note == ""
        await driver.press("home")
        assert "undid: noted on" in first_line(driver)
        assert "(undone) noted on 26327A019: a" in driver.text
        await driver.press("U", "home")
        assert world.package(stocked.hard[0]).note == "a"
        assert "redid: noted on" in first_line(driver)


async def test_escape_goes_back(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("j")
        assert isinstance(driver.screen, JournalScreen)
        await driver.press("j")
        assert isinstance(driver.screen, JournalScreen)
        await driver.press("escape")
        assert isinstance(driver.screen, RoundScreen)


async def test_another_programs_entry_appears_on_top(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("j")
        packages.note_package(world.beside("Ben").room, stocked.hard[0], "from Ben")
        driver.app.look_again()
        await driver.settle()
        await driver.press("home")
        assert "from Ben" in first_line(driver)


def test_entries_by_key_are_the_entries_of_the_page(world: World) -> None:
    stock(world)
    keys = journal_keys(world.room)
    assert list(keys) == sorted(keys, reverse=True)
    assert journal_entries(world.room, keys[:20]) == journal_page(world.room, count=20)
    assert journal_entries(world.room, [10**9]) == ()
