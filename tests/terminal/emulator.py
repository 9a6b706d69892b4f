"""A person at a terminal: the installed program on a real pseudo-terminal, driven by keys alone.

What the program writes goes through a terminal emulator, so a test reads the screen a person
would see. Nothing here sleeps for a fixed time: `wait_for` reads until the text is there.
"""

from __future__ import annotations

import fcntl
import os
import select
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from copy import copy, deepcopy
from pathlib import Path
from types import TracebackType
from typing import Self

import pyte

PATIENCE_S = 60.0
"""How long a screen may take to show what is waited for on a busy machine."""

SECOND_PAGE = 1049
"""The mode in which a full-screen program draws on a page of its own."""
REPORTS = (1000, 1002, 1003, 1004, 1006, 1015, 2004)
"""Modes in which a terminal sends more than keys: the mouse, coming into view, pasted text."""
_KEYS_AS_USUAL = b"\x1b[<u"
"""The end of a keyboard report that the emulator does not know and would print."""

ENTER, ESCAPE, UP, DOWN, END = "\r", "\x1b", "\x1b[A", "\x1b[B", "\x1b[F"
CTRL_C, TAB, F9 = "\x03", "\t", "\x1b[20~"

# A new session has no terminal until it asks for one; the request cannot be made from outside.
# Ctrl-C works as at a keyboard even where the tests were started with it switched off.
_TAKE_TERMINAL = """
import fcntl, os, signal, sys, termios
fcntl.ioctl(0, termios.TIOCSCTTY, 0)
signal.signal(signal.SIGINT, signal.SIG_DFL)
os.execv(sys.argv[1], sys.argv[1:])
"""


class NotSeen(AssertionError):
    """What was waited for did not appear; the message holds the screen as it was."""


class _Screen(pyte.Screen):
    """A screen with a second page, as real terminals have: full-screen programs leave no trace."""

    def set_mode(self, *modes: int, **kind: bool) -> None:
        """Switch something on; the second page starts empty."""
        if kind.get("private") and SECOND_PAGE in modes:
            self.first_page = deepcopy(self.buffer), copy(self.cursor)
            self.erase_in_display(2)
        super().set_mode(*modes, **kind)

    def reset_mode(self, *modes: int, **kind: bool) -> None:
        """Switch something off; the first page comes back as it was."""
        if kind.get("private") and SECOND_PAGE in modes:
            self.buffer, self.cursor = self.first_page
        super().reset_mode(*modes, **kind)


