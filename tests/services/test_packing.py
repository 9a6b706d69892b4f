"""Packing: every tenth of a gram and of water of a lot is in a package, lost, or left."""

from __future__ import annotations

import tempfile
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from stockroom.domain.packing import SplitRequest
from stockroom.errors import Refused
from stockroom.services import bench, history, packing, shelves
from stockroom.services.packing import LossReason
from tests.invariants import all_troubles
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World, copied_world


def test_a_lot_is_split_and_every_package_knows_its_water(world: World) -> None:
    """1000 g loaded and 155 g dry: 62 g dry needs 62 x 845 / 155 = 338 g of water."""
    world.places("cellar")
    lot = world.dry_lot(PEAS, 1000, 155)
    codes = world.pack(lot, "2xpouch-1500-foil:62,absorber=300", place="cellar", note=" first ")
    first = world.package(codes[0])
    assert (first.dry_dg, first.water_dg) == (620, 3_380)
    assert first.servings_left == Fraction(4_000, 850)
    assert (first.lot_code, first.food, first.preparation) == (lot, PEAS, "cooked")
    assert (first.container_key, first.absorber_cc, first.vacuum) == ("pouch-1500-foil", 300, False)
    assert (first.place, first.note, first.condition) == ("cellar", "first", "settling")
    assert (first.sealed_on, first.made_on, first.opened_on, first.gone_on) == (
        TODAY,
        TODAY,
        None,
        None,
    )
    assert world.lot(lot).left_dg == 310
    (sealed,) = shelves.package_detail(world.room, codes[0]).history
    assert (sealed.event, sealed.to_place, sealed.condition) == ("sealed", "cellar", "settling")


