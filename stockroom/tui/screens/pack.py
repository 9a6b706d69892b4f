"""Packing a lot: lines of packages with the sum under them, then the words for the labels."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from textual.binding import Binding, BindingType

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.packing import SplitRequest, balance_of
from stockroom.domain.quantities import read_day, show_weight
from stockroom.errors import StockroomError
from stockroom.services import packing
from stockroom.services.evidence import lot_evidence
from stockroom.services.packing import LossReason, LotPackedOut, WaitsAlready
from stockroom.services.results import Done, LotDetail, Packed
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen, attempt, tell
from stockroom.tui.plaintext import say
from stockroom.tui.screens.labels import labels_screen
from stockroom.tui.screens.loss_words import LOSS_WORDS
from stockroom.tui.screens.pack_form import LinesForm, container_search
from stockroom.tui.screens.windows import ChoiceScreen, open_window
from stockroom.tui.screens.working_key import WHILE_TYPING, open_working, working_binding
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers
from stockroom.tui.widgets.picker import Choice

__all__ = ["PackScreen", "ask_about_rest", "begin_packing", "container_search"]

LATER = "later"


class PackScreen(LinesForm):
    """The packing form of a lot. It closes with what was packed, after showing the cautions."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "f5",
            "advice",
            "Advice",
            id="pack-advice",
            tooltip="How the lot would be packed best, and why; fills in the lines.",
        ),
        working_binding(
            "pack",
            "Show how water, absorber and best-by of the line were reached.",
            key=WHILE_TYPING,
        ),
    ]

    def __init__(self, room: Stockroom, detail: LotDetail) -> None:
        """`detail` is the lot as it stands."""
        self.lot = lot = detail.lot
        self.dryness_heading = f"Is lot {lot.code} dry?"
        self.sealed = Field(
            "sealed",
            "Sealed on",
            "today",
            hint="today, yesterday, -2 …",
            answers_to=("sealing day",),
        )
        super().__init__(
            room,
            f"Pack lot {lot.code}",
            balance_of(lot),
            serving_dg=lot.serving_dg,
            about=_about(room, detail),
            gate=detail.gate,
        )

    @property
    def last_fields(self) -> tuple[Field, ...]:
        """The place, then the day."""
        return (self.place, self.sealed)

    def evidence(self) -> Evidence:
        """What shows that the lot is dry."""
        return lot_evidence(self.room, self.lot.code)

    # Advice

    def action_advice(self) -> None:
        """Show how the lot would be packed best; Enter there fills the lines in."""
        from stockroom.tui.screens.advice import advice_screen

        place = self.place.choice
        in_use = any(line.in_use for line in self.lines)
        window = attempt(
            self.app,
            advice_screen,
            self.room,
            self.lot.code,
            place.label if place else None,
            replaces=in_use,
        )
        if window is not None:
            self.app.push_screen(window, self._take_advice)

    def _take_advice(self, way: Packed | None) -> None:
        """Fill the first line in; the others are in use no more."""
        if way is None:
            return
        container = way.fit.container
        absorber_cc = None if way.absorber is None else way.absorber.absorber_cc
        split = SplitRequest(way.fit.count, container.key, None, absorber_cc, vacuum=False)
        self.lines[0].fill(split, Choice(container.key, container.name))
        for line in self.lines[1:]:
            line.count.input.value = ""
        self.show_sum()
        self.show_gate()
        self.go_on()

    # The working

    def action_working(self) -> None:
        """Show how the figures of the line being typed, or else of the first, were reached."""
        from stockroom.services.outlook_workings import planned_working

        sums, sealed_on = self.read(), self._day()
        if sums is None or sealed_on is None:
            return
        used = [line for line in self.lines if line.in_use]
        at = next((at for at, line in enumerate(used) if line.has_focus_within), 0)
        one = sums.planned[at]
        heading = f"Working: {one.split.count} × {self.containers[one.split.container].name}"
        open_working(
            self, heading, planned_working, self.room, self.lot.code, one.split,
            one.shares[0], place=self.where(), sealed_on=sealed_on,
        )  # fmt: skip

    def _day(self) -> date | None:
        """The day typed; None once it said what is wrong with it."""
        try:
            return self._sealed_on()
        except StockroomError as error:
            self._refuse(error)
        return None

    def _sealed_on(self) -> date:
        """The day typed. Raises BadInput."""
        return read_day(self.sealed.text, self.room.today, "sealing day")

    # Finishing

    def action_submit(self) -> None:
        """A day that cannot be read is said before anything is asked."""
        if self._day() is not None:
            super().action_submit()

    def pack(self, answers: Answers) -> Done:
        """Write it all down."""
        return packing.pack_lot(
            self.room,
            self.lot.code,
            self.splits,
            place=self.where(),
            sealed_on=self._sealed_on(),
            despite=self.reason,
        )


def begin_packing(screen: BaseScreen, lot_code: str, *, advise: bool = False) -> None:
    """Open the packing form for a lot; afterwards show the labels and ask about what is left.

    `advise` opens the advice over the form at once.
    """
    room: Stockroom = screen.stockroom
    detail = screen.attempt(packing.lot_detail, room, lot_code)
    if detail is None:
        return
    lot = detail.lot
    if not lot.left_dg:
        tell(screen.app, LotPackedOut(lot.code))
        return
    if detail.queued is not None:
        tell(screen.app, WaitsAlready(lot.code))
        return

    def packed(done: Done | None) -> None:
        if done is None:
            return
        screen.announce("package", "lot")
        open_window(
            screen, lambda _: ask_about_rest(screen, lot.code), labels_screen, room, lot.code, done
        )

    open_window(screen, packed, PackScreen, room, detail)
    if advise and isinstance(screen.app.screen, PackScreen):
        screen.app.screen.action_advice()


def ask_about_rest(screen: BaseScreen, lot_code: str) -> None:
    """Ask what became of what is left of a lot; leaving it for later is the first answer."""
    room: Stockroom = screen.stockroom
    detail = screen.attempt(packing.lot_detail, room, lot_code)
    units = screen.attempt(lambda: room.units)
    if detail is None or units is None or not detail.lot.left_dg:
        return
    left = show_weight(detail.lot.left_dg, units)

    def record(answer: str | None) -> None:
        if answer in (None, LATER):
            return
        done = screen.attempt(packing.record_loss, room, lot_code, None, LossReason(answer))
        if done:
            screen.announce("lot")
            say(screen.app, done.words)

    screen.app.push_screen(
        ChoiceScreen(
            f"{left} of lot {lot_code} is left",
            [f"{left} of dry {detail.lot.food} is in no package. What becomes of it?"],
            [
                Choice(LATER, "leave it for later", "it stays in the list of lots to pack"),
                *(Choice(str(one), str(one), LOSS_WORDS[one]) for one in LossReason),
            ],
        ),
        record,
    )


def _about(room: Stockroom, detail: LotDetail) -> list[str]:
    """The lot in one line."""
    units, lot = room.units, detail.lot
    left, all_of_it = show_weight(lot.left_dg, units), show_weight(lot.dry_dg, units)
    serving = show_weight(lot.serving_dg, units)
    return [f"{lot.food}: {left} dry left of {all_of_it}. One serving is {serving} with its water."]
