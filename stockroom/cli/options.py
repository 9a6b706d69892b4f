"""Options that several commands share, and values that are one of a few words."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

import click

Function = TypeVar("Function", bound=Callable[..., Any])

LARGEST_NUMBER = 2**31 - 1
"""No run, entry or count is as large; a store could not hold a much larger one."""


class Choices(click.ParamType):
    """One of a few words. They are asked for when needed, so that help loads nothing else.

    Case, and a space or hyphen for an underscore, make no difference.
    """

    name = "choice"

    def __init__(self, load: Callable[[], Iterable[str]]) -> None:
        """`load` gives the words, as they are stored."""
        self.load = load

    def get_metavar(self, param: click.Parameter, ctx: click.Context) -> str | None:
        """The words as help shows them."""
        words = "|".join(map(str, self.load()))
        return f"[{words}]" if param.param_type_name == "option" else f"{{{words}}}"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """The word meant. Fails as a usage error that names them all."""
        words = tuple(map(str, self.load()))
        typed = "_".join(str(value).strip().casefold().replace("-", " ").replace("_", " ").split())
        for word in words:
            if word.casefold() == typed:
                return word
        return self.fail(f"“{value}” is none of {', '.join(words)}.", param, ctx)


def number(low: int = 1, high: int = LARGEST_NUMBER) -> click.IntRange:
    """A whole number within bounds."""
    return click.IntRange(low, high)


def list_form(function: Function) -> Function:
    """`--json` and `--csv`; the last one said counts. The command takes `form`."""
    return json_form(
        click.option("--csv", "form", flag_value="csv", help="Print CSV, for a spreadsheet.")(
            function
        )
    )


def json_form(function: Function) -> Function:
    """`--json` for a command that takes `form`."""
    return click.option("--json", "form", flag_value="json", help="Print JSON, for a program.")(
        function
    )


def working(function: Function) -> Function:
    """`--working` for a command that takes `working`."""
    return click.option(
        "--working", is_flag=True, help="How it was reached: formulas, figures and sources."
    )(function)


def refuse_csv_working(form: str | None, working: bool) -> None:
    """A usage error for `--working` with `--csv`: a working is no table."""
    if working and form == "csv":
        raise click.UsageError(
            "--working has no CSV form; leave one of the two out.", click.get_current_context()
        )
