"""How a figure was reached, step by step, with the source and standing of every constant."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.working import Given, Source, Step, Working
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain

OWN_READING = "your own record"


class WorkingScreen(BaseModal[None]):
    """One or more workings, from the inputs to the result."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,w", "leave", "Close", id="working-leave", tooltip="Close the window."),
        Binding("n", "step(1)", "Next step", id="working-next", tooltip="Go to the next step."),
        Binding("p", "step(-1)", "Step before", id="working-before", tooltip="Go a step back."),
        Binding(
            "t",
            "title",
            "Next result",
            id="working-title",
            tooltip="Go to the next title.",
        ),
    ]
    DEFAULT_CSS = """
    WorkingScreen {
        & > .box { width: 100; height: 100%; }
        & > .box > .inside { height: 1fr; padding: 0 1 0 2; }
        .short { margin-bottom: 1; }
        .title { color: $primary; text-style: bold underline; margin-bottom: 1; }
        .title.-later { margin: 1 0; }
        .step { text-style: bold; }
        .formula, .figures, .input, .source { margin-left: 2; }
        .input, .source { color: $foreground-muted; }
        .result { margin-left: 2; color: $success; text-style: bold; }
        .gap { height: 1; }
        .caution { margin-bottom: 1; }
    }
    """

    def __init__(self, heading: str, workings: Sequence[Working]) -> None:
        super().__init__(heading)
        self.workings = tuple(workings)

    def compose_inside(self) -> ComposeResult:
        """What is concluded; then each working under its title: steps, then cautions."""
        for working in self.workings:
            if (concluded := conclusion(working)) is not None:
                yield Static(plain(concluded), classes="short")
        for place, working in enumerate(self.workings):
            yield Static(plain(working.title), classes="title -later" if place else "title")
            cited: dict[Source, int] = {}
            for number, step in enumerate(working.steps, start=1):
                for look, text in step_lines(number, step, cited):
                    yield Static(plain(text), classes=look)
                yield Static(classes="gap")
            for text in working.cautions:
                yield Static(plain(f"! {text}"), classes="caution")

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()

    def action_step(self, way: int) -> None:
        """Put the next step, or the one before, at the top."""
        self._go_to(".step", way)

    def action_title(self) -> None:
        """Put the next title at the top; from the last one, the first."""
        self._go_to(".title", 1)

    def _go_to(self, selector: str, way: int) -> None:
        """Scroll to the next place of a kind above or below the top; round at the end."""
        inside = self.query_one(".inside", VerticalScroll)
        places = [int(one.virtual_region.y) for one in inside.query(selector)]
        top = int(inside.scroll_target_y)
        below = [place for place in places if place > top]
        above = [place for place in places if place < top]
        # At the very end nothing can be brought to the top any more.
        if way > 0 and (not below or top >= inside.max_scroll_y):
            below = places
        chosen = below[0] if way > 0 else max(above, default=0)
        inside.scroll_to(y=chosen, animate=False, force=True)


def conclusion(working: Working) -> str | None:
    """What a working concludes, with its title; None where it concludes nothing."""
    return f"{working.title}: {working.conclusion}" if working.conclusion else None


def step_lines(number: int, step: Step, cited: dict[Source, int]) -> Iterator[tuple[str, str]]:
    """A step as lines, each with the name of its look.

    A source is written out where it is first met and called by its number after that; `cited`
    carries the numbers from step to step.
    """
    yield "step", f"{number}. {step.title}"
    if step.formula:
        yield "formula", f"= {step.formula}"
        yield "figures", f"= {step.figures}"
    yield "result", f"= {step.result}"
    for given in step.inputs:
        yield "input", f"{given.name}: {given.value_text} ({_standing(given)})"
    again = [f"[{cited[source]}]" for source in step.sources if source in cited]
    for source in step.sources:
        if source not in cited:
            cited[source] = len(cited) + 1
            yield "source", f"Source [{cited[source]}]: {source.words}"
    if again:
        yield "source", f"Source {' '.join(again)}, as above"


def _standing(given: Given) -> str:
    standing = given.stands_as
    return OWN_READING if standing is None else standing.words
