"""The Menu: days down, their dishes, the search for a better one, and cooking from it."""

from __future__ import annotations

from functools import partial
from threading import Event
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.menu_records import MenuDish, MenuOffer, MenuPage, MenuRequest, Swap
from stockroom.errors import StockroomError
from stockroom.services.menu import (
    NoMenu,
    keep_menu,
    lock_dish,
    plan_menu,
    request_again,
    unlock_dish,
)
from stockroom.services.menu_shown import shown_menu
from stockroom.services.menu_solver import Progress
from stockroom.services.results import Done
from stockroom.tui.base import BaseScreen, tell
from stockroom.tui.plaintext import plain, plain_lines, say
from stockroom.tui.screens.menu_cook import PlannedCookScreen
from stockroom.tui.screens.menu_forms import days_form, swap_form, wishes_form
from stockroom.tui.screens.menu_keys import MENU_BINDINGS
from stockroom.tui.screens.menu_words import (
    COLUMNS,
    NO_MENU,
    READING,
    SEARCHING,
    about_lines,
    account_lines,
    dish_at,
    heading_text,
    menu_rows,
    search_text,
    shopping_lines,
    standing_lines,
)
from stockroom.tui.screens.package_actions import UNDO_HINT
from stockroom.tui.screens.short_list import ShortTable
from stockroom.tui.screens.windows import ReadScreen, open_window
from stockroom.tui.widgets.window_table import WindowTable


