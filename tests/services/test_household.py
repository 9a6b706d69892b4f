"""Starting a stockroom and its settings."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from stockroom.clock import FixedClock
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.quantities import UnitSystem
from stockroom.reference.containers import containers as reference_containers
from stockroom.services.history import journal_page
from stockroom.services.household import change_household, create_stockroom, list_containers
from stockroom.services.session import Household, Stockroom, open_stockroom, opened
from stockroom.store.connection import Store
from tests.world import TODAY, World, new_world


def test_a_new_stockroom_has_its_settings_and_containers(tmp_path: Path) -> None:
    path = tmp_path / "new" / "stockroom.db"
    room = create_stockroom(
        path,
        clock=FixedClock(TODAY),
        actor="Ansa",
        units=UnitSystem.US,
        people=1,
        name=" The  hut ",
    )
    with closing(room):
        assert room.household == Household(UnitSystem.US, 1, "The hut")
        assert room.units is UnitSystem.US
        assert (room.path, room.today) == (path, TODAY)
        (entry,) = journal_page(room)
        assert (entry.words, entry.actor, entry.on_day) == (
            "started the stockroom for 1 person",
            "Ansa",
            TODAY,
        )
        assert room.store.value("PRAGMA synchronous") == 2


def test_every_shipped_container_is_there(world: World) -> None:
    listed = {one.key: one for one in list_containers(world.room)}
    assert set(listed) == set(reference_containers())
    for key, shipped in reference_containers().items():
        one = listed[key]
        assert (one.name, one.package_kind, one.volume_ml, one.width_mm, one.height_mm) == (
            shipped.name,
            shipped.package_kind,
            shipped.volume_ml,
            shipped.width_mm,
            shipped.height_mm,
        )
    order = [(one.package_kind, one.volume_ml) for one in list_containers(world.room)]
    assert order == sorted(order)
    assert {one.package_kind for one in listed.values()} == set(PackageKind)


def test_settings_are_changed_one_by_one(world: World) -> None:
    done = change_household(world.room, people=4)
    assert done.words == "set people to 4"
    assert world.room.household == Household(UnitSystem.METRIC, 4, "")
    done = change_household(world.room, units=UnitSystem.US, name=" Galley ")
    assert done.words == "set units to us, name to Galley"
    assert world.room.household == Household(UnitSystem.US, 4, "Galley")
    change_household(world.room, name="")
    assert world.room.household.name == ""


def test_a_stockroom_is_opened_again_as_it_was_left(tmp_path: Path) -> None:
    world = new_world(tmp_path / "stockroom.db")
    code = world.packed()[0]
    world.room.close()
    with opened(world.path, clock=FixedClock(TODAY), actor="Birk") as room:
        assert World(room).package(code).condition == "settling"
        assert room.actor == "Birk"
    with closing(open_stockroom(world.path, clock=FixedClock(TODAY), actor="Birk")) as room:
        assert World(room).listed() == world.beside().listed()


def test_a_store_without_settings_has_the_usual_ones(store: Store) -> None:
    assert Stockroom(store).household == Household(UnitSystem.METRIC, 2, "")
