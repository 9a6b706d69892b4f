"""Everything weighed and tested on one tray, in the order it happened, and how it was judged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Static

from stockroom.domain.batch_evidence import Evidence, TrayRecord
from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.working import Working
from stockroom.services.dryness import DrynessTest, words_of_test
from stockroom.services.evidence import tray_working
from stockroom.services.session import Stockroom
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.dryness_words import (
    COLOURS,
    begun_at,
    dryness_text,
    hours_words,
    tone_of_tray,
    weight_word,
)
from stockroom.tui.screens.table_window import TableWindow
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone

NOTHING = "Nothing was weighed or tested on this tray yet. Digits and Enter weigh it dry."
COUNTS, START, BEFORE, LOADED = "counts", "start", "before", "as loaded"


@dataclass(frozen=True, slots=True)
class Happening:
    """One weighing, test or beginning of a few more hours, as a line of the page."""

    at: datetime
    what: str
    counts: str = ""
    weight_dg: int | None = None
    lost_dg: int | None = None
    hours_tenths: int | None = None
    note: str = ""
    tone: Tone = ""


def happenings(record: TrayRecord, evidence: Evidence) -> tuple[Happening, ...]:
    """What happened to a tray, in order; extra hours stand between what they part."""
    parts: list[tuple[tuple[int, int, datetime, int], Happening]] = [
        ((place, 0, begun_at(extra), 0), _longer(extra))
        for place, extra in enumerate(evidence.extra, start=1)
    ]
    for at, weighing in enumerate(record.weighings):
        place = sum(weighing.weighing_id > extra.last_weighing_id for extra in evidence.extra)
        parts.append(((place, 1, weighing.at, at), _weighed(record, at)))
    for at, check in enumerate(record.checks, start=len(record.weighings)):
        place = sum(check.check_id > extra.last_check_id for extra in evidence.extra)
        parts.append(((place, 1, check.at, at), _tested(check, record.last_check_id)))
    return tuple(happening for _, happening in sorted(parts, key=lambda part: part[0]))


def _longer(extra: ExtraDrying) -> Happening:
    """The beginning of a few more hours."""
    words = f"{hours_words(extra.hours_tenths)} more"
    return Happening(begun_at(extra), words, note=extra.note, tone="quiet")


def _weighed(record: TrayRecord, at: int) -> Happening:
    """A weighing, with what was lost since the dry weighing before it."""
    one = record.weighings[at]
    if one.stage != "dry":
        return Happening(one.at, "weighed", LOADED, one.net_dg, tone="quiet")
    earlier = [other.net_dg for other in record.weighings[:at] if other.stage == "dry"]
    before = one.weighing_id <= record.last_weighing_id
    following = record.weighings[at + 1 :]
    is_start = before and len(record.dry_since) == 1 and following[:1] == record.dry_since
    return Happening(
        one.at,
        "weighed dry",
        (START if is_start else BEFORE) if before else COUNTS,
        one.net_dg,
        earlier[-1] - one.net_dg if earlier else None,
        one.hours_tenths,
        tone="quiet" if before else "",
    )


def _tested(one: DrynessCheck, last_check_id: int) -> Happening:
    """A test and what it found."""
    words = words_of_test(DrynessTest(one.kind), one.passed)
    if one.check_id <= last_check_id:
        return Happening(one.at, words, BEFORE, note=one.note, tone="quiet")
    return Happening(one.at, words, COUNTS, note=one.note, tone="good" if one.passed else "bad")


class ReadingsScreen(TableWindow[None]):
    """One tray: every reading and test, the verdict, and the working of constant weight."""

    BINDINGS: ClassVar[list[BindingType]] = [
        working_binding("readings", "Show how constant weight and the gate were judged."),
    ]
    DEFAULT_CSS = """
    ReadingsScreen .section { color: $primary; text-style: bold; margin-top: 1; }
    """

    def __init__(self, room: Stockroom, evidence: Evidence, record: TrayRecord) -> None:
        """Raises NotFound when the tray is gone."""
        self.record = record
        self.evidence = evidence
        self.units = room.units
        self.lines = happenings(record, evidence)
        tray, run = record.tray, evidence.run
        super().__init__(
            room,
            f"Tray {tray.position} of run {run.run_id}: {tray.food}",
            columns(self.units),
            above=_above(record),
            empty=NOTHING,
        )
        self.page = tray_working(room, run.run_id, tray.position)

    def compose_below(self) -> ComposeResult:
        """How constant weight was judged, in short; w shows it in full."""
        weight = self.page.workings[0]
        yield Static("How constant weight is judged", classes="section")
        yield Static(plain_lines(short_working(weight)), classes="text")

    def on_mount(self) -> None:
        """Show what happened, the last of it under the cursor."""
        super().on_mount()
        verdict, *others = _above(self.record)
        lines = [plain(verdict, COLOURS[tone_of_tray(self.record)]), *map(plain, others)]
        self.query_one(".above", Static).update(Content("\n").join(lines))
        self.show_rows([self._row(key, one) for key, one in enumerate(self.lines)])
        # The table reads its rows once it knows how high it is.
        self.call_after_refresh(self.table.go_to_key, len(self.lines) - 1)

    def _row(self, key: int, one: Happening) -> Row:
        cells = (
            moment_words(one.at),
            one.what,
            "" if one.weight_dg is None else show_weight(one.weight_dg, self.units),
            "" if one.lost_dg is None else show_weight(one.lost_dg, self.units),
            "" if one.hours_tenths is None else hours_words(one.hours_tenths),
            one.counts,
        )
        return Row(key, cells, one.tone)

    def words_of(self, key: int) -> Sequence[str]:
        """What a line means, and its note."""
        one = self.lines[key]
        found = [_MEANING[one.counts]] if one.counts in _MEANING else []
        if one.hours_tenths is not None:
            found.append(f"After {hours_words(one.hours_tenths)} of drying.")
        return [*found, *([f"Note: {one.note}"] if one.note else [])]

    def action_working(self) -> None:
        """Show how constant weight and the gate were judged, step by step."""
        tray = self.record.tray
        heading = f"Working: tray {tray.position}, {tray.food}"
        open_working(self, heading, lambda: self.page)


_MEANING = {
    COUNTS: "It counts: no extra hours since.",
    BEFORE: "From before the extra hours: it shows nothing any more.",
    START: "From before the extra hours: the one weighing since is measured against it.",
    LOADED: "As loaded, before drying.",
}


def columns(units: UnitSystem) -> tuple[Column, ...]:
    """The columns of the page. Ounces and pounds need more room than grams."""
    cells = 11 if units is UnitSystem.US else 9
    return (
        Column("When", 12, look="quiet"),
        Column("What", 13, weight=1, look="main"),
        Column("Weight", cells, align="right"),
        Column("Lost", cells, align="right"),
        Column("Hours", 6, align="right", priority=1),
        Column("Stands", 9, priority=2, look="tone"),
    )


def moment_words(at: datetime) -> str:
    """A moment on the clock on the wall: "25 Nov 14:30"."""
    local = at.astimezone()
    return f"{local.day:>2} {local:%b %H:%M}"


def short_working(working: Working) -> list[str]:
    """The steps of a working in a line each, with the rule they follow."""
    lines = [f"{step.title[:1].upper()}{step.title[1:]}: {step.result}" for step in working.steps]
    return [*lines, *(f"Rule: {one.words}" for one in working.sources), *working.cautions]


def _above(record: TrayRecord) -> list[str]:
    """The verdict on the tray, and whether it is the one to break."""
    word = weight_word(record)
    lines = [f"{word[:1].upper()}{word[1:]}. {dryness_text(record)}".strip()]
    if record.finding.slowest:
        lines.append("The slowest tray of its lot: its thickest piece has to snap.")
    return lines
