"""Refusals of dryness evidence, the gate, and the queue for the machine."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.domain.drying import DryAboveWet, TareAboveGross, WeightMissing
from stockroom.domain.packing import SplitRequest, read_split
from stockroom.errors import BadInput, NotFound
from stockroom.services import bench, dryness, evidence, packages, packing, redrying, sealing
from stockroom.services.acting import acting
from stockroom.services.dryness import DrynessTest
from stockroom.services.finding import Ambiguous, CodeMistyped, find_lot
from stockroom.services.heaps import OneHeap
from stockroom.services.packing import LossReason
from stockroom.services.session import Stockroom
from tests.services.cases_rechecks import held, hold, loaded, one_soft
from tests.services.refusals.base import (
    ENDLESS,
    HALF_A_PAIR,
    TOMORROW,
    Refusal,
    closed,
    nothing,
    packed_out,
    split,
    two_runs,
)
from tests.world import APPLE, PEAS, TODAY, World

TOO_MANY = SplitRequest(501, "jar-475", None, None, False)
ABANDONED_RUN = ("Run 1", "abandoned")


def abandoned(world: World) -> None:
    """As loaded, and given up."""
    loaded(world)
    bench.abandon_run(world.room)


def not_shown(world: World) -> None:
    """A lot weighed dry once, and never felt or broken."""
    world.dry_lot(tested=False)


def started(world: World) -> None:
    """As held, with an open run; 26329A01 and the rest of its lot wait."""
    held(world)
    bench.start_run(world.room)


def on_a_tray(world: World) -> None:
    """As started, with 26329A01 on tray 1 and the rest of the lot on tray 2; nothing weighed."""
    started(world)
    redrying.load_again(world.room, 1, ["26329A01"])
    redrying.load_again(world.room, 2, ["26329A"])


def two_lots_held(world: World) -> None:
    """Two soft packages of two lots in the queue, and an open run."""
    held(world)
    other = world.packed(PEAS, "2xpouch-400-foil:40,absorber=100")
    packages.check_package(world.room, other[0], Event.SOFT)
    hold(world, other[0])
    bench.start_run(world.room)


def heap(world: World) -> None:
    """26329A01 and 02 on one tray of an open run."""
    one_soft(world)
    hold(world, "26329A01", sisters_too=True)
    bench.start_run(world.room)
    redrying.load_again(world.room, 1, ["26329A01", "26329A02", "26329A03"])


def _weigh(room: Stockroom, gross_dg: int, tare_dg: int) -> None:
    with acting(room, "weigh") as act:
        bench.record_weight(room, act, 1, "dry", 1, gross_dg, tare_dg)


def _test(room: Stockroom, position: int = 1, note: str = "", run_id: int | None = None) -> object:
    return dryness.record_test(room, position, DrynessTest.BREAK, True, run_id=run_id, note=note)


EVIDENCE = (
    Refusal(
        "dryness.record_test",
        dryness.RunNotOpen,
        abandoned,
        lambda room: _test(room, run_id=1),
        ABANDONED_RUN,
    ),
    Refusal("dryness.record_test", NotFound, loaded, lambda room: _test(room, 2), ("tray", "“2”")),
    Refusal("dryness.record_test", NotFound, closed, _test, ("open run",)),
    *(
        Refusal(
            "dryness.record_test",
            BadInput,
            loaded,
            lambda room, note=note: _test(room, note=note),
            ("note",),
        )
        for note in (ENDLESS, HALF_A_PAIR)
    ),
    Refusal(
        "dryness.dry_longer",
        dryness.RunNotOpen,
        closed,
        lambda room: dryness.dry_longer(room, Fraction(2), run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "dryness.dry_longer",
        NotFound,
        nothing,
        lambda room: dryness.dry_longer(room, Fraction(2)),
        ("open run",),
    ),
    *(
        Refusal(
            "dryness.dry_longer",
            BadInput,
            loaded,
            lambda room, hours=hours: dryness.dry_longer(room, hours),
            ("hours", f"“{float(hours):g}”", "from 0.1 to 1000"),
        )
        for hours in (Fraction(0), Fraction(-1), Fraction(1, 25), Fraction(10_001, 10))
    ),
    Refusal(
        "dryness.dry_longer",
        BadInput,
        loaded,
        lambda room: dryness.dry_longer(room, Fraction(2), note=ENDLESS),
        ("note",),
    ),
    Refusal(
        "dryness.dryness_of",
        NotFound,
        closed,
        lambda room: dryness.dryness_of(room, "26328A"),
        ("lot", "Nearest: 26329A"),
    ),
    Refusal(
        "evidence.lot_evidence",
        NotFound,
        closed,
        lambda room: evidence.lot_evidence(room, "26328A"),
        ("lot", "Nearest: 26329A"),
    ),
    Refusal("evidence.run_evidence", NotFound, nothing, evidence.run_evidence, ("open run",)),
    Refusal("evidence.run_evidence", Ambiguous, two_runs, evidence.run_evidence, ("2, 1",)),
    *(
        Refusal(
            "evidence.tray_working",
            NotFound,
            loaded,
            lambda room, run_id=run_id, position=position: evidence.tray_working(
                room, run_id, position
            ),
            facts,
        )
        for run_id, position, facts in ((1, 2, ("tray", "“2”")), (7, 1, ("run", "“7”")))
    ),
    Refusal("bench.open_run", NotFound, nothing, lambda room: bench.open_run(room, None), ("run",)),
    Refusal("bench.open_run", Ambiguous, two_runs, lambda room: bench.open_run(room, None), ("2",)),
    Refusal(
        "bench.open_run",
        bench.RunNotOpen,
        abandoned,
        lambda room: bench.open_run(room, 1),
        ABANDONED_RUN,
    ),
    Refusal(
        "bench.tray_of",
        NotFound,
        loaded,
        lambda room: bench.tray_of(room, bench.open_run(room, None), 7),
        ("tray", "“7”", "Nearest: tray 1"),
    ),
    Refusal(
        "bench.record_weight",
        BadInput,
        loaded,
        lambda room: _weigh(room, 1_000_001, 0),
        ("weight", "“100000 g”"),
    ),
    Refusal(
        "bench.record_weight",
        TareAboveGross,
        loaded,
        lambda room: _weigh(room, 500, 500),
        ("Tray 1", "50.0 g"),
    ),
    *(
        Refusal(
            "bench.weigh_tray",
            BadInput,
            loaded,
            lambda room, stage=stage, hours=hours: bench.weigh_tray(
                room, 1, stage, 12_000, hours=hours
            ),
            ("hours", f"“{float(hours):g}”", wanted),
        )
        for stage, hours, wanted in (
            ("wet", Fraction(3), "with a dry weight only"),
            ("dry", Fraction(-1), "from 0 to 1000"),
            ("dry", Fraction(1001), "from 0 to 1000"),
        )
    ),
)

GATE = (
    *(
        Refusal(
            "packing.pack_lot",
            dryness.GateClosed,
            not_shown,
            lambda room, into=into, why=why: packing.pack_lot(
                room, "26329A", [read_split("1xjar-475:20"), read_split(into)], despite=why
            ),
            (
                "Not packed without oxygen",
                "no constant weight on tray 1",
                "no break test",
                "no cold-touch test",
                "say why",
            ),
        )
        for into, why in (
            ("1xpouch-400-foil:20,absorber=100", ""),
            ("1xjar-475:20,vacuum", "  \n "),
            ("1xbag-zip-1000:20,absorber=50", ""),
        )
    ),
    Refusal(
        "dryness.pass_gate",
        dryness.GateClosed,
        not_shown,
        lambda room: dryness.pass_gate(
            dryness.dryness_of(room, "26329A"), [read_split("1xjar-475,vacuum")], ""
        ),
        ("dryness is not shown",),
    ),
    Refusal(
        "packing.pack_lot",
        BadInput,
        not_shown,
        lambda room: packing.pack_lot(
            room, "26329A", [read_split("1xjar-475,vacuum")], despite=ENDLESS
        ),
        ("note",),
    ),
    Refusal(
        "packing.pack_lot",
        packing.WaitsAlready,
        held,
        lambda room: packing.pack_lot(room, "26329A", [read_split("1xjar-475:1")]),
        ("26329A", "in the queue for the machine", "take it out of the queue first"),
    ),
    *(
        Refusal(
            "packing.record_loss",
            packing.WaitsAlready,
            held,
            lambda room, dg=dg: packing.record_loss(room, "26329A", dg, LossReason.TASTED),
            ("26329A", "in the queue for the machine"),
        )
        for dg in (None, 5)
    ),
    *(
        Refusal(
            "packing.sealing_day",
            BadInput,
            closed,
            lambda room, day=day: packing.sealing_day(find_lot(room, "26329A"), day, room.today),
            ("sealing day", day.isoformat(), "from 2026-11-25 to 2026-11-25"),
        )
        for day in (TOMORROW, TODAY.replace(day=24))
    ),
    *(
        Refusal(
            "packing.pack_lot",
            BadInput,
            closed,
            split(tray_position=position),
            ("tray", f"“{position}”", "from 1 to 30"),
        )
        for position in (0, -1, 31)
    ),
    Refusal(
        "sealing.refuse_odd",
        BadInput,
        nothing,
        lambda _: sealing.refuse_odd([read_split("500xjar-475,absorber=5000"), TOO_MANY]),
        ("number of packages", "“501”", "from 1 to 500"),
    ),
)


QUEUE = (
    Refusal(
        "redrying.hold_lot",
        packing.WaitsAlready,
        held,
        lambda room: redrying.hold_lot(room, "26329A"),
        ("26329A", "queue"),
    ),
    Refusal(
        "redrying.hold_lot",
        packing.LotPackedOut,
        packed_out,
        lambda room: redrying.hold_lot(room, "26329A"),
        ("All of lot 26329A",),
    ),
    Refusal(
        "redrying.hold_lot",
        NotFound,
        closed,
        lambda room: redrying.hold_lot(room, "26329B"),
        ("lot", "“26329B”"),
    ),
    Refusal(
        "redrying.hold_lot",
        BadInput,
        closed,
        lambda room: redrying.hold_lot(room, "26329A", why=ENDLESS),
        ("note",),
    ),
    Refusal(
        "redrying.leave_queue",
        redrying.NotWaiting,
        one_soft,
        lambda room: redrying.leave_queue(room, "26329A"),
        ("26329A does not wait for the machine", "Hold it first"),
    ),
    Refusal(
        "redrying.leave_queue",
        redrying.OnTheMachine,
        on_a_tray,
        lambda room: redrying.leave_queue(room, "26329A"),
        ("26329A", "tray 2 of run 2", "Take that tray out first"),
    ),
    Refusal(
        "redrying.leave_queue",
        NotFound,
        held,
        lambda room: redrying.leave_queue(room, "26328A"),
        ("lot",),
    ),
    Refusal(
        "redrying.load_again",
        BadInput,
        started,
        lambda room: redrying.load_again(room, 1, []),
        ("codes", "a held package"),
    ),
    Refusal(
        "redrying.load_again",
        BadInput,
        started,
        lambda room: redrying.load_again(room, 31, ["26329A01"]),
        ("tray", "“31”"),
    ),
    Refusal(
        "redrying.load_again",
        BadInput,
        started,
        lambda room: redrying.load_again(room, 1, ["26329A01"], gross_dg=0),
        ("weight",),
    ),
    Refusal(
        "redrying.load_again",
        NotFound,
        started,
        lambda room: redrying.load_again(room, 1, ["26329A77"]),
        ("package", "“26329A77”"),
    ),
    Refusal(
        "redrying.load_again",
        CodeMistyped,
        started,
        lambda room: redrying.load_again(room, 1, ["26329A01Z"]),
        ("check character",),
    ),
    Refusal(
        "redrying.load_again",
        NotFound,
        held,
        lambda room: redrying.load_again(room, 1, ["26329A01"]),
        ("open run",),
    ),
    Refusal(
        "redrying.load_again",
        redrying.NotWaiting,
        started,
        lambda room: redrying.load_again(room, 1, ["26329A02"]),
        ("26329A02", "does not wait"),
    ),
    *(
        Refusal(
            "redrying.load_again",
            redrying.OnTheMachine,
            on_a_tray,
            lambda room, code=code: redrying.load_again(room, 3, [code]),
            (code, where),
        )
        for code, where in (("26329A01", "tray 1 of run 2"), ("26329A", "tray 2 of run 2"))
    ),
    Refusal(
        "redrying.load_again",
        redrying.DifferentFood,
        started,
        lambda room: redrying.load_again(room, 1, ["26329A01", "26329A"]),
        ("packages of one lot only", "a tray for each lot"),
    ),
    Refusal(
        "redrying.load_again",
        redrying.DifferentFood,
        two_lots_held,
        lambda room: redrying.load_again(room, 1, ["26329A01", "26329B01"]),
        ("packages of one lot only",),
    ),
    Refusal(
        "redrying.load_again",
        bench.TrayTaken,
        on_a_tray,
        lambda room: redrying.load_again(room, 1, ["26329A01"]),
        ("Tray 1", APPLE),
    ),
    Refusal(
        "redrying.load_again",
        bench.RunNotOpen,
        held,
        lambda room: redrying.load_again(room, 1, ["26329A01"], run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "bench.close_run",
        WeightMissing,
        on_a_tray,
        bench.close_run,
        ("tray 1 dry",),
    ),
    Refusal(
        "bench.weigh_tray",
        DryAboveWet,
        lambda world: (
            started(world),
            redrying.load_again(world.room, 1, ["26329A01"], gross_dg=430),
        ),
        lambda room: bench.weigh_tray(room, 1, "dry", 431),
        ("Tray 1", "43.1 g dry", "43.0 g as loaded"),
    ),
    *(
        Refusal(
            "packages.discard_packages",
            OneHeap,
            heap,
            lambda room, codes=codes: packages.discard_packages(room, codes, "mouldy"),
            (codes[0], "one heap with", "26329A03", "tray 1 of run 2", "all of them"),
        )
        for codes in (["26329A01"], ["26329A02", "26329A01"])
    ),
)

DRYING = (*EVIDENCE, *GATE, *QUEUE)
