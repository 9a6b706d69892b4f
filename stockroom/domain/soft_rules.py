"""The table of what to do with a package found soft, as a tree of questions with one answer each.

The table is engineering judgement resting on the National Center for Home Food Preservation
(moisture without spoilage: use at once or dry again; mould: discard), on the Food Code's low-acid
foods, and on a toxin that gives no sign. What no row covers gets the stricter neighbour: discard.
No branch leads low-acid food found soft in a low-oxygen package after a day, or after a time
nobody knows, anywhere but to discarding.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from stockroom.domain.caution_sources import (
    FOOD_CODE,
    FSIS_ZONE,
    NCHFP,
    OUR_CHOICE,
    SOFT_FRUIT,
    TOXIN,
    WET_FOOD,
)
from stockroom.domain.cautions import EARLY_HOURS
from stockroom.domain.soft_facts import (
    FEW_DAYS,
    Feel,
    Signs,
    SoftFacts,
    cold_enough,
    is_acid_fruit,
    may_be_within_a_day,
    soft_days,
    soft_since,
    within_a_day,
)
from stockroom.domain.working import Source


class Row(StrEnum):
    """The row of the table that a decision comes from."""

    WITHIN_A_DAY = "within_a_day"
    SOFT_FRUIT = "soft_fruit"
    LOW_ACID_NO_OXYGEN = "low_acid_no_oxygen"
    KEPT_COLD = "kept_cold"
    SPOILED = "spoiled"
    STILL_SNAPS = "still_snaps"
    WET = "wet"
    NOT_COVERED = "not_covered"

    @property
    def words(self) -> str:
        """The row in a few words."""
        return _ROW_WORDS[self]


_ROW_WORDS = {
    Row.WITHIN_A_DAY: "slightly soft within a day of sealing",
    Row.SOFT_FRUIT: "acid fruit soft for a few days at most",
    Row.LOW_ACID_NO_OXYGEN: "low-acid food soft without oxygen",
    Row.KEPT_COLD: "low-acid food soft in air, kept cold ever since",
    Row.SPOILED: "spoiled",
    Row.STILL_SNAPS: "barrier lost, food still snaps",
    Row.WET: "wet perishable food",
    Row.NOT_COVERED: "no row covers it",
}


@dataclass(frozen=True, slots=True)
class Rule:
    """One question the table asks of the facts."""

    text: str
    holds: Callable[[SoftFacts], bool]
    answer: Callable[[SoftFacts], str]
    """What the facts say to it, in words."""
    source: Source


@dataclass(frozen=True, slots=True)
class Fork:
    """A rule and where it leads."""

    rule: Rule
    yes: Fork | Row
    no: Fork | Row


def _spoiled(facts: SoftFacts) -> bool:
    return facts.signs not in (None, Signs.NONE)


def _said_signs(facts: SoftFacts) -> str:
    return facts.signs.words if facts.signs is not None else "nobody looked"


def _said_feel(facts: SoftFacts) -> str:
    return facts.feel.words if facts.feel is not None else "nobody felt it, so it counts as moist"


def _said_acid(facts: SoftFacts) -> str:
    if is_acid_fruit(facts.food_class, facts.acid):
        return "acid fruit"
    named = facts.food_class.value.replace("_", " ")
    why = {None: "acidity not known", True: "no row of its own, though acid", False: "low in acid"}
    return f"{named}, {why[facts.acid]}: counts as low-acid"


def _said_day(facts: SoftFacts) -> str:
    if facts.sealed_on is None:
        return "nobody knows when it was sealed: counts as more than 24 hours"
    said = f"sealed {facts.sealed_on.isoformat()}, found {facts.found_on.isoformat()}"
    if facts.counts_to != facts.found_on:
        said += f", decided {facts.counts_to.isoformat()} and not frozen in between"
    if facts.hours_since_sealing is not None:
        return f"{said}, {facts.hours_since_sealing} hours after sealing"
    if may_be_within_a_day(facts) and not within_a_day(facts):
        return f"{said}: hours nobody knows count as more than {EARLY_HOURS}"
    return said


def _said_days(facts: SoftFacts) -> str:
    days, since = soft_days(facts, facts.counts_to), soft_since(facts)
    if days is None or since is None:
        return "nobody knows since when"
    good = "sealed" if since == facts.sealed_on else "last found crisp"
    return f"{good} {since.isoformat()}, so soft for at most {days} {_days_word(days)}"


def _days_word(count: int) -> str:
    return "day" if count == 1 else "days"


def _said_cold(facts: SoftFacts) -> str:
    said = {True: "kept cold ever since", False: "not kept cold", None: "not known where it stood"}
    return f"{said[facts.kept_cold]}, {_said_minutes(facts)}"


def _said_minutes(facts: SoftFacts) -> str:
    minutes = facts.minutes_counted
    if minutes is None:
        return f"time out of the cold not known: counts as over {facts.minutes_allowed} minutes"
    return f"{minutes} minutes out of the cold, of {facts.minutes_allowed} allowed"


def _soft_few_days(facts: SoftFacts) -> bool:
    days = soft_days(facts, facts.counts_to)
    return days is not None and days <= FEW_DAYS


def _chilled_few_days(facts: SoftFacts) -> bool:
    days = soft_days(facts, max(facts.found_on, facts.decided_on))
    return days is not None and days <= FEW_DAYS


_SPOILED = Rule(
    "Mould, an off odour, gas or swelling, or sticky with an odour?", _spoiled, _said_signs, NCHFP
)
_SEEN = Rule(
    "Was it looked at for mould, odour and swelling?",
    lambda facts: facts.signs is Signs.NONE,
    _said_signs,
    OUR_CHOICE,
)
_SNAPS = Rule(
    "Does it still snap to the middle?",
    lambda facts: facts.feel is Feel.SNAPS,
    _said_feel,
    OUR_CHOICE,
)
_ACID_FRUIT = Rule(
    "Is it fruit known to be acid (pH 4.6 or below)?",
    lambda facts: is_acid_fruit(facts.food_class, facts.acid),
    _said_acid,
    FOOD_CODE,
)
_WITHIN_A_DAY = Rule("Found within 24 hours of sealing?", within_a_day, _said_day, OUR_CHOICE)
_SLIGHTLY = Rule(
    "Only slightly soft?",
    lambda facts: facts.feel is Feel.SLIGHTLY_SOFT,
    _said_feel,
    OUR_CHOICE,
)
_COLD_ENOUGH = Rule(
    "Out of the cold no longer than wet food may be?", cold_enough, _said_minutes, FSIS_ZONE
)
_LOW_OXYGEN = Rule(
    "Was it packed without oxygen?",
    lambda facts: facts.low_oxygen,
    lambda facts: "absorber or vacuum" if facts.low_oxygen else "packed with air",
    TOXIN,
)
_KEPT_COLD = Rule(
    "Chilled or frozen ever since?",
    lambda facts: facts.kept_cold is True and cold_enough(facts),
    _said_cold,
    WET_FOOD,
)
_FEW_DAYS = Rule(f"Soft for {FEW_DAYS} days at most?", _soft_few_days, _said_days, SOFT_FRUIT)
_CHILLED_FEW_DAYS = Rule(
    f"Soft for {FEW_DAYS} days at most, chilled?", _chilled_few_days, _said_days, WET_FOOD
)


def _if_seen(row: Row) -> Fork:
    """A row that keeps the food needs somebody to have looked for signs of spoilage."""
    return Fork(_SEEN, yes=row, no=Row.NOT_COVERED)


_FRUIT = Fork(
    _WITHIN_A_DAY,
    yes=Fork(_SLIGHTLY, yes=_if_seen(Row.WITHIN_A_DAY), no=_if_seen(Row.SOFT_FRUIT)),
    no=Fork(_FEW_DAYS, yes=_if_seen(Row.SOFT_FRUIT), no=Row.NOT_COVERED),
)
_LOW_ACID_EARLY = Fork(
    _SLIGHTLY,
    yes=_if_seen(Row.WITHIN_A_DAY),
    no=Fork(_COLD_ENOUGH, yes=_if_seen(Row.WITHIN_A_DAY), no=Row.WET),
)
_LOW_ACID_IN_AIR = Fork(
    _KEPT_COLD,
    yes=Fork(_CHILLED_FEW_DAYS, yes=_if_seen(Row.KEPT_COLD), no=Row.NOT_COVERED),
    no=Fork(
        _SLIGHTLY,
        yes=Row.NOT_COVERED,
        no=Fork(_COLD_ENOUGH, yes=Row.NOT_COVERED, no=Row.WET),
    ),
)
_LOW_ACID = Fork(
    _WITHIN_A_DAY,
    yes=_LOW_ACID_EARLY,
    no=Fork(_LOW_OXYGEN, yes=Row.LOW_ACID_NO_OXYGEN, no=_LOW_ACID_IN_AIR),
)
TABLE = Fork(
    _SPOILED,
    yes=Row.SPOILED,
    no=Fork(
        _SNAPS,
        yes=_if_seen(Row.STILL_SNAPS),
        no=Fork(_ACID_FRUIT, yes=_FRUIT, no=_LOW_ACID),
    ),
)
"""The whole table, from the first question on."""


def walk(facts: SoftFacts) -> tuple[Row, tuple[tuple[Rule, bool], ...]]:
    """The row the facts lead to, and the rules passed on the way with what each answered."""
    at: Fork | Row = TABLE
    passed: list[tuple[Rule, bool]] = []
    while isinstance(at, Fork):
        held = at.rule.holds(facts)
        passed.append((at.rule, held))
        at = at.yes if held else at.no
    return at, tuple(passed)
