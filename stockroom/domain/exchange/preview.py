"""What taking a list in would make of it, shown before anything is kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stockroom.domain.caution_table import Caution
from stockroom.domain.exchange.listed import ListRead, Problem


@dataclass(frozen=True, slots=True)
class ListedLotPreview:
    """A lot to be made: rows of one food made on one day."""

    code: str
    food: str
    made_on: date
    packages: int
    dry_dg: int
    water_dg: int


@dataclass(frozen=True, slots=True)
class ListPreview:
    """A list as it was read, and what it would become.

    `taken_over` are foods of the reference table new to the household, `new_foods` those said
    with the list. `reckoned` counts packages whose water comes from their food's usual water.
    """

    name: str
    read: ListRead
    problems: tuple[Problem, ...]
    lots: tuple[ListedLotPreview, ...]
    taken_over: tuple[str, ...]
    new_foods: tuple[str, ...]
    new_places: tuple[str, ...]
    reckoned: int
    condition: str
    cautions: tuple[Caution, ...]

    @property
    def packages(self) -> int:
        """How many packages it is."""
        return sum(lot.packages for lot in self.lots)
