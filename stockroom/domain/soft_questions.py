"""Which questions about a soft package still matter, in which words, and how answers are read.

A question matters when its answer can still change what is offered, for how long, or what happens
to the sisters, whatever the other open questions turn out to say. Feeling comes first: it needs
no opening, and often decides alone.
"""

from __future__ import annotations

import itertools
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from stockroom.domain.calendar import days_between
from stockroom.domain.cautions import EARLY_HOURS
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.rechecks import SETTLE_DAYS
from stockroom.domain.soft_facts import MINUTES_OUT, Feel, Signs, SoftFacts
from stockroom.domain.soft_outcome import allowance_of, choices_of, sisters_of
from stockroom.domain.soft_rules import walk
from stockroom.domain.tightness import Tightness
from stockroom.errors import BadInput

NOT_KNOWN = "unknown"
"""The answer of a person who does not know: the fact stays None."""
MOST_ASKED = 100_000
"""The largest number of hours or minutes that is believed (engineering judgement)."""


class Question(StrEnum):
    """What may be asked, in the order asked; each is the name of its fact."""

    FEEL = "feel"
    SIGNS = "signs"
    FROZEN_SINCE_FOUND = "frozen_since_found"
    HOURS_SINCE_SEALING = "hours_since_sealing"
    ACID = "acid"
    KEPT_COLD = "kept_cold"
    MINUTES_OUT = "minutes_out"
    TIGHTNESS = "tightness"


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to choose."""

    key: str
    words: str


@dataclass(frozen=True, slots=True)
class Prompt:
    """A question as it is put to a person."""

    question: Question
    text: str
    hint: str
    choices: tuple[Choice, ...]
    """The answers besides "unknown"; none where a whole number is asked for."""
    unit: str = ""
    """What the whole number counts."""


_YES_OR_NO = (Choice("yes", "yes"), Choice("no", "no"))


def _choices(kinds: type[Feel] | type[Signs] | type[Tightness]) -> tuple[Choice, ...]:
    """The answers of an enumeration, but not the one for not known."""
    return tuple(Choice(one.value, one.words) for one in kinds if one is not Tightness.NOT_KNOWN)


PROMPTS: Mapping[Question, Prompt] = {
    one.question: one
    for one in (
        Prompt(
            Question.FEEL,
            "How does the food feel?",
            "Squeeze it through the package. Open it only if it feels crisp, and break the"
            " thickest piece. Never taste it.",
            _choices(Feel),
        ),
        Prompt(
            Question.SIGNS,
            "Any sign of spoilage?",
            "Look for mould, an off odour, gas or swelling, a sticky surface. Never taste it.",
            _choices(Signs),
        ),
        Prompt(
            Question.FROZEN_SINCE_FOUND,
            "Has it been in the freezer since it was found?",
            "If it went there at once, no more time counts.",
            _YES_OR_NO,
        ),
        Prompt(
            Question.HOURS_SINCE_SEALING,
            "How many hours after sealing was it found?",
            "Hours nobody knows count as more than 24: the stricter.",
            (),
            "hours",
        ),
        Prompt(
            Question.ACID,
            "Is it an acid fruit (pH 4.6 or below)?",
            "As most berries, citrus and orchard fruit are. Not known counts as no: banana, fig,"
            " mango, melon, papaya, persimmon, coconut and avocado are among those that may not"
            " be (from memory, not confirmed).",
            _YES_OR_NO,
        ),
        Prompt(
            Question.KEPT_COLD,
            "Was it chilled or frozen ever since sealing?",
            "In the refrigerator or the freezer all the time.",
            _YES_OR_NO,
        ),
        Prompt(
            Question.MINUTES_OUT,
            "How many minutes was it out of the cold, all together?",
            "Since it left the machine, sealing and looking at it included.",
            (),
            "minutes",
        ),
        Prompt(
            Question.TIGHTNESS,
            "Is the package tight?",
            "Look at the seal all round, and whether a vacuum was lost.",
            _choices(Tightness),
        ),
    )
}
"""Every question in its words."""

_CAN_BE: Mapping[Question, tuple[object, ...]] = {
    Question.FEEL: tuple(Feel),
    Question.SIGNS: (Signs.NONE, Signs.MOULD),
    Question.FROZEN_SINCE_FOUND: (True, False),
    Question.HOURS_SINCE_SEALING: (EARLY_HOURS, EARLY_HOURS + 1),
    Question.ACID: (True, False),
    Question.KEPT_COLD: (True, False),
    Question.MINUTES_OUT: (None, 0, MINUTES_OUT + 1),
    Question.TIGHTNESS: tuple(Tightness),
}
"""Answers that stand for all: one on each side of every limit. Not knowing the minutes is one of
its own, for then it still matters where the food stood."""


def next_question(facts: SoftFacts, asked: Collection[Question] = ()) -> Question | None:
    """The first question whose answer can still change the decision; None when none can.

    What is known is not asked, nor what is in `asked`: a person who did not know is not asked
    twice, and the fact counts as the stricter.
    """
    still = [one for one in Question if one not in asked and _is_open(facts, one)]
    return next((one for one in still if _matters(facts, one, still)), None)


def with_answer(facts: SoftFacts, question: Question, answer: str) -> SoftFacts:
    """The facts with one answer: a choice's key, a whole number, or "unknown" for no change.

    What the record knows of a food's acidity stays. Raises BadInput for anything else.
    """
    if answer == NOT_KNOWN:
        return facts
    value = _read(PROMPTS[question], answer)
    if question is Question.ACID and facts.acid is not None:
        return facts
    return _with(facts, question, value)


def _with(facts: SoftFacts, question: Question, value: object) -> SoftFacts:
    """The facts with the one a question asks for."""
    changed: dict[str, Any] = {question.value: value}
    return replace(facts, **changed)


def _read(prompt: Prompt, answer: str) -> object:
    """A typed answer as the value of its fact."""
    if prompt.unit:
        if answer.isascii() and answer.isdigit() and len(answer) <= 6:
            return min(int(answer), MOST_ASKED)
        raise BadInput(prompt.text, answer, f"a whole number of {prompt.unit}, or {NOT_KNOWN}")
    keys = [one.key for one in prompt.choices]
    if answer not in keys:
        raise BadInput(prompt.text, answer, f"one of {', '.join((*keys, NOT_KNOWN))}")
    kinds = {Question.FEEL: Feel, Question.SIGNS: Signs, Question.TIGHTNESS: Tightness}
    kind = kinds.get(prompt.question)
    return answer == "yes" if kind is None else kind(answer)


def _is_open(facts: SoftFacts, question: Question) -> bool:
    """Whether the fact is not known and the question makes sense for this package."""
    if getattr(facts, question.value) is not None:
        return False
    if question is Question.FROZEN_SINCE_FOUND:
        return facts.decided_on > facts.found_on
    if question is Question.HOURS_SINCE_SEALING:
        sealed = facts.sealed_on
        return sealed is not None and days_between(sealed, facts.found_on) == SETTLE_DAYS
    if question is Question.ACID:
        return facts.food_class is FoodClass.FRUIT
    if question is Question.MINUTES_OUT:
        return not facts.kept_cold
    return True


def _matters(facts: SoftFacts, question: Question, still: Sequence[Question]) -> bool:
    """Whether some answers to the other open questions let this one change the decision."""
    others = [one for one in still if one is not question]
    for answers in itertools.product(*(_CAN_BE[one] for one in others)):
        known = facts
        for other, answer in zip(others, answers, strict=True):
            known = _with(known, other, answer)
        if len({_essence(_with(known, question, one)) for one in _CAN_BE[question]}) > 1:
            return True
    return False


def _essence(facts: SoftFacts) -> tuple[object, ...]:
    """What a decision comes to: what is offered, until when, and what of the sisters."""
    row, _ = walk(facts)
    return (
        choices_of(row, machine_free=True),
        sisters_of(row, facts.tightness),
        allowance_of(row, facts).until,
    )
