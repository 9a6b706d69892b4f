"""The schema itself refuses what cannot be: walked constraint by constraint."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from enum import StrEnum

import pytest

from stockroom.domain.conditions import Condition, Event
from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.keeping.interface import FoodClass, LimitedBy, PackageKind
from stockroom.domain.person import Activity, Sex
from stockroom.store.connection import Store
from stockroom.store.derived import TRACKED
from stockroom.store.migrations import STEPS, schema_step
from tests.store.entries import acted, entered
from tests.store.samples import SAMPLES, Row, insert, insert_samples

ENTRY: Row = {
    "id": 50,
    "at": "2026-11-25T12:00:00+00:00",
    "on_day": "2026-11-25",
    "actor": "tester",
    "kind": "do",
    "action": "test",
    "words": "",
    "reverses_id": None,
}
CHANGE: Row = {
    "id": 5000,
    "journal_id": 1,
    "table_name": "setting",
    "row_id": 1,
    "before": None,
    "after": "{}",
}
ROWS = {**SAMPLES, "journal": ENTRY, "change": CHANGE}

FRESH_ITEM: Row = {"food_id": None, "basis": None, "weight_dg": None, "item": "onion"}
OPENED: Row = {"condition": "opened", "opened_on": "2026-11-26"}

NO_DATE: Row = dict.fromkeys(("best_by", "low", "high", "recheck_by", "limited_by"))

# What each CHECK has to refuse: changes to the table's lawful row. Ranges have both ends.
BREACHES: dict[str, tuple[Row, ...]] = {
    "setting": ({"key": ""},),
    "food": (
        {"name": "  "},
        {"food_group": ""},
        {"food_class": "stone"},
        {"preparation": "burnt"},
        {"serving_dg": 0},
        {"serving_dg": 1_000_001},
        *(
            {column: wrong}
            for column in (
                "water_cg",
                "protein_cg",
                "fat_cg",
                "ash_cg",
                "carbohydrate_cg",
                "fibre_cg",
                "sugars_cg",
            )
            for wrong in (-1, 10_001)
        ),
        {"energy_tenth_kcal": -1},
        {"energy_tenth_kcal": 9_101},
        {"ingredients_unknown": 2},
    ),
    "food_allergen": ({"allergen": "moon dust"},),
    "container": (
        {"key": ""},
        {"name": " "},
        {"package_kind": "sock"},
        {"volume_ml": 0},
        {"volume_ml": 100_001},
        {"width_mm": 0},
        {"height_mm": -1},
    ),
    "location": (
        {"name": " "},
        {"name": "rack/bin"},
        {"kind": "pocket"},
        {"temperature_dc": -801},
        {"temperature_dc": 601},
        {"humidity_percent": 0},
        {"humidity_percent": 100},
        {"id": 2, "parent_id": 2},
    ),
    "run": (
        {"started_on": "2026-13-01"},
        {"started_on": "24 November"},
        {"closed_on": "2026-11-31"},
        {"state": "resting"},
        {"state": "open"},
        {"state": "abandoned", "closed_on": None},
        {"closed_on": "2026-11-23"},
    ),
    "lot": (
        {"code": ""},
        {"made_on": "2026-02-30"},
        {"preparation": "burnt"},
        {"wet_dg": 0},
        {"dry_dg": 0},
        {"dry_dg": 10_001},
        {"dealt_before_dg": -1},
        {"dealt_before_water_dg": -1},
    ),
    "tray": ({"position": 0}, {"position": 31}),
    "weighing": (
        {"stage": "damp"},
        {"gross_dg": 0, "tare_dg": -1},
        {"gross_dg": 1_000_001},
        {"tare_dg": -1},
        {"tare_dg": 1_000_001, "gross_dg": 1_000_000},
        {"on_day": "today"},
        {"tare_dg": 10_500},
        {"hours_tenths": -1},
        {"hours_tenths": 100_001},
    ),
    "lot_loss": (
        {"reason": "eaten by mice"},
        {"dry_dg": 0},
        {"water_dg": -1},
        {"on_day": "2026-1-1"},
    ),
    "package": (
        {"code": ""},
        {"number": 0},
        {"number": 1000},
        {"absorber_cc": -1},
        {"absorber_cc": 20_001},
        {"vacuum": 2},
        {"vacuum": 0},
        {"vacuum_tenth_inhg": 0},
        {"vacuum_tenth_inhg": 311},
        {"dry_dg": 0},
        {"water_dg": -1},
        {"taken_dg": -1},
        {"taken_dg": 621},
        {"sealed_on": "yesterday"},
        {"condition": "lost"},
        {"condition": "opened"},
        {"condition": "opened", "opened_on": "2026-99-99"},
        {"condition": "discarded", "gone_on": "soon"},
        {"condition": "discarded"},
        {"condition": "sound", "gone_on": "2026-11-26"},
        {"condition": "used", "gone_on": "2026-11-26", "taken_dg": 619},
        {"tray_position": 0},
        {"tray_position": 31},
        {"origin": "bought"},
        {"first_sealed_on": "x"},
        {"exposed_on": "x"},
        {"life_before_millionths": -1},
    ),
    "dryness_check": ({"kind": "smell"}, {"passed": 2}, {"on_day": "x"}),
    "extra_drying": ({"hours_tenths": 0}, {"hours_tenths": 10_001}, {"on_day": "x"}),
    "redrying": (
        {"dry_dg": 0},
        {"since": "x"},
        {"driven_off_dg": -1},
        {"ended_on": "x", "ending": "packed"},
        {"ended_on": "2026-11-27", "ending": "lost"},
        {"ended_on": "2026-11-27"},
        {"ending": "packed"},
    ),
    "inspection": ({"on_day": "x"}, {"answers": "yes"}, {"outcome": "taste"}, {"use_by": "x"}),
    "equipment_check": ({"task": ""}, {"on_day": "x"}, {"passed": 2}),
    "equipment_reading": (
        {"on_day": "x"},
        {"volume_ml": 0},
        {"from_microbar": -1},
        {"to_microbar": -1},
        {"seconds": 0},
        {"dry_empty": 2},
    ),
    "recheck": (
        {"earliest_on": "x"},
        {"wanted_on": "x"},
        {"latest_on": "x"},
        {"risk": -1},
        {"risk": 1001},
        {"earliest_on": "2026-12-03"},
        {"latest_on": "2026-12-01"},
    ),
    "calendar_entry": ({"uid": ""}, {"sequence": -1}, {"on_day": "x"}, {"cancelled": 2}),
    "package_event": ({"on_day": ""}, {"event": "sang"}),
    "recipe": (
        {"name": ""},
        {"serves": 0},
        {"serves": 1001},
        {"cooking_water_dg": -1},
        {"cooking_water_dg": 1_000_001},
        {"hold_back_percent": -1},
        {"hold_back_percent": 101},
        {"cook_to_dc": 299},
        {"cook_to_dc": 1501},
        {"water_temperature_dc": -1},
        {"water_temperature_dc": 1001},
        {"occasion": "feast"},
        {"fresh_kcal": -1},
        {"fresh_kcal": 1_000_001},
        {"fresh_protein_dg": -1},
        {"fresh_protein_dg": 1_000_001},
    ),
    "food_measure": (
        {"name": " "},
        {"basis": "servings"},
        {"weight_dg": 0},
        {"weight_dg": 1_000_001},
    ),
    "recipe_allergen": ({"allergen": "pollen"},),
    "household_member": (
        {"name": " "},
        {"sex": "X"},
        {"age_tenths": -1},
        {"age_tenths": 1201},
        {"age_on": "x"},
        {"body_weight_dg": 0},
        {"body_weight_dg": 5_000_001},
        {"height_mm": 0},
        {"height_mm": 3001},
        {"activity": "lazy"},
        {"edition": ""},
    ),
    "member_allergen": ({"allergen": "pollen"},),
    "menu": (
        {"made_on": "x"},
        {"from_day": "x"},
        {"days": 0},
        {"days": 61},
        {"wishes": "{"},
        {"gap_millionths": -1},
    ),
    "planned_dish": (
        {"on_day": "x"},
        {"position": 0},
        {"name": " "},
        {"people": 0},
        {"people": 1001},
        {"locked": 2},
    ),
    "recipe_line": (
        {"hold_back_percent": -1},
        {"hold_back_percent": 101},
        {**FRESH_ITEM, "hold_back_percent": 10},
        {"basis": "measure", "weight_dg": None},
        {"basis": "measure", "weight_dg": None, "amount_thousandths": 1},
        {"position": 0},
        {"basis": "pinch"},
        {"weight_dg": 0},
        {"weight_dg": 1_000_001},
        {"basis": "servings", "weight_dg": None, "servings_hundredths": 0},
        {"basis": "servings", "weight_dg": None, "servings_hundredths": 100_001},
        {**FRESH_ITEM, "item": " "},
        {**FRESH_ITEM, "amount_thousandths": 0},
        {**FRESH_ITEM, "amount_thousandths": 1_000_000_001},
        {"basis": None, "weight_dg": None},
        {**FRESH_ITEM, "basis": "fresh", "weight_dg": 10},
        {"item": "onion"},
        {"food_id": None, "basis": None, "weight_dg": None},
        {"weight_dg": None},
        {"basis": "servings", "servings_hundredths": 100},
        {"basis": "servings", "weight_dg": None},
        {"servings_hundredths": 100},
        {**FRESH_ITEM, "weight_dg": 10},
        {**FRESH_ITEM, "servings_hundredths": 100},
    ),
    "meal": (
        {"people": 0},
        {"people": 1001},
        {"on_day": "x"},
        {"rehydration_water_dg": -1},
        {"cooking_water_dg": -1},
        {"eat_by": "x"},
    ),
    "draw": ({"on_day": "x"}, {"dry_dg": 0}, {"water_dg": -1}, {"purpose": "sell"}),
    "location_temperature": (
        {"month": 0},
        {"month": 13},
        {"temperature_dc": -801},
        {"temperature_dc": 601},
        {"origin": "guessed"},
    ),
    "temperature_reading": (
        {"at": "2026-11-24"},
        {"at": "2026-11-24 18:30"},
        {"at": "2026-11-24T18:30:00"},
        {"at": "2026-02-30T18:30"},
        {"temperature_dc": -801},
        {"temperature_dc": 601},
    ),
    "projection": (
        {"best_by": "x"},
        {"low": "x"},
        {"high": "x"},
        {"recheck_by": "x"},
        {"discard_by": "x"},
        {"limited_by": "luck"},
        {"computed_on": "x"},
        {"low": "2036-11-26"},
        {"high": "2036-11-24"},
        {"refused": "too warm"},
        NO_DATE | {"refused": ""},
        {"best_by": None, "refused": "too warm"},
        *(
            {**NO_DATE, "refused": "too warm", column: value}
            for column, value in (
                ("low", "2031-11-25"),
                ("high", "2046-11-25"),
                ("recheck_by", "2031-11-25"),
                ("limited_by", "cap"),
            )
        ),
    ),
    "projection_basis": ({"id": 2}, {"basis": ""}),
    "journal": (
        {"on_day": "x"},
        {"actor": " "},
        {"kind": "redoo", "reverses_id": 1},
        {"action": ""},
        {"kind": "undo"},
        {"reverses_id": 1},
    ),
    "change": ({"before": "not json"}, {"after": "not json"}, {"after": None}),
}

# Lawful neighbours of those breaches: the ends of ranges and the less usual shapes.
LAWFUL: dict[str, tuple[Row, ...]] = {
    "food": (
        {"serving_dg": 1},
        {"serving_dg": 1_000_000},
        {"water_cg": 0, "fat_cg": 10_000, "energy_tenth_kcal": 9_100},
        {"water_cg": None, "fat_cg": None, "energy_tenth_kcal": None, "reference_key": None},
    ),
    "container": ({"volume_ml": 1, "width_mm": None, "height_mm": None}, {"volume_ml": 100_000}),
    "location": (
        {"temperature_dc": -800},
        {"temperature_dc": 600, "humidity_percent": 1},
        {"temperature_dc": None, "humidity_percent": 99},
        {"id": 2, "parent_id": 1, "temperature_dc": None, "humidity_percent": None},
    ),
    "run": (
        {"state": "open", "closed_on": None},
        {"closed_on": "2026-11-24"},
        {"started_on": "2024-02-29"},
    ),
    "lot": ({"dry_dg": 10_000}, {"dry_dg": 1}, {"dealt_before_dg": 5, "dealt_before_water_dg": 9}),
    "tray": ({"position": 30, "lot_id": None},),
    "weighing": ({"gross_dg": 1, "tare_dg": 0}, {"gross_dg": 1_000_000}, {"stage": "dry"}),
    "package": (
        {"number": 999, "absorber_cc": 0, "vacuum": 0, "vacuum_tenth_inhg": None},
        {"absorber_cc": 20_000, "vacuum_tenth_inhg": None, "location_id": None, "water_dg": 0},
        {**OPENED, "taken_dg": 619},
        {"condition": "suspect", "opened_on": "2026-11-26"},
        {"condition": "used", "gone_on": "2026-11-26", "taken_dg": 620},
        {"condition": "discarded", "gone_on": "2026-11-26", "taken_dg": 20},
    ),
    "redrying": (
        {"package_id": None, "tray_id": None},
        {"ended_on": "2026-11-27", "ending": "dried", "driven_off_dg": 15},
    ),
    "recheck": ({"earliest_on": "2026-12-02", "latest_on": "2026-12-02", "risk": 1000},),
    "recipe": ({"serves": 1000, "cooking_water_dg": 1_000_000},),
    "recipe_line": (
        FRESH_ITEM,
        {**FRESH_ITEM, "amount_thousandths": 1, "unit": "pinch"},
        {**FRESH_ITEM, "amount_thousandths": 1_000_000_000},
        {"basis": "dry", "weight_dg": 1_000_000},
        {"basis": "servings", "weight_dg": None, "servings_hundredths": 100_000},
        {"basis": "measure", "weight_dg": None, "amount_thousandths": 1500, "unit": "cup"},
        {"hold_back_percent": 100},
    ),
    "food_measure": ({"basis": "fresh", "weight_dg": 1_000_000},),
    "household_member": (
        {"body_weight_dg": None, "height_mm": None, "age_tenths": 0},
        {"sex": "M", "body_weight_dg": 5_000_000, "height_mm": 3000, "age_tenths": 1200},
    ),
    "menu": ({"days": 60, "gap_millionths": None},),
    "planned_dish": ({"recipe_id": None, "meal_id": None, "locked": 1},),
    "location_temperature": ({"month": 12, "temperature_dc": -800}, {"temperature_dc": 600}),
    "temperature_reading": (
        {"at": "2024-02-29T00:00", "temperature_dc": -800},
        {"at": "2026-12-31T23:59", "temperature_dc": 600},
    ),
    "projection": (
        {"low": "2036-11-25", "high": "2036-11-25", "discard_by": None},
        {**NO_DATE, "discard_by": None, "refused": "50.0 °C is too warm."},
    ),
    "journal": ({"kind": "undo", "reverses_id": 1}, {"kind": "redo", "reverses_id": 1}),
}

# Column → the words of the program that must be exactly what the schema takes.
ENUMS: tuple[tuple[str, str, type[StrEnum], dict[str, Row]], ...] = (
    ("food", "food_class", FoodClass, {}),
    ("food", "preparation", Preparation, {}),
    ("food_allergen", "allergen", Allergen, {}),
    ("container", "package_kind", PackageKind, {}),
    ("lot", "preparation", Preparation, {}),
    (
        "package",
        "condition",
        Condition,
        {
            "opened": OPENED,
            "used": {"gone_on": "2026-11-26", "taken_dg": 620},
            "discarded": {"gone_on": "2026-11-26"},
        },
    ),
    (
        "recipe_line",
        "basis",
        Basis,
        {
            "servings": {"weight_dg": None, "servings_hundredths": 100},
            "measure": {"weight_dg": None, "amount_thousandths": 1000, "unit": "cup"},
        },
    ),
    ("recipe", "occasion", Occasion, {}),
    ("household_member", "sex", Sex, {}),
    ("household_member", "activity", Activity, {}),
    ("projection", "limited_by", LimitedBy, {}),
)


@pytest.fixture
def filled(store: Store) -> Store:
    """A store with one row in every table."""
    insert_samples(store)
    return store


def _clear(store: Store, table: str) -> None:
    """Make room for the table's row; what refers to it is looked at only when it is put in."""
    store.connection.execute("PRAGMA defer_foreign_keys = ON")
    store.run(f"DELETE FROM {table}" if table not in ("journal", "change") else "SELECT 1")


