"""A small household over a season, by its services: for tests that want a store with a past."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Allergen
from stockroom.services import (
    bench,
    climate,
    foods,
    history,
    kitchen,
    packages,
    packing,
    places,
)
from stockroom.services.kitchen import LineRequest
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
    """A store with rows in every table, undone and redone actions among them; always the same."""
    world = new_world(path, day=FIRST_DAY)
    _places(world)
    peas, apples = _first_run(world)
    week = world.later(7)
    _shelf_life(week, peas, apples)
    _kitchen(week.later(7), peas)
    bench.start_run(world.later(30).room, note="beef to come")
    bench.load_tray(world.later(30).room, 1, BEEF_RAW, gross_dg=12_000, tare_dg=800)
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