def test_the_words_say_what_was_packed_and_what_is_left(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    done = packing.pack_lot(world.room, lot, [SplitRequest(1, "jar-475", 550, None, False)])
    assert done.words == (
        f"packed lot 26329A ({PEAS}) into 1 package, {done.codes[0]}; 100.0 g left to pack"
    )
    rest = packing.pack_lot(world.room, lot, [SplitRequest(3, "jar-475", None, None, True)])
    assert rest.words == (
        f"packed lot 26329A ({PEAS}) into 3 packages, {rest.codes[0]} to {rest.codes[-1]}"
    )
    assert [world.package(code).dry_dg for code in rest.codes] == [334, 333, 333]
    assert all(world.package(code).vacuum for code in rest.codes)
    assert world.lot(lot).left_dg == 0
    assert packing.lots_to_pack(world.room) == ()


def test_losses_are_told_with_the_packing(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    done = packing.pack_lot(
        world.room,
        lot,
        [SplitRequest(2, "jar-475", 600, None, False)],
        losses=[(30, LossReason.TASTED), (None, LossReason.DISCARDED)],
    )
    assert done.words.endswith("; 3.0 g tasted; 32.0 g discarded")
    detail = packing.lot_detail(world.room, lot)
    assert [(loss.reason, loss.dry_dg) for loss in detail.losses] == [
        ("tasted", 30),
        ("discarded", 320),
    ]
    assert detail.lot.left_dg == 0
    assert detail.lot.lost_water_dg == sum(loss.water_dg for loss in detail.losses)
    assert all_troubles(world.room) == []


def test_a_rest_is_what_the_losses_leave(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    done = packing.pack_lot(
        world.room,
        lot,
        [SplitRequest(2, "jar-475", None, None, False)],
        losses=[(51, LossReason.SPILT)],
    )
    assert [world.package(code).dry_dg for code in done.codes] == [750, 749]


def test_a_loss_is_recorded_by_itself(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    done = packing.record_loss(world.room, lot, 45, LossReason.TASTED, note=" crisp ")
    assert done.words == f"recorded 4.5 g of lot 26329A ({PEAS}) as tasted"
    packing.record_loss(world.room, lot, None, LossReason.UNACCOUNTED)
    detail = packing.lot_detail(world.room, lot)
    assert [(one.reason, one.dry_dg, one.note, one.on_day) for one in detail.losses] == [
        ("tasted", 45, "crisp", TODAY),
        ("unaccounted", 1_505, "", TODAY),
    ]
    assert sum(one.water_dg for one in detail.losses) == 8_450


def test_codes_are_numbered_on_and_carry_their_check_character(world: World) -> None:
    """python-stdnum's ISO 7064 MOD 37,36 is the reference for the check character."""
    lot = world.dry_lot(PEAS, 1000, 155)
    first = world.pack(lot, "99xpouch-400-foil:1")
    second = world.pack(lot, "3xpouch-400-foil:1")
    assert [code[6:-1] for code in first] == [f"{number:02d}" for number in range(1, 100)]
    assert [code[6:-1] for code in second] == ["100", "101", "102"]
    for code in (*first, *second):
        assert mod_37_36.is_valid(code)
        assert code.startswith(lot)


def test_a_number_undone_is_given_again_and_a_number_thrown_away_is_not(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155)
    (first,) = world.pack(lot, "1xjar-475:10")
    history.undo(world.room)
    assert world.pack(lot, "1xjar-475:20") == (first,)
    from stockroom.services.packages import discard_packages

    discard_packages(world.room, [first], "torn")
    (second,) = world.pack(lot, "1xjar-475:20")
    assert second[6:8] == "02"


def test_a_lot_may_be_packed_days_later(world: World) -> None:
    lot = world.dry_lot()
    later = world.later(3)
    packing.pack_lot(
        later.room,
        lot,
        [SplitRequest(1, "jar-475", 100, None, False)],
        sealed_on=TODAY + timedelta(days=1),
    )
    (package,) = packing.lot_detail(world.room, lot).packages
    assert package.sealed_on == TODAY + timedelta(days=1)
    assert shelves.package_detail(world.room, package.code).history[0].on_day == package.sealed_on


def test_packing_cautions_each_stand_once(world: World) -> None:
    lot = world.dry_lot(BEEF_RAW, 1000, 270)
    splits = [
        SplitRequest(1, "pouch-400-foil", 100, 100, False),
        SplitRequest(1, "jar-475", 100, 100, True),
    ]
    before = packing.packing_cautions(world.room, lot, splits)
    keys = [one.key for one in before]
    assert len(keys) == len(set(keys))
    assert "raw-stays-raw" in keys
    assert packing.pack_lot(world.room, lot, splits).cautions == before
    assert "raw-stays-raw" in {one.key for one in packing.lot_detail(world.room, lot).cautions}


def test_lots_are_listed_latest_first_and_to_pack_oldest_first(world: World) -> None:
    first = world.dry_lot(PEAS)
    second = world.later(2).dry_lot(APPLE)
    assert [lot.code for lot in packing.list_lots(world.room)] == [second, first]
    assert [lot.code for lot in packing.list_lots(world.room, count=1)] == [second]
    assert [lot.code for lot in packing.lots_to_pack(world.room)] == [first, second]
    packing.record_loss(world.room, first, None, LossReason.SPILT)
    assert [lot.code for lot in packing.lots_to_pack(world.room)] == [second]


def test_a_lot_weighed_without_loss_packs_without_water(world: World) -> None:
    codes = world.pack(world.dry_lot(PEAS, 50, 50), "2xjar-475:rest")
    assert [world.package(code).water_dg for code in codes] == [0, 0]


SPLITS = st.lists(
    st.tuples(
        st.integers(1, 5),
        st.one_of(st.none(), st.integers(1, 900)),
        st.lists(st.integers(1, 300), max_size=2),
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=60, deadline=None)
@given(wet_dg=st.integers(1, 90_000), share=st.fractions(0, 1), rounds=SPLITS)
def test_packages_losses_and_rest_are_the_lot_to_the_tenth(
    room_template: Path,
    wet_dg: int,
    share: Fraction,
    rounds: list[tuple[int, int | None, list[int]]],
) -> None:
    """Any packing in any order, refused or not; then what is left goes into the last cans."""
    dry_dg = max(1, int(wet_dg * share))
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(room_template, Path(folder) / "stockroom.db")
        room = world.room
        bench.start_run(room)
        bench.load_tray(room, 1, PEAS, gross_dg=wet_dg)
        bench.weigh_tray(room, 1, "dry", dry_dg)
        (lot,) = bench.close_run(room).codes
        for count, each_dg, losses in rounds:
            try:
                packing.pack_lot(
                    room,
                    lot,
                    [SplitRequest(count, "can-3300", each_dg, None, False)],
                    losses=[(one, LossReason.TASTED) for one in losses],
                )
            except Refused:
                continue
            assert all_troubles(room) == []
        if world.lot(lot).left_dg:
            # A can of 3,300 mL holds 4,950 g of solids at the most.
            cans = 1 + world.lot(lot).left_dg // 40_000
            packing.pack_lot(room, lot, [SplitRequest(cans, "can-3300", None, None, False)])
        packed = world.lot(lot)
        assert packed.packed_dg + packed.lost_dg == dry_dg
        assert packed.packed_water_dg + packed.lost_water_dg == wet_dg - dry_dg
        assert all_troubles(room) == []
        room.close()


@pytest.mark.parametrize("container", ["pouch-400-foil", "JAR-475", " can-3300 "])
def test_a_container_is_named_by_its_key_in_any_capitals(world: World, container: str) -> None:
    done = packing.pack_lot(
        world.room, world.dry_lot(), [SplitRequest(1, container, 100, None, False)]
    )
    assert world.package(done.codes[0]).container_key == container.strip().lower()
