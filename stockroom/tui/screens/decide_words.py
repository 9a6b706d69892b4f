"""What the questions about a package at fault say: what was found, asked, answered and decided."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.records import Package
from stockroom.domain.soft_decision import (
    PROMPTS,
    Outcome,
    Prompt,
    Question,
    Sisters,
    Tightness,
)
from stockroom.domain.soft_questions import NOT_KNOWN
from stockroom.services.deciding import Consideration
from stockroom.tui.words import closure_words, days_ago, place_words

REASONS = ("Time", "Why", "Sisters", "Seal", "Source")
"""What stands under a decision, in this order."""
MOST_NAMED = 6
"""Sisters named by code; the rest are counted."""

_ASKED: dict[Question, str] = {
    Question.FEEL: "feels",
    Question.SIGNS: "signs",
    Question.FROZEN_SINCE_FOUND: "frozen since",
    Question.HOURS_SINCE_SEALING: "hours after sealing",
    Question.ACID: "acid fruit",
    Question.KEPT_COLD: "kept cold",
    Question.MINUTES_OUT: "minutes out",
    Question.TIGHTNESS: "tight",
}


def found_words(seen: Consideration, today: date) -> str:
    """When it was found and sealed, what it is in, where it stands."""
    package, facts = seen.package, seen.facts
    parts = [
        f"Found at fault {days_ago(facts.found_on, today)}",
        f"sealed {days_ago(package.sealed_on, today)}",
        closure_words(package),
        place_words(package),
    ]
    return " · ".join(parts)


def question_lines(prompt: Prompt) -> list[str]:
    """The answers with their keys."""
    yes_or_no = [one.key for one in prompt.choices] == ["yes", "no"]
    lines = [
        f"  {one.key[0] if yes_or_no else number}  {one.words}"
        for number, one in enumerate(prompt.choices, start=1)
    ]
    return [*lines, "  0  not known: the stricter counts"]


def answered_words(seen: Consideration) -> list[str]:
    """The answers given so far, on one line."""
    said = [
        f"{_ASKED[question]}: {_answer(question, key)}" for question, key in seen.answers.items()
    ]
    return [f"You said: {' · '.join(said)}"] if said else []


def _answer(question: Question, answer: str) -> str:
    """An answer in words."""
    if answer == NOT_KNOWN:
        return "not known"
    words = {one.key: one.words for one in PROMPTS[question].choices}
    return words.get(answer, answer)


def choice_lines(ways: Sequence[Outcome]) -> list[str]:
    """What may be done, each with its key."""
    return [f"{number}  {one.words}" for number, one in enumerate(ways, start=1)]


def reasons(seen: Consideration, sisters: Sequence[Package]) -> dict[str, str]:
    """The time there is, the reason with its sources, what it means for the sisters."""
    decision = seen.decision
    return {
        "Time": decision.allowance,
        "Why": decision.reason,
        "Sisters": _sisters(decision.sisters, sisters),
        "Seal": "" if seen.seal.tightness is Tightness.NOT_KNOWN else seen.seal.reason,
        "Source": "; ".join(one.words for one in decision.sources),
    }


def _sisters(what: Sisters, sisters: Sequence[Package]) -> str:
    """What to do about the sisters, and which they are."""
    if not sisters:
        return what.words
    codes = ", ".join(one.code for one in sisters[:MOST_NAMED])
    more = f" and {len(sisters) - MOST_NAMED} more" if len(sisters) > MOST_NAMED else ""
    return f"{what.words} Suspect now: {codes}{more}."
