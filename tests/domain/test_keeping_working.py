"""The working of the full model: it says what was computed, from what, and how sure it is."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given, settings

from stockroom.domain.keeping import full_model
from stockroom.domain.keeping.headspace import TooMuchForContainer, VacuumBeyondBarometer
from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind, Stay
from stockroom.domain.working import Given, Standing, Step, Working
from stockroom.reference.sources import sources
from tests.domain.keeping_cases import FRUIT, MODEL, MONTHS_DC, SEALED, any_cases, at, project

JAR = replace(FRUIT, package_kind=PackageKind.JAR, volume_ml=1900, area_mm2=None, absorber_cc=500)
LARGE = replace(FRUIT, volume_ml=3785, area_mm2=None)
ZIP = replace(FRUIT, package_kind=PackageKind.ZIP_BAG, absorber_cc=0)
SEASONS = replace(
    ZIP,
    stays=(
        Stay(SEALED, 300, (), Fraction(40, 100)),
        Stay(SEALED + timedelta(days=10), None, MONTHS_DC, Fraction(70, 100), True),
    ),
)
# What a person types or reads; anything else a working shows has a standing.
OWN_READINGS = {
    "sealed on",
    "dry food",
    "volume as closed",
    "absorber",
    "gauge vacuum",
    "barometer",
    "density of the solids",
    "residual moisture",
    "humidity of the room",
    "fat of the dry solids",
    "dried again on",
    "share of the quality used before",
}
CASES = {
    "foil": FRUIT,
    "foil, too small an absorber": LARGE,
    "vacuum": replace(JAR, absorber_cc=0, vacuum_tenth_inhg=220),
    "jar": JAR,
    "zip bag": ZIP,
    "dry room": at(ZIP, 21, 0.2),
    "hot": at(FRUIT, 41),
    "cold": at(replace(FRUIT, food_class=FoodClass.NUTS), -18),
    "seasons": SEASONS,
    "fatty": replace(FRUIT, fat_of_solids=Fraction(2, 10)),
    "opened": replace(JAR, opened_on=date(2026, 6, 1)),
    "opened late": replace(JAR, opened_on=date(2040, 6, 1), reclosed_with_absorber=True),
    "dried again": replace(
        ZIP, seal_lost_on=date(2026, 2, 5), redried_on=date(2026, 2, 20), residual_moisture=None
    ),
    "nobody said": replace(FRUIT, stays=(), barometer_thousandth_inhg=26_540),
}


def explain(case: KeepingCase) -> Working:
    """The full model's working."""
    return MODEL.explain(case)


def step_of(working: Working, title: str) -> Step:
    """The one step whose title begins so."""
    (found,) = (step for step in working.steps if step.title.startswith(title))
    return found


def input_of(step: Step, name: str) -> Given:
    """The one input whose name begins so."""
    (found,) = (given for given in step.inputs if given.name.startswith(name))
    return found


def leading(text: str) -> str:
    """The number a value begins with, in brackets so that a sign survives."""
    found = re.match(r"[-+]?[0-9.]+(?:e[-+]?[0-9]+)?", text)
    assert found, text
    return f"({found[0]})"


def computed_again(step: Step) -> float:
    """The figures of a step worked out once more, units left out."""
    values = sorted({given_.value_text for given_ in step.inputs}, key=len, reverse=True)
    pattern = "|".join(rf"(?<![0-9.]){re.escape(value)}(?![0-9.])" for value in values)
    text = re.sub(pattern, lambda found: leading(found[0]), step.figures)
    text = text.replace(" kPa", "").replace(" x ", " * ").replace("^", "**")
    return float(eval(text, {"exp": math.exp, "smaller": min}))


@pytest.mark.parametrize("name", CASES)
def test_every_formula_in_figures_gives_the_result_beside_it(name: str) -> None:
    """The steps are written beside the computation; this keeps the two from drifting apart."""
    checked = 0
    for step in explain(CASES[name]).steps:
        if not step.figures or step.result in ("never", "past 25 years"):
            continue
        result = float(leading(step.result).strip("()"))
        assert computed_again(step) == pytest.approx(result, rel=0.01), step
        checked += 1
    assert checked >= 8


