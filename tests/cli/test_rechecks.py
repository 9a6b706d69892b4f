"""What to look at on which day, why then, and the household's settings; checks line by line."""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path

import pytest

from tests.cli.conftest import Cli


@pytest.fixture
def sound(stocked: Cli) -> Cli:
    """26329A01 and 26329A02 settle-checked on the day after sealing."""
    tomorrow = stocked.on("2026-11-26")
    tomorrow("check", "26329A01", "26329A02", "crisp")
    return tomorrow


def test_the_plan_goes_day_by_day(sound: Cli) -> None:
    rows = sound("recheck", "list", "--days", "60", "--json").json
    assert {one["code"] for one in rows} == {"26329A01E", "26329A02C"}
    days = [one["on_day"] for one in rows]
    assert days == sorted(days) and "2026-11-26" < days[0] <= "2026-12-03"
    assert all(0 <= one["risk"] <= 1000 and one["how"].endswith("Never taste.") for one in rows)
    page = sound("recheck", "list", "--days", "60").out
    assert days[0] in page and " of 10" in page
    heading, first, *_ = sound("recheck", "list", "--days", "60", "--csv").lines
    assert heading.startswith("on_day,code,food,container,place,risk") and first.startswith(days[0])


def test_no_recheck_is_a_fair_answer(stocked: Cli) -> None:
    assert stocked("recheck", "list").out == "No rechecks in this time.\n"
    assert stocked("recheck", "list", "--json").json == []
    for days in ("-1", "3661", "soon"):
        stocked("recheck", "list", "--days", days, code=2)


def test_the_round_names_todays_rechecks_with_how_to_look(sound: Cli) -> None:
    (day, *_) = [one["on_day"] for one in sound("recheck", "list", "--days", "60", "--json").json]
    later = sound.on(day)
    found = later("round", "--json").json
    assert found["recheck"] and found["recheck_waiting"] == 0
    first = found["recheck"][0]
    assert first["wanted_on"] <= day <= first["latest_on"] and first["container_key"]
    page = later("round").out
    assert "Rechecks (" in page and "How to look" in page and "Foil pouch: Squeeze" in page
    rows = later("round", "--csv").lines
    assert any(row.startswith("recheck,26329A") and "stockroom check" in row for row in rows)


def test_a_package_says_why_it_is_looked_at_then(sound: Cli) -> None:
    page = sound("recheck", "show", "26329A01").out
    for words in (
        "look at it",
        "may wait until",
        "Why then\n- first look after the settle check",
        "What to look for\n- Swollen or hissing",
        "stockroom check 26329A01E crisp",
    ):
        assert words in page, words
    found = sound("recheck", "show", "26329A01", "--json").json
    assert found["earliest_on"] <= found["wanted_on"] <= found["latest_on"]
    assert found["reasons"] and found["look_for"][-1] == "Never taste food to test it."
    shown = sound("show", "26329A01", "--json").json["recheck"]
    assert shown["wanted_on"] == found["wanted_on"] and shown["reasons"] == found["reasons"]
    assert "look again" in sound("show", "26329A01").out
    page = sound("recheck", "show", "26329A01", "--working").out
    assert "When to look at it again" in page and "engineering judgement" in page
    assert sound("recheck", "show", "26329A01", "--working", "--json").json["workings"]


def test_only_sound_packages_are_on_the_schedule(stocked: Cli) -> None:
    assert "is settling" in stocked("recheck", "show", "26329A01", code=3).err
    assert "settle check  2026-11-26" in stocked("show", "26329A01").out
    stocked("recheck", "show", "26329A77", code=3)
    stocked("recheck", "show", "26329A", code=2)
    stocked("recheck", "show", code=2)


def test_the_settings_are_shown_and_changed(sound: Cli) -> None:
    found = sound("recheck", "settings", "--json").json
    assert (found["first_days"], found["second_days"], found["later_days"]) == (7, 30, 183)
    assert len(found["days"]) == 7 and found["most_a_day"] == 20
    before = sound("recheck", "show", "26329A01", "--json").json["wanted_on"]
    answer = sound(
        "recheck", "settings", "--first", "4", "--second", "20", "--later", "90",
        "--days", "sat, Sunday", "--most", "5",
    )  # fmt: skip
    assert answer.out == "Set the rechecks to 4, 20, then every 90 days; Sat Sun, 5 a day.\n"
    assert answer.err == "The days of all packages were reckoned anew.\n"
    found = sound("recheck", "settings", "--json").json
    assert (found["days"], found["most_a_day"], found["first_days"]) == (["Sat", "Sun"], 5, 4)
    wanted = sound("recheck", "show", "26329A01", "--json").json["wanted_on"]
    assert wanted < before
    plan = sound("recheck", "list", "--days", "60", "--json").json
    assert {date.fromisoformat(one["on_day"]).weekday() for one in plan} <= {5, 6}
    page = sound("recheck", "settings").out
    assert "Sat Sun" in page and "5 packages a day" in page
    sound("recheck", "settings", "--days", "every")
    assert len(sound("recheck", "settings", "--json").json["days"]) == 7


