"""Which packages to look at, and what the looks say of the others."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.sample_page import Wish
from stockroom.domain.sampling import ImpossibleSample
from stockroom.errors import BadInput, NotFound
from stockroom.services import packages, sampling
from stockroom.services.sampling import NothingToSample, sample_of
from tests.world import TODAY, World


@pytest.fixture
def lot(world: World) -> tuple[str, ...]:
    """Twenty pouches of one lot, half in the cellar, half in the loft."""
    world.places("cellar", "cellar/rack", "loft")
    code = world.dry_lot()
    return (
        *world.pack(code, "10xpouch-400-foil:6,absorber=100", place="rack"),
        *world.pack(code, "10xpouch-400-foil:6,absorber=100", place="loft"),
    )


def test_the_number_is_that_of_the_table(world: World, lot: tuple[str, ...]) -> None:
    """Twenty packages: 95 % sure of at most 2 soft takes 12 (hypergeometric, computed)."""
    page = sample_of(world.room, "26329A", Wish(at_most=2))
    assert page.sample.inspect == len(page.picks) == 12
    assert {one.code for one in page.picks} <= set(lot)
    assert (page.checked, page.soft, page.left.remaining) == (0, 0, 20)
    assert page.by_now is None and not page.enough


def test_one_in_ten_where_nobody_says(world: World, lot: tuple[str, ...]) -> None:
    assert sample_of(world.room, "26329A").sample.at_most == 2
    assert sample_of(world.room, "cellar").sample.at_most == 1


def test_a_place_is_sampled_with_what_is_below_it(world: World, lot: tuple[str, ...]) -> None:
    page = sample_of(world.room, "cellar")
    assert page.sample.lot == 10
    assert {one.code for one in page.picks} <= set(lot[:10])


def test_picks_stay_as_they_are_while_they_are_looked_at(
    world: World, lot: tuple[str, ...]
) -> None:
    first = later = sample_of(world.room, "26329A")
    for one in first.picks:
        packages.check_package(world.room, one.code, Event.CRISP)
        later = sample_of(world.room, "26329A")
        assert [pick.code for pick in later.picks] == [pick.code for pick in first.picks]
    assert later.enough
    assert later.by_now is not None and later.by_now.most == 2
    assert [pick.code for pick in sample_of(world.later(1).room, "26329A").picks] != [
        pick.code for pick in first.picks
    ]


def test_picks_are_in_walking_order(world: World, lot: tuple[str, ...]) -> None:
    places = [one.place for one in sample_of(world.room, "26329A").picks]
    assert places == sorted(places)


def test_a_soft_one_among_them(world: World, lot: tuple[str, ...]) -> None:
    """Eight prior-free looks, two soft: Beta(3, 7), so 12 others hold 3.6 soft on average."""
    picks = sample_of(world.room, "26329A").picks
    for place, one in enumerate(picks[:8]):
        finding = Event.SOFT if place < 2 else Event.CRISP
        packages.check_package(world.room, one.code, finding)
    page = sample_of(world.room, "26329A")
    assert (page.checked, page.soft, page.left.remaining) == (8, 2, 12)
    assert page.left.expected == Fraction(12 * 3, 10)
    assert not page.enough


def test_looks_of_an_earlier_day_count_when_asked(world: World, lot: tuple[str, ...]) -> None:
    packages.check_package(world.room, lot[0], Event.CRISP)
    later = world.later(3).room
    assert sample_of(later, "26329A").checked == 0
    assert sample_of(later, "26329A", Wish(since=TODAY)).checked == 1
    assert sample_of(later, "26329A", Wish(since=TODAY + timedelta(days=1))).checked == 0


def test_a_look_that_misses_some_takes_more(world: World, lot: tuple[str, ...]) -> None:
    """Two soft of 20: finding 0.8 of them takes all 20, finding 0.6 is never enough."""
    page = sample_of(world.room, "26329A", Wish(at_most=1, sensitivity=Fraction(8, 10)))
    assert page.sample.inspect == 20
    never = sample_of(world.room, "26329A", Wish(at_most=1, sensitivity=Fraction(6, 10)))
    assert never.sample.inspect is None
    assert len(never.picks) == 20


def test_opened_and_gone_ones_are_not_picked(world: World, lot: tuple[str, ...]) -> None:
    packages.draw_package(world.room, lot[0])
    packages.draw_package(world.room, lot[1], packages.Amount(dry_dg=10))
    assert sample_of(world.room, "26329A").sample.lot == 18


def test_what_was_looked_at_by_opening_still_counts(world: World, lot: tuple[str, ...]) -> None:
    """Opening a package to look at it must not make the lot smaller, nor forget the look."""
    packages.check_package(world.room, lot[0], Event.CRISP, opened=True)
    packages.check_package(world.room, lot[1], Event.CRISP)
    page = sample_of(world.room, "26329A")
    assert (page.sample.lot, page.checked) == (20, 2)
    assert lot[0] in {one.code for one in page.picks}
    later = world.later(1).room
    assert sample_of(later, "26329A").sample.lot == 19
    assert sample_of(later, "26329A", Wish(since=TODAY)).sample.lot == 20


@pytest.mark.parametrize("name", ["26329A", "cellar", "cellar/rack"])
def test_a_soft_one_counts_whatever_became_of_it(
    world: World, lot: tuple[str, ...], name: str
) -> None:
    """A sample that forgets the soft one once it is held or discarded would call the lot clean."""
    world.places("freezer")
    packages.check_package(world.room, lot[0], Event.SOFT)
    packages.move_packages(world.room, [lot[0]], "freezer")
    packages.check_package(world.room, lot[1], Event.SOFT)
    packages.discard_packages(world.room, [lot[1]], "mould")
    page = sample_of(world.room, name)
    assert (page.sample.lot, page.checked, page.soft) == (20 if name == "26329A" else 10, 2, 2)
    assert not page.enough
    (elsewhere,) = sample_of(world.room, "freezer").packages
    assert elsewhere.code == lot[0] and elsewhere.condition == "suspect"


def test_what_was_looked_at_and_moved_is_counted_where_it_stood(
    world: World, lot: tuple[str, ...]
) -> None:
    """Held food waits in a freezer: its softness says nothing of what else is in there."""
    world.places("freezer")
    packages.check_package(world.room, lot[0], Event.SOFT)
    packages.discard_packages(world.room, [lot[0]], "mould")
    packages.move_packages(world.room, lot[15:17], "freezer")
    assert sample_of(world.room, "freezer").soft == 0
    packages.check_package(world.later(1).room, lot[15], Event.CRISP)
    assert sample_of(world.later(1).room, "freezer").checked == 1
    assert sample_of(world.later(1).room, "loft").checked == 0


def test_opened_to_be_eaten_from_is_no_part_of_it(world: World, lot: tuple[str, ...]) -> None:
    """It was open before the looks began, so a look at it says nothing of the sealed ones."""
    packages.draw_package(world.room, lot[0], packages.Amount(dry_dg=10))
    packages.check_package(world.later(1).room, lot[0], Event.CRISP)
    assert sample_of(world.later(1).room, "26329A").sample.lot == 19


def test_a_single_package_is_looked_at_itself(world: World) -> None:
    world.places("attic")
    world.packed("Apple, raw, peeled", "1xjar-475:20", place="attic")
    page = sample_of(world.room, "attic")
    assert (page.sample.lot, page.sample.at_most, page.sample.inspect) == (1, 0, 1)


def test_more_soft_than_there_are_is_refused_with_what_was_asked(
    world: World, lot: tuple[str, ...]
) -> None:
    with pytest.raises(ImpossibleSample, match="cannot be 50"):
        sample_of(world.room, "26329A", Wish(at_most=50))


def test_the_workings_end_on_the_figures_shown(world: World, lot: tuple[str, ...]) -> None:
    page = sample_of(world.room, "26329A", Wish(at_most=2))
    number, belief = sampling.sample_workings(world.room, "26329A", Wish(at_most=2))
    assert any(step.result.startswith(str(page.sample.inspect)) for step in number.steps)
    assert belief.steps and belief.sources


def test_refusals(world: World, lot: tuple[str, ...]) -> None:
    with pytest.raises(NothingToSample, match="no sealed package"):
        world.places("attic")
        sample_of(world.room, "attic")
    with pytest.raises(NotFound):
        sample_of(world.room, "26330A")
    with pytest.raises(NotFound):
        sample_of(world.room, "the moon")
    with pytest.raises(BadInput):
        sample_of(world.room, "")
