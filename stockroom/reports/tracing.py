"""A package traced back and forward, packages recalled, and what soft packages have in common."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stockroom.domain.chances import percent_words
from stockroom.domain.common_ground import Common, CommonPage
from stockroom.domain.conditions import LIVE, Condition
from stockroom.domain.gate import override_words
from stockroom.domain.proportion import EXACT_INTERVAL, TOO_FEW, Proportion
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Package
from stockroom.domain.trace_records import DriedTray, Drying, Group, MealMade, TracePage
from stockroom.reports.done import sentence
from stockroom.reports.parts import caution_blocks, caution_data, counted
from stockroom.reports.values import (
    ABSORBER,
    COUNT,
    DAY,
    FLAG,
    TEXT,
    WEIGHT,
    WORDS,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Json,
    Kind,
    Prose,
    Report,
    Row,
    Table,
    document,
)
from stockroom.services.results import Done

NOT_RECORDED = "not on record"

# Back


def trace_report(page: TracePage, units: UnitSystem) -> Report:
    """Where a package or a lot comes from, and what shares its past.

    Text names each package once; JSON and CSV name it in every group it belongs to.
    """
    blocks: list[Block] = [Fields((*_what(page), *_packed(page.package)))]
    for drying in page.dryings:
        blocks.extend(_drying_blocks(drying, units))
    blocks.append(Table("trays", _untitled(_TRAYS), _tray_rows(page.dryings, units)))
    blocks.append(Data("dryings", [_drying_data(one) for one in page.dryings]))
    blocks.append(_group_table(page.groups))
    for group, fresh in page.listed_once():
        blocks.append(Table("packages", _MEMBERS, _member_rows(group, fresh), _heading(group)))
        blocks.append(Prose("", _not_named(group, fresh)))
    members = _all_members(page)
    blocks.append(Table("packages", _untitled(_MEMBERS), members))
    blocks.append(_meal_table(page.meals))
    blocks.extend(caution_blocks(page.cautions))
    title = f"Trace of {page.code} · {page.lot.food}"
    return document(title, blocks, Table("packages", _MEMBERS, members))


def _what(page: TracePage) -> tuple[Field, ...]:
    """What is traced, and where it stands."""
    package, queued = page.package, page.queued
    waits = None
    if queued is not None:
        waits = f"for the machine since {queued.since.isoformat()}, {queued.state}"
    return (
        Field("code", TEXT, page.code, "code"),
        Field("food", TEXT, page.lot.food, "food"),
        Field("lot", TEXT, page.lot.code, "lot"),
        Field("made_on", DAY, page.lot.made_on, "made on"),
        Field("condition", TEXT, package and package.condition, "condition"),
        Field("place", TEXT, package and _stands(package), "place"),
        Field("waits", TEXT, waits, "waits"),
        Field("sources", WORDS, _codes(page.sources), "food out of"),
        Field("successors", WORDS, _codes(page.successors), "went into"),
    )


def _stands(package: Package) -> str | None:
    """Where it stands; None for one that is gone, which stands nowhere."""
    return (package.place or "in no place yet") if package.condition in LIVE else None


def _codes(packages: Iterable[Package]) -> tuple[str, ...]:
    return tuple(one.code for one in packages)


def _packed(package: Package | None) -> tuple[Field, ...]:
    """How it was closed, and out of which packet and box; nothing for a lot."""
    if package is None:
        return ()
    with_packet = package.absorber_cc > 0
    vacuum = package.vacuum_tenth_inhg
    return (
        Field("sealed_on", DAY, package.sealed_on, "sealed on"),
        Field("origin", TEXT, package.origin),
        Field("tray", COUNT, package.tray_position, "from tray"),
        Field("container", TEXT, package.container, "container"),
        Field("container_box", TEXT, package.container_box or None, "its box",
              missing=NOT_RECORDED),
        Field("absorber", ABSORBER, package.absorber_cc, "absorber"),
        Field("absorber_packet", TEXT, package.absorber_packet or None, "its packet",
              missing=NOT_RECORDED if with_packet else ""),
        Field("vacuum", FLAG, package.vacuum, "vacuum",
              f", {vacuum / 10:.1f} inHg" if vacuum else ""),
        Field("gate_reason", TEXT, package.gate_reason or None),
        Field("", TEXT, override_words(package.gate_reason) if package.gate_reason else None,
              "although"),
    )  # fmt: skip


def _drying_blocks(drying: Drying, units: UnitSystem) -> tuple[Block, ...]:
    """One drying in text: the run, what showed dryness, the trays."""
    run = drying.run
    title = "Dried again in" if drying.again else "Dried in"
    extra = [f"{one.hours_tenths / 10:g} h on {one.on_day.isoformat()}" for one in drying.extra]
    return (
        Fields(
            (
                Field("", DAY, run.started_on, "started on"),
                Field("", DAY, run.closed_on, f"{run.state} on"),
                Field("", TEXT, run.note or None, "note"),
                Field("", WORDS, extra or None, "extra hours"),
                Field("", TEXT, drying.gate.words, "dryness"),
            ),
            f"{title} run {run.run_id}",
        ),
        Table("trays", _TRAYS, _tray_rows((drying,), units)),
    )


_TRAYS = (
    Column("run", COUNT),
    Column("again", FLAG),
    Column("tray", COUNT, "tray"),
    Column("food", title="food", least=10),
    Column("own", FLAG, "of it"),
    Column("wet", WEIGHT, "as loaded", drop=2),
    Column("dry", WEIGHT, "dry"),
    Column("", title="weighed dry", least=10, drop=3),
    Column("cold", title="cold touch"),
    Column("broken", title="break test", drop=1),
)


def _tray_rows(dryings: Iterable[Drying], units: UnitSystem) -> tuple[Row, ...]:
    return tuple(_tray_row(one, tray, units) for one in dryings for tray in one.trays)


def _tray_row(drying: Drying, dried: DriedTray, units: UnitSystem) -> Row:
    """One tray under `_TRAYS`."""
    tray = dried.tray
    weighed = ", ".join(show_weight(one.net_dg, units) for one in dried.weighings)
    return (
        drying.run.run_id, drying.again, tray.position, tray.food, dried.own,
        tray.wet_dg, tray.dry_dg, weighed, dried.cold or None, dried.broken or None,
    )  # fmt: skip


def _drying_data(drying: Drying) -> Json:
    """One drying for JSON: its run, its extra hours and what showed dryness."""
    run = drying.run
    return {
        "run": run.run_id,
        "again": drying.again,
        "started_on": run.started_on.isoformat(),
        "closed_on": run.closed_on.isoformat() if run.closed_on else None,
        "note": run.note,
        "extra_hours": [one.hours_tenths / 10 for one in drying.extra],
        "dryness_shown": drying.gate.open,
        "dryness": drying.gate.words,
        "missing": [one.words for one in drying.gate.missing],
    }


# Forward

_GROUPS = (
    Column("kind"),
    Column("name"),
    Column("", title="what shares it", least=14),
    Column("packages", COUNT, "packages"),
    Column("live", COUNT, "still there"),
    Column("recallable", COUNT, "to recall"),
    Column("", title="conditions", least=16, drop=1),
    *(Column(one.value, COUNT) for one in Condition),
)


def _group_table(groups: Sequence[Group]) -> Table:
    """How many packages share each thing, and how they stand."""
    rows = tuple(_group_row(group) for group in groups)
    return Table("groups", _GROUPS, rows, "What shares its past")


def _group_row(group: Group) -> Row:
    counts = dict(group.conditions)
    said = ", ".join(f"{count} {condition}" for condition, count in group.conditions)
    return (
        group.kind.value, group.name, group.words, group.packages, group.live, group.recallable,
        said, *(counts.get(one, 0) for one in Condition),
    )  # fmt: skip


_MEMBERS = (
    Column("kind"),
    Column("group"),
    Column("code", title="code"),
    Column("food", title="food", least=10),
    Column("condition", title="condition"),
    Column("place", title="place", least=16),
    Column("sealed_on", DAY, "sealed on", drop=1),
    Column("gone_on", DAY),
    Column("lot"),
)


def _member_rows(group: Group, packages: Iterable[Package]) -> tuple[Row, ...]:
    return tuple(
        (group.kind.value, group.name, one.code, one.food, one.condition, _stands(one),
         one.sealed_on, one.gone_on, one.lot_code)
        for one in packages
    )  # fmt: skip


def _all_members(page: TracePage) -> tuple[Row, ...]:
    """Every listed package of every group."""
    return tuple(row for group in page.groups for row in _member_rows(group, group.listed))


def _heading(group: Group) -> str:
    """The group and how many there are of it."""
    words = group.words
    return f"{words[:1].upper()}{words[1:]}: {counted(group.packages, 'package')}"


def _not_named(group: Group, fresh: Sequence[Package]) -> tuple[str, ...]:
    """How many of the group are named above, or not at all."""
    said: list[str] = []
    above = len(group.listed) - len(fresh)
    more = group.packages - len(group.listed)
    if above and not fresh and not more:
        return (f"{_heading(group)}, all named above.",)
    if above:
        said.append(f"{counted(above, 'other')} of them named above.")
    if more:
        said.append(f"And {more:,} more, not named here.")
    return tuple(said)


def _untitled(columns: Sequence[Column]) -> tuple[Column, ...]:
    """The columns for JSON alone."""
    return tuple(Column(one.key, one.kind) for one in columns)


_MEALS = (
    Column("on_day", DAY, "day"),
    Column("meal", title="meal", least=10),
    Column("packages", COUNT, "packages"),
    Column("dry", WEIGHT, "dry"),
)


def _meal_table(meals: Sequence[MealMade]) -> Table:
    """What was cooked with food of the lot."""
    rows = tuple((one.on_day, one.name, one.packages, one.dry_dg) for one in meals)
    return Table("meals", _MEALS, rows, "Meals cooked with food of its lot")


# Recall

_FETCH = (
    Column("place", title="place", least=24),
    Column("code", title="code"),
    Column("food", title="food", least=16),
    Column("container", title="container", least=10, drop=1),
    Column("condition", title="condition"),
)


def recalled_report(done: Done, packages: Sequence[Package]) -> Report:
    """What was called back, and the packages in the order to fetch them."""
    rows = tuple(
        (_stands(one), one.code, one.food, one.container, one.condition) for one in packages
    )
    fetch = Table("packages", _FETCH, rows, "Fetch these, place by place")
    return document(
        "",
        (
            Prose("", (sentence(done.words),)),
            Fields((Field("done", TEXT, done.words), Field("codes", WORDS, done.codes))),
            fetch,
            Data("cautions", caution_data(done.cautions)),
        ),
        fetch,
    )


# In common

_SHARE = Kind(lambda value, _: f"{value:.4f}", lambda value: f"{value:.4f}", float)
_COMMON = (
    Column("ground"),
    Column("name"),
    Column("", title="in common", least=18),
    Column("", title="soft"),
    Column("", title="between", drop=1),
    Column("", title="elsewhere", drop=2),
    Column("telling", title="it is"),
    Column("soft", COUNT),
    Column("looked_at", COUNT),
    Column("low", _SHARE),
    Column("high", _SHARE),
    Column("soft_elsewhere", COUNT),
    Column("looked_at_elsewhere", COUNT),
    Column("low_elsewhere", _SHARE),
    Column("high_elsewhere", _SHARE),
    Column("soft_lots", WORDS),
    Column("sentence"),
)
NOTHING_LOOKED_AT = "No package was ever looked at, so there is nothing to compare."


def common_report(page: CommonPage) -> Report:
    """What soft packages have in common, what stands out first."""
    overall = page.overall
    rows = tuple(_common_row(one) for one in page.groups)
    table = Table("groups", _COMMON, rows, "What stands out first")
    blocks = (
        Fields(
            (
                Field("food", TEXT, page.food or None, "only"),
                Field("since", DAY, page.since, "looked at since"),
                Field("looked_at", COUNT, overall.looked_at, "looked at", " packages"),
                Field("soft", COUNT, overall.soft, "soft", " of them"),
                Field("", TEXT, _between(overall) or None, "that is"),
                Field("low", _SHARE, overall.low),
                Field("high", _SHARE, overall.high),
                Field("compared", COUNT, page.compared),
            )
        ),
        Prose("", () if overall.looked_at else (NOTHING_LOOKED_AT,)),
        table,
        Prose("", _left_out(page)),
        Prose("notes", page.notes, "Bear in mind", "- "),
        Prose("", (f"{EXACT_INTERVAL.words}.", f"{TOO_FEW.words}.")),
    )
    return document("What soft packages have in common", blocks, table)


def _between(share: Proportion) -> str:
    """The interval; "" where nothing was looked at."""
    if not share.looked_at:
        return ""
    return f"{percent_words(share.low)} to {percent_words(share.high)}"


def _common_row(one: Common) -> Row:
    """One group under `_COMMON`."""
    here, there = one.here, one.elsewhere
    return (
        one.ground.value, one.name, one.words,
        f"{here.soft} of {here.looked_at}", _between(here), f"{there.soft} of {there.looked_at}",
        one.telling.value, here.soft, here.looked_at, here.low, here.high,
        there.soft, there.looked_at, there.low, there.high, one.soft_lots, one.sentence,
    )  # fmt: skip


def _left_out(page: CommonPage) -> tuple[str, ...]:
    """How many groups say nothing."""
    if not page.left_out:
        return ()
    more = counted(page.left_out, "more group")
    return (f"{more} without a soft package {'is' if page.left_out == 1 else 'are'} not listed.",)
