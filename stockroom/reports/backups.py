"""Backups and restores on paper: what was copied, and what putting a copy back would change."""

from __future__ import annotations

from stockroom.domain.store_copies import BackupMade, Restored, RestorePreview, StoreFacts
from stockroom.reports.parts import counted
from stockroom.reports.values import (
    COUNT,
    DAY,
    TEXT,
    WORDS,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    document,
)

_KIBIBYTE = 1024


def backup_report(made: BackupMade) -> Report:
    """Where the copy is, what is in it, and which older ones gave way."""
    facts = made.facts
    return document(
        "",
        (
            Prose("", (f"Backed up to {made.path}; the copy was opened and is sound.",)),
            Fields(
                (
                    Field("path", TEXT, made.path),
                    Field("size_bytes", COUNT, made.size_bytes),
                    Field("", TEXT, f"{made.size_bytes / _KIBIBYTE:.0f} KiB", "size"),
                    *_facts(facts),
                    Field("removed", WORDS, made.removed),
                )
            ),
            Prose("", made.removed, "Older backups that gave way", "- "),
        ),
    )


def preview_report(preview: RestorePreview) -> Report:
    """The store as it is beside the copy that would take its place."""
    return document(
        "Restore",
        (
            Fields(
                (
                    Field("file", TEXT, preview.file, "from"),
                    Field("store", TEXT, preview.store, "to"),
                )
            ),
            *_changes(preview),
        ),
    )


def restored_report(done: Restored) -> Report:
    """What was put in place, and where the store is that was there."""
    preview = done.preview
    words = f"Restored {preview.store} from {preview.file}."
    kept = f"The store that was there is kept as {done.kept}." if done.kept else ""
    return document(
        "",
        (
            Prose("", tuple(one for one in (words, kept) if one)),
            Fields(
                (
                    Field("file", TEXT, preview.file),
                    Field("store", TEXT, preview.store),
                    Field("kept", TEXT, done.kept or None),
                    *_facts(preview.wanted, labelled=False),
                    Field("entries_lost", COUNT, preview.lost),
                    Field("entries_regained", COUNT, preview.regained),
                )
            ),
        ),
    )


def _facts(facts: StoreFacts, *, labelled: bool = True) -> tuple[Field, ...]:
    """What is in a store, as fields."""
    fields = (
        Field("packages", COUNT, facts.packages, "packages", f", {facts.live} of them not gone"),
        Field("packages_live", COUNT, facts.live),
        Field("lots", COUNT, facts.lots, "lots"),
        Field("entries", COUNT, facts.entries, "journal entries"),
        Field("first_on", DAY, facts.first_on),
        Field("last_on", DAY, facts.last_on, "last entry on"),
        Field("last_words", TEXT, facts.last_words or None, "what was done last"),
        Field("step", TEXT, facts.step),
    )
    if labelled:
        return fields
    return tuple(Field(one.key, one.kind, one.value) for one in fields)


_COLUMNS = (
    Column("what", title="what"),
    Column("now", title="now", least=16),
    Column("then", title="after the restore", least=16),
)


def _changes(preview: RestorePreview) -> tuple[Block, ...]:
    """The two stores side by side, and what is lost and regained in words."""
    now, then = preview.present, preview.wanted
    table = Table("changes", _COLUMNS, tuple(_rows(now, then)), title="What changes")
    return table, Prose("remarks", _remarks(preview), "", "- ")


def _rows(now: StoreFacts | None, then: StoreFacts) -> list[Row]:
    sides = [_side(now) if now else ("-",) * len(_SIDES), _side(then)]
    return [(what, *pair) for what, *pair in zip(_SIDES, *sides, strict=True)]


_SIDES = ("packages", "not gone", "lots", "journal", "first day", "last day", "done last")


def _side(facts: StoreFacts) -> tuple[str, ...]:
    return (
        str(facts.packages),
        str(facts.live),
        str(facts.lots),
        f"{facts.entries} entries" if facts.entries != 1 else "1 entry",
        facts.first_on.isoformat() if facts.first_on else "-",
        facts.last_on.isoformat() if facts.last_on else "-",
        facts.last_words or "-",
    )


def _remarks(preview: RestorePreview) -> tuple[str, ...]:
    """What a person has to know before saying yes."""
    said: list[str] = []
    if preview.trouble:
        said.append(f"The store that is there cannot be read. {preview.trouble}")
    elif preview.present is None:
        said.append("There is no store there now.")
    if preview.lost:
        said.append(f"Done since and not in the copy: {counted(preview.lost, 'action')}.")
    if preview.regained:
        said.append(f"In the copy and not in the store: {counted(preview.regained, 'action')}.")
    if preview.present is not None and not preview.lost and not preview.regained:
        said.append("Both hold the same actions.")
    if preview.migrated_from:
        said.append(
            f"The copy is of an earlier schema ({preview.migrated_from}) and is brought to today's;"
            " the file itself stays as it is."
        )
    if preview.present is not None or preview.trouble:
        said.append("The store that is there is kept beside itself under a dated name.")
    return tuple(said)
