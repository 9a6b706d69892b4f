"""The fat rule: how a food keeps follows the fat of its dry solids, not its name.

No published cut-off for home freeze-drying is known; the limits are engineering judgement. From
15 % of the solids the lives and the oxygen tolerance of fatty dairy hold it back (2 years sealed
in the middle), above 35 % those of nuts (1 year). A lean result never lengthens a life.
"""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.keeping.interface import FoodClass

FAT_CAUTION = Fraction(5, 100)
FAT_POOR = Fraction(15, 100)
FAT_NOT_FOR_STORAGE = Fraction(35, 100)


def class_by_fat(food_class: FoodClass, fat_of_solids: Fraction | None) -> FoodClass:
    """The class whose lives hold the food back: its own, or a fatty one."""
    if fat_of_solids is None or fat_of_solids < FAT_POOR:
        return food_class
    if fat_of_solids > FAT_NOT_FOR_STORAGE:
        return FoodClass.NUTS
    return FoodClass.FATTY_DAIRY


def fat_words(fat_of_solids: Fraction) -> str:
    """What the fat of the solids says, for the working."""
    if fat_of_solids > FAT_NOT_FOR_STORAGE:
        return "above 35 %: not for long storage"
    if fat_of_solids >= FAT_POOR:
        return "15 to 35 %: a poor candidate"
    if fat_of_solids >= FAT_CAUTION:
        return "5 to 15 %: remove the oxygen"
    return "below 5 %: nothing to do"


def fat_caution(fat_of_solids: Fraction | None) -> str | None:
    """The caution that goes with it; None where there is none."""
    if fat_of_solids is None or fat_of_solids < FAT_CAUTION:
        return None
    if fat_of_solids > FAT_NOT_FOR_STORAGE:
        return "Fatty food goes rancid: use it first, and keep it cold if you can."
    if fat_of_solids >= FAT_POOR:
        return "Fatty food goes rancid sooner than its kind: plan to use it early."
    return "Some fat: keep its oxygen away, or it goes rancid."
