"""What would become of a best-by elsewhere or packed otherwise, and which change gains most."""

from __future__ import annotations

from datetime import timedelta

import pytest

from stockroom.domain.conditions import Event
from stockroom.services import climate, packages, places
from stockroom.services.packages import Amount
from stockroom.services.results import Choice
from stockroom.services.whatif import LEAST_GAIN_DAYS, gains, what_if, what_if_lot
from tests.world import APPLE, PEAS, TODAY, World


@pytest.fixture
def house(world: World) -> World:
    """A warm kitchen, a cool cellar with a rack, an oven of a loft, a shed nobody measured."""
    world.places("kitchen", "cellar", "cellar/rack", "loft", "shed")
    for place, dc in (("kitchen", 240), ("cellar", 100), ("loft", 470)):
        places.change_place(world.room, place, temperature_dc=dc)
    return world


def _packed(house: World, split: str, place: str = "kitchen") -> str:
    return house.packed(APPLE, split, place=place)[0]


def _moves(choices: tuple[Choice, ...]) -> dict[str, Choice]:
    return {one.place: one for one in choices if one.kind == "move"}


def _repacks(choices: tuple[Choice, ...]) -> list[Choice]:
    return [one for one in choices if one.kind == "repack"]


def test_a_cooler_place_never_keeps_it_shorter(house: World) -> None:
    code = _packed(house, "1xpouch-1500-foil:60,absorber=300")
    page = what_if(house.room, code)
    assert page.now.best_by == house.package(code).best_by
    assert page.now.gain_days == 0
    cellar = _moves(page.choices)["cellar"]
    assert cellar.best_by is not None and page.now.best_by is not None
    assert cellar.best_by > page.now.best_by
    assert cellar.gain_days == (cellar.best_by - page.now.best_by).days
    assert cellar.words == "moved to cellar"


@pytest.mark.parametrize("days", [0, 1, 400])
@pytest.mark.parametrize("split", ["1xpouch-1500-foil:60,absorber=300", "1xjar-950:60"])
def test_every_cooler_place_is_at_least_as_good_whatever_its_age(
    house: World, split: str, days: int
) -> None:
    code = _packed(house, split)
    for name, dc in (("a", 230), ("b", 150), ("c", 50), ("d", -180)):
        places.add_place(house.room, name, temperature_dc=dc)
    found = _moves(what_if(house.later(days).room, code).choices)
    ordered = [found[name].gain_days for name in ("a", "b", "c", "d")]
    assert ordered == sorted(ordered)
    assert ordered[0] >= 0


def test_a_move_counts_from_today_only(house: World) -> None:
    """The later it is moved, the less there is to gain."""
    code = _packed(house, "1xpouch-1500-foil:60,absorber=300")
    by_age = [
        _moves(what_if(house.later(days).room, code).choices)["cellar"].gain_days
        for days in (0, 200, 800, 2000)
    ]
    assert by_age == sorted(by_age, reverse=True)
    assert by_age[-1] < by_age[0] / 2 < by_age[0]


def test_what_it_says_is_what_comes_true(house: World) -> None:
    """The package moved on that day has the date that was promised."""
    code = _packed(house, "1xpouch-1500-foil:60,absorber=300")
    later = house.later(90)
    promised = _moves(what_if(later.room, code).choices)["cellar"]
    packages.move_packages(later.room, [code], "cellar")
    assert house.package(code).best_by == promised.best_by


def test_places_alike_are_named_once_and_unknown_ones_not_at_all(house: World) -> None:
    moves = _moves(what_if(house.room, _packed(house, "1xjar-950:60")).choices)
    assert set(moves) == {"cellar", "loft"}
    climate.set_humidity(house.room, "cellar/rack", 90)
    code = _packed(house, "1xjar-950:60")
    assert set(_moves(what_if(house.room, code).choices)) == {"cellar", "cellar/rack", "loft"}


def test_too_warm_a_place_has_a_reason_instead_of_a_date(house: World) -> None:
    loft = _moves(what_if(house.room, _packed(house, "1xjar-950:60")).choices)["loft"]
    assert loft.best_by is None
    assert "47.0 °C" in loft.why_not
    assert loft.gain_days == 0


def test_an_absorber_where_there_was_none_gains_years(house: World) -> None:
    code = _packed(house, "1xpouch-1500-foil:60")
    page = what_if(house.room, code)
    assert page.now.limited_by == "oxygen"
    own = [one for one in _repacks(page.choices) if one.container_key == "pouch-1500-foil"]
    with_absorber = [one for one in own if one.absorber_cc]
    assert with_absorber and with_absorber[0].gain_days > 3 * 365
    assert f"{with_absorber[0].absorber_cc} cc absorber" in with_absorber[0].words
    assert with_absorber[0].words.startswith("dried again and repacked")
    vacuum = [one for one in own if one.vacuum]
    assert len(vacuum) == 1 and vacuum[0].absorber_cc == 0
    assert 0 <= vacuum[0].gain_days <= with_absorber[0].gain_days


def test_a_bag_may_go_into_a_jar_or_a_foil_pouch(house: World) -> None:
    code = _packed(house, "1xbag-zip-1000:60")
    repacks = _repacks(what_if(house.room, code).choices)
    into = {one.container_key for one in repacks if one.gain_days > 365}
    assert any(key.startswith("jar-") for key in into)
    assert any(key.endswith("-foil") for key in into)


