"""The day's list and the spread: nothing dropped, nothing late, no day too full without need."""

from __future__ import annotations

import sqlite3
from collections import Counter, defaultdict
from dataclasses import astuple, replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import combinations_with_replacement
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.calendar import add_months
from stockroom.domain.recheck_facts import STANDARD, RecheckFacts, RecheckSettings
from stockroom.domain.recheck_spread import (
    Planned,
    due_today,
    gravest_first,
    levelled,
    next_set_aside,
    spread,
)
from stockroom.domain.records import StoredRecheck
from tests.domain.recheck_cases import PLAIN, after, found_crisp, row

MONDAY = date(2026, 11, 23)
TODAY = MONDAY
SATURDAYS = RecheckSettings(set_aside=frozenset({5}))


def on(days: int) -> date:
    """The day so many days after today, a Monday."""
    return TODAY + timedelta(days=days)


def package(
    package_id: int, wanted: int, latest: int, risk: int = 0, earliest: int | None = None
) -> StoredRecheck:
    """A row with its days counted from today."""
    return StoredRecheck(
        package_id, on(wanted if earliest is None else earliest), on(wanted), on(latest), risk
    )


def ids(rows: tuple[StoredRecheck, ...]) -> list[int]:
    return [one.package_id for one in rows]


# -- days set aside ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("weekdays", "day", "following"),
    [
        (range(7), 0, 1),
        ({0}, 0, 7),
        ({5}, 0, 5),
        ({5}, 5, 12),
        ({5}, 6, 12),
        ({1, 4}, 1, 4),
        ({1, 4}, 4, 8),
    ],
)
def test_the_next_day_set_aside(weekdays: set[int], day: int, following: int) -> None:
    assert next_set_aside(on(day), RecheckSettings(set_aside=frozenset(weekdays))) == on(following)


# -- today's list --------------------------------------------------------------------------------


def test_the_gravest_come_first_and_the_rest_waits() -> None:
    rows = [
        package(1, -3, 9, 10),
        package(2, 0, 5, 30),
        package(3, -1, 8, 20),
        package(4, 1, 2, 99),
    ]
    assert ids(due_today(TODAY, rows)) == [2, 3, 1]
    assert ids(due_today(TODAY, rows, RecheckSettings(most_a_day=2))) == [2, 3]


def test_a_tie_goes_by_the_latest_day_and_then_by_number() -> None:
    rows = [package(4, 0, 9, 5), package(2, 0, 9, 5), package(3, 0, 8, 5)]
    assert ids(due_today(TODAY, rows)) == [3, 2, 4]


def test_the_limit_outranks_the_load() -> None:
    rows = [package(number, -1, 0, number) for number in range(1, 6)]
    assert ids(due_today(TODAY, rows, RecheckSettings(most_a_day=2))) == [5, 4, 3, 2, 1]


def test_what_is_late_stays_on_the_list_every_day() -> None:
    late = package(1, -40, -10)
    assert ids(due_today(TODAY, [late], SATURDAYS)) == [1]


def test_other_days_have_only_what_cannot_wait_for_a_day_set_aside() -> None:
    rows = [package(1, 0, 4, 1), package(2, 0, 5, 9), package(3, 1, 4, 9)]
    assert ids(due_today(TODAY, rows, SATURDAYS)) == [1]
    assert ids(due_today(on(1), rows, SATURDAYS)) == [3, 1]
    assert ids(due_today(on(5), rows[1:2], SATURDAYS)) == [2]


def test_a_row_given_twice_is_listed_once() -> None:
    assert ids(due_today(TODAY, [package(1, 0, 3), package(1, 0, 3)])) == [1]


@st.composite
def any_rows(draw: st.DrawFn, most_rows: int = 40, reach: int = 20) -> tuple[StoredRecheck, ...]:
    """Rows around today: some late already, many close together."""
    rows: list[StoredRecheck] = []
    for number in range(draw(st.integers(0, most_rows))):
        wanted = draw(st.integers(-5, reach))
        earliest = wanted - draw(st.integers(0, 6))
        latest = wanted + draw(st.integers(0, 8))
        rows.append(package(number + 1, wanted, latest, draw(st.integers(0, 9)), earliest))
    return tuple(rows)


