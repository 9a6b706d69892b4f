"""Lists of packages from a spreadsheet: what becomes of each row, and what stands in the way."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stockroom.clock import FixedClock
from stockroom.domain.conditions import Condition
from stockroom.domain.exchange.days import DayOrder
from stockroom.domain.exchange.figures import Decimal
from stockroom.domain.exchange.headings import Field
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.records import Container
from stockroom.services import bench, finding, foods, packing, places, shelves
from stockroom.services.doctor import examine
from stockroom.services.dryness import lot_gate
from stockroom.services.evidence import lot_evidence, packages_evidence
from stockroom.services.history import undo
from stockroom.services.list_importing import (
    NO_EVIDENCE,
    TAKEN,
    ListWishes,
    look_at_list,
    take_list,
)
from stockroom.services.list_names import ANY_FOOD, SaidFood
from tests.invariants import all_troubles
from tests.services.cases_exchange import LIST, WISHES, with_cellar
from tests.services.test_undo import same
from tests.world import APPLE, PEAS, TODAY, World

QUOTED = f'"{PEAS}"'
"""A name with commas, as it stands in a list with commas between its cells."""
PLAIN = ListWishes("list.csv", container="jar-950")
SOUP = SaidFood(FoodClass.MEAL, Preparation.COOKED)


def problems(world: World, text: str, wishes: ListWishes = PLAIN) -> list[tuple[int, str, str]]:
    """Line, column and reason of each problem."""
    found = look_at_list(world.room, text, wishes).problems
    return [(one.line, one.column, one.why) for one in found]


def test_rows_become_packages_of_past_runs(world: World) -> None:
    with_cellar(world)
    done = take_list(world.room, LIST, WISHES)
    assert done.words == "took in 4 packages in 2 lots from the list larder.csv"
    codes = done.codes
    assert [code[:8] for code in codes] == ["26004A01", "26004A02", "26004A03", "26006A01"]
    first, third, soup = (world.package(codes[at]) for at in (0, 2, 3))
    # 400 g wet less 62.5 g dry.
    assert (first.food, first.dry_dg, first.water_dg, first.absorber_cc) == (PEAS, 625, 3375, 300)
    assert (first.container_key, first.place) == ("pouch-1500-foil", "cellar/rack 2")
    assert (first.sealed_on.isoformat(), first.made_on.isoformat()) == ("2026-01-05", "2026-01-04")
    assert first.note == "own code A-1; für Zoë" and not first.vacuum
    assert (third.place, third.vacuum, third.note) == ("cellar", True, "own code A-2")
    assert (soup.food, soup.dry_dg, soup.made_on, soup.note) == (
        "Leek soup", 800, soup.sealed_on, "",
    )  # fmt: skip
    peas = world.lot("26004A")
    assert (peas.dry_dg, peas.wet_dg, peas.left_dg) == (1850, 11800, 0)
    run = bench.run_detail(world.room, peas.run_id).run
    assert run.state == "closed" and run.note == f"{TAKEN} larder.csv"
    assert run.started_on.isoformat() == "2026-01-04"
    assert all_troubles(world.room) == []
    assert examine(world.path, clock=FixedClock(TODAY)).findings == ()


def test_nothing_shows_that_it_is_dry_and_the_record_says_so(world: World) -> None:
    with_cellar(world)
    done = take_list(world.room, LIST, WISHES)
    pouch, jar = world.package(done.codes[0]), world.package(done.codes[3])
    assert pouch.gate_reason == f"taken from the list: {NO_EVIDENCE}" and jar.gate_reason == ""
    lot = world.lot("26004A")
    assert lot.note == f"{TAKEN} larder.csv: {NO_EVIDENCE}"
    gate = lot_gate(world.room, lot)
    assert not gate.open and "no tray of it is on record" in gate.missing[0].words
    keys = {caution.key for caution in done.cautions}
    assert {"botulism", "dry-enough", "estimate-no-proof"} <= keys
    dry_only = LIST.replace("300 cc", "").replace(";300;yes;", ";;;")
    assert "botulism" not in {
        caution.key for caution in look_at_list(world.room, dry_only, WISHES).cautions
    }


@pytest.mark.parametrize("condition", [Condition.SETTLING, Condition.SOUND])
def test_the_condition_is_as_said_and_its_history_says_by_whom(
    world: World, condition: Condition
) -> None:
    with_cellar(world)
    done = take_list(world.room, LIST, replace(WISHES, condition=condition))
    history = shelves.package_detail(world.room, done.codes[0]).history
    assert world.package(done.codes[0]).condition == condition
    assert [line.event for line in history] == ["sealed", "noted"][: 1 + (condition == "sound")]
    if condition is Condition.SOUND:
        assert history[-1].note == "sound by the list larder.csv, not looked at here"


def test_taking_in_is_undone_at_once(world: World) -> None:
    with_cellar(world)
    before = world.dump()
    take_list(world.room, LIST, WISHES)
    assert undo(world.room).words == "undid: took in 4 packages in 2 lots from the list larder.csv"
    assert same(world.dump(), before) == {}


def test_looking_keeps_nothing_and_tells_what_it_would_be(world: World) -> None:
    with_cellar(world)
    before = world.whole_dump()
    seen = look_at_list(world.room, LIST, WISHES)
    assert world.whole_dump() == before
    assert [(lot.code, lot.packages, lot.dry_dg, lot.water_dg) for lot in seen.lots] == [
        ("26004A", 3, 1850, 9950), ("26006A", 1, 800, 4200),
    ]  # fmt: skip
    assert (seen.taken_over, seen.new_foods, seen.new_places) == (
        (PEAS,), ("Leek soup",), ("cellar/rack 2",),
    )  # fmt: skip
    assert seen.read.decimal is Decimal.COMMA and seen.read.order is None
    codes = take_list(world.room, LIST, WISHES).codes
    assert {code[:6] for code in codes} == {lot.code for lot in seen.lots}


def test_lots_of_the_same_day_get_the_next_letters(world: World) -> None:
    world.dry_lot()
    done = take_list(world.room, f"food\tdry\twater\tdate\n{PEAS}\t50\t90\t2026-11-25\n", PLAIN)
    assert done.codes[0].startswith("26329B01")


def test_water_that_is_not_told_is_reckoned_from_the_food(world: World) -> None:
    text = f"food,dry,date,qty\n{QUOTED},50,2026-01-05,3\n"
    seen = look_at_list(world.room, text, PLAIN)
    assert seen.reckoned == 3
    package = world.package(take_list(world.room, text, PLAIN).codes[0])
    food = finding.find_food(world.room, PEAS)
    assert food.water_cg is not None
    # Dry is what is left when all the water of the food has gone.
    assert abs(package.water_dg / (package.water_dg + 500) - food.water_cg / 10_000) < 0.0005
    assert problems(world, "food,dry,date\nStew,50,2026-01-05\n", replace(PLAIN, foods={"*": SOUP}))


def test_us_households_leave_ounces_out(world: World) -> None:
    from stockroom.domain.quantities import UnitSystem
    from stockroom.services.household import change_household

    change_household(world.room, units=UnitSystem.US)
    done = take_list(world.room, f"food,dry,water g,date\n{QUOTED},2,200,2026-01-05\n", PLAIN)
    assert (world.package(done.codes[0]).dry_dg, world.package(done.codes[0]).water_dg) == (
        567, 2000,
    )  # fmt: skip


def test_every_problem_is_told_by_line_and_column(world: World) -> None:
    world.places("cellar", "cellar/rack", "loft", "loft/rack")
    text = (
        "food,dry (g),wet,water,bag,oa,vacuum,sealed,made,place,qty,notes\n"
        f"{QUOTED},62,200,,pouch-1500-foil,,,2026-01-05,,cellar,1,fine\n"
        "Nothing known,62,200,,,,,2026-01-05,,,,\n"
        f",,200,,,x,perhaps,,,,0,\n"
        f"{QUOTED},62,50,,,,,2026-01-05,,,,\n"
        f"{QUOTED},62,200,200,,,,2026-01-05,,,,\n"
        f"{QUOTED},62,200,,sack,,,2026-01-05,2026-01-06,rack,,\n"
        f"{QUOTED},62,200,,,,,2026-11-26,,attic,1000,{'x' * 2001}\n"
        f"{QUOTED},6200,9000,,,30000,,2026-02-30,,,,\n"
        f"{QUOTED},6200,9000,,,,,2026-02-03,,,,\n"
    )
    found = problems(world, text)
    told = {(line, column) for line, column, _ in found}
    assert told == {
        (3, "food"),
        (4, "food"), (4, "dry (g)"), (4, "oa"), (4, "vacuum"), (4, "sealed"), (4, "qty"),
        (5, "wet"), (6, "water"), (7, "sealed"),
        (8, "sealed"), (8, "qty"), (9, "oa"), (9, "sealed"), (10, "dry (g)"),
    }  # fmt: skip
    assert [line for line, _, _ in found] == sorted(line for line, _, _ in found)
    names = problems(
        world,
        "food,dry,water,bag,sealed,place,notes\n"
        f"{QUOTED},62,200,sack,2026-01-05,rack,\n"
        f"{QUOTED},62,200,,2026-01-05,attic,{'x' * 2001}\n",
    )
    assert {(line, column) for line, column, _ in names} == {
        (2, "bag"), (2, "place"), (3, "place"), (3, "notes"),
    }  # fmt: skip
    assert any("cellar/rack, loft/rack" in why for *_, why in names)


def test_a_comma_too_many_is_not_read_as_something_else(world: World) -> None:
    text = f"food,dry,water,date\n{PEAS},62,200,2026-01-05\n"
    ((line, _, why),) = problems(world, text)
    assert line == 2 and "more cells than there are headings" in why


def test_no_container_is_told_once_a_row(world: World) -> None:
    text = f"food,dry,water,date\n{QUOTED},62,200,2026-01-05\n"
    ((line, column, why),) = problems(world, text, ListWishes("x"))
    assert (line, column) == (2, "container") and "--container" in why
    text = f"food,dry,water,date,bag\n{QUOTED},62,200,2026-01-05,Jar 950 mL\n"
    named = {one.name for one in finding_containers(world)}
    text = text.replace("Jar 950 mL", sorted(named)[0].upper())
    assert problems(world, text, ListWishes("x")) == []


def finding_containers(world: World) -> tuple[Container, ...]:
    """Every container there is."""
    from stockroom.services.household import list_containers

    return list_containers(world.room)


def test_a_day_has_26_lots_and_a_lot_999_packages(world: World) -> None:
    rows = "".join(f"food {number},50,100,2026-01-05,1\n" for number in range(27))
    found = problems(world, f"food,dry,water,date,qty\n{rows}", replace(PLAIN, foods={"*": SOUP}))
    assert len(found) == 1 and "lots A to Z" in found[0][2]
    rows = f"{QUOTED},50,100,2026-01-05,999\n{QUOTED},50,100,2026-01-05,1\n"
    ((line, column, why),) = problems(world, f"food,dry,water,date,qty\n{rows}")
    assert (line, column) == (2, "qty") and "999" in why


def test_foods_are_added_as_they_are_said(world: World) -> None:
    foods.add_food(
        world.room, "Leek soup", food_class=FoodClass.VEGETABLE, preparation=Preparation.RAW
    )
    text = (
        "food,dry,water,date\nLEEK SOUP,50,90,2026-01-05\nStew ,50,90,2026-01-05\n"
        f'stew,51,90,2026-01-05\n"{APPLE}",50,90,2026-01-05\n'
    )
    wishes = replace(PLAIN, foods={ANY_FOOD: SOUP, "leek soup": SOUP})
    seen = look_at_list(world.room, text, wishes)
    assert (seen.new_foods, seen.taken_over) == (("Stew",), (APPLE,))
    take_list(world.room, text, wishes)
    named = {food.name: food for food in foods.list_foods(world.room)}
    assert set(named) == {"Leek soup", "Stew", APPLE}
    assert named["Leek soup"].food_class == FoodClass.VEGETABLE
    assert (named["Stew"].food_class, named["Stew"].ingredients_unknown) == (FoodClass.MEAL, True)
    assert [lot.packages for lot in packing.list_lots(world.room)] == [2, 1, 1]


def test_places_are_added_below_what_is_there(world: World) -> None:
    world.places("cellar", "cellar/rack")
    text = "food,dry,water,date,place\n" + "".join(
        f"{QUOTED},50,90,2026-01-05,{place}\n"
        for place in ("rack/bin 1", "Cellar/RACK/Bin 1", "rack / bin 2", "attic/shelf", "attic")
    )
    take_list(world.room, text, replace(PLAIN, add_places=True))
    assert [place.path for place in places.list_places(world.room)] == [
        "attic", "attic/shelf", "cellar", "cellar/rack", "cellar/rack/bin 1", "cellar/rack/bin 2",
    ]  # fmt: skip


def test_headings_order_and_sign_can_be_said(world: World) -> None:
    text = f"Was;Netto;Wasser;Am\n{PEAS};1,500 g;2,500;03/04/2026\n"
    wishes = replace(
        PLAIN,
        columns={
            Field.FOOD: "was", Field.DRY: "netto", Field.WATER: "wasser", Field.SEALED_ON: "am",
        },
        order=DayOrder.MONTH_FIRST,
    )  # fmt: skip
    assert next(why for *_, why in problems(world, text, wishes)).endswith("say --decimal")
    done = take_list(world.room, text, replace(wishes, decimal=Decimal.COMMA))
    package = world.package(done.codes[0])
    assert (package.dry_dg, package.water_dg) == (15, 25)
    assert package.sealed_on.isoformat() == "2026-03-04"


def test_best_by_dates_come_with_the_packages(world: World) -> None:
    with_cellar(world)
    for code in take_list(world.room, LIST, WISHES).codes:
        assert shelves.package_detail(world.room, code).projection is not None


def test_the_evidence_of_its_lots_is_a_batch_without_trays(world: World) -> None:
    with_cellar(world)
    codes = take_list(world.room, LIST, WISHES).codes
    own = [world.package(code) for code in codes[:2]]
    for found in (lot_evidence(world.room, "26004A"), packages_evidence(world.room, own)):
        (batch,) = found.batches
        assert (batch.food, batch.codes, batch.trays) == (PEAS, ("26004A",), ())
        assert not batch.gate.open and found.run.note == f"{TAKEN} larder.csv"
