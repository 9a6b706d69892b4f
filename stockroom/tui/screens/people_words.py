"""The household's people as rows and lines."""

from __future__ import annotations

from stockroom.domain.household_need import PLANNING_ONLY, HouseholdNeed, MemberNeed
from stockroom.domain.member_records import Member
from stockroom.domain.member_sizes import show_member_height, show_member_weight
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.working import Standing
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone

COLUMNS = (
    Column("Name", 10, weight=2, look="main"),
    Column("Age", 3, align="right"),
    Column("kcal/day", 8, align="right"),
    Column("Protein", 7, align="right", priority=1),
    Column("Must not get", 12, weight=2, look="tone"),
    Column("Would rather not", 16, weight=1, priority=2, look="quiet"),
)
NOBODY = (
    "Nobody is listed yet: everybody counts as an average adult. Press n to add a person with age,"
    " allergens and what they would rather not eat."
)
CARE = (
    f"{PLANNING_ONLY} No honey in any form under 12 months. Special needs: follow licensed"
    " guidance."
)
NOTHING = "nothing named"


def summary(need: HouseholdNeed) -> str:
    """The total in one line."""
    people = "1 person" if need.counted == 1 else f"{need.counted} people"
    return (
        f"{float(need.kcal_per_day):,.0f} kcal, {float(need.protein_g):,.0f} g of protein a day"
        f" · {people}"
    )


def total_lines(need: HouseholdNeed) -> list[str]:
    """What the total rests on, where it is not the people listed alone."""
    return [text for text in (need.others_words, need.more_than_set) if text]


def member_row(one: MemberNeed) -> Row:
    """A person on one line."""
    member = one.member
    tone: Tone = "due" if member.allergens else ""
    cells = (
        member.name,
        str(one.age_years),
        f"{float(one.kcal_per_day):.0f}",
        f"{float(one.protein_g):.0f} g",
        allergen_words(member) or "-",
        dislike_words(member) or "-",
    )
    return Row(member.member_id, cells, tone)


def member_lines(one: MemberNeed, units: UnitSystem) -> list[str]:
    """All about a person."""
    member, person = one.member, one.need.person
    who = [f"{member.name}, {person.words}, {one.age_years} years", member.activity.words]
    if member.body_weight_dg is not None:
        who.append(show_member_weight(member.body_weight_dg, units))
    if member.height_mm is not None:
        who.append(show_member_height(member.height_mm, units))
    standing = one.need.source.standing
    by = member.figures.words.replace(" ", " of ")
    stands = "" if standing is Standing.PUBLISHED else f", {standing.words}"
    return [
        " · ".join(who),
        f"{float(one.kcal_per_day):.0f} kcal by the {by}{stands} ·"
        f" {float(one.protein_g):.0f} g of protein",
        f"Must not get: {allergen_words(member) or NOTHING} · would rather not eat:"
        f" {dislike_words(member) or NOTHING}",
        *one.remarks,
    ]


def allergen_words(member: Member) -> str:
    """What a person must not get; "" for nothing."""
    return ", ".join(one.words for one in member.allergens)


def dislike_words(member: Member) -> str:
    """What a person would rather not eat; "" for nothing."""
    return ", ".join(one.food for one in member.dislikes)
