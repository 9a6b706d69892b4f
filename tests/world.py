"""A household's stockroom for tests, changed only by the services a person would use."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path

from stockroom.clock import FixedClock
from stockroom.domain.cooking import Basis
from stockroom.domain.packing import read_split
from stockroom.domain.quantities import UnitSystem, to_dg
from stockroom.domain.records import Lot, Package
from stockroom.services import bench, dryness, finding, kitchen, packing, places, shelves
from stockroom.services.household import create_stockroom
from stockroom.services.kitchen import LineRequest
from stockroom.services.session import Stockroom
from stockroom.store.backup import copy_store
from stockroom.store.connection import Store
from tests.dumps import Dump, dump, whole_dump

TODAY = date(2026, 11, 25)
"""Day 329 of its year, so the first lot made on it is 26329A."""

PEAS = "Peas, green, frozen, boiled"
APPLE = "Apple, raw, peeled"
BEEF_RAW = "Beef, eye of round, lean, raw"


@dataclass(frozen=True, slots=True)
class World:
    """An open stockroom with short ways to fill it."""

    room: Stockroom

    @property
    def path(self) -> Path:
        """The store's file."""
        return self.room.path

    def on(self, day: date) -> World:
        """The same store on another day."""
        return World(replace(self.room, clock=FixedClock(day)))

    def later(self, days: int) -> World:
        """The same store so many days on."""
        return self.on(self.room.today + timedelta(days=days))

    def who(self, actor: str) -> World:
        """The same store with someone else at the keyboard."""
        return World(replace(self.room, actor=actor))

    def dry_run(
        self, trays: Iterable[tuple[str, float, float]], *, tested: bool = True
    ) -> tuple[str, ...]:
        """Trays of (food, grams as loaded, grams dry) through a run; the codes of its lots.

        `tested` weighs each tray twice, feels it for cold spots and breaks a piece: the gate
        before packing without oxygen is open then.
        """
        run_id = bench.start_run(self.room).made_id
        for position, (food, wet_g, dry_g) in enumerate(trays, start=1):
            bench.load_tray(self.room, position, food, gross_dg=to_dg(wet_g), run_id=run_id)
            bench.weigh_tray(self.room, position, "dry", to_dg(dry_g), run_id=run_id)
            if tested:
                self.show_dry(position, to_dg(dry_g), run_id)
        return bench.close_run(self.room, run_id=run_id).codes

    def show_dry(self, position: int, dry_dg: int, run_id: int) -> None:
        """Weigh a tray once more, feel it for cold spots and break a piece: all is well."""
        bench.weigh_tray(self.room, position, "dry", dry_dg, run_id=run_id)
        for kind in dryness.DrynessTest:
            dryness.record_test(self.room, position, kind, True, run_id=run_id)

    def dry_lot(
        self, food: str = PEAS, wet_g: float = 1000, dry_g: float = 155, *, tested: bool = True
    ) -> str:
        """One food through a run of one tray; the lot's code."""
        (code,) = self.dry_run([(food, wet_g, dry_g)], tested=tested)
        return code

    def pack(
        self, lot_code: str, *splits: str, place: str | None = None, note: str = ""
    ) -> tuple[str, ...]:
        """Pack a lot as the command line would say it; the codes of the packages.

        Weights made up for a test seldom fit a food's table, so a reason stands by: the packages
        carry it only where the gate is closed.
        """
        wanted = [read_split(split) for split in splits]
        return packing.pack_lot(
            self.room, lot_code, wanted, place=place, note=note, despite="broken, dry through"
        ).codes

    def packed(
        self,
        food: str = PEAS,
        *splits: str,
        wet_g: float = 1000,
        dry_g: float = 155,
        place: str | None = None,
    ) -> tuple[str, ...]:
        """A lot dried and packed; without splits into two pouches with absorbers."""
        lot_code = self.dry_lot(food, wet_g, dry_g)
        return self.pack(lot_code, *(splits or ("2xpouch-1500-foil,absorber=300",)), place=place)

    def places(self, *paths: str) -> None:
        """Places, each parent before its children."""
        for path in paths:
            places.add_place(self.room, path)

    def recipe(
        self,
        name: str = "Pea soup",
        serves: int = 2,
        lines: Sequence[LineRequest] | None = None,
    ) -> str:
        """A recipe; without lines it takes 200 g of peas as fresh and an onion."""
        wanted = lines or [
            LineRequest(food=PEAS, basis=Basis.FRESH, amount=Fraction(200)),
            LineRequest(item="onion", amount=Fraction(1)),
        ]
        kitchen.add_recipe(self.room, name, serves, wanted, cooking_water_dg=5000)
        return name

    def package(self, code: str) -> Package:
        """The package as it stands now."""
        return finding.find_package(self.room, code)

    def lot(self, code: str) -> Lot:
        """The lot as it stands now."""
        return finding.find_lot(self.room, code)

    def listed(self, words: str = "", **wanted: object) -> list[str]:
        """Codes of what a search lists, in its order."""
        asked = shelves.shelf_filter(self.room, words, **wanted)  # type: ignore[arg-type]
        return [package.code for package in shelves.find_packages(self.room, asked)]

    def dump(self) -> Dump:
        """Everything undo answers for, and the projections."""
        return dump(self.path)

    def whole_dump(self) -> Dump:
        """Everything in the file."""
        return whole_dump(self.path)

    def beside(self, actor: str = "another") -> World:
        """A second program on the same store, with connections of its own."""
        store = Store(self.path, durable=False)
        return World(Stockroom(store, self.room.clock, actor))


def new_world(path: Path, *, day: date = TODAY, units: UnitSystem = UnitSystem.METRIC) -> World:
    """A stockroom made from nothing; `copied_world` is the quick way to one."""
    return World(
        create_stockroom(
            path, clock=FixedClock(day), actor="tester", units=units, people=2, durable=False
        )
    )


def copied_world(
    source: Path,
    path: Path,
    *,
    day: date = TODAY,
    factory: type[sqlite3.Connection] = sqlite3.Connection,
) -> World:
    """A world on a copy of a store, which may be open; `factory` is the connection class."""
    if source.with_name(f"{source.name}-wal").exists():
        copy_store(source, path)
    else:
        shutil.copyfile(source, path)
    store = Store(path, durable=False, factory=factory)
    return World(Stockroom(store, FixedClock(day), "tester"))
