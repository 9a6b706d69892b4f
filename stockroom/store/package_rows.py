"""Packages, one by one: reading, changing, drawing, and what happened to each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from stockroom.domain.records import HistoryLine, Package
from stockroom.store.connection import Store
from stockroom.store.place_rows import place_paths
from stockroom.store.rows import day, day_or_none, like_prefix, marks, text_of

_PACKAGE = """
    SELECT package.id, package.code, package.lot_id, lot.code, package.food_id, food.name,
        food.food_class, lot.preparation, container.name, container.key, container.package_kind,
        container.volume_ml, package.absorber_cc, package.vacuum, package.vacuum_tenth_inhg,
        package.dry_dg, package.water_dg, package.taken_dg,
        CASE WHEN package.taken_dg = 0 THEN 0 ELSE
            ifnull((SELECT sum(water_dg) FROM draw WHERE package_id = package.id), 0) END,
        food.serving_dg, lot.made_on, package.sealed_on, package.location_id, package.condition,
        package.opened_on, package.gone_on, projection.best_by, package.note,
        container.width_mm, container.height_mm, package.absorber_packet, package.container_box,
        package.tray_position, package.gate_reason, package.origin, package.first_sealed_on,
        package.exposed_on, package.life_before_millionths
    FROM package JOIN lot ON lot.id = package.lot_id JOIN food ON food.id = package.food_id
    JOIN container ON container.id = package.container_id
    LEFT JOIN projection ON projection.package_id = package.id"""


def _package(row: tuple[Any, ...], paths: dict[int, str]) -> Package:
    return Package(
        *row[:13],
        vacuum=bool(row[13]),
        vacuum_tenth_inhg=row[14],
        dry_dg=row[15],
        water_dg=row[16],
        taken_dg=row[17],
        taken_water_dg=row[18],
        serving_dg=row[19],
        made_on=day(row[20]),
        sealed_on=day(row[21]),
        place_id=row[22],
        place=paths.get(row[22], ""),
        condition=row[23],
        opened_on=day_or_none(row[24]),
        gone_on=day_or_none(row[25]),
        best_by=day_or_none(row[26]),
        note=row[27],
        width_mm=row[28],
        height_mm=row[29],
        absorber_packet=row[30],
        container_box=row[31],
        tray_position=row[32],
        gate_reason=row[33],
        origin=row[34],
        first_sealed_on=day_or_none(row[35]),
        exposed_on=day_or_none(row[36]),
        life_before_millionths=row[37],
    )


def _packages(store: Store, rest: str, parameters: Sequence[Any]) -> list[Package]:
    paths = place_paths(store)
    return [_package(row, paths) for row in store.query(f"{_PACKAGE} {rest}", parameters)]


def packages_by_ids(store: Store, package_ids: Sequence[int]) -> list[Package]:
    """The packages of these ids, in the order asked; ids that are gone are left out."""
    found = {
        package.package_id: package
        for package in _packages(
            store, f"WHERE package.id IN ({marks(len(package_ids))})", package_ids
        )
    }
    return [found[package_id] for package_id in package_ids if package_id in found]


def package_by_id(store: Store, package_id: int) -> Package | None:
    """One package, or None."""
    found = _packages(store, "WHERE package.id = ?", (package_id,))
    return found[0] if found else None


def packages_by_code(store: Store, code: str) -> list[Package]:
    """The package of exactly this code."""
    return _packages(store, "WHERE package.code = ?", (code,))


def packages_by_code_start(store: Store, start: str) -> list[Package]:
    """Packages whose code is `start` plus one check character."""
    return _packages(
        store,
        "WHERE package.code LIKE ? ESCAPE '!' AND length(package.code) = ? ORDER BY package.code",
        (like_prefix(start), len(start) + 1),
    )


def packages_of_lot(store: Store, lot_id: int) -> list[Package]:
    """Every package of a lot by number, gone ones too."""
    return _packages(store, "WHERE package.lot_id = ? ORDER BY package.number", (lot_id,))


def package_codes(store: Store, *, prefix: str = "") -> list[str]:
    """Package codes that begin with `prefix`."""
    rows = store.query(
        "SELECT code FROM package WHERE code LIKE ? ESCAPE '!' ORDER BY code",
        (like_prefix(prefix),),
    )
    return [str(row[0]) for row in rows]


def first_in_packages(store: Store, food_id: int, conditions: Sequence[str]) -> list[Package]:
    """Packages of a food in these conditions, oldest lot first: the candidates for a draw."""
    return _packages(
        store,
        f"WHERE package.food_id = ? AND package.condition IN ({marks(len(conditions))})"
        " ORDER BY lot.made_on, projection.best_by, package.id",
        (food_id, *conditions),
    )


def settling_due(store: Store, sealed_on_or_before: date) -> list[Package]:
    """Settling packages sealed by that day, the longest waiting first, shelf by shelf."""
    return _packages(
        store,
        "WHERE package.condition = 'settling' AND package.sealed_on <= ?"
        " ORDER BY package.sealed_on, package.location_id, package.id",
        (sealed_on_or_before.isoformat(),),
    )


def packages_in_condition(store: Store, condition: str) -> list[Package]:
    """Every package of one condition, earliest best-by first."""
    return _packages(
        store,
        "WHERE package.condition = ? ORDER BY projection.best_by, package.id",
        (condition,),
    )


def use_first(store: Store, *, count: int) -> list[Package]:
    """The unopened usable packages with the earliest best-by: best-by, then made, then id."""
    # CROSS JOIN holds SQLite to the best-by index: else it sorts every usable package first.
    return _packages(
        store,
        "WHERE package.id IN (SELECT projection.package_id FROM projection"
        " CROSS JOIN package AS live ON live.id = projection.package_id"
        " WHERE live.condition IN ('settling', 'sound')"
        " ORDER BY projection.best_by, projection.package_id LIMIT ?)"
        " ORDER BY projection.best_by, lot.made_on, package.id",
        (count,),
    )


def fills_of(store: Store, food_id: int) -> list[tuple[int, int]]:
    """(dry tenths of a gram, container mL) of every package of a food there has been."""
    rows = store.query(
        "SELECT package.dry_dg, container.volume_ml FROM package"
        " JOIN container ON container.id = package.container_id WHERE package.food_id = ?",
        (food_id,),
    )
    return [(int(row[0]), int(row[1])) for row in rows]


def next_number(store: Store, lot_id: int) -> int:
    """The next package number of a lot, from 1."""
    return int(
        store.value("SELECT ifnull(max(number), 0) + 1 FROM package WHERE lot_id = ?", (lot_id,))
    )


@dataclass(frozen=True, slots=True)
class NewPackage:
    """A package to be added, settling; the fields are those of `Package`."""

    code: str
    lot_id: int
    food_id: int
    number: int
    container_id: int
    absorber_cc: int
    vacuum: bool
    vacuum_tenth_inhg: int | None
    dry_dg: int
    water_dg: int
    sealed_on: date
    place_id: int | None
    note: str = ""
    absorber_packet: str = ""
    container_box: str = ""
    tray_position: int | None = None
    gate_reason: str = ""
    origin: str = "packed"
    first_sealed_on: date | None = None
    exposed_on: date | None = None
    life_before_millionths: int | None = None


def insert_package(store: Store, new: NewPackage) -> int:
    """Add a package, settling; returns its id."""
    return store.run(
        "INSERT INTO package (code, lot_id, food_id, number, container_id, absorber_cc, vacuum,"
        " vacuum_tenth_inhg, dry_dg, water_dg, sealed_on, location_id, condition, note,"
        " absorber_packet, container_box, tray_position, gate_reason, origin, first_sealed_on,"
        f" exposed_on, life_before_millionths) VALUES ({marks(12)}, 'settling', {marks(9)})",
        (
            new.code,
            new.lot_id,
            new.food_id,
            new.number,
            new.container_id,
            new.absorber_cc,
            int(new.vacuum),
            new.vacuum_tenth_inhg,
            new.dry_dg,
            new.water_dg,
            new.sealed_on.isoformat(),
            new.place_id,
            new.note,
            new.absorber_packet,
            new.container_box,
            new.tray_position,
            new.gate_reason,
            new.origin,
            text_of(new.first_sealed_on),
            text_of(new.exposed_on),
            new.life_before_millionths,
        ),
    )


def set_condition(
    store: Store,
    package_id: int,
    condition: str,
    *,
    opened_on: date | None = None,
    gone_on: date | None = None,
    taken_dg: int | None = None,
) -> None:
    """Change a package's condition; what is None stays as it is."""
    store.run(
        "UPDATE package SET condition = ?, opened_on = ifnull(opened_on, ?),"
        " gone_on = ifnull(gone_on, ?), taken_dg = ifnull(?, taken_dg) WHERE id = ?",
        (condition, text_of(opened_on), text_of(gone_on), taken_dg, package_id),
    )


