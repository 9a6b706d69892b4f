"""Refusals of people."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from stockroom.domain.energy import NoEnergyFigure
from stockroom.domain.member_records import Figures
from stockroom.domain.person import Activity, Sex
from stockroom.errors import BadInput, NotFound
from stockroom.services import people
from stockroom.services.finding import Ambiguous
from stockroom.services.people import Told
from stockroom.services.session import Stockroom
from tests.services.cases_people import add_zoe, zoe
from tests.services.refusals.base import HALF_A_PAIR, Refusal
from tests.world import World


def _two(world: World) -> None:
    zoe(world)
    add_zoe(world.room, "Zoë the younger")


def _add(
    name: str = "Ann", age: float = 41, told: Told | None = None
) -> Callable[[Stockroom], object]:
    return lambda room: people.add_member(
        room,
        name,
        sex=Sex.FEMALE,
        age_years=Fraction(age),
        activity=Activity.LOW,
        told=told or Told(),
    )


def _change(told: Told, *, to: str | None = None) -> Callable[[Stockroom], object]:
    return lambda room: people.change_member(room, "Zoë", told, new_name=to)


_UNFIT = (
    (Told(body_weight_dg=650_000), ("a weight without a height", "Give both")),
    (Told(height_mm=1650), ("a height without a weight", "Give both")),
    (Told(body_weight_dg=0, height_mm=1650), ("a body weight of 0 kg", "30 to 250 kg")),
    (Told(body_weight_dg=650_000, height_mm=3000), ("a height of 300 cm", "120 to 230 cm")),
    (Told(figures=Figures.OLD), ("without weight and height in the 2005 edition", "Give weight")),
)

PEOPLE = (
    *(
        Refusal("people.add_member", BadInput, zoe, _add(name), ("name",))
        for name in ("", " ", "x" * 81, HALF_A_PAIR)
    ),
    *(
        Refusal("people.add_member", people.MemberTaken, zoe, _add(name), ("a person “Zoë”",))
        for name in ("Zoë", " zoë ", "ZOË")
    ),
    *(
        Refusal(
            "people.add_member",
            people.TooYoungToList,
            zoe,
            _add(age=age),
            (f"an age of {age:g} year", "begin at 2 years", "number of people", "allergens"),
        )
        for age in (0, 0.5, 1, 1.875)
    ),
    *(
        Refusal("people.add_member", BadInput, zoe, _add(age=age), ("age", "2 to 120 years"))
        for age in (120.5, 9999)
    ),
    *(
        Refusal("people.add_member", NoEnergyFigure, zoe, _add(told=told), facts)
        for told, facts in _UNFIT
    ),
    Refusal(
        "people.add_member",
        NoEnergyFigure,
        zoe,
        _add(age=9, told=Told(figures=Figures.NEW)),
        ("an age of 9 years in the 2023 edition", "19 years", "leave the edition out"),
    ),
    Refusal(
        "people.add_member",
        NotFound,
        zoe,
        _add(told=Told(dislikes=["Peas, green, frozen"])),
        ("no food “Peas, green, frozen”", "Nearest: Peas, green, frozen, boiled"),
    ),
    Refusal(
        "people.find_member",
        NotFound,
        zoe,
        lambda room: people.find_member(room, "Zo6"),
        ("no person “Zo6”", "Nearest: Zoë"),
    ),
    Refusal(
        "people.find_member",
        Ambiguous,
        _two,
        lambda room: people.find_member(room, "zo"),
        ("“zo”", "Zoë, Zoë the younger"),
    ),
    Refusal(
        "people.find_member",
        BadInput,
        zoe,
        lambda room: people.find_member(room, HALF_A_PAIR),
        ("person",),
    ),
    *(
        Refusal(service, NotFound, zoe, act, ("no person “nobody”",))
        for service, act in (
            ("people.change_member", lambda room: people.change_member(room, "nobody", Told())),
            ("people.remove_member", lambda room: people.remove_member(room, "nobody")),
        )
    ),
    *(
        Refusal(service, Ambiguous, _two, act, ("more than one person",))
        for service, act in (
            ("people.change_member", lambda room: people.change_member(room, "z", Told())),
            ("people.remove_member", lambda room: people.remove_member(room, "z")),
        )
    ),
    Refusal(
        "people.remove_member",
        BadInput,
        zoe,
        lambda room: people.remove_member(room, HALF_A_PAIR),
        ("person",),
    ),
    Refusal(
        "people.change_member",
        people.MemberTaken,
        _two,
        _change(Told(), to="ZOË THE YOUNGER"),
        ("a person “Zoë the younger”",),
    ),
    Refusal("people.change_member", BadInput, zoe, _change(Told()), ("what to change",)),
    Refusal("people.change_member", BadInput, zoe, _change(Told(), to=" "), ("name",)),
    Refusal(
        "people.change_member",
        people.TooYoungToList,
        zoe,
        _change(Told(age_years=Fraction(1))),
        ("an age of 1 year.",),
    ),
    Refusal(
        "people.change_member",
        NoEnergyFigure,
        zoe,
        _change(Told(no_size=True, figures=Figures.OLD)),
        ("without weight and height",),
    ),
    Refusal(
        "people.change_member",
        NoEnergyFigure,
        zoe,
        _change(Told(no_size=True, height_mm=1650)),
        ("a height without a weight",),
    ),
)
