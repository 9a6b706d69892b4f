"""The bench: runs, trays and packing, from data/runs.csv, trays.csv and packings.csv."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial
from itertools import groupby

from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, day_of, read_rows, weight_of
from stockroom.domain.packing import read_split
from stockroom.services.bench import abandon_run, close_run, load_tray, start_run, weigh_tray
from stockroom.services.dryness import DrynessTest, dry_longer, record_test
from stockroom.services.packing import LossReason, pack_lot, record_loss
from stockroom.services.redrying import load_again
from stockroom.services.session import Stockroom

HOURS_AT: dict[str, int] = {"hour_before_g": -1, "dry_g": 0}
"""The dry weights of a tray, and how many hours from the end of drying each was taken."""
_SHARED = ("packed", "lot", "who", "place", "note", "despite")


def bench_steps() -> Iterator[Step]:
    """Every run with its trays, and what became of its lots."""
    trays = read_rows("trays")
    for run in read_rows("runs"):
        yield from _run_steps(run, [tray for tray in trays if tray["started"] == run["started"]])
    yield from _packing_steps()


def _run_steps(run: Row, trays: Sequence[Row]) -> Iterator[Step]:
    started, unloaded, who = day_of(run, "started"), day_of(run, "unloaded"), run["who"]
    yield Step(started, Part.LOADING, who, lambda room: start_run(room, note=run["note"]))
    for tray in trays:
        yield Step(started, Part.LOADING, who, partial(_load, tray))
    is_open = run["state"] == "open"
    if not is_open:
        yield from _longer_steps(run)
    for weighed in HOURS_AT:
        for tray in trays:
            if tray[weighed]:
                yield Step(unloaded, Part.UNLOADING, who, partial(_weigh_dry, run, tray, weighed))
    for tray in trays:
        for kind in DrynessTest:
            if tray[kind]:
                yield Step(unloaded, Part.UNLOADING, who, partial(_test, tray, kind))
    if is_open:
        yield from _longer_steps(run)
    else:
        yield Step(unloaded, Part.UNLOADING, who, _ENDS[run["state"]])


_ENDS = {"closed": close_run, "abandoned": abandon_run}


def _longer_steps(run: Row) -> Iterator[Step]:
    """A cold spot found before the end, and the hours more it was given."""
    if run["more_on"]:
        day = day_of(run, "more_on")
        yield Step(day, Part.UNLOADING, run["who"], partial(_find_cold, run))
        yield Step(day, Part.UNLOADING, run["who"], partial(_dry_longer, run))


def _load(tray: Row, room: Stockroom) -> None:
    """A food, or with codes in the column "again" what waits in the queue for the machine."""
    position, gross_dg = int(tray["tray"]), weight_of(tray, "wet_g")
    tare_dg = weight_of(tray, "tare_g") or 0
    if tray["again"]:
        load_again(room, position, tray["again"].split(), gross_dg=gross_dg, tare_dg=tare_dg)
    else:
        load_tray(room, position, tray["food"], gross_dg=gross_dg, tare_dg=tare_dg)


def _find_cold(run: Row, room: Stockroom) -> None:
    record_test(room, int(run["cold_tray"]), DrynessTest.COLD, False, note="cold in the middle")


def _dry_longer(run: Row, room: Stockroom) -> None:
    dry_longer(room, Fraction(run["more_h"]))


def _test(tray: Row, kind: DrynessTest, room: Stockroom) -> None:
    record_test(room, int(tray["tray"]), kind, tray[kind] == "ok")


def _weigh_dry(run: Row, tray: Row, weighed: str, room: Stockroom) -> None:
    gross_dg = weight_of(tray, weighed)
    assert gross_dg is not None
    hours = Fraction(int(run["hours"]) + HOURS_AT[weighed]) if run["hours"] else None
    weigh_tray(room, int(tray["tray"]), "dry", gross_dg, hours=hours)


def _packing_steps() -> Iterator[Step]:
    """Rows that differ by what goes into what alone were packed in one go."""
    rows = groupby(read_rows("packings"), key=lambda row: [row[column] for column in _SHARED])
    for packed in (list(group) for _, group in rows):
        first = packed[0]
        if first["tasted_g"]:
            yield Step(day_of(first, "packed"), Part.PACKING, first["who"], partial(_taste, first))
        yield Step(day_of(first, "packed"), Part.PACKING, first["who"], partial(_pack, packed))


def _taste(row: Row, room: Stockroom) -> None:
    record_loss(room, row["lot"], weight_of(row, "tasted_g"), LossReason.TASTED)


def _pack(rows: Sequence[Row], room: Stockroom) -> None:
    first = rows[0]
    pack_lot(
        room,
        first["lot"],
        [read_split(row["into"]) for row in rows],
        place=first["place"],
        note=first["note"],
        despite=first["despite"],
    )
