"""What the demo holds: enough of everything, in figures that could have come off a real scale."""

from __future__ import annotations

import re
from collections import Counter
from datetime import timedelta
from fractions import Fraction
from itertools import pairwise

import pytest

from seeds_demo.build import DEMO_DAY
from seeds_demo.recipe_book import recipes
from seeds_demo.setting_up import HUT_ALTITUDE_M
from seeds_demo.tables import read_rows, read_text
from stockroom.domain.conditions import Condition
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Allergen
from stockroom.domain.keeping.interface import LimitedBy, PackageKind
from stockroom.domain.member_records import Figures
from stockroom.domain.records import Lot, Package
from stockroom.services.bench import list_runs, run_detail
from stockroom.services.climate import climate_page, preview_readings
from stockroom.services.foods import list_foods
from stockroom.services.keeping import projections_are_current, refresh_everything
from stockroom.services.kitchen import cook_sheet, list_meals, list_recipes
from stockroom.services.packing import list_lots, lot_detail
from stockroom.services.people import eaters_avoid, household_need
from stockroom.services.places import list_places
from stockroom.services.session import Stockroom
from stockroom.services.shelves import find_packages, package_detail, shelf_filter
from stockroom.services.today import round_for_today
from stockroom.services.whatif import gains, what_if
from tests.invariants import all_troubles

PROPER = {"USDA", "FSIS", "C", "F"}
"""Names that may stand in the record: the source of a temperature, and its units."""

TABLES = (
    "places",
    "climates",
    "foods",
    "people",
    "runs",
    "trays",
    "packings",
    "diary",
    "decisions",
    "repackings",
    "upkeep",
)


def packages(room: Stockroom) -> tuple[Package, ...]:
    """Every package there ever was."""
    return find_packages(room, shelf_filter(room, gone=True))


def lots(room: Stockroom) -> tuple[Lot, ...]:
    """Every lot there ever was."""
    return list_lots(room, count=1000)


def test_two_years_of_everything(demo: Stockroom) -> None:
    assert len(lots(demo)) >= 25
    assert len(packages(demo)) >= 250
    assert len(list_recipes(demo)) == 12
    assert len(list_meals(demo, count=1000)) >= 50
    assert all(recipe.last_cooked_on for recipe in list_recipes(demo))
    assert len(list_foods(demo)) == len(read_rows("foods"))
    assert {lot.food for lot in lots(demo)} == {food.name for food in list_foods(demo)}


def test_four_people_with_their_needs(demo: Stockroom) -> None:
    need = household_need(demo)
    assert (need.people, need.others) == (4, 0)
    assert [one.member.name for one in need.members] == [row["name"] for row in read_rows("people")]
    assert {one.member.figures for one in need.members} == {Figures.OLD, Figures.TABLE}
    assert all(
        one.age_years == int(row["age"]) + 2
        for one, row in zip(need.members, read_rows("people"), strict=True)
    )
    # The equations of 2002/2005 for three, the table of the Dietary Guidelines for the fourth.
    expected = (
        354
        - 6.91 * 54
        + 1.27 * (9.36 * 68 + 726 * 1.68)
        + 662
        - 9.53 * 40
        + 1.11 * (15.91 * 82 + 539.6 * 1.80)
        + 354
        - 6.91 * 31
        + 1.27 * (9.36 * 61 + 726 * 1.65)
        + 3200
    )
    assert float(need.kcal_per_day) == pytest.approx(expected)
    avoid = eaters_avoid(demo)
    assert [(one.allergen, one.who) for one in avoid.allergens] == [
        (Allergen.TREE_NUTS, ("bird counter",))
    ]
    assert [(one.food, one.who) for one in avoid.foods] == [("mashed turnip", ("apprentice",))]


def test_several_containers_and_ways_to_close_them(demo: Stockroom) -> None:
    every = packages(demo)
    assert {one.package_kind for one in every} == set(PackageKind)
    assert len({one.container_key for one in every if one.package_kind == "foil_pouch"}) >= 4
    assert all(one.absorber_cc for one in every if one.package_kind == "foil_pouch")
    assert {one.vacuum for one in every} == {True, False}


