"""What to do with a package found soft, leaking or damaged: the short guided decision.

`decide` goes through the table of `soft_rules` and says what is offered, for how long, why, and
what it means for the other packages of the lot; `next_question` says what still has to be asked.
What is not offered has no way round it. Nobody ever tastes food to decide.

Follow local codes and licensed guidance: this keeps a record and gives reasons, it certifies
nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stockroom.domain.caution_sources import (
    FOOD_CODE,
    FSIS_ZONE,
    NCHFP,
    OUR_CHOICE,
    SOFT_FRUIT,
    TOXIN,
    WET_FOOD,
)
from stockroom.domain.cautions import Caution, chosen
from stockroom.domain.foods import Preparation
from stockroom.domain.soft_facts import (
    FEW_DAYS,
    Feel,
    Signs,
    SoftFacts,
    as_answers,
    is_acid_fruit,
    may_be_within_a_day,
)
from stockroom.domain.soft_outcome import (
    Allowance,
    Outcome,
    Sisters,
    allowance_of,
    choices_of,
    sisters_of,
)
from stockroom.domain.soft_questions import (
    PROMPTS,
    Choice,
    Prompt,
    Question,
    next_question,
    with_answer,
)
from stockroom.domain.soft_rules import Row, walk
from stockroom.domain.tightness import SealFinding, Tightness, judge_seal
from stockroom.domain.working import Given, Source, Trace, Working

__all__ = [
    "PROMPTS",
    "Allowance",
    "Choice",
    "Feel",
    "Looked",
    "Outcome",
    "Prompt",
    "Question",
    "Row",
    "SealFinding",
    "Signs",
    "Sisters",
    "SoftDecision",
    "SoftFacts",
    "Tightness",
    "as_answers",
    "decide",
    "is_acid_fruit",
    "judge_seal",
    "may_follow",
    "next_question",
    "with_answer",
]

_REASONS: dict[Row, tuple[str, tuple[Source, ...]]] = {
    Row.SPOILED: (
        "It shows signs of spoilage: discard it, and wash hands and surfaces.",
        (NCHFP,),
    ),
    Row.WITHIN_A_DAY: (
        "Soft about a day after sealing, it was never dry: there was no time for harm, and the"
        " other packages share the fault. Dry the whole lot again, repack it with new absorbers"
        " under a new date, and keep it in the freezer meanwhile.",
        (OUR_CHOICE,),
    ),
    Row.SOFT_FRUIT: (
        "Acid fruit that took up moisture without spoiling may be used at once or dried again,"
        f" within {FEW_DAYS} days of when it was last known to be crisp.",
        (NCHFP, SOFT_FRUIT),
    ),
    Row.LOW_ACID_NO_OXYGEN: (
        "Low-acid food, moisture and no oxygen for more than 24 hours or an unknown time: toxin"
        " may be there without any sign in look, smell or taste, and drying again does not"
        " destroy it.",
        (TOXIN, FOOD_CODE),
    ),
    Row.KEPT_COLD: (
        "Low-acid food gone soft in a package with air is wet food now, and is treated like"
        " rehydrated food: chilled, and out of the cold for 2 hours in all, 1 hour above 90 °F"
        " (32.2 °C).",
        (FSIS_ZONE, WET_FOOD),
    ),
    Row.STILL_SNAPS: (
        "The barrier was lost or is in doubt, the food was not. From now on its best-by follows"
        " the rule for opened packages.",
        (OUR_CHOICE,),
    ),
    Row.WET: (
        "Low-acid food that is moist to see or wet in the middle, and out of the cold for longer"
        " than wet food may be, or for an unknown time, is wet perishable food. That goes before"
        " every kinder rule.",
        (FSIS_ZONE, OUR_CHOICE),
    ),
    Row.NOT_COVERED: (
        "No row of the table covers what was found, so the stricter one beside it holds: there is"
        " no evidence for a kinder one.",
        (OUR_CHOICE,),
    ),
}

_CAUTIONS: dict[Row, tuple[str, ...]] = {
    Row.SPOILED: (),
    Row.WITHIN_A_DAY: ("soft-early", "redry-to-plateau", "freezer-wait"),
    Row.SOFT_FRUIT: ("soft-acid", "redry-to-plateau", "freezer-wait"),
    Row.LOW_ACID_NO_OXYGEN: ("soft-discard", "toxin-no-sign", "botulism"),
    Row.KEPT_COLD: ("wet-now",),
    Row.STILL_SNAPS: ("vacuum-lost",),
    Row.WET: ("wet-perishable",),
    Row.NOT_COVERED: ("not-covered",),
}


@dataclass(frozen=True, slots=True)
class Looked:
    """One rule of the table as it was looked at."""

    rule: str
    answer: str
    """What the facts say to it."""
    holds: bool
    source: Source


@dataclass(frozen=True, slots=True)
class SoftDecision:
    """What becomes of a package, with all that a person needs to act on it and to ask why."""

    outcome: Outcome
    """The first of the choices; discarding where there is none."""
    choices: tuple[Outcome, ...]
    """What is offered besides discarding, which is always open."""
    row: Row
    reason: str
    sources: tuple[Source, ...]
    """What the reason rests on."""
    allowance: str
    """The time there is, in words; empty where it is discarded."""
    until: date | None
    """Its last day, where there is one."""
    sisters: Sisters
    cautions: tuple[Caution, ...]
    looked: tuple[Looked, ...]
    """The rules in the order looked at; the last one led to the row."""

    def allows(self, outcome: Outcome) -> bool:
        """Whether this may be done; discarding always may."""
        return outcome is Outcome.DISCARD or outcome in self.choices

    @property
    def freezer_meanwhile(self) -> bool:
        """Whether the freezer is where it waits for the machine."""
        return Outcome.HOLD in self.choices

    @property
    def words(self) -> str:
        """What to do, with every choice there is, and by when."""
        offered = [one.words for one in self.choices] or [Outcome.DISCARD.words]
        said = " Or: ".join(offered)
        return f"{said} {self.allowance}".strip()

    @property
    def reason_with_sources(self) -> str:
        """The reason and what it rests on, each source with its standing."""
        return f"{self.reason} ({'; '.join(one.words for one in self.sources)})"

    @property
    def working(self) -> Working:
        """How the decision was reached, rule by rule."""
        trace = Trace("What to do with a soft package")
        said: list[Given] = []
        for one in self.looked:
            verdict = "yes" if one.holds else "no"
            trace.note(one.rule, f"{verdict}: {one.answer}", source=one.source)
            said.append(Given(one.rule, verdict))
        trace.note("row of the table", f"{self.row.words}: {self.reason}", *said)
        trace.note("what to do", self.words)
        trace.note("the other packages of the lot", self.sisters.words)
        for caution in self.cautions:
            trace.caution(caution.words)
        return trace.finish()


def decide(facts: SoftFacts, *, machine_free: bool) -> SoftDecision:
    """What to do with a package, by the table; what nobody knows counts as the stricter.

    `machine_free` says whether drying again could begin today; where not, the food is held.
    """
    row, passed = walk(facts)
    choices = choices_of(row, machine_free=machine_free)
    allowance = allowance_of(row, facts)
    reason, sources = _REASONS[row]
    sisters = sisters_of(row, facts.tightness)
    return SoftDecision(
        outcome=choices[0] if choices else Outcome.DISCARD,
        choices=choices,
        row=row,
        reason=_reason(row, reason, facts),
        sources=sources,
        allowance=allowance.words,
        until=allowance.until,
        sisters=sisters,
        cautions=chosen(_caution_keys(row, facts, sisters)),
        looked=tuple(
            Looked(rule.text, rule.answer(facts), held, rule.source) for rule, held in passed
        ),
    )


def may_follow(sister: SoftFacts) -> bool:
    """Whether a sister nobody found at fault may be dried again with the lot, unopened.

    Only on the day of its own sealing or the next, whatever was found of another package: one
    sealed earlier may have been soft for longer, so it is looked at and decided by itself. The
    facts' `found_on` and `decided_on` are both the day it joins the others.
    """
    return may_be_within_a_day(sister)


def _reason(row: Row, reason: str, facts: SoftFacts) -> str:
    """The reason, with what was seen where that says more."""
    if row is Row.SPOILED and facts.signs is not None:
        return f"Found: {facts.signs.words}. {reason}"
    if row is Row.NOT_COVERED and facts.signs is None:
        return f"{reason} Nobody said whether it shows mould, odour or swelling."
    if row is Row.STILL_SNAPS and facts.tightness is Tightness.HOLDS:
        return (
            f"{reason} Its seal was found whole: if it was not opened, record it as crisp instead."
        )
    return reason


def _caution_keys(row: Row, facts: SoftFacts, sisters: Sisters) -> set[str]:
    """The keys of the cautions that belong beside a decision."""
    keys = {"never-taste", "spoiled", *_CAUTIONS[row]}
    low_acid = not is_acid_fruit(facts.food_class, facts.acid)
    if sisters.doubtful:
        keys.add("sisters")
    kept = bool(choices_of(row, machine_free=True))
    if low_acid and facts.low_oxygen and row is not Row.STILL_SNAPS:
        keys |= {"botulism"} if kept else {"botulism", "toxin-no-sign"}
    if low_acid and row is Row.WITHIN_A_DAY:
        keys.add("wet-perishable")
    if kept and facts.preparation is Preparation.RAW:
        keys.add("raw-stays-raw")
    if row is Row.KEPT_COLD and facts.preparation is Preparation.COOKED:
        keys.add("reheat")
    return keys
