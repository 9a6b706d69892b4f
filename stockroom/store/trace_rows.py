"""Following packages: what shares a lot, a run, an absorber packet or a box, and what was found."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from stockroom.domain.common_ground import LookedAt
from stockroom.domain.trace_records import GroupKind, MealMade
from stockroom.store.connection import Store
from stockroom.store.place_rows import place_paths
from stockroom.store.rows import day, marks, text_of

_OF_LOT = "SELECT id FROM package WHERE lot_id IN ({marks})"
# Food of a run: its lots, food held in a package or left of a lot that was dried again in it. A
# lot's packages sealed on the very day count: on that day nobody can tell which came after.
_OF_RUN = """
    SELECT package.id FROM lot JOIN package ON package.lot_id = lot.id
    WHERE lot.run_id IN ({marks})
    UNION SELECT redrying.package_id FROM tray JOIN redrying ON redrying.tray_id = tray.id
    WHERE tray.run_id IN ({marks}) AND redrying.package_id IS NOT NULL
    UNION SELECT package.id FROM tray JOIN redrying ON redrying.tray_id = tray.id
    JOIN package ON package.lot_id = redrying.lot_id
    WHERE tray.run_id IN ({marks}) AND redrying.package_id IS NULL
        AND redrying.ending = 'dried' AND package.sealed_on >= redrying.ended_on"""
# The word before IN lets SQLite use the index of packages that have a packet or box on record.
_OF_PACKET = "SELECT id FROM package WHERE absorber_packet <> '' AND absorber_packet IN ({marks})"
_OF_BOX = "SELECT id FROM package WHERE container_box <> '' AND container_box IN ({marks})"

_STARTS = {
    GroupKind.LOT: (_OF_LOT, 1),
    GroupKind.RUN: (_OF_RUN, 3),
    GroupKind.PACKET: (_OF_PACKET, 1),
    GroupKind.BOX: (_OF_BOX, 1),
}
"""Kind → the SELECT of its packages and how often the keys stand in it."""

_MEMBERS = """
    WITH RECURSIVE member (id) AS (
        {start}
        UNION SELECT package_source.package_id
        FROM member JOIN package_source ON package_source.source_package_id = member.id
    )"""

Keys = Sequence[int] | Sequence[str]
"""Ids of lots or runs, or the spellings of a packet's or a box's name."""


def _members(kind: GroupKind, keys: Keys) -> tuple[str, list[Any]]:
    """The packages of a group and those their food went into, as `member`, with its parameters."""
    start, times = _STARTS[kind]
    return _MEMBERS.format(start=start.format(marks=marks(len(keys)))), [*keys] * times


def condition_counts(store: Store, kind: GroupKind, keys: Keys) -> dict[str, int]:
    """How many packages of a group stand in each condition."""
    members, parameters = _members(kind, keys)
    rows = store.query(
        f"{members} SELECT condition, count(*) FROM member"
        " JOIN package ON package.id = member.id GROUP BY condition",
        parameters,
    )
    return {str(row[0]): int(row[1]) for row in rows}


def member_ids(
    store: Store,
    kind: GroupKind,
    keys: Keys,
    *,
    conditions: Sequence[str] | None = None,
    limit: int = -1,
) -> list[int]:
    """Packages of a group, those still there first, by code; all of them for a limit below 0."""
    members, parameters = _members(kind, keys)
    where = "" if conditions is None else f" WHERE condition IN ({marks(len(conditions))})"
    rows = store.query(
        f"{members} SELECT package.id FROM member JOIN package ON package.id = member.id{where}"
        " ORDER BY condition IN ('used', 'discarded'), package.code LIMIT ?",
        [*parameters, *(conditions or ()), limit],
    )
    return [int(row[0]) for row in rows]


def packet_names(store: Store) -> list[str]:
    """Every absorber packet on record, each spelling once."""
    return _names(store, "absorber_packet")


def box_names(store: Store) -> list[str]:
    """Every container box on record, each spelling once."""
    return _names(store, "container_box")


def _names(store: Store, column: str) -> list[str]:
    # From each name to the next one by the index: as many steps as names, not as packages.
    rows = store.query(
        "WITH RECURSIVE named (name) AS ("
        f" SELECT min({column}) FROM package WHERE {column} <> ''"
        f" UNION ALL SELECT (SELECT min({column}) FROM package"
        f" WHERE {column} <> '' AND {column} > named.name) FROM named WHERE named.name IS NOT NULL"
        ") SELECT name FROM named WHERE name IS NOT NULL"
    )
    return [str(row[0]) for row in rows]


def source_ids(store: Store, package_id: int) -> list[int]:
    """The packages whose food is in this one."""
    return _ids(
        store,
        "SELECT source_package_id FROM package_source WHERE package_id = ? ORDER BY 1",
        package_id,
    )


def successor_ids(store: Store, package_id: int) -> list[int]:
    """The packages this one's food went into."""
    return _ids(
        store,
        "SELECT package_id FROM package_source WHERE source_package_id = ? ORDER BY 1",
        package_id,
    )


def _ids(store: Store, sql: str, *parameters: object) -> list[int]:
    return [int(row[0]) for row in store.query(sql, parameters)]


