"""Whatever is typed, the answer is a sentence and a code, never a traceback."""

from __future__ import annotations

import shlex
import string
from pathlib import Path

import click
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.cli.base import ANYWHERE
from stockroom.cli.options import Choices
from tests.cli.conftest import Cli
from tests.cli.tree import arguments, commands, own_options

EVERY = [words for words, _ in commands() if words != ("demo",)]
"""The demo is left out: each try would build it."""


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nonsense may be the name of a file to write: that goes into the test's own folder."""
    folder = tmp_path / "here" / "below"
    folder.mkdir(parents=True)
    monkeypatch.chdir(folder)


def is_plain_trouble(cli: Cli, *words: str) -> None:
    """The line ends with a known code; trouble is one clean sentence or two beside no answer."""
    answer = cli(*words, code=None)
    assert answer.code in (0, 1, 2, 3), answer
    assert "Traceback" not in answer.err and "fault of stockroom's own" not in answer.err, answer
    assert all(line.isprintable() for line in answer.err.splitlines()), answer
    if answer.code > 1:
        assert answer.err.strip()
        assert answer.out == ""


@pytest.mark.parametrize("words", EVERY, ids=" ".join)
def test_an_option_that_is_none_is_named(stocked: Cli, words: tuple[str, ...]) -> None:
    answer = stocked(*words, "--bananas", code=2)
    assert answer.err.startswith("No such option") and "--bananas" in answer.err.splitlines()[0]
    assert answer.err.splitlines()[1] == (
        f"Type `stockroom {' '.join(words)} --help` to see how it goes."
    )


NEEDY = [words for words, command in commands() if any(one.required for one in arguments(command))]


@pytest.mark.parametrize("words", NEEDY, ids=" ".join)
def test_a_missing_word_is_named(stocked: Cli, words: tuple[str, ...]) -> None:
    answer = stocked(*words, code=2)
    assert answer.err.startswith("Missing argument") or "--into" in answer.err


@pytest.mark.parametrize("words", EVERY, ids=" ".join)
def test_a_word_too_many_is_refused(stocked: Cli, words: tuple[str, ...]) -> None:
    command = dict(commands())[words]
    if any(one.nargs == -1 for one in arguments(command)):
        return
    typed = [_readable(one) for one in arguments(command)]
    answer = stocked(*words, *typed, "1", code=2)
    said = ("unexpected extra argument", "Missing option", "has no command “1”")
    assert any(one in answer.err for one in said)


def _readable(argument: click.Argument) -> str:
    """Something that can be read in this place."""
    return str(next(iter(argument.type.load()))) if isinstance(argument.type, Choices) else "1"


NONSENSE = (
    "",
    " ",
    "\x1b[31mred\x1b[0m",
    "[/]",
    "\u202eevil",
    "冷凍" * 400,
    "-",
    "--",
    "0",
    "-1",
    "1e9",
    "nan",
    "٣",
    "'; DROP TABLE package; --",
    "%",
    "a\nb",
    "a\0b",
    "../../etc/passwd",
)


@pytest.mark.parametrize("words", EVERY, ids=" ".join)
def test_nonsense_in_any_place_is_refused_in_a_sentence(
    stocked: Cli, words: tuple[str, ...]
) -> None:
    command = dict(commands())[words]
    for nonsense in NONSENSE:
        is_plain_trouble(stocked, *words, "--", *([nonsense] * max(len(arguments(command)), 1)))
        for option in own_options(command):
            if not option.is_flag:
                is_plain_trouble(stocked, *words, f"{option.opts[0]}={nonsense}")


def test_bytes_that_are_no_text_are_refused(stocked: Cli) -> None:
    half = "caf\udce9"
    for line in (("find", half), ("note", "26329A01", half), (half,), ("--who", half, "undo")):
        answer = stocked(*line, code=2)
        assert "cannot be read." in answer.err and "Type it again in UTF-8." in answer.err


def test_half_a_character_in_the_environment_is_refused(
    stocked: Cli, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STOCKROOM_WHO", "caf\udce9")
    assert stocked("undo", code=2).err.startswith("name: ")


def test_a_very_long_word_is_shortened(stocked: Cli) -> None:
    answer = stocked("find", "--place", "x" * 20_000, code=3)
    assert len(answer.err) < 2_000 and "…" in answer.err


def test_a_misspelt_command_is_guessed(stocked: Cli) -> None:
    assert "Did you mean discard?" in stocked("discrad", code=2).err
    assert "Did you mean list?" in stocked("place", "lsit", code=2).err
    assert stocked("zzzz", code=2).err.splitlines()[0] == "stockroom has no command “zzzz”."


def test_a_misspelt_code_is_guessed(stocked: Cli) -> None:
    assert "Nearest: 26329A01E" in stocked("show", "26329A01B", code=3).err
    assert "Nearest: 26329A" in stocked("show", "26329B", code=3).err


WORDS = sorted(
    {word for words, _ in commands() for word in words}
    | {option.opts[0] for _, command in commands() for option in own_options(command)}
    | {option.opts[0] for option in ANYWHERE if option.opts[0] not in ("--store", "--help")}
    | {"26329A01", "26329A", "26329A02C", "peas", "cellar", "rack 1", "1", "62", "crisp", "soft"}
    | set(shlex.split("1xjar-475:rest 2025-02-30 2026-11-26 metric us +1 -- - = '' [x]"))
)


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=150, deadline=None
)
@given(st.lists(st.sampled_from(WORDS) | st.text(string.printable, max_size=8), max_size=7))
def test_any_line_of_words_is_answered(stocked: Cli, line: list[str]) -> None:
    if "demo" not in line:
        is_plain_trouble(stocked, *line)
