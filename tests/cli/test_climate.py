"""How warm places are: said, imported and shown; best-by dates follow."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tests.cli.conftest import Cli

LOGGER = """\
Serial,Date-Time,Temperature (°F),RH
1,01/15/2026 06:00,48.2,60
1,01/16/2026 06:00,50.0,60
1,tomorrow,50.0,60
1,07/15/2026 06:00,68.0,60
1,07/16/2026 06:00,hot,60
1,07/16/2026 18:00,69.8,60
"""


@pytest.fixture
def logger(tmp_path: Path) -> Path:
    """A logger's file in °F with two bad rows, on lines 4 and 6."""
    path = tmp_path / "logger.csv"
    path.write_text(LOGGER, encoding="utf-8")
    return path


def months_dc(cli: Cli, place: str) -> list[int]:
    """The twelve temperatures of a place."""
    return [
        row["temperature_dc"] for row in cli("place", "climate", place, "--json").json["months"]
    ]


def best_by(cli: Cli) -> date:
    """Best-by of the first pouch, which stands in the cellar."""
    return date.fromisoformat(cli("show", "26329A01", "--json").json["best_by"])


def test_a_steady_temperature_moves_the_best_by(stocked: Cli) -> None:
    assert stocked("place", "climate", "cellar", "--json").json["months"] == []
    assert "21 °C is assumed" in stocked("place", "climate", "cellar").out
    before = best_by(stocked)
    said = stocked("place", "temperature", "cellar", "--steady", "10").out
    assert said == "Set the temperature of cellar to 10 °C.\n"
    assert months_dc(stocked, "cellar") == [100] * 12
    # The rack has it from the cellar above it.
    assert months_dc(stocked, "cellar/rack 1") == [100] * 12
    assert best_by(stocked) > before
    stocked("undo")
    assert best_by(stocked) == before


def test_the_old_words_for_a_temperature_still_do(stocked: Cli) -> None:
    stocked("place", "set", "loft", "--temp", "24")
    stocked("place", "add", "shed", "--temperature", "50 F")
    rows = {row["path"]: row["temperature_dc"] for row in stocked("place", "list", "--json").json}
    assert (rows["loft"], rows["shed"]) == (240, 100)


def test_months_are_drawn_between_those_said(stocked: Cli) -> None:
    stocked(
        "place",
        "temperature",
        "loft",
        "--month",
        "jan=0",
        "--month",
        "July=24",
        "--month",
        "4=12 C",
    )
    found = months_dc(stocked, "loft")
    assert found == [0, 40, 80, 120, 160, 200, 240, 200, 160, 120, 80, 40]
    page = stocked("place", "climate", "loft").out
    assert "twelve months as stated" in page and "Stated, not measured" in page
    (july,) = (line for line in page.splitlines() if line.startswith("Jul"))
    (january,) = (line for line in page.splitlines() if line.startswith("Jan"))
    assert july.endswith("#" * 30) and "#" not in january
    stocked("place", "temperature", "loft", "--clear")
    assert months_dc(stocked, "loft") == []


def test_bars_begin_at_the_coldest_month_below_zero(stocked: Cli) -> None:
    stocked("place", "temperature", "loft", "--month", "1=-10", "--month", "7=20")
    page = stocked("place", "climate", "loft").out
    assert "coldest to warmest" in page
    (row,) = (line for line in page.splitlines() if line.startswith("Apr"))
    assert row.split() == ["Apr", "5.0", "°C", "#" * 15]


def test_a_steady_temperature_takes_the_place_of_months_and_readings(
    stocked: Cli, logger: Path
) -> None:
    stocked("place", "readings", "loft", str(logger))
    assert stocked("place", "climate", "loft", "--json").json["readings"] == 4
    stocked("place", "temperature", "loft", "--steady", "15")
    found = stocked("place", "climate", "loft", "--json").json
    assert (found["readings"], found["measured"]) == (0, False)
    assert months_dc(stocked, "loft") == [150] * 12


def test_readings_are_looked_at_before_they_are_kept(stocked: Cli, logger: Path) -> None:
    looked = stocked("place", "readings", "loft", str(logger), "--dry-run")
    assert "Nothing was kept" in looked.err
    assert "- line 4: the time “tomorrow” cannot be read" in looked.lines
    assert "- line 6: the temperature “hot” cannot be read" in looked.lines
    assert "Left out: 2 rows that cannot be read" in looked.out
    assert months_dc(stocked, "loft") == []
    found = stocked("place", "readings", "loft", str(logger), "--json").json
    assert (found["kept"], found["readings"], found["fahrenheit"]) == (True, 4, True)
    assert found["time_column"] == "Date-Time"
    assert found["temperature_column"] == "Temperature (°F)"
    assert [row["line"] for row in found["bad_rows"]] == [4, 6]
    # 48.2 and 50 °F are 9 and 10 °C; 68 and 69.8 are 20 and 21.
    assert 90 < months_dc(stocked, "loft")[0] < 100
    assert 200 < months_dc(stocked, "loft")[6] < 210
    # January and July alone do not make a measured year.
    assert stocked("place", "climate", "loft", "--json").json["measured"] is False


