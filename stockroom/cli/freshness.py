"""Best-by dates brought up to date before a command, when the model or the height has changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stockroom.cli import diagnostics
from stockroom.errors import StoreTrouble
from stockroom.services.keeping import projections_are_current, refresh_everything

if TYPE_CHECKING:
    from stockroom.services.session import Stockroom

MANY = 1000
"""From here on it takes long enough to say how far it has come."""
_STEP = 10
"""Percent between two lines."""


def bring_up_to_date(room: Stockroom) -> None:
    """Compute every best-by anew unless they are current; in silence when it is soon done.

    A store that cannot be written to just now is read with the dates it has, and that is said.
    """
    if projections_are_current(room):
        return
    try:
        refresh_everything(room, Progress("Bringing best-by dates up to date"))
    except StoreTrouble as trouble:
        diagnostics.tell(f"Best-by dates are as they were, not up to date. {trouble.message}")


class Progress:
    """Says how far a long piece of work has come, in lines on standard error.

    Work on no more than `MANY` things is done before anybody wonders, so it is silent.
    """

    __slots__ = ("_said", "_words")

    def __init__(self, words: str) -> None:
        """`words` are what is being done."""
        self._words = words
        self._said = -_STEP

    def __call__(self, done: int, of: int) -> None:
        """Say it when another step is done."""
        percent = 100 * done // of
        if of > MANY and percent >= self._said + _STEP:
            diagnostics.tell(f"{self._words}: {percent} %")
            self._said = percent
