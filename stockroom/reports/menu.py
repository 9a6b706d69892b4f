"""A menu on paper: the days with their dishes, the account of it, what to buy and to fetch."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.menu.plans import Account, AtRisk, Finding
from stockroom.domain.menu_records import PLANNING_FIGURES, MenuOffer, MenuPage
from stockroom.domain.menu_wishes import USUAL, WISHES, MenuWishes
from stockroom.reports.done import sentence
from stockroom.reports.parts import caution_blocks
from stockroom.reports.plain import clean
from stockroom.reports.values import (
    AMOUNT,
    COUNT,
    DAY,
    FLAG,
    TEXT,
    VOLUME,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Json,
    Prose,
    Report,
    Table,
    document,
    listing,
)
from stockroom.services.results import Done

_DISHES = (
    Column("day", DAY, "day"),
    Column("dish", title="dish", least=14),
    Column("occasion", title="as", drop=2),
    Column("people", COUNT, "for"),
    Column("energy_kcal", COUNT, "kcal"),
    Column("protein", WATER_GRAMS, "protein", drop=3),
    Column("water", VOLUME, "water", drop=1),
    Column("state", title="state"),
    Column("why_not"),
)
_DAYS = (
    Column("day", DAY, "day"),
    Column("energy_kcal", COUNT, "kcal"),
    Column("need_kcal", COUNT, "of need"),
    Column("protein", WATER_GRAMS, "protein"),
    Column("need_protein", WATER_GRAMS, "of need", drop=1),
    Column("water", VOLUME, "water"),
)
_AT_RISK = (
    Column("code", title="package"),
    Column("food", title="food", least=10),
    Column("due", DAY, "due"),
    Column("used", WEIGHT, "used"),
    Column("left", WEIGHT, "left over"),
    Column("used_kcal", COUNT),
    Column("left_kcal", COUNT),
)
_PACKAGES = (
    Column("code", title="package"),
    Column("food", title="food", least=10),
    Column("fresh_equivalent", WEIGHT, "as fresh"),
    Column("finishes", FLAG, "all of it"),
    Column("first_day", DAY, "from"),
    Column("place", title="place", least=8, drop=1),
)
_SHOPPING = (
    Column("item", title="item", least=12),
    Column("amount", AMOUNT, "amount"),
    Column("unit", title="unit"),
)
_EXCLUDED = (
    Column("dish", title="dish", least=14),
    Column("why", title="why not", least=20),
)
_WISHES = (
    Column("wish", title="wish", least=14),
    Column("value", title="is", least=8),
    Column("usual", title="usual", least=8, drop=2),
    Column("option", title="option"),
    Column("meaning", title="meaning", least=20, drop=1),
)


def offer_report(offer: MenuOffer, done: Done | None = None) -> Report:
    """A menu just planned; `done` says that it was kept."""
    proof = offer.proof
    fields = (
        Field("done", TEXT, None if done is None else done.words),
        Field("ending", TEXT, offer.ending),
        Field("seconds", COUNT, int(offer.seconds)),
        Field("value", COUNT, proof.value),
        Field("bound", COUNT, proof.bound),
        Field("gap_millionths", COUNT, proof.gap_millionths),
    )
    said = ("Not kept: --keep keeps it.",) if done is None else (sentence(done.words),)
    return _report(offer.page, (Fields(fields), Prose("", said)))


def menu_report(page: MenuPage) -> Report:
    """The kept menu as it stands."""
    return _report(page, ())


def _report(page: MenuPage, first: Sequence[Block]) -> Report:
    """A menu with all that is to be said of it."""
    dishes = _dishes(page)
    account = page.account
    blocks: tuple[Block, ...] = (
        *first,
        *_standing(page),
        dishes,
        _days(account),
        *_wasted(account),
        _packages(page),
        _shopping(page),
        _excluded(account),
        Prose("", _finding_lines(page.findings), "To know", "- "),
        Data("findings", _finding_data(page.findings)),
        Prose("", (PLANNING_FIGURES,)),
        *caution_blocks(page.cautions),
    )
    title = f"Menu from {page.first_day.isoformat()} to {page.last_day.isoformat()}"
    return document(title, blocks, dishes)


def _standing(page: MenuPage) -> tuple[Block, ...]:
    """How good it is, what it gives up and what has changed."""
    fields = (
        Field("from", DAY, page.first_day),
        Field("to", DAY, page.last_day),
        Field("kept", FLAG, page.kept),
        Field("proven", TEXT, page.proven),
        Field("options", WORDS, page.options),
    )
    options = (f"Plan again with {clean(' '.join(page.options))}",) if page.options else ()
    return (
        Fields(fields),
        Prose("", (page.proven,)),
        Prose("changed", page.stale, "Changed since it was kept", "- "),
        Prose("give_up", page.give_up, "Not everything wished for fits", "- "),
        Prose("", options),
    )


def _dishes(page: MenuPage) -> Table:
    """The days with their dishes."""
    rows = tuple(
        (
            dish.on,
            dish.name,
            str(dish.occasion),
            dish.people,
            dish.kcal,
            dish.protein_dg,
            dish.water_ml,
            dish.mark,
            dish.why_not,
        )
        for dish in page.dishes
    )
    return Table("dishes", _DISHES, rows, "Dishes", empty="No dish could be planned.")


def _days(account: Account) -> Table:
    """What each day gives, beside the need."""
    rows = tuple(
        (
            day.on,
            day.kcal,
            day.need_kcal,
            day.protein_dg,
            day.need_protein_dg,
            day.water_ml,
        )
        for day in account.days
    )
    return Table("days", _DAYS, rows, "Each day, beside the need of all")


def _wasted(account: Account) -> tuple[Block, ...]:
    """What is used that would have been wasted, and what will not be used in time."""
    used = tuple(_risk(each) for each in account.at_risk if each.used_dg)
    fields = (
        Field("saved", WEIGHT, account.saved_dg),
        Field("unsaved", WEIGHT, account.unsaved_dg),
        Field("left_open", WEIGHT, account.left_open_dg),
        Field("water", VOLUME, account.water_ml),
        Field("", WEIGHT, account.saved_dg, "saved from waste", " as fresh"),
        Field("", WEIGHT, account.unsaved_dg or None, "due and not used", " as fresh"),
        Field("", WEIGHT, account.left_open_dg or None, "left in open packages", " as fresh"),
        Field("", VOLUME, account.water_ml, "water in all", ", to rehydrate and to cook in"),
    )
    caption = f"Due by best-by ({QUALITY_NOT_SAFETY}) or by being open."
    return (
        Table("saved", _AT_RISK, used, "Used that would have been wasted", caption),
        Data("at_risk", [_risk_data(each) for each in account.at_risk]),
        Fields(fields),
    )


def _risk(each: AtRisk) -> tuple[object, ...]:
    return (
        each.code,
        each.food_name,
        each.due,
        each.used_dg,
        each.unused_dg,
        each.used_kcal,
        each.unused_kcal,
    )


def _risk_data(each: AtRisk) -> Json:
    return {
        "code": each.code,
        "food": each.food_name,
        "due": each.due.isoformat(),
        "used_dg": each.used_dg,
        "left_dg": each.unused_dg,
    }


def _packages(page: MenuPage) -> Table:
    """What comes out of which package."""
    rows = tuple(
        (each.code, each.food, each.fresh_dg, each.finishes, each.first_on, each.place)
        for each in page.packages
    )
    return Table("packages", _PACKAGES, rows, "Packages, as planned")


def _shopping(page: MenuPage) -> Table:
    rows = tuple((need.item, need.amount, need.unit) for need in page.shopping)
    return Table("shopping", _SHOPPING, rows, "To buy or to have in the kitchen")


def _excluded(account: Account) -> Table:
    """The dishes that could not be planned on any day."""
    rows = tuple((each.name, each.why) for each in account.excluded)
    return Table("left_out", _EXCLUDED, rows, "Dishes left out")


def _finding_lines(findings: Sequence[Finding]) -> tuple[str, ...]:
    """Findings, each with its day where it has one."""
    return tuple(
        clean(each.words if each.on is None else f"{each.on.isoformat()}: {each.words}")
        for each in findings
    )


def _finding_data(findings: Sequence[Finding]) -> Json:
    return [
        {
            "about": each.subject,
            "words": each.words,
            "day": None if each.on is None else each.on.isoformat(),
        }
        for each in findings
    ]


def wishes_report(wishes: MenuWishes) -> Report:
    """The wishes for menus, with the usual ones beside them."""
    rows = tuple(
        (
            one.label,
            one.show(getattr(wishes, one.field)),
            one.show(getattr(USUAL, one.field)),
            f"--{one.option}",
            one.hint,
        )
        for one in WISHES
    )
    return listing(Table("wishes", _WISHES, rows))
