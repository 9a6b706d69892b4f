"""A sample of a lot or a place: what to look at, what was seen, what is believed of the others."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.belief_working import CAUTIONS as BELIEF_CAUTIONS
from stockroom.domain.chances import exact_percent
from stockroom.domain.looking import how_to_look
from stockroom.domain.records import Package
from stockroom.domain.sample_page import SamplePage
from stockroom.domain.sampling_working import CAUTIONS as SAMPLE_CAUTIONS
from stockroom.reports.values import (
    COUNT,
    TEXT,
    Block,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    decimal_kind,
    document,
)

_SHARE = decimal_kind(4)
_PLAIN = decimal_kind(2)


def sample_report(page: SamplePage, *, everything: bool = False) -> Report:
    """What to look at, which ones, and what the looks so far say; `everything` lists them all."""
    listed = page.packages if everything else page.picks
    title = "All of them, in walking order" if everything else "Picked at random, in walking order"
    blocks: list[Block] = [Fields(_asked(page)), _list(page, listed, title), *_ways(listed)]
    blocks.append(Fields(_seen(page)))
    doubts = (page.taken_as_sure,) if page.taken_as_sure else ()
    blocks.append(Prose("", (*doubts, *SAMPLE_CAUTIONS, *BELIEF_CAUTIONS), "Bear in mind", "- "))
    return document(f"Sample of {page.name}", blocks)


def _asked(page: SamplePage) -> tuple[Field, ...]:
    sample = page.sample
    return (
        Field("name", TEXT, page.name, "of"),
        Field("food", TEXT, page.food, "food"),
        Field("lot", COUNT, sample.lot, "sealed", " packages"),
        Field("at_most", COUNT, sample.at_most, "soft at most", " of them"),
        Field("", TEXT, exact_percent(sample.confidence), "confidence"),
        Field("confidence", _SHARE, sample.confidence),
        Field("", TEXT, exact_percent(sample.sensitivity), "a look finds", " of the soft ones"),
        Field("sensitivity", _SHARE, sample.sensitivity),
        Field("inspect", COUNT, sample.inspect, "look at", missing="impossible"),
        Field("detection_probability", _SHARE, sample.detection_probability),
        Field("sentence", TEXT, sample.sentence, "that is"),
    )


def _list(page: SamplePage, listed: Sequence[Package], title: str) -> Table:
    """The packages to look at, in walking order; a lot's food is named once, above."""
    return Table(
        "picks",
        (
            Column("code", title="code"),
            Column("", title="looked at"),
            Column("place", title="place"),
            Column("food", title="" if page.food else "food"),
            Column("container", title="container"),
            Column("condition", title="condition"),
            Column("found"),
        ),
        tuple(_pick(page, one) for one in listed),
        title,
    )


def _pick(page: SamplePage, one: Package) -> tuple[object, ...]:
    found = page.found.get(one.code)
    opened = ", opened" if found and one.opened_on is not None else ""
    said = f"{found}{opened}" if found else "to look at"
    return (one.code, said, one.place, one.food, one.container, one.condition, found)


def _ways(listed: Sequence[Package]) -> tuple[Block, ...]:
    """How to look at each kind of container among them."""
    kinds = dict.fromkeys((one.package_kind, one.container_key) for one in listed)
    lines = tuple(dict.fromkeys(how_to_look(kind, key) for kind, key in kinds))
    return (Prose("how_to_look", lines, "How to look", "- "),)


def _seen(page: SamplePage) -> tuple[Field, ...]:
    """What was seen, what it says for sure, and what is believed."""
    left = page.left
    said = page.by_now.sentence if page.by_now else ""
    return (
        Field("checked", COUNT, page.checked, "looked at", " so far"),
        Field("soft", COUNT, page.soft, "soft", " of them"),
        Field("most_soft", COUNT, page.by_now.most if page.by_now else None),
        Field("by_now", TEXT, said, "so far"),
        Field("conclusion", TEXT, page.conclusion, "conclusion"),
        Field("remaining", COUNT, left.remaining, "not looked at"),
        Field("expected_soft_in_remaining", _PLAIN, left.expected),
        Field("p_none_soft_in_remaining", _SHARE, left.none_soft),
        Field("belief", TEXT, left.sentence, "belief"),
    )
