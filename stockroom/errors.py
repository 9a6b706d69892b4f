"""Every way a request can fail, drawn as one tree.

    StockroomError(message, hint, exit_code)
    ├── BadInput        2  something typed cannot be read
    ├── Refused         3  the rules say no
    ├── NotFound        3  there is no such thing
    └── StoreTrouble    3  the file itself is in the way
        ├── StoreMissing, StoreExists, StoreNewer, StoreLocked, StoreDamaged, StoreUnwritable

Each class builds its message from typed arguments, so the wording lives in one place. A message
is one sentence about what stands in the way; the hint is the next thing to type or press.
"""

from __future__ import annotations

from collections.abc import Sequence


class StockroomError(Exception):
    """A request that cannot be met, with the next step and the process exit code."""

    exit_code: int = 3

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return self.message


class BadInput(StockroomError):
    """Something typed cannot be read: says what was typed and what would be accepted."""

    exit_code = 2

    def __init__(self, what: str, typed: str, accepted: str) -> None:
        """`what` names the entry ("weight"), `typed` is the person's own text."""
        shown = f"“{typed}”" if typed.strip() else "nothing"
        super().__init__(f"{what}: {shown} cannot be read.", f"Type {accepted}.")
        self.what = what
        self.typed = typed
        self.accepted = accepted


class Refused(StockroomError):
    """The rules say no: the request was understood and nothing was changed."""


class NotFound(StockroomError):
    """There is no such lot, package, place, food or recipe."""

    def __init__(self, kind: str, wanted: str, nearest: Sequence[str] = ()) -> None:
        """`kind` is the trade word ("package"), `nearest` the closest existing names."""
        if nearest:
            hint = "Nearest: " + ", ".join(nearest) + "."
        else:
            hint = f"List what there is to see every {kind}."
        super().__init__(f"There is no {kind} “{wanted}”.", hint)
        self.kind = kind
        self.wanted = wanted
        self.nearest = tuple(nearest)


class StoreTrouble(StockroomError):
    """The store file itself stands in the way; the record in it was not changed."""


class StoreMissing(StoreTrouble):
    """No store at the path: a mistyped path must not make an empty one."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is no store at {path}.",
            "Make one with `stockroom init`, or look around with `stockroom demo`.",
        )


class StoreExists(StoreTrouble):
    """A store is already where a new one was asked for."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is already a store at {path}; it was left as it is.",
            "Open it with `stockroom`, or name another file with --store PATH.",
        )


class StoreNewer(StoreTrouble):
    """The file was written by a later version; nothing in it was touched."""

    def __init__(self, path: str, unknown: Sequence[str]) -> None:
        super().__init__(
            f"The store at {path} was written by a later version of stockroom"
            f" (it knows {', '.join(unknown)}).",
            "Install the newer version; this one changed nothing.",
        )


class StoreLocked(StoreTrouble):
    """Another program held the store longer than we waited."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"Another program is writing to the store at {path}.",
            "Nothing was changed; try again in a moment.",
        )


class StoreDamaged(StoreTrouble):
    """The file is not a whole stockroom store."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The store at {path} cannot be used: {why}.",
            "Keep this file, and put a backup copy in its place.",
        )


class StoreUnwritable(StoreTrouble):
    """The disk is full, the file read-only or the folder missing."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The store at {path} could not be written: {why}.",
            "Nothing was changed; free some space or check the file's permissions.",
        )
