"""The people who eat from the stockroom: who they are, what they need, what they must not get."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches
from fractions import Fraction

from stockroom.domain.cautions import Caution, chosen
from stockroom.domain.energy import OLDEST_YEARS, energy_need
from stockroom.domain.energy_table import YOUNGEST_YEARS
from stockroom.domain.foods import Allergen
from stockroom.domain.household_need import (
    EatersAvoid,
    HouseholdNeed,
    need_of_household,
    person_on,
    usual_figures,
    what_to_avoid,
)
from stockroom.domain.household_working import household_working
from stockroom.domain.member_records import Disliked, Figures, Member
from stockroom.domain.person import Activity, Sex
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import Ambiguous, find_food
from stockroom.services.names import clean_name, storable
from stockroom.services.results import Done, WorkingPage
from stockroom.services.session import Stockroom
from stockroom.store import member_rows

MEMBER_CAUTIONS = ("honey", "weak-immunity")
"""What is borne in mind wherever people are listed; local codes come last."""


class MemberTaken(Refused):
    """Two people of one name could not be told apart."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"There is already a person “{name}”.", "Choose another name, or change that one."
        )


class TooYoungToList(Refused):
    """No published figure begins so early."""

    def __init__(self, years: Fraction) -> None:
        super().__init__(
            f"There is no energy figure for an age of {float(years):g}"
            f" {'year' if years == 1 else 'years'}.",
            f"The figures begin at {YOUNGEST_YEARS} years: count a smaller child in the number of"
            " people, name its allergens with an adult's, and ask a doctor or midwife what it"
            " needs.",
        )


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of a person, anew or as a change; None is not said and stays as it was.

    The two sizes are tenths of a gram and millimetres. `no_size` forgets both.
    """

    sex: Sex | None = None
    age_years: Fraction | None = None
    activity: Activity | None = None
    body_weight_dg: int | None = None
    height_mm: int | None = None
    no_size: bool = False
    figures: Figures | None = None
    allergens: Sequence[Allergen] | None = None
    dislikes: Sequence[str] | None = None
    """Foods of the household's own, by name."""


def list_members(room: Stockroom) -> tuple[Member, ...]:
    """Every person, in the order they were added."""
    return tuple(member_rows.all_members(room.store))


def find_member(room: Stockroom, typed: str) -> Member:
    """The person of this name, or the only one whose name begins so.

    Raises NotFound with the nearest names, Ambiguous, BadInput.
    """
    wanted = storable(typed, "person").strip().casefold()
    members = member_rows.all_members(room.store)
    for member in members:
        if member.name.casefold() == wanted:
            return member
    begins = [one for one in members if wanted and one.name.casefold().startswith(wanted)]
    if len(begins) > 1:
        raise Ambiguous("person", typed, tuple(one.name for one in begins))
    if not begins:
        names = {one.name.casefold(): one.name for one in members}
        close = get_close_matches(wanted, names, n=3, cutoff=0.5)
        raise NotFound("person", typed, [names[one] for one in close])
    return begins[0]


def add_member(
    room: Stockroom, name: str, *, sex: Sex, age_years: Fraction, activity: Activity, told: Told
) -> Done:
    """Add a person as told today; figures not chosen are the usual ones.

    Raises MemberTaken, TooYoungToList, NoEnergyFigure, NotFound, BadInput.
    """
    chosen_name = clean_name(name, "name")
    with acting(room, "person") as act:
        _refuse_taken(room, chosen_name)
        blank = Member(0, chosen_name, sex, 0, act.today, activity, Figures.TABLE)
        member = _as_told(room, blank, replace(told, age_years=age_years))
        made = member_rows.insert_member(room.store, member)
        act.words = f"added the person {chosen_name}"
    return Done(act.words, chosen(MEMBER_CAUTIONS), made_id=made)


