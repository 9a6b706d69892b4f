"""Where a package or a lot comes from, what shares its past, and calling that back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.records import Package
from stockroom.domain.trace_records import GroupKind, TracePage
from stockroom.errors import BadInput, StockroomError
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.tracing import recall, recalled, trace
from stockroom.tui.modal import tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.package_actions import (
    UNDO_HINT,
    PackageActions,
    common_binding,
    trace_binding,
)
from stockroom.tui.screens.trace_rows import TraceTable, entry_lines, fetch_lines, parts_of
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.widgets.window_table import WindowTable
from stockroom.tui.words import counted

RECALL_MEANS = (
    "Every sealed or opened package of the group becomes suspect: none of it is eaten from until"
    " it was looked at itself."
)


class TraceScreen(PackageActions):
    """A package or a lot traced back to the machine, and forward."""

    BINDING_GROUP_TITLE = "In the trace"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back", id="trace-back", tooltip="Back to the page before."),
        Binding(
            "r",
            "recall",
            "Recall",
            id="trace-recall",
            tooltip="Call back every package that shares its lot, run, packet or box.",
        ),
        trace_binding("Trace the package under the cursor.", show=True),
        common_binding(show=True),
    ]
    DEFAULT_CSS = """
    TraceScreen {
        .heading {
            height: 1;
            padding: 0 2;
            background: $surface;
            text-style: bold;
            text-wrap: nowrap;
            text-overflow: ellipsis;
        }
        #about { height: auto; max-height: 4; padding: 0 1; background: $surface; }
    }
    """

    def __init__(self, mode: str, page: TracePage) -> None:
        """`mode` is the main screen it was opened from, and goes back to."""
        super().__init__()
        self.from_mode = mode
        self.page = page
        self.table = TraceTable()

    @property
    def home(self) -> str:
        """The main screen it was opened from."""
        return self.from_mode

    @property
    def package(self) -> Package | None:
        """The package under the cursor."""
        entry = self.table.entry
        return entry if isinstance(entry, Package) else None

    def compose_body(self) -> ComposeResult:
        """What is traced, the sections, and the whole of the line under the cursor."""
        yield Static(classes="heading")
        yield self.table
        yield Static(id="about")

    def on_mount(self) -> None:
        """Show the page as it was read."""
        self.query_one(TitleBar).here = self.from_mode
        self.table.focus()
        self._show()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the page again; when it is gone from the record, say so."""
        try:
            self.page = trace(self.room, self.page.code)
        except StockroomError as error:
            tell(self.app, error)
            return
        self._show()
        self.refresh_bindings()

    def _show(self) -> None:
        """Fill in what was read."""
        page = self.page
        state = f"{page.package.condition} · " if page.package else ""
        heading = f"Trace of {page.code} · {state}{page.lot.food}"
        self.query_one(".heading", Static).update(plain(heading))
        self.table.show_parts(parts_of(page, self.room.units), self.room.today)
        self._show_about()

    @on(WindowTable.RowHighlighted)
    def _show_about(self) -> None:
        """Show the line under the cursor whole."""
        lines = entry_lines(self.table.entry, self.room.today)
        about = self.query_one("#about", Static)
        about.display = bool(lines)
        about.update(plain_lines(lines))
        self.refresh_bindings()

    @on(WindowTable.RowChosen)
    def _open(self, message: WindowTable.RowChosen) -> None:
        """Enter on a package shows it in full."""
        message.stop()
        if self.package is not None:
            self.open_package(self.package.code)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A recall works where something is left to recall, a trace on a package."""
        if action == "recall":
            return any(group.recallable for group in self.page.groups)
        if action == "trace":
            return self.package is not None
        return super().check_action(action, parameters)

    def action_trace(self) -> None:
        """Trace the package under the cursor."""
        if self.package is not None:
            self.show_trace(self.package.code)

    def action_recall(self) -> None:
        """Ask for the group and the reason, and call it back."""
        self.app.push_screen(recall_form(self.room, self.page), self._recalled)

    def _recalled(self, done: Done | None) -> None:
        """Have everything read again, and show what to fetch."""
        if done is None:
            return
        self.announce("package")
        packages = self.attempt(recalled, self.room, done) or ()
        said = f"{done.words[:1].upper()}{done.words[1:]}."
        lines = [said, f"({UNDO_HINT}, once this is closed.)", ""]
        lines += [*fetch_lines(packages), "", "Look at each, and record what you find."]
        heading = f"Fetch {counted(len(packages), 'package')}"
        self.app.push_screen(ReadScreen(heading, lines, done.cautions))

    def action_go(self, mode: str) -> None:
        """Show another main screen; the one it was opened from lies beneath."""
        if mode == self.from_mode:
            self.action_back()
        else:
            super().action_go(mode)

    def action_back(self) -> None:
        """Back to the page it was opened from."""
        self.dismiss()


def recall_form(room: Stockroom, page: TracePage) -> FormScreen[Done]:
    """Asks which group is called back and why; does it."""
    groups = [found for kind in GroupKind if (found := page.group(kind)) is not None]
    choices = [
        Choice(group.kind.value, f"{group.words}: {group.recallable:,} to recall")
        for group in groups
    ]

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().split()
        return [one for one in choices if all(word in one.label.casefold() for word in words)]

    def submit(answers: Answers) -> Done:
        key = answers.key("group")
        if key is None:
            raise BadInput("group", answers.text("group"), "some letters and take one of the list")
        return recall(room, page.code, GroupKind(str(key)), answers.text("why"))

    return FormScreen(
        f"Recall what shares the past of {page.code}",
        (
            Picker("group", "Share", search, hint="By run: the run it was last dried in."),
            Field("why", "Why", hint="A few words, such as: absorbers went hard."),
        ),
        submit,
        about=(RECALL_MEANS,),
    )