def trays_dried_again(store: Store, package_id: int) -> list[int]:
    """The trays on which the food of a package was dried again before it was sealed, in order.

    Its own sources' and theirs, however often the food was packed anew.
    """
    return _ids(
        store,
        "WITH RECURSIVE source (id) AS ("
        " SELECT source_package_id FROM package_source WHERE package_id = ?"
        " UNION SELECT package_source.source_package_id"
        " FROM source JOIN package_source ON package_source.package_id = source.id"
        ") SELECT redrying.tray_id FROM source JOIN redrying ON redrying.package_id = source.id"
        " WHERE redrying.ending IN ('packed', 'dried') AND redrying.tray_id IS NOT NULL"
        " GROUP BY redrying.tray_id ORDER BY min(redrying.id)",
        package_id,
    )


def trays_lot_dried_again(store: Store, lot_id: int, by: date) -> list[int]:
    """The trays on which a lot's unpacked food was dried again up to a day, in order."""
    return _ids(
        store,
        "SELECT tray_id FROM redrying WHERE lot_id = ? AND package_id IS NULL"
        " AND ending = 'dried' AND ended_on <= ? ORDER BY id",
        lot_id,
        by.isoformat(),
    )


def meals_of_lot(store: Store, lot_id: int) -> list[MealMade]:
    """The meals cooked with food of a lot, the latest first."""
    rows = store.query(
        "SELECT meal.id, meal.name, meal.on_day, count(DISTINCT package.id), sum(draw.dry_dg)"
        " FROM package JOIN draw ON draw.package_id = package.id"
        " JOIN meal ON meal.id = draw.meal_id WHERE package.lot_id = ?"
        " GROUP BY meal.id ORDER BY meal.on_day DESC, meal.id DESC",
        (lot_id,),
    )
    return [MealMade(row[0], row[1], day(row[2]), row[3], row[4]) for row in rows]


def looked_at(store: Store, *, food_id: int | None, since: date | None) -> list[LookedAt]:
    """Every package ever looked at, and whether it was ever found soft.

    Soft and then crisp on one day was a slip, which the second look mended. The place is where it
    stood at the look that counts: when it was first found soft, else at the last look. `since`
    lets only looks from that day on count.
    """
    rows = store.query(
        _LOOKED_AT.format(
            of_food="" if food_id is None else "AND package.food_id = :food",
            from_day="" if since is None else "AND on_day >= :since",
        ),
        {"food": food_id, "since": text_of(since)},
    )
    paths = place_paths(store)
    lots = _texts(store, "SELECT id, code FROM lot")
    containers = _texts(store, "SELECT id, name FROM container")
    classes = _texts(store, "SELECT id, food_class FROM food")
    return [
        LookedAt(
            lot_code=lots[lot_id],
            container=containers[container_id],
            packet=packet,
            box=box,
            tray_position=tray,
            place=paths.get(place_id, ""),
            run_id=run_id,
            closing=_CLOSINGS[int(closing)],
            food_class=classes[food],
            soft=soft > 0,
        )
        for lot_id, container_id, packet, box, tray, place_id, run_id, closing, food, soft in rows
    ]


def _texts(store: Store, sql: str) -> dict[int, str]:
    return {int(row[0]): str(row[1]) for row in store.query(sql)}


# The plus keeps SQLite from going through the events package by package, which takes twice as long.
_LOOKED_AT = """
    WITH found (package_id, id, soft_id) AS (
        SELECT package_id, id, CASE WHEN event = 'soft' AND NOT EXISTS (
                SELECT 1 FROM package_event AS mended
                WHERE mended.package_id = package_event.package_id AND mended.event = 'crisp'
                AND mended.on_day = package_event.on_day AND mended.id > package_event.id)
            THEN id END
        FROM package_event
        WHERE event IN ('crisp', 'soft', 'leak', 'damaged') {from_day}
    ),
    look (package_id, soft, look_id) AS MATERIALIZED (
        SELECT package_id, min(soft_id) IS NOT NULL, ifnull(min(soft_id), max(id))
        FROM found GROUP BY +package_id
    ),
    lone_tray (lot_id, position) AS MATERIALIZED (
        SELECT lot_id, min(position) FROM tray WHERE lot_id IS NOT NULL
        GROUP BY lot_id HAVING count(*) = 1
    )
    SELECT package.lot_id, package.container_id, package.absorber_packet, package.container_box,
        ifnull(package.tray_position,
            CASE package.origin WHEN 'packed' THEN lone_tray.position END),
        (SELECT moved.to_location_id FROM package_event AS moved
            WHERE moved.package_id = look.package_id AND moved.id < look.look_id
            AND moved.to_location_id IS NOT NULL ORDER BY moved.id DESC LIMIT 1),
        CASE package.origin WHEN 'redried' THEN ifnull(
            (SELECT tray.run_id FROM package_source
                JOIN redrying ON redrying.package_id = package_source.source_package_id
                JOIN tray ON tray.id = redrying.tray_id
                WHERE package_source.package_id = package.id ORDER BY redrying.id DESC LIMIT 1),
            lot.run_id) ELSE lot.run_id END,
        package.vacuum * 2 + (package.absorber_cc > 0), package.food_id, look.soft
    FROM look JOIN package ON package.id = look.package_id {of_food}
    JOIN lot ON lot.id = package.lot_id
    LEFT JOIN lone_tray ON lone_tray.lot_id = package.lot_id"""

_CLOSINGS = ("no vacuum, no absorber", "absorber", "vacuum", "vacuum and absorber")
"""How a package was closed, by its vacuum (2) and its absorber (1)."""
