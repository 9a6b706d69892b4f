"""How warm and damp a place is, in words and figures."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.logger_table import LoggerTable
from stockroom.domain.quantities import UnitSystem, nearest_whole, show_temperature
from stockroom.services.climate import ClimatePage, LoggerPreview
from stockroom.tui.words import counted

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
MOST_BAD_ROWS = 5
"""Rows named one by one; the rest are counted."""

A_LINE = 3
"""Months on a line."""


def climate_lines(page: ClimatePage, units: UnitSystem) -> list[str]:
    """What the best-by dates reckon with, and where it comes from."""
    lines = [f"Temperature  {_kind(page, units)}"]
    if not is_steady(page) and page.mean_c is not None and page.kinetic_c is not None:
        lines += [
            f"Mean         {degrees(page.mean_c, units)}",
            f"Ages like    {degrees(page.kinetic_c, units)} all year (mean kinetic",
            "             temperature of a life halved every 10 °C)",
        ]
    if not is_steady(page) and page.pharmacopoeia_kinetic_c is not None:
        by_medicines = degrees(page.pharmacopoeia_kinetic_c, units)
        lines.append(f"             {by_medicines} as for medicines (83.144 kJ/mol)")
    humidity = page.climate.humidity_percent
    lines.append(f"Humidity     {'not said' if humidity is None else f'{humidity} %'}")
    return lines


def month_lines(months_dc: Sequence[int], units: UnitSystem) -> list[str]:
    """The twelve months, some on a line."""
    cells = [
        f"{name} {show_temperature(one, units):>8}"
        for name, one in zip(MONTHS, months_dc, strict=True)
    ]
    return ["  ".join(cells[at : at + A_LINE]) for at in range(0, len(cells), A_LINE)]


def preview_lines(preview: LoggerPreview, units: UnitSystem) -> list[str]:
    """What a logger's file would bring."""
    table, profile = preview.table, preview.profile
    measured = ", ".join(MONTHS[month - 1] for month in profile.measured_months)
    return [
        f"{counted(len(table.readings), 'reading')} from {table.readings[0].at:%Y-%m-%d} to"
        f" {table.readings[-1].at:%Y-%m-%d}.",
        f"Time from “{table.time_column}”, temperature from “{table.heat_column}” in"
        f" {'°F' if table.fahrenheit else '°C'}.",
        *bad_row_lines(table),
        f"Mean {degrees(profile.mean_c, units)}; ages like {degrees(profile.kinetic_c, units)}"
        " (mean kinetic temperature, for a life that halves every 10 °C).",
        f"Months with readings: {measured}."
        + ("" if len(profile.measured_months) == 12 else " The others are drawn between them."),
        "",
        *month_lines(profile.monthly_dc, units),
    ]


def bad_row_lines(table: LoggerTable) -> list[str]:
    """The rows left out, the first by line number."""
    if not table.bad:
        return ["Every row could be read."]
    lines = [f"! {counted(len(table.bad), 'row')} cannot be read and would be left out:"]
    lines += [f"  line {row.line}: {row.why}" for row in table.bad[:MOST_BAD_ROWS]]
    rest = len(table.bad) - MOST_BAD_ROWS
    return [*lines, f"  and {rest:,} more"] if rest > 0 else lines


def degrees(at_c: float, units: UnitSystem) -> str:
    """A computed temperature to a tenth of a degree."""
    return show_temperature(nearest_whole(Fraction(at_c) * 10), units)


def is_steady(page: ClimatePage) -> bool:
    """Whether it is as warm in every month, or nothing is known: no year to speak of."""
    return len(set(page.months_dc)) < 2


def _kind(page: ClimatePage, units: UnitSystem) -> str:
    if page.readings:
        return (
            f"{counted(page.readings, 'reading')} of a logger, {page.first_reading[:10]} to"
            f" {page.last_reading[:10]}"
        )
    if page.climate.monthly_dc:
        origin = "from readings above" if page.climate.measured else "stated here or above"
        return f"twelve months, {origin}"
    if page.climate.temperature_dc is not None:
        own = page.place.own_temperature_dc is not None
        steady = show_temperature(page.climate.temperature_dc, units)
        return f"{steady} all year, {'as stated here' if own else 'as the place above it'}"
    return "not known: reckoned with as 21 °C"
