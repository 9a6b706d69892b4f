"""Places: a tree with temperatures, changed without losing what stands in it."""

from __future__ import annotations

import pytest

from stockroom.services import packages, places, shelves
from stockroom.services.places import PlaceKind
from tests.world import PEAS, World


def _places(world: World) -> list[tuple[str, str, int | None]]:
    return [(one.path, one.kind, one.temperature_dc) for one in places.list_places(world.room)]


def test_a_tree_of_places(world: World) -> None:
    room = world.room
    done = places.add_place(
        room, " Cold  cellar ", kind=PlaceKind.CELLAR, temperature_dc=95, note=" damp "
    )
    assert done.words == "added the place Cold cellar"
    places.add_place(room, "cold cellar/rack 2")
    places.add_place(room, "rack 2 / bin 1")
    places.add_place(room, "rack 2/bin 0", temperature_dc=-15)
    places.add_place(room, "Attic")
    assert _places(world) == [
        ("Attic", "room", None),
        ("Cold cellar", "cellar", 95),
        ("Cold cellar/rack 2", "rack", 95),
        ("Cold cellar/rack 2/bin 0", "bin", -15),
        ("Cold cellar/rack 2/bin 1", "bin", 95),
    ]
    cellar = places.list_places(room)[1]
    assert (cellar.note, cellar.depth, cellar.own_temperature_dc, cellar.place_id) == (
        "damp",
        0,
        95,
        done.made_id,
    )
    assert places.list_places(room)[2].own_temperature_dc is None


def test_one_name_may_stand_in_two_places(world: World) -> None:
    world.places("cellar", "loft", "cellar/rack", "loft/rack", "Rack")
    assert [path for path, *_ in _places(world)] == [
        "cellar",
        "cellar/rack",
        "loft",
        "loft/rack",
        "Rack",
    ]


def test_a_place_is_renamed_with_all_below_it(world: World) -> None:
    world.places("cellar", "cellar/rack")
    code = world.packed(place="rack")[0]
    done = places.change_place(world.room, "CELLAR", new_name="Cold store", temperature_dc=80)
    assert done.words == "changed the place cellar to Cold store"
    assert world.package(code).place == "Cold store/rack"
    assert _places(world)[1] == ("Cold store/rack", "rack", 80)


def test_a_place_may_change_its_capitals_or_nothing_but_its_note(world: World) -> None:
    world.places("cellar")
    assert places.change_place(world.room, "cellar", new_name="Cellar").words == (
        "changed the place cellar to Cellar"
    )
    assert places.change_place(world.room, "cellar", note="dry").words == "changed the place Cellar"
    assert places.change_place(world.room, "cellar", kind=PlaceKind.LOFT).words
    (cellar,) = places.list_places(world.room)
    assert (cellar.name, cellar.note, cellar.kind) == ("Cellar", "dry", "loft")


def test_a_place_is_put_elsewhere_with_all_in_it(world: World) -> None:
    world.places("cellar", "cellar/rack", "cellar/rack/bin", "loft")
    places.change_place(world.room, "cellar", temperature_dc=100)
    places.change_place(world.room, "loft", temperature_dc=250)
    code = world.packed(place="bin")[0]
    done = places.put_place(world.room, "rack", "loft")
    assert done.words == "put the place cellar/rack at loft/rack"
    assert world.package(code).place == "loft/rack/bin"
    assert ("loft/rack/bin", "bin", 250) in _places(world)
    assert places.put_place(world.room, "loft/rack", " ").words == "put the place loft/rack at rack"
    assert ("rack/bin", "bin", None) in _places(world)


def test_a_place_nobody_used_is_removed(world: World) -> None:
    world.places("cellar", "cellar/rack")
    assert places.remove_place(world.room, "rack").words == "removed the place cellar/rack"
    places.remove_place(world.room, "cellar")
    assert places.list_places(world.room) == ()


def test_live_packages_are_counted_in_and_below(world: World) -> None:
    world.places("cellar", "cellar/rack", "cellar/rack/bin", "cellar 2", "loft")
    codes = world.packed(PEAS, "5xpouch-400-foil:5", place="bin")
    packages.move_packages(world.room, [codes[0]], "cellar")
    packages.move_packages(world.room, [codes[1]], "cellar 2")
    packages.draw_package(world.room, codes[2])
    counted = {place.path: count for place, count in shelves.places_with_counts(world.room)}
    assert counted == {
        "cellar": 3,
        "cellar/rack": 2,
        "cellar/rack/bin": 2,
        "cellar 2": 1,
        "loft": 0,
    }
    direct = {place.path: place.packages for place in places.list_places(world.room)}
    assert (direct["cellar"], direct["cellar/rack"]) == (1, 0)


@pytest.mark.parametrize("temperature_dc", [-800, 0, 600])
def test_the_ends_of_what_a_place_may_be(world: World, temperature_dc: int) -> None:
    places.add_place(world.room, "place", temperature_dc=temperature_dc)
    assert places.list_places(world.room)[0].temperature_dc == temperature_dc


def test_a_temperature_of_nothing_is_a_temperature(world: World) -> None:
    places.add_place(world.room, "shed", temperature_dc=210)
    places.change_place(world.room, "shed", temperature_dc=0)
    assert places.list_places(world.room)[0].temperature_dc == 0
