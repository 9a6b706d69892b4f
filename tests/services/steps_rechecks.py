"""One plausible use of every service about dryness, the queue and rechecks, drawn by chance."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from stockroom.domain.packing import read_split
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.services import (
    bench,
    deciding,
    dryness,
    packing,
    rechecks,
    redrying,
    repacking,
    shelves,
)
from stockroom.services.dryness import DrynessTest
from stockroom.services.session import Stockroom
from stockroom.services.today import round_for_today

WORDS = ("", "limp", "für Zoë", "100 % [cold]")


def _of_condition(room: Stockroom, pick: Random, *conditions: str) -> str:
    """The code of a package of one of these conditions, if there is one."""
    every = shelves.find_packages(room, shelves.shelf_filter(room))
    some = [one for one in every if one.condition in conditions] or list(every)
    return pick.choice(some).code if some else "26244A01"


def _suspect(room: Stockroom, pick: Random, *, own_fault: bool) -> str:
    """The code of a package found at fault itself, or doubtful for another reason, if any is."""
    page = round_for_today(room)
    pairs = zip(page.suspect, page.doubts, strict=True)
    some = [package.code for package, doubt in pairs if doubt.own_fault == own_fault]
    return pick.choice(some) if some else _of_condition(room, pick, "suspect")


def _open_run(room: Stockroom, pick: Random) -> int:
    open_ones = [run for run in bench.list_runs(room) if run.state == "open"]
    return pick.choice(open_ones).run_id if open_ones else 1


def _tray(room: Stockroom, pick: Random, run_id: int) -> int:
    """A tray of the run, if it is there and has any."""
    runs = {run.run_id for run in bench.list_runs(room)}
    trays = bench.run_detail(room, run_id).trays if run_id in runs else ()
    return pick.choice(trays).position if trays else 1


def _lot(room: Stockroom, pick: Random) -> str:
    some = packing.lots_to_pack(room) or packing.list_lots(room)
    return pick.choice(some).code if some else "26244A"


def _test(room: Stockroom, pick: Random) -> object:
    run_id = _open_run(room, pick)
    return dryness.record_test(
        room,
        _tray(room, pick, run_id),
        pick.choice(list(DrynessTest)),
        pick.random() < 0.8,
        run_id=run_id,
        note=pick.choice(WORDS),
    )


def _longer(room: Stockroom, pick: Random) -> object:
    return dryness.dry_longer(room, Fraction(pick.randrange(60), 4), run_id=_open_run(room, pick))


def _hold(room: Stockroom, pick: Random) -> object:
    code = _suspect(room, pick, own_fault=False)
    return deciding.hold_package(room, code, why=pick.choice(WORDS))


def _leave(room: Stockroom, pick: Random) -> object:
    lots = [one.lot_code for one in redrying.machine_queue(room) if one.package_id is None]
    return redrying.leave_queue(room, pick.choice(lots) if lots else _lot(room, pick))


def _load_again(room: Stockroom, pick: Random) -> object:
    """What waits or came off the machine; sometimes together with what may be no heap with it."""
    there = [one for one in redrying.machine_queue(room) if one.state != "loaded"]
    codes = [one.code for one in pick.sample(there, min(len(there), pick.randrange(1, 3)))]
    loaded_dg = sum(one.dry_dg for one in there if one.code in codes)
    return redrying.load_again(
        room,
        pick.randrange(1, 9),
        codes or ["26244A"],
        gross_dg=pick.choice((None, loaded_dg + pick.randrange(1, 60))),
        run_id=_open_run(room, pick),
    )


def weigh_again(room: Stockroom, pick: Random) -> object:
    """The dry weight of a tray of food dried again, about what was put on it.

    A weight by chance would hardly ever finish it.
    """
    loaded = [one for one in redrying.machine_queue(room) if one.state == "loaded"]
    if not loaded:
        return bench.weigh_tray(room, 1, "dry", 500)
    one = pick.choice(loaded)
    heap_dg = sum(other.dry_dg for other in loaded if other.tray_id == one.tray_id)
    gross_dg = max(1, heap_dg - pick.randrange(40))
    position = one.tray_position or 1
    return bench.weigh_tray(room, position, "dry", gross_dg, tare_dg=0, run_id=one.run_id)


def _repack(room: Stockroom, pick: Random) -> object:
    off = [entry.code for entry in redrying.machine_queue(room) if entry.state == "dried"]
    codes = off if off and pick.random() < 0.7 else [_of_condition(room, pick, "sound", "opened")]
    split = read_split(pick.choice(("2xpouch-1500-foil", "1xjar-950,vacuum", "1xjar-950:5")))
    return repacking.repack_packages(
        room, codes[:1], [split], despite=pick.choice(("", "it snaps"))
    )


def _decide(room: Stockroom, pick: Random) -> object:
    answers = {
        Question.FEEL: pick.choice(("snaps", "slightly_soft", "moist")),
        Question.SIGNS: pick.choice(("none", "none", "mould")),
        Question.HOURS_SINCE_SEALING: pick.choice(("5", "unknown")),
        Question.FROZEN_SINCE_FOUND: pick.choice(("yes", "no")),
    }
    return deciding.carry_out(
        room,
        _suspect(room, pick, own_fault=True),
        answers,
        outcome=pick.choice((None, *Outcome)),
        sisters_too=pick.random() < 0.5,
        note=pick.choice(WORDS),
    )


def _schedule(room: Stockroom, pick: Random) -> object:
    return rechecks.change_schedule(
        room,
        later_days=pick.choice((None, 60, 183)),
        set_aside=pick.choice((None, (5, 6), range(7))),
        most_a_day=pick.choice((None, 5, 20)),
    )


RECHECK_STEPS = {
    "dryness.record_test": _test,
    "dryness.dry_longer": _longer,
    "deciding.hold_package": _hold,
    "redrying.hold_lot": lambda room, pick: redrying.hold_lot(room, _lot(room, pick)),
    "redrying.leave_queue": _leave,
    "redrying.load_again": _load_again,
    "repacking.repack_packages": _repack,
    "deciding.carry_out": _decide,
    "rechecks.change_schedule": _schedule,
}
"""Service → a step that uses it."""
