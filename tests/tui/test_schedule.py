"""How often packages are looked at, set by keys."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.errors import BadInput
from stockroom.services.keeping import projections_are_current
from stockroom.services.rechecks import schedule
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.schedule_form import read_weekdays, weekday_words
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import stock
from tests.world import World

NARROW = (60, 20)

SameScreen = Callable[[App[Any], str], None]


async def type_over(driver: Driver, text: str) -> None:
    """Type another text in place of the one on the line, and go on."""
    await driver.clear()
    await driver.enter(text)


async def current(world: World, driver: Driver) -> None:
    """Wait until the days are computed anew and the window is closed."""
    for _ in range(500):
        if projections_are_current(world.room) and isinstance(driver.screen, RoundScreen):
            break
        await driver.pilot.pause(0.01)
    assert projections_are_current(world.room)
    await driver.settle()


@pytest.mark.parametrize("size", SIZES)
async def test_the_form(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    async with driving(world, size) as driver:
        await driver.press("full_stop")
        same_screen(driver.app, "schedule")


async def test_changed_it_computes_the_days_anew(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("full_stop")
        for text in ("5", "20", "90", "wed sat", "8"):
            await type_over(driver, text)
        now = schedule(world.room)
        assert (now.first_days, now.second_days, now.later_days) == (5, 20, 90)
        assert (now.set_aside, now.most_a_day) == (frozenset((2, 5)), 8)
        await current(world, driver)
        await driver.press("u")
        await current(world, driver)
        assert schedule(world.room).first_days == 7


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        (0, "0", "a whole number from 1 to 366"),
        (0, "", "a whole number from 1 to 366"),
        (1, "5", "Looking again after 7, 5 and 183 days does not work"),
        (3, "someday", "weekdays such as Wed Sat, or every day"),
        (3, "", "weekdays such as Wed Sat, or every day"),
        (4, "1001", "a whole number from 1 to 1000"),
    ],
)
async def test_what_cannot_be_is_refused_and_stays(
    world: World, field: int, typed: str, said: str
) -> None:
    async with driving(world, NARROW) as driver:
        await driver.press("full_stop", *["enter"] * field)
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        assert isinstance(driver.screen, FormScreen)
        assert said in driver.words.replace(",000", "000")
        assert driver.screen.fields[field].text == typed


async def test_nothing_changed_is_said(world: World) -> None:
    async with driving(world, NARROW) as driver:
        await driver.press("full_stop", "f9")
        assert "Nothing was changed." in driver.words


@pytest.mark.parametrize(
    ("typed", "days"),
    [
        ("every day", range(7)),
        ("Sat", (5,)),
        ("saturday, WED", (2, 5)),
        ("mo tu", (0, 1)),
        ("th th", (3,)),
    ],
)
def test_weekdays_are_read_by_their_beginnings(typed: str, days: tuple[int, ...]) -> None:
    assert read_weekdays(typed) == frozenset(days)


@pytest.mark.parametrize("typed", ["s", "t", "xx", "mon xx", " , "])
def test_weekdays_that_are_not_clear_are_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_weekdays(typed)


@pytest.mark.parametrize("days", [(0,), (1, 3, 6), tuple(range(7))])
def test_weekdays_read_back_as_written(days: tuple[int, ...]) -> None:
    assert read_weekdays(weekday_words(frozenset(days))) == frozenset(days)
