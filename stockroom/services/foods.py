"""The foods a household dries: its own, taken from the reference table or described by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from stockroom.domain.foods import Allergen, FoodFacts, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.quantities import grams
from stockroom.domain.records import Food
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.reference.foods import ReferenceFood
from stockroom.reference.foods import foods as reference_foods
from stockroom.reference.servings import serving_for
from stockroom.services.acting import acting
from stockroom.services.finding import find_food
from stockroom.services.names import clean_name, clean_note, storable
from stockroom.services.results import Done, FoodChoice
from stockroom.services.session import Stockroom
from stockroom.store import food_rows
from stockroom.store.connection import Store

HEAVIEST_SERVING_DG = 1_000_000


class FoodExists(Refused):
    """The household has a food of this name."""

    def __init__(self, name: str) -> None:
        super().__init__(f"There is already a food “{name}”.", "Use it, or choose another name.")


def list_foods(room: Stockroom) -> tuple[Food, ...]:
    """The household's own foods by name."""
    return tuple(food_rows.all_foods(room.store))


def search_foods(room: Stockroom, words: str) -> tuple[FoodChoice, ...]:
    """Foods that can go on a tray: the household's own first, then the reference table.

    Every word must stand in the name; no words give everything.
    """
    own = [_own_choice(food) for food in food_rows.all_foods(room.store)]
    taken = {choice.name.casefold() for choice in own}
    shipped = [
        _reference_choice(food)
        for food in reference_foods().values()
        if food.name.casefold() not in taken
    ]
    wanted = words.casefold().split()
    return tuple(
        choice
        for choice in [*own, *shipped]
        if all(word in choice.name.casefold() for word in wanted)
    )


def _own_choice(food: Food) -> FoodChoice:
    water = None if food.water_cg is None else food.water_cg / 100
    return FoodChoice(
        food.name, food.food_group, food.food_class, food.preparation, water, own=True
    )


def _reference_choice(food: ReferenceFood) -> FoodChoice:
    return FoodChoice(
        food.name,
        food.group,
        food.food_class,
        food.preparation,
        food.water_cg / 100,
        own=False,
    )


def facts_of(food: Food) -> FoodFacts:
    """As much of a stored food as the cautions need."""
    return FoodFacts(
        group=FoodGroup(food.food_group),
        food_class=FoodClass(food.food_class),
        preparation=Preparation(food.preparation),
        fat_of_solids=food.fat_of_solids,
        sugars_of_solids=food.sugars_of_solids,
        acid=_acid(food),
        allergens=tuple(Allergen(one) for one in food.allergens),
        check_ingredients=food.ingredients_unknown,
    )


def _acid(food: Food) -> bool | None:
    """Whether a fruit of the reference table is acid; None where the table cannot say."""
    shipped = reference_foods().get(food.reference_key or "")
    if shipped is None or shipped.food_class is not FoodClass.FRUIT:
        return None
    return not shipped.low_acid_fruit


def food_to_load(store: Store, name: str) -> Food:
    """The household's food of this name, taken over from the reference table when it is new.

    Call inside a unit of work. Raises NotFound with the nearest names, BadInput.
    """
    own = food_rows.food_by_name(store, storable(name, "food"))
    if own is not None:
        return own
    shipped = reference_food(name)
    food_id = food_rows.insert_food(store, from_reference(shipped))
    taken = food_rows.food_by_id(store, food_id)
    assert taken is not None
    return taken


def reference_food(name: str) -> ReferenceFood:
    """The reference food of this name or key. Raises NotFound with the nearest names."""
    from difflib import get_close_matches

    wanted = name.strip().casefold()
    for food in reference_foods().values():
        if wanted in (food.name.casefold(), food.key):
            return food
    names = {food.name.casefold(): food.name for food in reference_foods().values()}
    inside = [key for key in names if wanted and wanted in key][:3]
    close = inside or get_close_matches(wanted, names, n=3, cutoff=0.5)
    raise NotFound("food", name.strip(), [names[key] for key in close])


def from_reference(shipped: ReferenceFood, *, name: str = "") -> Food:
    """A household food with a reference food's composition; `food_id` is 0."""
    return Food(
        food_id=0,
        name=name or shipped.name,
        reference_key=shipped.key,
        food_group=shipped.group,
        food_class=shipped.food_class,
        preparation=shipped.preparation,
        serving_dg=shipped.serving.serving_dg,
        water_cg=shipped.water_cg,
        energy_tenth_kcal=shipped.energy_tenth_kcal,
        protein_cg=shipped.protein_cg,
        fat_cg=shipped.fat_cg,
        ash_cg=shipped.ash_cg,
        carbohydrate_cg=shipped.carbohydrate_cg,
        fibre_cg=shipped.fibre_cg,
        sugars_cg=shipped.sugars_cg,
        ingredients_unknown=shipped.allergens.check_ingredients,
        note="",
        allergens=tuple(shipped.allergens.allergens),
    )


