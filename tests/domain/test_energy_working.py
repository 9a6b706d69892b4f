"""How a figure for energy is explained: formula, sources, standings, what would change it."""

from __future__ import annotations

import pytest

from stockroom.domain.energy import NoEnergyFigure, energy_need
from stockroom.domain.energy_equations import Edition
from stockroom.domain.energy_remarks import remarks
from stockroom.domain.energy_sources import (
    ACTIVITY_2005,
    EER_2005,
    EER_2023,
    ENERGY_TABLE,
    REFERENCE_PEOPLE,
)
from stockroom.domain.energy_steps import equation_steps
from stockroom.domain.energy_working import energy_working
from stockroom.domain.person import Person
from stockroom.domain.working import Standing, Step, Trace, Working
from tests.domain.test_energy import person
from tests.workings import check_figures


def step_of(working: Working, title: str) -> Step:
    """The step with this title."""
    (found,) = (one for one in working.steps if one.title == title)
    return found


def given_in(step: Step) -> dict[str, str]:
    """The inputs of a step by name."""
    return {one.name: one.value_text for one in step.inputs}


def test_the_equation_of_2005_is_written_out() -> None:
    working = energy_working(person())
    energy = step_of(working, "energy")
    assert energy.formula == (
        "women's constant - women's kcal per year x age + women's activity coefficient x"
        " (women's kcal per kg x weight + women's kcal per m x height in metres)"
    )
    assert energy.figures == (
        "354 kcal - 6.91 kcal x 30 years + 1.12 x (9.36 kcal/kg x 65 kg + 726 kcal/m x 1.65 m)"
    )
    assert energy.result == "2169.8 kcal/day"
    assert energy.sources == (EER_2005, ACTIVITY_2005)
    assert "women's alone" not in energy.formula
    assert "those of women alone" in ACTIVITY_2005.citation
    assert step_of(working, "activity").result == "low active: physical activity level 1.4 to 1.6"
    assert step_of(working, "body mass index").result == "23.9 kg/m²"
    assert working.conclusion == "2170 kcal a day (published)"
    assert working.cautions == remarks(energy_need(person()))


def test_the_equation_of_2023_is_written_out_with_its_standing() -> None:
    working = energy_working(person("M", 40, 80, 178, "very"), Edition.NEW)
    energy = step_of(working, "energy")
    assert energy.figures == (
        "-517.88 kcal - 10.83 kcal x 40 years + 15.61 kcal/cm x 178 cm + 19.11 kcal/kg x 80 kg"
    )
    assert energy.result == "3356.3 kcal/day"
    constants = [one for one in energy.inputs if one.source is EER_2023]
    assert len(constants) == 4
    assert all(one.stands_as is Standing.FROM_MEMORY for one in constants)
    assert working.conclusion == "3356 kcal a day (from memory, not confirmed)"
    assert any("never a limit" in text for text in working.cautions)
    assert not any(step.title.startswith("body mass index") for step in working.steps)
    level = step_of(working, "activity")
    assert level.result == "very active: physical activity level 1.85 to 2.5"
    assert "which is" not in given_in(level)


def test_the_table_is_looked_up() -> None:
    working = energy_working(person("F", 40, None, None))
    energy = step_of(working, "energy")
    assert (energy.formula, energy.result) == ("", "2000 kcal/day")
    assert energy.sources == (ENERGY_TABLE,)
    assert given_in(energy)["row of the table"] == "36 to 40 years"
    assert step_of(working, "column of the table").result == "moderately active"
    allowance = step_of(working, "protein, recommended allowance")
    assert allowance.figures == "0.8 g/kg x 57.15 kg"
    assert REFERENCE_PEOPLE in allowance.sources


def test_a_child_has_no_protein_to_explain() -> None:
    working = energy_working(person("M", 9, 28, 133, "active"))
    assert step_of(working, "protein").result == "For a child's protein no figure is at hand."
    assert step_of(working, "energy").result == "2000 kcal/day"


def test_what_would_change_it() -> None:
    found = given_in(step_of(energy_working(person()), "what would change it"))
    # 2169.756 less ten times 6.91, and five times 1.12 x 9.36 more.
    assert found["10 years older"] == "2100.7 kcal/day"
    assert found["5 kg heavier"] == "2222.2 kcal/day"
    assert found["by the equation of 2023"] == "2243.6 kcal/day"
    assert found["by the table, for the reference person"] == "2000 kcal/day"
    assert {"when sedentary", "when active", "when very active"} <= set(found)
    assert "when low active" not in found


def test_a_neighbour_keeps_its_own_standing() -> None:
    step = step_of(energy_working(person()), "what would change it")
    standings = {one.name: one.stands_as for one in step.inputs}
    assert standings["by the equation of 2023"] is Standing.FROM_MEMORY
    assert standings["10 years older"] is Standing.COMPUTED
    assert standings["by the table, for the reference person"] is Standing.PUBLISHED
    back = step_of(energy_working(person(), Edition.NEW), "what would change it")
    assert {one.name: one.stands_as for one in back.inputs}["10 years older"] is (
        Standing.FROM_MEMORY
    )
    assert given_in(back)["by the equation of 2005"] == "2169.8 kcal/day"


def test_a_neighbour_there_is_no_figure_for_is_left_out() -> None:
    oldest = given_in(step_of(energy_working(person(years=115)), "what would change it"))
    assert "10 years older" not in oldest and "5 kg heavier" in oldest
    heaviest = given_in(step_of(energy_working(person(kg=249)), "what would change it"))
    assert "5 kg heavier" not in heaviest
    child = given_in(step_of(energy_working(person("F", 9, None, None)), "what would change it"))
    assert child["a year older"] == "1800 kcal/day"
    assert not any("equation" in name for name in child)
    last = given_in(step_of(energy_working(person("M", 18, None, None)), "what would change it"))
    assert last["a year older"] == "2800 kcal/day"


@pytest.mark.parametrize(
    ("who", "edition", "least"),
    [
        (person(), None, 6),
        (person("M", 72, "61.5", 171, "very"), None, 6),
        (person("M", 40, 80, 178, "very"), Edition.NEW, 4),
        (person("F", "30.5", "48.25", "158.5", "active"), Edition.NEW, 4),
        (person("M", 40, None, None), None, 3),
    ],
)
def test_the_figures_give_the_results(who: Person, edition: Edition | None, least: int) -> None:
    assert check_figures(energy_working(who, edition)) >= least


def test_the_table_has_no_equation_to_write_out() -> None:
    with pytest.raises(ValueError, match="no equation"):
        equation_steps(Trace("any"), energy_need(person("F", 40, None, None)))


def test_what_has_no_figure_has_no_working() -> None:
    with pytest.raises(NoEnergyFigure):
        energy_working(person(years=1))
