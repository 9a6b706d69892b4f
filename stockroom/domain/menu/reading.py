"""From the dishes chosen to the plan: what comes out of which package when, and the account."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice, excluded
from stockroom.domain.menu.plans import (
    Account,
    AtRisk,
    DayAccount,
    Finding,
    LeftOpen,
    Plan,
    PlannedDish,
    Taking,
)
from stockroom.domain.menu.records import DishOption, MenuPackage, Question
from stockroom.domain.menu.shelf import FoodShelf, shelves
from stockroom.domain.quantities import nearest_whole

_OCCASIONS = tuple(Occasion)


def read_plan(question: Question, chosen: Iterable[Choice]) -> Plan:
    """The plan for the dishes chosen. ValueError where the store does not cover them."""
    shelf_of = shelves(question)
    ordered = sorted(chosen, key=lambda each: _dish_order(question, each))
    takings = tuple(_takings(question, shelf_of, ordered))
    dishes = tuple(_planned(question, each) for each in ordered)
    return Plan(dishes, takings, _account(question, shelf_of, ordered, takings))


def _dish_order(question: Question, choice: Choice) -> tuple[int, int, str, int]:
    """By day, occasion, name and id."""
    name = question.options[choice.dish].name
    return choice.day, _OCCASIONS.index(choice.occasion), name, choice.recipe_id


def _planned(question: Question, choice: Choice) -> PlannedDish:
    """A choice as it stands in the plan."""
    return PlannedDish(
        question.days[choice.day].on,
        choice.recipe_id,
        question.options[choice.dish].name,
        choice.occasion,
        choice.people,
        choice.locked,
    )


def _takings(
    question: Question, shelf_of: dict[int, FoodShelf], ordered: Sequence[Choice]
) -> list[Taking]:
    """What each dish takes, in the order of the shelf, from packages not past their last day."""
    left = {
        placed.package.package_id: placed.package.fresh_dg
        for shelf in shelf_of.values()
        for placed in shelf.placed
    }
    found: list[Taking] = []
    for choice in ordered:
        on = question.days[choice.day].on
        for food_id, wanted_dg in choice.uses:
            for placed in shelf_of[food_id].placed:
                package = placed.package
                take_dg = min(wanted_dg, left[package.package_id])
                if take_dg == 0 or placed.last_day < choice.day:
                    continue
                left[package.package_id] -= take_dg
                wanted_dg -= take_dg
                found.append(
                    Taking(on, choice.recipe_id, package.package_id, package.code, food_id, take_dg)
                )
            if wanted_dg:
                raise ValueError(f"food {food_id} on {on} is short of {wanted_dg}")
    return found


def _account(
    question: Question,
    shelf_of: dict[int, FoodShelf],
    ordered: Sequence[Choice],
    takings: Sequence[Taking],
) -> Account:
    """The account of a plan."""
    taken: dict[int, int] = {}
    for taking in takings:
        taken[taking.package_id] = taken.get(taking.package_id, 0) + taking.fresh_dg
    placed = [each for shelf in shelf_of.values() for each in shelf.placed]
    at_risk = tuple(_at_risk(question, each.package, taken) for each in placed if each.at_risk)
    left_open = tuple(_left_open(placed_packages(question, shelf_of), taken))
    worth = {food.food_id: food.worth for food in question.foods}
    wishes = question.wishes
    value = (
        sum(worth[each.food_id] * each.used_dg for each in at_risk)
        - wishes.left_open_points * sum(each.fresh_dg for each in left_open)
        - wishes.disliked_points * sum(1 for each in ordered if each.disliked)
    )
    return Account(
        tuple(_day(question, day, ordered) for day in range(len(question.days))),
        at_risk,
        left_open,
        excluded(question, shelf_of),
        (*_findings(question, shelf_of, ordered), *_past_due(question, takings)),
        value,
    )


def placed_packages(question: Question, shelf_of: dict[int, FoodShelf]) -> tuple[MenuPackage, ...]:
    """The packages a plan may draw on, food by food, in the order it draws on them."""
    return tuple(
        placed.package for food in question.foods for placed in shelf_of[food.food_id].placed
    )


def _at_risk(question: Question, package: MenuPackage, taken: dict[int, int]) -> AtRisk:
    """A package at risk with what is used of it."""
    food = next(each for each in question.foods if each.food_id == package.food_id)
    used_dg = taken.get(package.package_id, 0)
    unused_dg = package.fresh_dg - used_dg
    assert package.due is not None
    return AtRisk(
        package.package_id,
        package.code,
        food.food_id,
        food.name,
        package.due,
        used_dg,
        unused_dg,
        _kcal(food.kcal_per_kg, used_dg),
        _kcal(food.kcal_per_kg, unused_dg),
    )


def _kcal(kcal_per_kg: int | None, fresh_dg: int) -> int | None:
    """The energy of so much food, to the nearest kcal."""
    return None if kcal_per_kg is None else nearest_whole(Fraction(kcal_per_kg * fresh_dg, 10_000))


def _left_open(packages: Iterable[MenuPackage], taken: dict[int, int]) -> Iterable[LeftOpen]:
    """The packages that were open before or are opened, with what stays in them."""
    for package in packages:
        used_dg = taken.get(package.package_id, 0)
        if (package.opened or used_dg) and used_dg < package.fresh_dg:
            yield LeftOpen(
                package.package_id, package.code, package.food_id, package.fresh_dg - used_dg
            )


def _day(question: Question, number: int, ordered: Sequence[Choice]) -> DayAccount:
    """What the dishes of a day come to."""
    day = question.days[number]
    dishes = [each for each in ordered if each.day == number]
    return DayAccount(
        day.on,
        len(dishes),
        sum(each.kcal for each in dishes),
        day.need_kcal,
        sum(each.protein_dg for each in dishes),
        day.need_protein_dg,
        sum(each.water_ml for each in dishes),
    )


def _findings(
    question: Question, shelf_of: dict[int, FoodShelf], ordered: Sequence[Choice]
) -> Iterable[Finding]:
    """What a person has to know: unknown energy, locked dishes with a reason against, old food."""
    used = {each.dish for each in ordered}
    for number, option in enumerate(question.options):
        if number in used:
            yield from _unknown(option)
    for choice in ordered:
        option = question.options[choice.dish]
        if choice.locked and option.why_not:
            yield Finding(
                option.name,
                f"{option.name} stays as fixed, although: {option.why_not}.",
                question.days[choice.day].on,
            )
    usable = {package.package_id for package in placed_packages(question, shelf_of)}
    for package in question.packages:
        if package.package_id not in usable and package.due is not None:
            yield Finding(
                package.code,
                f"{package.code} was due on {package.due} (a quality estimate, not safety) and is"
                " not planned.",
            )


def _past_due(question: Question, takings: Sequence[Taking]) -> Iterable[Finding]:
    """Packages the plan uses after their due day, each once, with the first such day."""
    due = {package.package_id: package.due for package in question.packages}
    told: set[int] = set()
    for taking in takings:
        due_on = due[taking.package_id]
        if due_on is not None and due_on < taking.on and taking.package_id not in told:
            told.add(taking.package_id)
            yield Finding(
                taking.code,
                f"{taking.code} is used after {due_on}, its best-by (a quality estimate, not"
                " safety).",
                taking.on,
            )


def _unknown(option: DishOption) -> Iterable[Finding]:
    """Energy or protein that is not known of a dish."""
    for what, known in (
        ("energy", all(each.kcal is not None for each in option.helpings)),
        ("protein", all(each.protein_dg is not None for each in option.helpings)),
    ):
        if not known:
            yield Finding(option.name, f"The {what} of {option.name} is not known: counted as 0.")
