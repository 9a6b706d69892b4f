"""Stores for tests: each kind is built once in a run and copied for every test that wants one."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from stockroom.store.connection import Store, create_store

if TYPE_CHECKING:
    from stockroom.services.session import Stockroom
    from tests.world import World


# The same examples in every run, so that a change is judged by itself and not by the draw of the
# day. `--hypothesis-profile=default` draws anew and finds more.
settings.register_profile("same", derandomize=True, deadline=None)
settings.load_profile("same")

WORKERS_A_CORE = 3


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """With `-n auto`: a test of a screen waits two thirds of its time for the screen to be idle."""
    return WORKERS_A_CORE * (os.cpu_count() or 1)


@pytest.fixture(scope="session")
def empty_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with today's schema and nothing in it."""
    path = tmp_path_factory.mktemp("template") / "empty.db"
    create_store(path, durable=False).close()
    return path


@pytest.fixture
def store(empty_template: Path, tmp_path: Path) -> Iterator[Store]:
    """An empty store of the test's own."""
    path = tmp_path / "stockroom.db"
    shutil.copyfile(empty_template, path)
    opened = Store(path, durable=False)
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def room_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A stockroom just started: settings and containers."""
    from tests.world import new_world

    world = new_world(tmp_path_factory.mktemp("template") / "room.db")
    world.room.close()
    return world.path


@pytest.fixture
def world(room_template: Path, tmp_path: Path) -> Iterator[World]:
    """A stockroom just started, with short ways to fill it."""
    from tests.world import copied_world

    made = copied_world(room_template, tmp_path / "stockroom.db")
    yield made
    made.room.close()


@pytest.fixture
def room(world: World) -> Stockroom:
    """The same stockroom as `world`, for tests that need no more."""
    return world.room


@pytest.fixture(scope="session")
def season_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A stockroom with a past: rows in every table, things done, undone and redone."""
    from tests.season import lived_in

    world = lived_in(tmp_path_factory.mktemp("template") / "season.db")
    world.room.close()
    return world.path
