"""Every live package has a best-by with its band, limit and recheck date, or a reason for none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.keeping.headspace import TooMuchForContainer
from stockroom.domain.keeping.interface import KeepingCase, KeepingModel, Projection
from stockroom.domain.records import StoredProjection
from stockroom.services import climate, history, household, packages, places, shelves
from stockroom.services.keeping import (
    StandardModel,
    projections_are_current,
    refresh_everything,
)
from stockroom.services.packages import Amount, SoftStands
from tests.dumps import difference
from tests.invariants import all_troubles, projection_troubles
from tests.world import APPLE, PEAS, TODAY, World


def _stored(world: World, code: str) -> StoredProjection:
    stored = shelves.package_detail(world.room, code).projection
    assert stored is not None
    return stored


@pytest.mark.parametrize(
    ("split", "limited_by"),
    [
        ("1xpouch-1500-foil:150,absorber=300", "temperature"),
        ("1xjar-1900:150,absorber=500", "temperature"),
        ("1xpouch-1500-foil:150", "oxygen"),
        ("1xjar-1900:150,vacuum", "oxygen"),
        ("1xbag-zip-1000:50", "moisture"),
    ],
)
def test_a_package_has_all_its_figures(world: World, split: str, limited_by: str) -> None:
    (code,) = world.packed(APPLE, split)
    stored = _stored(world, code)
    assert TODAY < stored.low <= stored.best_by <= stored.high
    assert stored.high <= TODAY + timedelta(days=25 * 366)
    assert stored.recheck_by == stored.low
    assert stored.limited_by == limited_by
    assert shelves.package_detail(world.room, code).no_best_by == ""


def test_cold_and_dry_ends_at_twenty_five_years(world: World) -> None:
    places.add_place(world.room, "freezer", temperature_dc=-180)
    (code,) = world.packed(APPLE, "1xjar-1900:150,absorber=500", place="freezer")
    stored = _stored(world, code)
    assert stored.limited_by == "cap"
    assert stored.best_by.year - TODAY.year == 25


@pytest.fixture
def hot(world: World) -> World:
    """One package in an oven of a loft, one in the cellar."""
    places.add_place(world.room, "loft", temperature_dc=460)
    places.add_place(world.room, "cellar", temperature_dc=120)
    lot = world.dry_lot(PEAS)
    for place in ("loft", "cellar"):
        world.pack(lot, "1xpouch-1500-foil:40,absorber=300", place=place)
    return world


IN_LOFT, IN_CELLAR = "26329A01", "26329A02"


def test_too_warm_a_place_is_recorded_and_gives_a_reason(hot: World) -> None:
    detail = shelves.package_detail(hot.room, IN_LOFT)
    assert detail.projection is None
    assert "46.0 °C" in detail.no_best_by and "45 °C" in detail.no_best_by
    assert hot.package(IN_LOFT).best_by is None
    assert _stored(hot, IN_CELLAR)
    assert projection_troubles(hot.room) == []


def test_too_warm_a_place_never_stands_in_the_way(hot: World) -> None:
    """A fact is a fact: moved in, checked, opened and taken from all the same."""
    packages.move_packages(hot.room, [IN_CELLAR], "loft")
    assert "46.0 °C" in shelves.package_detail(hot.room, IN_CELLAR).no_best_by
    packages.check_package(hot.later(1).room, IN_LOFT, Event.CRISP)
    packages.draw_package(hot.later(1).room, IN_LOFT, Amount(dry_dg=50))
    assert hot.package(IN_LOFT).condition == "opened"
    history.undo(hot.room)
    history.undo(hot.room)
    history.undo(hot.room)
    assert _stored(hot, IN_CELLAR)
    assert all_troubles(hot.room) == []


def test_one_month_too_warm_is_too_warm(hot: World) -> None:
    climate.set_months(hot.room, "cellar", {**dict.fromkeys(range(1, 13), 100), 8: 451})
    assert "45.1 °C" in shelves.package_detail(hot.room, IN_CELLAR).no_best_by
    climate.set_months(hot.room, "cellar", {**dict.fromkeys(range(1, 13), 100), 8: 450})
    assert shelves.package_detail(hot.room, IN_CELLAR).no_best_by == ""
    assert _stored(hot, IN_CELLAR).best_by > TODAY


@pytest.mark.parametrize("words", ["", "peas"])
def test_a_package_without_a_date_is_listed_after_those_with_one(hot: World, words: str) -> None:
    assert hot.listed(words) == [hot.package(one).code for one in (IN_CELLAR, IN_LOFT)]


def test_a_cooler_place_gives_the_date_back(hot: World) -> None:
    places.change_place(hot.room, "loft", temperature_dc=200)
    assert shelves.package_detail(hot.room, IN_LOFT).no_best_by == ""
    assert _stored(hot, IN_LOFT).best_by < _stored(hot, IN_CELLAR).best_by


def test_what_cannot_be_packed_is_refused_and_keeps_nothing(world: World) -> None:
    lot = world.dry_lot(PEAS, 5_000, 1_500)
    before = world.whole_dump()
    with pytest.raises(TooMuchForContainer, match="400 mL"):
        world.pack(lot, "1xpouch-1500-foil:40,absorber=300", "1xpouch-400-foil:700")
    assert world.whole_dump() == before


def test_a_full_pouch_may_be_put_where_it_is_too_warm(world: World) -> None:
    """Packing looks at the package alone; the place is the record's."""
    places.add_place(world.room, "loft", temperature_dc=500)
    (code,) = world.packed(PEAS, "1xpouch-1500-foil:40", place="loft")
    assert "50.0 °C" in shelves.package_detail(world.room, code).no_best_by


