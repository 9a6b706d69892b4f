"""Refusals of climates, what-if, packing advice and the dates themselves."""

from __future__ import annotations

from stockroom.domain.keeping.refusals import ImpossibleFigure, TooWarm
from stockroom.domain.year_profile import TooFewReadings
from stockroom.errors import BadInput, NotFound
from stockroom.services import (
    advice,
    climate,
    finding,
    household,
    keeping,
    life_curve,
    packages,
    packing,
    places,
    whatif,
)
from stockroom.services.finding import CodeMistyped
from tests.services.refusals.base import Refusal, closed, packed, packed_out
from tests.world import World

ONE_READING = "time,temperature °C\n2026-07-01 06:00,18.5\n"
EITHER_WAY = "time,temperature °C\n03/04/2026 06:00,18.5\n03/04/2026 18:00,19.5\n"


def hot(world: World) -> None:
    """As packed, with a cellar hotter than any best-by is given for."""
    packed(world)
    places.change_place(world.room, "cellar", temperature_dc=500)


def all_gone(world: World) -> None:
    """As packed, with nothing of the lot left on a shelf."""
    packed(world)
    packages.discard_packages(world.room, ["26329A01", "26329A02"], "torn")


KEEPING = (
    Refusal(
        "climate.climate_page",
        NotFound,
        packed,
        lambda room: climate.climate_page(room, "celar"),
        ("place", "“celar”", "Nearest: cellar"),
    ),
    *(
        Refusal(
            "climate.set_months",
            BadInput,
            packed,
            lambda room, month=month: climate.set_months(room, "cellar", {6: 120, month: 80}),
            ("month", f"“{month}”", "from 1 to 12"),
        )
        for month in (0, 13, -1)
    ),
    *(
        Refusal(
            "climate.set_months",
            BadInput,
            packed,
            lambda room, dc=dc: climate.set_months(room, "cellar", {6: dc}),
            (f"“{dc / 10:g} °C”", "-80 to 60 °C"),
        )
        for dc in (-801, 601)
    ),
    Refusal(
        "climate.set_months",
        NotFound,
        packed,
        lambda room: climate.set_months(room, "moon", {1: 50}),
        ("“moon”",),
    ),
    *(
        Refusal(
            "climate.set_steady",
            BadInput,
            packed,
            lambda room, dc=dc: climate.set_steady(room, "cellar", dc),
            (f"“{dc / 10:g} °C”", "-80 to 60 °C"),
        )
        for dc in (-801, 601)
    ),
    Refusal(
        "climate.set_steady",
        NotFound,
        packed,
        lambda room: climate.set_steady(room, "moon", 50),
        ("“moon”",),
    ),
    *(
        Refusal(
            "climate.set_humidity",
            BadInput,
            packed,
            lambda room, percent=percent: climate.set_humidity(room, "cellar", percent),
            ("humidity", f"“{percent} %”", "from 1 to 99"),
        )
        for percent in (-5, 0, 100)
    ),
    *(
        Refusal(
            service,
            error,
            packed,
            lambda room, act=act, place=place, text=text: act(room, place, text),
            facts,
        )
        for service, act in (
            ("climate.preview_readings", climate.preview_readings),
            ("climate.import_readings", climate.import_readings),
        )
        for place, text, error, facts in (
            ("moon", ONE_READING, NotFound, ("“moon”",)),
            ("cellar", ONE_READING, TooFewReadings, ("Usable readings in the file: 1",)),
            ("cellar", "time,°C\nsoon,warm\n", TooFewReadings, ("Usable readings in the file: 0",)),
            ("cellar", "", BadInput, ("readings", "a time and a temperature")),
            ("cellar", EITHER_WAY, BadInput, ("day and month", "2025-03-04")),
            ("cellar", "when,how warm\n1,2\n", BadInput, ("temperature column", "how warm")),
        )
    ),
    Refusal(
        "household.change_household",
        ImpossibleFigure,
        packed,
        lambda room: household.change_household(room, altitude_m=12_000),
        ("12000",),
    ),
    Refusal(
        "keeping.project_package",
        TooWarm,
        hot,
        lambda room: keeping.project_package(room, finding.find_package(room, "26329A01")),
        ("50.0 °C", "above 45 °C"),
    ),
    Refusal(
        "life_curve.life_curve",
        TooWarm,
        hot,
        lambda room: life_curve.life_curve(room, "26329A01"),
        ("50.0 °C",),
    ),
    *(
        Refusal(
            service,
            error,
            packed,
            lambda room, act=act, code=code: act(room, code),
            (said,),
        )
        for service, act in (
            ("life_curve.life_curve", life_curve.life_curve),
            ("whatif.what_if", whatif.what_if),
        )
        for code, error, said in (
            ("26329A09", NotFound, "“26329A09”"),
            ("26329A01Z", CodeMistyped, "mistyped"),
            ("26329A03", packages.StandsNowhere, "26329A03"),
            ("26329A", BadInput, "whole code"),
        )
    ),
    *(
        Refusal(service, error, prepare, lambda room, act=act, code=code: act(room, code), (said,))
        for service, act in (
            ("whatif.what_if_lot", whatif.what_if_lot),
            ("advice.advise_lot", advice.advise_lot),
        )
        for code, error, prepare, said in (
            ("26329B", NotFound, closed, "“26329B”"),
            ("26999A", BadInput, closed, "“26999A”"),
        )
    ),
    Refusal(
        "whatif.what_if_lot",
        whatif.NothingOnShelf,
        all_gone,
        lambda room: whatif.what_if_lot(room, "26329A"),
        ("26329A", "no package"),
    ),
    Refusal(
        "advice.advise_lot",
        packing.LotPackedOut,
        packed_out,
        lambda room: advice.advise_lot(room, "26329A"),
        ("All of lot 26329A",),
    ),
    Refusal(
        "advice.advise_lot",
        NotFound,
        closed,
        lambda room: advice.advise_lot(room, "26329A", place="moon"),
        ("place", "“moon”"),
    ),
)
