"""The plain table: rows, oxygen, fat, events and dates, and what always holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.calendar import add_years
from stockroom.domain.keeping.headspace import TooMuchForContainer
from stockroom.domain.keeping.interface import (
    FoodClass,
    KeepingCase,
    KeepingModel,
    LimitedBy,
    PackageKind,
    Projection,
    Stay,
    TooMoistToProject,
)
from stockroom.domain.keeping.plain_table import PlainTable
from stockroom.domain.working import Standing
from stockroom.reference.lives import plain_lives

SEALED = date(2026, 1, 31)
FRUIT = KeepingCase(
    food_class=FoodClass.FRUIT,
    fat_of_solids=Fraction(3, 100),
    package_kind=PackageKind.FOIL_POUCH,
    dry_dg=1500,
    volume_ml=1500,
    area_mm2=120_000,
    absorber_cc=300,
    vacuum_tenth_inhg=None,
    residual_moisture=Fraction(3, 100),
    sealed_on=SEALED,
)
# From the better barrier to the worse; a sound jar and foil let neither gas through to speak of.
BARRIERS = (
    PackageKind.FOIL_POUCH,
    PackageKind.METALLISED_POUCH,
    PackageKind.VACUUM_BAG,
    PackageKind.ZIP_BAG,
)


def project(case: KeepingCase) -> Projection:
    """The projection of the shipped table."""
    model: KeepingModel = PlainTable(plain_lives())
    return model.project(case)


def days(projection: Projection) -> tuple[date, date, date]:
    """Low, best-by and high."""
    return projection.low, projection.best_by, projection.high


def test_foil_with_the_oxygen_removed_has_the_life_of_its_class() -> None:
    # Fruit without oxygen: 4, 10 and 25 years (engineering judgement, see the class figures).
    found = project(FRUIT)
    assert days(found) == (date(2030, 1, 31), date(2036, 1, 31), date(2051, 1, 31))
    assert (found.low_years, found.mid_years, found.high_years) == (4, 10, 25)
    assert found.recheck_by == found.low
    assert found.limited_by is LimitedBy.TABLE
    assert found.model == "plain table"


def test_without_an_absorber_it_has_its_life_in_air() -> None:
    # Home dried fruit 6 to 12 months: National Center for Home Food Preservation.
    found = project(replace(FRUIT, absorber_cc=0))
    assert days(found) == (date(2026, 7, 31), date(2026, 10, 31), date(2027, 7, 31))


def test_a_vacuum_alone_does_not_remove_the_oxygen() -> None:
    # A jar pumped to 22 inHg keeps 0.26 of its air: 0.67 cc of oxygen per gram, past bearing.
    jar = replace(FRUIT, package_kind=PackageKind.JAR, volume_ml=1900, absorber_cc=0)
    assert days(project(replace(jar, vacuum_tenth_inhg=220))) == days(project(jar))


def test_an_absorber_far_too_small_leaves_the_life_in_air() -> None:
    # 150 g in 3,785 mL behind 300 cc: 3.15 cc of oxygen per gram are left.
    gallon = replace(FRUIT, volume_ml=3785)
    assert project(gallon).mid_months == 9
    assert any("too small" in text for text in project(gallon).working.cautions)
    assert project(replace(gallon, absorber_cc=1000)).mid_months == 120


def test_oxygen_left_shortens_the_life_in_proportion() -> None:
    # 1,000 mL of gas hold 209.5 cc. Starch tolerates 0.5 cc/g, and 42.5 cc left on 150 g
    # spends 0.567 of the 15 years.
    case = replace(FRUIT, food_class=FoodClass.STARCH, volume_ml=1100, absorber_cc=167)
    left = (209.5 - 167) / 150
    assert project(case).mid_months == pytest.approx(180 * (1 - left / 0.5), abs=0.01)


def test_vacuum_before_the_absorber_helps_it() -> None:
    gallon = replace(FRUIT, volume_ml=3785)
    assert project(replace(gallon, vacuum_tenth_inhg=220)).mid_months == 120


def test_fat_of_the_solids_goes_before_the_name() -> None:
    # Minced beef 80/20, roasted to 54.54 % water with 17.36 % fat: 38 % of its solids
    # (USDA SR28), so it keeps like nuts: 6, 12 and 24 months.
    fat = Fraction(1736, 10_000 - 5454)
    beef = replace(FRUIT, food_class=FoodClass.LEAN_MEAT, fat_of_solids=fat)
    found = project(beef)
    assert (found.low_months, found.mid_months, found.high_months) == (6, 12, 24)
    assert any("rancid" in text for text in found.working.cautions)


@pytest.mark.parametrize(
    ("fat", "months"),
    [("0.149", 60), ("0.15", 24), ("0.35", 24), ("0.351", 12)],
    ids=["caution only", "poor from 15 %", "poor to 35 %", "not for storage above"],
)
def test_the_edges_of_the_fat_rule(fat: str, months: int) -> None:
    meat = replace(FRUIT, food_class=FoodClass.LEAN_MEAT, fat_of_solids=Fraction(fat))
    assert project(meat).mid_months == months


def test_fat_not_known_leaves_the_class_and_says_so() -> None:
    found = project(replace(FRUIT, fat_of_solids=None))
    assert found.mid_months == 120
    assert any("not known" in step.result for step in found.working.steps)


def test_opened_food_has_two_weeks_and_never_longer_than_sealed() -> None:
    opened = replace(FRUIT, opened_on=date(2026, 12, 1))
    found = project(opened)
    assert found.best_by == date(2026, 12, 15)
    assert found.low == date(2026, 12, 8)
    assert found.limited_by is LimitedBy.OPENED
    late = replace(FRUIT, absorber_cc=0, opened_on=date(2026, 10, 25))
    assert project(late).best_by == project(replace(late, opened_on=None)).best_by


def test_closed_again_with_an_absorber_it_has_about_two_months() -> None:
    again = replace(FRUIT, opened_on=date(2026, 12, 1), reclosed_with_absorber=True)
    assert project(again).best_by == date(2026, 12, 1) + timedelta(days=60)


def test_a_lost_seal_counts_like_opening_and_the_earlier_of_the_two_decides() -> None:
    lost = replace(FRUIT, seal_lost_on=date(2026, 6, 1), opened_on=date(2026, 12, 1))
    assert project(lost).best_by == date(2026, 6, 15)


def test_drying_again_keeps_the_quality_already_spent() -> None:
    # Tight for 151 days, open for 61: used = 151/3652.5 + 61/273.94 of ten years, by hand.
    dried = replace(FRUIT, seal_lost_on=SEALED + timedelta(days=151))
    dried = replace(dried, redried_on=SEALED + timedelta(days=212))
    used = 151 / 3652.5 + 61 / (9 * 30.4375)
    expected = 212 / 30.4375 + 120 * (1 - used)
    assert project(dried).mid_months == pytest.approx(expected, abs=0.01)


def test_a_share_on_record_goes_before_the_dates() -> None:
    dried = replace(FRUIT, redried_on=date(2027, 1, 31))
    dried = replace(dried, life_used_before_redrying=Fraction(1, 2))
    assert project(dried).best_by == date(2032, 1, 31)


def test_drying_again_gives_a_zip_bag_a_fresh_moisture_life() -> None:
    bag = replace(FRUIT, package_kind=PackageKind.ZIP_BAG, absorber_cc=0)
    fresh = project(bag).mid_months
    again = replace(bag, redried_on=date(2026, 3, 31))
    waited = 59 / 30.4375
    assert project(again).mid_months == pytest.approx(waited + fresh, abs=0.01)


def test_but_never_more_than_the_quality_that_is_left() -> None:
    bag = replace(FRUIT, package_kind=PackageKind.ZIP_BAG, absorber_cc=0)
    spent = replace(bag, redried_on=date(2026, 1, 31) + timedelta(days=300))
    assert project(spent).best_by == spent.redried_on


def test_opened_after_drying_again() -> None:
    again = replace(FRUIT, redried_on=date(2027, 1, 31), opened_on=date(2027, 3, 1))
    assert project(again).best_by == date(2027, 3, 15)


@pytest.mark.parametrize("vacuum", [None, 220], ids=["absorber", "vacuum"])
def test_moist_food_without_oxygen_gets_no_date(vacuum: int | None) -> None:
    # About 10 % is the ceiling for such packages: Intellectual Reserve, 2007.
    moist = replace(FRUIT, residual_moisture=Fraction(101, 1000), vacuum_tenth_inhg=vacuum)
    if vacuum is not None:
        moist = replace(moist, absorber_cc=0)
    with pytest.raises(TooMoistToProject, match=r"10\.1 % moisture"):
        project(moist)
    assert project(replace(moist, residual_moisture=Fraction(1, 10))).best_by > SEALED


def test_moist_food_with_air_is_no_matter_of_botulism_and_gets_its_date() -> None:
    moist = replace(FRUIT, residual_moisture=Fraction(15, 100), absorber_cc=0)
    assert project(moist).mid_months == 9


def test_a_weight_that_cannot_fit_is_refused() -> None:
    with pytest.raises(TooMuchForContainer):
        project(replace(FRUIT, volume_ml=90))


def test_the_working_names_inputs_row_source_and_standing() -> None:
    working = project(FRUIT).working
    row = next(step for step in working.steps if step.title.startswith("life at 21"))
    named = {given.name: given for given in row.inputs}
    assert named["food class"].value_text == "fruit"
    assert named["package"].value_text == "foil pouch"
    assert named["row of the table"].value_text == "4 years - 10 years - 25 years"
    assert named["row of the table"].stands_as is Standing.ENGINEERING_JUDGEMENT
    assert "plain-lives-class" in {source.key for source in working.sources}


def test_the_working_says_what_it_is_and_what_it_leaves_out() -> None:
    texts = " ".join(project(FRUIT).working.cautions)
    assert "Quality estimate, not safety" in texts
    assert "storage temperature is not in this table" in texts
    assert "warmer shortens the life" in texts
    assert "local codes and licensed guidance" in texts
    assert "extrapolated" in texts


@pytest.mark.parametrize(
    ("stay", "said"),
    [
        (Stay(SEALED, 320), True),
        (Stay(SEALED, None, (100,) * 6 + (290,) + (100,) * 5), True),
        (Stay(SEALED, 150), False),
        (Stay(SEALED, None), False),
    ],
    ids=["a warm place", "one warm month", "a cool place", "nobody said"],
)
def test_a_warm_place_is_pointed_out(stay: Stay, said: bool) -> None:
    cautions = project(replace(FRUIT, stays=(stay,))).working.cautions
    assert any("expect less" in text for text in cautions) is said


def test_a_short_life_is_not_called_extrapolated() -> None:
    cautions = project(replace(FRUIT, absorber_cc=0)).working.cautions
    assert not any("extrapolated" in text for text in cautions)


fractions_or_none = st.none() | st.fractions(0, 1)


@st.composite
def cases(draw: st.DrawFn) -> KeepingCase:
    """Any package that can be."""
    sealed_on = draw(st.dates(date(2000, 1, 1), date(2040, 12, 31)))
    later = st.none() | st.integers(0, 9_500).map(lambda days: sealed_on + timedelta(days=days))
    volume_ml = draw(st.integers(200, 20_000))
    return KeepingCase(
        food_class=draw(st.sampled_from(FoodClass)),
        fat_of_solids=draw(fractions_or_none),
        package_kind=draw(st.sampled_from(PackageKind)),
        dry_dg=draw(st.integers(1, volume_ml * 10)),
        volume_ml=volume_ml,
        area_mm2=None,
        absorber_cc=draw(st.sampled_from((0, 50, 100, 300, 500, 2000))),
        vacuum_tenth_inhg=draw(st.none() | st.integers(1, 290)),
        residual_moisture=None,
        sealed_on=sealed_on,
        opened_on=draw(later),
        seal_lost_on=draw(later),
        redried_on=draw(later),
        reclosed_with_absorber=draw(st.booleans()),
        life_used_before_redrying=draw(fractions_or_none),
    )


@given(cases())
@settings(max_examples=300)
def test_the_band_is_in_order_and_within_25_years(case: KeepingCase) -> None:
    found = project(case)
    assert case.sealed_on <= found.low <= found.best_by <= found.high
    assert found.high <= add_years(case.sealed_on, 25)
    assert found.low_months <= found.mid_months <= found.high_months <= 300
    assert found.recheck_by == found.low


@given(cases(), st.integers(1, 5000))
def test_removing_oxygen_never_shortens(case: KeepingCase, more_cc: int) -> None:
    tight = replace(case, redried_on=None)
    less, more = project(tight), project(replace(tight, absorber_cc=case.absorber_cc + more_cc))
    assert all(one <= other for one, other in zip(days(less), days(more), strict=True))


@given(cases())
def test_a_better_barrier_never_shortens(case: KeepingCase) -> None:
    tight = replace(case, redried_on=None)
    found = [days(project(replace(tight, package_kind=kind))) for kind in BARRIERS]
    for better, worse in pairwise(found):
        assert all(one >= other for one, other in zip(better, worse, strict=True))
    assert days(project(replace(tight, package_kind=PackageKind.JAR))) == found[0]


@given(cases())
def test_opening_never_lengthens(case: KeepingCase) -> None:
    closed = replace(case, opened_on=None, seal_lost_on=None, redried_on=None)
    opened = replace(closed, opened_on=case.opened_on, seal_lost_on=case.seal_lost_on)
    assert all(
        one <= other
        for one, other in zip(days(project(opened)), days(project(closed)), strict=True)
    )


@given(cases(), st.fractions(0, 1), st.fractions(0, 1))
def test_more_fat_never_lengthens(case: KeepingCase, one: Fraction, other: Fraction) -> None:
    lean, fat = sorted((one, other))
    tight = replace(case, redried_on=None)
    leaner = days(project(replace(tight, fat_of_solids=lean)))
    fatter = days(project(replace(tight, fat_of_solids=fat)))
    assert all(low <= high for low, high in zip(fatter, leaner, strict=True))
