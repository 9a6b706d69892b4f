"""The forms for people: add one, change one, say what somebody would rather not eat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.domain.member_records import Figures, Member
from stockroom.domain.member_sizes import (
    read_member_height,
    read_member_weight,
    show_member_height,
    show_member_weight,
)
from stockroom.domain.person import Activity, Sex, read_age
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import BadInput
from stockroom.services.people import Told, add_member, change_member
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.food_forms import NONE, read_allergens
from stockroom.tui.screens.household import NothingChanged
from stockroom.tui.screens.people_words import allergen_words, dislike_words
from stockroom.tui.screens.recipe_forms import own_food_search
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

SEXES = (Choice(Sex.FEMALE.value, "F", "woman or girl"), Choice(Sex.MALE.value, "M", "man or boy"))
ACTIVITIES = (
    Choice(Activity.SEDENTARY.value, "sedentary", "no more than living independently"),
    Choice(Activity.LOW.value, "low", "as 1.5 to 3 miles of walking a day"),
    Choice(Activity.ACTIVE.value, "active", "more than 3 miles of walking a day"),
    Choice(Activity.VERY.value, "very", "hard work or training"),
)
FIGURES = (
    Choice(Figures.OLD.value, "2005", "equation, published"),
    Choice(Figures.NEW.value, "2023", "equation, from memory"),
    Choice(Figures.TABLE.value, "table", "Dietary Guidelines 2020-2025"),
)
ACTIVITY_HINT = "Work and walking of a day together."
AVOID_HINT = "Milk, wheat … of the nine; or none."
SIZE_HINT = "Leave out both sizes: the table counts."
FIGURES_HINT = "Empty: by size if known, else the table."


@dataclass(frozen=True, slots=True)
class Before:
    """What stood in the fields at first, as typed."""

    age: str = ""
    weight: str = ""
    height: str = ""
    allergens: str = NONE


def add_person_form(room: Stockroom) -> FormScreen[Done]:
    """Asks who it is."""
    units = room.units

    def submit(answers: Answers) -> Done:
        told = _told(answers, units, Before(), None)
        if told.sex is None:
            raise BadInput("sex", "", "F or M")
        if told.activity is None:
            raise BadInput("activity", "", "sedentary, low, active or very")
        return add_member(
            room,
            answers.text("name"),
            sex=told.sex,
            age_years=read_age(answers.text("age")),
            activity=told.activity,
            told=told,
        )

    return FormScreen("Add a person", _fields(units, Before(allergens=""), None), submit)


def change_person_form(room: Stockroom, member: Member, age_years: int) -> FormScreen[Done]:
    """Asks what is to be changed about a person."""
    units = room.units
    before = Before(
        str(age_years),
        "" if member.body_weight_dg is None else show_member_weight(member.body_weight_dg, units),
        "" if member.height_mm is None else show_member_height(member.height_mm, units),
        allergen_words(member) or NONE,
    )

    def submit(answers: Answers) -> Done:
        name = answers.text("name").strip()
        told = _told(answers, units, before, member)
        if told == Told() and name == member.name:
            raise NothingChanged
        return change_member(
            room, member.name, told, new_name=None if name == member.name else name
        )

    return FormScreen(f"Change {member.name}", _fields(units, before, member), submit)


def dislikes_form(room: Stockroom, member: Member) -> FormScreen[Done]:
    """Asks for a food; one that is on the person's list already is taken off it."""
    now = [one.food for one in member.dislikes]

    def submit(answers: Answers) -> Done:
        picked = answers.choice("food")
        if picked is None:
            raise BadInput("food", "", "a food of your own")
        food = str(picked.key)
        names = [name for name in now if name != food]
        return change_member(
            room, member.name, Told(dislikes=names if food in now else [*now, food])
        )

    about = (f"On the list: {dislike_words(member)}." if now else "Nothing is on the list yet.",)
    hint = "A food that is on the list is taken off it."
    field = Picker("food", "Food", own_food_search(room), hint=hint)
    heading = f"What {member.name} would rather not eat"
    return FormScreen(heading, (field,), submit, about=about)


def _fields(units: UnitSystem, before: Before, member: Member | None) -> Sequence[Field]:
    """The fields of both forms."""
    us = units is UnitSystem.US
    return (
        Field("name", "Name", member.name if member else ""),
        Picker("sex", "Sex", _among(SEXES), _of(SEXES, member and member.sex),
               hint="F or M: there are two sets of figures."),
        Field("age", "Age", before.age, unit="years", hint="Today, from 2 on; it grows by itself."),
        Picker("activity", "Activity", _among(ACTIVITIES),
               _of(ACTIVITIES, member and member.activity), hint=ACTIVITY_HINT),
        Field("weight", "Body weight", before.weight, unit="" if before.weight else
              ("lb" if us else "kg"), hint=SIZE_HINT),
        Field("height", "Height", before.height, unit="" if before.height else
              ("in" if us else "cm"), hint="Such as 165 cm, 1.65 m or 5 ft 5 in."),
        Picker("figures", "Reckoned by", _among(FIGURES), _of(FIGURES, member and member.figures),
               hint=FIGURES_HINT),
        Field("allergens", "Must not get", before.allergens, hint=AVOID_HINT),
    )  # fmt: skip


def _told(answers: Answers, units: UnitSystem, before: Before, member: Member | None) -> Told:
    """What stands in the fields and differs from before. Raises BadInput."""
    age, allergens = answers.text("age").strip(), answers.text("allergens").strip()
    sex, moves = answers.key("sex"), answers.key("activity")
    by = answers.key("figures")
    weight_dg, height_mm, no_size = _sizes(answers, units, before, member)
    return Told(
        sex=None if sex is None or (member and sex == member.sex) else Sex(str(sex)),
        age_years=None if not age or age == before.age else read_age(age),
        activity=(
            None if moves is None or (member and moves == member.activity)
            else Activity(str(moves))
        ),
        body_weight_dg=weight_dg,
        height_mm=height_mm,
        no_size=no_size,
        figures=None if by is None or (member and by == member.figures) else Figures(str(by)),
        allergens=(
            None if allergens == before.allergens or (not allergens and member is None)
            else read_allergens(allergens)
        ),
    )  # fmt: skip


def _sizes(
    answers: Answers, units: UnitSystem, before: Before, member: Member | None
) -> tuple[int | None, int | None, bool]:
    """Weight and height to be told, and whether those before are forgotten first.

    A line that was not touched keeps the exact size on record. Raises BadInput.
    """
    weight, height = answers.text("weight").strip(), answers.text("height").strip()
    if (weight, height) == (before.weight, before.height):
        return None, None, False
    weight_dg = member.body_weight_dg if member and weight == before.weight else None
    height_mm = member.height_mm if member and height == before.height else None
    if weight and weight_dg is None:
        weight_dg = read_member_weight(weight, units)
    if height and height_mm is None:
        height_mm = read_member_height(height, units)
    return weight_dg, height_mm, member is not None and member.size_known


def _among(choices: Sequence[Choice]) -> Search:
    """Finds one of a few choices by the beginning of its name or of a word about it."""

    def search(letters: str) -> Sequence[Choice]:
        wanted = letters.strip().casefold()
        begins = [one for one in choices if one.label.casefold().startswith(wanted)]
        return begins or [
            one
            for one in choices
            if any(word.casefold().startswith(wanted) for word in one.detail.split())
        ]

    return search


def _of(choices: Sequence[Choice], key: str | None) -> Choice | None:
    """The choice of a key."""
    return next((one for one in choices if one.key == key), None)
