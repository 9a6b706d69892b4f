"""The keys of the Round."""

from __future__ import annotations

from textual.binding import Binding

from stockroom.tui.screens.findings import decide_binding, finding_bindings, walk_binding
from stockroom.tui.screens.package_actions import (
    common_binding,
    package_binding,
    trace_binding,
)
from stockroom.tui.screens.working_key import working_binding

BINDINGS: tuple[Binding, ...] = (
    *finding_bindings(show=True),
    package_binding(
        "x",
        "take",
        "Take",
        "Take food out of the package; from other parts of the page, of the next to use.",
        show=True,
    ),
    decide_binding(
        "What becomes of the package in doubt; from other parts, of the one found at fault.",
        show=True,
    ),
    walk_binding("Go along a place, or along today's list, package by package.", show=True),
    package_binding("D", "discard", "Discard", "Throw the package away.", show=False),
    package_binding("m", "move", "Move", "Put the package in another place.", show=False),
    package_binding("n", "note", "Note", "Write a note on the package.", show=False),
    trace_binding("Where the package comes from, and what shares its past.", show=False),
    common_binding(show=False),
    working_binding(
        "round", "Why it is to be looked at, or how its figures were reached.", show=False
    ),
    Binding(
        "e",
        "next_to_use",
        "Next to use",
        show=False,
        id="round-next-to-use",
        tooltip="Go to the package to use next.",
    ),
)
