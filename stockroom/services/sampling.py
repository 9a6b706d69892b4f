"""Which packages of a lot or a place to look at, and what the looks say of the others."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import zip_longest
from random import Random

from stockroom.domain.belief import believe, others
from stockroom.domain.belief_working import belief_working
from stockroom.domain.codes import read_code
from stockroom.domain.conditions import Condition, Event
from stockroom.domain.faults import Finding
from stockroom.domain.records import Package, Place
from stockroom.domain.sample_page import SURE, SamplePage, Wish
from stockroom.domain.sampling import LookedAt, Sample, most_soft, sample_size
from stockroom.domain.sampling_working import sample_working
from stockroom.domain.walking import WalkingOrder, walking_order
from stockroom.domain.working import Working
from stockroom.errors import BadInput, Refused
from stockroom.services.finding import find_lot, find_place
from stockroom.services.packages import FINDINGS
from stockroom.services.session import Stockroom
from stockroom.store import package_rows, place_rows, projections, shelf_search
from stockroom.store.shelf_search import ShelfFilter

ONE_IN = 10
"""Where nobody says how many soft ones could be lived with: one in ten (engineering judgement)."""
SEALED = (Condition.SETTLING, Condition.SOUND, Condition.SUSPECT)
"""Conditions of packages that can be picked: sealed, on the shelf, not held or opened."""
_BATCH = 500
"""Packages read by one statement."""


class NothingToSample(Refused):
    """There is no sealed package to pick from."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"{name} has no sealed package to look at.",
            "Name a lot or a place with sealed packages in it.",
        )


def sample_of(room: Stockroom, name: str, wish: Wish | None = None) -> SamplePage:
    """Which packages of a lot or a place to look at, and what the looks so far say.

    `name` is a lot's code or a place. The same day picks the same packages. Raises
    NothingToSample, NotFound, BadInput, ImpossibleSample.
    """
    wish = wish or Wish()
    title, food, packages, found = _group(room, name, wish.since or room.today)
    soft = sum(what == Event.SOFT for what in found.values())
    sample = _sample(wish, len(packages))
    return SamplePage(
        name=title,
        food=food,
        wish=wish,
        sample=sample,
        picks=_picks(room, title, packages, found, sample),
        packages=tuple(sorted(packages, key=_walking)),
        found=found,
        checked=len(found),
        soft=soft,
        left=others(believe(len(found), soft, wish.prior), len(packages) - len(found)),
        by_now=_by_now(wish, len(packages), len(found), soft),
    )


def sample_workings(room: Stockroom, name: str, wish: Wish | None = None) -> tuple[Working, ...]:
    """How the number to look at and the belief about the others were reached."""
    page = sample_of(room, name, wish)
    wish, lot = page.wish, page.sample.lot
    return (
        sample_working(
            lot, page.sample.at_most, wish.confidence, accept=0, sensitivity=wish.sensitivity
        ),
        belief_working(page.checked, page.soft, wish.prior, lot - page.checked),
    )


def _group(
    room: Stockroom, name: str, since: date
) -> tuple[str, str, Sequence[Package], dict[str, str]]:
    """The title, the food, the packages that a lot's code or a place stands for, what was found.

    Sealed ones, and those looked at since that were sealed then: what the look opened, and what
    became of soft ones, is as much a part of the group as before.
    """
    if _is_lot(name):
        lot = find_lot(room, name)
        title, food = lot.code, lot.food
        packages = package_rows.packages_of_lot(room.store, lot.lot_id)
    else:
        place = find_place(room, name)
        title, food = place.path, ""
        packages = _stood_in(room, place, since)
    found = _found(room, packages, since)
    counted = [one for one in packages if _counts(one, found, since)]
    if not counted:
        raise NothingToSample(title)
    return title, food, counted, {one.code: found[one.code] for one in counted if one.code in found}


def _counts(package: Package, found: dict[str, str], since: date) -> bool:
    """Whether a package is sealed, or was when it was looked at."""
    if package.opened_on is None:
        return package.condition in SEALED or package.code in found
    return package.opened_on >= since and package.code in found


def _stood_in(room: Stockroom, place: Place, since: date) -> list[Package]:
    """What is sealed in a place and below it, and what stood there when it was looked at since."""
    sealed = ShelfFilter(place_id=place.place_id, conditions=SEALED)
    here = set(place_rows.ids_below(room.store, place.place_id))
    seen = projections.first_looks(room.store, since)
    stays = projections.stays_of(room.store, list(seen))
    were = [one for one, day in seen.items() if _place_on(stays[one], day) in here]
    ids = list(dict.fromkeys((*shelf_search.package_ids(room.store, sealed), *were)))
    starts = range(0, len(ids), _BATCH)
    batches = (package_rows.packages_by_ids(room.store, ids[at : at + _BATCH]) for at in starts)
    return [one for batch in batches for one in batch]


def _place_on(stays: Sequence[tuple[date, int | None]], day: date) -> int | None:
    """Where a package stood on a day, before it was moved if that was the day of a move."""
    ends = [began for began, _ in stays[1:]]
    left = zip_longest(stays, ends)
    return next((place for (_, place), end in left if end is None or end >= day), None)


def _is_lot(name: str) -> bool:
    """Whether what was typed is a lot's code rather than a place."""
    try:
        return read_code(name).kind == "lot"
    except BadInput:
        return False


def _found(room: Stockroom, packages: Sequence[Package], since: date) -> dict[str, str]:
    """Code → the last finding since a day, of those looked at since."""
    looks = projections.checks_of(room.store, [one.package_id for one in packages])
    found: dict[str, str] = {}
    for one in packages:
        last = _last_since(looks[one.package_id], since)
        if last:
            found[one.code] = last
    return found


def _last_since(looks: Sequence[Finding], since: date) -> str:
    later = [found for day, found in looks if day >= since and found in FINDINGS]
    return later[-1] if later else ""


def _sample(wish: Wish, lot: int) -> Sample:
    """The sample; where nobody says, a single package may not be soft."""
    usual = min(max(1, lot // ONE_IN), lot - 1)
    at_most = usual if wish.at_most is None else wish.at_most
    return sample_size(lot, at_most, wish.confidence, sensitivity=wish.sensitivity)


def _picks(
    room: Stockroom,
    title: str,
    packages: Sequence[Package],
    found: dict[str, str],
    sample: Sample,
) -> tuple[Package, ...]:
    """What to look at: those looked at already, then by lot, place by place as one walks."""
    wanted = len(packages) if sample.inspect is None else sample.inspect
    # All are shuffled, so that each look leaves the rest of the picks as they were.
    order = sorted(packages, key=lambda one: one.package_id)
    Random(f"{title} {room.today.isoformat()}").shuffle(order)
    done = [one for one in order if one.code in found]
    waiting = [one for one in order if one.code not in found]
    picked = (*done, *waiting[: max(0, wanted - len(done))])
    return tuple(sorted(picked, key=_walking))


def _walking(package: Package) -> WalkingOrder:
    return walking_order(package.place, package.code)


def _by_now(wish: Wish, lot: int, checked: int, soft: int) -> LookedAt | None:
    if checked == 0 or (soft and wish.sensitivity < SURE):
        return None
    return most_soft(lot, checked, soft, wish.confidence, sensitivity=wish.sensitivity)
