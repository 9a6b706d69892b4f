"""What could be done: choices for a package, advice for the store, how to pack a lot."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from datetime import date

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.reports.parts import QUALITY_CAPTION, caution_blocks, counted, limit_words, spoken
from stockroom.reports.values import (
    ABSORBER,
    COUNT,
    DAY,
    FLAG,
    SERVINGS,
    TEXT,
    VOLUME,
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
    document,
)
from stockroom.services.results import Choice, Gain, Packed, PackingAdvice, WhatIfPage

DAYS_A_MONTH, DAYS_A_YEAR = 30.4375, 365.25
_CODES_SHOWN = 6
_REPACKED = "dried again and repacked: "
"""How the words of a repacking begin; its table is short of room."""
_AGAIN = (
    "Dried again and repacked counts from today: dry the food to constant weight, break a piece,"
    " then pack it; what it has lost so far stays lost.",
    f"Every date is a {QUALITY_NOT_SAFETY}: follow local codes and licensed guidance.",
)


def gain_words(days: int) -> str:
    """Days gained or lost as a person says them: "+4.1 years", "-7 months", "no change"."""
    size = abs(days)
    if size < 2:
        return "no change"
    sign = "+" if days > 0 else "-"
    if size >= DAYS_A_YEAR:
        return f"{sign}{size / DAYS_A_YEAR:.1f} years"
    if size >= 2 * DAYS_A_MONTH:
        return f"{sign}{size / DAYS_A_MONTH:.0f} months"
    return f"{sign}{size} days"


_CHOICES = (
    Column("package"),
    Column("kind"),
    Column("words"),
    Column("", title="what", least=24),
    Column("gain_days", COUNT),
    Column("gain", title="gain"),
    Column("best_by", DAY, "best-by"),
    Column("low", DAY),
    Column("high", DAY),
    Column("", title="between"),
    Column("limited_by", title="limited by", drop=1),
    Column("why_not"),
    Column("place"),
    Column("container_key"),
    Column("absorber", ABSORBER),
    Column("vacuum", FLAG),
    Column("command"),
)


def whatif_report(pages: Sequence[WhatIfPage]) -> Report:
    """Each package as it stands beside what could be done with it."""
    tables = [_choice_table(page) for page in pages]
    rows = tuple(row for table in tables for row in table.rows)
    blocks: list[Block] = []
    for page, table in zip(pages, tables, strict=True):
        blocks.append(table)
        blocks.append(Prose("", _refused(page), "No date is given", "- "))
        blocks.append(Prose("", _best(page), "The most is gained so"))
    # Text shows a table for each kind of package; JSON takes the last of the name, with all rows.
    blocks.append(Table("choices", _untitled(_CHOICES), rows))
    blocks.append(Prose("", _AGAIN))
    return document("", blocks, Table("choices", _CHOICES, rows))


def _untitled(columns: Sequence[Column]) -> tuple[Column, ...]:
    """The columns for JSON alone."""
    return tuple(Column(one.key, one.kind) for one in columns)


def _heading(page: WhatIfPage) -> str:
    """The package, or all it holds for."""
    one = page.package
    codes = _codes(page.alike) if len(page.alike) > 1 else one.code
    limited = f" · limited by {limit_words(page.now.limited_by)}" if page.now.limited_by else ""
    return f"{codes} · {one.food} · {one.place or 'in no place yet'}{limited}"


def _band(low: date | None, high: date | None) -> str:
    """Low and high edge as months, short enough for a table."""
    return "" if low is None or high is None else f"{low:%Y-%m} to {high:%Y-%m}"


def _codes(codes: Sequence[str]) -> str:
    """Codes in a line, the rest counted."""
    shown = ", ".join(codes[:_CODES_SHOWN])
    more = len(codes) - _CODES_SHOWN
    return f"{shown} and {more} more" if more > 0 else shown


def _choice_table(page: WhatIfPage) -> Table:
    """Now first, then the choices, the best first."""
    codes = page.alike or (page.package.code,)
    rows = tuple(_choice_row(page.package.code, codes, one) for one in (page.now, *page.choices))
    return Table("choices", _CHOICES, rows, _heading(page), QUALITY_CAPTION)


def _choice_row(code: str, codes: Sequence[str], one: Choice) -> Row:
    """One choice under `_CHOICES`."""
    return (
        code, one.kind, one.words, one.words.replace(_REPACKED, "repacked: "), one.gain_days,
        "" if one.kind == "now" or one.best_by is None else gain_words(one.gain_days),
        one.best_by, one.low, one.high, _band(one.low, one.high), str(one.limited_by) or None,
        one.why_not, one.place, one.container_key,
        one.absorber_cc, one.vacuum, command_for(codes, one),
    )  # fmt: skip


def command_for(codes: Sequence[str], choice: Choice) -> str:
    """The line that does it; "" where it takes more than a line."""
    if choice.kind != "move":
        return ""
    return shlex.join(["stockroom", "move", *codes, choice.place])


def _refused(page: WhatIfPage) -> tuple[str, ...]:
    """Choices without a date, and why."""
    return tuple(f"{one.words}: {one.why_not}" for one in (page.now, *page.choices) if one.why_not)


def _best(page: WhatIfPage) -> tuple[str, ...]:
    """The choice that gains most, with its command."""
    best = max(page.choices, key=lambda one: one.gain_days, default=None)
    if best is None or best.gain_days < 2:
        return ()
    codes = page.alike or (page.package.code,)
    how = command_for(codes, best)
    return (f"{best.words}: {gain_words(best.gain_days)}" + (f" · {how}" if how else ""),)


_GAINS = (
    Column("rank", COUNT, "no."),
    Column("gain_days", COUNT),
    Column("gain", title="gain"),
    Column("servings", SERVINGS, "servings", drop=2),
    Column("packages", COUNT, "packages", drop=1),
    Column("food", title="food", least=12),
    Column("kind"),
    Column("words"),
    Column("", title="what", least=20),
    Column("best_by", DAY, "best-by then"),
    Column("low", DAY),
    Column("high", DAY),
    Column("limited_by"),
    Column("codes", WORDS),
    Column("place"),
    Column("container_key"),
    Column("absorber", ABSORBER),
    Column("vacuum", FLAG),
    Column("command"),
)


def gains_report(found: Sequence[Gain]) -> Report:
    """Ranked advice for the whole store, each with what to do."""
    table = Table(
        "gains",
        _GAINS,
        tuple(_gain_row(rank, one) for rank, one in enumerate(found, start=1)),
        caption=f"Ranked by servings times days gained. {QUALITY_CAPTION}",
        empty="Nothing gains two months or more: everything is well kept where it is.",
    )
    how = tuple(f"{rank}. {_do(one)}" for rank, one in enumerate(found, start=1))
    return document(
        "What gains the most",
        (table, Prose("", how, "To do it"), Prose("", _AGAIN if found else ())),
        table,
    )


def _gain_row(rank: int, one: Gain) -> Row:
    """One piece of advice under `_GAINS`."""
    choice = one.choice
    codes = tuple(package.code for package in one.packages)
    return (
        rank, choice.gain_days, gain_words(choice.gain_days), one.servings, len(codes),
        one.packages[0].food, choice.kind, choice.words,
        choice.words.replace(_REPACKED, "repacked: "), choice.best_by, choice.low, choice.high,
        str(choice.limited_by), codes, choice.place, choice.container_key, choice.absorber_cc,
        choice.vacuum, command_for(codes, choice),
    )  # fmt: skip


def _do(one: Gain) -> str:
    """The command, or what to do by hand."""
    codes = tuple(package.code for package in one.packages)
    return command_for(codes, one.choice) or f"{_codes(codes)}: {one.choice.words}"


_PACKED = (
    Column("package_kind"),
    Column("", title="kept in", drop=3),
    Column("container", title="container", least=10),
    Column("container_key"),
    Column("volume", VOLUME),
    Column("count", COUNT, "how many"),
    Column("each", WEIGHT, "in each", drop=2),
    Column("packages_to_a_meal", COUNT),
    Column("absorber", ABSORBER, "absorber"),
    Column("best_by", DAY, "best-by"),
    Column("low", DAY),
    Column("high", DAY),
    Column("", title="between"),
    Column("limited_by", title="limited by", drop=1),
    Column("why_not"),
    Column("advised", FLAG),
)


def advice_report(found: PackingAdvice, place: str, units: UnitSystem) -> Report:
    """How to pack a lot, why, and what to bear in mind."""
    lot, meal = found.lot, found.meal
    ways = [found.advised, *found.others] if found.advised else list(found.others)
    line = pack_line(lot.code, found.into, place)
    table = Table(
        "ways",
        _PACKED,
        tuple(_packed_row(one, advised=one is found.advised) for one in ways),
        "Each kind of package, the advised one first",
        QUALITY_CAPTION,
    )
    blocks: tuple[Block, ...] = (
        Fields(
            (
                Field("lot", TEXT, lot.code, "lot"),
                Field("food", TEXT, lot.food, "food", f" ({spoken(lot.food_class)})"),
                Field("left", WEIGHT, lot.left_dg, "left to pack"),
                Field("meal_people", COUNT, meal.people),
                Field("meal_dry", WEIGHT, meal.dry_dg, "dry for a meal", _meal(found, units)),
                Field("place", TEXT, place, "to stand in", missing="a place at 21 °C"),
                Field("advised", TEXT, _in_words(found.advised, units), "advised"),
                Field("into", TEXT, found.into),
                Field("command", TEXT, line),
            )
        ),
        Prose("", (line,) if line else (), "Type"),
        Prose("reasons", found.reasons, "Why", "- "),
        table,
        Prose("", tuple(f"{one.fit.container.name}: {one.why_not}" for one in ways if one.why_not)),
        *caution_blocks(found.cautions),
    )
    return document(f"Packing {lot.code} · {lot.food}", blocks)


def pack_line(lot: str, into: str, place: str) -> str:
    """The command that packs as advised; "" when nothing was advised."""
    if not into:
        return ""
    where = ["--place", place] if place else []
    return shlex.join(["stockroom", "pack", lot, "--into", into, *where])


def _meal(found: PackingAdvice, units: UnitSystem) -> str:
    """For how many people a meal is."""
    people = "person" if found.meal.people == 1 else "people"
    serving = show_weight(found.meal.serving_dg, units)
    return f" for {found.meal.people} {people} at {serving} as eaten"


def _in_words(packed: Packed | None, units: UnitSystem) -> str:
    """The advised way in a line."""
    if packed is None:
        return "nothing: no container suits it"
    fit = packed.fit
    absorber = (
        "no absorber"
        if packed.absorber is None
        else "absorber " + " and ".join(f"{one} cc" for one in packed.absorber.absorbers)
    )
    each = show_weight(fit.each_dg, units)
    return f"{counted(fit.count, 'package')}: {fit.container.name}, {each} in each, {absorber}"


def _packed_row(one: Packed, *, advised: bool) -> Row:
    """One kind of package under `_PACKED`."""
    fit = one.fit
    absorber_cc = 0 if one.absorber is None else one.absorber.absorber_cc
    return (
        str(fit.container.package_kind), spoken(fit.container.package_kind), fit.container.name,
        fit.container.key, fit.container.volume_ml, fit.count, fit.each_dg, fit.to_a_meal,
        absorber_cc, one.best_by, one.low, one.high, _band(one.low, one.high),
        str(one.limited_by) or None, one.why_not, advised,
    )  # fmt: skip
