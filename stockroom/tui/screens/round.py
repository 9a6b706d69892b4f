"""The Round: what wants doing today, on one page, with one key for each finding."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.conditions import Event
from stockroom.domain.records import Lot, Package, Run
from stockroom.services.results import Done, RoundPage
from stockroom.services.session import Stockroom
from stockroom.services.today import lots_are_many, lots_for_today, round_for_today
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.findings import finding_bindings
from stockroom.tui.screens.package_actions import UNDO_HINT, PackageActions, package_binding
from stockroom.tui.screens.round_rows import COLUMNS, Task, sections_of, tasks_of
from stockroom.tui.screens.round_words import BEGIN, NOTHING, summary, task_lines
from stockroom.tui.screens.sections import SectionTable
from stockroom.tui.widgets.window_table import WindowTable

LOTS_LATER_SECONDS = 0.1
"""How long the finding of lots among very many waits for the first paint to be over."""


class RoundScreen(PackageActions):
    """Settle checks due, doubtful and open packages, what to use first, what waits to be packed.

    Only a settle check is recorded with one key: everywhere else the same key asks first, so that
    a key too many never clears a doubtful package.
    """

    MODE = "round"
    BINDINGS: ClassVar[list[BindingType]] = [
        *finding_bindings(show=True),
        package_binding(
            "x",
            "take",
            "Take",
            "Take food out of the package; from other parts of the page, of the next to use.",
            show=True,
        ),
        package_binding("D", "discard", "Discard", "Throw the package away.", show=False),
        package_binding("m", "move", "Move", "Put the package in another place.", show=False),
        package_binding("n", "note", "Note", "Write a note on the package.", show=False),
        Binding(
            "e",
            "next_to_use",
            "Next to use",
            show=False,
            id="round-next-to-use",
            tooltip="Go to the package to use next.",
        ),
    ]
    DEFAULT_CSS = """
    RoundScreen {
        #summary { height: 1; padding: 0 1; background: $surface; }
        #summary.-done { color: $success; }
        #about { height: auto; max-height: 4; padding: 0 1; background: $surface; }
    }
    """

    class LotsRead(Message):
        """The lots that wait to be packed are there."""

        def __init__(self, lots: tuple[Lot, ...]) -> None:
            super().__init__()
            self.lots = lots

    def __init__(self) -> None:
        super().__init__()
        self.page: RoundPage | None = None
        self.tasks: dict[int, Task] = {}
        self.table = SectionTable(COLUMNS, id="tasks")
        self._last_key: int | None = None
        """The line acted on last: an undo puts the cursor back on it."""
        self._said = ""
        """What was just recorded; stands in place of the summary until something else is done."""

    def compose_body(self) -> ComposeResult:
        """What there is in one line, the list, and what to do with the line under the cursor."""
        yield Static(id="summary")
        yield self.table
        yield Static(id="about")

    @property
    def current(self) -> Task | None:
        """The line under the cursor."""
        key = self.table.cursor_key
        return None if key is None else self.tasks.get(key)

    @property
    def package(self) -> Package | None:
        """The package under the cursor, if the line is about one."""
        record = self.current.record if self.current else None
        return record if isinstance(record, Package) else None

    def on_mount(self) -> None:
        """Read the page before the first paint: it is one cheap query."""
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the page again; the cursor keeps to its line. Lots, when many, follow later."""
        if not what:
            # Not a check of our own: an undo, another program, or another day.
            self._said = ""
        many = self.attempt(lots_are_many, self.room)
        page = self.attempt(round_for_today, self.room, with_lots=not many)
        if page is None:
            return
        first, before = self.page is None, self.page.to_pack if self.page else ()
        self.page = replace(page, to_pack=before) if many else page
        self._show_page(self.page, empty="" if many else self._empty_words())
        if many:
            self.set_timer(LOTS_LATER_SECONDS if first else 0, self._read_lots_now)

    def _read_lots_now(self) -> None:
        self._read_lots(self.room)

    @work(
        thread=True, exclusive=True, exit_on_error=False, group="lots", description="lots to pack"
    )
    def _read_lots(self, room: Stockroom) -> None:
        """Find the lots with food left to pack; an answer that comes too late is dropped."""
        worker = get_current_worker()
        lots = lots_for_today(room)
        if not worker.is_cancelled:
            self.post_message(self.LotsRead(lots))

    @on(LotsRead)
    def _show_lots(self, message: LotsRead) -> None:
        """Put the lots in their section, and say so when there is nothing at all."""
        if self.page is not None:
            self.page = replace(self.page, to_pack=message.lots)
            self._show_page(self.page, empty=self._empty_words())

    def _show_page(self, page: RoundPage, *, empty: str = "") -> None:
        """Show the page; what was just done stands in place of the summary until the next."""
        before, self.tasks = self.tasks, tasks_of(page)
        self.table.show_sections(sections_of(page, self.tasks, self.room.units), empty=empty)
        if self._last_key in self.tasks and self._last_key not in before:
            self.table.go_to_key(self._last_key)
        self._show_summary()
        self._show_about()

    def _empty_words(self) -> str:
        """What to do next, in a new store or on a quiet day; "" while there is something."""
        if self.page is None or not self.page.empty:
            return ""
        from stockroom.services.shelves import first_packages, shelf_filter

        wanted = shelf_filter(self.room, gone=True)
        return NOTHING if first_packages(self.room, wanted, 1) else BEGIN

    def _show_summary(self) -> None:
        """Show the line above the list; what was just done stands out."""
        line = self.query_one("#summary", Static)
        line.set_class(bool(self._said), "-done")
        line.update(plain(self._said or (summary(self.page) if self.page else "")))

    @on(WindowTable.RowHighlighted)
    def _show_about(self) -> None:
        """Say how to check, or what is next, for the line under the cursor."""
        lines = task_lines(self.current, self.room.units, self.room.today)
        about = self.query_one("#about", Static)
        about.display = bool(lines)
        about.update(plain_lines(lines))
        self.refresh_bindings()

    # Actions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for packages work where the cursor is on one."""
        if action in ("found", "move", "note", "discard"):
            return self.package is not None
        if action in ("take", "next_to_use"):
            return self._next_to_use() is not None
        return super().check_action(action, parameters)

    def action_found(self, finding: str) -> None:
        """Record a settle check and go on to the next line; ask first on any other line."""
        package, task = self.package, self.current
        if package is None or task is None:
            return
        self._said = ""
        if task.kind != "settle":
            self.check(package, Event(finding))
            return
        key = self.table.cursor_key
        if self.record_finding(package, Event(finding), told=self._say_done):
            self._last_key = key
            # At once, not with the list when it is read again: the next key may come before.
            self.table.action_move(1)

    def told(self, done: Done | None, *what: str) -> None:
        """Say what was done in a notice, and the day above the list again."""
        self._said = ""
        super().told(done, *what)

    def _say_done(self, done: Done) -> None:
        """Say it in the line above the list: a notice for each of eight pouches is in the way."""
        self._said = f"✓ {done.words} · {UNDO_HINT}"
        self._show_summary()

    def _next_to_use(self) -> int | None:
        """The line of the next package to use: an opened one first."""
        return next((key for key, one in self.tasks.items() if one.kind in ("opened", "use")), None)

    def action_take(self) -> None:
        """Take food out of the package under the cursor, or out of the next one to use."""
        task = self.current
        if task is None or task.kind not in ("opened", "use"):
            self.action_next_to_use()
        if self.package is not None:
            self.take(self.package)

    def action_next_to_use(self) -> None:
        """Go to the next package to use."""
        key = self._next_to_use()
        if key is not None:
            self.table.go_to_key(key)

    def action_move(self) -> None:
        """Put the package under the cursor in another place."""
        if self.package is not None:
            self.move([self.package])

    def action_discard(self) -> None:
        """Throw the package under the cursor away."""
        if self.package is not None:
            self.discard([self.package])

    def action_note(self) -> None:
        """Write a note on the package under the cursor."""
        if self.package is not None:
            self.write_note(self.package)

    @on(WindowTable.RowChosen)
    def _open(self, message: WindowTable.RowChosen) -> None:
        """Show a package in full; a lot or a run opens on the Bench."""
        task = self.tasks.get(message.key)
        if task is None:
            return
        if isinstance(task.record, Package):
            self.open_package(task.record.code)
        else:
            self._to_bench(task.record)

    def _to_bench(self, record: Lot | Run) -> None:
        """Show a lot or a run on the Bench."""
        from stockroom.tui.screens.lot import LotScreen
        from stockroom.tui.screens.run import RunScreen

        self.app.switch_mode("bench")
        page = LotScreen(record.code) if isinstance(record, Lot) else RunScreen(record.run_id)
        self.app.push_screen(page)
