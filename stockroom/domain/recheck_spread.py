"""The day's list of packages to look at, and how the looks spread over the days to come.

No plan is kept: the list follows from the stored rechecks, today and the settings. On a day set
aside the gravest of those wanted by then are listed, up to the most a day. On any day all are
listed whose last day comes before the next day set aside: the limit outranks the load.

Where more packages than the household would look at have their last days close together,
`levelled` brings some forward, within what each allows. It goes through the days set aside
backwards and leaves on each day as many as it takes, those first that cannot come earlier (the
earliest-due-date rule, Jackson 1955, read backwards). A day gets more than the most a day only
where there is no other way: then some stretch of days set aside has more packages, whose whole
span from earliest to latest lies in it, than that many a day. In such a stretch the fullest day is
as light as can be.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from heapq import heappop, heappush, nsmallest
from typing import NamedTuple

from stockroom.domain.recheck_facts import STANDARD, RecheckSettings
from stockroom.domain.records import StoredRecheck


@dataclass(frozen=True, slots=True)
class Planned:
    """A package and the day it would be looked at, if every list before is seen to."""

    package_id: int
    on_day: date
    risk: int


def next_set_aside(day: date, settings: RecheckSettings = STANDARD) -> date:
    """The first day set aside after `day`; never `day` itself."""
    weekday = day.weekday()
    return day + timedelta(days=min((one - weekday - 1) % 7 for one in settings.set_aside) + 1)


def is_set_aside(day: date, settings: RecheckSettings = STANDARD) -> bool:
    """Whether `day` is one of the days of the week for looking at packages."""
    return day.weekday() in settings.set_aside


def due_today(
    today: date, rows: Iterable[StoredRecheck], settings: RecheckSettings = STANDARD
) -> tuple[StoredRecheck, ...]:
    """The packages to look at today, the gravest first.

    All rows of the store give the same list as the answers of two queries together: on a day set
    aside the first `most_a_day` of those wanted by today, by risk (gravest first), latest day and
    number of the package; and on any day those wanted by today whose latest day comes before the
    next day set aside. Each wants an index, by wanted and by latest day.
    """
    following = next_set_aside(today, settings)
    wanted = {row.package_id: row for row in rows if row.wanted_on <= today}
    listed = [row for row in wanted.values() if row.latest_on < following]
    if is_set_aside(today, settings):
        others = (row for row in wanted.values() if row.latest_on >= following)
        listed += nsmallest(max(0, settings.most_a_day - len(listed)), others, key=gravest_first)
    return tuple(sorted(listed, key=gravest_first))


def gravest_first(row: StoredRecheck) -> tuple[int, date, int]:
    """The order of every list: by risk, then by the latest day, then by number."""
    return -row.risk, row.latest_on, row.package_id


def spread(
    rows: Iterable[StoredRecheck],
    today: date,
    until: date,
    settings: RecheckSettings = STANDARD,
) -> tuple[Planned, ...]:
    """The day of each package from today to `until`, if each is looked at when it is listed.

    By day, the gravest first. Every row whose latest day is by `until` is there, none before its
    earliest day and none after its latest (those late already are listed today). Its first day is
    `due_today` of the levelled rows; a package looked at is not planned again.
    """
    queue = _Queue(levelled(rows, today, settings))
    planned: list[Planned] = []
    day = today
    while day <= until and not queue.is_empty:
        queue.admit(day)
        listed = queue.take_limited(next_set_aside(day, settings))
        if is_set_aside(day, settings):
            listed += queue.take_gravest(settings.most_a_day - len(listed))
        listed.sort(key=gravest_first)
        planned += [Planned(row.package_id, day, row.risk) for row in listed]
        day += timedelta(days=1)
    return tuple(planned)


def levelled(
    rows: Iterable[StoredRecheck], today: date, settings: RecheckSettings = STANDARD
) -> tuple[StoredRecheck, ...]:
    """The rows with wanted and latest day brought forward where too many would come together.

    Each package once. A row that need not give way is as it was; one with no day set aside in its
    span keeps its days, and so does one late already while today is not set aside.
    """
    each = tuple({row.package_id: row for row in rows}.values())
    last_on = max((row.latest_on for row in each), default=today)
    days = _days_set_aside(today, max(today, last_on), settings)
    spans: list[_Span] = []
    for number, row in enumerate(each):
        first = bisect_left(days, row.earliest_on)
        last = bisect_right(days, max(today, row.latest_on)) - 1
        if first <= last:
            spans.append(_Span(-first, row.risk, row.package_id, last, number))
    changed = list(each)
    for place, here in _eased(_placed(spans, settings.most_a_day), settings.most_a_day).items():
        for span in here:
            changed[span.row] = _by(each[span.row], days[place], days[span.last])
    return tuple(changed)


def _by(row: StoredRecheck, day: date, last_day: date) -> StoredRecheck:
    """The row with a latest day of its own, unless it could wait for its last day set aside."""
    if day == last_day and row.wanted_on <= day:
        return row
    return replace(row, wanted_on=min(row.wanted_on, day), latest_on=min(row.latest_on, day))


class _Span(NamedTuple):
    """The days set aside a package may be looked at on, by their numbers from today.

    In order, the first is the one to be put on a day first when going backwards: the one that
    cannot come earlier, then the lesser risk.
    """

    first_negative: int
    risk: int
    package_id: int
    last: int
    row: int


def _placed(spans: Iterable[_Span], most: int) -> dict[int, list[_Span]]:
    """Every package on a day, as late as can be, going backwards with so many a day at most.

    A package whose first day has come has to be put there, over the most or not.
    """
    by_last: defaultdict[int, list[_Span]] = defaultdict(list)
    for span in spans:
        by_last[span.last].append(span)
    placed: dict[int, list[_Span]] = {}
    open_spans: list[_Span] = []
    for place in range(max(by_last, default=-1), -1, -1):
        for span in by_last.get(place, ()):
            heappush(open_spans, span)
        here: list[_Span] = []
        while open_spans and (len(here) < most or -open_spans[0].first_negative == place):
            here.append(heappop(open_spans))
        if here:
            placed[place] = here
    return placed


def _eased(placed: dict[int, list[_Span]], most: int) -> dict[int, list[_Span]]:
    """The same with the load of every overfull stretch made even, so far as its spans allow."""
    eased = dict(placed)
    behind = -1
    for place in sorted(placed):
        if place <= behind or len(placed[place]) <= most:
            continue
        behind = _end_of_stretch(placed, place)
        inside = [one for at in range(place, behind + 1) for one in eased.pop(at)]
        eased.update(_lightest(inside, most, behind + 1 - place))
    return eased


def _end_of_stretch(placed: dict[int, list[_Span]], start: int) -> int:
    """The last day of a stretch that begins overfull: no span in it reaches further.

    Each of its days is full of packages that cannot come before its start: one of them waited
    over that day and was put earlier, so those put there could come no earlier than it.
    """
    end, reach = start, start
    while end <= reach:
        reach = max(reach, *(span.last for span in placed[end]))
        end += 1
    return reach


def _lightest(spans: Sequence[_Span], most: int, days: int) -> dict[int, list[_Span]]:
    """These packages on their days, with the fullest day as light as can be."""

    def fits(load: int) -> bool:
        return max(len(here) for here in _placed(spans, load).values()) <= load

    least = max(most, -(-len(spans) // days))
    return _placed(spans, least + bisect_left(range(least, len(spans)), True, key=fits))


def _days_set_aside(first: date, last: date, settings: RecheckSettings) -> list[date]:
    """Every day set aside from the first day to the last, both included."""
    day = first if is_set_aside(first, settings) else next_set_aside(first, settings)
    days: list[date] = []
    while day <= last:
        days.append(day)
        day = next_set_aside(day, settings)
    return days


class _Queue:
    """Packages on their way to the list: not wanted yet, or ready and not listed."""

    __slots__ = ("_gone", "_later", "_limits", "_ready")

    def __init__(self, rows: Iterable[StoredRecheck]) -> None:
        self._later = sorted(rows, key=lambda row: row.wanted_on, reverse=True)
        self._ready: list[tuple[tuple[int, date, int], StoredRecheck]] = []
        self._limits: list[tuple[date, int, StoredRecheck]] = []
        self._gone: set[int] = set()

    @property
    def is_empty(self) -> bool:
        """Whether every package has been listed."""
        return not self._later and not self._limits

    def admit(self, day: date) -> None:
        """Make ready what is wanted by a day."""
        while self._later and self._later[-1].wanted_on <= day:
            row = self._later.pop()
            heappush(self._ready, (gravest_first(row), row))
            heappush(self._limits, (row.latest_on, row.package_id, row))

    def take_limited(self, following: date) -> list[StoredRecheck]:
        """Take all whose latest day comes before the next day set aside."""
        taken: list[StoredRecheck] = []
        while self._limits and self._limits[0][0] < following:
            row = heappop(self._limits)[2]
            if row.package_id not in self._gone:
                taken.append(row)
        self._gone.update(row.package_id for row in taken)
        return taken

    def take_gravest(self, room: int) -> list[StoredRecheck]:
        """Take so many of the gravest."""
        taken: list[StoredRecheck] = []
        while self._ready and len(taken) < room:
            row = heappop(self._ready)[1]
            if row.package_id not in self._gone:
                taken.append(row)
        self._gone.update(row.package_id for row in taken)
        return taken
