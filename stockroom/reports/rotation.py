"""The order of use on paper: what to take from which place, and why the two orders differ."""

from __future__ import annotations

from stockroom.domain.horizon.eating_rate_working import CAUTIONS, OTHERWISE
from stockroom.domain.horizon.forecast import Fate
from stockroom.domain.horizon.pages import FoodOrder, RotationPage, Stop
from stockroom.domain.horizon.sources import DUE_DATE_ORDER, FIRST_IN_FIRST_OUT
from stockroom.reports.horizon import PLANNING_FIGURES, RAW_WORDS, a_week, apart_block
from stockroom.reports.parts import QUALITY_CAPTION
from stockroom.reports.values import (
    DAY,
    FLAG,
    SERVINGS,
    WORDS,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    decimal_kind,
    document,
)

_RATE = decimal_kind(2)
_ROUND = (
    Column("place", title="place", least=12),
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("servings", SERVINGS, "servings"),
    Column("from_day", DAY, "from", drop=1),
    Column("to_day", DAY),
    Column("best_by", DAY, "best-by"),
    Column("fate"),
    Column("raw", FLAG),
    Column("note", title="note", least=14, drop=2),
)
_ORDERS = (
    Column("food", title="food", least=12),
    Column("per_week", _RATE, "a week", drop=2),
    Column("next", title="next by best-by"),
    Column("next_best_by", DAY, "best-by", drop=1),
    Column("next_by_age", title="first by age"),
    Column("differs", FLAG, "differ"),
    Column("by_best_by", WORDS),
    Column("by_age", WORDS),
    Column("words"),
    Column("reasons", WORDS),
)


def rotation_report(page: RotationPage) -> Report:
    """The round first, then the order of each food and why the orders differ."""
    walk = Table(
        "round",
        _ROUND,
        tuple(_stop_row(one) for one in page.stops),
        f"What to take until {page.until}, in walking order",
        QUALITY_CAPTION,
        empty="Nothing is to be taken: nobody eats of it and nothing comes to its best-by.",
    )
    past = Table(
        "past",
        _ROUND,
        tuple(_stop_row(one) for one in page.past),
        "Past its best-by already: look at it, then eat it or discard it",
        QUALITY_CAPTION,
    )
    rows = tuple(_order_row(one) for one in page.orders)
    why = tuple(_why(one) for one in page.orders if one.order.differs)
    blocks: tuple[Block, ...] = (
        Fields((Field("today", DAY, page.today), Field("until", DAY, page.until))),
        walk,
        past,
        Table("orders", _ORDERS, rows, "Which package of each food goes next"),
        Prose("", why, "Where the two orders differ", "- "),
        apart_block(page.apart),
        Prose("cautions", (*CAUTIONS, OTHERWISE, PLANNING_FIGURES), "Bear in mind", "- "),
        Prose(
            "sources",
            tuple(f"{one.words}." for one in (FIRST_IN_FIRST_OUT, DUE_DATE_ORDER)),
            "Sources",
            "- ",
        ),
    )
    return document("Rotation", blocks, walk)


def _stop_row(one: Stop) -> Row:
    """A package under `_ROUND`."""
    package = one.package
    return (
        one.place, package.code, one.food.name, package.servings, one.from_day, one.to_day,
        package.best_by, one.fate.value if one.known else "nobody said how it is eaten", one.raw,
        stop_note(one),
    )  # fmt: skip


def stop_note(one: Stop) -> str:
    """What to bear in mind with a package of the round."""
    notes: list[str] = []
    if not one.known and one.fate is not Fate.PAST and one.from_day is None:
        notes.append("its best-by comes; nobody said how it is eaten")
    elif one.fate is Fate.UNUSED:
        notes.append("passes unused: eat more of it or give it away")
    elif one.fate is Fate.PARTLY:
        notes.append("only a part is eaten in time")
    elif one.fate is Fate.LEFT:
        notes.append("a part of it")
    if one.raw:
        notes.append(RAW_WORDS)
    return "; ".join(notes)


def _order_row(one: FoodOrder) -> Row:
    """A food under `_ORDERS`."""
    by_best_by, by_age = one.order.by_best_by, one.order.by_age
    return (
        one.food.name,
        a_week(one.how.servings_per_day),
        by_best_by[0].code if by_best_by else "",
        by_best_by[0].best_by if by_best_by else None,
        by_age[0].code if by_age else "",
        one.order.differs,
        tuple(each.code for each in by_best_by),
        tuple(each.code for each in by_age),
        one.order.words,
        tuple(each.reason for each in one.order.overtaken),
    )


def _why(one: FoodOrder) -> str:
    """Which order to follow and why, with the first package that goes before an older one."""
    said = f"{one.food.name}: {one.order.words}"
    if one.order.overtaken:
        said += f" {one.order.overtaken[0].reason}"
    more = len(one.order.overtaken) - 1
    return f"{said} {more} more go before it so." if more > 0 else said
