"""A dish on paper: what to take, its water, what is short, what to mind, the meal's clock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from stockroom.domain.cooking import CookPlan, FreshNeed
from stockroom.domain.substitutes import Substitution
from stockroom.domain.wetted import MealCare
from stockroom.reports.cook_facts import care_fields, left_open, raw_table, whole_table
from stockroom.reports.cook_stand_ins import stand_in_blocks
from stockroom.reports.cook_water import water_blocks
from stockroom.reports.done import sentence
from stockroom.reports.meals import HOT_ROOM
from stockroom.reports.parts import caution_blocks
from stockroom.reports.plain import clean_lines
from stockroom.reports.values import (
    AMOUNT,
    COUNT,
    DAY,
    FLAG,
    MOMENT,
    SERVINGS,
    TEXT,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    document,
)
from stockroom.services.results import CookSheet, Done

_PICKS = (
    Column("food", title="food", least=10),
    Column("code", title="package"),
    Column("take", WEIGHT, "take dry"),
    Column("water", WATER_GRAMS, "water"),
    Column("leaves", WEIGHT, "leaves", drop=2),
    Column("opens", FLAG),
    Column("finishes", FLAG),
    Column("fresh_equivalent", WEIGHT),
    Column("best_by", DAY),
    Column("place", title="place", least=8, drop=1),
)


def cook_report(
    sheet: CookSheet,
    places: Mapping[str, str],
    done: Done | None = None,
    *,
    stand_ins: Sequence[Substitution] = (),
    by_clock: bool = True,
) -> Report:
    """A recipe for so many people: picks, waters, what is short, what to buy, what to mind.

    `places` says for each picked package's code where it stands; `done` is the meal, when the
    packages were taken: its instants are shown in the zone they are in. Without `by_clock` text
    says how long the meal may stand instead of until when. `stand_ins` is what could take the
    place of what is short.
    """
    plan = sheet.plan
    blocks: tuple[Block, ...] = (
        *_taken(done, by_clock=by_clock),
        _picks(plan, places),
        Prose("", _swapped(plan)),
        Fields(_heading(plan)),
        *water_blocks(sheet),
        whole_table(sheet, taken=done is not None),
        *left_open(sheet.left_open),
        Fields(care_fields(sheet)),
        raw_table(sheet.raw),
        _short(plan),
        *stand_in_blocks(stand_ins, taken=done is not None),
        _fresh(plan.fresh),
        Prose("steps", clean_lines(sheet.recipe.steps), "Steps"),
        *caution_blocks(sheet.cautions),
    )
    return document(_title(plan), blocks)


def _title(plan: CookPlan) -> str:
    """The dish and for how many."""
    if plan.servings is None:
        return f"{plan.name} for {plan.people}"
    return f"{plan.name}, {AMOUNT.to_csv(plan.servings)} servings"


def _taken(done: Done | None, *, by_clock: bool) -> tuple[Block, ...]:
    """That the meal was cooked, the packages it took from, and how long it may stand."""
    codes = () if done is None else done.codes
    fields = (
        Field("done", TEXT, None if done is None else done.words),
        Field("codes", WORDS, codes),
        Field("made", COUNT, None if done is None else done.made_id or None),
    )
    said = () if done is None else (sentence(done.words),)
    care = None if done is None else done.care
    return Prose("", said), Fields(fields), Fields(_clock(care, by_clock=by_clock))


def _clock(care: MealCare | None, *, by_clock: bool) -> tuple[Field, ...]:
    """The clock of a wetted meal."""
    if care is None:
        return ()
    return (
        Field("wetted_at", MOMENT, care.wetted_at),
        Field("out_until", MOMENT, care.out_until),
        Field("out_until_hot", MOMENT, care.out_until_hot),
        Field("chilled_until", DAY, care.chilled_until),
        Field("eat_at_once", FLAG, care.at_once),
        *_clock_words(care, by_clock=by_clock),
    )


def _clock_words(care: MealCare, *, by_clock: bool) -> tuple[Field, ...]:
    """The same in words."""
    if care.at_once:
        words = "now, and keep nothing of it: there is rehydrated egg in it"
        return (Field("", TEXT, words, "eat it"),)
    out = f"2 hours at most; in a room above {HOT_ROOM} 1 hour"
    if by_clock:
        hot = _time(care.out_until_hot, care)
        out = f"until {_time(care.out_until, care)}; in a room above {HOT_ROOM} until {hot}"
    until = care.chilled_until.isoformat()
    return (
        Field("", TEXT, out, "out of the cold", "; then discard it"),
        Field("", TEXT, f"use by the end of {until}", "chilled in time"),
    )


def _time(at: datetime, care: MealCare) -> str:
    """The time of day, and the day when it is another than that of wetting."""
    later = at.date() != care.wetted_at.date()
    return f"{at:%H:%M} on {at.date().isoformat()}" if later else f"{at:%H:%M}"


def _picks(plan: CookPlan, places: Mapping[str, str]) -> Table:
    """What to take, first in first out."""
    rows = tuple(
        (
            line.need.food_name,
            pick.candidate.code,
            pick.take_dg,
            pick.water_dg,
            pick.left_dg,
            pick.opens,
            pick.finishes,
            pick.fresh_dg,
            pick.candidate.best_by,
            places.get(pick.candidate.code, ""),
        )
        for line in plan.lines
        for pick in line.picks
    )
    return Table("picks", _PICKS, rows, "Take", empty="Nothing from the shelves.")


def _swapped(plan: CookPlan) -> tuple[str, ...]:
    """Which foods stand in for which."""
    return tuple(
        f"{line.need.food_name} stands in for {line.need.instead_of}."
        for line in plan.lines
        if line.need.instead_of
    )


def _heading(plan: CookPlan) -> tuple[Field, ...]:
    """The dish and for how many, for programs."""
    return (
        Field("recipe", TEXT, plan.name),
        Field("people", COUNT, plan.people),
        Field("servings", AMOUNT, plan.servings),
    )


_SHORT = (
    Column("food", title="food", least=12),
    Column("short", WEIGHT, "short by"),
    Column("counted_as", title="counted as"),
    Column("servings", SERVINGS, "servings"),
)


def _short(plan: CookPlan) -> Table:
    """What the shelves do not have, counted as the recipe counts it."""
    rows = tuple(
        (
            line.need.food_name,
            line.shortfall_dg,
            "dry" if line.need.counts_dry else "fresh equivalent",
            line.shortfall_servings,
        )
        for line in plan.short
    )
    return Table("short", _SHORT, rows, "Short: the shelves do not hold this")


_FRESH = (
    Column("item", title="item", least=12),
    Column("amount", AMOUNT, "amount"),
    Column("unit", title="unit"),
)


def _fresh(needs: Sequence[FreshNeed]) -> Table:
    """What does not come from the shelves."""
    rows = tuple((need.item, need.amount, need.unit) for need in needs)
    return Table("fresh", _FRESH, rows, "Fresh: to buy or to have in the kitchen")
