"""Looking through the record: sums that do not add up, and what cannot have been.

The checks have the signature and the promise of those of the file.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from stockroom.domain.findings import Finding, Severity, named
from stockroom.domain.packing import balance_of
from stockroom.store.connection import Store
from stockroom.store.doctor_file import Check, of_rule
from stockroom.store.lot_rows import latest_lot_id, lots

LATER_THAN_TODAY_DAYS = 1
"""So far ahead a day may be before it is told: where the sun is ahead it is tomorrow already.
Engineering judgement."""

_BY_UNDO = (
    "Look at what was done last with stockroom journal, and take it back with stockroom undo."
)


def rules_are_kept(store: Store, today: date) -> tuple[Finding, ...]:
    """Rows that break a rule of their table, such as an unknown condition or a wrong date.

    Of packages only when no other check can say it in plainer words.
    """
    said = [str(row[0]) for row in store.query("PRAGMA integrity_check")]
    tables = {_table_of(one) for one in said if of_rule(one)}
    if "package" in tables and (conditions_fit(store, today) or draws_add_up(store, today)):
        tables.remove("package")
    return tuple(
        Finding(
            table,
            Severity.FAULT,
            f"Rows of {table} hold values their table does not allow.",
            "Another program wrote them: put a backup in place with stockroom restore FILE.",
        )
        for table in sorted(tables)
    )


def _table_of(said: str) -> str:
    """The table a line of SQLite's is about: "… in package", "NULL value in package.code"."""
    return said.rsplit(" in ", 1)[-1].split(".")[0].strip()


def lots_add_up(store: Store, today: date) -> tuple[Finding, ...]:
    """Lots out of which more came than there was, in dry food or in water."""
    found: list[Finding] = []
    try:
        every = lots(store, count=latest_lot_id(store))
    except ValueError:
        return ()  # A day that is none: told by the check of the rules.
    for lot in every:
        accounted_dg = lot.packed_dg + lot.lost_dg
        water_dg = lot.packed_water_dg + lot.lost_water_dg
        if lot.left_dg < 0:
            found.append(_sum(lot.code, "More dry food was packed or lost than the lot had"))
        elif accounted_dg < lot.dealt_before_dg or water_dg < lot.dealt_before_water_dg:
            found.append(
                _sum(lot.code, "Less is accounted for than was before its rest was dried again")
            )
        elif water_dg + balance_of(lot).left_water_dg != lot.water_removed_dg:
            found.append(_sum(lot.code, "The water of its packages is not what drying took out"))
    return tuple(found)


def draws_add_up(store: Store, today: date) -> tuple[Finding, ...]:
    """Packages whose draws are not what was taken, in dry food or in water."""
    rows = store.query(
        "SELECT package.code, package.dry_dg, package.water_dg, package.taken_dg,"
        " ifnull(sum(draw.dry_dg), 0), ifnull(sum(draw.water_dg), 0)"
        " FROM package LEFT JOIN draw ON draw.package_id = package.id GROUP BY package.id"
        " ORDER BY package.code"
    )
    found: list[Finding] = []
    for code, dry_dg, water_dg, taken_dg, drawn_dg, drawn_water_dg in rows:
        if drawn_dg != taken_dg:
            found.append(_sum(code, "What was taken is not the sum of its draws"))
        elif drawn_water_dg > water_dg or (drawn_dg == dry_dg and drawn_water_dg != water_dg):
            found.append(_sum(code, "The water of its draws does not add up to its water"))
    return tuple(found)


def conditions_fit(store: Store, today: date) -> tuple[Finding, ...]:
    """Packages in a condition that does not fit what happened to them or what is in them."""
    return (
        *_told(
            store,
            "SELECT code FROM (SELECT package.code, package.condition, (SELECT to_condition FROM"
            " package_event WHERE package_id = package.id ORDER BY on_day DESC, id DESC LIMIT 1)"
            " AS last FROM package) WHERE last IS NOT condition AND last IS NOT ''",
            "The last thing that happened to it left it in another condition",
        ),
        *_told(
            store,
            "SELECT code FROM package"
            " WHERE (condition IN ('used', 'discarded')) <> (gone_on IS NOT NULL)",
            "It is gone without a day, or has a day and is not gone",
        ),
        *_told(
            store,
            "SELECT code FROM package WHERE condition = 'used' AND taken_dg <> dry_dg"
            " OR condition NOT IN ('used', 'discarded') AND taken_dg = dry_dg",
            "It is used up with food left, or empty and not used up",
        ),
        *_told(
            store,
            "SELECT code FROM package WHERE condition = 'opened' AND opened_on IS NULL",
            "It is open and nothing says since when",
        ),
    )


