"""The end of a check walk: what was found, which sisters are in doubt now, what to decide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.records import Package
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain_lines
from stockroom.tui.screens.findings import FINDING_KEYS, decide_binding
from stockroom.tui.screens.walk_list import Walk
from stockroom.tui.words import counted, place_words


@dataclass(frozen=True, slots=True)
class AfterWalk:
    """What is wanted once a walk is over: nothing more, a decision, or another walk."""

    decide: Package | None = None
    look_at: tuple[Package, ...] = ()


class WalkEnd(BaseModal[AfterWalk]):
    """Sums a walk up; closes with what is wanted next, or None to go on with the walk."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "done", "Done", id="walk-done", tooltip="Leave the walk."),
        decide_binding("What becomes of the first package found at fault.", show=True),
        Binding(
            "k",
            "look_at",
            "Sisters",
            id="walk-sisters",
            tooltip="Look at the sisters that are in doubt now, one after the other.",
        ),
        Binding("escape", "leave", "Back", id="walk-back", tooltip="Back to the walk."),
    ]
    DEFAULT_CSS = """
    WalkEnd {
        .counts { text-style: bold; }
        .rest { color: $foreground-muted; margin-top: 1; }
        .doubt { color: $warning; margin-top: 1; }
        .decide { color: $error; margin-top: 1; }
        .inside { padding: 1 1 1 2; }
    }
    """

    def __init__(self, walk: Walk, doubted: Sequence[Package]) -> None:
        """`doubted` are the sisters made doubtful and not looked at since."""
        super().__init__(f"Walk: {walk.name}")
        self.walk = walk
        self.doubted = tuple(doubted)

    def compose_inside(self) -> ComposeResult:
        """How many of each, what was passed by, the sisters, what to decide."""
        walk = self.walk
        done, of = len(walk.found), len(walk.packages)
        yield Static(plain_lines((f"Looked at {done} of {counted(of, 'package')}.",)))
        yield Static(plain_lines((counts_words(walk),)), classes="counts")
        if walk.to_decide:
            lines = [_line(step.package, step.finding) for step in walk.to_decide]
            yield Static(plain_lines(("To decide (v begins):", *lines)), classes="decide")
        if self.doubted:
            said = f"{counted(len(self.doubted), 'sister')} in doubt now (k looks at them):"
            lines = [_line(one, place_words(one)) for one in self.doubted]
            yield Static(plain_lines((said, *lines)), classes="doubt")
        if walk.to_decide or self.doubted:
            yield Static("The Round lists them at the top until it is done.", classes="rest")

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Only what there is something for."""
        if action == "decide":
            return bool(self.walk.to_decide)
        if action == "look_at":
            return bool(self.doubted)
        return super().check_action(action, parameters)

    def action_done(self) -> None:
        """Leave the walk."""
        self.dismiss(AfterWalk())

    def action_decide(self) -> None:
        """Leave it for the first decision."""
        self.dismiss(AfterWalk(decide=self.walk.to_decide[0].package))

    def action_look_at(self) -> None:
        """Leave it for a walk along the sisters."""
        self.dismiss(AfterWalk(look_at=self.doubted))


def counts_words(walk: Walk) -> str:
    """How many were found so: "20 crisp · 2 soft"."""
    counts = walk.counts()
    return " · ".join(
        f"{counts[finding]} {finding}" for _, finding, _, _ in FINDING_KEYS if counts[finding]
    )


def _line(package: Package, about: object) -> str:
    return f"  {package.code}  {package.food} · {about}"