def test_settings_that_cannot_be_are_refused(sound: Cli) -> None:
    for code, words in (
        (2, ("--days", "")),
        (2, ("--days", "someday")),
        (2, ("--days", "s")),
        (2, ("--days", "sat xyz")),
        (2, ("--first", "0")),
        (2, ("--most", "many")),
        (3, ("--first", "40")),
        (3, ("--later", "367")),
        (3, ("--most", "1001")),
    ):
        answer = sound("recheck", "settings", *words, code=code)
        assert answer.out == "" and len(answer.err.splitlines()) == 2, words
    assert sound("recheck", "settings", "--json").json["first_days"] == 7


class TestLineByLine:
    """Checks read from a file or from standard input."""

    @staticmethod
    def typed(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
        """What stands on standard input."""
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(text.encode())))

    def test_good_lines_are_recorded_and_bad_ones_named(
        self, stocked: Cli, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        lines = (
            "26329A01 c\n\n# upper shelf\n26329A77 c\nnonsense\n26329A02  Leak  hissing softly\n"
        )
        self.typed(monkeypatch, lines)
        answer = stocked("check", "--from", "-", code=3)
        assert answer.lines == [
            "Checked 26329A01E (Peas, green, frozen, boiled): crisp, now sound.",
            "Checked 26329A02C (Peas, green, frozen, boiled): leak, now suspect.",
        ]
        said = answer.err.splitlines()
        assert said[0].startswith("Line 4: There is no package “26329A77”.")
        assert said[1].startswith("Line 5: line: “nonsense” cannot be read. Type a code and c")
        assert "What becomes of it: stockroom decide 26329A02C" in said
        assert said[-2] == "Lines not recorded: 2 of 4; the others were."
        history = stocked("show", "26329A02", "--json").json["history"]
        assert history[-1]["note"] == "hissing softly"

    def test_a_file_does_as_well(self, stocked: Cli, tmp_path: Path) -> None:
        walk = tmp_path / "walk.txt"
        walk.write_text("26329A01 crisp\n26329A02 s limp # at the lid\n", encoding="utf-8")
        answer = stocked("check", "--from", str(walk), "--note", "the Saturday walk")
        assert len(answer.lines) == 2
        notes = [
            stocked("show", code, "--json").json["history"][-1]["note"]
            for code in ("26329A01", "26329A02")
        ]
        assert notes == ["26329A02C went soft", "limp"]
        assert "Suspect now, look at each: 26329A01E." in answer.err

    def test_for_a_program_it_is_one_answer(
        self, stocked: Cli, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        self.typed(monkeypatch, "26329A01 c\n26329A02 c\n")
        answer = stocked("check", "--from", "-", "--json")
        assert answer.json["codes"] == ["26329A01E", "26329A02C"] and answer.err == ""

    def test_nothing_to_record_is_said(self, stocked: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
        self.typed(monkeypatch, "\n# nothing\n")
        answer = stocked("check", "--from", "-")
        assert (answer.out, answer.err) == ("", "There was no line to record.\n")

    def test_what_cannot_be_read_is_refused(self, stocked: Cli, tmp_path: Path) -> None:
        assert "cannot be read" in stocked("check", "--from", str(tmp_path), code=3).err
        stocked("check", "--from", str(tmp_path / "none"), code=3)
        stocked("check", "--from", "", code=2)
        (tmp_path / "bytes").write_bytes(b"26329A01 c\n\xff\xfe\x00 c\n" + b"x" * 5_000 + b" c")
        answer = stocked("check", "--from", str(tmp_path / "bytes"), code=3)
        assert len(answer.lines) == 1
        assert all(line.isprintable() for line in answer.err.splitlines())

    def test_codes_and_a_file_do_not_go_together(self, stocked: Cli) -> None:
        assert "not both" in stocked("check", "26329A01", "crisp", "--from", "-", code=2).err
        assert "Missing argument" in stocked("check", code=2).err
        assert "Missing argument" in stocked("check", "--note", "x", code=2).err


def test_the_round_says_what_to_do_with_each_doubt(stocked: Cli) -> None:
    tomorrow = stocked.on("2026-11-26")
    tomorrow("check", "26329A01", "soft")
    found = tomorrow("round", "--json").json["suspect"]
    assert {one["code"]: (one["doubt"], one["next"]) for one in found} == {
        "26329A01E": ("soft", "stockroom decide 26329A01E"),
        "26329A02C": ("sister_soft", "stockroom check 26329A02C crisp|soft"),
    }
    page = tomorrow("round").out
    assert "In doubt (2)" in page and "its sister went soft" in page
    tomorrow("check", "26329A02", "crisp")
    assert len(tomorrow("round", "--json").json["suspect"]) == 1
