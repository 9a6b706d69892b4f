"""Runs of the machine: a list of them, and one with its trays and lots."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.records import Lot, Run, Tray
from stockroom.reports.dryness import evidence_blocks
from stockroom.reports.parts import caution_blocks
from stockroom.reports.plain import clean_lines
from stockroom.reports.values import (
    COUNT,
    DAY,
    RATIO,
    TEXT,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    document,
    listing,
)
from stockroom.services.results import RunDetail

_RUNS = (
    Column("run", COUNT, "run"),
    Column("started_on", DAY, "started on"),
    Column("state", title="state"),
    Column("closed_on", DAY, "closed on"),
    Column("trays", COUNT, "trays"),
    Column("foods", title="foods", least=12),
    Column("note", title="note", least=10, drop=1),
)


def run_table(runs: Sequence[Run], *, key: str = "runs", title: str = "", empty: str = "") -> Table:
    """Runs as a table."""
    rows = tuple(
        (one.run_id, one.started_on, one.state, one.closed_on, one.trays, one.foods, one.note)
        for one in runs
    )
    return Table(key, _RUNS, rows, title, empty=empty)


def run_list(runs: Sequence[Run]) -> Report:
    """Runs in the order given."""
    return listing(run_table(runs, empty="No runs yet."))


_TRAYS = (
    Column("tray", COUNT, "tray"),
    Column("food", title="food", least=12),
    Column("wet", WEIGHT, "as loaded"),
    Column("dry", WEIGHT, "dry"),
    Column("water_removed", WEIGHT, "water removed"),
    Column("water_per_dry", RATIO, "per g dry", drop=2),
    Column("lot", title="lot", drop=1),
    Column("again", WORDS),
)


def tray_table(trays: Sequence[Tray]) -> Table:
    """The trays of a run or a lot with their weights, as far as weighed."""
    return Table("trays", _TRAYS, tuple(map(_tray_row, trays)), "Trays", empty="No trays loaded.")


def _tray_row(tray: Tray) -> Row:
    """One tray; what is not weighed is not known."""
    removed_dg: int | None = None
    per_dry: Fraction | None = None
    if tray.wet_dg is not None and tray.dry_dg is not None:
        removed_dg = tray.wet_dg - tray.dry_dg
        per_dry = Fraction(removed_dg, tray.dry_dg) if tray.dry_dg else None
    return (
        tray.position, tray.food, tray.wet_dg, tray.dry_dg, removed_dg, per_dry,
        tray.lot_code or _again(tray), tray.again,
    )  # fmt: skip


def _again(tray: Tray) -> str | None:
    """What is dried again on a tray, where no lot is made of it."""
    return f"again: {', '.join(tray.again)}" if tray.again else None


_LOTS = (
    Column("code", title="lot"),
    Column("food", title="food", least=12),
    Column("wet", WEIGHT, "as loaded"),
    Column("dry", WEIGHT, "dry"),
    Column("left", WEIGHT, "left to pack"),
)


def _lots(lots: Sequence[Lot]) -> Table:
    """The lots a run was closed into."""
    rows = tuple((one.code, one.food, one.wet_dg, one.dry_dg, one.left_dg) for one in lots)
    return Table("lots", _LOTS, rows, "Lots", empty="No lots yet: they are made at closing.")


def run_report(detail: RunDetail, evidence: Evidence | None = None) -> Report:
    """One run with its trays, what shows that they are dry, its lots and its cautions."""
    run = detail.run
    shown = () if evidence is None else evidence_blocks(evidence)
    blocks: tuple[Block, ...] = (
        Fields((*_run_facts(run), *_load(detail))),
        Prose("", clean_lines(run.note), "Note"),
        tray_table(detail.trays),
        *shown,
        _lots(detail.lots),
        *caution_blocks(detail.cautions),
    )
    return document(f"Run {run.run_id}", blocks)


def _run_facts(run: Run) -> tuple[Field, ...]:
    """Number, days and state."""
    return (
        Field("run", COUNT, run.run_id, "run"),
        Field("state", TEXT, run.state, "state"),
        Field("started_on", DAY, run.started_on, "started on"),
        Field("closed_on", DAY, run.closed_on, f"{run.state} on"),
        Field("note", TEXT, run.note),
    )


def _load(detail: RunDetail) -> tuple[Field, ...]:
    """The load's weight as far as weighed, and the water its composition lets expect."""
    weighed = [tray.wet_dg for tray in detail.trays if tray.wet_dg is not None]
    missing = len(detail.trays) - len(weighed)
    after = f" ({missing} of {len(detail.trays)} trays not weighed yet)" if missing else ""
    expected = detail.expected_water_dg
    return (
        Field("wet", WEIGHT, sum(weighed) if weighed else None, "as loaded", after),
        Field(
            "expected_water", WEIGHT, expected, "water to expect",
            " by composition, a first estimate (USDA SR28)",
        ),
    )  # fmt: skip
