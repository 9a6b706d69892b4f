"""A best-by at a terminal: how it was reached, what a move would gain, the move and its undo."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from seeds_demo.build import DEMO_DAY, build_demo
from tests.terminal.emulator import DOWN, END, ENTER, ESCAPE, Terminal, installed

SLICES = "26326A01P"
"""Apple slices packed the day before, the first package on the Round."""


@pytest.fixture
def at_slices(tmp_path: Path) -> Iterator[Terminal]:
    """The page of the slices, opened from the Round of the demo; left from there with q."""
    store = tmp_path / "demo.db"
    build_demo(store).close()
    command = [installed(), "--store", str(store), "--today", DEMO_DAY.isoformat()]
    with Terminal(command, home=tmp_path) as terminal:
        terminal.wait_for(SLICES, "Settle check")
        terminal.press(ENTER)
        terminal.wait_for(SLICES, "History", "Best by")
        yield terminal
        terminal.press(ESCAPE)
        terminal.wait_for("Settle check", gone=["History"])
        terminal.press("q")
        assert terminal.wait_for_end() == 0


def test_one_key_shows_how_a_best_by_was_reached(at_slices: Terminal) -> None:
    at_slices.press("w")
    at_slices.wait_for(f"Working: {SLICES}", "1. water removed", "your own record")
    at_slices.press(END)
    at_slices.wait_for(
        "best-by", "2049-10-24", "(engineering judgement)", "Quality estimate, not safety"
    )
    at_slices.press(ESCAPE)
    at_slices.wait_for("History", gone=["Working:"])


def test_what_if_moves_the_package_and_undo_brings_it_back(at_slices: Terminal) -> None:
    at_slices.press("f")
    at_slices.wait_for(f"What if: {SLICES}", "as it is", "quality estimate, not safety")
    at_slices.wait_for("to chest freezer", "+2.1 years", "to boat-shed loft", "-7.4 years")
    at_slices.press(DOWN)
    at_slices.wait_for("Enter moves it there")
    at_slices.press(ENTER)
    at_slices.wait_for(f"Move {SLICES}", "To: chest freezer")
    at_slices.press(ENTER)
    at_slices.wait_for("moved, to chest freezer", "2051-11-24", gone=["What if:"])
    at_slices.press("u")
    at_slices.wait_for("cold cellar/rack 3/bin 1", "2049-10-24", gone=["moved, to"])
