"""The record out as files, and a whole record or a list of packages in."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command
from stockroom.cli.errors import FileUnreadable
from stockroom.cli.options import Choices, json_form
from stockroom.cli.session import Wishes, reachable, readable_path

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from stockroom.domain.exchange.whole_record import RecordTable
    from stockroom.services.list_importing import ListWishes
    from stockroom.services.list_names import SaidFood
    from stockroom.services.session import Stockroom

STANDARD_OUTPUT = "-"
MOST_BYTES = 1024**3
_FOODS_ACCEPTED = "NAME=CLASS,PREPARATION such as Leek soup=meal,cooked; NAME * for all others"


@click.command("export", cls=Command)
@click.option(
    "--out",
    "target",
    required=True,
    metavar="FILE",
    help="The file to write, or the folder with --csv; - for standard output.",
)
@click.option("--csv", "as_csv", is_flag=True, help="One CSV file for each table, in a folder.")
@click.option("--table", metavar="NAME", help="This table alone, as one CSV file.")
@click.option("--with-journal", is_flag=True, help="Also what each entry of the journal changed.")
@click.option("--force", is_flag=True, help="Replace a file even if it is something else.")
@json_form
@click.pass_obj
def export(
    wishes: Wishes,
    target: str,
    as_csv: bool,
    table: str | None,
    with_journal: bool,
    force: bool,
    form: str | None,
) -> None:
    """Write the whole record to a file, to take along or to look at with other programs.

    Without --csv it is one JSON document, every table as it is stored: whole tenths of a gram
    (_dg) and of a degree (_dc), millilitres, ISO days. `stockroom import` makes a new store of
    it. Only with --with-journal can the new store undo what was done before.

    In CSV a cell that a spreadsheet would run as a formula gets an apostrophe before it; reading
    a list back takes it off.

    \b
    stockroom export --out record.json
    stockroom export --out tables --csv
    """  # fmt: skip
    if target == STANDARD_OUTPUT and (form is not None or (as_csv and table is None)):
        raise click.UsageError(
            "Standard output takes one file: leave out --json, and --csv without --table.",
            click.get_current_context(),
        )
    with wishes.room() as room:
        if table is not None:
            _export_table(room, table, target, force, form)
        elif as_csv:
            _export_tables(room, target, with_journal, force, form)
        else:
            _export_whole(room, target, with_journal, force, form)


def _export_whole(
    room: Stockroom, target: str, with_journal: bool, force: bool, form: str | None
) -> None:
    """The whole record as one document."""
    from stockroom.reports.exchange import KIND, is_our_record, record_file
    from stockroom.services.exporting import whole_record
    from stockroom.services.written_files import check_target, path_of

    path = None
    if target != STANDARD_OUTPUT:
        path = path_of(target)
        check_target(room, path, KIND, is_ours=is_our_record, replace=force)
    record = whole_record(room, with_changes=with_journal)
    _hand_over(path, record_file(record, room.today), record.tables, form)


def _export_table(room: Stockroom, name: str, target: str, force: bool, form: str | None) -> None:
    """One table as CSV."""
    from stockroom.reports.exchange import TABLE_KIND, is_our_table, table_file
    from stockroom.services.exporting import one_table
    from stockroom.services.written_files import check_target, path_of

    found = one_table(room, name)
    path = None
    if target != STANDARD_OUTPUT:
        path = path_of(target)
        check_target(
            room, path, TABLE_KIND, is_ours=lambda head: is_our_table(found, head), replace=force
        )
    _hand_over(path, table_file(found), (found,), form)


def _hand_over(
    path: Path | None, content: bytes, tables: Sequence[RecordTable], form: str | None
) -> None:
    """A file in its place, or on standard output with the talk beside it."""
    from stockroom.reports.exchange import written_report, written_words
    from stockroom.services.written_files import write_file

    if path is None:
        output.write_bytes(content)
        diagnostics.tell(written_words(tables, "standard output"))
        return
    write_file(path, content)
    output.show(written_report(tables, str(path)), form)


def _export_tables(
    room: Stockroom, target: str, with_journal: bool, force: bool, form: str | None
) -> None:
    """Every table as a CSV file of its name in a folder; none is written over unasked."""
    from stockroom.reports.exchange import TABLE_KIND, is_our_table, table_file, written_report
    from stockroom.services.exporting import whole_record
    from stockroom.services.written_files import check_target, folder_of, write_file

    folder = folder_of(target)
    tables = whole_record(room, with_changes=with_journal).tables
    paths = {table.name: folder / f"{table.name}.csv" for table in tables}
    for table in tables:
        check_target(
            room, paths[table.name], TABLE_KIND,
            is_ours=lambda head, table=table: is_our_table(table, head), replace=force,
        )  # fmt: skip
    for table in tables:
        write_file(paths[table.name], table_file(table))
    output.show(written_report(tables, str(folder)), form)


def _orders() -> Iterable[str]:
    from stockroom.domain.exchange.days import DayOrder

    return tuple(DayOrder)


def _decimals() -> Iterable[str]:
    from stockroom.domain.exchange.figures import Decimal

    return tuple(Decimal)


_OF_LISTS = (
    "what", "columns", "dates", "decimal", "condition", "container", "foods", "add_places", "take",
)  # fmt: skip


@click.command("import", cls=Command)
@click.argument("file", metavar="FILE")
@click.option("--what", type=Choices(lambda: ("packages",)), help="What a list is of.")
@click.option(
    "--column", "columns", multiple=True, metavar="FIELD=HEADING",
    help="Where a field stands: food, dry, water, wet, container, absorber, vacuum, sealed_on,"
    " made_on, place, count, note or code.",
)  # fmt: skip
@click.option("--dates", type=Choices(_orders), help="Whether the day or the month comes first.")
@click.option("--decimal", type=Choices(_decimals), help="The sign before decimals.")
@click.option(
    "--condition",
    type=Choices(lambda: ("settling", "sound")),
    help="Come in settling (the default), to be looked at, or sound because you say so.",
)
@click.option("--container", metavar="KEY", help="The container of rows that name none.")
@click.option(
    "--add-foods", "foods", multiple=True, metavar="NAME=CLASS,PREPARATION",
    help="Add a food you do not have yet; * for every other.",
)  # fmt: skip
@click.option("--add-places", is_flag=True, help="Add places that are not there yet.")
@click.option("--take", is_flag=True, help="Take the list in; without this it is only shown.")
@json_form
@click.pass_obj
@click.pass_context
def import_(
    context: click.Context, wishes: Wishes, file: str, form: str | None, **said: object
) -> int:
    """Take in a whole record (JSON of `export`) or a list of packages (CSV of any spreadsheet).

    A whole record makes a new store, named with --store; one that is there is never touched. Its
    best-by dates (a quality estimate, not safety) are computed anew.

    A list (--what packages) is shown first, with every problem by line and column; --take takes
    it in, all or nothing, and undo takes it back. Food, dry weight and a date are needed; water
    or wet weight, container, absorber, vacuum, place, count and note are read where they are
    there. Rows of one food made on one day become one lot. Nothing in a list shows that the food
    is dry, and the packages say so. Ends with 1 when something stands in the way.

    \b
    stockroom import packages.csv --what packages --add-places
    stockroom import record.json --store new.db
    """
    path = readable_path(file, "file")
    held = _held(path)
    if held.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{"):
        if any(said[name] for name in _OF_LISTS):
            raise click.UsageError(
                "A whole record goes into a new store as it is: only --store goes with it.",
                context,
            )
        return _take_record(wishes, path, held, form)
    if said["what"] is None:
        raise click.UsageError("Say what the list is of: --what packages.", context)
    return _take_list(wishes, path, held, form, said)


def _held(path: Path) -> bytes:
    """What a file holds. Raises FileUnreadable."""
    try:
        with path.open("rb") as file:
            held = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise FileUnreadable(str(path), getattr(error, "strerror", None) or str(error)) from error
    if len(held) > MOST_BYTES:
        raise FileUnreadable(str(path), "it is larger than 1 GiB")
    return held


def _text(path: Path, held: bytes) -> str:
    from stockroom.domain.exchange.sheet import decode_sheet

    text = decode_sheet(held)
    if text is None:
        raise FileUnreadable(str(path), "it is not text; save the list as CSV")
    return text


def _take_record(wishes: Wishes, path: Path, held: bytes, form: str | None) -> int:
    """A new store of a whole record."""
    from stockroom.services.importing import record_into_new_store

    store = wishes.path
    with reachable(store):
        done, room = record_into_new_store(
            store, path.name, _text(path, held), clock=wishes.clock, actor=wishes.actor
        )
    room.close()
    finish(done, form)
    return 0


def _take_list(
    wishes: Wishes, path: Path, held: bytes, form: str | None, said: dict[str, object]
) -> int:
    """A list shown, and taken in when that was asked for and nothing stands in the way."""
    from stockroom.reports.list_import import list_report
    from stockroom.services.list_importing import look_at_list, take_list

    text, how = _text(path, held), _list_wishes(path.name, said)
    with wishes.room() as room:
        preview = look_at_list(room, text, how)
        done = take_list(room, text, how) if said["take"] and not preview.problems else None
        output.show(list_report(preview, done), form, room.units)
    if form is None:
        diagnostics.bear_in_mind(preview.cautions)
        if done is None:
            ready = "Nothing was taken: --take takes the list in."
            diagnostics.tell("Nothing was taken." if preview.problems else ready)
    return 1 if preview.problems else 0


def _list_wishes(name: str, said: dict[str, object]) -> ListWishes:
    """The options of a list. Raises BadInput."""
    from stockroom.domain.conditions import Condition
    from stockroom.domain.exchange.days import DayOrder
    from stockroom.domain.exchange.figures import Decimal
    from stockroom.domain.exchange.headings import read_said
    from stockroom.services.list_importing import ListWishes

    def words(key: str) -> tuple[str, ...]:
        value = said[key]
        return tuple(map(str, value)) if isinstance(value, tuple) else ()

    dates, decimal = said["dates"], said["decimal"]
    return ListWishes(
        name=name,
        columns=read_said(words("columns")),
        order=None if dates is None else DayOrder(str(dates)),
        decimal=None if decimal is None else Decimal(str(decimal)),
        container=str(said["container"] or ""),
        foods=dict(map(_said_food, words("foods"))),
        add_places=bool(said["add_places"]),
        condition=Condition(str(said["condition"] or "settling")),
    )


def _said_food(typed: str) -> tuple[str, SaidFood]:
    """A food's name in small letters and what is said of it. Raises BadInput."""
    from stockroom.domain.foods import FoodGroup, Preparation
    from stockroom.domain.keeping.interface import FoodClass
    from stockroom.domain.quantities import unreadable
    from stockroom.services.list_names import SaidFood

    name, _, told = typed.rpartition("=")
    words = ["_".join(one.casefold().replace("-", " ").split()) for one in told.split(",")]
    if not name.strip() or len(words) not in (2, 3):
        raise unreadable("--add-foods", typed, _FOODS_ACCEPTED)
    try:
        said = SaidFood(FoodClass(words[0]), Preparation(words[1]), *map(FoodGroup, words[2:]))
    except ValueError:
        every = f"CLASS one of {', '.join(FoodClass)}; PREPARATION {', '.join(Preparation)}"
        raise unreadable("--add-foods", typed, f"NAME=CLASS,PREPARATION, {every}") from None
    return " ".join(name.split()).casefold(), said
