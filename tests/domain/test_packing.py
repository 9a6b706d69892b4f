"""Dealing a lot out: everything adds up to the tenth of a gram, in any order."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.packing import (
    EmptyPackage,
    LotBalance,
    ServingMissing,
    Share,
    SplitRequest,
    TooMuchPacked,
    TooMuchTaken,
    part_water,
    read_split,
    servings_in,
    shares,
)
from stockroom.domain.quantities import even_split
from stockroom.errors import BadInput

# B1a and B4: 1000 g loaded, 155 g dry (computed).
LOT = LotBalance("26329A", wet_dg=10_000, dry_dg=1_550, packed_dg=0, lost_dg=0)


def test_b4_a_jar_of_62_grams() -> None:
    assert shares(LOT, (620,)) == (Share(620, 3380),)


def test_balance_before_and_after_packing() -> None:
    assert (LOT.water_dg, LOT.left_dg, LOT.left_water_dg) == (8450, 1550, 8450)
    later = replace(LOT, packed_dg=620, lost_dg=30)
    assert later.left_dg == 900
    assert (
        later.left_water_dg == 8450 - 3380 - shares(replace(LOT, packed_dg=620), (30,))[0].water_dg
    )
    done = replace(LOT, packed_dg=1500, lost_dg=50)
    assert (done.left_dg, done.left_water_dg) == (0, 0)


def test_a_lot_without_dry_food_has_nothing_left() -> None:
    nothing = LotBalance("26329A", 0, 0, 0, 0)
    assert (nothing.left_dg, nothing.left_water_dg) == (0, 0)
    with pytest.raises(TooMuchPacked):
        shares(nothing, (1,))


def test_an_over_packed_lot_has_no_water_left_rather_than_a_fault() -> None:
    over = replace(LOT, packed_dg=1600)
    assert (over.left_dg, over.left_water_dg) == (-50, 0)
    with pytest.raises(TooMuchPacked):
        shares(over, (1,))


@st.composite
def dealings(draw: st.DrawFn) -> tuple[LotBalance, list[tuple[bool, list[int]]]]:
    """A lot, and the steps that account for all of it: packings and losses, in some order."""
    pieces = draw(st.lists(st.integers(1, 3000), min_size=1, max_size=25))
    water_dg = draw(st.integers(0, 200_000))
    steps: list[tuple[bool, list[int]]] = []
    rest = list(pieces)
    while rest:
        if draw(st.booleans()):
            steps.append((True, [rest.pop()]))
        else:
            size = draw(st.integers(1, len(rest)))
            steps.append((False, rest[:size]))
            rest = rest[size:]
    dry_dg = sum(pieces)
    return LotBalance("26329A", dry_dg + water_dg, dry_dg, 0, 0), steps


@given(case=dealings())
def test_packages_and_losses_add_up_to_the_lot(
    case: tuple[LotBalance, list[tuple[bool, list[int]]]],
) -> None:
    lot, steps = case
    balance, dealt = lot, list[Share]()
    for is_loss, weights in steps:
        got = shares(balance, weights)
        dealt.extend(got)
        assert [share.dry_dg for share in got] == weights
        if is_loss:
            balance = replace(balance, lost_dg=balance.lost_dg + sum(weights))
        else:
            balance = replace(balance, packed_dg=balance.packed_dg + sum(weights))
        assert balance.left_water_dg == lot.water_dg - sum(share.water_dg for share in dealt)
    assert sum(share.dry_dg for share in dealt) == lot.dry_dg
    assert sum(share.water_dg for share in dealt) == lot.wet_dg - lot.dry_dg
    for share in dealt:
        exact = Fraction(share.dry_dg * lot.water_dg, lot.dry_dg)
        assert abs(share.water_dg - exact) <= 1


@given(dry_dg=st.integers(100, 50_000), water_dg=st.integers(0, 300_000), count=st.integers(1, 99))
def test_an_even_split_of_a_lot_uses_all_of_it(dry_dg: int, water_dg: int, count: int) -> None:
    lot = LotBalance("26329A", dry_dg + water_dg, dry_dg, 0, 0)
    got = shares(lot, even_split(lot.left_dg, count))
    assert sum(share.dry_dg for share in got) == dry_dg
    assert sum(share.water_dg for share in got) == water_dg


def test_too_much_and_nothing_are_refused() -> None:
    balance = replace(LOT, packed_dg=1000, lost_dg=50)
    assert len(shares(balance, (250, 250))) == 2
    with pytest.raises(TooMuchPacked) as caught:
        shares(balance, (250, 251))
    assert "26329A has 50.0 g" in caught.value.message
    assert "50.1 g was asked for" in caught.value.message
    for weights in ((0,), (100, 0), (-1,)):
        with pytest.raises(EmptyPackage):
            shares(balance, weights)
    assert shares(balance, ()) == ()


def test_servings() -> None:
    assert servings_in(620, 3380, 2000) == 2
    assert servings_in(620, 3380, 2400) == Fraction(5, 3)
    assert servings_in(0, 0, 1) == 0
    for serving_dg in (0, -1):
        with pytest.raises(ServingMissing):
            servings_in(620, 3380, serving_dg)


@given(
    takes=st.lists(st.integers(0, 400), min_size=1, max_size=20), water_dg=st.integers(0, 20_000)
)
def test_parts_drawn_use_exactly_the_package_water(takes: list[int], water_dg: int) -> None:
    dry_dg = sum(takes)
    taken_dg, given_dg = 0, 0
    for take_dg in takes:
        water = part_water(dry_dg, water_dg, taken_dg, take_dg)
        taken_dg += take_dg
        given_dg += water
        assert (
            abs(given_dg - Fraction(water_dg * taken_dg, dry_dg or 1)) <= Fraction(1, 2)
            or not dry_dg
        )
    assert given_dg == (water_dg if dry_dg else 0)


def test_a_part_larger_than_what_is_left_is_refused() -> None:
    assert part_water(620, 3380, 0, 310) == 1690
    assert part_water(620, 3380, 310, 310) == 1690
    assert part_water(0, 0, 0, 0) == 0
    with pytest.raises(TooMuchTaken) as caught:
        part_water(620, 3380, 310, 311)
    assert "31.0 g" in caught.value.message
    assert "31.1 g" in caught.value.message


@pytest.mark.parametrize(
    ("text", "request_"),
    [
        ("6xpouch-1500", SplitRequest(6, "pouch-1500", None, None, False)),
        ("6xpouch-1500:62", SplitRequest(6, "pouch-1500", 620, None, False)),
        ("6 x Pouch-1500 : 62.5 g", SplitRequest(6, "pouch-1500", 625, None, False)),
        ("6×pouch:2 oz", SplitRequest(6, "pouch", 567, None, False)),
        ("2xjar-950:150,absorber=100", SplitRequest(2, "jar-950", 1500, 100, False)),
        (
            "2Xjar-950:150, ABSORBER = 100 , vacuum",
            SplitRequest(2, "jar-950", 1500, 100, True),
        ),
        ("2xjar-950,vacuum,absorber=0", SplitRequest(2, "jar-950", None, 0, True)),
        ("1xpouch-1500:rest", SplitRequest(1, "pouch-1500", None, None, False)),
        ("1xpouch-1500: Rest ,vacuum", SplitRequest(1, "pouch-1500", None, None, True)),
        (
            "2xpouch:40,absorber=100,Packet=Oct 26  A,box=7,tray=3",
            SplitRequest(2, "pouch", 400, 100, False, None, "Oct 26 A", "7", 3),
        ),
        ("1xjar,box=Étagère", SplitRequest(1, "jar", None, None, False, None, "", "Étagère")),
        ("500xbox", SplitRequest(500, "box", None, None, False)),
        ("3x5x", SplitRequest(3, "5x", None, None, False)),
    ],
)
def test_split_requests_read(text: str, request_: SplitRequest) -> None:
    assert read_split(text) == request_


@pytest.mark.parametrize(
    "text",
    [
        "",
        "pouch",
        "6",
        "6x",
        "xpouch",
        "0xpouch",
        "501xpouch",
        "-1xpouch",
        "1.5xpouch",
        "٦xpouch",
        "6xpouch:",
        "6xpouch:0",
        "6xpouch:-5",
        "6xpouch:nan",
        "6xpouch:62,5",
        "6xpouch:62,absorber",
        "6xpouch:62,absorber=",
        "6xpouch:62,absorber=5001",
        "6xpouch:62,absorber=-1",
        "6xpouch:62,absorber=1,absorber=1",
        "6xpouch:62,vacuum,vacuum",
        "6xpouch:62,vacuum=yes",
        "6xpouch:62,vacuum=",
        "6xpouch:62,packet=October",
        "6xpouch:62,absorber=0,packet=October",
        "6xpouch:62,absorber=100,packet=",
        "6xpouch:62,absorber=100,packet=a,packet=b",
        "6xpouch:62,box=\x1b[31m",
        "6xpouch:62,box=" + "b" * 81,
        "6xpouch:62,tray=0",
        "6xpouch:62,tray=31",
        "6xpouch:62,tray=two",
        "6xpouch:62,",
        "6xpouch:62,gas",
        "6xpouch[/]:62",
        "6xpöuch",
        "6xpouch:62:62",
        "9" * 190 + "xpouch",
        "6xpouch" + "," * 150,
        "1xpouch:rest" + " " * 400,
    ],
)
def test_split_requests_refused(text: str) -> None:
    with pytest.raises(BadInput) as caught:
        read_split(text)
    assert caught.value.message.isprintable()


def test_a_split_request_has_a_longest_length() -> None:
    text = "6xpouch".ljust(400)
    assert read_split(text).container == "pouch"
    with pytest.raises(BadInput):
        read_split(text + " ")


@given(text=st.text(max_size=60) | st.from_regex(r"[0-9]{0,3}x[a-z]{0,4}:?[0-9a-z,= ]{0,12}"))
def test_no_text_gives_anything_but_a_request_or_bad_input(text: str) -> None:
    try:
        assert read_split(text).count >= 1
    except BadInput as trouble:
        assert trouble.message.isprintable()
