"""The tree of commands, for tests that walk it."""

from __future__ import annotations

from collections.abc import Iterator

import click

from stockroom.cli.app import stockroom
from stockroom.cli.base import ANYWHERE


def commands() -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Every command that does something, with its words; other groups are left out."""
    yield from _below((), stockroom)


def groups() -> Iterator[tuple[tuple[str, ...], click.Group]]:
    """Every group with its words, the top one first."""
    yield (), stockroom
    context = click.Context(stockroom, info_name="stockroom")
    for name in stockroom.list_commands(context):
        found = stockroom.get_command(context, name)
        if isinstance(found, click.Group):
            yield (name,), found


def _below(
    words: tuple[str, ...], group: click.Group
) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    context = click.Context(group, info_name=words[-1] if words else "stockroom")
    for name in group.list_commands(context):
        found = group.get_command(context, name)
        assert found is not None, name
        if isinstance(found, click.Group):
            if found.invoke_without_command:
                yield (*words, name), found
            yield from _below((*words, name), found)
        else:
            yield (*words, name), found


def own_options(command: click.Command) -> list[click.Option]:
    """A command's own options, those that go anywhere left out."""
    return [one for one in command.params if isinstance(one, click.Option) and one not in ANYWHERE]


def arguments(command: click.Command) -> list[click.Argument]:
    """A command's arguments in order."""
    return [one for one in command.params if isinstance(one, click.Argument)]
