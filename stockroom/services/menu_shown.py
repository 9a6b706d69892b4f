"""The kept menu as it stands today: what is cooked, what is still to come, and what changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import choices
from stockroom.domain.menu.draft import Draft
from stockroom.domain.menu.limits import limits
from stockroom.domain.menu.plans import Finding, Plan
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import MOST_DAYS, Day, Locked, Question
from stockroom.domain.menu.shelf import shelves
from stockroom.domain.menu_records import MenuDish, MenuPage, StoredDish, StoredMenu, gap_words
from stockroom.domain.menu_wishes import MenuWishes, planned_wishes, wishes_from_json
from stockroom.domain.quantities import nearest_whole
from stockroom.services.menu import PLANNED_MEAL, standing_menu
from stockroom.services.menu_dishes import MenuBook
from stockroom.services.menu_pages import menu_page
from stockroom.services.menu_reading import RECIPE_GONE, own_dish
from stockroom.services.menu_stock import packages_for
from stockroom.services.people import household_need
from stockroom.services.session import Stockroom
from stockroom.store import menu_rows

NOT_COVERED = "the shelves do not hold enough for it any more"


@dataclass(frozen=True, slots=True)
class _Sorted:
    """The dishes of a menu: those the shelves are asked for, cooked ones, those not to serve."""

    locked: tuple[Locked, ...]
    cooked: tuple[StoredDish, ...]
    why_not: dict[int, str]


def shown_menu(room: Stockroom) -> MenuPage:
    """The kept menu with all its days. Raises NoMenu, WishesUnreadable."""
    menu = standing_menu(room)
    last = menu.from_day + timedelta(days=menu.days - 1)
    wishes = wishes_from_json(menu.wishes)
    every = menu_rows.planned_between(room.store, menu.from_day, last)
    book = MenuBook(room)
    found = _sort_out(room, book, every)
    question = _question(room, book, wishes, menu, every, found)
    plan, uncovered = _on_the_shelves(question)
    page = menu_page(book, question, plan, wishes, gap_words(menu.gap_millionths))
    why_not = {**found.why_not, **_by_dish(every, uncovered)}
    shown = sorted((_shown(book, dish, why_not) for dish in every), key=_order)
    return replace(
        page,
        first_day=menu.from_day,
        last_day=last,
        dishes=tuple(shown),
        account=replace(page.account, excluded=()),
        findings=(*_missed(room, every), *_due(page.findings)),
        kept=True,
        stale=_stale(room, menu, shown),
    )


def _sort_out(room: Stockroom, book: MenuBook, every: Sequence[StoredDish]) -> _Sorted:
    """The dishes from today on by what can become of them."""
    locked: dict[tuple[object, int], Locked] = {}
    cooked: list[StoredDish] = []
    why_not: dict[int, str] = {}
    for dish in every:
        if dish.on < room.today:
            continue
        if dish.cooked:
            cooked.append(dish)
        elif dish.recipe_id is None:
            why_not[dish.dish_id] = RECIPE_GONE
        elif book.dishes[dish.recipe_id].why_not:
            why_not[dish.dish_id] = f"it {book.dishes[dish.recipe_id].why_not}"
        else:
            key = dish.on, dish.recipe_id
            locked[key] = Locked(dish.on, dish.recipe_id, dish.people)
    return _Sorted(tuple(locked.values()), tuple(cooked), why_not)


def _question(
    room: Stockroom,
    book: MenuBook,
    wishes: MenuWishes,
    menu: StoredMenu,
    every: Sequence[StoredDish],
    found: _Sorted,
) -> Question:
    """A question that has just the dishes of the menu, all fixed."""
    need = household_need(room)
    kcal, protein_dg = nearest_whole(need.kcal_per_day), nearest_whole(need.protein_g * 10)
    ends = menu.from_day, menu.from_day + timedelta(days=menu.days - 1)
    on = sorted({max(room.today, ends[0]), *(one.on for one in every if one.on >= room.today)})
    on = on[:MOST_DAYS]
    locked = [one for one in found.locked if one.on in on]
    cooked = [one for one in found.cooked if one.on in on]
    people = {
        recipe_id: [one.people for one in locked if one.recipe_id == recipe_id]
        for recipe_id in {one.recipe_id: None for one in locked}
    }
    options = (
        *(book.option(recipe_id, counts) for recipe_id, counts in people.items()),
        *(own_dish(book, one) for one in cooked),
    )
    packages, _ = packages_for(
        book, options, on, reach_days=wishes.reach_days, past_best_by=wishes.past_best_by
    )
    return Question(
        tuple(Day(day, kcal, protein_dg) for day in on),
        book.foods(),
        packages,
        options,
        replace(planned_wishes(wishes, book.disliked), occasions=()),
        (*locked, *(Locked(one.on, -one.dish_id, one.people) for one in cooked)),
    )


def _on_the_shelves(question: Question) -> tuple[Plan, list[Locked]]:
    """The plan of what the shelves cover, the earliest first, and what they do not."""
    shelf_of = shelves(question)
    every = [each for each in choices(question, shelf_of) if each.locked]
    draft = Draft(question, shelf_of, limits(question, every))
    uncovered: list[Locked] = []
    for choice in every:
        if draft.gain(choice) is None:
            on = question.days[choice.day].on
            uncovered.append(Locked(on, choice.recipe_id, choice.people))
        else:
            draft.put(choice)
    return read_plan(question, draft.chosen()), uncovered


def _by_dish(every: Sequence[StoredDish], uncovered: Sequence[Locked]) -> dict[int, str]:
    """Why the dishes that are not covered cannot be cooked, by their numbers."""
    keys = {(one.on, one.recipe_id) for one in uncovered}
    return {
        dish.dish_id: NOT_COVERED
        for dish in every
        if not dish.cooked and (dish.on, dish.recipe_id) in keys
    }


def _shown(book: MenuBook, dish: StoredDish, why_not: Mapping[int, str]) -> MenuDish:
    """A stored dish with its figures."""
    known = None if dish.recipe_id is None else book.helping(dish.recipe_id, dish.people)
    return MenuDish(
        dish.on,
        dish.name,
        dish.occasion,
        dish.people,
        None if known is None else known.kcal,
        None if known is None else known.protein_dg,
        None if known is None else known.water_ml,
        dish.locked,
        dish.cooked,
        why_not.get(dish.dish_id, ""),
        dish.dish_id,
        dish.recipe_id is not None,
    )


def _order(dish: MenuDish) -> tuple[object, int, str]:
    return dish.on, tuple(Occasion).index(dish.occasion), dish.name


def _missed(room: Stockroom, every: Sequence[StoredDish]) -> tuple[Finding, ...]:
    """Dishes of days gone by that were not cooked."""
    return tuple(
        Finding(dish.name, f"{dish.name} was planned and not cooked.", dish.on)
        for dish in every
        if dish.on < room.today and not dish.cooked
    )


def _due(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings of the plan, each once."""
    return tuple(dict.fromkeys(findings))


def _stale(room: Stockroom, menu: StoredMenu, shown: Sequence[MenuDish]) -> tuple[str, ...]:
    """What has changed since the menu was kept, in sentences."""
    found = [
        f"{dish.name} on {dish.on.isoformat()}: {dish.why_not}." for dish in shown if dish.why_not
    ]
    count = menu_rows.packages_changed_since(room.store, menu.menu_id, PLANNED_MEAL)
    if count:
        packages = "1 package has" if count == 1 else f"{count} packages have"
        found.append(
            f"{packages} come, gone or been taken from since this menu was kept: planning again"
            " may do better."
        )
    return tuple(found)
