"""Plausible uses of the services about people, drawn by chance."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from stockroom.domain.foods import Allergen
from stockroom.domain.member_records import Figures
from stockroom.domain.person import Activity, Sex
from stockroom.services import foods, people
from stockroom.services.people import Told
from stockroom.services.session import Stockroom

NAMES = ("Ann", "Zoë’s [b]", "冷")


def _told(room: Stockroom, pick: Random) -> Told:
    """Sometimes a size without the other, or figures that do not fit."""
    own = [food.name for food in foods.list_foods(room)]
    return Told(
        activity=pick.choice((None, *Activity)),
        body_weight_dg=pick.choice((None, 650_000, 900_000)),
        height_mm=pick.choice((None, 1_650, 1_900)),
        no_size=pick.random() < 0.1,
        figures=pick.choice((None, None, *Figures)),
        allergens=pick.choice((None, pick.sample(list(Allergen), 2))),
        dislikes=pick.choice((None, pick.sample(own, min(2, len(own))))),
    )


def _somebody(room: Stockroom, pick: Random) -> str:
    every = people.list_members(room)
    return pick.choice(every).name if every else "nobody"


def _add(room: Stockroom, pick: Random) -> object:
    return people.add_member(
        room,
        pick.choice(NAMES),
        sex=pick.choice(list(Sex)),
        age_years=Fraction(pick.choice((1, 9, 19, 41))),
        activity=pick.choice(list(Activity)),
        told=_told(room, pick),
    )


def _change(room: Stockroom, pick: Random) -> object:
    return people.change_member(
        room,
        _somebody(room, pick),
        _told(room, pick),
        new_name=pick.choice((None, pick.choice(NAMES))),
    )


PEOPLE_STEPS = {
    "people.add_member": _add,
    "people.change_member": _change,
    "people.remove_member": lambda room, pick: people.remove_member(room, _somebody(room, pick)),
}
"""Service → a step that uses it."""
