"""Packages: moved, eaten from, checked, thrown away, noted; and what is kept of it all."""

from __future__ import annotations

import tempfile
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.conditions import TRANSITIONS, Condition, Event
from stockroom.services import history, packages, shelves
from stockroom.services.packages import BY_OPENING, FINDINGS, Amount
from tests.invariants import all_troubles
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World, copied_world


@pytest.fixture
def codes(world: World) -> tuple[str, ...]:
    """Three packages of peas in the cellar: 40 g dry, 218.1 g of water each or near it."""
    world.places("cellar", "loft", "loft/bin")
    return world.packed(PEAS, "3xpouch-400-foil:40,absorber=100", place="cellar")


def _history(world: World, code: str) -> list[tuple[str, str]]:
    return [
        (line.event, line.condition) for line in shelves.package_detail(world.room, code).history
    ]


def test_packages_are_moved_and_the_move_is_kept(world: World, codes: tuple[str, ...]) -> None:
    done = packages.move_packages(world.later(2).room, [codes[0], codes[2]], "bin")
    assert done.words == f"moved 2 packages of {PEAS}, {codes[0]} to {codes[2]} to loft/bin"
    assert done.codes == (codes[0], codes[2])
    assert [world.package(code).place for code in codes] == ["loft/bin", "cellar", "loft/bin"]
    line = shelves.package_detail(world.room, codes[0]).history[-1]
    assert (line.event, line.from_place, line.to_place) == ("moved", "cellar", "loft/bin")
    assert (line.on_day - TODAY).days == 2


def test_one_package_is_named_with_its_food(world: World, codes: tuple[str, ...]) -> None:
    done = packages.move_packages(world.room, [codes[0]], "loft")
    assert done.words == f"moved {codes[0]} ({PEAS}) to loft"


def test_what_is_there_already_is_left_and_twice_is_once(
    world: World, codes: tuple[str, ...]
) -> None:
    packages.move_packages(world.room, [codes[0]], "loft")
    done = packages.move_packages(world.room, [codes[0], codes[1], codes[1][:-1]], "loft")
    assert done.codes == (codes[1],)
    assert _history(world, codes[0]) == [("sealed", "settling"), ("moved", "settling")]


def test_packages_of_several_foods_are_moved_together(world: World, codes: tuple[str, ...]) -> None:
    apple = world.packed(APPLE, "1xjar-475:20")[0]
    done = packages.move_packages(world.room, [codes[0], apple], "loft")
    assert done.words == f"moved 2 packages, {codes[0]} to {apple} to loft"


def test_a_package_without_a_place_is_put_in_one(world: World) -> None:
    world.places("loft")
    code = world.packed()[0]
    packages.move_packages(world.room, [code], "loft")
    line = shelves.package_detail(world.room, code).history[-1]
    assert (line.from_place, line.to_place) == ("", "loft")


def test_a_part_opens_a_package(world: World, codes: tuple[str, ...]) -> None:
    """40 g dry of a lot at 155 of 1000 g takes 218.1 g of water: a quarter of it, 54.5 g."""
    later = world.later(5)
    done = packages.draw_package(later.room, codes[0], Amount(dry_dg=100), note=" for soup ")
    package = world.package(codes[0])
    assert (package.condition, package.opened_on) == ("opened", later.room.today)
    assert (package.dry_dg, package.taken_dg, package.left_dg) == (400, 100, 300)
    assert (package.water_dg, package.taken_water_dg) == (2_181, 545)
    assert done.words == f"took 10.0 g of {PEAS} from {codes[0]}, water to add 54.5 g"
    assert _history(world, codes[0]) == [("sealed", "settling"), ("open", "opened"), ("draw", "")]
    line = shelves.package_detail(world.room, codes[0]).history[-1]
    assert (line.dry_dg, line.water_dg, line.note, line.meal) == (100, 545, "for soup", "")


