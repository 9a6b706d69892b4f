"""Menus: planned from the shelves, kept, changed dish by dish, and cooked from."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from stockroom.domain.menu.checker import check
from stockroom.domain.menu.choices import Choice, choices
from stockroom.domain.menu.plans import Plan, Proof, proof
from stockroom.domain.menu.quick import quick_plan
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import MOST_DAYS, Concession, Question
from stockroom.domain.menu.relax import conceded, concessions_for, words_for
from stockroom.domain.menu.shelf import shelves
from stockroom.domain.menu_records import (
    MenuOffer,
    MenuRequest,
    StoredDish,
    StoredMenu,
    Swap,
    proven_words,
)
from stockroom.domain.menu_wishes import MenuWishes, wishes_from_json, wishes_json
from stockroom.errors import Refused
from stockroom.services.acting import acting
from stockroom.services.kitchen import enter_meal
from stockroom.services.menu_dishes import MenuBook
from stockroom.services.menu_pages import eased_wishes, menu_page
from stockroom.services.menu_reading import (
    Asked,
    DishCooked,
    ask,
    find_planned,
    refuse_unfit,
)
from stockroom.services.menu_solver import Effort, Progress
from stockroom.services.menu_solver import plan_menu as solve_menu
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import NO_SWAPS
from stockroom.store import menu_rows

PLANNED_MEAL = "cook-planned"
"""The journal's word for a meal cooked from a menu."""
USUAL_DAYS = 7
USUAL_SECONDS = 60
MOST_SECONDS = 3_600
QUICK = "quick"
"""How a search ended that never began: the plan found at once."""


class NoMenu(Refused):
    """No menu was kept that still has days to come."""

    def __init__(self) -> None:
        super().__init__(
            "No menu is kept for today or later.",
            "Plan one and keep it: `stockroom menu --days 7 --keep`, or s and k in the Menu.",
        )


class MenuOutdated(Refused):
    """The shelves do not cover a plan any more, or it does not keep to its rules."""

    def __init__(self, why: str) -> None:
        """`why` is a whole sentence."""
        super().__init__(
            f"The menu no longer fits the record: {why}", "Plan it again, then keep it."
        )


class EmptyMenu(Refused):
    """A menu without a single dish is not kept."""

    def __init__(self) -> None:
        super().__init__(
            "There is no dish in this menu.",
            "Look at the dishes that were left out and why, and ease the wishes.",
        )


class SameLock(Refused):
    """A dish is locked, or free, as it was asked to be."""

    def __init__(self, name: str, locked: bool) -> None:
        super().__init__(
            f"{name} is {'locked' if locked else 'not locked'} already.",
            "Choose another dish, or plan again around what is locked.",
        )


