"""Reading, showing and dealing out quantities."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from stockroom.domain.quantities import (
    COLDEST_DC,
    HEAVIEST_DG,
    HOTTEST_DC,
    UnitSystem,
    even_split,
    grams,
    nearest_whole,
    read_day,
    read_servings,
    read_temperature,
    read_weight,
    read_whole,
    share_of,
    show_servings,
    show_temperature,
    show_weight,
    to_dg,
    unreadable,
)
from stockroom.errors import BadInput

METRIC, US = UnitSystem.METRIC, UnitSystem.US
TODAY = date(2026, 11, 25)

NONSENSE = (
    "",
    "   ",
    "\t\n",
    "nan",
    "inf",
    "-inf",
    "1e9",
    "1e-3",
    "0x10",
    "1_000",
    "١٢",
    "१२",
    "１２",
    "²",
    "½",
    "\u216b",
    "12\u0000",
    "\x1b[31m12",
    "\udc80",
    "12" * 5000,
    "9" * 5000,
    "1" + " " * 80 + "2",
    "abc",
    "12abc",
    "1.2.3",
    "1,2,3",
    "1 2",
    "--1",
    "+-1",
    "1/0",
    "1/2/3",
    "0/0",
    ".",
    ",",
    "/",
    "-",
    "+",
    "1,500",
    "\u200b12",
    "lb\u017f",
    "[/]",
    "%s{0}",
)

READERS: tuple[Callable[[str], object], ...] = (
    lambda text: read_weight(text, METRIC),
    lambda text: read_weight(text, US),
    lambda text: read_temperature(text, METRIC),
    lambda text: read_temperature(text, US),
    lambda text: read_whole(text, "count", 0, 500),
    lambda text: read_servings(text),
    lambda text: read_day(text, TODAY),
)


@pytest.mark.parametrize("text", NONSENSE, ids=range(len(NONSENSE)))
@pytest.mark.parametrize("reader", READERS, ids=range(len(READERS)))
def test_nonsense_is_bad_input_with_one_clear_line(
    reader: Callable[[str], object], text: str
) -> None:
    with pytest.raises(BadInput) as caught:
        reader(text)
    for line in (caught.value.message, caught.value.hint):
        assert line.isprintable()
        assert 10 < len(line) < 160
    assert caught.value.hint.startswith("Type ")
    line.encode("utf-8")


@given(text=st.text(max_size=90))
@example(text="1 \u212ag")
@example(text="+99999")
@example(text="-99999")
def test_no_text_gives_anything_but_a_value_or_bad_input(text: str) -> None:
    for reader in READERS:
        try:
            reader(text)
        except BadInput as trouble:
            assert trouble.message.isprintable()
            trouble.message.encode("utf-8")


def test_what_was_typed_is_shown_but_shortened() -> None:
    assert "“soup”" in unreadable("weight", "soup", "a weight").message
    assert unreadable("w", "x" * 40, "a").typed == "x" * 40
    assert unreadable("w", "x" * 41, "a").typed == "x" * 40 + "…"
    assert unreadable("w", "a\x1b[2Jb", "a").typed == "a [2Jb"
    assert "nothing" in unreadable("weight", " \n ", "a weight").message


def test_a_quantity_has_a_longest_length() -> None:
    assert read_weight("62" + " " * 57 + "g", METRIC) == 620
    with pytest.raises(BadInput):
        read_weight("62" + " " * 58 + "g", METRIC)


# Ounce and pound: 28.349523125 g and 453.59237 g, exact by definition.
@pytest.mark.parametrize(
    ("text", "units", "weight_dg"),
    [
        ("62", METRIC, 620),
        ("62.5", METRIC, 625),
        ("62,5", METRIC, 625),
        ("62.5 g", METRIC, 625),
        ("62,5g", METRIC, 625),
        (" 62.5  grams ", METRIC, 625),
        ("62\u00a0g", METRIC, 620),
        ("1.2 kg", METRIC, 12_000),
        ("1,25kilos", METRIC, 12_500),
        ("1.500", METRIC, 15),
        ("1,5000", METRIC, 15),
        (".5", METRIC, 5),
        (",5", METRIC, 5),
        ("0", METRIC, 0),
        ("0.05", METRIC, 0),
        ("0.15", METRIC, 2),
        ("0.051", METRIC, 1),
        ("100 kg", METRIC, HEAVIEST_DG),
        ("7oz", METRIC, 1984),
        ("7", US, 1984),
        ("7 ounces", US, 1984),
        ("1 lb", US, 4536),
        ("1 LB", METRIC, 4536),
        ("2 pounds", METRIC, 9072),
        ("2 lb 3 oz", METRIC, 9922),
        ("2lb3oz", US, 9922),
        ("2 lbs 3.5 ounces", US, 10_064),
        ("62.5 g", US, 625),
        ("1 kilogram", US, 10_000),
        ("0 lb 15.9 oz", US, 4508),
    ],
)
def test_weights_read(text: str, units: UnitSystem, weight_dg: int) -> None:
    assert read_weight(text, units) == weight_dg


@pytest.mark.parametrize(
    "text",
    [
        "-1",
        "-1 g",
        "100.1 kg",
        "1000000",
        "99999999999",
        "1,500",
        "1,500 g",
        ",500",
        "2 lb 16 oz",
        "2.5 lb 3 oz",
        "2 lb 3",
        "3 oz 2 lb",
        "5 stone",
        "g",
        "5 gg",
        "5 k g",
    ],
)
def test_weights_refused(text: str) -> None:
    with pytest.raises(BadInput):
        read_weight(text, METRIC)


def test_weight_refusals_say_what_to_type() -> None:
    with pytest.raises(BadInput) as caught:
        read_weight("1,500 g", METRIC, "tray 3 dry")
    assert caught.value.message == "tray 3 dry: “1,500 g” cannot be read."
    assert "1500 or 1.500" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_weight(",500", METRIC)
    assert "0.500" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_weight("101 kg", METRIC)
    assert "100 kg at most" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_weight("2 lb 16 oz", US)
    assert "fewer than 16 ounces" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_weight("x", US)
    assert "7 oz" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_weight("x", METRIC)
    assert "62.5 g" in caught.value.hint


@pytest.mark.parametrize(
    ("weight_dg", "metric", "us"),
    [
        (0, "0.0 g", "0.00 oz"),
        (1, "0.1 g", "0.00 oz"),
        (620, "62.0 g", "2.19 oz"),
        (12_345, "1234.5 g", "2 lb 11.5 oz"),
        (567, "56.7 g", "2.00 oz"),
        (4533, "453.3 g", "15.99 oz"),
        (4535, "453.5 g", "1 lb 0.0 oz"),
        (4536, "453.6 g", "1 lb 0.0 oz"),
        (9070, "907.0 g", "2 lb 0.0 oz"),
        (5443, "544.3 g", "1 lb 3.2 oz"),
        (-5, "-0.5 g", "-0.02 oz"),
        (-12_345, "-1234.5 g", "-2 lb 11.5 oz"),
    ],
)
def test_weights_shown(weight_dg: int, metric: str, us: str) -> None:
    assert show_weight(weight_dg, METRIC) == metric
    assert show_weight(weight_dg, US) == us


@given(weight_dg=st.integers(0, HEAVIEST_DG))
def test_metric_weights_come_back_the_same(weight_dg: int) -> None:
    shown = show_weight(weight_dg, METRIC)
    assert read_weight(shown, METRIC) == read_weight(shown, US) == weight_dg


@given(weight_dg=st.integers(0, HEAVIEST_DG - 20))
def test_us_weights_come_back_within_half_the_last_digit_shown(weight_dg: int) -> None:
    shown = show_weight(weight_dg, US)
    half_digit_dg = 14.2 if "lb" in shown else 1.42
    back = read_weight(shown, US)
    assert abs(back - weight_dg) <= half_digit_dg + 0.5
    assert show_weight(back, US) == shown


@given(hundredths=st.integers(0, 300_000))
def test_ounces_and_the_same_grams_are_stored_alike(hundredths: int) -> None:
    ounces = Decimal(hundredths) / 100
    same_in_grams = f"{ounces * Decimal('28.349523125'):f}"
    assert read_weight(f"{ounces}", US) == read_weight(f"{ounces} oz", METRIC)
    assert read_weight(f"{ounces} oz", METRIC) == read_weight(same_in_grams, METRIC)


@given(pounds=st.integers(0, 200), tenths=st.integers(0, 159))
def test_pounds_and_ounces_are_their_sum(pounds: int, tenths: int) -> None:
    total = Decimal(pounds * 16) + Decimal(tenths) / 10
    typed = f"{pounds} lb {Decimal(tenths) / 10} oz"
    assert read_weight(typed, METRIC) == read_weight(f"{total} oz", METRIC)


@pytest.mark.parametrize(
    ("value", "weight_dg"),
    [
        (62, 620),
        (62.5, 625),
        (155.35, 1554),
        (155.25, 1552),
        (0.05, 0),
        (0.15, 2),
        (-0.25, -2),
        (1e-9, 0),
        (1e4, 100_000),
        (Decimal("155.35"), 1554),
        (Fraction(31107, 200), 1555),
        (Fraction(1, 3), 3),
    ],
)
def test_to_dg_nearest_and_half_to_even(
    value: int | float | Decimal | Fraction, weight_dg: int
) -> None:
    assert to_dg(value) == weight_dg


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf"), Decimal("NaN")])
def test_to_dg_refuses_what_is_no_number(value: float | Decimal) -> None:
    with pytest.raises(BadInput):
        to_dg(value)


@given(weight_dg=st.integers(-HEAVIEST_DG, HEAVIEST_DG))
def test_grams_and_back(weight_dg: int) -> None:
    assert to_dg(grams(weight_dg)) == weight_dg
    assert grams(weight_dg) * 10 == pytest.approx(weight_dg)


def test_nearest_whole_takes_ties_to_even() -> None:
    assert [nearest_whole(Fraction(n, 2)) for n in (1, 3, 5, -1)] == [0, 2, 2, 0]
    assert nearest_whole(Fraction(7, 4)) == 2


@pytest.mark.parametrize(
    ("text", "units", "temperature_dc"),
    [
        ("18", METRIC, 180),
        ("18", US, -78),
        ("18 C", US, 180),
        ("18c", US, 180),
        ("18,5 °C", METRIC, 185),
        ("18 º C", METRIC, 180),
        ("18 deg", METRIC, 180),
        ("18 degrees C", US, 180),
        ("-18", METRIC, -180),
        ("\u221218", METRIC, -180),
        ("- 18 C", METRIC, -180),
        ("+4", METRIC, 40),
        ("64F", METRIC, 178),
        ("64 °f", METRIC, 178),
        ("0 F", METRIC, -178),
        ("-40 F", METRIC, -400),
        ("212", US, 1000),
        ("-100", METRIC, COLDEST_DC),
        ("150", METRIC, HOTTEST_DC),
        ("302", US, HOTTEST_DC),
    ],
)
def test_temperatures_read(text: str, units: UnitSystem, temperature_dc: int) -> None:
    assert read_temperature(text, units) == temperature_dc


@pytest.mark.parametrize("text", ["150.1", "-100.1", "302.2 F", "-149 F", "18 K", "warm", "°C"])
def test_temperatures_refused(text: str) -> None:
    with pytest.raises(BadInput):
        read_temperature(text, METRIC)


# The two scales by definition: 0 °C is 32 °F, 100 °C is 212 °F, -40 is the same on both.
@pytest.mark.parametrize(
    ("temperature_dc", "metric", "us"),
    [
        (180, "18.0 °C", "64.4 °F"),
        (-180, "-18.0 °C", "-0.4 °F"),
        (-178, "-17.8 °C", "0.0 °F"),
        (-400, "-40.0 °C", "-40.0 °F"),
        (0, "0.0 °C", "32.0 °F"),
        (1000, "100.0 °C", "212.0 °F"),
        (-5, "-0.5 °C", "31.1 °F"),
    ],
)
def test_temperatures_shown(temperature_dc: int, metric: str, us: str) -> None:
    assert show_temperature(temperature_dc, METRIC) == metric
    assert show_temperature(temperature_dc, US) == us


@given(temperature_dc=st.integers(COLDEST_DC, HOTTEST_DC))
def test_temperatures_come_back_the_same_in_both_scales(temperature_dc: int) -> None:
    for shown_in in UnitSystem:
        for read_in in UnitSystem:
            shown = show_temperature(temperature_dc, shown_in)
            assert read_temperature(shown, read_in) == temperature_dc


@given(tenths_f=st.integers(-1480, 3020))
def test_fahrenheit_and_the_same_celsius_are_stored_alike(tenths_f: int) -> None:
    degrees_c = (Decimal(tenths_f) / 10 - 32) / Decimal("1.8")
    typed_f, typed_c = f"{Decimal(tenths_f) / 10}", f"{degrees_c:.10f} C"
    assert read_temperature(typed_f, US) == read_temperature(typed_c, METRIC)


def test_whole_numbers() -> None:
    assert read_whole(" 12 ", "people", 1, 12) == 12
    assert read_whole("+1", "people", 1, 12) == 1
    assert read_whole("-3", "shift", -5, 5) == -3
    assert read_whole("007", "people", 1, 12) == 7
    for text in ("0", "13", "1.0", "1,0", "12 people", "1 1"):
        with pytest.raises(BadInput) as caught:
            read_whole(text, "people", 1, 12)
        assert caught.value.hint == "Type a whole number from 1 to 12."


@pytest.mark.parametrize(
    ("text", "servings"),
    [
        ("2", Fraction(2)),
        ("1.5", Fraction(3, 2)),
        ("1,5", Fraction(3, 2)),
        ("1/2", Fraction(1, 2)),
        ("1 1/2", Fraction(3, 2)),
        ("1 1 / 2", Fraction(3, 2)),
        ("10/4", Fraction(5, 2)),
        (".25", Fraction(1, 4)),
        ("10000", Fraction(10_000)),
    ],
)
def test_servings_read_exactly(text: str, servings: Fraction) -> None:
    assert read_servings(text) == servings


@pytest.mark.parametrize(
    "text", ["0", "0/3", "0 0/1", "-1", "10000.1", "20001/2", "1 1/0", "two", "1,500", "1 .5"]
)
def test_servings_refused(text: str) -> None:
    with pytest.raises(BadInput):
        read_servings(text)


@pytest.mark.parametrize(
    ("servings", "shown"),
    [
        (Fraction(4), "4"),
        (Fraction(5, 2), "2.5"),
        (Fraction(2, 3), "0.7"),
        (Fraction(399, 100), "4"),
        (Fraction(0), "0"),
        (Fraction(1, 20), "<0.1"),
        (Fraction(1, 19), "0.1"),
        (Fraction(-5, 2), "-2.5"),
        (Fraction(1234), "1234"),
    ],
)
def test_servings_shown(servings: Fraction, shown: str) -> None:
    assert show_servings(servings) == shown


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-03-01", date(2026, 3, 1)),
        ("2028-02-29", date(2028, 2, 29)),
        (" today ", TODAY),
        ("Yesterday", date(2026, 11, 24)),
        ("TOMORROW", date(2026, 11, 26)),
        ("+3", date(2026, 11, 28)),
        ("-2", date(2026, 11, 23)),
        ("\u22122", date(2026, 11, 23)),
        ("+0", TODAY),
        ("1900-01-01", date(1900, 1, 1)),
        ("2199-12-31", date(2199, 12, 31)),
    ],
)
def test_days_read(text: str, day: date) -> None:
    assert read_day(text, TODAY) == day


@pytest.mark.parametrize(
    "text",
    [
        "10",
        "3",
        "1.5",
        "Mar",
        "Monday",
        "20260301",
        "2026-W09-7",
        "2026-060",
        "2026-3-1",
        "01/03/2026",
        "26-03-01",
        "2026-02-29",
        "2026-13-01",
        "2026-00-10",
        "1899-12-31",
        "2200-01-01",
        "0000-01-01",
        "+100000",
        "+99999",
        "2026-03-01T00:00",
    ],
)
def test_days_refused(text: str) -> None:
    with pytest.raises(BadInput):
        read_day(text, TODAY)


@pytest.mark.parametrize(("text", "today"), [("+9", date.max), ("yesterday", date.min)])
def test_days_past_the_end_of_the_calendar_are_refused(text: str, today: date) -> None:
    with pytest.raises(BadInput):
        read_day(text, today)


@given(day=st.dates(date(1900, 1, 1), date(2199, 12, 31)), away=st.integers(-900, 900))
def test_days_come_back_the_same(day: date, away: int) -> None:
    assert read_day(day.isoformat(), TODAY) == day
    assert read_day(f"{away:+d}", TODAY) == TODAY + timedelta(days=away)


@st.composite
def partitions(draw: st.DrawFn) -> tuple[int, list[int]]:
    """Something to deal out, and the parts of a total to deal it over."""
    parts = draw(st.lists(st.integers(0, 5000), min_size=1, max_size=30))
    return draw(st.integers(0, 200_000)), parts if sum(parts) else [*parts, 1]


@given(case=partitions())
def test_shares_of_a_partition_add_up_and_stay_near_the_exact_share(
    case: tuple[int, list[int]],
) -> None:
    whole, parts = case
    total, before, dealt = sum(parts), 0, 0
    for part in parts:
        share = share_of(whole, total, before, part)
        before += part
        dealt += share
        assert share >= 0
        assert abs(dealt - Fraction(whole * before, total)) <= Fraction(1, 2)
        assert abs(share - Fraction(whole * part, total)) <= 1
    assert dealt == whole


def test_shares_round_the_running_total_with_ties_upward() -> None:
    assert [share_of(2, 4, before, 1) for before in range(4)] == [1, 0, 1, 0]
    assert [share_of(10, 3, before, 1) for before in range(3)] == [3, 4, 3]
    assert share_of(0, 5, 0, 5) == 0


@pytest.mark.parametrize(
    ("whole", "total", "before", "part"),
    [(-1, 5, 0, 1), (5, 0, 0, 0), (5, -5, 0, 0), (5, 5, -1, 2), (5, 5, 1, -1), (5, 5, 3, 3)],
)
def test_shares_outside_the_total_are_a_programming_error(
    whole: int, total: int, before: int, part: int
) -> None:
    with pytest.raises(ValueError):
        share_of(whole, total, before, part)


@given(total=st.integers(0, 1_000_000), count=st.integers(1, 400))
def test_even_split_adds_up_and_differs_by_one_at_most(total: int, count: int) -> None:
    parts = even_split(total, count)
    assert len(parts) == count
    assert sum(parts) == total
    assert max(parts) - min(parts) <= 1
    assert list(parts) == sorted(parts, reverse=True)


@pytest.mark.parametrize(("total", "count"), [(-1, 1), (5, 0), (5, -1)])
def test_impossible_splits_are_a_programming_error(total: int, count: int) -> None:
    with pytest.raises(ValueError):
        even_split(total, count)
