"""The climate of a place by keys: months, humidity, a logger's file, the plot."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.quantities import UnitSystem
from stockroom.errors import BadInput
from stockroom.services.climate import climate_page, import_readings, set_humidity, set_months
from stockroom.services.household import change_household
from stockroom.tui.screens.climate import ClimateScreen
from stockroom.tui.screens.climate_forms import LoggerForm, read_months, read_text
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.plots import PlotScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]

CELLAR = "Cold cellar"

LOGGER = """logger of the cellar
date and time;temperature °C;humidity %
2026-01-05 06:00;8,0;80
2026-01-06 06:00;8,4;80
not a time;9,0;80
2026-07-05 06:00;15,2;80
2026-07-06 06:00;999;80
2026-07-06 18:00;15,6;80
"""


async def to_climate(driver: Driver) -> ClimateScreen:
    """Go to the first place of the panel and open its climate."""
    await driver.press("2", "p", "down", "T")
    assert isinstance(driver.screen, ClimateScreen)
    assert driver.screen.page.place.path == CELLAR
    return driver.screen


@pytest.mark.parametrize("size", SIZES)
async def test_a_steady_place(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await to_climate(driver)
        same_screen(driver.app, "climate-steady")
        assert "12.0 °C all year, as stated here" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_twelve_months(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    stock(world)
    set_months(world.room, CELLAR, {1: 80, 7: 160})
    set_humidity(world.room, CELLAR, 70)
    async with driving(world, size) as driver:
        await to_climate(driver)
        same_screen(driver.app, "climate-months")


async def test_months_typed_on_one_line(world: World) -> None:
    stocked = stock(world)
    before = world.package(stocked.peas[3]).best_by
    async with driving(world) as driver:
        screen = await to_climate(driver)
        await driver.press("e")
        await driver.enter("8 8 9 11 14 17 19 19 17 14 11 9")
        assert driver.screen is screen
        assert screen.page.months_dc == (80, 80, 90, 110, 140, 170, 190, 190, 170, 140, 110, 90)
        assert "twelve months, stated here or above" in driver.words
        assert world.package(stocked.peas[3]).best_by != before
        await driver.press("escape", "u")
        assert world.package(stocked.peas[3]).best_by == before


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("8 8 9", "twelve temperatures"),
        ("8 8 9 11 x 17 19 19 17 14 11 9", "“May x” cannot be read"),
        ("jan 8 foo 3", "“foo” cannot be read"),
        ("jan", "“Jan” cannot be read"),
        ("8 8 9 11 90 17 19 19 17 14 11 9", "a temperature from -80 to 60 °C"),
    ],
)
async def test_months_that_cannot_be_read_stay_on_the_line(
    world: World, typed: str, said: str
) -> None:
    stock(world)
    async with driving(world) as driver:
        await to_climate(driver)
        await driver.press("e")
        await driver.enter(typed)
        assert isinstance(driver.screen, FormScreen)
        assert driver.screen.fields[0].text == typed
        assert said in driver.words
    assert climate_page(world.room, CELLAR).climate.monthly_dc == ()


def test_months_by_name_and_in_fahrenheit() -> None:
    assert read_months("jan 8 July=19.5", UnitSystem.METRIC) == {1: 80, 7: 195}
    # 50 °F = 10 °C (definition of the Fahrenheit scale)
    assert read_months(" ".join(["50"] * 12), UnitSystem.US) == dict.fromkeys(range(1, 13), 100)
    assert read_months("  ", UnitSystem.METRIC) == {}


async def test_humidity(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        screen = await to_climate(driver)
        await driver.press("h")
        await driver.enter("120")
        assert isinstance(driver.screen, FormScreen)
        assert driver.screen.fields[0].text == "120"
        await driver.clear()
        await driver.enter("65")
        assert driver.screen is screen
        assert "65 %" in driver.text
        assert climate_page(world.room, CELLAR).climate.humidity_percent == 65


async def test_dropping_the_months_goes_back_to_the_steady_temperature(world: World) -> None:
    stock(world)
    set_months(world.room, CELLAR, {1: 80, 7: 160})
    async with driving(world) as driver:
        await to_climate(driver)
        await driver.press("d")
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("enter")
        assert "12.0 °C all year, as stated here" in driver.words
        assert climate_page(world.room, CELLAR).climate.temperature_dc == 120


# A logger's file


@pytest.mark.parametrize("size", SIZES)
async def test_a_file_is_shown_before_it_is_kept(
    world: World, tmp_path: Path, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    path = tmp_path / "cellar.csv"
    path.write_text(LOGGER, encoding="utf-8")
    async with driving(world, size) as driver:
        screen = await to_climate(driver)
        await driver.press("l")
        assert isinstance(driver.screen, LoggerForm)
        await driver.enter(str(path))
        await driver.press("f9")
        assert isinstance(driver.screen, ConfirmScreen)
        same_screen(driver.app, "climate-preview")
        assert "4 readings from 2026-01-05 to 2026-07-06" in driver.words
        assert "line 5: the time “not a time” cannot be read" in driver.words
        assert "line 7: 999 is not a temperature of a storage place" in driver.words
        assert climate_page(world.room, CELLAR).readings == 0
        await driver.press("enter")
        assert driver.screen is screen
        page = climate_page(world.room, CELLAR)
        # Only January and July were read there, so the year as a whole was not measured.
        assert (page.readings, page.climate.measured) == (4, False)
        # January's readings are all near 8 °C and July's near 15.4 °C, so their means are too.
        assert page.months_dc[0] in range(80, 84)
        assert page.months_dc[6] in range(152, 157)
        assert "4 readings of a logger" in driver.words


async def test_what_was_typed_for_a_file_stays_when_it_is_refused(
    world: World, tmp_path: Path
) -> None:
    stock(world)
    path = tmp_path / "cellar.csv"
    path.write_text(LOGGER, encoding="utf-8")
    async with driving(world) as driver:
        await to_climate(driver)
        await driver.press("l")
        await driver.enter(str(tmp_path / "none.csv"))
        await driver.press("f9")
        form = driver.screen
        assert isinstance(form, LoggerForm)
        assert "cannot be read" in form.fields[0].error
        assert form.fields[0].text == str(tmp_path / "none.csv")
        await driver.clear()
        await driver.enter(str(path), "", "warmth")
        await driver.press("f9")
        assert "temperature °C" in form.fields[2].error
        assert [field.text for field in form.fields[:3]] == [str(path), "", "warmth"]
        await driver.clear()
        await driver.press("f9")
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("escape")
        assert driver.screen is form
        assert form.fields[0].text == str(path)
    assert climate_page(world.room, CELLAR).readings == 0


@pytest.mark.parametrize("typed", ["", "/", "\0bad", "~nobody-of-this-name/x.csv"])
def test_what_is_no_file_is_said(typed: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_text(typed)
    assert refused.value.what == "file"


def test_a_file_without_utf_8_is_read_all_the_same(tmp_path: Path) -> None:
    path = tmp_path / "old.csv"
    path.write_bytes("time;temp °C\n2026-01-05 06:00;8,0\n".encode("latin-1"))
    assert "°C" in read_text(str(path))


async def test_a_file_in_fahrenheit_when_the_person_says_so(world: World, tmp_path: Path) -> None:
    stock(world)
    path = tmp_path / "cellar.csv"
    path.write_text("time,temp\n2026-01-05 06:00,50\n2026-01-06 06:00,50\n", encoding="utf-8")
    async with driving(world) as driver:
        await to_climate(driver)
        await driver.press("l")
        await driver.enter(str(path), "", "")
        await driver.clear()
        await driver.enter("F")
        assert isinstance(driver.screen, ConfirmScreen)
        assert "in °F" in driver.words
        await driver.press("enter")
    # 50 °F = 10 °C (definition of the Fahrenheit scale)
    assert climate_page(world.room, CELLAR).months_dc == (100,) * 12


@pytest.mark.parametrize(
    ("months", "said"),
    [
        (range(1, 13), "twelve months, from readings above"),
        ((1, 7), "twelve months, stated here or above"),
    ],
)
async def test_a_place_below_has_the_months_of_the_one_above(
    world: World, months: Iterable[int], said: str
) -> None:
    stock(world)
    rows = [f"2025-{month:02}-{day:02} 12:00,9.0" for month in months for day in range(1, 29)]
    import_readings(world.room, CELLAR, "\n".join(["time,temp °C", *rows]))
    async with driving(world) as driver:
        await driver.press("2", "p", "down", "down", "T")
        assert isinstance(driver.screen, ClimateScreen)
        assert driver.screen.page.place.path == f"{CELLAR}/Rack 1"
        assert said in driver.words
        assert driver.screen.page.months_dc == (90,) * 12


# The plot


@pytest.mark.parametrize("size", SIZES)
async def test_the_year_of_a_place(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    set_months(world.room, CELLAR, {1: 80, 7: 160})
    async with driving(world, size) as driver:
        await to_climate(driver)
        await driver.press("v")
        assert isinstance(driver.screen, PlotScreen)
        same_screen(driver.app, "climate-plot")
        await driver.press("end")
        assert "Jul  16.0 °C" in driver.text


async def test_the_year_in_fahrenheit(world: World) -> None:
    stock(world)
    change_household(world.room, units=UnitSystem.US)
    set_months(world.room, CELLAR, {1: 100, 7: 200})
    async with driving(world) as driver:
        await to_climate(driver)
        await driver.press("v")
        # 10 °C = 50 °F and 20 °C = 68 °F (definition of the Fahrenheit scale), between round ticks
        assert "70┤" in driver.text and "50┤" in driver.text
        await driver.press("end")
        assert "Jan  50.0 °F" in driver.text and "Jul  68.0 °F" in driver.text


async def test_a_steady_place_has_no_year_to_plot(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        screen = await to_climate(driver)
        await driver.press("v")
        assert driver.screen is screen
        assert "Jan" not in driver.text


async def test_a_place_nothing_is_known_of_has_no_plot(world: World) -> None:
    world.places("Loft")
    async with driving(world) as driver:
        await driver.press("2", "p", "down", "T")
        assert "not known: reckoned with as 21 °C" in driver.words
        await driver.press("v", "d")
        assert isinstance(driver.screen, ClimateScreen)
