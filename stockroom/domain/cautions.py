"""Which cautions apply, for each place where a person decides something.

Every selection is in the order of the table, the gravest first, and ends with the line that
defers to local codes and licensed guidance.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from stockroom.domain.caution_table import CAUTION_SOURCES, CAUTIONS, Caution, Where
from stockroom.domain.foods import FoodFacts, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass, PackageKind

__all__ = [
    "CAUTIONS",
    "CAUTION_SOURCES",
    "Caution",
    "Where",
    "cautions_at",
    "cautions_for_cooking",
    "cautions_for_label",
    "cautions_for_load",
    "cautions_for_lot",
    "cautions_for_packing",
    "cautions_for_soft",
    "chosen",
    "is_low_acid",
]

# Shares of the dry solids from which food counts as fatty or sugary; engineering judgement.
FATTY_FROM = Fraction(15, 100)
SUGARY_FROM = Fraction(50, 100)

# A soft package found within a day of packing was never dry; engineering judgement.
EARLY_HOURS = 24

# Clostridium botulinum spores in honey: no honey before the first birthday (INSPQ, published).
HONEY_FROM_MONTHS = 12

_MEAT = (FoodGroup.MEAT_RAW, FoodGroup.MEAT_COOKED)


def is_low_acid(food_class: FoodClass, acid: bool | None = None) -> bool:
    """Whether a food counts as low-acid (pH above 4.6).

    `acid` is what is known of this very food; None leaves it to the class: fruit is acid,
    everything else is not, and a mixed dish counts as low-acid whatever went into it.
    """
    if acid is None:
        return food_class is not FoodClass.FRUIT
    return not acid or food_class is FoodClass.MEAL


def chosen(keys: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions of these keys in the order of the table, closed by the deferring line."""
    wanted = {*keys, "local-codes"}
    return tuple(one for one in CAUTIONS if one.key in wanted)


def cautions_at(where: Where) -> tuple[Caution, ...]:
    """Every caution that belongs to one place, whether or not it applies to a given food."""
    return tuple(one for one in CAUTIONS if where in one.where)


def cautions_for_load(foods: Sequence[FoodFacts]) -> tuple[Caution, ...]:
    """For foods going onto the trays of one run together."""
    keys: set[str] = set()
    raw = [food for food in foods if food.preparation is Preparation.RAW]
    if raw:
        keys |= {"raw-stays-raw", "raw-apart"}
    if any(food.group is FoodGroup.EGG for food in raw):
        keys.add("raw-egg")
    if any(_is_fatty(food.food_class, food.fat_of_solids) for food in foods):
        keys.add("fatty")
    if any(_is_sugary(food.sugars_of_solids) for food in foods):
        keys.add("sugary")
    if any(food.allergens or food.check_ingredients for food in foods):
        keys.add("allergen-dust")
    return chosen(keys)


def cautions_for_lot(food: FoodFacts) -> tuple[Caution, ...]:
    """For the page of one lot."""
    keys = _allergen_keys(food)
    if food.preparation is Preparation.RAW:
        keys.add("raw-stays-raw")
    if food.food_class is FoodClass.FRUIT:
        keys.add("germs-survive")
    return chosen(keys)


def cautions_for_packing(
    food_class: FoodClass,
    preparation: Preparation,
    package_kind: PackageKind,
    *,
    absorber_cc: int = 0,
    vacuum: bool = False,
    fat_of_solids: Fraction | None = None,
    sugars_of_solids: Fraction | None = None,
    acid: bool | None = None,
    glass: bool = True,
) -> tuple[Caution, ...]:
    """For one food going into one kind of package.

    `glass` says whether a jar is of glass (False for a seamed can); it is not looked at for
    pouches and bags.
    """
    keys: set[str] = set()
    if preparation is Preparation.RAW:
        keys.add("raw-stays-raw")
    if _is_fatty(food_class, fat_of_solids):
        keys.add("fatty")
    if _is_sugary(sugars_of_solids):
        keys.add("sugary")
    if absorber_cc > 0:
        keys |= {"absorber-not-food", "no-desiccant", "absorber-opened"}
    if absorber_cc > 0 or vacuum:
        keys |= _low_oxygen_keys(food_class, acid)
    if vacuum:
        keys |= _vacuum_keys(package_kind, glass)
    return chosen(keys)