def test_all_of_it_uses_a_package_up(world: World, codes: tuple[str, ...]) -> None:
    done = packages.draw_package(world.room, codes[0])
    package = world.package(codes[0])
    assert (package.condition, package.gone_on, package.left_dg) == ("used", TODAY, 0)
    assert (package.left_water_dg, package.servings_left, package.best_by) == (0, 0, None)
    assert done.words == f"took all 40.0 g of {PEAS} from {codes[0]}, water to add 218.1 g"
    assert _history(world, codes[0])[1:] == [("use_up", "used"), ("draw", "")]


def test_the_last_part_takes_the_last_water(world: World, codes: tuple[str, ...]) -> None:
    for _ in range(3):
        packages.draw_package(world.room, codes[0], Amount(dry_dg=133))
    packages.draw_package(world.room, codes[0], Amount(dry_dg=1))
    package = world.package(codes[0])
    assert (package.condition, package.taken_water_dg) == ("used", package.water_dg)
    assert _history(world, codes[0])[1:3] == [("open", "opened"), ("use_up", "used")]


@settings(max_examples=50, deadline=None)
@given(parts=st.lists(st.integers(1, 200), min_size=1, max_size=12), dry_dg=st.integers(1, 800))
def test_parts_of_a_package_add_up_to_its_water(
    room_template: Path, parts: list[int], dry_dg: int
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(room_template, Path(folder) / "stockroom.db")
        code = world.packed(PEAS, f"1xjar-950:{dry_dg / 10}", wet_g=871.3, dry_g=131.7)[0]
        for part in parts:
            left = world.package(code)
            if left.left_dg == 0:
                break
            take_dg = min(part, left.left_dg)
            exact = Fraction(left.left_water_dg * take_dg, left.left_dg)
            assert abs(packages.water_for(left, take_dg) - exact) <= Fraction(1, 2)
            packages.draw_package(world.room, code, Amount(dry_dg=take_dg))
            assert all_troubles(world.room) == []
        world.room.close()


def test_servings_are_taken_by_fresh_weight(world: World, codes: tuple[str, ...]) -> None:
    """A serving of peas is 85 g as eaten; 258.1 g of them dried to 40 g: 13.2 g dry a serving."""
    package = world.package(codes[0])
    assert package.servings_left == Fraction(2_581, 850)
    assert Amount(servings=Fraction(1)).of(package) == 132
    assert Amount(servings=package.servings_left).of(package) == 400
    assert Amount(servings=Fraction(1, 1000)).of(package) == 1
    assert Amount().of(package) == 400
    assert Amount(dry_dg=7).of(package) == 7


def test_servings_of_what_is_left(world: World, codes: tuple[str, ...]) -> None:
    packages.draw_package(world.room, codes[0], Amount(dry_dg=300))
    left = world.package(codes[0])
    assert Amount(servings=left.servings_left).of(left) == 100
    assert packages.draw_package(world.room, codes[0], Amount(servings=left.servings_left)).words
    assert world.package(codes[0]).condition == "used"


def test_a_settle_check_makes_it_sound(world: World, codes: tuple[str, ...]) -> None:
    done = packages.check_package(world.later(1).room, codes[0], Event.CRISP)
    assert done.words == f"checked {codes[0]} ({PEAS}): crisp, now sound"
    assert done.cautions == ()
    assert _history(world, codes[0])[-1] == ("crisp", "sound")


def test_a_later_check_is_kept_though_nothing_changes(world: World, codes: tuple[str, ...]) -> None:
    packages.check_package(world.later(1).room, codes[0], Event.CRISP)
    packages.check_package(world.later(30).room, codes[0], Event.CRISP, note="fine")
    assert _history(world, codes[0])[1:] == [("crisp", "sound"), ("crisp", "sound")]


@pytest.mark.parametrize("finding", [Event.SOFT, Event.LEAK, Event.DAMAGED])
def test_a_doubtful_package_is_not_eaten_from(
    world: World, codes: tuple[str, ...], finding: Event
) -> None:
    done = packages.check_package(world.later(9).room, codes[0], finding, note="at the seal")
    assert done.words.startswith(f"checked {codes[0]} ({PEAS}): {finding}, now suspect")
    assert done.cautions
    assert shelves.package_detail(world.later(9).room, codes[0]).cautions == done.cautions
    line = shelves.package_detail(world.room, codes[0]).history[-1]
    assert (line.event, line.condition, line.note) == (finding, "suspect", "at the seal")


def test_low_acid_food_soft_without_air_is_told_to_be_thrown_away(world: World) -> None:
    """The rule of the cautions: low-acid, low-oxygen, more than a day: discard, nothing else."""
    beef = world.packed(BEEF_RAW, "1xpouch-400-foil:40,absorber=100", dry_g=270)[0]
    late = packages.check_package(world.later(9).room, beef, Event.SOFT)
    assert "soft-discard" in {one.key for one in late.cautions}
    apple = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")[0]
    early = packages.check_package(world.room, apple, Event.SOFT)
    assert "soft-discard" not in {one.key for one in early.cautions}


def test_on_the_day_after_sealing_both_rules_are_shown(world: World) -> None:
    beef = world.packed(BEEF_RAW, "1xpouch-400-foil:40,absorber=100", dry_g=270)[0]
    keys = {
        one.key for one in packages.check_package(world.later(1).room, beef, Event.SOFT).cautions
    }
    assert {"soft-early", "soft-discard"} <= keys


def test_a_doubt_is_cleared_by_a_crisp_check(world: World, codes: tuple[str, ...]) -> None:
    packages.check_package(world.room, codes[0], Event.LEAK)
    packages.check_package(world.room, codes[0], Event.CRISP)
    assert world.package(codes[0]).condition == "sound"


def test_an_opened_package_in_doubt_is_opened_again_not_sound(
    world: World, codes: tuple[str, ...]
) -> None:
    packages.draw_package(world.room, codes[0], Amount(dry_dg=10))
    packages.check_package(world.room, codes[0], Event.SOFT)
    done = packages.check_package(world.room, codes[0], Event.CRISP)
    assert done.words.endswith("now opened")
    assert world.package(codes[0]).condition == "opened"


@pytest.mark.parametrize("before", [None, Event.CRISP, Event.SOFT])
def test_a_crisp_look_by_opening_leaves_it_opened(
    world: World, codes: tuple[str, ...], before: Event | None
) -> None:
    """From settling, from sound, and from a slip of the same day."""
    if before is not None:
        packages.check_package(world.room, codes[0], before)
    was, best_by = world.dump(), world.package(codes[0]).best_by
    done = packages.check_package(world.room, codes[0], Event.CRISP, note="all", opened=True)
    assert done.words == f"checked {codes[0]} ({PEAS}): crisp, {BY_OPENING}, now opened"
    package = world.package(codes[0])
    assert (package.condition, package.opened_on) == ("opened", TODAY)
    assert package.best_by and best_by
    assert package.best_by < best_by or before is Event.SOFT
    assert _history(world, codes[0])[-2:] == [("crisp", "sound"), ("open", "opened")]
    notes = [one.note for one in shelves.package_detail(world.room, codes[0]).history]
    assert notes[-2:] == [f"{BY_OPENING}; all", ""]
    assert all_troubles(world.room) == []
    history.undo(world.room)
    assert world.dump() == was


@pytest.mark.parametrize("finding", [Event.SOFT, Event.LEAK, Event.DAMAGED])
def test_at_fault_by_opening_it_stays_suspect_and_is_open(
    world: World, codes: tuple[str, ...], finding: Event
) -> None:
    was = world.dump()
    done = packages.check_package(world.room, codes[0], finding, opened=True)
    assert f"{finding}, {BY_OPENING}, now suspect" in done.words and done.cautions
    assert done.codes == (codes if finding is Event.SOFT else codes[:1])
    package = world.package(codes[0])
    assert (package.condition, package.opened_on) == ("suspect", TODAY)
    assert _history(world, codes[0])[-1] == (finding, "suspect")
    assert shelves.package_detail(world.room, codes[0]).history[-1].note == BY_OPENING
    assert world.package(codes[1]).opened_on is None
    history.undo(world.room)
    assert world.dump() == was
    history.redo(world.room)
    packages.check_package(world.room, codes[0], Event.CRISP)
    assert world.package(codes[0]).condition == "opened"
    assert all_troubles(world.room) == []


def test_what_is_open_is_not_opened_again(world: World, codes: tuple[str, ...]) -> None:
    packages.draw_package(world.room, codes[0], Amount(dry_dg=10))
    later = world.later(3)
    done = packages.check_package(later.room, codes[0], Event.CRISP, note="dry", opened=True)
    assert done.words == f"checked {codes[0]} ({PEAS}): crisp, now opened"
    assert world.package(codes[0]).opened_on == TODAY
    assert _history(world, codes[0])[-1] == ("crisp", "opened")
    assert shelves.package_detail(world.room, codes[0]).history[-1].note == "dry"


def test_every_finding_the_table_allows_is_taken(world: World) -> None:
    """Each row of the table of conditions that a check can bring about, from its own start."""
    to_there = {
        Condition.SETTLING: (),
        Condition.SOUND: (Event.CRISP,),
        Condition.SUSPECT: (Event.SOFT,),
    }
    rows = [row for row in TRANSITIONS if row.event in FINDINGS and row.from_ in to_there]
    made = iter(world.packed(PEAS, f"{len(rows)}xjar-475:5"))
    assert len(rows) == 12
    for row in rows:
        code = next(made)
        for event in to_there[row.from_]:
            packages.check_package(world.room, code, event)
        packages.check_package(world.room, code, row.event)
        assert world.package(code).condition == row.to, row


def test_packages_are_thrown_away_with_the_reason(world: World, codes: tuple[str, ...]) -> None:
    packages.draw_package(world.room, codes[1], Amount(dry_dg=100))
    done = packages.discard_packages(
        world.later(3).room, [codes[0], codes[1], codes[0]], "torn, went soft"
    )
    assert done.words == (
        f"discarded 2 packages of {PEAS}, {codes[0]} to {codes[1]}: torn, went soft"
    )
    for code in codes[:2]:
        package = world.package(code)
        assert (package.condition, (package.gone_on - TODAY).days) == ("discarded", 3)  # type: ignore[operator]
        assert package.best_by is None
        assert shelves.package_detail(world.room, code).history[-1].note == "torn, went soft"
    assert world.package(codes[1]).left_dg == 300
    assert all_troubles(world.room) == []


def test_a_note_is_kept_exactly_and_can_be_taken_away(world: World, codes: tuple[str, ...]) -> None:
    note = 'two lines\n[b]bold?[/b] 100 % "soft" – Zoë\'s'
    done = packages.note_package(world.room, codes[0], f"  {note} ")
    assert done.words == f"noted on {codes[0]}: {note}"
    assert world.package(codes[0]).note == note
    assert packages.note_package(world.room, codes[0], "").words == (
        f"cleared the note of {codes[0]}"
    )
    assert world.package(codes[0]).note == ""


def test_sisters_are_the_other_live_packages_of_the_lot(
    world: World, codes: tuple[str, ...]
) -> None:
    world.packed(PEAS)
    assert shelves.package_detail(world.room, codes[0]).sisters == 2
    packages.draw_package(world.room, codes[1])
    packages.draw_package(world.room, codes[2], Amount(dry_dg=1))
    assert shelves.package_detail(world.room, codes[0]).sisters == 1
    assert shelves.package_detail(world.room, codes[1]).sisters == 2


def test_a_candidate_has_what_is_left(world: World, codes: tuple[str, ...]) -> None:
    packages.draw_package(world.room, codes[0], Amount(dry_dg=100))
    package = world.package(codes[0])
    candidate = packages.candidate_of(package)
    assert (candidate.available_dg, candidate.water_dg, candidate.opened) == (300, 1_636, True)
    assert candidate.best_by == package.best_by
