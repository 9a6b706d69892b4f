"""A place's climate: twelve months as bars, what they come to, and a logger's file."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.keeping.sources import MEAN_KINETIC
from stockroom.domain.keeping.temperature import MKT_ENERGY_KJ
from stockroom.domain.quantities import UnitSystem, nearest_whole, show_temperature
from stockroom.domain.year_profile import LIFE_ENERGY_KJ
from stockroom.reports.parts import counted
from stockroom.reports.values import (
    COUNT,
    FLAG,
    TEMPERATURE,
    TEXT,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    decimal_kind,
    document,
)
from stockroom.services.results import ClimatePage, Done, LoggerPreview

MONTH_NAMES = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip
_LONGEST_BAR = 30
_DEGREES = decimal_kind(2)
_ROWS_SHOWN = 50

_MONTHS = (
    Column("month", COUNT),
    Column("", title="month"),
    Column("temperature", TEMPERATURE, "temperature"),
    Column("", title="", drop=1),
)


def climate_report(page: ClimatePage, units: UnitSystem) -> Report:
    """The year of one place."""
    months = month_table(page.months_dc, "Nobody has said how warm it is: 21 °C is assumed.")
    blocks: tuple[Block, ...] = (
        Fields((*_facts(page), *_sums(page, units))),
        months,
        Prose("", _words(page)),
    )
    return document(f"Climate of {page.place.path}", blocks, months)


def month_table(months_dc: Sequence[int], empty: str = "") -> Table:
    """Twelve months with a bar each; the bars begin at 0 °C, or at the coldest month below it."""
    low_dc = min(0, *months_dc) if months_dc else 0
    span_dc = max(1, max(months_dc) - low_dc) if months_dc else 1
    rows = tuple(
        (number, MONTH_NAMES[number - 1], at_dc, "#" * ((at_dc - low_dc) * _LONGEST_BAR // span_dc))
        for number, at_dc in enumerate(months_dc, start=1)
    )
    bars = (*_MONTHS[:3], Column("", title="from 0 °C" if low_dc == 0 else "coldest to warmest"))
    return Table("months", bars, rows, empty=empty)


def _facts(page: ClimatePage) -> tuple[Field, ...]:
    """Where the figures come from."""
    climate = page.climate
    humidity = climate.humidity_percent
    return (
        Field("place", TEXT, page.place.path, "place"),
        Field("own_temperature", TEMPERATURE, page.place.own_temperature_dc),
        Field("", TEXT, _origin(page), "known from"),
        Field("measured", FLAG, climate.measured),
        Field("readings", COUNT, page.readings, "readings", _span(page)),
        Field("first_reading", TEXT, page.first_reading),
        Field("last_reading", TEXT, page.last_reading),
        Field(
            "humidity_percent", COUNT, humidity, "humidity", " %",
            missing="not said: 55 % is reckoned with",
        ),
    )  # fmt: skip


def _origin(page: ClimatePage) -> str:
    """How anybody knows."""
    if page.readings:
        return "a logger's readings"
    if page.climate.measured:
        return "a logger's readings, of the place above it"
    if page.climate.monthly_dc:
        return "twelve months as stated"
    return "one temperature all year, as stated" if page.months_dc else "nothing"


def _span(page: ClimatePage) -> str:
    """From when to when the readings are."""
    return f", {page.first_reading} to {page.last_reading}" if page.readings else ""


def _sums(page: ClimatePage, units: UnitSystem) -> tuple[Field, ...]:
    """Mean and mean kinetic temperatures."""
    named = (
        ("mean_c", page.mean_c, "mean", ""),
        (
            "mkt_life_c", page.kinetic_c, "mean kinetic",
            f", for a life that halves every 10 °C ({LIFE_ENERGY_KJ:g} kJ/mol)",
        ),
        (
            "mkt_c", page.pharmacopoeia_kinetic_c, "mean kinetic",
            f", the pharmacopoeia's {MKT_ENERGY_KJ:g} kJ/mol",
        ),
    )  # fmt: skip
    fields: list[Field] = []
    for key, value, label, after in named:
        shown = None if value is None else show_temperature(_tenths(value), units)
        fields.append(Field(key, _DEGREES, value))
        fields.append(Field("", TEXT, shown, label, after))
    return tuple(fields)


def _tenths(at_c: float) -> int:
    return nearest_whole(Fraction(at_c) * 10)


def _words(page: ClimatePage) -> tuple[str, ...]:
    """What the figures are worth."""
    if not page.months_dc:
        return (
            "Say it: "
            + shlex.join(["stockroom", "place", "temperature", page.place.path, "--steady", "15"]),
        )
    stated = () if page.climate.measured else (
        "Stated, not measured: the dates of what stands here are less sure for it.",
    )  # fmt: skip
    return (*stated, f"{MEAN_KINETIC.words}.")


def readings_report(found: LoggerPreview, done: Done | None, units: UnitSystem) -> Report:
    """What a logger's file holds; `done` when it was kept."""
    table, profile = found.table, found.profile
    scale = ", in °F" if table.fahrenheit else ", in °C"
    first, last = table.readings[0].at, table.readings[-1].at
    blocks: tuple[Block, ...] = (
        Fields(
            (
                Field("done", TEXT, "" if done is None else done.words),
                Field("kept", FLAG, done is not None),
                Field("place", TEXT, found.place.path, "place"),
                Field("readings", COUNT, len(table.readings), "readings",
                      f", {first:%Y-%m-%d %H:%M} to {last:%Y-%m-%d %H:%M}"),
                Field("first_reading", TEXT, f"{first:%Y-%m-%d %H:%M}"),
                Field("last_reading", TEXT, f"{last:%Y-%m-%d %H:%M}"),
                Field("time_column", TEXT, table.time_column, "time from"),
                Field("temperature_column", TEXT, table.heat_column, "temperature from", scale),
                Field("fahrenheit", FLAG, table.fahrenheit),
                Field("mean_c", _DEGREES, profile.mean_c),
                Field("mkt_life_c", _DEGREES, profile.kinetic_c),
                Field("hours", decimal_kind(1), profile.hours),
                Field("", TEXT, show_temperature(_tenths(profile.mean_c), units), "mean"),
                Field("", TEXT, show_temperature(_tenths(profile.kinetic_c), units),
                      "mean kinetic", ", for a life that halves every 10 °C"),
            )
        ),
        month_table(profile.monthly_dc),
        _unmeasured(profile.measured_months),
        *_left_out(found),
    )  # fmt: skip
    title = (
        f"Kept for {found.place.path}" if done else f"What the file holds for {found.place.path}"
    )
    return document(title, blocks)


def _unmeasured(measured: Sequence[int]) -> Prose:
    """Which months were drawn between others."""
    drawn = [name for number, name in enumerate(MONTH_NAMES, start=1) if number not in measured]
    words = f"Without readings, drawn between their neighbours: {', '.join(drawn)}."
    return Prose("", (words,) if drawn else ())


def _left_out(found: LoggerPreview) -> tuple[Block, ...]:
    """The rows that could not be read, by line."""
    bad = found.table.bad
    lines = [f"line {row.line}: {row.why}" for row in bad[:_ROWS_SHOWN]]
    if len(bad) > _ROWS_SHOWN:
        lines.append(f"and {len(bad) - _ROWS_SHOWN} more; --json names them all")
    return (
        Table(
            "bad_rows",
            (Column("line", COUNT), Column("why")),
            tuple((row.line, row.why) for row in bad),
        ),
        Prose("", tuple(lines), f"Left out: {counted(len(bad), 'row')} that cannot be read", "- "),
    )
