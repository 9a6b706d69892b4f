"""The calendar by its command: into a file, onto standard output, and not over anything else."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
import vobject
from icalendar import Calendar

from tests.cli.conftest import Cli


def read(content: bytes) -> dict[str, tuple[int, str, str]]:
    """UID → SEQUENCE, STATUS and SUMMARY, as read by a library that had no part in writing."""
    calendar = vobject.readOne(content.decode())
    return {
        one.uid.value: (int(one.sequence.value), one.status.value, one.summary.value)
        for one in calendar.vevent_list
    }


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where the calendar goes."""
    return tmp_path / "due.ics"


def test_a_second_file_updates_the_first_instead_of_doubling_it(stocked: Cli, file: Path) -> None:
    said = stocked("calendar", "--out", str(file))
    first = read(file.read_bytes())
    assert said.out == (
        f"Wrote {len(first)} entries up to 2027-02-23 to {file}: {len(first)} new.\n"
    )
    assert said.err == ""
    (uid,) = (one for one in first if one.startswith("settle-20261126@"))
    assert first[uid] == (0, "CONFIRMED", "Settle check of 2 packages")
    before = file.read_bytes()
    again = stocked("calendar", "--out", str(file))
    assert "nothing has changed since the last file" in again.out
    assert file.read_bytes() == before
    stocked("discard", "26329A01", "--why", "torn")
    assert "1 changed" in stocked("calendar", "--out", str(file)).out
    second = read(file.read_bytes())
    assert second[uid] == (1, "CONFIRMED", "Settle check of 1 package")
    assert second.keys() == first.keys()
    stocked("discard", "26329A02", "--why", "torn")
    assert "1 taken back" in stocked("calendar", "--out", str(file)).out
    assert read(file.read_bytes())[uid][:2] == (2, "CANCELLED")


def test_the_day_and_the_number_of_days_are_respected(stocked: Cli, file: Path) -> None:
    answer = stocked.on("2026-12-01")("calendar", "--out", str(file), "--days", "40", "--json")
    assert answer.err == ""
    assert (answer.json["from"], answer.json["until"]) == ("2026-12-01", "2027-01-10")
    assert answer.json["file"] == str(file)
    assert answer.json["entries"] == answer.json["new"] == len(read(file.read_bytes()))
    days = [one.dtstart.value for one in vobject.readOne(file.read_text()).vevent_list]
    assert min(days).isoformat() == "2026-12-01" and max(days).isoformat() <= "2027-01-10"


def test_alarms_are_for_those_who_ask(stocked: Cli, file: Path) -> None:
    stocked("calendar", "--out", str(file))
    assert b"VALARM" not in file.read_bytes()
    stocked("calendar", "--out", str(file), "--alarm")
    rung = Calendar.from_ical(file.read_bytes())
    assert len(rung.walk("VALARM")) == len(rung.walk("VEVENT"))


def test_standard_output_gets_the_bytes_of_the_file(stocked: Cli, file: Path) -> None:
    """A terminal or pipe in another encoding does not change a calendar, which is UTF-8."""
    stocked("place", "add", "棚")
    stocked("move", "26329A01", "棚")
    stocked("calendar", "--out", str(file))
    command = [sys.executable, "-W", "error", "-m", "stockroom", "--today", stocked.today]
    environment = {**os.environ, "PYTHONIOENCODING": "latin-1", "PYTHONUTF8": "0"}
    found = subprocess.run(
        [*command, "calendar", "--out", "-"], capture_output=True, check=True, timeout=60,
        env=environment,
    )  # fmt: skip
    assert found.stdout == file.read_bytes()
    assert "棚".encode() in found.stdout.replace(b"\r\n ", b"")
    assert found.stderr.decode().startswith("Wrote ")


def test_json_is_about_a_file_not_instead_of_one(stocked: Cli) -> None:
    answer = stocked("calendar", "--out", "-", "--json", code=2)
    assert answer.out == "" and "leave out --json" in answer.err


