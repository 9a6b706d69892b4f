"""What a release fixes: the text of its schema steps, its derived objects, and a small store.

Run `python -m tests.store.pins` to write them for the schema as it stands. A released step's
hash and small store are never written again: a change of schema is a new step.
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path
from typing import Any

from stockroom.store.connection import create_store
from stockroom.store.derived import REVISION, drop_derived, expected_objects
from stockroom.store.migrations import STEPS, schema_step

PINNED = Path(__file__).with_name("released.json")
RELEASES = Path(__file__).with_name("releases")


def current() -> dict[str, Any]:
    """The hashes of the program as it stands."""
    return {
        "steps": {name: _hash(schema_step(name)) for name in STEPS},
        "derived": {"revision": REVISION, "sha256": _hash(_derived_sql())},
    }


def restore(release: str, path: Path) -> None:
    """Write the small store of a release to a file; its derived objects are still to be made."""
    script = (RELEASES / f"{release}.sql").read_text(encoding="utf-8")
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(script)
        connection.execute("PRAGMA journal_mode = WAL")


def small_store(path: Path) -> None:
    """A few weeks of a household, by its services: every tracked table has rows."""
    from tests.season import lived_in

    world = lived_in(path)
    world.room.close()


def write_release() -> None:
    """Write the pins, and the small store of the latest step as SQL text."""
    PINNED.write_text(json.dumps(current(), indent=2) + "\n", encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "small.db"
        small_store(path)
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")
            drop_derived(connection)
            text = "\n".join(connection.iterdump()) + "\n"
    RELEASES.mkdir(exist_ok=True)
    (RELEASES / f"{STEPS[-1]}.sql").write_text(text, encoding="utf-8")


def _derived_sql() -> str:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "new.db"
        with closing(create_store(path, durable=False)) as store:
            return "\n".join(expected_objects(store.connection).values())


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


if __name__ == "__main__":
    write_release()
