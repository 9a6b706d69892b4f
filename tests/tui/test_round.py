"""The Round by keys: what is recorded, where the cursor goes, what is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.services import bench, history, packages, today
from stockroom.services.history import journal_page
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.check_screens import CheckScreen, FindingScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.round_rows import kind_of, row_key
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import PEAS, World

NARROW = (60, 20)
"""On a narrow screen a window covers the page, so that its sentences can be read whole."""

SameScreen = Callable[[App[Any], str], None]


def the_round(driver: Driver) -> RoundScreen:
    """The Round, which lies at the bottom of its mode."""
    screen = driver.app.screen_stack[0]
    assert isinstance(screen, RoundScreen)
    return screen


def under_cursor(driver: Driver) -> str:
    """The code of the package under the cursor."""
    package = the_round(driver).package
    return package.code if package else ""


def codes(driver: Driver, kind: str) -> list[str]:
    """The packages of one section, in the order shown."""
    tasks = the_round(driver).tasks.items()
    return [getattr(task.record, "code", "") for key, task in tasks if kind_of(key) == kind]


def condition(world: World, code: str) -> str:
    """What the store says of a package."""
    return world.package(code).condition


# What it shows


@pytest.mark.parametrize("size", SIZES)
async def test_the_day_on_one_page(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        same_screen(driver.app, "round")
        assert "Wed 25 Nov 2026" in driver.text
        assert "5 settle checks · 1 in doubt · 1 opened · 2 to pack" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_a_new_store_says_where_to_begin(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        same_screen(driver.app, "round-empty")
        assert "Press 3 for the Bench: start a run" in driver.words


async def test_a_quiet_day_is_said_to_be_one(world: World) -> None:
    (code,) = world.packed(PEAS, "1xjar-950:rest")
    packages.discard_packages(world.room, [code], "spilt")
    async with driving(world) as driver:
        assert "Nothing wants doing today" in driver.words
        assert "All quiet" in driver.text


async def test_settle_checks_stand_in_shelf_order(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        assert codes(driver, "settle") == [*stocked.hard, *stocked.beef]
        assert codes(driver, "doubt") == [stocked.peas[1]]
        assert codes(driver, "opened") == [stocked.peas[0]]
        assert codes(driver, "use")[:2] == list(stocked.apples)
        assert len(codes(driver, "pack")) == 2
        assert len(codes(driver, "run")) == 1


async def test_a_package_sealed_today_is_not_due_yet(world: World) -> None:
    (code,) = world.packed(PEAS, "1xjar-950:rest")
    async with driving(world) as driver:
        assert codes(driver, "settle") == []
        assert codes(driver, "use") == [code]
    async with driving(world.later(1)) as driver:
        assert codes(driver, "settle") == [code]
        assert "due today" in driver.text


@pytest.mark.parametrize(
    ("container", "said"),
    [
        ("pouch-1500-foil", "Squeeze and listen"),
        ("bag-zip-1000", "Press the zip"),
        ("bag-vacuum-1500", "loose film is a leak"),
        ("jar-950", "Is the lid drawn down"),
        ("can-3300", "Are both ends flat"),
    ],
)
async def test_how_to_check_goes_by_the_container(world: World, container: str, said: str) -> None:
    world.packed(PEAS, f"1x{container}:rest")
    async with driving(world.later(1)) as driver:
        assert said in driver.words
        assert "Never taste." in driver.words


async def test_headings_are_passed_over_by_the_cursor(world: World) -> None:
    stocked = stock(world)
    every = [*stocked.hard, *stocked.beef, stocked.peas[1], stocked.peas[0], *stocked.apples]
    async with driving(world) as driver:
        seen = [under_cursor(driver)]
        for _ in every[1:]:
            await driver.press("down")
            seen.append(under_cursor(driver))
        assert seen == every
        await driver.press("up", "up")
        assert under_cursor(driver) == every[-3]
        await driver.press("home")
        assert under_cursor(driver) == every[0]
        assert "Settle check" in driver.text
        await driver.press("up")
        assert under_cursor(driver) == every[0]


# One key for a finding


async def test_crisp_is_one_key_and_the_cursor_moves_on(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("c")
        assert condition(world, stocked.hard[0]) == "sound"
        assert under_cursor(driver) == stocked.hard[1]
        assert codes(driver, "settle") == [*stocked.hard[1:], *stocked.beef]
        assert f"✓ checked {stocked.hard[0]} ({HARD_NAME}): crisp, now sound" in driver.words
        await driver.press("c", "c")
        assert condition(world, stocked.hard[2]) == "sound"
        assert under_cursor(driver) == stocked.beef[0]


async def test_keys_faster_than_the_screen_each_find_their_own_package(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.type("cccc")
        checked = [*stocked.hard, stocked.beef[0]]
        assert [condition(world, code) for code in checked] == ["sound"] * 4
        assert condition(world, stocked.beef[1]) == "settling"
        assert len([one for one in journal_page(world.room) if "crisp" in one.words]) == 4 + 6


async def test_a_key_too_many_never_clears_a_doubtful_package(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.type("c" * 12)
        assert isinstance(driver.screen, CheckScreen)
        assert condition(world, stocked.peas[1]) == "suspect"
        await driver.press("enter")
        assert condition(world, stocked.peas[1]) == "sound"


@pytest.mark.parametrize(("key", "finding"), [("s", "soft"), ("l", "leak"), ("d", "damaged")])
async def test_a_bad_finding_opens_its_cautions_at_once(
    world: World, key: str, finding: str
) -> None:
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press(key)
        assert condition(world, stocked.hard[0]) == "suspect"
        assert isinstance(driver.screen, FindingScreen)
        said = f"Recorded: checked {stocked.hard[0]} ({HARD_NAME}): {finding}, now suspect."
        assert said in driver.words
        assert "2 sister packages of lot 26327A are on the shelves" in driver.words
        await driver.press("escape")
        assert under_cursor(driver) == stocked.hard[1]
        assert stocked.hard[0] in codes(driver, "doubt")


@pytest.mark.parametrize("size", SIZES)
async def test_the_cautions_name_their_sources(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stock(world)
    async with driving(world, size) as driver:
        await driver.press("s")
        same_screen(driver.app, "finding")


async def test_the_cautions_end_by_deferring_to_others(world: World) -> None:
    stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press("s")
        assert "do not dry it again." in driver.words
        assert "Our own rule" in driver.words or "A rule chosen" in driver.words
        await driver.press("end")
        assert "Follow local codes and licensed guidance" in driver.words


async def test_from_the_cautions_to_the_sisters(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("s", "i")
        assert isinstance(driver.screen, ShelvesScreen)
        assert "“26327A”" in driver.text
        assert all(code in driver.text for code in stocked.hard)
        assert stocked.peas[2] not in driver.text


async def test_from_the_cautions_to_the_bin(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("s", "d")
        await driver.enter("soft two days after packing")
        assert condition(world, stocked.hard[0]) == "discarded"


async def test_a_package_without_sisters_offers_none(world: World) -> None:
    world.packed(PEAS, "1xjar-950:rest")
    async with driving(world.later(1), NARROW) as driver:
        await driver.press("s")
        assert "No other package of lot" in driver.words
        await driver.press("i")
        assert isinstance(driver.screen, FindingScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_elsewhere_a_finding_is_asked_about_first(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("down", "down", "down", "down", "down", "c")
        assert isinstance(driver.screen, CheckScreen)
        same_screen(driver.app, "check")
        assert "Crisp" in driver.words
        assert condition(world, stocked.peas[1]) == "suspect"
        await driver.press("l", "enter")
        assert isinstance(driver.screen, FindingScreen)
        assert journal_page(world.room)[0].words.endswith("leak, now suspect")


async def test_escape_leaves_a_check_unrecorded(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("down", "down", "down", "down", "down", "c", "escape")
        assert isinstance(driver.screen, RoundScreen)
        assert "crisp" not in journal_page(world.room)[0].words


async def test_a_check_the_store_refuses_moves_nothing(world: World) -> None:
    stocked = stock(world)
    async with driving(world, notices=True) as driver:
        packages.discard_packages(world.beside().room, [stocked.hard[0]], "gone meanwhile")
        await driver.press("c")
        assert condition(world, stocked.hard[0]) == "discarded"
        assert "If that was recorded by mistake, undo it." in driver.words


# Undo


async def test_undo_puts_the_package_and_the_cursor_back(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("c", "u")
        assert condition(world, stocked.hard[0]) == "settling"
        assert under_cursor(driver) == stocked.hard[0]
        assert "5 settle checks" in driver.text
        await driver.press("U")
        assert condition(world, stocked.hard[0]) == "sound"
        assert stocked.hard[0] not in codes(driver, "settle")


# Taking


async def test_the_next_to_use_is_two_keys_from_anywhere(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("x")
        assert isinstance(driver.screen, FormScreen)
        assert f"Take {stocked.peas[0]} {PEAS}" in driver.words
        await driver.press("enter")
        assert condition(world, stocked.peas[0]) == "used"
        await driver.press("x", "enter")
        assert condition(world, stocked.apples[0]) == "used"


async def test_x_takes_the_package_under_the_cursor(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("e", "down", "down", "x")
        assert under_cursor(driver) == stocked.apples[1]
        await driver.enter("20")
        package = world.package(stocked.apples[1])
        assert (package.condition, package.taken_dg) == ("opened", 200)


async def test_raw_food_says_so_where_it_is_taken(world: World) -> None:
    stock(world)
    async with driving(world, NARROW) as driver:
        while the_round(driver).package is None or the_round(driver).package.preparation != "raw":
            await driver.press("down")
        await driver.press("enter", "x")
        assert "Raw stays raw: cook it after adding water" in driver.words
        assert "Not settle-checked yet" in driver.words


async def test_d_shift_throws_away_with_a_reason(world: World) -> None:
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press("D", "enter")
        assert "A discard needs a reason" in driver.words
        assert condition(world, stocked.hard[0]) == "settling"
        await driver.enter("torn by a mouse")
        assert condition(world, stocked.hard[0]) == "discarded"


# Going elsewhere


async def test_enter_opens_the_package(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("enter")
        assert isinstance(driver.screen, PackageScreen)
        assert driver.screen.detail.package.code == stocked.hard[0]
        await driver.press("1")
        assert isinstance(driver.screen, RoundScreen)


async def test_enter_on_a_lot_and_on_a_run_goes_to_the_bench(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("end", "enter")
        assert isinstance(driver.screen, RunScreen)
        assert isinstance(driver.app.screen_stack[0], BenchScreen)
        await driver.press("escape", "f2", "up", "enter")
        assert isinstance(driver.screen, LotScreen)


async def test_a_lot_leaves_the_page_when_it_is_packed(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        assert codes(driver, "pack") == [code]
        world.pack(code, "1xjar-950:rest")
        driver.app.announce("lot")
        await driver.settle()
        assert codes(driver, "pack") == []


async def test_among_very_many_lots_those_to_pack_follow_the_rest(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(today, "MANY_LOTS", 0)
    stocked = stock(world)
    async with driving(world) as driver:
        for _ in range(500):
            if codes(driver, "pack"):
                break
            await driver.pilot.pause(0.01)
        assert len(codes(driver, "pack")) == 2
        assert "2 to pack" in driver.text
        assert under_cursor(driver) == stocked.hard[0]
        await driver.press("c")
        assert len(codes(driver, "pack")) == 2


async def test_among_very_many_lots_a_quiet_day_is_still_said(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(today, "MANY_LOTS", -1)
    async with driving(world) as driver:
        for _ in range(500):
            if "Nothing on record yet" in driver.text:
                break
            await driver.pilot.pause(0.01)
        assert "Nothing on record yet" in driver.text


# Another program


async def test_what_another_program_did_appears_and_the_cursor_stays(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("down", "down")
        assert under_cursor(driver) == stocked.hard[2]
        packages.check_package(world.beside().room, stocked.hard[0], Event.CRISP)
        bench.abandon_run(world.beside().room)
        driver.app.look_again()
        await driver.settle()
        assert under_cursor(driver) == stocked.hard[2]
        assert codes(driver, "settle") == [*stocked.hard[1:], *stocked.beef]
        assert codes(driver, "run") == []


async def test_an_undo_elsewhere_takes_the_words_of_the_check_away(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("c")
        assert "✓ checked" in driver.text
        history.undo(world.beside().room)
        driver.app.look_again()
        await driver.settle()
        assert "✓ checked" not in driver.text


def test_a_package_in_two_sections_has_two_keys() -> None:
    assert row_key("settle", 7) != row_key("use", 7)
    assert kind_of(row_key("use", 7)) == "use"
