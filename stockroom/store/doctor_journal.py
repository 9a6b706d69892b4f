"""Looking through the journal, and what is computed from the record and kept beside it."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

from stockroom.domain.findings import Finding, Severity, named
from stockroom.store.connection import Store
from stockroom.store.derived import TRACKED
from stockroom.store.doctor_file import Check, row_names

_BY_BACKUP = (
    "Another program changed the record: compare it with a backup, and put that in place with"
    " stockroom restore FILE if it is the better one."
)


def entries_follow(store: Store, today: date) -> tuple[Finding, ...]:
    """Numbers missing in the journal: entries were taken out of it."""
    gaps = store.query(
        "SELECT entry.before + 1, entry.id - 1 FROM"
        " (SELECT id, lag(id, 1, 0) OVER (ORDER BY id) AS before FROM journal) AS entry"
        " WHERE entry.id > entry.before + 1"
    )
    if not gaps:
        return ()
    missing = [str(first) if first == last else f"{first} to {last}" for first, last in gaps]
    message = f"Entries of the journal are missing: {named(missing)}."
    return (Finding("journal", Severity.WARNING, message, _BY_BACKUP),)


def entries_have_words(store: Store, today: date) -> tuple[Finding, ...]:
    """Entries that were begun and never closed."""
    rows = store.query("SELECT id FROM journal WHERE words = '' ORDER BY id")
    if not rows:
        return ()
    message = f"Entries that do not say what was done: {named(str(row[0]) for row in rows)}."
    return (Finding("journal", Severity.FAULT, message, _BY_BACKUP),)


def rows_are_journalled(store: Store, today: date) -> tuple[Finding, ...]:
    """Rows that are not as their latest change in the journal left them."""
    found: list[Finding] = []
    for table in TRACKED:
        wrong = _apart(store, table)
        if wrong:
            found.append(
                Finding(
                    table,
                    Severity.WARNING,
                    f"Changed past the journal, so that undo does not know of it:"
                    f" {named(row_names(store, table, wrong))}.",
                    _BY_BACKUP,
                )
            )
    return tuple(found)


JOURNAL_CHECKS: tuple[Check, ...] = (entries_follow, entries_have_words, rows_are_journalled)

Computed = dict[int, tuple[Any, ...]]
"""Package id → its row, but for the day it was computed on."""


def stored_projections(store: Store) -> Computed:
    """What is kept of the model's answers."""
    return _by_package(
        store,
        "SELECT package_id, best_by, low, high, recheck_by, discard_by, limited_by, refused, model"
        " FROM projection",
    )


def stored_rechecks(store: Store) -> Computed:
    """When packages are to be looked at again, as kept."""
    return _by_package(
        store, "SELECT package_id, earliest_on, wanted_on, latest_on, risk FROM recheck"
    )


def drop_needless(store: Store) -> None:
    """Forget what is kept of packages that have none to keep, inside `write()`."""
    store.run(
        "DELETE FROM projection WHERE package_id NOT IN"
        " (SELECT id FROM package WHERE condition NOT IN ('used', 'discarded'))"
    )
    store.run(
        "DELETE FROM recheck WHERE package_id NOT IN"
        " (SELECT id FROM package WHERE condition = 'sound')"
    )


def codes_of(store: Store, package_ids: set[int]) -> list[str]:
    """The codes of packages by their ids, in order; of one that is not there its id."""
    codes = {int(one): str(code) for one, code in store.query("SELECT id, code FROM package")}
    return sorted(codes.get(one, f"package {one}") for one in package_ids)


def _by_package(store: Store, sql: str) -> Computed:
    return {int(row[0]): row[1:] for row in store.query(sql)}


def _apart(store: Store, table: str) -> list[int]:
    """Ids of rows that differ from what their latest change left, or are there against it."""
    cursor = store.connection.execute(f"SELECT * FROM {table}")
    names = [str(column[0]) for column in cursor.description]
    place = names.index("id")
    now = {int(row[place]): dict(zip(names, row, strict=True)) for row in cursor.fetchall()}
    left = _left(store, table)
    changed = {one for one, after in left.items() if not _as_left(now.get(one), after)}
    return sorted(changed | (now.keys() - left.keys()))


def _left(store: Store, table: str) -> dict[int, dict[str, Any] | None]:
    rows = store.query(
        "SELECT row_id, after FROM change WHERE id IN"
        " (SELECT max(id) FROM change WHERE table_name = ? GROUP BY row_id)",
        (table,),
    )
    return {int(row[0]): None if row[1] is None else json.loads(row[1]) for row in rows}


def _as_left(now: dict[str, Any] | None, left: dict[str, Any] | None) -> bool:
    # Only the columns the change knew: a later schema may have added some.
    if now is None or left is None:
        return now is left
    return all(name in now and now[name] == value for name, value in left.items())
