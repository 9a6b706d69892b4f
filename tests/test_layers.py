"""Who may import what: one table, and every import of every module held against it."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.source import ROOT, Module, modules_below

IMPURE = frozenset(
    {"sqlite3", "os", "pathlib", "io", "random", "time", "subprocess", "socket", "threading"}
)


@dataclass(frozen=True, slots=True)
class Layer:
    """What the modules of one part may import.

    `ours` are modules or packages of this program, `theirs` modules of others, each with
    everything below it; `never` is what of the standard library may not be imported.
    """

    ours: tuple[str, ...] = ()
    theirs: tuple[str, ...] = ()
    never: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Inside:
    """An import the table does not have, allowed inside a function only, with the reason."""

    part: str
    imported: str
    reason: str


NO_SQLITE = frozenset({"sqlite3"})

TABLE: dict[str, Layer] = {
    "stockroom": Layer(),
    "errors": Layer(),
    "clock": Layer(),
    "config": Layer(("stockroom.errors",), ("platformdirs",)),
    "domain": Layer(("stockroom.domain", "stockroom.errors"), ("dateutil.relativedelta",), IMPURE),
    "reference": Layer(("stockroom.reference", "stockroom.domain", "stockroom.errors")),
    "store": Layer(("stockroom.store", "stockroom.domain", "stockroom.errors"), ("sqlite_utils",)),
    "services": Layer(
        (
            "stockroom.services",
            "stockroom.domain",
            "stockroom.reference",
            "stockroom.store",
            "stockroom.errors",
            "stockroom.clock",
            "stockroom.config",
        ),
        never=NO_SQLITE,
    ),
    "reports": Layer(
        (
            "stockroom.reports",
            "stockroom.domain",
            "stockroom.services.results",
            "stockroom.errors",
        ),
        never=NO_SQLITE,
    ),
    "cli": Layer(
        (
            "stockroom.cli",
            "stockroom.services",
            "stockroom.reports",
            "stockroom.domain",
            "stockroom.errors",
            "stockroom.clock",
            "stockroom.config",
            "stockroom.__version__",
        ),
        ("click",),
        NO_SQLITE,
    ),
    "tui": Layer(
        (
            "stockroom.tui",
            "stockroom.services",
            "stockroom.reports",
            "stockroom.domain",
            "stockroom.errors",
            "stockroom.clock",
            "stockroom.config",
            "stockroom.__version__",
        ),
        ("textual", "textual_plotext", "rich.text"),
        NO_SQLITE,
    ),
    "seeds_demo": Layer(
        ("seeds_demo", "stockroom.services", "stockroom.domain", "stockroom.clock"),
        never=NO_SQLITE,
    ),
    "__main__": Layer(("stockroom.cli",)),
}

LAZY = (
    Inside("services", "highspy", "the solver, when a menu is planned"),
    Inside("services", "numpy", "the solver takes its arrays so; it comes with the solver"),
    Inside("cli", "stockroom.tui", "the function that starts the screens"),
    Inside("cli", "seeds_demo", "the demo command builds its store"),
    Inside("reports", "icalendar", "the calendar's file, and nothing else"),
    Inside("reports", "fpdf", "the labels' file"),
    Inside("reports", "segno", "the code symbol on a label"),
    Inside("reports", "fontTools", "which letters a font has"),
)


@dataclass(frozen=True, slots=True)
class Import:
    """One imported name: where it stands, what it reaches, and whether a function does it."""

    module: Module
    line: int
    target: str
    name: str
    in_function: bool

    @property
    def full(self) -> str:
        """The target with the name taken from it."""
        return f"{self.target}.{self.name}" if self.name else self.target


def imports_of(module: Module) -> Iterator[Import]:
    """Every import, those inside functions and under TYPE_CHECKING too."""
    yield from _imports(module, module.tree, in_function=False)


def _imports(module: Module, tree: ast.AST, *, in_function: bool) -> Iterator[Import]:
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield Import(module, node.lineno, alias.name, "", in_function)
        elif isinstance(node, ast.ImportFrom):
            base = _absolute(module, node)
            for alias in node.names:
                yield Import(module, node.lineno, base, alias.name, in_function)
        within = in_function or isinstance(
            node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda
        )
        yield from _imports(module, node, in_function=within)


def _absolute(module: Module, node: ast.ImportFrom) -> str:
    if not node.level:
        return node.module or ""
    own = module.name.split(".")
    package = own if module.path.name == "__init__.py" else own[:-1]
    above = package[: len(package) - (node.level - 1)]
    return ".".join([*above, node.module] if node.module else above)


def _below(name: str, allowed: tuple[str, ...]) -> bool:
    return any(name == one or name.startswith(one + ".") for one in allowed)


def _is_ours(name: str) -> bool:
    return name.split(".")[0] in ("stockroom", "seeds_demo", "tests")


def _allowed(one: Import, layer: Layer) -> bool:
    top = one.target.split(".")[0]
    if _is_ours(one.target):
        return _below(one.target, layer.ours) or _below(one.full, layer.ours)
    if top in sys.stdlib_module_names:
        return top not in layer.never
    return _below(one.target, layer.theirs) or _below(one.full, layer.theirs)


def _lazily(one: Import) -> bool:
    return one.in_function and any(
        one.module.part == lazy.part and _below(one.full, (lazy.imported,)) for lazy in LAZY
    )


def wrong_imports(modules: list[Module]) -> list[str]:
    """Every import the table does not allow, as "module:line imports what"."""
    return [
        f"{module.name}:{one.line} imports {one.full}"
        for module in modules
        for one in imports_of(module)
        if not _allowed(one, TABLE[module.part]) and not _lazily(one)
    ]


def private_uses(modules: list[Module]) -> list[str]:
    """Every private name of another part that is imported, or reached through its module."""
    found: list[str] = []
    for module in modules:
        others: dict[str, str] = {}
        for one in imports_of(module):
            if not _is_ours(one.target) or _part(one.full) == module.part:
                continue
            others[one.name or one.target] = one.full
            if any(_is_private(word) for word in one.full.split(".")):
                found.append(f"{module.name}:{one.line} imports {one.full}")
        found += [
            f"{module.name}:{node.lineno} uses {others[node.value.id]}.{node.attr}"
            for node in ast.walk(module.tree)
            if isinstance(node, ast.Attribute)
            and isinstance(node.value, ast.Name)
            and node.value.id in others
            and _is_private(node.attr)
        ]
    return found


def hidden_imports(modules: list[Module]) -> list[str]:
    """Imports by a call, which no table can see."""
    return [
        f"{module.name}:{node.lineno} calls {ast.unparse(node.func)}"
        for module in modules
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).split(".")[-1] in ("import_module", "__import__")
    ]


def _part(name: str) -> str:
    words = name.split(".")
    return words[1] if words[0] == "stockroom" and len(words) > 1 else words[0]


def _is_private(word: str) -> bool:
    return word.startswith("_") and not word.startswith("__")


MODULES = modules_below(ROOT)


def test_every_module_is_in_the_table() -> None:
    assert {module.part for module in MODULES} <= set(TABLE)
    assert {module.part for module in MODULES} >= {"domain", "store", "services", "cli", "tui"}


def test_every_import_is_in_the_table() -> None:
    assert wrong_imports(MODULES) == []


def test_no_part_reaches_for_the_private_names_of_another() -> None:
    assert private_uses(MODULES) == []


def test_nothing_is_imported_by_a_call() -> None:
    assert hidden_imports(MODULES) == []


@pytest.mark.parametrize("lazy", LAZY, ids=lambda lazy: lazy.imported)
def test_an_exception_to_the_table_is_used_once(lazy: Inside) -> None:
    """One that is not needed any more has to go; two functions would not be the one named."""
    users = {
        (one.module.name, one.line)
        for module in MODULES
        if module.part == lazy.part
        for one in imports_of(module)
        if one.in_function and _below(one.full, (lazy.imported,))
    }
    assert len({name for name, _ in users}) == 1, lazy.reason


# The test tests itself: each planted module must be found.

PLANTED = (
    ("stockroom/domain/bad.py", "import sqlite3"),
    ("stockroom/domain/bad.py", "from os import path"),
    ("stockroom/domain/bad.py", "def f():\n    import random"),
    ("stockroom/domain/bad.py", "import dateutil.parser"),
    ("stockroom/domain/bad.py", "from stockroom.store.connection import Store"),
    ("stockroom/domain/bad.py", "from ..store import connection"),
    ("stockroom/errors.py", "from stockroom.domain import codes"),
    ("stockroom/reference/bad.py", "import click"),
    ("stockroom/store/bad.py", "from stockroom import services"),
    ("stockroom/store/bad.py", "import stockroom.reference.foods"),
    ("stockroom/services/bad.py", "import sqlite3"),
    ("stockroom/services/bad.py", "def f():\n    if True:\n        import sqlite_utils"),
    (
        "stockroom/services/bad.py",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import rich",
    ),
    ("stockroom/reports/bad.py", "from stockroom.services import bench"),
    ("stockroom/reports/bad.py", "from stockroom.services.bench import Done"),
    ("stockroom/cli/bad.py", "from stockroom.store import journal"),
    ("stockroom/cli/bad.py", "import textual"),
    ("stockroom/cli/bad.py", "from stockroom.tui import app"),
    ("stockroom/cli/bad.py", "def f():\n    from rich.text import Text"),
    ("stockroom/tui/bad.py", "from rich.console import Console"),
    ("stockroom/tui/bad.py", "def f():\n    from stockroom.cli import main"),
    ("stockroom/clock.py", "import stockroom.errors"),
    ("stockroom/config.py", "import tests.world"),
    ("seeds_demo/bad.py", "from stockroom.store.connection import Store"),
)

FINE = (
    ("stockroom/domain/good.py", "from dateutil.relativedelta import relativedelta\nimport re"),
    ("stockroom/domain/good.py", "from stockroom.domain.keeping import interface"),
    ("stockroom/reports/good.py", "from stockroom.services import results"),
    ("stockroom/tui/good.py", "from rich.text import Text\nfrom textual.app import App"),
    ("stockroom/cli/good.py", "def f():\n    from stockroom.tui.app import App"),
    ("stockroom/cli/good.py", "from stockroom import __version__\nimport click"),
    ("seeds_demo/good.py", "from stockroom.services import bench\nfrom . import weather"),
)

PRIVATE = (
    ("stockroom/services/bad.py", "from stockroom.store.rows import _escaped"),
    ("stockroom/services/bad.py", "from stockroom.store import rows\nx = rows._escaped('a')"),
    ("stockroom/tui/bad.py", "from stockroom.services._hidden import thing"),
)


def _plant(root: Path, path: str, text: str) -> list[Module]:
    where = root / path
    where.parent.mkdir(parents=True, exist_ok=True)
    where.write_text(text + "\n", encoding="utf-8")
    return modules_below(root)


@pytest.mark.parametrize(("path", "text"), PLANTED)
def test_a_planted_import_is_found(tmp_path: Path, path: str, text: str) -> None:
    (wrong,) = wrong_imports(_plant(tmp_path, path, text))
    assert wrong.startswith(path.removesuffix(".py").replace("/", ".") + ":")


@pytest.mark.parametrize(("path", "text"), FINE)
def test_a_lawful_import_is_let_be(tmp_path: Path, path: str, text: str) -> None:
    modules = _plant(tmp_path, path, text)
    assert wrong_imports(modules) == []
    assert private_uses(modules) == []


@pytest.mark.parametrize(("path", "text"), PRIVATE)
def test_a_planted_private_name_is_found(tmp_path: Path, path: str, text: str) -> None:
    assert len(private_uses(_plant(tmp_path, path, text))) == 1


@pytest.mark.parametrize(
    "text", ["import importlib\nimportlib.import_module('x')", "__import__('sqlite3')"]
)
def test_a_planted_hidden_import_is_found(tmp_path: Path, text: str) -> None:
    assert len(hidden_imports(_plant(tmp_path, "stockroom/domain/bad.py", text))) == 1
