"""Why a suspect package is doubtful: by its own fault, by a sister's, or called back.

One found at fault itself is decided on; any other is looked at first. The rule is that of the
guided decision: a fault stands until the package is found crisp again.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from stockroom.domain.conditions import Event
from stockroom.domain.faults import Finding, standing_faults


class Doubt(StrEnum):
    """What makes a package doubtful."""

    SOFT = "soft"
    LEAK = "leak"
    DAMAGED = "damaged"
    REPACK = "repack"
    """Found at fault and decided: its food goes into a new package."""
    SISTER = "sister_soft"
    RECALL = "recall"
    UNSAID = "unsaid"
    """The record does not say."""

    @property
    def own_fault(self) -> bool:
        """Whether it was itself found at fault, so that it is decided on and not just looked at."""
        return self in _OWN


_OWN = (Doubt.SOFT, Doubt.LEAK, Doubt.DAMAGED, Doubt.REPACK)
_FINDINGS = frozenset((Event.CRISP, Event.SOFT, Event.LEAK, Event.DAMAGED))
_BY_OTHERS = frozenset((Event.SISTER_SOFT, Event.RECALL))


def doubt_of(happened: Iterable[Finding], decided: Finding | None = None) -> Doubt:
    """The doubt that stands after what happened to a suspect package, in order: day and event.

    `decided` is the last decision on it, day and outcome: one to repack counts from the day of
    the fault on. Softness outweighs any other fault. Events that say nothing of doubt are passed
    over.
    """
    events = list(happened)
    faults = standing_faults([one for one in events if one[1] in _FINDINGS])
    if not faults:
        others = [event for _, event in events if event in _BY_OTHERS or event == Event.CRISP]
        return Doubt(others[-1]) if others and others[-1] in _BY_OTHERS else Doubt.UNSAID
    if decided is not None and decided[1] == Doubt.REPACK and decided[0] >= faults[0][0]:
        return Doubt.REPACK
    found = [finding for _, finding in faults]
    return Doubt.SOFT if Event.SOFT in found else Doubt(found[0])
