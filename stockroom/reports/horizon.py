"""The forecast on paper: food by food, what passes its best-by, and what would save it."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.horizon.advice import ADVICE_RANKED, Advice, AdviceKind
from stockroom.domain.horizon.eating_rate_working import CAUTIONS
from stockroom.domain.horizon.forecast import PackageForecast
from stockroom.domain.horizon.household_eating import PLAN_STANDS, RECORD_READ
from stockroom.domain.horizon.odds import FoodOdds, PackageOdds
from stockroom.domain.horizon.pace import rhythm
from stockroom.domain.horizon.pages import FoodHorizon, HorizonPage, KnownFood, SetApart
from stockroom.domain.horizon.sources import (
    FORECAST_SOURCES,
    LEAST_RATE,
    ODDS_SOURCES,
    PAST_EATING_SOURCES,
)
from stockroom.domain.quantities import nearest_whole, show_servings
from stockroom.domain.working import Source
from stockroom.reports.parts import QUALITY_CAPTION, counted
from stockroom.reports.values import (
    COUNT,
    DAY,
    FLAG,
    RATIO,
    SERVINGS,
    WEIGHT,
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

PLANNING_FIGURES = "Planning figures: they hold as far as the household eats as was said."
RAW_WORDS = "raw: cook it after water is added"
_LEAST_CHANCE = 0.05
"""Packages less likely to pass are left to JSON."""
_RATE = decimal_kind(2)
_EXACT = decimal_kind(4)

_FOODS = (
    Column("food", title="food", least=12),
    Column("servings", SERVINGS, "servings"),
    Column("packages", COUNT, "packages", drop=4),
    Column("per_week", _RATE, "a week"),
    Column("basis"),
    Column("", title="known from", drop=2),
    Column("runs_out_on", DAY, "runs out"),
    Column("unused_servings", SERVINGS, "pass unused"),
    Column("past_servings", SERVINGS),
    Column("least_per_day_exact"),
    Column("least_per_week", _RATE, "least a week", drop=1),
    Column("rhythm"),
    Column("binding_date", DAY, "asked for by", drop=3),
    Column("raw", FLAG),
    Column("group"),
)
_PACKAGES = (
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("servings", SERVINGS, "servings", drop=4),
    Column("best_by", DAY, "best-by"),
    Column("from_day", DAY, "used from"),
    Column("to_day", DAY, "to"),
    Column("unused_servings", SERVINGS, "pass unused", drop=1),
    Column("fate", title="what becomes of it", least=12, drop=3),
    Column("raw", FLAG),
)
_ADVICE = (
    Column("rank", COUNT, "no."),
    Column("saved_servings", SERVINGS, "saves"),
    Column("saved_fresh", WEIGHT, "as fresh", drop=1),
    Column("food", title="food", least=10),
    Column("kind"),
    Column("words", title="what to do", least=28),
    Column("before", DAY, "before", drop=2),
    Column("servings_per_day", _EXACT),
    Column("place"),
    Column("recipe"),
    Column("codes", WORDS),
    Column("command"),
)
_ODDS = (
    Column("food", title="food", least=12),
    Column("early", DAY, "1 in 10 by"),
    Column("middle", DAY, "half by"),
    Column("late", DAY, "9 in 10 by"),
    Column("lasts_share", RATIO, "lasts", drop=1),
    Column("unused_servings", _RATE, "pass unused"),
)
_PACKAGE_ODDS = (
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("best_by", DAY, "best-by"),
    Column("chance", RATIO, "chance"),
    Column("standard_error", RATIO, "give or take", drop=1),
    Column("unused_share", RATIO, "share lost", drop=2),
)


def horizon_report(page: HorizonPage, *, packages: bool = False) -> Report:
    """The forecast; `packages` lists every package, and is the list for CSV then."""
    foods = Table(
        "foods", _FOODS, tuple(map(_food_row, page.foods)), caption=QUALITY_CAPTION,
        empty="There is nothing on the shelves to look ahead for.",
    )  # fmt: skip
    every = _packages(page, packages)
    blocks: tuple[Block, ...] = (
        Prose("sentence", (page.sentence,)),
        _facts(page),
        foods,
        every,
        *_advice(page),
        *_odds(page),
        Prose("", _nobody_said(page.nobody_said), "Nobody said how these are eaten"),
        *_menu(page),
        apart_block(page.apart),
        Prose("cautions", (*CAUTIONS, PLANNING_FIGURES), "Bear in mind", "- "),
        Prose("sources", tuple(f"{one.words}." for one in _sources(page)), "Sources", "- "),
    )
    title = f"Horizon from {page.today} until {page.until}"
    return document(title, blocks, every if packages else foods)


def apart_block(apart: Sequence[SetApart]) -> Table:
    """What is not counted, and why."""
    columns = (
        Column("reason"),
        Column("words", title="not counted"),
        Column("packages", COUNT, "packages"),
        Column("servings", SERVINGS, "servings"),
    )
    rows = tuple((one.why.key, one.why.value, one.packages, one.servings) for one in apart)
    return Table("apart", columns, rows)


def a_week(servings_per_day: Fraction | None) -> Fraction | None:
    """A rate over seven days; None stays None."""
    return None if servings_per_day is None else 7 * servings_per_day


def advice_command(one: Advice) -> str:
    """The line that does it, or that shows more where it takes more than a line."""
    words = {
        AdviceKind.EAT: lambda: ("eating", "set", one.food, *_every(one)),
        AdviceKind.COOK: lambda: ("cook", one.recipe),
        AdviceKind.MOVE: lambda: ("move", *one.codes, one.place),
        AdviceKind.REPACK: lambda: ("whatif", one.codes[0]),
        # Not as drawn to be eaten: the record would take it for the household's own eating.
        AdviceKind.GIVE: lambda: ("discard", *one.codes, "--why", "given away"),
    }[one.kind]()
    return shlex.join(["stockroom", *words])


def _every(one: Advice) -> tuple[str, ...]:
    """Servings every so many days, as they are typed."""
    beat = rhythm(one.servings_per_day or Fraction(0))
    return str(beat.servings), "--every", str(beat.days)


def _facts(page: HorizonPage) -> Fields:
    """The figures of the whole."""
    return Fields(
        (
            Field("today", DAY, page.today),
            Field("until", DAY, page.until),
            Field("days", COUNT, page.days),
            Field("unused_servings", SERVINGS, page.unused_servings, "pass unused", " servings"),
            Field("past_servings", SERVINGS, page.past_servings or None, "past already",
                  " servings: look at them before anything else"),
            Field("planned_dishes", COUNT, page.planned.dishes or None, "on the menu",
                  ", taken out first"),
        )
    )  # fmt: skip


def _food_row(one: FoodHorizon) -> Row:
    """A food under `_FOODS`."""
    least = one.least
    return (
        one.food.name, one.servings, len(one.in_time), a_week(one.how.servings_per_day),
        one.how.basis.value, one.how.basis.words, one.runs_out_on,
        one.unused_servings if one.known else None, one.forecast.past_servings,
        str(least.servings_per_day), least.servings_per_week,
        rhythm(least.servings_per_day).words, least.binding_date, bool(one.raw),
        one.food.group.value,
    )  # fmt: skip


def _packages(page: HorizonPage, every: bool) -> Table:
    """Every package, or those of which something passes."""
    rows = tuple(
        _package_row(food, one)
        for food in page.foods
        for one in (food.forecast.packages if every else food.unused)
    )
    if every:
        return Table("packages", _PACKAGES, rows, "Each package", QUALITY_CAPTION)
    rows = tuple(sorted(rows, key=lambda row: (row[3], row[0])))
    return Table("unused", _PACKAGES, rows, "What passes its best-by", QUALITY_CAPTION)


def _package_row(food: FoodHorizon, one: PackageForecast) -> Row:
    """A package under `_PACKAGES`."""
    package = one.package
    raw = package.package_id in food.raw
    return (
        package.code, food.food.name, package.servings, package.best_by,
        one.from_day, one.to_day, one.unused_servings if food.known else None,
        one.fate.value if food.known else "nobody said how it is eaten", raw,
    )  # fmt: skip


def _advice(page: HorizonPage) -> tuple[Block, ...]:
    """What would save it, ranked, with the commands."""
    rows = tuple(_advice_row(rank, one) for rank, one in enumerate(page.advice, start=1))
    how = tuple(f"{rank}. {advice_command(one)}" for rank, one in enumerate(page.advice, start=1))
    left = (
        (f"{counted(page.not_looked_at, 'package')} with less to lose were not looked at.",)
        if page.not_looked_at
        else ()
    )
    alone = ("Each is reckoned alone: two of them on one food do not add up.",) if rows else ()
    return (
        Table("advice", _ADVICE, rows, "What would save food, the most first"),
        Prose("", how, "To do it"),
        Prose("", (*alone, *left)),
    )


def _advice_row(rank: int, one: Advice) -> Row:
    """A piece of advice under `_ADVICE`."""
    return (
        rank, one.saved_servings, nearest_whole(one.saved_dg), one.food, one.kind.value, one.words,
        one.before, one.servings_per_day, one.place, one.recipe, one.codes, advice_command(one),
    )  # fmt: skip


def _odds(page: HorizonPage) -> tuple[Block, ...]:
    """The odds of each food, and the packages most likely to pass."""
    if page.odds is None:
        return ()
    names = {one.food.food_id: one.food for one in page.foods}
    foods = tuple(_odds_row(names[one.food_id], one) for one in page.odds.foods)
    packages = sorted(
        (
            (names[one.food_id], each)
            for one in page.odds.foods
            for each in one.packages
            if each.chance >= _LEAST_CHANCE
        ),
        key=lambda pair: (-pair[1].chance, pair[1].package.best_by, pair[1].package.code),
    )
    rounds = f"{page.odds.rounds} rounds"
    stopped = f"Stopped after {rounds} of {page.odds.asked_rounds}." if page.odds.stopped else ""
    return (
        Fields((Field("rounds", COUNT, page.odds.rounds),)),
        Table("odds", _ODDS, foods, f"When each food may run out, by {rounds}"),
        Table(
            "package_odds", _PACKAGE_ODDS, tuple(_package_odds_row(*one) for one in packages),
            "The chance that some of it passes", QUALITY_CAPTION,
        ),
        Prose("", (stopped,) if stopped else ()),
    )  # fmt: skip


def _odds_row(food: KnownFood, one: FoodOdds) -> Row:
    """A food under `_ODDS`."""
    unused = Fraction(one.unused_servings)
    return (food.name, one.early, one.middle, one.late, Fraction(one.lasts_share), unused)


def _package_odds_row(food: KnownFood, one: PackageOdds) -> Row:
    """A package under `_PACKAGE_ODDS`."""
    return (
        one.package.code, food.name, one.package.best_by, Fraction(one.chance),
        Fraction(one.standard_error), Fraction(one.unused_share),
    )  # fmt: skip


def _nobody_said(foods: Sequence[FoodHorizon]) -> tuple[str, ...]:
    """Foods nobody spoke for, with the rate that wastes nothing and how to say another."""
    if not foods:
        return ()
    least = [
        f"{one.food.name}: {rhythm(one.least.servings_per_day).words} wastes nothing"
        for one in foods
    ]
    return (*least, 'Say it with stockroom eating set "FOOD" SERVINGS --per week.')


def _menu(page: HorizonPage) -> tuple[Block, ...]:
    """Planned dishes the shelf cannot serve, or that cannot be reckoned."""
    short = tuple(
        f"{food.name} on {miss.use.on_day}: {show_servings(miss.missing_servings)} servings short"
        for food, miss in page.planned.unserved
    )
    return (
        Prose("menu_short", short, "The menu asks for more than there is in time", "- "),
        Prose("menu_unknown", page.planned.unknown, "Of the menu, not told in servings", "- "),
    )


def _sources(page: HorizonPage) -> tuple[Source, ...]:
    """The sources of what is shown, each once."""
    found = [*FORECAST_SOURCES, LEAST_RATE, RECORD_READ, *PAST_EATING_SOURCES]
    found += [PLAN_STANDS] if page.planned.dishes else []
    found += [ADVICE_RANKED] if page.advice else []
    found += ODDS_SOURCES if page.odds is not None else ()
    return tuple(dict.fromkeys(found))
