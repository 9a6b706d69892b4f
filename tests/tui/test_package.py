"""One package in full, by keys."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from textual.app import App
from textual.widgets import Static

from stockroom.domain.conditions import Event
from stockroom.domain.packing import read_split
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import HistoryLine
from stockroom.services import history, packages, packing, repacking, shelves
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.decide import DecideScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.package_words import FACTS, cautions_now, fact_texts, history_words
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.working import WorkingScreen
from tests.tui.doubtful import doubt, dry_again
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.tui.stocked import stock
from tests.world import APPLE, TODAY, World

SameScreen = Callable[[App[Any], str], None]
ALLERGENS = FACTS.index("Allergens")


def facts_of(screen: PackageScreen) -> dict[str, str]:
    """What the page says, by its labels; what is not shown is left out."""
    rows = [screen.query_one(f"#fact-{place}") for place in range(len(FACTS))]
    return {
        label: str(row.query_one(".value", Static).render())
        for label, row in zip(FACTS, rows, strict=True)
        if row.display
    }


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


async def test_one_found_at_fault_is_decided_on_here(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        await to_package(driver, stocked.peas[1])
        assert "found soft: v decides what becomes of it" in driver.words
        await driver.press("v")
        assert isinstance(driver.screen, DecideScreen)


async def test_soft_found_here_leads_on_to_the_decision(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_package(driver, stocked.hard[0])
        await driver.press("c", "s", "enter")
        assert isinstance(driver.screen, DecideScreen)
        assert f"Recorded: checked {stocked.hard[0]}" in driver.words
        assert "2 sisters of lot 26327A now suspect." in driver.words
        await driver.press("escape")
        assert driver.screen is screen
        assert screen.detail.package.condition == "suspect"


@pytest.mark.parametrize("size", SIZES)
async def test_a_held_package_says_what_it_waits_for(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    found = doubt(world)
    async with driving(world, size) as driver:
        screen = await to_package(driver, found.held)
        same_screen(driver.app, "package-held")
        facts = facts_of(screen)
        assert facts["Queue"].startswith("number 1 for the machine, since 2026-11-25")
        assert facts["Queue"].endswith("a loads it on a tray")
        assert facts["Decided"] == (
            "2026-11-25: hold it in the freezer until the machine is free:"
            " slightly soft within a day of sealing"
        )
        keys = [one.key for one in cautions_now(screen.detail)]
        assert {"freezer-wait", "redry-to-plateau", "never-taste"} <= set(keys)
        assert "soft-discard" not in keys
        assert keys[-1] == "local-codes"


async def test_a_sister_is_looked_at_not_decided_on(world: World) -> None:
    found = doubt(world)
    async with driving(world) as driver:
        screen = await to_package(driver, found.sister)
        assert facts_of(screen)["In doubt"] == "a sister went soft: look at this one"
        keys = [one.key for one in cautions_now(screen.detail)]
        assert keys == ["never-taste", "spoiled", "sisters", "local-codes"]
        await driver.press("v")
        assert driver.screen is screen


@pytest.mark.parametrize(
    ("which", "keys"),
    [
        ("peas 0", {"check", "take", "pack_anew"}),
        ("peas 1", {"check", "decide"}),
        ("peas 2", {"check", "take", "pack_anew", "look"}),
        ("held", {"load_again"}),
        ("sister", {"check", "hold"}),
    ],
)
async def test_keys_go_by_the_condition(world: World, which: str, keys: set[str]) -> None:
    found = doubt(world)
    codes = {"held": found.held, "sister": found.sister}
    codes |= {f"peas {number}": code for number, code in enumerate(found.stocked.peas)}
    depends = {"check", "take", "pack_anew", "look", "decide", "hold", "load_again"}
    async with driving(world) as driver:
        await to_package(driver, codes[which])
        enabled = {one.binding.action for one in driver.screen.active_bindings.values()}
        assert enabled & depends == keys
        assert {"discard", "move", "trace"} <= enabled


async def test_the_next_look_says_why_and_shows_its_working(world: World) -> None:
    stocked = stock(world)
    async with driving(world) as driver:
        screen = await to_package(driver, stocked.apples[0])
        look = facts_of(screen)["Next look"]
        assert look.startswith("now, at the latest ")
        assert "(risk 9 of 10)" in look
        assert "zip bag, which lets damp and air through" in look
        await driver.press("W")
        assert isinstance(driver.screen, WorkingScreen)
        assert "When to look at it again" in driver.words


async def test_dried_again_it_tells_where_it_was(world: World) -> None:
    found = doubt(world)
    dry_again(world, (found.held, found.follower))
    splits = [read_split("1xpouch-1500-foil:rest,absorber=300")]
    (made,) = repacking.repack_packages(world.room, [found.held], splits).codes
    async with driving(world) as driver:
        screen = await to_package(driver, made)
        said = facts_of(screen)["Food of"]
        assert said.startswith(f"dried again, out of {found.held}, {found.follower};")
        assert "first sealed 2026-11-24" in said
        assert "of its life was spent" in said
    old = shelves.package_detail(world.room, found.held)
    assert old.successors == (made,)
    texts = dict(zip(FACTS, fact_texts(old, UnitSystem.METRIC, TODAY), strict=True))
    assert texts["Went into"] == made


async def test_packed_past_the_gate_it_says_so(world: World) -> None:
    lot = world.dry_lot(tested=False)
    splits = [read_split("1xpouch-1500-foil:rest,absorber=300")]
    (code,) = packing.pack_lot(world.room, lot, splits, despite="[b]felt dry[/b]").codes
    async with driving(world) as driver:
        screen = await to_package(driver, code)
        assert "dryness not shown: [b]felt dry[/b]" in driver.words
        assert "botulism" in [one.key for one in cautions_now(screen.detail)]


async def test_packet_box_and_tray_are_told(world: World) -> None:
    lot = world.dry_lot()
    split = replace(
        read_split("1xpouch-1500-foil:rest,absorber=300"),
        absorber_packet="[A] 7",
        container_box="blue",
        tray_position=1,
    )
    (code,) = packing.pack_lot(world.room, lot, [split]).codes
    async with driving(world) as driver:
        screen = await to_package(driver, code)
        assert facts_of(screen)["Packed in"] == (
            "foil pouch 1.5 L · absorber 300 cc · absorber of packet [A] 7,"
            " container of box blue, food of tray 1"
        )


# The words


def test_what_is_left_is_told_from_what_was_packed(world: World) -> None:
    stocked = stock(world)
    detail = shelves.package_detail(world.room, stocked.peas[0])
    facts = dict(zip(FACTS, fact_texts(detail, UnitSystem.METRIC, TODAY), strict=True))
    assert facts["In it"] == "25.0 g dry, 1.5 servings, of 40.0 g"
    assert facts["State"].startswith(
        "opened · sealed 2026-10-16 (40 days ago) · opened 2026-11-15 (10"
    )


def test_unknown_ingredients_are_no_absence_of_allergens(world: World) -> None:
    stocked = stock(world)
    hard = shelves.package_detail(world.room, stocked.hard[0])
    assert "check what went into it" in fact_texts(hard, UnitSystem.METRIC, TODAY)[ALLERGENS]
    (code,) = world.packed(APPLE, "1xjar-950:rest")
    apple = shelves.package_detail(world.room, code)
    assert fact_texts(apple, UnitSystem.METRIC, TODAY)[ALLERGENS] == (
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
