"""What people type, near enough or not: the record meant, or a name for the near miss."""

from __future__ import annotations

import pytest

from stockroom.domain.codes import check_character
from stockroom.errors import NotFound, StockroomError
from stockroom.services import finding, packing
from stockroom.services.finding import CodeMistyped
from tests.world import PEAS, World


@pytest.fixture
def many(world: World) -> World:
    """Lot 26329A in 120 packages: numbers of two and of three digits."""
    lot = world.dry_lot(PEAS, 2000, 310)
    world.pack(lot, "120xpouch-400-foil:1")
    return world


def test_a_code_is_found_with_or_without_its_check_character(many: World) -> None:
    for package in packing.lot_detail(many.room, "26329A").packages:
        assert finding.find_package(many.room, package.code) == package
        digits = package.code[6:-1]
        if len(digits) == 2:
            assert finding.find_package(many.room, package.code[:-1]) == package


@pytest.mark.parametrize(
    "typed", ["26329a01", " 26329A01 ", "26329A-01", "26329A.01", "26 329 A 01", "26329A/01"]
)
def test_a_code_is_read_however_it_is_written(world: World, typed: str) -> None:
    code = world.packed()[0]
    assert finding.find_package(world.room, typed).code == code
    assert finding.find_package(world.room, typed + code[-1].lower()).code == code


def test_every_wrong_check_character_is_caught(world: World) -> None:
    """All 35 of them, letters and digits: none finds the package, each names it as nearest."""
    code = world.packed()[0]
    for wrong in "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ":
        if wrong != code[-1]:
            with pytest.raises((CodeMistyped, NotFound)) as caught:
                finding.find_package(world.room, code[:-1] + wrong)
            assert code in caught.value.hint


def test_every_single_slip_is_caught_or_names_no_other(many: World) -> None:
    """One character of a scanned code wrong: never another package without a word."""
    code = next(
        one.code
        for one in packing.lot_detail(many.room, "26329A").packages
        if one.code[6:8] == "42"
    )
    for place in range(len(code)):
        for wrong in "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ":
            typed = code[:place] + wrong + code[place + 1 :]
            if typed == code:
                continue
            try:
                found = finding.find_package(many.room, typed)
            except StockroomError:
                continue
            raise AssertionError(f"{typed} was taken for {found.code}")


def test_two_neighbours_swapped_are_caught(world: World) -> None:
    code = world.packed()[0]
    for place in range(len(code) - 1):
        typed = code[:place] + code[place + 1] + code[place] + code[place + 2 :]
        if typed != code:
            with pytest.raises(StockroomError):
                finding.find_package(world.room, typed)


def test_a_three_digit_number_without_its_check_character(many: World) -> None:
    """26329A110 is package 110, unless package 11's check character is 0: then it is that one."""
    for number in range(100, 121):
        typed = f"26329A{number}"
        short = typed[:-1]
        if check_character(short) == typed[-1]:
            assert finding.find_package(many.room, typed).code == typed
            continue
        with pytest.raises(finding.Ambiguous) as caught:
            finding.find_package(many.room, typed)
        assert typed + check_character(typed) in caught.value.hint


def test_a_package_that_is_gone_is_still_found(world: World) -> None:
    from stockroom.services.packages import draw_package

    code = world.packed()[0]
    draw_package(world.room, code)
    assert finding.find_package(world.room, code).condition == "used"


def test_a_lot_is_found_by_its_code_or_by_a_package_of_it(world: World) -> None:
    code = world.packed()[0]
    for typed in ("26329A", " 26329a ", code, code[:-1]):
        assert finding.find_lot(world.room, typed).code == "26329A"
    assert finding.lot_by_package(world.room, code).code == "26329A"


def test_a_place_is_found_by_its_path_or_an_ending_that_is_its_own(world: World) -> None:
    world.places("Cellar", "Cellar/Rack 1", "Cellar/Rack 1/Bin 2", "Loft", "Loft/Rack 1")
    for typed, path in (
        ("cellar", "Cellar"),
        ("CELLAR/rack 1", "Cellar/Rack 1"),
        (" loft / rack 1 ", "Loft/Rack 1"),
        ("bin 2", "Cellar/Rack 1/Bin 2"),
        ("rack 1/bin 2", "Cellar/Rack 1/Bin 2"),
        ("/cellar/", "Cellar"),
    ):
        assert finding.find_place(world.room, typed).path == path


def test_a_whole_path_goes_before_an_ending(world: World) -> None:
    world.places("rack", "cellar", "cellar/rack")
    assert finding.find_place(world.room, "rack").path == "rack"


def test_a_place_with_marks_of_patterns_in_its_name(world: World) -> None:
    world.places("100%_dry [a]", "100x_dry [a]")
    assert finding.find_place(world.room, "100%_dry [a]").path == "100%_dry [a]"


def test_a_food_a_container_and_a_recipe_by_name(world: World) -> None:
    world.dry_lot(PEAS)
    world.recipe()
    assert finding.find_food(world.room, f" {PEAS.upper()} ").name == PEAS
    assert finding.find_container(world.room, " JAR-475 ").key == "jar-475"
    assert finding.find_recipe(world.room, " PEA SOUP ").name == "Pea soup"
    assert finding.find_recipe(world.room, "p").name == "Pea soup"


def test_at_most_five_are_offered(world: World) -> None:
    for number in range(7):
        world.places(f"place {number}", f"place {number}/rack")
    with pytest.raises(finding.Ambiguous) as caught:
        finding.find_place(world.room, "rack")
    assert caught.value.hint.count("/rack") == 5


def test_at_most_three_near_names_are_given(world: World) -> None:
    world.places(*(f"cellar {number}" for number in range(6)))
    with pytest.raises(NotFound) as caught:
        finding.find_place(world.room, "cellar")
    assert len(caught.value.nearest) == 3
