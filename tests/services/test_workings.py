"""The working of a figure comes to the figure that is shown, and its steps give its results."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY, FoodClass
from stockroom.domain.packing import read_split
from stockroom.domain.water import show_water
from stockroom.services import bench, foods, kitchen, packages, packing, places, workings
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount, water_for
from stockroom.services.packing import LossReason
from tests.workings import check_figures, step_of, titled
from tests.world import APPLE, BEEF_RAW, PEAS, World

SOUP = "Soup"


# A package


def test_a_package_has_the_water_and_the_best_by_that_are_shown(world: World) -> None:
    for code in world.packed(PEAS, "2xpouch-400-foil:20,absorber=100", "1xjar-475:rest"):
        package = world.package(code)
        water, best_by = workings.package_working(world.room, code).workings
        assert water.conclusion == show_water(package.water_dg)
        assert best_by.conclusion.startswith(str(package.best_by))
        assert best_by.conclusion.endswith(f"({QUALITY_NOT_SAFETY})")
        assert str(package.best_by) in best_by.steps[-1].result
        assert check_figures(water) >= 6 and check_figures(best_by) >= 8


def test_of_a_gone_one_the_water_alone(world: World) -> None:
    code = world.packed()[0]
    packages.draw_package(world.room, code)
    page = workings.package_working(world.room, code)
    assert [one.title for one in page.workings] == ["Water to add"]


def test_a_place_too_hot_says_why_there_is_no_best_by(world: World) -> None:
    places.add_place(world.room, "loft", temperature_dc=500)
    code = world.packed(place="loft")[0]
    best_by = workings.package_working(world.room, code).workings[1]
    assert best_by.conclusion.startswith("none: 50.0 °C")
    assert best_by.steps[0].title == "no best-by"
    assert best_by.cautions


# What is taken


def test_the_water_for_a_part_is_what_is_taken_off_the_book(world: World) -> None:
    code = world.packed(PEAS, "1xjar-950:100")[0]
    taken = 0
    for take_dg in (313, 101, 586):
        before = world.package(code)
        water = workings.draw_working(world.room, before, take_dg).workings[0]
        assert water.conclusion == show_water(water_for(before, take_dg))
        assert check_figures(water) >= 6
        packages.draw_package(world.room, code, Amount(dry_dg=take_dg))
        taken += take_dg
    assert taken == 1_000
    assert "water left with" in " ".join(step.title for step in water.steps)


# A lot


def test_a_lot_has_its_water_and_what_is_left_of_it(world: World) -> None:
    (code,) = world.dry_run([(PEAS, 600, 90), (PEAS, 400, 65)])
    world.pack(code, "2xpouch-400-foil:20,absorber=100")
    packing.record_loss(world.room, code, 30, LossReason.TASTED)
    lot = world.lot(code)
    water, moisture, *others = workings.lot_working(world.room, code).workings
    assert step_of(water, "water removed").result == f"{lot.water_removed_dg / 10:.1f} g"
    left_dg = lot.water_removed_dg - lot.packed_water_dg - lot.lost_water_dg
    assert water.conclusion == f"845.0 g removed; for what is left to pack {show_water(left_dg)}"
    assert "tray 1 + tray 2" in step_of(water, "lot as loaded").formula
    assert check_figures(water) >= 8
    # r = 1 - wet (1 - w) / dry with the peas' water by USDA SR28, 79.52 %: 1 - 1000 x 0.2048 / 155.
    assert step_of(moisture, "residual moisture").result == "-0.3213"
    assert "usda-sr28" in {source.key for source in moisture.sources}
    assert "cannot show dryness" in moisture.conclusion
    gate = packing.lot_detail(world.room, code).gate
    assert gate is not None and gate.residual is not None
    shown = 100 * gate.residual.residual, 100 * gate.residual.low, 100 * gate.residual.high
    said = "{:.1f} %, between {:.1f} and {:.1f} %".format(*shown)
    assert moisture.conclusion.startswith(said)
    assert check_figures(moisture) >= 3
    (best_by,) = others
    codes = world.listed()
    assert best_by.title == f"Best-by of {', '.join(sorted(codes))}"
    assert best_by.conclusion.startswith(str(world.package(codes[0]).best_by))


def test_a_lot_packed_out_says_so(world: World) -> None:
    code = world.dry_lot()
    world.pack(code, "1xjar-950:rest")
    water = workings.lot_working(world.room, code).workings[0]
    assert water.conclusion == "845.0 g removed; nothing left to pack"


def test_a_lot_with_the_package_under_the_cursor(world: World) -> None:
    lot = world.dry_lot()
    small, large = world.pack(lot, "1xpouch-400-foil:20,absorber=100", "1xjar-950:100")
    page = workings.lot_working(world.room, lot, world.package(large))
    assert page.code == lot
    assert [one.title for one in page.workings[2:]] == [
        f"Water to add of {large}",
        f"Best-by of {large}",
    ]
    both = workings.lot_working(world.room, lot).workings[2:]
    assert [one.title for one in both] == [f"Best-by of {small}", f"Best-by of {large}"]


def test_a_food_of_unknown_water_has_no_estimate(world: World) -> None:
    foods.add_food(
        world.room,
        "Stew",
        food_class=FoodClass.MEAL,
        preparation=Preparation.COOKED,
        serving_dg=2_400,
    )
    code = world.dry_lot("Stew", 1_000, 250)
    moisture = workings.lot_working(world.room, code).workings[1]
    assert moisture.conclusion.startswith("not estimated")
    assert any("break test" in text for text in moisture.cautions)


def test_packages_alike_share_a_working_and_others_do_not(world: World) -> None:
    lot = world.dry_lot(wet_g=2_000, dry_g=310.1)
    made = world.pack(lot, "3xpouch-1500-foil:rest,absorber=300")
    later = [world.package(code) for code in made]
    assert len({one.dry_dg for one in later}) == 2  # an even split of 310.1 g
    page = workings.made_working(world.room, lot, later)
    assert [one.title for one in page.workings] == [
        f"Water to add of {made[0]}",
        f"Best-by of {', '.join(made)}",
    ]
    packages.draw_package(world.room, made[1], Amount(dry_dg=100))
    found = workings.lot_working(world.room, lot).workings[2:]
    assert [one.title for one in found] == [
        f"Best-by of {made[0]}, {made[2]}",
        f"Best-by of {made[1]}",
    ]


# A run


def test_a_run_has_the_water_to_expect_and_what_each_food_lost(world: World) -> None:
    bench.start_run(world.room)
    for position, (food, wet_dg) in enumerate(((PEAS, 6_000), (APPLE, 5_000), (PEAS, 4_000)), 1):
        bench.load_tray(world.room, position, food, gross_dg=wet_dg)
    bench.weigh_tray(world.room, 1, "dry", 950)
    bench.weigh_tray(world.room, 3, "dry", 610)
    detail = bench.run_detail(world.room)
    expected, peas = workings.run_working(world.room).workings
    assert detail.expected_water_dg is not None
    assert expected.conclusion == f"{detail.expected_water_dg / 10:.1f} g"
    assert "usda-sr28" in {source.key for source in expected.sources}
    assert check_figures(expected) == 2
    assert peas.title == f"Water out of {PEAS}"
    assert peas.conclusion == "844.0 g removed"
    assert check_figures(peas) >= 5
    bench.weigh_tray(world.room, 2, "dry", 700)
    bench.close_run(world.room)
    closed = workings.run_working(world.room, detail.run.run_id).workings
    assert [one.title for one in closed] == [f"Water out of {PEAS}", f"Water out of {APPLE}"]


def test_a_load_that_is_not_weighed_has_nothing_to_expect_yet(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS)
    (expected,) = workings.run_working(world.room).workings
    assert expected.conclusion == "not known yet"
    assert "tray 1" in expected.steps[0].result


# A dish


def _soup(world: World, *lines: LineRequest, serves: int = 2) -> None:
    kitchen.add_recipe(world.room, SOUP, serves, lines, cooking_water_dg=5_000)


def _line(food: str, amount: object, basis: Basis) -> LineRequest:
    return LineRequest(food=food, basis=basis, amount=Fraction(str(amount)))


@pytest.mark.parametrize(
    ("basis", "amount"), [(Basis.FRESH, 700), (Basis.DRY, 110), (Basis.SERVINGS, "6.6")]
)
@pytest.mark.parametrize("people", [1, 3, 7])
def test_every_food_of_a_dish_has_the_water_of_the_sheet(
    world: World, basis: Basis, amount: object, people: int
) -> None:
    world.packed(PEAS, "3xpouch-400-foil:30,absorber=100")
    second = world.packed(PEAS, "2xpouch-400-foil:40,absorber=100", wet_g=900, dry_g=160)
    world.packed(APPLE, "1xjar-475:40", wet_g=500, dry_g=70)
    packages.check_package(world.later(1).room, second[0], Event.CRISP)
    packages.draw_package(world.later(1).room, second[0], Amount(dry_dg=77))
    _soup(
        world,
        _line(PEAS, amount, basis),
        _line(APPLE, 20, Basis.DRY),
        _line(PEAS, 50, Basis.FRESH),
        LineRequest(item="onion"),
    )
    sheet = kitchen.cook_sheet(world.room, SOUP, people)
    *of_foods, in_all = workings.cook_working(world.room, sheet).workings
    assert len(of_foods) == 3
    for working, line in zip(of_foods, sheet.plan.lines, strict=True):
        if not line.picks:
            assert working.conclusion == "nothing of it is on the shelves"
            continue
        assert working.conclusion == show_water(line.water_dg)
        assert check_figures(working) >= 6
        assert step_of(working, "wanted, ").result == f"{line.need.wanted_dg / 10:.1f} g"
        for pick in line.picks:
            assert pick.candidate.code in " ".join(step.title for step in working.steps)
        short = [text for text in working.cautions if "short by" in text]
        assert bool(short) == (line.shortfall_dg > 0)
    assert in_all.conclusion.startswith(show_water(sheet.plan.water_dg))
    assert step_of(in_all, "cooking water").result == f"{sheet.plan.cooking_water_dg / 10:.1f} g"
    assert check_figures(in_all) >= 3


def test_a_dish_that_takes_nothing_says_so(world: World) -> None:
    kitchen.add_recipe(world.room, SOUP, 2, [LineRequest(item="onion")])
    sheet = kitchen.cook_sheet(world.room, SOUP, 2)
    (in_all,) = workings.cook_working(world.room, sheet).workings
    assert in_all.conclusion == "no water to add"


# All of them


def test_looking_at_workings_changes_nothing(world: World) -> None:
    code = world.packed()[0]
    world.recipe()
    lot = world.package(code).lot_code
    before = world.whole_dump()
    workings.package_working(world.room, code)
    workings.lot_working(world.room, lot)
    workings.run_working(world.room, 1)
    workings.draw_working(world.room, world.package(code), 10)
    workings.cook_working(world.room, kitchen.cook_sheet(world.room, "Pea soup", 2))
    assert world.whole_dump() == before


def test_every_figure_has_a_standing_or_is_on_record(world: World) -> None:
    """What has none is a weight, a number or a day the household gave."""
    code = world.packed(BEEF_RAW, "1xjar-475:60,absorber=100", wet_g=500, dry_g=140)[0]
    world.recipe("Stew", lines=[_line(BEEF_RAW, 100, Basis.FRESH)])
    sheet = kitchen.cook_sheet(world.later(2).room, "Stew", 3)
    pages = (
        workings.lot_working(world.room, world.package(code).lot_code),
        workings.cook_working(world.room, sheet),
        workings.draw_working(world.room, world.package(code), 100),
    )
    own = (
        "dry ", "lot", "tray", "people", "the recipe", "its water", "water of the", "sealed on",
        "volume as closed", "absorber", "gauge vacuum", "food ", "one digit", "fat of",
    )  # fmt: skip
    for page in pages:
        for working in page.workings:
            for step in working.steps:
                for given in step.inputs:
                    known = given.name.startswith((*own, "from 20", "temperature there"))
                    assert given.stands_as is not None or known, (working.title, given)


def test_a_lot_of_one_place_and_day_is_explained_as_it_stands(world: World) -> None:
    """The working follows the package: moved to a warmer place, another date, another working."""
    places.add_place(world.room, "cellar", temperature_dc=100)
    places.add_place(world.room, "kitchen", temperature_dc=240)
    code = world.packed(place="cellar")[0]
    later = world.on(world.room.today + timedelta(days=100))
    packages.move_packages(later.room, [code], "kitchen")
    best_by = titled(workings.package_working(later.room, code).workings, "Best-by")
    assert best_by.conclusion.startswith(str(later.package(code).best_by))
    assert read_split("1xjar-475:10").count == 1
