"""What lies ahead as rows and sentences: advice by what it saves, foods by what they lose."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from stockroom.domain.horizon.advice import Advice, AdviceKind
from stockroom.domain.horizon.pace import rhythm
from stockroom.domain.horizon.pages import FoodHorizon, HorizonPage
from stockroom.domain.quantities import UnitSystem, nearest_whole, show_servings, show_weight
from stockroom.domain.records import Food
from stockroom.reports.horizon import RAW_WORDS
from stockroom.reports.parts import QUALITY_CAPTION
from stockroom.tui.screens.sections import Section
from stockroom.tui.screens.windows import CAUTION_SIGN
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_rows import Row
from stockroom.tui.words import counted

COLUMNS = (
    Column("Food", 20, weight=1, look="main"),
    Column("Unused", 6, align="right", look="tone"),
    Column("A week", 6, align="right", priority=1),
    Column("Least", 6, align="right", priority=2, look="quiet"),
    Column("Servings", 8, align="right"),
    Column("Until", 10),
)
LOOKING = "Looking ahead …"
WEIGHING = "Weighing up what would save food"
STOPPED = "Stopped early: moves and repackings may be missing. Press a to look again."
NOTHING = (
    "Nothing is on the shelves to look ahead for. Load a run on the Bench (press 3), dry and pack"
    " it; or press f there to name your foods first. What is packed shows here at once."
)
NOT_SAID = "not said"
ADVICE_TITLE = "Would save food"
_SAVES = "saves · do it before · Enter does it"
_THERE = "there · lasts until · e how it is eaten"
MOST_NAMED = 4
"""Packages named in a line; the rest are counted."""
_KINDS = len(AdviceKind) + 1


def food_key(food_id: int) -> int:
    """The key of a food's row."""
    return food_id * _KINDS


def advice_key(advice: Advice) -> int:
    """The key of a piece of advice: a food has at most one of each kind."""
    return advice.food_id * _KINDS + 1 + tuple(AdviceKind).index(advice.kind)


def is_advice(key: int) -> bool:
    """Whether a key is that of a piece of advice."""
    return key % _KINDS != 0


def first_sections(foods: Sequence[tuple[Food, int]]) -> list[Section]:
    """The foods there are packages of, before anything is reckoned."""
    rows = tuple(
        Row(food_key(food.food_id), (food.name, "", "", "", "…", f"{packages:,} packed"))
        for food, packages in foods
        if packages
    )
    return [Section(f"Foods · {len(rows)}", _THERE, rows)]


def sections_of(page: HorizonPage, advice: Sequence[Advice]) -> list[Section]:
    """Advice first, what saves most at its head; then the foods, those that lose most first."""
    left = page.not_looked_at
    aside = f"{counted(left, 'package')} not looked at" if left else _SAVES
    told = tuple(_advice_row(one) for one in advice)
    foods = tuple(_food_row(one) for one in ordered(page.foods))
    return [
        Section(f"{ADVICE_TITLE} · {len(told)}", aside, told),
        Section(f"Foods · {len(foods)}", _THERE, foods),
    ]


def ordered(foods: Sequence[FoodHorizon]) -> list[FoodHorizon]:
    """Foods that lose most first, then by name."""
    return sorted(foods, key=lambda one: (-one.unused_servings, one.food.name.casefold()))


def _advice_row(one: Advice) -> Row:
    """A piece of advice on one line."""
    pace = one.servings_per_day
    cells = (
        f"{one.food}: {one.words}",
        "",
        "" if pace is None else show_servings(7 * pace),
        "",
        show_servings(one.saved_servings),
        one.before.isoformat() if one.before else "",
    )
    return Row(advice_key(one), cells)


def _food_row(one: FoodHorizon) -> Row:
    """A food on one line."""
    pace = one.how.servings_per_day
    cells = (
        one.food.name,
        show_servings(one.unused_servings) if one.known else "?",
        "?" if pace is None else show_servings(7 * pace),
        show_servings(one.least.servings_per_week),
        show_servings(one.servings),
        _until(one),
    )
    tone = "due" if not one.known else "bad" if one.unused_servings else "good"
    return Row(food_key(one.food.food_id), cells, tone)


