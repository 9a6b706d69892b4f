"""Backing up, restoring and the doctor by commands: what is said, asked and answered."""

from __future__ import annotations

import shlex
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from stockroom.cli import asking
from stockroom.store.copies import look_into
from tests.cli.conftest import Cli
from tests.dumps import whole_dump
from tests.services.planting import plant
from tests.source import ROOT
from tests.world import World


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Answers a person gives on a terminal, in order; fill the list."""
    given: list[str] = []
    monkeypatch.setattr(asking, "on_a_terminal", lambda: True)
    monkeypatch.setattr("click.termui.visible_prompt_func", lambda _: given.pop(0))
    return given


@pytest.fixture
def left(stocked: Cli, world: World, tmp_path: Path) -> Cli:
    """A store with a backup copy.db, a note later; the test itself has left the store."""
    stocked("backup", "--out", str(tmp_path / "copy.db"))
    stocked("note", "26329A01", "later")
    world.room.close()
    return stocked


class TestBackup:
    """`stockroom backup`."""

    def test_it_says_where_and_what(self, stocked: Cli) -> None:
        answer = stocked("backup")
        (path,) = (stocked.path.parent / "backups").iterdir()
        assert answer.lines[0] == f"Backed up to {path}; the copy was opened and is sound."
        assert "packages            2, 2 of them not gone" in answer.lines
        assert answer.err == ""
        assert whole_dump(path) == whole_dump(stocked.path)

    def test_json_has_the_record_s_own_numbers(self, stocked: Cli) -> None:
        found = stocked("backup", "--json").json
        assert Path(found["path"]).stat().st_size == found["size_bytes"]
        assert (found["packages"], found["packages_live"], found["lots"]) == (2, 2, 1)
        assert found["last_on"] == stocked.today and found["removed"] == []
        removed = [stocked("backup", "--keep", "1", "--json").json["removed"] for _ in range(2)]
        assert removed[0] == [found["path"]] and len(removed[1]) == 1

    def test_one_of_two_options(self, stocked: Cli) -> None:
        answer = stocked("backup", "--out", "copy.db", "--keep", "3", code=2)
        assert "Say --out or --keep, not both." in answer.err
        stocked("backup", "--keep", "0", code=2)

    def test_no_store_and_a_file_in_the_way(self, nowhere: Cli, tmp_path: Path) -> None:
        assert "There is no store at" in nowhere("backup", code=3).err
        nowhere("init", "--units", "metric", "--people", "2")
        taken = tmp_path / "letters.txt"
        taken.write_text("Dear reader")
        answer = nowhere("backup", "--out", str(taken), code=3)
        assert "a backup never replaces one" in answer.err
        assert taken.read_text() == "Dear reader"


class TestRestore:
    """`stockroom restore`."""

    def test_what_changes_is_shown_and_asked(
        self, left: Cli, answers: list[str], tmp_path: Path
    ) -> None:
        answers += ["perhaps", "yes"]
        answer = left("restore", str(tmp_path / "copy.db"))
        assert answers == []
        assert "answer: “perhaps” cannot be read." in answer.err
        shown = " ".join(answer.err.split())
        assert "what now after the restore" in shown
        assert "Done since and not in the copy: 1 action." in shown
        (kept,) = tmp_path.glob("stockroom-replaced-*.db")
        assert f"The store that was there is kept as {kept}." in answer.lines
        assert left("show", "26329A01", "--json").json["note"] == ""

    def test_no_is_an_answer(self, left: Cli, answers: list[str], tmp_path: Path) -> None:
        before = whole_dump(left.path)
        answers += ["no"]
        answer = left("restore", str(tmp_path / "copy.db"), code=1)
        assert answer.out == "" and answer.err.endswith("Nothing was changed.\n")
        assert whole_dump(left.path) == before
        assert list(tmp_path.glob("*replaced*")) == []

    def test_without_a_terminal_it_has_to_be_said(self, left: Cli, tmp_path: Path) -> None:
        before = whole_dump(left.path)
        answer = left("restore", str(tmp_path / "copy.db"), code=2)
        assert answer.out == "" and "--yes" in answer.err
        assert whole_dump(left.path) == before

    def test_json_is_one_answer(self, left: Cli, tmp_path: Path) -> None:
        found = left("restore", str(tmp_path / "copy.db"), "--yes", "--json").json
        assert (found["entries_lost"], found["entries_regained"]) == (1, 0)
        assert look_into(Path(found["kept"]))[0].entries == found["entries"] + 1

    def test_a_missing_store_comes_back(self, left: Cli, tmp_path: Path) -> None:
        left.path.unlink()
        answer = left("restore", str(tmp_path / "copy.db"), "--yes")
        assert "There is no store there now." in answer.out and answer.err == ""
        assert "kept" not in answer.out
        assert len(left("find", "--json").json) == 2

    def test_another_program_is_in_the_way(self, stocked: Cli, tmp_path: Path) -> None:
        """The test itself has the store open."""
        stocked("backup", "--out", str(tmp_path / "copy.db"))
        answer = stocked("restore", str(tmp_path / "copy.db"), "--yes", code=3)
        assert "Another program has the store" in answer.err and answer.out == ""

    def test_no_file_and_no_store(self, stocked: Cli, tmp_path: Path) -> None:
        assert "There is no file" in stocked("restore", "none.db", "--yes", code=3).err
        letter = tmp_path / "letter.db"
        letter.write_text("Dear reader")
        assert "no store at all" in stocked("restore", str(letter), "--yes", code=3).err


class TestDoctor:
    """`stockroom doctor`."""

    def test_a_sound_store(self, stocked: Cli) -> None:
        answer = stocked("doctor")
        assert answer.out == "Nothing found: the file is whole and the record adds up.\n"
        assert stocked("doctor", "--json").json == {"findings": [], "left_out": []}
        said = stocked("doctor", "--mend").lines
        assert said[0] == "There was nothing that could be put right by itself."

    @pytest.mark.parametrize(
        ("severity", "code"), [("note", 1), ("warning", 1), ("fault", 0), (None, 1)]
    )
    def test_the_code_says_whether_it_is_grave(
        self, stocked: Cli, severity: str | None, code: int
    ) -> None:
        plant(stocked.path, "DELETE FROM projection WHERE package_id = 1")
        asked = () if severity is None else ("--severity", severity)
        answer = stocked("doctor", *asked, code=code)
        assert "Warning: best-by dates" in answer.lines
        assert "Missing for: 26329A01E." in answer.lines
        assert answer.lines[-1] == "Found 1 warning. 1 can be put right with --mend."

    def test_text_and_json_agree(self, stocked: Cli) -> None:
        plant(
            stocked.path,
            "UPDATE package SET taken_dg = 7 WHERE id = 2",
            "DROP TRIGGER lot_tracks_update",
        )
        found = stocked("doctor", "--json", code=1).json
        text = stocked("doctor", code=1).out
        assert [one["severity"] for one in found["findings"]] == ["fault", "fault"]
        assert all(one["message"] in text and one["remedy"] in text for one in found["findings"])
        assert found["left_out"][0] in text

    def test_mending_says_what_it_did_and_what_is_left(self, stocked: Cli) -> None:
        plant(
            stocked.path,
            "UPDATE package SET taken_dg = 7 WHERE id = 2",
            "DROP TRIGGER lot_tracks_update",
        )
        answer = stocked("doctor", "--mend", code=1)
        assert "Put right" in answer.lines and "Left for you:" in answer.lines
        assert "Fault: 26329A02C" in answer.lines
        (backup,) = (stocked.path.parent / "backups").iterdir()
        assert str(backup) in answer.out
        found = stocked("doctor", "--json", code=1).json["findings"]
        assert [one["subject"] for one in found] == ["26329A02C"]

    @pytest.mark.parametrize("key", ["units", "people", "cup"])
    def test_what_it_says_to_do_about_a_setting_helps(self, stocked: Cli, key: str) -> None:
        plant(
            stocked.path,
            f"INSERT INTO setting (key, value) VALUES ('{key}', '?')"
            " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        )
        (finding,) = stocked("doctor", "--json", code=1).json["findings"]
        command = finding["remedy"].removeprefix("Set it again: ").rstrip(".")
        assert command.startswith("stockroom household")
        stocked(*shlex.split(command)[1:])
        stocked("doctor")

    def test_what_it_says_to_do_about_a_damaged_file_helps(
        self, stocked: Cli, world: World
    ) -> None:
        stocked("backup")
        world.room.close()
        stocked.path.write_bytes(b"spoilt " * 2000)
        (finding,) = stocked("doctor", "--json", code=1).json["findings"]
        command = finding["remedy"].partition(": ")[2].rstrip(".")
        stocked(*shlex.split(command)[1:], "--yes")
        stocked("doctor")
        assert len(stocked("find", "--json").json) == 2

    def test_no_store_is_trouble_and_no_finding(self, nowhere: Cli) -> None:
        assert "There is no store" in nowhere("doctor", code=3).err

    def test_a_store_of_an_earlier_schema_is_brought_to_today_and_sound(
        self, cli: Cli, tmp_path: Path
    ) -> None:
        script = (ROOT / "tests/store/releases/0003_rechecks.sql").read_text(encoding="utf-8")
        path = tmp_path / "old.db"
        with closing(sqlite3.connect(path)) as connection:
            connection.executescript(script)
        cli("--store", str(path), "find")
        cli("--store", str(path), "doctor", "--severity", "fault")
