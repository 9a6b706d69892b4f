"""Commands and groups of stockroom: the options that go anywhere, and help without surprises."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

import click

from stockroom import __version__
from stockroom.cli import output
from stockroom.cli.session import Wishes

_WHOLE_SENTENCE = 200


def _wishes(context: click.Context) -> Wishes:
    return context.find_root().ensure_object(Wishes)


def _store(context: click.Context, _: click.Parameter, value: str | None) -> None:
    if value is not None:
        _wishes(context).store = value


def _today(context: click.Context, _: click.Parameter, value: str | None) -> None:
    if value is not None:
        from stockroom.domain.quantities import read_day

        wishes = _wishes(context)
        wishes.today = read_day(value, wishes.clock.today(), "today")


def _who(context: click.Context, _: click.Parameter, value: str | None) -> None:
    if value is not None:
        _wishes(context).who = value


def _version(context: click.Context, _: click.Parameter, value: bool) -> None:
    if value and not context.resilient_parsing:
        output.write(f"stockroom {__version__}\n")
        context.exit()


def _help(context: click.Context, _: click.Parameter, value: bool) -> None:
    if value and not context.resilient_parsing:
        output.write(context.get_help() + "\n")
        context.exit()


def _anywhere(*names: str, call: Callable[..., None], text: str, **more: Any) -> click.Option:
    return click.Option(names, expose_value=False, callback=call, help=text, **more)


ANYWHERE: tuple[click.Option, ...] = (
    _anywhere(
        "--store", call=_store, metavar="PATH", text="The store's file (or STOCKROOM_STORE)."
    ),
    _anywhere(
        "--today", call=_today, metavar="YYYY-MM-DD", text="Take this day for today: a what-if."
    ),
    _anywhere(
        "--who", call=_who, metavar="NAME", text="Who is at it, for the journal (STOCKROOM_WHO)."
    ),
    _anywhere(
        "--version", call=_version, text="Say the version and stop.", is_flag=True, is_eager=True
    ),
    _anywhere(
        "--help", "-h", call=_help, text="Show how it goes and stop.", is_flag=True, is_eager=True
    ),
)
"""Options every command and every group takes, before or after its own words."""


class _Common(click.Command):
    """The options of `ANYWHERE` added to a command, and listed apart in its help."""

    def __init__(self, *arguments: Any, **more: Any) -> None:
        more.setdefault("add_help_option", False)
        super().__init__(*arguments, **more)

    def get_params(self, ctx: click.Context) -> list[click.Parameter]:
        """The command's own parameters, then those that go anywhere."""
        return [*super().get_params(ctx), *ANYWHERE]

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the words; a mistake in them knows which command it was made in."""
        try:
            return super().parse_args(ctx, args)
        except click.UsageError as error:
            error.ctx = error.ctx or ctx
            raise

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The command's own options, then those that go anywhere."""
        own = [
            record
            for param in self.params
            if isinstance(param, click.Option) and (record := param.get_help_record(ctx))
        ]
        if own:
            with formatter.section("Options"):
                formatter.write_dl(own)
        with formatter.section("Options that go with any command"):
            formatter.write_dl([one for each in ANYWHERE if (one := each.get_help_record(ctx))])


class Command(_Common):
    """One command."""


class Group(_Common, click.Group):
    """Several commands under one word."""

    command_class = Command

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands in the order of the work."""
        return list(self.commands)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The commands, each with its whole first sentence."""
        with formatter.section("Commands"):
            formatter.write_dl(_help_rows(self, ctx, self.list_commands(ctx)))

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The commands first, then the options."""
        self.format_commands(ctx, formatter)
        _Common.format_options(self, ctx, formatter)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command of a word; a word that is none is answered with the nearest."""
        word = args[0]
        if self.get_command(ctx, word) is None and not word.startswith("-"):
            raise click.UsageError(_no_such(ctx, word, self.list_commands(ctx)), ctx)
        return super().resolve_command(ctx, args)


def _help_rows(
    group: click.Group, context: click.Context, names: Sequence[str]
) -> list[tuple[str, str]]:
    """Names with the first sentence of each command's help."""
    return [
        (name, command.get_short_help_str(limit=_WHOLE_SENTENCE))
        for name in names
        if (command := group.get_command(context, name)) is not None
    ]


def _no_such(context: click.Context, word: str, names: Sequence[str]) -> str:
    near = get_close_matches(word, names, n=3)
    meant = f" Did you mean {' or '.join(near)}?" if near else ""
    return f"{context.command_path} has no command “{word}”.{meant}"


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the job: its title, the names of its commands, and how to get at them.

    `load` imports their modules; it gives the commands in the order of the names.
    """

    title: str
    names: tuple[str, ...]
    load: Callable[[], tuple[click.Command, ...]]


class TopGroup(Group):
    """All commands by part of the job; each part is imported when one of its is called."""

    def __init__(
        self,
        *arguments: Any,
        sections: Sequence[Section],
        examples: Sequence[tuple[str, str]],
        **more: Any,
    ) -> None:
        """`examples` are command lines with a few words each."""
        super().__init__(*arguments, **more)
        self.sections = sections
        self.examples = examples

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command, in the order of the sections."""
        return [name for section in self.sections for name in section.names]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of this name, its part of the job imported now."""
        for section in self.sections:
            if cmd_name in section.names:
                return section.load()[section.names.index(cmd_name)]
        return None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The commands section by section, each with its sentence."""
        for section in self.sections:
            with formatter.section(section.title):
                formatter.write_dl(_help_rows(self, ctx, section.names))

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Examples, line by line."""
        with formatter.section("Examples"):
            formatter.write_dl(self.examples)
