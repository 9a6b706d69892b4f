"""A recipe while it is being written: nothing of it is in the record until it is saved."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.quantities import UnitSystem, show_weight, to_dg
from stockroom.domain.records import RecipeLine, RecipeRecord
from stockroom.services import kitchen
from stockroom.services.kitchen import LineRequest
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.cook_lines import show_amount


@dataclass(frozen=True, slots=True)
class Draft:
    """What is written so far. `original` is the name in the record, "" for a new recipe."""

    original: str = ""
    name: str = ""
    serves: int = 0
    cooking_water_dg: int = 0
    steps: str = ""
    lines: tuple[LineRequest, ...] = ()

    @property
    def is_new(self) -> bool:
        """Whether the record does not have it yet."""
        return not self.original


def draft_of(recipe: RecipeRecord) -> Draft:
    """A recipe of the record, to be changed."""
    return Draft(
        recipe.name,
        recipe.name,
        recipe.serves,
        recipe.cooking_water_dg,
        recipe.steps,
        tuple(request_of(line) for line in recipe.lines),
    )


def request_of(line: RecipeLine) -> LineRequest:
    """A line of the record as a person would say it."""
    if line.food is None:
        thousandths = line.amount_thousandths
        amount = None if thousandths is None else Fraction(thousandths, 1000)
        return LineRequest(item=line.item, amount=amount, unit=line.unit)
    basis = Basis(line.basis or Basis.FRESH)
    if basis is Basis.SERVINGS:
        return LineRequest(line.food, basis, amount=Fraction(line.servings_hundredths or 0, 100))
    return LineRequest(line.food, basis, amount=Fraction(line.weight_dg or 0, 10))


def amount_text(line: LineRequest, units: UnitSystem) -> str:
    """The amount of a line as it reads in the list."""
    if line.food is None:
        amount = "" if line.amount is None else show_amount(line.amount)
        return " ".join(word for word in (amount, line.unit or "") if word) or "some"
    amount = line.amount or Fraction(0)
    if line.basis is Basis.SERVINGS:
        return f"{show_amount(amount)} {'serving' if amount == 1 else 'servings'}"
    return f"{show_weight(to_dg(amount), units)} {'dry' if line.basis is Basis.DRY else 'fresh'}"


def save(room: Stockroom, draft: Draft) -> Done:
    """Write the draft into the record, in one action. Raises what the kitchen raises."""
    if draft.is_new:
        return kitchen.add_recipe(
            room,
            draft.name,
            draft.serves,
            draft.lines,
            cooking_water_dg=draft.cooking_water_dg,
            steps=draft.steps,
        )
    return kitchen.change_recipe(
        room,
        draft.original,
        new_name=draft.name,
        serves=draft.serves,
        lines=draft.lines,
        cooking_water_dg=draft.cooking_water_dg,
        steps=draft.steps,
    )
