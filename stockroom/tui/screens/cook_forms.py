"""What is asked on the cook sheet: how many servings, and what raw food is cooked to."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.quantities import (
    UnitSystem,
    read_servings,
    read_temperature,
    show_temperature,
)
from stockroom.domain.safe_cooking import RawCheck
from stockroom.errors import BadInput
from stockroom.services.kitchen import MOST_PEOPLE
from stockroom.services.recipes import LEAST_COOK_TO_DC, MOST_COOK_TO_DC
from stockroom.tui.screens.cook_lines import show_amount
from stockroom.tui.screens.cook_order import Order
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen

COOKED_TO = "cooked to"

PARTS = r"[-+0-9., /]*"
"""What the field for servings lets through: numbers and their parts, as 2 1/2."""


@dataclass(frozen=True, slots=True)
class ServingsAnswer:
    """The servings that were typed; None for one for each person."""

    servings: Fraction | None


def servings_form(order: Order, serves: int) -> FormScreen[ServingsAnswer]:
    """Asks for how many servings; `serves` is what the recipe is written for."""

    def read(answers: Answers) -> ServingsAnswer:
        typed = answers.text("servings").strip()
        return ServingsAnswer(_read_servings(typed) if typed else None)

    before = "" if order.servings is None else show_amount(order.servings)
    field = Field(
        "servings", "Servings", before, restrict=PARTS,
        hint="Such as 6 or 2 1/2; empty: one for each person.",
    )  # fmt: skip
    about = f"The recipe is written for {serves}."
    return FormScreen(f"Servings of {order.recipe}", (field,), read, about=(about,))


def _read_servings(typed: str) -> Fraction:
    """Servings a dish can be made of. Raises BadInput."""
    servings = read_servings(typed)
    if servings > MOST_PEOPLE:
        raise BadInput("servings", typed, f"a number above 0, up to {MOST_PEOPLE}")
    return servings


def heat_form(order: Order, raw: RawCheck, units: UnitSystem) -> FormScreen[int]:
    """Asks what the dish is cooked to this once; closes with tenths of a degree Celsius."""

    def read(answers: Answers) -> int:
        return read_cook_to(answers.text("cooked"), units)

    before = "" if raw.cook_to_dc is None else show_temperature(raw.cook_to_dc, units)
    names = ", ".join(food.name for food in raw.foods)
    about = [f"Raw: {names}."]
    if raw.least is not None:
        about += [f"It needs {raw.least.words} or more.", raw.least.source.words]
    field = Field("cooked", "Cooked to", before, hint="By a thermometer in the middle.")
    return FormScreen(f"What is {order.recipe} cooked to?", (field,), read, about=about)


def read_cook_to(typed: str, units: UnitSystem) -> int:
    """The temperature of a cooking step, tenths of a degree Celsius. Raises BadInput."""
    temperature_dc = read_temperature(typed, units, COOKED_TO)
    if not LEAST_COOK_TO_DC <= temperature_dc <= MOST_COOK_TO_DC:
        raise BadInput(COOKED_TO, typed, "a temperature from 30 to 150 °C (86 to 302 °F)")
    return temperature_dc
