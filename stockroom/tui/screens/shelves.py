"""The Shelves: everything there is, by place and by food, found as you type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Input, Static
from textual.worker import get_current_worker

from stockroom.domain.records import Package, Place
from stockroom.services.places import remove_place
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.shelves import LIVE_CONDITIONS, ShelfFilter, shelf_filter
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.listed import Listed
from stockroom.tui.screens.places import (
    PlaceForm,
    add_place_form,
    change_place_form,
    put_place_form,
)
from stockroom.tui.screens.shelf_actions import CursorActions
from stockroom.tui.screens.shelf_look import BINDINGS, CSS, SearchLine, about_lines, status_words
from stockroom.tui.screens.shelf_rows import (
    COLUMNS,
    EVERYTHING,
    SIDE_COLUMNS,
    PackageSource,
    Side,
    SideList,
    read_side,
)
from stockroom.tui.widgets.window_table import WindowTable

EMPTY = (
    "Nothing on the shelves yet. Press 3 for the Bench to dry and pack a lot; press a to name"
    " the first place where packages will stand."
)
NOTHING_FOUND = "Nothing like that is on the shelves. Esc shows everything again."

ORDERS = ("best_by", "food", "place", "made", "code")
STATES: tuple[str | None, ...] = (
    None,
    "settling",
    "sound",
    "suspect",
    "held",
    "opened",
    "used",
    "discarded",
)
"""What the state key goes through; None is everything that is still there."""

_FOR_PACKAGES = frozenset(
    ("check", "move", "take", "discard", "note", "working", "what_if", "life", "sample", "labels")
)


class SideTable(WindowTable):
    """The panel of places or foods. Nothing here is marked or copied."""

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Moving and choosing only."""
        if action in ("mark", "unmark", "copy_row", "copy_cell", "column"):
            return False
        return super().check_action(action, parameters)


