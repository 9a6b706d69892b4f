"""What the review of a recipe file says: its lines as rows, its head, and what stands below."""

from __future__ import annotations

from stockroom.domain.ingredient_amounts import written_number
from stockroom.domain.quantities import UnitSystem, show_weight, to_dg
from stockroom.domain.recipe_review import Fate, LineReview, RecipeReview
from stockroom.domain.water import show_water
from stockroom.reports.recipe_files import amount_words, becomes
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row, Tone

COLUMNS = (
    Column("In the file", 15, weight=2, look="main"),
    Column("Becomes", 11, weight=1),
    Column("As", 13, align="right"),
    Column("", 6, look="tone"),
)
OPEN_SIGN = "decide"
DOUBT_SIGN = "look"


def line_row(line: LineReview, units: UnitSystem) -> Row:
    """A line of the recipe; its key is its place, from 1."""
    sign = OPEN_SIGN if line.question else DOUBT_SIGN if line.problems else ""
    tone: Tone = "bad" if line.question else "due" if line.problems else ""
    return Row(line.place, (line.read.text, becomes(line), amount_words(line, units), sign), tone)


def head_text(review: RecipeReview) -> str:
    """For how many, and the cooking water, in one line."""
    serves = "serves: not said" if review.serves is None else f"serves {review.serves}"
    water = show_water(review.cooking_water_dg) if review.cooking_water_dg else "none"
    return f"{serves[:1].upper()}{serves[1:]} · cooking water: {water}"


def heading_text(review: RecipeReview, place: int, count: int, *, skipped: bool) -> str:
    """The recipe's name, and which of several it is."""
    name = review.name or "No name yet"
    which = f" · recipe {place} of {count}" if count > 1 else ""
    return f"{name}{which}{' · left out' if skipped else ''}"


def about_lines(review: RecipeReview, line: LineReview | None) -> list[str]:
    """What stands below the lines: the line under the cursor, then the recipe as a whole."""
    lines: list[str] = []
    if line is not None:
        lines.append(f"Line {line.place}: {line.read.text}")
        lines += [f"! {one}" for one in line.problems]
        near = [one.food for one in line.suggestions if one.food != line.name]
        if near and line.fate is not Fate.LEFT_OUT:
            lines.append(f"Near it: {'; '.join(near[:3])}")
    findings = [f"- {one.words}" for one in review.findings]
    if findings:
        lines += ["About the file:", *findings]
    return [*lines, "Steps:", *(review.steps.splitlines() or ["none"])]


def amount_typed(line: LineReview, units: UnitSystem) -> str:
    """The amount of a line as it would be typed."""
    if line.amount is None:
        return ""
    if line.fate is Fate.WATER or (line.fate is Fate.STORED and line.basis in ("fresh", "dry")):
        return show_weight(to_dg(line.amount), units)
    number = written_number(line.amount.limit_denominator(1000))
    return f"{number} {line.unit}" if line.unit else number