def test_damage_shortens_and_crisp_gives_it_back(world: World) -> None:
    code = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")[0]
    sealed = _stored(world, code)
    packages.check_package(world.later(60).room, code, Event.DAMAGED)
    damaged = _stored(world, code)
    assert damaged.best_by < sealed.best_by
    assert damaged.limited_by == "opened"
    assert damaged.best_by <= TODAY + timedelta(days=30 + 14), "leaking from midway, then two weeks"
    packages.check_package(world.later(61).room, code, Event.CRISP)
    crisp = _stored(world, code)
    assert (crisp.best_by, crisp.low, crisp.high) == (sealed.best_by, sealed.low, sealed.high)


def test_softness_shortens_it_and_only_a_slip_of_the_day_gives_it_back(world: World) -> None:
    code = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")[0]
    sealed = _stored(world, code)
    found = world.later(60)
    packages.check_package(found.room, code, Event.SOFT)
    soft = _stored(world, code)
    assert soft.limited_by == "opened"
    assert soft.best_by <= TODAY + timedelta(days=30 + 14), "leaking from midway, then two weeks"
    with pytest.raises(SoftStands):
        packages.check_package(found.later(1).room, code, Event.CRISP)
    assert _stored(world, code) == soft
    packages.check_package(found.room, code, Event.CRISP)
    assert _stored(world, code).best_by == sealed.best_by


def test_a_leak_stays_a_leak(world: World) -> None:
    code = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")[0]
    packages.check_package(world.later(1).room, code, Event.CRISP)
    packages.check_package(world.later(61).room, code, Event.LEAK)
    leaking = _stored(world, code).best_by
    assert leaking <= TODAY + timedelta(days=31 + 14)
    packages.check_package(world.later(62).room, code, Event.CRISP)
    assert _stored(world, code).best_by == leaking


def test_opened_food_has_two_weeks_at_the_most(world: World) -> None:
    code = world.packed(APPLE, "1xjar-950:60,absorber=200")[0]
    packages.draw_package(world.later(100).room, code, Amount(dry_dg=10))
    opened = _stored(world, code)
    assert opened.limited_by == "opened"
    assert TODAY + timedelta(days=100) < opened.best_by <= TODAY + timedelta(days=114)
    assert projection_troubles(world.later(100).room) == []


