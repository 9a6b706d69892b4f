"""The first day: the household, its places, its foods and its people."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from functools import partial

from seeds_demo.rounds import agree_on_days
from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, read_rows, weight_of
from stockroom.domain.foods import Allergen, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.person import Activity, Sex
from stockroom.services.climate import set_humidity
from stockroom.services.foods import add_food, change_food
from stockroom.services.household import change_household
from stockroom.services.keeping import refresh_everything
from stockroom.services.people import Told, add_member
from stockroom.services.places import PlaceKind, add_place
from stockroom.services.session import Stockroom

HUT_ALTITUDE_M = 40
"""How high above the sea the galley stands."""


def set_up_steps(day: date) -> Iterator[Step]:
    """The hut's days for rechecks, its height, places, foods and people, all on one day."""
    yield Step(day, Part.SET_UP, "warden", agree_on_days)
    yield Step(day, Part.SET_UP, "warden", _say_how_high)
    for row in read_rows("places"):
        yield Step(day, Part.SET_UP, "warden", partial(_add_place, row))
        if row["humidity"]:
            yield Step(day, Part.SET_UP, "warden", partial(_say_how_damp, row))
    for row in read_rows("foods"):
        yield Step(day, Part.SET_UP, "cook", partial(_add_food, row))
        if row["settled"]:
            yield Step(day, Part.SET_UP, "cook", partial(_settle_ingredients, row))
    for row in read_rows("people"):
        yield Step(day, Part.SET_UP, "warden", partial(_add_person, row))


def _say_how_high(room: Stockroom) -> None:
    """Before anything is packed: the best-by dates stay current with it."""
    change_household(room, altitude_m=HUT_ALTITUDE_M)
    refresh_everything(room)


def _say_how_damp(row: Row, room: Stockroom) -> None:
    set_humidity(room, row["path"], int(row["humidity"]))


def _add_place(row: Row, room: Stockroom) -> None:
    add_place(
        room,
        row["path"],
        kind=PlaceKind(row["kind"]),
        temperature_dc=int(row["celsius"]) * 10 if row["celsius"] else None,
        note=row["note"],
    )


def _add_food(row: Row, room: Stockroom) -> None:
    food_class = FoodClass(row["food_class"]) if row["food_class"] else None
    add_food(
        room,
        row["name"],
        like=row["like"],
        food_class=food_class,
        group=FoodGroup.MEAL if food_class is FoodClass.MEAL else None,
        preparation=Preparation(row["preparation"]) if row["preparation"] else None,
        serving_dg=weight_of(row, "serving_g"),
        allergens=_allergens(row),
        note=row["note"],
    )


def _settle_ingredients(row: Row, room: Stockroom) -> None:
    """The dish was made here: its allergens are known, not guessed from the table."""
    change_food(room, row["name"], allergens=_allergens(row))


def _add_person(row: Row, room: Stockroom) -> None:
    sized = bool(row["kg"] and row["cm"])
    told = Told(
        body_weight_dg=int(row["kg"]) * 10_000 if sized else None,
        height_mm=int(row["cm"]) * 10 if sized else None,
        allergens=_allergens(row),
        dislikes=[food for food in row["dislikes"].split(";") if food],
    )
    add_member(
        room,
        row["name"],
        sex=Sex(row["sex"]),
        age_years=Fraction(row["age"]),
        activity=Activity(row["activity"]),
        told=told,
    )


def _allergens(row: Row) -> tuple[Allergen, ...]:
    return tuple(Allergen(word) for word in row["allergens"].split(";") if word)