def _until(one: FoodHorizon) -> str:
    """When a food runs out, in the width of a day."""
    if not one.known:
        return NOT_SAID
    if one.runs_out_on is not None:
        return one.runs_out_on.isoformat()
    return "lasts" if one.forecast.lasts else "–"


def advice_lines(one: Advice, units: UnitSystem) -> list[str]:
    """A piece of advice in full."""
    fresh = show_weight(nearest_whole(one.saved_dg), units)
    before = f", before {one.before}" if one.before else ""
    lines = [
        f"{one.food}: {one.words}.",
        f"Saves {servings_words(show_servings(one.saved_servings))} ({fresh} as fresh){before}.",
    ]
    if one.codes:
        lines.append(f"Packages: {codes_words(one.codes)}.")
    return [*lines, QUALITY_CAPTION]


def food_lines(one: FoodHorizon) -> list[str]:
    """A food in full: how it is eaten, what becomes of it, and its least rate."""
    lines = [f"{_how_words(one)} {_fate_words(one)}", *_least_words(one)]
    past = one.forecast.past_servings
    if past:
        gone = servings_words(show_servings(past))
        lines.append(
            f"{CAUTION_SIGN} {gone} past the best-by already: look at them before anything else."
        )
    if one.raw:
        lines.append(f"{CAUTION_SIGN} {counted(len(one.raw), 'package')} {RAW_WORDS}.")
    return [*lines, QUALITY_CAPTION]


def how_lines(one: FoodHorizon) -> list[str]:
    """How a food is eaten, and its least rate."""
    return [_how_words(one), *_least_words(one)]


def _how_words(one: FoodHorizon) -> str:
    """How a food is eaten, and on whose word."""
    pace = one.how.servings_per_day
    eaten = "" if pace is None else f", {rate_words(pace)}"
    return f"{one.food.name}: {one.how.basis.words}{eaten}."


def _least_words(one: FoodHorizon) -> list[str]:
    """The least steady rate of a food, where anything is to be eaten in time."""
    if one.least.binding_date is None:
        return []
    least = rhythm(one.least.servings_per_day).words
    return [f"{least} wastes nothing; {one.least.binding_date} asks for that much."]


def _fate_words(one: FoodHorizon) -> str:
    """What becomes of a food."""
    if not one.known:
        return "Press e to say how fast it is eaten."
    if not one.unused_servings:
        return "Nothing of it passes its best-by."
    first = one.unused[0].package
    lost = servings_words(show_servings(one.unused_servings))
    return f"{lost} pass unused, the first with {first.code} on {first.best_by}."


def package_lines(one: FoodHorizon) -> list[str]:
    """Each package of a food with its likely days of use."""
    return [*food_lines(one)[:-1], "", QUALITY_CAPTION, *_packages(one)]


def _packages(one: FoodHorizon) -> Iterator[str]:
    """A line for each package."""
    for each in one.forecast.packages:
        package = each.package
        used = f"used {each.from_day} to {each.to_day}, " if each.from_day and one.known else ""
        fate = each.fate.value if one.known else NOT_SAID
        raw = "; raw" if package.package_id in one.raw else ""
        amount = servings_words(show_servings(package.servings))
        yield f"{package.code}  best by {package.best_by}  {amount}: {used}{fate}{raw}"


def servings_words(shown: str) -> str:
    """A number of servings with its noun."""
    return f"{shown} {'serving' if shown == '1' else 'servings'}"


def rate_words(servings_per_day: Fraction) -> str:
    """Servings a day as servings a week."""
    return f"{show_servings(7 * servings_per_day)} a week" if servings_per_day else "never"


def codes_words(codes: Sequence[str]) -> str:
    """Packages by code, a few of them by name."""
    if len(codes) <= MOST_NAMED:
        return ", ".join(codes)
    return f"{', '.join(codes[:MOST_NAMED])} and {len(codes) - MOST_NAMED} more"
