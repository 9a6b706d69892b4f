"""Findings, backups and restores on paper: every width, names that steer no terminal."""

from __future__ import annotations

import json
from datetime import date

import pytest

from stockroom.domain.findings import Examination, Finding, Mending, Severity
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.store_copies import BackupMade, Restored, RestorePreview, StoreFacts
from stockroom.reports.as_json import as_json
from stockroom.reports.as_text import as_text
from stockroom.reports.backups import backup_report, preview_report, restored_report
from stockroom.reports.doctor import NOTHING, examination_report, mending_report
from stockroom.reports.plain import cells
from stockroom.reports.values import Report

HARD = "\x1b[31m冷凍 peas\u202e, [/] a long name of a place that goes on and on"
GRAVE = Finding("26329A01E", Severity.FAULT, f"Wrong: {HARD}.", "Do this.")
LIGHT = Finding("rechecks", Severity.WARNING, "Missing for: 26329A02C.", "Mend.", mendable=True)
FOUND = Examination((GRAVE, LIGHT), ("Not looked at: dates.",))
NOW = StoreFacts(12, 8, 2, 40, f"moved {HARD}", date(2026, 11, 25), date(2025, 1, 2), "0004")
THEN = StoreFacts(10, 9, 2, 1, "packed", date(2026, 11, 1), date(2025, 1, 2), "0003")
PREVIEW = RestorePreview("/home/mia/stockroom.db", "copy.db", THEN, "0003", NOW, "", 39, 1)

REPORTS: dict[str, Report] = {
    "found": examination_report(FOUND),
    "mended": mending_report(Mending((LIGHT,), Examination((GRAVE,)), "/home/mia/backups/a.db")),
    "backup": backup_report(BackupMade("/home/mia/backups/a.db", 500_000, NOW, ("b.db", "c.db"))),
    "preview": preview_report(PREVIEW),
    "restored": restored_report(Restored(PREVIEW, "/home/mia/kept.db")),
}


def words(report: Report) -> str:
    """The text on one line."""
    return " ".join(as_text(report, UnitSystem.METRIC).split())


@pytest.mark.parametrize("width", [60, 80, 120, None])
@pytest.mark.parametrize("name", REPORTS)
def test_text_fits_and_steers_nothing(name: str, width: int | None) -> None:
    text = as_text(REPORTS[name], UnitSystem.METRIC, width)
    assert "\x1b" not in text and "\u202e" not in text
    if width is not None:
        assert max(map(cells, text.splitlines())) <= width


def test_findings_are_sentences_with_what_to_do() -> None:
    said = words(REPORTS["found"])
    assert "Fault: 26329A01E Wrong: " in said and "Do this. Warning: rechecks" in said
    assert "Not looked at: dates." in said
    assert said.endswith("Found 1 fault and 1 warning. 1 can be put right with --mend.")
    assert words(examination_report(Examination(()))) == NOTHING


def test_mended_and_left_are_told_apart() -> None:
    said = words(REPORTS["mended"])
    assert "Put right - rechecks: Missing for: 26329A02C." in said
    assert "backup made before it /home/mia/backups/a.db" in said
    assert "Left for you: Fault: 26329A01E" in said
    found = json.loads(as_json(REPORTS["mended"]))
    assert [one["subject"] for one in found["mended"]] == ["rechecks"]
    assert [one["subject"] for one in found["findings"]] == ["26329A01E"]
    assert found["backup"] == "/home/mia/backups/a.db"


def test_what_a_restore_changes_stands_side_by_side() -> None:
    said = words(REPORTS["preview"])
    for row in (
        "what now after the restore",
        "packages 12 10",
        "not gone 8 9",
        "journal 40 entries 1 entry",
        "last day 2026-11-25 2026-11-01",
        "Done since and not in the copy: 39 actions.",
        "In the copy and not in the store: 1 action.",
        "an earlier schema (0003)",
        "kept beside itself",
    ):
        assert row in said, row
    same = RestorePreview("a", "b", THEN, "", THEN, "", 0, 0)
    assert "Both hold the same actions." in words(preview_report(same))
    none = RestorePreview("a", "b", THEN)
    assert "There is no store there now." in words(preview_report(none))
    damaged = RestorePreview("a", "b", THEN, trouble="The store at a cannot be used: spoilt.")
    assert "cannot be read. The store at a cannot be used: spoilt." in words(
        preview_report(damaged)
    )


def test_a_restore_says_where_the_old_one_is() -> None:
    assert "kept as /home/mia/kept.db." in words(REPORTS["restored"])
    assert "kept" not in words(restored_report(Restored(PREVIEW, "")))
    found = json.loads(as_json(REPORTS["restored"]))
    assert (found["kept"], found["entries_lost"], found["packages"]) == (
        "/home/mia/kept.db", 39, 10,
    )  # fmt: skip


def test_a_backup_names_what_gave_way() -> None:
    said = words(REPORTS["backup"])
    assert "size 488 KiB" in said and "packages 12, 8 of them not gone" in said
    assert "Older backups that gave way - b.db - c.db" in said
