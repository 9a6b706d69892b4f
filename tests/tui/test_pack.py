"""Packing a lot by keys: lines, sum, cautions, labels, and what is left."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.app import App

from stockroom.domain.packing import (
    LotBalance,
    SplitRequest,
    TooMuchPacked,
    balance_of,
    read_split,
    shares,
)
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Lot
from stockroom.errors import BadInput
from stockroom.services import bench, dryness, foods, history, packing, redrying
from stockroom.services.household import list_containers
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.gate_window import GateScreen
from stockroom.tui.screens.labels import label_lines
from stockroom.tui.screens.pack import PackScreen, container_search
from stockroom.tui.screens.pack_sums import packing_sum
from stockroom.tui.screens.windows import CareScreen, ChoiceScreen, ReadScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import HARD_NAME, SIZES
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World

SameScreen = Callable[[App[Any], str], None]


async def to_pack(driver: Driver) -> PackScreen:
    """Open the packing form of the first lot of the Bench."""
    await driver.press("3", "p")
    assert isinstance(driver.screen, PackScreen)
    return driver.screen


async def line(driver: Driver, count: str, container: str, *cells: str) -> None:
    """Type one line: the first match of the container, then the cells that follow."""
    await driver.enter(count)
    await driver.clear()
    await driver.enter(container, *cells)


# Packing


async def test_two_kinds_of_package_by_keys(world: World) -> None:
    world.places("cellar", "cellar/rack 1")
    code = world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        await to_pack(driver)
        await line(driver, "2", "foil pouch 1.5", "62", "300", "")
        await line(driver, "1", "jar 950", "rest", "", "y")
        await driver.enter("rack")
        await driver.press("enter")
        assert isinstance(driver.screen, CareScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, ReadScreen)
        await driver.press("enter")
        assert isinstance(driver.screen, BenchScreen)
    packages = packing.lot_detail(world.room, code).packages
    assert [
        (one.container_key, one.dry_dg, one.absorber_cc, one.vacuum, one.place) for one in packages
    ] == [
        ("pouch-1500-foil", 620, 300, False, "cellar/rack 1"),
        ("pouch-1500-foil", 620, 300, False, "cellar/rack 1"),
        ("jar-950", 310, 0, True, "cellar/rack 1"),
    ]
    assert sum(one.dry_dg for one in packages) == 1550
    assert sum(one.water_dg for one in packages) == 10000 - 1550
    assert {one.condition for one in packages} == {"settling"}
    assert {one.sealed_on for one in packages} == {TODAY}


async def test_the_sum_stands_under_the_lines_while_they_are_typed(world: World) -> None:
    world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        await to_pack(driver)
        await driver.enter("2")
        await driver.press("tab")
        assert "The sum appears once every cell can be read" in driver.words
        await driver.press("shift+tab")
        await driver.enter("jar 950")
        assert "2 × jar 950 mL: each 77.5 g dry" in driver.words
        assert "nothing left" in driver.words
        await driver.type("50")
        assert "each 50.0 g dry, 3.8 servings, water 272.6 g · 273 mL · about 1¼ US cups" in (
            driver.words
        )
        assert "Packed 100.0 g, left 55.0 g" in driver.words
        await driver.type("0")
        assert "155.0 g of dry food left; 1000.0 g was asked for" in driver.words


def test_the_water_of_a_package_is_its_part_of_the_lots() -> None:
    """50 g of 155 g dry that lost 845 g: 845 * 50 / 155 = 272.58 g."""
    sums = packing_sum(balance_of(a_lot(10000, 1550)), [SplitRequest(1, "jar-950", 500, 0, False)])
    assert sums.planned[0].shares[0].water_dg == 2726


async def test_the_second_line_has_the_container_of_the_first(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155)
    async with driving(world) as driver:
        await to_pack(driver)
        await line(driver, "1", "jar 475", "40", "", "")
        await driver.enter("1", "", "", "", "")
        await driver.press("f9", "enter")
    packages = packing.lot_detail(world.room, code).packages
    assert [(one.container_key, one.dry_dg) for one in packages] == [
        ("jar-475", 400),
        ("jar-475", 1150),
    ]


async def test_a_day_before_today_is_the_sealing_day(world: World) -> None:
    code = world.dry_lot()
    async with driving(world.later(3)) as driver:
        await to_pack(driver)
        await line(driver, "1", "jar 950", "", "", "")
        await driver.press("tab")
        await driver.clear()
        await driver.enter("-2")
        await driver.press("enter")
    (package,) = packing.lot_detail(world.room, code).packages
    assert (package.sealed_on - TODAY).days == 1


async def test_packing_is_undone_in_one_step(world: World) -> None:
    code = world.dry_lot()
    before = world.dump()
    async with driving(world) as driver:
        await to_pack(driver)
        await line(driver, "3", "jar 950", "", "", "")
        await driver.press("f9", "enter")
    assert len(packing.lot_detail(world.room, code).packages) == 3
    history.undo(world.room)
    assert world.dump() == before


# Cautions before, labels after


async def test_cautions_stand_before_the_packing(world: World) -> None:
    code = world.dry_lot(BEEF_RAW, 1000, 280)
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "", "300", "y")
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        keys = [caution.key for caution in driver.screen.cautions]
        asked = [SplitRequest(1, "jar-950", None, 300, True)]
        assert keys == [one.key for one in packing.packing_cautions(world.room, code, asked)]
        assert {"raw-stays-raw", "dry-enough", "glass-vacuum", "local-codes"} <= set(keys)
        assert "Raw stays raw" in driver.words
        await driver.press("escape")
        assert screen.lines[0].count.text == "1"
    assert packing.lot_detail(world.room, code).packages == ()


async def test_the_labels_say_what_to_write(world: World) -> None:
    code = world.dry_lot(BEEF_RAW, 1000, 280)
    async with driving(world) as driver:
        await to_pack(driver)
        await line(driver, "2", "jar 950", "", "", "")
        await driver.press("f9", "enter")
        first, second = packing.lot_detail(world.room, code).packages
        words = driver.words
        assert f"{first.code}, {second.code}" in words
        assert BEEF_RAW in words
        assert "RAW: cook after adding water" in words
        assert f"made {TODAY.isoformat()}" in words
        assert "140.0 g dry" in words
        assert "add 360.0 g · 361 mL · about 1½ US cups" in words
        assert first.best_by is not None
        assert f"best by {first.best_by.isoformat()} (quality estimate, not safety)" in words


def test_packages_of_an_even_split_share_a_label(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155.2)
    world.pack(code, "3xjar-950")
    packages = packing.lot_detail(world.room, code).packages
    lines = label_lines(packages, UnitSystem.METRIC)
    assert lines[0] == ", ".join(package.code for package in packages)
    assert lines[1].strip().startswith("51.7 g to 51.8 g dry")
    assert lines[2].strip().startswith("add 281.4 g to 282.0 g")


def test_packages_that_differ_have_labels_of_their_own(world: World) -> None:
    code = world.dry_lot(PEAS, 1000, 155)
    world.pack(code, "1xjar-950:50", "1xjar-950:40", "1xjar-475:40")
    packages = packing.lot_detail(world.room, code).packages
    lines = label_lines(packages, UnitSystem.METRIC)
    assert [one for one in lines if one in {package.code for package in packages}] == [
        package.code for package in packages
    ]


# What is left


@pytest.mark.parametrize(
    ("downs", "reason"), [(1, "tasted"), (2, "spilt"), (3, "discarded"), (4, "unaccounted")]
)
async def test_what_is_left_is_recorded(world: World, downs: int, reason: str) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        await to_pack(driver)
        await line(driver, "1", "jar 950", "150", "", "")
        await driver.press("f9", "enter", "enter")
        assert isinstance(driver.screen, ChoiceScreen)
        await driver.press(*["down"] * downs, "enter")
    (loss,) = packing.lot_detail(world.room, code).losses
    assert (loss.reason, loss.dry_dg) == (reason, 50)


@pytest.mark.parametrize("key", ["enter", "escape"])
async def test_what_is_left_may_wait(world: World, key: str) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        await to_pack(driver)
        await line(driver, "1", "jar 950", "150", "", "")
        await driver.press("f9", "enter", "enter", key)
        assert code in driver.text
    lot = world.lot(code)
    assert (lot.lost_dg, lot.left_dg) == (0, 50)


# The gate


def a_lot_weighed_twice(world: World, position: int = 1) -> str:
    """A lot whose weight is constant, with no test made; the lot's code."""
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, position, PEAS, gross_dg=10_000, run_id=run_id)
    for _ in range(2):
        bench.weigh_tray(world.room, position, "dry", 1550, run_id=run_id)
    (code,) = bench.close_run(world.room).codes
    return code


