"""A temperature logger's file: whatever can be read is kept, whatever cannot is named by line."""

from __future__ import annotations

import csv
import io
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.logger_table import MOST_ROWS, LoggerTable, read_logger
from stockroom.domain.records import TemperatureReading
from stockroom.errors import BadInput

MORNING = datetime(2025, 3, 14, 6, 0)
EVENING = datetime(2025, 3, 14, 18, 30)


def _kept(table: LoggerTable) -> list[tuple[datetime, int]]:
    return [(one.at, one.temperature_dc) for one in table.readings]


TWO = [(MORNING, 45), (EVENING, 62)]


@pytest.mark.parametrize(
    "text",
    [
        "Date/Time,Temperature (°C)\n2025-03-14 06:00,4.5\n2025-03-14 18:30,6.2\n",
        "timestamp,temp\n2025-03-14T06:00:00,4.5\n2025-03-14T18:30:59,6.2\n",
        "\ufeffTime,Celsius\r\n2025-03-14 06:00,4.5\r\n\r\n2025-03-14 18:30,6.2\r\n",
        "Datum;Temperatur °C\n14.03.2025 06:00;4,5\n14.03.2025 18:30;6,2\n",
        "Time\tRH %\tTemp °C\n2025/03/14 06:00\t61\t4.5\n2025/03/14 18:30\t60\t6.2\n",
        "no,when,deg C\n1,14/03/2025 06:00,4.5\n2,14/03/2025 18:30,6.2\n",
        "Time,Temp\n03/14/2025 06:00 AM,4.5 °C\n03/14/2025 06:30 PM,6.2C\n",
        "Date,Time,Temp °C\n2025-03-14,06:00,4.5\n2025-03-14,18:30,6.2\n",
        "Logger 12\nSerial,77\n\nDate time,Temp\n2025-03-14 06:00,4.5\n2025-03-14 18:30,6.2",
        "2025-03-14 06:00,4.5\n2025-03-14 18:30,6.2\n",
        "2025-03-14 06:00,4.5 °C\n2025-03-14 18:30,6.2 °C\n",
        "Temp °C,When\n6.2,2025-03-14 18:30\n4.5,2025-03-14 06:00\n",
        "Time,°F\n2025-03-14 06:00,40.1\n2025-03-14 18:30,43.16\n",
        "Time,temp_f\n2025-03-14 06:00,40.1\n2025-03-14 18:30,43.16\n",
        "Time,TempF\n2025-03-14 06:00,40.1\n2025-03-14 18:30,43.16\n",
        "Time,Temp (F)\n2025-03-14 06:00,40.1\n2025-03-14 18:30,43.16\n",
        "Time,Temp\n2025-03-14 06:00,40.1 °F\n2025-03-14 18:30,43.16F\n",
        '"Time","Temp, °C"\n"2025-03-14 06:00","4.5"\n"2025-03-14 18:30","6.2"\n',
    ],
)
def test_what_loggers_write(text: str) -> None:
    table = read_logger(text)
    assert _kept(table) == TWO
    assert table.bad == ()


def test_the_columns_and_the_unit_it_found_are_told() -> None:
    table = read_logger("n,When,Temp °F\n1,2025-03-14 06:00,40.1\n")
    assert (table.time_column, table.heat_column, table.fahrenheit) == ("When", "Temp °F", True)
    bare = read_logger("2025-03-14 06:00,4.5\n")
    assert (bare.time_column, bare.heat_column) == ("column 1", "column 2")
    assert not bare.fahrenheit


THREE = "start,end,inside,outside\n2025-03-14 06:00,2025-03-14 07:00,4.5,-2\n"


@pytest.mark.parametrize(
    ("time_column", "heat_column", "kept"),
    [
        ("start", "inside", (MORNING, 45)),
        ("START", " Outside ", (MORNING, -20)),
        ("1", "4", (MORNING, -20)),
        ("2", "inside", (datetime(2025, 3, 14, 7), 45)),
    ],
)
def test_a_column_is_given_by_heading_or_number(
    time_column: str, heat_column: str, kept: tuple[datetime, int]
) -> None:
    table = read_logger(THREE, time_column=time_column, heat_column=heat_column)
    assert _kept(table) == [kept]