def _tables(store: Store) -> set[str]:
    rows = store.query(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'package_note%'"
        " AND name NOT LIKE 'sqlite_%' AND name <> '_sqlite_migrations'"
    )
    return {row[0] for row in rows}


def _refusal(store: Store, table: str, changes: Row) -> str:
    """What SQLite says of the table's row with these changes; the unit is always taken back."""
    row = {**ROWS[table], **changes}
    with pytest.raises(sqlite3.IntegrityError) as caught, acted(store):
        _clear(store, table)
        insert(store, table, row)
    return str(caught.value)


def test_every_table_has_a_sample(store: Store) -> None:
    assert _tables(store) == set(ROWS)
    computed = {"projection", "projection_basis", "recheck", "calendar_entry"}
    assert set(TRACKED) == set(SAMPLES) - computed
    for table, row in ROWS.items():
        assert list(row) == [column[1] for column in store.query(f"PRAGMA table_info({table})")]


def test_every_table_is_strict_and_no_column_is_real(store: Store) -> None:
    listed = {row[1]: row for row in store.query("PRAGMA table_list")}
    for table in _tables(store):
        assert listed[table][5] == 1, f"{table} is not STRICT"
        kinds = {row[2] for row in store.query(f"PRAGMA table_info({table})")}
        assert kinds <= {"INTEGER", "TEXT"}, table


