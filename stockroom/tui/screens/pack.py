"""Packing a lot: lines of packages with the sum under them, then the words for the labels."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Static

from stockroom.domain.packing import SplitRequest, read_split
from stockroom.domain.quantities import read_day, show_weight
from stockroom.domain.records import Container, Lot
from stockroom.errors import BadInput, StockroomError
from stockroom.services import household, packing
from stockroom.services.advice import PackingAdvice
from stockroom.services.packing import LossReason, LotPackedOut
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen, attempt, tell
from stockroom.tui.plaintext import plain_lines, say
from stockroom.tui.screens.labels import labels_screen
from stockroom.tui.screens.loss_words import LOSS_WORDS
from stockroom.tui.screens.pack_line import CellTrouble, LineHeadings, PackLine
from stockroom.tui.screens.pack_sums import PackingSum, left_text, packing_sum, planned_text
from stockroom.tui.screens.package_forms import place_search
from stockroom.tui.screens.windows import CareScreen, ChoiceScreen, open_window
from stockroom.tui.widgets.fields import ERROR_SIGN, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

MOST_LINES = 12
LATER = "later"
LINES_HINT = "Enter adds a line; on an empty Count it goes on."


class PackScreen(FormScreen[Done]):
    """The packing form. It closes with what was packed, after showing the cautions."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "f5",
            "advice",
            "Advice",
            id="pack-advice",
            tooltip="How the lot would be packed best, and why; fills in the lines.",
        ),
    ]
    DEFAULT_CSS = """
    PackScreen {
        & > .box { width: 78; }
        .about { margin-bottom: 0; }
        #lines { height: auto; margin-top: 1; }
        .lines-hint { color: $foreground-muted; margin-bottom: 1; }
        #sum { height: auto; margin-bottom: 1; }
        .foot { padding: 0; }
    }
    """

    def __init__(self, room: Stockroom, lot: Lot) -> None:
        self.room = room
        self.lot = lot
        self.containers = {one.key: one for one in household.list_containers(room)}
        self.search = container_search(tuple(self.containers.values()))
        self.lines = [PackLine(1, self.search, None)]
        self.place = Picker("place", "Place", place_search(room), hint="May stay empty.")
        self.sealed = Field(
            "sealed",
            "Sealed on",
            "today",
            hint="today, yesterday, -2 …",
            answers_to=("sealing day",),
        )
        super().__init__(f"Pack lot {lot.code}", (), self._pack, about=_about(room, lot))
        self._list_fields()

    def _list_fields(self) -> None:
        """Keep the form's fields in the order they are filled in."""
        cells = [field for line in self.lines for field in line.fields]
        self.fields = (*cells, self.place, self.sealed)

    def compose_inside(self) -> ComposeResult:
        """The lot, the lines, their sum, the place, and what is wrong."""
        yield Static(plain_lines(self.about), classes="about")
        with Vertical(id="lines"):
            yield LineHeadings()
            yield from self.lines
        yield Static(LINES_HINT, classes="lines-hint")
        yield Static(id="sum")
        yield self.place
        yield self.sealed
        yield Static(classes="foot")

    # Lines and their sum

    @on(Field.Moved)
    async def _line_changed(self, message: Field.Moved) -> None:
        """Keep the sum right. Enter after the last cell begins a line while there is food left."""
        left_dg = self._show_sum()
        if not message.done:
            return
        last = self.lines[-1]
        if message.field is last.vacuum and last.in_use and len(self.lines) < MOST_LINES:
            if left_dg != 0:
                message.prevent_default()
                await self._add_line(last)
        elif message.field is last.count and not last.in_use:
            message.prevent_default()
            self.place.begin()

    async def _add_line(self, last: PackLine) -> None:
        """Begin another line, with the container of the one before."""
        line = PackLine(last.number + 1, self.search, last.container.choice)
        self.lines.append(line)
        self._list_fields()
        await self.query_one("#lines").mount(line)
        line.count.begin()

    @property
    def splits(self) -> list[SplitRequest]:
        """What the lines in use ask for. Raises CellTrouble."""
        units = self.room.units
        return [line.split(units, self.containers) for line in self.lines if line.in_use]

    def _show_sum(self) -> int | None:
        """Show what the lines would make of the lot; returns what is left, None if unreadable."""
        left_dg = None
        try:
            sums = packing_sum(self.lot, self.splits)
            left_dg, lines = sums.left_dg, self._sum_lines(sums)
        except CellTrouble:
            lines = ["The sum appears once every cell can be read."]
        except StockroomError as error:
            lines = [f"{ERROR_SIGN} {error.message}"]
        self.query_one("#sum", Static).update(plain_lines(lines))
        return left_dg

    def _sum_lines(self, sums: PackingSum) -> list[str]:
        units = self.room.units
        if not sums.planned:
            return []
        lines = [
            planned_text(one, self.containers[one.split.container].name, self.lot, units)
            for one in sums.planned
        ]
        return [*lines, left_text(sums, units)]

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

    def _take_advice(self, advice: PackingAdvice | None) -> None:
        """Fill the first line in; the others are in use no more."""
        if advice is None or advice.advised is None:
            return
        container = advice.advised.fit.container
        self.lines[0].fill(read_split(advice.into), Choice(container.key, container.name))
        for line in self.lines[1:]:
            line.count.input.value = ""
        self._show_sum()
        self.place.begin()

    # Finishing

    def action_submit(self) -> None:
        """Show what would be packed with its cautions; a yes packs it."""
        try:
            splits = self.splits
            self._refuse_nothing(splits)
            sums = packing_sum(self.lot, splits)
            where = self._place()
            read_day(self.sealed.text, self.room.today, "sealing day")
            cautions = packing.packing_cautions(self.room, self.lot.code, splits)
        except CellTrouble as trouble:
            self._refuse_cell(trouble)
        except StockroomError as error:
            self._refuse(error)
        else:
            lines = [*self._sum_lines(sums), f"Place: {where or 'none yet'}."]
            heading = f"Pack lot {self.lot.code} so?"
            self.app.push_screen(CareScreen(heading, lines, cautions), self._confirmed)

    def _refuse_nothing(self, splits: Sequence[SplitRequest]) -> None:
        if not splits:
            empty = BadInput("count", "", "how many packages of which container")
            raise CellTrouble(self.lines[0].count, empty)

    def _refuse_cell(self, trouble: CellTrouble) -> None:
        """Say what is wrong below, and go to the cell."""
        trouble.field.show_error(trouble.error.message)
        trouble.field.begin()
        self._say_below(f"{ERROR_SIGN} {trouble.error.message} {trouble.error.hint}".strip())

    def _confirmed(self, sure: bool | None) -> None:
        """Pack, once the cautions were read."""
        if sure:
            super().action_submit()

    def _place(self) -> str | None:
        """The path of the place, None when there is none yet. Raises BadInput."""
        choice = self.place.choice
        if choice is not None:
            return choice.label
        if self.place.text.strip():
            raise BadInput("place", self.place.text, "a few letters of a place, or nothing")
        return None

    def _pack(self, answers: Answers) -> Done:
        """Write it all down."""
        return packing.pack_lot(
            self.room,
            self.lot.code,
            self.splits,
            place=self._place(),
            sealed_on=read_day(answers.text("sealed"), self.room.today, "sealing day"),
        )


def container_search(containers: Sequence[Container]) -> Search:
    """Finds containers by words of their name or key."""

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().split()
        return [
            Choice(one.key, one.name, f"{one.volume_ml} mL")
            for one in containers
            if all(word in f"{one.name} {one.key}".casefold() for word in words)
        ]

    return search


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

    def packed(done: Done | None) -> None:
        if done is None:
            return
        screen.announce("package", "lot")
        open_window(
            screen, lambda _: ask_about_rest(screen, lot.code), labels_screen, room, lot.code, done
        )

    open_window(screen, packed, PackScreen, room, lot)
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


def _about(room: Stockroom, lot: Lot) -> list[str]:
    """The lot in one line."""
    units = room.units
    left, all_of_it = show_weight(lot.left_dg, units), show_weight(lot.dry_dg, units)
    serving = show_weight(lot.serving_dg, units)
    return [f"{lot.food}: {left} dry left of {all_of_it}. One serving is {serving} with its water."]
