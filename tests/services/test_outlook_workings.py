"""Advice, what if and gains: the working of each date and absorber comes to the one shown."""

from __future__ import annotations

import pytest

from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.packing import LotBalance, read_split, shares
from stockroom.domain.water import show_water
from stockroom.services import household, packing, places
from stockroom.services.advice import advise_lot
from stockroom.services.outlook_workings import (
    advice_working,
    advice_workings,
    choice_working,
    gain_working,
    gains_working,
    planned_working,
    what_if_working,
)
from stockroom.services.results import Choice
from stockroom.services.whatif import gains, what_if, what_if_lot
from tests.workings import check_figures, step_of, titled
from tests.world import APPLE, BEEF_RAW, PEAS, World


@pytest.fixture
def house(world: World) -> World:
    """A warm kitchen, a cool cellar and an oven of a loft."""
    for place, dc in (("kitchen", 240), ("cellar", 100), ("loft", 470)):
        places.add_place(world.room, place, temperature_dc=dc)
    return world


# Packing advice


@pytest.mark.parametrize("food", [PEAS, APPLE, BEEF_RAW])
def test_every_way_has_the_absorber_and_the_date_of_the_advice(house: World, food: str) -> None:
    household.change_household(house.room, altitude_m=800)
    advice = advise_lot(house.room, house.dry_lot(food, 3_000, 500), place="cellar")
    ways = [*([advice.advised] if advice.advised else []), *advice.others]
    assert len(ways) == 5
    for way in ways:
        filled, absorber, best_by = advice_working(house.room, advice, way).workings
        assert filled.conclusion == (
            f"{way.fit.count} x {way.fit.container.name}, {way.fit.each_dg / 10:.1f} g dry in each"
        )
        assert best_by.conclusion.startswith(str(way.best_by))
        if way.absorber is None:
            assert absorber.conclusion.startswith("none: one of ")
        else:
            size = " + ".join(map(str, way.absorber.absorbers))
            assert absorber.conclusion == f"{size} cc"
            assert step_of(absorber, "next stock size").result == f"{size} cc"
            assert step_of(best_by, "the package").inputs[3].value_text == (
                f"{way.absorber.absorber_cc} cc"
            )
        assert check_figures(filled) == 4
        assert check_figures(absorber) >= 2 and check_figures(best_by) >= 6
    every = advice_workings(house.room, advice)
    assert len(every) == 15
    assert [one.title for one in every[:3]] == [
        f"{what}, {ways[0].fit.container.name}"
        for what in ("How many, and how full", "Absorber", "Best-by")
    ]


def test_a_bag_says_how_soon_an_absorber_would_be_spent(house: World) -> None:
    advice = advise_lot(house.room, house.dry_lot(APPLE))
    spent = {
        way.fit.container.package_kind: float(
            step_of(advice_working(house.room, advice, way).workings[1], "it would be spent")
            .result.split()[0]
        )
        for way in advice.others
        if way.absorber is None
    }  # fmt: skip
    assert spent[PackageKind.ZIP_BAG] < 10 < spent[PackageKind.VACUUM_BAG] < 365


def test_where_nothing_is_advised_each_way_says_why(house: World) -> None:
    advice = advise_lot(house.room, house.dry_lot(APPLE), place="loft")
    assert advice.advised is None
    for way in advice.others:
        best_by = advice_working(house.room, advice, way).workings[-1]
        assert best_by.conclusion == f"none: {way.why_not}"


# Packages about to be closed


@pytest.mark.parametrize(
    "typed",
    [
        "2xpouch-1500-foil:62,absorber=300",
        "1xjar-950:rest",
        "1xbag-zip-1000:20",
        "3xpouch-400-foil:20,absorber=100,vacuum=20",
    ],
)
def test_a_planned_package_comes_true(house: World, typed: str) -> None:
    code = house.dry_lot()
    lot, split = house.lot(code), read_split(typed)
    balance = LotBalance(lot.code, lot.wet_dg, lot.dry_dg, 0, 0)
    each_dg = split.each_dg or lot.left_dg
    share = shares(balance, [each_dg])[0]
    water, absorber, best_by = planned_working(
        house.room, code, split, share, place="cellar"
    ).workings
    made = house.package(packing.pack_lot(house.room, code, [split], place="cellar").codes[0])
    assert water.conclusion == show_water(made.water_dg)
    assert best_by.conclusion.startswith(str(made.best_by))
    if split.absorber_cc:
        assert absorber.conclusion.startswith(f"{split.absorber_cc} cc leaves ")
    elif made.package_kind == PackageKind.ZIP_BAG:
        assert absorber.conclusion.startswith("none: ")
    else:
        assert absorber.conclusion.endswith(" cc")


