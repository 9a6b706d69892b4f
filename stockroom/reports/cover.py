"""For how long the store would feed the household, on paper; and how it eats, with its targets."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor

from stockroom.domain.energy_remarks import FOR_WHOM
from stockroom.domain.horizon.dry_next import Gap
from stockroom.domain.horizon.household_eating import RECORD_READ
from stockroom.domain.horizon.pages import CoverPage, SetRate, StoreTarget
from stockroom.domain.horizon.provision import POWER_OUT_CAUTION, Provision
from stockroom.domain.household_need import PLANNING_ONLY
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.planning_water import MORE_FOR, WATER_SOURCES, WaterStore
from stockroom.domain.quantities import show_servings
from stockroom.reports.horizon import a_week, apart_block
from stockroom.reports.parts import spoken
from stockroom.reports.values import (
    COUNT,
    DAY,
    FLAG,
    SERVINGS,
    Block,
    Column,
    Field,
    Fields,
    Kind,
    Prose,
    Report,
    Row,
    Table,
    decimal_kind,
    document,
)

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_WHOLE = decimal_kind(0)
_TENTH = decimal_kind(1)
_RATE = decimal_kind(2)
_KCAL = Kind(_WHOLE.to_text, lambda value: f"{float(value):.1f}", float, right=True)
_GRAMS = Kind(_WHOLE.to_text, lambda value: f"{float(value):.1f}", float, "_g", "_g", right=True)
_LITRES = Kind(
    lambda value, _: f"{float(value) / 1000:.1f} L", lambda value: f"{float(value):.0f}", float,
    "_ml", "_ml", right=True,
)  # fmt: skip

_GROUPS = (
    Column("group"),
    Column("", title="group", least=10),
    Column("packages", COUNT, "packages", drop=2),
    Column("servings", SERVINGS, "servings"),
    Column("kcal", _KCAL, "kcal"),
    Column("protein", _GRAMS, "protein, g"),
    Column("person_days", _TENTH, "person-days", drop=1),
)
_GAPS = (
    Column("group"),
    Column("", title="group", least=10),
    Column("target", SERVINGS, "wanted"),
    Column("target_set", FLAG),
    Column("have", SERVINGS, "there"),
    Column("missing", SERVINGS, "missing"),
    Column("months", title="dried before in", least=12),
    Column("months_away", COUNT, "months away", drop=2),
    Column("foods", title="such as", least=14, drop=1),
)
_OMITTED = (
    Column("words", title="left out"),
    Column("packages", COUNT, "packages"),
    Column("servings", SERVINGS, "servings"),
)
_RATES = (
    Column("food", title="food", least=14),
    Column("per_day_exact"),
    Column("per_week", _RATE, "a week"),
    Column("basis"),
    Column("", title="known from"),
    Column("record_days", COUNT, "days on record", drop=1),
    Column("record_servings", SERVINGS, "eaten in them", drop=2),
)
_TARGETS = (
    Column("group"),
    Column("", title="group", least=10),
    Column("servings", SERVINGS, "servings wanted"),
    Column("was_set", FLAG),
    Column("", title="from"),
)


def cover_report(page: CoverPage) -> Report:
    """Person-days, groups, water, the target, and what to dry next."""
    found = page.provision
    groups = Table(
        "groups", _GROUPS, tuple(_group_rows(found)), "By food group",
        empty="There is nothing to eat in time on the shelves.",
    )  # fmt: skip
    omitted = tuple((one.why.value, one.packages, one.servings) for one in found.omitted)
    blocks: tuple[Block, ...] = (
        Prose("sentence", (cover_sentence(page),)),
        _days(page),
        groups,
        *_waters(page),
        Table("omitted", _OMITTED, omitted),
        apart_block(page.apart),
        Prose("unknown", _unknown(found)),
        Table(
            "dry_next", _GAPS, tuple(_gap_row(page, one) for one in page.gaps), "What to dry next"
        ),
        Prose("cautions", _cautions(page), "Bear in mind", "- "),
        Prose("sources", tuple(f"{one.words}." for one in WATER_SOURCES), "Sources", "- "),
    )
    return document("Cover", blocks, groups)


def cover_sentence(page: CoverPage) -> str:
    """For how many days the store lasts, against the target."""
    found = page.provision
    who = f"{found.needs.people} {'person' if found.needs.people == 1 else 'people'}"
    out = " with the power out" if page.power_out else ""
    by_energy = float(found.days_by_energy)
    met = "the target is met" if found.target_met else "short of the target"
    return (
        f"What may be eaten would feed {who} for {by_energy:.1f} days{out} by its energy; {met} of"
        f" {page.target.days} days."
    )


def rates_report(rates: Iterable[SetRate]) -> Report:
    """How each food is eaten, and where that is known from."""
    rows = tuple(_rate_row(one) for one in rates)
    table = Table("rates", _RATES, rows, empty="There is no food yet.")
    return document("", (table, Prose("", (f"{RECORD_READ.words}.",))), table)


def targets_report(target: StoreTarget) -> Report:
    """The target of the store and of each group."""
    rows = tuple(
        (
            one.group.value,
            spoken(one.group.value),
            one.servings,
            one.was_set,
            "as set" if one.was_set else f"eaten in {target.days} days",
        )
        for one in target.groups
    )
    table = Table("groups", _TARGETS, rows)
    said = "" if target.was_set else ", the usual one: nobody set another"
    fields = Fields(
        (
            Field("target_days", COUNT, target.days, "to last", f" days{said}"),
            Field("was_set", FLAG, target.was_set),
        )
    )
    return document("", (fields, table), table)


def _days(page: CoverPage) -> Fields:
    """Days and person-days by energy and protein, against need and target."""
    found = page.provision
    unset = " (asked for this once)" if page.target.asked else " (the usual one: none is set)"
    said = "" if page.target.was_set else unset
    missing_kcal = found.missing_kcal or None
    missing_protein = found.missing_protein_g or None
    return Fields(
        (
            Field("today", DAY, page.today),
            Field("people", COUNT, found.needs.people, "people"),
            Field("kcal_per_day", _WHOLE, found.needs.kcal_per_day, "need", " kcal a day"),
            Field("protein_g_per_day", _WHOLE, found.needs.protein_g_per_day, "and", " g protein"),
            Field("kcal", _WHOLE, found.kcal, "there is", " kcal"),
            Field("protein_g", _WHOLE, found.protein_g, "and", " g protein"),
            Field("days_by_energy", _TENTH, found.days_by_energy, "days by energy"),
            Field("days_by_protein", _TENTH, found.days_by_protein, "days by protein"),
            Field("person_days_by_energy", _TENTH, found.person_days_by_energy,
                  "person-days", " by energy"),
            Field("person_days_by_protein", _TENTH, found.person_days_by_protein),
            Field("target_days", COUNT, page.target.days, "target", f" days{said}"),
            Field("target_set", FLAG, page.target.was_set),
            Field("target_met", FLAG, found.target_met, "target met"),
            Field("missing_kcal", _WHOLE, missing_kcal, "missing", " kcal"),
            Field("missing_protein_g", _WHOLE, missing_protein, "missing", " g protein"),
            Field("power_out", FLAG, page.power_out),
            Field("raw_too", FLAG, page.raw_too),
        )
    )  # fmt: skip


def _group_rows(found: Provision) -> Iterable[Row]:
    """Each group under `_GROUPS`; a person-day is one of an average member."""
    each = found.needs.kcal_per_day / found.needs.people
    for one in found.groups:
        name = one.group.value
        yield (
            name, spoken(name), one.packages, one.servings, one.kcal, one.protein_g,
            one.kcal / each,
        )  # fmt: skip


def _waters(page: CoverPage) -> tuple[Block, ...]:
    """Water for the target's days, and for as long as the food lasts."""
    found = page.provision
    lasts = floor(found.days_by_energy)
    return (
        Fields(
            (
                Field("rehydrate_all", _LITRES, found.rehydration_ml, "to rehydrate all of it"),
                *_water("target", found.water_for(page.target.days)),
                *_water("all", found.water_for(lasts)),
            ),
            "Water",
        ),
        Prose("", (MORE_FOR,)),
    )