def test_every_condition_a_step_of_the_story_leads_to(demo: Stockroom) -> None:
    found = {one.condition for one in packages(demo)}
    assert found == set(Condition)


def test_places_of_the_hut(demo: Stockroom) -> None:
    places = {place.path: place for place in list_places(demo)}
    tops = {path: place.kind for path, place in places.items() if place.depth == 0}
    assert tops == {
        "galley cupboard": "cupboard",
        "cold cellar": "cellar",
        "boat-shed loft": "loft",
        "chest freezer": "freezer",
    }
    degrees = {top: (places[top].temperature_dc or 0) / 10 for top in tops}
    assert degrees == {
        "galley cupboard": 18,
        "cold cellar": 9,
        "boat-shed loft": 16,
        "chest freezer": -18,
    }
    racks = [place for place in places.values() if place.path.startswith("cold cellar/")]
    assert sum(place.kind == "rack" for place in racks) == 3
    assert all(place.temperature_dc == 90 for place in racks)
    assert {one.place.split("/")[0] for one in packages(demo) if not one.gone_on} == set(tops)


class TestClimates:
    """How warm and damp it is: steady, by months, or read off a logger."""

    def test_loft_has_a_year_of_months(self, demo: Stockroom) -> None:
        page = climate_page(demo, "boat-shed loft")
        assert page.months_dc[0] == page.months_dc[1] == 40
        assert max(page.months_dc) == page.months_dc[6] == 250
        assert (page.climate.measured, page.readings) == (False, 0)
        assert page.mean_c is not None and page.kinetic_c is not None
        assert page.kinetic_c > page.mean_c + 1.5, "summer ages what stands there the most"

    def test_cellar_has_a_year_of_readings(self, demo: Stockroom) -> None:
        page = climate_page(demo, "cold cellar")
        assert page.climate.measured
        assert (page.first_reading[:10], page.last_reading[:10]) == ("2025-06-01", "2026-06-01")
        assert 700 < page.readings < 731
        assert 65 < min(page.months_dc) < 80 < 100 < max(page.months_dc) < 115

    def test_cupboard_is_steady_and_two_places_say_how_damp(self, demo: Stockroom) -> None:
        pages = {top: climate_page(demo, top) for top in ("galley cupboard", "cold cellar")}
        assert set(pages["galley cupboard"].months_dc) == {180}
        assert [page.climate.humidity_percent for page in pages.values()] == [50, 80]
        assert climate_page(demo, "boat-shed loft").climate.humidity_percent is None

    def test_bins_are_as_warm_as_the_place_they_stand_in(self, demo: Stockroom) -> None:
        inside = climate_page(demo, "boat-shed loft/west chest")
        assert inside.months_dc == climate_page(demo, "boat-shed loft").months_dc

    def test_the_loggers_file_has_rows_to_leave_out(self, demo: Stockroom) -> None:
        text = read_text("cellar-logger.csv")
        table = preview_readings(demo, "cold cellar", text).table
        lines = text.splitlines()
        assert [lines[bad.line - 1] for bad in table.bad] == [
            "2025-08-30 18:00;--;--",
            "2025-08-31 06:00;85,0;0",
            "battery changed;;",
            "2025-12-19 18:00;-127,0;0",
            "2026-04-02 18:00;?;79",
        ]
        assert all(bad.why for bad in table.bad)
        assert len(table.readings) + len(table.bad) + 2 == len(lines)

    def test_the_hut_stands_near_the_sea(self, demo: Stockroom) -> None:
        assert demo.household.altitude_m == HUT_ALTITUDE_M


