"""What a person's hands do at the terminal in more than one story."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.terminal.emulator import ENTER, UP, Terminal, installed, run


@contextmanager
def screens(home: Path, day: str) -> Iterator[Terminal]:
    """The screens on a day; left with q when the block is done."""
    with Terminal([installed(), "--today", day], home=home) as terminal:
        terminal.wait_for("Round", "Kitchen")
        yield terminal
        terminal.press("q")
        assert terminal.wait_for_end() == 0


def said(*words: str, home: Path, day: str) -> str:
    """What a command prints on a day; it must succeed."""
    done = run("--today", day, *words, home=home)
    assert done.returncode == 0, done.stderr
    return done.stdout


def choose(terminal: Terminal, letters: str, choice: str, listed: str = "Close list") -> None:
    """Type letters until the choice is listed, and take it; `listed` stands beside an open list."""
    terminal.press(letters)
    terminal.wait_for(choice, listed)
    terminal.press(ENTER)
    terminal.wait_for(choice, gone=[listed])


def weigh_dry(terminal: Terminal, *weights: tuple[str, str]) -> None:
    """The trays of a run from the first one on: digits and Enter, and what stands there then."""
    for tray, (typed, shown) in enumerate(weights, start=1):
        terminal.press(typed)
        terminal.wait_for(f"Tray {tray} dry")
        terminal.press(ENTER)
        terminal.wait_for(shown, gone=[f"Tray {tray} dry"])
    terminal.press(*[UP] * len(weights))


def feel_and_break(terminal: Terminal, trays: int, *, found: str) -> None:
    """No cold spot on any tray, and a piece of each snaps: one key for each tray."""
    for key, shown in (("i", "none"), ("b", "snaps")):
        for _ in range(trays):
            terminal.press(key)
        terminal.wait_until(
            lambda screen, shown=shown: screen.count(f"  {shown}") >= trays, f"{trays} × {shown}"
        )
        terminal.press(*[UP] * trays)
    terminal.wait_for(found)
