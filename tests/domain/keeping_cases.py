"""Packages for the tests of the full keeping model."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from hypothesis import strategies as st

from stockroom.domain.keeping.full_model import FullModel
from stockroom.domain.keeping.interface import (
    FoodClass,
    KeepingCase,
    PackageKind,
    Projection,
    Stay,
)
from stockroom.reference.keeping_figures import keeping_figures

SEALED = date(2026, 1, 31)
MODEL = FullModel(keeping_figures())

FRUIT = KeepingCase(
    food_class=FoodClass.FRUIT,
    fat_of_solids=None,
    package_kind=PackageKind.FOIL_POUCH,
    dry_dg=1500,
    volume_ml=1500,
    area_mm2=120_000,
    absorber_cc=300,
    vacuum_tenth_inhg=None,
    residual_moisture=Fraction(3, 100),
    sealed_on=SEALED,
    stays=(Stay(SEALED, 210, relative_humidity=Fraction(55, 100), measured=True),),
)
"""150 g of fruit in foil of 1,500 mL and 0.12 m2 with a 300 cc absorber, at 21 °C and 55 %."""

BY_BARRIER = (
    PackageKind.FOIL_POUCH,
    PackageKind.METALLISED_POUCH,
    PackageKind.VACUUM_BAG,
    PackageKind.ZIP_BAG,
)
"""From the better film to the worse."""

MONTHS_DC = (160, 160, 170, 180, 200, 230, 260, 260, 230, 200, 180, 160)
"""A loft through the year."""


def project(case: KeepingCase) -> Projection:
    """The full model's projection."""
    return MODEL.project(case)


def at(case: KeepingCase, temp_c: float, humidity: float = 0.55) -> KeepingCase:
    """The case in one measured place."""
    share = Fraction(repr(humidity))
    place = Stay(case.sealed_on, int(temp_c * 10), relative_humidity=share, measured=True)
    return replace(case, stays=(place,))


def years(projection: Projection) -> tuple[float, float, float]:
    """Low, middle and high."""
    return projection.low_years, projection.mid_years, projection.high_years


def quantities() -> st.SearchStrategy[int]:
    """Temperatures a place may have, tenths of a degree C."""
    return st.integers(-250, 450)


@st.composite
def stays_from(draw: st.DrawFn, sealed_on: date) -> tuple[Stay, ...]:
    """None, one or several places; measured, stated, by months or unknown."""
    days = sorted(draw(st.lists(st.integers(0, 4000), max_size=4, unique=True)))
    return tuple(
        Stay(
            sealed_on + timedelta(days=day),
            draw(st.none() | quantities()),
            draw(st.just(()) | st.tuples(*(quantities() for _ in range(12)))),
            draw(st.none() | st.fractions(0, 1, max_denominator=100)),
            draw(st.booleans()),
        )
        for day in days
    )


@st.composite
def tight_cases(draw: st.DrawFn) -> KeepingCase:
    """Any package that can be, tight since it was sealed."""
    sealed_on = draw(st.dates(date(2000, 1, 1), date(2040, 12, 31)))
    volume_ml = draw(st.integers(200, 20_000))
    return KeepingCase(
        food_class=draw(st.sampled_from(FoodClass)),
        fat_of_solids=draw(st.none() | st.fractions(0, 1, max_denominator=1000)),
        package_kind=draw(st.sampled_from(PackageKind)),
        dry_dg=draw(st.integers(1, volume_ml * 10)),
        volume_ml=volume_ml,
        area_mm2=draw(st.none() | st.integers(1000, 1_000_000)),
        absorber_cc=draw(st.sampled_from((0, 50, 100, 300, 500, 2000))),
        vacuum_tenth_inhg=draw(st.none() | st.integers(0, 290)),
        residual_moisture=draw(st.none() | st.fractions(0, Fraction(1, 10), max_denominator=1000)),
        sealed_on=sealed_on,
        stays=draw(stays_from(sealed_on)),
        solid_density_mg_per_ml=draw(st.none() | st.integers(1100, 1600)),
    )


@st.composite
def any_cases(draw: st.DrawFn) -> KeepingCase:
    """Any package that can be, with anything that can happen to it."""
    case = draw(tight_cases())
    later = st.none() | st.integers(0, 9_500).map(
        lambda days: case.sealed_on + timedelta(days=days)
    )
    return replace(
        case,
        opened_on=draw(later),
        seal_lost_on=draw(later),
        redried_on=draw(later),
        reclosed_with_absorber=draw(st.booleans()),
        life_used_before_redrying=draw(st.none() | st.fractions(0, 1, max_denominator=100)),
    )
