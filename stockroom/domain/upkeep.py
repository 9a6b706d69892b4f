"""Checks of the machine: when each comes due again, and why.

A check goes by days, by loads, by runs or by hours of running. What has been done is given as
facts; today is a parameter. Boundaries, all engineering judgement:

- by days: due from the day itself, `done + days`. A check never done counts from the first run on
  record; with no run on record either it is not due, for there may be no machine.
- by load or run: one doing serves the first run that starts on its day or later, so that wiping a
  seal just before or just after a run is written down both count. Due once a second has started.
- by hours: the hours of all runs that started on the day of the last doing or later.
- found at fault: due until it is done and passes.
- after trouble elsewhere: found at fault there on a later day than this check last passed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from stockroom.domain.calendar import days_between
from stockroom.domain.upkeep_intervals import Every, Interval
from stockroom.domain.working import Source, Standing

RUN_HOURS_TENTHS = 240
"""A run nobody noted the hours of counts as 24 h: engineering judgement, said where it is used."""


@dataclass(frozen=True, slots=True)
class UpkeepCheck:
    """One thing to look at, with how often and on whose word."""

    key: str
    """Short, lower case, typed by hand."""
    name: str
    look: str
    """What to look at and what to do."""
    interval: Interval
    after_trouble_with: tuple[str, ...]
    """Keys of checks whose fault makes this one due as well."""
    source: Source
    standing: Standing
    anchor: Source | None
    """A published figure the interval was drawn toward, if there is one."""


@dataclass(frozen=True, slots=True)
class Machine:
    """What the machine has run: the day of its first run on record, None when there is none."""

    first_run_on: date | None


@dataclass(frozen=True, slots=True)
class CheckHistory:
    """What is on record of one check, and what the machine has run since it last passed.

    Runs count from the day it last passed, that day included; from the first run when it never
    did. For a check by loads `runs_since` counts them; for one by hours `unknown_hours` of them
    have no hours noted and `hours_tenths` are of the others.
    """

    last_on: date | None = None
    last_passed: bool = True
    passed_on: date | None = None
    failed_on: date | None = None
    """The latest day it was found at fault, put right since or not."""
    note: str = ""
    """The note of the latest doing."""
    runs_since: int = 0
    hours_tenths: int = 0
    unknown_hours: int = 0
    more_hours: bool = False
    """Whether the machine has run longer than these hours, which are enough to tell."""

    @property
    def all_hours_tenths(self) -> int:
        """Hours of running since, those of runs without noted hours taken as 24 each."""
        return running_tenths(self.hours_tenths, self.unknown_hours)


def running_tenths(hours_tenths: int, unknown_hours: int) -> int:
    """Hours of running in tenths, so many runs without noted hours taken as 24 h each."""
    return hours_tenths + unknown_hours * RUN_HOURS_TENTHS


NEVER_DONE = CheckHistory()


class UpkeepState(StrEnum):
    """How a check stands; the gravest first."""

    FAULT = "at fault"
    DUE = "due"
    LATER = "not yet"
    UNUSED = "no runs yet"
    OFF = "left out"


@dataclass(frozen=True, slots=True)
class UpkeepItem:
    """One check as it stands today."""

    check: UpkeepCheck
    interval: Interval
    """The one in force: the household's own, else the table's."""
    own_interval: bool
    state: UpkeepState
    due_on: date | None
    """The day it comes or came due; None where that hangs on runs not started yet."""
    overdue_days: int
    """Whole days past `due_on`; 0 on the day itself, before it and where there is no day."""
    reason: str
    """Why, in one sentence."""
    history: CheckHistory

    @property
    def wanted(self) -> bool:
        """Whether it wants doing now."""
        return self.state in (UpkeepState.FAULT, UpkeepState.DUE)

    @property
    def by_the_run(self) -> bool:
        """Whether it belongs to each load or run rather than to a day."""
        return self.interval.every in (Every.LOAD, Every.RUN)


def upkeep_items(
    checks: Iterable[UpkeepCheck],
    own: Mapping[str, Interval],
    histories: Mapping[str, CheckHistory],
    machine: Machine,
    today: date,
) -> tuple[UpkeepItem, ...]:
    """Every check as it stands: those at fault first, then those due, the longest overdue first.

    `own` holds the household's own intervals by key, `histories` what is on record by key.
    """
    items = [_item(check, own, histories, machine, today) for check in checks]
    grave = list(UpkeepState)
    return tuple(sorted(items, key=lambda item: (grave.index(item.state), -item.overdue_days)))


def due_now(items: Sequence[UpkeepItem]) -> tuple[UpkeepItem, ...]:
    """What a day's list should name: all at fault, and what is due by days or hours.

    What belongs to each load is left to the load itself, where it is shown, so that the day's
    list stays a list of the day.
    """
    return tuple(
        item
        for item in items
        if item.state is UpkeepState.FAULT or (item.wanted and not item.by_the_run)
    )


@dataclass(frozen=True, slots=True)
class _Standing:
    """How a check stands, before it is put beside its table row."""

    state: UpkeepState
    due_on: date | None
    reason: str


def _item(
    check: UpkeepCheck,
    own: Mapping[str, Interval],
    histories: Mapping[str, CheckHistory],
    machine: Machine,
    today: date,
) -> UpkeepItem:
    interval = own.get(check.key, check.interval)
    history = histories.get(check.key, NEVER_DONE)
    found = _stands(check, interval, histories, machine, today)
    late = 0
    if found.state in (UpkeepState.FAULT, UpkeepState.DUE) and found.due_on is not None:
        late = max(0, days_between(found.due_on, today))
    return UpkeepItem(
        check, interval, check.key in own, found.state, found.due_on, late, found.reason, history
    )


def _stands(
    check: UpkeepCheck,
    interval: Interval,
    histories: Mapping[str, CheckHistory],
    machine: Machine,
    today: date,
) -> _Standing:
    """The first of the rules that speaks."""
    history = histories.get(check.key, NEVER_DONE)
    if interval.is_off:
        return _Standing(UpkeepState.OFF, None, "Left out by your own setting.")
    if history.last_on is not None and not history.last_passed:
        said = f"Since {history.last_on.isoformat()}: put it right and check again."
        return _Standing(UpkeepState.FAULT, history.last_on, said)
    troubled = _trouble_elsewhere(check, histories)
    if troubled is not None:
        key, day = troubled
        said = f"After the fault of {day.isoformat()} at {key.replace('_', ' ')}."
        return _Standing(UpkeepState.DUE, day, said)
    start = history.passed_on or machine.first_run_on
    if start is None:
        return _Standing(UpkeepState.UNUSED, None, "No run is on record yet.")
    return _by_interval(interval, history, start, today)


def _trouble_elsewhere(
    check: UpkeepCheck, histories: Mapping[str, CheckHistory]
) -> tuple[str, date] | None:
    """The latest fault of a part this check depends on, later than it last passed."""
    faults = [
        (found.failed_on, key)
        for key in check.after_trouble_with
        if (found := histories.get(key, NEVER_DONE)).failed_on is not None
    ]
    passed_on = histories.get(check.key, NEVER_DONE).passed_on
    later = [(day, key) for day, key in faults if day and (passed_on is None or day > passed_on)]
    if not later:
        return None
    day, key = max(later)
    return key, day


def _by_interval(interval: Interval, history: CheckHistory, start: date, today: date) -> _Standing:
    """Due by days, by runs or by hours; days count from `start`."""
    if interval.every is Every.DAYS:
        return _by_days(interval.count, history, start, today)
    if interval.every is Every.HOURS:
        return _by_hours(interval.count, history)
    served = 0 if history.passed_on is None else 1
    if history.runs_since > served:
        return _Standing(UpkeepState.DUE, None, _runs_words(history))
    done = "Done for the load to come." if not history.runs_since else "Again with the next load."
    return _Standing(UpkeepState.LATER, None, done)


def _by_days(days: int, history: CheckHistory, start: date, today: date) -> _Standing:
    """Due `days` after it last passed, or after the first run."""
    since = "Last done" if history.passed_on else "Never noted as done; first run"
    due_on = start + timedelta(days=days)
    state = UpkeepState.DUE if today >= due_on else UpkeepState.LATER
    return _Standing(state, due_on, f"{since} {start.isoformat()}.")


def _by_hours(hours: int, history: CheckHistory) -> _Standing:
    """Due once the machine has run so many hours since."""
    run_tenths = history.all_hours_tenths
    ran = f"{'At least ' if history.more_hours else ''}{run_tenths // 10} h of running"
    never = history.passed_on is None
    said = f"{ran}, never noted as done" if never else f"{ran} since it was last done"
    if history.unknown_hours:
        runs = "1 run" if history.unknown_hours == 1 else f"{history.unknown_hours} runs"
        said += f" ({runs} without noted hours taken as {RUN_HOURS_TENTHS // 10} h each)"
    state = UpkeepState.DUE if run_tenths >= hours * 10 else UpkeepState.LATER
    return _Standing(state, None, f"{said}.")


def _runs_words(history: CheckHistory) -> str:
    """How many runs went without it."""
    if history.passed_on is None:
        many = "1 run" if history.runs_since == 1 else f"{history.runs_since} runs"
        return f"Never noted as done, in {many}."
    missed = history.runs_since - 1
    many = "1 run" if missed == 1 else f"{missed} runs"
    return f"{many[:1].upper()}{many[1:]} without it since {history.passed_on.isoformat()}."
