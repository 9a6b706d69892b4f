"""The tree of places."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import datetime
from typing import Any

from stockroom.domain.records import Climate, Place, TemperatureReading
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
    """Remove a place nothing refers to, with its temperatures."""
    delete_readings(store, place_id)
    store.run("DELETE FROM location_temperature WHERE location_id = ?", (place_id,))
    store.run("DELETE FROM location WHERE id = ?", (place_id,))


def climates(store: Store) -> dict[int, Climate]:
    """Place id → its climate; what a place does not say it has from the place above."""
    own = {
        int(row[0]): (row[1], row[2], row[3])
        for row in store.query(
            "SELECT id, parent_id, temperature_dc, humidity_percent FROM location"
        )
    }
    profiles: dict[int, dict[int, tuple[int, str]]] = {}
    for place_id, month, temperature_dc, origin in store.query(
        "SELECT location_id, month, temperature_dc, origin FROM location_temperature"
    ):
        profiles.setdefault(place_id, {})[month] = (temperature_dc, origin)
    found: dict[int, Climate] = {}
    for place_id in own:
        _climate(place_id, own, profiles, found)
    return found


def _climate(
    place_id: int,
    own: dict[int, tuple[int | None, int | None, int | None]],
    profiles: dict[int, dict[int, tuple[int, str]]],
    found: dict[int, Climate],
) -> Climate:
    if place_id in found:
        return found[place_id]
    parent_id, temperature_dc, humidity = own[place_id]
    above = None if parent_id is None else _climate(parent_id, own, profiles, found)
    profile = profiles.get(place_id, {})
    monthly = tuple(profile[month][0] for month in range(1, 13)) if len(profile) == 12 else ()
    # Measured only when every month is: a few days in November say nothing of July.
    measured = bool(monthly) and all(origin == "readings" for _, origin in profile.values())
    if above is not None:
        humidity = above.humidity_percent if humidity is None else humidity
        if not monthly and temperature_dc is None:
            temperature_dc, monthly = above.temperature_dc, above.monthly_dc
            measured = above.measured
    found[place_id] = Climate(place_id, temperature_dc, monthly, measured, humidity)
    return found[place_id]


def own_months(store: Store, place_id: int) -> dict[int, int]:
    """Month → mean temperature the place itself has, tenths of a degree C."""
    rows = store.query(
        "SELECT month, temperature_dc FROM location_temperature WHERE location_id = ?"
        " ORDER BY month",
        (place_id,),
    )
    return {int(row[0]): int(row[1]) for row in rows}


def replace_months(
    store: Store, place_id: int, months: Sequence[int], *, measured: Collection[int] = ()
) -> None:
    """Give a place twelve monthly means, or none, in place of those it had."""
    store.run("DELETE FROM location_temperature WHERE location_id = ?", (place_id,))
    store.run_many(
        "INSERT INTO location_temperature (location_id, month, temperature_dc, origin)"
        " VALUES (?, ?, ?, ?)",
        [
            (place_id, month, one, "readings" if month in measured else "stated")
            for month, one in enumerate(months, start=1)
        ],
    )


def set_humidity(store: Store, place_id: int, percent: int | None) -> None:
    """Say how damp a place is, or that it is as the place above."""
    store.run("UPDATE location SET humidity_percent = ? WHERE id = ?", (percent, place_id))


def readings_of(store: Store, place_id: int) -> list[TemperatureReading]:
    """A place's logger readings in order of time."""
    rows = store.query(
        "SELECT at, temperature_dc FROM temperature_reading WHERE location_id = ? ORDER BY at",
        (place_id,),
    )
    return [TemperatureReading(datetime.fromisoformat(row[0]), int(row[1])) for row in rows]


def save_readings(store: Store, place_id: int, readings: Sequence[TemperatureReading]) -> None:
    """Keep readings; one of a minute already there replaces it."""
    store.run_many(
        "INSERT INTO temperature_reading (location_id, at, temperature_dc) VALUES (?, ?, ?)"
        " ON CONFLICT (location_id, at) DO UPDATE SET temperature_dc = excluded.temperature_dc"
        " WHERE temperature_dc <> excluded.temperature_dc",
        [(place_id, one.at.strftime("%Y-%m-%dT%H:%M"), one.temperature_dc) for one in readings],
    )


def delete_readings(store: Store, place_id: int) -> None:
    """Forget a place's logger readings."""
    store.run("DELETE FROM temperature_reading WHERE location_id = ?", (place_id,))
