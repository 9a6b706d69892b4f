"""What could be done with packages, and what it would gain, in words."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.records import Package
from stockroom.services.whatif import Choice
from stockroom.tui.screens.package_words import LIMIT_WORDS

DAYS_A_YEAR = 365.25
DAYS_A_MONTH = 30.4375

SHORT_LIMITS = {
    "temperature": "warmth",
    "oxygen": "oxygen",
    "moisture": "moisture",
    "cap": "25 years",
    "opened": "open",
}
NO_DATE = "no date"


def gain_words(days: int) -> str:
    """A gain or loss in the largest unit that has two figures: "+4.1 years", "-20 days"."""
    size = abs(days)
    if size >= DAYS_A_YEAR:
        return f"{days / DAYS_A_YEAR:+.1f} years"
    if size >= 2 * DAYS_A_MONTH:
        return f"{days / DAYS_A_MONTH:+.0f} months"
    if not days:
        return "the same"
    return f"{days:+d} {'day' if size == 1 else 'days'}"


def gain_cell(now: Choice, choice: Choice) -> str:
    """The gain for a cell; none where either has no date."""
    if choice.kind == "now" or now.best_by is None or choice.best_by is None:
        return ""
    return gain_words(choice.gain_days)


def band_cell(choice: Choice) -> str:
    """The band by month, for a cell."""
    if choice.low is None or choice.high is None:
        return ""
    return f"{choice.low:%Y-%m}–{choice.high:%Y-%m}"


def best_by_lines(choice: Choice) -> list[str]:
    """The best-by with its band and what limits it, or why there is none."""
    if choice.best_by is None:
        return [f"No best-by is given: {choice.why_not}"]
    limit = LIMIT_WORDS.get(choice.limited_by, choice.limited_by)
    return [
        f"Best by {choice.best_by}, between {choice.low} and {choice.high}"
        f" ({QUALITY_NOT_SAFETY}); {limit}."
    ]


def way_cell(choice: Choice) -> str:
    """What is done, short: the verb is in the sentence below the list."""
    if choice.kind == "move":
        return f"to {choice.place}"
    if choice.kind == "now":
        return "as it is"
    closed = "vacuum" if choice.vacuum else f"{choice.absorber_cc} cc"
    return f"repack, {closed}: {choice.container_key}"


def sentence(choice: Choice) -> str:
    """What is done, as a sentence of its own."""
    return f"{choice.words[:1].upper()}{choice.words[1:]}."


def how_to_repack(packages: Sequence[Package], choice: Choice) -> list[str]:
    """What a person does to repack, step by step."""
    food = packages[0].food
    which = packages[0].code if len(packages) == 1 else f"{len(packages)} packages"
    kept = "under vacuum, without an absorber" if choice.vacuum else "with a fresh absorber"
    size = "" if choice.vacuum else f" ({choice.absorber_cc} cc, in packets that add up to it)"
    return [
        f"{which}: {food}",
        sentence(choice),
        *best_by_lines(choice),
        "",
        "1. Open it and look. Soft, off-smelling or mouldy food is discarded, not repacked;"
        " never taste to test.",
        "2. Dry it again until two weighings in a row agree.",
        f"3. Close it dry and cool in that container, {kept}{size}.",
        "4. In the record: load it on a tray of a new run, pack the lot that comes of it, and"
        " take the old package off with x.",
        "",
        "What the food has aged so far stays; only moisture and oxygen begin anew.",
    ]
