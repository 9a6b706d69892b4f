"""What becomes of a doubtful package: the decision, its reason, the time there is."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from stockroom.domain.evidence_records import Inspection
from stockroom.domain.records import Package
from stockroom.domain.soft_decision import PROMPTS, Outcome, Question, Row, SoftDecision
from stockroom.domain.soft_questions import NOT_KNOWN
from stockroom.domain.tightness import SealFinding
from stockroom.reports.parts import caution_blocks
from stockroom.reports.values import (
    DAY,
    TEXT,
    WORDS,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Kind,
    Prose,
    Report,
    Table,
    document,
)
from stockroom.services.results import Done

OPTION_OF: Mapping[Question, str] = {
    Question.FEEL: "--feel",
    Question.SIGNS: "--signs",
    Question.FROZEN_SINCE_FOUND: "--frozen",
    Question.HOURS_SINCE_SEALING: "--hours",
    Question.ACID: "--acid",
    Question.KEPT_COLD: "--cold",
    Question.MINUTES_OUT: "--minutes",
    Question.TIGHTNESS: "--tight",
}
"""The option that answers each question."""


def decision_report(
    package: Package,
    decision: SoftDecision,
    answers: Mapping[Question, str],
    question: Question | None,
    seal: SealFinding,
    *,
    sisters: Sequence[str] = (),
    done: Done | None = None,
) -> Report:
    """The decision on a package; `question` is what could still be answered.

    `sisters` are the codes of its suspect sisters, `done` what was carried out.
    """
    blocks: tuple[Block, ...] = (
        Fields(
            (
                *_what(package),
                *_decided(decision),
                *_sisters(decision, sisters),
                Field("seal", TEXT, seal.reason, "seal"),
                Field("not_said", TEXT, question and question.value),
                Field("", TEXT, _assumed(question), "not said"),
                Field("carried_out", TEXT, done and done.words),
                Field("codes", WORDS, done.codes if done else None),
            )
        ),
        Data("answers", {key.value: answer for key, answer in answers.items()}),
        *caution_blocks(decision.cautions),
    )
    return document(f"What becomes of {package.code} · {package.food}", blocks)


def _what(package: Package) -> tuple[Field, ...]:
    return (
        Field("code", TEXT, package.code),
        Field("food", TEXT, package.food),
        Field("lot", TEXT, package.lot_code),
    )


def _decided(decision: SoftDecision) -> tuple[Field, ...]:
    """What to do, by when and why."""
    offered = [one.words for one in decision.choices] or [Outcome.DISCARD.words]
    sources = [one.words for one in decision.sources]
    return (
        Field("outcome", TEXT, decision.outcome.value),
        Field("choices", WORDS, [one.value for one in decision.choices]),
        Field("", TEXT, " Or: ".join(offered), "do"),
        Field("allowance", TEXT, decision.allowance, "time"),
        Field("until", DAY, decision.until),
        Field("rule", TEXT, decision.row.value),
        Field("", TEXT, decision.row.words, "rule"),
        Field("reason", TEXT, decision.reason, "because"),
        Field("sources", WORDS, sources),
        Field("", TEXT, "; ".join(sources), "source"),
    )


def _sisters(decision: SoftDecision, codes: Sequence[str]) -> tuple[Field, ...]:
    """What it means for the other packages of the lot."""
    after = f" Suspect now: {', '.join(codes)}." if codes else ""
    return (
        Field("sisters", TEXT, decision.sisters.value),
        Field("", TEXT, decision.sisters.words, "sisters", after),
        Field("suspect_sisters", WORDS, codes),
    )


def _assumed(question: Question | None) -> str | None:
    """What nobody answered, so that the stricter counts."""
    if question is None:
        return None
    return f"{PROMPTS[question].text} The stricter answer counts; {OPTION_OF[question]} says it."


_KEPT_ANSWERS = Kind(lambda _value, _units: "", str, json.loads)
"""The answers as they are kept, JSON in a text: an object in JSON."""

_DECISIONS = (
    Column("on_day", DAY, "day"),
    Column("outcome"),
    Column("", title="decided", least=16),
    Column("rule"),
    Column("", title="rule", least=12, drop=1),
    Column("reason"),
    Column("use_by", DAY, "use by"),
    Column("note", title="note", least=10, drop=2),
    Column("answers", _KEPT_ANSWERS),
)


def decision_blocks(inspections: Sequence[Inspection]) -> tuple[Block, ...]:
    """What was decided of a package, in order: a table, and the reasons."""
    rows = tuple(
        (
            one.on_day, one.outcome, Outcome(one.outcome).words, one.rule, Row(one.rule).words,
            one.reason, one.use_by, one.note, one.answers,
        )
        for one in inspections
    )  # fmt: skip
    return (
        Table("decisions", _DECISIONS, rows, "Decisions"),
        Prose("", tuple(_because(one) for one in inspections)),
    )


def _because(one: Inspection) -> str:
    """The reason of a decision and the answers it rests on."""
    given: dict[str, str] = json.loads(one.answers)
    said = ", ".join(f"{_asked(key)} {answer_words(key, text)}" for key, text in given.items())
    return f"{one.on_day.isoformat()}: {one.reason}{f' Said: {said}.' if said else ''}"


_ASKED: Mapping[str, str] = {
    Question.FEEL: "feels",
    Question.SIGNS: "signs",
    Question.FROZEN_SINCE_FOUND: "frozen since found",
    Question.HOURS_SINCE_SEALING: "hours after sealing",
    Question.ACID: "acid fruit",
    Question.KEPT_COLD: "kept cold",
    Question.MINUTES_OUT: "minutes out of the cold",
    Question.TIGHTNESS: "tight",
}


def _asked(key: str) -> str:
    """A question in a few words."""
    return _ASKED.get(key, key)


def answer_words(key: str, answer: str) -> str:
    """A kept answer as a person would say it."""
    if answer == NOT_KNOWN:
        return "not known"
    choices = PROMPTS[Question(key)].choices if key in tuple(Question) else ()
    return {one.key: one.words for one in choices}.get(answer, answer)
