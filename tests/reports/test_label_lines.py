"""Labels as lines to write by hand: what they say at each width, letter for letter."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.foods import Allergen
from stockroom.reports.label_lines import NARROWEST_LINE, WIDEST_LINE, label_lines, lines_text
from stockroom.reports.plain import cells
from tests.reports.test_label_sheet import FOOD, PACKAGE, label_of

BEEF = label_of(
    replace(PACKAGE, preparation="raw", food="Beef, eye of round, lean", gate_reason="it broke"),
    replace(FOOD, food_group="meat_raw", allergens=(Allergen.CRUSTACEAN_SHELLFISH,)),
)

GOLDEN = {
    80: (
        "Beef, eye of round, lean",
        "26329A01E",
        "RAW: cook after rehydrating, to 160 °F (71.1 °C) in the middle",
        "Contains: crustacean shellfish",
        "made 2026-11-20, packed 2026-11-25",
        "best by 2034-11-25 (quality estimate, not safety)",
        "add 338.0 g water, about 1½ US cups",
        "4.7 servings · 62.0 g dry",
        "dryness not shown: it broke",
        "absorber inside is not food: remove it",
    ),
    24: (
        "Beef, eye of round, lean",
        "26329A01E",
        "RAW: cook it",
        "Contains: crustacean",
        "shellfish",
        "made 2026-11-20, packed",
        "2026-11-25",
        "best by 2034-11-25",
        "(quality estimate)",
        "water 338.0 g · 1½ US",
        "cups",
        "4.7 servings",
        "dryness not shown: it…",
        "absorber: not food",
    ),
    12: (
        "Beef, eye…",
        "26329A01E",
        "RAW: cook it",
        "Contains:",
        "crustacean",
        "shellfish",
        "made",
        "2026-11-20,",
        "packed",
        "2026-11-25",
        "best by",
        "2034-11-25",
        "(quality",
        "estimate)",
        "water 338.0",
        "g · 1½ US",
        "cups",
        "4.7 servings",
        "dryness not…",
        "absorber:",
        "not food",
    ),
}


@pytest.mark.parametrize("width", GOLDEN)
def test_the_lines_word_for_word(width: int) -> None:
    (found,) = label_lines([BEEF], width)
    assert found.code == "26329A01E"
    assert found.lines == GOLDEN[width]


@given(st.integers(NARROWEST_LINE, WIDEST_LINE))
def test_no_line_is_too_long_and_nothing_that_matters_is_cut(width: int) -> None:
    (found,) = label_lines([BEEF], width)
    assert all(cells(line) <= width for line in found.lines)
    whole = " ".join(found.lines)
    for said in ("26329A01E", "RAW: cook", "Contains: crustacean shellfish",
                 "made 2026-11-20, packed 2026-11-25", "best by 2034-11-25", "quality estimate",
                 "dryness not"):  # fmt: skip
        assert said in whole


def test_wide_letters_count_two() -> None:
    (found,) = label_lines([label_of(replace(PACKAGE, food="冷凍えんどう豆"))], 12)
    assert found.lines[0] == "冷凍えんど…"
    assert cells(found.lines[0]) <= 12


def test_labels_stand_apart() -> None:
    text = lines_text(label_lines([BEEF, BEEF], 80))
    assert text == "\n".join(["\n".join(GOLDEN[80]) + "\n"] * 2)
