"""The full model on what happens to a package after sealing, and on what it refuses."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from stockroom.domain.calendar import add_years
from stockroom.domain.keeping.headspace import TooMuchForContainer, VacuumBeyondBarometer
from stockroom.domain.keeping.interface import (
    LimitedBy,
    PackageKind,
    Stay,
    TooMoistToProject,
)
from stockroom.domain.keeping.oxygen import barometer_at
from stockroom.domain.keeping.refusals import BeforeSealing, ImpossibleFigure, TooWarm
from tests.domain.keeping_cases import (
    FRUIT,
    SEALED,
    at,
    project,
)

JAR = replace(FRUIT, package_kind=PackageKind.JAR, volume_ml=1900, area_mm2=None)


# -- opened, leaking, dried again ----------------------------------------------------------------


def test_opened_food_has_two_weeks_where_nothing_better_is_known() -> None:
    found = project(replace(FRUIT, opened_on=date(2026, 12, 1)))
    assert found.best_by == date(2026, 12, 15)
    assert found.low == date(2026, 12, 8)
    assert found.limited_by is LimitedBy.OPENED


def test_closed_again_with_an_absorber_it_has_about_two_months() -> None:
    again = replace(FRUIT, opened_on=date(2026, 12, 1), reclosed_with_absorber=True)
    found = project(again)
    # 30, 60 and 91 days (engineering judgement), the low edge widened by the life in air.
    assert date(2027, 1, 29) >= found.best_by >= date(2027, 1, 1)
    assert found.mid_months * 30.4375 == pytest.approx((date(2026, 12, 1) - SEALED).days + 60)


def test_once_open_quality_goes_at_the_pace_of_the_life_in_air() -> None:
    # Nine tenths of the ten years used when it is opened: a tenth of nine months is left, 27.4
    # days, less than the 60 of a package closed again with an absorber.
    opened_on = SEALED + timedelta(days=3287)
    found = project(replace(FRUIT, opened_on=opened_on, reclosed_with_absorber=True))
    left = (1 - 3287 / 3652.5) * 9 * 30.4375
    assert found.mid_months * 30.4375 == pytest.approx(3287 + left, rel=1e-9)
    assert found.limited_by is LimitedBy.OPENED


def test_an_opened_package_takes_up_moisture_no_slower_than_closed() -> None:
    # 37 days in a zip bag, opened after 30: the seven that are left, not two weeks.
    bag = replace(FRUIT, package_kind=PackageKind.ZIP_BAG, absorber_cc=0)
    opened = replace(bag, opened_on=SEALED + timedelta(days=30))
    assert project(opened).mid_months == project(bag).mid_months
    assert project(opened).limited_by is LimitedBy.MOISTURE
    # Counted from the opening the days would come to 9 March, past the whole month it had closed.
    assert project(opened).best_by == project(bag).best_by == date(2026, 2, 28)


def test_a_lost_seal_counts_like_opening_and_the_earlier_of_the_two_decides() -> None:
    lost = replace(FRUIT, seal_lost_on=date(2026, 6, 1), opened_on=date(2026, 12, 1))
    assert project(lost).best_by == date(2026, 6, 15)


def test_opening_after_the_end_changes_nothing() -> None:
    late = replace(FRUIT, opened_on=date(2040, 1, 1))
    assert project(late).best_by == project(FRUIT).best_by
    assert project(late).limited_by is LimitedBy.TEMPERATURE


def test_drying_again_keeps_the_quality_already_spent() -> None:
    # Tight for 151 days, leaking for 61: 151/3652.5 + 61/273.94 of ten years are gone, by hand.
    dried = replace(
        JAR,
        absorber_cc=500,
        seal_lost_on=SEALED + timedelta(days=151),
        redried_on=SEALED + timedelta(days=212),
    )
    used = 151 / 3652.5 + 61 / (9 * 30.4375)
    expected = 212 + 3652.5 * (1 - used)
    assert project(dried).mid_months * 30.4375 == pytest.approx(expected, rel=1e-6)


def test_drying_again_starts_the_moisture_anew() -> None:
    bag = replace(FRUIT, package_kind=PackageKind.ZIP_BAG, absorber_cc=0)
    fresh = project(bag).mid_months * 30.4375
    again = replace(bag, redried_on=SEALED + timedelta(days=60))
    assert project(again).mid_months * 30.4375 == pytest.approx(60 + fresh, rel=1e-9)
    assert project(again).limited_by is LimitedBy.MOISTURE


def test_drying_again_never_gives_more_than_the_quality_left() -> None:
    spent = replace(FRUIT, absorber_cc=0, redried_on=SEALED + timedelta(days=300))
    found = project(spent)
    # Nine months in air were over before it was dried again.
    assert found.mid_months == pytest.approx(9)


def test_a_share_on_record_goes_before_the_dates() -> None:
    dried = replace(JAR, absorber_cc=500, redried_on=SEALED + timedelta(days=365))
    half = replace(dried, life_used_before_redrying=Fraction(1, 2))
    assert project(half).mid_months * 30.4375 == pytest.approx(365 + 3652.5 / 2, rel=1e-9)
    gone = replace(dried, life_used_before_redrying=Fraction(1))
    assert project(gone).best_by == dried.redried_on


def test_dried_again_and_opened_again() -> None:
    again = replace(FRUIT, redried_on=date(2027, 1, 31), opened_on=date(2027, 3, 1))
    assert project(again).best_by == date(2027, 3, 15)


def test_no_package_passes_25_years_from_sealing() -> None:
    dried = replace(JAR, absorber_cc=500, redried_on=SEALED + timedelta(days=9000))
    fresh = at(replace(dried, life_used_before_redrying=Fraction(0)), 5)
    assert project(fresh).best_by == add_years(SEALED, 25)
    assert project(fresh).limited_by is LimitedBy.CAP


# -- refusals ------------------------------------------------------------------------------------


def test_a_stay_above_45_degrees_is_reported_never_skipped() -> None:
    attic = (Stay(SEALED, 210), Stay(date(2026, 7, 1), 460), Stay(date(2026, 7, 3), 210))
    with pytest.raises(TooWarm, match=r"46\.0 °C from 2026-07-01 on is too warm"):
        project(replace(FRUIT, stays=attic))
    july = (100,) * 6 + (451,) + (100,) * 5
    with pytest.raises(TooWarm):
        project(replace(FRUIT, stays=(Stay(SEALED, None, july),)))
    assert project(replace(FRUIT, stays=(Stay(SEALED, 450),))).mid_years > 0


@pytest.mark.parametrize("vacuum", [None, 220], ids=["absorber", "vacuum"])
def test_moist_food_without_oxygen_gets_no_date(vacuum: int | None) -> None:
    # About 10 %: Intellectual Reserve, 2007 (published, secondary copy).
    moist = replace(FRUIT, residual_moisture=Fraction(101, 1000), vacuum_tenth_inhg=vacuum)
    if vacuum is not None:
        moist = replace(moist, absorber_cc=0)
    with pytest.raises(TooMoistToProject, match=r"10\.1 % moisture"):
        project(moist)
    assert project(replace(moist, residual_moisture=Fraction(1, 10))).best_by > SEALED


def test_moist_food_in_air_gets_its_date() -> None:
    moist = replace(FRUIT, residual_moisture=Fraction(15, 100), absorber_cc=0)
    assert project(moist).mid_months == pytest.approx(9)


def test_solids_that_fill_the_container_are_refused() -> None:
    with pytest.raises(TooMuchForContainer):
        project(replace(FRUIT, volume_ml=100))
    assert project(replace(FRUIT, volume_ml=101)).best_by > SEALED


def test_a_gauge_at_or_past_the_barometer_is_refused() -> None:
    deep = replace(JAR, absorber_cc=0, vacuum_tenth_inhg=270)
    assert project(deep).mid_years > 0
    with pytest.raises(VacuumBeyondBarometer):
        project(replace(deep, barometer_thousandth_inhg=barometer_at(1000)))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"dry_dg": -1}, "The dry weight"),
        ({"dry_dg": 0}, "The dry weight"),
        ({"volume_ml": -5}, "The volume"),
        ({"area_mm2": -1}, "The film's area"),
        ({"absorber_cc": -100}, "The absorber"),
        ({"vacuum_tenth_inhg": -10}, "The gauge vacuum"),
        ({"barometer_thousandth_inhg": -1}, "The barometer"),
        ({"solid_density_mg_per_ml": 0}, "The density of the solids"),
        ({"residual_moisture": Fraction(-1, 100)}, "The residual moisture"),
        ({"residual_moisture": Fraction(1), "absorber_cc": 0}, "The residual moisture"),
        ({"fat_of_solids": Fraction(11, 10)}, "The fat of the solids"),
        ({"life_used_before_redrying": Fraction(-1, 10)}, "The share of life used"),
        ({"stays": (Stay(SEALED, 210, (), Fraction(12, 10)),)}, "The humidity"),
        ({"stays": (Stay(SEALED, None, (210,) * 11),)}, "The year of a place"),
        ({"stays": (Stay(SEALED, -3000),)}, "A temperature"),
    ],
)
def test_figures_that_cannot_be_are_refused_by_name(change: dict[str, object], said: str) -> None:
    with pytest.raises(ImpossibleFigure) as refusal:
        project(replace(FRUIT, **change))  # type: ignore[arg-type]
    assert refusal.value.message.startswith(said)
    assert refusal.value.hint.startswith("It has to be")


@pytest.mark.parametrize("event", ["opened_on", "seal_lost_on", "redried_on"])
def test_an_event_before_sealing_is_refused(event: str) -> None:
    with pytest.raises(BeforeSealing, match="before it was sealed on 2026-01-31"):
        project(replace(FRUIT, **{event: SEALED - timedelta(days=1)}))  # type: ignore[arg-type]
