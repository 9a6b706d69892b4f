"""What a refusal is, and the states of a stockroom in which services say no."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction
from typing import Any

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis
from stockroom.domain.packing import (
    SplitRequest,
    read_split,
)
from stockroom.errors import (
    StockroomError,
)
from stockroom.services import (
    bench,
    history,
    kitchen,
    packages,
    packing,
)
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from stockroom.services.session import Stockroom
from tests.store.entries import acted
from tests.world import PEAS, TODAY, World

HALF_A_PAIR = "peas \udcff"
"""What a terminal that does not send UTF-8 gives for a letter with an accent."""
ENDLESS = "x" * 2001
TOMORROW = TODAY + timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Refusal:
    """A service, the error it must raise, the call, and words of its message or hint."""

    service: str
    error: type[StockroomError]
    prepare: Callable[[World], object]
    act: Callable[[Stockroom], object]
    facts: tuple[str, ...]


def nothing(_: World) -> None:
    """The stockroom as it was started."""


def run_started(world: World) -> None:
    bench.start_run(world.room)


def loaded(world: World) -> None:
    run_started(world)
    bench.load_tray(world.room, 1, PEAS, gross_dg=10_000)


def closed(world: World) -> None:
    world.dry_lot()


def two_runs(world: World) -> None:
    run_started(world)
    run_started(world)


def packed(world: World) -> None:
    """26329A01 to 03 of peas in the cellar, 26329A02 opened, 03 used up; some of the lot left."""
    world.places("cellar", "cellar/rack", "loft", "loft/rack")
    world.packed(PEAS, "3xpouch-400-foil:20,absorber=100", place="cellar")
    packages.draw_package(world.room, "26329A02", Amount(dry_dg=50))
    packages.draw_package(world.room, "26329A03")


def doubtful(world: World) -> None:
    """As packed, with 01 found soft and 02 thrown away."""
    packed(world)
    packages.check_package(world.room, "26329A01", Event.SOFT)
    packages.discard_packages(world.room, ["26329A02"], "torn")


def packed_out(world: World) -> None:
    closed(world)
    packing.record_loss(world.room, "26329A", None, LossReason.SPILT)


def soup(world: World) -> None:
    world.packed(PEAS, "1xpouch-400-foil:10")
    world.recipe("Pea soup")
    world.recipe("Pea stew", lines=[LineRequest(item="onion")])


def many_lots(world: World) -> None:
    for _ in range(26):
        world.dry_lot(wet_g=10, dry_g=2)
    loaded(world)
    bench.weigh_tray(world.room, 1, "dry", 2_000)


def many_packages(world: World) -> None:
    lot = world.dry_lot(wet_g=9_000, dry_g=1_500)
    for _ in range(2):
        packing.pack_lot(world.room, lot, [SplitRequest(499, "pouch-400-foil", 10, 0, False)])


def swapped(world: World) -> None:
    """A dry weight above the loaded one, as only a hand in the file could leave it."""
    loaded(world)
    bench.weigh_tray(world.room, 1, "dry", 2_000)
    with acted(world.room.store):
        world.room.store.run("UPDATE weighing SET gross_dg = 20000 WHERE stage = 'dry'")


def teens(world: World) -> None:
    """Packages 1 to 12 of the lot: 26329A10 among them, no 26329A103."""
    world.pack(world.dry_lot(), "12xpouch-400-foil:5")


def hundred(world: World) -> None:
    world.pack(world.dry_lot(), "110xpouch-400-foil:1")


def moved_on(world: World) -> None:
    """A package that stood in the loft and stands in the cellar."""
    packed(world)
    packages.move_packages(world.room, ["26329A01"], "loft/rack")
    packages.move_packages(world.room, ["26329A01"], "cellar")


def changed_since(world: World) -> None:
    """A row of the last entry changed again by a hand that left no entry of its own."""
    world.places("cellar")
    store = world.room.store
    store.connection.execute("DROP TRIGGER location_tracks_update")
    with acted(store):
        store.run("UPDATE location SET note = 'by hand'")
        store.run("INSERT INTO setting (key, value) VALUES ('mark', '1')")
    history.undo(world.room)


def pack(*splits: str, **wanted: Any) -> Callable[[Stockroom], object]:
    return lambda room: packing.pack_lot(
        room, "26329A", [read_split(split) for split in splits], **wanted
    )


def split(**wanted: Any) -> Callable[[Stockroom], object]:
    asked = {
        "count": 1,
        "container": "jar-475",
        "each_dg": 100,
        "absorber_cc": 0,
        "vacuum": False,
        **wanted,
    }
    return lambda room: packing.pack_lot(room, "26329A", [SplitRequest(**asked)])


def add_recipe(*lines: LineRequest, **wanted: Any) -> Callable[[Stockroom], object]:
    asked: dict[str, Any] = {"name": "Stew", "serves": 4, **wanted}
    return lambda room: kitchen.add_recipe(
        room, asked.pop("name"), asked.pop("serves"), lines, **asked
    )


def peas(amount: Fraction | None, basis: Basis | None = None) -> LineRequest:
    return LineRequest(food=PEAS, basis=basis, amount=amount)


ONION = LineRequest(item="onion")
