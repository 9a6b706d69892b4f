"""A new store made from the whole record as a document: all of it or no store at all."""

from __future__ import annotations

from pathlib import Path

from stockroom.clock import Clock
from stockroom.domain.exchange.record_reading import read_record_file
from stockroom.domain.exchange.whole_record import BadPart, ExportDamaged, WholeRecord
from stockroom.errors import StoreExists
from stockroom.services.doctor import settings_can_be_read
from stockroom.services.keeping import refresh_everything
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import exchange_rows, journal
from stockroom.store.connection import Store, create_store
from stockroom.store.copies import remove_store
from stockroom.store.journal import FOUNDING
from stockroom.store.migrations import STEPS
from stockroom.store.writing import write


def record_into_new_store(
    path: Path, file: str, text: str, *, clock: Clock, actor: str, durable: bool = True
) -> tuple[Done, Stockroom]:
    """Make a store at `path` from a document's text; `file` is what the document is called.

    Without the changes of the journal in it, the new journal begins with the taking in; with
    them it goes on where it ended. Best-by dates are computed anew. Or StoreExists, ExportNewer,
    ExportDamaged, a StoreTrouble.
    """
    if path.exists():
        raise StoreExists(str(path))
    store = create_store(path, durable=durable)
    room = Stockroom(store, clock, actor)
    try:
        record = _read(store, text, file)
        words = _words(record, file)
        with write(store):
            _put_in(room, record, words)
        _refuse_odd_settings(room)
        refresh_everything(room)
    except BaseException as error:
        room.close()
        remove_store(path)
        if isinstance(error, BadPart):
            raise ExportDamaged(file, error.part, error.why) from error
        raise
    return Done(words), room


def _read(store: Store, text: str, file: str) -> WholeRecord:
    """The document against the tables of a store of today."""
    needed = {name: exchange_rows.columns_now(store, name) for name in exchange_rows.EXPORTED}
    changes = exchange_rows.CHANGES
    optional = {changes: exchange_rows.columns_now(store, changes)}
    return read_record_file(text, file, STEPS, needed, optional)


def _put_in(room: Stockroom, record: WholeRecord, words: str) -> None:
    """Fill the store; without the changes under an entry of its own."""
    if record.with_journal:
        exchange_rows.fill_record(room.store, record)
        return
    entry_id = journal.open_entry(
        room.store, at=room.clock.now(), on_day=room.today, actor=room.actor, action=FOUNDING
    )
    kept = tuple(table for table in record.tables if table.name != exchange_rows.JOURNAL)
    exchange_rows.fill_record(room.store, WholeRecord(record.schema, kept))
    journal.close_entry(room.store, entry_id, words)


def _words(record: WholeRecord, file: str) -> str:
    rows = sum(len(one.rows) for one in record.tables if one.name in exchange_rows.RECORD)
    name = Path(file).name
    return f"took in the whole record from {name}: {rows} rows, {record.count('package')} packages"


def _refuse_odd_settings(room: Stockroom) -> None:
    """Settings are plain text to the store: each is read once, as every command will."""
    for finding in settings_can_be_read(room.store, room.today):
        raise BadPart("table setting", finding.message.rstrip("."))
