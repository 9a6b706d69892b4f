"""Refusals of the kitchen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from typing import Any

from stockroom.clock import FixedClock
from stockroom.domain.cooking import Basis
from stockroom.errors import (
    BadInput,
    NotFound,
)
from stockroom.services import (
    kitchen,
    recipes,
)
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import NotSealedYet
from stockroom.services.session import Stockroom
from tests.services.refusals.base import (
    ENDLESS,
    HALF_A_PAIR,
    ONION,
    Refusal,
    add_recipe,
    nothing,
    peas,
    soup,
)
from tests.world import PEAS, TODAY


def _change_recipe(**wanted: Any) -> Callable[[Stockroom], object]:
    return lambda room: kitchen.change_recipe(room, "Pea soup", **wanted)


KITCHEN = (
    *(
        Refusal(
            "recipes.add_recipe",
            recipes.RecipeExists,
            soup,
            add_recipe(ONION, name=name),
            ("already a recipe", name.strip()),
        )
        for name in ("Pea soup", " PEA SOUP")
    ),
    Refusal(
        "recipes.add_recipe",
        NotFound,
        soup,
        add_recipe(LineRequest(food="Peas", amount=Fraction(1))),
        ("food", "“Peas”"),
    ),
    *(
        Refusal(
            "recipes.add_recipe",
            BadInput,
            soup,
            add_recipe(ONION, serves=serves),
            ("serves", f"“{serves}”", "from 1 to 1000"),
        )
        for serves in (-1, 0, 1001)
    ),
    Refusal("recipes.add_recipe", BadInput, soup, add_recipe(), ("at least one ingredient",)),
    Refusal("recipes.add_recipe", BadInput, soup, add_recipe(ONION, name=" "), ("recipe name",)),
    *(
        Refusal("recipes.add_recipe", BadInput, soup, add_recipe(peas(amount, basis)), (PEAS,))
        for basis, amounts in (
            (Basis.FRESH, (None, 0, -1, Fraction(1, 100), 100_001)),
            (Basis.DRY, (None, 0, Fraction(1, 21), 100_001)),
            (Basis.SERVINGS, (None, 0, Fraction(1, 300), 1_001)),
            (None, (None, 0)),
        )
        for amount in (None if one is None else Fraction(one) for one in amounts)
    ),
    *(
        Refusal(
            "recipes.add_recipe",
            BadInput,
            soup,
            add_recipe(LineRequest(item="onion", amount=amount)),
            ("amount of onion", "above 0"),
        )
        for amount in (Fraction(0), Fraction(-1), Fraction(1, 3000), Fraction(1_000_001))
    ),
    *(
        Refusal(
            "recipes.add_recipe",
            BadInput,
            soup,
            add_recipe(LineRequest(item=item)),
            ("ingredient",),
        )
        for item in (None, "", " ", "x" * 81, HALF_A_PAIR)
    ),
    Refusal(
        "recipes.add_recipe",
        BadInput,
        soup,
        add_recipe(LineRequest(item="onion", unit=HALF_A_PAIR)),
        ("unit",),
    ),
    *(
        Refusal(
            "recipes.add_recipe",
            BadInput,
            soup,
            add_recipe(ONION, cooking_water_dg=dg),
            ("cooking water", "0 g to 100 kg"),
        )
        for dg in (-1, 1_000_001)
    ),
    Refusal("recipes.add_recipe", BadInput, soup, add_recipe(ONION, steps=ENDLESS), ("2000",)),
    Refusal(
        "recipes.change_recipe",
        NotFound,
        nothing,
        _change_recipe(serves=3),
        ("recipe", "“Pea soup”"),
    ),
    Refusal(
        "recipes.change_recipe",
        recipes.RecipeExists,
        soup,
        _change_recipe(new_name="pea stew"),
        ("already a recipe", "pea stew"),
    ),
    *(
        Refusal("recipes.change_recipe", BadInput, soup, _change_recipe(**wanted), facts)
        for wanted, facts in (
            ({}, ("what to change",)),
            ({"serves": 2}, ("what to change",)),
            ({"serves": 0}, ("serves", "“0”")),
            ({"lines": []}, ("at least one ingredient",)),
            ({"new_name": ""}, ("recipe name",)),
            ({"cooking_water_dg": -1}, ("cooking water",)),
            ({"steps": ENDLESS}, ("2000",)),
            ({"lines": [LineRequest()]}, ("ingredient",)),
        )
    ),
    Refusal(
        "recipes.remove_recipe",
        NotFound,
        soup,
        lambda room: kitchen.remove_recipe(room, "cake"),
        ("recipe", "“cake”"),
    ),
    *(
        Refusal(
            service,
            BadInput,
            soup,
            lambda room, act=act, people=people: act(room, "Pea soup", people),
            ("people", f"“{people}”", "from 1 to 1000"),
        )
        for service, act in (
            ("kitchen.cook_sheet", kitchen.cook_sheet),
            ("kitchen.cook_meal", kitchen.cook_meal),
        )
        for people in (0, -2, 1001)
    ),
    Refusal(
        "kitchen.cook_sheet",
        NotFound,
        soup,
        lambda room: kitchen.cook_sheet(room, "cake", 2),
        ("recipe",),
    ),
    Refusal(
        "kitchen.cook_meal",
        kitchen.Short,
        soup,
        lambda room: kitchen.cook_meal(room, "Pea soup", 2),
        ("short of", PEAS, "135.5 g fresh equivalent", "Pea soup", "fewer people"),
    ),
    Refusal(
        "kitchen.cook_meal",
        kitchen.Short,
        lambda world: (
            world.packed(PEAS, "1xpouch-400-foil:10"),
            world.recipe("Dry", lines=[peas(Fraction(30), Basis.DRY)]),
        ),
        lambda room: kitchen.cook_meal(room, "Dry", 2),
        ("20.0 g dry",),
    ),
    Refusal(
        "kitchen.cook_meal",
        NotSealedYet,
        lambda world: (world.packed(), world.recipe()),
        lambda room: kitchen.cook_meal(
            replace(room, clock=FixedClock(TODAY - timedelta(days=1))), "Pea soup", 2
        ),
        ("26329A01", "sealed on 2026-11-25"),
    ),
    Refusal(
        "kitchen.cook_meal",
        kitchen.NothingToTake,
        lambda world: (world.dry_lot(), world.recipe()),
        lambda room: kitchen.cook_meal(room, "Pea soup", 2, take_short=True),
        ("Nothing for Pea soup",),
    ),
)