def test_the_same_package_again_is_no_choice(house: World) -> None:
    """The absorber it needs is in it already: drying it again would only be work."""
    needed = [
        one.absorber_cc
        for one in _repacks(what_if(house.room, _packed(house, "1xpouch-1500-foil:60")).choices)
        if one.container_key == "pouch-1500-foil" and not one.vacuum
    ]
    (cc,) = needed
    code = _packed(house, f"1xpouch-1500-foil:60,absorber={cc}")
    own = [
        one
        for one in _repacks(what_if(house.room, code).choices)
        if one.container_key == "pouch-1500-foil"
    ]
    assert [(one.absorber_cc, one.vacuum) for one in own] == [(0, True)]
    assert own[0].gain_days <= 0


def test_the_best_comes_first_and_nothing_is_changed(house: World) -> None:
    code = _packed(house, "1xpouch-1500-foil:60")
    before = house.whole_dump()
    page = what_if(house.room, code)
    gained = [one.gain_days for one in page.choices]
    assert gained == sorted(gained, reverse=True)
    for one in page.choices:
        assert (one.best_by is None) == (one.why_not != "")
        if one.best_by is not None:
            assert one.low is not None and one.high is not None
            assert one.low <= one.best_by <= one.high
            assert one.limited_by
    assert house.whole_dump() == before


def test_a_lot_has_a_page_for_each_kind_of_package(house: World) -> None:
    lot = house.dry_lot(PEAS)
    house.pack(lot, "3xpouch-400-foil:20,absorber=100", "1xjar-475:20", place="kitchen")
    packages.move_packages(house.room, ["26329A03"], "cellar")
    pages = what_if_lot(house.room, lot)
    assert [tuple(code[:8] for code in page.alike) for page in pages] == [
        ("26329A01", "26329A02"),
        ("26329A03",),
        ("26329A04",),
    ]
    assert pages[0].now == what_if(house.room, "26329A02").now


def test_gains_are_ranked_by_servings_and_days(house: World) -> None:
    lot = house.dry_lot(PEAS)
    house.pack(
        lot, "3xpouch-400-foil:20,absorber=100", "1xpouch-400-foil:20,absorber=100", place="kitchen"
    )
    _packed(house, "1xbag-zip-1000:60")
    found = gains(house.room)
    assert found
    days = [one.serving_days for one in found]
    assert days == sorted(days, reverse=True)
    for one in found:
        assert one.choice.gain_days >= LEAST_GAIN_DAYS
        assert one.choice.kind in ("move", "repack")
        assert one.servings == sum(package.servings_left for package in one.packages)
        assert one.serving_days == one.servings * one.choice.gain_days
    peas = [one for one in found if one.packages[0].lot_code == lot]
    assert {len(one.packages) for one in peas} == {4}, "packages alike are advised together"
    assert len({(one.packages[0].code, one.choice.kind) for one in found}) == len(found)
    assert gains(house.room, most=1) == found[:1]


def test_what_is_open_or_doubtful_is_left_out(house: World) -> None:
    lot = house.dry_lot(PEAS)
    codes = house.pack(lot, "4xpouch-400-foil:20,absorber=100", place="kitchen")
    packages.draw_package(house.room, codes[0], Amount(dry_dg=10))
    packages.check_package(house.room, codes[1], Event.LEAK)
    packages.discard_packages(house.room, [codes[2]], "torn")
    for gain in gains(house.room):
        assert [one.code for one in gain.packages] == [codes[3]]


def test_packages_sealed_on_the_same_day_with_another_past_are_not_advised_together(
    house: World,
) -> None:
    """One of them stood in the cellar for years and only came up yesterday."""
    lot = house.dry_lot(PEAS)
    codes = house.pack(lot, "2xpouch-400-foil:20,absorber=100", place="kitchen")
    packages.move_packages(house.later(1).room, [codes[0]], "cellar")
    packages.move_packages(house.later(1500).room, [codes[0]], "kitchen")
    later = house.later(1501)
    first, second = (what_if(later.room, code) for code in codes)
    assert first.now.best_by != second.now.best_by
    for gain in gains(later.room):
        for package in gain.packages:
            moved = _moves(what_if(later.room, package.code).choices)
            if gain.choice.kind == "move":
                assert moved[gain.choice.place].gain_days == gain.choice.gain_days


def test_advice_may_be_given_up_and_tells_how_far_it_is(house: World) -> None:
    for _ in range(3):
        _packed(house, "1xbag-zip-1000:60")
    told: list[tuple[int, int]] = []
    assert gains(house.room, progress=lambda done, of: told.append((done, of)))
    assert told[0] == (0, 3)
    assert gains(house.room, cancelled=lambda: True) == ()


def test_nothing_stored_nothing_to_gain(house: World) -> None:
    assert gains(house.room) == ()
    code = _packed(house, "1xpouch-1500-foil:60,absorber=300")
    packages.draw_package(house.later(30).room, code, Amount(dry_dg=100))
    page = what_if(house.later(30).room, code)
    assert page.now.limited_by == "opened"
    assert page.now.best_by is not None
    assert page.now.best_by <= TODAY + timedelta(days=44)
