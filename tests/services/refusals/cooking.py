"""Refusals of household measures, of what more is said of a recipe, and of raw food uncooked."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from stockroom.domain.cooking import Basis, CookPlan, MeasureMissing
from stockroom.domain.safe_cooking import CookedTooLittle, RawWithoutCooking
from stockroom.errors import BadInput, NotFound
from stockroom.services import kitchen, measures, substitutes, workings, written_recipes
from stockroom.services.kitchen import Clear, LineRequest
from stockroom.services.results import CookSheet
from stockroom.services.session import Stockroom
from tests.services.cases_cooking import measured
from tests.services.refusals.base import HALF_A_PAIR, ONION, Refusal, add_recipe, nothing, soup
from tests.world import BEEF_RAW, PEAS, World


def cup_gone(world: World) -> None:
    """The soup still counts in cups, but the cup's weight was removed."""
    measured(world)
    measures.remove_measure(world.room, PEAS, "cup")


def raw_stew(world: World) -> None:
    """Raw beef in a stew without a cooking step, and in one cooked to 145 °F."""
    world.packed(BEEF_RAW, "2xpouch-400-foil:40", wet_g=500, dry_g=140)
    beef = LineRequest(food=BEEF_RAW, amount=Fraction(100))
    world.recipe("Stew", lines=[beef])
    kitchen.add_recipe(world.room, "Rare stew", 2, [beef], cook_to_dc=628)


def _set(food: str = PEAS, name: str = "cup", weight_dg: int = 380, **more: Any) -> Any:
    return lambda room: measures.set_measure(room, food, name, weight_dg, **more)


def _cups(amount: int = 1, unit: str | None = "mug", **more: Any) -> LineRequest:
    return LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(amount), unit=unit, **more)


def _change(**wanted: Any) -> Callable[[Stockroom], object]:
    return lambda room: kitchen.change_recipe(room, "Pea soup", **wanted)


def _bare_sheet(room: Stockroom) -> CookSheet:
    """A sheet of the cup soup that came without its written recipe."""
    record = kitchen.show_recipe(room, "Cup soup")
    plan = CookPlan(record.name, 2, (), 0, 0, ())
    return CookSheet(record, plan, (), (), (), (), (), ())


DETAILS: tuple[tuple[dict[str, Any], tuple[str, ...]], ...] = (
    ({"hold_back_percent": -1}, ("water held back", "“-1 %”", "0 to 100 %")),
    ({"hold_back_percent": 101}, ("water held back", "“101 %”")),
    ({"cook_to_dc": 299}, ("cooked to", "“29.9 °C”", "30 to 150 °C")),
    ({"cook_to_dc": 1501}, ("cooked to",)),
    ({"water_temperature_dc": 39}, ("water temperature", "4 to 100 °C")),
    ({"water_temperature_dc": 1001}, ("water temperature",)),
    ({"occasion": "feast"}, ("occasion", "“feast”", "breakfast, main, extra")),
    ({"fresh_kcal": -1}, ("energy of the fresh items", "“-1”")),
    ({"fresh_protein_dg": -1}, ("protein of the fresh items", "0 g to 100 kg")),
    ({"origin": "x" * 2001}, ("2000",)),
    ({"allergens": ["pollen"]}, ("allergen", "“pollen”", "sesame")),
)

