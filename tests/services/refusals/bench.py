"""Refusals of the bench."""

from __future__ import annotations

from datetime import date

from stockroom.domain.codes import LettersUsedUp
from stockroom.domain.drying import DryAboveWet, TareAboveGross, WeightMissing
from stockroom.errors import (
    BadInput,
    NotFound,
)
from stockroom.services import (
    bench,
)
from stockroom.services.finding import Ambiguous
from tests.services.refusals.base import (
    ENDLESS,
    HALF_A_PAIR,
    TOMORROW,
    Refusal,
    closed,
    loaded,
    many_lots,
    nothing,
    run_started,
    swapped,
    two_runs,
)
from tests.world import APPLE, PEAS

BENCH = (
    Refusal(
        "bench.start_run",
        BadInput,
        nothing,
        lambda room: bench.start_run(room, started_on=TOMORROW),
        ("2026-11-26", "today (2026-11-25)"),
    ),
    Refusal(
        "bench.start_run",
        BadInput,
        nothing,
        lambda room: bench.start_run(room, note=ENDLESS),
        ("note", "at most 2000 characters"),
    ),
    Refusal(
        "bench.start_run",
        BadInput,
        nothing,
        lambda room: bench.start_run(room, note=HALF_A_PAIR),
        ("note", "UTF-8"),
    ),
    *(
        Refusal(
            "bench.load_tray",
            BadInput,
            run_started,
            lambda room, position=position: bench.load_tray(room, position, PEAS),
            ("tray", f"“{position}”", "from 1 to 30"),
        )
        for position in (-1, 0, 31)
    ),
    Refusal(
        "bench.load_tray",
        NotFound,
        nothing,
        lambda room: bench.load_tray(room, 1, PEAS),
        ("open run",),
    ),
    Refusal(
        "bench.load_tray",
        NotFound,
        run_started,
        lambda room: bench.load_tray(room, 1, PEAS, run_id=9),
        ("run", "“9”"),
    ),
    Refusal(
        "bench.load_tray",
        Ambiguous,
        two_runs,
        lambda room: bench.load_tray(room, 1, PEAS),
        ("more than one run", "2, 1"),
    ),
    Refusal(
        "bench.load_tray",
        bench.RunNotOpen,
        closed,
        lambda room: bench.load_tray(room, 2, PEAS, run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "bench.load_tray",
        bench.TrayTaken,
        loaded,
        lambda room: bench.load_tray(room, 1, APPLE),
        ("Tray 1", PEAS),
    ),
    Refusal(
        "bench.load_tray",
        NotFound,
        run_started,
        lambda room: bench.load_tray(room, 1, "Peas, gren, frozen, boiled"),
        ("food", "“Peas, gren, frozen, boiled”", f"Nearest: {PEAS}"),
    ),
    Refusal(
        "bench.load_tray",
        NotFound,
        run_started,
        lambda room: bench.load_tray(room, 1, " zzzzzz "),
        ("food", "“zzzzzz”", "List"),
    ),
    Refusal(
        "bench.load_tray",
        BadInput,
        run_started,
        lambda room: bench.load_tray(room, 1, HALF_A_PAIR),
        ("food", "UTF-8"),
    ),
    *(
        Refusal(
            "bench.load_tray",
            BadInput,
            run_started,
            lambda room, gross=gross, tare=tare: bench.load_tray(
                room, 1, PEAS, gross_dg=gross, tare_dg=tare
            ),
            facts,
        )
        for gross, tare, facts in (
            (0, 0, ("weight", "“0 g”", "above 0 g and up to 100 kg")),
            (-5, 0, ("weight", "“-0.5 g”")),
            (1_000_001, 0, ("weight", "“100000 g”")),
            (100, -1, ("tare", "“-0.1 g”")),
        )
    ),
    *(
        Refusal(
            "bench.load_tray",
            TareAboveGross,
            run_started,
            lambda room, tare=tare: bench.load_tray(room, 4, PEAS, gross_dg=5_000, tare_dg=tare),
            ("Tray 4", "500.0 g with food", f"{tare / 10:.1f} g empty"),
        )
        for tare in (5_000, 5_001)
    ),
    Refusal(
        "bench.unload_tray",
        NotFound,
        loaded,
        lambda room: bench.unload_tray(room, 2),
        ("tray", "“2”", "Nearest: tray 1"),
    ),
    Refusal(
        "bench.unload_tray",
        bench.RunNotOpen,
        closed,
        lambda room: bench.unload_tray(room, 1, run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "bench.unload_tray", NotFound, nothing, lambda room: bench.unload_tray(room, 1), ("run",)
    ),
    Refusal(
        "bench.weigh_tray",
        BadInput,
        loaded,
        lambda room: bench.weigh_tray(room, 1, "damp", 100),
        ("stage", "“damp”", "wet or dry"),
    ),
    Refusal(
        "bench.weigh_tray",
        NotFound,
        loaded,
        lambda room: bench.weigh_tray(room, 3, "dry", 100),
        ("tray", "“3”"),
    ),
    Refusal(
        "bench.weigh_tray",
        BadInput,
        loaded,
        lambda room: bench.weigh_tray(room, 1, "dry", 0),
        ("weight", "“0 g”"),
    ),
    Refusal(
        "bench.weigh_tray",
        TareAboveGross,
        loaded,
        lambda room: bench.weigh_tray(room, 1, "dry", 700, tare_dg=800),
        ("Tray 1", "70.0 g with food", "80.0 g empty"),
    ),
    Refusal(
        "bench.weigh_tray",
        DryAboveWet,
        loaded,
        lambda room: bench.weigh_tray(room, 1, "dry", 10_001),
        ("Tray 1", "1000.1 g dry", "1000.0 g as loaded"),
    ),
    Refusal(
        "bench.weigh_tray",
        DryAboveWet,
        lambda world: (loaded(world), bench.weigh_tray(world.room, 1, "dry", 2_000)),
        lambda room: bench.weigh_tray(room, 1, "wet", 1_999),
        ("200.0 g dry", "199.9 g as loaded"),
    ),
    Refusal(
        "bench.weigh_tray",
        bench.RunNotOpen,
        closed,
        lambda room: bench.weigh_tray(room, 1, "dry", 100, run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "bench.close_run", bench.NothingLoaded, run_started, bench.close_run, ("Run 1", "no trays")
    ),
    Refusal("bench.close_run", NotFound, nothing, bench.close_run, ("run",)),
    Refusal("bench.close_run", Ambiguous, two_runs, bench.close_run, ("run",)),
    Refusal("bench.close_run", WeightMissing, loaded, bench.close_run, ("tray 1 dry",)),
    Refusal(
        "bench.close_run",
        WeightMissing,
        lambda world: (run_started(world), bench.load_tray(world.room, 7, PEAS)),
        bench.close_run,
        ("tray 7 as loaded",),
    ),
    Refusal("bench.close_run", DryAboveWet, swapped, bench.close_run, ("Tray 1", "2000.0 g dry")),
    Refusal(
        "bench.close_run",
        bench.RunNotOpen,
        closed,
        lambda room: bench.close_run(room, run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "bench.close_run",
        BadInput,
        loaded,
        lambda room: bench.close_run(room, closed_on=TOMORROW),
        ("2026-11-26", "an earlier day"),
    ),
    Refusal(
        "bench.close_run",
        BadInput,
        loaded,
        lambda room: bench.close_run(room, closed_on=date(2026, 11, 24)),
        ("closing day", "from 2026-11-25 on"),
    ),
    Refusal("bench.close_run", LettersUsedUp, many_lots, bench.close_run, ("A to Z",)),
    Refusal("bench.abandon_run", NotFound, nothing, bench.abandon_run, ("run",)),
    Refusal(
        "bench.abandon_run",
        bench.RunNotOpen,
        closed,
        lambda room: bench.abandon_run(room, run_id=1),
        ("Run 1", "closed"),
    ),
    Refusal(
        "bench.run_detail", NotFound, nothing, lambda room: bench.run_detail(room, 4), ("“4”",)
    ),
)
