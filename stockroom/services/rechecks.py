"""Rechecks: what to look at today, when a package is due and why, and the household's settings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from stockroom.domain.recheck_facts import RecheckFacts, RecheckSettings
from stockroom.domain.recheck_spread import Planned, due_today, levelled, spread
from stockroom.domain.records import Package, StoredRecheck
from stockroom.domain.working import Working
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import find_package
from stockroom.services.keeping import surroundings
from stockroom.services.recheck_refresh import (
    FIRST_DAYS,
    LATER_DAYS,
    MOST_A_DAY,
    SECOND_DAYS,
    SET_ASIDE,
    facts_for,
    recheck_settings,
)
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import package_rows, projections, recheck_rows, settings

LONGEST_PLAN_DAYS = 3660
MOST_CONSIDERED = 2000
"""Of a pile longer than this only those are weighed up that can wait least."""
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


class NoRecheck(Refused):
    """Only a package that is sealed and sound is on the schedule."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} is {package.condition}; only sealed, sound packages are rechecked"
            " by the schedule.",
            "The Round lists it as long as something is to be done with it.",
        )


@dataclass(frozen=True, slots=True)
class DueRechecks:
    """The packages to look at today, the worst risk first, and how many more have waited."""

    packages: tuple[Package, ...]
    looks: tuple[StoredRecheck, ...]
    """When each of them is wanted, in their order."""
    waiting: int
    """Overdue ones left for the days to come: nobody looked on their days, and one day's number
    is full."""


def rechecks_today(room: Stockroom) -> DueRechecks:
    """What to look at today.

    On a day set aside up to the household's number, the worst risk first, and on any day all
    whose limit comes before the next day set aside. What the household has missed is not piled
    up on one day: it comes with the worst risk first, as far as the day's number goes.
    """
    store, today = room.store, room.today
    wishes = recheck_settings(store)
    rows = recheck_rows.wanted_by(store, today, count=MOST_CONSIDERED)
    late = recheck_rows.count_late(store, today)
    if len(rows) > wishes.most_a_day:
        rows = list(levelled(rows, today, wishes))
    due = due_today(today, rows, wishes)
    if len(due) > wishes.most_a_day:
        due = _without_a_pile(due, today, wishes.most_a_day)
    late -= sum(row.latest_on < today for row in due)
    found = package_rows.packages_by_ids(store, [one.package_id for one in due])
    return DueRechecks(tuple(found), due, late)


def _without_a_pile(
    due: Sequence[StoredRecheck], today: date, most_a_day: int
) -> tuple[StoredRecheck, ...]:
    """The day's list with no more missed ones than fill it up, in its order."""
    timely = {one.package_id for one in due if one.latest_on >= today}
    missed = [one.package_id for one in due if one.package_id not in timely]
    shown = timely | set(missed[: max(0, most_a_day - len(timely))])
    return tuple(one for one in due if one.package_id in shown)


def recheck_plan(room: Stockroom, until: date) -> tuple[Planned, ...]:
    """Which package on which day from today to `until`, if each is looked at on its day."""
    if not room.today <= until <= room.today + timedelta(days=LONGEST_PLAN_DAYS):
        raise BadInput("day", until.isoformat(), "a day from today on, up to ten years ahead")
    rows = recheck_rows.all_until(room.store, until)
    return spread(rows, room.today, until, recheck_settings(room.store))


def recheck_working(room: Stockroom, code: str) -> Working:
    """How the day of a package's next recheck was reached. Raises NoRecheck, NotFound."""
    from stockroom.domain.recheck_working import explain

    return explain(_facts(room, code), recheck_settings(room.store))


def recheck_reasons(room: Stockroom, code: str) -> tuple[str, ...]:
    """Why a package is looked at when it is, in words. Raises NoRecheck, NotFound."""
    from stockroom.domain.recheck_schedule import recheck

    return recheck(_facts(room, code), recheck_settings(room.store)).reasons


def _facts(room: Stockroom, code: str) -> RecheckFacts:
    """What the schedule knows of one package."""
    package = find_package(room, code)
    if recheck_rows.recheck_of(room.store, package.package_id) is None:
        raise NoRecheck(package)
    ids = [package.package_id]
    (facts,) = facts_for(
        room.store,
        surroundings(room),
        [package],
        projections.stays_of(room.store, ids),
        projections.checks_of(room.store, ids),
        recheck_rows.looked_at(room.store, [package.lot_id]),
    )
    return facts


def schedule(room: Stockroom) -> RecheckSettings:
    """How often the household looks, on which weekdays and at how many packages a day."""
    return recheck_settings(room.store)


def change_schedule(
    room: Stockroom,
    *,
    first_days: int | None = None,
    second_days: int | None = None,
    later_days: int | None = None,
    set_aside: Iterable[int] | None = None,
    most_a_day: int | None = None,
) -> Done:
    """Change how often packages are looked at; what is None stays.

    The days are computed anew with `refresh_everything`, until which the old ones stand. Raises
    LooksOutOfOrder, NoDaySetAside, LooksADay, BadInput.
    """
    days = None if set_aside is None else frozenset(set_aside)
    if days is not None and not days <= frozenset(range(7)):
        raise BadInput("days", " ".join(map(str, sorted(days))), "weekdays, Mon to Sun")
    said: dict[str, int | frozenset[int]] = {
        name: value
        for name, value in (
            ("first_days", first_days),
            ("second_days", second_days),
            ("later_days", later_days),
            ("set_aside", days),
            ("most_a_day", most_a_day),
        )
        if value is not None
    }
    if not said:
        raise BadInput("schedule", "", "days to wait, weekdays or a number a day to change")
    with acting(room, "schedule") as act:
        wanted = replace(schedule(room), **said)  # type: ignore[arg-type]
        for key, text in _texts(wanted).items():
            settings.save_setting(room.store, key, text)
        act.words = f"set the rechecks to {schedule_words(wanted)}"
    return Done(act.words)


def _texts(wanted: RecheckSettings) -> dict[str, str]:
    return {
        FIRST_DAYS: str(wanted.first_days),
        SECOND_DAYS: str(wanted.second_days),
        LATER_DAYS: str(wanted.later_days),
        SET_ASIDE: " ".join(map(str, sorted(wanted.set_aside))),
        MOST_A_DAY: str(wanted.most_a_day),
    }


def schedule_words(wanted: RecheckSettings) -> str:
    """The schedule in one sentence."""
    days = "every day"
    if len(wanted.set_aside) < 7:
        days = " ".join(WEEKDAYS[day] for day in sorted(wanted.set_aside))
    return (
        f"{wanted.first_days}, {wanted.second_days}, then every {wanted.later_days} days;"
        f" {days}, {wanted.most_a_day} a day"
    )
