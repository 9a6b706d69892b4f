"""Lists and search: what is asked for, all of it, in the order asked, page after page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.conditions import Event
from stockroom.domain.records import Package
from stockroom.services import foods, packages, shelves
from stockroom.services.packages import Amount
from stockroom.services.session import Stockroom
from stockroom.store.rows import folded
from stockroom.store.shelf_search import ORDERS
from tests.world import APPLE, BEEF_RAW, PEAS, World, copied_world

NOTES = ("", "crème brûlée", 'soft-dried 7" [left]', "100 % milk_free", "Zoë's AND not ours")


@pytest.fixture(scope="module")
def filled(room_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[World]:
    """Three foods in four places, with notes, some opened, doubtful and gone; made once."""
    world = copied_world(room_template, tmp_path_factory.mktemp("shelves") / "stockroom.db")
    _fill(world)
    yield world
    world.room.close()


def _fill(world: World) -> None:
    world.places("Cold cellar", "Cold cellar/rack 1", "loft", "Été", "pea_shelf %")
    foods.add_food(world.room, "Épinards, hachés", like=PEAS)
    chance = Random(3)
    where = ("rack 1", "loft", "Été", "pea_shelf %", None)
    for days, food in enumerate((PEAS, APPLE, "Épinards, hachés", PEAS, BEEF_RAW)):
        today = world.later(days * 30)
        lot = today.dry_lot(food, 1000, 200)
        splits = ("3xpouch-400-foil:10,absorber=100", "2xjar-475:10", "2xbag-zip-1000:5")
        for turn, split in enumerate(splits):
            place, note = where[(days + turn) % 5], NOTES[(2 * days + turn) % 5]
            for code in today.pack(lot, split, place=place, note=note):
                _live(today.later(2), code, chance)


def _live(world: World, code: str, chance: Random) -> None:
    fate = chance.randrange(8)
    if fate < 3:
        packages.check_package(world.room, code, Event.CRISP)
    elif fate == 3:
        packages.check_package(world.room, code, Event.LEAK)
    elif fate == 4:
        packages.draw_package(world.room, code, Amount(dry_dg=20))
    elif fate == 5:
        packages.draw_package(world.room, code)
    elif fate == 6:
        packages.discard_packages(world.room, [code], "torn")


def _all(room: Stockroom) -> tuple[Package, ...]:
    return shelves.packages_for(room, range(1, 200))


def _found(room: Stockroom, words: str, **wanted: object) -> list[str]:
    asked = shelves.shelf_filter(room, words, **wanted)  # type: ignore[arg-type]
    return [package.code for package in shelves.find_packages(room, asked)]


def test_everything_live_is_listed_by_best_by(filled: World) -> None:
    listed = shelves.find_packages(filled.room, shelves.shelf_filter(filled.room))
    live = [one for one in _all(filled.room) if one.condition not in ("used", "discarded")]
    assert len(live) > 20
    assert [one.package_id for one in listed] == [
        one.package_id for one in sorted(live, key=lambda one: (one.best_by, one.package_id))
    ]


ORDER_KEYS: dict[str, Callable[[Package], Any]] = {
    "best_by": lambda one: (one.best_by is None, one.best_by or one.made_on, one.package_id),
    "food": lambda one: (one.food.upper(), one.made_on, one.package_id),
    "place": lambda one: (
        not one.place,
        one.place,
        one.food.upper(),
        one.made_on,
        one.package_id,
    ),
    "made": lambda one: (one.made_on, one.package_id),
    "code": lambda one: (one.code, one.package_id),
}


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("gone", [False, True])
def test_each_order_is_whole_and_in_order(filled: World, order: str, gone: bool) -> None:
    asked = shelves.shelf_filter(filled.room, order=order, gone=gone)
    listed = shelves.find_packages(filled.room, asked)
    wanted = [
        one for one in _all(filled.room) if gone or one.condition not in ("used", "discarded")
    ]
    ordered = sorted(wanted, key=ORDER_KEYS[order])
    assert [one.code for one in listed] == [one.code for one in ordered]


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("words", ["", "1", "jar"])
def test_pages_by_keys_are_the_list(filled: World, order: str, words: str) -> None:
    """A screen asks for the keys once and then for the rows in view."""
    asked = shelves.shelf_filter(filled.room, words, order=order)
    keys = shelves.package_keys(filled.room, asked)
    whole = shelves.find_packages(filled.room, asked)
    assert len(keys) == len(set(keys)) == len(whole)
    for size in (1, 7):
        pages = [
            one
            for start in range(0, len(keys), size)
            for one in shelves.packages_for(filled.room, keys[start : start + size])
        ]
        assert tuple(pages) == whole
    assert shelves.first_packages(filled.room, asked, 4) == whole[:4]
    assert shelves.first_packages(filled.room, asked, 10_000) == whole


def test_rows_come_in_the_order_asked_and_gone_ones_are_left_out(filled: World) -> None:
    listed = shelves.packages_for(filled.room, [5, 9_999, 1, 3])
    assert [one.package_id for one in listed] == [5, 1, 3]
    assert shelves.packages_for(filled.room, []) == ()


@pytest.mark.parametrize(
    "condition", ["settling", "sound", "suspect", "opened", "used", "discarded"]
)
def test_one_condition_alone(filled: World, condition: str) -> None:
    listed = _found(filled.room, "", condition=condition, order="code")
    wanted = sorted(one.code for one in _all(filled.room) if one.condition == condition)
    assert listed == wanted
    assert wanted


def test_a_food_and_a_place_alone_and_together(filled: World) -> None:
    peas = {one.code for one in _all(filled.room) if one.food == PEAS}
    cellar = {one.code for one in _all(filled.room) if one.place.startswith("Cold cellar")}
    assert set(_found(filled.room, "", food=PEAS, gone=True)) == peas
    assert set(_found(filled.room, "", place="cold cellar", gone=True)) == cellar
    assert set(_found(filled.room, "", food=PEAS, place="Cold cellar", gone=True)) == peas & cellar
    assert peas and cellar


def _naive(package: Package, word: str) -> bool:
    """What a word should find, without any index: every word of NOTES begins where it shows."""
    tokens = "".join(
        sign if sign.isalnum() else " " for sign in folded(package.note.replace("'", " "))
    ).split()
    parts = "".join(sign if sign.isalnum() else " " for sign in folded(word)).split()
    in_note = bool(parts) and any(
        tokens[at : at + len(parts) - 1] == parts[:-1]
        and tokens[at + len(parts) - 1].startswith(parts[-1])
        for at in range(len(tokens) - len(parts) + 1)
    )
    return (
        package.code.startswith(word.upper())
        or folded(word) in folded(package.food)
        or folded(word) in folded(package.place)
        or in_note
        or (not parts and word in package.note)
    )


WORDS = (
    "26329",
    "26329A0",
    "26329a01",
    "peas",
    "PEA",
    "green,",
    "epinards",
    "ÉPINARDS",
    "hachés",
    "hache",
    "cellar",
    "rack",
    "1",
    "Été",
    "ete",
    "loft",
    "creme",
    "CRÈME",
    "crè",
    "brulee",
    "soft",
    "soft-dried",
    "dried",
    '7"',
    "[left]",
    "left]",
    "%",
    "100",
    "milk_free",
    "milk",
    "_",
    "AND",
    "not",
    "Zoë's",
    "zoe",
    "OR",
    "NEAR",
    "*",
    '"',
    "(",
    ":",
    "zebra",
    "\\",
    "!",
    "!%",
)


@given(words=st.lists(st.sampled_from(WORDS), max_size=3), gone=st.booleans())
def test_search_finds_what_reading_through_would(
    filled: World, words: list[str], gone: bool
) -> None:
    listed = _found(filled.room, "  ".join(words), gone=gone, order="code")
    wanted = [
        one.code
        for one in sorted(_all(filled.room), key=lambda one: one.code)
        if (gone or one.condition not in ("used", "discarded"))
        and all(_naive(one, word) for word in words)
    ]
    assert listed == wanted


@pytest.mark.parametrize(
    "words",
    [
        "crème",
        "CREME",
        "soft-dried",
        '7"',
        "[left]",
        "% 100",
        "milk_free",
        "and zoe",
        "ete",
        "pea_",
    ],
)
def test_words_with_signs_find_what_they_stand_in(filled: World, words: str) -> None:
    assert _found(filled.room, words, gone=True)


@pytest.mark.parametrize(
    "sign", ["\x00", "\x1b[31m", "\u2028", "\U0001fadb", "'", "';--", "a\x00b"]
)
def test_odd_signs_find_nothing_and_break_nothing(filled: World, sign: str) -> None:
    assert _found(filled.room, sign + "q") == []


def test_no_words_are_all_and_spaces_are_no_words(filled: World) -> None:
    assert _found(filled.room, " \t\n ") == _found(filled.room, "")


def test_per_cent_and_underscore_are_signs_not_patterns(world: World) -> None:
    world.places("50% off", "50x off", "a_b", "axb")
    by_place = {
        place: world.packed(PEAS, "1xjar-475:5", place=place)[0]
        for place in ("50% off", "50x off", "a_b", "axb")
    }
    assert world.listed("50%") == [by_place["50% off"]]
    assert world.listed("a_b") == [by_place["a_b"]]
    assert world.listed("_") == [by_place["a_b"]]


def test_foods_are_counted_with_their_live_packages(filled: World) -> None:
    counted = {food.name: count for food, count in shelves.foods_with_counts(filled.room)}
    for name, count in counted.items():
        assert count == len(_found(filled.room, "", food=name))
    assert len(counted) == 4


def test_a_package_in_full(world: World) -> None:
    world.places("cellar")
    code = world.packed("Crab, Dungeness, moist heat", "2xjar-475:20", place="cellar")[0]
    detail = shelves.package_detail(world.room, code[:-1])
    assert detail.package.code == code
    assert detail.allergens == ("crustacean_shellfish",)
    assert detail.sisters == 1
    assert detail.cautions == ()
    assert detail.projection is not None
    assert detail.projection.best_by == detail.package.best_by
    assert detail.projection.low <= detail.projection.best_by <= detail.projection.high


def test_a_list_of_many_is_read_in_batches(world: World) -> None:
    lot = world.dry_lot(PEAS, 5000, 700)
    for _ in range(3):
        world.pack(lot, "333xpouch-400-foil:0.1")
    asked = shelves.shelf_filter(world.room, order="made")
    assert len(shelves.find_packages(world.room, asked)) == 999
    assert len(shelves.first_packages(world.room, asked, 40)) == 40
    assert len(world.listed("26329a90")) == 11
