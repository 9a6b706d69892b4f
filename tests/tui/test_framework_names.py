"""No private name of a widget or screen of ours covers one the framework keeps for itself."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import textwrap
from collections.abc import Iterator

from textual.dom import DOMNode

import stockroom.tui


def classes() -> Iterator[type[DOMNode]]:
    """Every widget, screen and app class of ours."""
    for module in pkgutil.walk_packages(stockroom.tui.__path__, "stockroom.tui."):
        for found in vars(importlib.import_module(module.name)).values():
            if not inspect.isclass(found) or found.__module__ != module.name:
                continue
            if issubclass(found, DOMNode):
                yield found


def private_names(owner: type) -> set[str]:
    """The private names a class defines or gives to `self`, by its source."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(owner)))
    given = {
        node.attr
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Store)
    }
    names = given | set(vars(owner))
    return {name for name in names if name.startswith("_") and not name.startswith("__")}


MEANT = {("StockroomApp", "_fatal_error")}
"""Private names of the framework that are replaced on purpose: a defect is reported by us."""


def test_no_private_name_is_taken_twice() -> None:
    bookkeeping = {"_abc_impl", "_css_type_name", "_css_type_names", "_decorated_handlers"}
    bookkeeping |= {"_inherit_css", "_inherit_bindings", "_inherit_component_classes"}
    bookkeeping |= {"_merged_bindings", "_reactives", "_computes", "_is_protocol"}
    taken = [
        (owner.__name__, base.__name__, name)
        for owner in classes()
        for base in owner.__mro__[1:]
        if base.__module__.startswith("textual")
        for name in private_names(owner) & private_names(base) - bookkeeping
        if (owner.__name__, name) not in MEANT
    ]
    assert taken == []


def test_the_test_looks_at_something() -> None:
    assert {"WindowTable", "KeyLine", "FormScreen"} <= {found.__name__ for found in classes()}
