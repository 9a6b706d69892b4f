"""The terminal of these tests is one: keys arrive, text is placed, an end is seen."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.terminal import emulator
from tests.terminal.emulator import ENTER, NotSeen, Terminal


def python(code: str, home: Path) -> Terminal:
    """A small program on a terminal."""
    return Terminal([sys.executable, "-c", code], home=home)


def test_keys_go_in_and_the_screen_comes_out(tmp_path: Path) -> None:
    with python("print('Hello', input('Who? '))", tmp_path) as terminal:
        terminal.wait_for("Who?")
        terminal.press("the cook", ENTER)
        assert terminal.wait_for_end() == 0
        assert "Who? the cook\nHello the cook" in terminal.text


def test_text_is_where_the_program_put_it(tmp_path: Path) -> None:
    with python(r"print('\x1b[2J\x1b[5;11Hhere')", tmp_path) as terminal:
        terminal.wait_for_end()
        assert terminal.text.splitlines()[4] == " " * 10 + "here"


def test_ctrl_c_reaches_the_program(tmp_path: Path) -> None:
    code = "try: input('ready ')\nexcept KeyboardInterrupt: raise SystemExit(7)"
    with python(code, tmp_path) as terminal:
        terminal.wait_for("ready")
        assert terminal.interrupt() == 7


def test_size_and_home_are_what_was_asked(tmp_path: Path) -> None:
    code = "import os, pathlib; print(os.get_terminal_size(), pathlib.Path.home())"
    with Terminal([sys.executable, "-c", code], home=tmp_path, columns=60, lines=20) as terminal:
        terminal.wait_for_end()
        assert "columns=60, lines=20" in terminal.text
        assert str(tmp_path) in terminal.text.replace("\n", "")


def test_settings_left_changed_are_seen(tmp_path: Path) -> None:
    code = "import termios, tty; tty.setraw(0)"
    with python(code, tmp_path) as terminal:
        terminal.wait_for_end()
        assert terminal.settings_now != terminal.settings_before


def test_waiting_in_vain_shows_the_screen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(emulator, "PATIENCE_S", 0.3)
    with python("input('only this')", tmp_path) as terminal:
        with pytest.raises(NotSeen, match="only this"):
            terminal.wait_for("never")
        with pytest.raises(NotSeen, match="did not end"):
            terminal.wait_for_end()


def test_program_that_ends_early_is_noticed(tmp_path: Path) -> None:
    with (
        python("print('bye')", tmp_path) as terminal,
        pytest.raises(NotSeen, match="has ended"),
    ):
        terminal.wait_for("never")


def test_second_page_leaves_the_first_as_it_was(tmp_path: Path) -> None:
    code = r"print('before'); print('\x1b[?1049h\x1b[Hfull screen', end='\x1b[?1049l\x1b[<u')"
    with python(code + "; print('after')", tmp_path) as terminal:
        terminal.wait_for_end()
        assert terminal.text.rstrip() == "before\nafter"
