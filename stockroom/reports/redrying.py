"""The queue for the machine: what waits, is on it or came off it, and what to do next."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.evidence_records import QueueEntry
from stockroom.reports.values import (
    COUNT,
    DAY,
    WEIGHT,
    Column,
    Json,
    Report,
    Row,
    Table,
    listing,
)

_QUEUE = (
    Column("turn", COUNT, "turn"),
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("dry", WEIGHT, "dry"),
    Column("since", DAY, "since", drop=2),
    Column("", title="stands", least=12),
    Column("", title="to do"),
    Column("reason", title="because", least=10, drop=1),
    Column("state"),
    Column("next"),
    Column("lot"),
    Column("run", COUNT),
    Column("tray", COUNT),
    Column("dried", WEIGHT),
    Column("place"),
)


_TO_DO = {"waiting": "run again", "loaded": "run dry", "dried": "repack"}
_HOW = (
    "First come first served: stockroom run again TRAY CODE, stockroom run dry TRAY WEIGHT,"
    " stockroom repack CODE."
)


def queue_table(entries: Sequence[QueueEntry], *, title: str = "", empty: str = "") -> Table:
    """The queue, first come first served, with what to do next."""
    rows = tuple(_row(turn, one) for turn, one in enumerate(entries, start=1))
    return Table("queue", _QUEUE, rows, title, _HOW, empty)


def queue_list(entries: Sequence[QueueEntry]) -> Report:
    """The queue on its own."""
    return listing(queue_table(entries, empty="Nothing waits for the machine."))


def _row(turn: int, one: QueueEntry) -> Row:
    return (
        turn, one.code, one.food, one.dry_dg, one.since, _stands(one), _TO_DO[one.state],
        one.reason, one.state, next_for(one), one.lot_code, one.run_id, one.tray_position,
        one.dried_dg, one.place,
    )  # fmt: skip


def _stands(one: QueueEntry) -> str:
    """Where the food is."""
    if one.state == "loaded":
        return f"tray {one.tray_position} of run {one.run_id}"
    return one.place or ("not packed" if one.package_id is None else "in no place")


def next_for(one: QueueEntry) -> str:
    """The command that comes next for it."""
    if one.state == "waiting":
        return f"stockroom run again TRAY {one.code}"
    if one.state == "loaded":
        return f"stockroom run dry {one.tray_position} WEIGHT"
    return f"stockroom repack {one.code} --into ..."


def queued_words(one: QueueEntry) -> str:
    """Its place in the queue in a few words."""
    state = {
        "waiting": "waits for the machine",
        "loaded": f"on tray {one.tray_position} of run {one.run_id}",
        "dried": "dried again, to be packed anew",
    }[one.state]
    because = f": {one.reason}" if one.reason else ""
    return f"{state}, since {one.since.isoformat()}{because}"


def queued_data(one: QueueEntry | None) -> Json:
    """Its place in the queue for JSON; null when it has none."""
    if one is None:
        return None
    return {
        "state": one.state,
        "since": one.since.isoformat(),
        "dry_dg": one.dry_dg,
        "reason": one.reason,
        "run": one.run_id,
        "tray": one.tray_position,
        "dried_dg": one.dried_dg,
        "next": next_for(one),
    }
