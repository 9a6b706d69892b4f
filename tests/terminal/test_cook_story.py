"""A supper for six at a terminal: its sheet, a package taken whole, the clock, and undo."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from seeds_demo.build import DEMO_DAY, build_demo
from tests.terminal.emulator import ENTER, ESCAPE, Terminal, installed

CURRY = "Night-watch curry"
OPENED, *SEALED = ("26109A04F", "26109A05D", "26109A06B")
LAST = SEALED[-1]


@pytest.fixture
def in_kitchen(tmp_path: Path) -> Iterator[Terminal]:
    """The Kitchen of the demo; left with q."""
    store = tmp_path / "demo.db"
    build_demo(store).close()
    command = [installed(), "--store", str(store), "--today", DEMO_DAY.isoformat()]
    with Terminal(command, home=tmp_path) as terminal:
        terminal.wait_for("Settle check")
        terminal.press("4")
        terminal.wait_for(CURRY, "Serves")
        yield terminal
        terminal.press("q")
        assert terminal.wait_for_end() == 0


def on_shelves(terminal: Terminal, *codes: str, gone: tuple[str, ...] = ()) -> None:
    """Look a lot up on the Shelves: these packages stand there, those do not."""
    terminal.press("2")
    terminal.wait_for("by best-by")
    terminal.press("/")
    terminal.wait_for(" Find ", "F1 Keys")
    terminal.press(OPENED[:6])
    terminal.wait_for(*codes, gone=gone)
    terminal.press(ESCAPE)
    terminal.wait_for("by best-by", gone=[" Find  "])


def test_a_supper_for_six_is_taken_and_put_back(in_kitchen: Terminal) -> None:
    terminal = in_kitchen
    on_shelves(terminal, OPENED, *SEALED)
    terminal.press("4")
    terminal.wait_for(CURRY, "Serves")
    terminal.press("/")
    terminal.wait_for("F1 Keys")
    terminal.press("curry")
    terminal.wait_for(CURRY, gone=["Green soup"])
    terminal.press(ENTER)
    terminal.wait_for(f"Cook {CURRY}", "People")
    terminal.press("6", ENTER)
    sheet = terminal.wait_for("Take from the shelves", "Better taken whole", "Stays open")
    assert all(code in sheet for code in (OPENED, *SEALED))
    terminal.press("f")
    terminal.wait_for("Taken whole", "f takes this back", gone=["Stays open"])
    terminal.press("t")
    terminal.wait_for(f"Take {CURRY} for 6?", "Takes from 3 packages")
    terminal.press(ENTER)
    terminal.wait_for(f"Taken: {CURRY}", "Out of the cold until", "use by the end of Sat 28 Nov")
    terminal.press(ENTER)
    terminal.wait_for(f"cooked {CURRY} for 6", gone=["Out of the cold"])
    on_shelves(terminal, OPENED[:6], gone=(OPENED, *SEALED))
    terminal.press("u")
    terminal.wait_for(f"undid: cooked {CURRY}")
    on_shelves(terminal, OPENED, LAST)
