"""The people on paper: every width, every form, names that steer no terminal."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace

import pytest

from stockroom.domain.cautions import chosen
from stockroom.domain.foods import Allergen
from stockroom.domain.household_need import need_of_household, what_to_avoid
from stockroom.domain.member_records import Disliked, Figures
from stockroom.domain.quantities import UnitSystem
from stockroom.reports.as_csv import as_csv
from stockroom.reports.as_json import as_json
from stockroom.reports.as_text import as_text
from stockroom.reports.people import people_report
from stockroom.reports.plain import cells
from stockroom.reports.values import Report
from tests.domain.test_household_need import FAMILY, TODAY, member

HARD = "\x1b[31mZoë 冷\u202e"


def report(people: int = 6) -> Report:
    """A family with a person of known size, by figures from memory, and an awkward name."""
    one = replace(
        member(name=HARD, size=(650_000, 1650)),
        figures=Figures.NEW,
        allergens=tuple(Allergen),
        dislikes=(Disliked(1, "a very long name of a dish, with a comma in it"),),
    )
    members = (one, *FAMILY)
    need = need_of_household(members, people, TODAY)
    return people_report(need, what_to_avoid(members), chosen(("honey",)))


@pytest.mark.parametrize("width", [60, 80, 120, None])
@pytest.mark.parametrize("units", list(UnitSystem))
def test_text_fits_and_says_what_counts(width: int | None, units: UnitSystem) -> None:
    text = as_text(report(), units, width)
    words = " ".join(text.split())
    assert "\x1b" not in text and "\u202e" not in text
    if width is not None:
        assert max(map(cells, text.splitlines())) <= width
    assert "kcal a day" in words
    assert "1 more person is not listed" in words
    assert "from memory, not confirmed" in words
    assert "no advice on what anybody should eat" in words
    assert "licensed guidance" in words
    for allergen in Allergen:
        assert f"{allergen.words}:" in words


def test_more_listed_than_set_is_said() -> None:
    words = " ".join(as_text(report(2), UnitSystem.METRIC, 80).split())
    assert "5 people are listed and the household is set to 2: those listed count." in words
    assert "average adult" not in words


def test_csv_and_json_agree() -> None:
    made = report()
    assert made.table is not None
    rows = list(csv.DictReader(io.StringIO(as_csv(made.table))))
    listed = json.loads(as_json(made))["members"]
    assert len(rows) == len(listed) == 5
    for row, one in zip(rows, listed, strict=True):
        assert float(row["kcal_per_day"]) == pytest.approx(one["kcal_per_day"], abs=0.05)
        assert float(row["protein_g"]) == pytest.approx(one["protein_g"], abs=0.05)
        assert row["edition"] == one["edition"]
    assert rows[0]["body_weight_kg"] == "65.0" and listed[0]["body_weight_dg"] == 650_000
    assert rows[0]["height_cm"] == "165.0" and listed[0]["height_mm"] == 1650
