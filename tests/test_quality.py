"""The tree as a whole: lint, format, types, what the wheel carries, and nothing left lying about.

The patterns of what must not stand in a file are written with character classes and joined
pieces, so that this file does not hold them itself.
"""

from __future__ import annotations

import re
import subprocess
import sys
import zipfile
from collections.abc import Iterator, Sequence
from fnmatch import fnmatch
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGES = ("stockroom", "seeds_demo")
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", *PACKAGES, "tests", "docs"}
"""What may stand at the top beside hidden files."""

TRACES = re.compile(
    "|".join(
        (
            r"/t[m]p/",
            r"/r[o]ot/",
            r"/w[o]rk/",
            r"py[p]i[.]org",
            r"python[h]osted",
            r"/o[p]t/",
            r"np[m]js",
            r"registr[y][.](?:np[m]|yar[n])",
            r"crate[s][.]io",
            r"proxy[.]gola[n]g",
            r"trans[c]ript",
            r"seed doc[u]ment",
            r"hel[p]er-[0-9]",
            r"sub[a]gent",
            r"before-s[t]op",
            r"\bC[E]O\b",
            r"iss[u]e #?[0-9]+",
            r"cl[a]ude",
            r"as an a[i]\b",
        )
    ),
    re.IGNORECASE,
)
"""Paths of one machine, hosts of package registries, and words about how the work was done."""


def ignored_names() -> tuple[str, ...]:
    """Names of files and folders that are no part of the project."""
    lines = (ROOT / ".gitignore").read_text(encoding="utf-8").splitlines()
    return (".git", *(line.strip().rstrip("/") for line in lines if line.strip()))


def project_files(root: Path = ROOT) -> Iterator[Path]:
    """Every file of the project, without what is ignored."""
    ignored = ignored_names()
    for path in sorted(root.iterdir()):
        if any(fnmatch(path.name, pattern) for pattern in ignored):
            continue
        if path.is_dir():
            yield from project_files(path)
        else:
            yield path


def traces(path: Path) -> list[str]:
    """Lines of a text file that hold what must not stand there; other files have none."""
    try:
        lines = path.read_text(encoding="utf-8").splitlines()
    except UnicodeDecodeError:
        return []
    return [
        f"{path.name}:{number}: {line.strip()[:100]}"
        for number, line in enumerate(lines, start=1)
        if TRACES.search(line)
    ]


def complaints(*command: str) -> str:
    """What a checker says about the tree; empty when it is content."""
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    return "" if done.returncode == 0 else f"{done.stdout}\n{done.stderr}"


def missing_in(wheel: Sequence[str], files: Sequence[str]) -> list[str]:
    """Files of the packages that a wheel does not carry."""
    return sorted(set(files) - set(wheel))


@pytest.mark.parametrize(
    "command",
    [
        ("ruff", "check", "--no-cache", "."),
        ("ruff", "format", "--no-cache", "--check", "."),
        ("basedpyright", "--pythonpath", sys.executable),
    ],
    ids=["lint", "format", "types"],
)
def test_the_tree_is_in_order(command: tuple[str, ...]) -> None:
    said = complaints(*command)
    assert not said, said


def test_the_wheel_carries_every_file_of_the_packages(tmp_path: Path) -> None:
    said = complaints("hatchling", "build", "-t", "wheel", "-d", str(tmp_path))
    assert not said, said
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        carried = [name for name in archive.namelist() if ".dist-info/" not in name]
    files = [
        path.relative_to(ROOT).as_posix()
        for name in PACKAGES
        for path in project_files(ROOT / name)
    ]
    assert missing_in(carried, files) == []
    assert missing_in(files, carried) == []
    data = {Path(name).suffix for name in files}
    assert {".csv", ".sql", ".tcss", ".toml"} <= data


def test_a_file_left_out_of_the_wheel_is_found() -> None:
    assert missing_in(["stockroom/a.py"], ["stockroom/a.py", "stockroom/b.csv"]) == [
        "stockroom/b.csv"
    ]


def test_the_top_level_holds_only_what_was_agreed() -> None:
    names = {path.relative_to(ROOT).parts[0] for path in project_files()}
    assert {name for name in names if not name.startswith(".")} - TOP_LEVEL == set()
    assert names >= TOP_LEVEL


def test_no_file_holds_traces_of_a_machine_or_of_the_work() -> None:
    assert [line for path in project_files() for line in traces(path)] == []


@pytest.mark.parametrize(
    "line",
    [
        "see /tm" + "p/notes.txt",
        "/roo" + "t/.cache",
        "cd /wor" + "k/main",
        "https://pyp" + "i.org/project",
        "https://registr" + "y.npm" + "js.org",
        "the Transc" + "ript says",
        "as iss" + "ue #12 asks",
        "the C" + "EO wants",
    ],
)
def test_a_trace_is_found(line: str, tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text(f"first\n{line}\n", encoding="utf-8")
    assert traces(page) == [f"page.md:2: {line}"]


def test_ordinary_words_are_no_traces(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    words = "crusta" + "ceous; a matter of taste; as an aim; rooted, worked\n"
    page.write_text(words, encoding="utf-8")
    assert traces(page) == []


def test_binary_files_have_no_lines(tmp_path: Path) -> None:
    picture = tmp_path / "picture.bin"
    picture.write_bytes(b"\xff\xfe/tm" + b"p/\x00")
    assert traces(picture) == []
