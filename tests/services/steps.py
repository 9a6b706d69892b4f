"""One plausible use of every writing service in whatever store there is, drawn by chance.

A step may be refused: the rules decide. What it may not do is change anything when refused, or
anything that undo does not put back.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from fractions import Fraction
from random import Random

from stockroom.domain.conditions import Event
from stockroom.domain.cooking import Basis
from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.leak import Between
from stockroom.domain.packing import SplitRequest
from stockroom.domain.trace_records import GroupKind
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.services import (
    bench,
    climate,
    foods,
    household,
    kitchen,
    leak_tests,
    packages,
    packing,
    places,
    shelves,
    tracing,
    upkeep,
)
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from stockroom.services.places import PlaceKind
from stockroom.services.session import Stockroom
from tests.services.steps_cooking import COOKING_STEPS, details, measure_name
from tests.services.steps_exchange import EXCHANGE_STEPS
from tests.services.steps_horizon import HORIZON_STEPS
from tests.services.steps_labels import LABEL_STEPS
from tests.services.steps_menu import MENU_STEPS
from tests.services.steps_people import PEOPLE_STEPS
from tests.services.steps_rechecks import RECHECK_STEPS, weigh_again
from tests.services.steps_recipe_files import RECIPE_FILE_STEPS
from tests.world import APPLE, BEEF_RAW, PEAS

Step = Callable[[Stockroom, Random], object]

WORDS = ("", "soft", "crème brûlée", 'a "quoted" [note]', "100 % dry_ish", "für Zoë")
TRAY_FOODS = (PEAS, APPLE, BEEF_RAW, "Crab, Dungeness, moist heat", "peas, GREEN, raw")


def _note(pick: Random) -> str:
    return pick.choice(WORDS)


def _name(pick: Random) -> str:
    return f"{pick.choice(('Old', 'new', 'Zoë’s'))} {pick.randrange(5)}"


def _code(room: Stockroom, pick: Random) -> str:
    every = shelves.find_packages(room, shelves.shelf_filter(room, gone=pick.random() < 0.1))
    return pick.choice(every).code if every else "26244A01"


def _place(room: Stockroom, pick: Random) -> str:
    every = places.list_places(room)
    return pick.choice(every).path if every else "nowhere"


def _food(room: Stockroom, pick: Random) -> str:
    return pick.choice([PEAS, *(food.name for food in foods.list_foods(room))])


def _recipe(room: Stockroom, pick: Random) -> str:
    every = kitchen.list_recipes(room)
    return pick.choice(every).name if every else "none"


def _run(room: Stockroom, pick: Random) -> int:
    every = bench.list_runs(room)
    open_ones = [run for run in every if run.state == "open"]
    return pick.choice(open_ones or list(every)).run_id if every else 1


def _lot(room: Stockroom, pick: Random) -> str:
    some = packing.lots_to_pack(room) or packing.list_lots(room)
    return pick.choice(some).code if some else "26244A"


def _lines(room: Stockroom, pick: Random) -> list[LineRequest]:
    made: list[LineRequest] = []
    for _ in range(pick.randrange(1, 4)):
        basis = pick.choice([*Basis, None])
        if basis is None:
            made.append(LineRequest(item="onion", amount=Fraction(pick.randrange(1, 9), 4)))
        else:
            amount = Fraction(pick.randrange(1, 400), 10 if basis is Basis.SERVINGS else 1)
            food, unit = _food(room, pick), None
            if basis is Basis.MEASURE:
                food, unit = measure_name(room, pick, food)
            made.append(LineRequest(food=food, basis=basis, amount=amount, unit=unit))
    return made


def _splits(pick: Random) -> list[SplitRequest]:
    return [
        SplitRequest(
            pick.randrange(1, 4),
            pick.choice(("pouch-400-foil", "jar-950", "bag-zip-1000")),
            pick.choice((None, pick.randrange(1, 400))),
            pick.choice((None, 0, 100, 300)),
            pick.random() < 0.3,
        )
        for _ in range(pick.randrange(1, 3))
    ]


def _change_household(room: Stockroom, pick: Random) -> object:
    return household.change_household(room, people=pick.randrange(1, 9), name=_note(pick))


def _load(room: Stockroom, pick: Random) -> object:
    return bench.load_tray(
        room,
        pick.randrange(1, 5),
        pick.choice(TRAY_FOODS),
        gross_dg=pick.choice((None, pick.randrange(6_000, 12_000))),
        tare_dg=pick.choice((0, 800)),
        run_id=_run(room, pick),
    )


def _weigh(room: Stockroom, pick: Random) -> object:
    """A weight that is missing, if any is: runs by chance would hardly ever be whole."""
    if pick.random() < 0.4:
        return weigh_again(room, pick)
    run_id = _run(room, pick)
    trays = bench.run_detail(room, run_id).trays
    missing = [
        (tray.position, stage)
        for tray in trays
        for stage, weight in (("wet", tray.wet_dg), ("dry", tray.dry_dg))
        if weight is None
    ]
    position, stage = pick.choice(missing or [(pick.randrange(1, 5), "dry")])
    net_dg = pick.randrange(5_000, 12_000) if stage == "wet" else pick.randrange(500, 2_000)
    return bench.weigh_tray(room, position, stage, net_dg + 800, tare_dg=800, run_id=run_id)


def _close(room: Stockroom, pick: Random) -> object:
    """An open run with all its weights, if there is one."""
    details = [
        bench.run_detail(room, run.run_id) for run in bench.list_runs(room) if run.state == "open"
    ]
    whole = [
        one.run.run_id
        for one in details
        if one.trays and all(t.dry_dg and (t.wet_dg or t.again) for t in one.trays)
    ]
    return bench.close_run(room, run_id=pick.choice(whole) if whole else _run(room, pick))


def _add_food(room: Stockroom, pick: Random) -> object:
    return foods.add_food(
        room,
        _name(pick),
        like=pick.choice((None, BEEF_RAW)),
        food_class=pick.choice(list(FoodClass)),
        preparation=pick.choice(list(Preparation)),
        allergens=pick.sample(list(Allergen), 2),
        note=_note(pick),
    )


def _change_food(room: Stockroom, pick: Random) -> object:
    return foods.change_food(
        room,
        _food(room, pick),
        new_name=pick.choice((None, _name(pick))),
        serving_dg=pick.choice((None, 900, 1_100)),
        allergens=pick.choice((None, pick.sample(list(Allergen), 3))),
        note=pick.choice((None, _note(pick))),
    )


def _pack(room: Stockroom, pick: Random) -> object:
    losses = pick.choice(
        ((), ((None, LossReason.TASTED),), ((7, LossReason.SPILT), (None, LossReason.DISCARDED)))
    )
    where = pick.choice((None, _place(room, pick)))
    return packing.pack_lot(
        room, _lot(room, pick), _splits(pick), losses=losses, place=where, note=_note(pick)
    )


def _lose(room: Stockroom, pick: Random) -> object:
    dry_dg = pick.choice((None, pick.randrange(1, 60)))
    return packing.record_loss(room, _lot(room, pick), dry_dg, pick.choice(list(LossReason)))


def _move(room: Stockroom, pick: Random) -> object:
    codes = [_code(room, pick) for _ in range(pick.randrange(1, 4))]
    return packages.move_packages(room, codes, _place(room, pick))


def _draw(room: Stockroom, pick: Random) -> object:
    amount = pick.choice(
        (None, Amount(dry_dg=pick.randrange(1, 300)), Amount(servings=Fraction(1, 3)))
    )
    return packages.draw_package(room, _code(room, pick), amount, note=_note(pick))


def _check(room: Stockroom, pick: Random) -> object:
    finding = pick.choice((Event.CRISP, Event.CRISP, Event.SOFT, Event.LEAK, Event.DAMAGED))
    opened = pick.random() < 0.2
    code = _code(room, pick)
    return packages.check_package(room, code, finding, note=_note(pick), opened=opened)


def _discard(room: Stockroom, pick: Random) -> object:
    return packages.discard_packages(room, [_code(room, pick)], "torn")


def _note_package(room: Stockroom, pick: Random) -> object:
    return packages.note_package(room, _code(room, pick), _note(pick))


def _add_place(room: Stockroom, pick: Random) -> object:
    above = pick.choice(("", f"{_place(room, pick)}/"))
    return places.add_place(
        room, above + _name(pick), temperature_dc=pick.choice((None, 40, 210)), note=_note(pick)
    )


def _change_place(room: Stockroom, pick: Random) -> object:
    return places.change_place(
        room,
        _place(room, pick),
        new_name=pick.choice((None, _name(pick))),
        kind=pick.choice((None, *PlaceKind)),
        temperature_dc=pick.choice((None, -180, 320)),
    )


def _put_place(room: Stockroom, pick: Random) -> object:
    return places.put_place(room, _place(room, pick), pick.choice(("", _place(room, pick))))


def _set_months(room: Stockroom, pick: Random) -> object:
    months = {month: pick.randrange(-200, 480) for month in pick.sample(range(1, 13), 3)}
    return climate.set_months(room, _place(room, pick), pick.choice((months, months, {})))


def _import(room: Stockroom, pick: Random) -> object:
    """A few hours of a logger; some of them read before, some bad."""
    start = datetime(2026, pick.randrange(1, 13), 1)
    rows = [
        f"{start + timedelta(hours=hour):%Y-%m-%d %H:%M},{pick.choice(('?', '4.5', '21', '47'))}"
        for hour in range(pick.randrange(1, 9))
    ]
    text = "\n".join(("time,temperature °C", *rows))
    return climate.import_readings(room, _place(room, pick), text)


def _change_recipe(room: Stockroom, pick: Random) -> object:
    return kitchen.change_recipe(
        room,
        _recipe(room, pick),
        new_name=pick.choice((None, _name(pick))),
        serves=pick.randrange(1, 9),
        lines=pick.choice((None, _lines(room, pick))),
        steps=_note(pick),
        **details(pick),
    )


def _cook(room: Stockroom, pick: Random) -> object:
    return kitchen.cook_meal(
        room,
        _recipe(room, pick),
        pick.randrange(1, 6),
        servings=pick.choice((None, Fraction(5, 2))),
        take_short=pick.random() < 0.7,
        whole=pick.random() < 0.5,
        cook_to_dc=pick.choice((None, 740)),
    )


def _check_machine(room: Stockroom, pick: Random) -> object:
    return upkeep.record_check(
        room,
        pick.choice(("gasket", "hose", "leak", "oil_change")),
        passed=pick.random() < 0.7,
        note=_note(pick),
    )


def _set_interval(room: Stockroom, pick: Random) -> object:
    """Sometimes the one it has, which is refused."""
    wanted = pick.choice((None, OFF, Interval(Every.DAYS, 30), Interval(Every.HOURS, 40)))
    return upkeep.set_interval(room, pick.choice(("leak", "oil_change")), wanted)


def _test_leak(room: Stockroom, pick: Random) -> object:
    """Sometimes without a volume on record, or without a rise."""
    first = Fraction(pick.randrange(300), 1000)
    last = Fraction(pick.randrange(200, 900), 1000)
    halfway = Between((first + last) / 2, Fraction(300))
    read = leak_tests.Readings(
        first,
        last,
        Fraction(600),
        pick.random() < 0.7,
        pick.choice((None, Fraction(40))),
        pick.choice((None, halfway)),
    )
    return leak_tests.record_leak_test(room, read, note=_note(pick))


def _recall(room: Stockroom, pick: Random) -> object:
    """Sometimes a lot's code, sometimes by a packet that nobody wrote down."""
    code = pick.choice((_code(room, pick), _code(room, pick), _lot(room, pick)))
    return tracing.recall(room, code, pick.choice(list(GroupKind)), _note(pick))