def test_altitude_makes_the_dates_old_until_all_are_computed_anew(world: World) -> None:
    """At 2,500 m a pouch holds a quarter less oxygen: what was short of absorber keeps longer."""
    (code,) = world.packed(APPLE, "1xpouch-3785-foil:150,absorber=700")
    low = _stored(world, code)
    assert low.limited_by == "oxygen"
    assert projections_are_current(world.room)
    household.change_household(world.room, altitude_m=2_500)
    assert not projections_are_current(world.room)
    assert _stored(world, code) == low
    assert refresh_everything(world.room) == 1
    assert projections_are_current(world.room)
    assert _stored(world, code).best_by > low.best_by
    assert projection_troubles(world.room) == []
    history.undo(world.room)
    assert not projections_are_current(world.room)
    refresh_everything(world.room)
    assert _stored(world, code) == low


def test_another_model_makes_the_dates_old(world: World) -> None:
    world.packed()
    other = World(replace(world.room, model=Renamed()))
    assert not projections_are_current(other.room)
    assert refresh_everything(other.room) == 2
    assert projections_are_current(other.room)
    assert not projections_are_current(world.room)


class Renamed(StandardModel):
    """The standard model under another name."""

    @property
    def name(self) -> str:
        """Not the standard one."""
        return "another model"


def test_a_refresh_tells_how_far_it_is_and_touches_live_packages_only(world: World) -> None:
    world.pack(world.dry_lot(), "3xpouch-1500-foil:20,absorber=300")
    packages.discard_packages(world.room, ["26329A02"], "torn")
    told: list[tuple[int, int]] = []
    before = world.dump()
    assert refresh_everything(world.later(3).room, lambda done, of: told.append((done, of))) == 2
    assert told == [(2, 2)]
    after = world.dump()
    assert set(difference(before, after)) == {"projection"}, "the day it was computed moves"
    assert len(after["projection"]) == 2
    assert world.room.store.value("SELECT count(*) FROM journal WHERE action LIKE '%refresh%'") == 0


def test_a_refresh_given_up_keeps_nothing(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    from stockroom.services import keeping

    monkeypatch.setattr(keeping, "_BATCH", 2)
    world.pack(world.dry_lot(), "7xpouch-1500-foil:10,absorber=300")
    household.change_household(world.room, altitude_m=1_000)
    before = world.whole_dump()
    asked: list[int] = []

    def after_three() -> bool:
        asked.append(1)
        return len(asked) > 3

    told: list[tuple[int, int]] = []
    later = world.later(5)
    done = refresh_everything(later.room, lambda *so_far: told.append(so_far), after_three)
    assert done == 0
    assert told == [(2, 7), (4, 7), (6, 7)]
    assert world.whole_dump() == before
    assert not projections_are_current(world.room)
    assert refresh_everything(later.room, lambda *so_far: told.append(so_far), lambda: False) == 7
    assert told[3:] == [(2, 7), (4, 7), (6, 7), (7, 7)]
    assert projections_are_current(world.room)


class Failing(StandardModel):
    """A model that breaks down, not by a refusal, at the third package."""

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """Break down when asked for many."""
        if len(cases) > 2:
            raise ZeroDivisionError
        return super().project_many(cases)


def test_a_refresh_that_breaks_down_keeps_nothing(world: World) -> None:
    world.pack(world.dry_lot(), "7xpouch-1500-foil:10,absorber=300")
    before = world.whole_dump()
    model: KeepingModel = Failing()
    with pytest.raises(ZeroDivisionError):
        refresh_everything(replace(world.later(5).room, model=model))
    assert world.whole_dump() == before


def test_one_that_cannot_be_projected_does_not_cost_the_others_theirs(hot: World) -> None:
    """The whole batch is asked at once; a refusal in it is that package's alone."""
    assert refresh_everything(hot.room) == 2
    assert shelves.package_detail(hot.room, IN_LOFT).no_best_by
    assert _stored(hot, IN_CELLAR)
