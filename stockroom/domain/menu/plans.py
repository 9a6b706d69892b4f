"""A plan: the dishes of each day, the packages they take from, and the account of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stockroom.domain.cooking import Occasion


@dataclass(frozen=True, slots=True)
class PlannedDish:
    """A dish on a day; dishes of a day stand breakfast, main, extra, then by name."""

    on: date
    recipe_id: int
    name: str
    occasion: Occasion
    people: int
    locked: bool


@dataclass(frozen=True, slots=True)
class Taking:
    """So much fresh equivalent out of a package for a dish on a day."""

    on: date
    recipe_id: int
    package_id: int
    code: str
    food_id: int
    fresh_dg: int


@dataclass(frozen=True, slots=True)
class DayAccount:
    """What the dishes of a day give and take, beside the need; unknown counts as nought."""

    on: date
    dishes: int
    kcal: int
    need_kcal: int
    protein_dg: int
    need_protein_dg: int
    water_ml: int


@dataclass(frozen=True, slots=True)
class AtRisk:
    """A package due by the end of the plan or soon after it: what the plan uses, what it leaves.

    The kcal are None where the food's energy is not known.
    """

    package_id: int
    code: str
    food_id: int
    food_name: str
    due: date
    used_dg: int
    unused_dg: int
    used_kcal: int | None
    unused_kcal: int | None


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """An open package with food in it after the last day."""

    package_id: int
    code: str
    food_id: int
    fresh_dg: int


@dataclass(frozen=True, slots=True)
class Excluded:
    """A dish that could not be planned on any day, and why."""

    recipe_id: int
    name: str
    why: str


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to know about a plan, in one sentence; `on` where it is about one day."""

    subject: str
    words: str
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Account:
    """What a plan comes to. `value` is in points: the higher the better.

    Points are the worth of the at-risk food used, less those for food left open and for dishes
    that are not liked.
    """

    days: tuple[DayAccount, ...]
    at_risk: tuple[AtRisk, ...]
    left_open: tuple[LeftOpen, ...]
    excluded: tuple[Excluded, ...]
    findings: tuple[Finding, ...]
    value: int

    @property
    def saved_dg(self) -> int:
        """At-risk food the plan uses."""
        return sum(each.used_dg for each in self.at_risk)

    @property
    def unsaved_dg(self) -> int:
        """At-risk food it does not use."""
        return sum(each.unused_dg for each in self.at_risk)

    @property
    def left_open_dg(self) -> int:
        """Food left in open packages."""
        return sum(each.fresh_dg for each in self.left_open)

    @property
    def water_ml(self) -> int:
        """Water of all days."""
        return sum(each.water_ml for each in self.days)


@dataclass(frozen=True, slots=True)
class Plan:
    """A menu with every package it takes from."""

    dishes: tuple[PlannedDish, ...]
    takings: tuple[Taking, ...]
    account: Account


@dataclass(frozen=True, slots=True)
class Proof:
    """How good a plan is known to be: no plan is worth more than `bound` points.

    `gap_millionths` is how much more the best plan could be worth, of this plan's value; None
    with the bound None: nothing is proven.
    """

    value: int
    bound: int | None
    gap_millionths: int | None


def proof(value: int, bound: int | None) -> Proof:
    """The proof for a plan's value; a bound below the value counts as the value."""
    if bound is None:
        return Proof(value, None, None)
    top = max(bound, value)
    return Proof(value, top, -(-(top - value) * 1_000_000 // max(abs(value), 1)))
