"""Undo and redo in the store: rows put back exactly, in reverse, or refused and left alone."""

from __future__ import annotations

from typing import Any

import pytest

from stockroom.domain.records import JournalEntry
from stockroom.store.connection import Store
from stockroom.store.derived import TRACKED
from stockroom.store.journal import (
    FOUNDING,
    ChangedSince,
    NothingToRedo,
    NothingToUndo,
    changed_rows,
    close_entry,
    entries,
    next_to_redo,
    next_to_undo,
    open_entry,
    put_back,
)
from stockroom.store.package_rows import set_note
from stockroom.store.settings import read_settings, save_setting
from stockroom.store.writing import write
from tests.dumps import COMPUTED, dump
from tests.store.entries import NOON, acted
from tests.store.samples import SAMPLES, insert, insert_samples
from tests.store.test_derived import found, in_step


def _set(store: Store, key: str, value: str) -> int:
    with acted(store, f"set {key} to {value}") as entry_id:
        save_setting(store, key, value)
    return entry_id


def _entry(store: Store, entry_id: int) -> JournalEntry:
    (found_,) = [one for one in entries(store, count=1000) if one.entry_id == entry_id]
    return found_


def _reverse(store: Store, entry: JournalEntry, kind: str = "undo") -> int:
    with write(store):
        made = open_entry(
            store,
            at=NOON,
            on_day=NOON.date(),
            actor="tester",
            action=kind,
            kind=kind,
            reverses_id=entry.entry_id,
        )
        put_back(store, entry)
        close_entry(store, made, f"{kind} of {entry.words}")
    return made


@pytest.mark.parametrize("table", TRACKED)
def test_every_table_can_be_put_back(store: Store, table: str) -> None:
    """Taken away, put back; changed, put back; and the going itself taken back."""
    insert_samples(store)
    full = dump(store.path)
    with acted(store) as entry_id:
        _take_away_below(store, table)
    without = dump(store.path)
    undone = _reverse(store, _entry(store, entry_id))
    back = dump(store.path)
    computed: dict[str, Any] = dict.fromkeys(COMPUTED, ())
    assert {**back, **computed} == {**full, **computed}
    _reverse(store, _entry(store, undone), "redo")
    assert {**dump(store.path), **computed} == {**without, **computed}


_BELOW = {
    "food": ("food_allergen", "food_measure", "member_dislike", "recipe_line", "tray", "lot"),
    "container": ("package",),
    "location": ("package_event", "package", "location_temperature", "temperature_reading"),
    "run": ("extra_drying", "tray", "lot"),
    "lot": ("lot_loss", "redrying", "tray", "package"),
    "tray": ("weighing", "dryness_check", "redrying"),
    "package": ("package_event", "draw", "package_source", "redrying", "inspection"),
    "recipe": ("recipe_line", "recipe_allergen", "planned_dish", "meal"),
    "meal": ("draw", "planned_dish"),
    "menu": ("planned_dish",),
    "household_member": ("member_allergen", "member_dislike"),
}


def _take_away_below(store: Store, table: str) -> None:
    for below in _BELOW.get(table, ()):
        _take_away_below(store, below)
    store.run(f"DELETE FROM {table}")


def test_undoing_everything_leaves_nothing(store: Store) -> None:
    insert_samples(store)
    _reverse(store, next_to_undo(store))
    assert all(rows == () for rows in dump(store.path).values())


def test_the_latest_still_in_effect_is_undone_first(store: Store) -> None:
    first, second = _set(store, "a", "1"), _set(store, "b", "2")
    assert next_to_undo(store).entry_id == second
    undo_second = _reverse(store, next_to_undo(store))
    assert next_to_undo(store).entry_id == first
    assert next_to_redo(store).entry_id == undo_second
    undo_first = _reverse(store, next_to_undo(store))
    with pytest.raises(NothingToUndo):
        next_to_undo(store)
    assert next_to_redo(store).entry_id == undo_first
    redo_first = _reverse(store, next_to_redo(store), "redo")
    assert next_to_redo(store).entry_id == undo_second
    assert next_to_undo(store).entry_id == redo_first
    _reverse(store, next_to_redo(store), "redo")
    with pytest.raises(NothingToRedo):
        next_to_redo(store)
    assert read_settings(store) == {"a": "1", "b": "2"}


def test_something_new_ends_redo(store: Store) -> None:
    _set(store, "a", "1")
    _reverse(store, next_to_undo(store))
    _set(store, "b", "2")
    with pytest.raises(NothingToRedo):
        next_to_redo(store)
    assert next_to_undo(store).words == "set b to 2"


def test_the_founding_entry_stays(store: Store) -> None:
    with write(store):
        made = open_entry(store, at=NOON, on_day=NOON.date(), actor="tester", action=FOUNDING)
        save_setting(store, "units", "us")
        close_entry(store, made, "started")
    with pytest.raises(NothingToUndo):
        next_to_undo(store)


def test_an_empty_journal_has_nothing(store: Store) -> None:
    with pytest.raises(NothingToUndo):
        next_to_undo(store)
    with pytest.raises(NothingToRedo):
        next_to_redo(store)
    assert entries(store, count=10) == []


