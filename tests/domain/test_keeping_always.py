"""The full model over many packages at once, and what holds for every package."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise
from math import inf

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stockroom.domain.calendar import add_months
from stockroom.domain.keeping import full_model
from stockroom.domain.keeping.figures import KeepingFigures
from stockroom.domain.keeping.headspace import TooMuchForContainer, VacuumBeyondBarometer
from stockroom.domain.keeping.interface import (
    CannotProject,
    KeepingCase,
    LimitedBy,
    PackageKind,
    Stay,
)
from stockroom.reference.keeping_figures import keeping_figures
from tests.benchmarks.keeping import plainly
from tests.benchmarks.plain_keeping import band_days
from tests.domain.keeping_cases import (
    BY_BARRIER,
    FRUIT,
    MODEL,
    SEALED,
    any_cases,
    at,
    project,
    tight_cases,
    years,
)

JAR = replace(FRUIT, package_kind=PackageKind.JAR, volume_ml=1900, area_mm2=None)


# -- many at once --------------------------------------------------------------------------------


def test_many_are_projected_as_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """Equal packages are computed once, and so are those that differ only in their dates."""
    computed: list[object] = []
    real = full_model.outcome_of

    def counted(prepared: full_model.Prepared) -> full_model.Outcome:
        computed.append(prepared)
        return real(prepared)

    later = date(2027, 4, 15)
    next_year = replace(FRUIT, sealed_on=later, stays=(replace(FRUIT.stays[0], from_day=later),))
    other = replace(FRUIT, dry_dg=1400)
    cases = [replace(one) for one in (FRUIT, other, FRUIT, next_year, FRUIT, other)]
    expected = [project(case) for case in cases]
    monkeypatch.setattr(full_model, "outcome_of", counted)
    assert MODEL.project_many(cases) == expected
    assert len(computed) == 2
    assert MODEL.project_many([]) == []


def test_many_shared_answers_explain_their_own_dates() -> None:
    later = date(2027, 4, 15)
    next_year = replace(FRUIT, sealed_on=later, stays=(replace(FRUIT.stays[0], from_day=later),))
    one, other = MODEL.project_many([FRUIT, next_year])
    assert "2026-01-31" in one.working.steps[0].inputs[0].value_text
    assert "2027-04-15" in other.working.steps[0].inputs[0].value_text


def test_many_that_differ_only_in_what_was_used_are_told_apart() -> None:
    dried = replace(FRUIT, redried_on=SEALED + timedelta(days=30))
    cases = [replace(dried, life_used_before_redrying=Fraction(share, 4)) for share in (0, 1, 2, 3)]
    assert len({found.mid_months for found in MODEL.project_many(cases)}) == 4


def test_a_refusal_among_many_is_raised() -> None:
    with pytest.raises(TooMuchForContainer):
        MODEL.project_many([FRUIT, replace(FRUIT, volume_ml=50)])


@given(st.lists(any_cases(), max_size=6))
@settings(max_examples=40)
def test_many_agree_with_one_by_one(cases: list[KeepingCase]) -> None:
    possible: list[KeepingCase] = []
    for case in cases:
        try:
            project(case)
        except CannotProject:
            continue
        possible.append(case)
    found = MODEL.project_many([*possible, *possible])
    assert found == [project(case) for case in possible] * 2


# -- what always holds ---------------------------------------------------------------------------


def possible(case: KeepingCase) -> KeepingCase:
    """The case, thrown away where the model refuses it."""
    try:
        project(case)
    except (TooMuchForContainer, VacuumBeyondBarometer):
        assume(False)
    return case


@given(any_cases())
@settings(max_examples=300, deadline=None)
def test_the_band_is_in_order_and_within_25_years(case: KeepingCase) -> None:
    found = project(possible(case))
    assert 0 <= found.low_months <= found.mid_months <= found.high_months <= 300
    assert case.sealed_on <= found.low <= found.best_by <= found.high
    assert found.high <= add_months(case.sealed_on, 300)


@given(tight_cases(), st.floats(-25, 45), st.floats(0, 1))
@settings(max_examples=150, deadline=None)
def test_a_second_opinion_in_one_place(case: KeepingCase, temp_c: float, humidity: float) -> None:
    """The plain formula, bisection and all, against the model."""
    share = Fraction(humidity).limit_denominator(100)
    place = Stay(case.sealed_on, int(temp_c * 10), (), share, True)
    case = replace(
        case,
        stays=(place,),
        residual_moisture=None,
        fat_of_solids=None,
        solid_density_mg_per_ml=None,
    )
    plain = replace(plainly(possible(case)), humidity=float(share), measured=True)
    expected = [days / 365.25 for days in band_days(plain)]
    assert years(project(case)) == pytest.approx(expected, rel=1e-6)


def same_or_more(longer: KeepingCase, shorter: KeepingCase) -> None:
    """The first keeps at least as long as the second, in the middle."""
    assert project(longer).mid_months >= project(shorter).mid_months * (1 - 1e-9)


@given(tight_cases(), st.integers(1, 4000))
@settings(max_examples=100, deadline=None)
def test_an_absorber_never_shortens(case: KeepingCase, more: int) -> None:
    case = possible(case)
    same_or_more(replace(case, absorber_cc=case.absorber_cc + more), case)


@given(tight_cases(), st.integers(1, 5000))
@settings(max_examples=100, deadline=None)
def test_headspace_never_lengthens(case: KeepingCase, more: int) -> None:
    case = replace(possible(case), area_mm2=case.area_mm2 or 100_000)
    same_or_more(case, replace(case, volume_ml=case.volume_ml + more))


@given(tight_cases())
@settings(max_examples=100, deadline=None)
def test_a_better_film_never_shortens(case: KeepingCase) -> None:
    case = possible(replace(case, package_kind=PackageKind.FOIL_POUCH))
    kinds = [replace(case, package_kind=kind) for kind in BY_BARRIER]
    for better, worse in pairwise(kinds):
        same_or_more(better, worse)


@given(tight_cases(), st.integers(1, 300))
@settings(max_examples=100, deadline=None)
def test_a_warmer_place_never_lengthens(case: KeepingCase, warmer_dc: int) -> None:
    case = possible(case)
    start = case.stays[0].temperature_dc if case.stays else 210
    assume(start is not None and start + warmer_dc <= 450)
    assert start is not None
    cool, warm = (
        replace(case, stays=(Stay(case.sealed_on, one),)) for one in (start, start + warmer_dc)
    )
    same_or_more(cool, warm)


@given(
    tight_cases(), st.fractions(0, 1, max_denominator=50), st.fractions(0, 1, max_denominator=50)
)
@settings(max_examples=100, deadline=None)
def test_a_damper_room_never_lengthens(case: KeepingCase, one: Fraction, other: Fraction) -> None:
    case = possible(case)
    dry, damp = (
        replace(case, stays=(Stay(case.sealed_on, 210, (), share),))
        for share in sorted((one, other))
    )
    same_or_more(dry, damp)


@given(tight_cases(), st.integers(1, 9000))
@settings(max_examples=100, deadline=None)
def test_splitting_a_stay_changes_nothing(case: KeepingCase, day: int) -> None:
    case = possible(case)
    assume(case.stays)
    last = case.stays[-1]
    again = replace(last, from_day=last.from_day + timedelta(days=day))
    whole, split = project(case), project(replace(case, stays=(*case.stays, again)))
    assert years(split) == pytest.approx(years(whole), rel=1e-9)
    assert split.limited_by is whole.limited_by


@given(tight_cases(), st.integers(0, 9000))
@settings(max_examples=100, deadline=None)
def test_opening_never_lengthens(case: KeepingCase, day: int) -> None:
    case = possible(case)
    opened = replace(case, opened_on=case.sealed_on + timedelta(days=day))
    same_or_more(case, opened)
    closed, open_ = project(case), project(opened)
    assert open_.best_by <= closed.best_by
    assert open_.high <= closed.high
    assert (open_.limited_by is LimitedBy.OPENED) is (open_.mid_months < closed.mid_months - 1e-6)


@given(tight_cases())
@settings(max_examples=100, deadline=None)
def test_the_life_lies_between_the_life_in_air_and_the_oxygen_free(case: KeepingCase) -> None:
    # At 21 °C in a room too dry to matter: Lair <= t <= Llow, with the class held back by its fat.
    case = possible(
        replace(
            case,
            fat_of_solids=None,
            stays=(Stay(case.sealed_on, 210, (), Fraction(1, 10), True),),
        )
    )
    own = next(one for one in keeping_figures().classes if one.food_class is case.food_class)
    found = project(case).mid_months
    free = own.life_without_oxygen.spread.middle * 12
    assert min(own.life_in_air.spread.middle, free) - 1e-6 <= found <= min(free, 300) + 1e-6


def test_beyond_its_oxygen_an_absorber_helps_only_through_its_reserve() -> None:
    # No ingress through glass to speak of: past the oxygen nothing is gained in a tight package,
    # while behind leaking film the reserve buys time until it, too, is more than enough.
    def mid(case: KeepingCase, absorber_cc: int) -> float:
        return project(replace(case, absorber_cc=absorber_cc)).mid_months

    figures: KeepingFigures = keeping_figures()
    tight = at(JAR, 21)
    assert mid(tight, 340) < mid(tight, 360) < mid(tight, 500)
    assert mid(tight, 500) == mid(tight, 2000) == pytest.approx(120)
    leaky = at(replace(FRUIT, package_kind=PackageKind.VACUUM_BAG), 21, 0.2)
    assert mid(leaky, 300) < mid(leaky, 2000)
    assert figures.absorber_sizes_cc[-1] == 2000


def test_no_limit_is_infinite_on_the_calendar() -> None:
    found = project(at(JAR, -18, 0.0))
    assert found.high_months < inf
    assert found.discard_by is None
