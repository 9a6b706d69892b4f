"""The plain lives: drawn up by the script, in order, and the script itself checked."""

from __future__ import annotations

import csv
from itertools import pairwise

import pytest

from stockroom.domain.keeping.interface import FoodClass, LimitedBy, PackageKind
from stockroom.domain.keeping.plain_lives import PlainLife
from stockroom.reference import lives
from stockroom.reference.lives import plain_lives
from stockroom.reference.tables import ReferenceDamaged, Row, read_table
from tests.reference.compute_plain_lives import (
    DATA,
    Pack,
    band_days,
    figures,
    gab,
    limited_by,
    moisture_days,
    quality_days,
    saturation_kpa,
    table,
)

BY_BARRIER = (
    PackageKind.FOIL_POUCH,
    PackageKind.METALLISED_POUCH,
    PackageKind.VACUUM_BAG,
    PackageKind.ZIP_BAG,
)


def row(food_class: FoodClass, kind: PackageKind, removed: bool) -> PlainLife:
    """One row of the shipped table."""
    wanted = (food_class, kind, removed)
    (found,) = (
        one
        for one in plain_lives().rows
        if (one.food_class, one.package_kind, one.oxygen_removed) == wanted
    )
    return found


def test_the_shipped_table_is_what_the_script_draws_up() -> None:
    with (DATA / "plain_lives.csv").open(encoding="utf-8", newline="") as file:
        assert list(csv.reader(file))[1:] == list(table())


def test_every_class_and_package_is_there_once() -> None:
    assert len(plain_lives().rows) == len(FoodClass) * len(PackageKind) * 2


def test_a_table_with_a_row_missing_is_damage(monkeypatch: pytest.MonkeyPatch) -> None:
    def shortened(name: str) -> tuple[Row, ...]:
        rows = read_table(name)
        return rows[1:] if name == "plain_lives" else rows

    monkeypatch.setattr(lives, "read_table", shortened)
    with pytest.raises(ReferenceDamaged, match="must stand there once"):
        plain_lives.__wrapped__()


def test_every_band_is_in_order_and_within_25_years() -> None:
    for one in plain_lives().rows:
        assert 0 < one.months.low <= one.months.mid <= one.months.high <= 300


def test_removing_the_oxygen_never_shortens() -> None:
    for food_class in FoodClass:
        for kind in PackageKind:
            without, with_ = row(food_class, kind, True), row(food_class, kind, False)
            assert without.months.shorter_of(with_.months) == with_.months


def test_a_better_barrier_never_shortens() -> None:
    for food_class in FoodClass:
        for removed in (True, False):
            for better, worse in pairwise(BY_BARRIER):
                held = row(food_class, better, removed).months
                assert (
                    held.shorter_of(row(food_class, worse, removed).months)
                    == row(food_class, worse, removed).months
                )


def test_plastic_lets_moisture_bind() -> None:
    # Films of nylon and polyethylene: Biosystems Engineering, Table 11.2.
    for food_class in FoodClass:
        for kind in (PackageKind.VACUUM_BAG, PackageKind.ZIP_BAG):
            assert row(food_class, kind, True).limited_by is LimitedBy.MOISTURE


def test_opened_lives_are_weeks_then_months() -> None:
    # 1 to 2 weeks, 1 to 3 months airtight with an absorber: engineering judgement.
    assert plain_lives().opened.days == (7, 14, 14)
    assert plain_lives().reclosed.days == (30, 60, 91)


@pytest.mark.parametrize(
    ("at_c", "kpa"),
    # Saturation pressure of water in steam tables.
    [(15.0, 1.706), (20.0, 2.339), (25.0, 3.170), (30.0, 4.247), (38.0, 6.633)],
)
def test_vapour_pressure_agrees_with_steam_tables(at_c: float, kpa: float) -> None:
    assert saturation_kpa(at_c) == pytest.approx(kpa, rel=0.001)


