"""The bench: from the first tray to lots that weigh what their trays weighed."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from stockroom.domain.keeping.interface import FoodClass
from stockroom.services import bench, foods, packing
from tests.invariants import all_troubles
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World


def test_a_run_from_empty_trays_to_lots(world: World) -> None:
    room = world.room
    started = bench.start_run(room, note=" first of the year ")
    assert (started.words, started.made_id) == ("started run 1", 1)
    loaded = bench.load_tray(room, 2, PEAS, gross_dg=10_800, tare_dg=800)
    assert loaded.words == f"loaded {PEAS} on tray 2 of run 1, 1000.0 g"
    bench.load_tray(room, 1, APPLE, gross_dg=12_034)
    bench.load_tray(room, 4, PEAS.upper(), gross_dg=9_000)
    weighed = bench.weigh_tray(room, 2, "dry", 2_350)
    assert weighed.words == f"weighed tray 2 of run 1 dry, 155.0 g {PEAS}"
    bench.weigh_tray(room, 1, "dry", 1_617)
    bench.weigh_tray(room, 4, "dry", 1_401)
    closed = bench.close_run(room)
    assert closed.words == "closed run 1 into lots 26329A, 26329B"
    assert closed.codes == ("26329A", "26329B")

    apples, peas = world.lot("26329A"), world.lot("26329B")
    assert (apples.food, apples.wet_dg, apples.dry_dg) == (APPLE, 12_034, 1_617)
    assert (peas.food, peas.wet_dg, peas.dry_dg) == (PEAS, 19_000, 2_951)
    assert (peas.made_on, peas.preparation, peas.food_class) == (TODAY, "cooked", "vegetable")
    assert (peas.left_dg, peas.packages, peas.water_removed_dg) == (2_951, 0, 16_049)
    detail = packing.lot_detail(room, "26329B")
    assert [tray.position for tray in detail.trays] == [2, 4]
    run = bench.run_detail(room, 1).run
    assert (run.state, run.closed_on, run.note) == ("closed", TODAY, "first of the year")
    assert (run.trays, run.foods) == (3, f"{APPLE}, {PEAS}")
    assert all_troubles(room) == []


def test_without_a_number_the_one_open_run_is_meant(world: World) -> None:
    first = bench.start_run(world.room).made_id
    bench.abandon_run(world.room)
    second = bench.start_run(world.room).made_id
    assert bench.run_detail(world.room).run.run_id == second != first
    assert [run.run_id for run in bench.list_runs(world.room)] == [second, first]
    assert [run.run_id for run in bench.list_runs(world.room, count=1)] == [second]


def test_the_latest_weight_of_each_stage_counts(world: World) -> None:
    room = world.room
    bench.start_run(room)
    bench.load_tray(room, 1, PEAS, gross_dg=9_900)
    bench.weigh_tray(room, 1, "wet", 10_000)
    for gross_dg in (3_000, 2_400, 2_350):
        bench.weigh_tray(room, 1, "dry", gross_dg, tare_dg=800)
    (tray,) = bench.run_detail(room).trays
    assert (tray.wet_dg, tray.dry_dg) == (10_000, 1_550)


def test_the_tray_s_own_weight_is_remembered(world: World) -> None:
    room = world.room
    bench.start_run(room)
    bench.load_tray(room, 1, PEAS, gross_dg=10_800, tare_dg=800)
    bench.weigh_tray(room, 1, "dry", 2_350)
    bench.weigh_tray(room, 1, "dry", 2_330, tare_dg=780)
    bench.weigh_tray(room, 1, "dry", 2_320)
    (tray,) = bench.run_detail(room).trays
    assert (tray.wet_dg, tray.dry_dg) == (10_000, 1_540)


def test_a_tray_loaded_without_weight_is_weighed_later(world: World) -> None:
    room = world.room
    bench.start_run(room)
    done = bench.load_tray(room, 1, PEAS)
    assert done.words == f"loaded {PEAS} on tray 1 of run 1"
    assert bench.run_detail(room).trays[0].wet_dg is None
    bench.weigh_tray(room, 1, "wet", 5_000)
    assert bench.run_detail(room).trays[0].wet_dg == 5_000


def test_dry_may_be_as_heavy_as_wet_but_no_heavier(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=500)
    bench.weigh_tray(world.room, 1, "dry", 500)
    assert bench.close_run(world.room).codes == ("26329A",)
    assert world.lot("26329A").water_removed_dg == 0


def test_a_tray_is_taken_out_with_its_weights(world: World) -> None:
    room = world.room
    bench.start_run(room)
    bench.load_tray(room, 1, PEAS, gross_dg=5_000)
    bench.load_tray(room, 2, APPLE, gross_dg=6_000)
    assert bench.unload_tray(room, 1).words == f"took {PEAS} on tray 1 out of run 1"
    assert [tray.position for tray in bench.run_detail(room).trays] == [2]
    bench.load_tray(room, 1, APPLE)
    assert bench.run_detail(room).trays[0].wet_dg is None


def test_a_run_given_up_makes_nothing_and_stays(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=5_000)
    assert bench.abandon_run(world.room).words == "abandoned run 1"
    detail = bench.run_detail(world.room, 1)
    assert (detail.run.state, detail.run.closed_on, detail.lots) == ("abandoned", TODAY, ())
    assert detail.trays[0].wet_dg == 5_000


def test_a_run_given_up_on_an_earlier_day_than_it_began(world: World) -> None:
    """Asked with the day set back: a run never ends before it began."""
    bench.start_run(world.room)
    bench.abandon_run(world.later(-5).room)
    assert bench.run_detail(world.room, 1).run.closed_on == TODAY


def test_letters_go_on_through_the_day_and_over_runs(world: World) -> None:
    first = world.dry_run([(PEAS, 500, 80), (APPLE, 500, 70)])
    second = world.dry_run([(PEAS, 400, 60)])
    next_day = world.later(1).dry_run([(PEAS, 400, 60)])
    assert (first, second, next_day) == (("26329A", "26329B"), ("26329C",), ("26330A",))


def test_a_lot_is_coded_by_its_closing_day(world: World) -> None:
    """29 February is day 60 of its year (calendar)."""
    leap = world.on(date(2028, 3, 2))
    bench.start_run(leap.room, started_on=date(2028, 2, 28))
    bench.load_tray(leap.room, 1, PEAS, gross_dg=5_000)
    bench.weigh_tray(leap.room, 1, "dry", 800)
    done = bench.close_run(leap.room, closed_on=date(2028, 2, 29))
    assert done.codes == ("28060A",)
    assert leap.lot("28060A").made_on == date(2028, 2, 29)


def test_trays_of_one_food_become_one_lot_in_order_of_the_first(world: World) -> None:
    codes = world.dry_run([(APPLE, 100, 10), (PEAS, 100, 20), (APPLE, 100, 11), (PEAS, 100, 21)])
    assert [world.lot(code).food for code in codes] == [APPLE, PEAS]
    assert [world.lot(code).dry_dg for code in codes] == [210, 410]


def test_a_new_food_is_taken_over_from_the_reference_table(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, "  crab, dungeness, MOIST heat ")
    (food,) = foods.list_foods(world.room)
    assert (food.name, food.reference_key) == (
        "Crab, Dungeness, moist heat",
        "crab_dungeness_cooked",
    )
    assert food.allergens == ("crustacean_shellfish",)
    bench.load_tray(world.room, 2, "Crab, Dungeness, moist heat")
    assert len(foods.list_foods(world.room)) == 1


def test_a_reference_food_may_be_named_by_its_key(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, "pea_frozen_cooked")
    assert bench.run_detail(world.room).trays[0].food == PEAS


def test_the_water_to_expect_comes_from_composition(world: World) -> None:
    """Peas 79.52 g and peeled apple 86.67 g of water in 100 g (USDA SR28: 11313, 09004)."""
    bench.start_run(world.room)
    assert bench.run_detail(world.room).expected_water_dg is None
    bench.load_tray(world.room, 1, PEAS, gross_dg=10_000)
    bench.load_tray(world.room, 2, APPLE, gross_dg=5_000)
    assert bench.run_detail(world.room).expected_water_dg == 7_952 + 4_333
    bench.load_tray(world.room, 3, APPLE)
    assert bench.run_detail(world.room).expected_water_dg is None


def test_the_water_of_a_food_nobody_analysed_is_unknown(world: World) -> None:
    foods.add_food(
        world.room, "Stew, ours", food_class=FoodClass.MEAL, preparation=foods.Preparation.COOKED
    )
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, "Stew, ours", gross_dg=5_000)
    assert bench.run_detail(world.room).expected_water_dg is None


def test_raw_meat_is_cautioned_where_it_is_loaded(world: World) -> None:
    bench.start_run(world.room)
    keys = {one.key for one in bench.load_tray(world.room, 1, BEEF_RAW).cautions}
    assert "raw-stays-raw" in keys
    bench.load_tray(world.room, 2, APPLE)
    assert "raw-stays-raw" in {one.key for one in bench.run_detail(world.room).cautions}


def test_peas_alone_are_loaded_without_that_caution(world: World) -> None:
    bench.start_run(world.room)
    keys = {one.key for one in bench.load_tray(world.room, 1, PEAS).cautions}
    assert "raw-stays-raw" not in keys


@pytest.mark.parametrize("days", [0, -1, -400])
def test_a_run_may_have_begun_earlier(world: World, days: int) -> None:
    day = TODAY + timedelta(days=days)
    bench.start_run(world.room, started_on=day)
    assert bench.run_detail(world.room).run.started_on == day


def test_two_runs_at_once_are_told_apart_by_number(world: World) -> None:
    first, second = (bench.start_run(world.room).made_id for _ in range(2))
    bench.load_tray(world.room, 1, PEAS, gross_dg=500, run_id=first)
    bench.load_tray(world.room, 1, APPLE, gross_dg=600, run_id=second)
    bench.weigh_tray(world.room, 1, "dry", 90, run_id=first)
    bench.close_run(world.room, run_id=first)
    assert bench.run_detail(world.room).run.run_id == second
    assert [run.state for run in bench.list_runs(world.room)] == ["open", "closed"]
