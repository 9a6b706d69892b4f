"""How warm the places turned out to be, from data/climates.csv: months told, or a logger's file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from seeds_demo.steps import Part, Step
from seeds_demo.tables import Row, day_of, read_rows, read_text
from stockroom.services.climate import import_readings, set_months
from stockroom.services.session import Stockroom


def climate_steps() -> Iterator[Step]:
    """What was learnt of each place, on the day it was written down."""
    for row in read_rows("climates"):
        yield Step(day_of(row, "day"), Part.SHELVES, row["who"], partial(_DID[row["told"]], row))


def _months(row: Row, room: Stockroom) -> None:
    degrees = (int(word) for word in row["months"].split())
    set_months(room, row["place"], {month: 10 * at_c for month, at_c in enumerate(degrees, 1)})


def _readings(row: Row, room: Stockroom) -> None:
    import_readings(room, row["place"], read_text(row["file"]))


_DID: Mapping[str, Callable[[Row, Stockroom], None]] = {"months": _months, "readings": _readings}
