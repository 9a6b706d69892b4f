"""The check walk by keys: one package in hand after the other, codes typed and scanned."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.services import packages, places
from stockroom.services.history import journal_page
from stockroom.tui.app import StockroomApp
from stockroom.tui.screens import walk_list
from stockroom.tui.screens.check_walk import CheckWalkScreen
from stockroom.tui.screens.decide import DecideScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.walk_end import WalkEnd
from stockroom.tui.screens.walk_list import Walk, walk_of_place, walk_of_today
from stockroom.tui.screens.walk_words import spaced
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.doubtful import doubt
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.tui.stocked import Stocked, stock
from tests.world import PEAS, TODAY, World

SameScreen = Callable[[App[Any], str], None]


def the_walk(driver: Driver) -> Walk:
    """The walk, also under its end."""
    screen = next(one for one in driver.app.screen_stack if isinstance(one, CheckWalkScreen))
    return screen.list


def in_hand(driver: Driver) -> str:
    """The code of the package in hand."""
    package = the_walk(driver).current
    return package.code if package else ""


def condition(world: World, code: str) -> str:
    """What the store says of a package."""
    return world.package(code).condition


def today(stocked: Stocked) -> list[str]:
    """Today's list in the order of the shelves."""
    return [*stocked.hard, *stocked.beef, *stocked.apples]


@contextmanager
def bells(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[int]]:
    """How often the bell has rung."""
    rung: list[int] = []
    with monkeypatch.context() as patch:
        patch.setattr(StockroomApp, "bell", lambda self: rung.append(1))
        yield rung


# Where it leads


