"""The top line: the main screens by name, the one in view marked, and a note at the right end."""

from __future__ import annotations

from textual import events
from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from stockroom.tui.plaintext import clean, width
from stockroom.tui.tabs import TABS, Tab

HERE_SIGN = "▸"
_FORMS = ((True, " "), (True, ""), (False, " "))
"""How tabs stand, from the widest: with their digit or without, and what ends each of them."""


class TitleBar(Widget):
    """Names of the main screens that the app has; each behind the digit that leads to it."""

    ALLOW_SELECT = False
    COMPONENT_CLASSES = {
        "title-bar--tab",
        "title-bar--here",
        "title-bar--key",
        "title-bar--note",
    }
    DEFAULT_CSS = """
    TitleBar {
        dock: top;
        height: 1;
        background: $panel;
        color: $foreground;
        & > .title-bar--tab { color: $foreground; }
        & > .title-bar--here { background: $primary; color: $background; text-style: bold; }
        & > .title-bar--key { color: $accent; text-style: bold; }
        & > .title-bar--note { color: $foreground-muted; }
    }
    """

    note: reactive[str] = reactive("")
    """A few words at the right end in place of the app's own `sub_title`, which holds the day."""

    def __init__(self, here: str) -> None:
        """`here` is the mode of the screen this bar stands on."""
        super().__init__()
        self.here = here
        self._places: list[tuple[range, str]] = []

    def on_mount(self) -> None:
        """Follow the app's words for the right end."""
        self.watch(self.app, "sub_title", self._follow, init=False)

    def _follow(self) -> None:
        self.refresh()

    def render(self) -> Content:
        """The tabs as roomy as they fit, those without digits last; the note when it fits."""
        tabs = self._tabs(*_FORMS[0])
        for form in _FORMS[1:]:
            if tabs.cell_length > self.size.width:
                tabs = self._tabs(*form)
        note = clean(self.note or self.app.sub_title)
        room = self.size.width - tabs.cell_length - width(note) - 1
        if not note or room < 1:
            return tabs
        look = self.get_visual_style("title-bar--note")
        return Content.assemble(tabs, " " * room, (note, look))

    def _tabs(self, numbered: bool, end: str) -> Content:
        """Every tab the app has, side by side, each with its end; remembers where each lies."""
        tabs = Content()
        self._places = []
        for tab in TABS:
            if tab.mode in self.app.MODES:
                left = tabs.cell_length
                tabs += self._tab(tab, tab.digit if numbered else "", end)
                self._places.append((range(left, tabs.cell_length), tab.mode))
        return tabs

    def _tab(self, tab: Tab, digit: str, end: str) -> Content:
        """One name behind its digit, with a blank or the sign before it and its end behind."""
        is_here = tab.mode == self.here
        ground = self.get_visual_style("title-bar--here" if is_here else "title-bar--tab")
        key = ground if is_here else ground + self.get_visual_style("title-bar--key")
        sign = HERE_SIGN if is_here else " "
        gap = " " if digit else ""
        return Content.assemble((sign, ground), (digit, key), (f"{gap}{tab.name}{end}", ground))

    async def on_click(self, event: events.Click) -> None:
        """Go to the screen whose name was clicked."""
        place = event.get_content_offset(self)
        for cells, mode in self._places:
            if place is not None and place.x in cells:
                await self.screen.run_action(f"go('{mode}')")
