"""Default servings in fresh-equivalent grams, from data/servings.csv.

A default for planning only: the household's own serving replaces it. Most figures are drawn from
the reference amounts of 21 CFR 101.12(b) as remembered and are not shown as limits.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from stockroom.domain.foods import FoodGroup, Preparation
from stockroom.domain.working import Source, Standing
from stockroom.reference.sources import source_of, standing_of
from stockroom.reference.tables import ReferenceDamaged, Row, read_table, whole


@dataclass(frozen=True, slots=True)
class ServingSize:
    """One default serving."""

    serving_dg: int
    """Fresh-equivalent weight, tenths of a gram."""
    meaning: str
    """What the figure was drawn from, in words."""
    source: Source
    standing: Standing


@dataclass(frozen=True, slots=True)
class _Rule:
    """A serving and what it is for; an empty part applies to all."""

    group: str
    preparation: str
    food_key: str
    serving: ServingSize


def serving_for(
    group: FoodGroup, preparation: Preparation | None = None, food_key: str = ""
) -> ServingSize:
    """The default serving: the food's own row, else its group and preparation, else its group."""
    wanted = ("", "", food_key) if food_key else None
    rules = {(rule.group, rule.preparation, rule.food_key): rule.serving for rule in _rules()}
    if wanted is not None and wanted in rules:
        return rules[wanted]
    by_preparation = rules.get((group.value, preparation.value if preparation else "", ""))
    if by_preparation is not None:
        return by_preparation
    return rules[(group.value, "", "")]


@cache
def _rules() -> tuple[_Rule, ...]:
    """Every row of the table; each group must have a row of its own."""
    rules = tuple(_rule(row) for row in read_table("servings"))
    plain = {rule.group for rule in rules if not rule.preparation and not rule.food_key}
    for group in FoodGroup:
        if group.value not in plain:
            raise ReferenceDamaged("servings", f"there is no row for {group.value}")
    return rules


def _rule(row: Row) -> _Rule:
    """One row of the table."""
    serving = ServingSize(
        whole("servings", row, "serving_g") * 10,
        row["meaning"],
        source_of("servings", row),
        standing_of("servings", row),
    )
    return _Rule(row["group"], row["preparation"], row["food_key"], serving)
