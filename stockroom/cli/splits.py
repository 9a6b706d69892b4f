"""What goes into what: the words that packing a lot and packing food anew have in common."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stockroom.cli.drying import MOST_TRAYS
from stockroom.cli.options import number

if TYPE_CHECKING:
    from stockroom.domain.packing import SplitRequest

Function = TypeVar("Function", bound=Callable[..., Any])

_OPTIONS = (
    click.option(
        "--into",
        "splits",
        multiple=True,
        required=True,
        metavar="NxCONTAINER[:GRAMS][,OPTION]...",
        help="So many of a container, with grams in each (or rest), then absorber=CC, vacuum,"
        " vacuum=INHG, packet=NAME, box=NAME, tray=N; may be said several times.",
    ),
    click.option("--place", metavar="PLACE", help="Where the packages are put."),
    click.option(
        "--despite",
        default="",
        metavar="REASON",
        help="Why it is packed without oxygen although dryness is not shown; each such package"
        " carries it.",
    ),
    click.option("--packet", metavar="NAME", help="The packet all the absorbers came out of."),
    click.option("--box", metavar="NAME", help="The box all the containers came out of."),
    click.option(
        "--tray",
        type=number(1, MOST_TRAYS),
        metavar="N",
        help="The tray all the food came from, where trays are packed apart.",
    ),
    click.option(
        "--note", default="", metavar="TEXT", help="A note to keep with each package."
    ),
)  # fmt: skip


def split_options(function: Function) -> Function:
    """`--into` and what goes with it; the command takes splits, place, despite, packet, box,
    tray and note."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


def read_splits(
    texts: Sequence[str], packet: str | None, box: str | None, tray: int | None
) -> list[SplitRequest]:
    """What is packed into what; `packet`, `box` and `tray` stand where a split names none.

    Raises BadInput, and a usage error for a packet where no absorber is used.
    """
    from dataclasses import replace

    from stockroom.domain.packing import read_split, read_stock_name

    splits = [read_split(text) for text in texts]
    packet_name = "" if packet is None else read_stock_name(packet, "packet")
    box_name = "" if box is None else read_stock_name(box, "box")
    if packet_name and not any(split.absorber_cc for split in splits):
        raise click.UsageError(
            "--packet goes with absorber=CC in --into.", click.get_current_context()
        )
    return [
        replace(
            split,
            absorber_packet=split.absorber_packet or (packet_name if split.absorber_cc else ""),
            container_box=split.container_box or box_name,
            tray_position=split.tray_position or tray,
        )
        for split in splits
    ]
