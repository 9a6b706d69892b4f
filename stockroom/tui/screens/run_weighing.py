"""Weighing the trays of a run: digits and Enter, tray after tray."""

from __future__ import annotations

from textual import events, on

from stockroom.domain.batch_evidence import Evidence, TrayRecord
from stockroom.domain.quantities import UnitSystem, read_weight, show_weight
from stockroom.domain.records import Tray
from stockroom.errors import StockroomError
from stockroom.services import bench
from stockroom.services.results import RunDetail
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import say
from stockroom.tui.screens.dryness_words import dryness_text
from stockroom.tui.screens.run_sums import tray_text
from stockroom.tui.screens.tray_table import TrayTable
from stockroom.tui.screens.tray_tests import HOW_TO_TEST
from stockroom.tui.screens.weigh_line import Asked, Stage, WeighLine, read_hours
from stockroom.tui.widgets.window_table import WindowTable

HOW_TO_WEIGH = "Digits and Enter weigh it dry."

DIGITS = tuple("0123456789.")


class WeighingScreen(BaseScreen):
    """The part of a run's screen that takes weights. The weight is that of the cursor's tray."""

    def __init__(self, run_id: int) -> None:
        """`run_id` is the number of the run."""
        super().__init__()
        self.run_id = run_id
        self.detail: RunDetail | None = None
        self.evidence: Evidence | None = None
        self.units = UnitSystem.METRIC

    @property
    def table(self) -> TrayTable:
        """The list of trays."""
        return self.query_one(TrayTable)

    @property
    def line(self) -> WeighLine:
        """Where a weight is typed."""
        return self.query_one(WeighLine)

    @property
    def tray(self) -> Tray | None:
        """The tray under the cursor."""
        trays = self.detail.trays if self.detail else ()
        return next((tray for tray in trays if tray.tray_id == self.table.cursor_key), None)

    @property
    def record(self) -> TrayRecord | None:
        """What was weighed and tested on the tray under the cursor."""
        records = self.evidence.trays if self.evidence else ()
        return next((one for one in records if one.tray.tray_id == self.table.cursor_key), None)

    @property
    def is_open(self) -> bool:
        """Whether trays and weights may still change."""
        return self.detail is not None and self.detail.run.state == "open"

    @property
    def is_typing(self) -> bool:
        """Whether a weight is being typed."""
        return any(line.asked is not None for line in self.query(WeighLine))

    # Asking

    def action_weigh(self, stage: Stage) -> None:
        """Ask for a weight of the tray under the cursor."""
        if self.tray is None:
            say(self.app, "Press a to add a tray first.", title="No tray to weigh")
        else:
            self.ask(Asked(stage))

    def ask(self, asked: Asked, typed: str = "") -> None:
        """Ask for a weight, with what was typed already."""
        self.line.ask(asked, typed)
        self._typing(True)

    def rest(self) -> None:
        """Ask for nothing."""
        self.line.rest()
        self._typing(False)

    def _typing(self, is_typing: bool) -> None:
        """Letters are text while a weight is typed, and commands when none is."""
        self.table.is_typing = is_typing
        self.set_focus(self.table)
        self.describe_tray()
        self.refresh_bindings()

    def describe_tray(self) -> None:
        """Say which tray the line is about, and what to type or what is known of it."""
        tray, record, asked = self.tray, self.record, self.line.asked
        if tray is None:
            self.line.describe("", "")
        elif asked is not None:
            self.line.describe(f"Tray {tray.position}", self._hint(tray, asked))
        else:
            self.line.describe("", *self._known(tray, record))

    def _known(self, tray: Tray, record: TrayRecord | None) -> list[str]:
        """What is known of a tray, what it shows, and the next key, a line each."""
        shown = "" if record is None else dryness_text(record)
        lines = [tray_text(tray, self.units), shown]
        if self.is_open and (record is None or not record.dry_since):
            lines.append(HOW_TO_WEIGH)
        elif self.detail is not None and self.detail.run.state != "abandoned":
            lines.append(HOW_TO_TEST)
        return [line for line in lines if line]

    def _hint(self, tray: Tray, asked: Asked) -> str:
        """What to type for a weight."""
        if asked.stage == "tare":
            return f"Weight of the empty tray {tray.position}; the gross weight comes next."
        if asked.tare_dg is not None:
            words = show_weight(asked.tare_dg, self.units)
            return f"What the scale shows with the tray; {words} are taken off."
        if asked.stage == "dry" and tray.wet_dg is None and not tray.again:
            return f"{tray.food}, dry. Its loaded weight is missing: Escape, then w."
        if asked.stage == "wet":
            return f"{tray.food}, as loaded. 1250-400 takes an empty tray of 400 off."
        return (
            f"{tray.food}, dry. 155 @26 was weighed after 26 hours of drying;"
            " 1250-400 takes an empty tray of 400 off."
        )

    @on(WindowTable.RowHighlighted)
    def _moved(self) -> None:
        """On another tray the weight is that tray's; a tare is not taken along."""
        if self.line.asked and (self.line.asked.tare_dg is not None):
            self.rest()
        self.describe_tray()
        self.refresh_bindings()

    # Typing

    def on_key(self, event: events.Key) -> None:
        """A digit on a tray begins its dry weight; while one is typed every sign is part of it."""
        if self.is_typing:
            taken = self._press(event)
        else:
            sign = event.character or ""
            taken = self.is_open and self.table.has_focus and sign in DIGITS and self.tray
            if taken:
                self.ask(Asked("dry"), sign)
        if taken:
            event.stop()
            event.prevent_default()

    def _press(self, event: events.Key) -> bool:
        """Act on a key while a weight is typed; False when it is none of the line's."""
        if event.key == "enter":
            self._finish()
        elif event.key == "backspace":
            self.line.erase()
        elif event.is_printable and event.character:
            self.line.add(event.character)
        else:
            return False
        return True

    def on_paste(self, event: events.Paste) -> None:
        """What is pasted is typed."""
        if self.is_typing:
            event.stop()
            self.line.add(" ".join(event.text.split()))

    # Taking

    def _finish(self) -> None:
        """Enter takes the weight; a refusal leaves it standing."""
        asked, tray = self.line.asked, self.tray
        if asked is None or tray is None:
            return
        try:
            self._take(asked, tray, self.line.typed)
        except StockroomError as error:
            self.line.refuse(f"{error.message} {error.hint}".strip())

    def _take(self, asked: Asked, tray: Tray, typed: str) -> None:
        """Record a weight and go on to the next tray; after a tare ask for the gross weight."""
        units = self.units
        if asked.stage == "tare":
            tare_dg = read_weight(typed, units, "tare")
            self.ask(Asked("wet" if tray.wet_dg is None else "dry", tare_dg))
            return
        weight, at, said = typed.partition("@")
        gross_dg, said_dg = read_gross(weight, units)
        bench.weigh_tray(
            self.stockroom,
            tray.position,
            asked.stage,
            gross_dg,
            tare_dg=asked.tare_dg if said_dg is None else said_dg,
            hours=read_hours(said) if at else None,
            run_id=self.run_id,
        )
        self.rest()
        self.announce("run")
        self.table.action_move(1)


def read_gross(typed: str, units: UnitSystem) -> tuple[int, int | None]:
    """What the scale shows and the tare, from "1250" or "1250-400". Raises BadInput."""
    gross, minus, tare = typed.strip().partition("-")
    if not gross or not minus:
        return read_weight(typed, units), None
    return read_weight(gross, units), read_weight(tare, units, "tare")