class RecipeGone(Refused):
    """A planned dish has lost its recipe."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"The recipe of {name} was taken out of the book.",
            "Plan another dish in its place, or undo the removal.",
        )


def quick_menu(room: Stockroom, request: MenuRequest) -> MenuOffer:
    """A menu found at once, with nothing proven. Raises as `plan_menu`."""
    return _quick(ask(room, request))


def plan_menu(
    room: Stockroom,
    request: MenuRequest,
    *,
    seconds: float = USUAL_SECONDS,
    first: Callable[[MenuOffer], None] | None = None,
    progress: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> MenuOffer:
    """The best menu found within these seconds, and how near the best it is known to be.

    `first` gets the menu found at once, `progress` hears of the search, `cancelled` is asked
    often and ends it with the best so far. Nothing is written. Raises NoRecipes, DishNotPlannable,
    DishCooked, FixedBeyondStock, NotFound, Ambiguous and BadInput.
    """
    asked = ask(room, request)
    if first is not None:
        first(_quick(asked))
    answer = solve_menu(asked.question, Effort(seconds=seconds), progress, cancelled)
    return _offer(
        asked,
        answer.plan,
        answer.proof,
        str(answer.ending),
        answer.seconds,
        answer.concessions if answer.fits else None,
    )


def keep_menu(room: Stockroom, offer: MenuOffer) -> Done:
    """Keep a menu: it takes the place of all dishes on its days that are not cooked yet.

    The shelves are looked at again, and the plan is held against the rules once more. Raises
    EmptyMenu, MenuOutdated, NoRecipes, DishNotPlannable, DishCooked, NotFound, Ambiguous and
    BadInput.
    """
    with acting(room, "menu") as act:
        asked = ask(room, offer.request)
        plan = _again(asked.question, offer)
        fresh = [dish for dish in plan.dishes if dish.recipe_id > 0]
        if not fresh:
            raise EmptyMenu
        gone = [dish.dish_id for dish in asked.standing if not _stays(dish)]
        menu_rows.delete_dishes(room.store, gone)
        request = offer.request
        menu = StoredMenu(
            0,
            act.today,
            request.from_day,
            request.days,
            wishes_json(request.wishes),
            offer.proof.gap_millionths,
        )
        menu_id = menu_rows.insert_menu(room.store, menu)
        for position, dish in enumerate(fresh, start=1):
            menu_rows.insert_dish(
                room.store,
                StoredDish(
                    0, menu_id, dish.on, position, dish.recipe_id, dish.name, dish.people,
                    dish.locked, None, dish.occasion,
                ),
            )  # fmt: skip
        act.words = (
            f"kept a menu of {len(fresh)} dishes for {request.from_day.isoformat()}"
            f" to {asked.question.last_day.isoformat()}"
        )
    return Done(act.words, offer.page.cautions, made_id=menu_id)


def _stays(dish: StoredDish) -> bool:
    """Whether a dish of an earlier menu is not touched by a new one."""
    return dish.cooked or (dish.locked and dish.recipe_id is None)


def lock_dish(room: Stockroom, on: date, dish: str) -> Done:
    """Lock a planned dish on its day: planning again leaves it there.

    Raises DishCooked, RecipeGone, DishNotPlannable, SameLock, NotFound, Ambiguous and BadInput.
    """
    with acting(room, "menu") as act:
        found = _to_change(room, on, dish, locked=True)
        if found.recipe_id is None:
            raise RecipeGone(found.name)
        refuse_unfit(MenuBook(room), found.recipe_id)
        menu_rows.set_locked(room.store, found.dish_id, locked=True)
        act.words = f"locked {found.name} on {on.isoformat()}"
    return Done(act.words)


def unlock_dish(room: Stockroom, on: date, dish: str) -> Done:
    """Free a locked dish. Raises DishCooked, SameLock, NotFound, Ambiguous and BadInput."""
    with acting(room, "menu") as act:
        found = _to_change(room, on, dish, locked=False)
        menu_rows.set_locked(room.store, found.dish_id, locked=False)
        act.words = f"freed {found.name} on {on.isoformat()}"
    return Done(act.words)


def cook_planned(
    room: Stockroom,
    on: date,
    dish: str,
    *,
    people: int | None = None,
    servings: Fraction | None = None,
    take_short: bool = False,
    whole: bool = False,
    swaps: Mapping[int, int] = NO_SWAPS,
    cook_to_dc: int | None = None,
) -> Done:
    """Cook a planned dish: its packages are taken and the menu knows of it, in one action.

    For the people it was planned for, if not said otherwise. Raises DishCooked, RecipeGone,
    DishNotPlannable, NotFound, Ambiguous, BadInput, and whatever `kitchen.cook_meal` does.
    """
    with acting(room, PLANNED_MEAL) as act:
        found = find_planned(room, on, dish)
        if found.cooked:
            raise DishCooked(found.name, found.on)
        if found.recipe_id is None:
            raise RecipeGone(found.name)
        book = MenuBook(room)
        refuse_unfit(book, found.recipe_id)
        done = enter_meal(
            room,
            act,
            book.dishes[found.recipe_id].record.name,
            found.people if people is None else people,
            servings=servings,
            take_short=take_short,
            whole=whole,
            swaps=swaps,
            cook_to_dc=cook_to_dc,
        )
        menu_rows.set_meal(room.store, found.dish_id, done.made_id)
        act.words = f"{done.words}, as planned for {on.isoformat()}"
    return replace(done, words=act.words)


def request_again(
    room: Stockroom, wishes: MenuWishes | None = None, swap: Swap | None = None
) -> MenuRequest:
    """The request that plans the kept menu again from today on, around what is locked.

    By the wishes it was made by, if not said otherwise. Raises NoMenu, WishesUnreadable.
    """
    menu = standing_menu(room)
    first = max(menu.from_day, room.today)
    last = menu.from_day + timedelta(days=menu.days - 1)
    made_by = wishes_from_json(menu.wishes) if wishes is None else wishes
    return MenuRequest(first, min((last - first).days + 1, MOST_DAYS), made_by, swap)


def standing_menu(room: Stockroom) -> StoredMenu:
    """The latest menu that has days to come, over the days of all that have. Raises NoMenu."""
    alive = [
        (menu, menu.from_day + timedelta(days=menu.days - 1))
        for menu in menu_rows.menus(room.store)
    ]
    alive = [(menu, last) for menu, last in alive if last >= room.today]
    if not alive:
        raise NoMenu
    first, last = min(menu.from_day for menu, _ in alive), max(last for _, last in alive)
    return replace(alive[0][0], from_day=first, days=(last - first).days + 1)


def _to_change(room: Stockroom, on: date, typed: str, *, locked: bool) -> StoredDish:
    """The dish to lock or free, if that is a change."""
    found = find_planned(room, on, typed)
    if found.cooked:
        raise DishCooked(found.name, found.on)
    if found.locked is locked:
        raise SameLock(found.name, locked)
    return found


def _quick(asked: Asked) -> MenuOffer:
    """The offer of the plan found at once."""
    quick = quick_plan(asked.question)
    nothing = proof(quick.plan.account.value, None)
    return _offer(asked, quick.plan, nothing, QUICK, 0.0, () if quick.fits else None)


def _offer(
    asked: Asked,
    plan: Plan,
    known: Proof,
    ending: str,
    seconds: float,
    given: Sequence[Concession] | None,
) -> MenuOffer:
    """A plan with all there is to say of it; `given` is None where that is still to be found."""
    question = asked.question
    if given is None:
        every = choices(question, shelves(question), loosened=True)
        given = concessions_for(question, every, _chosen(every, question, plan))
    wishes = asked.request.wishes
    eased = eased_wishes(question, wishes, given)
    proven = proven_words(known, bool(plan.account.at_risk))
    page = menu_page(
        asked.book,
        question,
        plan,
        wishes,
        proven,
        findings=asked.findings,
        give_up=words_for(question, given),
        eased=eased,
    )
    return MenuOffer(
        asked.request, question, plan, known, ending, seconds, tuple(given), eased, page
    )


def _chosen(every: Sequence[Choice], question: Question, plan: Plan) -> list[Choice]:
    """The choices a plan was read from; a dish that is no choice any more is left out."""
    wanted = {(dish.on, dish.recipe_id, dish.people) for dish in plan.dishes}
    return [
        each
        for each in every
        if (question.days[each.day].on, each.recipe_id, each.people) in wanted
    ]


def _again(question: Question, offer: MenuOffer) -> Plan:
    """The dishes of an offer on the shelves as they are now, held against the rules."""
    asked = conceded(question, offer.concessions)
    every = choices(asked, shelves(asked))
    chosen = _chosen(every, asked, offer.plan)
    if len(chosen) < len(offer.plan.dishes):
        raise MenuOutdated("a dish of it cannot be cooked any more.")
    try:
        plan = read_plan(asked, chosen)
    except ValueError:
        raise MenuOutdated("the shelves do not cover all of it any more.") from None
    faults = check(asked, plan)
    if faults:
        raise MenuOutdated(faults[0].words)
    return plan
