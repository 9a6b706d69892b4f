"""What would keep food from passing its best-by: weighed up for each food that loses some."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.domain.horizon.advice import (
    Advice,
    AdviceKind,
    FoodCase,
    best_of,
    cook_it,
    eat_more,
    give_away,
    keep_longer,
    ranked,
)
from stockroom.domain.horizon.eating import FoodEating
from stockroom.domain.horizon.pages import FoodHorizon, HorizonPage
from stockroom.domain.records import Package
from stockroom.services.horizon_shelf import MenuUses
from stockroom.services.session import Stockroom
from stockroom.services.whatif import what_if
from stockroom.store import package_rows

MOST_PACKAGES = 400
"""Packages looked at for a move or a repacking, those with the most to lose."""
MOST_KINDS = 40
"""Kinds of package the keeping model is asked about: each costs a dozen projections."""
_BATCH = 200

Progress = Callable[[int, int], None]
Cancelled = Callable[[], bool]


@dataclass(frozen=True, slots=True)
class _Other:
    """A way to keep some packages longer, and until when each would keep then."""

    kind: AdviceKind
    words: str
    place: str
    best_by: dict[int, date]


def advice_for(
    room: Stockroom,
    page: HorizonPage,
    paces: Mapping[int, FoodEating],
    menu: MenuUses,
    dishes: Mapping[int, Sequence[tuple[str, Fraction]]],
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> tuple[tuple[Advice, ...], int]:
    """Ranked advice for the foods of a forecast that lose some, and how much was not looked at.

    `dishes` are the recipes that take each food, with the servings one cooking takes. The second
    answer is the number of packages too many to ask the keeping model about.
    """
    losing = [one for one in page.foods if one.unused_servings]
    if not losing:
        return (), 0
    cases = {one.food.food_id: _case(one, page, paces, menu) for one in losing}
    groups, left = _groups(room, losing)
    others = _others(room, groups, progress, cancelled)
    found: list[Advice | None] = []
    for one in losing:
        food_id = one.food.food_id
        case = cases[food_id]
        found.append(eat_more(case))
        found.append(
            best_of(
                advice
                for recipe, servings in dishes.get(food_id, ())
                if (advice := cook_it(case, recipe, servings)) is not None
            )
        )
        found.extend(_kept_longer(case, others.get(food_id, ())))
        found.append(give_away(case))
    return ranked(one for one in found if one is not None), left


def _case(
    one: FoodHorizon, page: HorizonPage, paces: Mapping[int, FoodEating], menu: MenuUses
) -> FoodCase:
    """The food with everything its forecast was made of."""
    food = one.food
    return FoodCase(
        food.food_id,
        food.name,
        food.serving_dg,
        tuple(each.package for each in one.forecast.packages),
        paces.get(food.food_id),
        tuple(use for use in menu.uses if use.food_id == food.food_id),
        page.today,
        page.days,
        one.forecast,
        menu.last_days.get(food.food_id),
    )


def _groups(
    room: Stockroom, losing: Sequence[FoodHorizon]
) -> tuple[list[tuple[int, list[Package]]], int]:
    """Sealed packages that lose some, alike in all the model sees, with their food.

    The number is that of packages beyond what is looked at, those that lose least.
    """
    wasted = sorted(
        (-each.unused_servings * one.food.serving_dg, each.package.package_id)
        for one in losing
        for each in one.unused
        if not each.package.opened
    )
    ids = [package_id for _, package_id in wasted[:MOST_PACKAGES]]
    alike: dict[tuple[object, ...], list[Package]] = {}
    for start in range(0, len(ids), _BATCH):
        for one in package_rows.packages_by_ids(room.store, ids[start : start + _BATCH]):
            key = (one.lot_id, one.container_key, one.absorber_cc, one.vacuum, one.place_id)
            alike.setdefault((*key, one.sealed_on, one.best_by), []).append(one)
    kinds = list(alike.values())
    looked_at = kinds[:MOST_KINDS]
    left = len(wasted) - sum(map(len, looked_at))
    return [(some[0].food_id, some) for some in looked_at], left


def _others(
    room: Stockroom,
    groups: Sequence[tuple[int, list[Package]]],
    progress: Progress | None,
    cancelled: Cancelled | None,
) -> dict[int, list[_Other]]:
    """By food: each place its packages could go to, and the best repacking of each."""
    found: dict[int, dict[tuple[AdviceKind, str], _Other]] = {}
    for number, (food_id, packages) in enumerate(groups, start=1):
        if cancelled is not None and cancelled():
            break
        for kind, words, place, best_by in _ways(room, packages[0]):
            ways = found.setdefault(food_id, {})
            way = ways.setdefault((kind, place), _Other(kind, words, place, {}))
            way.best_by.update((one.package_id, best_by) for one in packages)
        if progress is not None:
            progress(number, len(groups))
    return {food_id: list(ways.values()) for food_id, ways in found.items()}


def _ways(room: Stockroom, package: Package) -> Iterator[tuple[AdviceKind, str, str, date]]:
    """Every place where a package keeps longer, and its best repacking."""
    repacked = False
    for choice in what_if(room, package.code).choices:
        if choice.best_by is None or choice.gain_days <= 0:
            continue
        if choice.kind == "move":
            yield AdviceKind.MOVE, choice.words, choice.place, choice.best_by
        elif not repacked:
            # Choices come with the best one first.
            repacked = True
            yield AdviceKind.REPACK, choice.words, "", choice.best_by


def _kept_longer(case: FoodCase, others: Sequence[_Other]) -> Iterator[Advice | None]:
    """The best move and the best repacking of a food."""
    for kind in (AdviceKind.MOVE, AdviceKind.REPACK):
        # Of ways that save as much, the one by which the packages keep longest in all goes first.
        ways = sorted(
            (one for one in others if one.kind is kind),
            key=lambda one: -sum(day.toordinal() for day in one.best_by.values()),
        )
        yield best_of(
            keep_longer(case, kind, _spoken(one), one.best_by, place=one.place) for one in ways
        )


def _spoken(one: _Other) -> str:
    """A way in words, as something to do."""
    if one.kind is AdviceKind.MOVE:
        return f"move to {one.place}"
    return "dry again and repack: " + one.words.removeprefix("dried again and repacked: ")
