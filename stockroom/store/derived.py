"""Objects made from the schema, never migrated: views, triggers and the note index.

All are dropped and made again whenever the file's revision is behind `REVISION`. A test pins the
revision to the SQL made here, so a change of wording without a new revision fails.
"""

from __future__ import annotations

import sqlite3

REVISION = 4
"""Raise by one with every change to the SQL made in this module or to a tracked table."""

TRACKED = (
    "setting",
    "food",
    "food_allergen",
    "container",
    "location",
    "location_temperature",
    "temperature_reading",
    "run",
    "lot",
    "tray",
    "weighing",
    "dryness_check",
    "extra_drying",
    "lot_loss",
    "package",
    "package_source",
    "package_event",
    "redrying",
    "inspection",
    "food_measure",
    "recipe",
    "recipe_line",
    "recipe_allergen",
    "meal",
    "draw",
    "household_member",
    "member_allergen",
    "member_dislike",
    "menu",
    "planned_dish",
    "equipment_check",
    "equipment_reading",
)
"""Tables whose every change is kept for undo. Projections are computed again instead."""

VIEWS = {
    "place_path": """
        CREATE VIEW place_path (id, parent_id, path, depth, temperature_dc) AS
        WITH RECURSIVE tree (id, parent_id, path, depth, temperature_dc) AS (
            SELECT id, parent_id, name, 0, temperature_dc FROM location WHERE parent_id IS NULL
            UNION ALL
            SELECT child.id, child.parent_id, tree.path || '/' || child.name, tree.depth + 1,
                   ifnull(child.temperature_dc, tree.temperature_dc)
            FROM location AS child JOIN tree ON child.parent_id = tree.id
        )
        SELECT id, parent_id, path, depth, temperature_dc FROM tree""",
    "tray_weight": """
        CREATE VIEW tray_weight (tray_id, wet_dg, dry_dg) AS
        SELECT tray.id,
            (SELECT gross_dg - tare_dg FROM weighing
             WHERE tray_id = tray.id AND stage = 'wet' ORDER BY id DESC LIMIT 1),
            (SELECT gross_dg - tare_dg FROM weighing
             WHERE tray_id = tray.id AND stage = 'dry' ORDER BY id DESC LIMIT 1)
        FROM tray""",
    "lot_balance": """
        CREATE VIEW lot_balance (lot_id, packed_dg, packed_water_dg, lost_dg, lost_water_dg) AS
        SELECT lot.id,
            ifnull((SELECT sum(dry_dg) FROM package
                WHERE lot_id = lot.id AND origin = 'packed'), 0),
            ifnull((SELECT sum(water_dg) FROM package
                WHERE lot_id = lot.id AND origin = 'packed'), 0),
            ifnull((SELECT sum(dry_dg) FROM lot_loss WHERE lot_id = lot.id), 0),
            ifnull((SELECT sum(water_dg) FROM lot_loss WHERE lot_id = lot.id), 0)
        FROM lot""",
    "package_drawn": """
        CREATE VIEW package_drawn (package_id, dry_dg, water_dg) AS
        SELECT package_id, sum(dry_dg), sum(water_dg) FROM draw GROUP BY package_id""",
}

# columnsize=0: packages without a note are left out by the triggers, and a table of sizes would
# have to hold them all to pass the integrity check.
NOTE_INDEX = """
    CREATE VIRTUAL TABLE package_note USING fts5 (
        note, content='package', content_rowid='id', columnsize=0,
        tokenize='unicode61 remove_diacritics 2')"""

NOTE_TRIGGERS = {
    "package_note_insert": """
        CREATE TRIGGER package_note_insert AFTER INSERT ON package WHEN NEW.note <> '' BEGIN
            INSERT INTO package_note (rowid, note) VALUES (NEW.id, NEW.note);
        END""",
    "package_note_delete": """
        CREATE TRIGGER package_note_delete AFTER DELETE ON package WHEN OLD.note <> '' BEGIN
            INSERT INTO package_note (package_note, rowid, note)
            VALUES ('delete', OLD.id, OLD.note);
        END""",
    "package_note_update": """
        CREATE TRIGGER package_note_update AFTER UPDATE OF note ON package
        WHEN OLD.note <> NEW.note BEGIN
            INSERT INTO package_note (package_note, rowid, note)
            SELECT 'delete', OLD.id, OLD.note WHERE OLD.note <> '';
            INSERT INTO package_note (rowid, note) SELECT NEW.id, NEW.note WHERE NEW.note <> '';
        END""",
}