some_settings = st.builds(
    RecheckSettings,
    set_aside=st.sets(st.integers(0, 6), min_size=1).map(frozenset),
    most_a_day=st.integers(1, 5),
)

BY_WANTED = """
    SELECT * FROM recheck WHERE wanted_on <= :today AND :set_aside
    ORDER BY risk DESC, latest_on, package_id LIMIT :most_a_day
"""
BY_LATEST = "SELECT * FROM recheck WHERE latest_on < :following AND wanted_on <= :today"


def queried(
    today: date, rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> list[StoredRecheck]:
    """What the two queries the list rests on give, asked of a real database."""
    database = sqlite3.connect(":memory:")
    database.execute("CREATE TABLE recheck (package_id, earliest_on, wanted_on, latest_on, risk)")
    database.executemany(
        "INSERT INTO recheck VALUES (?, ?, ?, ?, ?)",
        [
            (n, e.isoformat(), w.isoformat(), u.isoformat(), r)
            for n, e, w, u, r in map(astuple, rows)
        ],
    )
    asked = {
        "today": today.isoformat(),
        "following": next_set_aside(today, wishes).isoformat(),
        "set_aside": today.weekday() in wishes.set_aside,
        "most_a_day": wishes.most_a_day,
    }
    day = date.fromisoformat
    found = [
        StoredRecheck(number, day(earliest), day(wanted), day(latest), risk)
        for query in (BY_WANTED, BY_LATEST)
        for number, earliest, wanted, latest, risk in database.execute(query, asked)
    ]
    database.close()
    return found


@settings(max_examples=150, deadline=None)
@given(rows=any_rows(), wishes=some_settings, day=st.integers(0, 6))
def test_two_queries_give_the_list_of_the_whole_store(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings, day: int
) -> None:
    whole = due_today(on(day), rows, wishes)
    assert due_today(on(day), queried(on(day), rows, wishes), wishes) == whole


# -- the spread ----------------------------------------------------------------------------------


def test_nothing_to_look_at() -> None:
    assert spread((), TODAY, on(100)) == ()
    assert levelled((), TODAY) == ()


def test_with_room_enough_each_is_looked_at_when_it_is_wanted() -> None:
    rows = [package(number, number, number + 5, earliest=0) for number in range(1, 15)]
    planned = spread(rows, TODAY, on(100))
    assert [(one.package_id, one.on_day) for one in planned] == [(n, on(n)) for n in range(1, 15)]


def test_a_day_set_aside_before_the_one_wanted_is_kept_to_where_it_may_be() -> None:
    # Wanted on Tuesday, by Thursday: the Saturday before is in its span, for the other it is not.
    rows = [package(1, 8, 10, earliest=4), package(2, 8, 10, earliest=6)]
    planned = spread(rows, TODAY, on(20), SATURDAYS)
    assert planned == (Planned(1, on(5), 0), Planned(2, on(8), 0))


def test_a_wall_is_carried_forward_and_the_gravest_go_first() -> None:
    rows = [package(number, 9, 9, number, earliest=5) for number in range(1, 7)]
    planned = spread(rows, TODAY, on(20), RecheckSettings(most_a_day=2))
    assert [(one.on_day, one.package_id) for one in planned] == [
        (on(7), 6),
        (on(7), 5),
        (on(8), 4),
        (on(8), 3),
        (on(9), 2),
        (on(9), 1),
    ]


def test_a_wall_that_no_day_can_take_is_shared_out_evenly() -> None:
    rows = [package(number, 9, 9, earliest=7) for number in range(1, 13)]
    planned = spread(rows, TODAY, on(20), RecheckSettings(most_a_day=2))
    assert Counter(one.on_day for one in planned) == {on(7): 4, on(8): 4, on(9): 4}


def test_the_spread_ends_where_it_is_asked_to() -> None:
    rows = [package(number, number, number) for number in range(10)]
    assert [one.package_id for one in spread(rows, TODAY, on(4))] == [0, 1, 2, 3, 4]


def days_of(row: StoredRecheck, wishes: RecheckSettings) -> list[date]:
    """The days set aside a package may still be looked at on."""
    first, last = max(TODAY, row.earliest_on), max(TODAY, row.latest_on)
    every = (first + timedelta(days=number) for number in range((last - first).days + 1))
    return [day for day in every if day.weekday() in wishes.set_aside]


Stretch = tuple[date, date]


def overfull(rows: list[StoredRecheck], wishes: RecheckSettings) -> dict[Stretch, Fraction]:
    """Stretches of days set aside → packages that must be looked at inside, to each of its days."""
    days = sorted({day for one in rows for day in days_of(one, wishes)})
    spans = [(reach[0], reach[-1]) for one in rows if (reach := days_of(one, wishes))]
    return {
        (start, end): Fraction(
            sum(start <= first and last <= end for first, last in spans),
            len(set_aside_within(start, end, wishes)),
        )
        for start, end in combinations_with_replacement(days, 2)
    }


def set_aside_within(start: date, end: date, wishes: RecheckSettings) -> list[date]:
    """Every day set aside from start to end."""
    every = (start + timedelta(days=number) for number in range((end - start).days + 1))
    return [day for day in every if day.weekday() in wishes.set_aside]


@settings(max_examples=150, deadline=None)
@given(rows=any_rows(), wishes=some_settings)
def test_nothing_is_dropped_nothing_early_nothing_late(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    planned = {one.package_id: one.on_day for one in spread(rows, TODAY, on(60), wishes)}
    assert planned.keys() == {one.package_id for one in rows}
    assert len(spread(rows, TODAY, on(60), wishes)) == len(rows)
    for one in rows:
        assert max(TODAY, one.earliest_on) <= planned[one.package_id]
        assert planned[one.package_id] <= max(TODAY, one.latest_on)


@settings(max_examples=150, deadline=None)
@given(rows=any_rows(), wishes=some_settings)
def test_only_what_has_no_day_set_aside_comes_on_another(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    planned = {one.package_id: one.on_day for one in spread(rows, TODAY, on(60), wishes)}
    for one in rows:
        on_another = planned[one.package_id].weekday() not in wishes.set_aside
        assert on_another == (not days_of(one, wishes))


@settings(max_examples=80, deadline=None)
@given(rows=any_rows(reach=8), wishes=some_settings)
def test_a_day_is_overfull_only_where_there_is_no_other_way(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    """Whoever has all days within a stretch has to go there, and that is all that forces a load:
    Hall, On representatives of subsets, 1935, for spans of days."""
    planned = spread(rows, TODAY, on(60), wishes)
    load = Counter(one.on_day for one in planned if one.on_day.weekday() in wishes.set_aside)
    forced = overfull([one for one in rows if days_of(one, wishes)], wishes)
    least = max((ceil(share) for share in forced.values()), default=0)
    assert max(load.values(), default=0) <= max(wishes.most_a_day, least)
    for day, count in load.items():
        if count > wishes.most_a_day:
            around = [share for (start, end), share in forced.items() if start <= day <= end]
            assert max(around) > wishes.most_a_day


@settings(max_examples=100, deadline=None)
@given(rows=any_rows(), wishes=some_settings)
def test_the_spread_is_the_list_of_each_day(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    """Day by day, each list seen to: the same packages on the same days in the same order."""
    left = {one.package_id: one for one in levelled(rows, TODAY, wishes)}
    listed: list[tuple[int, date]] = []
    for number in range(40):
        for one in due_today(on(number), left.values(), wishes):
            listed.append((one.package_id, on(number)))
            del left[one.package_id]
    assert [(one.package_id, one.on_day) for one in spread(rows, TODAY, on(39), wishes)] == listed


@settings(max_examples=100, deadline=None)
@given(rows=any_rows(), wishes=some_settings)
def test_levelling_only_brings_forward_and_within_what_is_allowed(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    for before, then in zip(rows, levelled(rows, TODAY, wishes), strict=True):
        assert before.earliest_on == then.earliest_on
        assert min(before.wanted_on, then.latest_on) == then.wanted_on
        assert then.latest_on <= before.latest_on
        assert (
            then == before
            or then.wanted_on >= max(TODAY, before.earliest_on)
            or (then.wanted_on == before.wanted_on)
        )


@settings(max_examples=100, deadline=None)
@given(rows=any_rows(most_rows=5), wishes=some_settings)
def test_where_there_is_room_nothing_is_brought_forward(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    roomy = replace(wishes, most_a_day=5)
    planned = {one.package_id: one.on_day for one in spread(rows, TODAY, on(60), roomy)}
    for one in rows:
        reach = [day for day in days_of(one, wishes) if day >= one.wanted_on]
        if reach:
            assert planned[one.package_id] == reach[0]


@settings(max_examples=50, deadline=None)
@given(rows=any_rows(), wishes=some_settings)
def test_each_day_has_the_gravest_first(
    rows: tuple[StoredRecheck, ...], wishes: RecheckSettings
) -> None:
    by_day: defaultdict[date, list[int]] = defaultdict(list)
    planned = spread(rows, TODAY, on(60), wishes)
    for one in planned:
        by_day[one.on_day].append(one.risk)
    assert [one.on_day for one in planned] == sorted(one.on_day for one in planned)
    assert all(risks == sorted(risks, reverse=True) for risks in by_day.values())
    assert list(rows) == sorted(rows, key=lambda one: one.package_id)
    assert sorted(rows, key=gravest_first) == sorted(
        rows, key=lambda one: (-one.risk, one.latest_on, one.package_id)
    )


# -- a great packing day -------------------------------------------------------------------------

FOODS = (
    replace(
        PLAIN,
        food_class="fruit",
        sugars_of_solids=Fraction(70, 100),
        low=add_months(PLAIN.sealed_on, 24),
        best_by=add_months(PLAIN.sealed_on, 60),
    ),
    replace(PLAIN, absorber_cc=300),
    replace(
        PLAIN,
        food_class="lean_meat",
        package_kind="jar",
        absorber_cc=300,
        fat_of_solids=Fraction(20, 100),
        low=add_months(PLAIN.sealed_on, 30),
        best_by=add_months(PLAIN.sealed_on, 60),
    ),
    replace(
        PLAIN,
        food_class="meal",
        absorber_cc=300,
        fat_of_solids=Fraction(12, 100),
        low=add_months(PLAIN.sealed_on, 36),
        best_by=add_months(PLAIN.sealed_on, 60),
    ),
)


def great_packing_day(foods: tuple[RecheckFacts, ...], count: int = 500) -> list[RecheckFacts]:
    """So many packages of one day in lots of twelve, all settled the day after."""
    return [
        replace(found_crisp(1, facts=foods[number // 12 % len(foods)]), package_id=3_000 + number)
        for number in range(count)
    ]


@pytest.mark.parametrize("foods", [FOODS, FOODS[:1], FOODS[2:3], (PLAIN,)])
def test_five_hundred_of_one_day_are_spread_from_the_first_look_on(
    foods: tuple[RecheckFacts, ...],
) -> None:
    rows = [row(facts, STANDARD) for facts in great_packing_day(foods)]
    load = Counter(one.on_day for one in spread(rows, after(2), after(400)))
    assert sum(load.values()) == 500
    assert max(load.values()) <= STANDARD.most_a_day


def test_five_hundred_of_one_day_never_fill_a_day_in_three_years() -> None:
    """Every list seen to on its day, every package crisp: from the settle check to the low edge.

    The services' way: the list of the day out of the stored rows, no plan kept.
    """
    facts = {one.package_id: one for one in great_packing_day(FOODS)}
    rows = {number: row(one, STANDARD) for number, one in facts.items()}
    for number in range(2, 3 * 365):
        listed = due_today(after(number), rows.values())
        assert len(listed) <= STANDARD.most_a_day
        for one in listed:
            assert one.earliest_on <= after(number) <= one.latest_on
            seen = facts[one.package_id]
            found = (*seen.findings, (after(number), "crisp"))
            facts[one.package_id] = seen = replace(seen, findings=found)
            rows[one.package_id] = row(seen, STANDARD)
    assert min(len(one.findings) for one in facts.values()) >= 6


def test_one_day_a_week_takes_what_it_must_and_no_more() -> None:
    """500 to look at from day 6 to 31 at the latest, with three Saturdays in it."""
    rows = [row(facts, SATURDAYS) for facts in great_packing_day((PLAIN,))]
    load = Counter(one.on_day for one in spread(rows, after(2), after(60), SATURDAYS))
    assert {day.weekday() for day in load} == {5}
    assert sorted(load.values()) == [166, 167, 167]