@pytest.mark.parametrize("name", CASES)
def test_every_number_has_a_standing_or_is_the_persons_own(name: str) -> None:
    for step in explain(CASES[name]).steps:
        for given_ in step.inputs:
            own = given_.name in OWN_READINGS or given_.name.startswith(
                ("from 20", "temperature there")
            )
            assert given_.stands_as is not None or own, (step.title, given_)


@pytest.mark.parametrize("name", CASES)
def test_every_source_stands_in_the_list_of_sources(name: str) -> None:
    known = set(sources().values())
    found = explain(CASES[name]).sources
    assert found
    assert set(found) <= known


def test_the_working_ends_where_the_projection_does() -> None:
    for case in CASES.values():
        found = project(case)
        best_by = step_of(explain(case), "best-by").result
        for day in (found.best_by, found.low, found.high, found.recheck_by):
            assert day.isoformat() in best_by
        assert step_of(explain(case), "what ends it first").result.startswith(found.limited_by)


def test_nothing_is_written_down_for_a_date_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    written: list[object] = []
    monkeypatch.setattr(full_model, "explain", written.append)
    found = MODEL.project(FRUIT)
    MODEL.project_many([FRUIT, JAR])
    assert written == []
    assert found.working is None  # What the stand-in gives: asked for, it is written.
    assert len(written) == 1


def test_constants_name_their_source_and_standing() -> None:
    working = explain(FRUIT)
    life = input_of(step_of(working, "life without oxygen there"), "life without oxygen")
    assert (life.value_text, life.stands_as) == ("10 years", Standing.ENGINEERING_JUDGEMENT)
    assert life.source is not None
    assert life.source.key == "class-lives"
    film = input_of(step_of(working, "oxygen coming in"), "oxygen through the film")
    assert film.source is not None
    assert film.source.key == "package-barriers"
    discard = step_of(working, "when it could reach the moisture microbes need")
    assert discard.inputs[0].stands_as is Standing.PUBLISHED


def test_the_area_used_is_shown_and_how_it_was_known() -> None:
    given_area = input_of(step_of(explain(FRUIT), "oxygen coming in"), "film area")
    assert given_area.value_text == "0.12 m²"
    assert given_area.source is not None
    assert given_area.source.key == "face-area"
    from_volume = step_of(explain(LARGE), "film area")
    assert from_volume.figures == "0.12 m² x (3785 mL / 1500 mL)^(2/3)"
    assert "film-area" in {source.key for source in from_volume.sources}


def test_oxygen_left_and_the_absorber_that_would_do() -> None:
    working = explain(LARGE)
    assert step_of(working, "oxygen the absorber leaves").result == "472 cc"
    assert step_of(working, "absorber that would take all").result == "1000 cc"
    assert any("too small" in text for text in working.cautions)
    assert step_of(explain(FRUIT), "reserve of the absorber").result == "6.7 cc"


def test_shares_of_the_band_add_up_to_the_whole_of_either_side() -> None:
    for case in (FRUIT, JAR, ZIP, SEASONS):
        shares = [
            [float(one) for one in re.findall(r"([0-9]+) % of", given_.value_text)]
            for given_ in step_of(explain(case), "what widens the band").inputs
        ]
        assert sum(low for low, _ in shares) == pytest.approx(100, abs=4)
        assert sum(high for _, high in shares) == pytest.approx(100, abs=4)


def test_the_largest_contributor_is_named_first() -> None:
    assert step_of(explain(ZIP), "what widens the band").result.startswith(
        "most of all vapour through the film"
    ) or step_of(explain(ZIP), "what widens the band").result.startswith(
        "most of all water activity"
    )
    step = step_of(explain(JAR), "what widens the band")
    assert step.result.startswith("most of all life without oxygen")
    assert input_of(step, "life without oxygen").value_text.startswith("4 to 10 to 25 years")


