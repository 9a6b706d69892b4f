"""Foods and their composition per 100 g as eaten fresh, from data/foods.csv.

The figures are those of the USDA National Nutrient Database for Standard Reference, Release 28
(public domain). They are a starting point, never proof of dryness: the household's own lots
override them. Weights are whole centigrams (hundredths of a gram) per 100 g, energy is
tenths of a kilocalorie (the unit of the household's own foods), and a figure the source does not
report is None, never zero. Database numbers are text: their leading zeros count.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from stockroom.domain.foods import FoodFacts, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.working import Source
from stockroom.errors import NotFound
from stockroom.reference.allergens import AllergenNote, allergens_for
from stockroom.reference.servings import ServingSize, serving_for
from stockroom.reference.sources import source_of
from stockroom.reference.tables import ReferenceDamaged, Row, read_table, whole, whole_or_none

WHOLE_CG = 10_000
"""Centigrams in the 100 g every composition figure is stated for."""


@dataclass(frozen=True, slots=True)
class ReferenceFood:
    """One food of the shipped table, fresh or as cooked, per 100 g."""

    key: str
    name: str
    group: FoodGroup
    food_class: FoodClass
    preparation: Preparation
    ndb_no: str
    """Five digits of text, leading zeros kept."""
    title: str
    """The description in the source, as printed there."""
    water_cg: int
    energy_tenth_kcal: int
    protein_cg: int
    fat_cg: int
    ash_cg: int
    carbohydrate_cg: int
    """By difference, fibre included."""
    fibre_cg: int | None
    sugars_cg: int | None
    source: Source
    serving: ServingSize
    allergens: AllergenNote
    low_acid_fruit: bool
    """A fruit that is not acid enough to count as one: it is cautioned like a vegetable."""

    @property
    def water_fraction(self) -> Fraction:
        """Water as a share of the food as eaten fresh, 0 to 1, exact."""
        return Fraction(self.water_cg, WHOLE_CG)

    @property
    def fat_of_solids(self) -> Fraction:
        """Fat as a share of the dry solids, 0 to 1: what decides how a dry food keeps."""
        return Fraction(self.fat_cg, WHOLE_CG - self.water_cg)

    @property
    def sugars_of_solids(self) -> Fraction | None:
        """Sugars as a share of the dry solids, 0 to 1; None where not reported."""
        if self.sugars_cg is None:
            return None
        return Fraction(self.sugars_cg, WHOLE_CG - self.water_cg)

    @property
    def facts(self) -> FoodFacts:
        """As much of this food as the cautions need."""
        return FoodFacts(
            self.group,
            self.food_class,
            self.preparation,
            self.fat_of_solids,
            self.sugars_of_solids,
            False if self.low_acid_fruit else None,
            self.allergens.allergens,
            self.allergens.check_ingredients,
        )


@cache
def foods() -> Mapping[str, ReferenceFood]:
    """Every food by its key, in the order of the file."""
    found: dict[str, ReferenceFood] = {}
    for row in read_table("foods"):
        if row["key"] in found:
            raise ReferenceDamaged("foods", f"the key {row['key']} stands there twice")
        found[row["key"]] = _food(row)
    return MappingProxyType(found)


def food(key: str) -> ReferenceFood:
    """The food of this key. Raises NotFound with the nearest keys."""
    found = foods().get(key)
    if found is None:
        raise NotFound("food", key, get_close_matches(key, foods(), n=3, cutoff=0.5))
    return found


def _food(row: Row) -> ReferenceFood:
    """One row, joined with its default serving and its allergens."""
    table = "foods"
    group, preparation = FoodGroup(row["group"]), Preparation(row["preparation"])
    return ReferenceFood(
        row["key"],
        row["name"],
        group,
        FoodClass(row["food_class"]),
        preparation,
        row["ndb_no"],
        row["title"],
        whole(table, row, "water_cg"),
        whole(table, row, "energy_tenth_kcal"),
        whole(table, row, "protein_cg"),
        whole(table, row, "fat_cg"),
        whole(table, row, "ash_cg"),
        whole(table, row, "carbohydrate_cg"),
        whole_or_none(table, row, "fibre_cg"),
        whole_or_none(table, row, "sugars_cg"),
        source_of(table, row),
        serving_for(group, preparation, row["key"]),
        allergens_for(row["key"]),
        row["key"] in low_acid_fruit(),
    )


@cache
def low_acid_fruit() -> frozenset[str]:
    """Keys of the fruits whose pH passes 4.6."""
    return frozenset(row["food_key"] for row in read_table("low_acid_fruit"))