WALK = [(table, changes) for table, breaches in BREACHES.items() for changes in breaches]


@pytest.mark.parametrize(("table", "changes"), WALK, ids=str)
def test_what_cannot_be_is_refused(filled: Store, table: str, changes: Row) -> None:
    assert "CHECK constraint failed" in _refusal(filled, table, changes)


def _checks(sql: str) -> Iterator[str]:
    """The text inside each CHECK ( ... ) of a script."""
    for found in re.finditer(r"CHECK \(", sql):
        depth, end = 1, found.end()
        while depth:
            depth += {"(": 1, ")": -1}.get(sql[end], 0)
            end += 1
        yield sql[found.end() : end - 1]


def test_every_check_of_the_schema_has_refused_something(filled: Store) -> None:
    """SQLite names the failed expression, so each expression must have been named by its table."""
    named = {
        (table, _refusal(filled, table, changes).removeprefix("CHECK constraint failed: "))
        for table, changes in WALK
    }
    written: set[tuple[str, str]] = set()
    for name, sql in filled.query(
        "SELECT name, sql FROM sqlite_master WHERE type = 'table' AND sql LIKE '%CHECK (%'"
    ):
        written |= {(name, check) for check in _checks(sql)}
    assert len(written) > 80
    assert written - named == set()


@pytest.mark.parametrize(
    ("table", "changes"),
    [(table, changes) for table, some in LAWFUL.items() for changes in some],
    ids=str,
)
def test_the_ends_of_what_can_be_are_kept(filled: Store, table: str, changes: Row) -> None:
    row = {**ROWS[table], **changes}
    with acted(filled):
        if "parent_id" not in changes or changes["parent_id"] is None:
            _clear(filled, table)
        insert(filled, table, row)
    (kept,) = filled.query(f"SELECT * FROM {table} WHERE rowid = (SELECT max(rowid) FROM {table})")
    assert dict(zip(ROWS[table], kept, strict=True)) == row or table == "journal"