async def test_the_gate_is_said_and_a_reason_asked_only_where_it_counts(world: World) -> None:
    world.dry_lot(tested=False)
    async with driving(world) as driver:
        screen = await to_pack(driver)
        assert "which is no bar without absorber and vacuum" in driver.words
        assert screen.despite not in screen.fields
        await line(driver, "1", "jar 950", "", "")
        assert not screen.wants_reason
        await driver.type("y")
        assert "! Dryness is not shown: no constant weight on tray 1" in driver.words
        assert screen.despite in screen.fields
        await driver.press("backspace")
        assert screen.despite not in screen.fields


async def test_without_a_reason_nothing_is_packed_and_nothing_is_lost(world: World) -> None:
    code = world.dry_lot(tested=False)
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "2", "foil pouch 1.5", "62", "300", "")
        await driver.press("f9")
        assert driver.screen is screen
        assert "Say why it is packed so all the same" in driver.words
        assert screen.focused is screen.despite.input
        assert [field.text for field in screen.lines[0].fields] == [
            "2", "foil pouch 1.5 L", "62", "300", "",
        ]  # fmt: skip
        await driver.type("[bold]broken, dry through")
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        assert "dryness not shown: [bold]broken, dry through." in driver.words
        assert {"botulism", "dry-enough", "estimate-no-proof"} <= {
            caution.key for caution in driver.screen.cautions
        }
        await driver.press("enter")
        assert "dryness not shown: [bold]broken" in driver.words
    packages = packing.lot_detail(world.room, code).packages
    assert {one.gate_reason for one in packages} == {"[bold]broken, dry through"}


