"""Taking the whole of the last package."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.cooking import (
    Basis,
    CookPlan,
    Recipe,
    ScaledRecipe,
    StoredNeed,
    cook_plan,
    scale,
)
from stockroom.domain.rotation import Candidate
from stockroom.domain.whole_packages import rests, take_whole, whole_packages

DAY = date(2026, 3, 1)


def package(package_id: int, dry_dg: int = 620, water_dg: int = 3_380) -> Candidate:
    return Candidate(package_id, f"P{package_id}", 1, DAY, DAY, False, dry_dg, water_dg)


def plan(*wanted_dg: int, serving_dg: int | None = None, shelf: int = 2) -> CookPlan:
    lines = tuple(StoredNeed(1, "peas", Basis.DRY, one, serving_dg) for one in wanted_dg)
    packages = [package(n) for n in range(1, shelf + 1)]
    return cook_plan(scale(Recipe("soup", 1, 0, lines), 1), {1: packages})


# 15 % of 62.0 g is 9.3 g: a rest of exactly that is kept.
@pytest.mark.parametrize(("taken_dg", "offered"), [(527, False), (528, True), (619, True)])
def test_a_rest_below_fifteen_hundredths_of_the_package_is_offered(
    taken_dg: int, offered: bool
) -> None:
    found = whole_packages(plan(taken_dg))
    assert bool(found) == offered
    if offered:
        assert (found[0].code, found[0].more_dg) == ("P1", 620 - taken_dg)


# 40 g of dry food with 218.1 g of water stay: 258.1 g fresh.
@pytest.mark.parametrize(("serving_dg", "offered"), [(2_581, False), (2_582, True)])
def test_a_rest_below_one_serving_is_offered(serving_dg: int, offered: bool) -> None:
    found = whole_packages(plan(220, serving_dg=serving_dg))
    assert bool(found) == offered


def test_a_package_that_is_finished_is_not_offered() -> None:
    assert whole_packages(plan(620)) == ()
    assert whole_packages(plan(1_300)) == ()
    assert rests(plan(620)) == {}


def test_taking_the_whole_takes_all_its_water_with_it() -> None:
    part = plan(600)
    (one,) = whole_packages(part)
    whole = take_whole(part, [one])
    assert (whole.lines[0].dry_dg, whole.water_dg) == (620, 3_380)
    assert one.more_dg == 20
    assert part.water_dg + one.more_water_dg == 3_380
    assert whole.lines[0].need.wanted_dg == 600
    assert rests(whole) == {}
    assert whole_packages(whole) == ()


def test_of_two_lines_the_second_finishes_the_package() -> None:
    part = plan(300, 290)
    (one,) = whole_packages(part)
    assert (one.line, one.more_dg) == (1, 30)
    whole = take_whole(part, [one])
    assert [line.dry_dg for line in whole.lines] == [300, 320]
    assert whole.water_dg == 3_380


def test_the_share_is_of_the_package_as_packed() -> None:
    """100 g stay of a package once packed with 1000 g, then 40 g: both are counted of 1000 g."""
    opened = Candidate(1, "P1", 1, DAY, DAY, True, 500, 0, packed_dg=1_000)
    need = StoredNeed(1, "peas", Basis.DRY, 400)
    found = cook_plan(ScaledRecipe("soup", 1, Fraction(1), 0, (need,)), {1: [opened]})
    assert [one.more_dg for one in whole_packages(found)] == [100]
    again = found.lines[0].picks[0]
    assert opened.after(again).whole_dg == 1_000


@given(
    wants=st.lists(st.integers(1, 1_500), min_size=1, max_size=4),
    serving_dg=st.integers(1, 4_000),
    shelf=st.integers(0, 4),
)
def test_accepting_all_of_them_takes_no_more_than_there_is(
    wants: list[int], serving_dg: int, shelf: int
) -> None:
    part = plan(*wants, serving_dg=serving_dg, shelf=shelf)
    offered = whole_packages(part)
    whole = take_whole(part, offered)
    assert sum(one.dry_dg for one in whole.lines) <= 620 * shelf
    assert whole.water_dg == part.water_dg + sum(one.more_water_dg for one in offered)
    assert len(rests(whole)) == len(rests(part)) - len(offered)
    for before, after in zip(part.lines, whole.lines, strict=True):
        assert after.dry_dg >= before.dry_dg
        assert after.shortfall_dg == before.shortfall_dg