@pytest.mark.parametrize("table", ROWS)
def test_a_value_of_another_kind_is_refused(filled: Store, table: str) -> None:
    for column in ROWS[table]:
        said = _refusal(filled, table, {column: b"\x00\xff"})
        assert "cannot store BLOB value" in said or "datatype mismatch" in said, column


def test_half_a_unit_is_refused_where_integers_are_kept(filled: Store) -> None:
    for table, row in ROWS.items():
        for name, _, kind, *_ in filled.query(
            f"SELECT name, cid, type FROM pragma_table_info('{table}')"
        ):
            if kind == "INTEGER" and isinstance(row[name], int):
                said = _refusal(filled, table, {name: row[name] + 0.5})
                assert "cannot store REAL value" in said or "datatype mismatch" in said, name


def test_what_must_be_known_is_refused_empty(filled: Store) -> None:
    walked = 0
    for table in ROWS:
        for column, required, key in filled.query(
            'SELECT name, "notnull", pk FROM pragma_table_info(?)', (table,)
        ):
            if required and not key:
                assert "NOT NULL constraint failed" in _refusal(filled, table, {column: None})
                walked += 1
    assert walked > 70


def _keys(store: Store, table: str) -> dict[int, list[tuple[str, str]]]:
    found: dict[int, list[tuple[str, str]]] = {}
    for key, _, parent, column, *_ in store.query(f"PRAGMA foreign_key_list({table})"):
        found.setdefault(key, []).append((column, parent))
    return found


