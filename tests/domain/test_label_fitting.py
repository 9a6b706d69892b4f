"""Text made to fit: what gives way first, what never does, and what comes back."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.labels.fitting import LARGEST_UM, SIZES_UM, SMALLEST_UM, Fitted, fit
from stockroom.domain.labels.laying import LINE_PERCENT, STRONG_EXTRA_EMS
from stockroom.domain.labels.layout import (
    BOX_MODULES,
    LEAST_SYMBOL_UM,
    QUIET_MODULES,
    SYMBOL_MODULES,
    Area,
    layout,
)
from stockroom.domain.labels.least import TextDoesNotFit, least_size
from stockroom.domain.labels.statements import Label, Statement, to_write_in

NAME = Statement("name", ("Peas, green, frozen, boiled",), strong=True, pinned=False, free=True)
CODE = Statement("code", ("26329A01E",), strong=True)
RAW = Statement("raw", ("RAW: cook after rehydrating, to 165 °F in the middle", "RAW: cook it"))
ALLERGENS = Statement("allergens", ("Contains: crustacean shellfish, tree nuts, soybeans",))
DATES = Statement("dates", ("made 2026-11-20, packed 2026-11-25",))
BEST_BY = Statement(
    "best_by", ("best by 2034-11-25 (quality estimate, not safety)",
                "best by 2034-11-25 (quality estimate)"),
)  # fmt: skip
WATER = Statement("water", ("add 338.0 g water, about 1½ US cups", "338.0 g · 1½ US cups"),
                  pinned=False, worth=4)  # fmt: skip
SERVINGS = Statement("servings", ("4 servings · 62.0 g dry", "4 servings"), pinned=False, worth=2)
DRYNESS = Statement(
    "dryness", ("dryness not shown: it broke cleanly all the way through",),
    pinned=False, free=True, stem="dryness not shown",
)  # fmt: skip
LABEL = Label(
    "26329A01E",
    (NAME, CODE, RAW, ALLERGENS, DATES, BEST_BY, WATER, SERVINGS, DRYNESS),
)


def ems(text: str) -> float:
    """A made-up font: every letter is half an em wide."""
    return len(text) / 2


def said(fitted: Fitted, key: str) -> str:
    """What a label says of one thing, its lines joined."""
    return " ".join(line.text for line in fitted.lines if line.key == key)


def area(width_mm: float, height_mm: float) -> Area:
    """The words' area of a label of this size."""
    parts = layout(round(width_mm * 1000), round(height_mm * 1000))
    assert parts is not None
    return parts.area


def test_a_large_label_says_everything_in_full() -> None:
    fitted = fit(LABEL, area(99, 67), ems)
    assert fitted is not None
    assert (fitted.cut, fitted.left_out) == ((), ())
    for one in LABEL.statements:
        assert said(fitted, one.key) == one.forms[0]
    assert [line.key for line in fitted.lines] == sorted(
        (line.key for line in fitted.lines),
        key=[one.key for one in LABEL.statements].index,
    )


SIZES = st.tuples(st.integers(26, 110), st.integers(20, 90))


def _texts_a_statement_may_have(one: Statement, text: str) -> bool:
    """Whether a text is one of a statement's forms, or a lawful cut of it."""
    if text in one.forms:
        return True
    if not text:
        return one.droppable
    if not one.free:
        return False
    bare = text.replace(" ", "").removesuffix("…")
    whole = one.forms[0].replace(" ", "")
    return whole.startswith(bare) and bare.startswith(one.stem.replace(" ", ""))


@settings(max_examples=60)
@given(SIZES)
def test_nothing_leaves_the_area_or_lies_on_the_symbol(size: tuple[int, int]) -> None:
    room = area(*size)
    fitted = fit(LABEL, room, ems)
    if fitted is None:
        return
    below = 0
    for line in fitted.lines:
        extra = STRONG_EXTRA_EMS if line.strong else 0
        assert line.top_um >= below
        below = line.top_um + line.size_um * LINE_PERCENT // 100
        assert below <= room.height_um
        assert line.left_um + (ems(line.text) + extra) * line.size_um <= room.width_um + 1
        if line.top_um < room.symbol_um:
            assert line.left_um >= room.symbol_um


@settings(max_examples=60)
@given(SIZES)
def test_what_is_pinned_is_whole_and_what_gave_way_is_told(size: tuple[int, int]) -> None:
    fitted = fit(LABEL, area(*size), ems)
    if fitted is None:
        return
    for one in LABEL.statements:
        text = said(fitted, one.key)
        if one.pinned:
            assert text in one.forms
        else:
            assert _texts_a_statement_may_have(one, text), text
        assert (one.key in fitted.left_out) == (not text)
    assert ("name" in fitted.cut) == said(fitted, "name").endswith("…")
    assert SMALLEST_UM <= fitted.size_um <= LARGEST_UM


@settings(max_examples=40)
@given(SIZES)
def test_a_label_that_fits_also_fits_a_larger_one(size: tuple[int, int]) -> None:
    if fit(LABEL, area(*size), ems) is not None:
        width, height = size
        assert fit(LABEL, area(width, height + 5), ems) is not None


def test_shorter_words_come_before_anything_is_cut_or_left_out() -> None:
    label = Label("x", (NAME, BEST_BY, SERVINGS))
    narrow = Area(47_000, 8_100)
    fitted = fit(label, narrow, ems)
    assert fitted is not None
    assert (fitted.cut, fitted.left_out) == ((), ())
    assert said(fitted, "best_by") == BEST_BY.forms[1]


