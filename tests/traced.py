"""A household's packages out of two runs, with packets and boxes on record, for tracing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.domain.packing import SplitRequest
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.services import (
    bench,
    deciding,
    dryness,
    packages,
    packing,
    redrying,
    repacking,
)
from tests.world import APPLE, PEAS, World

WHY = "the scale broke, it snapped"
SOFT_TODAY = {
    Question.FEEL: "slightly_soft",
    Question.SIGNS: "none",
    Question.HOURS_SINCE_SEALING: "20",
}
"""A little soft within a day of sealing, with nothing else the matter."""


@dataclass(frozen=True, slots=True)
class Traced:
    """Codes by what the packages are."""

    peas: tuple[str, ...]
    """Six of run 1 in a bin of the cellar: packet P7, box Blue, from tray 1; the last two of them
    by another spelling, "p7 " and "blue"."""
    apples: tuple[str, ...]
    """Four of run 1 in the loft: packet P8, box Blue."""
    wet: tuple[str, ...]
    """Six peas of run 2 in the loft, packed although dryness was not shown: P8, box green."""


def split(count: int, packet: str, box: str, tray: int | None = None) -> SplitRequest:
    """So many pouches of 10 g with an absorber out of a packet and a box."""
    return SplitRequest(count, "pouch-400-foil", 100, 100, False, None, packet, box, tray)


def traced(world: World) -> Traced:
    """Two runs packed sixty and forty days ago, all found crisp two days after the second."""
    world.places("cellar", "cellar/bin", "loft", "freezer")
    first, second = world.later(-60), world.later(-40)
    pea_lot, apple_lot = first.dry_run([(PEAS, 1000, 155), (APPLE, 900, 120)])
    peas = packing.pack_lot(
        first.room, pea_lot, [split(4, "P7", "Blue", 1), split(2, "p7 ", "blue", 1)], place="bin"
    ).codes
    apples = packing.pack_lot(first.room, apple_lot, [split(4, "P8", "Blue")], place="loft").codes
    wet_lot = second.dry_lot(PEAS, 1000, 150, tested=False)
    wet = packing.pack_lot(
        second.room, wet_lot, [split(6, "P8", "green")], place="loft", despite=WHY
    ).codes
    for code in (*peas, *apples, *wet):
        packages.check_package(second.later(2).room, code, Event.CRISP)
    return Traced(peas, apples, wet)


def found_soft(world: World, codes: tuple[str, ...]) -> None:
    """These packages found soft, ten days ago."""
    for code in codes:
        packages.check_package(world.later(-10).room, code, Event.SOFT)


def dried_again(world: World) -> tuple[str, str]:
    """An apple pouch soft on its day, dried again on tray 3 of a run of its own, now in a jar.

    The codes of the pouch and of the jar. Its lot came out of run 3, the jar's food of run 4.
    """
    before, later = world.later(-9), world.later(-8)
    old = before.pack(before.dry_lot(APPLE, 300, 40), "1xpouch-400-foil:20,absorber=100")[0]
    packages.check_package(before.room, old, Event.SOFT)
    deciding.carry_out(before.room, old, SOFT_TODAY, outcome=Outcome.HOLD, place="freezer")
    run_id = bench.start_run(later.room, note="only what was soft").made_id
    redrying.load_again(later.room, 3, [old], gross_dg=210, run_id=run_id)
    dryness.dry_longer(later.room, Fraction(2), run_id=run_id)
    bench.weigh_tray(later.room, 3, "dry", 190, run_id=run_id)
    later.show_dry(3, 190, run_id)
    bench.close_run(later.room, run_id=run_id)
    jar = SplitRequest(1, "jar-475", None, 100, False, None, "P9")
    return old, repacking.repack_packages(later.room, [old], [jar], place="loft").codes[0]
