"""What a food is, in the words the whole program shares: its group, preparation and allergens.

The food class (how it keeps) lives with the keeping model in `domain.keeping.interface`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stockroom.domain.keeping.interface import FoodClass


class FoodGroup(StrEnum):
    """The shelf a food belongs to: used for servings, menus, provision and cautions."""

    FRUIT = "fruit"
    VEGETABLE = "vegetable"
    HERB = "herb"
    LEGUME_COOKED = "legume_cooked"
    GRAIN_COOKED = "grain_cooked"
    MEAT_RAW = "meat_raw"
    MEAT_COOKED = "meat_cooked"
    POULTRY = "poultry"
    FISH = "fish"
    EGG = "egg"
    DAIRY = "dairy"
    MEAL = "meal"
    SOUP_SAUCE = "soup_sauce"
    DESSERT = "dessert"


class Preparation(StrEnum):
    """What was done to the food before it was dried; freeze-drying changes none of it."""

    RAW = "raw"
    """Must be cooked after water is added: freeze-drying does not kill germs."""
    COOKED = "cooked"
    """Was cooked before drying."""
    READY = "ready"
    """Is eaten as it is: fruit, salad vegetables, cheese, puddings."""


class Allergen(StrEnum):
    """The nine major food allergens of United States law.

    Source: US Food and Drug Administration, Food Allergen Labeling and Consumer Protection Act
    of 2004 with the FASTER Act of 2021 (sesame, in force from 2023-01-01). Standing: published.
    Molluscs are not among them; see the notes in the allergen table of the reference data.
    """

    MILK = "milk"
    EGG = "egg"
    FISH = "fish"
    CRUSTACEAN_SHELLFISH = "crustacean_shellfish"
    TREE_NUTS = "tree_nuts"
    PEANUTS = "peanuts"
    WHEAT = "wheat"
    SOYBEANS = "soybeans"
    SESAME = "sesame"

    @property
    def words(self) -> str:
        """The allergen as a label names it."""
        return self.value.replace("_", " ")


@dataclass(frozen=True, slots=True)
class FoodFacts:
    """As much of one food as a caution needs to know; unknown is None or empty, never zero."""

    group: FoodGroup | None
    food_class: FoodClass
    preparation: Preparation
    fat_of_solids: Fraction | None = None
    """Fat as a share of the dry solids, 0 to 1."""
    sugars_of_solids: Fraction | None = None
    """Sugars as a share of the dry solids, 0 to 1."""
    acid: bool | None = None
    """True for pH 4.6 or below; None leaves it to the food class."""
    allergens: tuple[Allergen, ...] = ()
    check_ingredients: bool = False
    """True where the allergens depend on what went into it."""