COOKING = (
    Refusal(
        "measures.set_measure",
        measures.SameMeasure,
        measured,
        _set(name=" CUP "),
        ("“cup” of", PEAS, "your scale"),
    ),
    Refusal("measures.set_measure", NotFound, nothing, _set("gruel"), ("food", "“gruel”")),
    *(
        Refusal("measures.set_measure", BadInput, measured, act, facts)
        for act, facts in (
            (_set(name=" "), ("measure",)),
            (_set(name=HALF_A_PAIR), ("measure", "UTF-8")),
            (_set(weight_dg=0), ("weight", "0.1 g to 100 kg")),
            (_set(weight_dg=1_000_001), ("weight",)),
            (_set(basis=Basis.SERVINGS), ("basis", "fresh or dry")),
        )
    ),
    Refusal(
        "measures.remove_measure",
        NotFound,
        measured,
        lambda room: measures.remove_measure(room, PEAS, "scoop"),
        (f"measure “scoop of {PEAS}”", "Nearest: cup"),
    ),
    Refusal(
        "measures.remove_measure",
        BadInput,
        measured,
        lambda room: measures.remove_measure(room, PEAS, ""),
        ("measure",),
    ),
    Refusal(
        "measures.list_measures",
        NotFound,
        measured,
        lambda room: measures.list_measures(room, "gruel"),
        ("“gruel”",),
    ),
    Refusal(
        "measures.list_measures",
        BadInput,
        measured,
        lambda room: measures.list_measures(room, HALF_A_PAIR),
        ("food", "UTF-8"),
    ),
    *(
        Refusal("recipes.add_recipe", MeasureMissing, measured, add_recipe(line), facts)
        for line, facts in (
            (_cups(), ("“mug” of", PEAS, "Weigh one mug", "On record for it: cup")),
            (_cups(unit=None), ("Weigh one",)),
        )
    ),
    *(
        Refusal("recipes.add_recipe", BadInput, measured, add_recipe(line), facts)
        for line, facts in (
            (_cups(0, "cup"), (PEAS,)),
            (_cups(1, "cup", hold_back_percent=101), ("water held back",)),
            (LineRequest(item="onion", hold_back_percent=10), ("onion", "stored food only")),
        )
    ),
    *(
        Refusal("recipes.add_recipe", BadInput, soup, add_recipe(ONION, **wanted), facts)
        for wanted, facts in DETAILS
    ),
    *(
        Refusal("recipes.change_recipe", BadInput, soup, _change(**wanted), facts)
        for wanted, facts in (
            *DETAILS,
            ({"clear": [Clear.COOK_TO]}, ("what to change",)),
            ({"cook_to_dc": 740, "clear": [Clear.COOK_TO]}, ("cook_to_dc", "take it away")),
        )
    ),
    Refusal(
        "recipes.change_recipe",
        MeasureMissing,
        soup,
        _change(lines=[_cups()]),
        ("“mug” of", "grams or servings"),
    ),
    Refusal(
        "kitchen.recipe_facts",
        NotFound,
        soup,
        lambda room: kitchen.recipe_facts(room, "cake"),
        ("recipe", "“cake”"),
    ),
    *(
        Refusal(service, MeasureMissing, cup_gone, act, ("“cup” of", PEAS, "Weigh one cup"))
        for service, act in (
            ("kitchen.cook_sheet", lambda room: kitchen.cook_sheet(room, "Cup soup", 2)),
            ("kitchen.cook_meal", lambda room: kitchen.cook_meal(room, "Cup soup", 2)),
            ("substitutes.substitutes", lambda room: substitutes.substitutes(room, "Cup soup")),
            (
                "written_recipes.written_recipe",
                lambda room: written_recipes.written_recipe(
                    room, kitchen.show_recipe(room, "Cup soup")
                ),
            ),
            (
                "written_recipes.as_written",
                lambda room: written_recipes.as_written(
                    room,
                    kitchen.show_recipe(room, "Cup soup"),
                    written_recipes.foods_of(room, kitchen.show_recipe(room, "Cup soup")),
                    {},
                ),
            ),
            (
                "written_recipes.measure_of",
                lambda room: written_recipes.measure_of(
                    room,
                    next(
                        iter(
                            written_recipes.foods_of(
                                room, kitchen.show_recipe(room, "Cup soup")
                            ).values()
                        )
                    ),
                    "cup",
                ),
            ),
            (
                "workings.cook_working",
                lambda room: workings.cook_working(room, _bare_sheet(room)),
            ),
        )
    ),
    *(
        Refusal(service, BadInput, soup, act, ("swap", "another food"))
        for service, act in (
            (
                "kitchen.cook_sheet",
                lambda room: kitchen.cook_sheet(room, "Pea soup", 2, swaps={9: 1}),
            ),
            (
                "kitchen.cook_meal",
                lambda room: kitchen.cook_meal(room, "Pea soup", 2, swaps={1: 1}),
            ),
            (
                "substitutes.substitutes",
                lambda room: substitutes.substitutes(room, "Pea soup", swaps={1: 99}),
            ),
            (
                "written_recipes.written_recipe",
                lambda room: written_recipes.written_recipe(
                    room, kitchen.show_recipe(room, "Pea soup"), {1: 99}
                ),
            ),
            (
                "written_recipes.swap_foods",
                lambda room: written_recipes.swap_foods(room, {}, {1: 2}),
            ),
        )
    ),
    Refusal(
        "substitutes.substitutes",
        NotFound,
        soup,
        lambda room: substitutes.substitutes(room, "cake"),
        ("recipe", "“cake”"),
    ),
    *(
        Refusal(service, BadInput, soup, act, facts)
        for service, sheet in (
            ("kitchen.cook_sheet", kitchen.cook_sheet),
            ("kitchen.cook_meal", kitchen.cook_meal),
        )
        for act, facts in (
            (
                lambda room, sheet=sheet: sheet(room, "Pea soup", servings=Fraction(0)),
                ("servings", "above 0"),
            ),
            (
                lambda room, sheet=sheet: sheet(room, "Pea soup", servings=Fraction(1001)),
                ("servings", "1000"),
            ),
            (
                lambda room, sheet=sheet: sheet(room, "Pea soup", 2, cook_to_dc=2_000),
                ("cooked to", "“200 °C”"),
            ),
        )
    ),
    Refusal(
        "kitchen.cook_meal",
        NotFound,
        soup,
        lambda room: kitchen.cook_meal(room, "cake", 2),
        ("recipe",),
    ),
    Refusal(
        "kitchen.cook_meal",
        RawWithoutCooking,
        raw_stew,
        lambda room: kitchen.cook_meal(room, "Stew", 2),
        ("raw food", BEEF_RAW, "no cooking step", "160 °F (71.1 °C)"),
    ),
    *(
        Refusal(
            "kitchen.cook_meal",
            CookedTooLittle,
            raw_stew,
            lambda room, name=name, at=at: kitchen.cook_meal(room, name, 2, cook_to_dc=at),
            (BEEF_RAW, "145 °F (62.8 °C)", "160 °F (71.1 °C)"),
        )
        for name, at in (("Stew", 628), ("Rare stew", None))
    ),
)
