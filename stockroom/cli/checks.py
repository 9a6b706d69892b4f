"""Checks of packages: one finding for several codes, or a run of them line by line."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics
from stockroom.cli.acting import finish, finish_all
from stockroom.cli.base import Command
from stockroom.cli.errors import FileUnreadable, LinesLeftOut
from stockroom.cli.options import Choices, json_form
from stockroom.cli.session import Wishes, readable_path
from stockroom.errors import BadInput, StockroomError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from stockroom.domain.conditions import Event
    from stockroom.services.results import Done
    from stockroom.services.session import Stockroom

STANDARD_INPUT = "-"
_LONGEST_LINE = 2_200


def _findings() -> Iterable[str]:
    from stockroom.services.packages import FINDINGS

    return tuple(FINDINGS)


@click.command("check", cls=Command)
@click.argument("codes", nargs=-1, metavar="CODE...")
@click.argument(
    "finding", type=Choices(_findings), required=False, metavar="{crisp|soft|leak|damaged}"
)
@click.option(
    "--from", "file", metavar="FILE",
    help="Read checks line by line, such as “26329A01 c”; - for standard input.",
)  # fmt: skip
@click.option("--opened", is_flag=True, help="Looked at by opening: it counts as opened then.")
@click.option("--note", default="", metavar="TEXT", help="A note to keep with each check.")
@json_form
@click.pass_obj
def check(
    wishes: Wishes,
    codes: tuple[str, ...],
    finding: str | None,
    file: str | None,
    opened: bool,
    note: str,
    form: str | None,
) -> None:
    """Record what a check of packages found: crisp, soft, leak or damaged.

    Crisp settles a package; anything else makes it suspect, softness its sisters too, and the
    reasons to bear in mind are shown; stockroom decide says what becomes of it. Every code is
    looked up before the first check is recorded. From a file each good line is recorded and each
    bad one named; a line may end with a note of its own. Opening is the surest look, and uses
    the package up: plan to eat what is --opened.
    """
    if file is not None:
        if codes or finding:
            raise click.UsageError("Say codes or --from, not both.", click.get_current_context())
        with wishes.room() as room:
            _check_lines(room, file, note, form, opened=opened)
        return
    if not codes or finding is None:
        raise click.UsageError("Missing argument 'CODE...'.", click.get_current_context())
    with wishes.room() as room:
        _check_codes(room, codes, finding, note, form, opened=opened)


def _check_codes(
    room: Stockroom,
    codes: Sequence[str],
    finding: str,
    note: str,
    form: str | None,
    *,
    opened: bool,
) -> None:
    """One finding for several packages."""
    from stockroom.domain.conditions import Event
    from stockroom.services.packages import check_package
    from stockroom.services.shelves import package_detail

    packages = [package_detail(room, code).package for code in codes]
    done: list[Done] = []
    try:
        for code in dict.fromkeys(package.code for package in packages):
            done.append(check_package(room, code, Event(finding), note=note, opened=opened))
    finally:
        # What was recorded before one was refused is said all the same.
        finish_all(done, form)
        if form is None:
            _say_how_to_go_on(done, Event(finding))


def _say_how_to_go_on(done: Sequence[Done], finding: Event) -> None:
    """Which sisters became suspect, and how each package at fault is decided on."""
    from stockroom.domain.conditions import Event

    if not done or finding is Event.CRISP:
        return
    at_fault = [each.codes[0] for each in done]
    sisters = dict.fromkeys(code for each in done for code in each.codes[1:])
    suspect = [code for code in sisters if code not in at_fault]
    if suspect:
        diagnostics.tell(f"Suspect now, look at each: {', '.join(suspect)}.")
    for code in at_fault:
        diagnostics.tell(f"What becomes of it: stockroom decide {code}")


def _check_lines(room: Stockroom, file: str, note: str, form: str | None, *, opened: bool) -> None:
    """A check for each line, recorded as it comes. Raises FileUnreadable, LinesLeftOut."""
    from stockroom.services.packages import check_package

    done: list[Done] = []
    count, bad = 0, 0
    for number, line in _lines(file):
        count += 1
        try:
            code, finding, own = _read_line(line)
            each = check_package(room, code, finding, note=own or note, opened=opened)
        except StockroomError as trouble:
            bad += 1
            diagnostics.tell(f"Line {number}: {trouble.message} {trouble.hint}".rstrip())
            continue
        done.append(each)
        if form is None:
            finish(each)
            _say_how_to_go_on([each], finding)
    if form is not None:
        finish_all(done, form)
    if bad:
        raise LinesLeftOut(bad, count)
    if not count:
        diagnostics.tell("There was no line to record.")


def _lines(file: str) -> Iterator[tuple[int, str]]:
    """The lines that say something, with their numbers; # begins a remark. Or FileUnreadable."""
    name = "standard input" if file == STANDARD_INPUT else str(readable_path(file, "file"))
    wanted = file if file == STANDARD_INPUT else name
    try:
        with click.open_file(wanted, encoding="utf-8", errors="replace") as stream:
            for number, line in enumerate(stream, start=1):
                said = line.partition("#")[0].strip()
                if said:
                    yield number, said
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise FileUnreadable(name, why) from error


def _read_line(line: str) -> tuple[str, Event, str]:
    """A code, what was found and a note, if there is one. Raises BadInput."""
    from stockroom.domain.conditions import Event

    code, _, rest = line.partition(" ")
    word, _, note = rest.strip().partition(" ")
    named = [one for one in _findings() if word and str(one).startswith(word.casefold())]
    if len(named) != 1 or len(line) > _LONGEST_LINE:
        raise BadInput("line", line[:60], "a code and c, s, l or d, such as 26329A01 c")
    return code, Event(named[0]), note.strip()
