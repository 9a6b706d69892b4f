"""One package in full: what is in it, where, until when, what to bear in mind, what happened."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.widgets import Static

from stockroom.domain.cautions import Caution
from stockroom.errors import StockroomError
from stockroom.services.results import PackageDetail
from stockroom.services.shelves import package_detail
from stockroom.tui.modal import tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.package_actions import PackageActions, package_binding
from stockroom.tui.screens.package_words import (
    FACTS,
    cautions_now,
    fact_texts,
    history_words,
)
from stockroom.tui.screens.windows import Cautions
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.words import GONE

_TONES = {"suspect": "alarm", "held": "alarm", "opened": "caution", "settling": "caution"}


class PackageScreen(PackageActions):
    """Everything on record about one package."""

    BINDING_GROUP_TITLE = "With this package"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back", id="package-back", tooltip="Back to the list."),
        package_binding("w", "working", "Working", "Show how its figures were reached.", show=True),
        package_binding("c", "check", "Check", "Record what a check finds.", show=True),
        package_binding("f", "what_if", "What if", "Elsewhere, or packed otherwise.", show=True),
        package_binding("m", "move", "Move", "Put it in another place.", show=True),
        package_binding("x", "take", "Take", "Take food out, all or a part.", show=True),
        package_binding("d,D", "discard", "Discard", "Throw it away, with a reason.", show=True),
        package_binding("n", "note", "Note", "Write a note on it.", show=True),
        package_binding("l", "life", "Life plot", "Plot the life used over time.", show=False),
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
        #doubt { margin-bottom: 1; }
    }
    """

    def __init__(self, mode: str, detail: PackageDetail) -> None:
        """`mode` is the main screen it was opened from, and goes back to."""
        super().__init__()
        self.from_mode = mode
        self.detail = detail

    @property
    def is_gone(self) -> bool:
        """Whether the package stands nowhere any more."""
        return self.detail.package.condition in GONE

    def compose_body(self) -> ComposeResult:
        """The heading, the facts, the cautions and the history."""
        yield Static(classes="heading")
        with VerticalScroll(id="page"):
            yield Cautions(id="doubt")
            for place, label in enumerate(FACTS):
                with Horizontal(classes="fact", id=f"fact-{place}"):
                    yield Static(label, classes="label")
                    yield Static(classes="value")
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
        self.query_one(".heading", Static).update(plain(f"{package.code}  {package.food}"))
        units, today = self.room.units, self.room.today
        for place, text in enumerate(fact_texts(self.detail, units, today)):
            row = self.query_one(f"#fact-{place}")
            row.display = bool(text)
            row.query_one(".value", Static).update(plain(text))
        self.query_one("#fact-0 .value").set_classes(f"value {_TONES.get(package.condition, '')}")
        # A doubtful package is decided about here, so what to bear in mind stands first.
        cautions = cautions_now(self.detail)
        doubt, others = (cautions, []) if self.detail.cautions else ([], cautions)
        self._show_cautions("#doubt", doubt)
        self._show_cautions("#cautions", others)
        self.query_one("#cautions-title").display = bool(others)
        lines = [history_words(line, units) for line in reversed(self.detail.history)]
        self.query_one("#history", Static).update(plain_lines(lines))

    def _show_cautions(self, selector: str, cautions: Sequence[Caution]) -> None:
        shown = self.query_one(selector, Cautions)
        shown.display = bool(cautions)
        shown.show(cautions)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A package that is used up or discarded can be looked at and noted on, no more."""
        if action in ("check", "move", "take", "discard", "what_if", "life"):
            return not self.is_gone
        return super().check_action(action, parameters)

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

    def action_sisters(self) -> None:
        """List its lot on the Shelves."""
        self.list_words(self.detail.package.lot_code)
