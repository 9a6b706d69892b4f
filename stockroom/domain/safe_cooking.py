"""The least temperature raw food is cooked to, in the middle of it.

Figures of the USDA Food Safety and Inspection Service (published): whole cuts of beef, pork, lamb
and veal 145 °F with 3 minutes of rest, minced meat and egg dishes 160 °F, fish 145 °F, poultry,
mixed dishes and reheating 165 °F. A lot does not say whether its meat was minced, so raw meat
counts as minced. For every other raw food 165 °F: a rule chosen for this program, engineering
judgement.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stockroom.domain.caution_sources import FSIS_COOK, OUR_CHOICE
from stockroom.domain.foods import FoodGroup
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.units import celsius, fahrenheit
from stockroom.domain.working import Source
from stockroom.errors import Refused


@dataclass(frozen=True, slots=True)
class LeastTemperature:
    """A least temperature in the middle of the food, with the minutes it rests after."""

    fahrenheit: int
    rest_minutes: int
    source: Source

    @property
    def temperature_dc(self) -> int:
        """Tenths of a degree Celsius, the nearest: what a person reads off a thermometer."""
        return nearest_whole(celsius(self.fahrenheit) * 10)

    @property
    def words(self) -> str:
        """Both scales and the rest: "145 °F (62.8 °C) and 3 minutes of rest"."""
        rest = f" and {self.rest_minutes} minutes of rest" if self.rest_minutes else ""
        return f"{self.fahrenheit} °F ({self.temperature_dc / 10:.1f} °C){rest}"


WHOLE_CUTS = LeastTemperature(145, 3, FSIS_COOK)
MINCED_MEAT = LeastTemperature(160, 0, FSIS_COOK)
FISH = LeastTemperature(145, 0, FSIS_COOK)
EGG_DISHES = LeastTemperature(160, 0, FSIS_COOK)
POULTRY = LeastTemperature(165, 0, FSIS_COOK)
MIXED_DISHES = LeastTemperature(165, 0, FSIS_COOK)
REHEATING = LeastTemperature(165, 0, FSIS_COOK)
ANY_OTHER = LeastTemperature(165, 0, OUR_CHOICE)

_OF_GROUP = {
    FoodGroup.MEAT_RAW: MINCED_MEAT,
    FoodGroup.POULTRY: POULTRY,
    FoodGroup.FISH: FISH,
    FoodGroup.EGG: EGG_DISHES,
    FoodGroup.MEAL: MIXED_DISHES,
    FoodGroup.SOUP_SAUCE: MIXED_DISHES,
}


@dataclass(frozen=True, slots=True)
class RawFood:
    """A food of a dish whose packages are raw, and what it is to be cooked to."""

    name: str
    least: LeastTemperature


@dataclass(frozen=True, slots=True)
class RawCheck:
    """The raw food of a dish beside what the dish is cooked to."""

    foods: tuple[RawFood, ...] = ()
    cook_to_dc: int | None = None
    """Tenths of a degree Celsius in the middle; None where it has no cooking step."""

    @property
    def least(self) -> LeastTemperature | None:
        """What all of its raw food needs; None where it has none."""
        return strictest(food.least for food in self.foods) if self.foods else None

    @property
    def passed(self) -> bool:
        """Whether nothing raw is served uncooked. Exactly the least temperature is enough."""
        least = self.least
        return least is None or (
            self.cook_to_dc is not None and self.cook_to_dc >= least.temperature_dc
        )


class RawWithoutCooking(Refused):
    """A dish takes raw food and has no cooking step."""

    def __init__(self, name: str, raw_foods: Sequence[RawFood]) -> None:
        """`name` is the dish."""
        least = strictest(food.least for food in raw_foods)
        super().__init__(
            f"{name} takes raw food ({_names(raw_foods)}) and has no cooking step.",
            f"Say what it is cooked to in the middle: {least.words} or more.",
        )


class CookedTooLittle(Refused):
    """A dish with raw food is not cooked hot enough."""

    def __init__(self, name: str, raw_foods: Sequence[RawFood], cook_to_dc: int) -> None:
        """`name` is the dish, `cook_to_dc` what it is to be cooked to."""
        least = strictest(food.least for food in raw_foods)
        degrees = f"{fahrenheit(cook_to_dc / 10):.1f}".removesuffix(".0")
        said = f"{degrees} °F ({cook_to_dc / 10:.1f} °C)"
        super().__init__(
            f"{name} is cooked to {said}; its raw food ({_names(raw_foods)}) needs {least.words}.",
            f"Cook it to {least.words} or more in the middle, and say so.",
        )


def least_for_raw(group: FoodGroup) -> LeastTemperature:
    """What raw food of a group is cooked to: the strictest its group may need."""
    return _OF_GROUP.get(group, ANY_OTHER)


def strictest(temperatures: Iterable[LeastTemperature]) -> LeastTemperature:
    """The hottest of some; of equal ones the first. At least one is given."""
    return max(temperatures, key=lambda least: least.fahrenheit)


def heat_of(check: RawCheck, *, reheated: bool) -> LeastTemperature | None:
    """What a dish is heated to: the strictest of its raw food and of the cooked food in it.

    None where neither is in it.
    """
    reasons = [one for one in (check.least, REHEATING if reheated else None) if one is not None]
    return strictest(reasons) if reasons else None


def refuse_uncooked(name: str, check: RawCheck) -> None:
    """Refuse a dish that would serve raw food uncooked; one without raw food passes.

    Raises RawWithoutCooking, CookedTooLittle.
    """
    if check.passed:
        return
    if check.cook_to_dc is None:
        raise RawWithoutCooking(name, check.foods)
    raise CookedTooLittle(name, check.foods, check.cook_to_dc)


def _names(raw_foods: Sequence[RawFood]) -> str:
    """The names of foods in one line."""
    return ", ".join(food.name for food in raw_foods)
