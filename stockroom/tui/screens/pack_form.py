"""What every packing form has: lines of packages with their sum, the gate, and the place."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Static

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.cautions import Caution, chosen
from stockroom.domain.gate import Gate, override_words
from stockroom.domain.packing import LotBalance, SplitRequest
from stockroom.domain.records import Container
from stockroom.errors import BadInput, StockroomError
from stockroom.services import household, packing
from stockroom.services.dryness import GateClosed
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.modal import attempt
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.dryness_words import gate_text
from stockroom.tui.screens.gate_window import GateScreen
from stockroom.tui.screens.pack_line import CellTrouble, LineHeadings, PackLine
from stockroom.tui.screens.pack_sums import PackingSum, left_text, packing_sum, planned_text
from stockroom.tui.screens.package_forms import place_search
from stockroom.tui.screens.windows import CareScreen
from stockroom.tui.widgets.fields import ERROR_SIGN, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

MOST_LINES = 12
LINES_HINT = "Enter adds a line; on an empty Count it goes on."
MORE_HINT = "Packet of the absorbers, box of the containers, tray of the food: all may stay empty."
NO_BAR = "Dryness is not shown, which is no bar without absorber and vacuum. F7 shows the trays."
SAY_WHY = "Say why it is packed so all the same, or take absorber and vacuum away."


class LinesForm(FormScreen[Done]):
    """Lines of packages, their sum, the gate where it counts, and where the packages go.

    While dryness is not shown and a line takes the oxygen away, the form says what is missing
    and asks for a reason; every such package carries it.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "f7",
            "dryness",
            "Dryness",
            id="pack-dryness",
            tooltip="What shows that the food is dry, tray by tray; tests are recorded there.",
        ),
        Binding(
            "f8",
            "more",
            "More",
            id="pack-more",
            tooltip="Show or hide the packet of absorbers, the box of containers and the tray.",
        ),
    ]
    DEFAULT_CSS = """
    LinesForm {
        & > .box { width: 78; }
        .about { margin-bottom: 0; }
        #lines { height: auto; margin-top: 1; }
        .lines-hint { color: $foreground-muted; margin-bottom: 1; }
        #sum { height: auto; margin-bottom: 1; }
        #gate { height: auto; margin-bottom: 1; color: $foreground-muted; }
        #gate.-shown { color: $success; }
        #gate.-missing { color: $warning; }
        #field-despite { display: none; }
        #field-despite.-asked { display: block; }
        .foot { padding: 0; }
    }
    """

    dryness_heading = "Is it dry?"
    """Over the trays, when they are looked at from here."""

    def __init__(
        self,
        room: Stockroom,
        heading: str,
        balance: LotBalance,
        *,
        serving_dg: int,
        about: Sequence[str],
        gate: Gate | None,
        first: str = "",
        stands: Choice | None = None,
    ) -> None:
        """`balance` is what there is to pack; `gate` None asks nothing about dryness.

        `first` is the key of the container picked at first, `stands` the place.
        """
        self.room = room
        self.balance = balance
        self.serving_dg = serving_dg
        self.gate = gate
        self.containers = {one.key: one for one in household.list_containers(room)}
        self.search = container_search(tuple(self.containers.values()))
        known = self.containers.get(first)
        picked = Choice(known.key, known.name) if known else None
        self.lines = [PackLine(1, self.search, picked)]
        self.place = Picker("place", "Place", place_search(room), stands, hint="May stay empty.")
        self.despite = Field(
            "despite", "Despite that", hint="Why it is packed so; every such package says it."
        )
        super().__init__(heading, (), self.pack, about=about)
        self._list_fields()

    # What a kind of packing adds

    @abstractmethod
    def pack(self, answers: Answers) -> Done:
        """Write it all down; `splits`, `where` and `reason` say what was asked for."""

    @abstractmethod
    def evidence(self) -> Evidence:
        """What shows that the food is dry, read anew: one batch."""

    def cautions(self, splits: Sequence[SplitRequest]) -> tuple[Caution, ...]:
        """What to bear in mind before packing so."""
        return packing.packing_cautions(self.room, self.balance.code, splits)

    def question(self, sums: PackingSum) -> list[str]:
        """What would be packed, for the last question."""
        origins = [text for one in sums.planned if (text := origin_text(one.split))]
        place = f"Place: {self.where() or 'none yet'}."
        return [*self.sum_lines(sums), *dict.fromkeys(origins), place]

    @property
    def last_fields(self) -> tuple[Field, ...]:
        """The fields after the lines."""
        return (self.place,)

    # The parts

    def _list_fields(self) -> None:
        """Keep the form's fields in the order they are filled in."""
        cells = [field for line in self.lines for field in line.shown]
        reason = (self.despite,) if self.wants_reason else ()
        self.fields = (*cells, *reason, *self.last_fields)

    def compose_inside(self) -> ComposeResult:
        """The food, the lines, their sum, the gate, the place, and what is wrong."""
        yield Static(plain_lines(self.about), classes="about")
        with Vertical(id="lines"):
            yield LineHeadings()
            yield from self.lines
        yield Static(LINES_HINT, classes="lines-hint")
        yield Static(id="sum")
        yield Static(id="gate")
        yield self.despite
        yield from self.last_fields
        yield Static(classes="foot")

    def on_mount(self) -> None:
        """Say how the gate stands."""
        self.show_gate()

    # Lines and their sum

    @on(Field.Moved)
    async def _line_changed(self, message: Field.Moved) -> None:
        """Keep sum and gate right. Enter after the last cell begins a line while food is left."""
        left_dg = self.show_sum()
        self.show_gate()
        if not message.done:
            return
        last = self.lines[-1]
        if message.field is last.shown[-1] and last.in_use and len(self.lines) < MOST_LINES:
            if left_dg != 0:
                message.prevent_default()
                await self._add_line(last)
        elif message.field is last.count and not last.in_use:
            message.prevent_default()
            self.go_on()

    def go_on(self) -> None:
        """Go to the first field after the lines."""
        (self.despite if self.wants_reason else self.place).begin()

    async def _add_line(self, last: PackLine) -> None:
        """Begin another line, with the container of the one before."""
        line = PackLine(last.number + 1, self.search, last.container.choice, before=last)
        self.lines.append(line)
        self._list_fields()
        await self.query_one("#lines").mount(line)
        line.count.begin()

    @property
    def splits(self) -> list[SplitRequest]:
        """What the lines in use ask for. Raises CellTrouble."""
        units = self.room.units
        return [line.split(units, self.containers) for line in self.lines if line.in_use]

    def show_sum(self) -> int | None:
        """Show what the lines would make; returns what is left, None if unreadable."""
        left_dg = None
        try:
            sums = packing_sum(self.balance, self.splits)
            left_dg, lines = sums.left_dg, self.sum_lines(sums)
        except CellTrouble:
            lines = ["The sum appears once every cell can be read."]
        except StockroomError as error:
            lines = [f"{ERROR_SIGN} {error.message}"]
        self.query_one("#sum", Static).update(plain_lines(lines))
        return left_dg

    def sum_lines(self, sums: PackingSum) -> list[str]:
        """What each line would hold, then what is left."""
        if not sums.planned:
            return []
        lines = [
            planned_text(
                one, self.containers[one.split.container].name, self.serving_dg, self.room.units
            )
            for one in sums.planned
        ]
        return [*lines, left_text(sums, self.room.units)]

    def action_more(self) -> None:
        """Show the cells for packet, box and tray; hide them again while they are empty."""
        shown = self.lines[0].shows_more
        if shown and any(field.text.strip() for line in self.lines for field in line.origins):
            return
        was_there = next((line for line in self.lines if line.types_origin), None)
        for line in self.lines:
            line.set_class(not shown, "-more")
        hint = LINES_HINT if shown else MORE_HINT
        self.query_one(".lines-hint", Static).update(plain(hint))
        self._list_fields()
        if not shown:
            packet = self.lines[-1].packet
            packet.begin()
            # It has a place on the screen only once the form is laid out anew.
            self.call_after_refresh(packet.scroll_visible, animate=False)
        elif was_there is not None:
            was_there.count.begin()

    # The gate

    @property
    def wants_reason(self) -> bool:
        """Whether dryness is not shown and a line takes the oxygen away."""
        closed = self.gate is not None and not self.gate.open
        return closed and any(line.low_oxygen for line in self.lines)

    @property
    def reason(self) -> str:
        """Why it is packed although dryness is not shown; "" where that is not asked."""
        return self.despite.text if self.wants_reason else ""

    def show_gate(self) -> None:
        """Say how the gate stands; ask for a reason only where one is wanted."""
        line = self.query_one("#gate", Static)
        line.display = self.gate is not None
        wanted = self.wants_reason
        if self.gate is not None:
            line.set_class(self.gate.open, "-shown")
            line.set_class(wanted, "-missing")
            text = f"{ERROR_SIGN} {gate_text(self.gate, open_run=False)} (F7)" if wanted else NO_BAR
            line.update(plain(self.gate.words if self.gate.open else text))
        self.despite.set_class(wanted, "-asked")
        self._list_fields()

    def _read_gate(self) -> None:
        """Ask again whether dryness is shown."""
        if self.gate is not None:
            evidence = attempt(self.app, self.evidence)
            if evidence is not None:
                self.gate = evidence.batches[0].gate
            self.show_gate()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Food packed as it is has no gate."""
        return self.gate is not None if action == "dryness" else True

    def action_dryness(self) -> None:
        """Show what shows that the food is dry; what is typed stays."""
        window = attempt(self.app, GateScreen, self.room, self.dryness_heading, self.evidence)
        if window is not None:
            self.app.push_screen(window, lambda _: self._read_gate())

    # Finishing

    def read(self) -> PackingSum | None:
        """What the form asks for; None once it said what is wrong."""
        try:
            splits = self.splits
            if not splits:
                empty = BadInput("count", "", "how many packages of which container")
                raise CellTrouble(self.lines[0].count, empty)
            self.where()
            return packing_sum(self.balance, splits)
        except CellTrouble as trouble:
            self._refuse_cell(trouble)
        except StockroomError as error:
            self._refuse(error)
        return None

    def action_submit(self) -> None:
        """Show what would be packed with its cautions; a yes packs it."""
        sums = self.read()
        if sums is None:
            return
        self._read_gate()
        if self.wants_reason and not self.reason.strip():
            self._ask_why()
            return
        splits = [one.split for one in sums.planned]
        cautions = attempt(self.app, self.cautions, splits)
        if cautions is None:
            return
        lines = self.question(sums)
        if self.wants_reason and self.gate is not None:
            lines.insert(0, f"{self.gate.words} Each package says: {override_words(self.reason)}.")
            cautions = chosen(one.key for one in (*cautions, *self.gate.cautions))
        self.app.push_screen(CareScreen(f"{self.heading} so?", lines, cautions), self._confirmed)

    def _ask_why(self) -> None:
        """Ask for the reason, with what is missing above it."""
        self.despite.show_error(SAY_WHY)
        self.despite.begin()
        self.call_after_refresh(self.despite.scroll_visible, animate=False)

    def _refuse(self, error: StockroomError) -> None:
        """A gate that closed meanwhile asks for the reason; what was typed stands."""
        if isinstance(error, GateClosed):
            self._read_gate()
            self._say_below(f"{ERROR_SIGN} {error.message}")
            self._ask_why()
        else:
            super()._refuse(error)

    def _refuse_cell(self, trouble: CellTrouble) -> None:
        """Say what is wrong below, and go to the cell."""
        trouble.field.show_error(trouble.error.message)
        trouble.field.begin()
        self._say_below(f"{ERROR_SIGN} {trouble.error.message} {trouble.error.hint}".strip())

    def _confirmed(self, sure: bool | None) -> None:
        """Pack, once the cautions were read."""
        if sure:
            super().action_submit()

    def where(self) -> str | None:
        """The path of the place, None when there is none yet. Raises BadInput."""
        choice = self.place.choice
        if choice is not None:
            return choice.label
        if self.place.text.strip():
            raise BadInput("place", self.place.text, "a few letters of a place, or nothing")
        return None


def origin_text(split: SplitRequest) -> str:
    """Where the parts of a line came from; "" where that was not said."""
    parts = [
        f"absorbers out of {split.absorber_packet}" if split.absorber_packet else "",
        f"containers out of {split.container_box}" if split.container_box else "",
        f"food of tray {split.tray_position}" if split.tray_position else "",
    ]
    said = ", ".join(part for part in parts if part)
    return f"{said[:1].upper()}{said[1:]}." if said else ""


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
