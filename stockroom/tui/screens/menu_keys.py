"""The keys of the Menu."""

from __future__ import annotations

from textual.binding import Binding

MENU_BINDINGS = (
    Binding(
        "s",
        "search",
        "Search",
        id="menu-search",
        tooltip="Plan the menu again around what is locked; Escape ends it with the best found.",
    ),
    Binding("k", "keep", "Keep", id="menu-keep", tooltip="Keep the menu just found."),
    Binding(
        "e",
        "ease",
        "Ease wishes",
        id="menu-ease",
        tooltip="Search with the wishes eased as far as it takes for all of it to fit.",
    ),
    Binding("l", "lock", "Lock", id="menu-lock", tooltip="Lock the dish on its day, or free it."),
    Binding(
        "x",
        "swap",
        "Swap",
        id="menu-swap",
        tooltip="Put another dish in its place and plan the other days around it.",
    ),
    Binding("g", "shopping", "Buy", id="menu-shopping", tooltip="Show the shopping list."),
    Binding(
        "a",
        "account",
        "Account",
        id="menu-account",
        tooltip="What is saved, what it takes, what was left out and why, what to bear in mind.",
    ),
    Binding("n", "days", "New days", id="menu-days", tooltip="Plan other days."),
    Binding("w", "wishes", "Wishes", id="menu-wishes", tooltip="Say how menus are wanted."),
    Binding(
        "escape",
        "back",
        "Back",
        id="menu-back",
        tooltip="End the search, leave a menu that is not kept, or go back.",
    ),
)