class Terminal:
    """One program on one terminal of 80 by 24, or another size."""

    def __init__(
        self,
        command: Sequence[str],
        *,
        home: Path,
        columns: int = 80,
        lines: int = 24,
        **environment: str,
    ) -> None:
        """Start `command`; `home` is all it finds of a person's folders."""
        self.screen = _Screen(columns, lines)
        self._stream = pyte.ByteStream(self.screen)
        self._held = b""
        self._ours, theirs = os.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        self.settings_before = termios.tcgetattr(theirs)
        self._process = subprocess.Popen(
            [sys.executable, "-c", _TAKE_TERMINAL, *command],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            start_new_session=True,
            close_fds=True,
            cwd=home,
            env=surroundings(home) | environment,
        )
        # Kept open: the terminal's settings can be read after the program has gone.
        self._theirs = theirs

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    @property
    def text(self) -> str:
        """The screen as it stands, without the blanks at the ends of its lines."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    @property
    def settings_now(self) -> list[object]:
        """The terminal's settings: echo, line editing and the rest."""
        return termios.tcgetattr(self._theirs)

    @property
    def reports_on(self) -> set[int]:
        """Reports of mouse, focus and pasting that a shell would print as rubbish."""
        return {mode for mode in REPORTS if mode << 5 in self.screen.mode}

    def press(self, *keys: str) -> None:
        """Send keys as they are; a word is its letters."""
        for key in keys:
            os.write(self._ours, key.encode())

    def wait_for(self, *texts: str, gone: Sequence[str] = ()) -> str:
        """Read until the screen holds every text and none of `gone`; the screen then."""
        return self.wait_until(
            lambda screen: (
                all(one in screen for one in texts) and not any(one in screen for one in gone)
            ),
            f"{texts!r}" + (f" without {gone!r}" if gone else ""),
        )

    def wait_until(self, right: Callable[[str], bool], what: str) -> str:
        """Read until the screen is right; raises NotSeen when the program ends or time is up."""
        end = time.monotonic() + PATIENCE_S
        while not right(self.text):
            if not self._read(end):
                state = "has ended" if self._process.poll() is not None else "goes on"
                raise NotSeen(f"waited for {what}; the program {state} with\n{self.text}")
        return self.text

    def wait_for_end(self) -> int:
        """Read until the program has ended; its exit code."""
        end = time.monotonic() + PATIENCE_S
        while self._process.poll() is None:
            if not self._read(end, pause=0.05) and time.monotonic() >= end:
                raise NotSeen(f"the program did not end, its screen is\n{self.text}")
        while self._read(time.monotonic(), pause=0):
            pass
        return self._process.returncode

    def interrupt(self) -> int:
        """Press Ctrl-C until the program has ended, as a person would; its exit code.

        One pressed in the instant between a question and the reading of its answer is not heard
        until the next key.
        """
        end = time.monotonic() + PATIENCE_S
        while self._process.poll() is None and time.monotonic() < end:
            self.press(CTRL_C)
            pause = time.monotonic() + 1
            while self._process.poll() is None and time.monotonic() < pause:
                self._read(pause, pause=0.05)
        return self.wait_for_end()

    def close(self) -> None:
        """End the program if it still runs, and let the terminal go."""
        if self._process.poll() is None:
            self._process.kill()
        self._process.wait()
        for end in (self._ours, self._theirs):
            with suppress(OSError):
                os.close(end)

    def _read(self, end: float, *, pause: float | None = None) -> bool:
        """Take in what the program wrote; False when there was nothing until `end` or `pause`."""
        wait = max(0.0, end - time.monotonic()) if pause is None else pause
        # Woken twice a second, so that a program that died quietly is noticed.
        step = min(wait, 0.5)
        while True:
            ready, _, _ = select.select([self._ours], [], [], step)
            if ready:
                self._show(os.read(self._ours, 65536))
                return True
            wait -= step
            if wait <= 0 or self._process.poll() is not None:
                return False

    def _show(self, data: bytes) -> None:
        """Put bytes on the screen; an end that may belong to `_KEYS_AS_USUAL` waits for more."""
        data = (self._held + data).replace(_KEYS_AS_USUAL, b"")
        kept = max(n for n in range(len(_KEYS_AS_USUAL)) if data.endswith(_KEYS_AS_USUAL[:n]))
        cut = len(data) - kept
        self._held = data[cut:]
        self._stream.feed(data[:cut])


def surroundings(home: Path) -> dict[str, str]:
    """The environment of a person with nothing but this home."""
    assert home.is_absolute(), "a relative home would be looked up elsewhere"
    return {
        "HOME": str(home),
        "XDG_DATA_HOME": str(home / "data"),
        "XDG_CACHE_HOME": str(home / "cache"),
        "XDG_CONFIG_HOME": str(home / "config"),
        "XDG_STATE_HOME": str(home / "state"),
        "PATH": os.environ.get("PATH", os.defpath),
        "TERM": "xterm-256color",
        "LANG": "C.UTF-8",
        "LC_ALL": "C.UTF-8",
        "STOCKROOM_WHO": "tester",
    }


def installed() -> str:
    """The program as it is installed beside this Python."""
    return str(Path(sys.executable).with_name("stockroom"))


def run(*words: str, home: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """The installed program without a terminal, as a script would run it."""
    return subprocess.run(
        [installed(), *words],
        capture_output=True,
        text=True,
        timeout=60,
        stdin=subprocess.DEVNULL,
        cwd=home,
        env=surroundings(home) | environment,
        check=False,
    )
