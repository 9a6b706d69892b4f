"""The bench: runs, trays and packing, from data/runs.csv, trays.csv and packings.csv."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import partial

from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, day_of, read_rows, weight_of
from stockroom.domain.packing import read_split
from stockroom.services.bench import abandon_run, close_run, load_tray, start_run, weigh_tray
from stockroom.services.packing import LossReason, pack_lot, record_loss
from stockroom.services.session import Stockroom


def bench_steps() -> Iterator[Step]:
    """Every run with its trays, and what became of its lots."""
    trays = read_rows("trays")
    for run in read_rows("runs"):
        yield from _run_steps(run, [tray for tray in trays if tray["started"] == run["started"]])
    yield from _packing_steps()


def _run_steps(run: Row, trays: list[Row]) -> Iterator[Step]:
    started, who = day_of(run, "started"), run["who"]
    yield Step(started, Part.LOADING, who, lambda room: start_run(room, note=run["note"]))
    for tray in trays:
        yield Step(started, Part.LOADING, who, partial(_load, tray))
    unloaded = date.fromisoformat(run["unloaded"])
    for tray in trays:
        if tray["dry_g"]:
            yield Step(unloaded, Part.UNLOADING, who, partial(_weigh_dry, tray))
    if run["state"] == "closed":
        yield Step(unloaded, Part.UNLOADING, who, close_run)
    if run["state"] == "abandoned":
        yield Step(unloaded, Part.UNLOADING, who, abandon_run)


def _load(tray: Row, room: Stockroom) -> None:
    position, tare_dg = int(tray["tray"]), weight_of(tray, "tare_g") or 0
    load_tray(room, position, tray["food"], gross_dg=weight_of(tray, "wet_g"), tare_dg=tare_dg)


def _weigh_dry(tray: Row, room: Stockroom) -> None:
    gross_dg = weight_of(tray, "dry_g")
    assert gross_dg is not None
    weigh_tray(room, int(tray["tray"]), "dry", gross_dg)


def _packing_steps() -> Iterator[Step]:
    """Rows of one lot on one day follow each other; each names one kind of container."""
    for row in read_rows("packings"):
        if row["tasted_g"]:
            yield Step(day_of(row, "packed"), Part.PACKING, row["who"], partial(_taste, row))
        yield Step(day_of(row, "packed"), Part.PACKING, row["who"], partial(_pack, row))


def _taste(row: Row, room: Stockroom) -> None:
    record_loss(room, row["lot"], weight_of(row, "tasted_g"), LossReason.TASTED)


def _pack(row: Row, room: Stockroom) -> None:
    pack_lot(room, row["lot"], [read_split(row["into"])], place=row["place"], note=row["note"])
