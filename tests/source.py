"""The program's own source as parsed modules, for tests that look at how it is written."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PACKAGES = ("stockroom", "seeds_demo")

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True, slots=True)
class Module:
    """One module: its dotted name, its file and its tree."""

    name: str
    path: Path
    tree: ast.Module

    @property
    def lines(self) -> int:
        """How many lines the file has."""
        return len(self.path.read_text(encoding="utf-8").splitlines())

    @property
    def part(self) -> str:
        """The layer it belongs to: the package below stockroom, or the top-level name."""
        words = self.name.split(".")
        if words[0] != "stockroom":
            return words[0]
        return words[1] if len(words) > 1 else "stockroom"


def modules_below(root: Path, packages: tuple[str, ...] = PACKAGES) -> list[Module]:
    """Every module of the packages, by name."""
    return [
        Module(_name(root, path), path, ast.parse(path.read_text(encoding="utf-8")))
        for package in packages
        for path in sorted((root / package).rglob("*.py"))
    ]


def functions(tree: ast.AST, inside: str = "") -> Iterator[tuple[str, Function]]:
    """Every function with its qualified name, those inside others too."""
    for node in ast.iter_child_nodes(tree):
        name = inside
        if isinstance(node, ast.ClassDef):
            name = f"{inside}{node.name}."
        elif isinstance(node, Function):
            yield inside + node.name, node
            name = f"{inside}{node.name}."
        yield from functions(node, name)


def body_lines(function: Function) -> int:
    """Lines of a function's body without its docstring; a body of nothing else counts none."""
    body = function.body
    if ast.get_docstring(function, clean=False) is not None:
        body = body[1:]
    if not body:
        return 0
    # The text of a first statement may begin at its decorators.
    first = min([body[0].lineno, *(one.lineno for one in getattr(body[0], "decorator_list", []))])
    return (body[-1].end_lineno or first) - first + 1


def _name(root: Path, path: Path) -> str:
    words = path.relative_to(root).with_suffix("").parts
    return ".".join(words[:-1] if words[-1] == "__init__" else words)
