"""What could take the place of foods a dish is short of, on paper."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from dataclasses import replace

from stockroom.domain.substitutes import Substitute, Substitution
from stockroom.reports.parts import spoken
from stockroom.reports.plain import clean
from stockroom.reports.values import (
    FLAG,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Prose,
    Row,
    Table,
)

_STAND_INS = (
    Column("instead_of", title="instead of", least=10),
    Column("food", title="take", least=10),
    Column("dry", WEIGHT, "dry"),
    Column("water", WATER_GRAMS, "water"),
    Column("preparation"),
    Column("same_group", FLAG),
    Column("same_class", FLAG),
    Column("new_allergens", WORDS),
    Column("check_ingredients", FLAG),
    Column("swap"),
)


def stand_in_blocks(short: Sequence[Substitution], *, taken: bool) -> tuple[Block, ...]:
    """The foods that could stand in and how to take one; taken, for programs alone."""
    rows = tuple(_row(one, option) for one in short for option in one.options)
    columns = _STAND_INS
    if taken:
        columns = tuple(replace(column, title="") for column in columns)
    without = tuple(
        f"Nothing on the shelves could stand in for {clean(one.food)}."
        for one in short
        if not one.options
    )
    # Below the table and not in it: what brings an allergen must never be cut short.
    mind = dict.fromkeys(
        words for one in short for option in one.options if (words := _mind(option))
    )
    swaps = [swap_words(one, option) for one in short for option in one.options]
    how = (f"To take one say --swap, such as --swap {shlex.quote(swaps[0])}.",) if swaps else ()
    return (
        Table("stand_ins", columns, rows, "What could stand in"),
        Prose("", () if taken else tuple(mind), bullet="- "),
        Prose("", () if taken else (*how, *without)),
    )


def swap_words(short: Substitution, option: Substitute) -> str:
    """A swap as `cook --swap` takes it: the recipe's own food, and the other."""
    return f"{short.line.need.instead_of or short.food}={option.food}"


def _row(short: Substitution, option: Substitute) -> Row:
    return (
        short.food,
        option.food,
        option.dry_dg,
        option.water_dg,
        option.preparation,
        option.same_group,
        option.same_class,
        option.new_allergens,
        option.check_ingredients,
        swap_words(short, option),
    )


def _mind(option: Substitute) -> str:
    """What is not as with the food itself, in a sentence; "" when nothing is."""
    words = [f"brings {spoken(one)}" for one in option.new_allergens]
    if option.check_ingredients:
        words.append("check what went into it for allergens")
    if option.preparation == "raw":
        words.append("raw: must be cooked after water is added")
    if not option.same_group:
        words.append("of another group")
    return f"{clean(option.food)}: {'; '.join(words)}." if words else ""
