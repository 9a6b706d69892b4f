"""The way from the command to the screens."""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from stockroom.cli import asking
from stockroom.services.session import Stockroom
from tests.cli.conftest import Cli


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Path, str, str]]:
    """What the screens were opened on: store, day and person; they answer with 7."""
    seen: list[tuple[Path, str, str]] = []

    def run_app(room: Stockroom) -> int:
        seen.append((room.path, room.today.isoformat(), room.actor))
        return 7

    app: Any = ModuleType("stockroom.tui.start")
    app.run_app = run_app
    monkeypatch.setitem(sys.modules, "stockroom.tui.start", app)
    monkeypatch.setattr(asking, "screens_possible", lambda: True)
    return seen


def test_without_a_command_the_screens_open(
    stocked: Cli, shown: list[tuple[Path, str, str]]
) -> None:
    stocked("--who", "mia", code=7)
    assert shown == [(stocked.path, "2026-11-25", "mia")]


def test_without_a_store_they_do_not(nowhere: Cli, shown: list[tuple[Path, str, str]]) -> None:
    assert nowhere(code=3).err.startswith("There is no store at")
    assert shown == []


def test_a_command_opens_no_screen(stocked: Cli, shown: list[tuple[Path, str, str]]) -> None:
    stocked("find")
    stocked("calc", "code", "26329A")
    assert shown == []


def test_the_demo_opens_them_on_its_own_store_and_day(
    stocked: Cli, shown: list[tuple[Path, str, str]], tmp_path: Path
) -> None:
    at = tmp_path / "look" / "demo.db"
    stocked("--today", "2026-11-30", "--who", "mia", "demo", "--at", str(at), code=7)
    assert shown == [(at, "2026-11-30", "mia")]
    before = at.read_bytes()
    assert (
        stocked("demo", "--at", str(at), code=3)
        .err.splitlines()[-2]
        .startswith(f"There is already a store at {at}; it was left as it is.")
    )
    assert at.read_bytes() == before


def test_the_demo_never_takes_the_place_of_a_store_that_was_named(
    stocked: Cli, shown: list[tuple[Path, str, str]]
) -> None:
    before = stocked("journal", "--json").out
    stocked("--store", str(stocked.path), "demo", code=3)
    stocked("demo", "--at", str(stocked.path), code=3)
    assert stocked("journal", "--json").out == before
    assert shown == []
