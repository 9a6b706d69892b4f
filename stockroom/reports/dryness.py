"""What shows that food is dry: weights, tests, what counts of them, and the gate in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

from stockroom.domain.batch_evidence import Batch, Evidence, TrayRecord
from stockroom.domain.dryness import COVERAGE, NO_PROOF, ResidualMoisture
from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying, Weighing
from stockroom.domain.gate import Gate, TrayFinding
from stockroom.reports.values import (
    AMOUNT,
    COUNT,
    DAY,
    FLAG,
    MOMENT,
    PERCENT,
    WEIGHT,
    Block,
    Column,
    Data,
    Json,
    Prose,
    Row,
    Table,
)

COUNTS, AS_START, LEFT_BEHIND = "yes", "as the start", "no, before the extra hours"
_TESTS = {"cold": "cold touch", "break": "break test"}
_FOUND = {
    ("cold", True): "no cold spot",
    ("cold", False): "a cold spot",
    ("break", True): "snaps",
    ("break", False): "does not snap",
}


def evidence_blocks(evidence: Evidence) -> tuple[Block, ...]:
    """Everything weighed and tested in a run, and for each food whether it is shown to be dry."""
    return (
        _weighing_table(evidence.trays),
        _test_table(evidence.trays),
        _extra_table(evidence.extra),
        *(
            Prose("", gate_lines(batch.gate), f"Dryness of {_named(batch)}")
            for batch in evidence.batches
        ),
        Data("dryness", [_batch_data(batch) for batch in evidence.batches]),
    )


def _named(batch: Batch) -> str:
    """A batch by its food and what is made or dried again of it."""
    return ", ".join((batch.food, *batch.codes))


def _batch_data(batch: Batch) -> Json:
    data: dict[str, Json] = {"food": batch.food, "codes": list(batch.codes)}
    return {**data, **gate_data(batch.gate)}


# The gate


def gate_lines(gate: Gate) -> tuple[str, ...]:
    """The verdict, what each tray says, the estimate of moisture, and what to do next."""
    return (
        gate.words,
        *(_tray_line(tray) for tray in gate.trays),
        *residual_lines(gate.residual),
        *(f"Next: {step}" for step in gate.next_steps),
    )


def _tray_line(tray: TrayFinding) -> str:
    """What one tray's weights and tests say."""
    name = f"Tray {tray.position}{', the slowest' if tray.slowest else ''}"
    tests = [
        f"{_TESTS[kind]}: {_FOUND[kind, passed]}"
        for kind, passed in (("cold", tray.cold), ("break", tray.broken))
        if passed is not None
    ]
    after = f" ({'; '.join(tests)})" if tests else ""
    return " ".join(part for part in (f"{name}{after}: {tray.reason}", tray.coarse) if part)


def residual_lines(residual: ResidualMoisture | None) -> tuple[str, ...]:
    """The estimate with its uncertainty, and that it cannot prove dryness; none without one."""
    if residual is None:
        return ()
    return (
        f"Moisture left by composition: {_percent(residual.residual)}, between"
        f" {_percent(residual.low)} and {_percent(residual.high)} ({COVERAGE} standard"
        f" uncertainties). {residual.sentence}",
        NO_PROOF,
    )


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"


def gate_data(gate: Gate) -> dict[str, Json]:
    """The gate for JSON."""
    return {
        "shown": gate.open,
        "words": gate.words,
        "slowest_tray": gate.slowest,
        "missing": [
            {
                "need": one.need.value,
                "trays": list(one.trays),
                "words": one.words,
                "next_step": one.next_step,
            }
            for one in gate.missing
        ],
        "next_steps": list(gate.next_steps),
        "trays": [_tray_data(one) for one in gate.trays],
        "residual": residual_data(gate.residual),
    }


