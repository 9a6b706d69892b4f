"""Keeping the machine: what is due, what was done, how often it is wanted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from stockroom.domain.upkeep import (
    NEVER_DONE,
    CheckHistory,
    Machine,
    UpkeepCheck,
    UpkeepItem,
    due_now,
    running_tenths,
    upkeep_items,
)
from stockroom.domain.upkeep_intervals import Every, Interval, longest
from stockroom.errors import BadInput, Refused
from stockroom.reference.upkeep import upkeep_check, upkeep_checks
from stockroom.services.acting import acting
from stockroom.services.names import clean_note
from stockroom.services.results import Done, UpkeepCheckPage, UpkeepPage
from stockroom.services.session import Stockroom
from stockroom.store import upkeep_rows
from stockroom.store.settings import read_settings, remove_setting, save_setting

if TYPE_CHECKING:
    from stockroom.domain.cautions import Caution

TESTS_SHOWN = 12
DONE_SHOWN = 50

_COUNTED = (Every.DAYS, Every.HOURS)
"""What a household may set a check to go by."""


class SameInterval(Refused):
    """The interval is already so."""

    def __init__(self, name: str, words: str) -> None:
        """`name` of the check, `words` of its interval."""
        super().__init__(
            f"The check of {name} is already set so: {words}.", "There is nothing to change."
        )
        self.name = name
        self.words = words


def upkeep_page(room: Stockroom, *, tests: int = TESTS_SHOWN) -> UpkeepPage:
    """Every check as it stands today, the latest leak tests, and the machine's cautions."""
    from stockroom.domain.leak_tests import leak_tests
    from stockroom.domain.machine_cautions import machine_cautions

    # One more than twice as many: each test may have two parts, and the first may be cut.
    readings = upkeep_rows.readings(room.store, count=2 * tests + 1)
    found = tuple(reversed(leak_tests(readings)))[:tests]
    return UpkeepPage(room.today, upkeep_now(room), found, machine_cautions())


def upkeep_now(room: Stockroom) -> tuple[UpkeepItem, ...]:
    """Every check as it stands today, what is at fault or due first."""
    return _items(room, with_runs=True)


def upkeep_due(room: Stockroom) -> tuple[UpkeepItem, ...]:
    """What the day's list should name: all at fault, and what is due by days or hours.

    What belongs to each load is left to the load. Cheap: runs are added up only for the few
    checks that go by hours, and only until they are enough.
    """
    return due_now(_items(room, with_runs=False))


def check_page(room: Stockroom, task: str, *, count: int = DONE_SHOWN) -> UpkeepCheckPage:
    """One check in full. Raises NotFound."""
    check = upkeep_check(task)
    (item,) = (one for one in upkeep_now(room) if one.check.key == check.key)
    done = tuple(upkeep_rows.checks_of(room.store, check.key, count=count))
    return UpkeepCheckPage(item, done, _cautions(check.key))


def record_check(
    room: Stockroom,
    task: str,
    *,
    passed: bool = True,
    note: str = "",
    on_day: date | None = None,
) -> Done:
    """Record that a check was done, in order or at fault; today unless another day is said.

    Raises NotFound for a check there is not, BadInput for a day to come or an endless note.
    """
    check, said = upkeep_check(task), clean_note(note)
    day = past_day(on_day, room.today)
    with acting(room, "upkeep") as act:
        upkeep_rows.insert_check(room.store, task=check.key, on_day=day, passed=passed, note=said)
        act.words = f"{check.name}: {'done' if passed else 'found at fault'}"
        if day != room.today:
            act.words += f" on {day.isoformat()}"
        if said:
            act.words += f", {said}"
    return Done(act.words, () if passed else _cautions(check.key))


def set_interval(room: Stockroom, task: str, interval: Interval | None) -> Done:
    """Set how often a check is wanted, by days or hours; None is the table's own again.

    Raises NotFound, SameInterval, or BadInput for an interval that is not believed.
    """
    check = upkeep_check(task)
    if interval is not None and not _believed(interval):
        raise BadInput("interval", interval.words, "days or hours of running that are possible")
    with acting(room, "upkeep-interval") as act:
        wanted = None if interval == check.interval else interval
        own = own_intervals(read_settings(room.store))
        if own.get(check.key) == wanted:
            raise SameInterval(check.name, (wanted or check.interval).words)
        for every in _COUNTED:
            remove_setting(room.store, _setting(check.key, every))
        if wanted is not None:
            save_setting(room.store, _setting(check.key, wanted.every), str(wanted.count))
        act.words = f"{check.name}: {(wanted or check.interval).words} from now on"
    return Done(act.words)


def own_intervals(settings: Mapping[str, str]) -> dict[str, Interval]:
    """The household's own intervals by check, from its settings."""
    return {
        key: Interval(every, int(settings[_setting(key, every)]))
        for key in upkeep_checks()
        for every in _COUNTED
        if _setting(key, every) in settings
    }


def past_day(wanted: date | None, today: date) -> date:
    """The day said, else today. Raises BadInput for a day to come."""
    if wanted is not None and wanted > today:
        raise BadInput("day", wanted.isoformat(), f"today ({today.isoformat()}) or an earlier day")
    return wanted or today


def _setting(check_key: str, every: Every) -> str:
    """The name a household's own interval is kept under."""
    return f"upkeep.{check_key}.{every}"


def _believed(interval: Interval) -> bool:
    """Whether a household may set this."""
    return interval.every in _COUNTED and 0 <= interval.count <= longest(interval.every)


def _items(room: Stockroom, *, with_runs: bool) -> tuple[UpkeepItem, ...]:
    """Every check as it stands; without the runs, what goes by the load is never due."""
    checks = tuple(upkeep_checks().values())
    own = own_intervals(read_settings(room.store))
    on_record = upkeep_rows.check_histories(room.store, [check.key for check in checks])
    machine = Machine(upkeep_rows.first_run_on(room.store))
    histories = {check.key: _with_runs(room, check, own, on_record, with_runs) for check in checks}
    return upkeep_items(checks, own, histories, machine, room.today)


def _with_runs(
    room: Stockroom,
    check: UpkeepCheck,
    own: Mapping[str, Interval],
    on_record: Mapping[str, CheckHistory],
    with_runs: bool,
) -> CheckHistory:
    """A check's history with what the machine has run since, as far as its interval asks."""
    history = on_record.get(check.key, NEVER_DONE)
    interval = own.get(check.key, check.interval)
    if interval.every is Every.HOURS:
        return _with_hours(room, history, interval.count * 10)
    if with_runs and interval.every is not Every.DAYS:
        return replace(history, runs_since=upkeep_rows.runs_since(room.store, history.passed_on))
    return history


def _with_hours(room: Stockroom, history: CheckHistory, wanted_tenths: int) -> CheckHistory:
    """A history with the hours run since, added up until they are as many as wanted."""

    def enough(so_far: upkeep_rows.RunTotals) -> bool:
        return running_tenths(so_far.hours_tenths, so_far.unknown_hours) >= wanted_tenths

    totals = upkeep_rows.run_totals(room.store, history.passed_on, enough=enough)
    return replace(
        history,
        hours_tenths=totals.hours_tenths,
        unknown_hours=totals.unknown_hours,
        more_hours=totals.more,
    )


def _cautions(check_key: str) -> tuple[Caution, ...]:
    """What to bear in mind while doing a check."""
    from stockroom.domain.machine_cautions import cautions_beside

    return cautions_beside(check_key)
