"""Household measures of foods, and recipes that count in them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stockroom.domain.cooking import Basis
from stockroom.services import kitchen, measures, workings
from stockroom.services.kitchen import LineRequest
from tests.workings import check_figures, step_of
from tests.world import APPLE, PEAS, World


def _cups(amount: str = "1.5", unit: str = "cup") -> LineRequest:
    return LineRequest(food=PEAS, basis=Basis.MEASURE, amount=Fraction(amount), unit=unit)


def test_measures_are_set_changed_and_removed(world: World) -> None:
    world.packed(PEAS)
    world.packed(APPLE)
    done = measures.set_measure(world.room, PEAS.upper(), " cup ", 380)
    assert done.words == f"set one cup of {PEAS} to 38.0 g dry"
    measures.set_measure(world.room, APPLE, "cup", 1_100, basis=Basis.FRESH)
    changed = measures.set_measure(world.room, PEAS, "CUP", 395)
    assert changed.words == f"set one cup of {PEAS} to 39.5 g dry"
    assert [
        (one.food, one.name, one.basis, one.weight_dg) for one in measures.list_measures(world.room)
    ] == [(APPLE, "cup", "fresh", 1_100), (PEAS, "cup", "dry", 395)]
    assert [one.weight_dg for one in measures.list_measures(world.room, PEAS)] == [395]
    measures.remove_measure(world.room, APPLE, "Cup")
    assert [one.food for one in measures.list_measures(world.room)] == [PEAS]


@pytest.mark.parametrize(("basis", "wanted"), [(Basis.DRY, 1_140), (Basis.FRESH, 1_140)])
def test_a_recipe_counts_in_measures(world: World, basis: Basis, wanted: int) -> None:
    """One and a half cups for two are three for four; one cup weighs 38 g."""
    world.packed(PEAS, "2xjar-950:75", wet_g=1000, dry_g=155)
    measures.set_measure(world.room, PEAS, "cup", 380, basis=basis)
    name = world.recipe("Soup", 2, [_cups(unit=" CUP ")])
    line = kitchen.show_recipe(world.room, name).lines[0]
    assert (line.basis, line.amount_thousandths, line.unit) == ("measure", 1_500, "cup")
    (cooked,) = kitchen.cook_sheet(world.room, name, 4).plan.lines
    assert (cooked.need.wanted_dg, cooked.need.amount) == (wanted, Fraction(3))
    got = cooked.dry_dg if basis is Basis.DRY else cooked.dry_dg + cooked.water_dg
    assert wanted <= got < wanted + 8


def test_a_cup_weighed_anew_counts_at_once(world: World) -> None:
    world.packed(PEAS, "1xjar-950:100")
    measures.set_measure(world.room, PEAS, "cup", 380)
    name = world.recipe("Soup", 1, [_cups("1")])
    measures.set_measure(world.room, PEAS, "cup", 400)
    assert kitchen.cook_sheet(world.room, name, 1).plan.lines[0].dry_dg == 400


def test_removing_a_measure_names_who_counts_in_it(world: World) -> None:
    world.packed(PEAS)
    measures.set_measure(world.room, PEAS, "cup", 380)
    world.recipe("Soup", 1, [_cups("1")])
    done = measures.remove_measure(world.room, PEAS, "cup")
    assert done.words == f"removed the measure cup of {PEAS}; still counted in by Soup"


def test_the_working_shows_what_the_cup_weighs(world: World) -> None:
    world.packed(PEAS, "1xjar-950:100")
    measures.set_measure(world.room, PEAS, "cup", 380)
    name = world.recipe("Soup", 2, [_cups()])
    sheet = kitchen.cook_sheet(world.room, name, 3)
    working = workings.cook_working(world.room, sheet).workings[0]
    wanted = step_of(working, "wanted, dry")
    assert wanted.figures == "1.5 cup x 3 / 2 x 38.0 g"
    assert wanted.result == "85.5 g"
    assert check_figures(working) >= 6
