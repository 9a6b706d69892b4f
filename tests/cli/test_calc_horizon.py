"""calc eat-rate through the command line: keys, days counted, the file's forms, refusals."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Cli

EXAMPLE = "food,servings,best_by\npeas,6,2026-03-11\nstew,30,2026-03-31\ncorn,24,2026-04-30\n"
FROM = ("--from", "2026-03-01")


@pytest.fixture
def listed(tmp_path: Path) -> Path:
    """The worked example as a file."""
    path = tmp_path / "shelf.csv"
    path.write_text(EXAMPLE, encoding="utf-8")
    return path


def test_the_figures_have_their_keys(nowhere: Cli, listed: Path) -> None:
    # By hand: 6/10, 36/30 and 60/60 servings a day; the second binds, 6/5 a day, 8.4 a week.
    found = nowhere("calc", "eat-rate", "--csv", str(listed), *FROM, "--json").json
    assert found["servings_per_week"] == pytest.approx(8.4)
    assert found["binding_date"] == "2026-03-31"
    assert (found["servings_per_day"], found["servings_per_day_exact"]) == (1.2, "6/5")
    assert (found["rhythm_servings"], found["rhythm_days"], found["rhythm_exact"]) == (6, 5, True)
    assert found["whole_servings_per_day"] == 2
    assert (found["binding_servings"], found["binding_days"]) == (36, 30)
    assert [one["servings_per_day"] for one in found["best_by_days"]] == [0.6, 1.2, 1.0]
    assert found["past_due"] == [] and found["best_by_day_counts"] is False
    assert any("licensed guidance" in said for said in found["cautions"])
    assert not nowhere.path.exists()


def test_the_page_says_it_in_words(nowhere: Cli, listed: Path) -> None:
    page = nowhere("calc", "eat-rate", "--csv", str(listed), *FROM).out
    assert "Eat 6 every 5 days, in the order of best-by" in page
    assert "2026-03-31, 36 servings in 30 days" in page
    assert "quality estimate, not safety" in page and "Jackson" in page


def test_the_working_has_the_figures(nowhere: Cli, listed: Path) -> None:
    page = nowhere("calc", "eat-rate", "--csv", str(listed), *FROM, "--working").out
    assert "= 36 servings / 30 days" in page
    assert "ends 6.0 days after 2026-03-31" in page
    data = nowhere("calc", "eat-rate", "--csv", str(listed), *FROM, "--working", "--json").json
    assert data["workings"][0]["conclusion"] == "1.2 (6/5) servings a day"
    assert data["binding_date"] == "2026-03-31"


def test_the_best_by_day_counts_when_asked(nowhere: Cli, listed: Path) -> None:
    words = ("calc", "eat-rate", "--csv", str(listed), *FROM, "--count-best-by-day")
    found = nowhere(*words, "--json").json
    assert found["servings_per_day_exact"] == "36/31" and found["best_by_day_counts"] is True
    assert "7 every 6 days (a little faster than the least rate)" in nowhere(*words).out


def test_today_stands_in_for_a_day_and_past_is_apart(nowhere: Cli, listed: Path) -> None:
    found = nowhere.on("2026-03-21")("calc", "eat-rate", "--csv", str(listed), "--json").json
    assert found["from_day"] == "2026-03-21"
    assert found["past_due"] == [{"best_by": "2026-03-11", "servings": 6}]
    assert found["servings_per_day"] == 3
    page = nowhere("calc", "eat-rate", "--csv", str(listed), "--from", "2026-03-21").out
    assert "Past already, left out: 6 servings" in page
    over = nowhere("calc", "eat-rate", "--csv", str(listed), "--from", "2027-01-01").out
    assert "nothing to eat in time but what is past already" in over


def test_an_empty_list_needs_no_eating(nowhere: Cli, tmp_path: Path) -> None:
    path = tmp_path / "none.csv"
    path.write_text("servings,best_by\n", encoding="utf-8")
    found = nowhere("calc", "eat-rate", "--csv", str(path), *FROM, "--json").json
    assert (found["servings_per_week"], found["binding_date"]) == (0, None)
    assert "any rate will do" in nowhere("calc", "eat-rate", "--csv", str(path), *FROM).out


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_a_spreadsheets_file_is_taken(nowhere: Cli, tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "shelf.csv"
    path.write_bytes(EXAMPLE.replace(",", ";").replace("\n", "\r\n").encode(encoding))
    found = nowhere("calc", "eat-rate", "--csv", str(path), *FROM, "--json").json
    assert found["servings_per_week"] == pytest.approx(8.4)


def test_a_long_list_keeps_the_page_short(nowhere: Cli, tmp_path: Path) -> None:
    path = tmp_path / "long.csv"
    rows = [f"2,20{30 + at // 12}-{1 + at % 12:02d}-15" for at in range(60)]
    path.write_text("\n".join(["servings,best_by", *rows]), encoding="utf-8")
    words = ("calc", "eat-rate", "--csv", str(path), *FROM)
    assert len(nowhere(*words).lines) < 30
    days = nowhere(*words, "--json").json["best_by_days"]
    assert len(days) == 60 and days[1]["servings_by_then"] == 4


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("servings,best_by\n6,2026-03-11\nsome,2026-03-12\n", "line 3, servings: “some”"),
        ("servings,best_by\n6,11.3.2026\n", "line 2, best_by: “11.3.2026”"),
        ("servings,best_by\n6,2026-02-30\n-1,2026-03-11\n", "line 3, servings: “-1”"),
        ("servings,date\n6,2026-03-11\n", "columns: “servings, date” cannot be read"),
        ("", "columns: nothing cannot be read"),
    ],
)
def test_a_bad_line_is_named_and_nothing_is_answered(
    nowhere: Cli, tmp_path: Path, text: str, said: str
) -> None:
    path = tmp_path / "bad.csv"
    path.write_text(text, encoding="utf-8")
    answer = nowhere("calc", "eat-rate", "--csv", str(path), *FROM, code=2)
    assert answer.out == "" and said in answer.err


def test_what_is_missing_is_named(nowhere: Cli, tmp_path: Path, listed: Path) -> None:
    assert "--csv" in nowhere("calc", "eat-rate", code=2).err
    gone = nowhere("calc", "eat-rate", "--csv", str(tmp_path / "gone.csv"), code=3)
    assert "cannot be read" in gone.err
    wrong = nowhere("calc", "eat-rate", "--csv", str(listed), "--from", "spring", code=2)
    assert wrong.out == "" and "from: “spring” cannot be read" in wrong.err
