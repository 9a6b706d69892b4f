"""Which labels are wanted, and the sheets kept among the settings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.labels.sheets import BUILT_IN
from stockroom.domain.quantities import UnitSystem
from stockroom.services import climate, household, packages
from stockroom.services.history import redo, undo
from stockroom.services.label_sheets import (
    find_sheet,
    list_sheets,
    own_sheets,
    remove_sheet,
    save_sheet,
    usual_sheet,
)
from stockroom.services.labels import bin_labels, labels_of
from stockroom.services.packages import Amount
from stockroom.services.shelves import package_detail
from tests.services.cases_labels import OWN_SHEET
from tests.world import APPLE, PEAS, World


def said(world: World, code: str, key: str) -> str | None:
    """What the label of a package says in full of one thing."""
    (label,) = labels_of(world.room, [code])
    statement = label.statement(key)
    return None if statement is None else statement.forms[0]


def test_the_label_follows_the_record(world: World) -> None:
    world.places("cellar", "freezer")
    codes = world.packed(PEAS, "3xpouch-400-foil:20,absorber=100", place="cellar")
    package = world.package(codes[0])
    assert package.best_by is not None
    assert said(world, codes[0], "best_by") == (
        f"best by {package.best_by.isoformat()} (quality estimate, not safety)"
    )
    assert said(world, codes[0], "code") == codes[0]
    assert said(world, codes[0], "raw") is None and said(world, codes[0], "standing") is None
    later = world.later(40)
    packages.draw_package(later.room, codes[0], Amount(dry_dg=50))
    assert said(later, codes[0], "standing") == "opened 2027-01-04"
    left = later.package(codes[0]).left_water_dg
    assert (said(later, codes[0], "water") or "").startswith(f"add {left / 10:.1f} g water")
    packages.check_package(later.room, codes[1], Event.SOFT)
    assert (said(later, codes[1], "standing") or "").startswith("IN DOUBT")


def test_the_day_to_discard_stands_where_one_is_reckoned(world: World) -> None:
    """In a damp place a bag that lets damp through spoils its food in time."""
    world.places("cellar")
    climate.set_humidity(world.room, "cellar", 85)
    (code,) = world.packed(APPLE, "1xbag-zip-1000:60", place="cellar")
    projection = package_detail(world.room, code).projection
    assert projection is not None and projection.discard_by is not None
    assert said(world, code, "discard_by") == f"discard by {projection.discard_by.isoformat()}"


def test_a_place_lists_everything_below_it(world: World) -> None:
    world.places("cellar", "cellar/rack", "loft")
    below = world.packed(PEAS, "2xpouch-400-foil:20,absorber=100", place="rack")
    world.packed(APPLE, "1xpouch-400-foil:20,absorber=100", place="loft")
    found = [label.code for label in labels_of(world.room, [], "cellar")]
    assert found == list(below)
    assert [label.code for label in bin_labels(world.room, ["26329B"], "cellar")] == [
        "26329B",
        "26329A",
    ]


def test_a_bin_label_names_the_earliest_best_by_of_what_is_left(world: World) -> None:
    codes = world.packed(PEAS, "2xpouch-400-foil:20,absorber=100", "1xbag-zip-1000")
    days = [day for code in codes if (day := world.package(code).best_by) is not None]
    assert len(set(days)) > 1 and len(days) == 3

    def first() -> str:
        (label,) = bin_labels(world.room, ["26329A"])
        statement = label.statement("best_by")
        assert statement is not None
        return statement.forms[0]

    assert min(days).isoformat() in first()
    packages.discard_packages(world.room, [codes[2]], "torn")
    assert max(days).isoformat() in first()


def test_own_sheets_come_first_and_undo_restores_them(world: World) -> None:
    assert list_sheets(world.room) == BUILT_IN
    save_sheet(world.room, OWN_SHEET)
    assert list_sheets(world.room) == (OWN_SHEET, *BUILT_IN)
    remove_sheet(world.room, OWN_SHEET.name)
    assert own_sheets(world.room) == ()
    undo(world.room)
    assert own_sheets(world.room) == (OWN_SHEET,)
    undo(world.room)
    assert own_sheets(world.room) == ()
    redo(world.room)
    assert own_sheets(world.room) == (OWN_SHEET,)


@pytest.mark.parametrize(
    "typed", ["A4 3 × 8, 70 × 37 mm", "a4 3x8", "A43X8 70x37MM", "  a4 3 x 8,70x37 "]
)
def test_a_sheet_is_found_by_name_or_its_beginning(world: World, typed: str) -> None:
    assert find_sheet(world.room, typed) == BUILT_IN[0]


def test_an_own_sheet_whose_name_begins_another_is_found_whole(world: World) -> None:
    for name in ("box", "box two"):
        save_sheet(world.room, replace(OWN_SHEET, name=name))
    assert find_sheet(world.room, "BOX").name == "box"
    assert find_sheet(world.room, "box t").name == "box two"


def test_the_usual_sheet_is_of_the_household_s_paper(world: World) -> None:
    assert usual_sheet(world.room).name.startswith("A4")
    household.change_household(world.room, units=UnitSystem.US)
    assert usual_sheet(world.room).name.startswith("US Letter")