def change_member(room: Stockroom, name: str, told: Told, *, new_name: str | None = None) -> Done:
    """Change what is told of a person; what is None stays. An age is as told today.

    Raises NotFound, Ambiguous, MemberTaken, TooYoungToList, NoEnergyFigure, BadInput.
    """
    with acting(room, "person") as act:
        member = find_member(room, name)
        called = member.name if new_name is None else clean_name(new_name, "name")
        if called.casefold() != member.name.casefold():
            _refuse_taken(room, called)
        changed = replace(_as_told(room, member, told), name=called)
        if changed == member:
            raise BadInput("person", "", "what to change: name, age, size, activity or what else")
        member_rows.update_member(room.store, changed)
        act.words = f"changed the person {member.name}"
        if called != member.name:
            act.words += f" to {called}"
    return Done(act.words, made_id=member.member_id)


def remove_member(room: Stockroom, name: str) -> Done:
    """Take a person off the list. Raises NotFound, Ambiguous, BadInput."""
    with acting(room, "person") as act:
        member = find_member(room, name)
        member_rows.delete_member(room.store, member.member_id)
        act.words = f"removed the person {member.name}"
    return Done(act.words)


def household_need(room: Stockroom) -> HouseholdNeed:
    """What the household needs today; who is not listed counts as an average adult."""
    return need_of_household(list_members(room), room.household.people, room.today)


def need_working(room: Stockroom) -> WorkingPage:
    """How the need of the household is reached: the sum, then each person's figure."""
    return WorkingPage("household", household_working(household_need(room)))


def eaters_avoid(room: Stockroom) -> EatersAvoid:
    """The allergens and the disliked foods of all the people, with who it is."""
    return what_to_avoid(list_members(room))


def member_cautions() -> tuple[Caution, ...]:
    """What is to be borne in mind wherever the people are listed."""
    return chosen(MEMBER_CAUTIONS)


def _refuse_taken(room: Stockroom, name: str) -> None:
    for member in member_rows.all_members(room.store):
        if member.name.casefold() == name.casefold():
            raise MemberTaken(member.name)


def _as_told(room: Stockroom, before: Member, told: Told) -> Member:
    """The person with what was told; where no figures fit it is refused."""
    age, weight_dg, height_mm = told.age_years, told.body_weight_dg, told.height_mm
    _refuse_age(age)
    sized = replace(before, body_weight_dg=None, height_mm=None) if told.no_size else before
    member = replace(
        sized,
        sex=told.sex or before.sex,
        age_tenths=before.age_tenths if age is None else int(age * 10),
        age_on=before.age_on if age is None else room.today,
        activity=told.activity or before.activity,
        body_weight_dg=sized.body_weight_dg if weight_dg is None else weight_dg,
        height_mm=sized.height_mm if height_mm is None else height_mm,
        allergens=_allergens(before, told),
        dislikes=_dislikes(room, before, told),
    )
    figures = told.figures or _figures(before, member, room.today)
    energy_need(person_on(member, room.today), figures.edition)
    return replace(member, figures=figures)


def _refuse_age(age_years: Fraction | None) -> None:
    """Refuse an age below the first figure there is, and one nobody reaches."""
    if age_years is None or YOUNGEST_YEARS <= age_years <= OLDEST_YEARS:
        return
    if age_years < YOUNGEST_YEARS:
        raise TooYoungToList(age_years)
    shown, ages = f"{float(age_years):g}", f"{YOUNGEST_YEARS} to {OLDEST_YEARS}"
    raise BadInput("age", shown, f"an age from {ages} years")


def _allergens(before: Member, told: Told) -> tuple[Allergen, ...]:
    """The allergens said, each once and in one order, else those before."""
    return before.allergens if told.allergens is None else tuple(sorted(set(told.allergens)))


def _dislikes(room: Stockroom, before: Member, told: Told) -> tuple[Disliked, ...]:
    """The foods said, each once and by name, else those before."""
    if told.dislikes is None:
        return before.dislikes
    foods = [find_food(room, name) for name in told.dislikes]
    named = {Disliked(food.food_id, food.name) for food in foods}
    return tuple(sorted(named, key=lambda one: (one.food.casefold(), one.food_id)))


def _figures(before: Member, member: Member, today: date) -> Figures:
    """The figures of who says none: the usual ones, or others chosen before while they fit.

    The table gives way to the equation when an adult's size becomes known: it stood there for
    want of it.
    """
    usual = usual_figures(person_on(member, today))
    others = before.figures is not usual_figures(person_on(before, before.age_on))
    return before.figures if others and usual is not Figures.TABLE else usual
