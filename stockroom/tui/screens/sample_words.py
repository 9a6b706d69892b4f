"""What the sample says in words: how many to look at, how the looks count, what they say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

from textual.content import Content

from stockroom.domain.chances import exact_percent
from stockroom.domain.conditions import Event
from stockroom.domain.looking import how_to_look
from stockroom.domain.records import Package
from stockroom.domain.sample_page import SURE, SamplePage
from stockroom.services.results import Done
from stockroom.tui.screens.package_actions import UNDO_HINT
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.words import NO_PLACE, counted

CONFIDENCES = tuple(Fraction(percent, 100) for percent in (80, 90, 95, 99))
"""What the key for the confidence goes through."""


@dataclass(frozen=True, slots=True)
class Look:
    """A way to look at a package, and the share of the soft ones it finds."""

    finds: Fraction
    words: str


LOOKS = (
    Look(SURE, "opened"),
    Look(Fraction(9, 10), "seen through glass"),
    Look(Fraction(8, 10), "squeezed"),
    Look(Fraction(6, 10), "glanced at"),
)
"""What the key for the look goes through. The shares are engineering judgement."""
JUDGED = "That a look finds {} is engineering judgement; the belief takes each look as sure."
HOW_TO_OPEN = "Open it, break the thickest piece: it snaps to the middle. Never taste it."
"""How opened food is looked at is common practice, no source."""

TO_LOOK_AT = "to look at"

_CODE = Column("Package", 10, look="main")
_FOUND = Column("Looked at", 13, look="tone")
_STATE = Column("State", 9, priority=2)
LOT_COLUMNS = (
    _CODE,
    _FOUND,
    _STATE,
    Column("Place", 22, weight=3, keep="end"),
    Column("Container", 16, weight=1, priority=3),
)
PLACE_COLUMNS = (
    _CODE,
    _FOUND,
    _STATE,
    Column("Food", 14, weight=2),
    Column("Place", 12, weight=1, keep="end"),
)

Mood = Literal["", "-good", "-doubt", "-bad"]
"""How the first lines stand out, beside what they say."""


def heading(page: SamplePage) -> str:
    """What is sampled."""
    return f"Sample of {page.name}" + (f" · {page.food}" if page.food else "")


def what_to_do(page: SamplePage, *, all_listed: bool) -> tuple[str, Mood]:
    """The sentence over the list: how many to look at, or what comes next."""
    said = page.conclusion
    if page.soft:
        return f"{said} {_how_to_go_on(page, all_listed)}", "-bad"
    if said and page.taken_as_sure:
        return f"{said} {page.taken_as_sure}", "-doubt"
    if said:
        return said, "-good"
    if page.sample.inspect is None:
        return f"{page.sample.sentence} h changes how you look.", "-doubt"
    return page.sample.sentence, ""


def _how_to_go_on(page: SamplePage, all_listed: bool) -> str:
    """The key that comes next after a soft one."""
    if page.checked >= page.sample.lot:
        return "v asks."
    return "All are listed." if all_listed else f"a shows all {page.sample.lot}."


def settings_lines(page: SamplePage, look: Look, today: date, cells: int) -> Content:
    """What was asked for, each with the key that changes it, in lines of so many cells."""
    since = page.wish.since or today
    asked = (
        ("- +", f"at most {page.sample.at_most} soft"),
        ("p", f"{exact_percent(page.wish.confidence)} sure"),
        ("h", f"{look.words}: finds {_finds(look)}"),
        ("t", f"since {'today' if since == today else since}"),
    )
    lines = [Content()]
    for key, words in asked:
        item = Content.assemble((key, "bold $accent"), f" {words}  ")
        if lines[-1] and lines[-1].cell_length + item.cell_length - 2 > cells:
            lines.append(Content())
        lines[-1] += item
    return Content("\n").join(lines)


def _finds(look: Look) -> str:
    return "all" if look.finds == SURE else exact_percent(look.finds)


def rows_of(page: SamplePage, packages: Sequence[Package]) -> list[Row]:
    """The packages to look at, each with what was found."""
    return [_row(page, one) for one in packages]


def _row(page: SamplePage, package: Package) -> Row:
    found = page.found.get(package.code)
    opened = ", opened" if found and package.opened_on is not None else ""
    last = package.container if page.food else package.place or NO_PLACE
    fourth = package.place or NO_PLACE if page.food else package.food
    looked = f"{found}{opened}" if found else TO_LOOK_AT
    cells = (package.code, looked, package.condition, fourth, last)
    return Row(package.package_id, cells, _tone(found, package))


def _tone(found: str | None, package: Package) -> Tone:
    if found is None:
        return "due" if package.condition == "suspect" else ""
    return "good" if found == Event.CRISP else "bad"


def said_words(package: Package, finding: Event, done: Done, *, opened: bool) -> str:
    """What was just recorded, and what a soft one means for its sisters."""
    how = ", opened" if opened else ""
    said = f"✓ {package.code} {finding}{how}"
    if finding is Event.CRISP:
        return f"{said} · {UNDO_HINT}"
    sisters = len(done.codes) - 1
    are = "is" if sisters == 1 else "are"
    more = f" · {counted(sisters, 'sister')} {are} suspect now" if sisters else ""
    return f"{said}{more} · v decides, {UNDO_HINT}"


def below_lines(page: SamplePage, look: Look) -> list[str]:
    """What the looks so far say, what is believed, and what stands behind it."""
    lines = [_said_for_sure(page, look), f"Belief: {page.left.sentence}"]
    if page.taken_as_sure:
        lines.append(page.taken_as_sure)
    if look.finds != SURE:
        lines.append(JUDGED.format(exact_percent(look.finds)))
    return lines


def how_words(look: Look, package: Package | None) -> str:
    """How to look at the package under the cursor."""
    if package is None or look.finds == SURE:
        return HOW_TO_OPEN
    return how_to_look(package.package_kind, package.container_key)


def _said_for_sure(page: SamplePage, look: Look) -> str:
    if page.by_now is not None:
        return f"So far: {page.by_now.sentence}"
    if page.checked == 0:
        return "So far: nothing looked at."
    seen = f"{page.checked} of {page.sample.lot} looked at, {page.soft} soft"
    return f"So far: {seen}. With a look that misses some, no more is certain."
