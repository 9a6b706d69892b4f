"""The household's people on paper: what each needs in a day, the total, what to keep from whom."""

from __future__ import annotations

from collections.abc import Iterable

from stockroom.domain.cautions import Caution
from stockroom.domain.energy_remarks import FOR_WHOM
from stockroom.domain.household_need import (
    AVERAGE_ADULT,
    AVERAGE_KCAL,
    AVERAGE_PROTEIN_G,
    PLANNING_ONLY,
    EatersAvoid,
    HouseholdNeed,
    MemberNeed,
)
from stockroom.domain.member_sizes import show_member_height, show_member_weight
from stockroom.domain.working import Source
from stockroom.reports.parts import caution_blocks
from stockroom.reports.values import (
    COUNT,
    DAY,
    WORDS,
    Block,
    Column,
    Data,
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

_WHOLE = decimal_kind(0)
_KCAL = Kind(_WHOLE.to_text, lambda value: f"{float(value):.1f}", float, right=True)
_GRAMS = Kind(_WHOLE.to_text, lambda value: f"{float(value):.1f}", float, "_g", "_g", right=True)
_BODY_WEIGHT = Kind(
    show_member_weight, lambda value: str(value / 10_000), lambda value: value, "_kg", "_dg",
    right=True,
)  # fmt: skip
_HEIGHT = Kind(
    show_member_height, lambda value: str(value / 10), lambda value: value, "_cm", "_mm",
    right=True,
)  # fmt: skip

NOBODY = "Nobody is listed yet: stockroom person add NAME --sex F --age 41 --activity active."

_COLUMNS = (
    Column("name", title="name", least=8),
    Column("age", COUNT, "age"),
    Column("sex"),
    Column("person", title="person", drop=4),
    Column("activity", title="activity", drop=5),
    Column("kcal_per_day", _KCAL, "kcal a day"),
    Column("protein", _GRAMS, "protein, g"),
    Column("figures", title="figures", drop=3),
    Column("edition"),
    Column("standing", title="standing", least=10, drop=6),
    Column("allergens", WORDS, "must not get", least=10, drop=1),
    Column("dislikes", WORDS, "would rather not", least=10, drop=2),
    Column("age_told_on", DAY),
    Column("body_weight", _BODY_WEIGHT),
    Column("height", _HEIGHT),
    Column("source"),
    Column("protein_source"),
)


def people_report(need: HouseholdNeed, avoid: EatersAvoid, cautions: Iterable[Caution]) -> Report:
    """Each person with their need, the total, what nobody should be served by mistake."""
    people = Table("members", _COLUMNS, tuple(map(_row, need.members)), empty=NOBODY)
    said = [one for one in (need.others_words, need.more_than_set) if one]
    said += [text for one in need.members for text in one.remarks]
    sources = tuple(f"{one.words}." for one in _sources(need))
    blocks: tuple[Block, ...] = (
        Fields((Field("today", DAY, need.on_day, "today"),)),
        people,
        _total(need),
        Prose("remarks", (*said, PLANNING_ONLY, FOR_WHOM)),
        *_avoided(avoid),
        *caution_blocks(cautions),
        Prose("sources", sources, "Sources", "- "),
    )
    return document("People", blocks, people)


def _row(one: MemberNeed) -> Row:
    """A person under `_COLUMNS`."""
    member, person = one.member, one.need.person
    return (
        member.name,
        one.age_years,
        member.sex.value,
        person.words,
        member.activity.words,
        one.kcal_per_day,
        one.protein_g,
        member.figures.words,
        member.figures.value,
        one.need.source.standing.words,
        tuple(allergen.words for allergen in member.allergens),
        tuple(disliked.food for disliked in member.dislikes),
        member.age_on,
        member.body_weight_dg,
        member.height_mm,
        one.need.source.citation,
        one.protein_source.citation,
    )


def _total(need: HouseholdNeed) -> Fields:
    """The need of all, and of those not listed."""
    people = "person" if need.counted == 1 else "people"
    others = need.others or None
    return Fields(
        (
            Field("people", COUNT, need.people),
            Field("listed", COUNT, len(need.members)),
            Field("counted", COUNT, need.counted, "in all", f" {people}"),
            Field("others", COUNT, need.others),
            Field("other_kcal_each", _WHOLE, others and AVERAGE_KCAL),
            Field("other_protein_g_each", _WHOLE, others and AVERAGE_PROTEIN_G),
            Field("kcal_per_day", _WHOLE, need.kcal_per_day, "energy", " kcal a day"),
            Field("protein_g", _WHOLE, need.protein_g, "protein", " g a day"),
        )
    )


def _avoided(avoid: EatersAvoid) -> tuple[Block, ...]:
    """What must not be served to whom, and what somebody would rather not eat."""
    must_not = tuple(f"{one.allergen.words}: {', '.join(one.who)}" for one in avoid.allergens)
    rather_not = tuple(f"{one.food}: {', '.join(one.who)}" for one in avoid.foods)
    return (
        Prose("", must_not, "Must not get", "- "),
        Data(
            "must_not_get",
            [{"allergen": one.allergen.value, "who": list(one.who)} for one in avoid.allergens],
        ),
        Prose("", rather_not, "Would rather not eat", "- "),
        Data(
            "would_rather_not",
            [{"food": one.food, "who": list(one.who)} for one in avoid.foods],
        ),
    )


def _sources(need: HouseholdNeed) -> tuple[Source, ...]:
    """Every source of the figures shown, each once."""
    found = [one.need.source for one in need.members]
    found += [one.protein_source for one in need.members]
    return tuple(dict.fromkeys([*found, *([AVERAGE_ADULT] if need.others else [])]))
