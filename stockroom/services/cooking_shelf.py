"""A plan for a dish that reads no more of the shelves than the dish takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.domain.cooking import CookPlan, ScaledRecipe, StoredNeed, cook_plan
from stockroom.domain.rotation import Candidate
from stockroom.services.session import Stockroom
from stockroom.store import candidate_rows

FIRST_PAGE = 8
"""Sealed packages of a food read at first: most dishes take fewer; engineering judgement."""


@dataclass(frozen=True, slots=True)
class _Shelf:
    """The packages of a food read so far, those used first; `page` is how many were asked for."""

    packages: tuple[Candidate, ...]
    page: int
    more: bool


def plan_from_shelf(room: Stockroom, scaled: ScaledRecipe) -> CookPlan:
    """The plan that all packages of the shelves would give.

    Packages are used by the day they were made and are read by whole days, so what was not read
    comes after all that was: once nothing is short, reading on could change nothing. While a food
    is short twice as much of it is read, so that reading and planning anew stay in proportion to
    what is taken.
    """
    needs: dict[int, list[StoredNeed]] = {}
    for one in scaled.lines:
        if isinstance(one, StoredNeed):
            needs.setdefault(one.food_id, []).append(one)
    shelves = {
        food_id: _read_for(room, food_id, _first(room, food_id), of_food)
        for food_id, of_food in needs.items()
    }
    while True:
        plan = cook_plan(scaled, {key: shelf.packages for key, shelf in shelves.items()})
        lacking = {line.need.food_id for line in plan.short}
        unread = [food_id for food_id in lacking if shelves[food_id].more]
        if not unread:
            return plan
        for food_id in unread:
            shelves[food_id] = _next(room, food_id, shelves[food_id])


def _read_for(room: Stockroom, food_id: int, shelf: _Shelf, needs: Sequence[StoredNeed]) -> _Shelf:
    """A shelf read on until its packages may cover the needs: before that no plan could do."""
    dry_dg = sum(need.wanted_dg for need in needs if need.counts_dry)
    fresh_dg = sum(need.wanted_dg for need in needs if not need.counts_dry)
    while shelf.more and (
        sum(one.available_dg for one in shelf.packages) < dry_dg
        or sum(one.fresh_dg for one in shelf.packages) < dry_dg + fresh_dg
    ):
        shelf = _next(room, food_id, shelf)
    return shelf


def _first(room: Stockroom, food_id: int) -> _Shelf:
    """The opened packages, and the first of the sealed ones."""
    opened = candidate_rows.opened_candidates(room.store, food_id)
    sealed = candidate_rows.sealed_candidates(room.store, food_id, after=None, least=FIRST_PAGE)
    return _Shelf((*opened, *sealed), FIRST_PAGE, len(sealed) >= FIRST_PAGE)


def _next(room: Stockroom, food_id: int, shelf: _Shelf) -> _Shelf:
    """The shelf with twice as many packages more."""
    page = 2 * shelf.page
    last = max(one.made_on for one in shelf.packages if not one.opened)
    sealed = candidate_rows.sealed_candidates(room.store, food_id, after=last, least=page)
    return _Shelf((*shelf.packages, *sealed), page, len(sealed) >= page)