@pytest.mark.parametrize("size", SIZES)
async def test_todays_list_is_two_keys_away(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("k", "enter")
        same_screen(driver.app, "walk")
        assert [one.code for one in the_walk(driver).packages] == today(stocked)
        assert in_hand(driver) == stocked.hard[0]
        assert spaced(stocked.hard[0]) in driver.text
        assert "0 of 7" in driver.text
        assert "Never taste." in driver.words


async def test_a_place_is_picked_by_its_letters(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k")
        assert isinstance(driver.screen, FormScreen)
        assert "today's list" in driver.text
        await driver.clear()
        await driver.enter("bin 1")
        assert the_walk(driver).name == "Cold cellar/Rack 1/Bin 1"
        assert [one.code for one in the_walk(driver).packages] == list(stocked.hard)


async def test_from_the_shelves_it_goes_along_the_place_in_the_panel(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("2", "p", "down", "k")
        assert the_walk(driver).name == "Cold cellar"
        codes = {one.code for one in the_walk(driver).packages}
        assert codes == {*stocked.hard, *stocked.beef, *stocked.peas}
        await driver.press("escape")
        assert isinstance(driver.screen, ShelvesScreen)


async def test_an_empty_place_is_said_to_be_one(world: World) -> None:
    stock(world)
    places.add_place(world.room, "Attic")
    async with driving(world, notices=True) as driver:
        await driver.press("k")
        await driver.clear()
        await driver.enter("attic")
        assert isinstance(driver.screen, RoundScreen)
        assert "Attic: nothing there wants looking at." in driver.words


async def test_a_place_with_too_much_in_it_is_not_begun(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(walk_list, "MOST_ON_A_WALK", 3)
    stocked = stock(world)
    async with driving(world, notices=True) as driver:
        await driver.press("2", "p", "down", "k")
        assert isinstance(driver.screen, ShelvesScreen)
        assert "9 packages are too many for one walk" in driver.words
        await driver.press("down", "down", "k")
        assert [one.code for one in the_walk(driver).packages] == list(stocked.hard)


def test_bin_two_comes_before_bin_ten(world: World) -> None:
    world.places("Rack", "Rack/Bin 2", "Rack/Bin 10")
    lot = world.dry_lot()
    (far,) = world.pack(lot, "1xbag-zip-1000:50", place="Bin 10")
    (near,) = world.pack(lot, "1xbag-zip-1000:50", place="Bin 2")
    walk = walk_of_today(world.later(1).room)
    assert [one.code for one in walk.packages] == [near, far]


def test_what_was_sealed_today_is_left_out(world: World) -> None:
    world.places("Rack")
    (code,) = world.packed(PEAS, "1xjar-950:rest", place="Rack")
    (place,) = places.list_places(world.room)
    assert walk_of_place(world.room, place).packages == []
    later = world.later(1)
    assert [one.code for one in walk_of_place(later.room, place).packages] == [code]


def test_what_is_to_be_decided_is_no_part_of_todays_list(world: World) -> None:
    found = doubt(world)
    walk = walk_of_today(world.room)
    codes = [one.code for one in walk.packages]
    assert found.sister in codes
    assert found.stocked.peas[1] not in codes
    assert found.held not in codes
    sister = world.package(found.sister)
    assert walk.why[sister.package_id] == "sister soft"


# Findings


async def test_a_key_records_and_the_next_is_in_hand(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "c")
        assert condition(world, stocked.hard[0]) == "sound"
        assert in_hand(driver) == stocked.hard[1]
        assert f"✓ {stocked.hard[0]} crisp" in driver.text
        assert "1 of 7" in driver.text
        await driver.press("l")
        assert condition(world, stocked.hard[1]) == "suspect"
        assert in_hand(driver) == stocked.hard[2]


async def test_a_run_of_keys_each_finds_its_own_package(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        await driver.type("ccsd")
        found = [condition(world, code) for code in today(stocked)[:4]]
        assert found == ["suspect", "suspect", "suspect", "suspect"]
        words = [one.words for one in journal_page(world.room, count=4)]
        assert [one.split(":")[1].split(",")[0].strip() for one in words] == [
            "damaged",
            "soft",
            "crisp",
            "crisp",
        ]
        assert in_hand(driver) == stocked.beef[1]


@pytest.mark.parametrize("size", SIZES)
async def test_a_soft_one_makes_its_sisters_doubtful_in_their_turn(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("k", "enter", "s")
        same_screen(driver.app, "walk-soft")
        assert in_hand(driver) == stocked.hard[1]
        assert "suspect: sister soft" in driver.words
        await driver.press("c")
        assert condition(world, stocked.hard[1]) == "sound"


async def test_passing_by_comes_back_to_it_at_the_end(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "space")
        assert in_hand(driver) == stocked.hard[1]
        await driver.type("cccccc")
        assert in_hand(driver) == stocked.hard[0]
        assert "6 of 7" in driver.text
        await driver.press("c")
        assert isinstance(driver.screen, WalkEnd)


async def test_up_and_down_go_along_without_recording(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "down", "down", "up")
        assert in_hand(driver) == stocked.hard[1]
        await driver.press("up", "up", "up")
        assert in_hand(driver) == stocked.hard[0]
        assert "0 of 7" in driver.text


async def test_crisp_does_not_clear_what_was_soft_on_an_earlier_day(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k")
        await driver.clear()
        await driver.enter("cold cellar")
        with bells(monkeypatch) as rung:
            await driver.enter(stocked.peas[1])
            await driver.press("c")
            assert rung
        assert condition(world, stocked.peas[1]) == "suspect"
        assert "a crisp look does not undo that" in driver.words
        assert in_hand(driver) == stocked.peas[1]


# Undo


async def test_u_takes_the_last_look_back_and_the_package_in_hand(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "c", "s", "u")
        assert in_hand(driver) == stocked.hard[1]
        assert condition(world, stocked.hard[1]) == "settling"
        assert condition(world, stocked.hard[0]) == "sound"
        assert "1 of 7" in driver.text
        await driver.press("U")
        assert condition(world, stocked.hard[1]) == "suspect"
        assert "2 of 7" in driver.text
        await driver.press("u", "u")
        assert condition(world, stocked.hard[0]) == "settling"
        assert "0 of 7" in driver.text


async def test_u_takes_nothing_back_that_was_no_part_of_the_walk(world: World) -> None:
    stocked = stock(world)
    packages.note_package(world.room, stocked.hard[0], "kept")
    async with driving(world) as driver:
        await driver.press("k", "enter", "u")
        assert world.package(stocked.hard[0]).note == "kept"
        assert "Nothing of this walk is left to take back." in driver.words
        await driver.press("c")
        packages.note_package(world.beside().room, stocked.hard[1], "from the kitchen")
        await driver.press("u")
        assert world.package(stocked.hard[1]).note == "from the kitchen"
        assert condition(world, stocked.hard[0]) == "sound"
        assert "Something else was recorded since." in driver.words


# Codes


async def test_a_scanned_code_takes_its_package_in_hand(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        await driver.enter(stocked.beef[1])
        assert in_hand(driver) == stocked.beef[1]
        await driver.press("c")
        assert condition(world, stocked.beef[1]) == "sound"


async def test_letters_of_a_code_are_no_findings(world: World) -> None:
    """Lot letters C, D, L and S are findings too: once a digit stands there they are letters."""
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        await driver.type("26327csldu")
        screen = driver.screen
        assert isinstance(screen, CheckWalkScreen)
        assert screen.code.typed == "26327CSLDU"
        assert condition(world, stocked.hard[0]) == "settling"
        await driver.press("escape")
        assert screen.code.typed == ""
        assert driver.screen is screen
        await driver.press("c")
        assert condition(world, stocked.hard[0]) == "sound"


async def test_a_burst_of_findings_and_scans_stays_in_order(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        for sign in f"c{stocked.beef[0]}":
            driver.app.post_message(_key(sign))
        driver.app.post_message(_key("enter"))
        driver.app.post_message(_key("l"))
        await driver.settle()
        assert condition(world, stocked.hard[0]) == "sound"
        assert condition(world, stocked.beef[0]) == "suspect"
        assert condition(world, stocked.hard[1]) == "settling"


def _key(name: str) -> Any:
    from textual import events

    return events.Key(name, name if len(name) == 1 else None)


@pytest.mark.parametrize("size", SIZES)
async def test_a_code_half_typed(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("k", "enter")
        await driver.type(f"{stocked.beef[0]}x")
        await driver.press("backspace")
        same_screen(driver.app, "walk-code")
        await driver.press("enter")
        assert in_hand(driver) == stocked.beef[0]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("26327A99", "There is no package"),
        ("26327A01X", "mistyped"),
        ("9", "cannot be read"),
        ("26327A", "the whole code of a package"),
    ],
)
async def test_what_is_no_package_rings(
    world: World, monkeypatch: pytest.MonkeyPatch, typed: str, said: str
) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        with bells(monkeypatch) as rung:
            await driver.enter(typed)
            assert rung == [1]
        assert said in driver.words
        assert in_hand(driver) == stocked.hard[0]


async def test_gone_held_and_too_early_ring(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    found = doubt(world)
    packages.discard_packages(world.room, [found.stocked.hard[2]], "torn")
    (fresh,) = world.packed(PEAS, "1xjar-950:rest")
    async with driving(world) as driver:
        await driver.press("k", "enter")
        with bells(monkeypatch) as rung:
            await driver.enter(found.stocked.hard[2])
            assert f"is discarded since {TODAY}." in driver.words
            await driver.enter(found.held)
            assert "is held: it waits to be dried." in driver.words
            await driver.enter(fresh)
            assert "its settle check is due tomorrow." in driver.words
            assert len(rung) == 3


async def test_a_code_done_twice_rings_and_may_be_recorded_anew(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "c")
        with bells(monkeypatch) as rung:
            await driver.enter(stocked.hard[0])
            assert rung == [1]
        assert "was looked at already: crisp. A key records anew." in driver.words
        await driver.press("d")
        assert condition(world, stocked.hard[0]) == "suspect"
        assert "1 of 7" in driver.text


async def test_what_stands_elsewhere_is_taken_in_when_scanned_again(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        with bells(monkeypatch) as rung:
            await driver.enter(stocked.peas[2])
            assert rung == [1]
            assert "is not on this walk: Cold cellar/Rack 1/Bin 2." in driver.words
            assert in_hand(driver) == stocked.hard[0]
            await driver.enter(stocked.peas[3], stocked.peas[2])
            assert in_hand(driver) == stocked.hard[0]
            await driver.enter(stocked.peas[2])
        assert in_hand(driver) == stocked.peas[2]
        assert "0 of 8" in driver.text
        await driver.press("c")
        assert in_hand(driver) == stocked.hard[1]


# The end


@pytest.mark.parametrize("size", SIZES)
async def test_the_end_sums_up(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("k", "enter")
        await driver.type("cscccc")
        await driver.press("l")
        same_screen(driver.app, "walk-end")
        assert "Looked at 7 of 7 packages." in driver.words
        assert "5 crisp · 1 soft · 1 leak" in driver.words
        end = driver.screen
        assert isinstance(end, WalkEnd)
        assert [one.code for one in end.doubted] == [stocked.hard[0]]
        assert [step.package.code for step in the_walk(driver).to_decide] == [
            stocked.hard[1],
            stocked.apples[1],
        ]
        await driver.press("enter")
        assert isinstance(driver.screen, RoundScreen)


async def test_ended_early_it_says_how_far_it_came(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "c", "c", "escape")
        assert "Looked at 2 of 7 packages." in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, CheckWalkScreen)
        await driver.press("escape", "enter")
        assert isinstance(driver.screen, RoundScreen)


async def test_without_a_look_it_just_ends(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "escape")
        assert isinstance(driver.screen, RoundScreen)


async def test_from_the_end_to_the_decision(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "s", "escape", "v")
        assert isinstance(driver.screen, DecideScreen)
        assert driver.screen.seen.package.code == stocked.hard[0]
        assert isinstance(driver.app.screen_stack[-2], RoundScreen)


async def test_from_the_end_on_to_the_sisters(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "c", "s", "escape", "k")
        assert isinstance(driver.screen, CheckWalkScreen)
        assert the_walk(driver).name == "Sisters"
        codes = [one.code for one in the_walk(driver).packages]
        assert codes == [stocked.hard[0], stocked.hard[2]]
        await driver.type("cc")
        assert {condition(world, code) for code in codes} == {"sound"}


# Another program


async def test_what_is_discarded_elsewhere_drops_out(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter")
        packages.discard_packages(world.beside().room, [stocked.hard[1]], "elsewhere")
        packages.check_package(world.beside().room, stocked.hard[0], Event.LEAK)
        driver.app.look_again()
        await driver.settle()
        assert "0 of 6" in driver.text
        assert "suspect: leak: decide" in driver.words
        await driver.press("space")
        assert in_hand(driver) == stocked.hard[2]


async def test_every_key_of_the_walk_is_listed(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("k", "enter", "question_mark")
        for name in ("Crisp", "Pass by", "Undo", "End", "Code"):
            assert name in driver.text
