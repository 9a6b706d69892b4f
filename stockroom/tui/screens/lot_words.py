"""One lot in words, and its forms: a loss, and drying what is left again."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.packing import servings_in
from stockroom.domain.quantities import UnitSystem, read_weight, show_servings, show_weight
from stockroom.domain.records import Lot, LotLoss, Package
from stockroom.services import packing, redrying
from stockroom.services.packing import LossReason
from stockroom.services.results import Done, LotDetail
from stockroom.services.session import Stockroom
from stockroom.tui.screens.dryness_words import record_text
from stockroom.tui.screens.loss_words import LOSS_WORDS
from stockroom.tui.screens.run_forms import unit_word
from stockroom.tui.screens.run_sums import again_text, tray_text, water_text
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.words import NO_PLACE


def again_form(room: Stockroom, lot: Lot) -> FormScreen[Done]:
    """Asks why what is left of a lot is to be dried again, and puts it in the queue."""
    left = show_weight(lot.left_dg, room.units)
    return FormScreen(
        f"Dry lot {lot.code} again",
        (Field("why", "Why", hint="Such as: a piece bends. May stay empty."),),
        lambda answers: redrying.hold_lot(room, lot.code, why=answers.text("why")),
        about=(
            f"{left} of {lot.food} waits for the machine, behind what waits already.",
            "It is not packed meanwhile. Keep it in a freezer, closed.",
        ),
    )


def loss_form(room: Stockroom, lot: Lot) -> FormScreen[Done]:
    """Asks how much went into no package, and why; records it."""
    units = room.units
    reasons = [Choice(str(reason), str(reason), LOSS_WORDS[reason]) for reason in LossReason]

    def search(letters: str) -> list[Choice]:
        return [one for one in reasons if one.label.startswith(letters.strip().casefold())]

    def record(answers: Answers) -> Done:
        typed = answers.text("weight").strip()
        return packing.record_loss(
            room,
            lot.code,
            read_weight(typed, units) if typed else None,
            LossReason(str(answers.key("reason") or LossReason.UNACCOUNTED)),
            note=answers.text("note"),
        )

    left = show_weight(lot.left_dg, units)
    return FormScreen(
        f"Record a loss of lot {lot.code}",
        (
            Field("weight", "Dry weight", unit=unit_word(units), hint=f"Empty: all {left} left."),
            Picker("reason", "Reason", search, reasons[0]),
            Field("note", "Note", hint="May stay empty."),
        ),
        record,
        about=(f"{lot.food}: {left} of dry food neither packed nor recorded as lost.",),
    )


def sum_lines(lot: Lot, units: UnitSystem) -> list[str]:
    """Where the lot's food and water went: the parts add up to the dry weight."""
    percent = 100 * lot.water_removed_dg / lot.wet_dg
    loaded, dry = show_weight(lot.wet_dg, units), show_weight(lot.dry_dg, units)
    packages = "1 package" if lot.packages == 1 else f"{lot.packages} packages"
    return [
        f"Loaded {loaded}, dry {dry}, {water_text(lot.wet_dg, lot.dry_dg, units)}"
        f" ({percent:.1f} % of the loaded weight).",
        f"Dry {dry} = packed {show_weight(lot.packed_dg, units)} in {packages}"
        f" + lost {show_weight(lot.lost_dg, units)} + left {show_weight(lot.left_dg, units)}.",
    ]


def package_row(package: Package, units: UnitSystem) -> Row:
    """A package of the lot on one line, as it was packed."""
    tone: Tone = "due" if package.condition in ("settling", "suspect", "held") else ""
    quiet: Tone = "quiet" if package.condition in ("used", "discarded") else tone
    servings = servings_in(package.dry_dg, package.water_dg, package.serving_dg)
    cells = (
        package.code,
        show_weight(package.dry_dg, units),
        show_weight(package.water_dg, units),
        show_servings(servings),
        package.condition,
        package.place or NO_PLACE,
        package.container,
    )
    return Row(package.package_id, cells, quiet)


def loss_text(loss: LotLoss, units: UnitSystem) -> str:
    """A loss in one line."""
    note = f", {loss.note}" if loss.note else ""
    weight = show_weight(loss.dry_dg, units)
    return f"{loss.on_day.isoformat()}: {weight} dry {loss.reason}{note}."


def heading_text(lot: Lot) -> str:
    """The lot in one line."""
    made = lot.made_on.isoformat()
    return f"Lot {lot.code} · {lot.food} · {lot.preparation} · made {made} · run {lot.run_id}"


def queue_text(entry: QueueEntry, queue: Sequence[QueueEntry]) -> str:
    """Where food of a lot stands in the queue for the machine."""
    why = f" ({entry.reason})" if entry.reason else ""
    since = f"since {entry.since.isoformat()}{why}"
    if entry.state != "waiting":
        where = f"on tray {entry.tray_position} of run {entry.run_id}"
        return f"To be dried again {since}: {where}."
    waiting = [one.entry_id for one in queue if one.state == "waiting"]
    turn = sum(one < entry.entry_id for one in waiting) + 1
    return f"Waits for the machine {since}: number {turn} of {max(turn, len(waiting))}."


def tray_lines(detail: LotDetail, evidence: Evidence, units: UnitSystem) -> list[str]:
    """The trays the lot came from, each with what is shown of its dryness.

    Of a lot dried again that is shown of the last tray it was on, which stands after the others.
    """
    records = {record.tray.tray_id: record for record in evidence.trays}
    lines: list[str] = []
    for tray in detail.trays:
        record = records.pop(tray.tray_id, None)
        shown = "" if record is None else f" {record_text(record)}"
        lines.append(f"{tray_text(tray, units)}{shown}")
    for record in records.values():
        lines.append(f"{again_text(record.tray, units)} {record_text(record)}")
    return lines
