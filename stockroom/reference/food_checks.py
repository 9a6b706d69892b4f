"""Checks of the shipped food table: findings, not exceptions, so one bad row hides no other.

- Mass balance: water, protein, fat, ash and carbohydrate are the whole food, so they add up to
  100 g within 1.5 g (rounding and analysis of each part; engineering judgement).
- Energy: 4 kcal per g of protein, 9 of fat, 4 of carbohydrate but 2 of its fibre, within 12 %
  of the stated energy. The source works with factors of its own for each kind of food, so a few
  low-energy foods stand further off: they are named in data/energy_exceptions.csv with those
  factors, and must agree with them within 6 % instead.
- Text: five digits for every database number; fibre and sugars no more than the carbohydrate.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from stockroom.reference.foods import WHOLE_CG, ReferenceFood, foods
from stockroom.reference.tables import Row, exact, read_table

# Engineering judgement, all three.
MASS_TOLERANCE_CG = 150
ENERGY_TOLERANCE = Fraction(12, 100)
EXCEPTION_TOLERANCE = Fraction(6, 100)
# Whole kilocalories are printed, so half of one is no disagreement.
ENERGY_ROUNDING_KCAL = Fraction(1, 2)
# Rounding of two figures to hundredths of a gram, and sugars measured apart from carbohydrate
# by difference: a part may exceed the whole by this much.
PART_TOLERANCE_CG = 35


@dataclass(frozen=True, slots=True)
class FoodFinding:
    """One thing wrong with one row of the food table."""

    food_key: str
    message: str


@dataclass(frozen=True, slots=True)
class EnergyException:
    """A food whose stated energy follows factors of its own, kcal per gram."""

    food_key: str
    reason: str
    protein: Fraction
    fat: Fraction
    carbohydrate: Fraction


@cache
def energy_exceptions() -> tuple[EnergyException, ...]:
    """The named exceptions to the general energy factors."""
    return tuple(_exception(row) for row in read_table("energy_exceptions"))


def mass_balance_cg(food: ReferenceFood) -> int:
    """What the parts of 100 g add up to, centigrams."""
    return food.water_cg + food.protein_cg + food.fat_cg + food.ash_cg + food.carbohydrate_cg


def general_energy_kcal(food: ReferenceFood) -> Fraction:
    """Energy of 100 g by 4-9-4 with fibre at 2 kcal/g; fibre not reported counts as none."""
    fibre = food.fibre_cg or 0
    parts = 4 * food.protein_cg + 9 * food.fat_cg + 4 * (food.carbohydrate_cg - fibre) + 2 * fibre
    return Fraction(parts, 100)


def check_foods(table: Iterable[ReferenceFood] | None = None) -> tuple[FoodFinding, ...]:
    """Every finding in the table (the shipped one when none is given); () when it is sound."""
    checked = foods().values() if table is None else table
    own_factors = {one.food_key: one for one in energy_exceptions()}
    findings: list[FoodFinding] = []
    for food in checked:
        messages = (*_mass(food), *_energy(food, own_factors.get(food.key)), *_text(food))
        findings.extend(FoodFinding(food.key, message) for message in messages)
    return tuple(findings)


def _mass(food: ReferenceFood) -> tuple[str, ...]:
    """Whether the parts add up to the whole."""
    total = mass_balance_cg(food)
    if abs(total - WHOLE_CG) <= MASS_TOLERANCE_CG:
        return ()
    return (f"its parts add up to {total / 100:.2f} g, not 100 g",)


def _energy(food: ReferenceFood, own: EnergyException | None) -> tuple[str, ...]:
    """Whether the stated energy fits the composition."""
    stated = Fraction(food.energy_tenth_kcal, 10)
    expected, tolerance = general_energy_kcal(food), ENERGY_TOLERANCE
    if own is not None:
        tolerance = EXCEPTION_TOLERANCE
        parts = own.protein * food.protein_cg + own.fat * food.fat_cg
        expected = (parts + own.carbohydrate * food.carbohydrate_cg) / 100
    if abs(expected - stated) <= max(stated * tolerance, ENERGY_ROUNDING_KCAL):
        return ()
    return (f"its energy is {float(stated):.1f} kcal, its parts give {float(expected):.1f}",)


def _text(food: ReferenceFood) -> tuple[str, ...]:
    """Whether the number kept its zeros and no part is larger than its whole."""
    found: list[str] = []
    if len(food.ndb_no) != 5 or not food.ndb_no.isdecimal():
        found.append(f"its database number is “{food.ndb_no}”, not five digits")
    for what, part in (("fibre", food.fibre_cg), ("sugars", food.sugars_cg)):
        if part is not None and part > food.carbohydrate_cg + PART_TOLERANCE_CG:
            found.append(f"it has more {what} than carbohydrate")
    return tuple(found)


def _exception(row: Row) -> EnergyException:
    """One row of the exceptions."""
    table = "energy_exceptions"
    return EnergyException(
        row["food_key"],
        row["reason"],
        exact(table, row, "protein_kcal_per_g"),
        exact(table, row, "fat_kcal_per_g"),
        exact(table, row, "carbohydrate_kcal_per_g"),
    )
