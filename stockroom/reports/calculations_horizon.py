"""The least eating rate of a list of servings, without a store."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.horizon.eating_rate import EatingRate
from stockroom.domain.horizon.eating_rate_working import CAUTIONS, rate_words
from stockroom.domain.horizon.pace import rhythm, whole_a_day
from stockroom.domain.horizon.sources import DUE_DATE_ORDER, EATING_DAYS, LEAST_RATE
from stockroom.domain.quantities import show_servings
from stockroom.reports.values import (
    COUNT,
    DAY,
    FLAG,
    SERVINGS,
    TEXT,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Json,
    Prose,
    Report,
    Row,
    Table,
    decimal_kind,
    document,
)

_LONGEST_TABLE = 24
_RATE = decimal_kind(3)
_DUE_COLUMNS = (Column("best_by", DAY, "best by"), Column("servings", SERVINGS, "servings"))
_DAY_COLUMNS = (
    *_DUE_COLUMNS,
    Column("servings_by_then", SERVINGS, "by then"),
    Column("days", COUNT, "days"),
    Column("servings_per_day", _RATE, "a day"),
)


def eating_rate_result(rate: EatingRate) -> Report:
    """The rate, the day that asks for it, what each day asks for, and what is past."""
    return document(
        "Least eating rate",
        (
            Prose("", (_sentence(rate),)),
            Fields((*_rates(rate), *_days(rate))),
            _each_day(rate),
            _past(rate),
            Prose("cautions", CAUTIONS, "Bear in mind", "- "),
            Prose("", tuple(f"{one.words}." for one in (LEAST_RATE, DUE_DATE_ORDER, EATING_DAYS))),
        ),
    )


def _sentence(rate: EatingRate) -> str:
    """The answer in a sentence."""
    if rate.binding is None:
        past = " but what is past already" if rate.past_due else ""
        return f"There is nothing to eat in time{past}: any rate will do."
    beat = rhythm(rate.servings_per_day)
    least = "" if beat.exact else " (a little faster than the least rate)"
    return (
        f"Eat {beat.words}{least}, in the order of best-by, and nothing passes its best-by;"
        f" {rate.binding.best_by} is the day that asks for it."
    )


def _rates(rate: EatingRate) -> tuple[Field, ...]:
    """The rate in several forms."""
    a_day, beat = rate.servings_per_day, rhythm(rate.servings_per_day)
    return (
        Field("", TEXT, rate_words(a_day), "least rate", " servings a day"),
        Field("servings_per_day", _RATE, a_day),
        Field("servings_per_day_exact", TEXT, str(a_day)),
        Field("servings_per_week", _RATE, rate.servings_per_week, "a week", " servings"),
        Field("", TEXT, beat.words, "that is", "" if beat.exact else ", a little faster"),
        Field("rhythm_servings", COUNT, beat.servings),
        Field("rhythm_days", COUNT, beat.days),
        Field("rhythm_exact", FLAG, beat.exact),
        Field(
            "whole_servings_per_day", COUNT, whole_a_day(a_day), "every day the same", " a day"
        ),
    )  # fmt: skip


def _days(rate: EatingRate) -> tuple[Field, ...]:
    """The days that were counted, and the one that binds."""
    binding = rate.binding
    return (
        Field("binding_date", DAY, rate.binding_date, "binding date", _behind(rate)),
        Field("binding_servings", SERVINGS, None if binding is None else binding.servings_by_then),
        Field("binding_days", COUNT, None if binding is None else binding.days),
        Field("from_day", DAY, rate.from_day, "eating from"),
        Field("best_by_day_counts", FLAG, rate.count_best_by_day, "best-by day counts"),
    )


def _behind(rate: EatingRate) -> str:
    """The figures behind the binding date."""
    if rate.binding is None:
        return ""
    servings = show_servings(rate.binding.servings_by_then)
    return f", {servings} servings in {rate.binding.days} days"


def _each_day(rate: EatingRate) -> Block:
    """What each best-by day asks for."""
    rows = tuple(
        (one.best_by, one.servings, one.servings_by_then, one.days, one.servings_per_day)
        for one in rate.days
    )
    return _unless_long("best_by_days", _DAY_COLUMNS, rows, "What each best-by day asks for")


def _past(rate: EatingRate) -> Block:
    """What was past already."""
    total = sum((one.servings for one in rate.past_due), Fraction(0))
    title = f"Past already, left out: {show_servings(total)} servings" if rate.past_due else ""
    rows = tuple((one.best_by, one.servings) for one in rate.past_due)
    return _unless_long("past_due", _DUE_COLUMNS, rows, title)


def _unless_long(key: str, columns: tuple[Column, ...], rows: tuple[Row, ...], title: str) -> Block:
    """A table; one too long to be looked through on a page is left to JSON."""
    if len(rows) <= _LONGEST_TABLE:
        return Table(key, columns, rows, title)
    data: list[Json] = [
        {
            column.json_key: column.kind.to_json(value)
            for column, value in zip(columns, row, strict=True)
        }
        for row in rows
    ]
    return Data(key, data)
