"""Console blocks of a page: every command run in order, its answer written below it anew.

A block is fenced as ```console. A line that begins with `$ ` is a command, and one that ends with
a backslash goes on in the next; the lines up to the next command are its answer as a terminal of
`WIDTH` cells shows it, standard output and standard error together. Comments that no reader of the
page sees say what the commands run on:

    <!-- store: none -->        no store yet
    <!-- store: demo -->        the demo store, on its own day
    <!-- day: 2026-11-25 -->    the day from here on
    <!-- file: logger.csv -->   the next block is this file, in the folder the commands run in

A command that is refused has to be followed by `$ echo $?`, so that no fault slips into the page.
"""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import takewhile
from pathlib import Path

import pytest

from seeds_demo.build import DEMO_DAY, build_demo
from stockroom.cli.main import main

WIDTH = 100
STORE = "stockroom.db"
WHO = "mia"

_COMMENT = re.compile(r"<!-- (store|day|file): (\S+) -->")
_OWN_FOLDERS = ("HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME")
_CODE_OF_LAST = "echo $?"


class Terminal(io.StringIO):
    """What a person sees: both streams in the order they were written, wrapped to the width."""

    def isatty(self) -> bool:
        """It is one."""
        return True


@dataclass(slots=True)
class Shell:
    """A folder with a store of its own, and the exit code of the last command."""

    folder: Path
    monkeypatch: pytest.MonkeyPatch
    day: str = ""
    code: int = 0
    stores: int = field(default=0)
    file: str = ""

    def begin(self, kind: str) -> None:
        """A new folder with no store, or with the demo store on its day."""
        assert kind in ("none", "demo"), f"no store is called {kind}"
        self.stores += 1
        place = self.folder / f"{self.stores}-{kind}"
        place.mkdir()
        for name in _OWN_FOLDERS:
            self.monkeypatch.setenv(name, str(place / name.lower()))
        for name in ("STOCKROOM_DEBUG", "_STOCKROOM_COMPLETE"):
            self.monkeypatch.delenv(name, raising=False)
        self.monkeypatch.setenv("COLUMNS", str(WIDTH))
        self.monkeypatch.setenv("TZ", "UTC")
        time.tzset()
        self.monkeypatch.setenv("STOCKROOM_STORE", STORE)
        self.monkeypatch.setenv("STOCKROOM_WHO", WHO)
        self.monkeypatch.chdir(place)
        self.day = ""
        if kind == "demo":
            build_demo(place / STORE).close()
            self.day = DEMO_DAY.isoformat()

    def run(self, line: str) -> list[str]:
        """The lines a command line answers with."""
        if line == _CODE_OF_LAST:
            answer, self.code = [str(self.code)], 0
            return answer
        assert self.code == 0, f"the command before `{line}` ended with {self.code}: show it"
        words = shlex.split(line)
        assert words[0] == "stockroom", f"only stockroom is run: {line}"
        assert self.day, f"no day has been said before `{line}`"
        seen = Terminal()
        with contextlib.redirect_stdout(seen), contextlib.redirect_stderr(seen):
            self.code = main(["--today", self.day, *words[1:]])
        return [one.rstrip() for one in seen.getvalue().splitlines()]


def replayed(page: str, shell: Shell) -> str:
    """The page with every answer as it is now."""
    lines = iter(page.splitlines())
    told = list(_replay(lines, shell))
    assert shell.code == 0, f"the last command ended with {shell.code}: show it"
    return "\n".join(told) + "\n"


def _replay(lines: Iterator[str], shell: Shell) -> Iterator[str]:
    inside = ""
    for line in lines:
        yield line
        if line.startswith("```"):
            inside = "" if inside else line
            if inside == "```console":
                yield from _block(lines, shell)
                inside = ""
            elif inside and shell.file:
                yield from _file(lines, shell)
                inside = ""
        elif not inside and (comment := _COMMENT.fullmatch(line.strip())):
            _obey(shell, comment[1], comment[2])


def _obey(shell: Shell, what: str, value: str) -> None:
    if what == "store":
        shell.begin(value)
    elif what == "file":
        shell.file = value
    else:
        shell.day = value


def _file(lines: Iterator[str], shell: Shell) -> Iterator[str]:
    """One block up to and with its closing fence, written down as the file it was said to be."""
    content = list(takewhile(lambda line: line != "```", lines))
    yield from (*content, "```")
    Path(shell.file).write_text("\n".join(content) + "\n", encoding="utf-8")
    shell.file = ""


def _block(lines: Iterator[str], shell: Shell) -> Iterator[str]:
    """One block up to and with its closing fence; old answers are left out."""
    for line in lines:
        if line == "```":
            yield line
            return
        if not line.startswith("$ "):
            continue
        yield line
        command = line[2:]
        while command.endswith("\\"):
            more = next(lines)
            yield more
            command = command[:-1] + more
        yield from shell.run(command)
    raise AssertionError("a console block is not closed")
