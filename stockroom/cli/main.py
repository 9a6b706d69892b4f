"""From a command line to an exit code: the only place where errors become numbers.

0    done, or an empty list that is a fair answer
1    a negative answer: a check found something
2    wrong use
3    store or data trouble, a refusal, or a fault of our own
130  interrupted
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from contextlib import suppress

import click

from stockroom.cli import diagnostics
from stockroom.cli.errors import PipeClosed
from stockroom.cli.session import Wishes
from stockroom.config import debugging
from stockroom.errors import BadInput, StockroomError

DONE, WRONG_USE, TROUBLE, INTERRUPTED = 0, 2, 3, 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command line (that of the process when None); returns the exit code."""
    try:
        return _run(sys.argv[1:] if argv is None else argv)
    except PipeClosed:
        return DONE
    except StockroomError as error:
        diagnostics.trouble(error)
        return error.exit_code
    except (click.Abort, KeyboardInterrupt):
        diagnostics.tell("Interrupted.")
        return INTERRUPTED
    except click.ClickException as error:
        diagnostics.wrong_use(error)
        return WRONG_USE
    except Exception as error:  # a defect: everything foreseen was caught above
        _own_up(error)
        return TROUBLE


def entry() -> None:
    """The console command."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError):
            # A terminal that lacks a sign shows its code instead of stopping the command.
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]
    sys.exit(main())


def _run(argv: Sequence[str]) -> int:
    """Read the command line and carry it out."""
    from stockroom.cli.app import stockroom

    words = list(argv)
    _refuse_undecodable(words)
    answer = stockroom.main(args=words, prog_name="stockroom", standalone_mode=False, obj=Wishes())
    return answer if isinstance(answer, int) else DONE


def _refuse_undecodable(words: Sequence[str]) -> None:
    """Refuse bytes that are no text: nothing in the record could hold them."""
    for place, word in enumerate(words, start=1):
        if any("\ud800" <= character <= "\udfff" for character in word):
            raise BadInput(f"word {place} of the command", "…", "it again in UTF-8")


def _own_up(error: Exception) -> None:
    """Say that the fault is ours and where its details are."""
    import traceback

    if debugging():
        traceback.print_exception(error)
    from stockroom.cli.faults import write_log

    diagnostics.defect(write_log(error))
