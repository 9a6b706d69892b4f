"""A small household over a season, by its services: for tests that want a store with a past."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Allergen
from stockroom.domain.menu_records import MenuRequest
from stockroom.domain.menu_wishes import Between, MenuWishes
from stockroom.domain.packing import SplitRequest, read_split
from stockroom.domain.person import Activity, Sex
from stockroom.domain.soft_decision import Question
from stockroom.services import (
    bench,
    climate,
    deciding,
    dryness,
    foods,
    history,
    kitchen,
    measures,
    menu,
    packages,
    packing,
    people,
    places,
    redrying,
    repacking,
    upkeep,
)
from stockroom.services.calendar_feed import calendar_feed
from stockroom.services.dryness import DrynessTest
from stockroom.services.kitchen import LineRequest
from stockroom.services.leak_tests import Readings, record_leak_test
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from tests.world import APPLE, BEEF_RAW, PEAS, World, new_world

FIRST_DAY = date(2026, 9, 1)
FREEZER_LOG = """Time,Temperature °C
2026-08-30 06:00,-18.4
2026-08-30 18:00,-17.6
2026-08-31 06:00,lid open
2026-08-31 18:00,-17.9
"""


def lived_in(path: Path) -> World:
    """A store with rows in every table, undone and redone actions among them.

    Always the same, but for the name by which its calendar is known.
    """
    world = new_world(path, day=FIRST_DAY)
    _places(world)
    peas, apples = _first_run(world)
    week = world.later(7)
    _shelf_life(week, peas, apples)
    _kitchen(week.later(7), peas)
    _soft_on_its_day(world.later(19))
    _machine(world.later(24))
    bench.start_run(world.later(30).room, note="beef to come")
    bench.load_tray(world.later(30).room, 1, BEEF_RAW, gross_dg=12_000, tare_dg=800)
    calendar_feed(world.later(30).room)
    return world


def _places(world: World) -> None:
    world.places("cellar", "cellar/rack 1", "cellar/rack 1/bin 2", "loft")
    places.change_place(world.room, "cellar", temperature_dc=120)
    places.add_place(world.room, "chest freezer", temperature_dc=-180)
    climate.set_humidity(world.room, "cellar", 70)
    climate.set_months(world.room, "loft", {1: 40, 7: 260})
    climate.import_readings(world.room, "chest freezer", FREEZER_LOG)


def _first_run(world: World) -> tuple[tuple[str, ...], tuple[str, ...]]:
    foods.add_food(
        world.room,
        "Fish fingers, ours",
        like="Cod, Atlantic, raw",
        allergens=[Allergen.WHEAT],
        note="Zoë’s",
    )
    pea_lot, apple_lot = world.dry_run([(PEAS, 1000, 155), (APPLE, 1203.4, 161.7)])
    peas = world.pack(
        pea_lot,
        "3xpouch-400-foil:30,absorber=100",
        "1xjar-475:20,vacuum",
        place="bin 2",
        note="crème – went soft once",
    )
    packing.record_loss(world.room, pea_lot, 45, LossReason.TASTED)
    apples = world.pack(apple_lot, "4xpouch-1500-foil:rest,absorber=300", place="loft")
    return peas, apples


def _shelf_life(world: World, peas: tuple[str, ...], apples: tuple[str, ...]) -> None:
    for code in peas[:3]:
        packages.check_package(world.room, code, Event.CRISP)
    packages.check_package(world.room, apples[0], Event.SOFT, note="soft at the seal")
    packages.note_package(world.room, apples[1], "for Zoë")
    packages.move_packages(world.room, apples[1:3], "cellar/rack 1")
    packages.discard_packages(world.room, [apples[0]], "went soft, too long ago")
    packages.check_package(world.room, apples[3], Event.CRISP)
    packages.draw_package(world.room, apples[3], Amount(dry_dg=123))
    history.undo(world.room)
    history.redo(world.room)


def _kitchen(world: World, peas: tuple[str, ...]) -> None:
    world.recipe(
        "Pea soup",
        4,
        [
            LineRequest(food=PEAS, basis=Basis.FRESH, amount=Fraction(300)),
            LineRequest(food=APPLE, basis=Basis.SERVINGS, amount=Fraction(1, 2)),
            LineRequest(item="onion", amount=Fraction(2)),
            LineRequest(item="pepper", unit="pinch"),
        ],
    )
    kitchen.cook_meal(world.room, "Pea soup", 2)
    packages.draw_package(world.room, peas[2])
    _people_and_menu(world)


def _people_and_menu(world: World) -> None:
    """Who eats, a cup of peas as weighed, and a menu of three days, one dish of it cooked."""
    room = world.room
    people.add_member(
        room,
        "Runa",
        sex=Sex.FEMALE,
        age_years=Fraction(41),
        activity=Activity.LOW,
        told=people.Told(allergens=(Allergen.FISH,), dislikes=(APPLE,)),
    )
    measures.set_measure(room, PEAS, "cup", 380)
    kitchen.change_recipe(room, "Pea soup", allergens=(Allergen.WHEAT,))
    wishes = MenuWishes(breakfasts=Between(0, 0), apart_days=1)
    offer = menu.quick_menu(room, MenuRequest(room.today, 3, wishes))
    menu.keep_menu(room, offer)
    menu.cook_planned(room, offer.plan.dishes[0].on, "Pea soup", people=1)


def _soft_on_its_day(world: World) -> None:
    """Apples dried too short a time, found soft on the next day, dried again and packed anew."""
    lot, codes = _dried_twice(world)
    found = world.later(1)
    packages.check_package(found.room, codes[0], Event.SOFT, note="limp")
    deciding.carry_out(
        found.room,
        codes[0],
        {
            Question.FEEL: "slightly_soft",
            Question.SIGNS: "none",
            Question.HOURS_SINCE_SEALING: "22",
        },
        place="chest freezer",
        sisters_too=True,
    )
    redrying.hold_lot(found.room, lot, why="sisters soft")
    free = world.later(3)
    run_id = bench.start_run(free.room, note="only what was soft").made_id
    for position, wanted, wet_dg, dry_dg in ((1, codes, 1_090, 1_035), (2, [lot], 520, 500)):
        redrying.load_again(free.room, position, wanted, gross_dg=wet_dg, run_id=run_id)
        bench.weigh_tray(free.room, position, "dry", dry_dg, run_id=run_id)
        free.show_dry(position, dry_dg, run_id)
    bench.close_run(free.room, run_id=run_id)
    jars = [read_split("2xjar-950:40,absorber=200"), read_split("1xjar-475")]
    repacking.repack_packages(free.room, codes[:1], jars, place="loft", note="dried again")


def _dried_twice(world: World) -> tuple[str, tuple[str, ...]]:
    """A run that was not dry at its first end: its lot, and three pouches of it."""
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, 1, APPLE, gross_dg=12_000, tare_dg=800, run_id=run_id)
    for hours, gross_dg in ((20, 2_450), (22, 2_390)):
        bench.weigh_tray(world.room, 1, "dry", gross_dg, hours=Fraction(hours), run_id=run_id)
    dryness.record_test(world.room, 1, DrynessTest.COLD, False, note="a cold middle")
    dryness.dry_longer(world.room, Fraction(2), run_id=run_id, note="für Zoë")
    bench.weigh_tray(world.room, 1, "dry", 2_389, hours=Fraction(24), run_id=run_id)
    for kind in DrynessTest:
        dryness.record_test(world.room, 1, kind, True, run_id=run_id)
    (lot,) = bench.close_run(world.room, run_id=run_id).codes
    pouches = SplitRequest(3, "pouch-400-foil", 350, 100, False, None, "P7", "Blue", 1)
    return lot, packing.pack_lot(world.room, lot, [pouches], place="loft").codes


def _machine(world: World) -> None:
    upkeep.record_check(world.room, "gasket", note="wiped")
    upkeep.record_check(world.room, "hose", passed=False, note="a crack")
    readings = Readings(Fraction("0.3"), Fraction("0.5"), Fraction(600), True, Fraction(40))
    record_leak_test(world.room, readings)
