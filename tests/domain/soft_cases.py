"""Packages found soft, for the tests: times with what they mean, written out by hand."""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

from hypothesis import strategies as st

from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.soft_decision import Feel, Signs, SoftFacts, Tightness

FOUND = date(2026, 11, 25)


class Time(NamedTuple):
    """When a package was sealed, last crisp and decided on, and what that comes to."""

    sealed: int | None
    """Days before it was found."""
    hours: int | None
    crisp: int | None
    """Days before it was found; None for never looked at."""
    decided: int
    """Days after it was found."""
    frozen: bool | None
    comes_to: str
    """day (within 24 hours), few (soft for 3 days at most), late, or nobody knows: late."""
    chilled: str
    """few or late for chilled food, whose clock does not stop in the freezer."""


TIMES = (
    Time(0, None, None, 0, None, "day", "few"),
    Time(0, 24, None, 0, None, "day", "few"),
    Time(0, 25, None, 0, None, "few", "few"),
    Time(1, None, None, 0, None, "few", "few"),
    Time(1, 24, None, 0, None, "day", "few"),
    Time(1, 25, None, 0, None, "few", "few"),
    Time(1, 0, 0, 0, None, "day", "few"),
    Time(2, 24, None, 0, None, "few", "few"),
    Time(3, None, None, 0, None, "few", "few"),
    Time(4, None, None, 0, None, "late", "late"),
    Time(300, None, None, 0, None, "late", "late"),
    Time(300, None, 3, 0, None, "few", "few"),
    Time(300, None, 4, 0, None, "late", "late"),
    Time(300, None, 0, 0, None, "few", "few"),
    Time(0, 5, None, 1, None, "day", "few"),
    Time(0, 5, None, 2, None, "few", "few"),
    Time(0, 5, None, 4, False, "late", "late"),
    Time(0, 5, None, 4, True, "day", "late"),
    Time(1, 20, None, 30, None, "late", "late"),
    Time(1, 20, None, 30, True, "day", "late"),
    Time(300, None, 2, 1, None, "few", "few"),
    Time(300, None, 2, 2, None, "late", "late"),
    Time(300, None, 2, 2, True, "few", "late"),
    Time(None, 5, None, 0, None, "late", "late"),
    Time(None, None, 1, 0, None, "late", "late"),
    Time(-1, 5, None, 0, None, "late", "late"),
    Time(2, None, 5, 0, None, "few", "few"),
    Time(10, None, -2, 0, None, "late", "late"),
)
"""The last four are records that cannot be: they count as the stricter."""


def facts_at(time: Time, **known: object) -> SoftFacts:
    """A soft package of vegetable in a low-oxygen package at a time, and what else is known."""
    base: dict[str, object] = {
        "food_class": FoodClass.VEGETABLE,
        "preparation": Preparation.COOKED,
        "low_oxygen": True,
        "sealed_on": None if time.sealed is None else FOUND - timedelta(days=time.sealed),
        "found_on": FOUND,
        "decided_on": FOUND + timedelta(days=time.decided),
        "last_crisp_on": None if time.crisp is None else FOUND - timedelta(days=time.crisp),
        "hours_since_sealing": time.hours,
        "frozen_since_found": time.frozen,
    }
    return SoftFacts(**{**base, **known})  # pyright: ignore[reportArgumentType]


def maybe(one: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    """Known, or None."""
    return st.none() | one


DAYS = st.integers(-3, 40)
ANY_FACTS = st.builds(
    SoftFacts,
    food_class=st.sampled_from(FoodClass),
    preparation=st.sampled_from(Preparation),
    low_oxygen=st.booleans(),
    sealed_on=maybe(DAYS.map(lambda days: FOUND - timedelta(days=days))),
    found_on=st.just(FOUND),
    decided_on=DAYS.map(lambda days: FOUND + timedelta(days=days)),
    acid=maybe(st.booleans()),
    last_crisp_on=maybe(DAYS.map(lambda days: FOUND - timedelta(days=days))),
    hot_room=st.booleans(),
    signs=maybe(st.sampled_from(Signs)),
    feel=maybe(st.sampled_from(Feel)),
    hours_since_sealing=maybe(st.integers(-5, 60)),
    frozen_since_found=maybe(st.booleans()),
    kept_cold=maybe(st.booleans()),
    minutes_out=maybe(st.integers(-10, 300)),
    tightness=maybe(st.sampled_from(Tightness)),
)
"""Anything that can be put into the facts, records that cannot be included."""
