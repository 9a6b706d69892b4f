"""A recipe while it is being written: nothing of it is in the record until it is saved."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.foods import Allergen
from stockroom.domain.quantities import UnitSystem, show_weight, to_dg
from stockroom.domain.records import RecipeLine, RecipeRecord
from stockroom.domain.water_share import HOLD_BACK_PERCENT
from stockroom.services import kitchen
from stockroom.services.kitchen import Clear, LineRequest, RecipeDetails
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
    hold_back_percent: int = HOLD_BACK_PERCENT
    cook_to_dc: int | None = None
    """What it is cooked to in the middle; None without a cooking step."""
    water_temperature_dc: int | None = None
    occasion: Occasion = Occasion.MAIN
    fresh_kcal: int | None = None
    fresh_protein_dg: int | None = None
    origin: str = ""
    allergens: tuple[Allergen, ...] = ()
    """Of the fresh items: those of stored foods stand with the foods."""

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
        recipe.hold_back_percent,
        recipe.cook_to_dc,
        recipe.water_temperature_dc,
        Occasion(recipe.occasion),
        recipe.fresh_kcal,
        recipe.fresh_protein_dg,
        recipe.origin,
        tuple(Allergen(one) for one in recipe.allergens),
    )


def request_of(line: RecipeLine) -> LineRequest:
    """A line of the record as a person would say it."""
    if line.food is None:
        thousandths = line.amount_thousandths
        amount = None if thousandths is None else Fraction(thousandths, 1000)
        return LineRequest(item=line.item, amount=amount, unit=line.unit)
    basis = Basis(line.basis or Basis.FRESH)
    amount = Fraction(line.weight_dg or 0, 10)
    if basis is Basis.SERVINGS:
        amount = Fraction(line.servings_hundredths or 0, 100)
    if basis is Basis.MEASURE:
        amount = Fraction(line.amount_thousandths or 0, 1000)
    held = line.hold_back_percent
    return LineRequest(line.food, basis, None, amount, line.unit, held)


def amount_text(line: LineRequest, units: UnitSystem) -> str:
    """The amount of a line as it reads in the list."""
    if line.food is None:
        amount = "" if line.amount is None else show_amount(line.amount)
        return " ".join(word for word in (amount, line.unit or "") if word) or "some"
    amount = line.amount or Fraction(0)
    if line.basis is Basis.MEASURE:
        return f"{show_amount(amount)} {line.unit}"
    if line.basis is Basis.SERVINGS:
        return f"{show_amount(amount)} {'serving' if amount == 1 else 'servings'}"
    return f"{show_weight(to_dg(amount), units)} {'dry' if line.basis is Basis.DRY else 'fresh'}"


def held_text(line: LineRequest) -> str:
    """The line's own share of water to hold back, as the list shows it; "" for the recipe's."""
    return "" if line.hold_back_percent is None else f"{line.hold_back_percent} %"


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
            **_details(draft),
        )
    return kitchen.change_recipe(
        room,
        draft.original,
        new_name=draft.name,
        serves=draft.serves,
        lines=draft.lines,
        cooking_water_dg=draft.cooking_water_dg,
        steps=draft.steps,
        clear=_cleared(draft),
        **_details(draft),
    )


def _details(draft: Draft) -> RecipeDetails:
    """What more the draft says."""
    return RecipeDetails(
        hold_back_percent=draft.hold_back_percent,
        cook_to_dc=draft.cook_to_dc,
        water_temperature_dc=draft.water_temperature_dc,
        occasion=draft.occasion,
        fresh_kcal=draft.fresh_kcal,
        fresh_protein_dg=draft.fresh_protein_dg,
        origin=draft.origin,
        allergens=draft.allergens,
    )


def _cleared(draft: Draft) -> tuple[Clear, ...]:
    """What the draft is without."""
    said = {
        Clear.COOK_TO: draft.cook_to_dc,
        Clear.WATER_TEMPERATURE: draft.water_temperature_dc,
        Clear.FRESH_KCAL: draft.fresh_kcal,
        Clear.FRESH_PROTEIN: draft.fresh_protein_dg,
    }
    return tuple(key for key, value in said.items() if value is None)
