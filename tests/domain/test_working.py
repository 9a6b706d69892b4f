"""The working: one template for words and figures, sources kept, the result frozen."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest

from stockroom.domain.working import Given, Source, Standing, Step, Trace, Working

DENSITY = Source("density", "A book of densities", Standing.PUBLISHED)
RULE = Source("rule", "A rule of ours", Standing.ENGINEERING_JUDGEMENT)


def gas_working() -> Working:
    """The example of the module: gas is the volume less the solids."""
    trace = Trace("Gas in the package")
    dry = Given("dry food", "150.0 g")
    density = Given("solid density", "1.5 g/mL", DENSITY)
    solids = trace.step("solids", "{dry} / {density}", "100 mL", dry=dry, density=density)
    volume = Given("volume", "1500 mL")
    trace.step(
        "gas", "{volume} - {solids}", "1400 mL", sources=(RULE,), volume=volume, solids=solids
    )
    trace.caution("Measure the volume as closed.")
    return trace.finish()


def test_formula_and_figures_come_from_one_template() -> None:
    solids, gas = gas_working().steps
    assert solids.formula == "dry food / solid density"
    assert solids.figures == "150.0 g / 1.5 g/mL"
    assert (gas.formula, gas.figures, gas.result) == (
        "volume - solids",
        "1500 mL - 100 mL",
        "1400 mL",
    )


def test_the_result_of_a_step_is_an_input_of_the_next() -> None:
    gas = gas_working().steps[1]
    assert gas.inputs[1] == Given("solids", "100 mL", standing=Standing.COMPUTED)
    assert gas.inputs[1].stands_as is Standing.COMPUTED


def test_sources_of_inputs_and_formula_are_kept_once_each() -> None:
    working = gas_working()
    assert working.steps[0].sources == (DENSITY,)
    assert working.steps[1].sources == (RULE,)
    assert working.sources == (DENSITY, RULE)


def test_a_template_that_names_a_missing_input_is_a_defect() -> None:
    with pytest.raises(KeyError):
        Trace("x").step("gas", "{volume} - {solids}", "1400 mL", volume=Given("volume", "1 L"))


def test_braces_in_a_persons_own_words_are_left_alone() -> None:
    trace = Trace("x")
    trace.step("s", "{a} + 1", "2", a=Given("jar {b} [soft]", "{c}"))
    (step,) = trace.finish().steps
    assert (step.formula, step.figures) == ("jar {b} [soft] + 1", "{c} + 1")


def test_a_note_lists_inputs_without_a_formula() -> None:
    trace = Trace("x")
    trace.note("row", "9 months", Given("class", "fruit"), source=RULE)
    assert trace.finish().steps == (
        Step("row", "", "", "9 months", (RULE,), (Given("class", "fruit"),)),
    )


def test_a_caution_is_kept_once() -> None:
    trace = Trace("x")
    trace.caution("Warm.")
    trace.caution("Warm.")
    assert trace.finish().cautions == ("Warm.",)


def test_a_finished_working_can_be_taken_over() -> None:
    trace = Trace("Best-by")
    trace.caution("Measure the volume as closed.")
    trace.include(gas_working())
    whole = trace.finish()
    assert [step.title for step in whole.steps] == ["solids", "gas"]
    assert whole.cautions == ("Measure the volume as closed.",)


def test_a_working_is_frozen_and_does_not_follow_its_trace() -> None:
    trace = Trace("x")
    working = trace.finish()
    trace.note("later", "1")
    assert working.steps == ()
    with pytest.raises(FrozenInstanceError):
        working.title = "y"  # type: ignore[misc]


def test_only_what_is_from_memory_may_not_be_a_limit() -> None:
    kept_back = [standing for standing in Standing if not standing.may_be_a_limit]
    assert kept_back == [Standing.FROM_MEMORY]
    assert Standing.FROM_MEMORY.words == "from memory, not confirmed"
    assert all("confirm before" not in standing.words for standing in Standing)


def test_a_value_may_stand_otherwise_than_its_source() -> None:
    assert Given("x", "1", DENSITY).stands_as is Standing.PUBLISHED
    assert Given("x", "1", DENSITY, Standing.COMPUTED).stands_as is Standing.COMPUTED
    assert Given("x", "1").stands_as is None
    assert DENSITY.words == "A book of densities (published)"
