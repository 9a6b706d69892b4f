"""The units of ingredient lines: weights, volumes, and words that count pieces.

Sizes are those of `domain.units`: US customary cups, spoons, pints and quarts, avoirdupois ounces
and pounds, and metric. A unit stays as it was written; only its size is looked up here.
"""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.units import (
    OUNCE_G,
    POUND_G,
    US_CUP_ML,
    US_FLUID_OUNCE_ML,
    US_GALLON_ML,
    US_PINT_ML,
    US_QUART_ML,
    US_TABLESPOON_ML,
    US_TEASPOON_ML,
)

GRAMS: dict[str, Fraction] = {
    **dict.fromkeys(("g", "gr", "gram", "grams", "gramme", "grammes"), Fraction(1)),
    **dict.fromkeys(("kg", "kilo", "kilos", "kilogram", "kilograms"), Fraction(1000)),
    **dict.fromkeys(("oz", "ounce", "ounces"), OUNCE_G),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), POUND_G),
}
"""Unit of weight → grams."""

MILLILITRES: dict[str, Fraction] = {
    **dict.fromkeys(("ml", "millilitre", "millilitres", "milliliter", "milliliters"), Fraction(1)),
    **dict.fromkeys(("cl", "centilitre", "centilitres"), Fraction(10)),
    **dict.fromkeys(("dl", "decilitre", "decilitres"), Fraction(100)),
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), Fraction(1000)),
    **dict.fromkeys(("cup", "cups"), US_CUP_ML),
    **dict.fromkeys(("tbsp", "tbsps", "tbs", "tablespoon", "tablespoons"), US_TABLESPOON_ML),
    **dict.fromkeys(("tsp", "tsps", "teaspoon", "teaspoons"), US_TEASPOON_ML),
    **dict.fromkeys(("fl oz", "fl. oz", "fluid ounce", "fluid ounces"), US_FLUID_OUNCE_ML),
    **dict.fromkeys(("pint", "pints", "pt"), US_PINT_ML),
    **dict.fromkeys(("quart", "quarts", "qt"), US_QUART_ML),
    **dict.fromkeys(("gallon", "gallons", "gal"), US_GALLON_ML),
}
"""Unit of volume → millilitres; which cup or pint a recipe means it seldom says."""

COUNTED: frozenset[str] = frozenset(
    (
        "each", "piece", "pieces", "clove", "cloves", "slice", "slices", "pinch", "pinches",
        "dash", "dashes", "drop", "drops", "handful", "handfuls", "bunch", "bunches", "sprig",
        "sprigs", "stick", "sticks", "stalk", "stalks", "head", "heads", "leaf", "leaves",
        "can", "cans", "tin", "tins", "jar", "jars", "packet", "packets", "package", "packages",
        "pack", "packs", "bag", "bags", "cube", "cubes", "knob", "knobs", "sheet", "sheets",
        "rasher", "rashers", "fillet", "fillets", "scoop", "scoops", "splash", "splashes",
    )
)  # fmt: skip
"""Words that count pieces or say how little; none has a weight of its own."""

_BOUGHT = "can cans tin tins jar jars packet packets package packages pack packs bag bags"
PACKED: frozenset[str] = frozenset(_BOUGHT.split())
"""Things that are bought with a weight on them, so that one in brackets is that of each."""

KNOWN: frozenset[str] = COUNTED | GRAMS.keys() | MILLILITRES.keys()


def unit_key(unit: str) -> str:
    """A unit as the tables have it: lower case, single spaces, no full stop at its end."""
    return " ".join(unit.casefold().split()).rstrip(".")


def one_of(unit: str) -> str:
    """The name of a single one: "cup" for "cups"."""
    for ending in ("s", "es"):
        single = unit.removesuffix(ending)
        if single != unit and unit_key(single) in KNOWN:
            return single
    return unit


def grams_in(amount: Fraction, unit: str | None) -> Fraction | None:
    """The grams of an amount in a unit of weight; None for any other unit."""
    size = GRAMS.get(unit_key(unit or ""))
    return None if size is None else amount * size


def millilitres_in(amount: Fraction, unit: str | None) -> Fraction | None:
    """The millilitres of an amount in a unit of volume; None for any other unit."""
    size = MILLILITRES.get(unit_key(unit or ""))
    return None if size is None else amount * size


def same_unit(unit: str, other: str) -> bool:
    """Whether two unit names mean the same measure: "cups" and "cup", "tablespoon" and "tbsp"."""
    one, two = unit_key(unit), unit_key(other)
    if one == two:
        return True
    volumes = MILLILITRES.get(one), MILLILITRES.get(two)
    return volumes[0] is not None and volumes[0] == volumes[1]
