"""A household with something of each doubt: to decide, to look at, held, waiting, drying on."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.domain.quantities import to_dg
from stockroom.domain.soft_decision import Question
from stockroom.services import bench, deciding, dryness, packages, places, redrying
from tests.tui.stocked import Stocked, stock
from tests.world import PEAS, World

FREEZER = "Chest freezer"
SOON = {
    Question.FEEL: "slightly_soft",
    Question.SIGNS: "none",
    Question.HOURS_SINCE_SEALING: "18",
}
"""Answers about a package found slightly soft on the day after its sealing."""


@dataclass(frozen=True, slots=True)
class Doubtful:
    """The codes of what is on the shelves."""

    stocked: Stocked
    lot: str
    held: str
    """First in the queue: found soft the day after sealing, in the freezer."""
    follower: str
    """Second in the queue: its sister, held with it."""
    sister: str
    """Suspect because of the first, not looked at yet."""


def doubt(world: World) -> Doubtful:
    """What `stock` has, and a lot of three pouches sealed yesterday of which one went soft."""
    stocked = stock(world)
    room = world.room
    places.add_place(room, FREEZER, temperature_dc=-180, kind=places.PlaceKind.FREEZER)
    yesterday = world.later(-1)
    (lot,) = yesterday.dry_run([(PEAS, 800, 160)])
    held, follower, sister = yesterday.pack(
        lot, "3xpouch-1500-foil:rest,absorber=300", place="Bin 1"
    )
    packages.check_package(room, held, Event.SOFT)
    deciding.carry_out(room, held, SOON, place=FREEZER)
    deciding.hold_package(room, follower, place=FREEZER, why="a sister went soft")
    return Doubtful(stocked, lot, held, follower, sister)


def dry_again(world: World, codes: tuple[str, ...], dry_g: float = 105) -> int:
    """Dry held packages again in a run of their own, tested; the run's number."""
    room = world.room
    run_id = bench.start_run(room).made_id
    redrying.load_again(room, 1, codes, run_id=run_id)
    bench.weigh_tray(room, 1, "dry", to_dg(dry_g), run_id=run_id)
    world.show_dry(1, to_dg(dry_g), run_id)
    bench.close_run(room, run_id=run_id)
    return run_id


def dry_longer(world: World, hours: int = 2) -> None:
    """A few more hours for the open run."""
    dryness.dry_longer(world.room, Fraction(hours))
