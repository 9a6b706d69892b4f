"""What was weighed and tested on each tray, and what of it still counts.

A few more hours of drying leave all earlier evidence behind. One thing is kept of it: the last
weighing before them, as the start for the first one after, because constant weight is just that,
two weighings with drying in between. By itself it shows nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.dryness import SCALE_DG
from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying, Weighing
from stockroom.domain.plateau import HoursDoNotFit, Plateau, plateau
from stockroom.domain.working import Source, Standing

SLOWEST_RULE = Source(
    "slowest-tray",
    "The slowest tray is the one with the largest last loss for its last weight; where none lost"
    " anything, or none was weighed twice, the one with the most of its loaded weight left",
    Standing.ENGINEERING_JUDGEMENT,
)


@dataclass(frozen=True, slots=True)
class Reading:
    """One dry weighing, net. `order` rises with each entry in the record."""

    order: int
    weight_dg: int
    hours: Fraction | None = None
    """Hours of drying so far; None where nobody wrote them down."""


@dataclass(frozen=True, slots=True)
class TrayTest:
    """One cold-touch or break test. `order` rises with each entry in the record."""

    order: int
    passed: bool


@dataclass(frozen=True, slots=True)
class TrayEvidence:
    """Everything weighed and tested on one tray, in the order taken."""

    position: int
    readings: tuple[Reading, ...] = ()
    cold: tuple[TrayTest, ...] = ()
    broken: tuple[TrayTest, ...] = ()
    wet_dg: int | None = None
    """Net weight as loaded."""
    resolution_dg: int = SCALE_DG
    """One digit of the scale."""


@dataclass(frozen=True, slots=True)
class Fence:
    """The last extra drying: entries up to these are left behind."""

    last_reading: int
    last_test: int
    hours: Fraction | None = None
    """How many hours it was."""


@dataclass(frozen=True, slots=True)
class TrayFinding:
    """What counts of one tray's evidence, and what it says."""

    position: int
    constant: bool
    reason: str
    """Why its weight is constant or not shown to be."""
    plateau: Plateau | None
    """None where fewer than two weighings count, or their hours do not fit."""
    coarse: str
    """That the scale is too coarse to tell on this tray; empty where it is not."""
    cold: bool | None
    """Whether the last cold-touch test found no cold spot; None: none counts."""
    broken: bool | None
    """Whether the last break test passed; None: none counts."""
    slowest: bool


def tray_evidence(
    position: int,
    weighings: Sequence[Weighing],
    checks: Sequence[DrynessCheck],
    *,
    wet_dg: int | None = None,
    resolution_dg: int = SCALE_DG,
) -> TrayEvidence:
    """The evidence of one tray out of its records; weighings as loaded are left out."""
    return TrayEvidence(
        position,
        tuple(
            Reading(one.weighing_id, one.net_dg, _hours_of(one.hours_tenths))
            for one in weighings
            if one.stage == "dry"
        ),
        tuple(TrayTest(one.check_id, one.passed) for one in checks if one.kind == "cold"),
        tuple(TrayTest(one.check_id, one.passed) for one in checks if one.kind == "break"),
        wet_dg,
        resolution_dg,
    )


def fence_of(extra: ExtraDrying | None) -> Fence | None:
    """The fence that the last extra drying is; None where there was none."""
    if extra is None:
        return None
    return Fence(extra.last_weighing_id, extra.last_check_id, _hours_of(extra.hours_tenths))


def slowest_tray(trays: Sequence[TrayEvidence], fence: Fence | None = None) -> int | None:
    """The position of the slowest tray by SLOWEST_RULE; None where no weighing counts.

    A tray weighed once has no loss, so it is looked at only where none was weighed twice. Equal
    trays: the heavier, then the one nearer the top.
    """
    counted = [(tray, counted_readings(tray, fence)) for tray in trays]
    twice = [pair for pair in counted if len(pair[1]) > 1]
    weighed = twice or [pair for pair in counted if pair[1]]
    return max(weighed, key=_slowness)[0].position if weighed else None


def findings(
    trays: Sequence[TrayEvidence], fence: Fence | None, slowest: int | None
) -> tuple[TrayFinding, ...]:
    """What counts of each tray's evidence, in the order of the trays."""
    return tuple(_finding(tray, fence, slowest) for tray in trays)


def _hours_of(tenths: int | None) -> Fraction | None:
    """Hours from tenths of an hour."""
    return None if tenths is None else Fraction(tenths, 10)


def counted_readings(tray: TrayEvidence, fence: Fence | None) -> tuple[Reading, ...]:
    """The readings that count: those since the fence, a single one with the last before it."""
    if fence is None:
        return tray.readings
    since = tuple(one for one in tray.readings if one.order > fence.last_reading)
    before = tuple(one for one in tray.readings if one.order <= fence.last_reading)
    return (*before[-1:], *since) if len(since) == 1 else since


def _slowness(
    pair: tuple[TrayEvidence, tuple[Reading, ...]],
) -> tuple[Fraction, Fraction, int, int]:
    """The larger, the slower."""
    tray, readings = pair
    last_dg = readings[-1].weight_dg
    loss_dg = readings[-2].weight_dg - last_dg if len(readings) > 1 else 0
    left = Fraction(last_dg, tray.wet_dg) if tray.wet_dg else Fraction(0)
    return Fraction(max(0, loss_dg), last_dg), left, last_dg, -tray.position


def _finding(tray: TrayEvidence, fence: Fence | None, slowest: int | None) -> TrayFinding:
    """What one tray's evidence says."""
    readings = counted_readings(tray, fence)
    found, reason = _constant_weight(tray, readings, fence)
    last_test = 0 if fence is None else fence.last_test
    return TrayFinding(
        position=tray.position,
        constant=found is not None and found.reached,
        reason=reason,
        plateau=found,
        coarse=found.coarse_words if found is not None else "",
        cold=_last(tray.cold, last_test),
        broken=_last(tray.broken, last_test),
        slowest=tray.position == slowest,
    )


def _constant_weight(
    tray: TrayEvidence, readings: Sequence[Reading], fence: Fence | None
) -> tuple[Plateau | None, str]:
    """The verdict on constant weight, if there can be one, and why."""
    if len(readings) < 2:
        since = "" if fence is None else " since the extra hours"
        often = "Weighed dry only once" if readings else "Not weighed dry"
        return None, f"{often}{since}: constant weight needs two weighings with drying in between."
    try:
        found = plateau(
            [one.weight_dg for one in readings],
            hours=counted_hours(readings, fence),
            resolution_dg=tray.resolution_dg,
        )
    except HoursDoNotFit as trouble:
        return None, trouble.message
    return found, found.reason


def counted_hours(readings: Sequence[Reading], fence: Fence | None) -> list[Fraction | None]:
    """Hours of drying at each reading; across the fence, those of the extra drying."""
    if fence is not None and fence.hours is not None and readings[0].order <= fence.last_reading:
        return [Fraction(0), fence.hours]
    return [one.hours for one in readings]


def _last(tests: Sequence[TrayTest], after: int) -> bool | None:
    """What the last test after an entry found; None where there is none."""
    counted = [one.passed for one in tests if one.order > after]
    return counted[-1] if counted else None
