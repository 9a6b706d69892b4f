"""The forms of the menu: which days, which wishes, which dish instead."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from stockroom.domain.menu.records import MOST_DAYS
from stockroom.domain.menu_records import MenuDish, MenuRequest, Swap
from stockroom.domain.menu_wishes import (
    USUAL,
    WISHES,
    MenuWishes,
    WishesUnreadable,
    with_texts,
)
from stockroom.domain.quantities import read_day, read_whole
from stockroom.errors import BadInput
from stockroom.services.kitchen import list_recipes
from stockroom.services.menu import USUAL_DAYS
from stockroom.services.menu_wishes import menu_wishes, set_menu_wishes
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

_MOST_MATCHES = 20


def days_form(room: Stockroom) -> FormScreen[MenuRequest]:
    """Asks for the first day and how many; the household's wishes hold."""
    wishes = menu_wishes(room)
    today = room.today

    def read(answers: Answers) -> MenuRequest:
        first = read_day(answers.text("first"), today, "first day")
        if first < today:
            raise BadInput("first day", first.isoformat(), "today or a later day")
        days = read_whole(answers.text("days"), "days", 1, MOST_DAYS)
        return MenuRequest(first, days, wishes)

    fields = (
        Field(
            "first", "First day", today.isoformat(), hint="Or today, tomorrow, +3.",
            answers_to=("first day",),
        ),
        Field(
            "days", "Days", str(USUAL_DAYS), restrict=DIGITS,
            hint=f"1 to {MOST_DAYS}, such as until {today + timedelta(days=USUAL_DAYS - 1)}.",
        ),
    )  # fmt: skip
    about = ("What is locked in a kept menu stays, and what is cooked.",)
    return FormScreen("Plan a menu", fields, read, about=about)


def wishes_form(room: Stockroom) -> FormScreen[Done]:
    """Asks how menus are wanted; kept for the menus to come."""
    now = _wishes_or_usual(room)

    def submit(answers: Answers) -> Done:
        wanted = with_texts(now, [(one, answers.text(one.field)) for one in WISHES])
        return set_menu_wishes(room, wanted)

    fields = [
        Field(one.field, one.label, one.show(getattr(now, one.field)), hint=one.hint)
        for one in WISHES
    ]
    about = ("For the menus to come. Allergens are not wishes: they always hold.",)
    return FormScreen("How menus are wanted", fields, submit, about=about)


def _wishes_or_usual(room: Stockroom) -> MenuWishes:
    """The wishes on record; the usual ones where those cannot be read, to set them anew."""
    try:
        return menu_wishes(room)
    except WishesUnreadable:
        return USUAL


def swap_form(room: Stockroom, dish: MenuDish) -> FormScreen[Swap]:
    """Asks which recipe takes the place of a dish."""
    names = [one.name for one in list_recipes(room) if one.name != dish.name]

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().split()
        found = [name for name in names if all(word in name.casefold() for word in words)]
        return [Choice(name, name) for name in found[:_MOST_MATCHES]]

    def read(answers: Answers) -> Swap:
        picked = answers.choice("recipe")
        if picked is None:
            raise BadInput("recipe", "", "a recipe of the book")
        return Swap(dish.on, dish.name, str(picked.key))

    about = ("It is locked in its place, and the other days are planned again around it.",)
    return FormScreen(
        f"Instead of {dish.name}", (Picker("recipe", "Recipe", search),), read, about=about
    )
