"""An open stockroom: the store, the clock and who is acting. Every service takes one."""

from __future__ import annotations

from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from stockroom.clock import Clock, SystemClock
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.units import Cup
from stockroom.services.keeping import standard_model
from stockroom.store.connection import Store, open_store
from stockroom.store.settings import read_settings

if TYPE_CHECKING:
    from stockroom.domain.keeping.interface import KeepingModel


@dataclass(frozen=True, slots=True)
class Household:
    """The household's settings."""

    units: UnitSystem = UnitSystem.METRIC
    people: int = 2
    name: str = ""
    altitude_m: int | None = None
    cup: Cup = Cup.US
    """Which cup water is measured with."""


@dataclass(frozen=True, slots=True)
class Stockroom:
    """What a service works on. Frozen: settings are read from the store when asked for."""

    store: Store
    clock: Clock = field(default_factory=SystemClock)
    actor: str = "someone"
    model: KeepingModel = field(default_factory=standard_model)

    @property
    def today(self) -> date:
        """The person's calendar day."""
        return self.clock.today()

    @property
    def path(self) -> Path:
        """The store's file."""
        return self.store.path

    @property
    def household(self) -> Household:
        """Units and size of the household, as stored now."""
        stored = read_settings(self.store)
        return Household(
            units=UnitSystem(stored.get("units", UnitSystem.METRIC)),
            people=int(stored.get("people", "2")),
            name=stored.get("name", ""),
            altitude_m=int(stored["altitude"]) if stored.get("altitude") else None,
            cup=Cup(stored.get("cup", Cup.US)),
        )

    @property
    def units(self) -> UnitSystem:
        """The household's units."""
        return self.household.units

    def version_seen(self) -> int:
        """A number that moves when another program has written to the store."""
        return self.store.data_version()

    def close(self) -> None:
        """Close the store."""
        self.store.close()


def open_stockroom(path: Path, *, clock: Clock, actor: str) -> Stockroom:
    """Open an existing store. Raises a StoreTrouble when that cannot be done."""
    return Stockroom(open_store(path), clock, actor)


@contextmanager
def opened(path: Path, *, clock: Clock, actor: str) -> Generator[Stockroom]:
    """An open stockroom for the length of a block."""
    room = open_stockroom(path, clock=clock, actor=actor)
    try:
        yield room
    finally:
        room.close()
