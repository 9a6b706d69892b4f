"""The Round on paper: what wants doing today, each with the command that records it."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Lot, Package, Run
from stockroom.reports.lots import lot_table
from stockroom.reports.parts import package_table
from stockroom.reports.runs import run_table
from stockroom.reports.values import (
    DAY,
    SERVINGS,
    WEIGHT,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    document,
)
from stockroom.services.results import RoundPage

_PACK = "Pack each: stockroom pack LOT --into 6xpouch-1500-foil."
_PACKAGES = (
    ("settle", "Settle checks due", "Squeeze each: stockroom check CODE crisp (or soft, leak)."),
    (
        "suspect",
        "Suspect",
        "Do not eat from these until each is looked at: stockroom show CODE says why.",
    ),
    ("held", "Held in the freezer for drying again", ""),
    ("opened", "Open", "Use these up: stockroom draw CODE."),
    ("use_first", "Use first", ""),
)


def round_report(page: RoundPage) -> Report:
    """Today's list, the most pressing first; a part with nothing in it is left out of text."""
    blocks: list[Block] = [Fields((Field("today", DAY, page.today, "today"),))]
    if page.empty:
        blocks.append(Prose("", ("Nothing wants doing today.",)))
    for key, title, advice in _PACKAGES:
        packages: tuple[Package, ...] = getattr(page, key)
        blocks.extend(_part(package_table(packages, key=key, title=title), advice))
    blocks.extend(_part(lot_table(page.to_pack, key="to_pack", title="To pack"), _PACK))
    blocks.extend(
        _part(
            run_table(page.open_runs, key="open_runs", title="Open runs"),
            "Weigh the trays dry, then: stockroom run close.",
        )
    )
    return document("Round", blocks, _todo(page))


def _part(table: Table, advice: str) -> Iterable[Block]:
    """A table with its count in the title and its advice above the rows."""
    if table.rows:
        title = f"{table.title} ({len(table.rows)})"
        caption = " ".join(part for part in (advice, table.caption) if part)
        yield Table(table.key, table.columns, table.rows, title, caption)
    else:
        yield Table(table.key, table.columns, ())


_TASK_COLUMNS = (
    Column("what"),
    Column("code"),
    Column("food"),
    Column("place"),
    Column("due_on", DAY),
    Column("best_by", DAY),
    Column("servings_left", SERVINGS),
    Column("dry_left", WEIGHT),
)


def _todo(page: RoundPage) -> Table:
    """Everything of the Round as one list, for CSV."""
    rows: list[Row] = []
    for key, _, _ in _PACKAGES:
        packages: tuple[Package, ...] = getattr(page, key)
        rows.extend(_package_todo(key, one) for one in packages)
    rows.extend(map(_lot_todo, page.to_pack))
    rows.extend(map(_run_todo, page.open_runs))
    return Table("round", _TASK_COLUMNS, tuple(rows))


def _package_todo(what: str, one: Package) -> Row:
    """A package as a line of the list."""
    due = settle_check_due(one.sealed_on) if what == "settle" else None
    return (
        what, one.code, one.food, one.place, due, one.best_by, one.servings_left, one.left_dg,
    )  # fmt: skip


def _lot_todo(lot: Lot) -> Row:
    """A lot as a line of the list."""
    return ("to_pack", lot.code, lot.food, "", None, None, None, lot.left_dg)


def _run_todo(run: Run) -> Row:
    """A run as a line of the list."""
    return ("open_run", str(run.run_id), run.foods, "", None, None, None, None)
