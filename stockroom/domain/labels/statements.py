"""A label as statements, each with shorter forms of itself, before it is known what fits."""

from __future__ import annotations

from dataclasses import dataclass

LINE_TO_WRITE_ON = "____________"
SHORT_LINE = "______"


@dataclass(frozen=True, slots=True)
class Statement:
    """One thing a label says. `forms` are its words, the longest first.

    A `pinned` one always stands there, in a form of its own and never cut. Of one that is `free`
    (a name, a reason: text a person typed) everything after `stem` may be cut. Of the others, the
    one with the lowest `worth` is left out first.
    """

    key: str
    forms: tuple[str, ...]
    strong: bool = False
    pinned: bool = True
    free: bool = False
    stem: str = ""
    worth: int = 0

    @property
    def droppable(self) -> bool:
        """Whether it may be left out."""
        return not self.pinned and not self.free


@dataclass(frozen=True, slots=True)
class Label:
    """What is printed for one package or one lot. `code` is also in the symbol, as plain text."""

    code: str
    statements: tuple[Statement, ...]

    def statement(self, key: str) -> Statement | None:
        """The statement of this key, if it has one."""
        return next((one for one in self.statements if one.key == key), None)


def to_write_in(statement: Statement) -> Statement:
    """The same with a line to write on by hand, for text that cannot be printed."""
    begins = statement.stem or statement.key
    return Statement(
        key=statement.key,
        forms=(f"{begins}: {LINE_TO_WRITE_ON}", f"{begins}: {SHORT_LINE}"),
        strong=statement.strong,
    )
