"""The page about lists names exactly the headings that are read."""

from __future__ import annotations

import re

from stockroom.domain.exchange.days import DayOrder, read_day_cell
from stockroom.domain.exchange.headings import SPELLINGS, UNITS
from stockroom.domain.exchange.whole_record import FORMAT
from tests.docs.pages import ROOT

PAGE = (ROOT / "docs" / "lists.md").read_text(encoding="utf-8")


def test_every_heading_that_is_read_is_in_the_page_and_no_other() -> None:
    rows = re.findall(r"^\| (\w+) \| ([^|]+) \|$", PAGE, re.MULTILINE)[1:]
    assert {field: tuple(words.split(", ")) for field, words in rows} == {
        str(field): words for field, words in SPELLINGS.items()
    }


def test_the_forms_it_names_are_read() -> None:
    days = re.findall(r"`(2026-[^`]+|\d{2}[./ ][^`]+2026)`", PAGE)
    assert len(days) == 5
    for cell in days:
        order = DayOrder.MONTH_FIRST if cell.startswith("11/") else DayOrder.DAY_FIRST
        assert read_day_cell(cell, order).isoformat() == "2026-11-25", cell
    assert all(unit in PAGE.casefold() for unit in UNITS.values()) and f"**{FORMAT}**" in PAGE
