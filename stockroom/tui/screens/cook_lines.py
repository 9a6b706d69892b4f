"""The cook sheet in words: what to fetch from where, the water, and what to bear in mind.

Full restoration of the water is an upper bound: freeze-dried fruit took back up to about 90 % of
it (Journal of Food Engineering 72(1):16-23, 2006; published). To start with two thirds to three
quarters and add to taste is engineering judgement.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from stockroom.domain.cooking import Basis, CookLine, CookPlan, FreshNeed
from stockroom.domain.foods import Allergen
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, nearest_whole, show_servings, show_weight
from stockroom.domain.records import Package
from stockroom.domain.rotation import Pick
from stockroom.domain.water import show_water
from stockroom.services.results import CookSheet
from stockroom.tui.screens.windows import caution_text, source_text
from stockroom.tui.words import NO_PLACE, counted

Look = Literal["plain", "title", "quiet", "caution", "alarm"]

START_LOW = Fraction(2, 3)
START_HIGH = Fraction(3, 4)
LARGEST_PART = 8
"""Parts down to eighths are written as fractions: what spoons and cups are marked with."""

CLOSE_ENOUGH = Fraction(1, 1000)
"""Amounts are kept in thousandths, so a third is 333 of them."""

UPPER_BOUND = "The full amount is an upper bound"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the sheet and how it is drawn; `indent` cells stand before it."""

    text: str
    look: Look = "plain"
    indent: int = 0


def sheet_lines(sheet: CookSheet, packages: Mapping[int, Package], units: UnitSystem) -> list[Line]:
    """The whole sheet. `packages` are the picked ones by id, for where they stand."""
    plan = sheet.plan
    return [
        *first_lines(sheet),
        *short_lines(plan, units),
        *pick_lines(plan, packages, units),
        *water_lines(plan, units),
        *fresh_lines(plan.fresh),
        *care_lines(sheet),
        *step_lines(sheet.recipe.steps),
    ]


def short_lines(plan: CookPlan, units: UnitSystem) -> list[Line]:
    """What the shelves do not have, first of all."""
    if not plan.short:
        return []
    found = [Line(f"! {short_text(line, units)}", "alarm", 2) for line in plan.short]
    return [Line("Short", "title"), *found]


def short_text(line: CookLine, units: UnitSystem) -> str:
    """One shortfall in the way the recipe counts."""
    kind = "dry" if line.need.basis is Basis.DRY else "fresh equivalent"
    servings = line.shortfall_servings
    also = "" if servings is None else f" ({show_servings(servings)} servings)"
    weight = show_weight(line.shortfall_dg, units)
    return f"{line.need.food_name}: {weight} {kind}{also} missing"


def pick_lines(plan: CookPlan, packages: Mapping[int, Package], units: UnitSystem) -> list[Line]:
    """The packages to fetch, place by place."""
    picks = [(line.need.food_name, pick) for line in plan.lines for pick in line.picks]
    if not picks:
        text = "Nothing of it is on the shelves." if plan.lines else "Nothing from the shelves."
        return [Line("Take from the shelves", "title"), Line(text, "quiet", 2)]
    by_place: dict[str, list[tuple[str, Pick]]] = {}
    for food, pick in picks:
        place = packages[pick.candidate.package_id].place or NO_PLACE
        by_place.setdefault(place, []).append((food, pick))
    lines = [Line("Take from the shelves", "title")]
    for place in sorted(by_place, key=str.casefold):
        lines.append(Line(place, "quiet", 2))
        lines += [Line(pick_text(food, pick, units), indent=4) for food, pick in by_place[place]]
    return lines


def pick_text(food: str, pick: Pick, units: UnitSystem) -> str:
    """One package to take from: all of what is in it, or so much of it."""
    weight = show_weight(pick.take_dg, units)
    if pick.finishes:
        return f"{pick.candidate.code}  all {weight} dry · {food}"
    whole = show_weight(pick.candidate.available_dg, units)
    return f"{pick.candidate.code}  {weight} dry of {whole} · {food}"


