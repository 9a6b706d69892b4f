"""Menus as the record keeps them, and as they are asked for, offered and shown."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.caution_table import Caution
from stockroom.domain.cooking import FreshNeed, Occasion
from stockroom.domain.menu.plans import Account, Finding, Plan, Proof
from stockroom.domain.menu.records import Concession, Question
from stockroom.domain.menu_wishes import MenuWishes

PLANNING_FIGURES = (
    "Planning figures: energy, protein and water follow the foods' tables and what is on the"
    " shelves, and are no advice on what anybody should eat. What a dish takes is decided when it"
    " is cooked, first in first out."
)


@dataclass(frozen=True, slots=True)
class StoredMenu:
    """A menu that was kept; `wishes` is the stored JSON."""

    menu_id: int
    made_on: date
    from_day: date
    days: int
    wishes: str
    gap_millionths: int | None


@dataclass(frozen=True, slots=True)
class StoredDish:
    """A dish of a kept menu; without a recipe once that was taken out of the book."""

    dish_id: int
    menu_id: int
    on: date
    position: int
    recipe_id: int | None
    name: str
    people: int
    locked: bool
    meal_id: int | None
    occasion: Occasion

    @property
    def cooked(self) -> bool:
        """Whether it was cooked."""
        return self.meal_id is not None


@dataclass(frozen=True, slots=True)
class MenuStock:
    """A package that may be eaten from: what is left in it, dry and with its water."""

    package_id: int
    code: str
    food_id: int
    dry_dg: int
    water_dg: int
    best_by: date | None
    opened: bool
    goes: bool
    """It may have to go for its moisture one day: never planned past its best-by."""
    raw: bool
    place: str

    @property
    def fresh_dg(self) -> int:
        """The fresh equivalent of what is left."""
        return self.dry_dg + self.water_dg


@dataclass(frozen=True, slots=True)
class Swap:
    """Another recipe in place of a dish of the kept menu; both by name."""

    on: date
    dish: str
    recipe: str


@dataclass(frozen=True, slots=True)
class MenuRequest:
    """What a menu is asked for. Dishes locked in the kept menu stay where they are."""

    from_day: date
    days: int
    wishes: MenuWishes
    swap: Swap | None = None


@dataclass(frozen=True, slots=True)
class MenuDish:
    """A dish as a menu shows it; amounts are of the whole dish, None where not known."""

    on: date
    name: str
    occasion: Occasion
    people: int
    kcal: int | None
    protein_dg: int | None
    water_ml: int | None
    locked: bool
    cooked: bool = False
    why_not: str = ""
    """Why it cannot be cooked as planned any more; "" when it can."""
    dish_id: int = 0
    """Its number in the record; 0 for a menu that is not kept."""
    has_recipe: bool = True

    @property
    def mark(self) -> str:
        """Its state in a word; "" for a dish that is simply planned."""
        if self.cooked:
            return "cooked"
        if self.why_not:
            return "not now"
        return "locked" if self.locked else ""


@dataclass(frozen=True, slots=True)
class PackageUse:
    """What the plan takes out of one package over all days, as fresh equivalent."""

    code: str
    food: str
    place: str
    first_on: date
    fresh_dg: int
    finishes: bool


@dataclass(frozen=True, slots=True)
class MenuPage:
    """A menu with its account, kept or only offered."""

    first_day: date
    last_day: date
    wishes: MenuWishes
    dishes: tuple[MenuDish, ...]
    account: Account
    """Of what is still to be cooked."""
    shopping: tuple[FreshNeed, ...]
    packages: tuple[PackageUse, ...]
    findings: tuple[Finding, ...]
    proven: str
    """How near the best it is, in words."""
    kept: bool
    stale: tuple[str, ...] = ()
    """What has changed since it was kept, a sentence each."""
    give_up: tuple[str, ...] = ()
    """Wishes it does not keep, a sentence each."""
    options: tuple[str, ...] = ()
    """The wishes to change for that, as options to type."""
    cautions: tuple[Caution, ...] = ()

    def on(self, day: date) -> tuple[MenuDish, ...]:
        """The dishes of a day."""
        return tuple(dish for dish in self.dishes if dish.on == day)


@dataclass(frozen=True, slots=True)
class MenuOffer:
    """A plan that could be kept, with what it was made from.

    `eased` are the wishes under which all of it fits: those asked for when nothing is given up.
    """

    request: MenuRequest
    question: Question
    plan: Plan
    proof: Proof
    ending: str
    seconds: float
    concessions: tuple[Concession, ...]
    eased: MenuWishes
    page: MenuPage


def add_up(needs: Iterable[FreshNeed]) -> tuple[FreshNeed, ...]:
    """Fresh items added up by item and unit, by name; "some" stays apart from amounts."""
    totals: dict[tuple[str, str, bool], FreshNeed] = {}
    for need in needs:
        key = (need.item.casefold(), (need.unit or "").casefold(), need.amount is None)
        before = totals.get(key)
        if before is None:
            totals[key] = need
        elif need.amount is not None:
            amount = (before.amount or Fraction()) + need.amount
            totals[key] = FreshNeed(before.item, amount, before.unit)
    return tuple(totals[key] for key in sorted(totals))


def proven_words(proof: Proof, at_risk: bool) -> str:
    """How much better a plan could be, from its proof; `at_risk` is whether food is at risk."""
    if proof.bound is None or proof.gap_millionths is None:
        return "It is not known how much better a menu could be."
    if not at_risk and proof.bound <= proof.value:
        return "Nothing is at risk of being wasted in these days, and no menu is better."
    if proof.bound <= proof.value:
        return "Proven: no menu can save more."
    if proof.value <= 0:
        return f"No menu can be better by more than {(proof.bound - proof.value) / 10:.1f} g saved."
    return gap_words(proof.gap_millionths)


def gap_words(gap_millionths: int | None) -> str:
    """A stored gap in words; percent to the next tenth upwards."""
    if gap_millionths is None:
        return "It was not known how much better a menu could be."
    if gap_millionths == 0:
        return "Proven: no menu can save more."
    return f"Proven: no menu can save more than {-(-gap_millionths // 1_000) / 10:.1f} % more."
