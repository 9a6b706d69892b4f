"""The Round: what wants doing today."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.doubts import Doubt, doubt_of
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Lot, Package
from stockroom.services.rechecks import rechecks_today
from stockroom.services.results import RoundPage
from stockroom.services.session import Stockroom
from stockroom.store import (
    doubt_rows,
    evidence_rows,
    lot_rows,
    package_rows,
    queue_rows,
    run_rows,
)

USE_FIRST_SHOWN = 12

MANY_LOTS = 2000
"""From here on looking through all lots takes longer than all else on the page together: 2.6 ms
were measured (engineering judgement)."""


def round_for_today(
    room: Stockroom, *, use_first: int = USE_FIRST_SHOWN, with_lots: bool = True
) -> RoundPage:
    """Settle checks due, doubtful and open packages, what to use first, what waits on the bench.

    A screen may leave the lots to pack out, when `lots_are_many`, and read them with
    `lots_for_today` once the rest is painted.
    """
    store, today = room.store, room.today
    # A package sealed on this day or before is due: the rule turned round.
    sealed_by = today - (settle_check_due(today) - today)
    suspect = package_rows.packages_in_condition(store, "suspect")
    due = rechecks_today(room)
    return RoundPage(
        today=today,
        settle=tuple(package_rows.settling_due(store, sealed_by)),
        suspect=tuple(suspect),
        held=tuple(package_rows.packages_in_condition(store, "held")),
        opened=tuple(package_rows.packages_in_condition(store, "opened")),
        use_first=tuple(package_rows.use_first(store, count=use_first)),
        to_pack=lots_for_today(room) if with_lots else (),
        open_runs=tuple(run_rows.open_runs(store)),
        recheck=due.packages,
        looks=due.looks,
        recheck_waiting=due.waiting,
        queue=tuple(queue_rows.queue(store)),
        reminders=tuple(evidence_rows.extra_dryings_waited_for(store)),
        doubts=doubts_of(room, suspect),
    )


def doubts_of(room: Stockroom, packages: Sequence[Package]) -> tuple[Doubt, ...]:
    """Why each of these suspect packages is doubtful, in their order."""
    ids = [one.package_id for one in packages]
    happened = doubt_rows.doubtful_events(room.store, ids)
    decided = doubt_rows.last_decisions(room.store, ids)
    return tuple(doubt_of(happened[one], decided.get(one)) for one in ids)


def lots_are_many(room: Stockroom) -> bool:
    """Whether finding the lots to pack takes long: each is weighed against all its packages."""
    return lot_rows.latest_lot_id(room.store) > MANY_LOTS


def lots_for_today(room: Stockroom) -> tuple[Lot, ...]:
    """Lots with something left to pack, the oldest first."""
    return tuple(lot_rows.lots_to_pack(room.store))
