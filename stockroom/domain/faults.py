"""Which fault of a package stands: found at a look and not cleared by a crisp one since."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from stockroom.domain.conditions import Event

Finding = tuple[date, str]
"""The day of a look and what it found: crisp, soft, leak or damaged."""


def standing_faults(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The faults found since the last crisp look, in order; `findings` are in order too."""
    faults: list[Finding] = []
    for finding in findings:
        if finding[1] == Event.CRISP:
            faults.clear()
        else:
            faults.append(finding)
    return tuple(faults)


def soft_since(findings: Sequence[Finding]) -> date | None:
    """The day a package was found soft, if that stands."""
    return next((day for day, found in standing_faults(findings) if found == Event.SOFT), None)
