"""A refusal is of its class, says what stands in the way in a line, and changes nothing."""

from __future__ import annotations

import ast
import importlib
import re

import pytest

from stockroom.errors import Refused
from tests.services.refusals import REFUSALS
from tests.services.refusals.base import Refusal
from tests.source import ROOT, functions, modules_below
from tests.world import World


@pytest.mark.parametrize("refusal", REFUSALS, ids=lambda one: f"{one.service}-{one.error.__name__}")
def test_a_refusal_says_why_and_changes_nothing(world: World, refusal: Refusal) -> None:
    refusal.prepare(world)
    before = world.whole_dump()
    with pytest.raises(refusal.error) as caught:
        refusal.act(world.room)
    error = caught.value
    assert type(error) is refusal.error
    for fact in refusal.facts:
        assert fact in f"{error.message} {error.hint}", fact
    assert "\n" not in error.message and error.message.endswith(".")
    assert error.hint and "\n" not in error.hint
    assert error.exit_code == (2 if "BadInput" in type(error).__name__ else 3)
    assert not world.room.store.connection.in_transaction
    assert world.whole_dump() == before


def _promised() -> set[tuple[str, str]]:
    """(service, class) for each class a docstring says is raised."""
    found: set[tuple[str, str]] = set()
    for module in modules_below(ROOT / "stockroom", ("services",)):
        for name, function in functions(module.tree):
            if name.startswith("StandardModel."):
                continue  # Another layer's promise, handed on: the keeping model has its own tests.
            text = " ".join((ast.get_docstring(function) or "").split())
            for said in re.findall(r"Raises ([^.;]*)", text):
                for word in re.findall(r"\b[A-Z][a-z]+[A-Za-z]*\b", said):
                    if word not in ("StoreTrouble",):
                        found.add((f"{module.name.removeprefix('services.')}.{name}", word))
    return found


def test_every_promised_refusal_is_tested() -> None:
    tested = {(one.service, above.__name__) for one in REFUSALS for above in one.error.__mro__}
    promised = _promised()
    assert len(promised) > 40
    assert promised - tested == set()


def _own_refusals() -> set[type[Refused]]:
    """The kinds of refusal that services and store define themselves."""
    found: set[type[Refused]] = set()
    for module in modules_below(ROOT / "stockroom", ("services", "store")):
        loaded = importlib.import_module(f"stockroom.{module.name}")
        for one in vars(loaded).values():
            own = isinstance(one, type) and one.__module__ == loaded.__name__
            if own and issubclass(one, Refused):
                found.add(one)
    return found


def test_every_kind_of_refusal_is_tested() -> None:
    assert len(_own_refusals()) > 15
    assert _own_refusals() - {one.error for one in REFUSALS} == set()


def test_no_service_raises_the_bare_class() -> None:
    """Each refusal has a class of its own, so its words live in one place."""
    for module in modules_below(ROOT / "stockroom", ("services", "store")):
        for node in ast.walk(module.tree):
            if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call):
                assert ast.unparse(node.exc.func) not in ("Refused", "StockroomError"), module.name