def test_what_refers_to_nothing_is_refused(filled: Store) -> None:
    walked = []
    for table, row in ROWS.items():
        for columns in _keys(filled, table).values():
            column, parent = columns[-1]
            changes: Row = {column: 987_654}
            if table == "recipe_line" and row[column] is None:
                continue
            if table == "journal":
                changes["kind"] = "undo"
            assert "FOREIGN KEY constraint failed" in _refusal(filled, table, changes), column
            walked.append((table, column, parent))
    assert len(walked) == 42


def test_what_others_refer_to_cannot_be_taken_away(filled: Store) -> None:
    for table in ("food", "container", "location", "run", "lot", "tray", "package", "recipe"):
        with (
            pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"),
            acted(filled),
        ):
            filled.run(f"DELETE FROM {table}")


def test_a_package_cannot_be_of_another_food_than_its_lot(filled: Store) -> None:
    with acted(filled):
        insert(filled, "food", {**SAMPLES["food"], "id": 2, "name": "Apples"})
    said = _refusal(filled, "package", {"food_id": 2})
    assert "FOREIGN KEY constraint failed" in said


TWICE: tuple[tuple[str, Row], ...] = (
    ("setting", {"id": 2}),
    ("food", {"id": 2, "name": "PEAS"}),
    ("food_allergen", {"id": 2}),
    ("container", {"id": 2}),
    ("location", {"id": 2, "name": "Cellar"}),
    ("lot", {"id": 2}),
    ("location_temperature", {"id": 2}),
    ("temperature_reading", {"id": 2}),
    ("tray", {"id": 2}),
    ("package", {"id": 2, "number": 2}),
    ("package", {"id": 2, "code": "26329A02X"}),
    ("recipe", {"id": 2, "name": "PEA SOUP"}),
    ("recipe_line", {"id": 2}),
    ("recipe_allergen", {"id": 2}),
    ("food_measure", {"id": 2, "name": "CUP"}),
    ("household_member", {"id": 2, "name": "RUNA"}),
    ("member_allergen", {"id": 2}),
    ("member_dislike", {"id": 2}),
    ("planned_dish", {"id": 2}),
    ("package_source", {"id": 2}),
    ("calendar_entry", {"id": 2}),
    ("projection", {}),
    ("recheck", {}),
    ("projection_basis", {}),
)


