"""What may be wished of a menu, as options; and a search told line by line, ended by Ctrl-C."""

from __future__ import annotations

import signal
from collections.abc import Callable, Generator, Mapping
from contextlib import contextmanager
from types import FrameType
from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics
from stockroom.cli.options import Function, number

if TYPE_CHECKING:
    from stockroom.domain.menu_records import MenuOffer, MenuRequest
    from stockroom.domain.menu_wishes import MenuWishes
    from stockroom.services.menu_solver import Progress
    from stockroom.services.session import Stockroom

SAY_AGAIN_SECONDS = 5.0
"""Between two lines about the search; engineering judgement."""
_USUAL_SECONDS = 60
_MOST_SECONDS = 3_600

_OPTIONS: tuple[tuple[str, str, str], ...] = (
    ("breakfasts", "LEAST-MOST", "Breakfasts on each day, such as 1 or 0-2."),
    ("mains", "LEAST-MOST", "Main dishes on each day."),
    ("extras", "LEAST-MOST", "Extras on each day."),
    ("energy", "LOW-HIGH", "Energy on each day, in percent of the need: 85-120."),
    ("energy-in-all", "LOW-HIGH", "Energy over all days, in percent of the need."),
    ("protein", "PERCENT", "Protein on each day at least, in percent of the need."),
    ("apart", "DAYS", "The same dish comes again after so many days."),
    ("cook-on", "WEEKDAYS", "Days for dishes that are cooked: “Wed Sat”, or every day."),
    ("water", "WATER", "Water at hand on each day: 6 L, 800 mL, or any."),
    ("water-in-all", "WATER", "Water at hand for all days, or any."),
    ("helpings", "PERCENTS", "A dish for so many percent of the household: “100 150”."),
    ("reach", "DAYS", "Food due up to so many days after the menu counts as at risk."),
    ("dislikes", "soft|strict", "Foods not liked come rarely, or never."),
    ("past-best-by", "no|yes", "May be eaten past its best-by, a quality estimate, not safety."),
    ("finish", "no|yes", "Leave little in open packages at the end."),
)
"""Written out, so that help loads nothing; a test holds them against `WISHES`."""


def wish_options(function: Function) -> Function:
    """An option for each wish; the command takes them by name, None where not said."""
    for name, metavar, text in reversed(_OPTIONS):
        function = click.option(f"--{name}", metavar=metavar, help=text)(function)
    return function


def planning(function: Function) -> Function:
    """`--seconds` and `--keep` for a command that plans."""
    function = click.option("--keep", is_flag=True, help="Keep it as the menu of its days.")(
        function
    )
    return click.option(
        "--seconds",
        type=number(1, _MOST_SECONDS),
        default=_USUAL_SECONDS,
        metavar="S",
        help=f"Search so long at most; {_USUAL_SECONDS} if not said.",
    )(function)


def wishes_said(wishes: MenuWishes, said: Mapping[str, str | None]) -> MenuWishes:
    """The wishes with those that were said. Raises BadInput."""
    from stockroom.domain.menu_wishes import WISHES, with_texts

    typed = [(one, said[one.option.replace("-", "_")]) for one in WISHES]
    return with_texts(wishes, [(one, text) for one, text in typed if text is not None])


def tell_search(room: Stockroom, request: MenuRequest, seconds: int) -> MenuOffer:
    """The menu found, its search told on standard error; Ctrl-C ends the search."""
    from stockroom.services.menu import plan_menu

    teller = _Teller()
    with _interrupted() as stopped:
        offer = plan_menu(room, request, seconds=seconds, progress=teller, cancelled=stopped)
    if stopped():
        diagnostics.tell("Stopped: this is the best found so far.")
    return offer


class _Teller:
    """Says how far a search has come, every few seconds."""

    __slots__ = ("_said",)

    def __init__(self) -> None:
        self._said = 0.0

    def __call__(self, progress: Progress) -> None:
        """Say it when some seconds have gone by."""
        if progress.seconds - self._said < SAY_AGAIN_SECONDS:
            return
        self._said = progress.seconds
        gap = progress.gap_millionths
        known = "gap not known" if gap is None else f"at most {gap / 10_000:.1f} % more to save"
        value = "no menu yet" if progress.value is None else f"value {progress.value}"
        diagnostics.tell(f"Searching, {progress.seconds:.0f} s: {value}, {known}. Ctrl-C ends it.")


@contextmanager
def _interrupted() -> Generator[Callable[[], bool]]:
    """Whether Ctrl-C was pressed within the block; the second time it interrupts as usual."""
    pressed = False

    def note(number: int, frame: FrameType | None) -> None:
        nonlocal pressed
        if pressed:
            raise KeyboardInterrupt
        pressed = True

    try:
        before = signal.signal(signal.SIGINT, note)
    except ValueError:
        # Only the main thread hears signals; elsewhere nobody can press anything.
        yield lambda: False
        return
    try:
        yield lambda: pressed
    finally:
        signal.signal(signal.SIGINT, before)
