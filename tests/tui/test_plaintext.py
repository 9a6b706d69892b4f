"""People's text on the screen: whole, on one line, and never an order to the terminal."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.app import App, ComposeResult
from textual.widgets import DataTable, Label, OptionList, Static
from wcwidth import wcswidth

from stockroom.tui.plaintext import (
    Align,
    Keep,
    cell,
    clean,
    fit,
    plain,
    plain_lines,
    say,
    title,
    width,
)
from tests.tui.screen_text import HARD_NAME, screen_text

NASTY = "a\x1b[31mred\x1b[0m\r\n\tb\x07\x7f\x9b\u202ec\u2066d"

LETTERS = st.one_of(
    st.characters(), st.sampled_from("ab [/]\\ 冷凍\u0301\u200d\ufe0f👩🍳❤🇬🇧\x1b\n")
)


def test_controls_are_shown_as_pictures() -> None:
    assert clean("a\x1b[31m\nb\x7f") == "a␛[31m␊b␡"


def test_nothing_is_dropped() -> None:
    assert len(clean(NASTY)) == len(NASTY)


def test_an_ordinary_name_is_left_alone() -> None:
    assert clean(HARD_NAME) == HARD_NAME


def test_no_character_that_orders_a_terminal_about_gets_through() -> None:
    """Against the Unicode character database that comes with Python."""
    turning = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
    through = [
        hex(code)
        for code in range(sys.maxunicode + 1)
        for shown in clean(chr(code))
        if unicodedata.category(shown) in ("Cc", "Cs", "Zl", "Zp")
        or unicodedata.bidirectional(shown) in turning
    ]
    assert through == []


@given(st.text(LETTERS, max_size=30))
def test_cleaning_twice_changes_nothing(text: str) -> None:
    assert clean(clean(text)) == clean(text)


@given(
    st.text(LETTERS, max_size=40),
    st.integers(0, 20),
    st.sampled_from(("left", "right")),
    st.sampled_from(("start", "end")),
)
def test_a_fitted_text_takes_exactly_its_cells(
    text: str, cells: int, align: Align, keep: Keep
) -> None:
    shown = fit(text, cells, align, keep)
    assert width(shown) == cells
    assert clean(shown) == shown


@given(st.text(st.sampled_from("abc 冷凍野菜éß½²°ñ\u0301\u0308"), max_size=30))
def test_width_agrees_with_wcwidth(text: str) -> None:
    """Against the wcwidth package, for letters, wide characters and combining marks."""
    text = unicodedata.normalize("NFC", "x" + text)
    assert width(text) == wcswidth(text)


@pytest.mark.parametrize(
    ("text", "cells", "keep", "shown"),
    [
        ("Peas", 6, "start", "Peas  "),
        ("Venison stew", 7, "start", "Veniso…"),
        ("冷凍野菜", 6, "start", "冷凍… "),
        ("冷凍野菜", 5, "end", "…野菜"),
        ("Cellar / Rack 2 / Bin 7", 8, "end", "…/ Bin 7"),
        ("e\u0301e\u0301e\u0301", 2, "start", "e\u0301…"),
        ("Peas", 1, "start", "…"),
        ("Peas", 0, "start", ""),
        ("", 2, "start", "  "),
    ],
)
def test_where_a_long_text_is_cut(text: str, cells: int, keep: Keep, shown: str) -> None:
    assert fit(text, cells, keep=keep) == shown


def test_numbers_stand_at_the_right() -> None:
    assert fit("25 g", 7, "right") == "   25 g"


class EveryPlace(App[None]):
    """One text in every kind of place a screen has for it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

    def compose(self) -> ComposeResult:
        framed = Static(plain(self.text), id="framed")
        framed.styles.border = ("round", "white")
        framed.border_title = title("T " + self.text)
        framed.border_subtitle = title("S " + self.text)
        yield framed
        yield Label(plain("L " + self.text))
        yield OptionList(plain("O " + self.text))
        yield Static(plain_lines(["1 " + self.text, "2 " + self.text]))
        table: DataTable[object] = DataTable()
        table.add_column("Food", width=40)
        table.add_row(cell("C " + self.text))
        yield table


@pytest.mark.parametrize(
    "text",
    [
        HARD_NAME,
        "[/",
        "[bold",
        "\\[x] [$primary]y",
        "[@click=app.quit]go[/]",
        "a[/]b[",
        "x\x1b[31m y",
    ],
)
async def test_every_place_shows_the_whole_text(text: str) -> None:
    app = EveryPlace(text)
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        await pilot.pause()
        seen = screen_text(app)
        for mark in ("T ", "S ", "L ", "O ", "1 ", "2 ", "C "):
            assert mark + clean(text) in seen, mark
        assert f"│{clean(text)}" in seen


@pytest.mark.parametrize("text", [HARD_NAME, "[/", "[@click=app.quit]go[/]"])
async def test_a_notice_shows_the_whole_text(text: str) -> None:
    app = EveryPlace("")
    async with app.run_test(size=(80, 24), notifications=True) as pilot:
        say(app, "N " + text, "warning", title="H " + text)
        await pilot.pause()
        seen = screen_text(app)
        assert "N " + text in seen
        assert "H " + text in seen


async def test_an_empty_title_is_no_title() -> None:
    app = EveryPlace("")
    async with app.run_test(size=(80, 24)) as pilot:
        app.query_one("#framed", Static).border_title = title("")
        await pilot.pause()
        assert "T " not in screen_text(app)
