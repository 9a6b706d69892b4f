"""First in first out, earliest best-by, and taking so much from the shelf."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.rotation import (
    Allocation,
    Candidate,
    allocate_dry,
    allocate_fresh,
    earliest_best_by,
    first_in_first_out,
)

START = date(2026, 3, 1)


def package(
    package_id: int,
    made: int = 0,
    best: int = 100,
    dry_dg: int = 620,
    water_dg: int = 3380,
    opened: bool = False,
) -> Candidate:
    """A package made and best by so many days after the start."""
    return Candidate(
        package_id,
        f"26060A{package_id:02d}",
        1,
        START + timedelta(days=made),
        START + timedelta(days=best),
        opened,
        dry_dg,
        water_dg,
    )


@st.composite
def shelves(draw: st.DrawFn) -> list[Candidate]:
    """Packages of one food, some opened, some empty, in no order."""
    count = draw(st.integers(0, 12))
    shelf: list[Candidate] = []
    for number in draw(st.permutations(range(count))):
        dry_dg, water_dg = draw(st.integers(0, 900)), draw(st.integers(0, 6000))
        shelf.append(
            package(
                number,
                made=draw(st.integers(0, 4)),
                best=draw(st.integers(5, 9)),
                dry_dg=dry_dg,
                water_dg=water_dg if dry_dg else 0,
                opened=draw(st.booleans()),
            )
        )
    return shelf


def ids(packages: tuple[Candidate, ...]) -> list[int]:
    return [each.package_id for each in packages]


def test_first_in_first_out_goes_by_opened_then_made_then_best_by_then_number() -> None:
    shelf = [
        package(9, made=1, best=50),
        package(2, made=1, best=50),
        package(3, made=1, best=40),
        package(4, made=0, best=90),
        package(5, made=5, best=95, opened=True),
        package(6, made=4, best=99, opened=True),
    ]
    assert ids(first_in_first_out(shelf)) == [6, 5, 4, 3, 2, 9]


def test_earliest_best_by_goes_by_best_by_then_made_then_number() -> None:
    shelf = [
        package(9, made=1, best=50),
        package(2, made=1, best=50),
        package(3, made=0, best=50),
        package(4, made=9, best=40),
        package(5, made=0, best=60, opened=True),
    ]
    assert ids(earliest_best_by(shelf)) == [4, 3, 2, 9, 5]


# R1: five days to eat each; best-by in days A 40, B 9, C 12, D 21 (computed).
@pytest.mark.parametrize(
    ("order", "lateness"),
    [(first_in_first_out, [-35, 1, 3, -1]), (earliest_best_by, [-4, -2, -6, -20])],
    ids=["first in first out", "earliest best-by"],
)
def test_r1_worst_lateness(
    order: Callable[[list[Candidate]], tuple[Candidate, ...]], lateness: list[int]
) -> None:
    shelf = [package(n, made=n, best=best) for n, best in enumerate((40, 9, 12, 21))]
    ends = [
        5 * (place + 1) - (each.best_by - START).days for place, each in enumerate(order(shelf))
    ]
    assert ends == lateness


def test_opened_packages_go_first_and_are_finished_before_another_is_opened() -> None:
    shelf = [package(1), package(2, made=3, opened=True, dry_dg=100, water_dg=545)]
    found = allocate_dry(shelf, 150)
    assert [(pick.candidate.package_id, pick.take_dg) for pick in found.picks] == [
        (2, 100),
        (1, 50),
    ]
    assert [(pick.opens, pick.finishes) for pick in found.picks] == [(False, True), (True, False)]
    assert [pick.left_dg for pick in found.picks] == [0, 570]
    assert (found.dry_dg, found.shortfall_dg) == (150, 0)
    assert found.water_dg == 545 + found.picks[1].water_dg


def test_taking_all_of_an_unopened_package_opens_and_finishes_it() -> None:
    (pick,) = allocate_dry([package(1)], 620).picks
    assert (pick.opens, pick.finishes, pick.water_dg, pick.fresh_dg) == (True, True, 3380, 4000)


def test_what_is_not_there_is_a_shortfall_in_the_unit_asked() -> None:
    shelf = [package(1), package(2)]
    assert allocate_dry(shelf, 1300).shortfall_dg == 60
    assert allocate_fresh(shelf, 8500).shortfall_dg == 500
    assert allocate_dry([], 5) == Allocation((), 5)
    assert allocate_fresh([], 5) == Allocation((), 5)


@pytest.mark.parametrize("wanted", [0, -10])
def test_wanting_nothing_takes_nothing(wanted: int) -> None:
    assert allocate_dry([package(1)], wanted) == Allocation((), 0)
    assert allocate_fresh([package(1)], wanted) == Allocation((), 0)


# 62 g dry and 338 g water are 400 g fresh (B4, computed): 100 g fresh is 15.5 g dry, 84.5 g water.
@pytest.mark.parametrize(
    ("fresh_dg", "dry_dg", "water_dg"),
    [
        (1000, 155, 845),
        (1001, 156, 850),
        (999, 155, 845),
        (995, 155, 845),
        (994, 154, 840),
        (1, 1, 5),
    ],
)
def test_fresh_takes_the_least_dry_that_covers_the_want(
    fresh_dg: int, dry_dg: int, water_dg: int
) -> None:
    (pick,) = allocate_fresh([package(1)], fresh_dg).picks
    assert (pick.take_dg, pick.water_dg) == (dry_dg, water_dg)


@given(shelf=shelves(), wanted=st.integers(0, 9000))
def test_dry_picks_and_shortfall_are_what_was_asked(shelf: list[Candidate], wanted: int) -> None:
    found = allocate_dry(shelf, wanted)
    assert found.dry_dg + found.shortfall_dg == wanted
    _holds_for_any_allocation(shelf, found)


@given(shelf=shelves(), wanted=st.integers(0, 40_000))
def test_fresh_picks_cover_the_want_by_less_than_one_more_tenth(
    shelf: list[Candidate], wanted: int
) -> None:
    found = allocate_fresh(shelf, wanted)
    fresh_dg = sum(pick.fresh_dg for pick in found.picks)
    assert fresh_dg + found.shortfall_dg >= wanted
    _holds_for_any_allocation(shelf, found)
    if fresh_dg > wanted:
        last = found.picks[-1]
        one_less = last.take_dg - 1 + last.candidate.water_for(last.take_dg - 1)
        assert fresh_dg - last.fresh_dg + one_less < wanted
        assert found.shortfall_dg == 0
    else:
        assert fresh_dg + found.shortfall_dg == wanted


def _holds_for_any_allocation(shelf: list[Candidate], found: Allocation) -> None:
    """Never more than there is, in order, water of its own, and short only when all is taken."""
    assert len({pick.candidate.package_id for pick in found.picks}) == len(found.picks)
    for pick in found.picks:
        assert pick.candidate in shelf
        assert 0 < pick.take_dg <= pick.candidate.available_dg
        assert pick.finishes == (pick.take_dg == pick.candidate.available_dg)
        assert pick.opens is not pick.candidate.opened
        candidate = pick.candidate
        exact = Fraction(pick.take_dg * candidate.water_dg, candidate.available_dg)
        assert abs(pick.water_dg - exact) <= Fraction(1, 2)
        assert not pick.finishes or pick.water_dg == pick.candidate.water_dg
    assert all(pick.finishes for pick in found.picks[:-1])
    for opened in (True, False):
        made = [p.candidate.made_on for p in found.picks if p.candidate.opened is opened]
        assert made == sorted(made)
    opened_first = [pick.candidate.opened for pick in found.picks]
    assert opened_first == sorted(opened_first, reverse=True)
    if found.shortfall_dg:
        assert found.dry_dg == sum(each.available_dg for each in shelf)


@given(shelf=shelves(), wanted=st.integers(0, 9000))
def test_the_order_on_the_shelf_does_not_matter(shelf: list[Candidate], wanted: int) -> None:
    assert allocate_dry(shelf, wanted) == allocate_dry(shelf[::-1], wanted)
    assert allocate_fresh(shelf, wanted) == allocate_fresh(shelf[::-1], wanted)


@given(
    dry_dg=st.integers(1, 2000),
    water_dg=st.integers(0, 9000),
    takes=st.lists(st.integers(1, 400), max_size=12),
)
def test_drawing_bit_by_bit_uses_exactly_the_package_water(
    dry_dg: int, water_dg: int, takes: list[int]
) -> None:
    each = package(1, dry_dg=dry_dg, water_dg=water_dg)
    given_dg = 0
    for take_dg in [*takes, dry_dg]:
        for pick in allocate_dry([each], take_dg).picks:
            given_dg += pick.water_dg
            each = each.after(pick)
            assert each.water_dg == water_dg - given_dg
            assert each.water_dg >= 0
    assert (each.available_dg, each.water_dg, given_dg) == (0, 0, water_dg)


def test_a_package_after_a_pick_is_opened_and_lighter() -> None:
    (pick,) = allocate_dry([package(1)], 155).picks
    after = package(1).after(pick)
    assert after.opened
    assert (after.available_dg, after.water_dg) == (465, 2535)


# The fewest openings


def _openings(found: Allocation) -> int:
    return sum(pick.opens for pick in found.picks)


def _least_openings(shelf: list[Candidate], wanted: int, fresh: bool) -> int:
    """Tried out: the fewest sealed packages that cover the want, turn by turn by their dates."""

    def size(one: Candidate) -> int:
        return one.fresh_dg if fresh else one.available_dg

    full = [one for one in shelf if one.available_dg > 0]
    wanted -= sum(size(one) for one in full if one.opened)
    count = 0
    sealed = [one for one in full if not one.opened]
    for dates in sorted({(one.made_on, one.best_by) for one in sealed}):
        tied = [one for one in sealed if (one.made_on, one.best_by) == dates]
        if wanted <= 0:
            break
        covering = (
            number
            for number in range(1, len(tied) + 1)
            if any(sum(map(size, some)) >= wanted for some in combinations(tied, number))
        )
        count += next(covering, len(tied))
        wanted -= sum(map(size, tied))
    return count


@given(shelf=shelves(), wanted=st.integers(1, 9000), fresh=st.booleans())
def test_no_way_through_the_dates_opens_fewer(
    shelf: list[Candidate], wanted: int, fresh: bool
) -> None:
    found = (allocate_fresh if fresh else allocate_dry)(shelf, wanted)
    assert _openings(found) == _least_openings(shelf, wanted, fresh)


def test_one_large_package_is_opened_before_two_small_ones_of_its_dates() -> None:
    shelf = [package(1, dry_dg=100), package(2, dry_dg=100), package(3, dry_dg=150)]
    assert [(p.candidate.package_id, p.take_dg) for p in allocate_dry(shelf, 140).picks] == [
        (3, 140)
    ]
    assert [p.candidate.package_id for p in allocate_dry(shelf, 200).picks] == [1, 2]
    assert [p.candidate.package_id for p in allocate_dry(shelf, 210).picks] == [3, 1]
    assert [p.candidate.package_id for p in allocate_dry(shelf, 90).picks] == [1]


def test_an_earlier_best_by_goes_before_a_saved_opening() -> None:
    shelf = [package(1, best=10, dry_dg=50), package(2, best=11, dry_dg=500)]
    assert [p.candidate.package_id for p in allocate_dry(shelf, 300).picks] == [1, 2]


def test_a_tenth_of_a_gram_of_water_does_not_change_the_numbers_order() -> None:
    """Water dealt out over a lot differs by a tenth from package to package."""
    shelf = [package(1, water_dg=3379), package(2, water_dg=3380), package(3, water_dg=3381)]
    assert [p.candidate.package_id for p in allocate_fresh(shelf, 5000).picks] == [1, 2]


def test_numbers_give_way_where_they_would_open_one_more() -> None:
    shelf = [package(1, water_dg=3379), package(2, water_dg=3380), package(3, water_dg=3381)]
    picks = allocate_fresh(shelf, 8001).picks
    assert [p.candidate.package_id for p in picks] == [3, 2]
    assert all(p.finishes for p in picks)


@pytest.mark.parametrize("count", [2_000, 20_000])
def test_a_long_shelf_is_looked_at_a_few_times_only(count: int) -> None:
    """Each package's size is asked for about as often as a sort asks: log2 of 20,000 is 14."""
    asked = 0

    class Counted(Candidate):
        @property
        def fresh_dg(self) -> int:
            nonlocal asked
            asked += 1
            return self.available_dg + self.water_dg

    shelf = [Counted(n, str(n), 1, START, START, False, 100 + n % 7, 300) for n in range(count)]
    found = allocate_fresh(shelf, 399 * count // 2)
    assert found.shortfall_dg == 0
    assert asked < 20 * count
