"""Everything of the Round as one list, for a spreadsheet."""

from __future__ import annotations

from datetime import date

from stockroom.domain.evidence_records import ExtraDrying, QueueEntry
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Lot, Package, Run
from stockroom.reports.redrying import next_for
from stockroom.reports.round_parts import DOUBT_WORDS, doubts_of, next_for_doubt
from stockroom.reports.values import DAY, SERVINGS, WEIGHT, Column, Row, Table
from stockroom.services.results import RoundPage

_COLUMNS = (
    Column("what"),
    Column("code"),
    Column("food"),
    Column("place"),
    Column("due_on", DAY),
    Column("best_by", DAY),
    Column("servings_left", SERVINGS),
    Column("dry_left", WEIGHT),
    Column("why"),
    Column("next"),
)


def task_table(page: RoundPage) -> Table:
    """A line for each thing that wants doing, in the order of the Round."""
    wanted = {one.package_id: one.wanted_on for one in page.looks}
    rows: list[Row] = [
        _package("suspect", one, None, DOUBT_WORDS[doubt], next_for_doubt(one, doubt))
        for one, doubt in zip(page.suspect, doubts_of(page), strict=True)
    ]
    rows += map(_reminder, page.reminders)
    rows += [_check("settle", one, settle_check_due(one.sealed_on)) for one in page.settle]
    rows += [_check("recheck", one, wanted.get(one.package_id)) for one in page.recheck]
    rows += map(_queued, page.queue)
    rows += [_package("held", one) for one in unqueued(page)]
    rows += [_package("opened", one, todo=f"stockroom draw {one.code}") for one in page.opened]
    rows += [_package("use_first", one) for one in page.use_first]
    rows += map(_lot, page.packable)
    rows += map(_run, page.open_runs)
    return Table("round", _COLUMNS, tuple(rows))


def unqueued(page: RoundPage) -> tuple[Package, ...]:
    """Held packages without a place in the queue."""
    queued = {one.package_id for one in page.queue}
    return tuple(one for one in page.held if one.package_id not in queued)


def _check(what: str, one: Package, due_on: date | None) -> Row:
    return _package(what, one, due_on, todo=f"stockroom check {one.code} crisp")


def _package(
    what: str, one: Package, due_on: date | None = None, why: str = "", todo: str = ""
) -> Row:
    """A package as a line of the list."""
    return (
        what, one.code, one.food, one.place, due_on, one.best_by, one.servings_left, one.left_dg,
        why, todo,
    )  # fmt: skip


def _reminder(one: ExtraDrying) -> Row:
    """A few more hours of a run; due on the day they end."""
    why = f"{one.hours_tenths / 10:g} h more until {one.due_at:%Y-%m-%d %H:%M}"
    todo = f"stockroom run dry TRAY WEIGHT --run {one.run_id}"
    return ("reminder", str(one.run_id), "", "", one.due_at.date(), None, None, None, why, todo)


def _queued(one: QueueEntry) -> Row:
    """Food in the queue."""
    why = f"{one.state}: {one.reason}" if one.reason else one.state
    return ("queue", one.code, one.food, one.place, None, None, None, one.dry_dg, why,
            next_for(one))  # fmt: skip


def _lot(lot: Lot) -> Row:
    """A lot to pack."""
    todo = f"stockroom pack {lot.code} --into 6xpouch-1500-foil"
    return ("to_pack", lot.code, lot.food, "", None, None, None, lot.left_dg, "", todo)


def _run(run: Run) -> Row:
    """An open run."""
    todo = f"stockroom run show {run.run_id}"
    return ("open_run", str(run.run_id), run.foods, "", None, None, None, None, "", todo)
