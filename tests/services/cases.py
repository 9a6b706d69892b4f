"""One ordinary use of every service that writes, with what has to be there before it."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis, Occasion
from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.leak import Between
from stockroom.domain.packing import read_split
from stockroom.domain.trace_records import GroupKind
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.services import (
    bench,
    climate,
    foods,
    history,
    household,
    kitchen,
    leak_tests,
    packages,
    packing,
    places,
    tracing,
    upkeep,
)
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from tests.services.case import Case
from tests.services.cases_cooking import COOKING_CASES
from tests.services.cases_exchange import EXCHANGE_CASES
from tests.services.cases_horizon import HORIZON_CASES
from tests.services.cases_labels import LABEL_CASES
from tests.services.cases_menu import MENU_CASES
from tests.services.cases_people import PEOPLE_CASES
from tests.services.cases_rechecks import RECHECK_CASES
from tests.services.cases_recipe_files import RECIPE_FILE_CASES
from tests.world import APPLE, PEAS, World


def _nothing(_: World) -> None:
    """The stockroom as it was started."""


def _loaded(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, PEAS, gross_dg=10_500, tare_dg=500)
    bench.load_tray(world.room, 2, APPLE, gross_dg=9_000)


def _dried(world: World) -> None:
    _loaded(world)
    bench.weigh_tray(world.room, 1, "dry", 2_050)
    bench.weigh_tray(world.room, 2, "dry", 1_200)


def _packed(world: World) -> None:
    world.places("cellar", "cellar/rack", "loft")
    world.packed(PEAS, "2xpouch-400-foil:40,absorber=100", "1xjar-475:30", place="rack")


def _cooked(world: World) -> None:
    _packed(world)
    world.recipe()


def _undone(world: World) -> None:
    _packed(world)
    history.undo(world.room)


SOUP = [
    LineRequest(food=PEAS, basis=Basis.FRESH, amount=Fraction(200)),
    LineRequest(food=PEAS, basis=Basis.SERVINGS, amount=Fraction(1)),
    LineRequest(item="onion", amount=Fraction(1), unit="large"),
]

CASES: dict[str, Case] = {
    "household.change_household": Case(
        _nothing, lambda room: household.change_household(room, people=5, name="The hut")
    ),
    "bench.start_run": Case(_nothing, lambda room: bench.start_run(room, note="peas")),
    "bench.load_tray": Case(
        lambda world: bench.start_run(world.room),
        lambda room: bench.load_tray(room, 3, "Crab, Dungeness, moist heat", gross_dg=5_000),
    ),
    "bench.unload_tray": Case(_dried, lambda room: bench.unload_tray(room, 1)),
    "bench.weigh_tray": Case(_loaded, lambda room: bench.weigh_tray(room, 1, "dry", 2_050)),
    "bench.close_run": Case(_dried, bench.close_run),
    "bench.abandon_run": Case(_dried, bench.abandon_run),
    "foods.add_food": Case(
        _nothing,
        lambda room: foods.add_food(
            room,
            "Zoë's cheese sauce",
            food_class=FoodClass.FATTY_DAIRY,
            preparation=Preparation.COOKED,
            allergens=[Allergen.MILK, Allergen.WHEAT],
        ),
    ),
    "foods.change_food": Case(
        _packed,
        lambda room: foods.change_food(
            room, PEAS, new_name="Garden peas", allergens=[Allergen.SESAME], serving_dg=1_000
        ),
    ),
    "packing.pack_lot": Case(
        lambda world: (world.dry_lot(), world.places("loft")),
        lambda room: packing.pack_lot(
            room,
            "26329A",
            [read_split("3xpouch-400-foil:20,absorber=100"), read_split("2xjar-475:rest,vacuum")],
            place="loft",
            note="with a note",
        ),
    ),
    "packing.record_loss": Case(
        lambda world: world.dry_lot(),
        lambda room: packing.record_loss(room, "26329A", 45, LossReason.SPILT, note="the dog"),
    ),
    "packages.move_packages": Case(
        _packed, lambda room: packages.move_packages(room, ["26329A01", "26329A02"], "loft")
    ),
    "packages.draw_package": Case(
        _packed, lambda room: packages.draw_package(room, "26329A01", Amount(dry_dg=123))
    ),
    "packages.check_package": Case(
        _packed, lambda room: packages.check_package(room, "26329A01", Event.SOFT, note="limp")
    ),
    "packages.discard_packages": Case(
        _packed, lambda room: packages.discard_packages(room, ["26329A01", "26329A03"], "torn")
    ),
    "packages.note_package": Case(
        _packed, lambda room: packages.note_package(room, "26329A02", "for Zoë")
    ),
    "places.add_place": Case(
        lambda world: world.places("cellar"),
        lambda room: places.add_place(room, "cellar/rack", temperature_dc=120, note="left"),
    ),
    "places.change_place": Case(
        _packed, lambda room: places.change_place(room, "rack", new_name="frame", temperature_dc=80)
    ),
    "places.put_place": Case(_packed, lambda room: places.put_place(room, "rack", "loft")),
    "places.remove_place": Case(_packed, lambda room: places.remove_place(room, "loft")),
    "climate.set_months": Case(
        _packed, lambda room: climate.set_months(room, "cellar", {1: 60, 7: 180})
    ),
    "climate.set_steady": Case(_packed, lambda room: climate.set_steady(room, "cellar", 95)),
    "climate.set_humidity": Case(_packed, lambda room: climate.set_humidity(room, "cellar", 80)),
    "climate.import_readings": Case(
        _packed,
        lambda room: climate.import_readings(
            room, "rack", "time,°C\n2026-07-01 06:00,18.5\n2026-07-01 18:00,31.5\nx,y\n"
        ),
    ),
    "recipes.add_recipe": Case(
        _packed,
        lambda room: kitchen.add_recipe(
            room,
            "Soup",
            4,
            SOUP,
            cooking_water_dg=9_000,
            hold_back_percent=25,
            cook_to_dc=740,
            water_temperature_dc=600,
            occasion=Occasion.BREAKFAST,
            fresh_kcal=120,
            fresh_protein_dg=40,
            origin="für Zoë",
            allergens=[Allergen.WHEAT, Allergen.MILK],
        ),
    ),
    "recipes.change_recipe": Case(
        _cooked,
        lambda room: kitchen.change_recipe(
            room, "Pea soup", new_name="Soup", lines=SOUP, allergens=[Allergen.EGG]
        ),
    ),
    "recipes.remove_recipe": Case(
        lambda world: (_cooked(world), kitchen.cook_meal(world.room, "Pea soup", 1)),
        lambda room: kitchen.remove_recipe(room, "Pea soup"),
    ),
    "kitchen.cook_meal": Case(
        _cooked, lambda room: kitchen.cook_meal(room, "Pea soup", 4, whole=True)
    ),
    "upkeep.record_check": Case(
        _dried,
        lambda room: upkeep.record_check(room, "hose", passed=False, note="a crack, für Zoë"),
    ),
    "upkeep.set_interval": Case(
        lambda world: upkeep.set_interval(world.room, "oil_change", OFF),
        lambda room: upkeep.set_interval(room, "oil_change", Interval(Every.HOURS, 40)),
    ),
    "leak_tests.record_leak_test": Case(
        _nothing,
        lambda room: leak_tests.record_leak_test(
            room,
            leak_tests.Readings(
                Fraction("0.3"),
                Fraction("0.5"),
                Fraction(600),
                dry_empty=True,
                volume_l=Fraction(40),
                between=Between(Fraction("0.4"), Fraction(300)),
            ),
            note="cold",
        ),
    ),
    "tracing.recall": Case(
        _packed,
        lambda room: tracing.recall(room, "26329A02", GroupKind.RUN, "the door seal für Zoë"),
    ),
    **RECHECK_CASES,
    **LABEL_CASES,
    **RECIPE_FILE_CASES,
    **COOKING_CASES,
    **PEOPLE_CASES,
    **MENU_CASES,
    **HORIZON_CASES,
    **EXCHANGE_CASES,
    "history.undo": Case(_cooked, history.undo),
    "history.redo": Case(_undone, history.redo),
}
"""Service → a use of it. `household.create_stockroom` and `importing.record_into_new_store`
make the file itself: their own tests."""
