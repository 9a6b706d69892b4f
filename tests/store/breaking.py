"""Connections that count what they are asked, or fail at a chosen statement."""

from __future__ import annotations

import sqlite3
from typing import Any


class Counting(sqlite3.Connection):
    """Keeps the text of every statement asked of it while `statements` is a list."""

    statements: list[str] | None = None

    def execute(self, sql: str, parameters: Any = (), /) -> sqlite3.Cursor:
        """Note the statement, then do it."""
        if self.statements is not None:
            self.statements.append(sql)
        return super().execute(sql, parameters)

    def executemany(self, sql: str, parameters: Any, /) -> sqlite3.Cursor:
        """Note the statement once, then do it for each row."""
        if self.statements is not None:
            self.statements.append(sql)
        return super().executemany(sql, parameters)


class Breaking(sqlite3.Connection):
    """Raises `error` at the statement numbered `at` (from 1), before or after doing it."""

    at: int = 0
    error: BaseException | None = None
    after: bool = False
    asked: int = 0
    broke: bool = False

    def arm(self, at: int, error: BaseException, *, after: bool = False) -> None:
        """Count from here and fail at the `at`th statement."""
        self.at, self.error, self.after = at, error, after
        self.asked, self.broke = 0, False

    def disarm(self) -> None:
        """Fail no more."""
        self.error = None

    def execute(self, sql: str, parameters: Any = (), /) -> sqlite3.Cursor:
        """Do the statement, unless it is the one to fail at."""
        self._before()
        cursor = super().execute(sql, parameters)
        self._afterwards(sql)
        return cursor

    def executemany(self, sql: str, parameters: Any, /) -> sqlite3.Cursor:
        """Do the statement for each row, unless it is the one to fail at."""
        self._before()
        cursor = super().executemany(sql, parameters)
        self._afterwards(sql)
        return cursor

    def _before(self) -> None:
        self.asked += 1
        if self.error is not None and not self.after and self.asked == self.at:
            self.broke = True
            raise self.error

    def _afterwards(self, sql: str) -> None:
        # Once COMMIT has been done the change stands, whatever is raised.
        hit = self.error is not None and self.after and self.asked == self.at
        if hit and sql != "COMMIT":
            self.broke = True
            assert self.error is not None
            raise self.error


class Full(sqlite3.Connection):
    """A connection whose file may not grow: SQLite says the disk is full."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        pages = self.execute("PRAGMA page_count").fetchone()[0]
        self.execute(f"PRAGMA max_page_count = {pages}")


class ReadOnly(sqlite3.Connection):
    """A connection that may only read: SQLite says the file is read-only."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.execute("PRAGMA query_only = ON")
