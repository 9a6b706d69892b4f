"""The calendar file from the screens: where it goes, how far ahead, and what it would replace."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import vobject
from textual.app import App

from stockroom.services.calendar_feed import calendar_feed
from stockroom.store.connection import Store
from stockroom.store.writing import write
from stockroom.tui.screens.calendar_form import CalendarForm
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.round import RoundScreen
from tests.tui.driving import driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home of the test's own, where the calendar usually goes."""
    path = tmp_path / "home"
    path.mkdir()
    monkeypatch.setenv("HOME", str(path))
    return path


@pytest.mark.parametrize("size", SIZES)
async def test_the_form(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    async with driving(world, size) as driver:
        await driver.press("K")
        assert isinstance(driver.screen, CalendarForm)
        same_screen(driver.app, "calendar-form")
        await driver.press("escape")
        assert isinstance(driver.screen, RoundScreen)


async def test_two_keys_write_the_usual_file_and_again_nothing_has_changed(
    world: World, home: Path
) -> None:
    stock(world)
    file = home / "stockroom.ics"
    async with driving(world, notices=True) as driver:
        await driver.press("K", "f9")
        assert isinstance(driver.screen, RoundScreen)
        first = file.read_bytes()
        entries = vobject.readOne(first.decode()).vevent_list
        assert len(entries) == len(calendar_feed(world.room).entries) > 3
        assert f"Wrote {len(entries)} entries up to 2027-02-23" in driver.words
        await driver.press("K", "f9")
        assert file.read_bytes() == first
        assert "changed since the last file." in driver.words


async def test_days_and_alarms_are_asked_for(world: World, tmp_path: Path) -> None:
    stock(world)
    file = tmp_path / "due.ics"
    async with driving(world) as driver:
        await driver.press("K")
        await driver.clear()
        await driver.enter(str(file))
        await driver.clear()
        await driver.enter("7")
        await driver.clear()
        await driver.enter("yes")
        assert isinstance(driver.screen, RoundScreen)
    events = vobject.readOne(file.read_text(encoding="utf-8")).vevent_list
    assert events and all("valarm" in one.contents for one in events)
    assert max(one.dtstart.value for one in events).isoformat() <= "2026-12-02"


async def test_another_file_is_replaced_only_when_told_to(world: World, home: Path) -> None:
    stock(world)
    file = home / "stockroom.ics"
    file.write_text("dear diary\n", encoding="utf-8")
    async with driving(world) as driver:
        await driver.press("K", "f9")
        assert isinstance(driver.screen, ConfirmScreen)
        assert "a file of another kind" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, CalendarForm)
        assert file.read_text(encoding="utf-8") == "dear diary\n"
        await driver.press("f9", "enter")
        assert isinstance(driver.screen, RoundScreen)
    assert file.read_bytes().startswith(b"BEGIN:VCALENDAR")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", "the path of a file"),
        ("/no/such/folder/due.ics", "No such file or directory"),
        ("~", "it is a folder"),
    ],
)
async def test_what_is_no_file_is_said_and_stays_typed(world: World, typed: str, said: str) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("K")
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        form = driver.screen
        assert isinstance(form, CalendarForm)
        assert said in form.fields[0].error
        assert form.fields[0].text == typed


async def test_the_store_itself_is_never_replaced(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("K")
        await driver.clear()
        await driver.type(str(world.path))
        await driver.press("f9")
        form = driver.screen
        assert isinstance(form, CalendarForm)
        assert "is the store itself" in form.fields[0].error


@pytest.mark.parametrize("typed", ["0", "3661", "", "1.5"])
async def test_days_are_counted_whole(world: World, home: Path, typed: str) -> None:
    stock(world)
    async with driving(world, (60, 20)) as driver:
        await driver.press("K", "enter")
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        form = driver.screen
        assert isinstance(form, CalendarForm)
        assert "a whole number from 1 to 3660" in form.fields[1].error
    assert not (home / "stockroom.ics").exists()


async def test_a_store_held_by_another_program_is_said_in_the_form(
    world: World, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("stockroom.store.connection.LOCK_WAIT_MS", 1)
    stock(world)
    other = Store(world.path, durable=False)
    async with driving(world) as driver:
        await driver.press("K")
        with write(other):
            await driver.press("f9")
            assert isinstance(driver.screen, CalendarForm)
            assert "Another program is writing" in driver.words
        assert not (home / "stockroom.ics").exists()
        await driver.press("f9")
        assert isinstance(driver.screen, RoundScreen)
    other.close()
    assert (home / "stockroom.ics").exists()


async def test_an_empty_stockroom_has_no_calendar(world: World, home: Path) -> None:
    async with driving(world, notices=True) as driver:
        await driver.press("K", "f9")
        assert "Nothing is due up to 2027-02-23: no file was written." in driver.words
    assert list(home.iterdir()) == []


async def test_the_palette_knows_it(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("ctrl+p")
        await driver.type("calendar")
        await driver.press("enter")
        assert isinstance(driver.screen, CalendarForm)
