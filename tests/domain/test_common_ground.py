"""Counting what soft packages have in common: shares, order, names, and what is never claimed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.common_ground import (
    ALWAYS_SHOWN,
    Common,
    Ground,
    LookedAt,
    Telling,
    common_page,
    folded_name,
)

ONE = LookedAt(
    lot_code="26329A",
    container="pouch",
    packet="P7",
    box="blue",
    tray_position=1,
    place="cellar/rack 1/bin 2",
    run_id=1,
    closing="absorber",
    food_class="vegetable",
    soft=False,
)


def some(sound: int, soft: int, **changed: object) -> list[LookedAt]:
    """So many sound and so many soft packages, alike."""
    alike = replace(ONE, **changed)  # type: ignore[arg-type]
    return [alike] * sound + [replace(alike, soft=True)] * soft


def groups(looked_at: Sequence[LookedAt], ground: Ground) -> dict[str, Common]:
    """The listed groups of a ground by name."""
    page = common_page(looked_at, food="", since=None)
    return {one.name: one for one in page.groups if one.ground is ground}


@pytest.mark.parametrize(
    ("here", "elsewhere", "telling"),
    [
        ((0, 6), (20, 0), Telling.MORE),
        ((6, 0), (0, 20), Telling.LESS),
        ((10, 2), (20, 4), Telling.SAME),
        ((3, 3), (20, 0), Telling.SAME),
        ((0, 5), (200, 0), Telling.TOO_FEW),
        ((20, 6), (5, 0), Telling.TOO_FEW),
        ((20, 6), (0, 0), Telling.NOTHING),
    ],
)
def test_a_group_stands_apart_only_when_the_ranges_do_not_touch(
    here: tuple[int, int], elsewhere: tuple[int, int], telling: Telling
) -> None:
    found = groups([*some(*here), *some(*elsewhere, run_id=2)], Ground.RUN)["1"]
    assert found.telling is telling
    apart = found.here.low > found.elsewhere.high or found.here.high < found.elsewhere.low
    assert (telling in (Telling.MORE, Telling.LESS)) is (
        apart and telling not in (Telling.TOO_FEW, Telling.NOTHING)
    )
    assert ("proof" in found.sentence) is (telling in (Telling.MORE, Telling.LESS))
    assert ("too few to tell" in found.sentence) is (telling is Telling.TOO_FEW)


def test_what_stands_out_comes_first_and_too_few_last() -> None:
    page = common_page(
        [
            *some(0, 9, run_id=1, place="a"),
            *some(9, 3, run_id=2, place="b"),
            *some(60, 0, run_id=3, place="c"),
            *some(0, 3, run_id=4, place="d"),
        ],
        food="",
        since=None,
    )
    runs = [(one.name, one.telling) for one in page.groups if one.ground is Ground.RUN]
    assert runs == [
        ("1", Telling.MORE),
        ("3", Telling.LESS),
        ("2", Telling.SAME),
        ("4", Telling.TOO_FEW),
    ]
    assert page.groups[0].telling is Telling.MORE
    assert page.groups[-1].telling is Telling.TOO_FEW


def test_a_wide_share_of_few_does_not_pass_a_sure_one_of_many() -> None:
    """Both stand apart; 7 of 7 is a higher count, 60 of 70 is surer."""
    found = groups(
        [*some(0, 7, run_id=1), *some(10, 60, run_id=2), *some(900, 0, run_id=3)], Ground.RUN
    )
    assert list(found) == ["2", "1", "3"]


def test_case_and_space_make_no_other_packet() -> None:
    looked_at = [
        *some(3, 1, packet="Packet  7"),
        *some(3, 1, packet=" packet 7 "),
        *some(3, 1, packet="PACKET 7"),
        *some(9, 0, packet=""),
    ]
    found = groups(looked_at, Ground.PACKET)
    assert {name: one.here.looked_at for name, one in found.items()} == {"Packet 7": 12}
    assert found["Packet 7"].here.soft == 3
    assert folded_name(" Packet  7") == folded_name("packet 7")


def test_what_is_not_on_record_makes_no_group() -> None:
    bare = some(9, 3, packet=" ", box="", tray_position=None, place="")
    page = common_page(bare, food="", since=None)
    assert {one.ground for one in page.groups} == {
        Ground.CONTAINER,
        Ground.RUN,
        Ground.CLOSING,
        Ground.FOOD_CLASS,
    }


def test_a_place_holds_what_is_in_the_places_below() -> None:
    looked_at = [
        *some(6, 1, place="cellar/rack 1/bin 1"),
        *some(6, 2, place="cellar/rack 1/bin 2"),
        *some(6, 0, place="cellar"),
        *some(6, 0, place="cellar2/rack 1"),
    ]
    counts = {
        name: (one.here.soft, one.here.looked_at)
        for name, one in groups(looked_at, Ground.PLACE).items()
    }
    assert counts == {
        "cellar": (3, 21),
        "cellar/rack 1": (3, 15),
        "cellar/rack 1/bin 1": (1, 7),
        "cellar/rack 1/bin 2": (2, 8),
    }


def test_one_lot_behind_all_soft_ones_is_named() -> None:
    (one,) = groups([*some(6, 3), *some(20, 0, run_id=2, lot_code="B")], Ground.RUN).values()
    assert one.soft_lots == ("26329A",) and "of lot 26329A" in one.sentence
    two = groups([*some(6, 2), *some(6, 2, lot_code="26330B")], Ground.RUN)["1"]
    assert two.soft_lots == ("26329A", "26330B") and "of lot" not in two.sentence


def test_groups_of_few_kinds_are_shown_without_a_soft_package() -> None:
    """A jar that never went soft says something; a run without a soft package is one of many."""
    looked_at = [
        *some(20, 4, run_id=1),
        *some(8, 0, run_id=2, container="jar", packet="P9", place="loft"),
    ]
    page = common_page(looked_at, food="", since=None)
    quiet = {one.ground for one in page.groups if one.here.soft == 0}
    assert quiet == {Ground.CONTAINER} and Ground.CONTAINER in ALWAYS_SHOWN
    assert page.left_out == 3


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.builds(
            LookedAt,
            lot_code=st.sampled_from(("A", "B", "C")),
            container=st.sampled_from(("pouch", "jar")),
            packet=st.sampled_from(("", "P1", "p1 ")),
            box=st.sampled_from(("", "blue")),
            tray_position=st.sampled_from((None, 1, 2)),
            place=st.sampled_from(("", "a", "a/b", "a/b/c", "d")),
            run_id=st.integers(1, 3),
            closing=st.sampled_from(("absorber", "vacuum")),
            food_class=st.sampled_from(("fruit", "lean_meat")),
            soft=st.booleans(),
        ),
        max_size=40,
    )
)
def test_each_group_and_all_the_others_are_all_that_were_looked_at(
    looked_at: list[LookedAt],
) -> None:
    page = common_page(looked_at, food="", since=None)
    soft = sum(one.soft for one in looked_at)
    assert (page.overall.soft, page.overall.looked_at) == (soft, len(looked_at))
    assert page.left_out >= 0
    for one in page.groups:
        assert one.here.soft + one.elsewhere.soft == soft
        assert one.here.looked_at + one.elsewhere.looked_at == len(looked_at)
        assert one.here.low <= one.here.soft / one.here.looked_at <= one.here.high
        assert bool(one.soft_lots) is (one.here.soft > 0)
        if one.telling is Telling.MORE:
            assert one.here.low > one.elsewhere.high
        if one.here.looked_at < 6 or one.elsewhere.looked_at < 6:
            assert one.telling in (Telling.TOO_FEW, Telling.NOTHING)
    assert len({(one.ground, one.name) for one in page.groups}) == len(page.groups)