STEPS: dict[str, Step] = {
    "household.change_household": _change_household,
    "bench.start_run": lambda room, pick: bench.start_run(room, note=_note(pick)),
    "bench.load_tray": _load,
    "bench.unload_tray": lambda room, pick: bench.unload_tray(
        room, pick.randrange(1, 5), run_id=_run(room, pick)
    ),
    "bench.weigh_tray": _weigh,
    "bench.close_run": _close,
    "bench.abandon_run": lambda room, pick: bench.abandon_run(room, run_id=_run(room, pick)),
    "foods.add_food": _add_food,
    "foods.change_food": _change_food,
    "packing.pack_lot": _pack,
    "packing.record_loss": _lose,
    "packages.move_packages": _move,
    "packages.draw_package": _draw,
    "packages.check_package": _check,
    "packages.discard_packages": _discard,
    "packages.note_package": _note_package,
    "places.add_place": _add_place,
    "places.change_place": _change_place,
    "places.put_place": _put_place,
    "places.remove_place": lambda room, pick: places.remove_place(room, _place(room, pick)),
    "climate.set_months": _set_months,
    "climate.set_steady": lambda room, pick: climate.set_steady(
        room, _place(room, pick), pick.choice((None, -180, 120, 480))
    ),
    "climate.set_humidity": lambda room, pick: climate.set_humidity(
        room, _place(room, pick), pick.choice((None, 30, 85))
    ),
    "climate.import_readings": _import,
    "recipes.add_recipe": lambda room, pick: kitchen.add_recipe(
        room, _name(pick), pick.randrange(1, 9), _lines(room, pick), **details(pick)
    ),
    "recipes.change_recipe": _change_recipe,
    "recipes.remove_recipe": lambda room, pick: kitchen.remove_recipe(room, _recipe(room, pick)),
    "kitchen.cook_meal": _cook,
    "tracing.recall": _recall,
    **RECHECK_STEPS,
    **LABEL_STEPS,
    **RECIPE_FILE_STEPS,
    **COOKING_STEPS,
    **PEOPLE_STEPS,
    **MENU_STEPS,
    **HORIZON_STEPS,
    **EXCHANGE_STEPS,
    "upkeep.record_check": _check_machine,
    "upkeep.set_interval": _set_interval,
    "leak_tests.record_leak_test": _test_leak,
}
"""Service → a step that uses it. Undo and redo are what the tests do themselves."""
