"""Starting a program in a terminal of its own, timed until a word stands on the screen."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
from time import perf_counter

COLUMNS, LINES = 80, 24
LONGEST_WAIT_SECONDS = 30.0


class NeverPainted(RuntimeError):
    """The program ended, or the time was up, before the word was there."""

    def __init__(self, word: bytes, seen: bytes) -> None:
        super().__init__(f"{word!r} was never painted; last seen: {seen[-300:]!r}")


def painted_ms(code: str, word: bytes, *arguments: str) -> float:
    """Milliseconds from starting Python on `code` until `word` reaches the terminal."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
    began = perf_counter()
    program = subprocess.Popen(
        [sys.executable, "-c", code, *arguments],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        start_new_session=True,
        env={**os.environ, "TERM": "xterm-256color"},
    )
    os.close(theirs)
    try:
        _wait_for(word, ours)
        return (perf_counter() - began) * 1000
    finally:
        program.kill()
        program.wait()
        os.close(ours)


def _wait_for(word: bytes, terminal: int) -> None:
    """Read what the program writes until the word is in it. Raises NeverPainted."""
    seen = b""
    while word not in seen:
        ready, _, _ = select.select([terminal], [], [], LONGEST_WAIT_SECONDS)
        if not ready:
            raise NeverPainted(word, seen)
        try:
            seen += os.read(terminal, 65_536)
        except OSError as error:  # the program has ended
            raise NeverPainted(word, seen) from error
