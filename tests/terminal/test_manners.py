"""How the program behaves on a terminal: it says what to do, stops when asked, and tidies up."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from seeds_demo.build import DEMO_DAY, build_demo
from tests.terminal.emulator import CTRL_C, ENTER, Terminal, installed, run


@pytest.fixture(scope="module")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo store; the tests here change nothing in it."""
    path = tmp_path_factory.mktemp("demo") / "demo.db"
    build_demo(path).close()
    return path


@pytest.fixture
def on_demo(demo_file: Path) -> tuple[str, ...]:
    """The command that opens the screens on the demo store, on its day."""
    return (installed(), "--store", str(demo_file), "--today", DEMO_DAY.isoformat())


def colours(terminal: Terminal) -> Iterator[str]:
    """The colour of each letter and each ground: a name, "default" or six hexadecimal digits."""
    for line in range(terminal.screen.lines):
        for column in range(terminal.screen.columns):
            cell = terminal.screen.buffer[line][column]
            yield cell.fg
            yield cell.bg


def is_grey(colour: str) -> bool:
    """Whether a colour is none: black, white or as much of red as of green and blue."""
    if len(colour) == 6:
        return colour[:2] == colour[2:4] == colour[4:]
    return colour in ("default", "black", "white", "brightblack", "brightwhite")


@pytest.mark.parametrize("words", [(), ("round",), ("find",)])
def test_without_a_store_it_says_what_to_do(words: tuple[str, ...], tmp_path: Path) -> None:
    with Terminal([installed(), *words], home=tmp_path) as terminal:
        assert terminal.wait_for_end() == 3
        assert "There is no store at" in terminal.text
        assert "stockroom init" in terminal.text
        assert "stockroom demo" in terminal.text
    assert list(tmp_path.iterdir()) == [], "looking made nothing"


def test_ctrl_c_at_a_question_stops_with_130(tmp_path: Path) -> None:
    with Terminal([installed(), "init"], home=tmp_path) as terminal:
        terminal.wait_for("Units")
        assert terminal.interrupt() == 130
        assert "Traceback" not in terminal.text
        assert terminal.settings_now == terminal.settings_before
    assert not list(tmp_path.rglob("*.db"))


def test_answer_that_cannot_be_read_is_asked_again(tmp_path: Path) -> None:
    with Terminal([installed(), "init"], home=tmp_path) as terminal:
        terminal.wait_for("Units")
        terminal.press("stone", ENTER)
        terminal.wait_for("metric or us.")
        terminal.press("us", ENTER)
        terminal.wait_for("How many people")
        terminal.press("none", ENTER)
        terminal.wait_for("a whole number")
        terminal.press("3", ENTER)
        assert terminal.wait_for_end() == 0
    shown = run("household", home=tmp_path)
    assert "us" in shown.stdout and "3" in shown.stdout


def test_terminal_is_as_before_after_leaving(on_demo: tuple[str, ...], tmp_path: Path) -> None:
    with Terminal(on_demo, home=tmp_path) as terminal:
        terminal.wait_for("Round", "Settle check")
        assert terminal.settings_now != terminal.settings_before, "the screens take over the keys"
        assert terminal.reports_on
        terminal.press("q")
        assert terminal.wait_for_end() == 0
        assert terminal.settings_now == terminal.settings_before
        assert terminal.text.strip() == "", "the screens leave nothing behind"
        assert not terminal.screen.cursor.hidden
        assert not terminal.reports_on


def test_ctrl_c_in_the_screens_says_how_to_leave(on_demo: tuple[str, ...], tmp_path: Path) -> None:
    with Terminal(on_demo, home=tmp_path) as terminal:
        terminal.wait_for("Settle check")
        terminal.press(CTRL_C)
        terminal.wait_for("Press q on a main screen to leave")
        terminal.press("q")
        assert terminal.wait_for_end() == 0


def test_colours_only_where_wanted(on_demo: tuple[str, ...], tmp_path: Path) -> None:
    with Terminal(on_demo, home=tmp_path) as terminal:
        terminal.wait_for("Settle check", "soft: decide")
        assert not all(is_grey(colour) for colour in colours(terminal))
    with Terminal(on_demo, home=tmp_path, NO_COLOR="1") as terminal:
        terminal.wait_for("Settle check", "soft: decide", "due today")
        assert all(is_grey(colour) for colour in colours(terminal))


@pytest.mark.parametrize(("columns", "lines"), [(80, 24), (60, 20), (120, 40)])
def test_demo_opens_on_the_round(columns: int, lines: int, tmp_path: Path) -> None:
    with Terminal([installed(), "demo"], home=tmp_path, columns=columns, lines=lines) as terminal:
        # A narrow title bar has room for the screens' names only.
        day = () if columns < 70 else ("25 Nov 2026",)
        terminal.wait_for("Round", "Settle check", "26326A01P", *day)
        terminal.press("q")
        assert terminal.wait_for_end() == 0
