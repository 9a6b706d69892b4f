"""From the record to the question a menu is planned from: days, dishes, stock, what is fixed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from stockroom.domain.menu.plans import Finding
from stockroom.domain.menu.records import (
    MOST_DAYS,
    Day,
    DishOption,
    Eaten,
    Helping,
    Locked,
    Question,
)
from stockroom.domain.menu_records import MenuRequest, StoredDish, Swap
from stockroom.domain.menu_wishes import MenuWishes, planned_wishes
from stockroom.domain.quantities import nearest_whole
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.finding import Ambiguous, find_recipe
from stockroom.services.menu_dishes import MenuBook
from stockroom.services.menu_stock import packages_for
from stockroom.services.names import storable
from stockroom.services.people import household_need
from stockroom.services.session import Stockroom
from stockroom.store import menu_rows

FARTHEST_DAYS = 3_650
"""How far ahead a menu may begin; engineering judgement."""
COOKED = "cooked already"
RECIPE_GONE = "its recipe is not in the book any more"


class NoRecipes(Refused):
    """A menu is planned from recipes, and the book has none."""

    def __init__(self) -> None:
        super().__init__(
            "There are no recipes to plan a menu from.",
            "Write some first, with the foods they take from the shelves.",
        )


class DishNotPlannable(Refused):
    """A dish is not to be served to those who eat."""

    def __init__(self, name: str, why: str) -> None:
        """`why` follows the dish's name."""
        super().__init__(
            f"{name} is not planned: it {why}.",
            "Choose another dish, or correct the recipe or the people.",
        )


class DishCooked(Refused):
    """A planned dish was cooked already."""

    def __init__(self, name: str, on: date) -> None:
        super().__init__(
            f"{name}, planned for {on.isoformat()}, was cooked already.",
            "Undo the meal first, or choose another dish.",
        )


@dataclass(frozen=True, slots=True)
class Asked:
    """A question with what it was read from."""

    request: MenuRequest
    question: Question
    book: MenuBook
    standing: tuple[StoredDish, ...]
    """The dishes the kept menus have on its days."""
    findings: tuple[Finding, ...]


def menu_question(room: Stockroom, from_day: date, days: int, wishes: MenuWishes) -> Question:
    """What a menu for these days is planned from. Raises NoRecipes and BadInput."""
    return ask(room, MenuRequest(from_day, days, wishes)).question


def ask(room: Stockroom, request: MenuRequest) -> Asked:
    """The question of a request, dishes locked in the kept menus fixed, and cooked ones too.

    Raises NoRecipes, DishNotPlannable, DishCooked, NotFound, Ambiguous and BadInput.
    """
    _check(room, request)
    book = MenuBook(room)
    if not book.dishes:
        raise NoRecipes
    last = request.from_day + timedelta(days=request.days - 1)
    standing = tuple(menu_rows.planned_between(room.store, request.from_day, last))
    swapped = None if request.swap is None else _swapped(room, book, request, request.swap)
    locked, findings = _locked(book, standing, swapped)
    extra = tuple(
        own_dish(book, dish)
        for dish in standing
        if dish.cooked or (dish.locked and dish.recipe_id is None)
    )
    people = _people(room, request.wishes)
    days = _days(room, request)
    options = (*_options(book, people, locked), *extra)
    packages, past = packages_for(
        book,
        options,
        [day.on for day in days],
        reach_days=request.wishes.reach_days,
        past_best_by=request.wishes.past_best_by,
    )
    question = Question(
        days,
        book.foods(),
        packages,
        options,
        replace(planned_wishes(request.wishes, book.disliked), people=people),
        (*locked, *(Locked(*_own_key(dish)) for dish in standing if _is_own(dish))),
        _eaten(room, request, last, swapped),
    )
    return Asked(request, question, book, standing, (*findings, *past))


def find_planned(room: Stockroom, on: date, typed: str) -> StoredDish:
    """The planned dish of this name on a day, or the only one whose name begins so.

    Nothing typed means the only dish of the day that is still to be cooked. Raises NotFound,
    Ambiguous and BadInput.
    """
    wanted = storable(typed, "dish").strip().casefold()
    every = menu_rows.planned_between(room.store, on, on)
    exact = [dish for dish in every if dish.name.casefold() == wanted]
    found = exact or [dish for dish in every if dish.name.casefold().startswith(wanted)]
    still = [dish for dish in found if not dish.cooked]
    found = still or found
    if len(found) == 1:
        return found[0]
    if found:
        raise Ambiguous("planned dish", typed, tuple(dish.name for dish in found))
    shown = f"{typed} on {on.isoformat()}".strip()
    raise NotFound("planned dish", shown, [dish.name for dish in every])


def refuse_unfit(book: MenuBook, recipe_id: int) -> None:
    """Refuse a recipe that is not to be served to those who eat. Raises DishNotPlannable."""
    dish = book.dishes[recipe_id]
    if dish.why_not:
        raise DishNotPlannable(dish.record.name, dish.why_not)


