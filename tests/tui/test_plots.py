"""Plots: life used against time and the stock by year, each readable without colour."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest
from textual.app import App

from stockroom.services import packages
from stockroom.services.life_curve import life_curve
from stockroom.services.stock_years import stock_years
from stockroom.tui.screens.life_plot import day_ticks
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.plots import PlotScreen, round_ticks, tick_names
from stockroom.tui.screens.stock_plot import figure_lines
from tests.tui.driving import driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import TODAY, World

SameScreen = Callable[[App[Any], str], None]


@pytest.mark.parametrize("size", SIZES)
async def test_the_life_of_a_package(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    packages.move_packages(world.later(-1).room, [stocked.hard[0]], "Galley cupboard")
    async with driving(world, size) as driver:
        await driver.press("2", "slash", *stocked.hard[0], "enter", "enter", "l")
        assert isinstance(driver.screen, PlotScreen)
        same_screen(driver.app, "life-plot")
        assert HARD_NAME in driver.text
        assert "quality estimate, not safety" in driver.words
        await driver.press("end")
        assert "moved to Galley cupboard" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, PackageScreen)


async def test_the_life_plot_reads_without_colour(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "slash", *stocked.peas[3], "enter", "l")
        assert "·" in driver.text, "the edges are dots"
        assert any("\u2800" <= sign <= "\u28ff" for sign in driver.text), "the middle is a line"
        assert "today" in driver.text


def test_the_curve_ends_where_the_best_by_and_its_band_do(world: World) -> None:
    """Each edge is used up within the month its date was rounded down to, and not before."""
    code = stock(world).peas[3]
    curve = life_curve(world.room, code)
    shares = {point.day: point.used for point in curve.points}
    found = curve.projection
    # Dates are whole months from sealing, rounded down (so up to 31 days before the end).
    for edge, share in (
        (found.low, lambda used: used.most),
        (found.best_by, lambda used: used.middle),
        (found.high, lambda used: used.least),
    ):
        assert share(shares[edge]) <= 1
        pace = share(shares[edge]) / (edge - curve.points[0].day).days
        assert share(shares[edge]) + 32 * pace >= 1
    for used in shares.values():
        assert 0 <= used.least <= used.middle <= used.most <= 1


def test_a_warmer_place_uses_life_up_quicker_from_the_day_of_the_move(world: World) -> None:
    code = stock(world).peas[3]
    before = life_curve(world.room, code)
    packages.move_packages(world.room, [code], "Galley cupboard")
    after = life_curve(world.room, code)
    (moved,) = [mark for mark in after.marks if mark.words == "moved to Galley cupboard"]
    assert moved.day == TODAY and moved.is_event
    old = {point.day: point.used.middle for point in before.points}
    new = {point.day: point.used.middle for point in after.points}
    assert new[TODAY] == pytest.approx(old[TODAY])
    slope = _slope(before, TODAY)
    # A Q10 of 2 and 9 °C between the places (12 and 21 °C) make time alone 2^0.9 = 1.87 times
    # as quick; oxygen, which goes at its own pace, holds that back.
    assert slope < _slope(after, TODAY) < 2**0.9 * slope * 1.001


def _slope(curve: Any, day: date) -> float:
    """Share used a day over the hundred days after a day."""
    later = [point for point in curve.points if point.day >= day][:8]
    span = (later[-1].day - later[0].day) / timedelta(days=1)
    return (later[-1].used.middle - later[0].used.middle) / span


def test_an_opened_package_is_marked_as_opened(world: World) -> None:
    marks = life_curve(world.room, stock(world).peas[0]).marks
    assert [mark.words for mark in marks if mark.is_event][1] == "opened"
    assert [mark.day for mark in marks] == sorted(mark.day for mark in marks)


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (4.0, 25.0, ["0", "5", "10", "15", "20", "25"]),
        (-18.2, -17.9, ["-18.2", "-18.1", "-18", "-17.9"]),
        (0, 120.4, ["0", "50", "100", "150"]),
        (7.0, 7.0, ["7", "7.2"]),
        (0, 0.4, ["0", "0.1", "0.2", "0.3", "0.4"]),
    ],
)
def test_ticks_are_round_numbers_around_what_is_plotted(
    low: float, high: float, said: list[str]
) -> None:
    ticks = round_ticks(low, high)
    assert [name.strip() for name in tick_names(ticks)] == said
    assert ticks[0] <= low + 1e-9 and ticks[-1] >= high - 1e-9
    assert len({len(name) for name in tick_names(ticks)}) == 1


@pytest.mark.parametrize("size", SIZES)
async def test_no_year_runs_into_another(world: World, size: tuple[int, int]) -> None:
    """Every bar stands apart: between two filled cells of the bottom row are empty ones."""
    stock(world)
    years = [one for one in stock_years(world.room) if one.year is not None]
    async with driving(world, size) as driver:
        await driver.press("2", "v")
        (bottom,) = [line for line in driver.text.splitlines() if " 0┤" in line]
        inside = bottom.split("┤")[1].split("│")[0]
        bars = inside.replace("█", "#").split()
        filled = [one for one in years if one.servings > 0]
        assert len(bars) == len(filled)
        assert len({len(bar) for bar in bars}) == 1, "every bar is as wide"


def test_ticks_of_a_life_of_a_day() -> None:
    assert day_ticks(TODAY, TODAY)[1] == ["2026-11"]
    assert len(day_ticks(TODAY, date(2051, 1, 1))[0]) == 4


# The stock


@pytest.mark.parametrize("size", SIZES)
async def test_the_stock_by_year(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("2", "v")
        assert isinstance(driver.screen, PlotScreen)
        same_screen(driver.app, "stock-plot")
        assert "quality estimate, not safety" in driver.words


def test_the_stock_by_year_is_what_the_packages_add_up_to(world: World) -> None:
    stocked = stock(world)
    every = [
        world.package(code)
        for code in (*stocked.peas, *stocked.apples, *stocked.hard, *stocked.beef)
    ]
    years = stock_years(world.room)
    assert sum(one.packages for one in years) == len(every)
    assert sum(one.servings for one in years) == sum(one.servings_left for one in every)
    for one in years:
        mine = [p for p in every if p.best_by and p.best_by.year == one.year]
        assert (one.packages, one.servings) == (len(mine), sum(p.servings_left for p in mine))
    known = [one.year for one in years]
    assert known == list(range(known[0] or 0, (known[-1] or 0) + 1))


def test_packages_without_a_best_by_come_last_and_say_so(world: World) -> None:
    from stockroom.services import places

    places.add_place(world.room, "Boiler room", temperature_dc=500)
    world.packed(place="Boiler room")
    years = stock_years(world.room)
    assert [one.year for one in years] == [None]
    assert figure_lines(years)[-1].startswith("none: the estimate gives no best-by")


async def test_an_empty_store_says_so(world: World) -> None:
    async with driving(world) as driver:
        await driver.press("2", "v")
        assert "Nothing is on the shelves yet." in driver.words


def test_plots_are_imported_only_when_one_is_opened() -> None:
    code = (
        "import sys, stockroom.tui.app, stockroom.tui.screens.shelves,"
        " stockroom.tui.screens.package, stockroom.tui.screens.climate,"
        " stockroom.tui.screens.whatif;"
        "print([name for name in sys.modules if 'plotext' in name])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
