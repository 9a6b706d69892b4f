"""What happens to a package after sealing, as the keeping models read it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from stockroom.domain.conditions import Event
from stockroom.domain.keeping.interface import KeepingCase
from stockroom.domain.keeping.refusals import BeforeSealing


@dataclass(frozen=True, slots=True)
class Breaks:
    """When the package stopped being tight, before and after it was last dried again."""

    before_redrying: date | None
    after_redrying: date | None


def breaks(case: KeepingCase) -> Breaks:
    """The first day open or leaking, on each side of the last redrying (its day is before)."""
    days = sorted(day for day in (case.opened_on, case.seal_lost_on) if day is not None)
    if case.redried_on is None:
        return Breaks(None, days[0] if days else None)
    before = [day for day in days if day <= case.redried_on]
    after = [day for day in days if day > case.redried_on]
    return Breaks(before[0] if before else None, after[0] if after else None)


def refuse_before_sealing(case: KeepingCase) -> None:
    """Raise BeforeSealing for an event that lies before the sealing."""
    for what, on_day in (
        ("opened", case.opened_on),
        ("leaking", case.seal_lost_on),
        ("dried again", case.redried_on),
    ):
        if on_day is not None and on_day < case.sealed_on:
            raise BeforeSealing(what, on_day, case.sealed_on)


def leak_day(last_good_on: date, found_on: date) -> date:
    """The day a package found soft counts as open from: midway since it was last found tight.

    Half days are rounded toward the earlier day (engineering judgement).
    """
    return last_good_on + timedelta(days=max(0, (found_on - last_good_on).days) // 2)


def seal_lost_on(sealed_on: date, findings: Sequence[tuple[date, str]]) -> date | None:
    """The day from which a package counts as leaking, or None while it is tight.

    `findings` are days with crisp, soft, leak or damaged, in order. Each fault is dated by
    `leak_day` from the last good look, the sealing at first. A crisp check clears softness and
    damage, for the package was looked at itself; a leak stays a leak (engineering judgement).
    """
    last_good = sealed_on
    doubt: date | None = None
    leak: date | None = None
    for day, finding in findings:
        if finding == Event.CRISP:
            last_good, doubt = day, None
        elif finding == Event.LEAK:
            leak = leak or doubt or leak_day(last_good, day)
        else:
            doubt = doubt or leak_day(last_good, day)
    return leak or doubt
