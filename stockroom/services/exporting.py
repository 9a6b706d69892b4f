"""The whole record, taken out of the store as it is."""

from __future__ import annotations

from difflib import get_close_matches

from stockroom.domain.exchange.whole_record import RecordTable, WholeRecord
from stockroom.errors import NotFound
from stockroom.services.session import Stockroom
from stockroom.store.exchange_rows import CHANGES, EXPORTED, read_record


def whole_record(room: Stockroom, *, with_changes: bool = False) -> WholeRecord:
    """Every record a person made, at one moment.

    `with_changes` adds what every entry of the journal changed: only then can a store made from
    it undo what was done before.
    """
    names = (*EXPORTED, CHANGES) if with_changes else EXPORTED
    return read_record(room.store, names)


def exported_tables() -> tuple[str, ...]:
    """The names of all tables that can be taken out, the changes of the journal last."""
    return (*EXPORTED, CHANGES)


def one_table(room: Stockroom, name: str) -> RecordTable:
    """One table by its name. Raises NotFound with the nearest names."""
    wanted = "_".join(name.strip().casefold().replace("-", " ").split())
    if wanted not in exported_tables():
        raise NotFound("table", name, get_close_matches(wanted, exported_tables(), n=3))
    return read_record(room.store, (wanted,)).tables[0]