def set_place(store: Store, package_id: int, place_id: int) -> None:
    """Put a package in a place."""
    store.run("UPDATE package SET location_id = ? WHERE id = ?", (place_id, package_id))


def set_note(store: Store, package_id: int, note: str) -> None:
    """Replace a package's note."""
    store.run("UPDATE package SET note = ? WHERE id = ?", (note, package_id))


def insert_event(
    store: Store,
    *,
    package_id: int,
    on_day: date,
    event: str,
    from_condition: str | None,
    to_condition: str,
    from_place_id: int | None = None,
    to_place_id: int | None = None,
    note: str = "",
) -> int:
    """Record what happened to a package; returns the row's id."""
    return store.run(
        "INSERT INTO package_event (package_id, on_day, event, from_condition, to_condition,"
        f" from_location_id, to_location_id, note) VALUES ({marks(8)})",
        (
            package_id,
            on_day.isoformat(),
            event,
            from_condition,
            to_condition,
            from_place_id,
            to_place_id,
            note,
        ),
    )


def insert_draw(
    store: Store,
    *,
    package_id: int,
    meal_id: int | None,
    on_day: date,
    dry_dg: int,
    water_dg: int,
    note: str,
    purpose: str = "eat",
) -> int:
    """Record dry food taken from a package and the water it needs; returns the row's id.

    `purpose` is eat, again (its food goes into a new package) or test (opened to be looked at).
    """
    return store.run(
        "INSERT INTO draw (package_id, meal_id, on_day, dry_dg, water_dg, note, purpose)"
        f" VALUES ({marks(7)})",
        (package_id, meal_id, on_day.isoformat(), dry_dg, water_dg, note, purpose),
    )


def history_of(store: Store, package_id: int) -> list[HistoryLine]:
    """What happened to a package, in order: events and draws together."""
    rows = store.query(
        "SELECT on_day, event, to_condition, from_location_id, to_location_id, NULL, NULL, '',"
        " note, 0 AS draws, id FROM package_event WHERE package_id = :id"
        " UNION ALL SELECT draw.on_day, 'draw', '', NULL, NULL, draw.dry_dg, draw.water_dg,"
        " ifnull(meal.name, ''), draw.note, 1, draw.id"
        " FROM draw LEFT JOIN meal ON meal.id = draw.meal_id WHERE draw.package_id = :id"
        " ORDER BY 1, 10, 11",
        {"id": package_id},
    )
    paths = place_paths(store)
    return [
        HistoryLine(
            on_day=day(row[0]),
            event=row[1],
            condition=row[2],
            from_place=paths.get(row[3], ""),
            to_place=paths.get(row[4], ""),
            dry_dg=row[5],
            water_dg=row[6],
            meal=row[7],
            note=row[8],
        )
        for row in rows
    ]
