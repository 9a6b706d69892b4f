"""The household's own wishes for menus, kept as one of its settings."""

from __future__ import annotations

from stockroom.domain.menu_wishes import (
    USUAL,
    MenuWishes,
    changed_options,
    wishes_from_json,
    wishes_json,
)
from stockroom.errors import Refused
from stockroom.services.acting import acting
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store.settings import read_settings, remove_setting, save_setting

_KEY = "menu_wishes"


class SameWishes(Refused):
    """The wishes are what they were."""

    def __init__(self) -> None:
        super().__init__(
            "The wishes for menus are these already.", "Say what is to be another way."
        )


def menu_wishes(room: Stockroom) -> MenuWishes:
    """The wishes on record; the usual ones where none were set. Raises WishesUnreadable."""
    text = read_settings(room.store).get(_KEY)
    return USUAL if text is None else wishes_from_json(text)


def set_menu_wishes(room: Stockroom, wishes: MenuWishes) -> Done:
    """Keep these wishes for the menus to come. Raises SameWishes."""
    with acting(room, "settings") as act:
        stored = read_settings(room.store).get(_KEY)
        text = wishes_json(wishes)
        if text == stored or (stored is None and wishes == USUAL):
            raise SameWishes
        if wishes == USUAL:
            remove_setting(room.store, _KEY)
            act.words = "set the wishes for menus to the usual ones"
        else:
            save_setting(room.store, _KEY, text)
            options = ", ".join(one.lstrip("-") for one in changed_options(USUAL, wishes))
            act.words = f"set the wishes for menus, other than usual: {options}"
    return Done(act.words)