APPEND_ONLY_TRIGGERS = {
    "journal_keeps_entries": """
        CREATE TRIGGER journal_keeps_entries BEFORE DELETE ON journal BEGIN
            SELECT raise(ABORT, 'the journal is append-only');
        END""",
    "journal_written_once": """
        CREATE TRIGGER journal_written_once BEFORE UPDATE ON journal WHEN OLD.words <> '' BEGIN
            SELECT raise(ABORT, 'the journal is append-only');
        END""",
    "change_keeps_entries": """
        CREATE TRIGGER change_keeps_entries BEFORE DELETE ON change BEGIN
            SELECT raise(ABORT, 'the journal is append-only');
        END""",
    "change_written_once": """
        CREATE TRIGGER change_written_once BEFORE UPDATE ON change BEGIN
            SELECT raise(ABORT, 'the journal is append-only');
        END""",
}


def columns_of(connection: sqlite3.Connection, table: str) -> tuple[str, ...]:
    """The column names of a table, in order."""
    return tuple(str(row[1]) for row in connection.execute(f"PRAGMA table_info({table})"))


def _row_json(row: str, columns: tuple[str, ...]) -> str:
    return "json_object(" + ", ".join(f"'{name}', {row}.{name}" for name in columns) + ")"


def tracking_triggers(connection: sqlite3.Connection) -> dict[str, str]:
    """Triggers that copy each tracked row, as JSON before and after, under the open entry."""
    made: dict[str, str] = {}
    for table in TRACKED:
        columns = columns_of(connection, table)
        old, new = _row_json("OLD", columns), _row_json("NEW", columns)
        for event, row_id, before, after in (
            ("insert", "NEW.id", "NULL", new),
            ("update", "NEW.id", old, new),
            ("delete", "OLD.id", old, "NULL"),
        ):
            name = f"{table}_tracks_{event}"
            made[name] = (
                f"CREATE TRIGGER {name} AFTER {event.upper()} ON {table} BEGIN "
                "INSERT INTO change (journal_id, table_name, row_id, before, after) "
                f"VALUES ((SELECT max(id) FROM journal), '{table}', {row_id}, {before}, {after}); "
                "END"
            )
    return made


def expected_objects(connection: sqlite3.Connection) -> dict[str, str]:
    """Name → SQL of every derived object this schema should have."""
    return {
        **VIEWS,
        "package_note": NOTE_INDEX,
        **NOTE_TRIGGERS,
        **APPEND_ONLY_TRIGGERS,
        **tracking_triggers(connection),
    }


def derived_is_current(connection: sqlite3.Connection) -> bool:
    """Whether the file's derived objects are of this revision or a later one."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0]) >= REVISION


def drop_derived(connection: sqlite3.Connection) -> None:
    """Drop every derived object, inside the caller's transaction.

    Before schema steps: a trigger would journal what a step changes, and a view would stop a
    column from being renamed.
    """
    for kind, name in connection.execute(
        "SELECT type, name FROM sqlite_master WHERE type IN ('view', 'trigger')"
        " UNION ALL SELECT 'table', name FROM sqlite_master WHERE name = 'package_note'"
    ).fetchall():
        connection.execute(f"DROP {kind} {name}")


def rebuild_derived(connection: sqlite3.Connection) -> None:
    """Drop and make again every derived object, inside the caller's transaction."""
    drop_derived(connection)
    for sql in expected_objects(connection).values():
        connection.execute(sql)
    connection.execute("INSERT INTO package_note (package_note) VALUES ('rebuild')")
    connection.execute(f"PRAGMA user_version = {REVISION}")