def test_too_much_for_a_container_is_said_in_the_working(house: World) -> None:
    code = house.dry_lot(wet_g=9_000, dry_g=2_000)
    lot = house.lot(code)
    share = shares(LotBalance(code, lot.wet_dg, lot.dry_dg, 0, 0), [lot.dry_dg])[0]
    _, absorber, best_by = planned_working(
        house.room, code, read_split("1xjar-240:rest"), share
    ).workings
    assert "cannot fit" in absorber.conclusion and "cannot fit" in best_by.conclusion


# What if


def _years(days: int) -> str:
    return f"{days} days, {days / 365.25:+.1f} years (quality estimate, not safety)"


def test_every_choice_has_its_date_its_gain_and_its_absorber(house: World) -> None:
    code = house.packed(APPLE, "1xpouch-1500-foil:60,absorber=300", place="kitchen")[0]
    page = what_if(house.later(60).room, code)
    kinds: set[str] = set()
    for choice in (page.now, *page.choices):
        found = choice_working(house.room, page, choice).workings
        best_by = titled(found, f"Best-by, {choice.words}")
        if choice.best_by is None:
            assert best_by.conclusion == f"none: {choice.why_not}"
            continue
        assert best_by.conclusion.startswith(str(choice.best_by))
        assert best_by.steps[-1].result.startswith(str(choice.best_by))
        if choice.kind != "now":
            assert titled(found, "Gain").conclusion == _years(choice.gain_days)
        if choice.absorber_cc:
            size = titled(found, f"Absorber, {choice.words}").conclusion
            assert sum(map(int, size.removesuffix(" cc").split(" + "))) == choice.absorber_cc
            kinds.add("absorber")
        kinds.add(choice.kind)
    assert kinds == {"now", "move", "repack", "absorber"}


def test_what_if_of_a_lot_names_the_package_in_each_title(house: World) -> None:
    lot = house.dry_lot(APPLE)
    codes = house.pack(lot, "1xpouch-1500-foil:60,absorber=300", "1xjar-475:20")
    pages = what_if_lot(house.room, lot)
    titles = [one.title for one in what_if_working(house.room, pages)]
    for code in codes:
        assert f"Best-by of {code}, left as it is" in titles
    assert len(titles) == len(set(titles))
    one = what_if_working(house.room, pages[:1])
    assert one[0].title == "Best-by, left as it is"
    assert sum(title.title.startswith("Best-by") for title in one) == 1 + len(pages[0].choices)


def test_a_choice_made_by_hand_has_no_working() -> None:
    """Only what the model was asked can be explained."""
    assert Choice("now", "left as it is", None, None, None, "", 0).case is None


# Gains


def test_each_gain_has_both_dates_and_what_it_is_worth(house: World) -> None:
    house.packed(APPLE, "2xpouch-1500-foil:40,absorber=300", place="kitchen")
    house.packed(PEAS, "1xjar-950:100", place="kitchen")
    found = gains(house.room)
    assert len(found) >= 3
    for gain in found:
        page = gain_working(house.room, gain).workings
        assert gain.now is not None
        assert titled(page, "Gain").conclusion == _years(gain.choice.gain_days)
        worth = step_of(titled(page, "Gain"), "ranked by").result
        assert float(worth.split()[0]) == pytest.approx(float(gain.serving_days), abs=0.05)
        assert titled(page, f"Best-by, {gain.choice.words}").conclusion.startswith(
            str(gain.choice.best_by)
        )
        assert titled(page, "Best-by, left as it is").conclusion.startswith(str(gain.now.best_by))
    assert len(gains_working(house.room, found)) >= 3 * len(found)