@pytest.mark.parametrize(
    ("given_", "what", "said"),
    [
        ({}, "time column", "start, end, inside, outside"),
        ({"time_column": "start"}, "temperature column", "inside"),
        ({"time_column": "begin"}, "time column", "start, end"),
        ({"time_column": "start", "heat_column": "0"}, "temperature column", "outside"),
    ],
)
def test_a_column_that_cannot_be_told_is_asked_for(
    given_: dict[str, str], what: str, said: str
) -> None:
    with pytest.raises(BadInput) as caught:
        read_logger(THREE, **given_)  # type: ignore[arg-type]
    assert caught.value.what == what
    assert said in caught.value.accepted


def test_the_unit_may_be_said_and_a_row_that_says_its_own_knows_better() -> None:
    text = "time,temp\n2025-03-14 06:00,50\n2025-03-14 18:30,10 °C\n"
    assert _kept(read_logger(text, fahrenheit=True)) == [(MORNING, 100), (EVENING, 100)]
    assert _kept(read_logger(text)) == [(MORNING, 500), (EVENING, 100)]
    named = text.replace("temp\n", "temp °F\n")
    assert _kept(read_logger(named, fahrenheit=False)) == [(MORNING, 500), (EVENING, 100)]


def test_a_bad_row_is_named_by_its_line_and_the_good_ones_are_kept() -> None:
    text = (
        "\ufeffMade by hand\n"
        "time;°C\n"
        "\n"
        "2025-03-14 06:00;4,5\n"
        "2025-03-14 07:00;open\n"
        "soon;4,5\n"
        "2025-02-30 06:00;4,5\n"
        "2025-03-14 08:00\n"
        "2025-03-14 09:00;99\n"
        "2025-03-14 10:00;-80,1\n"
        "\x1b[31m;5\n"
        "2025-03-14 18:30;−6,2\n"
    )
    table = read_logger(text)
    assert _kept(table) == [(MORNING, 45), (EVENING, -62)]
    assert [one.line for one in table.bad] == [5, 6, 7, 8, 9, 10, 11]
    why = {one.line: one.why for one in table.bad}
    assert why[5] == "the temperature “open” cannot be read"
    assert why[6] == "the time “soon” cannot be read"
    assert why[7] == "the time “2025-02-30 06:00” cannot be read"
    assert why[8] == "the temperature “” cannot be read"
    assert why[9] == "99 is not a temperature of a storage place"


@pytest.mark.parametrize("sign", ["\x00", "\x0b", "\x0c", "\x1c", "\x1b", "\x85", "\u2028", "\x7f"])
def test_control_characters_spoil_their_own_row_only(sign: str) -> None:
    """They break no line either, so the line numbers are those an editor shows."""
    text = f"time,°C\n2025-03-14 06:00,4.5\n2025-03-14 07:00,4{sign}5\n,x\n2025-03-14 18:30,6.2\n"
    table = read_logger(text)
    assert _kept(table) == TWO
    assert [one.line for one in table.bad] == [3, 4]


@pytest.mark.parametrize(
    "text",
    [
        "time,°C\n01/02/2025 06:00,5\n03/04/2025 06:00,5\n",
        "time,°C\n11/12/2025,5\n",
    ],
)
def test_day_and_month_are_never_guessed(text: str) -> None:
    with pytest.raises(BadInput, match="dates") as caught:
        read_logger(text)
    assert "2025-03-04" in caught.value.accepted


@pytest.mark.parametrize(
    ("last", "first"),
    [("13/02/2025 06:00", datetime(2025, 2, 1, 6)), ("02/13/2025 06:00", datetime(2025, 1, 2, 6))],
)
def test_one_row_settles_day_and_month_for_all(last: str, first: datetime) -> None:
    table = read_logger(f"time,°C\n01/02/2025 06:00,5\n{last},5\n")
    assert _kept(table) == [(first, 50), (datetime(2025, 2, 13, 6), 50)]


@pytest.mark.parametrize("form", ["%d/%m/%Y %H:%M", "%m/%d/%Y %H:%M"])
def test_the_whole_column_settles_it_however_long_it_begins_in_doubt(form: str) -> None:
    """Twelve days of minutes are 17,280 rows in which day and month could change places."""
    rows = [datetime(2025, 2, 1) + timedelta(minutes=minute) for minute in range(20_000)]
    table = read_logger("time,°C\n" + "\n".join(f"{at:{form}},4.5" for at in rows))
    assert len(table.readings) == 20_000
    assert (table.readings[0].at, table.readings[-1].at) == (rows[0], rows[-1])


def test_one_minute_has_one_reading_the_last_of_them() -> None:
    table = read_logger("time,°C\n2025-03-14 06:00:05,9\n2025-03-14 06:00:55,4.5\n")
    assert _kept(table) == [(MORNING, 45)]