def test_columns_and_scale_can_be_named(stocked: Cli, tmp_path: Path) -> None:
    path = tmp_path / "odd.csv"
    path.write_text("a,b,c\n2026-03-01,60,15\n2026-03-02,60,16\n", encoding="utf-16")
    assert stocked("place", "readings", "loft", str(path), code=2).err.startswith("time column")
    words = ("place", "readings", "loft", str(path), "--time-column", "1", "--temperature-column")
    found = stocked(*words, "C", "--celsius", "--json").json
    assert (found["mean_c"], found["fahrenheit"]) == (15.5, False)
    found = stocked(*words, "2", "--fahrenheit", "--json").json
    assert found["mean_c"] == pytest.approx(15.6)
    assert "temperature column: “9z” cannot be read." in stocked(*words, "9z", code=2).err


def test_a_file_that_cannot_be_used_is_named(stocked: Cli, tmp_path: Path) -> None:
    picture = tmp_path / "picture.png"
    picture.write_bytes(b"\x89PNG\0\0\0")
    empty = tmp_path / "empty.csv"
    empty.write_text("")
    one = tmp_path / "one.csv"
    one.write_text("time,temp\n2026-01-01,12\n")
    for path, code, words in (
        (tmp_path / "none.csv", 3, "none.csv cannot be read: No such file or directory."),
        (tmp_path, 3, "cannot be read: Is a directory."),
        (picture, 3, "picture.png is not text."),
        (empty, 2, "readings: nothing cannot be read."),
        (one, 3, "Usable readings in the file: 1"),
    ):
        answer = stocked("place", "readings", "loft", str(path), code=code)
        assert words in answer.err and answer.out == "", path
    assert stocked("place", "climate", "loft", "--json").json["readings"] == 0


def test_humidity_is_said_and_taken_back(stocked: Cli) -> None:
    stocked("place", "humidity", "cellar", "70 %")
    found = stocked("place", "climate", "cellar/rack 1", "--json").json
    assert found["humidity_percent"] == 70
    stocked("place", "humidity", "cellar", "--clear")
    assert stocked("place", "climate", "cellar", "--json").json["humidity_percent"] is None


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("temperature", "loft"), 2, "--steady, --month or --clear"),
        (("temperature", "loft", "--steady", "1", "--clear"), 2, "one of them"),
        (("temperature", "loft", "--steady", "warm"), 2, "temperature:"),
        (("temperature", "loft", "--steady", "90"), 2, "from -80 to 60 °C"),
        (("temperature", "nowhere", "--steady", "12"), 3, "no place"),
        (("temperature", "loft", "--month", "12"), 2, "month:"),
        (("temperature", "loft", "--month", "13=12"), 2, "month:"),
        (("temperature", "loft", "--month", "ja=12"), 2, "month:"),
        (("temperature", "loft", "--month", "jan=warm"), 2, "jan:"),
        (("humidity", "loft"), 2, "--clear"),
        (("humidity", "loft", "50", "--clear"), 2, "--clear"),
        (("humidity", "loft", "0"), 2, "from 1 to 99"),
        (("humidity", "loft", "100"), 2, "from 1 to 99"),
        (("humidity", "loft", "damp"), 2, "humidity:"),
        (("climate", "nowhere"), 3, "no place"),
        (("readings", "loft", ""), 2, "file:"),
    ],
)
def test_what_cannot_be_is_refused(
    stocked: Cli, words: tuple[str, ...], code: int, said: str
) -> None:
    answer = stocked("place", *words, code=code)
    assert said in answer.err and answer.out == ""
    assert len(answer.err.splitlines()) == 2


def test_the_year_is_shown_as_its_figures_say(stocked: Cli) -> None:
    stocked("place", "temperature", "loft", "--month", "jan=5", "--month", "jul=30")
    found = stocked("place", "climate", "loft", "--json").json
    assert found["mean_c"] < found["mkt_life_c"] < found["mkt_c"]
    csv = stocked("place", "climate", "loft", "--csv").lines
    assert csv[0] == "month,temperature_c" and len(csv) == 13 and csv[1] == "1,5.0"