async def test_a_reason_is_not_kept_where_none_is_wanted(world: World) -> None:
    code = world.dry_lot(tested=False)
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "100", "300", "")
        screen.despite.begin()
        await driver.type("it snaps")
        screen.lines[0].absorber.begin()
        await driver.clear()
        await driver.press("f9", "enter")
    (package,) = packing.lot_detail(world.room, code).packages
    assert (package.absorber_cc, package.gate_reason) == (0, "")


async def test_tests_recorded_from_the_form_open_the_gate(world: World) -> None:
    code = a_lot_weighed_twice(world)
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "", "300", "y")
        assert "no break test on tray 1, the slowest" in driver.words
        await driver.press("f7")
        assert isinstance(driver.screen, GateScreen)
        await driver.press("i", "b", "escape")
        assert driver.screen is screen
        assert "Dryness is shown" in driver.words
        assert screen.lines[0].absorber.text == "300"
        await driver.press("f9", "enter")
    (package,) = packing.lot_detail(world.room, code).packages
    assert package.gate_reason == ""


async def test_a_gate_that_closes_meanwhile_asks_for_the_reason(world: World) -> None:
    """Another program records that a piece does not snap while the question stands."""
    code = world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "100", "300", "")
        await driver.press("f9")
        assert isinstance(driver.screen, CareScreen)
        dryness.record_test(world.beside().room, 1, dryness.DrynessTest.BREAK, False, run_id=1)
        await driver.press("enter")
        assert driver.screen is screen
        assert "a piece that does not snap on tray 1" in driver.words
        assert "Say why it is packed so all the same" in driver.words
        assert screen.lines[0].each.text == "100"
    assert packing.lot_detail(world.room, code).packages == ()