def test_nothing_due_is_a_fair_answer_and_no_file(nowhere: Cli, file: Path) -> None:
    nowhere("init", "--units", "metric", "--people", "2")
    answer = nowhere("calendar", "--out", str(file))
    assert answer.out == "Nothing is due up to 2027-02-23: no file was written.\n"
    assert not file.exists()
    assert nowhere("calendar", "--out", str(file), "--json").json["file"] is None
    to_pipe = nowhere("calendar", "--out", "-")
    assert to_pipe.out == "" and to_pipe.err.startswith("Nothing is due")


def test_another_file_is_left_alone_unless_forced(stocked: Cli, file: Path) -> None:
    for content in (b"dear diary\n", b"BEGIN:VCALENDAR\r\nPRODID:-//family//EN\r\n"):
        file.write_bytes(content)
        answer = stocked("calendar", "--out", str(file), code=3)
        assert answer.out == ""
        assert answer.err.splitlines() == [
            f"There is already a file {file} that is no calendar of stockroom's; it was left as"
            " it is.",
            "Name another file, or have this one replaced with --force.",
        ]
        assert file.read_bytes() == content
    stocked("calendar", "--out", str(file), "--force")
    assert read(file.read_bytes())


def test_a_refused_file_is_not_remembered_as_given_out(stocked: Cli, file: Path) -> None:
    file.write_bytes(b"dear diary\n")
    stocked("calendar", "--out", str(file), code=3)
    file.unlink()
    answer = stocked("calendar", "--out", str(file), "--json").json
    assert answer["new"] == answer["entries"]


@pytest.mark.parametrize("force", [(), ("--force",)])
def test_the_store_itself_is_never_replaced(stocked: Cli, force: tuple[str, ...]) -> None:
    before = stocked.path.read_bytes()
    answer = stocked("calendar", "--out", str(stocked.path), *force, code=3)
    assert answer.err.splitlines()[0] == f"The file {stocked.path} is the store itself."
    assert stocked.path.read_bytes() == before


def test_a_path_that_cannot_be_written_is_said(stocked: Cli, tmp_path: Path) -> None:
    missing = tmp_path / "missing" / "due.ics"
    answer = stocked("calendar", "--out", str(missing), code=3)
    assert answer.err.splitlines()[0] == (
        f"The file {missing} could not be written: No such file or directory."
    )
    assert stocked("calendar", "--out", str(tmp_path), code=3).err.splitlines()[0] == (
        f"The file {tmp_path} could not be written: it is a folder."
    )
    if Path("/dev/full").exists():
        full = stocked("calendar", "--out", "/dev/full", code=3).err
        assert "No space left on device" in full
    assert stocked("calendar", "--out", " ", code=2).err.startswith("file: nothing cannot be read.")
    # What could not be written is written the next time, as new as it was.
    file = tmp_path / "due.ics"
    stocked("calendar", "--out", str(file))
    assert {one[0] for one in read(file.read_bytes()).values()} == {0}


@pytest.mark.parametrize("days", ["0", "3661", "-1", "many"])
def test_days_are_counted_whole(stocked: Cli, file: Path, days: str) -> None:
    answer = stocked("calendar", "--out", str(file), "--days", days, code=2)
    assert answer.out == "" and "--days" in answer.err
    assert not file.exists()


def test_a_reader_that_stops_early_is_no_trouble(stocked: Cli) -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)
    try:
        found = subprocess.run(
            [sys.executable, "-m", "stockroom", "--today", stocked.today, "calendar", "--out", "-"],
            stdout=write_end, stderr=subprocess.PIPE, check=False, timeout=60,
        )  # fmt: skip
    finally:
        os.close(write_end)
    assert (found.returncode, found.stderr) == (0, b"")


def test_packages_without_a_best_by_are_mentioned(stocked: Cli, file: Path) -> None:
    stocked("place", "add", "boiler", "--temperature", "52")
    stocked("move", "26329A01", "boiler")
    answer = stocked("calendar", "--out", str(file))
    assert answer.err == (
        "1 package has no best-by and so no day here; the Round names them first.\n"
    )
    assert stocked("calendar", "--out", str(file), "--json").json["without_best_by"] == 1