@pytest.mark.parametrize(("table", "changes"), TWICE, ids=str)
def test_what_must_be_told_apart_is_refused_twice(filled: Store, table: str, changes: Row) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="UNIQUE constraint failed"), acted(filled):
        insert(filled, table, {**ROWS[table], **changes})


def test_an_entry_is_reversed_once(filled: Store) -> None:
    with acted(filled):
        insert(filled, "journal", {**ENTRY, "kind": "undo", "reverses_id": 1, "words": "undid"})
    with pytest.raises(sqlite3.IntegrityError, match="UNIQUE constraint failed"), acted(filled):
        insert(filled, "journal", {**ENTRY, "id": 60, "kind": "undo", "reverses_id": 1})


def test_every_unique_rule_has_refused_something(filled: Store) -> None:
    """Every UNIQUE of the schema stands in TWICE, or is one of those tested by themselves."""
    own_test = {("journal", "reverses_id"), ("lot", "id,food_id")}
    rules: set[tuple[str, str]] = set()
    for table in ROWS:
        for index, unique, origin in filled.query(
            'SELECT name, "unique", origin FROM pragma_index_list(?)', (table,)
        ):
            if unique and origin in ("u", "c"):
                columns = filled.query(
                    "SELECT ifnull(name, '') FROM pragma_index_info(?)", (index,)
                )
                rules.add((table, ",".join(row[0] for row in columns)))
    assert rules == own_test | {
        ("setting", "key"),
        ("food", "name"),
        ("food_allergen", "food_id,allergen"),
        ("food_measure", "food_id,name"),
        ("recipe_allergen", "recipe_id,allergen"),
        ("household_member", "name"),
        ("member_allergen", "member_id,allergen"),
        ("member_dislike", "member_id,food_id"),
        ("planned_dish", "menu_id,on_day,position"),
        ("container", "key"),
        ("location", ",name"),
        ("location_temperature", "location_id,month"),
        ("temperature_reading", "location_id,at"),
        ("lot", "code"),
        ("tray", "run_id,position"),
        ("package", "code"),
        ("package", "lot_id,number"),
        ("recipe", "name"),
        ("recipe_line", "recipe_id,position"),
        ("package_source", "package_id,source_package_id"),
        ("calendar_entry", "uid"),
    }


