"""What shows that food is dry, in the words of the Bench: cells, sentences, the gate, the hours."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from stockroom.domain.batch_evidence import Batch, Evidence, TrayRecord
from stockroom.domain.dryness import NO_PROOF, SCALE_DG, ResidualMoisture
from stockroom.domain.evidence_records import ExtraDrying
from stockroom.domain.gate import Gate, Missing, Need
from stockroom.domain.plateau import RATE, Plateau
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.services.dryness import DrynessTest, words_of_test
from stockroom.tui.widgets.window_rows import Tone

NOT_DONE = "–"
AGAIN = "again"
"""Stands where a test was made before the extra hours, and has to be made once more."""
TO_WEIGH = "to weigh"
HOW_TO_SHOW = (
    "When it is dry: weigh every tray, dry for an hour more and weigh again; feel every tray for"
    " cold spots, and break the thickest piece of the slowest."
)
NO_ESTIMATE = "No estimate of the moisture left: the food's water or a weight is not on record."
DRY_AGAIN = "Its run is closed: dry it again, or pack it without absorber and vacuum."
NOTHING_KNOWN = "No estimate of the moisture left: of food dried again nothing is known."


COLOURS: dict[Tone, str] = {
    "good": "$success",
    "due": "$warning",
    "bad": "$error",
    "": "$foreground-muted",
}
"""The colour of a verdict, by its tone."""


# Cells of a tray


def weight_word(record: TrayRecord) -> str:
    """What the weighings of a tray say, in a word or two."""
    found = record.finding.plateau
    if not record.dry:
        return TO_WEIGH
    if not record.dry_since:
        return "weigh again"
    if found is None:
        return "one weight" if len(record.dry) == 1 else "see hours"
    if found.reached:
        return "no loss seen" if record.finding.coarse else "plateau"
    return _why_not(found)


def _why_not(found: Plateau) -> str:
    """What stands against constant weight: a gain, a loss, or too little time."""
    first_dg = found.final_dg + sum(found.losses_dg)
    if any(-loss > SCALE_DG for loss in found.losses_dg):
        return "gained"
    if found.losses_dg[-1] > max(SCALE_DG, RATE * first_dg):
        return "still losing"
    return "too soon"


def lost_cell(record: TrayRecord, units: UnitSystem) -> str:
    """What the tray lost since the weighing before."""
    return NOT_DONE if record.lost_dg is None else show_weight(record.lost_dg, units)


def cell_of_test(record: TrayRecord, kind: DrynessTest) -> str:
    """What the last test of a kind found, in one short word."""
    found = _result(record, kind)
    if found is None:
        return AGAIN if record.left_behind(kind) else NOT_DONE
    if kind is DrynessTest.COLD:
        return "none" if found else "found"
    return "snaps" if found else "fails"


def tone_of_tray(record: TrayRecord) -> Tone:
    """What the tray asks of the person looking at it."""
    finding = record.finding
    if finding.cold is False or finding.broken is False:
        return "bad"
    broken = finding.broken or not finding.slowest
    return "good" if finding.constant and broken else "due"


# Sentences on a tray


def dryness_text(record: TrayRecord) -> str:
    """What is shown of a tray's dryness: its weight in a sentence, then its tests."""
    found = [text for kind in DrynessTest if (text := _found_text(record, kind))]
    tested = ", ".join(found)
    behind = [
        f"Its {kind.words} is from before the extra hours and counts no more."
        for kind in DrynessTest
        if _result(record, kind) is None and record.left_behind(kind)
    ]
    parts = (weight_text(record), f"{tested[:1].upper()}{tested[1:]}." if tested else "", *behind)
    return " ".join(part for part in parts if part)


def weight_text(record: TrayRecord) -> str:
    """What the weighings of a tray say, in full; a scale too coarse to tell says so."""
    finding = record.finding
    if not finding.coarse:
        return finding.reason if record.dry else ""
    # The verdict of a coarse scale begins with what the reason says at greater length.
    return finding.coarse


def _result(record: TrayRecord, kind: DrynessTest) -> bool | None:
    """Whether the last test of a kind that counts was passed; None where there is none."""
    return record.finding.cold if kind is DrynessTest.COLD else record.finding.broken


def _found_text(record: TrayRecord, kind: DrynessTest) -> str:
    """What the last test of a kind found; "" where none counts."""
    found = _result(record, kind)
    return "" if found is None else words_of_test(kind, found)


def record_text(record: TrayRecord) -> str:
    """What is shown of a tray's dryness, for the page of its lot."""
    slowest = "The slowest tray. " if record.finding.slowest else ""
    return f"{slowest}{dryness_text(record) or 'Not weighed dry.'}"


# The gate


