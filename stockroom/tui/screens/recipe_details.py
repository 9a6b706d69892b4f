"""The form for what more can be said of a recipe: its water, its cooking step, its fresh items."""

from __future__ import annotations

from dataclasses import replace

from stockroom.domain.cooking import Occasion
from stockroom.domain.quantities import (
    UnitSystem,
    read_temperature,
    read_weight,
    read_whole,
    show_temperature,
    show_weight,
)
from stockroom.errors import BadInput
from stockroom.services.recipes import COLDEST_WATER_DC, HOTTEST_WATER_DC, MOST_KCAL
from stockroom.services.session import Stockroom
from stockroom.tui.screens.cook_forms import read_cook_to
from stockroom.tui.screens.food_forms import NONE, among, read_allergens
from stockroom.tui.screens.recipe_draft import Draft
from stockroom.tui.screens.run_forms import unit_word
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

WATER_AT = "water temperature"

OCCASIONS = (
    Choice(Occasion.BREAKFAST.value, "breakfast"),
    Choice(Occasion.MAIN.value, "main", "a main dish"),
    Choice(Occasion.EXTRA.value, "extra", "beside a main dish, or between meals"),
)


def details_form(room: Stockroom, draft: Draft) -> FormScreen[Draft]:
    """Asks for all of it; closes with the draft so changed.

    What is left as it stood is not read again, so that no rounding creeps in.
    """
    units = room.units
    before = _texts(draft, units)

    def change(answers: Answers) -> Draft:
        occasion = answers.key("occasion")
        changed = replace(
            draft,
            hold_back_percent=read_whole(answers.text("held"), "hold back", 0, 100),
            occasion=Occasion(str(occasion)) if occasion else draft.occasion,
            origin=answers.text("origin").strip(),
        )
        said = {name: answers.text(name).strip() for name in before}
        touched = {name: text for name, text in said.items() if text != before[name]}
        return _with_touched(changed, touched, units)

    return FormScreen("More about it", _fields(draft, before, units), change)


def _texts(draft: Draft, units: UnitSystem) -> dict[str, str]:
    """What stands in the fields that are read only when they were touched."""
    protein_dg = draft.fresh_protein_dg
    return {
        "cooked": _degrees(draft.cook_to_dc, units),
        "warm": _degrees(draft.water_temperature_dc, units),
        "kcal": "" if draft.fresh_kcal is None else str(draft.fresh_kcal),
        "protein": "" if protein_dg is None else show_weight(protein_dg, units),
        "allergens": ", ".join(one.words for one in draft.allergens) or NONE,
    }


def _degrees(temperature_dc: int | None, units: UnitSystem) -> str:
    return "" if temperature_dc is None else show_temperature(temperature_dc, units)


def _with_touched(draft: Draft, touched: dict[str, str], units: UnitSystem) -> Draft:
    """The draft with each field that was changed, read. Raises BadInput."""
    for name, typed in touched.items():
        if name == "cooked":
            draft = replace(draft, cook_to_dc=read_cook_to(typed, units) if typed else None)
        elif name == "warm":
            read = _read_water_at(typed, units) if typed else None
            draft = replace(draft, water_temperature_dc=read)
        elif name == "kcal":
            kcal = read_whole(typed, name, 0, MOST_KCAL) if typed else None
            draft = replace(draft, fresh_kcal=kcal)
        elif name == "protein":
            protein_dg = read_weight(typed, units, name) if typed else None
            draft = replace(draft, fresh_protein_dg=protein_dg)
        else:
            draft = replace(draft, allergens=read_allergens(typed) if typed else ())
    return draft


def _read_water_at(typed: str, units: UnitSystem) -> int:
    """How warm the water is, tenths of a degree Celsius. Raises BadInput."""
    temperature_dc = read_temperature(typed, units, WATER_AT)
    if not COLDEST_WATER_DC <= temperature_dc <= HOTTEST_WATER_DC:
        raise BadInput(WATER_AT, typed, "a temperature from 4 to 100 °C (39 to 212 °F)")
    return temperature_dc


def _fields(draft: Draft, before: dict[str, str], units: UnitSystem) -> tuple[Field, ...]:
    """The fields in the order they are asked in."""
    occasion = next(one for one in OCCASIONS if one.key == draft.occasion)
    held = str(draft.hold_back_percent)
    return (
        Field("cooked", "Cooked to", before["cooked"],
              hint="In the middle; empty: no cooking step."),
        Field("held", "Hold back", held, unit="%", restrict=DIGITS,
              hint="Of the water, until it was tasted."),
        Field("warm", "Water at", before["warm"], answers_to=(WATER_AT,),
              hint="How warm the water is; empty: 20 °C."),
        Picker("occasion", "Cooked as", among(OCCASIONS), occasion,
               hint="breakfast, main or extra"),
        Field("allergens", "Allergens", before["allergens"],
              hint="Of the fresh items: milk …; or none."),
        Field("kcal", "Energy", before["kcal"], unit="kcal", restrict=DIGITS,
              hint="Of the fresh items, for all it serves."),
        Field("protein", "Protein", before["protein"], unit=unit_word(units),
              hint="Of the fresh items, for all it serves."),
        Field("origin", "Where from", draft.origin, hint="A book, a page, a person."),
    )  # fmt: skip


def draft_texts(draft: Draft, units: UnitSystem) -> str:
    """The same in one line, as it stands under the name: the cooking step first."""
    cooked = (
        "No cooking step"
        if draft.cook_to_dc is None
        else f"Cooked to {show_temperature(draft.cook_to_dc, units)}"
    )
    parts = [cooked, f"holds back {draft.hold_back_percent} %", str(draft.occasion)]
    if draft.allergens:
        parts.append(f"fresh items bring {', '.join(one.words for one in draft.allergens)}")
    return " · ".join(parts)
