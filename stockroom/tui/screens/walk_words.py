"""What the check walk says: the package in hand, how far it has come, what was recorded."""

from __future__ import annotations

from datetime import date

from textual.content import Content

from stockroom.domain.conditions import Event
from stockroom.domain.looking import how_to_look, look_for
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Package
from stockroom.tui.plaintext import fit, width
from stockroom.tui.screens.walk_list import Step, Walk
from stockroom.tui.words import closure_words, counted, days_ago, left_words, place_words

_BAR_CELLS = 20
_LOT_SIGNS = 6


def spaced(code: str) -> str:
    """A code as it is read at arm's length: lot, number and check character apart."""
    parts = (code[:_LOT_SIGNS], code[_LOT_SIGNS:-1], code[-1:])
    return "   ".join(" ".join(part) for part in parts if part)


def progress_line(walk: Walk, cells: int) -> Content:
    """Where the walk leads, and how many of its packages were looked at."""
    done, of = len(walk.found), len(walk.packages)
    count = f"{done} of {of}"
    full = _BAR_CELLS * done // of if of else 0
    right = width(count) + 2 + _BAR_CELLS
    return Content.assemble(
        (fit(walk.name, max(1, cells - right - 1), keep="end"), "bold"),
        " ",
        ("━" * full, "$success"),
        ("━" * (_BAR_CELLS - full), "$border-blurred"),
        f"  {count}",
    )


def card_lines(
    walk: Walk, package: Package, units: UnitSystem, today: date
) -> dict[str, tuple[str, ...]]:
    """The parts of the card: what it is, where it stands, why it is looked at, and how."""
    finding = walk.found.get(package.package_id)
    why = walk.why.get(package.package_id, "")
    state = f"{package.condition}: {why}" if why else package.condition
    first, *others = look_for(package.package_kind, package.container_key)
    return {
        "food": (package.food,),
        "where": (place_words(package),),
        "why": (f"looked at: {finding}" if finding else state,),
        "inside": (
            f"{closure_words(package)} · {left_words(package, units)}",
            f"sealed {package.sealed_on} ({days_ago(package.sealed_on, today)})",
        ),
        "look": (how_to_look(package.package_kind, package.container_key), "", first, *others),
    }


def step_words(step: Step) -> str:
    """What was recorded, and what it means for the sisters."""
    said = f"✓ {step.package.code} {step.finding}"
    if step.finding is Event.CRISP:
        return said
    sisters = len(step.sisters)
    more = f", {counted(sisters, 'sister')} in doubt" if sisters else ""
    return f"{said}{more}: decided at the end"
