"""Rechecks computed beside the best-by dates and stored with them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING

from stockroom.domain.conditions import Condition
from stockroom.domain.records import Climate, Package, StoredRecheck
from stockroom.store.package_rows import packages_by_ids
from stockroom.store.projections import checks_of, stays_of
from stockroom.store.recheck_rows import (
    bands_of,
    drop_rechecks,
    looked_at,
    save_rechecks,
    sound_of_soft_lots,
)
from stockroom.store.settings import read_settings

if TYPE_CHECKING:
    from stockroom.domain.recheck_schedule import RecheckFacts, RecheckSettings
    from stockroom.services.keeping import Surroundings
    from stockroom.store.connection import Store

Stays = Mapping[int, Sequence[tuple[date, int | None]]]
Checks = Mapping[int, Sequence[tuple[date, str]]]

FIRST_DAYS = "recheck.first_days"
SECOND_DAYS = "recheck.second_days"
LATER_DAYS = "recheck.later_days"
SET_ASIDE = "recheck.set_aside"
MOST_A_DAY = "recheck.most_a_day"


def recheck_settings(store: Store) -> RecheckSettings:
    """How often the household looks, on which weekdays and at how many packages a day."""
    from stockroom.domain.recheck_facts import STANDARD, RecheckSettings

    stored = read_settings(store)
    if not any(key.startswith("recheck.") for key in stored):
        return STANDARD
    days = stored.get(SET_ASIDE)
    return RecheckSettings(
        first_days=int(stored.get(FIRST_DAYS, STANDARD.first_days)),
        second_days=int(stored.get(SECOND_DAYS, STANDARD.second_days)),
        later_days=int(stored.get(LATER_DAYS, STANDARD.later_days)),
        set_aside=STANDARD.set_aside if days is None else frozenset(map(int, days.split())),
        most_a_day=int(stored.get(MOST_A_DAY, STANDARD.most_a_day)),
    )


def refresh_rechecks(
    store: Store,
    around: Surroundings,
    packages: Sequence[Package],
    stays: Stays,
    checks: Checks,
) -> None:
    """Compute and store the rechecks of these packages, whose projections are stored already.

    In a lot where one was ever found soft, each look counts for the sisters too, so theirs are
    computed again as well, be it that the softness was a slip.
    """
    sound = [one for one in packages if one.condition == Condition.SOUND]
    drop_rechecks(store, [one.package_id for one in packages if one.condition != Condition.SOUND])
    lots = looked_at(store, list({one.lot_id for one in packages}))
    _save(store, around, sound, stays, checks, lots)
    known = {one.package_id for one in packages}
    others = [one for one in sound_of_soft_lots(store, list(lots)) if one not in known]
    if others:
        sisters = packages_by_ids(store, others)
        _save(store, around, sisters, stays_of(store, others), checks_of(store, others), lots)


def _save(
    store: Store,
    around: Surroundings,
    packages: Sequence[Package],
    stays: Stays,
    checks: Checks,
    lots: Mapping[int, Mapping[int, bool]],
) -> None:
    if not packages:
        return
    from stockroom.domain.recheck_schedule import recheck_many

    facts = facts_for(store, around, packages, stays, checks, lots)
    answers = recheck_many(facts, recheck_settings(store))
    save_rechecks(
        store,
        [
            StoredRecheck(
                fact.package_id, answer.earliest_on, answer.wanted_on, answer.latest_on, answer.risk
            )
            for fact, answer in zip(facts, answers, strict=True)
        ],
    )


def facts_for(
    store: Store,
    around: Surroundings,
    packages: Sequence[Package],
    stays: Stays,
    checks: Checks,
    lots: Mapping[int, Mapping[int, bool]],
) -> list[RecheckFacts]:
    """What the schedule needs to know of each package, from its record."""
    from stockroom.domain.recheck_schedule import RecheckFacts

    bands = bands_of(store, [one.package_id for one in packages])
    made: list[RecheckFacts] = []
    for one in packages:
        food = around.foods[one.food_id]
        climate = around.climates.get(one.place_id or 0)
        best_by, low = bands.get(one.package_id, (None, None))
        looks = lots[one.lot_id]
        own = one.package_id in looks
        made.append(
            RecheckFacts(
                package_id=one.package_id,
                sealed_on=one.sealed_on,
                findings=tuple(checks[one.package_id]),
                moved_on=_moved_on(stays[one.package_id], one.sealed_on),
                package_kind=one.package_kind,
                vacuum=one.vacuum,
                absorber_cc=one.absorber_cc,
                food_class=one.food_class,
                fat_of_solids=food.fat_of_solids,
                sugars_of_solids=food.sugars_of_solids,
                best_by=best_by,
                low=low,
                warmest_dc=_warmest(climate),
                humidity_percent=None if climate is None else climate.humidity_percent,
                sisters_soft=sum(looks.values()) - (1 if own and looks[one.package_id] else 0),
                sisters_checked=len(looks) - own,
            )
        )
    return made


def _moved_on(stays: Sequence[tuple[date, int | None]], sealed_on: date) -> date | None:
    """The last day it went from one place to another; its first place is no move."""
    place: int | None = None
    moved: date | None = None
    for day, place_id in stays:
        if day < sealed_on:
            continue  # Of food packed anew: where it stood before.
        if place is not None and place_id != place:
            moved = day
        place = place_id
    return moved


def _warmest(climate: Climate | None) -> int | None:
    """The warmest month of a place, or its stated temperature, tenths of a degree C."""
    if climate is None:
        return None
    return max(climate.monthly_dc) if climate.monthly_dc else climate.temperature_dc
