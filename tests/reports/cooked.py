"""Samples of the kitchen for reports, made by hand: dishes, meals, recipes and measures."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta, timezone
from fractions import Fraction

from stockroom.domain.caution_table import Caution, Where
from stockroom.domain.cooking import Basis, CookLine, CookPlan, FreshNeed, StoredNeed
from stockroom.domain.dish_facts import DishFacts
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Meal, RecipeLine, RecipeRecord, RecipeSummary
from stockroom.domain.rotation import Candidate, Pick
from stockroom.domain.safe_cooking import ANY_OTHER, MINCED_MEAT, REHEATING, RawCheck, RawFood
from stockroom.domain.substitutes import Substitute, Substitution
from stockroom.domain.units import Cup
from stockroom.domain.water_share import WaterWay
from stockroom.domain.wetted import meal_care
from stockroom.domain.whole_packages import LeftOpen, whole_packages
from stockroom.domain.working import Source, Standing
from stockroom.reports import cooking, kitchen, meals
from stockroom.reports.values import Report
from stockroom.services.results import CookSheet, Done

DAY = date(2026, 11, 25)
AWKWARD = '[/] jar [soft] "7" 冷凍'
STEERING = "=1+1 \x1b[31mred\u202e"

SOURCE = Source("handbook", "Handbook of the pantry, 2020", Standing.PUBLISHED)
TASTE = Caution("taste", (Where.RECHECK,), "Never taste it to find out.", SOURCE, SOURCE.standing)

RECIPE = RecipeRecord(
    1,
    AWKWARD,
    4,
    9_000,
    "Soak.\nSimmer \x1b[2J.",
    (
        RecipeLine(1, 1, AWKWARD, "fresh", 2_400, None, None, None, None),
        RecipeLine(2, 2, "peas", "servings", None, 250, None, None, None),
        RecipeLine(3, None, None, None, None, None, "stock", 500, "cup"),
        RecipeLine(4, None, None, None, None, None, "salt", None, None),
    ),
)

STEW = replace(
    RECIPE,
    name="Stew",
    lines=(
        *RECIPE.lines,
        RecipeLine(5, 3, "beef", "measure", None, None, None, 2_000, "scoop", 20),
    ),
    hold_back_percent=25,
    cook_to_dc=650,
    water_temperature_dc=600,
    occasion="breakfast",
    fresh_kcal=820,
    fresh_protein_dg=245,
    origin=f"the old book {STEERING}",
    allergens=("wheat",),
)
FACTS = DishFacts(
    ("milk", "wheat"), (AWKWARD,), RawCheck((RawFood("beef", MINCED_MEAT),), STEW.cook_to_dc)
)

ONE = Candidate(7, "26329A072", 1, DAY, date(2034, 11, 25), True, 500, 2_726)
TWO = Candidate(8, "26329A08Z", 2, DAY, date(2034, 11, 25), False, 620, 3_380)


def cook_sheet() -> CookSheet:
    """A dish that takes one package, part of another, and is short of a third."""
    picks = (Pick(ONE, 500, 2_726, False, True), Pick(TWO, 560, 3_053, True, False))
    beef = CookLine(StoredNeed(3, "beef", Basis.DRY, 900), (), 0, 0, 900)
    lines = (
        CookLine(StoredNeed(1, AWKWARD, Basis.FRESH, 3_226), picks[:1], 500, 2_726, 0),
        CookLine(
            StoredNeed(2, "peas", Basis.SERVINGS, Fraction(6), 850), picks[1:], 560, 3_053, 1_487
        ),
        beef,
    )
    fresh = (FreshNeed("stock", Fraction(3, 4), "cup"), FreshNeed("salt", None, None))
    plan = CookPlan(AWKWARD, 6, lines, 5_779, 13_500, fresh)
    return CookSheet(
        RECIPE,
        plan,
        (TASTE,),
        ("milk", "wheat"),
        ("peas",),
        (AWKWARD,),
        ("26329A08Z",),
        ("26329A072",),
        wholes=whole_packages(plan),
        left_open=(LeftOpen("26329A08Z", "peas", 60, 327, date(2026, 12, 10)),),
        raw=RawCheck((RawFood(AWKWARD, ANY_OTHER),)),
        heat=ANY_OTHER,
    )


def hot_sheet() -> CookSheet:
    """Half of a dish with a food instead of another, hot water and the label's cup."""
    need = StoredNeed(2, "peas", Basis.FRESH, 3_380, 850, instead_of="beans")
    line = CookLine(need, (Pick(TWO, 310, 1_690, True, False),), 310, 1_690, 0, 0)
    plan = CookPlan("Stew", 2, (line,), 1_690, 0, (), Fraction(3, 2))
    return CookSheet(
        STEW,
        plan,
        (TASTE,),
        (),
        (),
        (),
        (),
        (),
        way=WaterWay(60.0, Cup.LABEL),
        left_open=(LeftOpen("26329A08Z", "peas", 310, 1_690, None, f"why {STEERING}"),),
        raw=RawCheck((), 739),
        heat=REHEATING,
        at_once=("eggs",),
    )


