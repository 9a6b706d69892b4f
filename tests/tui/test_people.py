"""The people of the household by keys: who is listed, what each needs, the forms, the working."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.foods import Allergen
from stockroom.domain.member_records import Figures
from stockroom.domain.person import Activity, Sex
from stockroom.domain.quantities import UnitSystem
from stockroom.services.household import change_household
from stockroom.services.people import Told, add_member, list_members
from stockroom.tui.help import key_sections
from stockroom.tui.palette import KeyCommands
from stockroom.tui.screens.people import PeopleScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import World

SameScreen = Callable[[App[Any], str], None]

HARD_PERSON = "[b]Ñandú[/] 冷"
"""Markup and wide characters, as a name."""


def people(world: World) -> None:
    """Three of a household of four: measured, a child, and one without a size."""
    stock(world)
    change_household(world.room, people=4)
    add_member(
        world.room,
        HARD_PERSON,
        sex=Sex.FEMALE,
        age_years=Fraction(30),
        activity=Activity.LOW,
        told=Told(
            body_weight_dg=650_000,
            height_mm=1650,
            allergens=[Allergen.FISH, Allergen.TREE_NUTS],
            dislikes=[HARD_NAME],
        ),
    )
    for name, sex, age in (("Little", Sex.MALE, 9), ("Uncle", Sex.MALE, 40)):
        add_member(
            world.room,
            name,
            sex=sex,
            age_years=Fraction(age),
            activity=Activity.LOW,
            told=Told(),
        )


async def to_people(driver: Driver) -> PeopleScreen:
    """Open the list from the Round."""
    await driver.press("semicolon")
    assert isinstance(driver.screen, PeopleScreen)
    return driver.screen


@pytest.mark.parametrize("size", SIZES)
async def test_the_list_with_the_total(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    people(world)
    async with driving(world, size) as driver:
        await to_people(driver)
        same_screen(driver.app, "people")
        # 2169.756 (EER of 2005) + 1800 (table, boy of 9) + 2600 (table, man of 40) + 2300.
        assert "8,870 kcal" in driver.words
        assert "1 more person is not listed and counts as an average adult" in driver.words
        assert HARD_PERSON in driver.text
        assert "fish, tree nuts" in driver.words
        assert "no advice on what anybody should eat" in driver.words
        assert "No honey in any form under 12 months" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_nobody_listed(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    async with driving(world, size) as driver:
        await to_people(driver)
        same_screen(driver.app, "people-none")
        assert "Nobody is listed yet" in driver.words
        assert "4,600 kcal" in driver.words
        await driver.press("e", "d", "r")
        assert isinstance(driver.screen, PeopleScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_the_form(world: World, size: tuple[int, int], same_screen: SameScreen) -> None:
    people(world)
    async with driving(world, size) as driver:
        await to_people(driver)
        await driver.press("n")
        same_screen(driver.app, "people-add")
        await driver.press("escape", "e")
        same_screen(driver.app, "people-change")


async def test_a_person_by_keys(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await to_people(driver)
        await driver.press("n")
        await driver.enter(HARD_PERSON, "F", "30", "low", "143.3 lb", "5 ft 5 in", "", "fish")
        assert isinstance(driver.screen, PeopleScreen)
        (made,) = list_members(world.room)
        assert (made.name, made.sex, made.activity) == (HARD_PERSON, Sex.FEMALE, Activity.LOW)
        # 143.3 lb = 64.9998 kg, 5 ft 5 in = 1651 mm (NIST Handbook 44: 0.45359237 kg, 25.4 mm).
        assert (made.body_weight_dg, made.height_mm) == (649_998, 1651)
        assert (made.figures, made.allergens) == (Figures.OLD, (Allergen.FISH,))
        await driver.press("u")
        assert list_members(world.room) == ()
        assert "Nobody is listed yet" in driver.words


async def test_nothing_told_is_asked_for(world: World) -> None:
    async with driving(world) as driver:
        await to_people(driver)
        await driver.press("n")
        await driver.type("Ann")
        await driver.press("f9")
        assert "Type F or M." in driver.words
        await driver.enter("f", "1", "low")
        await driver.press("f9")
        assert "There is no energy figure for an age of 1 year." in driver.words
        assert "name its allergens with an adult's" in driver.words
        assert isinstance(driver.screen, FormScreen)
        assert driver.screen.fields[0].text == "Ann"
    assert list_members(world.room) == ()


async def test_a_change_keeps_what_was_not_touched(world: World) -> None:
    people(world)
    before = list_members(world.room)[0]
    async with driving(world, (60, 20)) as driver:
        await to_people(driver)
        await driver.press("enter")
        await driver.press("f9")
        assert "Nothing was changed." in driver.words
        await driver.clear()
        await driver.type("Ann")
        await driver.press("f9")
        after = list_members(world.room)[0]
        assert (after.name, after.body_weight_dg) == ("Ann", before.body_weight_dg)
        assert after.dislikes == before.dislikes
        await driver.press("e", *["enter"] * 4)
        await driver.clear()
        await driver.press("f9")
        assert "There is no energy figure for a height without a weight." in driver.words
        await driver.press("enter")
        await driver.clear()
        await driver.press("f9")
        unsized = list_members(world.room)[0]
        assert (unsized.size_known, unsized.figures) == (False, Figures.TABLE)


async def test_dislikes_go_on_and_off(world: World) -> None:
    people(world)
    async with driving(world) as driver:
        await to_people(driver)
        await driver.press("down", "d")
        await driver.type("peas")
        await driver.press("enter", "f9")
        (peas,) = list_members(world.room)[1].dislikes
        assert "Peas" in peas.food and "Peas" in driver.words
        await driver.press("d")
        assert "On the list: Peas" in driver.words
        await driver.type("peas")
        await driver.press("enter", "f9")
        assert list_members(world.room)[1].dislikes == ()
        await driver.press("d", "f9")
        assert "a food of your own" in driver.words


async def test_removed_and_brought_back(world: World) -> None:
    people(world)
    async with driving(world) as driver:
        await to_people(driver)
        await driver.press("down", "r")
        assert [one.name for one in list_members(world.room)] == [HARD_PERSON, "Uncle"]
        assert "2 more people are not listed" in driver.words
        await driver.press("u")
        assert [one.name for one in list_members(world.room)][1] == "Little"
        assert "Little" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_the_working_and_the_cautions(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    people(world)
    async with driving(world, size) as driver:
        await to_people(driver)
        await driver.press("w")
        assert isinstance(driver.screen, WorkingScreen)
        same_screen(driver.app, "people-working")
        assert len(driver.screen.workings) == 4
        await driver.press("escape", "exclamation_mark")
        assert isinstance(driver.screen, ReadScreen)
        assert "Institut national" in driver.words


async def test_units_of_the_household(world: World) -> None:
    people(world)
    change_household(world.room, units=UnitSystem.US)
    async with driving(world) as driver:
        await to_people(driver)
        assert "143.3 lb · 5 ft 5 in" in driver.words
        await driver.press("e", *["enter"] * 4)
        await driver.clear()
        await driver.type("150")
        await driver.press("f9")
        # 150 lb = 68.0389 kg (NIST Handbook 44).
        assert list_members(world.room)[0].body_weight_dg == 680_389
        assert list_members(world.room)[0].height_mm == 1650


async def test_keys_are_listed_and_in_the_palette(world: World) -> None:
    people(world)
    async with driving(world) as driver:
        screen = await to_people(driver)
        ids = {key.id for keys in key_sections(screen.active_bindings).values() for key in keys}
        wanted = {"add", "edit", "dislikes", "remove", "working", "cautions", "back"}
        assert {f"people-{name}" for name in wanted} <= ids
        assert KeyCommands in screen.COMMANDS
        await driver.press("escape")
        assert isinstance(driver.screen, RoundScreen)
        ids = {
            key.id for keys in key_sections(driver.screen.active_bindings).values() for key in keys
        }
        assert "people" in ids


async def test_tabs_lead_on_and_back(world: World) -> None:
    async with driving(world) as driver:
        await to_people(driver)
        await driver.press("2")
        assert not isinstance(driver.screen, PeopleScreen)
        await driver.press("1")
        assert isinstance(driver.screen, PeopleScreen)
        await driver.press("1")
        assert isinstance(driver.screen, RoundScreen)
