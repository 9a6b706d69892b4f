"""The condition of a package, and the table of what may change it.

The table is a project judgement. It rests on one idea: a package that may have gone soft is not
eaten from until it has been looked at again, and one soft package makes its sisters doubtful.
Whether a soft package may be dried again is decided elsewhere, by food, packing and time.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stockroom.errors import Refused


class Condition(StrEnum):
    """Where a package stands between sealing and the table."""

    SETTLING = "settling"
    SOUND = "sound"
    SUSPECT = "suspect"
    HELD = "held"
    OPENED = "opened"
    USED = "used"
    DISCARDED = "discarded"


class Event(StrEnum):
    """What a person found or did."""

    CRISP = "crisp"
    SOFT = "soft"
    LEAK = "leak"
    DAMAGED = "damaged"
    SISTER_SOFT = "sister_soft"
    RECALL = "recall"
    USE_NOW = "use_now"
    HOLD = "hold"
    OPEN = "open"
    USE_UP = "use_up"
    DISCARD = "discard"
    REDRIED = "redried"
    REPACKED = "repacked"


LIVE = (
    Condition.SETTLING,
    Condition.SOUND,
    Condition.SUSPECT,
    Condition.HELD,
    Condition.OPENED,
)
USABLE = (Condition.SETTLING, Condition.SOUND, Condition.OPENED)


@dataclass(frozen=True, slots=True)
class Transition:
    """One row of the table: from a condition, by an event, to a condition, and why."""

    from_: Condition
    event: Event
    to: Condition
    why: str


def _rows(
    starts: tuple[Condition, ...], event: Event, to: Condition, why: str
) -> tuple[Transition, ...]:
    """One row for each condition to start from."""
    return tuple(Transition(start, event, to, why) for start in starts)


_SEALED = (Condition.SETTLING, Condition.SOUND)
_CHECKED = (Condition.SETTLING, Condition.SOUND, Condition.SUSPECT, Condition.OPENED)

TRANSITIONS: tuple[Transition, ...] = (
    *_rows(
        (Condition.SETTLING,),
        Event.CRISP,
        Condition.SOUND,
        "Still crisp about a day after sealing: it was dry through and the seal holds.",
    ),
    *_rows(
        (Condition.SOUND,),
        Event.CRISP,
        Condition.SOUND,
        "Checked again and still crisp: nothing has changed but the date of the next check.",
    ),
    *_rows(
        (Condition.SUSPECT,),
        Event.CRISP,
        Condition.SOUND,
        "The doubt is settled: this package was looked at itself and is crisp.",
    ),
    *_rows(
        (Condition.OPENED,),
        Event.CRISP,
        Condition.OPENED,
        "Crisp, but it stays opened: room air has been let in and its time is short.",
    ),
    *_rows(
        _CHECKED,
        Event.SOFT,
        Condition.SUSPECT,
        "Soft food has taken up water or was never dry: it is not eaten until that is decided.",
    ),
    *_rows(
        _CHECKED,
        Event.LEAK,
        Condition.SUSPECT,
        "The seal is lost, so room air and moisture get in: look at the food before using it.",
    ),
    *_rows(
        _CHECKED,
        Event.DAMAGED,
        Condition.SUSPECT,
        "Damage may have let air or dirt in: look at the food before using it.",
    ),
    *_rows(
        (*_SEALED, Condition.OPENED),
        Event.SISTER_SOFT,
        Condition.SUSPECT,
        "Another package of its lot went soft, and sisters share a fault in drying.",
    ),
    *_rows(
        (*_SEALED, Condition.OPENED),
        Event.RECALL,
        Condition.SUSPECT,
        "Called back with others that share its run, its absorbers or its container's box.",
    ),
    *_rows(
        (Condition.SUSPECT,),
        Event.USE_NOW,
        Condition.OPENED,
        "Looked at and good to eat, but not to keep: it counts as opened from this day.",
    ),
    *_rows(
        (Condition.SUSPECT,),
        Event.HOLD,
        Condition.HELD,
        "Kept in the freezer so that nothing grows while it waits to be dried again.",
    ),
    *_rows(
        (*_SEALED, Condition.OPENED),
        Event.OPEN,
        Condition.OPENED,
        "Opened: the barrier is gone and the time of an opened package counts from its opening.",
    ),
    *_rows(
        (*_SEALED, Condition.OPENED),
        Event.USE_UP,
        Condition.USED,
        "Everything in it was taken out to be eaten.",
    ),
    *_rows(
        (Condition.HELD,),
        Event.REDRIED,
        Condition.USED,
        "Its food was dried again and comes back as a new package of the lot.",
    ),
    *_rows(
        (*_SEALED, Condition.SUSPECT, Condition.OPENED),
        Event.REPACKED,
        Condition.USED,
        "Its food still snaps and comes back in a new package of the lot.",
    ),
    *_rows(
        LIVE,
        Event.DISCARD,
        Condition.DISCARDED,
        "Thrown away, with the reason kept.",
    ),
)

_TABLE = {(row.from_, row.event): row for row in TRANSITIONS}

_ASKED = {
    Event.CRISP: "recorded as crisp",
    Event.SOFT: "recorded as soft",
    Event.LEAK: "recorded as leaking",
    Event.DAMAGED: "recorded as damaged",
    Event.SISTER_SOFT: "made doubtful by a sister package",
    Event.RECALL: "called back",
    Event.USE_NOW: "given free for use now",
    Event.HOLD: "held for drying again",
    Event.OPEN: "opened for use",
    Event.USE_UP: "used up",
    Event.DISCARD: "discarded",
    Event.REDRIED: "recorded as dried again",
    Event.REPACKED: "packed anew",
}

_IN_THE_WAY = {
    Condition.SETTLING: (
        "it is settling and nothing was found wrong with it",
        "Check it first: crisp, soft, leak or damaged.",
    ),
    Condition.SOUND: (
        "it is sound and nothing was found wrong with it",
        "Check it first: crisp, soft, leak or damaged.",
    ),
    Condition.SUSPECT: (
        "it is suspect: it, its seal or a sister package was found at fault",
        "Check it again, or decide what becomes of it.",
    ),
    Condition.HELD: (
        "it is held in the freezer waiting to be dried again",
        "Dry it again and pack it anew, or discard it.",
    ),
    Condition.OPENED: (
        "it is opened already",
        "Use it, check it as crisp, soft, leak or damaged, or discard it.",
    ),
    Condition.USED: (
        "it is used up, and that is final",
        "If that was recorded by mistake, undo it.",
    ),
    Condition.DISCARDED: (
        "it was discarded, and that is final",
        "If that was recorded by mistake, undo it.",
    ),
}


class NotAllowed(Refused):
    """The condition of a package does not allow what was asked."""

    def __init__(self, condition: Condition, event: Event) -> None:
        """`condition` is where the package stands, `event` what was asked for."""
        reason, hint = _IN_THE_WAY[condition]
        super().__init__(f"This package cannot be {_ASKED[event]}: {reason}.", hint)
        self.condition = condition
        self.event = event


def transition(condition: Condition, event: Event) -> Transition:
    """The row of the table for an event, with its reason; refuses with NotAllowed."""
    row = _TABLE.get((condition, event))
    if row is None:
        raise NotAllowed(condition, event)
    return row


def next_condition(condition: Condition, event: Event, *, was_opened: bool = False) -> Condition:
    """The condition after an event; refuses with NotAllowed when the table has no such row.

    A suspect package found crisp goes back to opened, not sound, when it had been opened before.
    """
    after = transition(condition, event).to
    return Condition.OPENED if was_opened and after is Condition.SOUND else after


def events_for(condition: Condition) -> tuple[Event, ...]:
    """What may happen to a package in this condition, in the order of Event."""
    return tuple(event for event in Event if (condition, event) in _TABLE)