@pytest.mark.parametrize(("table", "column", "words", "with_it"), ENUMS, ids=str)
def test_the_schema_takes_exactly_the_words_of_the_program(
    filled: Store,
    table: str,
    column: str,
    words: type[StrEnum],
    with_it: dict[str, Row],
) -> None:
    for word in words:
        with acted(filled):
            _clear(filled, table)
            insert(filled, table, {**ROWS[table], **with_it.get(word, {}), column: str(word)})
    sql = filled.value("SELECT sql FROM sqlite_master WHERE name = ?", (table,))
    (listed,) = re.findall(rf"\b{column} IN \(([^)]*)\)", sql)[:1]
    assert set(re.findall(r"'([^']+)'", listed)) == {str(word) for word in words}


def test_the_words_kept_by_services_are_those_of_the_schema(store: Store) -> None:
    from stockroom.domain.soft_decision import Outcome
    from stockroom.services.dryness import DrynessTest
    from stockroom.services.packing import LossReason
    from stockroom.services.places import PlaceKind

    for table, column, words in (
        ("dryness_check", "kind", DrynessTest),
        ("inspection", "outcome", Outcome),
        ("lot_loss", "reason", LossReason),
        ("location", "kind", PlaceKind),
    ):
        sql = store.value("SELECT sql FROM sqlite_master WHERE name = ?", (table,))
        (listed,) = re.findall(rf"\b{column} IN \(([^)]*)\)", sql)
        assert set(re.findall(r"'([^']+)'", listed)) == {str(word) for word in words}


def test_every_event_of_the_domain_can_be_recorded(store: Store) -> None:
    sql = store.value("SELECT sql FROM sqlite_master WHERE name = 'package_event'")
    (listed,) = re.findall(r"\bevent IN \(([^)]*)\)", sql)
    written = set(re.findall(r"'([^']+)'", listed))
    assert {str(event) for event in Event} | {"sealed", "moved", "noted"} == written


def test_a_projection_goes_with_its_package(filled: Store) -> None:
    with acted(filled):
        for table in ("draw", "package_event", "package_source", "redrying", "inspection"):
            filled.run(f"DELETE FROM {table}")
        filled.run("DELETE FROM package")
    assert filled.value("SELECT count(*) FROM projection") == 0
    assert filled.value("SELECT count(*) FROM recheck") == 0


def test_the_schema_text_is_all_there_is(store: Store) -> None:
    """Tables and indexes come from the steps alone: nothing else makes any."""
    text = "\n".join(schema_step(name) for name in STEPS)
    made = set(re.findall(r"CREATE (?:UNIQUE )?(?:TABLE|INDEX) (\w+)", text))
    for before, after in re.findall(r"ALTER TABLE (\w+) RENAME TO (\w+)", text):
        made = made - {before} | {after}
    there = {
        row[0]
        for row in store.query(
            "SELECT name FROM sqlite_master WHERE type IN ('table', 'index')"
            " AND name NOT LIKE 'package_note%' AND name NOT LIKE 'sqlite_%'"
            " AND tbl_name <> '_sqlite_migrations'"
        )
    }
    assert there == made


def test_a_unit_without_an_entry_cannot_change_a_tracked_table(store: Store) -> None:
    from stockroom.store.writing import write

    with pytest.raises(sqlite3.IntegrityError, match=r"change\.journal_id"), write(store):
        insert(store, "setting", SAMPLES["setting"])
    with write(store), entered(store):
        insert(store, "setting", SAMPLES["setting"])