async def test_a_lot_that_waits_for_the_machine_is_not_packed(world: World) -> None:
    code = world.dry_lot()
    redrying.hold_lot(world.room, code)
    async with driving(world, notices=True) as driver:
        await driver.press("3", "p")
        assert isinstance(driver.screen, BenchScreen)
        assert f"{code} is in the queue for the machine" in driver.words


@pytest.mark.parametrize("size", SIZES)
async def test_what_a_closed_gate_looks_like(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    world.dry_lot(tested=False)
    async with driving(world, size) as driver:
        await to_pack(driver)
        await line(driver, "2", "foil pouch 1.5", "62")
        await driver.type("300")
        same_screen(driver.app, "pack-gate")
        await driver.press("f9")
        same_screen(driver.app, "pack-why")
        await driver.type("broken, dry through")
        await driver.press("f9")
        same_screen(driver.app, "pack-despite")


# Where the parts came from


async def test_packet_box_and_tray_go_with_the_packages(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "50")
        await driver.press("f8")
        assert screen.focused is screen.lines[0].packet.input
        await driver.type("A7 [opened]")
        screen.lines[0].absorber.begin()
        await driver.enter("300", "")
        assert screen.focused is screen.lines[0].packet.input
        await driver.enter("", "blue", "1")
        assert [field.text for field in screen.lines[1].origins] == ["A7 [opened]", "blue", ""]
        await driver.enter("1", "", "", "", "", "", "", "")
        await driver.press("f9")
        assert "Absorbers out of A7 [opened], containers out of blue, food of tray 1." in (
            driver.words
        )
        await driver.press("enter")
    packages = packing.lot_detail(world.room, code).packages
    assert [(one.absorber_packet, one.container_box, one.tray_position) for one in packages] == [
        ("A7 [opened]", "blue", 1),
        ("", "blue", None),  # no absorber, so out of no packet
    ]


async def test_f8_hides_the_parts_again_unless_something_stands_there(world: World) -> None:
    world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await driver.press("f8")
        assert "Packet of the absorbers" in driver.words
        await driver.press("f8")
        assert "Packet" not in driver.words
        assert screen.focused is screen.lines[0].count.input
        await driver.press("f8")
        await driver.type("A7")
        await driver.press("f8")
        assert "A7" in driver.text


@pytest.mark.parametrize("typed", ["0", "31", "x", "-1", "冷"])
async def test_a_tray_there_cannot_be_is_refused_and_stays(world: World, typed: str) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "", "", "")
        await driver.press("f8")
        screen.lines[0].tray.begin()
        await driver.type(typed)
        await driver.press("f9")
        assert driver.screen is screen
        assert "! tray:" in driver.words
        assert screen.lines[0].tray.text == typed
    assert packing.lot_detail(world.room, code).packages == ()


# Refusals keep what was typed


async def test_more_than_the_lot_has_is_refused_and_stays(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "3", "jar 950", "60", "300", "")
        await driver.press("f9")
        assert driver.screen is screen
        assert f"Lot {code} has 155.0 g of dry food left; 180.0 g was asked for" in driver.words
        assert [field.text for field in screen.lines[0].fields] == [
            "3", "jar 950 mL", "60", "300", "",
        ]  # fmt: skip
    assert packing.lot_detail(world.room, code).packages == ()


