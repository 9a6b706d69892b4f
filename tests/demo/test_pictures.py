"""The pictures in the README are what the screens show, and the same each time they are drawn."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs"
NAMES = ("kitchen.svg", "round.svg", "shelves.svg", "whatif.svg")
NAMESPACE = "http://www.w3.org/2000/svg"
"""The name of the file format, which nothing fetches."""


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pictures drawn afresh, on a terminal of another kind and with colours unwanted."""
    folder = tmp_path_factory.mktemp("pictures")
    environment = {**os.environ, "NO_COLOR": "1", "TERM": "dumb", "PYTHONHASHSEED": "7"}
    subprocess.run(
        [sys.executable, DOCS / "make_pictures.py", folder],
        check=True,
        env=environment,
        stdout=subprocess.DEVNULL,
    )
    return folder


def words_in(svg: str) -> str:
    """The text of a picture, as far as one line of the screen holds it."""
    texts = re.findall(r"<text[^>]*>([^<]*)</text>", svg)
    return " ".join(texts).replace("&#160;", " ")


def test_the_four_pictures(drawn: Path) -> None:
    assert tuple(sorted(one.name for one in drawn.iterdir())) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_picture_on_file_is_the_screen_of_today(drawn: Path, name: str) -> None:
    on_file = (DOCS / "pictures" / name).read_text(encoding="utf-8")
    assert words_in(on_file) == words_in((drawn / name).read_text(encoding="utf-8")), (
        "the screen has changed: run python docs/make_pictures.py and look at it"
    )
    assert on_file == (drawn / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_picture_asks_no_other_host_for_anything(drawn: Path, name: str) -> None:
    svg = (drawn / name).read_text(encoding="utf-8")
    assert set(re.findall(r"https?://[^\s\"')]+", svg)) == {NAMESPACE}
    assert "url(" not in re.sub(r"url\(#", "", svg)


@pytest.mark.parametrize(
    ("name", "seen"),
    [
        ("round.svg", ("Round", "Settle check", "due today", "apple slices", "25 Nov 2026")),
        ("shelves.svg", ("Shelves", "cold cellar", "suspect", "quality estimate, not safety")),
        ("whatif.svg", ("What if: 25187A10", "to cold cellar", "+5.4 years", "quality estimate")),
        ("kitchen.svg", ("Harbour chowder", "Water to add back", "cod chowder", "US cups")),
    ],
)
def test_picture_shows_what_it_is_for(drawn: Path, name: str, seen: tuple[str, ...]) -> None:
    words = words_in((drawn / name).read_text(encoding="utf-8"))
    for one in seen:
        assert one in words
