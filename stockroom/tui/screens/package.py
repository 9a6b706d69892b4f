"""One package in full: what is in it, where, until when, what to bear in mind, what happened."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.widgets import Static

from stockroom.domain.cautions import Caution
from stockroom.domain.conditions import USABLE, Condition, Event, events_for
from stockroom.domain.doubts import Doubt
from stockroom.errors import StockroomError
from stockroom.services.results import PackageDetail
from stockroom.services.shelves import package_detail
from stockroom.tui.modal import tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.findings import decide_binding
from stockroom.tui.screens.package_actions import (
    PackageActions,
    common_binding,
    package_binding,
    trace_binding,
)
from stockroom.tui.screens.package_story import Story, read_story
from stockroom.tui.screens.package_words import (
    FACTS,
    STANDING,
    cautions_now,
    fact_texts,
    history_words,
)
from stockroom.tui.screens.windows import Cautions, caution_text
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.words import GONE

_TONES = {"suspect": "alarm", "held": "alarm", "opened": "caution", "settling": "caution"}


class PackageScreen(PackageActions):
    """Everything on record about one package."""

    BINDING_GROUP_TITLE = "With this package"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back", id="package-back", tooltip="Back to the list."),
        decide_binding("Ask what becomes of it, now that it was found at fault.", show=True),
        package_binding("h", "hold", "Hold", "Hold it until the machine is free.", show=True),
        package_binding("a", "load_again", "Load again", "Put it on a tray.", show=True),
        package_binding("w", "working", "Working", "Show how its figures were reached.", show=True),
        package_binding("c", "check", "Check", "Record what a check finds.", show=True),
        package_binding("f", "what_if", "What if", "Elsewhere, or packed otherwise.", show=True),
        package_binding("m", "move", "Move", "Put it in another place.", show=True),
        package_binding("x", "take", "Take", "Take food out, all or a part.", show=True),
        package_binding("p", "pack_anew", "Pack anew", "Put its food in new ones.", show=True),
        package_binding("d,D", "discard", "Discard", "Throw it away, with a reason.", show=True),
        package_binding("n", "note", "Note", "Write a note on it.", show=True),
        package_binding("W", "look", "Next look", "Why it is looked at when it is.", show=False),
        package_binding("l", "life", "Life plot", "Plot the life used over time.", show=False),
        package_binding("L", "labels", "Label", "Print its label.", show=False),
        trace_binding("Where it comes from, and what shares its past.", show=True),
        common_binding(show=False),
        package_binding("i", "sisters", "Sisters", "List its lot on the Shelves.", show=False),
    ]
    DEFAULT_CSS = """
    PackageScreen {
        .heading { height: auto; padding: 0 2; background: $surface; text-style: bold; }
        #page { padding: 1 2 0 2; scrollbar-size-vertical: 1; }
        .fact { height: auto; }
        .fact .label { width: 11; color: $foreground-muted; }
        .fact .value { width: 1fr; height: auto; }
        .section { color: $primary; text-style: bold; margin-top: 1; }
        .text { height: auto; }
        #doubt { color: $warning; margin: 1 0; }
    }
    """

    def __init__(self, mode: str, detail: PackageDetail) -> None:
        """`mode` is the main screen it was opened from, and goes back to."""
        super().__init__()
        self.from_mode = mode
        self.detail = detail
        self.story = Story()

    @property
    def home(self) -> str:
        """The main screen it was opened from."""
        return self.from_mode

    @property
    def is_gone(self) -> bool:
        """Whether the package stands nowhere any more."""
        return self.detail.package.condition in GONE

    def compose_body(self) -> ComposeResult:
        """The heading, the facts, the cautions and the history."""
        yield Static(classes="heading")
        with VerticalScroll(id="page"):
            for place, label in enumerate(FACTS):
                with Horizontal(classes="fact", id=f"fact-{place}"):
                    yield Static(label, classes="label")
                    yield Static(classes="value")
                if label == STANDING[-1]:
                    yield Static(classes="text", id="doubt")
            yield Static("Bear in mind", classes="section", id="cautions-title")
            yield Cautions(id="cautions")
            yield Static("History", classes="section")
            yield Static(classes="text", id="history")

    def on_mount(self) -> None:
        """Show the package as it was read."""
        self.query_one("#page").focus()
        self.query_one(TitleBar).here = self.from_mode
        self._show()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the package again; when it is gone from the record, say so."""
        try:
            self.detail = package_detail(self.room, self.detail.package.code)
        except StockroomError as error:
            tell(self.app, error)
            return
        self._show()
        self.refresh_bindings()

    def _show(self) -> None:
        """Fill in what was read."""
        package = self.detail.package
        self.story = self.attempt(read_story, self.room, self.detail) or Story()
        self.query_one(".heading", Static).update(plain(f"{package.code}  {package.food}"))
        units, today = self.room.units, self.room.today
        for place, text in enumerate(fact_texts(self.detail, units, today, self.story)):
            row = self.query_one(f"#fact-{place}")
            row.display = bool(text)
            row.query_one(".value", Static).update(plain(text))
        for fact in ("In doubt", "Dryness"):
            self.query_one(f"#fact-{FACTS.index(fact)} .value").set_classes("value caution")
        self.query_one("#fact-0 .value").set_classes(f"value {_TONES.get(package.condition, '')}")
        cautions = cautions_now(self.detail)
        self._show_gravest(cautions)
        shown = self.query_one("#cautions", Cautions)
        shown.display = self.query_one("#cautions-title").display = bool(cautions)
        shown.show(cautions)
        lines = [history_words(line, units) for line in reversed(self.detail.history)]
        self.query_one("#history", Static).update(plain_lines(lines))

    def _show_gravest(self, cautions: Sequence[Caution]) -> None:
        """Under the state of one found at fault: what to bear in mind before anything else."""
        doubt = self.story.doubt
        line = self.query_one("#doubt", Static)
        line.display = doubt is not None and doubt.own_fault and bool(cautions)
        line.update(plain(caution_text(cautions[0])) if line.display else "")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """What its condition allows; gone, it can be looked at and noted on, no more."""
        doubt, queued = self.story.doubt, self.detail.queued
        condition = self.detail.package.condition
        if action == "check":
            return Event.CRISP in events_for(Condition(condition))
        if action == "take":
            return condition in USABLE
        if action in ("move", "discard", "what_if", "life", "labels"):
            return not self.is_gone
        if action == "decide":
            return doubt is not None and doubt.own_fault
        if action == "hold":
            return doubt is not None and not doubt.own_fault
        if action == "load_again":
            return queued is not None and queued.state == "waiting"
        if action == "pack_anew":
            return self._may_be_packed_anew()
        if action == "look":
            return self.detail.recheck is not None
        return super().check_action(action, parameters)

    def _may_be_packed_anew(self) -> bool:
        """Off the machine, decided so, or neither doubtful nor held nor gone."""
        queued = self.detail.queued
        if queued is not None:
            return queued.state == "dried"
        return self.story.doubt is Doubt.REPACK or self.detail.package.condition in USABLE

    def action_go(self, mode: str) -> None:
        """Show another main screen; the one it was opened from lies beneath."""
        if mode == self.from_mode:
            self.action_back()
        else:
            super().action_go(mode)

    def action_back(self) -> None:
        """Back to the list it was opened from."""
        self.dismiss()

    def action_working(self) -> None:
        """Show how its water and best-by were reached."""
        self.show_working(self.detail.package)

    def action_what_if(self) -> None:
        """Show what would become of it elsewhere or packed otherwise."""
        self.show_what_if(self.detail.package)

    def action_life(self) -> None:
        """Plot how much of its life is used."""
        self.show_life(self.detail.package)

    def action_check(self) -> None:
        """Record what a check finds."""
        self.check(self.detail.package)

    def action_decide(self) -> None:
        """Ask what becomes of it."""
        self.decide(self.detail.package)

    def action_hold(self) -> None:
        """Hold it until the machine is free."""
        self.hold(self.detail.package)

    def action_load_again(self) -> None:
        """Put it on a tray of an open run."""
        self.load_again([self.detail.package.code])

    def action_pack_anew(self) -> None:
        """Put its food into new packages."""
        self.pack_anew(self.detail.package)

    def action_look(self) -> None:
        """Show why it is looked at again when it is."""
        self.show_look(self.detail.package)

    def action_move(self) -> None:
        """Put it in another place."""
        self.move([self.detail.package])

    def action_take(self) -> None:
        """Take food out of it."""
        self.take(self.detail.package)

    def action_discard(self) -> None:
        """Throw it away."""
        self.discard([self.detail.package])

    def action_note(self) -> None:
        """Write a note on it."""
        self.write_note(self.detail.package)

    def action_labels(self) -> None:
        """Print its label."""
        self.print_labels([self.detail.package])

    def action_trace(self) -> None:
        """Show where it comes from, and what shares its past."""
        self.show_trace(self.detail.package.code)

    def action_sisters(self) -> None:
        """List its lot on the Shelves."""
        self.list_words(self.detail.package.lot_code)
