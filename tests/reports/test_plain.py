"""Plain text: made safe, measured, cut and wrapped."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.reports.plain import cells, clean, clean_lines, cut, is_control, pad, wrap
from stockroom.tui import plaintext

SAMPLES = (
    "",
    "peas",
    '[/] jar [soft] "7" 冷凍',
    "crème brûlée",
    "e\u0301clair",
    "ｗｉｄｅ",
    "tab\there",
    "\x1b[31mred\x1b[0m",
    "bell\x07 nul\x00 del\x7f c1\x9b",
    "line\nbreak\r\n",
    "right\u202eleft\u202c \u2066isolate\u2069",
    "soft\xadhyphen zero\u200bwidth \ufeffmark",
    "para\u2029graph \u2028line",
    "half \ud800 of a pair",
    "می\u200cخواهم",
)


@pytest.mark.parametrize("text", SAMPLES, ids=ascii)
def test_what_is_typed_is_shown_as_the_screens_show_it(text: str) -> None:
    """Two parts of the program make text safe; a person sees the same signs in both."""
    assert clean(text) == plaintext.clean(text)
    assert cells(clean(text)) == plaintext.width(clean(text))


@given(st.text(st.characters(codec=None), max_size=60))
def test_a_cleaned_text_steers_no_terminal(text: str) -> None:
    shown = clean(text)
    assert len(shown) == len(text)
    for character in shown:
        assert unicodedata.category(character) not in ("Cc", "Cs", "Zl", "Zp")
        assert not is_control(character)
    assert clean(shown) == shown
    assert clean(text) == plaintext.clean(text)


def test_lines_are_kept_apart() -> None:
    assert clean_lines("soak\nsimmer\n") == ("soak", "simmer")
    assert clean_lines("") == ()
    assert clean_lines("a\x1bb\r\nc") == ("a␛b", "c")


@pytest.mark.parametrize(
    ("text", "most", "shown"),
    [
        ("peas", 4, "peas"),
        ("peas", 3, "pe…"),
        ("peas", 1, "…"),
        ("peas", 0, ""),
        ("冷凍", 4, "冷凍"),
        ("冷凍庫", 4, "冷…"),
        ("冷凍庫", 5, "冷凍…"),
        ("e\u0301e\u0301e\u0301", 2, "e\u0301…"),
    ],
)
def test_a_text_is_cut_between_signs(text: str, most: int, shown: str) -> None:
    assert cut(text, most) == shown


@given(st.text(max_size=40).map(clean), st.integers(0, 30))
def test_a_cut_text_fits(text: str, most: int) -> None:
    assert cells(cut(text, most)) <= most
    assert cells(pad(text, most)) == cells(pad(text, most, right=True)) == most


@given(st.text(max_size=80).map(clean), st.integers(4, 40))
def test_a_wrapped_text_fits_and_loses_nothing(text: str, width: int) -> None:
    lines = wrap(text, width, first="- ", rest="  ")
    assert all(cells(line) <= width for line in lines)
    assert lines[0].startswith("-")
    whole = "".join(line[2:] for line in lines)
    assert "".join(whole.split()) == "".join(text.split())


def test_words_are_wrapped_where_they_end() -> None:
    assert wrap("soak the peas then simmer", 12) == ("soak the", "peas then", "simmer")
    assert wrap("soak", None, first="- ") == ("- soak",)
    assert wrap("abcdefgh", 4) == ("abcd", "efgh")
