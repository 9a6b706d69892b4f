"""The command line in process, on a store of the test's own."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from stockroom.cli.main import main
from tests.world import TODAY, World


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command gave back."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Standard output read as JSON."""
        return json.loads(self.out)

    @property
    def lines(self) -> list[str]:
        """Standard output, line by line."""
        return self.out.splitlines()


@dataclass(frozen=True, slots=True)
class Cli:
    """Runs command lines on one store and one day."""

    path: Path
    capsys: pytest.CaptureFixture[str]
    today: str = TODAY.isoformat()

    def __call__(self, *words: str, code: int | None = 0) -> Answer:
        """Run one command line; `code` is the exit code it must have, None for any."""
        self.capsys.readouterr()
        found = main(["--today", self.today, *words])
        said = self.capsys.readouterr()
        answer = Answer(found, said.out, said.err)
        if code is not None:
            assert found == code, f"{words}: {answer}"
        return answer

    def on(self, day: str) -> Cli:
        """The same on another day."""
        return Cli(self.path, self.capsys, day)


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No test reads or writes the person's own folders; nothing is a terminal."""
    for name in ("XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name.lower()))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("STOCKROOM_WHO", "tester")
    for name in ("STOCKROOM_DEBUG", "COLUMNS", "_STOCKROOM_COMPLETE"):
        monkeypatch.delenv(name, raising=False)


@pytest.fixture
def nowhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Cli:
    """The command line where no store is yet."""
    path = tmp_path / "kept" / "stockroom.db"
    monkeypatch.setenv("STOCKROOM_STORE", str(path))
    return Cli(path, capsys)


@pytest.fixture
def cli(world: World, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Cli:
    """The command line on the store of `world`, just started."""
    monkeypatch.setenv("STOCKROOM_STORE", str(world.path))
    return Cli(world.path, capsys)


@pytest.fixture
def stocked(cli: Cli, world: World) -> Cli:
    """A lot of peas in a rack of the cellar: 26329A01E and 26329A02C hold 62 g each."""
    world.places("cellar", "cellar/rack 1", "loft")
    lot_code = world.dry_lot()
    assert lot_code == "26329A"
    codes = world.pack(lot_code, "2xpouch-1500-foil:62,absorber=300", place="rack 1")
    assert codes == ("26329A01E", "26329A02C")
    return cli
