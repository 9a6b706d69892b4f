"""Two programs on one store: each sees what the other did, and neither loses anything."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest

from stockroom.domain.conditions import Event
from stockroom.errors import StockroomError
from stockroom.services import foods, kitchen, packages, packing, places
from stockroom.services.household import change_household
from stockroom.services.kitchen import LineRequest
from stockroom.services.packages import Amount
from stockroom.services.packing import LossReason
from stockroom.services.today import round_for_today
from tests.invariants import all_troubles
from tests.world import PEAS, World


@pytest.fixture
def other(world: World) -> Iterator[World]:
    """A second program with connections of its own."""
    beside = world.beside("another")
    yield beside
    beside.room.close()


def test_each_sees_what_the_other_did_at_once(world: World, other: World) -> None:
    world.places("cellar")
    code = world.packed(place="cellar")[0]
    assert other.package(code).place == "cellar"
    packages.check_package(other.room, code, Event.CRISP)
    assert world.package(code).condition == "sound"
    change_household(other.room, people=7)
    assert world.room.household.people == 7
    places.change_place(world.room, "cellar", new_name="vault")
    assert other.package(code).place == "vault"
    packages.note_package(other.room, code, "crème")
    assert world.listed("creme") == [code]


def test_the_version_seen_moves_for_the_other_s_work_alone(world: World, other: World) -> None:
    seen = world.room.version_seen()
    world.places("cellar")
    assert world.room.version_seen() == seen
    before = other.room.version_seen()
    world.places("loft")
    assert other.room.version_seen() != before
    other.places("attic")
    moved = world.room.version_seen()
    assert moved != seen
    round_for_today(world.room)
    assert world.room.version_seen() == moved


def test_a_refusal_of_the_other_moves_nothing(world: World, other: World) -> None:
    seen = world.room.version_seen()
    with pytest.raises(StockroomError):
        places.add_place(other.room, "cellar/nowhere")
    assert world.room.version_seen() == seen


def test_both_draw_from_one_package_and_nothing_is_lost(world: World, other: World) -> None:
    code = world.packed(PEAS, "1xjar-950:40")[0]
    start = threading.Barrier(2)

    def draw(mine: World) -> None:
        start.wait()
        for _ in range(15):
            packages.draw_package(mine.room, code, Amount(dry_dg=10))
        mine.room.store.close()

    with ThreadPoolExecutor(max_workers=2) as pool:
        for done in [pool.submit(draw, one.beside()) for one in (world, other)]:
            done.result()
    package = world.package(code)
    assert (package.taken_dg, package.left_dg) == (300, 100)
    assert all_troubles(world.room) == []


def test_both_pack_one_lot_and_the_numbers_and_sums_hold(world: World, other: World) -> None:
    """Together they want more than there is: the last to come is told, and nothing is doubled."""
    lot = world.dry_lot(PEAS, 1000, 155)
    start = threading.Barrier(2)

    def pack(mine: World) -> int:
        start.wait()
        packed = 0
        for _ in range(20):
            try:
                packed += len(mine.pack(lot, "1xjar-475:5"))
            except StockroomError:
                break
        mine.room.store.close()
        return packed

    with ThreadPoolExecutor(max_workers=2) as pool:
        counts = [
            done.result() for done in [pool.submit(pack, one.beside()) for one in (world, other)]
        ]
    numbers = [int(one.code[6:8]) for one in packing.lot_detail(world.room, lot).packages]
    assert sum(counts) == 31
    assert numbers == list(range(1, 32))
    assert all_troubles(world.room) == []


def test_changes_of_two_parts_of_one_thing_both_stay(world: World, other: World) -> None:
    """Each service reads what it will change under the lock, so no field is written back old."""
    world.places("cellar")
    world.dry_lot(PEAS)
    world.recipe("Soup", lines=[LineRequest(item="leek")])
    start = threading.Barrier(2)
    rounds = 8

    def names(mine: World) -> None:
        start.wait()
        for number in range(rounds):
            places.change_place(mine.room, "cellar", temperature_dc=number + 1)
            foods.change_food(mine.room, PEAS, serving_dg=900 + number)
            kitchen.change_recipe(mine.room, "Soup", serves=number + 10)
        mine.room.store.close()

    def notes(mine: World) -> None:
        start.wait()
        for number in range(rounds):
            places.change_place(mine.room, "cellar", note=f"note {number}")
            foods.change_food(mine.room, PEAS, note=f"note {number}")
            kitchen.change_recipe(mine.room, "Soup", steps=f"step {number}")
        mine.room.store.close()

    with ThreadPoolExecutor(max_workers=2) as pool:
        waiting = [pool.submit(names, world.beside()), pool.submit(notes, other.beside())]
        for done in waiting:
            done.result()
    (cellar,) = places.list_places(world.room)
    (peas,) = foods.list_foods(world.room)
    soup = kitchen.show_recipe(world.room, "Soup")
    assert (cellar.temperature_dc, cellar.note) == (rounds, f"note {rounds - 1}")
    assert (peas.serving_dg, peas.note) == (900 + rounds - 1, f"note {rounds - 1}")
    assert (soup.serves, soup.steps) == (rounds + 9, f"step {rounds - 1}")


def test_the_same_thing_done_by_both_is_told_to_the_second(world: World, other: World) -> None:
    world.places("cellar")
    with pytest.raises(places.PlaceTaken):
        other.places("cellar")
    lot = world.dry_lot()
    packing.record_loss(world.room, lot, None, LossReason.SPILT)
    with pytest.raises(packing.LotPackedOut):
        packing.record_loss(other.room, lot, None, LossReason.SPILT)
    places.remove_place(world.room, "cellar")
    with pytest.raises(StockroomError):
        places.change_place(other.room, "cellar", note="gone")
