"""A life at a temperature, a mean kinetic temperature and a life used up, without a store."""

from __future__ import annotations

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.keeping.refusals import TooWarm
from stockroom.domain.keeping.sources import LIFE_FRACTIONS, MEAN_KINETIC, TEMPERATURE_LAW
from stockroom.domain.keeping.temperature import (
    FLOOR_C,
    MKT_ENERGY_KJ,
    REFERENCE_C,
    WARN_ABOVE_C,
    LifeUsed,
    Readings,
    mean_kinetic_temperature,
    mean_temperature,
)
from stockroom.domain.logger_table import LoggerTable
from stockroom.domain.year_profile import LIFE_ENERGY_KJ
from stockroom.reports.values import (
    COUNT,
    FLAG,
    TEXT,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    decimal_kind,
    document,
)

_TENTH, _PLAIN, _FINE = decimal_kind(1), decimal_kind(3), decimal_kind(5)
_QUALITY = f"A {QUALITY_NOT_SAFETY}: follow local codes and licensed guidance."


def life_result(life_years: float, q10: float, temp_c: float, answer: float) -> Report:
    """A life at a temperature."""
    return document(
        "Life at a temperature",
        (
            Fields(
                (
                    *_asked(life_years, q10, temp_c),
                    Field("life_years", _PLAIN, answer, "life there", " years"),
                    Field("refused", FLAG, False),
                )
            ),
            Prose("", (*_warned(temp_c), f"{TEMPERATURE_LAW.words}.", _QUALITY)),
        ),
    )


def life_refused(life_years: float, q10: float, temp_c: float, refusal: TooWarm) -> Report:
    """Why no life is given."""
    return document(
        "Life at a temperature",
        (
            Fields(
                (
                    *_asked(life_years, q10, temp_c),
                    Field("life_years", _PLAIN, None),
                    Field("refused", FLAG, True),
                    Field("reason", TEXT, refusal.message),
                )
            ),
            Prose("", (refusal.message, refusal.hint, _QUALITY)),
        ),
    )


def _asked(life_years: float, q10: float, temp_c: float) -> tuple[Field, ...]:
    """What was asked about."""
    return (
        Field("life_years_at_21c", _PLAIN, life_years, f"life at {REFERENCE_C:g} °C", " years"),
        Field("q10", decimal_kind(2), q10, "Q10"),
        Field("temp_c", decimal_kind(2), temp_c, "temperature", " °C"),
    )


def _warned(temp_c: float) -> tuple[str, ...]:
    """What to bear in mind with this temperature."""
    if temp_c > WARN_ABOVE_C:
        return (f"Above {WARN_ABOVE_C:g} °C quality goes fast and no estimate is sure.",)
    if temp_c < FLOOR_C:
        return (f"No credit is given below {FLOOR_C:g} °C.",)
    return ()


def kinetic_result(parts: Readings, ea_kj_mol: float, table: LoggerTable | None = None) -> Report:
    """The mean kinetic temperature, beside the mean and the one a life goes by."""
    usual = ea_kj_mol == MKT_ENERGY_KJ
    whose = ", the pharmacopoeia's" if usual else ""
    blocks = [
        Fields(
            (
                Field("mkt_c", _PLAIN, mean_kinetic_temperature(parts, ea_kj_mol),
                      "mean kinetic", f" °C, with {ea_kj_mol:g} kJ/mol{whose}"),
                Field("mkt_life_c", _PLAIN, mean_kinetic_temperature(parts, LIFE_ENERGY_KJ),
                      "for a life",
                      f" °C, with {LIFE_ENERGY_KJ:g} kJ/mol: it halves every 10 °C"),
                Field("mean_c", _PLAIN, mean_temperature(parts), "mean", " °C, weighted by time"),
                Field("hours", _TENTH, sum(hours for _, hours in parts), "time", " hours"),
                Field("ea_kj_mol", _PLAIN, ea_kj_mol),
                Field("readings", COUNT, len(parts), "readings"),
                *_columns(table),
            )
        ),
        _bad_rows(table),
        Prose(
            "",
            (
                f"{MEAN_KINETIC.words}.",
                "The second figure goes with the dates given here: with 83.144 kJ/mol warmth counts"
                " three times for each 10 °C, here twice (computed).",
            ),
        ),
    ]  # fmt: skip
    return document("Mean kinetic temperature", blocks)


def _columns(table: LoggerTable | None) -> tuple[Field, ...]:
    """Which columns of a file were read."""
    if table is None:
        return ()
    scale = ", in °F" if table.fahrenheit else ", in °C"
    return (
        Field("time_column", TEXT, table.time_column, "time from"),
        Field("temperature_column", TEXT, table.heat_column, "temperature from", scale),
        Field("fahrenheit", FLAG, table.fahrenheit),
    )


def _bad_rows(table: LoggerTable | None) -> Table | None:
    """Rows left out, for JSON; people are told beside the answer."""
    if table is None:
        return None
    columns = (Column("line", COUNT), Column("why"))
    return Table("bad_rows", columns, tuple((row.line, row.why) for row in table.bad))


def used_result(found: LifeUsed, life_years: float, q10: float, stays: Readings) -> Report:
    """The share of a life that stays have used."""
    months = sum(time for _, time in stays)
    return document(
        "Life used",
        (
            Fields(
                (
                    Field("life_years", _PLAIN, life_years, f"life at {REFERENCE_C:g} °C",
                          " years"),
                    Field("q10", decimal_kind(2), q10, "Q10"),
                    Field("months", _TENTH, months, "time", " months"),
                    Field("used_fraction", _FINE, found.used_fraction, "share used"),
                    Field("remaining_years_at_21c", _PLAIN, found.remaining_years_at_21c,
                          "remaining", f" years at {REFERENCE_C:g} °C"),
                )
            ),
            Prose("", (f"{LIFE_FRACTIONS.words}.", f"{TEMPERATURE_LAW.words}.", _QUALITY)),
        ),
    )  # fmt: skip
