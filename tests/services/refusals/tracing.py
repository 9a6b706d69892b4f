"""Refusals of tracing and recalls."""

from __future__ import annotations

from dataclasses import replace

from stockroom.clock import FixedClock
from stockroom.domain.trace_records import GroupKind
from stockroom.errors import BadInput, NotFound
from stockroom.services import packages, tracing
from tests.services.refusals.base import ENDLESS, Refusal, doubtful, nothing, packed
from tests.services.refusals.packages import YESTERDAY
from tests.world import PEAS

TRACING = (
    Refusal(
        "tracing.trace",
        NotFound,
        packed,
        lambda room: tracing.trace(room, "26329A77"),
        ("package", "“26329A77”"),
    ),
    Refusal(
        "tracing.trace",
        NotFound,
        packed,
        lambda room: tracing.trace(room, "26329Z"),
        ("lot", "“26329Z”", "26329A"),
    ),
    Refusal(
        "tracing.trace",
        BadInput,
        packed,
        lambda room: tracing.trace(room, "peas"),
        ("code",),
    ),
    *(
        Refusal(
            "tracing.recall",
            tracing.WhyMissing,
            packed,
            lambda room, why=why: tracing.recall(room, "26329A01", GroupKind.LOT, why),
            ("needs a reason", "few words"),
        )
        for why in ("", "  \n ")
    ),
    *(
        Refusal(
            "tracing.recall",
            tracing.NotRecorded,
            packed,
            lambda room, code=code, by=by: tracing.recall(room, code, by, "it leaks"),
            (words, code, "its lot or its run"),
        )
        for code in ("26329A01", "26329A")
        for by, words in ((GroupKind.PACKET, "absorber packet"), (GroupKind.BOX, "container box"))
    ),
    Refusal(
        "tracing.recall",
        tracing.NothingToRecall,
        doubtful,
        lambda room: tracing.recall(room, "26329A01", GroupKind.LOT, "the rest as well"),
        ("nothing of lot 26329A to recall", "1 suspect", "1 used", "1 discarded", "Trace it"),
    ),
    Refusal(
        "tracing.recall",
        tracing.NothingToRecall,
        lambda world: world.dry_lot(),
        lambda room: tracing.recall(room, "26329A", GroupKind.RUN, "the door leaked"),
        ("nothing of run 1 to recall", "no package of it"),
    ),
    Refusal(
        "tracing.recall",
        packages.NotSealedYet,
        packed,
        lambda room: tracing.recall(
            replace(room, clock=FixedClock(YESTERDAY)), "26329A01", GroupKind.RUN, "the door"
        ),
        ("26329A01", "--today"),
    ),
    Refusal(
        "tracing.recall",
        NotFound,
        packed,
        lambda room: tracing.recall(room, "26329A77", GroupKind.RUN, "the door"),
        ("package", "“26329A77”"),
    ),
    Refusal(
        "tracing.recall",
        BadInput,
        packed,
        lambda room: tracing.recall(room, "26329A01", "shelf", "damp"),  # type: ignore[arg-type]
        ("by", "“shelf”", "lot, run, packet, box"),
    ),
    Refusal(
        "tracing.recall",
        BadInput,
        packed,
        lambda room: tracing.recall(room, "26329A01", GroupKind.LOT, ENDLESS),
        ("note", "at most 2000 characters"),
    ),
    Refusal(
        "tracing.in_common",
        NotFound,
        nothing,
        lambda room: tracing.in_common(room, food=PEAS),
        ("food", PEAS),
    ),
)
