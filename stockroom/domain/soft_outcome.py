"""What each row of the table offers, for how long, and what it means for the sisters."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from stockroom.domain.rechecks import SETTLE_DAYS
from stockroom.domain.soft_facts import FEW_DAYS, Feel, SoftFacts, is_acid_fruit, soft_since
from stockroom.domain.soft_rules import Row
from stockroom.domain.tightness import Tightness


class Outcome(StrEnum):
    """What becomes of a package."""

    DRY_AGAIN = "dry_again"
    HOLD = "hold"
    """In the freezer until the machine is free; the same allowance as drying it again."""
    USE_NOW = "use_now"
    REPACK = "repack"
    DISCARD = "discard"

    @property
    def words(self) -> str:
        """What to do, as a sentence."""
        return _OUTCOMES[self]


class Sisters(StrEnum):
    """What it means for the other packages of the lot."""

    DRY_ALL = "dry_all"
    SUSPECT = "suspect"
    LOOK_AT_SEALS = "look_at_seals"
    NONE = "none"

    @property
    def words(self) -> str:
        """What to do about them, as a sentence."""
        return _SISTERS[self]

    @property
    def doubtful(self) -> bool:
        """Whether the sisters become suspect."""
        return self in (Sisters.DRY_ALL, Sisters.SUSPECT)


_OUTCOMES = {
    Outcome.DRY_AGAIN: "Dry it again, to constant weight, and pack it anew.",
    Outcome.HOLD: "Hold it in the freezer until the machine is free.",
    Outcome.USE_NOW: "Use it now.",
    Outcome.REPACK: "Repack it with a new absorber.",
    Outcome.DISCARD: "Discard it. Do not taste it.",
}
_SISTERS = {
    Sisters.DRY_ALL: "Dry the whole lot again: the other packages share the fault in drying.",
    Sisters.SUSPECT: "The other packages of the lot are suspect: check them too.",
    Sisters.LOOK_AT_SEALS: "Look at the seals of the packages sealed with it.",
    Sisters.NONE: "Nothing for the other packages of the lot.",
}


@dataclass(frozen=True, slots=True)
class Allowance:
    """The time there is."""

    words: str
    until: date | None
    """The last day of it, itself included; None where there is no day to name."""


def choices_of(row: Row, *, machine_free: bool) -> tuple[Outcome, ...]:
    """What a row offers besides discarding, the first choice first; nothing where it discards."""
    again = (Outcome.DRY_AGAIN, Outcome.HOLD) if machine_free else (Outcome.HOLD,)
    offered: dict[Row, tuple[Outcome, ...]] = {
        Row.WITHIN_A_DAY: again,
        Row.SOFT_FRUIT: (Outcome.USE_NOW, *again),
        Row.KEPT_COLD: (Outcome.USE_NOW,),
        Row.STILL_SNAPS: (Outcome.REPACK,),
    }
    return offered.get(row, ())


def sisters_of(row: Row, tightness: Tightness | None) -> Sisters:
    """What a row means for the sisters; food that snaps only speaks of the seal."""
    if row is Row.WITHIN_A_DAY:
        return Sisters.DRY_ALL
    if row is not Row.STILL_SNAPS:
        return Sisters.SUSPECT
    if tightness in (Tightness.LOST, Tightness.HOLDS):
        return Sisters.NONE
    return Sisters.LOOK_AT_SEALS


def allowance_of(row: Row, facts: SoftFacts) -> Allowance:
    """How long there is for what a row offers; no words where it discards."""
    today = max(facts.found_on, facts.decided_on)
    if row is Row.WITHIN_A_DAY:
        return _within_a_day(facts, today)
    if row is Row.SOFT_FRUIT:
        return Allowance(
            f"Today ({today.isoformat()}): eaten, in the machine or in the freezer."
            f" {_FREEZER_WAITS}",
            today,
        )
    if row is Row.KEPT_COLD:
        return _kept_cold(facts, today)
    if row is Row.STILL_SNAPS:
        return Allowance(f"Repack it today ({today.isoformat()}): open food takes up water.", today)
    return Allowance("", None)


_FREEZER_WAITS = (
    "In the freezer it may wait until the machine is free; nobody has published a longest time."
)


def _within_a_day(facts: SoftFacts, today: date) -> Allowance:
    """Row 1: a day from sealing, or what is left of the time wet low-acid food has."""
    fruit = is_acid_fruit(facts.food_class, facts.acid)
    if facts.feel is not Feel.SLIGHTLY_SOFT and not fruit:
        return Allowance(
            f"{_minutes_left(facts)}: straight into the machine or the freezer,"
            f" today ({today.isoformat()}). {_FREEZER_WAITS}",
            today,
        )
    if facts.frozen_since_found or facts.sealed_on is None:
        return Allowance(f"It stays frozen until it goes on the machine. {_FREEZER_WAITS}", None)
    last = facts.sealed_on + timedelta(days=SETTLE_DAYS)
    return Allowance(
        f"In the machine or the freezer within 24 hours of sealing, by {last.isoformat()}."
        f" {_FREEZER_WAITS}",
        last,
    )


def _kept_cold(facts: SoftFacts, today: date) -> Allowance:
    """Row 4: chilled wet food, counted from the last day it was known to be crisp."""
    since = soft_since(facts) or today
    last = since + timedelta(days=FEW_DAYS)
    return Allowance(
        f"Keep it chilled and use it by the end of {last.isoformat()}; {_minutes_left(facts)}.",
        last,
    )


def _minutes_left(facts: SoftFacts) -> str:
    """How long wet food may still be out of the cold."""
    left = facts.minutes_allowed - (facts.minutes_counted or 0)
    return f"{left} of {facts.minutes_allowed} minutes out of the cold are left"