def test_a_name_is_cut_at_a_word_then_at_letters() -> None:
    line_um = 2_434 * LINE_PERCENT // 100 + 10
    for width_um, text in (
        (31_000, "Peas, green, frozen…"),
        (17_000, "Peas, green…"),
        (12_000, "Peas…"),
        (6_000, "Pea…"),
    ):
        fitted = fit(Label("x", (NAME,)), Area(width_um, line_um), ems)
        assert fitted is not None and said(fitted, "name") == text, width_um
    assert fit(Label("x", (NAME,)), Area(4_000, line_um), ems) is None


def test_the_fact_that_dryness_was_not_shown_outlives_its_reason() -> None:
    line_um = SMALLEST_UM * LINE_PERCENT // 100
    fitted = fit(Label("x", (DRYNESS,)), Area(22_000, line_um), ems)
    assert fitted is not None
    assert said(fitted, "dryness") == "dryness not shown"
    assert fit(Label("x", (DRYNESS,)), Area(15_000, line_um), ems) is None


def test_the_least_worth_is_left_out_first() -> None:
    line_um = SMALLEST_UM * LINE_PERCENT // 100
    for lines, left in ((2, ()), (1, ("servings",))):
        fitted = fit(Label("x", (WATER, SERVINGS)), Area(60_000, line_um * lines), ems)
        assert fitted is not None and fitted.left_out == left


def test_what_was_taken_away_in_vain_comes_back() -> None:
    """Leaving out the water makes room for the servings' long form again."""
    line_um = SMALLEST_UM * LINE_PERCENT // 100
    fitted = fit(Label("x", (WATER, SERVINGS)), Area(26_000, line_um), ems)
    assert fitted is not None
    assert fitted.left_out == ("servings",) and said(fitted, "water") == WATER.forms[1]


def test_a_word_wider_than_the_label_is_broken_only_in_free_text() -> None:
    long = Statement("name", ("W" * 80,), pinned=False, free=True)
    fitted = fit(Label("x", (long,)), Area(30_000, 12_000), ems)
    assert fitted is not None
    assert said(fitted, "name").replace(" ", "") == "W" * 80
    assert fit(Label("x", (Statement("code", ("W" * 80,)),)), Area(30_000, 12_000), ems) is None


def test_a_combining_mark_stays_with_its_letter() -> None:
    name = Statement("name", ("e\u0301" * 40,), pinned=False, free=True)
    fitted = fit(Label("x", (name,)), Area(20_000, 30_000), ems)
    assert fitted is not None
    assert all(not line.text.startswith("\u0301") for line in fitted.lines)


@settings(max_examples=40)
@given(st.integers(17, 110), st.integers(17, 90))
def test_the_symbol_is_large_enough_and_keeps_its_margin(width_mm: int, height_mm: int) -> None:
    """10 mm at least, with four modules blank on each side (ISO/IEC 18004; from memory)."""
    parts = layout(width_mm * 1000, height_mm * 1000)
    assert parts is not None
    assert parts.module_um * SYMBOL_MODULES >= LEAST_SYMBOL_UM
    assert BOX_MODULES - SYMBOL_MODULES == 2 * QUIET_MODULES == 8
    assert parts.area.symbol_um == parts.module_um * BOX_MODULES
    assert parts.area.symbol_um + 2 * parts.padding_um <= min(width_mm, height_mm) * 1000


def test_a_label_without_room_for_the_symbol_has_no_layout() -> None:
    assert layout(16_000, 60_000) is None
    assert layout(60_000, 16_000) is None


@pytest.mark.parametrize("size", [(30, 20), (38, 21), (60, 17), (17, 40)])
def test_the_least_size_that_is_named_would_do_and_a_little_less_would_not(
    size: tuple[int, int],
) -> None:
    width, height = size[0] * 1000, size[1] * 1000
    label = Label(LABEL.code, LABEL.statements[:6])
    assert fit(label, area(*size), ems) is None
    least = least_size(label, width, height, ems)
    assert least[0] >= width and least[1] >= height
    assert fit(label, area(least[0] / 1000, least[1] / 1000), ems) is not None
    # One of the sides grew: a millimetre less of it is too little.
    smaller = [
        (max(width, least[0] - 1000) if least[0] > width else width,
         max(height, least[1] - 1000) if least[1] > height else height)
    ]  # fmt: skip
    for wide, high in smaller:
        assert fit(label, area(wide / 1000, high / 1000), ems) is None
    error = TextDoesNotFit("26329A01E", (width, height), least)
    shown = re.search(r"([0-9.]+) × ([0-9.]+) mm at least", error.hint)
    assert shown and float(shown[1]) * 1000 == least[0] and float(shown[2]) * 1000 == least[1]


def test_sizes_of_type_go_down_to_six_points() -> None:
    points = [size / (25_400 / 72) for size in SIZES_UM]
    assert points[0] == pytest.approx(11, abs=0.01)
    assert points[-1] == pytest.approx(6, abs=0.01)
    assert points == sorted(points, reverse=True)


def test_a_line_to_write_on_keeps_the_stem_and_is_never_cut() -> None:
    name, why = to_write_in(NAME), to_write_in(DRYNESS)
    assert name.forms[0].startswith("name: ___") and name.pinned and name.strong
    assert why.forms[0].startswith("dryness not shown: ___")