class TestBestBy:
    """Enough going on that every limit binds somewhere and advice has something to say."""

    def test_every_limit_binds_somewhere(self, demo: Stockroom) -> None:
        found = Counter(limit_of(demo, one) for one in packages(demo) if one.best_by)
        assert set(found) == set(LimitedBy)
        assert found[LimitedBy.TEMPERATURE] > sum(found.values()) / 2
        assert all(found[limit] >= 5 for limit in LimitedBy)

    def test_dates_were_all_computed_with_what_is_known_now(self, demo: Stockroom) -> None:
        before = {one.code: one.best_by for one in packages(demo)}
        assert projections_are_current(demo)
        refresh_everything(demo)
        assert {one.code: one.best_by for one in packages(demo)} == before

    def test_a_summer_in_the_loft_costs_years(self, demo: Stockroom) -> None:
        peas = {one.code[:8]: one for one in packages(demo) if one.lot_code == "25187A"}
        hot, cool = peas["25187A10"], peas["25187A09"]
        assert hot.place.startswith("boat-shed loft") and cool.place.startswith("cold cellar")
        assert hot.best_by is not None and cool.best_by is not None
        assert (cool.best_by - hot.best_by).days > 3 * 365
        choices = {one.place: one for one in what_if(demo, hot.code).choices if one.place}
        assert choices["cold cellar"].gain_days > 3 * 365
        assert choices["galley cupboard"].gain_days < 0

    def test_the_big_pouch_has_too_small_an_absorber(self, demo: Stockroom) -> None:
        """300 cc in a gallon of light pieces leaves more than half of the oxygen there."""
        (pouch,) = [one for one in packages(demo) if one.container_key == "pouch-3785-foil"]
        assert (pouch.absorber_cc, limit_of(demo, pouch)) == (300, LimitedBy.OXYGEN)
        best = what_if(demo, pouch.code).choices[0]
        assert (best.kind, best.absorber_cc, best.limited_by) == (
            "repack",
            1000,
            LimitedBy.TEMPERATURE,
        )
        assert best.gain_days > 15 * 365

    def test_the_silvery_pouches_let_damp_through(self, demo: Stockroom) -> None:
        silvery = [one for one in packages(demo) if one.package_kind == "metallised_pouch"]
        left = [one for one in silvery if one.best_by]
        assert len(silvery) == 5 and len(left) == 4
        assert {limit_of(demo, one) for one in left} == {LimitedBy.MOISTURE}

    def test_advice_for_the_whole_store_has_moves_and_repacks(self, demo: Stockroom) -> None:
        found = gains(demo, most=20)
        assert len(found) == 20
        assert {gain.choice.kind for gain in found} == {"move", "repack"}
        lots = {gain.packages[0].lot_code for gain in found}
        assert {"25341B", "26250A"} <= lots, "the silvery pouches and the big one"


def limit_of(room: Stockroom, package: Package) -> str:
    """What the best-by of a package is limited by."""
    projection = package_detail(room, package.code).projection
    assert projection is not None
    return projection.limited_by


def test_packages_and_losses_are_the_lot(demo: Stockroom) -> None:
    for lot in lots(demo):
        detail = lot_detail(demo, lot.code)
        # What was packed anew is food of packages that count already.
        packed = [one for one in detail.packages if one.origin == "packed"]
        dry_dg = [one.dry_dg for one in (*packed, *detail.losses)]
        water_dg = [one.water_dg for one in (*packed, *detail.losses)]
        if lot.left_dg == 0:
            assert (sum(dry_dg), sum(water_dg)) == (lot.dry_dg, lot.water_removed_dg), lot.code
        assert all(one.dry_dg < lot.dry_dg for one in detail.packages), lot.code


def test_the_record_is_sound(demo: Stockroom) -> None:
    assert all_troubles(demo) == []


def test_water_removed_is_near_the_composition(demo: Stockroom) -> None:
    """Composition: USDA National Nutrient Database for Standard Reference, Release 28."""
    foods = {food.food_id: food for food in list_foods(demo)}
    for lot in lots(demo):
        water_cg = foods[lot.food_id].water_cg
        assert water_cg is not None
        removed = Fraction(lot.water_removed_dg, lot.wet_dg)
        assert abs(removed - Fraction(water_cg, 10_000)) < Fraction(3, 100), lot.code


def test_nothing_is_fuller_than_full(demo: Stockroom) -> None:
    """Dried pieces keep their size, and these foods weigh about 1 g per mL: fresh fits too."""
    for one in packages(demo):
        assert one.dry_dg + one.water_dg <= one.volume_ml * 10, (one.code, one.container)


def test_trays_and_runs(demo: Stockroom) -> None:
    runs = list_runs(demo, count=1000)
    assert {run.trays for run in runs} == {4, 5}
    assert {run.state for run in runs} == {"open", "closed", "abandoned"}
    ends = {run.run_id: run.closed_on or DEMO_DAY for run in runs}
    in_order = sorted(runs, key=lambda run: run.run_id)
    for earlier, later in pairwise(in_order):
        assert ends[earlier.run_id] <= later.started_on, "one machine, one load at a time"


