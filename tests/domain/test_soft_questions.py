"""The short guided decision: only what can still change the answer is asked."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings

from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.soft_decision import (
    PROMPTS,
    Feel,
    Outcome,
    Question,
    Signs,
    SoftFacts,
    Tightness,
    decide,
    next_question,
    with_answer,
)
from stockroom.errors import BadInput
from tests.domain.soft_cases import ANY_FACTS, TIMES, facts_at

SAID = tuple(one.value for one in Question)
BLANK: dict[str, Any] = dict.fromkeys(SAID)
EVERY: dict[str, tuple[object, ...]] = {
    "feel": tuple(Feel),
    "signs": (Signs.NONE, Signs.ODOUR),
    "frozen_since_found": (True, False),
    "hours_since_sealing": (3, 24, 25),
    "acid": (True, False),
    "kept_cold": (True, False),
    "minutes_out": (None, 20, 500),
    "tightness": tuple(Tightness),
}


def matters_of(facts: SoftFacts) -> tuple[object, ...]:
    """What a person would call a different decision."""
    found = decide(facts, machine_free=True)
    return found.choices, found.sisters, found.until


def open_of(facts: SoftFacts) -> list[str]:
    """What a person may still say of this package, worked out here once more."""
    senseless = {
        "frozen_since_found": facts.decided_on <= facts.found_on,
        "hours_since_sealing": facts.sealed_on is None
        or (facts.found_on - facts.sealed_on).days != 1,
        "acid": facts.food_class is not FoodClass.FRUIT,
        "minutes_out": facts.kept_cold is True,
    }
    return [one for one in SAID if getattr(facts, one) is None and not senseless.get(one)]


@settings(max_examples=150, deadline=None)
@given(ANY_FACTS)
def test_a_question_is_asked_exactly_while_the_decision_is_open(facts: SoftFacts) -> None:
    still = open_of(facts)
    ends: set[tuple[object, ...]] = set()
    for answers in itertools.product(*(EVERY[one] for one in still)):
        known: dict[str, Any] = dict(zip(still, answers, strict=True))
        ends.add(matters_of(replace(facts, **known)))
    question = next_question(facts)
    assert (question is not None) is (len(ends) > 1)
    assert question is None or question.value in still


@settings(max_examples=300)
@given(ANY_FACTS)
def test_the_questions_asked_lead_where_knowing_everything_leads(truth: SoftFacts) -> None:
    told: dict[str, Any] = {
        name: EVERY[name][0] if getattr(truth, name) is None else getattr(truth, name)
        for name in SAID
    }
    facts = replace(truth, **BLANK)
    asked: list[Question] = []
    while (question := next_question(facts, asked)) is not None:
        assert question not in asked
        asked.append(question)
        known: dict[str, Any] = {question.value: told[question.value]}
        facts = replace(facts, **known)
    possible = {one: told[one] for one in open_of(replace(truth, **BLANK))}
    if possible.get("kept_cold"):
        possible["minutes_out"] = facts.minutes_out
    assert matters_of(facts) == matters_of(replace(truth, **{**BLANK, **possible}))


def asked_of(facts: SoftFacts, answers: dict[Question, str]) -> tuple[list[Question], SoftFacts]:
    """The questions put to a person with these answers, who knows nothing else."""
    asked: list[Question] = []
    while (question := next_question(facts, asked)) is not None:
        asked.append(question)
        facts = with_answer(facts, question, answers.get(question, "unknown"))
    return asked, facts


def test_old_low_acid_food_without_oxygen_needs_one_squeeze() -> None:
    # Nothing is opened, smelled or asked further: it is soft, so it goes.
    asked, facts = asked_of(facts_at(TIMES[10]), {Question.FEEL: "slightly_soft"})
    assert asked == [Question.FEEL]
    assert decide(facts, machine_free=True).outcome is Outcome.DISCARD


def test_food_that_snaps_is_asked_for_spoilage_and_its_seal() -> None:
    asked, facts = asked_of(
        facts_at(TIMES[10]),
        {Question.FEEL: "snaps", Question.SIGNS: "none", Question.TIGHTNESS: "lost"},
    )
    assert asked == [Question.FEEL, Question.SIGNS, Question.TIGHTNESS]
    assert decide(facts, machine_free=True).outcome is Outcome.REPACK


def test_spoiled_food_is_asked_nothing_more() -> None:
    asked, _ = asked_of(facts_at(TIMES[3]), {Question.FEEL: "snaps", Question.SIGNS: "mould"})
    assert asked == [Question.FEEL, Question.SIGNS]


def test_the_day_after_sealing_hours_are_asked_and_not_known_counts_as_more() -> None:
    known = {Question.FEEL: "slightly_soft", Question.SIGNS: "none"}
    asked, facts = asked_of(facts_at(TIMES[3]), known)
    assert asked == [Question.FEEL, Question.SIGNS, Question.HOURS_SINCE_SEALING]
    assert decide(facts, machine_free=False).outcome is Outcome.DISCARD
    for hours, outcome in (("24", Outcome.HOLD), ("25", Outcome.DISCARD)):
        _, said = asked_of(facts_at(TIMES[3]), {**known, Question.HOURS_SINCE_SEALING: hours})
        assert decide(said, machine_free=False).outcome is outcome


def test_wet_food_within_a_day_is_asked_where_it_stood_then_for_how_long() -> None:
    known = {Question.FEEL: "moist", Question.SIGNS: "none"}
    asked, facts = asked_of(facts_at(TIMES[0]), known)
    assert asked[2:] == [Question.KEPT_COLD, Question.MINUTES_OUT]
    assert decide(facts, machine_free=True).outcome is Outcome.DISCARD
    asked, facts = asked_of(facts_at(TIMES[0]), {**known, Question.KEPT_COLD: "yes"})
    assert asked[2:] == [Question.KEPT_COLD]
    assert decide(facts, machine_free=True).outcome is Outcome.DRY_AGAIN


def test_a_fruit_of_unknown_acidity_is_asked_about_and_not_known_counts_as_low() -> None:
    fruit = facts_at(TIMES[11], food_class=FoodClass.FRUIT)
    known = {Question.FEEL: "slightly_soft", Question.SIGNS: "none"}
    asked, facts = asked_of(fruit, known)
    assert asked == [Question.FEEL, Question.SIGNS, Question.ACID]
    assert decide(facts, machine_free=True).outcome is Outcome.DISCARD
    _, facts = asked_of(fruit, {**known, Question.ACID: "yes"})
    assert decide(facts, machine_free=True).outcome is Outcome.USE_NOW
    assert Question.ACID not in asked_of(replace(fruit, acid=True), known)[0]


def test_a_decision_put_off_asks_whether_it_went_into_the_freezer() -> None:
    # Found soft on the sealing day and decided on four days later.
    facts = replace(facts_at(TIMES[17]), frozen_since_found=None, hours_since_sealing=None)
    known = {Question.FEEL: "slightly_soft", Question.SIGNS: "none"}
    asked, unknown = asked_of(facts, known)
    assert Question.FROZEN_SINCE_FOUND in asked
    assert decide(unknown, machine_free=True).outcome is Outcome.DISCARD
    _, frozen = asked_of(facts, {**known, Question.FROZEN_SINCE_FOUND: "yes"})
    assert decide(frozen, machine_free=True).outcome is Outcome.DRY_AGAIN


def test_every_question_has_its_words_and_is_a_fact() -> None:
    assert list(PROMPTS) == list(Question)
    for question, prompt in PROMPTS.items():
        assert prompt.question is question
        assert prompt.text.endswith("?")
        assert prompt.hint.endswith(".")
        assert bool(prompt.choices) is not bool(prompt.unit)
        assert "unknown" not in [one.key for one in prompt.choices]
    for question in (Question.FEEL, Question.SIGNS):
        assert "Never taste" in PROMPTS[question].hint


@pytest.mark.parametrize("question", Question)
def test_every_offered_answer_can_be_given(question: Question) -> None:
    facts = facts_at(TIMES[10])
    prompt = PROMPTS[question]
    for answer in [one.key for one in prompt.choices] or ["0", "7", "999999"]:
        assert getattr(with_answer(facts, question, answer), question.value) is not None
    assert with_answer(facts, question, "unknown") == facts


def test_answers_are_read_as_what_they_say() -> None:
    facts = facts_at(TIMES[10])
    assert with_answer(facts, Question.FEEL, "moist").feel is Feel.MOIST
    assert with_answer(facts, Question.SIGNS, "swollen").signs is Signs.SWOLLEN
    assert with_answer(facts, Question.TIGHTNESS, "lost").tightness is Tightness.LOST
    assert with_answer(facts, Question.KEPT_COLD, "no").kept_cold is False
    assert with_answer(facts, Question.ACID, "yes").acid is True
    assert with_answer(facts, Question.HOURS_SINCE_SEALING, "7").hours_since_sealing == 7
    assert with_answer(facts, Question.MINUTES_OUT, "999999").minutes_out == 100_000


@pytest.mark.parametrize("known", [True, False])
def test_the_acidity_on_record_is_not_talked_away(known: bool) -> None:
    fruit = facts_at(TIMES[10], food_class=FoodClass.FRUIT, acid=known)
    for answer in ("yes", "no"):
        assert with_answer(fruit, Question.ACID, answer).acid is known


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        (Question.FEEL, "crunchy"),
        (Question.FEEL, ""),
        (Question.KEPT_COLD, "true"),
        (Question.TIGHTNESS, "not_known"),
        (Question.MINUTES_OUT, "-1"),
        (Question.MINUTES_OUT, "1.5"),
        (Question.MINUTES_OUT, "٦"),
        (Question.MINUTES_OUT, "1234567"),
        (Question.HOURS_SINCE_SEALING, "yes"),
    ],
)
def test_any_other_answer_is_refused(question: Question, answer: str) -> None:
    with pytest.raises(BadInput) as caught:
        with_answer(facts_at(TIMES[0]), question, answer)
    assert "unknown" in caught.value.hint
