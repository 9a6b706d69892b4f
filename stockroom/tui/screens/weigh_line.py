"""The line at the bottom of a run where a weight is typed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from textual.content import Content
from textual.widget import Widget

from stockroom.domain.quantities import unreadable
from stockroom.tui.plaintext import clean, plain, plain_lines
from stockroom.tui.widgets.fields import ERROR_SIGN

Stage = Literal["wet", "dry", "tare"]
STAGE_WORDS: dict[Stage, str] = {"wet": "as loaded", "dry": "dry", "tare": "empty"}

LONGEST_TYPED = 60
"""Signs the line takes: more is no weight."""

LONGEST_HOURS = 10
_HOURS = re.compile(r"([0-9]{1,4})(?:[.,]([0-9]{1,2}))? ?h?", re.ASCII)

LABEL_CELLS = 20
BOX_CELLS = 22


@dataclass(frozen=True, slots=True)
class Asked:
    """The weight that is asked for: at what stage, with what tare to take off."""

    stage: Stage
    tare_dg: int | None = None


class WeighLine(Widget):
    """A line for one weight after the other. At rest it tells about the tray under the cursor.

    It never has the keys: they come by way of the list, so that digits and Enter typed in one
    burst, by a quick hand or by a scale, stay in order.
    """

    COMPONENT_CLASSES = {"weigh-line--box", "weigh-line--cursor", "weigh-line--muted"}
    COMPONENT_CLASSES |= {"weigh-line--error"}
    DEFAULT_CSS = """
    WeighLine {
        height: auto;
        min-height: 4;
        padding: 0 1;
        border-top: solid $border-blurred;
        & > .weigh-line--box { background: $panel; color: $foreground; }
        & > .weigh-line--cursor { background: $foreground; color: $background; }
        & > .weigh-line--muted { color: $foreground-muted; }
        & > .weigh-line--error { color: $error; }
    }
    """

    def __init__(self) -> None:
        super().__init__()
        self.unit = ""
        """The unit a bare number is read in."""
        self.asked: Asked | None = None
        self.typed = ""
        self.label = ""
        self.notes: tuple[str, ...] = ()
        self.error = ""

    def ask(self, asked: Asked, typed: str = "") -> None:
        """Ask for a weight, with what was typed already."""
        self.asked = asked
        self.typed = typed
        self.error = ""

    def rest(self) -> None:
        """Ask for nothing."""
        self.asked = None
        self.typed = self.error = ""

    def describe(self, tray: str, *notes: str) -> None:
        """Say which tray it is about: its number in a word, and notes on it, a line each."""
        words = STAGE_WORDS[self.asked.stage] if self.asked else ""
        self.label, self.notes = f"{tray} {words}".strip(), notes
        self.refresh(layout=True)

    def add(self, text: str) -> None:
        """Take what was typed or pasted; it answers the error."""
        self.typed = (self.typed + clean(text))[:LONGEST_TYPED]
        self.error = ""
        self.refresh(layout=True)

    def erase(self) -> None:
        """Take the last sign back."""
        self.typed = self.typed[:-1]
        self.error = ""
        self.refresh(layout=True)

    def refuse(self, text: str) -> None:
        """Show why the weight was not taken; what was typed stands."""
        self.error = text
        self.refresh(layout=True)

    def render(self) -> Content:
        """The entry and the note beneath, or the note alone at rest."""
        note = self._note()
        if self.asked is None:
            return note
        box = self.get_visual_style("weigh-line--box")
        shown = self.typed[-(BOX_CELLS - 2) :]
        label = self.label.ljust(LABEL_CELLS)
        entry = Content.assemble(
            (label, "bold"),
            (f" {shown}", box),
            (" ", self.get_visual_style("weigh-line--cursor")),
            (" " * max(0, BOX_CELLS - 2 - len(shown)), box),
            (f" {self.unit}", self.get_visual_style("weigh-line--muted")),
        )
        return Content("\n").join([entry, note])

    def _note(self) -> Content:
        """The error if there is one, else the notes."""
        if self.error:
            text = plain(f"{ERROR_SIGN} {self.error}")
            return text.stylize(self.get_visual_style("weigh-line--error"))
        return plain_lines(self.notes).stylize(self.get_visual_style("weigh-line--muted"))


def read_hours(typed: str) -> Fraction:
    """Hours of drying: "6", "6.5", "26 h". Raises BadInput."""
    tidy = " ".join(typed.split())
    parts = _HOURS.fullmatch(tidy) if len(tidy) <= LONGEST_HOURS else None
    if parts is None:
        raise unreadable("hours", tidy, "hours such as 6 or 6.5")
    return Fraction(f"{parts[1]}.{parts[2] or 0}")
