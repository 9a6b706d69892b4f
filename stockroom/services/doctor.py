"""Looking through a store for what is wrong with it, and putting right what can be computed.

What is looked through is a copy of one moment of the store, so nobody has to wait. Later stages
rest on earlier ones: a damaged file says nothing of the record, and dates are computed from a
record without faults.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable, Generator, Iterable
from contextlib import contextmanager, suppress
from dataclasses import replace
from datetime import date
from pathlib import Path

from stockroom.clock import Clock, FixedClock
from stockroom.domain.findings import (
    Examination,
    Finding,
    Mending,
    Severity,
    in_order,
    named,
)
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.units import Cup
from stockroom.errors import StoreDamaged, StoreLocked, StoreMissing, StoreNewer, StoreTrouble
from stockroom.services.backups import back_up_as_it_is, backup_folder, backups_of, half_copies
from stockroom.services.household import MOST_PEOPLE
from stockroom.services.keeping import refresh_everything
from stockroom.services.recheck_refresh import SET_ASIDE
from stockroom.services.session import Stockroom
from stockroom.store.connection import Store, open_store
from stockroom.store.copies import make_copy
from stockroom.store.derived import rebuild_derived
from stockroom.store.doctor_file import FILE_CHECKS, THE_FILE, Check
from stockroom.store.doctor_journal import (
    JOURNAL_CHECKS,
    codes_of,
    drop_needless,
    stored_projections,
    stored_rechecks,
)
from stockroom.store.doctor_rows import ROW_CHECKS
from stockroom.store.replacing import write_ahead
from stockroom.store.settings import read_settings
from stockroom.store.writing import write

_MEND = "stockroom doctor --mend computes them anew."


def settings_can_be_read(store: Store, today: date) -> tuple[Finding, ...]:
    """Settings of the household whose value is none."""
    found: list[Finding] = []
    for key, value in sorted(read_settings(store).items()):
        try:
            _read_setting(key, value)
        except (ValueError, TypeError):
            message = f"The setting {key} is “{value}”, which cannot be read."
            found.append(Finding("settings", Severity.FAULT, message, _set_again(key)))
    return tuple(found)


def computed_is_current(store: Store, today: date) -> tuple[Finding, ...]:
    """Best-by dates and rechecks that are missing, needless, or not what the model gives now.

    The store is a copy of its own: everything is computed anew in it and compared.
    """
    room = Stockroom(store, FixedClock(today))
    before = (stored_projections(store), stored_rechecks(store))
    with write(store):
        drop_needless(store)
    refresh_everything(room)
    after = (stored_projections(store), stored_rechecks(store))
    return (
        *_other_model(store, before[0], room.model.name),
        *_compared(store, "best-by dates", before[0], after[0]),
        *_compared(store, "rechecks", before[1], after[1]),
    )


RECORD_CHECKS: tuple[Check, ...] = (*ROW_CHECKS, *JOURNAL_CHECKS, settings_can_be_read)
COMPUTED_CHECKS: tuple[Check, ...] = (computed_is_current,)
CHECKS: tuple[Check, ...] = (*FILE_CHECKS, *RECORD_CHECKS, *COMPUTED_CHECKS)
"""Every check: each looks at a copy of the store on a day and gives its findings."""

RECORD_LEFT_OUT = "The record was not looked through, for the file has to be put right first."
COMPUTED_LEFT_OUT = (
    "Best-by dates and rechecks were not computed anew, for the faults above have to be put right"
    " first."
)


def examine(path: Path, *, clock: Clock) -> Examination:
    """Look through a store, also one that cannot be opened.

    Raises StoreMissing or another StoreTrouble that says nothing of what is in the store.
    """
    if not path.is_file():
        raise StoreMissing(str(path))
    try:
        open_store(path).close()
        with _copy_of(path) as store:
            found = _look_through(store, clock.today())
    except (StoreDamaged, StoreNewer) as trouble:
        found = Examination((_closed(path, trouble),), (RECORD_LEFT_OUT,))
    return replace(found, findings=(*found.findings, *_left_behind(path)))


def mend(path: Path, *, clock: Clock) -> Mending:
    """Make anew what is computed, after a backup, and say what is left for a person.

    Nothing a person recorded is changed. Raises StoreMissing or another StoreTrouble.
    """
    before = examine(path, clock=clock)
    if not before.mendable:
        return Mending((), before)
    backup = back_up_as_it_is(path, now=clock.now())
    if any(one.remedy != _MEND for one in before.mendable):
        _mend_file(path)
    between = examine(path, clock=clock)
    if any(one.remedy == _MEND for one in between.mendable):
        _mend_computed(path, clock)
        between = examine(path, clock=clock)
    left = {(one.subject, one.message) for one in between.findings}
    mended = tuple(one for one in before.mendable if (one.subject, one.message) not in left)
    return Mending(mended, between, backup)


def _mend_file(path: Path) -> None:
    """Views, triggers and the note index made anew, and the write-ahead log on."""
    store = Store(path)
    try:
        with write(store):
            rebuild_derived(store.connection)
    finally:
        store.close()
    # Somebody who is on it without the log keeps it off; that is told again.
    with suppress(StoreLocked):
        write_ahead(path)


def _mend_computed(path: Path, clock: Clock) -> None:
    store = Store(path)
    try:
        with write(store):
            drop_needless(store)
        refresh_everything(Stockroom(store, clock))
    finally:
        store.close()


@contextmanager
def _copy_of(path: Path) -> Generator[Store]:
    """A copy of one moment of the store, to be read and written at will."""
    with tempfile.TemporaryDirectory(prefix="stockroom-") as folder:
        copy = Path(folder) / "copy.db"
        make_copy(path, copy, as_it_is=True)
        store = Store(copy, durable=False)
        try:
            yield store
        finally:
            store.close()


def _look_through(store: Store, today: date) -> Examination:
    found = _all_of(FILE_CHECKS, store, today)
    if any(one.subject == THE_FILE and one.severity is Severity.FAULT for one in found):
        # Nothing may be written into a file that is damaged.
        closed = [replace(one, mendable=False) for one in found]
        return Examination(in_order(closed), (RECORD_LEFT_OUT,))
    if any(one.mendable for one in found):
        # In the copy alone: the checks of the record read by the views.
        with write(store):
            rebuild_derived(store.connection)
    found += _all_of(RECORD_CHECKS, store, today)
    if any(one.severity is Severity.FAULT and not one.mendable for one in found):
        return Examination(in_order(found), (COMPUTED_LEFT_OUT,))
    found += _all_of(COMPUTED_CHECKS, store, today)
    return Examination(in_order(found))


def _all_of(checks: Iterable[Check], store: Store, today: date) -> list[Finding]:
    return [finding for check in checks for finding in check(store, today)]


def _closed(path: Path, trouble: StoreTrouble) -> Finding:
    """What to do with a store that does not open."""
    if isinstance(trouble, StoreNewer):
        return Finding(THE_FILE, Severity.FAULT, trouble.message, trouble.hint)
    backups = backups_of(path)
    where = (
        f"Restore the latest backup: stockroom restore '{backups[0]}'."
        if backups
        else f"Restore a backup: stockroom restore FILE. There is none in {backup_folder(path)}."
    )
    return Finding(THE_FILE, Severity.FAULT, trouble.message, where)


def _left_behind(path: Path) -> tuple[Finding, ...]:
    """Half copies of a backup or a restore that was cut short by a crash."""
    left = half_copies(path)
    if not left:
        return ()
    return (
        Finding(
            "half copies",
            Severity.NOTE,
            f"Left behind by a backup or restore that was cut short: {named(map(str, left))}.",
            "Unless one is running now they can be deleted.",
        ),
    )


def _other_model(
    store: Store, kept: dict[int, tuple[object, ...]], model: str
) -> tuple[Finding, ...]:
    others = {package_id for package_id, row in kept.items() if row[-1] != model}
    if not others:
        return ()
    codes = named(codes_of(store, others))
    return (_computed("best-by dates", f"Computed with another model than “{model}”: {codes}."),)


def _compared(
    store: Store,
    subject: str,
    before: dict[int, tuple[object, ...]],
    after: dict[int, tuple[object, ...]],
) -> tuple[Finding, ...]:
    """What differs between what was kept and what is computed now."""
    both = before.keys() & after.keys()
    groups = (
        ("Missing for", after.keys() - before.keys()),
        ("Kept for packages that have none", before.keys() - after.keys()),
        ("Not what the record gives now", {one for one in both if before[one] != after[one]}),
    )
    return tuple(
        _computed(subject, f"{words}: {named(codes_of(store, set(ids)))}.")
        for words, ids in groups
        if ids
    )


def _computed(subject: str, message: str) -> Finding:
    return Finding(subject, Severity.WARNING, message, _MEND, mendable=True)


def _whole_numbers(value: str) -> None:
    for word in value.split():
        int(word)


def _people(value: str) -> None:
    if not 1 <= int(value) <= MOST_PEOPLE:
        raise ValueError(value)


def _altitude(value: str) -> None:
    if value:
        int(value)


def _sheet(value: str) -> None:
    from stockroom.domain.labels.sheets import Sheet

    Sheet(**json.loads(value))


_READERS: dict[str, Callable[[str], object]] = {
    "units": UnitSystem,
    "people": _people,
    "altitude": _altitude,
    "cup": Cup,
    SET_ASIDE: _whole_numbers,
}
_READERS_OF_KIND: dict[str, Callable[[str], object]] = {
    "recheck.": int,
    "upkeep.": int,
    "label_sheet:": _sheet,
}
"""How settings are read that begin so."""

_SET_AGAIN = {
    "units": "Set it again: stockroom household --units metric.",
    "people": "Set it again: stockroom household --people 2.",
    "cup": "Set it again: stockroom household --cup us.",
}


def _read_setting(key: str, value: str) -> None:
    """Raise ValueError or TypeError for a value that is none.

    A setting that no reader knows may say anything.
    """
    kinds = (reader for start, reader in _READERS_OF_KIND.items() if key.startswith(start))
    (_READERS.get(key) or next(kinds, str))(value)


def _set_again(key: str) -> str:
    return _SET_AGAIN.get(key, "Put a backup in place: stockroom restore FILE.")
