"""What stands on the label of a package, and on that of a lot for its bin."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.conditions import Condition
from stockroom.domain.drying import refuse_impossible
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.gate import override_words
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.labels.statements import Label, Statement
from stockroom.domain.quantities import UnitSystem, show_servings, show_weight
from stockroom.domain.records import Food, Lot, Package
from stockroom.domain.safe_cooking import least_for_raw
from stockroom.domain.units import Cup
from stockroom.domain.water import millilitres, quarter_cups, show_water

RAW = "RAW: cook after rehydrating"
"""How the caution "raw-stays-raw" begins on a label."""
CHECK_INGREDIENTS = "check ingredients"
QUALITY = QUALITY_NOT_SAFETY.partition(",")[0]
"""The least that stands beside every best-by."""

_STANDING: dict[str, tuple[str, ...]] = {
    Condition.SUSPECT: ("IN DOUBT: not to be eaten before it is decided", "IN DOUBT: do not eat"),
    Condition.HELD: ("HELD for drying again: keep frozen, do not eat", "HELD: do not eat"),
}
_PREPARED = {Preparation.COOKED: "cooked before drying", Preparation.READY: "ready to eat"}
_ABSORBER = ("absorber inside is not food: remove it", "absorber: not food")

# What is left out first where not everything fits: engineering judgement.
_WORTH = {"preparation": 1, "packages": 1, "servings": 2, "absorber": 3, "water": 4}


@dataclass(frozen=True, slots=True)
class PackageFacts:
    """What the label of a package is made from. `discard_by` is None where none is reckoned."""

    package: Package
    food: Food
    discard_by: date | None
    units: UnitSystem
    cup: Cup = Cup.US


def package_label(facts: PackageFacts) -> Label:
    """The label of one package, of what is in it now."""
    package, food = facts.package, facts.food
    packed = package.first_sealed_on or package.sealed_on
    found = (
        _free("name", package.food, strong=True),
        Statement("code", (package.code,), strong=True),
        _raw(package.preparation, food),
        _standing(package),
        _allergens(food),
        Statement("dates", _dates(package.made_on, packed, package.sealed_on)),
        _best_by(package.best_by),
        _discard_by(facts.discard_by),
        _water(package, facts.cup),
        _servings(package, facts.units),
        _prepared(package.preparation),
        _dryness(package.gate_reason),
        _droppable("absorber", _ABSORBER) if package.absorber_cc else None,
    )
    return Label(package.code, tuple(one for one in found if one is not None))


def lot_label(lot: Lot, food: Food, first_best_by: date | None, count: int) -> Label:
    """The label of a lot for the bin its packages stand in; `count` is how many there are now.

    Before any is packed the label has no best-by.
    """
    packages = "1 package" if count == 1 else f"{count} packages"
    there = (
        _best_by(first_best_by, "earliest best by"),
        _droppable("packages", (packages,)),
    )
    found = (
        _free("name", lot.food, strong=True),
        Statement("code", (f"lot {lot.code}", lot.code), strong=True),
        _raw(lot.preparation, food),
        _allergens(food),
        Statement("dates", (f"made {lot.made_on.isoformat()}",)),
        *(there if count else ()),
        _lot_water(lot),
        _prepared(lot.preparation),
    )
    return Label(lot.code, tuple(one for one in found if one is not None))


def _free(key: str, text: str, *, stem: str = "", strong: bool = False) -> Statement:
    """Text a person typed."""
    return Statement(key, (text,), strong=strong, pinned=False, free=True, stem=stem)


def _droppable(key: str, forms: tuple[str, ...]) -> Statement:
    return Statement(key, forms, pinned=False, worth=_WORTH[key])


def _raw(preparation: str, food: Food) -> Statement | None:
    """That it is raw, and the least temperature it is cooked to; never cut."""
    if preparation != Preparation.RAW:
        return None
    least = least_for_raw(FoodGroup(food.food_group)).words
    forms = (f"{RAW}, to {least} in the middle", f"RAW: cook to {least}", "RAW: cook it")
    return Statement("raw", forms, strong=True)


def _prepared(preparation: str) -> Statement | None:
    words = _PREPARED.get(Preparation(preparation))
    return None if words is None else _droppable("preparation", (words,))


def _standing(package: Package) -> Statement | None:
    """What a package that is not simply closed and sound has to say of itself."""
    if package.opened_on is not None and package.condition == Condition.OPENED:
        return Statement("standing", (f"opened {package.opened_on.isoformat()}",))
    forms = _STANDING.get(package.condition)
    return None if forms is None else Statement("standing", forms, strong=True)


def _allergens(food: Food) -> Statement | None:
    """The allergens by their names, and whether there may be more; never cut."""
    named = ", ".join(Allergen(one).words for one in food.allergens)
    if not named:
        words = (f"Allergens: {CHECK_INGREDIENTS}", CHECK_INGREDIENTS)
        return Statement("allergens", words) if food.ingredients_unknown else None
    more = f"; {CHECK_INGREDIENTS}" if food.ingredients_unknown else ""
    return Statement("allergens", (f"Contains: {named}{more}",))


def _dates(made: date, packed: date, sealed: date) -> tuple[str, ...]:
    """Day made and day packed, and the day sealed where that was another one later."""
    again = f", again {sealed.isoformat()}" if sealed != packed else ""
    if made == packed:
        return (f"made and packed {made.isoformat()}{again}",)
    return (f"made {made.isoformat()}, packed {packed.isoformat()}{again}",)


def _best_by(day: date | None, said: str = "best by") -> Statement:
    if day is None:
        return Statement("best_by", (f"{said}: not known",))
    words = f"{said} {day.isoformat()}"
    return Statement("best_by", (f"{words} ({QUALITY_NOT_SAFETY})", f"{words} ({QUALITY})"))


def _discard_by(day: date | None) -> Statement | None:
    return None if day is None else Statement("discard_by", (f"discard by {day.isoformat()}",))


def _water(package: Package, cup: Cup) -> Statement:
    """The water to add to what is left: grams, and cups that are named."""
    water_dg = package.left_water_dg
    if water_dg <= 0:
        return _droppable("water", (show_water(water_dg),))
    weight = show_weight(water_dg, UnitSystem.METRIC)
    measure = quarter_cups(millilitres(water_dg), cup)
    return _droppable(
        "water", (f"add {weight} water, about {measure}", f"water {weight} · {measure}")
    )


def _servings(package: Package, units: UnitSystem) -> Statement:
    count = show_servings(package.servings_left)
    servings = "1 serving" if count == "1" else f"{count} servings"
    dry = show_weight(package.left_dg, units)
    return _droppable("servings", (f"{servings} · {dry} dry", servings))


def _dryness(reason: str) -> Statement | None:
    """That it was packed past the gate, and why; the fact itself is never cut."""
    if not reason:
        return None
    words = override_words(reason)
    return _free("dryness", words, stem=words.partition(":")[0])


def _lot_water(lot: Lot) -> Statement:
    """Water for each gram of dry food, as the lot lost it."""
    refuse_impossible("The lot", lot.wet_dg, lot.dry_dg)
    ratio = float(Fraction(lot.water_removed_dg, lot.dry_dg))
    return _droppable(
        "water",
        (f"add {ratio:.2f} g water to each gram dry", f"water {ratio:.2f} g per g"),
    )
