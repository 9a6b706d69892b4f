"""When a check of the machine comes due, on each side of every boundary."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.upkeep import (
    NEVER_DONE,
    CheckHistory,
    Machine,
    UpkeepCheck,
    UpkeepItem,
    UpkeepState,
    due_now,
    upkeep_items,
)
from stockroom.domain.upkeep_intervals import OFF, Every, Interval, read_interval
from stockroom.domain.working import Source, Standing
from stockroom.errors import BadInput

TODAY = date(2026, 11, 25)
PRACTICE = Source("practice", "Common practice", Standing.COMMON_PRACTICE)
RUNNING = Machine(date(2026, 9, 1))
UNUSED = Machine(None)


def check(key: str, every: Every, count: int = 1, after: tuple[str, ...] = ()) -> UpkeepCheck:
    """One row of a table."""
    return UpkeepCheck(
        key, key, f"Look at the {key}.", Interval(every, count), after, PRACTICE,
        PRACTICE.standing, None,
    )  # fmt: skip


def passed(day: date, runs: int = 0, tenths: int = 0, unknown: int = 0) -> CheckHistory:
    """A check last done on a day, in order, with what the machine has run since."""
    return CheckHistory(
        last_on=day,
        last_passed=True,
        passed_on=day,
        runs_since=runs,
        hours_tenths=tenths,
        unknown_hours=unknown,
    )


def only(
    one: UpkeepCheck,
    history: CheckHistory = NEVER_DONE,
    *,
    own: Interval | None = None,
    machine: Machine = RUNNING,
    today: date = TODAY,
) -> UpkeepItem:
    """One check as it stands."""
    (found,) = upkeep_items(
        [one], {} if own is None else {one.key: own}, {one.key: history}, machine, today
    )
    return found


@pytest.mark.parametrize(
    ("done", "state", "overdue"),
    [
        (date(2026, 11, 25), UpkeepState.LATER, 0),
        (date(2026, 10, 27), UpkeepState.LATER, 0),
        (date(2026, 10, 26), UpkeepState.DUE, 0),
        (date(2026, 10, 25), UpkeepState.DUE, 1),
    ],
)
def test_by_days_it_is_due_from_the_day_itself(
    done: date, state: UpkeepState, overdue: int
) -> None:
    found = only(check("coil", Every.DAYS, 30), passed(done))
    assert (found.state, found.overdue_days) == (state, overdue)
    assert found.due_on == done + timedelta(days=30)
    assert done.isoformat() in found.reason


def test_never_done_counts_from_the_first_run() -> None:
    coil = check("coil", Every.DAYS, 60)
    assert only(coil, today=date(2026, 10, 30)).state is UpkeepState.LATER
    found = only(coil, today=date(2026, 10, 31))
    assert (found.state, found.due_on) == (UpkeepState.DUE, date(2026, 10, 31))
    assert "never noted" in found.reason.lower()


@pytest.mark.parametrize("every", Every)
def test_never_done_and_with_no_run_on_record_it_is_not_due(every: Every) -> None:
    found = only(check("any", every, 1), machine=UNUSED)
    assert found.state is UpkeepState.UNUSED
    assert not found.wanted and found.due_on is None


def test_once_done_it_comes_again_without_a_run() -> None:
    found = only(check("scale", Every.DAYS, 30), passed(date(2026, 10, 1)), machine=UNUSED)
    assert found.state is UpkeepState.DUE


@pytest.mark.parametrize("every", [Every.LOAD, Every.RUN])
@pytest.mark.parametrize(
    ("history", "state"),
    [
        (passed(TODAY, runs=0), UpkeepState.LATER),
        (passed(TODAY, runs=1), UpkeepState.LATER),
        (passed(TODAY, runs=2), UpkeepState.DUE),
        (CheckHistory(runs_since=1), UpkeepState.DUE),
    ],
)
def test_one_doing_serves_one_run(every: Every, history: CheckHistory, state: UpkeepState) -> None:
    found = only(check("gasket", every), history)
    assert found.state is state
    assert found.due_on is None and found.by_the_run


@pytest.mark.parametrize(
    ("history", "state", "said"),
    [
        (passed(TODAY, tenths=99), UpkeepState.LATER, "9 h of running since"),
        (passed(TODAY, tenths=100), UpkeepState.DUE, "10 h of running since"),
        # A run without noted hours counts as 24 (engineering judgement), and that is said.
        (
            passed(TODAY, unknown=1),
            UpkeepState.DUE,
            "24 h of running since it was last done (1 run",
        ),
        (
            CheckHistory(hours_tenths=300, unknown_hours=2),
            UpkeepState.DUE,
            "78 h of running, never",
        ),
    ],
)
def test_by_hours_of_running(history: CheckHistory, state: UpkeepState, said: str) -> None:
    found = only(check("oil_change", Every.HOURS, 10), history)
    assert found.state is state
    assert found.reason.startswith(said)


def test_at_fault_stays_due_until_it_passes() -> None:
    day = date(2026, 11, 20)
    history = CheckHistory(last_on=day, last_passed=False, passed_on=day, failed_on=day)
    for every in Every:
        found = only(check("hose", every, 1), history)
        assert (found.state, found.due_on, found.overdue_days) == (UpkeepState.FAULT, day, 5)
        assert "put it right" in found.reason


@pytest.mark.parametrize(
    ("gasket_failed", "leak_passed", "due"),
    [
        (date(2026, 11, 20), date(2026, 11, 19), True),
        (date(2026, 11, 20), date(2026, 11, 20), False),
        (date(2026, 11, 20), date(2026, 11, 21), False),
        (date(2026, 11, 20), None, True),
        (None, date(2026, 11, 19), False),
    ],
)
def test_work_on_the_seal_makes_the_leak_test_due(
    gasket_failed: date | None, leak_passed: date | None, due: bool
) -> None:
    gasket = CheckHistory(TODAY, True, TODAY, gasket_failed)
    leak = NEVER_DONE if leak_passed is None else passed(leak_passed)
    test = check("leak", Every.DAYS, 365, after=("gasket", "hose"))
    items = upkeep_items(
        [check("gasket", Every.LOAD), test],
        {},
        {"gasket": gasket, "leak": leak},
        RUNNING,
        TODAY,
    )
    (found,) = (item for item in items if item.check is test)
    assert (found.state is UpkeepState.DUE) is due
    assert ("gasket" in found.reason) is due
    if due:
        assert found.due_on == gasket_failed


def test_the_latest_trouble_is_named() -> None:
    test = check("leak", Every.DAYS, 365, after=("gasket", "hose"))
    histories = {
        "gasket": CheckHistory(failed_on=date(2026, 11, 1)),
        "hose": CheckHistory(failed_on=date(2026, 11, 9)),
    }
    (found,) = upkeep_items([test], {}, histories, RUNNING, TODAY)
    assert found.due_on == date(2026, 11, 9)
    assert "hose" in found.reason


def test_the_household_sets_its_own_interval() -> None:
    oil = check("oil_change", Every.HOURS, 10)
    own = Interval(Every.DAYS, 90)
    found = only(oil, passed(TODAY, tenths=5_000), own=own)
    assert found.own_interval and found.interval == own
    assert (found.state, found.due_on) == (UpkeepState.LATER, TODAY + timedelta(days=90))
    assert not only(oil).own_interval


def test_a_check_may_be_left_out() -> None:
    failed = CheckHistory(TODAY, False, None, TODAY)
    for history in (NEVER_DONE, failed, passed(date(2020, 1, 1), runs=99)):
        found = only(check("oil", Every.RUN), history, own=OFF)
        assert found.state is UpkeepState.OFF
        assert not found.wanted


def test_the_gravest_comes_first_and_the_longest_overdue() -> None:
    checks = [
        check("far", Every.DAYS, 365),
        check("late", Every.DAYS, 30),
        check("later", Every.DAYS, 10),
        check("fault", Every.LOAD),
        check("seal", Every.LOAD),
    ]
    day = TODAY - timedelta(days=40)
    histories = {one.key: passed(day, runs=3) for one in checks}
    histories["fault"] = CheckHistory(TODAY, False, None, TODAY)
    items = upkeep_items(checks, {}, histories, RUNNING, TODAY)
    assert [item.check.key for item in items] == ["fault", "later", "late", "seal", "far"]
    # What belongs to each load is left to the load, so a day's list does not fill with it.
    assert [item.check.key for item in due_now(items)] == ["fault", "later", "late"]


@pytest.mark.parametrize(
    ("interval", "words"),
    [
        (Interval(Every.LOAD, 1), "every load"),
        (Interval(Every.RUN, 1), "every run"),
        (Interval(Every.HOURS, 10), "every 10 h of running"),
        (Interval(Every.DAYS, 1), "every day"),
        (Interval(Every.DAYS, 30), "every 30 days"),
        (OFF, "left out"),
    ],
)
def test_intervals_in_words(interval: Interval, words: str) -> None:
    assert interval.words == words
    assert bool(interval.typed) is (interval.every in (Every.DAYS, Every.HOURS))


@pytest.mark.parametrize(
    ("typed", "interval"),
    [
        ("30", Interval(Every.DAYS, 30)),
        ("1 day", Interval(Every.DAYS, 1)),
        (" 3660 Days ", Interval(Every.DAYS, 3_660)),
        ("45d", Interval(Every.DAYS, 45)),
        ("40 h", Interval(Every.HOURS, 40)),
        ("40 hours", Interval(Every.HOURS, 40)),
        ("Off", OFF),
        ("usual", None),
    ],
)
def test_an_interval_is_read(typed: str, interval: Interval | None) -> None:
    assert read_interval(typed) == interval
    if interval is not None:
        assert read_interval(interval.typed) == interval


@pytest.mark.parametrize("typed", ["", "0", "-1", "often", "3661", "20001 h", "1.5", "2 weeks"])
def test_what_is_no_interval_is_refused(typed: str) -> None:
    with pytest.raises(BadInput, match="interval") as caught:
        read_interval(typed)
    assert "40 h" in caught.value.hint


@given(
    st.dates(date(2026, 1, 1), date(2027, 12, 31)),
    st.integers(1, 400),
    st.dates(date(2026, 1, 1), date(2027, 12, 31)),
)
def test_a_check_by_days_is_due_exactly_when_its_day_has_come(
    done: date, days: int, today: date
) -> None:
    found = only(check("coil", Every.DAYS, days), passed(done), today=today)
    assert found.due_on is not None
    assert found.wanted is (today >= found.due_on)
    assert found.overdue_days == (max(0, (today - found.due_on).days) if found.wanted else 0)
    assert found.reason.endswith(".")
