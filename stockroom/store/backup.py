"""Copies of a store made with SQLite's own backup call, safe while others write."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from stockroom.errors import StoreUnwritable


def copy_store(source: Path, target: Path) -> Path:
    """Copy `source` into a new 0600 file; a taken name gets a number. Returns the copy's path.

    A second, read-only connection reads the source: the connection that holds the write lock
    cannot be the source of its own backup. Raises StoreUnwritable.
    """
    chosen = _free_name(target)
    try:
        os.close(os.open(chosen, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    except OSError as error:
        raise StoreUnwritable(str(chosen), error.strerror or str(error)) from error
    reader = sqlite3.connect(source.absolute().as_uri() + "?mode=ro", uri=True)
    writer = sqlite3.connect(chosen)
    try:
        reader.backup(writer)
    except BaseException:
        chosen.unlink(missing_ok=True)
        raise
    finally:
        writer.close()
        reader.close()
    return chosen


def _free_name(target: Path) -> Path:
    number = 1
    chosen = target
    while chosen.exists():
        number += 1
        chosen = target.with_name(f"{target.name}-{number}")
    return chosen
