"""Refusals of foods."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.errors import (
    BadInput,
    NotFound,
)
from stockroom.services import (
    foods,
)
from stockroom.services.session import Stockroom
from tests.services.refusals.base import (
    ENDLESS,
    HALF_A_PAIR,
    Refusal,
    nothing,
    packed,
)
from tests.world import PEAS


def change(**wanted: Any) -> Callable[[Stockroom], object]:
    """A change of the peas."""
    return lambda room: foods.change_food(room, PEAS, **wanted)


FOODS = (
    *(
        Refusal(
            "foods.add_food",
            foods.FoodExists,
            packed,
            lambda room, name=name: foods.add_food(room, name, like=PEAS),
            ("already a food", name.strip()),
        )
        for name in (PEAS, f" {PEAS.upper()} ")
    ),
    Refusal(
        "foods.add_food",
        NotFound,
        nothing,
        lambda room: foods.add_food(room, "Ours", like="Peas, gren, raw"),
        ("food", "Nearest: Peas, green, raw"),
    ),
    Refusal(
        "foods.add_food",
        BadInput,
        nothing,
        lambda room: foods.add_food(room, "Ours", preparation=Preparation.RAW),
        ("food class", "fruit, vegetable", "a food it is like"),
    ),
    Refusal(
        "foods.add_food",
        BadInput,
        nothing,
        lambda room: foods.add_food(room, "Ours", food_class=FoodClass.FRUIT),
        ("preparation", "raw, cooked, ready"),
    ),
    *(
        Refusal(
            "foods.add_food",
            BadInput,
            nothing,
            lambda room, name=name: foods.add_food(room, name, like=PEAS),
            ("food name",),
        )
        for name in ("", "   ", "x" * 81, HALF_A_PAIR)
    ),
    *(
        Refusal(
            "foods.add_food",
            BadInput,
            nothing,
            lambda room, percent=percent: foods.add_food(
                room, "Ours", like=PEAS, water_percent=percent
            ),
            ("water", "0 to below 100"),
        )
        for percent in (Fraction(-1), Fraction(100))
    ),
    *(
        Refusal(
            "foods.add_food",
            BadInput,
            nothing,
            lambda room, dg=dg: foods.add_food(room, "Ours", like=PEAS, serving_dg=dg),
            ("serving", "0.1 g to 100 kg"),
        )
        for dg in (-10, 0, 1_000_001)
    ),
    Refusal(
        "foods.add_food",
        BadInput,
        nothing,
        lambda room: foods.add_food(room, "Ours", like=PEAS, note=ENDLESS),
        ("note",),
    ),
    Refusal(
        "foods.change_food",
        NotFound,
        packed,
        lambda room: foods.change_food(room, "Apple", note="x"),
        ("food", "“Apple”"),
    ),
    Refusal(
        "foods.change_food",
        foods.FoodExists,
        lambda world: (packed(world), foods.add_food(world.room, "Ours", like=PEAS)),
        lambda room: foods.change_food(room, "Ours", new_name=PEAS.lower()),
        ("already a food",),
    ),
    *(
        Refusal(
            "foods.change_food",
            BadInput,
            packed,
            change(**wanted),
            facts,
        )
        for wanted, facts in (
            ({}, ("what to change",)),
            ({"new_name": PEAS}, ("what to change",)),
            ({"new_name": " "}, ("food name",)),
            ({"serving_dg": 0}, ("serving", "“0 g”")),
            ({"note": ENDLESS}, ("note",)),
        )
    ),
    Refusal(
        "foods.food_to_load",
        NotFound,
        nothing,
        lambda room: foods.food_to_load(room.store, "gold"),
        ("food", "“gold”"),
    ),
    Refusal(
        "foods.food_to_load",
        BadInput,
        nothing,
        lambda room: foods.food_to_load(room.store, HALF_A_PAIR),
        ("food", "UTF-8"),
    ),
    Refusal(
        "foods.reference_food",
        NotFound,
        nothing,
        lambda _: foods.reference_food("dungeness"),
        ("Nearest: Crab, Dungeness",),
    ),
)
