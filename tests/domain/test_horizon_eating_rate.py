"""The least eating rate against the worked example, a day-by-day simulation and by hand."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.horizon.due_table import DueLinesUnreadable, read_dues
from stockroom.domain.horizon.eating_rate import Due, EatingRate, late_days, least_rate
from stockroom.domain.horizon.eating_rate_working import eating_rate_working
from stockroom.domain.horizon.pace import rhythm, whole_a_day
from stockroom.errors import BadInput
from tests.domain.horizon_cases import START, amounts, day
from tests.workings import check_figures, step_of

EXAMPLE = (Due(Fraction(6), day(10)), Due(Fraction(30), day(30)), Due(Fraction(24), day(60)))


def rate_of(*dues: tuple[Fraction | int, int], count: bool = False) -> EatingRate:
    """The rate for servings by so many days after the first."""
    return least_rate(
        [Due(Fraction(servings), day(number)) for servings, number in dues],
        START,
        count_best_by_day=count,
    )


def test_the_worked_example() -> None:
    # Computed by hand: 6/10, 36/30, 60/60, so the second day binds at 6/5 a day.
    found = least_rate(EXAMPLE, START)
    assert found.servings_per_day == Fraction(6, 5)
    assert found.binding_date == date(2026, 3, 31)
    assert found.servings_per_week == Fraction(42, 5)
    assert [one.servings_per_day for one in found.days] == [
        Fraction(3, 5), Fraction(6, 5), Fraction(1),
    ]  # fmt: skip
    assert late_days(found, found.servings_per_day) == ()


def test_slower_rates_are_late_by_what_the_example_says() -> None:
    # At 1.1 a day the second group ends on day 32.73, 2.73 late; at 1 a day on day 36, 6 late.
    found = least_rate(EXAMPLE, START)
    (late,) = late_days(found, Fraction(11, 10))
    assert late.due.best_by == day(30)
    assert float(late.eaten_after_days) == pytest.approx(32.727, abs=0.001)
    assert float(late.days_late) == pytest.approx(2.727, abs=0.001)
    assert found.average_per_day == 1
    (naive,) = late_days(found, found.average_per_day)
    assert (naive.eaten_after_days, naive.days_late) == (36, 6)


def test_the_best_by_day_counts_only_when_asked() -> None:
    found = least_rate(EXAMPLE, START, count_best_by_day=True)
    assert [one.days for one in found.days] == [11, 31, 61]
    assert found.servings_per_day == Fraction(36, 31)
    # What is best by today can still be eaten today, if its best-by day counts.
    assert rate_of((3, 0), count=True).servings_per_day == 3
    assert rate_of((3, 0)).past_due == (Due(Fraction(3), START),)


def test_nothing_to_eat_asks_for_nothing() -> None:
    for found in (rate_of(), rate_of((0, 5)), rate_of((4, -1))):
        assert (found.servings_per_day, found.binding_date, found.days) == (0, None, ())
        assert found.average_per_day == 0
        assert late_days(found, Fraction(0)) == ()


def test_past_is_apart_and_ties_are_merged() -> None:
    found = rate_of((2, 10), (4, -2), (4, 10), (1, 0))
    assert [(one.best_by, one.servings) for one in found.days] == [(day(10), 6)]
    assert [due.best_by for due in found.past_due] == [day(-2), day(0)]
    assert found.servings_per_day == Fraction(6, 10)


def test_of_two_days_that_ask_the_same_the_first_binds() -> None:
    assert rate_of((10, 10), (10, 20)).binding_date == day(10)


def test_less_than_nothing_is_a_fault() -> None:
    with pytest.raises(ValueError, match="-1 servings"):
        rate_of((-1, 4))
    with pytest.raises(ValueError, match="servings a day"):
        late_days(rate_of((1, 4)), Fraction(0))


def worst_day_late(dues: list[Due], a_day: Fraction) -> int:
    """Eat day by day in best-by order; whole days by which the latest serving misses its day."""
    left = [[(due.best_by - START).days, due.servings] for due in sorted(dues, key=lambda d: d[1])]
    worst = 0
    for number in range(1, 5_000):
        appetite = a_day
        for entry in left:
            eaten = min(appetite, Fraction(entry[1]))
            entry[1] -= eaten
            appetite -= eaten
            if eaten and number > entry[0]:
                worst = max(worst, int(number - entry[0]))
        if not any(entry[1] for entry in left):
            return worst
    return worst


@given(st.lists(st.tuples(amounts, st.integers(1, 30)), max_size=7))
def test_the_least_rate_is_just_enough(dues: list[tuple[Fraction, int]]) -> None:
    every = [Due(servings, day(number)) for servings, number in dues]
    found = least_rate(every, START)
    if not found.servings_per_day:
        assert not any(servings for servings, _ in dues)
        return
    assert worst_day_late(every, found.servings_per_day) == 0
    # A thousandth less leaves part of the binding group for the day after.
    assert worst_day_late(every, found.servings_per_day * Fraction(999, 1000)) > 0
    assert late_days(found, found.servings_per_day) == ()
    assert late_days(found, found.servings_per_day * Fraction(999, 1000))
    assert found.average_per_day <= found.servings_per_day


@pytest.mark.parametrize(
    ("rate", "words", "exact"),
    [
        (Fraction(6, 5), "6 every 5 days", True),
        (Fraction(2), "2 a day", True),
        (Fraction(1, 3), "1 every 3 days", True),
        (Fraction(0), "none", True),
        # 36/31 = 1.1613: of sevenths to fourteenths the least above it is 7/6 = 1.1667.
        (Fraction(36, 31), "7 every 6 days", False),
        (Fraction(1, 1000), "1 every 14 days", False),
    ],
)
def test_a_rate_in_words(rate: Fraction, words: str, exact: bool) -> None:
    found = rhythm(rate)
    assert (found.words, found.exact) == (words, exact)


@given(st.fractions(0, 50))
def test_words_never_slow_a_rate_down(rate: Fraction) -> None:
    found = rhythm(rate)
    assert found.servings_per_day >= rate
    assert found.exact == (found.servings_per_day == rate)
    assert found.days <= 14
    assert rate <= whole_a_day(rate) < rate + 1
    # Nothing between the two can be said within a fortnight.
    for days in range(1, 15):
        servings = -((-rate * days) // 1)
        assert Fraction(servings, days) >= found.servings_per_day


def test_no_rate_is_below_nought() -> None:
    with pytest.raises(ValueError, match="-1 servings"):
        rhythm(Fraction(-1))


def test_the_working_shows_the_largest_and_what_less_would_do() -> None:
    working = eating_rate_working(least_rate(EXAMPLE, START))
    assert check_figures(working) == 1
    assert step_of(working, "largest of them").figures == "36 servings / 30 days"
    others = step_of(working, "what other rates would do").result
    assert "ends 6.0 days after 2026-03-31" in others
    assert working.conclusion == "1.2 (6/5) servings a day"
    assert any("not safety" in text for text in working.cautions)
    assert any("Jackson" in one.citation for one in working.sources)


def test_the_working_of_a_long_list_shows_the_days_that_ask_for_most() -> None:
    working = eating_rate_working(rate_of(*((1, number) for number in range(1, 40))))
    step = step_of(working, "rate each best-by day")
    assert "27 lower ones left out" in step.title and len(step.inputs) == 12
    assert "0 servings/day" in step_of(eating_rate_working(rate_of()), "least rate").result


@pytest.mark.parametrize(
    "text",
    [
        "servings,best_by\n6,2026-03-11\n1.5,2026-03-31\n",
        "\ufeffservings;best_by\r\n6;2026-03-11\r\n1,5;2026-03-31\r\n",
        "food\tBest by\tSERVINGS\npeas\t2026-03-11\t6\n\nstew\t2026-03-31\t1 1/2\n",
        'best-by,"servings"\n2026-03-11,"6"\n 2026-03-31 , 1.50 ',
    ],
)
def test_a_list_is_read_however_it_is_set_out(text: str) -> None:
    assert read_dues(text) == (Due(Fraction(6), day(10)), Due(Fraction(3, 2), day(30)))


def test_an_empty_list_and_an_emptied_package() -> None:
    assert read_dues("servings,best_by\n") == ()
    assert (
        read_dues("servings,best_by\n0,2026-03-11\n0.0,2026-03-11\n")
        == (Due(Fraction(0), day(10)),) * 2
    )


def test_every_bad_line_is_named() -> None:
    lines = ["servings,best_by", "6,2026-03-11", "x,2026-03-11", "", "-2,2026-03-11", "6", "6,+3"]
    with pytest.raises(DueLinesUnreadable) as caught:
        read_dues("\n".join(lines))
    found = caught.value
    assert [line.split(",")[0] for line in found.bad_lines] == [
        "line 3", "line 5", "line 6", "line 7",
    ]  # fmt: skip
    assert found.exit_code == 2
    assert "line 3, servings: “x” cannot be read" in found.message
    assert "line 6, best_by: nothing cannot be read" in found.message
    many = "servings,best_by\n" + "6,2026-02-30\n" * 9
    with pytest.raises(DueLinesUnreadable, match="and 4 more"):
        read_dues(many)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "columns: nothing cannot be read"),
        ("6,2026-03-11\n", "columns: “6, 2026-03-11” cannot be read"),
        ("servings,best_by,Servings\n", "columns"),
        ("servings,best_by\n" + "x" * 200_000 + ",2026-03-11\n", "line 2"),
        ("\n" * 500_001, "500002 lines"),
    ],
)
def test_a_list_without_its_columns_is_no_list(text: str, said: str) -> None:
    with pytest.raises(BadInput) as caught:
        read_dues(text)
    assert said in caught.value.message


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    for whole in (text, f"servings,best_by\n{text}"):
        try:
            read_dues(whole)
        except (BadInput, DueLinesUnreadable) as trouble:
            assert trouble.message.isprintable()