class ShelvesScreen(CursorActions):
    """Every package, narrowed by place or food, state and words."""

    MODE = "shelves"
    BINDINGS: ClassVar[list[BindingType]] = list(BINDINGS)
    DEFAULT_CSS = CSS

    class SideRead(Message):
        """The panel's rows are there."""

        def __init__(self, answer: SideList) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self) -> None:
        super().__init__()
        self.wanted: ShelfFilter | None = None
        self.side: Side = "place"
        self.side_list = SideList("place", (), {}, {})
        self.table = WindowTable(COLUMNS, id="packages")
        self.side_table = SideTable(SIDE_COLUMNS["place"], id="side")
        self.search = SearchLine()

    def compose_body(self) -> ComposeResult:
        """What is shown, the search line, the panel beside the list, the package in words."""
        with Horizontal(id="status"):
            yield Static(id="shown")
            yield Static(id="count")
        with Horizontal(id="find"):
            yield Static("Find", classes="label")
            yield self.search
        with Horizontal(id="body"):
            yield self.side_table
            yield self.table
        yield Static(id="about")

    def on_mount(self) -> None:
        """List everything, best-by first."""
        self.wanted = self.wanted or self.attempt(shelf_filter, self.room)
        self._show_search(shown=bool(self.search.value))
        self.reload()
        self.table.focus()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read list and panel again; the cursors keep to their records."""
        self._list()
        self._read_side(self.side, self.room)
        self._show_about()

    def _list(self, *, from_top: bool = False) -> None:
        """Read the packages that are wanted."""
        if self.wanted is None:
            return
        narrowed = replace(self.wanted, order="best_by") != ShelfFilter()
        self.table.show(
            PackageSource(self.room, self.wanted),
            empty=NOTHING_FOUND if narrowed else EMPTY,
            from_top=from_top,
        )
        self._show_status()

    def _want(self, wanted: ShelfFilter, *, from_top: bool = False) -> None:
        """List other packages, or the same in another order."""
        if wanted != self.wanted:
            self.wanted = wanted
            self._list(from_top=from_top)

    @work(thread=True, exclusive=True, exit_on_error=False, group="side", description="counts")
    def _read_side(self, side: Side, room: Stockroom) -> None:
        """Count the packages of every place or food; an answer that comes too late is dropped."""
        worker = get_current_worker()
        answer = read_side(room, side)
        if not worker.is_cancelled:
            self.post_message(self.SideRead(answer))

    @on(SideRead)
    def _show_side(self, message: SideRead) -> None:
        """Put the panel's rows in place."""
        self.side_list = message.answer
        self.side_table.show(Listed(message.answer.rows))
        self._show_status()

    def _show_status(self) -> None:
        """Say what is listed, and in which order."""
        if self.wanted is not None:
            words = status_words(self.wanted, self.side_list)
            self.query_one("#shown", Static).update(plain(words))

    @on(WindowTable.CountChanged, "#packages")
    def _show_count(self, message: WindowTable.CountChanged) -> None:
        """Show the cursor's place and the length of the list."""
        self.query_one("#count", Static).update(plain(message.text))

    @on(WindowTable.RowHighlighted, "#packages")
    def _show_about(self) -> None:
        """Say what the package under the cursor holds."""
        package = self._package()
        lines = about_lines(package, self.room.units, self.room.today) if package else []
        about = self.query_one("#about", Static)
        about.set_class(not lines, "-empty")
        about.update(plain_lines(lines))
        self.refresh_bindings()

    def _package(self) -> Package | None:
        """The package under the cursor, as it is now."""
        key = self.table.cursor_key
        found = () if key is None else self.read([key])
        return found[0] if found else None

    def _marked(self) -> Sequence[Package]:
        """The marked packages, or else the one under the cursor."""
        return self.read(self.table.chosen)

    @property
    def place(self) -> Place | None:
        """The place under the panel's cursor."""
        key = self.side_table.cursor_key
        return None if key is None else self.side_list.places.get(key)

    @property
    def at_place(self) -> Place | None:
        """The place under the panel's cursor, while the keys go to the panel."""
        return self.place if self.side_table.has_focus else None

    # Narrowing

    @on(WindowTable.RowHighlighted, "#side")
    def _narrow(self, message: WindowTable.RowHighlighted) -> None:
        """List only what is in the place, or of the food, under the panel's cursor."""
        if self.wanted is None or message.key is None:
            return
        is_place = message.key in self.side_list.places
        is_food = message.key in self.side_list.foods
        self._want(
            replace(
                self.wanted,
                place_id=message.key if is_place else None,
                food_id=message.key if is_food else None,
            ),
            from_top=True,
        )
        self.refresh_bindings()

    @on(WindowTable.RowChosen, "#side")
    def _leave_side(self) -> None:
        """Go on to the list."""
        if self.has_class("narrow"):
            self._set_side(shown=False)
        self.table.focus()

    def action_side(self) -> None:
        """Show the panel and go to it; from there, hide it."""
        if self.side_table.has_focus:
            self._set_side(shown=False)
            self.table.focus()
        else:
            self._set_side(shown=True)
            self.side_table.focus()

    def _set_side(self, *, shown: bool) -> None:
        self.set_class(shown, "-with-side")
        self.set_class(not shown, "-without-side")
        self.refresh_bindings()

    @property
    def _list_hidden(self) -> bool:
        """Whether the panel covers the list: on a narrow screen there is room for one."""
        return self.has_class("narrow") and self.has_class("-with-side")

    def action_group(self) -> None:
        """Change the panel from places to foods and back."""
        self.side = "food" if self.side == "place" else "place"
        self.side_list = SideList(self.side, (), {}, {})
        self.side_table.set_columns(SIDE_COLUMNS[self.side])
        self.side_table.show(Listed(()), from_top=True)
        if self.wanted is not None:
            self._want(replace(self.wanted, place_id=None, food_id=None), from_top=True)
        self._read_side(self.side, self.room)

    def action_order(self) -> None:
        """List in the next order; the cursor keeps to its package."""
        if self.wanted is not None:
            place = ORDERS.index(self.wanted.order) + 1
            self._want(replace(self.wanted, order=ORDERS[place % len(ORDERS)]))

    def action_state(self) -> None:
        """List the packages of the next state."""
        if self.wanted is None:
            return
        now = self.wanted.conditions
        place = next((at for at, state in enumerate(STATES) if now == (state,)), 0) + 1
        state = STATES[place % len(STATES)]
        self._want(
            replace(self.wanted, conditions=(state,) if state else LIVE_CONDITIONS), from_top=True
        )

    # Searching

    def search_for(self, words: str) -> None:
        """List what these words find among everything that is there."""
        wanted = ShelfFilter(words=words, order=self.wanted.order if self.wanted else ORDERS[0])
        self.search.value = words
        if not self.is_mounted:
            self.wanted = wanted
            return
        self.side_table.go_to_key(EVERYTHING)
        self._show_search(shown=True)
        self._want(wanted, from_top=True)
        self.table.focus()

    def action_search(self) -> None:
        """Go to the search line."""
        self._show_search(shown=True)
        # At once: focus() waits for its turn, and a key typed meanwhile would change the screen.
        self.set_focus(self.search)

    @on(Input.Changed)
    def _typed(self, message: Input.Changed) -> None:
        """List what is found as it is typed; an answer to earlier letters is dropped."""
        if self.wanted is not None:
            words = " ".join(message.value.split())
            self._want(replace(self.wanted, words=words), from_top=True)

    def action_leave_search(self) -> None:
        """Go from the search line to the list."""
        self._show_search(shown=bool(self.search.value))
        self.table.focus()

    def _show_search(self, *, shown: bool) -> None:
        self.query_one("#find").display = shown

    def action_clear(self) -> None:
        """Show everything again."""
        self.search.value = ""
        self._show_search(shown=False)
        self.side_table.go_to_key(EVERYTHING)
        if self.wanted is not None:
            self._want(ShelfFilter(order=self.wanted.order))
        self.table.focus()

    # Packages

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for packages need one under the cursor, keys for places a place."""
        if action in ("sample", "labels") and self.at_place is not None:
            return True
        if action in _FOR_PACKAGES:
            return self.table.cursor_key is not None and not self._list_hidden
        if action == "search":
            return not self.search.has_focus
        if action in ("change_place", "put_place", "remove_place", "climate"):
            return self.place is not None
        return super().check_action(action, parameters)

    def told(self, done: Done | None, *what: str) -> None:
        """Say what was done; what was marked for it is marked no more."""
        super().told(done, *what)
        if done is not None:
            self.table.clear_marks()

    @on(WindowTable.RowChosen, "#packages")
    def _open(self) -> None:
        """Show the package in full."""
        self._with_package(lambda package: self.open_package(package.code))

    def action_move(self) -> None:
        """Put the marked packages in another place."""
        self.move(self._marked())

    def action_discard(self) -> None:
        """Throw the marked packages away."""
        self.discard(self._marked())

    def action_labels(self) -> None:
        """Print labels of the marked packages, or of all in the place while in the panel."""
        self.print_place_labels() if self.at_place else self.print_labels(self._marked())

    # Places

    def action_add_place(self) -> None:
        """Add a place, below the one under the panel's cursor."""
        form = self.attempt(add_place_form, self.room, self.place)
        if form is not None:
            self.app.push_screen(form, self.told)

    def action_change_place(self) -> None:
        """Change the place under the panel's cursor."""
        self._ask_about_place(change_place_form)

    def action_put_place(self) -> None:
        """Put the place under the panel's cursor below another."""
        self._ask_about_place(put_place_form)

    def _ask_about_place(self, form: PlaceForm) -> None:
        if self.place is not None:
            opened = self.attempt(form, self.room, self.place)
            if opened is not None:
                self.app.push_screen(opened, self.told)

    def action_remove_place(self) -> None:
        """Take the place under the panel's cursor out of the record."""
        place = self.place
        if place is None:
            return

        def remove(sure: bool | None) -> None:
            if sure:
                self.told(self.attempt(remove_place, self.room, place.path))

        question = ConfirmScreen(f"Remove {place.path}", ["Only an unused place can be removed."])
        self.app.push_screen(question, remove)
