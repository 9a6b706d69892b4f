"""The rows of the Bench: runs, what waits for the machine, lots."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from stockroom.domain.evidence_records import ExtraDrying, QueueEntry
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Lot, Run
from stockroom.tui.screens.dryness_words import weigh_words
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.words import NO_PLACE

NO_RUNS = "No runs yet. Press n to start one, then load its trays."
NO_LOTS_TO_PACK = "No lot waits to be packed. Closing a run makes its lots."
NO_LOTS = "No lots yet. Closing a run makes its lots."

LOT_COLUMNS = (
    Column("Lot", 6),
    Column("Food", 12, weight=1, look="main"),
    Column("Made", 10, priority=2),
    Column("Dry", 11, align="right", priority=1),
    Column("Left to pack", 12, align="right", look="tone"),
)
QUEUE_COLUMNS = (
    Column("Turn", 4, align="right"),
    Column("Code", 10),
    Column("Food", 10, weight=1, look="main"),
    Column("Dry", 9, align="right", priority=2),
    Column("State", 13, look="tone"),
    Column("Since", 10, priority=3),
    Column("Place", 10, weight=1, priority=1, keep="end", look="quiet"),
)


@dataclass(frozen=True, slots=True)
class Moment:
    """This instant, and the person's calendar day."""

    now: datetime
    today: date


def run_columns(*, with_hours: bool) -> tuple[Column, ...]:
    """The columns of the runs; `with_hours` has one for when to weigh again."""
    return (
        Column("Run", 5, align="right"),
        Column("State", 9, look="tone"),
        *([Column("Dries on", 15, look="tone")] if with_hours else []),
        Column("Started", 10, priority=1),
        Column("Trays", 5, align="right", priority=2),
        Column("Foods", 12, weight=1, look="main"),
    )


def cut_text(count: int, most: int) -> str:
    """Says that a list was cut at `most`, when it was."""
    return f"the latest {most}" if count >= most else ""


def run_row(run: Run, extra: ExtraDrying | None, moment: Moment, with_hours: bool) -> Row:
    """A run on one line; `extra` are the hours it dries longer, until something is weighed."""
    tone: Tone = "due" if run.state == "open" else ""
    hours = "" if extra is None else weigh_words(extra, moment.now, moment.today)
    cells = (
        str(run.run_id),
        run.state,
        *([hours] if with_hours else []),
        run.started_on.isoformat(),
        str(run.trays),
        run.foods or run.note or "nothing loaded yet",
    )
    return Row(run.run_id, cells, tone)


def queue_row(turn: int, entry: QueueEntry, units: UnitSystem) -> Row:
    """What waits for the machine on one line: its turn, and how far it has come."""
    states = {
        "waiting": "waiting",
        "loaded": f"on run {entry.run_id}",
        "dried": "to pack anew",
    }
    weight_dg = entry.dry_dg if entry.dried_dg is None else entry.dried_dg
    cells = (
        str(turn),
        entry.code,
        entry.food,
        show_weight(weight_dg, units),
        states[entry.state],
        entry.since.isoformat(),
        entry.place or (NO_PLACE if entry.package_id else "not packed"),
    )
    return Row(entry.entry_id, cells, "due" if entry.state == "dried" else "")


def lot_row(lot: Lot, units: UnitSystem, *, waits: bool) -> Row:
    """A lot on one line; what `waits` for the machine is not packed before it was dried."""
    left = show_weight(lot.left_dg, units) if lot.left_dg else "nothing"
    cells = (
        lot.code,
        lot.food,
        lot.made_on.isoformat(),
        show_weight(lot.dry_dg, units),
        "dried first" if waits else left,
    )
    return Row(lot.lot_id, cells, "due" if lot.left_dg and not waits else "")
