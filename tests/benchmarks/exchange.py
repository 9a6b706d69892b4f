"""What taking in a long list costs: run by `python -m tests.benchmarks.exchange [ROWS]`.

Set against sqlite-utils' own reading and inserting of the same CSV file in the same run, as it
comes (a transaction for each 100 rows) and in one transaction. That makes one plain table; we
look up every name, deal the rows into lots with codes, write three tables and the journal's copy
of every row for undo, and compute each package's best-by.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Generator, Sequence
from contextlib import contextmanager, nullcontext
from datetime import timedelta
from itertools import count
from pathlib import Path

from sqlite_utils import Database
from sqlite_utils.utils import rows_from_file

from stockroom.clock import FixedClock
from stockroom.domain.quantities import UnitSystem
from stockroom.reports.exchange import record_file
from stockroom.services import acting, list_importing
from stockroom.services.exporting import whole_record
from stockroom.services.household import create_stockroom
from stockroom.services.importing import record_into_new_store
from stockroom.services.list_importing import ListWishes, look_at_list, take_list
from stockroom.services.session import Stockroom
from tests.benchmarks.measure import Ratio, Timing, ratios_table, repeat, timings_table
from tests.world import APPLE, PEAS, TODAY

ROWS = 100_000
TIMES = 2
PLACES = 40


def listed(rows: int) -> str:
    """A list of so many packages; rows of one food and day stay below a lot's 999."""
    lines = ["Food;Dry weight (g);Water (g);Container;Absorber;Sealed on;Place;Note"]
    for at in range(rows):
        food = PEAS if at % 2 else APPLE
        day = TODAY - timedelta(days=1 + at // 1000)
        lines.append(
            f"{food};{40 + at % 30},{at % 10};{200 + at % 90};pouch-1500-foil;300 cc;"
            f"{day.strftime('%d.%m.%Y')};cellar/bin {at % PLACES};row {at}"
        )
    return "\n".join(lines) + "\n"


@contextmanager
def without_projections() -> Generator[None]:
    """Actions that leave the best-by dates alone."""
    kept = acting.refresh_projections

    def nothing(room: Stockroom, package_ids: Sequence[int]) -> None:
        """Compute nothing."""

    acting.refresh_projections = nothing
    try:
        yield
    finally:
        acting.refresh_projections = kept


def measure(rows: int) -> tuple[list[Timing], list[Ratio]]:
    """Everything once: looking, taking with and without best-by dates, the plain insert."""
    text, wishes, number = listed(rows), ListWishes("long.csv", add_places=True), count()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        file = folder / "long.csv"
        file.write_text(text, encoding="utf-8")

        def room() -> Stockroom:
            return create_stockroom(
                folder / f"{next(number)}.db",
                clock=FixedClock(TODAY),
                actor="x",
                units=UnitSystem.METRIC,
                people=2,
            )

        def plain(at_once: bool = False) -> None:
            db = Database(folder / f"{next(number)}.plain.db")
            with file.open("rb") as content, db.atomic() if at_once else nullcontext():
                db.table("listed").insert_all(rows_from_file(content)[0])
            db.close()

        def take() -> None:
            take_list(room(), text, wishes)

        def take_alone() -> None:
            with without_projections():
                take()

        empty = room()
        inserted = repeat("sqlite-utils: read the CSV, insert it", plain, TIMES)
        at_once = repeat("the same in one transaction", lambda: plain(True), TIMES)
        looked = repeat("look at the list", lambda: look_at_list(empty, text, wishes), TIMES)
        alone = repeat("take it, without best-by dates", take_alone, TIMES)
        whole = repeat("take it, with best-by dates", take, TIMES)
        full = room()
        take_list(full, text, wishes)
        out = repeat("export it as JSON", lambda: record_file(whole_record(full), TODAY), TIMES)
        document = record_file(whole_record(full), TODAY).decode()

        def back() -> None:
            path = folder / f"{next(number)}.db"
            _, made = record_into_new_store(path, "x", document, clock=full.clock, actor="x")
            made.close()

        into = repeat("make a new store of it, with best-by dates", back, 1)
    ours = (looked, alone, whole, out, into)
    ratios = [
        Ratio(f"{one.name} : {words}", one, other)
        for one in ours
        for words, other in (("its insert", inserted), ("in one transaction", at_once))
    ]
    return [inserted, at_once, *ours], ratios


def main(rows: int) -> None:
    """Measure and print."""
    timings, ratios = measure(rows)
    print(f"{rows} rows, {list_importing.TAKEN.lower()}\n")
    print("\n".join(timings_table(timings)))
    print()
    print("\n".join(ratios_table(ratios)))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else ROWS)
