"""The Round by keys: what is recorded, where the cursor goes, what is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.app import App

from stockroom.domain.conditions import Event
from stockroom.domain.upkeep_intervals import Every, Interval
from stockroom.services import bench, history, packages, rechecks, redrying, today, upkeep
from stockroom.services.history import journal_page
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.check_screens import CheckScreen
from stockroom.tui.screens.decide import DecideScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.repack import RepackScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.round_rows import kind_of, row_key
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.upkeep import UpkeepScreen
from stockroom.tui.screens.working import WorkingScreen
from stockroom.tui.widgets.forms import FormScreen
from tests.tui.doubtful import doubt, dry_again, dry_longer
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


def tasks_of_kind(driver: Driver, kind: str) -> list[Any]:
    """The lines of one section."""
    tasks = the_round(driver).tasks.items()
    return [task for key, task in tasks if kind_of(key) == kind]


async def to_kind(driver: Driver, kind: str) -> None:
    """Go to the first line of a section."""
    await driver.press("home")
    for _ in the_round(driver).tasks:
        current = the_round(driver).current
        if current is not None and current.kind == kind:
            return
        await driver.press("down")
    raise AssertionError(kind)


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
        assert ("Wed 25 Nov 2026" in driver.text) == (size == SIZES[0])
        said = "1 in doubt · 5 settle checks · 2 rechecks · 2 to pack · 1 opened · 3 upkeep"
        assert said in driver.words


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
    for item in upkeep.upkeep_due(world.room):
        upkeep.set_interval(world.room, item.check.key, Interval(Every.DAYS, 0))
    async with driving(world) as driver:
        assert "Nothing wants doing today" in driver.words
        assert "All quiet" in driver.text


async def test_settle_checks_stand_in_shelf_order(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        assert codes(driver, "settle") == [*stocked.hard, *stocked.beef]
        assert codes(driver, "recheck") == list(stocked.apples)
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
    every = [stocked.peas[1], *stocked.hard, *stocked.beef, *stocked.apples]
    async with driving(world) as driver:
        await driver.press("home")
        seen = [under_cursor(driver)]
        for _ in every[1:]:
            await driver.press("down")
            seen.append(under_cursor(driver))
        assert seen == every
        await driver.press("up", "up")
        assert under_cursor(driver) == every[-3]
        await driver.press("home")
        assert under_cursor(driver) == every[0]
        assert "In doubt" in driver.text
        await driver.press("up")
        assert under_cursor(driver) == every[0]


async def test_it_begins_at_the_first_look_below_what_is_in_doubt(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        assert under_cursor(driver) == stocked.hard[0]
        assert "In doubt · 1" in driver.text
        lines = driver.text.splitlines()
        doubt, settle = (
            next(at for at, line in enumerate(lines) if title in line)
            for title in ("In doubt ·", "Settle check ·")
        )
        assert doubt < settle


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
        assert len([one for one in journal_page(world.room) if "crisp" in one.words]) == 4 + 9


async def test_a_recheck_is_one_key_as_well(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press(*["down"] * 5)
        assert under_cursor(driver) == stocked.apples[0]
        await driver.press("c")
        assert under_cursor(driver) == stocked.apples[1]
        assert codes(driver, "recheck") == [stocked.apples[1]]
        assert journal_page(world.room)[0].words.endswith("crisp, now sound")


async def test_a_key_too_many_never_clears_a_doubtful_package(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.type("c" * 12)
        assert codes(driver, "settle") == codes(driver, "recheck") == []
        assert condition(world, stocked.peas[1]) == "suspect"
        await driver.press("home", "c")
        assert isinstance(driver.screen, CheckScreen)
        assert condition(world, stocked.peas[1]) == "suspect"


# Found at fault


@pytest.mark.parametrize(("key", "finding"), [("s", "soft"), ("l", "leak"), ("d", "damaged")])
async def test_a_bad_finding_opens_nothing_and_stands_in_doubt(
    world: World, key: str, finding: str
) -> None:
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        await driver.press(key)
        assert condition(world, stocked.hard[0]) == "suspect"
        assert isinstance(driver.screen, RoundScreen)
        assert under_cursor(driver) == stocked.hard[1]
        assert stocked.hard[0] in codes(driver, "doubt")
        assert f"✓ {stocked.hard[0]} {finding}" in driver.text
        assert "v decides, u undoes" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_sisters_due_for_a_look_keep_their_turn(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("s")
        same_screen(driver.app, "round-soft")
        assert [condition(world, code) for code in stocked.hard] == ["suspect"] * 3
        assert codes(driver, "settle") == [*stocked.hard[1:], *stocked.beef]
        assert codes(driver, "doubt") == [stocked.hard[0], stocked.peas[1]]
        assert "2 sisters in doubt" in driver.words
        assert "A sister went soft. Squeeze and listen" in driver.words


async def test_a_run_of_looks_goes_on_over_a_soft_one(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.type("cscc")
        found = [condition(world, code) for code in (*stocked.hard, stocked.beef[0])]
        # The first was crisp before its sister went soft: it is in doubt again, at the top.
        assert found == ["suspect", "suspect", "sound", "sound"]
        assert set(codes(driver, "doubt")) == {*stocked.hard[:2], stocked.peas[1]}
        assert under_cursor(driver) == stocked.beef[1]


async def test_what_is_to_be_decided_stands_before_what_is_to_be_looked_at(world: World) -> None:
    found = doubt(world)
    async with driving(world) as driver:
        assert codes(driver, "doubt") == [found.stocked.peas[1], found.sister]
        assert "soft: decide" in driver.text
        assert "sister soft" in driver.text


async def test_the_day_after_sisters_are_all_in_doubt(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("s")
    async with driving(world) as driver:
        assert codes(driver, "settle") == list(stocked.beef)
        assert codes(driver, "doubt") == [stocked.hard[0], stocked.peas[1], *stocked.hard[1:]]


async def test_v_decides_on_the_one_just_found(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await driver.press("down", "s", "v")
        assert isinstance(driver.screen, DecideScreen)
        assert driver.screen.seen.package.code == stocked.hard[1]
        await driver.press("escape")
        await driver.press("home", "down", "v")
        assert isinstance(driver.screen, DecideScreen)
        assert driver.screen.seen.package.code == stocked.peas[1]


async def test_v_on_a_sister_says_to_look_first(world: World) -> None:
    found = doubt(world)
    async with driving(world, notices=True) as driver:
        await driver.press("home", "down")
        assert under_cursor(driver) == found.sister
        await driver.press("v")
        assert isinstance(driver.screen, RoundScreen)
        assert "was not itself found soft" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_elsewhere_a_finding_is_asked_about_first(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    stocked = stock(world)
    async with driving(world, size) as driver:
        await driver.press("home", "c")
        assert isinstance(driver.screen, CheckScreen)
        same_screen(driver.app, "check")
        assert "Crisp" in driver.words
        assert condition(world, stocked.peas[1]) == "suspect"
        await driver.press("l", "enter")
        assert isinstance(driver.screen, DecideScreen)
        assert journal_page(world.room)[0].words.endswith("leak, now suspect")
        assert "Recorded: checked" in driver.words


async def test_escape_leaves_a_check_unrecorded(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        before = journal_page(world.room)[0]
        await driver.press("home", "c", "escape")
        assert isinstance(driver.screen, RoundScreen)
        assert journal_page(world.room)[0] == before


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
    stocked = stock(world)
    async with driving(world, NARROW) as driver:
        while under_cursor(driver) != stocked.beef[0]:
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
        await to_kind(driver, "run")
        await driver.press("enter")
        assert isinstance(driver.screen, RunScreen)
        assert isinstance(driver.app.screen_stack[0], BenchScreen)
        await driver.press("escape", "f2", "down", "enter")
        assert isinstance(driver.screen, LotScreen)


# The machine


async def test_what_waits_for_the_machine_stands_in_its_turn(world: World) -> None:
    found = doubt(world)
    async with driving(world) as driver:
        assert codes(driver, "queue") == [found.held, found.follower]
        await to_kind(driver, "queue")
        assert "1 · waiting" in driver.text
        assert "Waits in the freezer. Enter loads it" in driver.words
        await driver.press("enter")
        assert isinstance(driver.screen, FormScreen)
        assert f"Load {found.held} again" in driver.text


async def test_loaded_and_dried_food_leads_on(world: World) -> None:
    found = doubt(world)
    redrying.load_again(world.room, 2, [found.held, found.follower])
    async with driving(world) as driver:
        await to_kind(driver, "queue")
        assert "1 · on tray 2" in driver.text
        await driver.press("enter")
        assert isinstance(driver.screen, RunScreen)


async def test_what_came_off_the_machine_is_packed_anew(world: World) -> None:
    found = doubt(world)
    dry_again(world, (found.held, found.follower))
    async with driving(world) as driver:
        await to_kind(driver, "queue")
        assert "1 · dried" in driver.text
        assert "Off the machine: Enter packs it anew." in driver.words
        await driver.press("enter")
        assert isinstance(driver.screen, RepackScreen)


@pytest.mark.usefixtures("in_greenwich")
async def test_a_few_more_hours_say_when_to_weigh_again(world: World) -> None:
    stock(world)
    dry_longer(world)
    async with driving(world) as driver:
        await to_kind(driver, "run")
        assert "weigh 14:00" in driver.text
        assert "Dries 2 h more: weigh and test again at 14:00." in driver.words
        bench.weigh_tray(world.room, 1, "dry", 1800)
        driver.app.announce("run")
        await driver.settle()
        assert "weigh 14:00" not in driver.text
        assert "1 tray" in driver.text


@pytest.mark.usefixtures("in_greenwich")
async def test_hours_that_end_another_day_name_it(world: World) -> None:
    stock(world)
    dry_longer(world, 18)
    async with driving(world) as driver:
        await to_kind(driver, "run")
        assert "weigh Thu 06:00" in driver.text
        assert "at Thu 06:00 on 2026-11-26." in driver.words
    async with driving(world.later(1)) as driver:
        assert "weigh now" in driver.text


async def test_upkeep_that_is_due_leads_to_its_check(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        names = [task.record.check.name for task in tasks_of_kind(driver, "upkeep")]
        assert "leak test" in names
        await driver.press("end")
        assert "machine" in driver.text
        await driver.press("enter")
        assert isinstance(driver.screen, UpkeepScreen)
        assert driver.screen.item is not None
        assert driver.screen.item.check.name == names[-1]


async def test_more_rechecks_than_a_day_holds_are_said(world: World) -> None:
    stock(world)
    rechecks.change_schedule(world.room, most_a_day=1)
    async with driving(world) as driver:
        assert len(codes(driver, "recheck")) == 1
        assert "1 more on later days" in driver.text


async def test_w_says_why_a_package_is_looked_at(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await to_kind(driver, "recheck")
        assert "w says why." in driver.words
        await driver.press("w")
        assert isinstance(driver.screen, WorkingScreen)
        assert "When to look at it again" in driver.words
        await driver.press("escape", "home", "w")
        assert isinstance(driver.screen, WorkingScreen)
        assert "Water to add" in driver.words


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
