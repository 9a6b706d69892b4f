"""Draw the pictures of the README again: four screens of the demo, as SVG files.

    python docs/make_pictures.py [FOLDER]

The demo is built anew on its own fixed day and the screens are driven by keys at 80 by 24, so
the same screens give the same files. FOLDER is docs/pictures unless another is named.
"""

from __future__ import annotations

import asyncio
import os
import re
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

# Both are read when the screens are imported: full colour, and nothing caught halfway.
os.environ.pop("NO_COLOR", None)
os.environ["TEXTUAL_ANIMATIONS"] = "none"

from textual.pilot import Pilot

from seeds_demo.build import build_demo
from stockroom.services.session import Stockroom
from stockroom.tui.app import StockroomApp
from stockroom.tui.screens.round import LATER_SECONDS, RoundScreen

PICTURES = Path(__file__).parent / "pictures"
SIZE = (80, 24)


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture: its file's name, its title and the keys that lead to it."""

    name: str
    title: str
    keys: Sequence[str]


DRAWN = (
    Picture("round", "stockroom: the Round", ()),
    Picture("shelves", "stockroom: the Shelves", ("2", "down", "down", "down", "right")),
    Picture("whatif", "stockroom: what if", ("2", "slash", *"25187A10", "enter", "enter", "f")),
    Picture("kitchen", "stockroom: the Kitchen", ("4", "slash", *"har", "enter", "enter")),
)


def make_pictures(folder: Path) -> tuple[Path, ...]:
    """Write every picture into a folder; the files written."""
    folder.mkdir(parents=True, exist_ok=True)
    made: list[Path] = []
    with tempfile.TemporaryDirectory() as place:
        room = build_demo(Path(place) / "demo.db")
        for picture in DRAWN:
            path = folder / f"{picture.name}.svg"
            path.write_text(asyncio.run(_drawn(room, picture)), encoding="utf-8")
            made.append(path)
        room.close()
    return tuple(made)


def plain_svg(svg: str) -> str:
    """The same drawing without what differs from one drawing to the next or names another host.

    The framework marks every name in the file with a number made from its content and asks for
    a font from the web; the reader's own fixed-width font does as well. The buttons it draws in
    the title bar belong to no terminal in particular and are left out.
    """
    svg = re.sub(r"terminal-\d+", "screen", svg)
    svg = re.sub(r"\s*@font-face \{.*?\}", "", svg, flags=re.DOTALL)
    svg = re.sub(r"\s*<!--.*?-->", "", svg, flags=re.DOTALL)
    svg = re.sub(r"<circle [^>]*/>", "", svg)
    svg = svg.replace("font-family: Fira Code, monospace", "font-family: monospace")
    svg = svg.replace("font-family: arial", "font-family: sans-serif")
    return "\n".join(line.rstrip() for line in svg.splitlines() if line.strip()) + "\n"


async def _drawn(room: Stockroom, picture: Picture) -> str:
    app = StockroomApp(room)
    async with app.run_test(size=SIZE) as pilot:
        await _settle(pilot)
        for key in picture.keys:
            await pilot.press(key)
            await _settle(pilot)
        return plain_svg(app.export_screenshot(title=picture.title))


async def _settle(pilot: Pilot[None]) -> None:
    """Wait until what was asked for is on the screen, the Round's later part too."""
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()
    screen = pilot.app.screen
    while isinstance(screen, RoundScreen) and not screen.whole:
        await pilot.pause(LATER_SECONDS)
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()


if __name__ == "__main__":
    for made in make_pictures(Path(sys.argv[1]) if len(sys.argv) > 1 else PICTURES):
        print(made)