@pytest.mark.parametrize("text", ["", "\n\n", "\ufeff", " , \n", "\r\n"])
def test_nothing_to_read_is_told(text: str) -> None:
    with pytest.raises(BadInput, match="readings"):
        read_logger(text)


def test_a_file_too_long_is_refused_before_it_is_read() -> None:
    with pytest.raises(BadInput, match=f"{MOST_ROWS + 2} lines"):
        read_logger("x\n" * (MOST_ROWS + 1))


def test_a_hundred_thousand_rows_are_all_kept() -> None:
    """A year of five-minute readings is 105,120 rows."""
    start = datetime(2025, 1, 1)
    rows = (f"{start + timedelta(minutes=5 * n):%Y-%m-%d %H:%M},{n % 300}e" for n in (7, 8))
    good = "\n".join(
        f"{start + timedelta(minutes=5 * n):%Y-%m-%d %H:%M},{n % 300 / 10}" for n in range(105_120)
    )
    table = read_logger("time,°C\n" + good + "\n" + "\n".join(rows))
    assert len(table.readings) == 105_120
    assert [one.line for one in table.bad] == [105_122, 105_123]
    assert table.readings[-1] == TemperatureReading(datetime(2025, 12, 31, 23, 55), 119)


def test_one_endless_line_is_a_bad_row() -> None:
    """Longer than the csv module takes in a cell."""
    table = read_logger("time,°C\n2025-03-14 06:00,4.5\n" + "7" * 200_000 + "\n")
    assert _kept(table) == [(MORNING, 45)]
    assert [one.line for one in table.bad] == [3]
    assert len(table.bad[0].why) < 100


def _iso(at: datetime) -> str:
    return at.isoformat(sep=" ", timespec="minutes")


FORMS = st.sampled_from(
    (_iso, lambda at: f"{at:%d.%m.%Y %H:%M}", lambda at: f"{at:%Y/%m/%d %H:%M}")
)
READINGS = st.dictionaries(
    st.datetimes(datetime(2000, 1, 1), datetime(2090, 1, 1)).map(
        lambda at: at.replace(second=0, microsecond=0)
    ),
    st.integers(-800, 600),
    min_size=1,
    max_size=30,
)
NAMES = st.sampled_from(("inside", "RH %", "no.", "wind", "Zoë"))


@settings(max_examples=80, deadline=None)
@given(
    readings=READINGS,
    write=FORMS,
    between=st.sampled_from((",", ";", "\t")),
    others=st.lists(NAMES, unique=True, max_size=3),
    start=st.sampled_from(("", "\ufeff")),
    end=st.sampled_from(("\n", "\r\n", "\r")),
)
def test_what_is_written_is_read_back(
    readings: dict[datetime, int],
    write: object,
    between: str,
    others: list[str],
    start: str,
    end: str,
) -> None:
    """Any order of rows, any column beside, comma or point as the separator allows."""
    assert callable(write)
    file = io.StringIO()
    writer = csv.writer(file, delimiter=between, lineterminator=end)
    writer.writerow([*others, "Date time", "Temperature °C"])
    for at, dc in readings.items():
        shown = f"{dc / 10:.1f}".replace(".", "." if between == "," else ",")
        writer.writerow([*("7" for _ in others), write(at), shown])
    table = read_logger(start + file.getvalue())
    assert _kept(table) == sorted(readings.items())
    assert table.bad == ()
    assert (table.time_column, table.heat_column) == ("Date time", "Temperature °C")


@settings(max_examples=150, deadline=None)
@given(
    text=st.text(
        st.sampled_from("0123456789,.;\t\n\r:-/ TCF°\"'\x00\x1b\u2028tempdate"), max_size=300
    )
)
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        table = read_logger(text)
    except BadInput as refusal:
        assert refusal.message.endswith(".")
        return
    times = [one.at for one in table.readings]
    assert times == sorted(set(times))
    assert all(-800 <= one.temperature_dc <= 600 for one in table.readings)
    assert [one.line for one in table.bad] == sorted({one.line for one in table.bad})


@settings(max_examples=60, deadline=None)
@given(dc=st.integers(-800, 600))
def test_fahrenheit_and_celsius_give_the_same_reading(dc: int) -> None:
    """°C = (°F - 32) / 1.8 (exact by definition)."""
    fahrenheit = read_logger(f"time,°F\n2025-03-14 06:00,{dc * 0.18 + 32:.2f}\n")
    assert _kept(fahrenheit) == [(MORNING, dc)]
