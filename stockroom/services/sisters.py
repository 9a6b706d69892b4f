"""Packages that share a drying: one gone soft makes the others doubtful."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.conditions import Condition, Event, events_for, next_condition
from stockroom.domain.records import Package
from stockroom.services.acting import Act
from stockroom.services.session import Stockroom
from stockroom.store import package_rows, queue_rows


def doubt_sisters(room: Stockroom, act: Act, package: Package) -> tuple[str, ...]:
    """Make every sealed or opened sister of a soft package suspect; their codes.

    Sisters share the drying: packages of one lot out of the run, or those dried again and sealed
    on one day, wherever their food went since. One soft package makes the others doubtful
    (engineering judgement).
    """
    codes: list[str] = []
    dried_on = _dried_again_on(room, package)
    for sister in package_rows.packages_of_lot(room.store, package.lot_id):
        condition = Condition(sister.condition)
        own = sister.package_id == package.package_id
        if own or Event.SISTER_SOFT not in events_for(condition):
            continue
        if _dried_again_on(room, sister) != dried_on:
            continue
        after = next_condition(condition, Event.SISTER_SOFT)
        package_rows.set_condition(room.store, sister.package_id, after)
        note = f"{package.code} went soft"
        package_rows.insert_event(
            room.store,
            package_id=sister.package_id,
            on_day=act.today,
            event=Event.SISTER_SOFT,
            from_condition=condition,
            to_condition=after,
            note=note,
        )
        codes.append(sister.code)
    return tuple(codes)


def _dried_again_on(room: Stockroom, package: Package) -> date | None:
    """The day its food was sealed after it was last dried again; None when it never was."""
    while package.origin == "repacked":
        source_id = queue_rows.first_sources(room.store, [package.package_id])[package.package_id]
        (package,) = package_rows.packages_by_ids(room.store, [source_id])
    return package.sealed_on if package.origin == "redried" else None


def doubted_words(package: Package, sisters: Sequence[str]) -> str:
    """How many sisters became suspect, in words."""
    many = "1 sister" if len(sisters) == 1 else f"{len(sisters)} sisters"
    return f"{many} of lot {package.lot_code} now suspect"
