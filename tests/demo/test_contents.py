"""What the demo holds: enough of everything, in figures that could have come off a real scale."""

from __future__ import annotations

import re
from datetime import timedelta
from fractions import Fraction
from itertools import pairwise

import pytest

from seeds_demo.build import DEMO_DAY
from seeds_demo.recipe_book import recipes
from seeds_demo.tables import read_rows, read_text
from stockroom.domain.conditions import Condition
from stockroom.domain.cooking import Basis
from stockroom.domain.records import Lot, Package
from stockroom.services.bench import list_runs, run_detail
from stockroom.services.foods import list_foods
from stockroom.services.kitchen import cook_sheet, list_meals, list_recipes
from stockroom.services.packing import list_lots, lot_detail
from stockroom.services.places import list_places
from stockroom.services.session import Stockroom
from stockroom.services.shelves import find_packages, shelf_filter
from stockroom.services.today import round_for_today
from tests.invariants import all_troubles

PROPER = {"USDA", "FSIS", "C", "F"}
"""Names that may stand in the record: the source of a temperature, and its units."""


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


def test_several_containers_and_ways_to_close_them(demo: Stockroom) -> None:
    every = packages(demo)
    assert {one.package_kind for one in every} == {"foil_pouch", "jar", "vacuum_bag", "zip_bag"}
    assert len({one.container_key for one in every if one.package_kind == "foil_pouch"}) >= 4
    assert all(one.absorber_cc for one in every if one.package_kind == "foil_pouch")
    assert {one.vacuum for one in every} == {True, False}


def test_every_condition_a_step_of_the_story_leads_to(demo: Stockroom) -> None:
    found = {one.condition for one in packages(demo)}
    assert found == set(Condition) - {Condition.HELD}


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


def test_packages_and_losses_are_the_lot(demo: Stockroom) -> None:
    for lot in lots(demo):
        detail = lot_detail(demo, lot.code)
        dry_dg = [one.dry_dg for one in (*detail.packages, *detail.losses)]
        water_dg = [one.water_dg for one in (*detail.packages, *detail.losses)]
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
        assert {one.food for one in due} == {"apple slices", "blackberries"}
        assert len(due) == 9

    def test_one_lot_to_pack(self, demo: Stockroom) -> None:
        (lot,) = round_for_today(demo).to_pack
        assert (lot.food, lot.packages, lot.lost_dg) == ("chickpea curry", 0, 0)

    def test_one_open_run_half_weighed(self, demo: Stockroom) -> None:
        (run,) = round_for_today(demo).open_runs
        trays = run_detail(demo, run.run_id).trays
        assert [tray.wet_dg is not None for tray in trays] == [True] * 5
        assert [tray.dry_dg is not None for tray in trays] == [True, True, False, False, False]

    def test_doubtful_opened_and_soon_to_use(self, demo: Stockroom) -> None:
        page = round_for_today(demo)
        assert len(page.suspect) == 3
        assert {"apple slices", "venison stew"} <= {one.food for one in page.opened}
        assert all(0 < one.left_dg < one.dry_dg for one in page.opened)
        first = page.use_first[0].best_by
        assert first is not None and first < DEMO_DAY, "one jar is past its quality estimate"

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
    tables = ("places", "foods", "runs", "trays", "packings", "diary")
    cells = {cell for table in tables for row in read_rows(table) for cell in row.values()}
    texts = [*cells, *(recipe.steps for recipe in recipes())]
    texts += [line.item or line.food or "" for recipe in recipes() for line in recipe.lines]
    for text in texts:
        inside = re.sub(r"(^|[.:!?]\s+)[A-Z]", " ", text)
        names = set(re.findall(r"\b[A-Z][A-Za-z]*", inside)) - PROPER
        assert not names or text in {recipe.name for recipe in recipes()}, (text, names)


def test_tables_are_plain_text() -> None:
    for name in ("places", "foods", "runs", "trays", "packings", "diary"):
        text = read_text(f"{name}.csv")
        assert text.endswith("\n") and "\r" not in text and "\t" not in text
        assert len({len(row) for row in read_rows(name)}) == 1
