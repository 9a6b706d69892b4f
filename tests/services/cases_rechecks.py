"""One ordinary use of every service about dryness, the queue for the machine and rechecks."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.domain.packing import read_split
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.services import bench, deciding, dryness, packages, rechecks, redrying, repacking
from stockroom.services.dryness import DrynessTest
from tests.services.case import Case
from tests.world import APPLE, World

SOFT_TODAY = {
    Question.FEEL: "slightly_soft",
    Question.SIGNS: "none",
    Question.HOURS_SINCE_SEALING: "20",
}
"""Found a little soft within a day of sealing, with nothing else the matter."""


def loaded(world: World) -> None:
    """An open run of one tray of apples, weighed once dry."""
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, APPLE, gross_dg=12_034)
    bench.weigh_tray(world.room, 1, "dry", 1_617)


def one_soft(world: World) -> None:
    """26329A01 to 03 of apples in the cellar; 01 found soft on the day, its sisters suspect."""
    world.places("cellar", "freezer")
    world.packed(APPLE, "3xpouch-400-foil:40,absorber=100", place="cellar")
    packages.check_package(world.room, "26329A01", Event.SOFT)


def hold(world: World, code: str, *, sisters_too: bool = False) -> None:
    """Hold a package found soft on its day in the freezer, maybe with its sisters."""
    deciding.carry_out(
        world.room,
        code,
        SOFT_TODAY,
        outcome=Outcome.HOLD,
        place="freezer",
        sisters_too=sisters_too,
    )


def held(world: World) -> None:
    """The soft one waits for the machine, and what is left of the lot after it."""
    one_soft(world)
    hold(world, "26329A01")
    redrying.hold_lot(world.room, "26329A", why="sisters soft")


def dried_again(world: World) -> None:
    """The soft one and the rest of its lot were dried again and are off the machine."""
    held(world)
    run_id = bench.start_run(world.room).made_id
    redrying.load_again(world.room, 1, ["26329A01"], gross_dg=430)
    redrying.load_again(world.room, 2, ["26329A"])
    for position, dry_dg in ((1, 395), (2, 410)):
        bench.weigh_tray(world.room, position, "dry", dry_dg)
        world.show_dry(position, dry_dg, run_id)
    bench.close_run(world.room)


def _started(world: World) -> None:
    held(world)
    bench.start_run(world.room)


RECHECK_CASES: dict[str, Case] = {
    "dryness.record_test": Case(
        loaded,
        lambda room: dryness.record_test(room, 1, DrynessTest.COLD, False, note="the thick end"),
    ),
    "dryness.dry_longer": Case(
        loaded, lambda room: dryness.dry_longer(room, Fraction(5, 2), note="cold middle")
    ),
    "deciding.hold_package": Case(
        one_soft,
        lambda room: deciding.hold_package(room, "26329A02", place="freezer", why="sister"),
    ),
    "redrying.hold_lot": Case(one_soft, lambda room: redrying.hold_lot(room, "26329A")),
    "redrying.leave_queue": Case(held, lambda room: redrying.leave_queue(room, "26329A")),
    "redrying.load_again": Case(
        _started, lambda room: redrying.load_again(room, 4, ["26329A01"], gross_dg=430)
    ),
    "repacking.repack_packages": Case(
        dried_again,
        lambda room: repacking.repack_packages(
            room,
            ["26329A01"],
            [read_split("2xpouch-400-foil,absorber=100")],
            place="cellar",
            note="dried again",
        ),
    ),
    "deciding.carry_out": Case(
        one_soft,
        lambda room: deciding.carry_out(
            room,
            "26329A01",
            SOFT_TODAY,
            outcome=Outcome.HOLD,
            place="freezer",
            sisters_too=True,
            note="limp",
        ),
    ),
    "rechecks.change_schedule": Case(
        one_soft,
        lambda room: rechecks.change_schedule(room, later_days=90, set_aside={5, 6}, most_a_day=8),
    ),
}