def _water(key: str, water: WaterStore) -> tuple[Field, ...]:
    """Water for one stretch of days."""
    days = f"for {water.days} {'day' if water.days == 1 else 'days'}"
    drink = f"{float(water.drunk_ml) / 1000:.1f} L of it to drink at least"
    dried = f"{float(water.rehydration_ml) / 1000:.1f} L for dried food"
    return (
        Field(f"{key}_days", COUNT, water.days),
        Field(f"{key}_total", _LITRES, water.total_ml, days, f": {drink}, {dried}"),
        Field(f"{key}_stored", _LITRES, water.stored_ml),
        Field(f"{key}_drunk", _LITRES, water.drunk_ml),
        Field(f"{key}_rehydration", _LITRES, water.rehydration_ml),
    )


def _unknown(found: Provision) -> tuple[str, ...]:
    """What counts as food but not in the figures."""
    said: list[str] = []
    if found.unknown_kcal_servings:
        count = show_servings(found.unknown_kcal_servings)
        said.append(f"{count} servings have no energy on record and are left out of it.")
    if found.unknown_protein_servings:
        count = show_servings(found.unknown_protein_servings)
        said.append(f"{count} servings have no protein on record and are left out of it.")
    return tuple(said)


def _gap_row(page: CoverPage, one: Gap) -> Row:
    """A group under `_GAPS`."""
    name = one.target.group.value
    was_set = any(each.was_set for each in page.target.groups if each.group is one.target.group)
    months = ", ".join(_MONTHS[month - 1] for month in one.usual_months)
    foods = ", ".join(food.food for food in one.foods[:2])
    return (
        name, spoken(name), one.target.servings, was_set, one.have, one.missing,
        months or "never dried", one.months_away(page.today), foods,
    )  # fmt: skip


def _cautions(page: CoverPage) -> tuple[str, ...]:
    """What to bear in mind, the gravest first."""
    found = [POWER_OUT_CAUTION] if page.power_out else []
    found += [
        f"A best-by is a {QUALITY_NOT_SAFETY}: what shows signs of spoilage is not eaten, whatever"
        " its date; follow local codes and licensed guidance.",
        "Raw food has to be cooked after water is added; without heat it is no food to eat.",
        PLANNING_ONLY,
        FOR_WHOM,
    ]
    others = page.need.others_words
    return (*found, others) if others else tuple(found)


def _rate_row(one: SetRate) -> Row:
    """A food under `_RATES`."""
    how = one.how
    record = how.record
    return (
        one.food.name,
        None if how.servings_per_day is None else str(how.servings_per_day),
        a_week(how.servings_per_day),
        how.basis.value,
        how.basis.words,
        None if record is None else record.days,
        None if record is None else record.servings,
    )
