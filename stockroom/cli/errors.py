"""What can stand in the way of a command that has nothing to do with the record."""

from __future__ import annotations

from stockroom.errors import Refused, StockroomError, StoreTrouble


class NeedsTerminal(Refused):
    """The screens were asked for where there is no terminal to show them on."""

    def __init__(self) -> None:
        super().__init__(
            "The screens need a terminal, and this is not one.",
            "Run `stockroom round` for today's list, or `stockroom --help` for every command.",
        )


class AnswerMissing(StockroomError):
    """A question would have to be asked, and there is no terminal to ask it on."""

    exit_code = 2

    def __init__(self, question: str, option: str) -> None:
        """`question` is what was to be asked, `option` what answers it on the command line."""
        super().__init__(
            f"There is no terminal to ask on: {question}", f"Say it on the command line: {option}."
        )


class StoreUnreachable(StoreTrouble):
    """The path of the store cannot even be looked at."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The store at {path} cannot be reached: {why}.",
            "Check the path and its permissions, or name another file with --store PATH.",
        )


class OutputLost(StockroomError):
    """The answer could not be written where it was to go; a change stays recorded."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"The answer could not be written: {why}.",
            "Free some space or send it elsewhere; `stockroom journal` shows what was recorded.",
        )


class FileUnreadable(StockroomError):
    """A file that was named cannot be opened."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"The file {path} cannot be read: {why}.", "Check the path and its permissions."
        )


class FileTooLarge(StockroomError):
    """A file larger than any this can be."""

    def __init__(self, path: str, most_mib: int) -> None:
        super().__init__(
            f"The file {path} is larger than {most_mib} MiB.",
            "Export a shorter time from the logger, or check that it is the right file.",
        )


class FileNotText(StockroomError):
    """A file of something else than text."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"The file {path} is not text.", "Export the readings as CSV and name that file."
        )


class LinesLeftOut(StockroomError):
    """Some lines of a list could not be recorded; the others were."""

    def __init__(self, bad: int, count: int) -> None:
        """`bad` of `count` lines."""
        super().__init__(
            f"Lines not recorded: {bad} of {count}; the others were.",
            "Correct what is named above, and give only those lines again.",
        )


class PipeClosed(Exception):
    """Whoever was reading has stopped: the command ends without a word."""
