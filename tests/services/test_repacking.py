"""Food packed anew: what it keeps of its past, and what it does not get back."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.packing import read_split
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.services import (
    bench,
    deciding,
    history,
    packages,
    packing,
    places,
    redrying,
    repacking,
    shelves,
)
from stockroom.services.dryness import DrynessTest, record_test
from stockroom.services.keeping import case_of, project_package
from stockroom.services.packages import Amount
from stockroom.services.results import Done
from stockroom.services.today import round_for_today
from tests.invariants import all_troubles
from tests.services.cases_rechecks import SOFT_TODAY, hold
from tests.world import APPLE, PEAS, TODAY, World

LEAKS = {Question.FEEL: "snaps", Question.SIGNS: "none"}
POUCH = "1xpouch-400-foil,absorber=100"


def repack(world: World, *codes: str, into: str = POUCH, place: str = "cellar") -> Done:
    """Pack all of it anew."""
    return repacking.repack_packages(world.room, codes, [read_split(into)], place=place)


def dried(world: World, *codes: str, wet_dg: int, dry_dg: int) -> None:
    """Put packages on tray 1 of a run of their own, dry them and show that they are."""
    run_id = bench.start_run(world.room).made_id
    redrying.load_again(world.room, 1, codes, gross_dg=wet_dg, run_id=run_id)
    bench.weigh_tray(world.room, 1, "dry", dry_dg, run_id=run_id)
    world.show_dry(1, dry_dg, run_id)
    bench.close_run(world.room, run_id=run_id)


def events(world: World, code: str) -> list[tuple[str, str]]:
    """What happened to a package and how it stood after."""
    return [
        (line.event, line.condition) for line in shelves.package_detail(world.room, code).history
    ]


def test_the_whole_story_from_the_settle_check_to_a_new_package(world: World) -> None:
    """Peas 1000 g dried to 155 g: 40 g of them take 218.1 g of water."""
    world.places("cellar")
    places.add_place(world.room, "freezer", temperature_dc=-180)
    one, two, three = world.packed(PEAS, "3xpouch-400-foil:40,absorber=100", place="cellar")
    settle, free = world.later(1), world.later(9)

    checked = packages.check_package(settle.room, one, Event.SOFT, note="limp")
    assert checked.words == (
        f"checked {one} ({PEAS}): soft, now suspect; 2 sisters of lot 26329A now suspect"
    )
    assert checked.codes == (one, two, three)
    page = round_for_today(settle.room)
    assert [package.code for package in page.suspect] == [one, two, three]
    assert [doubt.value for doubt in page.doubts] == ["soft", "sister_soft", "sister_soft"]

    decided = deciding.carry_out(
        settle.room, one, SOFT_TODAY, outcome=Outcome.HOLD, place="freezer", sisters_too=True
    )
    assert decided.codes == (one, two, three)
    assert [world.package(code).place for code in decided.codes] == ["freezer"] * 3
    assert [entry.code for entry in round_for_today(free.room).queue] == [one, two, three]

    dried(free, one, two, wet_dg=830, dry_dg=784)
    new = repack(free, one, into="2xpouch-400-foil,absorber=100")
    assert new.words == (
        f"packed {one}, {two} ({PEAS}) anew, dried again, into 2 packages, {new.codes[0]} to"
        f" {new.codes[1]}"
    )
    made = [world.package(code) for code in new.codes]
    assert [package.code[:8] for package in made] == ["26329A04", "26329A05"]
    for package in made:
        assert (package.condition, package.origin) == ("settling", "redried")
        assert (package.sealed_on, package.first_sealed_on) == (free.room.today, TODAY)
        assert (package.made_on, package.lot_code, package.place) == (TODAY, "26329A", "cellar")
        assert (package.dry_dg, package.gate_reason) == (392, "")
        detail = shelves.package_detail(world.room, package.code)
        assert (detail.sources, detail.successors) == ((one, two), ())
    # 80 g gave 78.4 g: the crumbs left on the tray took their share of the water with them.
    old_water_dg = sum(world.package(code).water_dg for code in (one, two))
    new_water_dg = sum(package.water_dg for package in made)
    assert abs(new_water_dg - Fraction(784, 800) * old_water_dg) <= Fraction(1, 2)

    for code in (one, two):
        package = world.package(code)
        assert (package.condition, package.left_dg, package.gone_on) == (
            "used",
            0,
            free.room.today,
        )
        assert shelves.package_detail(world.room, code).successors == new.codes
    assert events(world, one) == [
        ("sealed", "settling"),
        ("soft", "suspect"),
        ("hold", "held"),
        ("moved", "held"),
        ("redried", "used"),
        ("draw", ""),
    ]
    assert [entry.code for entry in redrying.machine_queue(free.room)] == [three]
    assert all_troubles(free.room) == []
    assert round_for_today(free.later(1).room).settle == tuple(made)
    packages.check_package(free.later(1).room, made[0].code, Event.CRISP)
    assert world.package(made[0].code).condition == "sound"
    for _ in range(3):
        history.undo(free.room)
    assert world.package(one).condition == "held"
    assert all_troubles(free.room) == []


@pytest.mark.parametrize(
    ("dry_dg", "new_dg", "kept"),
    [
        (380, 380, Fraction(380, 400)),
        (400, 400, Fraction(1)),
        (405, 405, Fraction(1)),
    ],
)
def test_moisture_left_in_it_gives_no_water(
    world: World, dry_dg: int, new_dg: int, kept: Fraction
) -> None:
    world.places("cellar", "freezer")
    (old,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")
    packages.check_package(world.room, old, Event.SOFT)
    hold(world, old)
    dried(world, old, wet_dg=430, dry_dg=dry_dg)
    new = world.package(repack(world, old, into="1xpouch-400-foil,absorber=100").codes[0])
    assert new.dry_dg == new_dg
    assert abs(new.water_dg - kept * world.package(old).water_dg) <= Fraction(1, 2)
    assert all_troubles(world.room) == []


@pytest.mark.parametrize("food", [APPLE, PEAS])
@pytest.mark.parametrize("wait_days", [1, 8, 60, 400])
@pytest.mark.parametrize("into", ["pouch-400-foil", "jar-475", "pouch-400-foil:40,absorber=100"])
def test_what_was_spent_of_its_quality_stays_spent(
    world: World, food: str, wait_days: int, into: str
) -> None:
    """Beside a sister that stood in the same places all the time and was never soft."""
    world.places("cellar")
    places.add_place(world.room, "freezer", temperature_dc=-180)
    container, _, rest = into.partition(":")
    whole = f"{container}:40{rest.removeprefix('40')}"
    soft, sister = world.packed(food, f"2x{whole}", place="cellar")
    packages.check_package(world.room, soft, Event.SOFT)
    hold(world, soft)
    packages.move_packages(world.room, [sister], "freezer")
    packages.check_package(world.room, sister, Event.CRISP)
    later = world.later(wait_days)
    dried(later, soft, wet_dg=420, dry_dg=400)
    new = later.package(
        repack(later, soft, into=f"1x{container}{rest.removeprefix('40')}", place="freezer").codes[
            0
        ]
    )
    spent = new.life_before_millionths
    assert spent is not None and 0 < spent <= 1_000_000
    untouched, redried = (
        project_package(later.room, world.package(one)) for one in (sister, new.code)
    )
    assert redried.mid_months <= untouched.mid_months

    # The model's own figure: the soft one as of the day it was dried again.
    case = case_of(later.room, world.package(soft))
    asked = replace(case, redried_on=later.room.today)
    (used,) = later.room.model.life_used(asked, [wait_days])
    assert 0 <= spent - used.middle * 1_000_000 < 1
    tight = replace(asked, seal_lost_on=None)
    (sisters,) = later.room.model.life_used(tight, [wait_days])
    assert used.middle >= sisters.middle, "open it ages no slower than its sister"
    assert all_troubles(later.room) == []


def test_a_long_wait_in_the_freezer_does_not_use_a_package_up(world: World) -> None:
    """The two weeks of an opened package end when its food is dried and closed again."""
    places.add_place(world.room, "freezer", temperature_dc=-180)
    (old,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")
    packages.check_package(world.room, old, Event.SOFT)
    hold(world, old)
    later = world.later(40)
    dried(later, old, wet_dg=420, dry_dg=400)
    new = later.package(repack(later, old, place="freezer").codes[0])
    assert new.best_by is not None
    assert new.best_by > later.room.today + timedelta(days=365)


def test_moisture_begins_anew(world: World) -> None:
    """In a zip bag moisture is what ends it: dried again it has all that time once more."""
    world.places("cellar", "freezer")
    old, sister = world.packed(APPLE, "2xbag-zip-1000:40", place="cellar")
    packages.check_package(world.room, old, Event.SOFT)
    hold(world, old)
    later = world.later(5)
    dried(later, old, wet_dg=420, dry_dg=400)
    new = later.package(repack(later, old, into="1xbag-zip-1000").codes[0])
    untouched = world.package(sister)
    assert untouched.best_by is not None
    assert new.best_by == untouched.best_by + timedelta(days=5)
    assert shelves.package_detail(later.room, new.code).projection.limited_by == "moisture"  # type: ignore[union-attr]


def test_dried_again_twice_what_was_spent_adds_up(world: World) -> None:
    world.places("cellar", "freezer")
    (code,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")
    spent = [0]
    for wait_days in (30, 60):
        packages.check_package(world.room, code, Event.SOFT)
        hold(world, code)
        world = world.later(wait_days)
        left_dg = world.package(code).left_dg
        dried(world, code, wet_dg=left_dg + 20, dry_dg=left_dg)
        code = repack(world, code).codes[0]
        package = world.package(code)
        assert package.life_before_millionths is not None
        assert package.first_sealed_on == TODAY
        spent.append(package.life_before_millionths)
    assert spent[2] == pytest.approx(3 * spent[1], rel=0.02), "60 days more, 30 before"
    assert all_troubles(world.room) == []


def test_where_nothing_can_be_said_of_its_past_the_model_works_it_out(world: World) -> None:
    places.add_place(world.room, "loft", temperature_dc=500)
    world.places("freezer", "cellar")
    (old,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100", place="loft")
    packages.check_package(world.room, old, Event.SOFT)
    hold(world, old)
    dried(world, old, wet_dg=420, dry_dg=400)
    packages.move_packages(world.room, [old], "loft")
    later = world.later(3)
    new = world.package(repack(later, old).codes[0])
    assert new.life_before_millionths is None
    assert all_troubles(later.room) == []


def test_a_gate_that_is_closed_is_passed_with_a_reason_only(world: World) -> None:
    world.places("freezer")
    (old,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")
    packages.check_package(world.room, old, Event.SOFT)
    hold(world, old)
    dried(world, old, wet_dg=420, dry_dg=400)
    record_test(world.room, 1, DrynessTest.COLD, False, run_id=2)
    splits = [read_split("1xpouch-400-foil:20,absorber=100"), read_split("1xjar-475")]
    done = repacking.repack_packages(world.room, [old], splits, despite="only felt cool")
    assert [world.package(code).gate_reason for code in done.codes] == ["only felt cool", ""]
    assert "botulism" in {one.key for one in done.cautions}


# Packed anew as it is


@pytest.fixture
def leaking(world: World) -> tuple[str, ...]:
    """Apples in the cellar, crisp after a day; the first was found leaking after 60 days."""
    world.places("cellar", "loft")
    codes = world.packed(APPLE, "3xpouch-400-foil:40,absorber=100", place="cellar")
    for code in codes:
        packages.check_package(world.later(1).room, code, Event.CRISP)
    packages.check_package(world.later(61).room, codes[0], Event.LEAK)
    return codes


def test_a_leaking_but_crisp_package_counts_as_opened_since(
    world: World, leaking: tuple[str, ...]
) -> None:
    found = world.later(61)
    decided = deciding.carry_out(found.room, leaking[0], LEAKS)
    assert decided.words == (f"decided on {leaking[0]} ({APPLE}): repack it with a new absorber")
    assert world.package(leaking[0]).condition == "suspect", "until it is packed anew"
    assert round_for_today(found.room).doubts[0].value == "repack"
    assert [world.package(code).condition for code in leaking[1:]] == ["sound", "sound"]
    before = world.package(leaking[0]).best_by
    new = found.package(repack(found, leaking[0]).codes[0])
    assert (new.origin, new.condition, new.dry_dg, new.water_dg) == (
        "repacked",
        "settling",
        400,
        world.package(leaking[0]).water_dg,
    )
    assert new.exposed_on == TODAY + timedelta(days=31), "midway since it was last crisp"
    assert new.first_sealed_on == TODAY
    assert new.life_before_millionths is None
    assert before is not None and new.best_by is not None
    assert new.best_by < TODAY + timedelta(days=31 + 62), "two months at most with an absorber"
    plain = case_of(found.room, new)
    assert plain.opened_on == new.exposed_on and plain.reclosed_with_absorber
    assert world.package(leaking[0]).condition == "used"
    assert events(world, leaking[0])[-2:] == [("repacked", "used"), ("draw", "")]
    assert all_troubles(found.room) == []


def test_without_an_absorber_it_has_no_more_than_before(
    world: World, leaking: tuple[str, ...]
) -> None:
    found = world.later(61)
    before = world.package(leaking[0]).best_by
    deciding.carry_out(found.room, leaking[0], LEAKS)
    new = found.package(repack(found, leaking[0], into="1xjar-475").codes[0])
    assert new.best_by is not None and before is not None
    assert new.best_by <= before
    assert not case_of(found.room, new).reclosed_with_absorber


def test_an_opened_package_is_exposed_from_its_opening(
    world: World, leaking: tuple[str, ...]
) -> None:
    opened, later = world.later(20), world.later(25)
    packages.draw_package(opened.room, leaking[1], Amount(dry_dg=150))
    new = later.package(repack(later, leaking[1]).codes[0])
    assert (new.exposed_on, new.dry_dg) == (opened.room.today, 250)
    assert new.water_dg == world.package(leaking[1]).water_dg - 818
    again = later.later(3).package(repack(later.later(3), new.code, into="1xjar-475").codes[0])
    assert again.exposed_on == opened.room.today, "closing it again does not undo the opening"
    assert all_troubles(later.room) == []


def test_several_packages_go_into_one(world: World, leaking: tuple[str, ...]) -> None:
    """The heap is as old as its oldest part."""
    opened, later = world.later(5), world.later(12)
    packages.draw_package(opened.room, leaking[1], Amount(dry_dg=100))
    done = repack(later, leaking[2], leaking[1], into="1xjar-950,absorber=200")
    new = world.package(done.codes[0])
    assert (new.dry_dg, new.exposed_on) == (700, opened.room.today)
    assert shelves.package_detail(later.room, new.code).sources == tuple(sorted(leaking[1:]))
    assert new.water_dg == sum(
        world.package(code).water_dg - drawn
        for code, drawn in zip(leaking[1:], (545, 0), strict=True)
    )
    assert all_troubles(later.room) == []


def test_a_new_absorber_asks_for_the_gate_of_the_first_drying(world: World) -> None:
    """Packed with air because nothing showed it dry, it is not packed without since."""
    lot = world.dry_lot(APPLE, tested=False)
    (old,) = world.pack(lot, "1xjar-475:40")
    jar = repacking.repack_packages(world.room, [old], [read_split("1xjar-475")])
    why = {"despite": "it has snapped for a week"}
    done = repacking.repack_packages(world.room, jar.codes, [read_split(POUCH)], **why)
    assert world.package(done.codes[0]).gate_reason == why["despite"]
    assert repacking.heap_of(world.room, done.codes).gate is not None
    assert not repacking.heap_of(world.room, done.codes).gate.open  # type: ignore[union-attr]


def test_food_dried_again_keeps_the_gate_and_the_sisters_of_that_drying(world: World) -> None:
    world.places("freezer", "cellar")
    lot = world.dry_lot(APPLE, tested=False)
    codes = world.pack(lot, "4xpouch-400-foil:20,absorber=100")
    packages.check_package(world.room, codes[0], Event.SOFT)
    hold(world, codes[0], sisters_too=True)
    dried(world, *codes[:3], wet_dg=640, dry_dg=600)
    one, two = repack(world, codes[0], into="2xjar-475,absorber=100").codes
    (three,) = repack(world, one).codes
    assert world.package(three).gate_reason == "", "shown dry the second time"
    checked = packages.check_package(world.later(1).room, three, Event.SOFT)
    assert checked.codes == (three, two)
    assert all_troubles(world.room) == []


def test_what_would_be_taken_is_shown_before(world: World, leaking: tuple[str, ...]) -> None:
    before = world.whole_dump()
    heap = repacking.heap_of(world.room, [leaking[1]])
    assert (heap.total.dry_dg, heap.dried, heap.exposed_on) == (400, None, TODAY)
    assert heap.gate is not None and heap.gate.open
    assert [one.code for one in heap.packages] == [leaking[1]]
    assert world.whole_dump() == before


def test_packing_anew_leaves_the_balance_of_the_lot_alone(
    world: World, leaking: tuple[str, ...]
) -> None:
    before = packing.lot_detail(world.room, "26329A").lot
    repack(world.later(61), leaking[1], into="2xjar-475")
    after = packing.lot_detail(world.room, "26329A").lot
    assert (after.packed_dg, after.packed_water_dg) == (before.packed_dg, before.packed_water_dg)
    assert (after.left_dg, after.packages) == (before.left_dg, before.packages + 2)


def test_the_place_it_came_from_still_counts(world: World) -> None:
    """A logger read too late, a temperature put right: what stood there since went elsewhere."""
    places.add_place(world.room, "loft", temperature_dc=250)
    world.places("cellar")
    (old,) = world.packed(APPLE, "1xpouch-400-foil:40,absorber=100", place="loft")
    later = world.later(30)
    (new,) = repack(later, old).codes
    (newest,) = repack(later, new, into="1xjar-475").codes
    assert world.package(newest).best_by is not None
    places.change_place(later.room, "loft", temperature_dc=480)
    assert "48.0 °C" in shelves.package_detail(later.room, newest).no_best_by
    assert all_troubles(later.room) == []
    history.undo(later.room)
    assert world.package(newest).best_by is not None
