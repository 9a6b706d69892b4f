"""One lawful row of every table, in an order in which they can be put in."""

from __future__ import annotations

from typing import Any

from stockroom.store.connection import Store
from tests.store.entries import acted

Row = dict[str, Any]

SAMPLES: dict[str, Row] = {
    "setting": {"id": 1, "key": "units", "value": "metric"},
    "food": {
        "id": 1,
        "name": "Peas",
        "reference_key": "pea_raw",
        "food_group": "vegetable",
        "food_class": "vegetable",
        "preparation": "ready",
        "serving_dg": 850,
        "water_cg": 7886,
        "energy_tenth_kcal": 810,
        "protein_cg": 542,
        "fat_cg": 40,
        "ash_cg": 87,
        "carbohydrate_cg": 1445,
        "fibre_cg": 570,
        "sugars_cg": 567,
        "ingredients_unknown": 0,
        "note": "",
    },
    "food_allergen": {"id": 1, "food_id": 1, "allergen": "milk"},
    "container": {
        "id": 1,
        "key": "pouch",
        "name": "pouch",
        "package_kind": "foil_pouch",
        "volume_ml": 1500,
        "width_mm": 200,
        "height_mm": 300,
    },
    "location": {
        "id": 1,
        "parent_id": None,
        "name": "cellar",
        "kind": "cellar",
        "temperature_dc": 120,
        "note": "",
        "humidity_percent": 60,
    },
    "location_temperature": {
        "id": 1,
        "location_id": 1,
        "month": 1,
        "temperature_dc": 95,
        "origin": "stated",
    },
    "temperature_reading": {
        "id": 1,
        "location_id": 1,
        "at": "2026-11-24T18:30",
        "temperature_dc": 118,
    },
    "run": {
        "id": 1,
        "started_on": "2026-11-24",
        "closed_on": "2026-11-25",
        "state": "closed",
        "note": "",
    },
    "lot": {
        "id": 1,
        "code": "26329A",
        "run_id": 1,
        "food_id": 1,
        "made_on": "2026-11-25",
        "preparation": "ready",
        "wet_dg": 10000,
        "dry_dg": 1550,
        "note": "",
    },
    "tray": {"id": 1, "run_id": 1, "position": 1, "food_id": 1, "lot_id": 1},
    "weighing": {
        "id": 1,
        "tray_id": 1,
        "stage": "wet",
        "gross_dg": 10500,
        "tare_dg": 500,
        "on_day": "2026-11-24",
        "at": "2026-11-24T12:00:00+00:00",
    },
    "lot_loss": {
        "id": 1,
        "lot_id": 1,
        "reason": "tasted",
        "dry_dg": 10,
        "water_dg": 54,
        "on_day": "2026-11-25",
        "note": "",
    },
    "package": {
        "id": 1,
        "code": "26329A01X",
        "lot_id": 1,
        "food_id": 1,
        "number": 1,
        "container_id": 1,
        "absorber_cc": 300,
        "vacuum": 1,
        "vacuum_tenth_inhg": 220,
        "dry_dg": 620,
        "water_dg": 3380,
        "taken_dg": 0,
        "sealed_on": "2026-11-25",
        "location_id": 1,
        "condition": "settling",
        "opened_on": None,
        "gone_on": None,
        "note": "",
    },
    "package_event": {
        "id": 1,
        "package_id": 1,
        "on_day": "2026-11-25",
        "event": "sealed",
        "from_condition": None,
        "to_condition": "settling",
        "from_location_id": None,
        "to_location_id": 1,
        "note": "",
    },
    "recipe": {"id": 1, "name": "Pea soup", "serves": 4, "cooking_water_dg": 0, "steps": ""},
    "recipe_line": {
        "id": 1,
        "recipe_id": 1,
        "position": 1,
        "food_id": 1,
        "basis": "fresh",
        "weight_dg": 2000,
        "servings_hundredths": None,
        "item": None,
        "amount_thousandths": None,
        "unit": None,
    },
    "meal": {
        "id": 1,
        "recipe_id": 1,
        "name": "Pea soup",
        "people": 4,
        "on_day": "2026-11-25",
        "rehydration_water_dg": 1000,
        "cooking_water_dg": 0,
    },
    "draw": {
        "id": 1,
        "package_id": 1,
        "meal_id": 1,
        "on_day": "2026-11-25",
        "dry_dg": 100,
        "water_dg": 545,
        "note": "",
    },
    "projection": {
        "package_id": 1,
        "best_by": "2036-11-25",
        "low": "2031-11-25",
        "high": "2046-11-25",
        "recheck_by": "2031-11-25",
        "discard_by": "2044-11-25",
        "limited_by": "temperature",
        "refused": "",
        "model": "full model",
        "computed_on": "2026-11-25",
    },
    "projection_basis": {"id": 1, "basis": "full model 1, altitude "},
}
"""Table → a row. The journal and its changes are written by `entered` and the triggers."""


def insert(store: Store, table: str, row: Row) -> None:
    """Put a row in, inside a unit of work."""
    names = ", ".join(row)
    marks = ", ".join(f":{name}" for name in row)
    store.run(f"INSERT INTO {table} ({names}) VALUES ({marks})", row)


def insert_samples(store: Store) -> None:
    """One row in every table, as one action."""
    with acted(store, "put in the samples"):
        for table, row in SAMPLES.items():
            insert(store, table, row)
