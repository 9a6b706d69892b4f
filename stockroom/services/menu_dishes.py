"""The recipes as dishes of a menu: what each gives and takes, and why some may not be served.

Amounts are planning figures. Dry amounts go to fresh equivalent, and fresh equivalent to water,
by what the shelves hold of the food together; without any by its composition as loaded. Energy
and protein are those of the composition as loaded, and what the recipe says of its fresh items.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.cooking import (
    FreshNeed,
    MeasureMissing,
    Occasion,
    Recipe,
    StoredNeed,
    scale,
)
from stockroom.domain.dish_facts import DishFacts, dish_facts, raw_check
from stockroom.domain.foods import Allergen
from stockroom.domain.household_need import EatersAvoid
from stockroom.domain.menu.records import DishOption, Helping, MenuFood, Use
from stockroom.domain.menu_records import MenuStock
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.records import Food, RecipeRecord
from stockroom.domain.safe_cooking import RawCheck
from stockroom.domain.substitutes import fresh_equivalent
from stockroom.domain.water import millilitres
from stockroom.services.people import eaters_avoid
from stockroom.services.session import Stockroom
from stockroom.services.written_recipes import as_written
from stockroom.store import food_rows, menu_rows, recipe_rows


@dataclass(frozen=True, slots=True)
class BookDish:
    """A recipe of the book; `written` is None where a measure of it has no weight."""

    record: RecipeRecord
    written: Recipe | None
    foods: tuple[Food, ...]
    why_not: str
    note: str
    """What its energy and protein leave out, in a sentence; "" when nothing."""

    def fresh_for(self, people: int) -> tuple[FreshNeed, ...]:
        """What does not come from the shelves, for so many people."""
        if self.written is None:
            return ()
        lines = scale(self.written, people).lines
        return tuple(line for line in lines if isinstance(line, FreshNeed))


class MenuBook:
    """All recipes and the stock they are cooked from, read once."""

    def __init__(self, room: Stockroom) -> None:
        self.stock: tuple[MenuStock, ...] = tuple(menu_rows.menu_stock(room.store))
        self._foods = {food.food_id: food for food in food_rows.all_foods(room.store)}
        self._sums: dict[int, tuple[int, int]] = {}
        for one in self.stock:
            dry_dg, water_dg = self._sums.get(one.food_id, (0, 0))
            self._sums[one.food_id] = dry_dg + one.dry_dg, water_dg + one.water_dg
        self._raw_in_stock = {one.food_id for one in self.stock if one.raw}
        avoid = eaters_avoid(room)
        self.disliked = tuple(one.food_id for one in avoid.foods)
        self.dishes = {
            record.recipe_id: self._dish(room, record, avoid)
            for record in recipe_rows.all_recipes(room.store)
        }

    def foods(self) -> tuple[MenuFood, ...]:
        """Every food of a recipe."""
        ids = sorted({food.food_id for dish in self.dishes.values() for food in dish.foods})
        return tuple(
            MenuFood(food_id, self._foods[food_id].name, self._foods[food_id].energy_tenth_kcal)
            for food_id in ids
        )

    def option(self, recipe_id: int, people: Iterable[int]) -> DishOption:
        """A recipe as a dish that could be planned for these numbers of people."""
        dish = self.dishes[recipe_id]
        return DishOption(
            recipe_id,
            dish.record.name,
            Occasion(dish.record.occasion),
            tuple(self.helping(recipe_id, count) for count in sorted(set(people))),
            dish.record.cook_to_dc is not None,
            dish.why_not,
        )

    def helping(self, recipe_id: int, people: int) -> Helping:
        """A recipe cooked for so many people: what it gives and takes."""
        dish = self.dishes[recipe_id]
        if dish.written is None:
            return Helping(people, None, None, 0, ())
        scaled = scale(dish.written, people)
        uses = self._uses([one for one in scaled.lines if isinstance(one, StoredNeed)])
        water_dg = scaled.cooking_water_dg + sum(self._water_of(one) for one in uses)
        share = Fraction(people, dish.record.serves)
        return Helping(
            people,
            self._sum(uses, "energy_tenth_kcal", dish.record.fresh_kcal, share),
            self._sum(uses, "protein_cg", dish.record.fresh_protein_dg, share),
            nearest_whole(Fraction(millilitres(water_dg))),
            uses,
        )

    def food_name(self, food_id: int) -> str:
        """The name of a food."""
        return self._foods[food_id].name

    def _uses(self, needs: Sequence[StoredNeed]) -> tuple[Use, ...]:
        """The fresh equivalent of each food, however the recipe counts it."""
        total: dict[int, int] = {}
        for need in needs:
            amount = max(1, self._fresh_of(need))
            total[need.food_id] = total.get(need.food_id, 0) + amount
        return tuple(Use(food_id, amount) for food_id, amount in total.items())

    def _fresh_of(self, need: StoredNeed) -> int:
        if not need.counts_dry:
            return need.wanted_dg
        dry_dg, water_dg = self._sums.get(need.food_id, (0, 0))
        if dry_dg:
            # Up, so that what the plan sets aside is not less than the dish will ask for.
            return -(-need.wanted_dg * (dry_dg + water_dg) // dry_dg)
        by_table = fresh_equivalent(need, self._foods[need.food_id].water_cg)
        return need.wanted_dg if by_table is None else by_table

    def _water_of(self, use: Use) -> int:
        """Water to bring so much back, tenths of a gram."""
        dry_dg, water_dg = self._sums.get(use.food_id, (0, 0))
        if dry_dg + water_dg:
            return nearest_whole(Fraction(use.fresh_dg * water_dg, dry_dg + water_dg))
        return nearest_whole(
            Fraction(use.fresh_dg * (self._foods[use.food_id].water_cg or 0), 10_000)
        )

    def _sum(
        self, uses: Sequence[Use], what: str, fresh: int | None, share: Fraction
    ) -> int | None:
        """Energy or protein of the dish, of all parts that are known; None where none is."""
        parts = [
            Fraction(use.fresh_dg * known, 10_000)
            for use in uses
            if (known := getattr(self._foods[use.food_id], what)) is not None
        ]
        if fresh is not None:
            parts.append(fresh * share)
        return nearest_whole(sum(parts, Fraction())) if parts else None

    def _dish(self, room: Stockroom, record: RecipeRecord, avoid: EatersAvoid) -> BookDish:
        """A recipe with what there is to say of it."""
        ids = dict.fromkeys(line.food_id for line in record.lines if line.food_id is not None)
        foods = tuple(self._foods[food_id] for food_id in ids)
        try:
            written, missing = as_written(room, record, self._foods, {}), ""
        except MeasureMissing as error:
            written, missing = None, error.message.rstrip(".")
        facts = dish_facts(foods, record.allergens, record.cook_to_dc)
        raw = raw_check(
            (food for food in foods if food in _raw(foods) or food.food_id in self._raw_in_stock),
            record.cook_to_dc,
        )
        why_not = _allergic(facts, avoid) or _uncooked(raw) or missing
        return BookDish(record, written, foods, why_not, _left_out(record, foods))


def _raw(foods: Sequence[Food]) -> list[Food]:
    """The foods that are raw on record."""
    return [food for food in foods if food.preparation == "raw"]


def _allergic(facts: DishFacts, avoid: EatersAvoid) -> str:
    """Why those who eat must not get the dish, or ""."""
    inside = avoid.allergic_to(Allergen(one) for one in facts.allergens)
    if inside:
        return "; ".join(
            f"holds {one.allergen.words}, which {' and '.join(one.who)} must not get"
            for one in inside
        )
    if facts.ingredients_unknown and avoid.allergens:
        who = dict.fromkeys(name for one in avoid.allergens for name in one.who)
        names = ", ".join(facts.ingredients_unknown)
        return f"what went into {names} is not known, and {' and '.join(who)} has an allergy"
    return ""


def _uncooked(raw: RawCheck) -> str:
    """Why the dish would serve raw food, or ""."""
    if raw.passed or raw.least is None:
        return ""
    names = ", ".join(food.name for food in raw.foods)
    if raw.cook_to_dc is None:
        return f"takes raw food ({names}) and has no cooking step"
    return f"takes raw food ({names}), which needs {raw.least.words}"


def _left_out(record: RecipeRecord, foods: Sequence[Food]) -> str:
    """What energy and protein leave out, in a sentence."""
    parts = [
        food.name for food in foods if food.energy_tenth_kcal is None or food.protein_cg is None
    ]
    fresh = any(line.food_id is None for line in record.lines)
    if fresh and (record.fresh_kcal is None or record.fresh_protein_dg is None):
        parts.append("its fresh items")
    if not parts:
        return ""
    return f"Energy or protein of {record.name} is counted without {', '.join(parts)}."