def own_dish(book: MenuBook, dish: StoredDish) -> DishOption:
    """A dish that stands on its day by itself and takes nothing from the shelves any more."""
    helping = Helping(dish.people, None, None, 0, ())
    if dish.recipe_id is not None:
        known = book.helping(dish.recipe_id, dish.people)
        helping = replace(helping, kcal=known.kcal, protein_dg=known.protein_dg)
    why_not = COOKED if dish.cooked else RECIPE_GONE
    return DishOption(-dish.dish_id, dish.name, dish.occasion, (helping,), False, why_not)


def _is_own(dish: StoredDish) -> bool:
    return dish.cooked or (dish.locked and dish.recipe_id is None)


def _own_key(dish: StoredDish) -> tuple[date, int, int]:
    return dish.on, -dish.dish_id, dish.people


def _check(room: Stockroom, request: MenuRequest) -> None:
    """Refuse days that cannot be planned."""
    if not 1 <= request.days <= MOST_DAYS:
        raise BadInput("days", str(request.days), f"a whole number from 1 to {MOST_DAYS}")
    if not 0 <= (request.from_day - room.today).days <= FARTHEST_DAYS:
        raise BadInput(
            "first day", request.from_day.isoformat(), "today or a later day, in the next ten years"
        )


def _people(room: Stockroom, wishes: MenuWishes) -> tuple[int, ...]:
    """For how many people dishes may be cooked."""
    eaters = max(1, household_need(room).counted)
    return tuple(sorted({-(-eaters * percent // 100) for percent in wishes.helpings_percent}))


def _days(room: Stockroom, request: MenuRequest) -> tuple[Day, ...]:
    """The days with what all need on each; as they are today."""
    need = household_need(room)
    kcal, protein_dg = nearest_whole(need.kcal_per_day), nearest_whole(need.protein_g * 10)
    return tuple(
        Day(request.from_day + timedelta(days=number), kcal, protein_dg)
        for number in range(request.days)
    )


def _options(
    book: MenuBook, people: tuple[int, ...], locked: tuple[Locked, ...]
) -> tuple[DishOption, ...]:
    """Every recipe for the helpings wished, and for those that are locked."""
    return tuple(
        book.option(
            recipe_id,
            (*people, *(one.people for one in locked if one.recipe_id == recipe_id)),
        )
        for recipe_id in book.dishes
    )


def _swapped(
    room: Stockroom, book: MenuBook, request: MenuRequest, swap: Swap
) -> tuple[StoredDish, int]:
    """The dish to leave out and the recipe that takes its place."""
    dish = find_planned(room, swap.on, swap.dish)
    if dish.cooked:
        raise DishCooked(dish.name, dish.on)
    if not request.from_day <= dish.on < request.from_day + timedelta(days=request.days):
        raise BadInput("day", dish.on.isoformat(), "a day of the menu that is still to come")
    recipe = find_recipe(room, swap.recipe)
    if recipe.recipe_id == dish.recipe_id:
        raise BadInput("recipe", recipe.name, "another recipe than the one that is planned")
    refuse_unfit(book, recipe.recipe_id)
    return dish, recipe.recipe_id


def _locked(
    book: MenuBook,
    standing: tuple[StoredDish, ...],
    swapped: tuple[StoredDish, int] | None,
) -> tuple[tuple[Locked, ...], tuple[Finding, ...]]:
    """The dishes that stay, and what is said of those that may not."""
    found: dict[tuple[date, int], Locked] = {}
    findings: list[Finding] = []
    if swapped is not None:
        dish, recipe_id = swapped
        found[dish.on, recipe_id] = Locked(dish.on, recipe_id, dish.people)
    for dish in standing:
        if dish.cooked or not dish.locked or dish.recipe_id is None:
            continue
        if swapped is not None and dish.dish_id == swapped[0].dish_id:
            continue
        why_not = book.dishes[dish.recipe_id].why_not
        if why_not:
            words = f"{dish.name} was locked and is left out: it {why_not}."
            findings.append(Finding(dish.name, words, dish.on))
        else:
            key = dish.on, dish.recipe_id
            found.setdefault(key, Locked(dish.on, dish.recipe_id, dish.people))
    return tuple(found.values()), tuple(findings)


def _eaten(
    room: Stockroom,
    request: MenuRequest,
    last: date,
    swapped: tuple[StoredDish, int] | None,
) -> tuple[Eaten, ...]:
    """Dishes cooked shortly before and on the days, and those planned shortly after.

    A dish that was swapped for another counts as eaten: it does not come back at once.
    """
    apart = timedelta(days=request.wishes.apart_days)
    cooked = menu_rows.eaten_between(room.store, request.from_day - apart, last)
    later = menu_rows.planned_between(room.store, last + timedelta(days=1), last + apart)
    if swapped is not None:
        later.append(swapped[0])
    planned = [(one.recipe_id, one.on) for one in later if one.recipe_id is not None]
    return tuple(Eaten(recipe_id, on) for recipe_id, on in dict.fromkeys((*cooked, *planned)))
