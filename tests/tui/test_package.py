"""One package in full, by keys."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import HistoryLine
from stockroom.services import history, packages, shelves
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.package_words import cautions_now, fact_texts, history_words
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.working import WorkingScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import APPLE, TODAY, World

SameScreen = Callable[[App[Any], str], None]


async def to_package(driver: Driver, code: str) -> PackageScreen:
    """Find a package on the Shelves and open it."""
    await driver.press("2", "slash", *code, "enter", "enter")
    assert isinstance(driver.screen, PackageScreen)
    assert driver.screen.detail.package.code == code
    return driver.screen


@pytest.mark.parametrize("size", SIZES)
async def test_a_package_in_full(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await to_package(driver, stocked.hard[0])
        same_screen(driver.app, "package")
        assert HARD_NAME in driver.text
        assert "(quality estimate, not safety)" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_a_suspect_package_says_what_to_bear_in_mind(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await to_package(driver, stocked.peas[1])
        same_screen(driver.app, "package-suspect")
        assert "discard it" in driver.words


async def test_checked_from_its_page(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_package(driver, stocked.hard[0])
        await driver.press("c", "c", "enter")
        assert screen.detail.package.condition == "sound"
        assert "checked: crisp, now sound" in driver.text


async def test_emptied_from_its_page_it_offers_less(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_package(driver, stocked.hard[0])
        await driver.press("x", "enter")
        assert screen.detail.package.condition == "used"
        assert f"gone {TODAY}" in driver.text
        await driver.press("x", "m", "d", "c")
        assert driver.screen is screen
        await driver.press("u")
        assert screen.detail.package.condition == "settling"


async def test_its_sisters_are_a_key_away(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await to_package(driver, stocked.hard[0])
        await driver.press("i")
        assert all(code in driver.text for code in stocked.hard)


async def test_the_working_opens_over_it(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await to_package(driver, stocked.hard[0])
        await driver.press("w")
        assert isinstance(driver.screen, WorkingScreen)
        await driver.press("w")
        assert isinstance(driver.screen, PackageScreen)


async def test_the_digit_of_the_screen_beneath_goes_back_to_it(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await to_package(driver, stocked.hard[0])
        await driver.press("3")
        assert isinstance(driver.screen, BenchScreen)
        await driver.press("2")
        assert isinstance(driver.screen, PackageScreen)
        await driver.press("2")
        assert isinstance(driver.screen, ShelvesScreen)


async def test_a_change_elsewhere_is_shown(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await to_package(driver, stocked.hard[0])
        packages.note_package(world.beside().room, stocked.hard[0], "[i]from the cellar[/i]")
        driver.app.look_again()
        await driver.settle()
        assert "[i]from the cellar[/i]" in driver.text


async def test_a_package_taken_out_of_the_record_is_said_to_be_gone(world: World) -> None:
    code = world.dry_lot()
    (package,) = world.pack(code, "1xjar-950:rest")
    async with driving(world, notices=True) as driver:
        await to_package(driver, package)
        history.undo(world.beside().room)
        driver.app.look_again()
        await driver.settle()
        assert "There is no package" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, ShelvesScreen)


# The words


def test_what_is_left_is_told_from_what_was_packed(world: World) -> None:
    stocked = stock(world)
    detail = shelves.package_detail(world.room, stocked.peas[0])
    facts = fact_texts(detail, UnitSystem.METRIC, TODAY)
    assert facts[2] == "25.0 g dry, 1.5 servings, of 40.0 g"
    assert facts[0].startswith("opened · sealed 2026-10-16 (40 days ago) · opened 2026-11-15 (10")


def test_unknown_ingredients_are_no_absence_of_allergens(world: World) -> None:
    stocked = stock(world)
    hard = shelves.package_detail(world.room, stocked.hard[0])
    assert "check what went into it" in fact_texts(hard, UnitSystem.METRIC, TODAY)[5]
    (code,) = world.packed(APPLE, "1xjar-950:rest")
    apple = shelves.package_detail(world.room, code)
    assert fact_texts(apple, UnitSystem.METRIC, TODAY)[5] == (
        "none of the nine major ones on record"
    )


def test_raw_food_and_doubt_end_by_deferring(world: World) -> None:
    stocked = stock(world)
    raw = cautions_now(shelves.package_detail(world.room, stocked.beef[0]))
    assert [one.key for one in raw] == ["raw-stays-raw", "local-codes"]
    packages.check_package(world.room, stocked.beef[0], Event.LEAK)
    doubtful = cautions_now(shelves.package_detail(world.room, stocked.beef[0]))
    keys = [one.key for one in doubtful]
    assert keys[0] == "soft-discard"
    assert keys[-2:] == ["raw-stays-raw", "local-codes"]
    assert len(keys) == len(set(keys)) > 3


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (
            HistoryLine(TODAY, "sealed", "settling", "", "Cellar", None, None, "", ""),
            "2026-11-25  sealed, to Cellar, now settling",
        ),
        (
            HistoryLine(TODAY, "moved", "sound", "Cellar", "Loft", None, None, "", ""),
            "2026-11-25  moved, to Loft",
        ),
        (
            HistoryLine(TODAY, "draw", "", "", "", 155, 800, "Pea soup", ""),
            "2026-11-25  taken, 15.5 g dry, water 80.0 g, for Pea soup",
        ),
        (
            HistoryLine(TODAY, "discard", "discarded", "", "", None, None, "", "moths"),
            "2026-11-25  discarded, moths",
        ),
        (
            HistoryLine(TODAY, "soft", "suspect", "", "", None, None, "", "[b]at the seal"),
            "2026-11-25  checked: soft, now suspect, [b]at the seal",
        ),
    ],
)
def test_history_in_words(line: HistoryLine, said: str) -> None:
    assert history_words(line, UnitSystem.METRIC) == said
