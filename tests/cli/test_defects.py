"""A fault of our own is owned up to in one line, with the details in a log."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from stockroom.cli.faults import write_log
from tests.cli.conftest import Cli

LOG = "xdg_state_home/stockroom/log/stockroom.log"


@pytest.fixture
def broken(cli: Cli, monkeypatch: pytest.MonkeyPatch) -> Cli:
    """A program whose search has a fault."""

    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError("for want of a nail")

    monkeypatch.setattr("stockroom.services.shelves.find_packages", fail)
    return cli


def test_a_defect_is_one_line_and_a_log(broken: Cli, tmp_path: Path) -> None:
    answer = broken("find", code=3)
    log = tmp_path / LOG
    assert answer.out == ""
    assert answer.err == (
        f"This is a fault of stockroom's own, not yours: the details are in {log}.\n"
    )
    text = log.read_text(encoding="utf-8")
    assert "ZeroDivisionError: for want of a nail" in text and "Traceback" in text
    assert stat.S_IMODE(log.stat().st_mode) == 0o600
    broken("find", code=3)
    assert log.read_text(encoding="utf-8").count("ZeroDivisionError: ") == 2


def test_the_log_takes_any_text(tmp_path: Path) -> None:
    path = write_log(ValueError("half a sign: \udce9"))
    assert path == tmp_path / LOG
    assert "half a sign: \\udce9" in path.read_text(encoding="utf-8")


def test_debugging_shows_the_traceback(broken: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("STOCKROOM_DEBUG", "1")
    answer = broken("find", code=3)
    assert "Traceback" in answer.err and "fault of stockroom's own" in answer.err


def test_a_log_that_cannot_be_written_is_said(broken: Cli, tmp_path: Path) -> None:
    (tmp_path / "xdg_state_home").write_text("a file where the folder should be")
    answer = broken("find", code=3)
    assert answer.err.endswith("the details could not be written to a log.\n")


def test_an_interrupt_is_130(cli: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("stockroom.services.shelves.find_packages", interrupt)
    answer = cli("find", code=130)
    assert answer.out == ""
    assert answer.err.strip() == "Interrupted."


def test_a_store_in_use_is_said(stocked: Cli) -> None:
    import sqlite3

    other = sqlite3.connect(stocked.path, isolation_level=None)
    try:
        other.execute("BEGIN IMMEDIATE")
        assert len(stocked("find", "--json").json) == 2
        answer = stocked("undo", code=3)
        assert answer.err.startswith(f"Another program is writing to the store at {stocked.path}.")
    finally:
        other.close()


def test_a_store_that_may_not_be_written_is_said(
    stocked: Cli, monkeypatch: pytest.MonkeyPatch
) -> None:
    if os.geteuid() == 0:
        # The owner of everything may write anywhere, so the file system's answer is given instead.
        import sqlite3

        def refuse(*_: object, **__: object) -> None:
            raise sqlite3.OperationalError("attempt to write a readonly database")

        monkeypatch.setattr("stockroom.store.journal.open_entry", refuse)
    else:
        stocked.path.chmod(0o400)
    answer = stocked("undo", code=3)
    assert f"The store at {stocked.path} could not be written" in answer.err
