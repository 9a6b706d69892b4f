"""The leak rate of a machine, without a store."""

from __future__ import annotations

from stockroom.domain.leak import AS_GOOD_AS, LIMIT_MBAR_L_PER_S, Leak
from stockroom.domain.leak_sources import LEAK_LIMIT, PRESSURE_RISE
from stockroom.reports.values import (
    FLAG,
    TEXT,
    Field,
    Fields,
    Prose,
    Report,
    decimal_kind,
    document,
)

_FINE, _TENTH, _HUNDREDTH, _THOUSANDTH = (decimal_kind(digits) for digits in (4, 1, 2, 3))
_SHORT = decimal_kind(0)


def leak_result(found: Leak) -> Report:
    """The leak rate in the units machines and pumps are sold in, and what it means."""
    return document(
        "Leak rate",
        (
            Fields((*_readings(found), *_rates(found), *_judged(found))),
            Prose("", (AS_GOOD_AS, f"{LEAK_LIMIT.words}.", f"{PRESSURE_RISE.words}.")),
        ),
    )


def _readings(found: Leak) -> tuple[Field, ...]:
    """What was read."""
    rise = found.rise
    return (
        Field("volume_l", _TENTH, rise.volume_l, "chamber", " L"),
        Field("from_mbar", _THOUSANDTH, rise.from_mbar, "pressure first", " mbar"),
        Field("to_mbar", _THOUSANDTH, rise.to_mbar, "pressure last", " mbar"),
        Field("seconds", _SHORT, rise.seconds, "time between", " s"),
    )


def _rates(found: Leak) -> tuple[Field, ...]:
    """The rate in several units."""
    return (
        Field("mbar_l_per_s", _FINE, found.mbar_l_per_s, "leak rate", " mbar L/s"),
        Field("torr_l_per_s", _FINE, found.torr_l_per_s, "the same", " Torr L/s"),
        Field(
            "cm3_per_min", _THOUSANDTH, found.cm3_per_min, "as gas",
            " cm3 a minute, at 0 °C and one atmosphere",
        ),
        Field(
            "mbar_per_min", _FINE, found.mbar_per_min, "pressure rises", " mbar a minute"
        ),
        Field(
            "millitorr_per_min", _TENTH, found.millitorr_per_min, "which is",
            " mTorr (micron) a minute",
        ),
    )  # fmt: skip


def _judged(found: Leak) -> tuple[Field, ...]:
    """The shape of the rise, the limit and the verdict."""
    shape = None if found.shape is None else found.shape.value
    return (
        Field("shape", TEXT, shape, "the rise"),
        Field(
            "second_to_first", _HUNDREDTH, found.second_to_first, "second part",
            " times as fast as the first",
        ),
        Field(
            "limit_mbar_l_per_s", _HUNDREDTH, LIMIT_MBAR_L_PER_S, "limit",
            " mbar L/s, clean, dry and empty",
        ),
        Field("dry_empty", FLAG, found.rise.dry_empty, "dry and empty", missing="not said"),
        Field("verdict", TEXT, found.verdict.value, "verdict", f": {found.sentence}"),
        Field("reason", TEXT, found.sentence),
    )  # fmt: skip