class MenuScreen(BaseScreen):
    """The kept menu, or one just found; `s` searches, `k` keeps, Enter cooks."""

    MODE = "kitchen"
    BINDING_GROUP_TITLE = "In the menu"
    BINDINGS: ClassVar[list[BindingType]] = list(MENU_BINDINGS)
    DEFAULT_CSS = """
    MenuScreen {
        .heading { height: 1; padding: 0 1; background: $surface; text-style: bold; }
        #standing { height: auto; max-height: 4; padding: 0 1; color: $foreground-muted; }
        #search { height: 1; padding: 0 1; color: $warning; display: none; }
        #about-dish { height: auto; max-height: 3; padding: 0 1; background: $surface; }
        &.-searching #search { display: block; }
    }
    """

    class Loaded(Message):
        """The kept menu was read: it, None where there is none, or what stood in the way."""

        def __init__(self, page: MenuPage | None, error: StockroomError | None = None) -> None:
            super().__init__()
            self.page = page
            self.error = error

    class Searched(Message):
        """The search has come so far."""

        def __init__(self, progress: Progress) -> None:
            super().__init__()
            self.progress = progress

        def can_replace(self, message: Message) -> bool:
            """Only the newest is worth showing."""
            return isinstance(message, MenuScreen.Searched)

    class Found(Message):
        """A menu was found, the first or the `last`; or what stood in the way."""

        def __init__(
            self, offer: MenuOffer | None, error: StockroomError | None = None, *, last: bool
        ) -> None:
            super().__init__()
            self.offer = offer
            self.error = error
            self.last = last

    def __init__(self) -> None:
        super().__init__()
        self.kept: MenuPage | None = None
        self.offer: MenuOffer | None = None
        self.searching = False
        self._stop = Event()
        self.table = ShortTable(COLUMNS, empty=READING, id="menu")

    @property
    def page(self) -> MenuPage | None:
        """The menu in view: the one just found, else the kept one."""
        return self.offer.page if self.offer else self.kept

    @property
    def dish(self) -> MenuDish | None:
        """The dish under the cursor."""
        return None if self.page is None else dish_at(self.page, self.table.cursor_key)

    def compose_body(self) -> ComposeResult:
        """Which menu, how good it is, the search, the days, the dish under the cursor."""
        yield Static("Menu", classes="heading")
        yield Static(id="standing")
        yield Static(id="search")
        yield self.table
        yield Static(id="about-dish")

    def on_mount(self) -> None:
        """Read the kept menu."""
        self.reload()
        self.table.focus()

    def on_unmount(self) -> None:
        """Nobody waits for the search any more."""
        self._stop.set()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the kept menu again."""
        self._read()

    @work(
        thread=True, exclusive=True, exit_on_error=False, group="menu-read", description="the menu"
    )
    def _read(self) -> None:
        """Read in a thread: it looks at all the stock."""
        worker = get_current_worker()
        try:
            answer = self.Loaded(shown_menu(self.stockroom))
        except NoMenu:
            answer = self.Loaded(None)
        except StockroomError as error:
            answer = self.Loaded(None, error)
        if not worker.is_cancelled:
            self.post_message(answer)

    @on(Loaded)
    def _show_kept(self, message: Loaded) -> None:
        """Show what was read, unless a menu just found is in view."""
        if message.error is not None:
            tell(self.app, message.error)
        self.kept = message.page
        self.table.empty = SEARCHING if self.searching else NO_MENU
        self._show()

    def _show(self) -> None:
        """Paint the menu in view."""
        page = self.page
        self.query_one(".heading", Static).update(plain(heading_text(page)))
        lines = standing_lines(page)
        standing = self.query_one("#standing", Static)
        standing.display = bool(lines)
        standing.update(plain_lines(lines))
        self.table.show_rows([] if page is None else menu_rows(page))
        self._describe()

    @on(WindowTable.RowHighlighted)
    def _describe(self) -> None:
        """Say what there is to say of the dish under the cursor."""
        about = self.query_one("#about-dish", Static)
        lines = about_lines(self.dish)
        about.display = bool(lines)
        about.update(plain_lines(lines))
        self.refresh_bindings()

    # The search

    def action_search(self) -> None:
        """Plan the kept menu again around what is locked; where there is none, ask for days."""
        if self.kept is None:
            self.action_days()
            return
        request = self.attempt(request_again, self.stockroom)
        if request is not None:
            self.search(request)

    def action_days(self) -> None:
        """Ask which days to plan."""
        open_window(self, self._asked, days_form, self.stockroom)

    def _asked(self, request: MenuRequest | None) -> None:
        if request is not None:
            self.search(request)

    def action_ease(self) -> None:
        """Search again with the wishes eased as far as it takes."""
        if self.offer is not None:
            request = self.offer.request
            eased = self.offer.eased
            self.search(MenuRequest(request.from_day, request.days, eased, request.swap))

    def search(self, request: MenuRequest) -> None:
        """Begin a search; the menu found at once shows first."""
        if self.searching:
            return
        self._stop = Event()
        self.searching = True
        self.add_class("-searching")
        self.query_one("#search", Static).update(plain(SEARCHING))
        self.refresh_bindings()
        self._search(request, self._stop)

    @work(thread=True, exit_on_error=False, group="menu-search", description="a better menu")
    def _search(self, request: MenuRequest, stop: Event) -> None:
        """Search in a thread; what it finds after the screen was left goes nowhere."""

        def first(offer: MenuOffer) -> None:
            self.post_message(self.Found(offer, last=False))

        def progress(searched: Progress) -> None:
            self.post_message(self.Searched(searched))

        try:
            offer = plan_menu(
                self.stockroom, request, first=first, progress=progress, cancelled=stop.is_set
            )
            self.post_message(self.Found(offer, last=True))
        except StockroomError as error:
            self.post_message(self.Found(None, error, last=True))

    @on(Searched)
    def _show_search(self, message: Searched) -> None:
        """Say how far the search is."""
        self.query_one("#search", Static).update(plain(search_text(message.progress)))

    @on(Found)
    def _show_found(self, message: Found) -> None:
        """Show the menu found."""
        if message.last:
            self.searching = False
            self.remove_class("-searching")
            self.table.empty = NO_MENU
        if message.error is not None:
            # A menu found at once is only shown until the search has ended.
            self.offer = None
            tell(self.app, message.error)
        else:
            self.offer = message.offer
        self._show()

    # The menu

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys for a dish need one; most rest while a search goes on."""
        offer, dish = self.offer, self.dish
        if action in ("search", "days", "wishes"):
            return not self.searching
        if action == "keep":
            return offer is not None and not self.searching
        if action == "ease":
            return offer is not None and bool(offer.page.give_up) and not self.searching
        if action in ("lock", "swap"):
            return offer is None and not self.searching and dish is not None and not dish.cooked
        if action in ("shopping", "account"):
            return self.page is not None
        return super().check_action(action, parameters)

    def action_keep(self) -> None:
        """Keep the menu just found."""
        if self.offer is None:
            return
        done = self.attempt(keep_menu, self.stockroom, self.offer)
        if done is not None:
            self.offer = None
            self._told(done)

    def action_lock(self) -> None:
        """Lock the dish under the cursor on its day, or free it."""
        dish = self.dish
        if dish is not None:
            change = unlock_dish if dish.locked else lock_dish
            self._told(self.attempt(change, self.stockroom, dish.on, dish.name))

    def action_swap(self) -> None:
        """Ask for another dish in its place, and search around it."""
        if self.dish is not None:
            open_window(self, self._swapped, swap_form, self.stockroom, self.dish)

    def _swapped(self, swap: Swap | None) -> None:
        if swap is None:
            return
        request = self.attempt(partial(request_again, self.stockroom, swap=swap))
        if request is not None:
            self.search(request)

    @on(WindowTable.RowChosen)
    def _cook(self) -> None:
        """Open the cook sheet of the dish under the cursor."""
        dish = self.dish
        if dish is None or dish.cooked or self.searching:
            return
        if self.offer is not None:
            say(self.app, "Keep the menu first with k.")
        elif dish.has_recipe:
            self.app.push_screen(PlannedCookScreen(dish, dish.name))
        else:
            say(self.app, "Its recipe was taken out of the book.")

    def action_shopping(self) -> None:
        """Show what to buy."""
        if self.page is not None:
            lines = shopping_lines(self.page.shopping)
            self.app.push_screen(ReadScreen("To buy or to have in the kitchen", lines))

    def action_account(self) -> None:
        """Show the whole account, with what to bear in mind."""
        units = self.attempt(lambda: self.stockroom.units)
        if self.page is not None and units is not None:
            lines = account_lines(self.page, units)
            self.app.push_screen(ReadScreen("Account of the menu", lines, self.page.cautions))

    def action_wishes(self) -> None:
        """Ask how menus are wanted."""
        open_window(self, self._told, wishes_form, self.stockroom)

    def _told(self, done: Done | None) -> None:
        if done is not None:
            say(self.app, f"{done.words} · {UNDO_HINT}")
            self.announce("menu")

    def action_back(self) -> None:
        """End the search with the best found; else leave a menu not kept; else go back."""
        if self.searching:
            self._stop.set()
        elif self.offer is not None:
            self.offer = None
            self._show()
        else:
            self.app.pop_screen()
