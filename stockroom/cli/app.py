"""The command `stockroom`: every command by part of the job, and the screens without one."""

from __future__ import annotations

import click

from stockroom.cli.base import Section, TopGroup
from stockroom.cli.session import Wishes


def _start() -> tuple[click.Command, ...]:
    from stockroom.cli.people import person
    from stockroom.cli.places import place
    from stockroom.cli.start import demo, household, init

    return init, demo, household, person, place


def _bench() -> tuple[click.Command, ...]:
    from stockroom.cli.foods import container, food
    from stockroom.cli.lot import lot, pack
    from stockroom.cli.outlook import advise
    from stockroom.cli.run import run

    return run, lot, advise, pack, food, container


def _shelves() -> tuple[click.Command, ...]:
    from stockroom.cli.checks import check
    from stockroom.cli.outlook import gains, whatif
    from stockroom.cli.shelves import discard, draw, find, move, note, show
    from stockroom.cli.today import round_

    return round_, find, show, check, move, draw, discard, note, whatif, gains


def _rechecks() -> tuple[click.Command, ...]:
    from stockroom.cli.deciding import decide
    from stockroom.cli.rechecks import recheck
    from stockroom.cli.redrying import hold, queue, repack
    from stockroom.cli.sampling import sample
    from stockroom.cli.tracing import common, recall, trace

    return recheck, sample, decide, hold, queue, repack, trace, recall, common


def _kitchen() -> tuple[click.Command, ...]:
    from stockroom.cli.cooking import cook
    from stockroom.cli.kitchen import recipe
    from stockroom.cli.meals import meal
    from stockroom.cli.menu import menu

    return cook, meal, menu, recipe


def _horizon() -> tuple[click.Command, ...]:
    from stockroom.cli.horizon import cover, eating, horizon, rotate, target

    return rotate, horizon, cover, eating, target


def _machine() -> tuple[click.Command, ...]:
    from stockroom.cli.upkeep import upkeep

    return (upkeep,)


def _record() -> tuple[click.Command, ...]:
    from stockroom.cli.backups import backup, restore
    from stockroom.cli.calendar import calendar
    from stockroom.cli.doctor import doctor
    from stockroom.cli.exchange import export, import_
    from stockroom.cli.labels import label, sheet
    from stockroom.cli.record import journal, redo, undo

    return undo, redo, journal, calendar, label, sheet, backup, restore, export, import_, doctor


def _calculations() -> tuple[click.Command, ...]:
    from stockroom.cli.calc import calc

    return (calc,)


SECTIONS = (
    Section("Start", ("init", "demo", "household", "person", "place"), _start),
    Section("Bench", ("run", "lot", "advise", "pack", "food", "container"), _bench),
    Section(
        "Shelves",
        (
            "round",
            "find",
            "show",
            "check",
            "move",
            "draw",
            "discard",
            "note",
            "whatif",
            "gains",
        ),
        _shelves,
    ),
    Section(
        "Rechecks",
        (
            "recheck",
            "sample",
            "decide",
            "hold",
            "queue",
            "repack",
            "trace",
            "recall",
            "common",
        ),
        _rechecks,
    ),
    Section("Kitchen", ("cook", "meal", "menu", "recipe"), _kitchen),
    Section("Horizon", ("rotate", "horizon", "cover", "eating", "target"), _horizon),
    Section("Machine", ("upkeep",), _machine),
    Section(
        "Record",
        (
            "undo",
            "redo",
            "journal",
            "calendar",
            "label",
            "sheet",
            "backup",
            "restore",
            "export",
            "import",
            "doctor",
        ),
        _record,
    ),
    Section("Calculations", ("calc",), _calculations),
)

EXAMPLES: tuple[tuple[str, str], ...] = (
    ("stockroom demo", "look around before you start"),
    ("stockroom init", "start your own"),
    ("stockroom round", "what wants doing today"),
    ('stockroom run load 1 "Peas, green, raw" 850', "850 g of peas on tray 1"),
    ("stockroom pack 26329A --into 6xpouch-1500-foil", "a lot into six pouches"),
    ("stockroom check 26329A01 crisp", "squeezed, still crisp"),
    ("stockroom decide 26329A02", "found soft: what becomes of it"),
    ("stockroom find peas --place cellar", "where the peas are"),
    ("stockroom cook stew --people 6", "what to take, how much water"),
)


@click.group(
    "stockroom",
    cls=TopGroup,
    invoke_without_command=True,
    sections=SECTIONS,
    examples=EXAMPLES,
    options_metavar="[OPTIONS]",
    subcommand_metavar="[COMMAND] ...",
)
@click.pass_context
def stockroom(context: click.Context) -> int | None:
    """The record of a household that freeze-dries its own food.

    Dry it, pack it, find it, eat the oldest first, put the right water back. Every number can
    show how it was reached. Without a command the screens open; everything they do, a command
    does too, line by line.

    stockroom keeps records and reasons; it does not certify food as safe. Follow local codes and
    licensed guidance.
    """
    if context.invoked_subcommand is not None:
        return None
    from stockroom.cli.start import open_screens

    return open_screens(context.find_object(Wishes) or Wishes())
