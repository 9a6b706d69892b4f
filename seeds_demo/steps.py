"""One thing somebody did on a day: the demo is a list of these, carried out in order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from enum import IntEnum

from stockroom.services.session import Stockroom


class Part(IntEnum):
    """The order of a day: meals, the bench, the shelves, what was decided, what came due."""

    SET_UP = 0
    KITCHEN = 1
    UNLOADING = 2
    PACKING = 3
    LOADING = 4
    SHELVES = 5
    DECIDING = 6
    ROUND = 7


@dataclass(frozen=True, slots=True)
class Step:
    """What is done, by whom and when. Steps of one part of a day keep the order of their table."""

    day: date
    part: Part
    who: str
    act: Callable[[Stockroom], object]
