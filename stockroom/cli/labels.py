"""Labels as a file to print, as lines to write by hand, and the sheets they are printed on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.acting import finish
from stockroom.cli.base import Command, Group
from stockroom.cli.options import Choices, json_form, list_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from stockroom.domain.labels.sheets import Nudge, Sheet
    from stockroom.domain.labels.statements import Label
    from stockroom.reports.label_sheet import PrintedLabels
    from stockroom.services.session import Stockroom

STANDARD_OUTPUT = "-"
_MOST_PLACES = 3200


@dataclass(frozen=True, slots=True)
class Asked:
    """The options of `label`, as they were typed."""

    file: str | None
    sheet: str | None
    size: str | None
    start: int
    nudge: str | None
    font: str | None
    force: bool
    form: str | None


@click.command("label", cls=Command)
@click.argument("codes", nargs=-1, metavar="[CODE]...")
@click.option("--place", metavar="PLACE", help="Every package in this place too.")
@click.option("--bins", is_flag=True, help="Labels of the lots, for their bins.")
@click.option("--out", "file", metavar="FILE", help="The PDF to write; - for standard output.")
@click.option("--sheet", metavar="NAME", help="The sheet of labels: stockroom sheet list.")
@click.option("--size", metavar="WxH", help="Single labels of this size: 70x37, 2 x 1 in.")
@click.option(
    "--start",
    type=number(1, _MOST_PLACES),
    default=1,
    show_default=True,
    metavar="N",
    help="The first free label of the sheet, counted along the rows.",
)
@click.option("--nudge", metavar="RIGHT,DOWN", help="Move the print, in mm, such as 0.5,-1.")
@click.option("--font", metavar="FILE", help="A font for letters the usual one lacks.")
@click.option("--force", is_flag=True, help="Replace the file even if it is something else.")
@click.option("--lines", is_flag=True, help="Plain lines instead, to write by hand.")
@click.option("--width", type=number(12, 200), metavar="N", help="Characters a line; with --lines.")
@json_form
@click.pass_obj
def label(
    wishes: Wishes,
    codes: tuple[str, ...],
    place: str | None,
    bins: bool,
    lines: bool,
    width: int | None,
    **typed: Any,
) -> None:
    """Print labels of packages, or of all packages of a lot.

    Each says food, code, days, best-by (a quality estimate, not safety), water, servings,
    allergens and whether it is raw, with the code as a symbol any scanner reads. Code, days, raw
    and allergens are never cut. Print at actual size.

    \b
    stockroom label 26329A --out labels.pdf --sheet "a4 3x8" --start 5
    stockroom label 26329A07 --lines
    """
    asked = Asked(**typed)
    _refuse_odd(codes, place, lines, width, asked)
    with wishes.room() as room:
        wanted = _labels(room, codes, place, bins)
        if lines:
            _print_lines(wanted, width, asked.form)
        elif asked.file == STANDARD_OUTPUT:
            made = _made(room, wanted, asked)
            output.write_bytes(made.content)
            _say(made, "standard output")
        else:
            _write(room, wanted, asked)


def _refuse_odd(
    codes: tuple[str, ...], place: str | None, lines: bool, width: int | None, asked: Asked
) -> None:
    """Usage errors for what does not go together."""
    context = click.get_current_context()
    if not codes and place is None:
        raise click.UsageError("Name packages or lots by their codes, or a --place.", context)
    if lines and (asked.file, asked.sheet, asked.size, asked.nudge, asked.font) != (None,) * 5:
        raise click.UsageError("--lines goes to standard output: leave out the sheet.", context)
    if not lines and asked.file is None:
        raise click.UsageError("Say where the file goes with --out FILE, or --lines.", context)
    if not lines and width is not None:
        raise click.UsageError("--width is for --lines.", context)
    if asked.sheet is not None and asked.size is not None:
        raise click.UsageError("Say a --sheet or a --size, not both.", context)
    if asked.file == STANDARD_OUTPUT and asked.form is not None:
        raise click.UsageError("The file goes to standard output: leave out --json.", context)


def _labels(
    room: Stockroom, codes: tuple[str, ...], place: str | None, bins: bool
) -> tuple[Label, ...]:
    from stockroom.services.labels import bin_labels, labels_of

    return (bin_labels if bins else labels_of)(room, codes, place)


def _print_lines(labels: tuple[Label, ...], width: int | None, form: str | None) -> None:
    from stockroom.reports.label_lines import USUAL_LINE, label_lines, lines_report, lines_text

    lines = label_lines(labels, width or USUAL_LINE)
    if form is None:
        output.write(lines_text(lines))
    else:
        output.show(lines_report(lines), form)


def _write(room: Stockroom, labels: tuple[Label, ...], asked: Asked) -> None:
    """The file in its place, once it is known that it may go there."""
    from stockroom.reports.label_sheet import KIND, is_our_label_sheet
    from stockroom.reports.labels import printed_report
    from stockroom.services.written_files import check_target, path_of, write_file

    path = path_of(asked.file or "")
    check_target(room, path, KIND, is_ours=is_our_label_sheet, replace=asked.force)
    made = _made(room, labels, asked)
    write_file(path, made.content)
    output.show(printed_report(made, str(path)), asked.form)
    if asked.form is None:
        _say_beside(made)


def _made(room: Stockroom, labels: tuple[Label, ...], asked: Asked) -> PrintedLabels:
    """The file's content."""
    from stockroom.reports.label_fonts import Fonts
    from stockroom.reports.label_sheet import label_pdf
    from stockroom.services.written_files import path_of

    fonts = Fonts(None if asked.font is None else path_of(asked.font, "font"))
    return label_pdf(
        labels,
        _sheet(room, asked),
        room.today,
        start=asked.start,
        nudge=_nudge(asked.nudge),
        fonts=fonts,
    )