def test_what_would_lengthen_it() -> None:
    def tried(case: KeepingCase) -> set[str]:
        return {given_.name for given_ in step_of(explain(case), "what would lengthen it").inputs}

    assert tried(FRUIT) == {"a place 5 °C cooler throughout"}
    assert tried(LARGE) == {
        "a place 5 °C cooler throughout",
        "an absorber of 1000 cc, the food being dry enough",
    }
    assert "a foil pouch" in tried(ZIP)
    assert tried(CASES["opened"]) == {"kept closed and tight"}
    assert tried(at(JAR, 5)) == set()


def test_a_cooler_place_is_worth_what_the_law_says() -> None:
    # Ten years at 21 °C and Q10 2: 14.1 at 16 °C, computed.
    tried = step_of(explain(JAR), "what would lengthen it").inputs[0]
    assert tried.value_text == "14 years 1 month instead of 10 years"


def test_places_are_listed_with_how_warm_they_are() -> None:
    places = step_of(explain(SEASONS), "its places").inputs
    assert places[0].value_text == "30.0 °C, stated"
    assert places[1].value_text.startswith("16.0 16.0 17.0")
    assert places[1].value_text.endswith("month by month, measured")
    silent = step_of(explain(CASES["nobody said"]), "its places").inputs[0]
    assert silent.value_text == "nobody has said: taken as 21.0 °C"
    assert silent.stands_as is Standing.ENGINEERING_JUDGEMENT


def test_one_temperature_for_several_places() -> None:
    # The loft's year: mean 19.9, mean kinetic 20.3 with the matching 51.216 kJ/mol, and 20.4
    # throughout uses as much life (computed). Beside a Q10 of 2 the pharmacopoeia's 83.144 would
    # disagree.
    loft = replace(JAR, stays=(Stay(SEALED, None, MONTHS_DC, measured=True),))
    step = step_of(explain(loft), "its temperatures until then")
    assert "mean 19.9 °C" in step.result
    assert "mean kinetic 20.3 °C" in step.result
    assert "20.4 °C throughout" in step.result
    assert step.inputs[0].value_text == "51.216 kJ/mol"
    with pytest.raises(ValueError, match="not enough values"):
        step_of(explain(JAR), "its temperatures until then")


@pytest.mark.parametrize(
    ("name", "said", "unsaid"),
    [
        ("foil", ("Quality estimate, not safety", "local codes", "extrapolated"), ("light: ",)),
        ("zip bag", ("Pliable or damp food",), ("extrapolated", "Light is")),
        ("jar", ("keep clear glass in the dark", "leaks is a guess"), ("Nobody has said",)),
        ("hot", ("above 38 °C", "above 40 °C"), ()),
        ("fatty", ("goes rancid sooner",), ()),
        ("opened", ("Open or not tight",), ()),
        ("nobody said", ("Nobody has said how warm", "21 °C is assumed"), ("stated, not",)),
        ("seasons", ("stated, not measured",), ("Nobody has said",)),
    ],
)
def test_cautions(name: str, said: tuple[str, ...], unsaid: tuple[str, ...]) -> None:
    texts = " ".join(explain(CASES[name]).cautions)
    assert all(words in texts for words in said)
    assert not any(words in texts for words in unsaid)
    assert "Quality estimate, not safety" in texts
    assert "home freeze-dried food are lacking" in texts
    assert "guaranteed" not in texts


def test_a_warning_above_38_degrees_only() -> None:
    assert not any("above 38" in text for text in explain(at(FRUIT, 38)).cautions)
    assert any("above 38" in text for text in explain(at(FRUIT, 38.1)).cautions)


def test_drying_again_and_opening_are_told() -> None:
    dried = explain(CASES["dried again"])
    assert input_of(step_of(dried, "dried again"), "dried again on").value_text == "2026-02-20"
    opened = explain(CASES["opened"])
    assert step_of(opened, "the opened rule").result == "135 days"
    fatty = step_of(explain(CASES["fatty"]), "lives and oxygen held back")
    assert fatty.result == "to those of fatty dairy, where lower"


@given(any_cases())
@settings(max_examples=100, deadline=None)
def test_whatever_can_be_projected_can_be_explained(case: KeepingCase) -> None:
    try:
        found = project(case)
    except (TooMuchForContainer, VacuumBeyondBarometer):
        return
    working = found.working
    assert found.best_by.isoformat() in step_of(working, "best-by").result
    assert working.cautions