WRONG_CELLS = (
    ("count", "", "how many packages"),
    ("count", "abc", "“abc” cannot be read"),
    ("count", "-1", "“-1” cannot be read"),
    ("count", "0", "“0” cannot be read"),
    ("count", "99999999", "from 1 to 500"),
    ("count", "六", "“六” cannot be read"),
    ("container", "", "nothing cannot be read"),
    ("container", "zzz", "“zzz” cannot be read"),
    ("each", "abc", "“abc” cannot be read"),
    ("each", "-62", "“-62” cannot be read"),
    ("each", "0", "more than 0 g"),
    ("each", "999999999", "100 kg at most"),
    ("absorber", "many", "“many” cannot be read"),
    ("absorber", "-300", "“-300” cannot be read"),
    ("absorber", "99999", "from 0 to 5000"),
    ("vacuum", "maybe", "y for yes"),
    ("vacuum", "冷", "“冷” cannot be read"),
)


@pytest.mark.parametrize(("cell", "typed", "said"), WRONG_CELLS)
async def test_a_wrong_cell_is_refused_and_stays(
    world: World, cell: str, typed: str, said: str
) -> None:
    code = world.dry_lot()
    cells = {"count": "1", "container": "jar 950", "each": "", "absorber": "", "vacuum": ""}
    cells[cell] = typed
    async with driving(world) as driver:
        screen = await to_pack(driver)
        for name, text in cells.items():
            await driver.type(text)
            taken = name == "container" and text == "jar 950"
            await driver.press("enter" if taken else "tab")
        await driver.press("f9")
        assert driver.screen is screen
        assert said in driver.words
        field = getattr(screen.lines[0], cell)
        assert field.text == typed
    assert packing.lot_detail(world.room, code).packages == ()


@pytest.mark.parametrize(
    ("name", "typed"),
    [("place", "nowhere"), ("sealed", ""), ("sealed", "soon"), ("sealed", "2026-11-26")],
)
async def test_a_wrong_place_or_day_is_refused_and_stays(
    world: World, name: str, typed: str
) -> None:
    world.places("cellar")
    code = world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "", "", "")
        field = getattr(screen, name)
        field.begin()
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        if isinstance(driver.screen, CareScreen):
            await driver.press("enter")
        assert driver.screen is screen
        assert "cannot be read" in driver.words
        assert field.text == typed
    assert packing.lot_detail(world.room, code).packages == ()


async def test_leaving_asks_once_when_something_was_typed(world: World) -> None:
    world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await driver.enter("3")
        await driver.press("escape", "escape")
        assert driver.screen is screen
        assert "Press Escape again" in driver.words
        await driver.press("escape")
        assert isinstance(driver.screen, BenchScreen)


async def test_a_lot_that_is_packed_out_is_not_packed_again(world: World) -> None:
    code = world.dry_lot()
    world.pack(code, "1xjar-950")
    async with driving(world, notices=True) as driver:
        await driver.press("3", "l", "p")
        assert isinstance(driver.screen, BenchScreen)
        assert f"All of lot {code} is packed" in driver.words


async def test_another_program_packs_the_lot_meanwhile(world: World) -> None:
    code = world.dry_lot()
    async with driving(world) as driver:
        screen = await to_pack(driver)
        await line(driver, "1", "jar 950", "100", "", "")
        world.beside().pack(code, "1xjar-475:100")
        await driver.press("f9", "enter")
        assert driver.screen is screen
        assert "55.0 g of dry food left; 100.0 g was asked for" in driver.words
        assert screen.lines[0].each.text == "100"


# The sum is what the service does


def a_lot(wet_dg: int, dry_dg: int, packed_dg: int = 0, lost_dg: int = 0) -> Lot:
    """A lot for sums."""
    return Lot(
        1, "26329A", 1, 1, PEAS, "vegetable", "cooked", TODAY, wet_dg, dry_dg,
        packed_dg, 0, lost_dg, 0, 0, 850, "",
    )  # fmt: skip


