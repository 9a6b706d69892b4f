"""Every service function that writes, found by reading the services' own source.

A public function writes when it reaches `acting` or `create_store`, itself or through the
functions of its module. A new one without a case in `CASES` or a step in the undo tests fails.
"""

from __future__ import annotations

import ast
import importlib
from collections.abc import Callable
from typing import Any

from tests.source import ROOT, Module, modules_below

BEGINNINGS = frozenset({"acting", "create_store"})


def writing_services() -> dict[str, Callable[..., Any]]:
    """Module.function → the function."""
    found: dict[str, Callable[..., Any]] = {}
    for module in modules_below(ROOT / "stockroom", ("services",)):
        short = module.name.removeprefix("services.")
        loaded = importlib.import_module(f"stockroom.{module.name}")
        for name in sorted(_writers(module)):
            if not name.startswith("_") and short != "acting":
                found[f"{short}.{name}"] = getattr(loaded, name)
    return found


def _writers(module: Module) -> set[str]:
    """Top-level functions that reach a beginning, by following calls inside the module."""
    calls = {
        node.name: {
            called.func.id
            for called in ast.walk(node)
            if isinstance(called, ast.Call) and isinstance(called.func, ast.Name)
        }
        for node in module.tree.body
        if isinstance(node, ast.FunctionDef)
    }
    writers = {name for name, called in calls.items() if called & BEGINNINGS}
    while True:
        more = {name for name, called in calls.items() if called & writers} - writers
        if not more:
            return writers
        writers |= more