def gate_text(gate: Gate, *, open_run: bool) -> str:
    """The verdict of a gate, and what to do next while it is closed.

    Trays of a run that is not open any more can be tested, but neither weighed nor dried on.
    """
    if gate.open or not gate.missing:
        return gate.words
    first = gate.missing[0]
    if not open_run:
        to_test = (one for one in gate.missing if one.need in (Need.BREAK, Need.COLD))
        untested = [one for one in to_test if not _failed(gate, one)]
        if first.need in (Need.PLATEAU, Need.MOISTURE) or not untested:
            return f"{gate.words} {DRY_AGAIN}"
        first = untested[0]
    return f"{gate.words} Next: {first.next_step}"


def _failed(gate: Gate, missing: Missing) -> bool:
    """Whether a test was made and found the food not dry."""
    found = [one.cold if missing.need is Need.COLD else one.broken for one in gate.trays]
    return False in found


def slowest_text(gate: Gate) -> str:
    """Which tray is to be broken, where the verdict does not name it; "" where it does."""
    if gate.slowest is None or len(gate.trays) < 2 or f"tray {gate.slowest}" in gate.words:
        return ""
    return f"The slowest is tray {gate.slowest}: its thickest piece has to snap."


def gate_lines(evidence: Evidence) -> list[tuple[Tone, str]]:
    """The gate of each batch of a run, with its tone; named where there are several."""
    several = len(evidence.batches) > 1
    if not any(record.dry for record in evidence.trays):
        return [("", HOW_TO_SHOW)] if evidence.run.state == "open" else []
    return [
        (
            "good" if batch.gate.open else "due",
            f"{_name(batch) if several else ''}{_full(batch, evidence)}",
        )
        for batch in evidence.batches
    ]


def closing_text(evidence: Evidence) -> str:
    """What to know before a run is closed whose food is not shown to be dry; "" where it is."""
    lacking = [batch for batch in evidence.batches if not batch.gate.open]
    if not lacking:
        return ""
    names = ", ".join(", ".join(batch.trays[0].tray.again) or batch.food for batch in lacking)
    return (
        f"Not shown to be dry: {names}. Once the run is closed its trays can be tested,"
        " but neither weighed nor dried on."
    )


def _name(batch: Batch) -> str:
    """Which batch it is: its food, or what is dried again."""
    first = batch.trays[0].tray
    if first.again:
        return f"{', '.join(first.again)} on tray {first.position}: "
    return f"{batch.food}: "


def _full(batch: Batch, evidence: Evidence) -> str:
    """The verdict, the next step unless it is to wait for the hours, and the slowest tray."""
    if not any(record.dry for record in batch.trays):
        return "Not weighed dry yet."
    said = gate_text(batch.gate, open_run=evidence.run.state == "open")
    if evidence.waited_for is not None:
        said = batch.gate.words
    return " ".join(part for part in (said, slowest_text(batch.gate)) if part)


def residual_text(gate: Gate, *, again: bool) -> str:
    """The moisture left with its uncertainty, and that composition cannot show dryness."""
    found = gate.residual
    if found is None:
        return NOTHING_KNOWN if again else NO_ESTIMATE
    return f"Moisture left, estimated: {moisture_words(found)} {NO_PROOF}"


def moisture_words(found: ResidualMoisture) -> str:
    """An estimate, the range it may lie in and what that means."""
    low, middle, high = (100 * share for share in (found.low, found.residual, found.high))
    return f"{middle:.1f} %, between {low:.1f} and {high:.1f} %. {found.sentence}"


# A few more hours


def clock_words(moment: datetime, today: date) -> str:
    """The hour on the clock on the wall; with its weekday where it is not today."""
    local = moment.astimezone()
    return f"{local:%H:%M}" if local.date() == today else f"{local:%a %H:%M}"


def hours_words(tenths: int) -> str:
    """So many hours: "2 h", "2.5 h"."""
    return f"{tenths / 10:g} h"


def begun_at(extra: ExtraDrying) -> datetime:
    """When the extra hours began."""
    return extra.due_at - timedelta(minutes=6 * extra.hours_tenths)


def weigh_words(extra: ExtraDrying, now: datetime, today: date) -> str:
    """When to weigh again, for a cell: "weigh 14:30", or "weigh now"."""
    return "weigh now" if extra.due_at <= now else f"weigh {clock_words(extra.due_at, today)}"


def extra_text(extra: ExtraDrying, now: datetime, today: date) -> str:
    """The reminder of a few more hours, and what they did to the evidence before."""
    hours, since = hours_words(extra.hours_tenths), clock_words(begun_at(extra), today)
    when = clock_words(extra.due_at, today)
    due = (
        f"weigh and test again now, it was for {when}"
        if extra.due_at <= now
        else f"weigh and test again at {when}"
    )
    note = f" ({extra.note})" if extra.note else ""
    return f"{hours} more since {since}{note}: {due}. What was shown before counts no more."
