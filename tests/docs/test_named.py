"""Every command, option, key, file and folder that stands in the pages is there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import click
import pytest
from platformdirs.macos import MacOS
from platformdirs.unix import Unix
from textual.binding import Binding

from seeds_demo.build import DEMO_DAY
from stockroom.tui.app import StockroomApp
from stockroom.tui.base import BaseScreen
from stockroom.tui.screens.bench import BenchScreen
from stockroom.tui.screens.check_walk import CheckWalkScreen
from stockroom.tui.screens.climate import ClimateScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.kitchen import KitchenScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.round import RoundScreen
from stockroom.tui.screens.run import RunScreen
from stockroom.tui.screens.sample import SampleScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from stockroom.tui.screens.tray_table import TrayTable
from stockroom.tui.widgets.key_line import shown_key
from stockroom.tui.widgets.window_table import WindowTable
from tests.docs.pages import (
    GUIDE,
    PAGES,
    ROOT,
    blocks,
    check_names,
    check_whole,
    command_lines,
    inline_calls,
    prose,
    stockroom_calls,
)

KEYS: dict[str, tuple[type[Any], ...]] = {
    "Everywhere": (StockroomApp, BaseScreen),
    "In lists": (WindowTable,),
    "Round": (RoundScreen,),
    "Check walk": (CheckWalkScreen,),
    "Shelves": (ShelvesScreen,),
    "Package": (PackageScreen,),
    "Temperatures": (ClimateScreen,),
    "Bench": (BenchScreen,),
    "Lot": (LotScreen,),
    "Sample": (SampleScreen,),
    "Run": (RunScreen, TrayTable),
    "Kitchen": (KitchenScreen,),
    "Cook": (CookScreen,),
}
"""Heading in the guide's list of keys → where those keys are bound."""

_LINK = re.compile(r"\]\(([^)#\s]*)(?:#([^)\s]+))?\)")
_HEADING = re.compile(r"^#+ (.+)$", re.MULTILINE)
_KEY_ROW = re.compile(r"^\| (`.+?) \|", re.MULTILINE)


def page_names() -> list[str]:
    """The pages by their path, for the names of the tests."""
    return [str(path.relative_to(ROOT)) for path in PAGES]


@pytest.mark.parametrize("name", page_names())
def test_every_command_line_in_a_block_could_be_carried_out(name: str) -> None:
    for block in blocks((ROOT / name).read_text(encoding="utf-8")):
        for line in command_lines(block):
            for words in stockroom_calls(line):
                try:
                    check_whole(words)
                except click.ClickException as error:
                    pytest.fail(f"{name}:{block.line} {line}: {error.format_message()}")


@pytest.mark.parametrize("name", page_names())
def test_every_command_in_the_text_exists_with_its_options(name: str) -> None:
    for words in inline_calls((ROOT / name).read_text(encoding="utf-8")):
        try:
            check_names(words)
        except click.ClickException as error:
            pytest.fail(f"{name}: stockroom {' '.join(words)}: {error.format_message()}")


def test_the_pages_hold_many_commands() -> None:
    pages = [path.read_text(encoding="utf-8") for path in PAGES]
    in_blocks = [
        words
        for page in pages
        for block in blocks(page)
        for line in command_lines(block)
        for words in stockroom_calls(line)
    ]
    assert len(in_blocks) > 120
    assert sum(len(list(inline_calls(page))) for page in pages) > 60


@pytest.mark.parametrize(
    "line",
    [
        "stockroom rund",
        "stockroom run lode 1 peas",
        "stockroom place add cellar --warmth 9",
        "stockroom round --use-first many",
        "stockroom check 26329A01 chewy",
        "stockroom undo twice",
        "stockroom show",
    ],
)
def test_a_line_that_could_not_be_carried_out_is_found(line: str) -> None:
    (words,) = stockroom_calls(line)
    with pytest.raises(click.ClickException):
        check_whole(words)


def test_placeholders_are_no_mistakes_but_unknown_options_are() -> None:
    check_names(["check", "CODE", "crisp"])
    check_names(["cook", "RECIPE", "--people", "N"])
    with pytest.raises(click.ClickException):
        check_names(["cook", "RECIPE", "--guests", "N"])


@pytest.mark.parametrize("name", page_names())
def test_every_link_leads_somewhere(name: str) -> None:
    page = ROOT / name
    for path, heading in _LINK.findall(prose(page.read_text(encoding="utf-8"))):
        target = (page.parent / path).resolve() if path else page
        assert target.exists(), f"{name}: {path}"
        if heading:
            assert heading in anchors(target), f"{name}: {path}#{heading}"


def anchors(page: Path) -> set[str]:
    """The names that links to the headings of a page use."""
    found = _HEADING.findall(prose(page.read_text(encoding="utf-8")))
    return {re.sub(r"[^\w -]", "", one.lower()).replace(" ", "-") for one in found}


def test_the_guide_looks_at_the_demo_on_its_own_day() -> None:
    page = GUIDE.read_text(encoding="utf-8")
    setting_up = [one.text for one in blocks(page) if one.language == "sh"]
    assert any(f"alias stockroom='stockroom --today {DEMO_DAY}'" in one for one in setting_up)


def test_the_guide_names_the_places_of_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    page = GUIDE.read_text(encoding="utf-8")
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    # Where platformdirs, which chooses them, puts a program's own data on each system.
    assert Unix("stockroom", appauthor=False).user_data_dir.endswith(".local/share/stockroom")
    assert "`~/.local/share/stockroom/stockroom.db`" in page
    in_home = Path(MacOS("stockroom", appauthor=False).user_data_dir).relative_to(Path.home())
    assert f"`~/{in_home}/stockroom.db`" in page


def bound(places: tuple[type[Any], ...], *, main: bool = False) -> set[str]:
    """Keys bound there as they are shown; the first of each binding, of the main ones alone."""
    declared = [one for place in places for one in vars(place)["BINDINGS"]]
    found: set[str] = set()
    for binding in declared:
        assert isinstance(binding, Binding)
        keys = [shown_key(key) for key in binding.key.split(",")]
        if not main:
            found |= {*keys, *(key.upper() for key in keys if len(key) > 1)}
        elif binding.show:
            found.add(keys[0])
    return found


def listed_keys(heading: str) -> set[str]:
    """The keys under a heading of the guide's list."""
    section = GUIDE.read_text(encoding="utf-8").split(f"\n#### {heading}\n")[1].split("\n#")[0]
    return {key for row in _KEY_ROW.findall(section) for key in re.findall(r"`([^`]+)`", row)}


@pytest.mark.parametrize("heading", KEYS)
def test_every_key_in_the_guide_is_bound(heading: str) -> None:
    assert listed_keys(heading) - bound(KEYS[heading]) == set()


@pytest.mark.parametrize("heading", [name for name in KEYS if name != "Everywhere"])
def test_every_main_key_of_a_screen_is_in_the_guide(heading: str) -> None:
    assert bound(KEYS[heading], main=True) - listed_keys(heading) == set()


def test_every_list_of_keys_is_compared() -> None:
    page = GUIDE.read_text(encoding="utf-8")
    keys = page.split("\n### The screens and their keys\n")[1].split("\n### ")[0]
    assert set(re.findall(r"^#### (.+)$", keys, re.MULTILINE)) == set(KEYS)
