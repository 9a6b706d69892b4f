"""The cook sheet in words: what to fetch from where, the water, and what to bear in mind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from stockroom.domain.cooking import CookLine, CookPlan, FreshNeed
from stockroom.domain.foods import Allergen
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_servings, show_temperature, show_weight
from stockroom.domain.records import Package
from stockroom.domain.rotation import Pick
from stockroom.domain.water import show_water
from stockroom.domain.whole_packages import LeftOpen
from stockroom.services.results import CookSheet
from stockroom.tui.screens.cook_look import Line
from stockroom.tui.screens.cook_order import Reading
from stockroom.tui.screens.cook_water import water_lines
from stockroom.tui.screens.windows import caution_text, source_text
from stockroom.tui.words import NO_PLACE, counted, long_day

LARGEST_PART = 8
"""Parts down to eighths are written as fractions: what spoons and cups are marked with."""

WHOLE_HINT = "Too little would stay in it to be worth keeping open. f takes it whole."
WHOLE_TAKEN = "f takes this back."
INSTEAD_HINT = "i shows what on the shelves could stand in."

CLOSE_ENOUGH = Fraction(1, 1000)
"""Amounts are kept in thousandths, so a third is 333 of them."""


def sheet_lines(
    reading: Reading, packages: Mapping[int, Package], units: UnitSystem, *, whole: bool
) -> list[Line]:
    """The whole sheet. `packages` are the picked ones by id, for where they stand.

    `whole` says whether packages are taken whole where little would stay in them.
    """
    sheet = reading.sheet
    plan = sheet.plan
    return [
        *first_lines(sheet, units),
        *short_lines(plan, units),
        *pick_lines(plan, packages, units),
        *whole_lines(reading, units, whole=whole),
        *open_lines(sheet.left_open, units),
        *water_lines(plan, units, sheet.way),
        *fresh_lines(plan.fresh),
        *care_lines(sheet),
        *step_lines(sheet.recipe.steps),
    ]


def short_lines(plan: CookPlan, units: UnitSystem) -> list[Line]:
    """What the shelves do not have, first of all."""
    if not plan.short:
        return []
    found = [Line(f"! {short_text(line, units)}", "alarm", 2) for line in plan.short]
    return [Line("Short", "title"), *found, Line(INSTEAD_HINT, "quiet", 2)]


def short_text(line: CookLine, units: UnitSystem) -> str:
    """One shortfall in the way the recipe counts."""
    kind = "dry" if line.need.counts_dry else "fresh equivalent"
    servings = line.shortfall_servings
    also = "" if servings is None else f" ({show_servings(servings)} servings)"
    weight = show_weight(line.shortfall_dg, units)
    return f"{line.need.food_name}: {weight} {kind}{also} missing"


def pick_lines(plan: CookPlan, packages: Mapping[int, Package], units: UnitSystem) -> list[Line]:
    """The packages to fetch, place by place."""
    picks = [(food_words(line), pick) for line in plan.lines for pick in line.picks]
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


def food_words(line: CookLine) -> str:
    """The food of a line, and what it stands in for."""
    need = line.need
    return f"{need.food_name} instead of {need.instead_of}" if need.instead_of else need.food_name


def whole_lines(reading: Reading, units: UnitSystem, *, whole: bool) -> list[Line]:
    """The packages in which too little would stay, and what is more when they are taken whole."""
    if not reading.wholes:
        return []
    way = reading.sheet.way
    lines = [Line("Taken whole" if whole else "Better taken whole", "title")]
    for one in reading.wholes:
        more = f"{show_weight(one.more_dg, units)} dry more"
        water = show_water(one.more_water_dg, way.at_c, way.cup)
        lines.append(Line(f"{one.code}  {more}, water {water}", indent=2))
    lines.append(Line(WHOLE_TAKEN if whole else WHOLE_HINT, "quiet", 2))
    return lines


def open_lines(left: Sequence[LeftOpen], units: UnitSystem) -> list[Line]:
    """What stays in opened packages, and until when it is to be used."""
    if not left:
        return []
    lines = [Line("Stays open", "title")]
    for one in left:
        until = f"use by {long_day(one.use_by)}" if one.use_by else f"no day: {one.why_not}"
        rest = f"{show_weight(one.left_dg, units)} dry left"
        lines.append(Line(f"{one.code}  {rest}, {until} · {one.food}", indent=2))
    return [*lines, Line(f"The day is a {QUALITY_NOT_SAFETY}.", "quiet", 2)]


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


def first_lines(sheet: CookSheet, units: UnitSystem) -> list[Line]:
    """What must be seen before anything else: raw food, egg, and allergens."""
    lines = [Line(text, "alarm") for text in raw_texts(sheet, units)]
    if sheet.raw.least is not None:
        lines.append(Line(sheet.raw.least.source.words, "quiet", 2))
    lines += [Line(text, "alarm") for text in egg_texts(sheet)]
    lines.append(Line(allergen_text(sheet)))
    if sheet.ingredients_unknown:
        unknown = ", ".join(sheet.ingredients_unknown)
        lines.append(Line(f"! Check what went into: {unknown}", "caution"))
    return lines


def allergen_text(sheet: CookSheet) -> str:
    """The allergens of the dish, and which of them the fresh items bring."""
    named = ", ".join(Allergen(one).words for one in sheet.allergens) or "none on record"
    fresh = ", ".join(Allergen(one).words for one in sheet.recipe.allergens)
    return f"Allergens: {named} · in the fresh items: {fresh}" if fresh else f"Allergens: {named}"


def raw_texts(sheet: CookSheet, units: UnitSystem) -> list[str]:
    """The raw foods by name, what they are cooked to, and whether it is enough."""
    raw = sheet.raw
    if raw.least is None:
        return []
    names = ", ".join(food.name for food in raw.foods)
    least = f"To {raw.least.words} or more in the middle"
    if raw.cook_to_dc is None:
        status = f"! {least}. The recipe has no cooking step: c says what it is cooked to."
    else:
        said = show_temperature(raw.cook_to_dc, units)
        enough = f"{least}; it is cooked to {said}: hot enough."
        status = enough if raw.passed else f"! {least}; {said} is not hot enough: c changes it."
    return [f"! RAW, cook it: {names}", status]


def egg_texts(sheet: CookSheet) -> list[str]:
    """What is eaten at once, in one line; none when there is none."""
    if not sheet.at_once:
        return []
    return [f"! Egg, eat it at once and keep nothing: {', '.join(sheet.at_once)}"]


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