def _sheet(room: Stockroom, asked: Asked) -> Sheet:
    """The sheet that was asked for, or the usual one."""
    from stockroom.domain.labels.lengths import read_size
    from stockroom.domain.labels.sheets import single_label
    from stockroom.services.label_sheets import find_sheet, usual_sheet

    if asked.size is not None:
        return single_label(*read_size(asked.size))
    return usual_sheet(room) if asked.sheet is None else find_sheet(room, asked.sheet)


def _nudge(typed: str | None) -> Nudge:
    from stockroom.domain.labels.lengths import read_pair
    from stockroom.domain.labels.sheets import Nudge

    return Nudge() if typed is None else Nudge(*read_pair(typed, "nudge"))


def _say(made: PrintedLabels, path: str) -> None:
    from stockroom.reports.labels import printed_words

    diagnostics.tell(printed_words(made, path))
    _say_beside(made)


def _say_beside(made: PrintedLabels) -> None:
    """What to know before printing, on standard error."""
    from stockroom.reports.labels import next_words

    for line in (*made.findings, next_words(made)):
        diagnostics.tell(line)


@click.group("sheet", cls=Group)
def sheet() -> None:
    """Sheets of labels: list them, save your own by its measures, remove one."""


@sheet.command("list")
@list_form
@click.pass_obj
def list_(wishes: Wishes, form: str | None) -> None:
    """List the sheets that can be printed on, your own first."""
    from stockroom.reports.labels import sheet_list
    from stockroom.services.label_sheets import list_sheets

    with wishes.room() as room:
        output.show(sheet_list(list_sheets(room)), form)


def _papers() -> tuple[str, ...]:
    return ("A4", "letter")


@sheet.command("save")
@click.argument("name", metavar="NAME")
@click.option("--page", type=Choices(_papers), default="A4", show_default=True, help="The paper.")
@click.option("--size", required=True, metavar="WxH", help="One label: 70x37, 2 x 1 in.")
@click.option("--columns", type=number(), required=True, metavar="N", help="Labels side by side.")
@click.option("--rows", type=number(), required=True, metavar="N", help="Labels one above another.")
@click.option("--left", default="0", metavar="MM", help="From the page's left edge to a label.")
@click.option("--top", default="0", metavar="MM", help="From the page's upper edge to a label.")
@click.option("--across", default="0", metavar="MM", help="Gap between labels side by side.")
@click.option("--down", default="0", metavar="MM", help="Gap between labels one above another.")
@json_form
@click.pass_obj
def save(
    wishes: Wishes, name: str, page: str, size: str, columns: int, rows: int, **typed: Any
) -> None:
    """Save a sheet of your own by its measures, or change one of the same name.

    Lengths are millimetres, or inches as in “0.5 in”.

    \b
    stockroom sheet save freezer --size 64x34 --columns 3 --rows 8 --left 8 --top 12 --across 1
    """
    from stockroom.domain.labels.lengths import read_length, read_size
    from stockroom.domain.labels.sheets import PAPER_UM, Paper, Sheet
    from stockroom.services.label_sheets import save_sheet

    form: str | None = typed.pop("form")
    paper = PAPER_UM[Paper.A4 if page == "A4" else Paper.LETTER]
    lengths = {f"{what}_um": read_length(text, what) for what, text in typed.items()}
    width_um, height_um = read_size(size)
    wanted = Sheet(
        name, *paper, label_width_um=width_um, label_height_um=height_um, columns=columns,
        rows=rows, **lengths,
    )  # fmt: skip
    with wishes.room() as room:
        finish(save_sheet(room, wanted), form)


@sheet.command("remove")
@click.argument("name", metavar="NAME")
@json_form
@click.pass_obj
def remove(wishes: Wishes, name: str, form: str | None) -> None:
    """Remove a sheet of your own; undo brings it back."""
    from stockroom.services.label_sheets import remove_sheet

    with wishes.room() as room:
        finish(remove_sheet(room, name), form)
