"""The demo store, built once in a run and copied for every test that changes it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from seeds_demo.build import DEMO_DAY, WHO, build_demo
from stockroom.clock import FixedClock
from stockroom.services.session import Stockroom, open_stockroom


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The finished demo store, closed."""
    path = tmp_path_factory.mktemp("demo") / "demo.db"
    build_demo(path).close()
    return path


@pytest.fixture
def demo(demo_file: Path, tmp_path: Path) -> Iterator[Stockroom]:
    """The demo opened on its day, to do with as the test likes."""
    path = tmp_path / "demo.db"
    shutil.copyfile(demo_file, path)
    room = open_stockroom(path, clock=FixedClock(DEMO_DAY), actor=WHO)
    yield room
    room.close()