def test_dishes_made_here_have_their_allergens_settled(demo: Stockroom) -> None:
    foods = {food.name: food for food in list_foods(demo)}
    assert foods["cod chowder"].allergens == ("fish", "milk")
    assert foods["scrambled egg"].allergens == ("egg", "milk")
    assert not foods["cod chowder"].ingredients_unknown
    assert foods["chickpea curry"].ingredients_unknown


class TestTheDay:
    """What waits on the demo's day."""

    def test_settle_checks_of_what_was_sealed_yesterday(self, demo: Stockroom) -> None:
        due = round_for_today(demo).settle
        assert {one.sealed_on for one in due} == {DEMO_DAY - timedelta(days=1)}
        assert {one.food for one in due} == {"apple slices", "blackberries", "carrots"}
        assert len(due) == 8

    def test_one_lot_to_pack(self, demo: Stockroom) -> None:
        page = round_for_today(demo)
        waiting = {entry.code for entry in page.queue}
        (lot,) = [one for one in page.to_pack if one.code not in waiting]
        assert (lot.food, lot.packages, lot.lost_dg) == ("chickpea curry", 0, 0)

    def test_one_open_run_half_weighed(self, demo: Stockroom) -> None:
        (run,) = round_for_today(demo).open_runs
        trays = run_detail(demo, run.run_id).trays
        assert [tray.wet_dg is not None for tray in trays] == [True] * 5
        assert [tray.dry_dg is not None for tray in trays] == [True, True, False, False, False]

    def test_doubtful_opened_and_soon_to_use(self, demo: Stockroom) -> None:
        page = round_for_today(demo)
        assert Counter(page.doubts) == {"soft": 1, "leak": 1, "damaged": 1, "sister_soft": 4}
        assert {"apple slices", "venison stew"} <= {one.food for one in page.opened}
        assert all(0 < one.left_dg < one.dry_dg for one in page.opened)
        first = page.use_first[0].best_by
        assert first is not None and first < DEMO_DAY, "one jar is past its quality estimate"
        assert page.use_first[0].package_kind == PackageKind.JAR

    def test_raw_lot_is_marked_to_cook(self, demo: Stockroom) -> None:
        (raw,) = [lot for lot in lots(demo) if lot.preparation == "raw"]
        assert raw.food == "raw venison mince"
        sheet = cook_sheet(demo, "Mince and mashed turnip", 4)
        assert sheet.raw_foods == ("raw venison mince",)
        assert any("raw" in caution.key for caution in sheet.cautions)
        assert "71 °C" in sheet.recipe.steps

    @pytest.mark.parametrize("recipe", [recipe.name for recipe in recipes()])
    def test_recipes_can_be_cooked_or_say_what_is_short(self, demo: Stockroom, recipe: str) -> None:
        plan = cook_sheet(demo, recipe, 4).plan
        assert plan.water_dg > 0 or plan.short


def test_recipes_use_every_way_to_count() -> None:
    bases = {line.basis for recipe in recipes() for line in recipe.lines if line.food}
    assert bases == set(Basis)
    assert any(line.item for recipe in recipes() for line in recipe.lines)


def test_no_names_of_persons_places_or_makers() -> None:
    """A capital letter inside a sentence would be a name; only PROPER has any."""
    cells = {cell for table in TABLES for row in read_rows(table) for cell in row.values()}
    texts = [*cells, *(recipe.steps for recipe in recipes())]
    texts += [line.item or line.food or "" for recipe in recipes() for line in recipe.lines]
    for text in texts:
        inside = re.sub(r"(^|[.:!?]\s+)[A-Z]", " ", text)
        names = set(re.findall(r"\b[A-Z][A-Za-z]*", inside)) - PROPER
        assert not names or text in {recipe.name for recipe in recipes()}, (text, names)


def test_tables_are_plain_text() -> None:
    for name in TABLES:
        text = read_text(f"{name}.csv")
        assert text.endswith("\n") and "\r" not in text and "\t" not in text
        assert len({len(row) for row in read_rows(name)}) == 1
