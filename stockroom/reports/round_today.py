"""The Round on paper: what wants doing today, each with the command that records it."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.reports.lots import lot_table
from stockroom.reports.parts import PACKAGE_COLUMNS, counted, package_table
from stockroom.reports.rechecks import how_lines
from stockroom.reports.redrying import queue_table
from stockroom.reports.round_list import task_table, unqueued
from stockroom.reports.round_parts import recheck_table, reminder_table, suspect_table
from stockroom.reports.runs import run_table
from stockroom.reports.values import (
    COUNT,
    DAY,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    document,
)
from stockroom.services.results import RoundPage

_DOUBTFUL = (
    "Do not eat from these before: stockroom check CODE crisp (or soft), stockroom decide CODE."
)
_WEIGH_AGAIN = "Then weigh and test the trays again: what came before shows nothing any more."
_SQUEEZE = "Squeeze each: stockroom check CODE crisp (or soft, leak)."
_LOOK = "Look at each, the worst risk first: stockroom check CODE crisp (or soft, leak)."
_USE_UP = "Use these up: stockroom draw CODE."
_PACK = "Pack each: stockroom pack LOT --into 6xpouch-1500-foil."
_WEIGH = "Weigh the trays dry, test them, then: stockroom run close."


def round_report(page: RoundPage) -> Report:
    """Today's list, the most pressing first; a part with nothing in it is left out of text.

    The ends of extra hours are shown in the time zone they are given in.
    """
    blocks: list[Block] = [Fields((Field("today", DAY, page.today, "today"),))]
    if page.empty:
        blocks.append(Prose("", ("Nothing wants doing today.",)))
    blocks += [*_doubtful(page), *_looks(page), *_waiting(page), *_to_use(page), *_bench(page)]
    return document("Round", blocks, task_table(page))


def _doubtful(page: RoundPage) -> Iterable[Block]:
    yield from _part(suspect_table(page), _DOUBTFUL)
    yield from _part(reminder_table(page.reminders), _WEIGH_AGAIN)


def _looks(page: RoundPage) -> Iterable[Block]:
    """Settle checks and rechecks, and how to look at each kind of container among them."""
    settle = package_table(page.settle, key="settle", title="Settle checks due")
    yield from _part(settle, _SQUEEZE)
    yield from _part(recheck_table(page), _LOOK)
    if page.recheck_waiting:
        more = counted(page.recheck_waiting, "recheck")
        yield Prose("", (f"{more} more waited too long; they come up in the next days.",))
    yield Prose("", how_lines((*page.settle, *page.recheck)), "How to look", "- ")
    yield Fields((Field("recheck_waiting", COUNT, page.recheck_waiting),))


def _waiting(page: RoundPage) -> Iterable[Block]:
    """The queue; held packages are named apart only where they are not in it."""
    yield from _part(queue_table(page.queue, title="Waiting for the machine"), "")
    title = "Held in the freezer for drying again"
    yield from _part(package_table(unqueued(page), key="held", title=title), "")
    quiet = tuple(Column(one.key, one.kind) for one in PACKAGE_COLUMNS)
    yield Table("held", quiet, package_table(page.held).rows)


def _to_use(page: RoundPage) -> Iterable[Block]:
    yield from _part(package_table(page.opened, key="opened", title="Open"), _USE_UP)
    yield from _part(package_table(page.use_first, key="use_first", title="Use first"), "")


def _bench(page: RoundPage) -> Iterable[Block]:
    yield from _part(lot_table(page.packable, key="to_pack", title="To pack"), _PACK)
    yield from _part(run_table(page.open_runs, key="open_runs", title="Open runs"), _WEIGH)


def _part(table: Table, advice: str) -> Iterable[Block]:
    """A table with its count in the title and its advice above the rows."""
    if table.rows:
        title = f"{table.title} ({len(table.rows)})"
        caption = " ".join(part for part in (advice, table.caption) if part)
        yield Table(table.key, table.columns, table.rows, title, caption)
    else:
        yield Table(table.key, table.columns, ())
