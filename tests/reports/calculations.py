"""Calculations for reports, computed by the domain from round figures."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction

from stockroom.domain.dryness import residual_moisture
from stockroom.domain.dryness_working import plateau_working, residual_working
from stockroom.domain.keeping.full_model import FullModel
from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind, Stay
from stockroom.domain.keeping.oxygen import absorber_figures
from stockroom.domain.keeping.oxygen_working import absorber_working
from stockroom.domain.keeping.refusals import TooWarm
from stockroom.domain.keeping.temperature import life_at, life_used
from stockroom.domain.keeping.temperature_working import (
    kinetic_working,
    life_working,
    used_working,
)
from stockroom.domain.logger_table import BadRow, LoggerTable
from stockroom.domain.plateau import plateau
from stockroom.domain.records import TemperatureReading
from stockroom.reference.keeping_figures import keeping_figures
from stockroom.reports import calculations_drying as drying
from stockroom.reports import calculations_package as of_package
from stockroom.reports import calculations_warmth as warmth
from stockroom.reports.values import Report
from stockroom.reports.workings import with_working
from tests.reports import calculations_sampling, energy

DAY = date(2026, 11, 25)
WEIGHTS = (1632, 1569, 1553, 1552, 1552)
PARTS = [(20.0, 2.0), (2.0, 4.0), (25.0, 1.0)]
SIZES = (50, 100, 200, 300, 500, 1000, 2000)
LOGGER = LoggerTable(
    (TemperatureReading(datetime(2026, 1, 1), 80), TemperatureReading(datetime(2026, 7, 1), 190)),
    (BadRow(4, "the time “\x1b[2J” cannot be read"),),
    "time \u202e",
    "[heat]",
    True,
)


def case() -> KeepingCase:
    """150 g of fruit in foil, in a measured cellar."""
    return KeepingCase(
        FoodClass.FRUIT, None, PackageKind.FOIL_POUCH, 1500, 1500, None, 300, 220, None, DAY,
        (Stay(DAY, 150, measured=True),),
    )  # fmt: skip


def reports() -> dict[str, Report]:
    """Every calculation's report, some with their working."""
    hours = [Fraction(one) for one in (10, 11, 12, 13, 14)]
    asked = of_package.AbsorberAsked(3785, 1500, given_cc=300)
    figures = absorber_figures(3785, 1500, SIZES, absorber_cc=300)
    found = FullModel(keeping_figures()).project(case())
    return {
        **calculations_sampling.reports(),
        **energy.reports(),
        "moisture": with_working(
            drying.moisture_result(residual_moisture(10_000, 1_550, 0.85), 10_000, 1_550, 0.85),
            residual_working(10_000, 1_550, 0.85),
        ),
        "moisture negative": drying.moisture_result(
            residual_moisture(10_000, 1_480, 0.85), 10_000, 1_480, 0.85
        ),
        "plateau": with_working(
            drying.plateau_result(plateau(WEIGHTS, hours=hours, resolution_dg=1), WEIGHTS, hours),
            plateau_working(WEIGHTS, hours=hours, resolution_dg=1),
        ),
        "plateau not reached": drying.plateau_result(plateau(WEIGHTS[:3]), WEIGHTS[:3], None),
        "absorber": with_working(
            of_package.absorber_result(figures, asked),
            absorber_working(figures, 3785, 1500, SIZES, given_cc=300),
        ),
        "absorber advised": of_package.absorber_result(
            absorber_figures(20_000, 1800, SIZES), of_package.AbsorberAsked(20_000, 1800)
        ),
        "keep": with_working(
            of_package.keep_result(found, case(), found.working.cautions), found.working
        ),
        "life": with_working(
            warmth.life_result(6, 2, 40, life_at(6, 2, 40)), life_working(6, 2, 40)
        ),
        "life refused": warmth.life_refused(6, 2, 46, TooWarm(46, 45)),
        "mkt": with_working(warmth.kinetic_result(PARTS, 83.144), kinetic_working(PARTS)),
        "mkt of a file": warmth.kinetic_result(PARTS, 51.216, LOGGER),
        "life used": with_working(
            warmth.used_result(life_used(10, 2, PARTS), 10, 2, PARTS), used_working(10, 2, PARTS)
        ),
    }
