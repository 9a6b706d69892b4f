"""Packing advice for a lot: what it advises can be packed, and is what the model likes best."""

from __future__ import annotations

import pytest

from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.packing import read_split
from stockroom.services import household, packing, places
from stockroom.services.advice import COMPARED, advise_lot
from stockroom.services.results import Packed, PackingAdvice
from tests.world import APPLE, BEEF_RAW, PEAS, World


def _ways(advice: PackingAdvice) -> list[Packed]:
    return [*([advice.advised] if advice.advised else []), *advice.others]


@pytest.mark.parametrize("food", [PEAS, APPLE, BEEF_RAW])
def test_what_is_advised_can_be_packed_and_comes_true(world: World, food: str) -> None:
    places.add_place(world.room, "cellar", temperature_dc=120)
    lot = world.dry_lot(food, 3_000, 500)
    advice = advise_lot(world.room, lot, place="cellar")
    assert advice.advised is not None
    done = packing.pack_lot(world.room, lot, [read_split(advice.into)], place="cellar")
    assert len(done.codes) == advice.advised.fit.count
    made = [world.package(code) for code in done.codes]
    assert sum(one.dry_dg for one in made) == 5_000
    assert max(one.dry_dg for one in made) - advice.advised.fit.each_dg <= 1
    assert advice.advised.best_by is not None and made[0].best_by is not None
    assert abs((made[0].best_by - advice.advised.best_by).days) <= 31
    assert world.lot(lot).left_dg == 0


def test_the_advised_way_has_the_latest_best_by(world: World) -> None:
    advice = advise_lot(world.room, world.dry_lot(APPLE))
    ways = _ways(advice)
    assert [one.fit.container.package_kind for one in ways] != []
    assert {one.fit.container.package_kind for one in ways} <= {str(kind) for kind in COMPARED}
    assert len(ways) == len({one.fit.container.package_kind for one in ways})
    assert advice.advised is not None
    dated = [one.best_by for one in ways if one.best_by is not None]
    assert advice.advised.best_by == max(dated)
    for one in ways:
        assert (one.best_by is None) == (one.why_not != "")
        assert one.limited_by or one.why_not


def test_the_absorber_covers_the_oxygen_with_a_quarter_to_spare(world: World) -> None:
    """Stock size never below 1.25 times the oxygen in the package (the model's own rule)."""
    for one in _ways(advise_lot(world.room, world.dry_lot(PEAS, 4_000, 700))):
        kind = one.fit.container.package_kind
        if kind in (PackageKind.VACUUM_BAG, PackageKind.ZIP_BAG):
            assert one.absorber is None, "it lets oxygen through faster than one can take it"
            continue
        assert one.absorber is not None
        # Gas is the container less the solids (1.5 g/mL, from memory); dry air is 20.95 % oxygen.
        gas_ml = one.fit.container.volume_ml - one.fit.each_dg / 15
        oxygen_cc = 0.2095 * gas_ml
        assert float(one.absorber.oxygen_cc) == pytest.approx(oxygen_cc, rel=1e-3)
        assert one.absorber.absorber_cc >= 1.25 * oxygen_cc
        assert sum(one.absorber.absorbers) == one.absorber.absorber_cc


def test_in_the_mountains_there_is_less_to_absorb(world: World) -> None:
    lot = world.dry_lot(APPLE)
    low = advise_lot(world.room, lot).advised
    household.change_household(world.room, altitude_m=3_000)
    high = advise_lot(world.room, lot).advised
    assert low is not None and high is not None
    assert low.absorber is not None and high.absorber is not None
    assert high.absorber.oxygen_cc < low.absorber.oxygen_cc


def test_a_meal_is_that_of_the_household(world: World) -> None:
    lot = world.dry_lot(PEAS)
    two = advise_lot(world.room, lot)
    household.change_household(world.room, people=8)
    eight = advise_lot(world.room, lot)
    assert (two.meal.people, eight.meal.people) == (2, 8)
    assert abs(eight.meal.dry_dg - 4 * two.meal.dry_dg) <= 4
    assert two.advised is not None and eight.advised is not None
    assert eight.advised.fit.each_dg >= two.advised.fit.each_dg
    assert f"A meal for 8 is {eight.meal.dry_dg / 10:.1f} g dry" in eight.reasons[0]


def test_the_households_own_packages_teach_how_much_goes_in(world: World) -> None:
    lot = world.dry_lot(PEAS, 3_000, 500)
    assert "loose weight of its kind" in advise_lot(world.room, lot).reasons[0]
    (code,) = world.pack(lot, "1xjar-950:200")
    own = 2_000 * 100 // world.package(code).volume_ml
    after = advise_lot(world.room, lot)
    assert "your own fullest package" in after.reasons[0]
    assert all(one.fit.own and one.fit.density_mg_per_ml == own for one in _ways(after))
    assert after.lot.left_dg == 3_000


def test_foil_or_metallised_rather_than_mils(world: World) -> None:
    words = " ".join(advise_lot(world.room, world.dry_lot(APPLE)).reasons)
    assert "foil, metallised or clear" in words
    assert "Thickness in mils says nothing" in words
    assert "acuum" in words


@pytest.mark.parametrize(("food", "key"), [(BEEF_RAW, "raw-stays-raw"), (PEAS, "botulism")])
def test_cautions_stand_beside_the_advice(world: World, food: str, key: str) -> None:
    keys = {one.key for one in advise_lot(world.room, world.dry_lot(food)).cautions}
    assert key in keys


def test_advice_changes_nothing(world: World) -> None:
    lot = world.dry_lot(APPLE)
    before = world.whole_dump()
    advise_lot(world.room, lot)
    assert world.whole_dump() == before


def test_too_warm_a_place_has_reasons_and_no_advice(world: World) -> None:
    places.add_place(world.room, "loft", temperature_dc=500)
    advice = advise_lot(world.room, world.dry_lot(APPLE), place="loft")
    assert advice.advised is None
    assert advice.into == ""
    assert advice.others and all("50.0 °C" in one.why_not for one in advice.others)
    assert advice.reasons
