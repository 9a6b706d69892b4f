"""The machine's checks as rows and sentences."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from stockroom.domain.cautions import Caution
from stockroom.domain.leak import AS_GOOD_AS, Leak
from stockroom.domain.leak_tests import LeakTest
from stockroom.domain.pressures import show_pressure
from stockroom.domain.upkeep import UpkeepItem, UpkeepState
from stockroom.domain.upkeep_intervals import Every
from stockroom.domain.vacuum_faults import FAULT_ORDER, FAULT_STEPS, STOP_HERE
from stockroom.services.results import UpkeepCheckPage, UpkeepPage
from stockroom.tui.screens.sections import Section
from stockroom.tui.screens.windows import caution_text
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.words import counted

COLUMNS = (
    Column("Check", 20, weight=1, look="main"),
    Column("When", 17, look="tone"),
    Column("How often", 23, priority=1),
    Column("Last done", 10, priority=2, look="quiet"),
)

_DUE = "Wants doing"
_LOADS = "With each load"
_LATER = "Later"
_LEFT_OUT = "Left out"
_ASIDES = {
    _DUE: "o in order · f at fault",
    _LOADS: "o in order · f at fault",
    _LATER: "o in order · i how often",
    _LEFT_OUT: "i how often",
}
_TONES: dict[UpkeepState, Tone] = {
    UpkeepState.FAULT: "bad",
    UpkeepState.DUE: "due",
    UpkeepState.LATER: "good",
    UpkeepState.UNUSED: "quiet",
    UpkeepState.OFF: "quiet",
}


def row_keys(page: UpkeepPage) -> dict[str, int]:
    """A number for each check that stays the same however the list is sorted."""
    names = sorted(item.check.key for item in page.items)
    return {key: place for place, key in enumerate(names, start=1)}


def sections_of(page: UpkeepPage, keys: dict[str, int]) -> list[Section]:
    """The checks as sections: what wants doing, what each load asks for, the rest."""
    rows: dict[str, list[Row]] = {title: [] for title in _ASIDES}
    for item in page.items:
        rows[_section_of(item)].append(_row(item, keys[item.check.key], page.today))
    return [
        Section(f"{title} · {len(found)}", _ASIDES[title], tuple(found))
        for title, found in rows.items()
    ]


def _section_of(item: UpkeepItem) -> str:
    """Where a check stands on the page."""
    if item.state is UpkeepState.OFF:
        return _LEFT_OUT
    if item.state is UpkeepState.FAULT or (item.wanted and not item.by_the_run):
        return _DUE
    return _LOADS if item.by_the_run else _LATER


def _row(item: UpkeepItem, key: int, today: date) -> Row:
    """A check on one line."""
    last = item.history.last_on
    cells = (
        item.check.name,
        when_words(item, today),
        item.interval.words,
        "never" if last is None else last.isoformat(),
    )
    return Row(key, cells, _TONES[item.state])


def when_words(item: UpkeepItem, today: date) -> str:
    """How a check stands, in a few words."""
    if item.state is UpkeepState.DUE:
        if item.overdue_days:
            return f"due {counted(item.overdue_days, 'day')} ago"
        return "due today" if item.due_on == today else "due"
    if item.state is not UpkeepState.LATER:
        return item.state.value
    if item.due_on is not None:
        return f"on {item.due_on.isoformat()}"
    if item.interval.every is Every.HOURS:
        return f"{item.history.all_hours_tenths // 10} of {item.interval.count} h"
    return "again next load" if item.history.runs_since else "done"


def summary(page: UpkeepPage) -> str:
    """The page in one line: what wants doing, and the latest leak test."""
    wanted = sum(_section_of(item) == _DUE for item in page.items)
    said = f"{wanted} to do" if wanted else "Nothing is due"
    if not page.tests:
        return f"{said} · no leak test on record"
    return f"{said} · leak test {rate_words(page.tests[0].leak)}"


def rate_words(leak: Leak) -> str:
    """A leak rate with its verdict, in a few words."""
    verdict = {"none": "no verdict"}.get(leak.verdict.value, leak.verdict.value)
    return f"{float(leak.mbar_l_per_s):.3g} mbar L/s, {verdict}"


def about_lines(item: UpkeepItem) -> list[str]:
    """What to look at for one check, and why it stands as it does."""
    check = item.check
    own = "your own interval" if item.own_interval else check.standing.words
    often = item.interval.words
    return [check.look, f"{item.reason} {often[:1].upper()}{often[1:]} ({own})."]


def care_lines(cautions: Sequence[Caution]) -> list[str]:
    """What to bear in mind, without sources: they stand in the window of all cautions."""
    return [caution_text(one) for one in cautions if one.key != "local-codes"]


def check_lines(page: UpkeepCheckPage, tests: Sequence[LeakTest]) -> list[str]:
    """One check in full: what, why, on whose word, and when it was done."""
    item, check = page.item, page.item.check
    lines = [check.look, "", f"{item.state.value.capitalize()}. {item.reason}"]
    usual = f", the table says {check.interval.words}" if item.own_interval else ""
    lines.append(f"How often: {item.interval.words}{usual}.")
    lines.append(f"On whose word: {check.source.citation} ({check.standing.words}).")
    if check.anchor is not None:
        lines.append(f"See also: {check.anchor.words}.")
    lines.extend(("", "Done, the latest first:" if page.done else "Never noted as done."))
    for one in page.done:
        note = f", {one.note}" if one.note else ""
        lines.append(f"{one.on_day.isoformat()}  {'in order' if one.passed else 'AT FAULT'}{note}")
    if tests:
        lines.extend(("", "Leak tests, the latest first:"))
        lines.extend(
            f"{one.on_day.isoformat()}  {rate_words(one.leak)}{_shape(one.leak)}" for one in tests
        )
    return lines


def _shape(leak: Leak) -> str:
    return f", {leak.shape.value}" if leak.shape else ""


def leak_lines(leak: Leak) -> list[str]:
    """What a pressure-rise test says."""
    rise = leak.rise
    return [
        leak.sentence,
        "",
        f"{float(leak.mbar_l_per_s):.4g} mbar L/s: {float(rise.volume_l):g} L from"
        f" {show_pressure(rise.from_mbar)} to {show_pressure(rise.to_mbar)}"
        f" in {float(rise.seconds):g} s.",
        f"As gas {float(leak.cm3_per_min):.3g} cm3 a minute, at 0 °C and one atmosphere.",
        f"The pressure rises {float(leak.millitorr_per_min):.3g} mTorr a minute.",
        AS_GOOD_AS,
        "Press w on Upkeep for the working and its sources.",
    ]


def fault_lines() -> list[str]:
    """Where to look when the vacuum is not reached."""
    return [*_fault_lines(), STOP_HERE, f"{FAULT_ORDER.words}."]


def _fault_lines() -> Iterator[str]:
    for place, step in enumerate(FAULT_STEPS, start=1):
        yield f"{place}. {step.where}: {' '.join(part for part in (step.do, step.tells) if part)}"
        yield ""
