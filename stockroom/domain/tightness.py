"""Was this package never tight, or did it lose its tightness since it was sealed?

A package that was crisp at its settle check or later was tight until then and lost it since. One
that leaks at a first look within a day of sealing never was. A first look later than that cannot
tell, and says so. Standing: engineering judgement throughout.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stockroom.domain.conditions import Event
from stockroom.domain.keeping.events import leak_day
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.working import Source, Standing

SEAL_RULE = Source(
    "never-tight",
    "Crisp at the settle check or later: it was tight until then. Leaking at a first look within a"
    " day of sealing: it never was",
    Standing.ENGINEERING_JUDGEMENT,
)


class Tightness(StrEnum):
    """Whether room air gets in."""

    HOLDS = "holds"
    NEVER_TIGHT = "never_tight"
    LOST = "lost"
    NOT_KNOWN = "not_known"

    @property
    def words(self) -> str:
        """As a person would say it."""
        return _WORDS[self]


_WORDS = {
    Tightness.HOLDS: "it is tight",
    Tightness.NEVER_TIGHT: "it was never tight",
    Tightness.LOST: "it lost its tightness since",
    Tightness.NOT_KNOWN: "not known whether it is tight",
}


@dataclass(frozen=True, slots=True)
class SealFinding:
    """What the history and the look of a package say about its tightness."""

    tightness: Tightness
    open_from: date | None
    """The day room air counts as let in; None while it counts as tight, or nobody looked."""
    reason: str


def judge_seal(
    sealed_on: date,
    checks: Sequence[tuple[date, str]],
    found_on: date,
    *,
    seal_whole: bool | None,
    vacuum_lost: bool | None,
) -> SealFinding:
    """Never tight, or lost since? Out of the checks before `found_on` and what is seen then.

    `checks` are days with crisp, soft, leak or damaged since this sealing, in order. `seal_whole`
    is how the seal looks, `vacuum_lost` whether a package once drawn tight is loose; None for not
    looked at, and for a package that never had a vacuum. One sign of a leak is enough, and a leak
    found before stays a leak.
    """
    leaks = [day for day, finding in checks if finding == Event.LEAK]
    if seal_whole is False or vacuum_lost:
        leaks.append(found_on)
    if leaks:
        return _leaking(sealed_on, checks, leaks[0])
    if seal_whole is None and vacuum_lost is None:
        return SealFinding(Tightness.NOT_KNOWN, None, "Nobody said how its seal looks.")
    return SealFinding(
        Tightness.HOLDS,
        None,
        "Its seal looks whole and no vacuum was lost: the moisture was in the food, or came"
        " through the package itself.",
    )


def _leaking(sealed_on: date, checks: Sequence[tuple[date, str]], leak_on: date) -> SealFinding:
    """Since when, for a package first seen leaking on `leak_on`."""
    settled = settle_check_due(sealed_on)
    crisp = [day for day, found in checks if found == Event.CRISP and settled <= day <= leak_on]
    if crisp:
        return SealFinding(
            Tightness.LOST,
            leak_day(crisp[-1], leak_on),
            f"Crisp on {crisp[-1].isoformat()} and leaking on {leak_on.isoformat()}: it lost its"
            " tightness between the two.",
        )
    if leak_on <= settled:
        return SealFinding(
            Tightness.NEVER_TIGHT,
            sealed_on,
            f"Leaking on {leak_on.isoformat()}, within a day of sealing: it was never tight.",
        )
    return SealFinding(
        Tightness.NOT_KNOWN,
        leak_day(sealed_on, leak_on),
        f"Leaking on {leak_on.isoformat()} and never found crisp before: it may never have been"
        " tight, or have lost it since.",
    )
