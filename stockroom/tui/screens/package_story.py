"""What the page of a package says of its looks, its doubts, the queue and where its food was."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stockroom.domain.doubts import Doubt, doubt_of
from stockroom.domain.evidence_records import Inspection, QueueEntry
from stockroom.domain.gate import override_words
from stockroom.domain.records import Package, StoredRecheck
from stockroom.domain.soft_decision import Outcome, Row
from stockroom.services.rechecks import recheck_reasons
from stockroom.services.redrying import machine_queue
from stockroom.services.results import PackageDetail
from stockroom.services.session import Stockroom
from stockroom.tui.screens.round_rows import RISK_STEP

_DOUBTS = {
    Doubt.SOFT: "found soft: v decides what becomes of it",
    Doubt.LEAK: "found leaking: v decides what becomes of it",
    Doubt.DAMAGED: "found damaged: v decides what becomes of it",
    Doubt.REPACK: "to be packed anew: p does it",
    Doubt.SISTER: "a sister went soft: look at this one",
    Doubt.RECALL: "called back: look at this one",
    Doubt.UNSAID: "",
}
_STATES = {
    "waiting": "a loads it on a tray",
    "loaded": "on tray {position} of run {run}",
    "dried": "off tray {position} of run {run}: p packs it anew",
}


@dataclass(frozen=True, slots=True)
class Story:
    """What the page shows beside the record of the package itself."""

    doubt: Doubt | None = None
    """Why it is doubtful; None where it is not."""
    turn: int = 0
    """Its place in the queue for the machine, from 1 on; 0 where it is in none."""
    reasons: tuple[str, ...] = ()
    """Why it is looked at again when it is."""


def read_story(room: Stockroom, detail: PackageDetail) -> Story:
    """Read what goes beside a package."""
    package = detail.package
    turn = 0
    if detail.queued is not None:
        ids = [entry.entry_id for entry in machine_queue(room)]
        turn = ids.index(detail.queued.entry_id) + 1
    reasons = recheck_reasons(room, package.code) if detail.recheck is not None else ()
    return Story(doubt_in(detail), turn, reasons)


def doubt_in(detail: PackageDetail) -> Doubt | None:
    """Why a package is doubtful, by its history; None for one that is not suspect."""
    if detail.package.condition != "suspect":
        return None
    last = detail.inspections[-1] if detail.inspections else None
    decided = None if last is None else (last.on_day, last.outcome)
    return doubt_of([(line.on_day, line.event) for line in detail.history], decided)


def doubt_words(story: Story) -> str:
    """Why it is doubtful and what comes next; "" where it is not."""
    return "" if story.doubt is None else _DOUBTS[story.doubt]


def look_words(recheck: StoredRecheck | None, story: Story, today: date) -> str:
    """When it is looked at again, and why then."""
    if recheck is None:
        return ""
    when = f"on {recheck.wanted_on}" if recheck.wanted_on > today else "now"
    risk = f"risk {recheck.risk // RISK_STEP} of 10"
    why = "; ".join(story.reasons)
    return f"{when}, at the latest {recheck.latest_on} ({risk}): {why}. W shows how"


def queue_words(entry: QueueEntry | None, story: Story) -> str:
    """Its place in the queue for the machine, and how far it has come."""
    if entry is None:
        return ""
    state = _STATES[entry.state].format(position=entry.tray_position, run=entry.run_id)
    why = f" ({entry.reason})" if entry.reason else ""
    return f"number {story.turn} for the machine, since {entry.since}{why}; {state}"


def origin_words(package: Package, sources: Sequence[str]) -> str:
    """Where its food was before."""
    if package.origin == "packed":
        return ""
    how = "dried again" if package.origin == "redried" else "packed anew as it was"
    parts = [f"{how}, out of {', '.join(sources)}" if sources else how]
    if package.first_sealed_on is not None:
        parts.append(f"first sealed {package.first_sealed_on}")
    if package.exposed_on is not None:
        parts.append(f"room air was in from {package.exposed_on}")
    if package.life_before_millionths is not None:
        parts.append(f"{package.life_before_millionths / 10_000:.0f} % of its life was spent")
    return "; ".join(parts)


def decision_words(inspections: Sequence[Inspection]) -> str:
    """What was decided of it, the latest first."""
    return "; ".join(_decision(one) for one in reversed(inspections))


def _decision(one: Inspection) -> str:
    """One decision: the day, what, by which row of the table, and until when."""
    what = Outcome(one.outcome).words.rstrip(".")
    until = f", by {one.use_by}" if one.use_by is not None else ""
    note = f" ({one.note})" if one.note else ""
    return f"{one.on_day}: {what[:1].lower()}{what[1:]}{until}: {Row(one.rule).words}{note}"


def dryness_words(package: Package) -> str:
    """That it was packed although dryness was not shown, and why."""
    return override_words(package.gate_reason) if package.gate_reason else ""


def closing_words(package: Package) -> str:
    """Out of which packet, box and tray, as far as that was noted."""
    parts = [
        f"absorber of packet {package.absorber_packet}" if package.absorber_packet else "",
        f"container of box {package.container_box}" if package.container_box else "",
        "" if package.tray_position is None else f"food of tray {package.tray_position}",
    ]
    return ", ".join(part for part in parts if part)