@pytest.mark.parametrize(
    ("activity", "held"), [(0.11, 0.0327), (0.22, 0.0495), (0.33, 0.0666), (0.43, 0.0873)]
)
def test_isotherm_of_kiwifruit(activity: float, held: float) -> None:
    # Parameters of Moraga and others 2006, Journal of Food Engineering 72:147.
    assert gab(activity, 0.046, 10.6, 1.20) == pytest.approx(held, abs=0.0001)


def test_isotherm_of_whole_milk_powder() -> None:
    # Measured 7.82 % wet basis, 0.0848 dry, at water activity 0.6 (published abstract).
    assert gab(0.6, 0.040, 8, 0.95) == pytest.approx(0.0848, abs=0.001)


@pytest.mark.parametrize(
    ("left", "reserve", "ingress", "tau", "expected"),
    # Closed forms by hand: no ingress gives free x (1 - left/tau/dry); nothing left gives
    # (1 + reserve/(dry tau)) / (1/free + ingress/(dry tau)); much oxygen gives the life in air.
    [
        (30.0, 0.0, 0.0, 0.6, 3650 * (1 - 0.2 / 0.6)),
        (0.0, 25.0, 0.03, 0.3, (1 + 25 / 45) / (1 / 3650 + 0.03 / 45)),
        (5000.0, 0.0, 0.0, 0.3, 270.0),
        (0.0, 1000.0, 0.01, 0.3, 3650.0),
    ],
)
def test_quality_life_agrees_with_its_closed_forms(
    left: float, reserve: float, ingress: float, tau: float, expected: float
) -> None:
    found = quality_days(3650, 270, left, reserve, ingress, 150, tau)
    assert found == pytest.approx(expected, abs=0.05)


def test_moisture_life_agrees_with_time_stepping() -> None:
    """The integral against an independent step-by-step uptake of a fruit in a zip bag."""
    pack = Pack("zip_bag")
    value = figures("fruit", "zip_bag").at()
    solids = pack.dry_g * (1 - pack.residual)
    through = 9 / (saturation_kpa(38.0) * 0.90) * pack.area_m2 * saturation_kpa(21.0)
    held, activity, day, step = gab(0.10, 0.065, 8, 1.05), 0.10, 0.0, 0.02
    while activity < 0.30:
        held += through * (0.55 - activity) * step / solids
        while gab(activity, 0.065, 8, 1.05) < held:
            activity += 0.00001
        day += step
    assert moisture_days(value, pack) == pytest.approx(day, abs=0.1)


@pytest.mark.parametrize(
    ("food_class", "pack", "years", "limit"),
    # Reference cases at 21 °C worked out independently from the same published anchors.
    [
        ("fruit", Pack("foil_pouch", absorber_cc=300), (3.22, 10.0, 22.0), "temperature"),
        ("fruit", Pack("foil_pouch"), (0.50, 0.75, 1.50), "oxygen"),
        ("fruit", Pack("metallised_pouch", absorber_cc=300), (0.534, 1.524, 5.06), "moisture"),
        ("fruit", Pack("vacuum_bag", gauge_inhg=22), (0.0914, 0.183, 0.594), "moisture"),
        ("fruit", Pack("zip_bag"), (0.0394, 0.102, 0.304), "moisture"),
        (
            "fruit",
            Pack("jar", volume_ml=1900, area_m2=0, absorber_cc=500),
            (3.81, 10.0, 25.0),
            "temperature",
        ),
        (
            "lean_meat",
            Pack("foil_pouch", volume_ml=1200, absorber_cc=300, residual=0.02),
            (2.0, 5.0, 15.0),
            "temperature",
        ),
        (
            "meal",
            Pack("foil_pouch", 125, 400, 0.06, gauge_inhg=27, residual=0.025),
            (1.73, 3.99, 9.20),
            "temperature",
        ),
    ],
)
def test_whole_lives_of_reference_packages(
    food_class: str, pack: Pack, years: tuple[float, float, float], limit: str
) -> None:
    known = figures(food_class, pack.kind)
    found = [days / 365.25 for days in band_days(known, pack)]
    assert found == pytest.approx(years, rel=0.01)
    assert limited_by(known, pack) == limit
