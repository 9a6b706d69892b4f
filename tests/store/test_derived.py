"""Views, triggers and the note index: as expected, usable, and in step with their tables."""

from __future__ import annotations

import json
import re
import sqlite3
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.errors import StoreDamaged
from stockroom.store.connection import Store
from stockroom.store.derived import (
    TRACKED,
    VIEWS,
    columns_of,
    derived_is_current,
    drop_derived,
    expected_objects,
    rebuild_derived,
)
from stockroom.store.rows import note_words
from tests.store.entries import acted
from tests.store.samples import SAMPLES, insert, insert_samples


@pytest.fixture
def filled(store: Store) -> Store:
    """A store with one row in every table."""
    insert_samples(store)
    return store


def _derived(store: Store) -> dict[str, str]:
    return dict(
        store.query(
            "SELECT name, sql FROM sqlite_master WHERE type IN ('view', 'trigger')"
            " OR name = 'package_note'"
        )
    )


def in_step(store: Store) -> bool:
    """Whether SQLite finds the note index equal to the notes (its rank 1 integrity check)."""
    try:
        with acted(store):
            store.run("INSERT INTO package_note (package_note, rank) VALUES ('integrity-check', 1)")
    except StoreDamaged:
        return False
    return True


def found(store: Store, typed: str) -> list[int]:
    """Packages whose note has these words, by the query that services use."""
    return [
        row[0]
        for row in store.query(
            "SELECT rowid FROM package_note WHERE package_note MATCH ? ORDER BY rowid",
            (note_words(typed),),
        )
    ]


def test_a_new_store_has_exactly_the_derived_objects(store: Store) -> None:
    expected = expected_objects(store.connection)
    assert _derived(store) == {name: sql.strip() for name, sql in expected.items()}
    assert len(expected) == len(VIEWS) + 1 + 3 + 4 + 3 * len(TRACKED)
    assert derived_is_current(store.connection)


def test_they_can_be_made_again_and_nothing_is_left_behind(filled: Store) -> None:
    before = _derived(filled)
    with acted(filled):
        drop_derived(filled.connection)
        assert _derived(filled) == {}
        rebuild_derived(filled.connection)
    assert _derived(filled) == before
    assert in_step(filled)


@pytest.mark.parametrize("view", VIEWS)
def test_every_view_can_be_read(filled: Store, view: str) -> None:
    (first,) = filled.query(f"SELECT * FROM {view}")
    (head,) = re.findall(rf"CREATE VIEW {view} \(([^)]*)\)", VIEWS[view])
    assert len(first) == len(head.split(","))


def test_the_views_say_what_they_mean(filled: Store) -> None:
    assert filled.query("SELECT * FROM place_path") == [(1, None, "cellar", 0, 120)]
    assert filled.query("SELECT * FROM tray_weight") == [(1, 10000, None)]
    assert filled.query("SELECT * FROM lot_balance") == [(1, 620, 3380, 10, 54)]
    assert filled.query("SELECT * FROM package_drawn") == [(1, 100, 545)]


def test_a_place_has_the_nearest_temperature_above_it(filled: Store) -> None:
    with acted(filled):
        for place_id, parent_id, name, temperature_dc in (
            (2, 1, "rack", None),
            (3, 2, "bin", None),
            (4, 2, "cold bin", -5),
            (5, 4, "tin", None),
            (6, None, "loft", None),
            (7, 6, "shelf", None),
        ):
            insert(
                filled,
                "location",
                {
                    **SAMPLES["location"],
                    "id": place_id,
                    "parent_id": parent_id,
                    "name": name,
                    "temperature_dc": temperature_dc,
                },
            )
    assert filled.query("SELECT path, depth, temperature_dc FROM place_path ORDER BY path") == [
        ("cellar", 0, 120),
        ("cellar/rack", 1, 120),
        ("cellar/rack/bin", 2, 120),
        ("cellar/rack/cold bin", 2, -5),
        ("cellar/rack/cold bin/tin", 3, -5),
        ("loft", 0, None),
        ("loft/shelf", 1, None),
    ]


def test_the_latest_weighing_of_each_stage_counts(filled: Store) -> None:
    weighing = SAMPLES["weighing"]
    with acted(filled):
        insert(filled, "weighing", {**weighing, "id": 2, "gross_dg": 9500})
        insert(filled, "weighing", {**weighing, "id": 3, "stage": "dry", "gross_dg": 2050})
        insert(filled, "weighing", {**weighing, "id": 4, "stage": "dry", "gross_dg": 2000})
    assert filled.query("SELECT wet_dg, dry_dg FROM tray_weight") == [(9000, 1500)]


