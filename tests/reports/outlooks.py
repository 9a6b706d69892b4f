"""Climates, choices, gains and packing advice for reports, made by hand."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction

from stockroom.domain.caution_table import Caution, Where
from stockroom.domain.keeping.oxygen import absorber_figures
from stockroom.domain.logger_table import BadRow, LoggerTable
from stockroom.domain.packing_advice import Fit, MealSize
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Climate, Container, Lot, Package, Place, TemperatureReading
from stockroom.domain.working import Source, Standing
from stockroom.domain.year_profile import year_profile
from stockroom.reports.climate import climate_report, readings_report
from stockroom.reports.outlook import advice_report, gains_report, whatif_report
from stockroom.reports.values import Report
from stockroom.services.results import (
    Choice,
    ClimatePage,
    Done,
    Gain,
    LoggerPreview,
    Packed,
    PackingAdvice,
    WhatIfPage,
)

DAY = date(2026, 11, 25)
FOOD = '[/] jar [soft] "7" 冷凍'
ROOM = Place(3, 1, "冷凍 [x]", "cellar/冷凍 [x]", 1, "freezer", None, 120, "", 2)
YEAR = (-50, -20, 30, 80, 130, 180, 240, 230, 170, 110, 50, -10)
SOURCE = Source("handbook", "Handbook of the pantry, 2020", Standing.PUBLISHED)
CAUTION = Caution("snap", (Where.PACK,), "Pack only what snaps.", SOURCE, SOURCE.standing)
LOGGER = LoggerTable(
    tuple(
        TemperatureReading(datetime(2026, month, 3), at_dc)
        for month, at_dc in ((1, 80), (2, 90), (7, 200))
    ),
    tuple(BadRow(line, "the time “\x1b[2J” cannot be read") for line in range(2, 60)),
    "time \u202e",
    "[heat]",
    True,
)


def package(number: int) -> Package:
    """One of a row of pouches."""
    return Package(
        package_id=number, code=f"26329A{number:02d}2", lot_id=1, lot_code="26329A", food_id=1,
        food=FOOD, food_class="vegetable", preparation="raw", container="foil pouch 1.5 L",
        container_key="pouch-1500-foil", package_kind="foil_pouch", volume_ml=1500,
        absorber_cc=300, vacuum=False, vacuum_tenth_inhg=None, dry_dg=620, water_dg=3380,
        taken_dg=0, taken_water_dg=0, serving_dg=850, made_on=DAY, sealed_on=DAY, place_id=3,
        place="loft", condition="sound", opened_on=None, gone_on=None, best_by=DAY, note="",
    )  # fmt: skip


NOW = Choice(
    "now", "left as it is", date(2030, 1, 25), date(2028, 1, 25), date(2036, 1, 25), "oxygen", 0
)
MOVED = Choice(
    "move", "moved to cold cellar", date(2034, 3, 2), date(2030, 1, 1), date(2040, 1, 1),
    "temperature", 1497, place="cold cellar",
)  # fmt: skip
REPACKED = Choice(
    "repack", "dried again and repacked: jar 1.9 L, 500 cc absorber", date(2030, 4, 1),
    date(2029, 1, 1), date(2036, 1, 1), "oxygen", 66, container_key="jar-1900", absorber_cc=500,
)  # fmt: skip
HOT = Choice(
    "move", "moved to boiler room", None, None, None, "", 0,
    "48.0 °C is too warm: no life is given above 45 °C.", place="boiler room",
)  # fmt: skip
WORSE = Choice("move", "moved to loft", DAY, DAY, DAY, "moisture", -1100, place="loft")
CODES = tuple(package(number).code for number in range(1, 9))


def reports(units: UnitSystem) -> dict[str, Report]:
    """Each of these reports, by name."""
    page = WhatIfPage(package(1), NOW, (MOVED, REPACKED, HOT, WORSE))
    lot_page = WhatIfPage(package(1), HOT, (MOVED,), CODES)
    packages = tuple(package(number) for number in range(1, 9))
    profile = year_profile(LOGGER.readings)
    preview = LoggerPreview(ROOM, LOGGER, profile)
    return {
        "climate": climate_report(
            ClimatePage(ROOM, Climate(3, None, YEAR, True, 61), YEAR, 9.5, 12.25, 14.75, 3,
                        "2026-01-03 00:00", "2026-07-03 00:00"),
            units,
        ),
        "climate unknown": climate_report(
            ClimatePage(ROOM, Climate(3, None, (), False, None), (), None, None, None, 0, "", ""),
            units,
        ),
        "climate steady": climate_report(
            ClimatePage(ROOM, Climate(3, 120, (), False, None), (120,) * 12, 12, 12, 12, 0, "", ""),
            units,
        ),
        "readings looked at": readings_report(preview, None, units),
        "readings kept": readings_report(preview, Done("kept 3 temperature readings"), units),
        "whatif": whatif_report((page,)),
        "whatif of a lot": whatif_report((lot_page, page)),
        "gains": gains_report(
            (Gain(packages, MOVED, Fraction(75, 2)), Gain(packages[:1], REPACKED, Fraction(3)))
        ),
        "no gains": gains_report(()),
        "advice": advice_report(advice(), "cold cellar", units),
        "advice of nothing": advice_report(nothing_suits(), "", units),
    }  # fmt: skip


def lot() -> Lot:
    """A lot with 310 g left."""
    return Lot(
        1, "26329A", 3, 1, FOOD, "vegetable", "raw", DAY, 10_000, 1_550, 1_240, 6_760, 0, 0, 2,
        850, "",
    )  # fmt: skip


def advice() -> PackingAdvice:
    """Foil before a jar, and a bag nothing can be said of."""
    foil = Container(2, "pouch-950-foil", "foil pouch 950 mL", "foil_pouch", 950, None, None)
    jar = Container(3, "jar-475", "jar 475 mL", "jar", 475, None, None)
    figures = absorber_figures(950, 155, (100, 200, 300))
    best = Packed(
        Fit(foil, 2, 155, 1, 140, False), figures, date(2036, 1, 1), date(2030, 1, 1),
        date(2046, 1, 1), "temperature",
    )  # fmt: skip
    other = Packed(
        Fit(jar, 4, 77, 2, 140, True), None, None, None, None, "", "Too moist: dry it further."
    )
    return PackingAdvice(
        lot(), MealSize(1, 850, 131), best, (other,), ("A meal is 13.1 g dry.",), (CAUTION,),
        "2xpouch-950-foil:rest,absorber=300",
    )  # fmt: skip


def nothing_suits() -> PackingAdvice:
    """No container at all."""
    return PackingAdvice(lot(), MealSize(2, 850, 263), None, (), ("No container.",), (), "")