@pytest.mark.parametrize(
    "splits",
    [
        ("3xjar-950:40",),
        ("7xjar-950",),
        ("2xjar-950:31.3", "3xjar-475", "1xjar-950:0.1"),
        ("1xjar-475", "2xjar-950:50", "4xjar-475"),
    ],
)
def test_the_sum_is_what_packing_writes(world: World, splits: tuple[str, ...]) -> None:
    code = world.dry_lot(PEAS, 1000, 155.3)
    packing.record_loss(world.room, code, 17, packing.LossReason.SPILT)
    lot = world.lot(code)
    sums = packing_sum(balance_of(lot), [read_split(split) for split in splits])
    world.pack(code, *splits)
    written = [(one.dry_dg, one.water_dg) for one in packing.lot_detail(world.room, code).packages]
    assert written == [
        (share.dry_dg, share.water_dg) for one in sums.planned for share in one.shares
    ]
    assert world.lot(code).left_dg == sums.left_dg


@given(
    wet_dg=st.integers(2, 200_000),
    dry_part=st.integers(1, 100),
    counts=st.lists(st.tuples(st.integers(1, 6), st.none() | st.integers(1, 400)), min_size=1),
)
def test_whatever_is_planned_adds_up(
    wet_dg: int, dry_part: int, counts: list[tuple[int, int | None]]
) -> None:
    dry_dg = max(1, wet_dg * dry_part // 100)
    lot = a_lot(wet_dg, dry_dg)
    splits = [SplitRequest(count, "jar-950", each, 0, False) for count, each in counts]
    try:
        sums = packing_sum(balance_of(lot), splits)
    except TooMuchPacked:
        least = sum(count * (each or 1) for count, each in counts)
        assert least > dry_dg
        return
    assert sums.packed_dg + sums.left_dg == dry_dg
    rest = LotBalance(lot.code, wet_dg, dry_dg, sums.packed_dg, 0).left_water_dg
    water = sum(share.water_dg for one in sums.planned for share in one.shares)
    assert water + rest == wet_dg - dry_dg
    if any(each is None for _, each in counts):
        assert sums.left_dg == 0
    assert [len(one.shares) for one in sums.planned] == [count for count, _ in counts]


def test_an_empty_package_is_refused() -> None:
    with pytest.raises(TooMuchPacked):
        packing_sum(balance_of(a_lot(100, 2)), [SplitRequest(3, "jar-950", None, 0, False)])
    assert shares(LotBalance("26329A", 100, 2, 0, 0), [1, 1])


def test_containers_are_found_by_words_of_name_or_key(world: World) -> None:
    search = container_search(list_containers(world.room))
    assert [choice.key for choice in search("1.5 foil")] == ["pouch-1500-foil"]
    assert [choice.key for choice in search("jar-950")] == ["jar-950"]
    assert len(search("")) == len(list_containers(world.room))
    assert search("zzz") == []


# What it looks like


@pytest.mark.parametrize("size", SIZES)
async def test_the_form_its_question_and_its_labels(
    world: World, size: tuple[int, int], same_screen: SameScreen
) -> None:
    foods.add_food(world.room, HARD_NAME, like=APPLE)
    world.places("cold cellar", "cold cellar/rack 1", "cold cellar/rack 1/bin 冷 [2]")
    world.dry_lot(HARD_NAME, 1900, 295)
    async with driving(world, size) as driver:
        await to_pack(driver)
        same_screen(driver.app, "pack-empty")
        await line(driver, "3", "foil pouch 1.5", "62", "300", "")
        await line(driver, "1", "jar 950", "80", "", "y")
        await driver.press("enter")
        await driver.enter("bin")
        same_screen(driver.app, "pack-filled")
        await driver.press("enter")
        same_screen(driver.app, "pack-question")
        await driver.press("enter")
        same_screen(driver.app, "pack-labels")
        await driver.press("enter")
        same_screen(driver.app, "pack-rest")


def test_a_wrong_split_is_told_apart_from_a_defect(world: World) -> None:
    with pytest.raises(BadInput):
        packing.pack_lot(world.room, world.dry_lot(), [])
