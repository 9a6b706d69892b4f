"""What becomes of a package found at fault, by keys: each answer one key, and what the rules say.

The outcomes are those of the disposition table of practice.md: what its rows say about food,
package and time is tested in the domain; here it is that a person gets there.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.services import deciding, packages, places, shelves
from stockroom.services.history import journal_page
from stockroom.tui.screens.again_forms import YES
from stockroom.tui.screens.decide import DecideScreen
from stockroom.tui.screens.decide_words import found_words
from stockroom.tui.screens.labels import LabelsScreen
from stockroom.tui.screens.repack import RepackScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.windows import CareScreen
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import Stocked, stock
from tests.world import TODAY, World

NARROW = (60, 20)
FREEZER = "Chest freezer"

SameScreen = Callable[[App[Any], str], None]


def with_freezer(world: World) -> Stocked:
    """What `stock` has, and a freezer."""
    stocked = stock(world)
    places.add_place(world.room, FREEZER, kind=places.PlaceKind.FREEZER, temperature_dc=-180)
    return stocked


def window(driver: Driver) -> DecideScreen:
    """The questions, which are in front."""
    assert isinstance(driver.screen, DecideScreen)
    return driver.screen


async def beef_soft(driver: Driver) -> None:
    """Find the first jar of raw beef soft, the day after its sealing, and ask about it."""
    await driver.press("down", "down", "down", "s", "v")


# Questions


@pytest.mark.parametrize("size", SIZES)
async def test_the_first_question(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("s", "v")
        same_screen(driver.app, "decide")
        assert "How does the food feel?" in driver.words
        assert "So far: Discard it. Do not taste it." in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_low_acid_without_oxygen_after_two_days_is_discarded(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("s", "v", "2")
        same_screen(driver.app, "decide-discard")
        assert window(driver).ways == (Outcome.DISCARD,)
        said = window(driver).query_one("Cautions").shown  # type: ignore[attr-defined]
        keys = [one.key for one in said]
        assert {"botulism", "toxin-no-sign", "never-taste", "sisters"} <= set(keys)
        assert keys[-1] == "local-codes"
        await driver.press("enter")
        assert world.package(stocked.hard[0]).condition == "discarded"
        assert isinstance(driver.screen, RoundScreen)
        await driver.press("u")
        assert world.package(stocked.hard[0]).condition == "suspect"


@pytest.mark.parametrize("size", SIZES)
async def test_a_number_is_typed(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    with_freezer(world)
    async with driving(world, size) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        same_screen(driver.app, "decide-number")
        assert window(driver).seen.question is Question.HOURS_SINCE_SEALING
        await driver.enter("18")
        same_screen(driver.app, "decide-outcome")
        assert window(driver).ways == (Outcome.HOLD, Outcome.DISCARD)
        assert "Dry the whole lot again" in driver.words


async def test_until_the_hours_are_said_they_count_as_more_than_a_day(world: World) -> None:
    """And when nobody knows them they count as more for good: nothing is rescued by it."""
    with_freezer(world)
    async with driving(world, NARROW) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        assert window(driver).seen.decision.choices == ()
        assert "So far: Discard it" in driver.words
        await driver.press("enter")
        assert window(driver).seen.answers[Question.HOURS_SINCE_SEALING] == "unknown"
        assert window(driver).ways == (Outcome.DISCARD,)


async def test_more_than_a_day_is_discarded(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        await driver.enter("25")
        assert window(driver).ways == (Outcome.DISCARD,)


@pytest.mark.parametrize("key", ["2", "3", "4", "5"])
async def test_any_sign_of_spoilage_discards(world: World, key: str) -> None:
    stock(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", key)
        assert window(driver).ways == (Outcome.DISCARD,)
        assert window(driver).seen.decision.row == "spoiled"


async def test_not_known_counts_as_the_stricter(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", "0")
        assert window(driver).seen.answers == {
            Question.FEEL: "slightly_soft",
            Question.SIGNS: "unknown",
        }
        assert window(driver).ways == (Outcome.DISCARD,)
        assert "signs: not known" in driver.words


async def test_yes_and_no_have_their_letters(world: World) -> None:
    """Acid fruit in air found soft some days after the sealing asks whether it was frozen."""
    stocked = stock(world)
    packages.check_package(world.later(-4).room, stocked.apples[0], Event.CRISP)
    packages.check_package(world.later(-2).room, stocked.apples[0], Event.SOFT)
    async with driving(world) as driver:
        await driver.press("home", "down", "v", "2", "1")
        assert window(driver).seen.package.code == stocked.apples[0]
        assert window(driver).seen.question is Question.FROZEN_SINCE_FOUND
        assert "y yes" in driver.words
        await driver.press("y")
        assert window(driver).seen.answers[Question.FROZEN_SINCE_FOUND] == "yes"


async def test_backspace_takes_an_answer_back(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("backspace")
        assert window(driver).seen.answers == {}
        await driver.press("2", "1")
        assert window(driver).seen.question is Question.HOURS_SINCE_SEALING
        await driver.type("4")
        await driver.press("backspace")
        assert window(driver).seen.question is Question.HOURS_SINCE_SEALING
        await driver.press("backspace")
        assert window(driver).seen.question is Question.SIGNS
        await driver.press("backspace")
        assert window(driver).seen.question is Question.FEEL


async def test_keys_that_mean_nothing_here_do_nothing(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("s", "v", "y", "n", "5", "6", "enter", "c", "u")
        assert window(driver).seen.answers == {}
        assert world.package(stocked.hard[0]).condition == "suspect"


async def test_escape_leaves_it_for_later(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("s", "v", "2", "escape")
        assert isinstance(driver.screen, RoundScreen)
        assert world.package(stocked.hard[0]).condition == "suspect"
        assert shelves.package_detail(world.room, stocked.hard[0]).inspections == ()


async def test_w_shows_rule_by_rule_how(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("s", "v", "2", "w")
        assert isinstance(driver.screen, WorkingScreen)
        assert "What to do with a soft package" in driver.words


async def test_another_program_that_decided_first_is_told_of(world: World) -> None:
    stocked = stock(world)
    async with driving(world, notices=True) as driver:
        await driver.press("s", "v")
        packages.discard_packages(world.beside().room, [stocked.hard[0]], "decided elsewhere")
        await driver.press("2")
        assert "If that was recorded by mistake, undo it." in driver.words


# What is done


async def test_held_in_the_freezer_with_its_sisters(world: World) -> None:
    stocked = with_freezer(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        await driver.enter("18")
        await driver.press("enter")
        form = driver.screen
        assert isinstance(form, FormScreen)
        assert "With its 1 suspect sister" in driver.words
        assert form.answers.key("sisters") == YES
        where = form.answers.choice("place")
        assert where is not None
        assert where.label == FREEZER
        await driver.press("enter", "enter")
        assert isinstance(driver.screen, RoundScreen)
        for code in stocked.beef:
            assert (world.package(code).condition, world.package(code).place) == ("held", FREEZER)
        assert journal_page(world.room)[0].words.startswith(f"decided on {stocked.beef[0]}")
        (decided,) = shelves.package_detail(world.room, stocked.beef[0]).inspections
        assert json.loads(decided.answers) == {
            "feel": "slightly_soft",
            "signs": "none",
            "hours_since_sealing": "18",
        }
        await driver.press("u")
        assert {world.package(code).condition for code in stocked.beef} == {"suspect"}


async def test_only_this_one_is_held(world: World) -> None:
    stocked = with_freezer(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        await driver.enter("18")
        await driver.press("enter")
        await driver.clear()
        await driver.enter("no", "")
        assert world.package(stocked.beef[0]).condition == "held"
        assert world.package(stocked.beef[1]).condition == "suspect"


async def test_leaving_the_place_goes_back_to_the_ways(world: World) -> None:
    stocked = with_freezer(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        await driver.enter("18")
        await driver.press("enter", "escape")
        assert window(driver).chosen == 0
        await driver.press("2", "enter")
        assert world.package(stocked.beef[0]).condition == "discarded"


async def test_without_a_freezer_a_place_is_picked(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await beef_soft(driver)
        await driver.press("2", "1")
        await driver.enter("18")
        await driver.press("enter", "enter")
        await driver.enter("galley")
        assert world.package(stocked.beef[0]).place == "Galley cupboard"


async def test_what_still_snaps_goes_on_to_the_form_for_packing_anew(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("l", "v", "1", "1")
        while window(driver).prompt is not None:
            await driver.press("0")
        assert window(driver).ways == (Outcome.REPACK, Outcome.DISCARD)
        await driver.press("enter")
        form = driver.screen
        assert isinstance(form, RepackScreen)
        assert form.where() is not None
        await driver.enter("1", "", "", "", "")
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, LabelsScreen)
        assert world.package(stocked.hard[0]).condition == "used"
        (made,) = shelves.package_detail(world.room, stocked.hard[0]).successors
        assert world.package(made).origin == "repacked"
        assert world.package(made).place == "Cold cellar/Rack 1/Bin 1"
        assert made in driver.text


async def test_left_at_the_form_it_still_says_to_pack_anew(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("l", "v", "1", "1")
        while window(driver).prompt is not None:
            await driver.press("0")
        await driver.press("enter", "escape")
        assert isinstance(driver.screen, RoundScreen)
        assert "pack it anew" in driver.text
        assert world.package(stocked.hard[0]).condition == "suspect"


def test_when_it_was_found_is_told_in_days(world: World) -> None:
    stocked = stock(world)
    packages.check_package(world.later(-1).room, stocked.hard[0], Event.DAMAGED)
    said = found_words(deciding.consider(world.room, stocked.hard[0]), TODAY)
    assert said.startswith("Found at fault yesterday · sealed 2 days ago · foil pouch")
