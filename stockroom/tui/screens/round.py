"""The Round: what wants doing today, on one page, with one key for each finding."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.conditions import Event
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.records import Lot, Package, Run
from stockroom.services.results import Done, RoundPage
from stockroom.services.session import Stockroom
from stockroom.services.today import lots_are_many, lots_for_today, round_for_today
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.package_actions import PackageActions
from stockroom.tui.screens.round_keys import BINDINGS
from stockroom.tui.screens.round_lines import COLUMNS, Now, sections_of
from stockroom.tui.screens.round_rows import CHECKS, Task, tasks_of
from stockroom.tui.screens.round_words import BEGIN, NOTHING, found_words, summary, task_lines
from stockroom.tui.screens.sections import SectionTable
from stockroom.tui.widgets.window_table import WindowTable

if TYPE_CHECKING:
    from stockroom.domain.upkeep import UpkeepItem
    from stockroom.tui.screens.upkeep import UpkeepScreen

LATER_SECONDS = 0.1
"""How long what is not on the first paint waits for it to be over."""


class RoundScreen(PackageActions):
    """What is in doubt, what to look at today, the machine, what to eat first.

    Where a look is due one key records it: everywhere else the same key asks first, so that a key
    too many never clears a doubtful package. Nothing opens over the list in a run of looks: what
    was found soft stands in doubt at the top until its own key asks what becomes of it.
    """

    MODE = "round"
    BINDINGS: ClassVar[list[BindingType]] = list(BINDINGS)
    DEFAULT_CSS = """
    RoundScreen {
        #summary { height: auto; max-height: 2; padding: 0 1; background: $surface; }
        #summary.-done { color: $success; }
        #summary.-doubt { color: $warning; }
        #about { height: auto; max-height: 4; padding: 0 1; background: $surface; }
    }
    """

    class LaterRead(Message):
        """What may follow the first paint is there: the machine's checks, the lots of many."""

        def __init__(self, lots: tuple[Lot, ...] | None, upkeep: tuple[UpkeepItem, ...]) -> None:
            """`lots` is None where they are on the page already."""
            super().__init__()
            self.lots = lots
            self.upkeep = upkeep

    def __init__(self) -> None:
        super().__init__()
        self.page: RoundPage | None = None
        self.upkeep: tuple[UpkeepItem, ...] = ()
        self.tasks: dict[int, Task] = {}
        self.table = SectionTable(COLUMNS, id="tasks")
        self.whole = False
        """Whether all of it was read, also what follows the first paint."""
        self._many_lots = False
        self._last_key: int | None = None
        """The line acted on last: an undo puts the cursor back on it."""
        self._found: Package | None = None
        """What was last found at fault here: the key that decides begins with it."""
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
        """Read the page again; the cursor keeps to its line. The rest follows the first paint."""
        if not what:
            # Not a check of our own: an undo, another program, or another day.
            self._said = ""
        self._many_lots = bool(self.attempt(lots_are_many, self.room))
        page = self.attempt(round_for_today, self.room, with_lots=not self._many_lots)
        if page is None:
            return
        before, self.page = self.page, page
        if before is not None and self._many_lots:
            self.page = replace(page, to_pack=before.to_pack)
        self._show_page(self.page, same_day=before is not None and before.today == page.today)
        if before is None:
            self._go_to_first_look()
            self.set_timer(LATER_SECONDS, self._begin_later)
        elif self.whole:
            self._begin_later()

    def _begin_later(self) -> None:
        self._read_later(self.room, self._many_lots)

    @work(thread=True, exclusive=True, exit_on_error=False, group="later", description="the rest")
    def _read_later(self, room: Stockroom, many_lots: bool) -> None:
        """Read what follows the first paint; an answer that comes too late is dropped."""
        from stockroom.services.upkeep import upkeep_due

        worker = get_current_worker()
        lots = lots_for_today(room) if many_lots else None
        upkeep = upkeep_due(room)
        if not worker.is_cancelled:
            self.post_message(self.LaterRead(lots, upkeep))

    @on(LaterRead)
    def _show_later(self, message: LaterRead) -> None:
        """Put it in its sections, and say so when there is nothing at all."""
        if self.page is None:
            return
        self.whole, self.upkeep = True, message.upkeep
        if message.lots is not None:
            self.page = replace(self.page, to_pack=message.lots)
        self._show_page(self.page)

    @property
    def _now(self) -> Now:
        """What the lines are drawn by."""
        return Now(self.room.today, self.room.clock.now(), self.room.units)

    def _show_page(self, page: RoundPage, *, same_day: bool = True) -> None:
        """Show the page; what was just done stands in place of the summary until the next."""
        before = self.tasks if same_day else {}
        self.tasks = tasks_of(page, self.upkeep, before)
        sections = sections_of(self.tasks, self._now, page.recheck_waiting)
        self.table.show_sections(sections, empty=self._empty_words())
        if self._last_key in self.tasks and self._last_key not in before:
            self.table.go_to_key(self._last_key)
        self._show_summary()
        self._show_about()

    def _go_to_first_look(self) -> None:
        """Begin where one key after the other records what the hands feel."""
        key = next((key for key, one in self.tasks.items() if one.kind in CHECKS), None)
        if key is not None:
            self.table.go_to_key(key)

    def _empty_words(self) -> str:
        """What to do next, in a new store or on a quiet day; "" while there is something."""
        if self.page is None or not self.page.empty or self.upkeep or self._waits_for_lots:
            return ""
        from stockroom.services.shelves import first_packages, shelf_filter

        wanted = shelf_filter(self.room, gone=True)
        return NOTHING if first_packages(self.room, wanted, 1) else BEGIN

    @property
    def _waits_for_lots(self) -> bool:
        """Whether there are lots that are not looked through yet."""
        return self._many_lots and not self.whole

    def _show_summary(self) -> None:
        """Show the line above the list; what was just done stands out."""
        line = self.query_one("#summary", Static)
        line.set_class(bool(self._said) and self._found is None, "-done")
        line.set_class(bool(self._said) and self._found is not None, "-doubt")
        day = summary(self.page, len(self.upkeep)) if self.page else ""
        line.update(plain(self._said or day))

    @on(WindowTable.RowHighlighted)
    def _show_about(self) -> None:
        """Say how to look, or what is next, for the line under the cursor."""
        lines = task_lines(self.current, self._now)
        about = self.query_one("#about", Static)
        about.display = bool(lines)
        about.update(plain_lines(lines))
        self.refresh_bindings()

    # Looks and decisions

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for packages work where the cursor is on one."""
        if action in ("found", "move", "note", "discard", "working", "trace"):
            return self.package is not None
        if action in ("take", "next_to_use"):
            return self._next("opened", "use") is not None
        if action == "decide":
            return self._to_decide() is not None
        return super().check_action(action, parameters)

    def action_found(self, finding: str) -> None:
        """Record a look that is due and go on to the next line; ask first on any other line."""
        package, task = self.package, self.current
        if package is None or task is None:
            return
        self._said = ""
        event = Event(finding)
        if task.kind not in CHECKS:
            self.check(package, event)
            return
        key = self.table.cursor_key

        def say_found(done: Done) -> None:
            self._found = None if event is Event.CRISP else package
            self._said = found_words(package, event, done)
            self._show_summary()

        if self.record_finding(package, event, told=say_found):
            self._last_key = key
            if key is not None:
                # Looked at: its line has had its turn, should a sister make it doubtful now.
                self.tasks.pop(key, None)
            # At once, not with the list when it is read again: the next key may come before.
            self.table.action_move(1)

    def told(self, done: Done | None, *what: str) -> None:
        """Say what was done in a notice, and the day above the list again."""
        self._said = ""
        super().told(done, *what)

    def _to_decide(self) -> Package | None:
        """The doubtful package under the cursor, or the one just found, or the first of all."""
        tasks = [one for one in self.tasks.values() if one.doubt and one.doubt.own_fault]
        packages = [one.record for one in tasks if isinstance(one.record, Package)]
        if self.current is not None and self.current.kind == "doubt":
            return self.package
        found = None if self._found is None else self._found.package_id
        just = (one for one in packages if one.package_id == found)
        return next(just, packages[0] if packages else None)

    def action_decide(self) -> None:
        """Ask what becomes of the package found at fault."""
        package = self._to_decide()
        if package is not None:
            self._said = ""
            self.decide(package)

    def action_walk(self) -> None:
        """Go along the shelf, one package at a time."""
        self.walk()

    def action_working(self) -> None:
        """Show why the package is to be looked at, or how its figures were reached."""
        if self.package is not None and self.current is not None:
            show = self.show_look if self.current.look else self.show_working
            show(self.package)

    # Packages

    def _next(self, *kinds: str) -> int | None:
        """The first line of these kinds."""
        return next((key for key, one in self.tasks.items() if one.kind in kinds), None)

    def action_take(self) -> None:
        """Take food out of the package under the cursor, or out of the next one to use."""
        task = self.current
        if task is None or task.kind not in ("opened", "use"):
            self.action_next_to_use()
        if self.package is not None:
            self.take(self.package)

    def action_next_to_use(self) -> None:
        """Go to the next package to use: an opened one first."""
        key = self._next("opened", "use")
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

    def action_trace(self) -> None:
        """Trace the package under the cursor."""
        if self.package is not None:
            self.show_trace(self.package.code)

    # Where Enter leads

    @on(WindowTable.RowChosen)
    def _open(self, message: WindowTable.RowChosen) -> None:
        """Show a package in full; a lot or a run on the Bench; go on with what waits."""
        task = self.tasks.get(message.key)
        if task is None:
            return
        record = task.record
        if isinstance(record, Package):
            self.open_package(record.code)
        elif isinstance(record, Lot):
            self._to_lot(record.code)
        elif isinstance(record, Run):
            self._to_run(record.run_id)
        elif isinstance(record, QueueEntry):
            self._go_on_with(record)
        else:
            self._to_upkeep(record)

    def _to_lot(self, code: str) -> None:
        """Show a lot on the Bench."""
        from stockroom.tui.screens.lot import LotScreen

        self.app.switch_mode("bench")
        self.app.push_screen(LotScreen(code))

    def _to_run(self, run_id: int) -> None:
        """Show a run on the Bench."""
        from stockroom.tui.screens.run import RunScreen

        self.app.switch_mode("bench")
        self.app.push_screen(RunScreen(run_id))

    def _go_on_with(self, entry: QueueEntry) -> None:
        """Load what waits, look at what dries, pack what is dried."""
        if entry.state == "waiting":
            self.load_again([entry.code])
        elif entry.state == "loaded" and entry.run_id is not None:
            self._to_run(entry.run_id)
        elif entry.package_id is not None:
            for package in self.read([entry.package_id]):
                self.pack_anew(package)

    def _to_upkeep(self, item: UpkeepItem) -> None:
        """Show the checks of the machine, this one under the cursor."""
        from stockroom.tui.screens.upkeep import UpkeepScreen

        self.app.switch_mode("upkeep")
        screen = self.app.screen_stack[0]
        if isinstance(screen, UpkeepScreen):
            screen.call_later(_stand_on, screen, item.check.key)


def _stand_on(screen: UpkeepScreen, check_key: str) -> None:
    """Put the cursor of Upkeep on a check."""
    for key, item in screen.items.items():
        if item.check.key == check_key:
            screen.table.go_to_key(key)
