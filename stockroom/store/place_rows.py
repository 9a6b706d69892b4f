"""The tree of places."""

from __future__ import annotations

from typing import Any

from stockroom.domain.records import Place
from stockroom.store.connection import Store

_PLACE = """
    SELECT location.id, location.parent_id, location.name, place_path.path, place_path.depth,
        location.kind, location.temperature_dc, place_path.temperature_dc, location.note,
        (SELECT count(*) FROM package WHERE location_id = location.id
            AND condition NOT IN ('used', 'discarded'))
    FROM location JOIN place_path ON place_path.id = location.id"""


def _place(row: tuple[Any, ...]) -> Place:
    return Place(*row)


def all_places(store: Store) -> list[Place]:
    """Every place in tree order; `packages` counts the live ones directly in it."""
    places = [_place(row) for row in store.query(_PLACE)]
    return sorted(places, key=lambda place: place.path.casefold().split("/"))


def place_by_id(store: Store, place_id: int) -> Place | None:
    """One place, or None."""
    row = store.one(f"{_PLACE} WHERE location.id = ?", (place_id,))
    return None if row is None else _place(row)


def place_paths(store: Store) -> dict[int, str]:
    """Place id → path, for lists."""
    return {int(row[0]): str(row[1]) for row in store.query("SELECT id, path FROM place_path")}


def ids_below(store: Store, place_id: int) -> list[int]:
    """The place and everything below it."""
    rows = store.query(
        "WITH RECURSIVE below (id) AS (VALUES (?) UNION ALL"
        " SELECT location.id FROM location JOIN below ON location.parent_id = below.id)"
        " SELECT id FROM below",
        (place_id,),
    )
    return [int(row[0]) for row in rows]


def insert_place(
    store: Store,
    *,
    parent_id: int | None,
    name: str,
    kind: str,
    temperature_dc: int | None,
    note: str,
) -> int:
    """Add a place; returns its id."""
    return store.run(
        "INSERT INTO location (parent_id, name, kind, temperature_dc, note) VALUES (?, ?, ?, ?, ?)",
        (parent_id, name, kind, temperature_dc, note),
    )


def update_place(store: Store, place: Place) -> None:
    """Write a place's parent, name, kind, own temperature and note."""
    store.run(
        "UPDATE location SET parent_id = ?, name = ?, kind = ?, temperature_dc = ?, note = ?"
        " WHERE id = ?",
        (
            place.parent_id,
            place.name,
            place.kind,
            place.own_temperature_dc,
            place.note,
            place.place_id,
        ),
    )


def place_is_used(store: Store, place_id: int) -> bool:
    """Whether a place holds places or is named by any package or its history."""
    return bool(
        store.value(
            "SELECT EXISTS (SELECT 1 FROM location WHERE parent_id = :id)"
            " OR EXISTS (SELECT 1 FROM package WHERE location_id = :id)"
            " OR EXISTS (SELECT 1 FROM package_event"
            "            WHERE from_location_id = :id OR to_location_id = :id)",
            {"id": place_id},
        )
    )


def delete_place(store: Store, place_id: int) -> None:
    """Remove a place nothing refers to."""
    store.run("DELETE FROM location WHERE id = ?", (place_id,))
