"""Stored best-by dates: computed again for exactly what a change touches, gone with the food."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import KeepingCase, KeepingModel, Projection
from stockroom.domain.working import Working
from stockroom.services import foods, history, packages, packing, places, shelves
from stockroom.services.keeping import project_package, standard_model
from stockroom.services.packages import Amount
from tests.invariants import projection_troubles
from tests.world import APPLE, PEAS, TODAY, World


class Watching:
    """The standard model, remembering what it was asked."""

    def __init__(self) -> None:
        self.inner: KeepingModel = standard_model()
        self.asked: list[KeepingCase] = []

    @property
    def name(self) -> str:
        """The name of the model it asks."""
        return self.inner.name

    def project(self, case: KeepingCase) -> Projection:
        """Ask, and remember."""
        self.asked.append(case)
        return self.inner.project(case)

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """Ask for each, and remember."""
        return [self.project(case) for case in cases]

    def explain(self, case: KeepingCase) -> Working:
        """The working of the model it asks."""
        return self.inner.explain(case)


@pytest.fixture
def watched(world: World) -> tuple[World, Watching]:
    """Peas in three packages (cellar, cellar/rack, loft) and apples in two, all watched."""
    world.places("cellar", "cellar/rack", "loft")
    model = Watching()
    seen = World(replace(world.room, model=model))
    lot = seen.dry_lot(PEAS)
    for place in ("cellar", "rack", "loft"):
        seen.pack(lot, "1xpouch-400-foil:20,absorber=100", place=place)
    seen.pack(seen.dry_lot(APPLE), "2xpouch-400-foil:20,absorber=100", place="loft")
    model.asked.clear()
    return seen, model


def _stored(world: World, code: str) -> tuple[object, ...]:
    projection = shelves.package_detail(world.room, code).projection
    assert projection is not None
    return (projection.best_by, projection.low, projection.high, projection.recheck_by)


def test_a_package_is_projected_when_it_is_sealed(world: World) -> None:
    code = world.packed(PEAS, "1xpouch-1500-foil:62,absorber=300")[0]
    package = world.package(code)
    stored = shelves.package_detail(world.room, code).projection
    now = project_package(world.room, package)
    assert stored is not None
    assert (stored.best_by, stored.low, stored.high) == (now.best_by, now.low, now.high)
    assert (stored.model, stored.computed_on) == (standard_model().name, TODAY)
    assert package.best_by == stored.best_by > TODAY


def test_the_model_is_told_what_the_record_has(watched: tuple[World, Watching]) -> None:
    world, model = watched
    places.change_place(world.room, "cellar", temperature_dc=95)
    model.asked.clear()
    packages.move_packages(world.later(3).room, ["26329A01"], "loft")
    packages.draw_package(world.later(5).room, "26329A01", Amount(dry_dg=50))
    (_, case) = model.asked
    assert (case.food_class, case.package_kind, case.dry_dg) == ("vegetable", "foil_pouch", 200)
    assert (case.volume_ml, case.absorber_cc, case.vacuum_tenth_inhg) == (400, 100, None)
    assert (case.sealed_on, case.opened_on) == (TODAY, TODAY + timedelta(days=5))
    assert [(stay.from_day, stay.temperature_dc) for stay in case.stays] == [
        (TODAY, 95),
        (TODAY + timedelta(days=3), None),
    ]
    # Peas, frozen, boiled: 0.27 g fat and 79.52 g water in 100 g (USDA SR28 11313).
    assert case.fat_of_solids is not None
    assert float(case.fat_of_solids) == pytest.approx(0.27 / (100 - 79.52))


PEA_CODES = ("26329A01", "26329A02", "26329A03")


@pytest.mark.parametrize(
    ("change", "asked"),
    [
        (lambda w: packages.note_package(w.room, "26329A01", "x"), 1),
        (lambda w: packages.move_packages(w.room, ["26329A01", "26329B01"], "rack"), 2),
        (lambda w: packages.check_package(w.room, "26329A01", Event.CRISP), 1),
        (lambda w: packages.draw_package(w.room, "26329A01", Amount(dry_dg=1)), 1),
        (lambda w: packages.draw_package(w.room, "26329A01"), 0),
        (lambda w: packages.discard_packages(w.room, PEA_CODES, "torn"), 0),
        (lambda w: places.change_place(w.room, "cellar", temperature_dc=100), 2),
        (lambda w: places.change_place(w.room, "loft", note="x"), 3),
        (lambda w: places.put_place(w.room, "cellar/rack", "loft"), 1),
        (lambda w: places.add_place(w.room, "attic"), 0),
        (lambda w: foods.change_food(w.room, PEAS, preparation=Preparation.READY), 3),
        (lambda w: w.dry_lot(PEAS), 0),
        (lambda w: w.pack("26329A", "2xpouch-400-foil:1"), 2),
        (lambda w: packing.record_loss(w.room, "26329A", 5, packing.LossReason.SPILT), 0),
        (lambda w: w.recipe(), 0),
    ],
)
def test_exactly_what_a_change_touches_is_computed_again(
    watched: tuple[World, Watching], change: object, asked: int
) -> None:
    """Renaming or cooling a place touches what stands in it and below it, and nothing else."""
    world, model = watched
    change(world)  # type: ignore[operator]
    # Cases without a stay are looked at for what cannot be packed, and kept nowhere.
    assert sum(bool(case.stays) for case in model.asked) == asked
    assert projection_troubles(world.room) == []
    history.undo(world.room)
    assert projection_troubles(world.room) == []


def test_the_day_it_was_computed_moves_with_the_change(world: World) -> None:
    """A place turns out to be cooler than the 21 °C reckoned with: all stay longer good there."""
    world.places("cellar")
    code = world.packed(place="cellar")[0]
    before = _stored(world, code)
    places.change_place(world.later(9).room, "cellar", temperature_dc=40)
    stored = shelves.package_detail(world.room, code).projection
    assert stored is not None
    assert (stored.computed_on - TODAY).days == 9
    assert _stored(world, code) > before


def test_opening_shortens_a_life_and_a_check_does_not(world: World) -> None:
    code = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")[0]
    sealed = _stored(world, code)
    packages.check_package(world.later(1).room, code, Event.CRISP)
    assert _stored(world, code) == sealed
    opened_on = TODAY + timedelta(days=30)
    packages.draw_package(world.on(opened_on).room, code, Amount(dry_dg=10))
    detail = shelves.package_detail(world.room, code)
    assert detail.projection is not None
    assert detail.projection.limited_by == "opened"
    assert opened_on < detail.projection.best_by <= opened_on + timedelta(days=31)


@pytest.mark.parametrize("gone", ["used", "discarded"])
def test_what_is_gone_has_no_best_by_and_gets_it_back_by_undo(world: World, gone: str) -> None:
    code, sister = world.packed()
    before = _stored(world, code)
    if gone == "used":
        packages.draw_package(world.room, code)
    else:
        packages.discard_packages(world.room, [code], "torn")
    assert shelves.package_detail(world.room, code).projection is None
    assert world.listed() == [sister]
    history.undo(world.room)
    assert _stored(world, code) == before
    assert world.listed() == [code, sister]


def test_more_packages_than_a_batch_are_computed_in_one_action(world: World) -> None:
    world.places("cellar")
    lot = world.dry_lot(PEAS, 5000, 700)
    for _ in range(2):
        world.pack(lot, "400xpouch-400-foil:0.5", place="cellar")
    later = world.later(2)
    places.change_place(later.room, "cellar", temperature_dc=100)
    computed = world.room.store.query("SELECT DISTINCT computed_on FROM projection")
    assert computed == [(later.room.today.isoformat(),)]
    assert world.room.store.value("SELECT count(*) FROM projection") == 800