def test_what_was_changed_again_is_not_put_back(store: Store) -> None:
    """An entry that is not the last on its row: putting it back would lose the later change."""
    first = _set(store, "units", "us")
    _set(store, "units", "metric")
    before = dump(store.path)
    with pytest.raises(ChangedSince) as caught:
        _reverse(store, _entry(store, first))
    assert "set units to us" in caught.value.message
    assert dump(store.path) == before
    assert not store.connection.in_transaction


def test_what_was_taken_away_again_is_not_put_back(store: Store) -> None:
    first = _set(store, "units", "us")
    with acted(store):
        store.run("DELETE FROM setting")
    with pytest.raises(ChangedSince):
        _reverse(store, _entry(store, first))


def test_what_was_put_in_again_is_not_taken_for_gone(store: Store) -> None:
    _set(store, "units", "us")
    with acted(store) as gone:
        store.run("DELETE FROM setting")
    with acted(store):
        insert(store, "setting", SAMPLES["setting"])
    with pytest.raises(ChangedSince):
        _reverse(store, _entry(store, gone))


def test_one_row_changed_twice_in_one_entry_goes_back_twice(store: Store) -> None:
    _set(store, "units", "us")
    with acted(store) as entry_id:
        save_setting(store, "units", "metric")
        save_setting(store, "units", "both")
        store.run("DELETE FROM setting")
        save_setting(store, "units", "none")
    _reverse(store, _entry(store, entry_id))
    assert read_settings(store) == {"units": "us"}


def test_a_table_the_journal_should_not_name_is_a_defect(store: Store) -> None:
    with acted(store) as entry_id:
        store.run(
            "INSERT INTO change (journal_id, table_name, row_id, after)"
            " VALUES (?, 'journal', 1, '{}')",
            (entry_id,),
        )
    with pytest.raises(ValueError, match="unknown table"):
        _reverse(store, _entry(store, entry_id))


@pytest.mark.parametrize(
    "note",
    [
        "",
        "plain",
        'a "quoted" note',
        "two\nlines\tand a tab",
        "é ß 🫛 \u2028",
        "back\\slash",
        "nul \x00 inside",
        '{"json": null}',
        "\x1b[31mred",
    ],
)
def test_any_text_comes_back_as_it_was(store: Store, note: str) -> None:
    insert_samples(store)
    with acted(store):
        set_note(store, 1, note)
    with acted(store) as entry_id:
        set_note(store, 1, "another")
    _reverse(store, _entry(store, entry_id))
    assert store.value("SELECT note FROM package") == note


def test_note_search_survives_undo_and_redo(store: Store) -> None:
    insert_samples(store)
    with acted(store):
        set_note(store, 1, "crème brûlée")
    with acted(store) as entry_id:
        set_note(store, 1, "soft seal")
    undone = _reverse(store, _entry(store, entry_id))
    assert found(store, "creme") == [1]
    assert found(store, "soft") == []
    _reverse(store, _entry(store, undone), "redo")
    assert found(store, "creme") == []
    assert found(store, "soft") == [1]
    assert in_step(store)


def test_note_search_survives_a_package_taken_away_and_put_back(store: Store) -> None:
    insert_samples(store)
    with acted(store):
        set_note(store, 1, "crème brûlée")
    with acted(store) as entry_id:
        _take_away_below(store, "package")
    assert found(store, "creme") == []
    _reverse(store, _entry(store, entry_id))
    assert found(store, "creme") == [1]
    assert in_step(store)


def test_entries_are_paged_from_the_latest(store: Store) -> None:
    for number in range(7):
        _set(store, "count", str(number))
    first = entries(store, count=3)
    assert [one.entry_id for one in first] == [7, 6, 5]
    second = entries(store, count=3, before_id=first[-1].entry_id)
    assert [one.entry_id for one in second] == [4, 3, 2]
    assert [one.entry_id for one in entries(store, count=3, before_id=2)] == [1]
    assert entries(store, count=3, before_id=1) == []


def test_an_entry_says_who_when_and_what(store: Store) -> None:
    _set(store, "a", "1")
    undone = _reverse(store, next_to_undo(store))
    latest, first = entries(store, count=2)
    assert (first.words, first.actor, first.at, first.on_day) == (
        "set a to 1",
        "tester",
        NOON,
        NOON.date(),
    )
    assert (first.kind, first.reverses_id, first.reversed) == ("do", None, True)
    assert (latest.entry_id, latest.kind, latest.reverses_id, latest.reversed) == (
        undone,
        "undo",
        1,
        False,
    )


def test_changed_rows_by_table(store: Store) -> None:
    insert_samples(store)
    with acted(store) as entry_id:
        set_note(store, 1, "x")
        set_note(store, 1, "y")
        save_setting(store, "units", "us")
        save_setting(store, "people", "3")
    assert changed_rows(store, entry_id) == {
        "package": frozenset({1}),
        "setting": frozenset({1, 2}),
    }
