"""A household with a little of everything, for the tests of the Round and the Shelves."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.services import bench, foods, packages, places
from stockroom.services.packages import Amount
from tests.tui.screen_text import HARD_NAME
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World

__all__ = ["TODAY", "Stocked", "stock"]


@dataclass(frozen=True, slots=True)
class Stocked:
    """The codes of what is on the shelves."""

    peas: tuple[str, ...]
    """Four pouches from 40 days ago: opened, found soft 9 days ago, sound, sound."""
    apples: tuple[str, ...]
    """Two zip bags from 40 days ago, sound and past their best-by."""
    hard: tuple[str, ...]
    """Three pouches sealed two days ago, not settle-checked."""
    beef: tuple[str, ...]
    """Two jars of raw beef sealed yesterday, not settle-checked, half the lot still to pack."""


def stock(world: World) -> Stocked:
    """Fill a store by the services, over forty days up to TODAY."""
    room = world.room
    places.add_place(room, "Cold cellar", temperature_dc=120)
    world.places("Cold cellar/Rack 1", "Cold cellar/Rack 1/Bin 1", "Cold cellar/Rack 1/Bin 2")
    places.add_place(room, "Galley cupboard", temperature_dc=210)
    foods.add_food(room, HARD_NAME, like="Beef stew, canned", water_percent=Fraction(76))
    peas, apples = _long_ago(world.later(-40))
    (hard_lot,) = world.later(-2).dry_run([(HARD_NAME, 800, 200)])
    hard = world.later(-2).pack(hard_lot, "3xpouch-1500-foil:60,absorber=300", place="Bin 1")
    (beef_lot,) = world.later(-1).dry_run([(BEEF_RAW, 600, 160)])
    beef = world.later(-1).pack(beef_lot, "2xjar-950:40,absorber=100", place="Bin 2")
    bench.start_run(room)
    bench.load_tray(room, 1, HARD_NAME, gross_dg=7000)
    return Stocked(peas, apples, hard, beef)


def _long_ago(world: World) -> tuple[tuple[str, ...], tuple[str, ...]]:
    pea_lot, apple_lot = world.dry_run([(PEAS, 800, 160), (APPLE, 700, 100)])
    peas = world.pack(pea_lot, "4xpouch-1500-foil:rest,absorber=300", place="Bin 2")
    apples = world.pack(apple_lot, "2xbag-zip-1000", place="Galley cupboard")
    day_after = world.later(1)
    for code in (*peas, *apples):
        packages.check_package(day_after.room, code, Event.CRISP)
    packages.draw_package(world.later(30).room, peas[0], Amount(dry_dg=150))
    soft_day = world.later(31).room
    packages.check_package(soft_day, peas[1], Event.SOFT)
    for code in (peas[0], *peas[2:]):
        packages.check_package(soft_day, code, Event.CRISP)
    return peas, apples
