"""What a menu shows: its dishes, its account, what to buy and to fetch, and the wishes to ease."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from stockroom.domain.cautions import chosen
from stockroom.domain.menu.plans import Account, Finding, Plan
from stockroom.domain.menu.records import Concession, Question, Wish
from stockroom.domain.menu_records import (
    MenuDish,
    MenuPage,
    PackageUse,
    add_up,
)
from stockroom.domain.menu_wishes import (
    MOST_PERCENT,
    Between,
    MenuWishes,
    changed_options,
)
from stockroom.services.menu_dishes import MenuBook
from stockroom.services.menu_reading import COOKED

CAUTIONS = ("clock", "reheat", "check-ingredients", "best-by")
_COUNTS = {"breakfast": "breakfasts", "main": "mains", "extra": "extras"}


def menu_page(
    book: MenuBook,
    question: Question,
    plan: Plan,
    wishes: MenuWishes,
    proven: str,
    *,
    findings: Sequence[Finding] = (),
    give_up: Sequence[str] = (),
    eased: MenuWishes | None = None,
) -> MenuPage:
    """A plan as it is shown before it is kept."""
    used = {dish.recipe_id for dish in plan.dishes if dish.recipe_id > 0}
    notes = [
        Finding(dish.record.name, dish.note)
        for recipe_id, dish in book.dishes.items()
        if recipe_id in used and dish.note
    ]
    return MenuPage(
        question.days[0].on,
        question.last_day,
        wishes,
        tuple(_dish(question, *key) for key in _planned(plan)),
        _account(plan.account),
        add_up(
            need
            for dish in plan.dishes
            if dish.recipe_id > 0
            for need in book.dishes[dish.recipe_id].fresh_for(dish.people)
        ),
        package_uses(book, plan),
        (*findings, *_told(plan.account.findings), *notes),
        proven,
        kept=False,
        give_up=tuple(give_up),
        options=() if eased is None else changed_options(wishes, eased),
        cautions=chosen(CAUTIONS),
    )


def package_uses(book: MenuBook, plan: Plan) -> tuple[PackageUse, ...]:
    """What is taken out of each package over all days, in the order of its first day."""
    stock = {one.package_id: one for one in book.stock}
    amounts: dict[int, int] = {}
    first: dict[int, date] = {}
    for taking in plan.takings:
        amounts[taking.package_id] = amounts.get(taking.package_id, 0) + taking.fresh_dg
        first.setdefault(taking.package_id, taking.on)
    return tuple(
        PackageUse(
            stock[package_id].code,
            book.food_name(stock[package_id].food_id),
            stock[package_id].place,
            first[package_id],
            fresh_dg,
            fresh_dg == stock[package_id].fresh_dg,
        )
        for package_id, fresh_dg in amounts.items()
    )


def eased_wishes(
    question: Question, wishes: MenuWishes, concessions: Iterable[Concession]
) -> MenuWishes:
    """The wishes changed just so far that nothing has to be given up any more."""
    for one in concessions:
        wishes = _eased(question, wishes, one)
    return wishes


def _eased(question: Question, wishes: MenuWishes, one: Concession) -> MenuWishes:
    """The wishes with one of them eased."""
    if one.wish in _LIMITS:
        return _with_limit(question, wishes, one)
    if one.wish is Wish.PROTEIN:
        need = _need(question, one.on, protein=True)
        percent = _percent_left(need, question.wishes.protein_percent, one.amount)
        return replace(wishes, protein_percent=min(wishes.protein_percent, percent))
    if one.wish in (Wish.DISHES_LEAST, Wish.DISHES_MOST):
        return _with_count(question, wishes, one)
    if one.wish is Wish.WATER:
        wanted = (question.wishes.water_ml_a_day or 0) + one.amount
        return replace(wishes, water_ml_a_day=max(wishes.water_ml_a_day or 0, wanted))
    if one.wish is Wish.PLAN_WATER:
        return replace(wishes, water_ml_in_all=(question.wishes.water_ml_in_all or 0) + one.amount)
    if one.wish is Wish.APART:
        return replace(wishes, apart_days=max(1, question.wishes.apart_days - one.amount))
    if one.wish is Wish.COOKING_DAY and one.on is not None:
        days = {*(wishes.cooking_weekdays or ()), one.on.weekday()}
        return replace(wishes, cooking_weekdays=None if len(days) == 7 else tuple(sorted(days)))
    return replace(wishes, strict_dislikes=False)


_LIMITS = {
    Wish.ENERGY_LEAST: "energy",
    Wish.ENERGY_MOST: "energy",
    Wish.PLAN_ENERGY_LEAST: "plan_energy",
    Wish.PLAN_ENERGY_MOST: "plan_energy",
}


def _with_limit(question: Question, wishes: MenuWishes, one: Concession) -> MenuWishes:
    """The wishes with a share of energy eased."""
    field = _LIMITS[one.wish]
    asked = question.wishes.energy if field == "energy" else question.wishes.plan_energy
    now: Between = getattr(wishes, field)
    need = _need(question, one.on)
    if one.wish in (Wish.ENERGY_LEAST, Wish.PLAN_ENERGY_LEAST):
        percent = _percent_left(need, asked.least_percent, one.amount)
        now = replace(now, least=min(now.least, percent))
    else:
        most = asked.most_percent * need // 100 + one.amount
        now = replace(now, most=min(MOST_PERCENT, max(now.most, -(-most * 100 // max(need, 1)))))
    return replace(wishes, **{field: now})


def _percent_left(need: int, percent: int, amount: int) -> int:
    """The whole percent of a need that is left of a lower limit less an amount."""
    least = -(-need * percent // 100) - amount
    return max(0, least * 100 // max(need, 1))


def _need(question: Question, on: date | None, *, protein: bool = False) -> int:
    """Energy or protein needed on a day, or in all where there is no day."""
    days = [day for day in question.days if on is None or day.on == on]
    return sum(day.need_protein_dg if protein else day.need_kcal for day in days)


def _with_count(question: Question, wishes: MenuWishes, one: Concession) -> MenuWishes:
    """The wishes with a number of dishes eased."""
    assert one.occasion is not None
    field = _COUNTS[one.occasion.value]
    asked: Between = next(
        Between(each.least, each.most)
        for each in question.wishes.occasions
        if each.occasion is one.occasion
    )
    now: Between = getattr(wishes, field)
    if one.wish is Wish.DISHES_LEAST:
        now = replace(now, least=min(now.least, max(0, asked.least - one.amount)))
    else:
        now = replace(now, most=max(now.most, asked.most + one.amount))
    return replace(wishes, **{field: now})


def _planned(plan: Plan) -> Iterable[tuple[date, int, int, bool]]:
    """The dishes of a plan, by day, recipe, people and whether they are fixed."""
    return ((dish.on, dish.recipe_id, dish.people, dish.locked) for dish in plan.dishes)


def _dish(question: Question, on: date, recipe_id: int, people: int, locked: bool) -> MenuDish:
    """A dish of the plan with its figures."""
    option = next(each for each in question.options if each.recipe_id == recipe_id)
    helping = next(each for each in option.helpings if each.people == people)
    return MenuDish(
        on,
        option.name,
        option.occasion,
        people,
        helping.kcal,
        helping.protein_dg,
        helping.water_ml,
        locked and option.why_not != COOKED,
        cooked=option.why_not == COOKED,
        dish_id=max(0, -recipe_id),
        has_recipe=recipe_id > 0,
    )


def _account(account: Account) -> Account:
    """The account without the dishes that stand by themselves."""
    excluded = tuple(each for each in account.excluded if each.recipe_id > 0)
    return replace(account, excluded=excluded)


def _told(findings: Iterable[Finding]) -> Iterable[Finding]:
    """The findings but those about what was cooked already."""
    return (each for each in findings if not each.words.endswith(f"although: {COOKED}."))