def _tray_data(tray: TrayFinding) -> Json:
    found = tray.plateau
    return {
        "tray": tray.position,
        "constant": tray.constant,
        "reason": tray.reason,
        "too_coarse": bool(tray.coarse),
        "losses_g": None if found is None else list(found.losses_g),
        "cold": tray.cold,
        "break": tray.broken,
        "slowest": tray.slowest,
    }


def residual_data(residual: ResidualMoisture | None) -> Json:
    """The estimate of moisture for JSON; null without one."""
    if residual is None:
        return None
    return {
        "residual_moisture": residual.residual,
        "standard_uncertainty": residual.standard_uncertainty,
        "low": residual.low,
        "high": residual.high,
        "verdict": residual.verdict.value,
        "sentence": residual.sentence,
        "caution": NO_PROOF,
    }


# Weights, tests and extra hours

_WEIGHINGS = (
    Column("tray", COUNT, "tray"),
    Column("reading", COUNT, "reading"),
    Column("hours", AMOUNT, "hours"),
    Column("weight", WEIGHT, "weight"),
    Column("loss", WEIGHT, "loss"),
    Column("loss_percent_of_last", PERCENT, "of the last", drop=1),
    Column("counts", title="counts", least=12),
    Column("on_day", DAY, "day", drop=2),
)


def _weighing_table(trays: Iterable[TrayRecord]) -> Table:
    """Every dry weighing with what was lost since the one before."""
    rows = tuple(row for record in trays for row in _weighing_rows(record))
    return Table("weighings", _WEIGHINGS, rows, "Weighed dry")


def _weighing_rows(record: TrayRecord) -> Iterator[Row]:
    dry = record.dry
    losses = (before.net_dg - after.net_dg for before, after in pairwise(dry))
    for place, (one, loss_dg) in enumerate(zip(dry, (None, *losses), strict=False), start=1):
        percent = None if loss_dg is None else Fraction(100 * loss_dg, dry[-1].net_dg)
        hours = None if one.hours_tenths is None else Fraction(one.hours_tenths, 10)
        yield (
            record.tray.position, place, hours, one.net_dg, loss_dg, percent,
            _counts(record, one), one.on_day,
        )  # fmt: skip


def _counts(record: TrayRecord, one: Weighing) -> str:
    """Whether a weighing still shows something after the last extra hours."""
    if one.weighing_id > record.last_weighing_id:
        return COUNTS
    since = record.dry_since
    is_last_before = one == [each for each in record.dry if each not in since][-1]
    return AS_START if len(since) == 1 and is_last_before else LEFT_BEHIND


_TEST_COLUMNS = (
    Column("tray", COUNT, "tray"),
    Column("kind"),
    Column("", title="test"),
    Column("passed", FLAG),
    Column("", title="found"),
    Column("counts", title="counts", least=12),
    Column("on_day", DAY, "day", drop=2),
    Column("note", title="note", least=10, drop=1),
)


def _test_table(trays: Iterable[TrayRecord]) -> Table:
    """Every cold-touch and break test."""
    rows = tuple(_test_row(record, one) for record in trays for one in record.checks)
    return Table("tests", _TEST_COLUMNS, rows, "Tests")


def _test_row(record: TrayRecord, one: DrynessCheck) -> Row:
    counts = COUNTS if one.check_id > record.last_check_id else LEFT_BEHIND
    return (
        record.tray.position, one.kind, _TESTS[one.kind], one.passed, _FOUND[one.kind, one.passed],
        counts, one.on_day, one.note,
    )  # fmt: skip


_EXTRA = (
    Column("hours", AMOUNT, "hours"),
    Column("on_day", DAY, "begun on"),
    Column("due_at", MOMENT, "until"),
    Column("note", title="note", least=10, drop=1),
)


def _extra_table(extra: Iterable[ExtraDrying]) -> Table:
    """A few more hours, in the order begun."""
    rows = tuple(
        (Fraction(one.hours_tenths, 10), one.on_day, one.due_at, one.note) for one in extra
    )
    return Table("extra_hours", _EXTRA, rows, "Extra hours")