def stand_ins() -> tuple[Substitution, ...]:
    """Two foods that could stand in for the peas, and none for the beef."""
    _, peas, beef = cook_sheet().plan.lines
    options = (
        Substitute(4, AWKWARD, "ready", True, True, (), False, 930, 5_070),
        Substitute(5, "nut meal", "raw", False, True, ("tree_nuts",), True, 700, 3_900),
    )
    return Substitution(2, "peas", peas, options), Substitution(3, "beef", beef, ())


def taken(*, at_once: bool = False, hour: int = 11) -> Done:
    """A meal wetted at 40 minutes past an hour, one hour east of Greenwich."""
    wetted = datetime(2026, 11, 25, hour, 40, tzinfo=timezone(timedelta(hours=1)))
    care = meal_care(wetted, DAY, at_once=at_once)
    return Done("cooked it", (), ("26329A072",), 4, care)


MEALS = (
    Meal(2, AWKWARD, 3, DAY, 3_042, 0, datetime(2026, 11, 25, 12, tzinfo=UTC), date(2026, 11, 28)),
    Meal(1, STEERING, 2, DAY, 10, 9_000, datetime(2026, 11, 25, 11, tzinfo=UTC), DAY),
    Meal(0, "salad", 1, DAY, 0, 0),
)


def reports(units: UnitSystem) -> dict[str, Report]:
    """The kitchen's reports by name."""
    measures = (
        FoodMeasure(1, 1, AWKWARD, "cup", "dry", 310),
        FoodMeasure(2, 1, AWKWARD, STEERING, "fresh", 1_450),
    )
    return {
        "cook": cooking.cook_report(cook_sheet(), {"26329A072": "cellar"}, stand_ins=stand_ins()),
        "cook hot water": cooking.cook_report(hot_sheet(), {}),
        "cooked": cooking.cook_report(cook_sheet(), {}, taken(), stand_ins=stand_ins()),
        "cooked egg": cooking.cook_report(hot_sheet(), {}, taken(at_once=True)),
        "cooked late": cooking.cook_report(hot_sheet(), {}, taken(hour=22)),
        "cooked another day": cooking.cook_report(hot_sheet(), {}, taken(), by_clock=False),
        "recipes": kitchen.recipe_list((RecipeSummary(1, AWKWARD, 4, 2, 2, None),)),
        "recipe": kitchen.recipe_report(RECIPE, units),
        "recipe in full": kitchen.recipe_report(STEW, units, FACTS, Cup.LABEL),
        "meals": meals.meal_list(MEALS),
        "no meals": meals.meal_list(()),
        "measures": meals.measure_list(measures),
        "no measures": meals.measure_list(()),
    }
