"""Whether a plan keeps to its question: told from the plan and the question alone.

It goes through the plan day by day with plain sums and shares nothing with what made the plan, so
a plan is kept only when both agree. The rules are those of `records` and, for the order of
packages, of `shelf`, written down here a second time on purpose.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.plans import Finding, Plan, PlannedDish, Taking
from stockroom.domain.menu.records import (
    DishOption,
    Helping,
    MenuPackage,
    Question,
    Use,
    Wish,
)


def check(question: Question, plan: Plan) -> tuple[Finding, ...]:
    """Everything in which a plan does not keep to its question; nothing when it is sound."""
    wrong = tuple(_unknown(question, plan))
    if wrong:
        return wrong
    return (
        *_dishes(question, plan),
        *_days(question, plan),
        *_whole_plan(question, plan),
        *_apart(question, plan),
        *_covered(question, plan),
        *_packages(question, plan),
        *_account(question, plan),
    )


def _fault(words: str, on: date | None = None, subject: str = "plan") -> Finding:
    return Finding(subject, words, on)


def _option(question: Question, recipe_id: int) -> DishOption | None:
    for option in question.options:
        if option.recipe_id == recipe_id:
            return option
    return None


def _helping(question: Question, dish: PlannedDish) -> Helping | None:
    option = _option(question, dish.recipe_id)
    for helping in option.helpings if option else ():
        if helping.people == dish.people:
            return helping
    return None


def _conceded(question: Question, wish: Wish, on: date | None, occasion: str | None = None) -> int:
    total = 0
    for concession in question.wishes.concessions:
        if (concession.wish, concession.on, concession.occasion) == (wish, on, occasion):
            total += concession.amount
    return total


def _unknown(question: Question, plan: Plan) -> Iterator[Finding]:
    """Dishes, days and packages the question does not have."""
    days = [day.on for day in question.days]
    codes = {package.package_id: package for package in question.packages}
    for dish in plan.dishes:
        if dish.on not in days or _helping(question, dish) is None:
            yield _fault(f"{dish.name} for {dish.people} was not asked about.", dish.on)
    for taking in plan.takings:
        package = codes.get(taking.package_id)
        if package is None or package.food_id != taking.food_id or taking.on not in days:
            yield _fault(f"{taking.code} was not asked about.", taking.on)


def _dishes(question: Question, plan: Plan) -> Iterator[Finding]:
    """Locked dishes that are missing, and dishes that may not be planned."""
    served = {(dish.on, dish.recipe_id, dish.people) for dish in plan.dishes}
    locked = {(each.on, each.recipe_id, each.people) for each in question.locked}
    for on, recipe_id, _ in sorted(locked - served):
        yield _fault(f"Dish {recipe_id} was fixed and is not in the plan.", on)
    for dish in plan.dishes:
        fixed = (dish.on, dish.recipe_id, dish.people) in locked
        if fixed is not dish.locked:
            yield _fault(f"{dish.name} is said to be fixed wrongly.", dish.on)
        if not fixed:
            yield from _forbidden(question, dish)


def _forbidden(question: Question, dish: PlannedDish) -> Iterator[Finding]:
    """Why a dish nobody fixed may not be planned on its day."""
    option, helping = _option(question, dish.recipe_id), _helping(question, dish)
    assert option is not None and helping is not None
    wishes = question.wishes
    if option.why_not:
        yield _fault(f"{dish.name} may not be planned: {option.why_not}.", dish.on)
    if wishes.people and dish.people not in wishes.people:
        yield _fault(f"{dish.name} is not wanted for {dish.people}.", dish.on)
    let_go = {(each.wish, each.on, each.recipe_id) for each in wishes.concessions}
    given = wishes.cooking_weekdays is not None or wishes.cooking_dates is not None
    cooking = (
        not given
        or dish.on.weekday() in (wishes.cooking_weekdays or ())
        or dish.on in (wishes.cooking_dates or ())
        or (Wish.COOKING_DAY, dish.on, None) in let_go
    )
    if option.cooks and not cooking:
        yield _fault(f"{dish.name} has to be cooked on a day without cooking.", dish.on)
    if (Wish.DISLIKE, None, dish.recipe_id) not in let_go and _is_disliked(
        question, option, hard=True
    ):
        yield _fault(f"{dish.name} is not liked.", dish.on)


def _is_disliked(question: Question, option: DishOption, *, hard: bool) -> bool:
    for dislike in question.wishes.dislikes:
        if hard and not dislike.hard:
            continue
        if dislike.recipe_id == option.recipe_id:
            return True
        for helping in option.helpings:
            if any(use.food_id == dislike.food_id for use in helping.uses):
                return True
    return False


def _sums(question: Question, dishes: list[PlannedDish]) -> tuple[int, int, int]:
    """Energy, protein and water of some dishes."""
    kcal = protein_dg = water_ml = 0
    for dish in dishes:
        helping = _helping(question, dish)
        assert helping is not None
        kcal += helping.kcal or 0
        protein_dg += helping.protein_dg or 0
        water_ml += helping.water_ml
    return kcal, protein_dg, water_ml


def _days(question: Question, plan: Plan) -> Iterator[Finding]:
    """Energy, protein, water and dishes of each day."""
    wishes = question.wishes
    for day in question.days:
        dishes = [dish for dish in plan.dishes if dish.on == day.on]
        kcal, protein_dg, water_ml = _sums(question, dishes)
        fixed_kcal, _, fixed_ml = _sums(question, [dish for dish in dishes if dish.locked])
        less = _conceded(question, Wish.ENERGY_LEAST, day.on)
        if (kcal + less) * 100 < day.need_kcal * wishes.energy.least_percent:
            yield _fault(f"{kcal} kcal are too few.", day.on)
        more = _conceded(question, Wish.ENERGY_MOST, day.on)
        over = (kcal - more) * 100 > day.need_kcal * wishes.energy.most_percent
        if over and kcal > fixed_kcal:
            yield _fault(f"{kcal} kcal are too many.", day.on)
        less = _conceded(question, Wish.PROTEIN, day.on)
        if (protein_dg + less) * 100 < day.need_protein_dg * wishes.protein_percent:
            yield _fault(f"{protein_dg / 10} g of protein are too few.", day.on)
        if wishes.water_ml_a_day is not None:
            most_ml = wishes.water_ml_a_day + _conceded(question, Wish.WATER, day.on)
            if water_ml > max(most_ml, fixed_ml):
                yield _fault(f"{water_ml} mL of water are too many.", day.on)
        yield from _occasions(question, day.on, dishes)


def _occasions(question: Question, on: date, dishes: list[PlannedDish]) -> Iterator[Finding]:
    """Dishes of each occasion on a day."""
    for occasion in Occasion:
        of_it = [dish for dish in dishes if dish.occasion is occasion]
        fixed = len([dish for dish in of_it if dish.locked])
        wanted = [each for each in question.wishes.occasions if each.occasion is occasion]
        least = max([each.least for each in wanted], default=0)
        most = min([each.most for each in wanted], default=0)
        least -= _conceded(question, Wish.DISHES_LEAST, on, occasion)
        most += _conceded(question, Wish.DISHES_MOST, on, occasion)
        if len(of_it) < least:
            yield _fault(f"{len(of_it)} {occasion} dishes are too few.", on)
        if len(of_it) > max(most, fixed):
            yield _fault(f"{len(of_it)} {occasion} dishes are too many.", on)


def _whole_plan(question: Question, plan: Plan) -> Iterator[Finding]:
    """Energy and water of all days together."""
    wishes = question.wishes
    kcal, _, water_ml = _sums(question, list(plan.dishes))
    fixed_kcal, _, fixed_ml = _sums(question, [dish for dish in plan.dishes if dish.locked])
    need = sum(day.need_kcal for day in question.days)
    less = _conceded(question, Wish.PLAN_ENERGY_LEAST, None)
    more = _conceded(question, Wish.PLAN_ENERGY_MOST, None)
    if (kcal + less) * 100 < need * wishes.plan_energy.least_percent:
        yield _fault(f"{kcal} kcal in all are too few.")
    if (kcal - more) * 100 > need * wishes.plan_energy.most_percent and kcal > fixed_kcal:
        yield _fault(f"{kcal} kcal in all are too many.")
    if wishes.water_ml_in_all is not None:
        most_ml = wishes.water_ml_in_all + _conceded(question, Wish.PLAN_WATER, None)
        if water_ml > max(most_ml, fixed_ml):
            yield _fault(f"{water_ml} mL of water in all are too many.")


def _apart(question: Question, plan: Plan) -> Iterator[Finding]:
    """The same dish too soon again, unless both times were fixed."""
    days = max(1, question.wishes.apart_days - _conceded(question, Wish.APART, None))
    stands = [(dish.recipe_id, dish.on, dish.locked) for dish in plan.dishes]
    stands += [(each.recipe_id, each.on, True) for each in question.eaten]
    for number, (recipe_id, on, fixed) in enumerate(stands):
        for other_id, other_on, other_fixed in stands[:number]:
            near = abs((on - other_on).days) < days
            if recipe_id == other_id and near and not (fixed and other_fixed):
                yield _fault(f"Dish {recipe_id} stands on {other_on} too.", on)


def _covered(question: Question, plan: Plan) -> Iterator[Finding]:
    """Every dish takes exactly what it uses."""
    taken: dict[tuple[date, int, int], int] = {}
    for taking in plan.takings:
        key = (taking.on, taking.recipe_id, taking.food_id)
        taken[key] = taken.get(key, 0) + taking.fresh_dg
        if taking.fresh_dg < 1:
            yield _fault(f"{taking.code} gives nothing.", taking.on)
    for dish in plan.dishes:
        helping = _helping(question, dish)
        uses: tuple[Use, ...] = helping.uses if helping else ()
        for use in uses:
            found = taken.pop((dish.on, dish.recipe_id, use.food_id), 0)
            if found != use.fresh_dg:
                yield _fault(f"{dish.name} takes {found} and uses {use.fresh_dg}.", dish.on)
    for on, recipe_id, _ in taken:
        yield _fault(f"Food is taken for dish {recipe_id}, which does not use it.", on)


def _packages(question: Question, plan: Plan) -> Iterator[Finding]:
    """Nothing past its due day, no more than there is, and each package in its turn."""
    left = {package.package_id: package.fresh_dg for package in question.packages}
    by_id = {package.package_id: package for package in question.packages}
    for before, taking in zip(plan.takings, plan.takings[1:], strict=False):
        if before.on > taking.on:
            yield _fault("The days of what is taken are out of order.", taking.on)
    for taking in plan.takings:
        package = by_id[taking.package_id]
        if not _still_good(question, package, taking.on):
            yield _fault(f"{package.code} is past its due day.", taking.on)
        yield from _out_of_turn(question, package, taking, left)
        left[package.package_id] -= taking.fresh_dg
        if left[package.package_id] < 0:
            yield _fault(f"{package.code} has not so much left.", taking.on)


def _still_good(question: Question, package: MenuPackage, on: date) -> bool:
    may_be_past = question.wishes.past_due_may_be_eaten and not package.firm
    return package.due is None or on <= package.due or may_be_past


def _out_of_turn(
    question: Question, package: MenuPackage, taking: Taking, left: dict[int, int]
) -> Iterator[Finding]:
    """Packages of the same food that should have been finished first."""
    for other in question.packages:
        if other.food_id != package.food_id or left[other.package_id] == 0:
            continue
        if _still_good(question, other, taking.on) and _goes_before(question, other, package):
            yield _fault(f"{other.code} should be used before {package.code}.", taking.on)


def _last(question: Question, package: MenuPackage) -> date:
    """The last day of the plan on which a package may be used."""
    good = [day.on for day in question.days if _still_good(question, package, day.on)]
    return good[-1]


def _is_at_risk(question: Question, package: MenuPackage) -> bool:
    days = timedelta(days=question.wishes.reach_days)
    return package.due is not None and package.due <= question.days[-1].on + days


def _goes_before(question: Question, one: MenuPackage, other: MenuPackage) -> bool:
    """Whether a package comes before another of its food, both being good on some day."""
    places = [package.package_id for package in question.packages]
    if _is_at_risk(question, one) is not _is_at_risk(question, other):
        return _is_at_risk(question, one)
    if _is_at_risk(question, one) and _last(question, one) != _last(question, other):
        return _last(question, one) < _last(question, other)
    if one.opened is not other.opened:
        return one.opened
    if _is_at_risk(question, one) and one.due != other.due:
        assert one.due is not None and other.due is not None
        return one.due < other.due
    return places.index(one.package_id) < places.index(other.package_id)


def _account(question: Question, plan: Plan) -> Iterator[Finding]:
    """The account told again from the takings."""
    used = {package.package_id: 0 for package in question.packages}
    for taking in plan.takings:
        used[taking.package_id] += taking.fresh_dg
    first = question.days[0].on
    worth = {food.food_id: food.worth for food in question.foods}
    value = 0
    at_risk: dict[int, tuple[int, int]] = {}
    left_open: dict[int, int] = {}
    for package in question.packages:
        key, taken = package.package_id, used[package.package_id]
        if not _still_good(question, package, first):
            continue
        if _is_at_risk(question, package):
            value += worth[package.food_id] * taken
            at_risk[key] = (taken, package.fresh_dg - taken)
        if (package.opened or taken) and taken < package.fresh_dg:
            left_open[key] = package.fresh_dg - taken
    value -= question.wishes.left_open_points * sum(left_open.values())
    for dish in plan.dishes:
        option = _option(question, dish.recipe_id)
        assert option is not None
        if _is_disliked(question, option, hard=False):
            value -= question.wishes.disliked_points
    account = plan.account
    if value != account.value:
        yield _fault(f"The plan is worth {value} points, not {account.value}.")
    if {each.package_id: (each.used_dg, each.unused_dg) for each in account.at_risk} != at_risk:
        yield _fault("The food at risk is told wrongly.")
    if {each.package_id: each.fresh_dg for each in account.left_open} != left_open:
        yield _fault("The food left open is told wrongly.")
    for day in account.days:
        dishes = [dish for dish in plan.dishes if dish.on == day.on]
        if (day.kcal, day.protein_dg, day.water_ml) != _sums(question, dishes):
            yield _fault("The sums of the day are told wrongly.", day.on)