def days_are_in_order(store: Store, today: date) -> tuple[Finding, ...]:
    """Packages sealed before they were made, or opened, emptied or drawn from before sealed."""
    return (
        *_told(
            store,
            "SELECT package.code FROM package JOIN lot ON lot.id = package.lot_id"
            " WHERE ifnull(package.first_sealed_on, package.sealed_on) < lot.made_on",
            "It was sealed before its lot was made",
        ),
        *_told(
            store,
            "SELECT code FROM package WHERE opened_on < sealed_on",
            "It was opened before it was sealed",
        ),
        *_told(
            store,
            "SELECT code FROM package WHERE gone_on < sealed_on OR gone_on < opened_on",
            "It was gone before it was sealed or opened",
        ),
        *_told(
            store,
            "SELECT DISTINCT code FROM package JOIN draw ON draw.package_id = package.id"
            " WHERE draw.on_day < package.sealed_on",
            "Food was taken out before it was sealed",
        ),
    )


def held_are_queued(store: Store, today: date) -> tuple[Finding, ...]:
    """Held packages without a place in the queue for the machine, and the other way round."""
    waiting = "SELECT 1 FROM redrying WHERE redrying.package_id = package.id AND ended_on IS NULL"
    return (
        *_told(
            store,
            f"SELECT code FROM package WHERE condition = 'held' AND NOT EXISTS ({waiting})",
            "It is held to be dried again, but does not wait for the machine",
            "Hold it again: stockroom check CODE soft, then stockroom hold CODE.",
        ),
        *_told(
            store,
            f"SELECT code FROM package WHERE condition <> 'held' AND EXISTS ({waiting})",
            "It waits for the machine, but is not held",
        ),
    )


def places_are_a_tree(store: Store, today: date) -> tuple[Finding, ...]:
    """Places that stand in each other in a circle, so that no path leads to them."""
    rows = store.query(
        "WITH RECURSIVE tree (id) AS (SELECT id FROM location WHERE parent_id IS NULL"
        " OR parent_id NOT IN (SELECT id FROM location)"
        " UNION SELECT location.id FROM location JOIN tree ON location.parent_id = tree.id)"
        " SELECT name FROM location WHERE id NOT IN (SELECT id FROM tree) ORDER BY id"
    )
    if not rows:
        return ()
    return (
        Finding(
            "places",
            Severity.FAULT,
            f"These places stand in each other in a circle: {named(str(row[0]) for row in rows)}.",
            _BY_UNDO,
        ),
    )


_DATED = (
    ("run", "started_on", "runs were started"),
    ("lot", "made_on", "lots were made"),
    ("lot_loss", "on_day", "losses were recorded"),
    ("weighing", "on_day", "trays were weighed"),
    ("package", "sealed_on", "packages were sealed"),
    ("package", "opened_on", "packages were opened"),
    ("package", "gone_on", "packages were emptied or discarded"),
    ("package_event", "on_day", "packages were looked at or moved"),
    ("draw", "on_day", "food was taken"),
    ("meal", "on_day", "meals were cooked"),
    ("inspection", "on_day", "doubts were decided"),
    ("equipment_check", "on_day", "the machine was checked"),
    ("journal", "on_day", "actions were done"),
)
"""Columns that say when something happened, with what it was."""


def days_have_come(store: Store, today: date) -> tuple[Finding, ...]:
    """Things that happened on a day that has not come: a clock was wrong, or is wrong now."""
    last = (today + timedelta(days=LATER_THAN_TODAY_DAYS)).isoformat()
    ahead: list[str] = []
    for table, column, words in _DATED:
        latest = store.value(f"SELECT max({column}) FROM {table} WHERE {column} > ?", (last,))
        if latest is not None:
            ahead.append(f"{words} on {latest}")
    if not ahead:
        return ()
    return (
        Finding(
            "clock",
            Severity.WARNING,
            f"By the record, later than today ({today.isoformat()}): {named(ahead, most=3)}.",
            "Set this computer's clock if it is wrong now; if it was wrong then, stockroom undo"
            " takes back what was recorded.",
        ),
    )


ROW_CHECKS: tuple[Check, ...] = (
    rules_are_kept,
    lots_add_up,
    draws_add_up,
    conditions_fit,
    days_are_in_order,
    held_are_queued,
    places_are_a_tree,
    days_have_come,
)


def _sum(code: str, message: str) -> Finding:
    return Finding(code, Severity.FAULT, f"{message}.", _BY_UNDO)


def _told(store: Store, sql: str, message: str, remedy: str = _BY_UNDO) -> Iterable[Finding]:
    """A finding for each code a query gives."""
    for (code,) in store.query(f"{sql} ORDER BY 1"):
        yield Finding(str(code), Severity.FAULT, f"{message}.", remedy)
