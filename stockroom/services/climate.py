"""How warm and damp places are: a steady figure, twelve months, or a logger's readings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stockroom.domain.keeping.temperature import MKT_ENERGY_KJ, mean_kinetic_temperature
from stockroom.domain.logger_table import read_logger
from stockroom.domain.year_profile import (
    LIFE_ENERGY_KJ,
    filled,
    weighted,
    year_profile,
)
from stockroom.errors import BadInput
from stockroom.services.acting import acting
from stockroom.services.finding import find_place
from stockroom.services.results import ClimatePage, Done, LoggerPreview
from stockroom.services.session import Stockroom
from stockroom.store import place_rows

COLDEST_DC, HOTTEST_DC = -800, 600
MONTH_DAYS = (31.0, 28.25, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0)


def climate_page(room: Stockroom, path: str) -> ClimatePage:
    """A place's temperatures over the year and what they come to. Raises NotFound."""
    place = find_place(room, path)
    climate = place_rows.climates(room.store)[place.place_id]
    months = climate.monthly_dc or (
        (climate.temperature_dc,) * 12 if climate.temperature_dc is not None else ()
    )
    parts = [(dc / 10, days) for dc, days in zip(months, MONTH_DAYS, strict=True)] if months else []
    readings = place_rows.readings_of(room.store, place.place_id)
    if readings:
        parts = [(at_c, hours) for _, at_c, hours in weighted(readings)]
    return ClimatePage(
        place=place,
        climate=climate,
        months_dc=months,
        mean_c=_mean(parts),
        kinetic_c=mean_kinetic_temperature(parts, LIFE_ENERGY_KJ) if parts else None,
        pharmacopoeia_kinetic_c=(mean_kinetic_temperature(parts, MKT_ENERGY_KJ) if parts else None),
        readings=len(readings),
        first_reading=readings[0].at.isoformat(sep=" ")[:16] if readings else "",
        last_reading=readings[-1].at.isoformat(sep=" ")[:16] if readings else "",
    )


def set_months(room: Stockroom, path: str, months: dict[int, int]) -> Done:
    """Give a place monthly temperatures, tenths of a degree C by month 1 to 12.

    Months not said are drawn between their neighbours; an empty mapping takes the profile and
    any readings away again, so the steady temperature counts. Raises NotFound, BadInput.
    """
    for month, temperature_dc in months.items():
        if not 1 <= month <= 12:
            raise BadInput("month", str(month), "a month from 1 to 12")
        _check(temperature_dc)
    with acting(room, "climate") as act:
        place = find_place(room, path)
        profile = filled(months) if months else ()
        place_rows.delete_readings(room.store, place.place_id)
        place_rows.replace_months(room.store, place.place_id, profile)
        act.words = (
            f"gave {place.path} monthly temperatures"
            if months
            else f"took the monthly temperatures of {place.path} away"
        )
    return Done(act.words, made_id=place.place_id)


def set_steady(room: Stockroom, path: str, temperature_dc: int | None) -> Done:
    """Give a place one temperature for the whole year, tenths of a degree C.

    Monthly temperatures and readings of its own are taken away; None takes the steady one away
    too, so that the place is as the place above it. Raises NotFound, BadInput.
    """
    if temperature_dc is not None:
        _check(temperature_dc)
    with acting(room, "climate") as act:
        place = find_place(room, path)
        place_rows.delete_readings(room.store, place.place_id)
        place_rows.replace_months(room.store, place.place_id, ())
        place_rows.update_place(room.store, replace(place, own_temperature_dc=temperature_dc))
        act.words = (
            f"took the temperatures of {place.path} away"
            if temperature_dc is None
            else f"set the temperature of {place.path} to {temperature_dc / 10:g} °C"
        )
    return Done(act.words, made_id=place.place_id)


def set_humidity(room: Stockroom, path: str, percent: int | None) -> Done:
    """Say how damp the air of a place is, 1 to 99 %, or None: as the place above."""
    if percent is not None and not 1 <= percent <= 99:
        raise BadInput("humidity", f"{percent} %", "a whole number of percent from 1 to 99")
    with acting(room, "climate") as act:
        place = find_place(room, path)
        place_rows.set_humidity(room.store, place.place_id, percent)
        said = "as above it" if percent is None else f"{percent} %"
        act.words = f"set the humidity of {place.path} to {said}"
    return Done(act.words, made_id=place.place_id)


def preview_readings(
    room: Stockroom,
    path: str,
    text: str,
    *,
    time_column: str | None = None,
    heat_column: str | None = None,
    fahrenheit: bool | None = None,
) -> LoggerPreview:
    """Read a logger's file without keeping anything. Raises BadInput, TooFewReadings, NotFound."""
    place = find_place(room, path)
    table = read_logger(
        text, time_column=time_column, heat_column=heat_column, fahrenheit=fahrenheit
    )
    return LoggerPreview(place, table, year_profile(table.readings))


def import_readings(
    room: Stockroom,
    path: str,
    text: str,
    *,
    time_column: str | None = None,
    heat_column: str | None = None,
    fahrenheit: bool | None = None,
) -> Done:
    """Keep a logger's readings for a place, with those it had, and its months drawn from all.

    Rows that cannot be read are left out; `preview_readings` names them.
    """
    # Before the lock is taken: a year of minutes takes seconds to read.
    table = read_logger(
        text, time_column=time_column, heat_column=heat_column, fahrenheit=fahrenheit
    )
    with acting(room, "climate") as act:
        place = find_place(room, path)
        place_rows.save_readings(room.store, place.place_id, table.readings)
        profile = year_profile(place_rows.readings_of(room.store, place.place_id))
        place_rows.replace_months(
            room.store, place.place_id, profile.monthly_dc, measured=profile.measured_months
        )
        left_out = f", {len(table.bad)} rows left out" if table.bad else ""
        act.words = f"kept {len(table.readings)} temperature readings for {place.path}{left_out}"
    return Done(act.words, made_id=place.place_id)


def _mean(parts: Sequence[tuple[float, float]]) -> float | None:
    total = sum(hours for _, hours in parts)
    return sum(at_c * hours for at_c, hours in parts) / total if total else None


def _check(temperature_dc: int) -> None:
    if not COLDEST_DC <= temperature_dc <= HOTTEST_DC:
        raise BadInput(
            "temperature", f"{temperature_dc / 10:g} °C", "a temperature from -80 to 60 °C"
        )