def add_food(
    room: Stockroom,
    name: str,
    *,
    like: str | None = None,
    food_class: FoodClass | None = None,
    group: FoodGroup | None = None,
    preparation: Preparation | None = None,
    serving_dg: int | None = None,
    water_percent: Fraction | None = None,
    allergens: Sequence[Allergen] = (),
    note: str = "",
) -> Done:
    """Add a food of the household's own.

    `like` takes composition, class and serving from a reference food; without it `food_class`
    and `preparation` must be said, and what is not known stays unknown. Raises FoodExists,
    NotFound, BadInput.
    """
    chosen = clean_name(name, "food name")
    food = (
        from_reference(reference_food(like), name=chosen)
        if like
        else described_food(chosen, food_class, group, preparation)
    )
    food = replace(
        food,
        food_class=food_class or food.food_class,
        food_group=group or food.food_group,
        preparation=preparation or food.preparation,
        serving_dg=food.serving_dg if serving_dg is None else _serving(serving_dg),
        water_cg=_water_cg(water_percent, food.water_cg),
        allergens=tuple(sorted({*food.allergens, *allergens})),
        note=clean_note(note),
    )
    with acting(room, "food") as act:
        if food_rows.food_by_name(room.store, chosen) is not None:
            raise FoodExists(chosen)
        food_rows.insert_food(room.store, food)
        act.words = f"added the food {chosen}"
    return Done(act.words)


def described_food(
    name: str,
    food_class: FoodClass | None,
    group: FoodGroup | None,
    preparation: Preparation | None,
) -> Food:
    """A food known by its class alone, its composition unknown; `food_id` is 0. Or BadInput."""
    if food_class is None:
        raise BadInput("food class", "", f"one of {', '.join(FoodClass)}, or a food it is like")
    if preparation is None:
        raise BadInput("preparation", "", f"one of {', '.join(Preparation)}")
    shelf = group or _GROUPS[food_class]
    return Food(
        food_id=0,
        name=name,
        reference_key=None,
        food_group=shelf,
        food_class=food_class,
        preparation=preparation,
        serving_dg=serving_for(shelf, preparation).serving_dg,
        water_cg=None,
        energy_tenth_kcal=None,
        protein_cg=None,
        fat_cg=None,
        ash_cg=None,
        carbohydrate_cg=None,
        fibre_cg=None,
        sugars_cg=None,
        ingredients_unknown=True,
        note="",
        allergens=(),
    )


_GROUPS = {
    FoodClass.FRUIT: FoodGroup.FRUIT,
    FoodClass.VEGETABLE: FoodGroup.VEGETABLE,
    FoodClass.STARCH: FoodGroup.GRAIN_COOKED,
    FoodClass.LEAN_MEAT: FoodGroup.MEAT_COOKED,
    FoodClass.MEAL: FoodGroup.MEAL,
    FoodClass.EGG: FoodGroup.EGG,
    FoodClass.NONFAT_DAIRY: FoodGroup.DAIRY,
    FoodClass.FATTY_DAIRY: FoodGroup.DAIRY,
    FoodClass.NUTS: FoodGroup.DESSERT,
}


def _water_cg(percent: Fraction | None, known: int | None) -> int | None:
    if percent is None:
        return known
    if not 0 <= percent < 100:
        raise BadInput("water", f"{float(percent):g} %", "a percentage from 0 to below 100")
    return int(percent * 100)


def change_food(
    room: Stockroom,
    name: str,
    *,
    new_name: str | None = None,
    preparation: Preparation | None = None,
    serving_dg: int | None = None,
    allergens: Sequence[Allergen] | None = None,
    note: str | None = None,
) -> Done:
    """Correct a food; what is None stays. Saying the allergens also settles the ingredients.

    Lots keep the preparation they were made with.
    """
    with acting(room, "food") as act:
        food = find_food(room, name)
        chosen = food.name if new_name is None else clean_name(new_name, "food name")
        other = food_rows.food_by_name(room.store, chosen)
        if other is not None and other.food_id != food.food_id:
            raise FoodExists(chosen)
        changed = replace(
            food,
            name=chosen,
            preparation=preparation or food.preparation,
            serving_dg=food.serving_dg if serving_dg is None else _serving(serving_dg),
            allergens=food.allergens if allergens is None else tuple(sorted(set(allergens))),
            ingredients_unknown=food.ingredients_unknown and allergens is None,
            note=food.note if note is None else clean_note(note),
        )
        if changed == food:
            raise BadInput(
                "food", "", "what to change: name, preparation, serving, allergens or note"
            )
        food_rows.update_food(room.store, changed)
        act.words = f"changed the food {chosen}"
    return Done(act.words)


def _serving(serving_dg: int) -> int:
    if not 1 <= serving_dg <= HEAVIEST_SERVING_DG:
        raise BadInput("serving", f"{grams(serving_dg):g} g", "a weight from 0.1 g to 100 kg")
    return serving_dg
