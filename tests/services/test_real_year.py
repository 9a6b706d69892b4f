"""A real year of hourly temperatures through a logger's file, against sums written out by hand.

The temperatures are those of Seattle and San Francisco in 2010, hour by hour in °F: public-domain
records of the US National Oceanic and Atmospheric Administration, as the package vega_datasets
ships them.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from importlib.util import find_spec
from itertools import pairwise
from pathlib import Path

import pytest

from stockroom.services import climate, shelves
from stockroom.services.climate import climate_page
from tests.invariants import projection_troubles
from tests.world import APPLE, PEAS, World

HEADERS = ["no.", "Date/Time", "Temp (°F)", "RH (%)"]
BAD = (["x", "2010-06-31 00:00", "60", "50"], ["y", "2010-07-01 00:30", "lid open", "50"])
# Life without oxygen at 21 °C, middle value, years: the shipped class figures.
LIFE_YEARS = {PEAS: 8, APPLE: 10}


@dataclass(frozen=True, slots=True)
class Year:
    """A city's hours in order, °C unrounded, and the logger's file written of them."""

    city: str
    hours: tuple[tuple[datetime, float], ...]
    text: str


def _hours(city: str) -> Iterator[tuple[datetime, float]]:
    # The package itself is not imported: its loader wants pandas, the file does not.
    spec = find_spec("vega_datasets")
    assert spec is not None and spec.origin is not None, "the test extras are not installed"
    path = Path(spec.origin).parent / "_data" / f"{city}-temps.csv"
    with path.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            at = datetime.strptime(row["date"][:16], "%Y/%m/%d %H:%M")
            yield at, (float(row["temp"]) - 32) / 1.8


@pytest.fixture(scope="module", params=["seattle", "sf"])
def year(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Year:
    """The file as a logger would have written it, read from the disk as a person would."""
    hours = tuple(sorted(dict(_hours(request.param)).items()))
    path = tmp_path_factory.mktemp("logger") / "year.csv"
    with path.open("w", encoding="utf-8-sig", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["Logger 4711"])
        writer.writerow(HEADERS)
        writer.writerow(BAD[0])
        for number, (at, at_c) in enumerate(hours, start=1):
            writer.writerow([number, f"{at:%m/%d/%Y %I:%M %p}", f"{at_c * 1.8 + 32:.1f}", 61])
        writer.writerow(BAD[1])
    return Year(request.param, hours, path.read_text(encoding="utf-8"))


def _mean(hours: tuple[tuple[datetime, float], ...]) -> float:
    """Each hour speaks until the next reading; the gaps of these files are an hour or two."""
    spans = [(b[0] - a[0]).total_seconds() / 3600 for a, b in pairwise(hours)]
    spans.append(spans[-1])
    return math.fsum(c * span for (_, c), span in zip(hours, spans, strict=True)) / sum(spans)


def _kinetic(hours: tuple[tuple[datetime, float], ...], energy_kj: float, gas: float) -> float:
    """US Pharmacopeia <1160> (published): one hour is one unit of time."""
    per_k = energy_kj * 1000 / gas
    wear = math.fsum(math.exp(-per_k / (c + 273.15)) for _, c in hours) / len(hours)
    return per_k / -math.log(wear) - 273.15


def test_mean_and_kinetic_temperature_are_those_of_the_hours(world: World, year: Year) -> None:
    world.places("shed")
    preview = climate.preview_readings(world.room, "shed", year.text)
    assert preview.table.fahrenheit
    assert (preview.table.time_column, preview.table.heat_column) == (HEADERS[1], HEADERS[2])
    assert [one.line for one in preview.table.bad] == [3, len(year.hours) + 4]
    assert len(preview.table.readings) == len(year.hours) > 8_700
    assert climate_page(world.room, "shed").readings == 0, "a preview keeps nothing"
    climate.import_readings(world.room, "shed", year.text)
    page = climate_page(world.room, "shed")
    # Readings are kept to a tenth of a degree, so the sums agree to a few hundredths.
    assert page.mean_c == pytest.approx(_mean(year.hours), abs=0.02)
    assert page.kinetic_c == pytest.approx(_kinetic(year.hours, 51.216, 8.314472), abs=0.02)
    assert page.pharmacopoeia_kinetic_c == pytest.approx(
        _kinetic(year.hours, 83.144, 8.3144), abs=0.02
    )
    assert page.mean_c is not None and page.kinetic_c is not None
    assert page.pharmacopoeia_kinetic_c is not None
    assert page.mean_c < page.kinetic_c < page.pharmacopoeia_kinetic_c
    for month, dc in enumerate(page.months_dc, start=1):
        of_month = tuple(one for one in year.hours if one[0].month == month)
        assert dc / 10 == pytest.approx(_kinetic(of_month, 51.216, 8.314472), abs=0.07), month


def _direct_best_by(year: Year, life_years: float, sealed_on: date) -> float:
    """Days until hours of 1/L(T) add up to one whole life, the year running round and round.

    L halves every 10 °C from 21 °C; no credit below 5 °C: the temperature law of the model.
    """
    by_hour = {(at.month, at.day, at.hour): max(5.0, c) for at, c in year.hours}
    life_hours = life_years * 365.25 * 24
    cost = {key: 2 ** ((c - 21) / 10) / life_hours for key, c in by_hour.items()}
    at, used, hours = datetime(sealed_on.year, sealed_on.month, sealed_on.day), 0.0, 0
    last = cost[(at.month, at.day, at.hour)]
    while used < 1:
        last = cost.get((at.month, at.day, at.hour), last)
        used += last
        at += timedelta(hours=1)
        hours += 1
    return hours / 24


@pytest.mark.parametrize("food", [PEAS, APPLE])
def test_a_best_by_there_is_the_sum_of_its_hours(world: World, year: Year, food: str) -> None:
    """A foil pouch with oxygen to spare ages by time and temperature alone."""
    world.places("shed")
    (code,) = world.packed(food, "1xpouch-1500-foil:150,absorber=1000", place="shed")
    climate.import_readings(world.room, "shed", year.text)
    detail = shelves.package_detail(world.room, code)
    assert detail.projection is not None
    assert detail.projection.limited_by == "temperature"
    days = (detail.projection.best_by - detail.package.sealed_on).days
    # Twelve monthly kinetic temperatures stand for 8,760 hours; cold hours of a mild month get no
    # credit hour by hour, which the month does not see: a per cent at most.
    assert days == pytest.approx(
        _direct_best_by(year, LIFE_YEARS[food], world.room.today), rel=0.01
    )
    assert projection_troubles(world.room) == []