def test_every_column_of_a_tracked_row_is_copied(filled: Store) -> None:
    for table in TRACKED:
        (after,) = filled.query(
            "SELECT after FROM change WHERE table_name = ? AND row_id = 1", (table,)
        )
        assert json.loads(after[0]) == SAMPLES[table]
        assert tuple(SAMPLES[table]) == columns_of(filled.connection, table)


def test_every_kind_of_change_is_copied_before_and_after(filled: Store) -> None:
    with acted(filled) as entry_id:
        filled.run("UPDATE setting SET value = 'us'")
        filled.run("DELETE FROM setting")
    assert filled.query(
        "SELECT json_extract(before, '$.value'), json_extract(after, '$.value') FROM change"
        " WHERE journal_id = ? ORDER BY id",
        (entry_id,),
    ) == [("metric", "us"), ("us", None)]


@pytest.mark.parametrize(
    "statement",
    [
        "DELETE FROM journal",
        "UPDATE journal SET words = 'never happened'",
        "UPDATE journal SET actor = 'someone else' WHERE id = 1",
        "DELETE FROM change",
        "DELETE FROM change WHERE id = 1",
        "UPDATE change SET after = NULL",
        "UPDATE change SET journal_id = 1",
    ],
)
def test_the_journal_is_only_ever_added_to(filled: Store, statement: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="append-only"), acted(filled):
        filled.run(statement)


# The note index.

NOTES = (
    ("crème brûlée pour Zoé", ["creme", "brulee", "zoe", "CRÈME", "crèm"]),
    ('7" pouch [soft-dried]', ['7"', "[soft-dried]", "soft", "dried", "soft-dried"]),
    ("100 % milk_free (a OR b)", ["100", "milk_free", "OR", "milk"]),
    ("NEAR the AND gate", ["NEAR", "AND", "gate near"]),
    ("ΑΘΗΝΑ Straße", ["αθηνα", "straße"]),
    ("emoji 🫛 peas", ["peas", "emoji"]),
)
"""A note, and what finds it: the words are quoted, so none is read as query language."""


@pytest.mark.parametrize(("note", "words"), NOTES)
def test_a_note_is_found_by_the_words_in_it(filled: Store, note: str, words: list[str]) -> None:
    with acted(filled):
        filled.run("UPDATE package SET note = ?", (note,))
    for typed in words:
        assert found(filled, typed) == [1], typed
    assert found(filled, "zebra") == []
    assert in_step(filled)


@pytest.mark.parametrize(
    "typed", ["%", "_", "*", '"', "[", "(", "-", ":", "^", "''", "\x00", "a\x00b"]
)
def test_signs_alone_find_nothing_and_break_nothing(filled: Store, typed: str) -> None:
    with acted(filled):
        filled.run("UPDATE package SET note = 'plain words'")
    if note_words(typed):
        assert found(filled, typed) == []


def test_no_words_are_no_query() -> None:
    assert note_words("") == note_words("  \t") == note_words('"') == note_words('" ""') == ""
    assert note_words('say "hi"') == '"say"* """hi"""*'


def _note(package_id: int, note: str) -> dict[str, Any]:
    return {
        **SAMPLES["package"],
        "id": package_id,
        "number": package_id,
        "code": f"26329A{package_id:02d}X",
        "note": note,
    }


STEPS = st.lists(
    st.tuples(st.integers(1, 4), st.sampled_from(["", "soft", "crème", "torn seal", "soft seal"])),
    max_size=12,
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40)
@given(steps=STEPS)
def test_index_and_notes_never_drift_apart(filled: Store, steps: list[tuple[int, str]]) -> None:
    """Notes put in, changed, emptied and taken away in any order; a package twice is taken away."""
    there = {row[0] for row in filled.query("SELECT id FROM package")}
    for package_id, note in steps:
        with acted(filled):
            if package_id == 1:
                filled.run("UPDATE package SET note = ? WHERE id = 1", (note,))
            elif package_id in there:
                filled.run("DELETE FROM package WHERE id = ?", (package_id,))
                there.remove(package_id)
            else:
                insert(filled, "package", _note(package_id, note))
                there.add(package_id)
        assert in_step(filled)
        having = [
            row[0]
            for row in filled.query("SELECT id FROM package WHERE note LIKE '%soft%' ORDER BY id")
        ]
        assert found(filled, "soft") == having


def test_the_check_of_the_index_can_fail(filled: Store) -> None:
    """Planted: a note changed behind the triggers' back."""
    with acted(filled):
        filled.run("UPDATE package SET note = 'soft'")
    assert in_step(filled)
    with acted(filled):
        filled.run("DROP TRIGGER package_note_update")
        filled.run("UPDATE package SET note = 'crisp'")
    assert not in_step(filled)
