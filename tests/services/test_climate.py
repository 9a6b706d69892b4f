"""How warm and damp places are: what is said, what is inherited, what a logger read."""

from __future__ import annotations

from datetime import date

import pytest

from stockroom.services import climate, history, packages, places, shelves
from stockroom.services.climate import climate_page
from tests.dumps import difference
from tests.invariants import projection_troubles
from tests.world import PEAS, World

SUMMER = "Time,Temp °C\n2026-07-01 06:00,20\n2026-07-01 18:00,20\n2026-07-02 06:00,20\n"
MONTHS = {month: 40 + 20 * month for month in range(1, 13)}


@pytest.fixture
def house(world: World) -> World:
    """Peas in the cellar's rack, in the loft and in a rack that has its own temperature."""
    world.places("cellar", "cellar/rack", "cellar/cold rack", "loft")
    places.change_place(world.room, "cellar/cold rack", temperature_dc=50)
    lot = world.dry_lot(PEAS)
    for place in ("cellar/rack", "loft", "cold rack"):
        world.pack(lot, "1xpouch-1500-foil:40,absorber=300", place=place)
    return world


IN_RACK, IN_LOFT, IN_COLD = "26329A01", "26329A02", "26329A03"


def _best_by(world: World, code: str) -> object:
    stored = shelves.package_detail(world.room, code).projection
    assert stored is not None
    return stored.best_by


def _dates(world: World) -> tuple[object, ...]:
    return tuple(_best_by(world, code) for code in (IN_RACK, IN_LOFT, IN_COLD))


def test_nothing_is_known_of_a_new_place(house: World) -> None:
    page = climate_page(house.room, "loft")
    assert page.months_dc == ()
    assert page.mean_c is page.kinetic_c is page.pharmacopoeia_kinetic_c is None
    assert (page.readings, page.first_reading, page.last_reading) == (0, "", "")


def test_a_steady_place_is_the_same_all_year_and_so_is_its_rack(house: World) -> None:
    climate.set_steady(house.room, "cellar", 120)
    for path in ("cellar", "cellar/rack"):
        page = climate_page(house.room, path)
        assert page.months_dc == (120,) * 12
        assert page.mean_c == pytest.approx(12)
        assert page.kinetic_c == pytest.approx(12)
    assert climate_page(house.room, "cold rack").months_dc == (50,) * 12


def test_months_are_filled_inherited_and_taken_away_again(house: World) -> None:
    climate.set_steady(house.room, "cellar", 120)
    climate.set_months(house.room, "cellar", {1: 40, 7: 160})
    year = (40, 60, 80, 100, 120, 140, 160, 140, 120, 100, 80, 60)
    for path in ("cellar", "cellar/rack"):
        page = climate_page(house.room, path)
        assert page.months_dc == year
        assert not page.climate.measured
        # Weighted by the days of the months, the year's own mean; kinetic never below it.
        assert page.mean_c is not None and page.kinetic_c is not None
        assert page.mean_c == pytest.approx(10, abs=0.2)
        assert page.kinetic_c > page.mean_c
    assert climate_page(house.room, "cold rack").months_dc == (50,) * 12
    climate.set_months(house.room, "cellar", {})
    assert climate_page(house.room, "cellar").months_dc == (120,) * 12


def test_the_dates_follow_the_months_of_the_place_and_of_no_other(house: World) -> None:
    rack, loft, cold = _dates(house)
    climate.set_months(house.room, "cellar", dict.fromkeys(range(1, 13), 90))
    assert _best_by(house, IN_RACK) > rack  # type: ignore[operator]
    assert (_best_by(house, IN_LOFT), _best_by(house, IN_COLD)) == (loft, cold)
    assert projection_troubles(house.room) == []
    cool = _best_by(house, IN_RACK)
    climate.set_steady(house.room, "cellar", 90)
    assert _best_by(house, IN_RACK) == cool, "twelve equal months are a steady temperature"


def test_humidity_is_inherited_unless_said(house: World) -> None:
    climate.set_humidity(house.room, "cellar", 80)
    said = {one: climate_page(house.room, one).climate.humidity_percent for one in HUMID}
    assert said == {"cellar": 80, "cellar/rack": 80, "cellar/cold rack": 80, "loft": None}
    climate.set_humidity(house.room, "cellar/rack", 40)
    climate.set_steady(house.room, "cellar/rack", 200)
    assert climate_page(house.room, "cellar/rack").climate.humidity_percent == 40
    climate.set_humidity(house.room, "cellar/rack", None)
    assert climate_page(house.room, "cellar/rack").climate.humidity_percent == 80
    assert projection_troubles(house.room) == []


HUMID = ("cellar", "cellar/rack", "cellar/cold rack", "loft")


def test_damp_air_shortens_what_a_bag_keeps(house: World) -> None:
    (code,) = house.pack("26329A", "1xbag-zip-1000:20", place="loft")
    before = _best_by(house, code)
    climate.set_humidity(house.room, "loft", 90)
    damp = shelves.package_detail(house.room, code).projection
    assert damp is not None and damp.limited_by == "moisture"
    assert damp.best_by < before  # type: ignore[operator]
    assert damp.discard_by is not None and damp.discard_by > damp.best_by
    climate.set_humidity(house.room, "loft", 15)
    dry = shelves.package_detail(house.room, code).projection
    assert dry is not None and dry.best_by > before  # type: ignore[operator]
    assert dry.discard_by is None


