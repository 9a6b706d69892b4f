"""No dump of a screen stays on file when no test compares it any more."""

from __future__ import annotations

import ast
import re
from pathlib import Path

from tests.tui.screen_text import SNAPSHOTS

_SIZED = re.compile(r"(?P<name>.+)-\d+x\d+\.txt")


def literals(source: str) -> set[str]:
    """Every string that stands in a piece of source."""
    constants = (node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Constant))
    return {node.value for node in constants if isinstance(node.value, str)}


def orphans(files: list[str], known: set[str]) -> list[str]:
    """The files whose name, without its size, no test speaks of."""
    named = {file: _SIZED.fullmatch(file) for file in files}
    return sorted(file for file, match in named.items() if not match or match["name"] not in known)


def test_every_dump_is_compared_by_a_test() -> None:
    known: set[str] = set()
    for module in Path(__file__).parent.glob("test_*.py"):
        known |= literals(module.read_text(encoding="utf-8"))
    assert orphans([path.name for path in SNAPSHOTS.iterdir()], known) == []


def test_a_dump_nobody_compares_is_found() -> None:
    files = ["bench-80x24.txt", "gone-60x20.txt", "odd.txt"]
    assert orphans(files, {"bench"}) == ["gone-60x20.txt", "odd.txt"]