def water_lines(plan: CookPlan, units: UnitSystem) -> list[Line]:
    """The water of each food, both sums, and how to begin."""
    if not plan.lines and not plan.cooking_water_dg:
        return []
    lines = [Line("Water to add back", "title")]
    lines += [
        Line(f"{line.need.food_name} ({show_weight(line.dry_dg, units)} dry):"
             f" {show_water(line.water_dg)}", indent=2)
        for line in plan.lines
        if line.dry_dg
    ]  # fmt: skip
    if plan.water_dg:
        low, high = (nearest_whole(plan.water_dg * part) for part in (START_LOW, START_HIGH))
        lines += [
            Line(f"In all: {show_water(plan.water_dg)}", "title", 2),
            Line(
                f"{UPPER_BOUND}: start with two thirds to three quarters"
                f" ({show_weight(low, UnitSystem.METRIC)} to"
                f" {show_weight(high, UnitSystem.METRIC)}) and add to taste"
                " (engineering judgement).",
                "quiet",
                2,
            ),
        ]
    if plan.cooking_water_dg:
        lines.append(Line(f"Cooking water, on top: {show_water(plan.cooking_water_dg)}", indent=2))
    return lines


def fresh_lines(fresh: Sequence[FreshNeed]) -> list[Line]:
    """What is not on the shelves and has to be there too."""
    if not fresh:
        return []
    return [Line("Also needed", "title"), *(Line(fresh_text(one), indent=2) for one in fresh)]


def fresh_text(need: FreshNeed) -> str:
    """A fresh item with its amount before it, if one is said."""
    amount = "" if need.amount is None else show_amount(need.amount)
    return " ".join(word for word in (amount, need.unit or "", need.item) if word)


def show_amount(amount: Fraction) -> str:
    """An amount as cooks write it: "3", "1 1/2", "1/3", else with two decimals."""
    near = amount.limit_denominator(LARGEST_PART)
    if abs(near - amount) > CLOSE_ENOUGH:
        return f"{float(amount):.2f}"
    ones, rest = divmod(near.numerator, near.denominator)
    part = f"{rest}/{near.denominator}" if rest else ""
    return " ".join(word for word in (str(ones) if ones or not rest else "", part) if word)


def first_lines(sheet: CookSheet) -> list[Line]:
    """What must be seen before anything else: raw food, and allergens."""
    allergens = ", ".join(Allergen(one).words for one in sheet.allergens)
    lines = [Line(f"Allergens: {allergens or 'none on record'}")]
    if sheet.ingredients_unknown:
        unknown = ", ".join(sheet.ingredients_unknown)
        lines.append(Line(f"! Check what went into: {unknown}", "caution"))
    return [*(Line(text, "alarm") for text in raw_texts(sheet)), *lines]


def raw_texts(sheet: CookSheet) -> list[str]:
    """The raw foods by name, in one line; none when there are none."""
    return [f"! RAW, cook it: {', '.join(sheet.raw_foods)}"] if sheet.raw_foods else []


def package_texts(sheet: CookSheet) -> list[str]:
    """The packages to look at before they are eaten."""
    found: list[str] = []
    if sheet.unchecked:
        codes = counted(len(sheet.unchecked), "package")
        found.append(f"! {codes} not settle-checked yet: {', '.join(sheet.unchecked)}")
    if sheet.past_best_by:
        codes = ", ".join(sheet.past_best_by)
        found.append(f"! Past best-by ({QUALITY_NOT_SAFETY}): {codes}")
    return found


def care_lines(sheet: CookSheet) -> list[Line]:
    """Packages to look at, and the cautions with their sources."""
    lines = [Line("Bear in mind", "title")]
    lines += [Line(text, "caution", 2) for text in package_texts(sheet)]
    for caution in sheet.cautions:
        lines += [Line(caution_text(caution), "caution", 2), Line(source_text(caution), "quiet", 4)]
    return lines


def step_lines(steps: str) -> list[Line]:
    """The steps of the recipe as they were typed."""
    typed = [line for line in steps.splitlines() if line.strip()]
    return [Line("Steps", "title"), *(Line(line, indent=2) for line in typed)] if typed else []
