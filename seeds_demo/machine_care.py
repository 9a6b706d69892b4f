"""Keeping the machine: with each load by data/runs.csv, the rest by data/upkeep.csv."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from functools import partial

from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, day_of, read_rows
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.services.leak_tests import Readings, record_leak_test
from stockroom.services.session import Stockroom
from stockroom.services.upkeep import record_check, set_interval

CHAMBER_L = Fraction(42)
BEFORE_A_RUN = ("gasket", "chamber", "start")
AFTER_A_RUN = "defrost"
INTERVALS = {"oil": OFF, "oil_change": OFF, "leak": Interval(Every.DAYS, 61)}
"""The pump runs without oil, and the hut tests for leaks every other month."""


def care_steps(day: date) -> Iterator[Step]:
    """The hut's own intervals on the first day, then every check on its day."""
    for task, interval in INTERVALS.items():
        yield Step(day, Part.SET_UP, "warden", partial(set_interval, task=task, interval=interval))
    for run in read_rows("runs"):
        started, who = day_of(run, "started"), run["who"]
        for task in BEFORE_A_RUN:
            yield Step(started, Part.LOADING, who, partial(record_check, task=task))
        if run["state"] != "open":
            # The chamber is thawed when the packing is done, before the next load.
            unloaded = day_of(run, "unloaded")
            yield Step(unloaded, Part.PACKING, who, partial(record_check, task=AFTER_A_RUN))
    for row in read_rows("upkeep"):
        act = partial(_test, row) if row["to_mbar"] else partial(_check, row)
        yield Step(day_of(row, "day"), Part.SHELVES, row["who"], act)


def _check(row: Row, room: Stockroom) -> None:
    record_check(room, row["task"], passed=row["found"] == "ok", note=row["note"])


def _test(row: Row, room: Stockroom) -> None:
    """A pressure-rise test of the clean, dry and empty chamber."""
    read = Readings(
        Fraction(row["from_mbar"]),
        Fraction(row["to_mbar"]),
        Fraction(row["seconds"]),
        True,
        CHAMBER_L,
    )
    record_leak_test(room, read, note=row["note"])