def test_an_import_keeps_the_good_rows_and_names_the_bad(house: World) -> None:
    text = SUMMER + "2026-07-02 18:00,warm\n,20\n2026-07-03 06:00,26\n"
    preview = climate.preview_readings(house.room, "loft", text)
    assert [(one.line, one.why) for one in preview.table.bad] == [
        (5, "the temperature “warm” cannot be read"),
        (6, "the time “” cannot be read"),
    ]
    assert preview.profile.measured_months == (7,)
    done = climate.import_readings(house.room, "loft", text)
    assert done.words == "kept 4 temperature readings for loft, 2 rows left out"
    page = climate_page(house.room, "loft")
    assert (page.readings, page.first_reading, page.last_reading) == (
        4,
        "2026-07-01 06:00",
        "2026-07-03 06:00",
    )
    assert not page.climate.measured, "July alone says nothing of the other months"
    assert page.months_dc == preview.profile.monthly_dc
    assert page.mean_c == pytest.approx((12 + 12 + 24) * 20 / 72 + 24 * 26 / 72)


def test_readings_of_another_month_join_those_there_were(house: World) -> None:
    climate.import_readings(house.room, "loft", SUMMER)
    assert climate_page(house.room, "loft").months_dc == (200,) * 12
    winter = "Time;°F\n2027-01-01 06:00;32\n2027-01-01 18:00;32\n"
    climate.import_readings(house.room, "loft", winter)
    months = climate_page(house.room, "loft").months_dc
    assert (months[0], months[6]) == (0, 200)
    assert 0 < months[3] < 200
    climate.import_readings(house.room, "loft", SUMMER.replace(",20", ",10"))
    page = climate_page(house.room, "loft")
    assert page.readings == 5, "a minute has one reading: the later file counts"
    assert page.months_dc[6] == 100


def test_measured_is_surer_than_stated(house: World) -> None:
    """What was read with a logger has no ± 3 °C of doubt, so the band is narrower."""
    climate.set_steady(house.room, "loft", 200)
    stated = shelves.package_detail(house.room, IN_LOFT).projection
    climate.import_readings(house.room, "loft", _a_year_at("20.0"))
    measured = shelves.package_detail(house.room, IN_LOFT).projection
    assert stated is not None and measured is not None
    assert measured.best_by == stated.best_by
    assert stated.low < measured.low <= measured.high < stated.high


def _a_year_at(degrees: str) -> str:
    days = (date(2025, month, day) for month in range(1, 13) for day in range(1, 29))
    return "\n".join(["time,°C", *(f"{day.isoformat()} 12:00,{degrees}" for day in days)])


@pytest.mark.parametrize("taken_away_by", ["months", "steady"])
def test_undo_puts_readings_and_dates_back(house: World, taken_away_by: str) -> None:
    start = house.dump()
    climate.import_readings(house.room, "cellar", SUMMER)
    kept = house.dump()
    if taken_away_by == "months":
        climate.set_months(house.room, "cellar", MONTHS)
    else:
        climate.set_steady(house.room, "cellar", None)
    assert climate_page(house.room, "cellar").readings == 0
    history.undo(house.room)
    assert difference(kept, house.dump()) == {}
    assert projection_troubles(house.room) == []
    history.undo(house.room)
    assert difference(start, house.dump()) == {}
    history.redo(house.room)
    assert difference(kept, house.dump()) == {}


def test_a_package_that_stood_there_earlier_is_computed_again(house: World) -> None:
    """Its days in a hot loft count though it has been in the cellar since."""
    later = house.later(200)
    packages.move_packages(later.room, [IN_LOFT], "cellar")
    moved = _best_by(house, IN_LOFT)
    climate.set_months(later.room, "loft", dict.fromkeys(range(1, 13), 350))
    assert _best_by(house, IN_LOFT) < moved  # type: ignore[operator]
    assert projection_troubles(later.room) == []
    history.undo(later.room)
    assert _best_by(house, IN_LOFT) == moved


def test_a_place_moved_below_another_takes_its_climate(house: World) -> None:
    climate.set_months(house.room, "loft", MONTHS)
    climate.set_humidity(house.room, "loft", 70)
    places.put_place(house.room, "cellar/rack", "loft")
    page = climate_page(house.room, "loft/rack")
    assert page.months_dc == tuple(MONTHS.values())
    assert page.climate.humidity_percent == 70
    assert projection_troubles(house.room) == []


def test_an_unused_place_goes_with_its_temperatures_and_comes_back(world: World) -> None:
    world.places("shed")
    climate.import_readings(world.room, "shed", SUMMER)
    there = world.dump()
    places.remove_place(world.room, "shed")
    assert world.dump()["temperature_reading"] == world.dump()["location_temperature"] == ()
    history.undo(world.room)
    assert difference(there, world.dump()) == {}
