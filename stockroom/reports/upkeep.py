"""The machine on paper: what is due, each check in full, and where to look for a lost vacuum."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.domain.leak_tests import LeakTest
from stockroom.domain.machine_cautions import machine_cautions
from stockroom.domain.upkeep import UpkeepItem
from stockroom.domain.upkeep_records import EquipmentCheck
from stockroom.domain.vacuum_faults import FAULT_ORDER, FAULT_STEPS, STOP_HERE, FaultStep
from stockroom.reports.parts import caution_blocks
from stockroom.reports.values import (
    COUNT,
    DAY,
    FLAG,
    TEXT,
    Column,
    Data,
    Field,
    Fields,
    Json,
    Prose,
    Report,
    Row,
    Table,
    decimal_kind,
    document,
)
from stockroom.services.results import UpkeepCheckPage, UpkeepPage

_RECORD = "Record each: stockroom upkeep done CHECK (or done CHECK --failed)."
_FINE, _THOUSANDTH = decimal_kind(4), decimal_kind(3)

_ITEM_COLUMNS = (
    Column("check", title="check"),
    Column("name", title="what", least=14),
    Column("state", title="state"),
    Column("due_on", DAY, "due on"),
    Column("interval", title="how often", drop=3),
    Column("why", title="why", least=20, drop=2),
    Column("overdue_days", COUNT),
    Column("own_interval", FLAG),
    Column("last_done", DAY),
    Column("look"),
    Column("standing"),
    Column("source"),
)
_TEST_COLUMNS = (
    Column("on_day", DAY, "day"),
    Column("mbar_l_per_s", _FINE, "mbar L/s"),
    Column("verdict", title="verdict"),
    Column("shape", title="rise", drop=1),
    Column("volume_l", _THOUSANDTH),
    Column("", title="pressures, mbar", drop=2),
    Column("from_mbar", _THOUSANDTH),
    Column("to_mbar", _THOUSANDTH),
    Column("seconds", decimal_kind(0), "seconds", drop=3),
    Column("dry_empty", FLAG, "dry and empty", drop=4),
    Column("note", title="note", least=8, drop=5),
)
_DONE_COLUMNS = (
    Column("on_day", DAY, "day"),
    Column("passed", FLAG, "in order"),
    Column("note", title="note", least=10),
)


def upkeep_report(page: UpkeepPage) -> Report:
    """Every check, the gravest first, the latest leak tests, and what to bear in mind."""
    items = Table(
        "checks",
        _ITEM_COLUMNS,
        tuple(map(_item_row, page.items)),
        caption=_RECORD,
    )
    tests = Table(
        "leak_tests",
        _TEST_COLUMNS,
        tuple(map(_test_row, page.tests)),
        "Leak tests, the latest first" if page.tests else "",
    )
    wanted = tuple(map(_look, (one for one in page.items if one.wanted)))
    blocks = (
        Fields((Field("today", DAY, page.today, "today"),)),
        items,
        Prose("", wanted, "What to look at", "- "),
        tests,
        *caution_blocks(page.cautions),
    )
    return document("Upkeep", blocks, items)


def check_report(page: UpkeepCheckPage) -> Report:
    """One check in full, with the times it was done."""
    item, check = page.item, page.item.check
    usual = "" if not item.own_interval else f" (your own; the table says {check.interval.words})"
    done = Table(
        "done",
        _DONE_COLUMNS,
        tuple(map(_done_row, page.done)),
        "Done, the latest first",
        empty="Never noted as done.",
    )
    anchor = None if check.anchor is None else check.anchor.words
    blocks = (
        Fields(
            (
                Field("check", TEXT, check.key, "check"),
                Field("look", TEXT, check.look, "look at"),
                Field("state", TEXT, item.state.value, "state", f": {item.reason}"),
                Field("why", TEXT, item.reason),
                Field("due_on", DAY, item.due_on, "due on"),
                Field("overdue_days", COUNT, item.overdue_days),
                Field("interval", TEXT, item.interval.words, "how often", usual),
                Field("own_interval", FLAG, item.own_interval),
                Field("source", TEXT, check.source.citation, "on whose word",
                      f" ({check.standing.words})"),
                Field("standing", TEXT, check.standing.words),
                Field("anchor", TEXT, anchor, "see also"),
            )
        ),
        done,
        *caution_blocks(page.cautions),
    )  # fmt: skip
    return document(f"{check.name[:1].upper()}{check.name[1:]}", blocks, done)


def fault_report() -> Report:
    """Where to look when the vacuum is not reached, in order."""
    steps: list[Json] = [_step_data(place, one) for place, one in enumerate(FAULT_STEPS, start=1)]
    return document(
        "Vacuum not reached: where to look, in this order",
        (
            *(_step(place, one) for place, one in enumerate(FAULT_STEPS, start=1)),
            Prose("", (STOP_HERE, f"{FAULT_ORDER.words}.")),
            Data("steps", steps),
            *caution_blocks(machine_cautions()),
        ),
    )


def _item_row(item: UpkeepItem) -> Row:
    """A check under `_ITEM_COLUMNS`."""
    check = item.check
    return (
        check.key,
        check.name,
        item.state.value,
        item.due_on,
        item.interval.words,
        item.reason,
        item.overdue_days,
        item.own_interval,
        item.history.last_on,
        check.look,
        check.standing.words,
        check.source.citation,
    )


def _test_row(test: LeakTest) -> Row:
    """A leak test under `_TEST_COLUMNS`."""
    found, rise = test.leak, test.leak.rise
    return (
        test.on_day,
        found.mbar_l_per_s,
        found.verdict.value,
        None if found.shape is None else found.shape.value,
        rise.volume_l,
        f"{float(rise.from_mbar):.3f} to {float(rise.to_mbar):.3f}",
        rise.from_mbar,
        rise.to_mbar,
        rise.seconds,
        rise.dry_empty,
        test.note,
    )


def _look(item: UpkeepItem) -> str:
    """What to look at, with how often and on whose word."""
    check = item.check
    standing = "your own interval" if item.own_interval else check.standing.words
    return f"{check.key}: {check.look} ({item.interval.words}; {standing})"


def _done_row(one: EquipmentCheck) -> Row:
    """One time a check was done."""
    return (one.on_day, one.passed, one.note)


def _step(place: int, step: FaultStep) -> Prose:
    """One place to look."""
    return Prose("", tuple(_step_lines(step)), f"{place}. {step.where}", "   ")


def _step_lines(step: FaultStep) -> Iterable[str]:
    """What to do there, and what shows that it is the fault."""
    yield step.do
    if step.tells:
        yield step.tells


def _step_data(place: int, step: FaultStep) -> Json:
    """One place to look, for JSON."""
    return {
        "step": place,
        "where": step.where,
        "do": step.do,
        "tells": step.tells,
        "check": step.check,
    }