def cautions_for_soft(
    food_class: FoodClass,
    low_oxygen: bool,
    *,
    hours_since_packing: int | None = None,
    acid: bool | None = None,
) -> tuple[Caution, ...]:
    """For a package found soft. `low_oxygen`: it was closed with a vacuum or an absorber.

    Hours not known count as more than 24. Low-acid food from a low-oxygen package is then to be
    discarded, and nothing else is offered.
    """
    keys = {"never-taste", "spoiled", "sisters"}
    low_acid = is_low_acid(food_class, acid)
    if hours_since_packing is not None and hours_since_packing <= EARLY_HOURS:
        keys.add("soft-early")
        if low_acid:
            keys.add("wet-perishable")
    elif not low_acid:
        keys.add("soft-acid")
    elif low_oxygen:
        keys |= {"soft-discard", "toxin-no-sign", "botulism"}
    else:
        keys |= {"soft-air", "wet-perishable"}
    return chosen(keys)


def cautions_for_cooking(
    foods: Sequence[FoodFacts],
    *,
    youngest_months: int | None = None,
    large_batch: bool = False,
) -> tuple[Caution, ...]:
    """For foods about to be wetted and cooked or eaten.

    `youngest_months` is the age of the youngest eater; None (not known) counts as an infant.
    """
    keys = {"clock", "soak-cold"}
    for food in foods:
        keys |= _cooking_keys(food)
    if youngest_months is None or youngest_months < HONEY_FROM_MONTHS:
        keys.add("honey")
    if large_batch:
        keys.add("cool-batch")
    return chosen(keys)


def cautions_for_label(food: FoodFacts, *, absorber_cc: int = 0) -> tuple[Caution, ...]:
    """For the label of one package."""
    keys = _allergen_keys(food) | {"best-by"}
    if food.preparation is Preparation.RAW:
        keys.add("raw-stays-raw")
    if absorber_cc > 0:
        keys.add("absorber-not-food")
    return chosen(keys)


def _low_oxygen_keys(food_class: FoodClass, acid: bool | None) -> set[str]:
    """For any package whose oxygen was taken away."""
    keys = {"dry-enough"}
    if is_low_acid(food_class, acid):
        keys.add("botulism")
    if food_class in (FoodClass.EGG, FoodClass.NUTS):
        keys.add("unsuitable")
    return keys


def _vacuum_keys(package_kind: PackageKind, glass: bool) -> set[str]:
    """For a package closed under vacuum."""
    keys = {"vacuum-is-not-keeping"}
    if package_kind is not PackageKind.JAR:
        return keys | {"sharp-pieces"}
    return keys | {"jar-seal", "glass-vacuum"} if glass else keys


def _cooking_keys(food: FoodFacts) -> set[str]:
    """For one food in the pot."""
    if food.preparation is Preparation.COOKED:
        return {"reheat"}
    if food.preparation is not Preparation.RAW:
        return set()
    keys = {"raw-stays-raw", "weak-immunity"}
    if food.group is FoodGroup.EGG:
        keys.add("raw-egg")
    if food.group is FoodGroup.POULTRY:
        return keys | {"cook-poultry"}
    if food.group in _MEAT:
        return keys | {"cook-meat", "cook-other"}
    if food.group in (FoodGroup.FISH, FoodGroup.EGG):
        return keys | {"cook-other"}
    return keys | {"cook-poultry", "cook-meat", "cook-other"}


def _allergen_keys(food: FoodFacts) -> set[str]:
    """For a food that is or may hold an allergen."""
    keys: set[str] = set()
    if food.allergens:
        keys.add("allergens")
    if food.check_ingredients:
        keys |= {"allergens", "check-ingredients"}
    if food.group is FoodGroup.FISH:
        keys.add("allergen-species")
    return keys


def _is_fatty(food_class: FoodClass, fat_of_solids: Fraction | None) -> bool:
    """By the fat of the solids, or by the class where that is not known."""
    if fat_of_solids is None:
        return food_class in (FoodClass.FATTY_DAIRY, FoodClass.NUTS, FoodClass.EGG)
    return fat_of_solids >= FATTY_FROM


def _is_sugary(sugars_of_solids: Fraction | None) -> bool:
    """By the sugars of the solids; not known is not sugary."""
    return sugars_of_solids is not None and sugars_of_solids >= SUGARY_FROM
