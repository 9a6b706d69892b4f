"""What becomes of a doubtful package: offered, refused, carried out, and never talked round."""

from __future__ import annotations

import itertools
import json
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from random import Random

import pytest

from stockroom.domain.conditions import Event
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.packing import read_split
from stockroom.domain.soft_decision import Outcome, Question, Row, Sisters, Tightness
from stockroom.errors import StockroomError
from stockroom.services import (
    bench,
    deciding,
    foods,
    history,
    kitchen,
    packages,
    places,
    redrying,
    repacking,
    shelves,
)
from stockroom.services.deciding import carry_out, consider, hold_package
from stockroom.services.session import Stockroom
from stockroom.services.today import round_for_today
from tests.invariants import all_troubles
from tests.services.cases_rechecks import SOFT_TODAY, one_soft
from tests.services.steps import STEPS
from tests.world import APPLE, BEEF_RAW, PEAS, TODAY, World, copied_world

FEEL, SIGNS = Question.FEEL, Question.SIGNS
HOURS, FROZEN = Question.HOURS_SINCE_SEALING, Question.FROZEN_SINCE_FOUND
SLIGHTLY = {FEEL: "slightly_soft", SIGNS: "none"}


def _pouches(world: World, food: str = PEAS, into: str = "3xpouch-400-foil:40,absorber=100") -> str:
    """Packages of a food in the cellar; the code of the first."""
    world.places("cellar", "freezer")
    return world.packed(food, into, place="cellar")[0]


def _conditions(world: World) -> list[str]:
    return [world.package(f"26329A0{number}").condition for number in (1, 2, 3)]


# What is asked, and what is offered


def test_question_by_question_to_a_decision(world: World) -> None:
    one_soft(world)
    asked: list[Question] = []
    answers: dict[Question, str] = {}
    given_answers = {FEEL: "slightly_soft", SIGNS: "none"}
    while (seen := consider(world.room, "26329A01", answers)).question is not None:
        asked.append(seen.question)
        answers[seen.question] = given_answers[seen.question]
    assert asked == [FEEL, SIGNS]
    assert seen.answers == answers
    assert seen.decision.row is Row.WITHIN_A_DAY
    assert seen.decision.choices == (Outcome.DRY_AGAIN, Outcome.HOLD)
    assert seen.decision.sisters is Sisters.DRY_ALL
    assert seen.facts.acid is True, "known of an apple of the reference table"
    assert seen.seal.tightness is Tightness.NOT_KNOWN


def test_the_hours_are_asked_for_on_the_day_after(world: World) -> None:
    code = _pouches(world)
    packages.check_package(world.later(1).room, code, Event.SOFT)
    room = world.later(1).room
    assert consider(room, code, SLIGHTLY).question is HOURS
    for hours in ("25", "unknown"):
        assert consider(room, code, {**SLIGHTLY, HOURS: hours}).decision.choices == ()
    seen = consider(room, code, {**SLIGHTLY, HOURS: "24"})
    assert (seen.question, seen.decision.row) == (None, Row.WITHIN_A_DAY)
    for outcome in (None, Outcome.HOLD):
        with pytest.raises(deciding.HoursMissing):
            carry_out(room, code, SLIGHTLY, outcome=outcome)
    assert carry_out(room, code, SLIGHTLY, outcome=Outcome.DISCARD).codes[0] == code


@pytest.mark.parametrize("busy", ["an open run", "food waiting"])
def test_the_machine_is_taken_by_a_run_or_by_what_waits(world: World, busy: str) -> None:
    one_soft(world)
    assert deciding.machine_is_free(world.room)
    if busy == "an open run":
        bench.start_run(world.room)
    else:
        redrying.hold_lot(world.room, "26329A")
    assert not deciding.machine_is_free(world.room)
    decision = consider(world.room, "26329A01", SOFT_TODAY).decision
    assert (decision.outcome, decision.choices) == (Outcome.HOLD, (Outcome.HOLD,))


def test_a_fruit_of_the_household_s_own_is_asked_about(world: World) -> None:
    foods.add_food(
        world.room, "Sloes", food_class=FoodClass.FRUIT, preparation=Preparation.READY, like=None
    )
    code = _pouches(world, "Sloes")
    later = world.later(3)
    packages.check_package(later.room, code, Event.SOFT)
    seen = consider(later.room, code, SLIGHTLY)
    assert (seen.facts.acid, seen.question) == (None, Question.ACID)
    assert seen.decision.choices == (), "not known counts as low-acid"
    acid = consider(later.room, code, {**SLIGHTLY, Question.ACID: "yes"})
    assert acid.decision.row is Row.SOFT_FRUIT
    low = consider(later.room, code, {**SLIGHTLY, Question.ACID: "no"})
    assert low.decision.row is Row.LOW_ACID_NO_OXYGEN


def test_a_hot_room_halves_the_time(world: World) -> None:
    code = _pouches(world)
    places.change_place(world.room, "cellar", temperature_dc=322)
    packages.check_package(world.room, code, Event.SOFT)
    assert not consider(world.room, code).facts.hot_room
    places.change_place(world.room, "cellar", temperature_dc=323)
    moist = {FEEL: "moist", SIGNS: "none", Question.MINUTES_OUT: "90"}
    assert consider(world.room, code, moist).facts.hot_room
    assert consider(world.room, code, moist).decision.row is Row.WET
    assert consider(world.room, code, {**moist, Question.MINUTES_OUT: "60"}).decision.choices
    places.change_place(world.room, "cellar", temperature_dc=200)
    assert consider(world.room, code, moist).decision.choices


def test_a_look_that_only_considers_changes_nothing(world: World) -> None:
    one_soft(world)
    before = world.whole_dump()
    consider(world.room, "26329A01", SOFT_TODAY)
    assert world.whole_dump() == before


# Carried out


def test_a_decision_is_kept_with_its_answers(world: World) -> None:
    one_soft(world)
    done = carry_out(world.room, "26329A01", SOFT_TODAY, place="freezer", note=" limp ")
    code = world.package("26329A01").code
    assert done.words == (
        f"decided on {code} ({APPLE}): dry it again, to constant weight, and pack it anew"
    )
    assert {"never-taste", "soft-early", "freezer-wait"} <= {one.key for one in done.cautions}
    (kept,) = shelves.package_detail(world.room, code).inspections
    assert json.loads(kept.answers) == {str(key): said for key, said in SOFT_TODAY.items()}
    assert (kept.outcome, kept.rule, kept.on_day) == ("dry_again", "within_a_day", TODAY)
    assert "never dry" in kept.reason
    assert (kept.note, kept.use_by) == ("limp", None)
    assert world.package(code).place == "freezer"
    assert _conditions(world) == ["held", "suspect", "suspect"]


def test_the_whole_lot_goes_with_it_where_it_may(world: World) -> None:
    one_soft(world)
    codes = [world.package(f"26329A0{number}").code for number in (1, 2, 3)]
    packages.check_package(world.room, codes[2], Event.CRISP)
    done = carry_out(world.room, codes[0], SOFT_TODAY, sisters_too=True, place="freezer")
    assert done.codes == (codes[0], codes[1]), "the third was looked at itself"
    assert done.words.endswith(f"pack it anew, with {codes[1]}")
    assert _conditions(world) == ["held", "held", "sound"]
    assert redrying.machine_queue(world.room)[1].reason == (
        f"{codes[0]} was soft within a day of sealing"
    )
    assert all_troubles(world.room) == []


def test_a_sister_sealed_earlier_does_not_go_with_it(world: World) -> None:
    """Part of the lot was packed days before: those may have been soft for longer."""
    world.places("cellar")
    lot = world.dry_lot(APPLE)
    (old,) = world.pack(lot, "1xpouch-400-foil:40,absorber=100")
    later = world.later(4)
    (new,) = later.pack(lot, "1xpouch-400-foil:40,absorber=100")
    packages.check_package(later.room, new, Event.SOFT)
    done = carry_out(later.room, new, SOFT_TODAY, sisters_too=True)
    assert done.codes == (new,)
    assert world.package(old).condition == "suspect"
    with pytest.raises(deciding.LookFirst):
        hold_package(later.room, old)


def test_a_sister_is_held_by_itself_within_a_day(world: World) -> None:
    one_soft(world)
    code = world.package("26329A02").code
    done = hold_package(world.later(1).room, code, place="freezer", why="sister")
    assert done.words == f"held {code} ({APPLE}) until the machine is free, in freezer"
    assert _conditions(world) == ["suspect", "held", "suspect"]
    assert all_troubles(world.later(1).room) == []


def test_discarding_may_always_be_chosen(world: World) -> None:
    one_soft(world)
    carry_out(world.room, "26329A01", {}, outcome=Outcome.DISCARD)
    package = world.package("26329A01")
    assert (package.condition, package.gone_on) == ("discarded", TODAY)
    line = shelves.package_detail(world.room, package.code).history[-1]
    assert (line.event, line.note) == ("discard", "no row covers it")
    assert all_troubles(world.room) == []


def test_use_now_opens_it_and_caps_its_best_by(world: World) -> None:
    code = _pouches(world, APPLE)
    found = world.later(3)
    packages.check_package(found.room, code, Event.SOFT)
    before = world.package(code).best_by
    assert before is not None and before > found.room.today
    seen = consider(found.room, code, SLIGHTLY)
    assert seen.decision.row is Row.SOFT_FRUIT
    assert seen.decision.until == found.room.today
    carry_out(found.room, code, SLIGHTLY, outcome=Outcome.USE_NOW)
    package = world.package(code)
    assert (package.condition, package.opened_on) == ("opened", found.room.today)
    assert package.best_by == found.room.today
    (kept,) = shelves.package_detail(found.room, code).inspections
    assert kept.use_by == found.room.today
    assert all_troubles(found.room) == []
    packages.draw_package(found.room, code)
    history.undo(found.room)
    history.undo(found.room)
    assert world.package(code).best_by == before
    assert world.package(code).condition == "suspect"


def test_food_kept_cold_in_air_has_three_days(world: World) -> None:
    code = _pouches(world, PEAS, "2xjar-475:40")
    packages.check_package(world.later(1).room, code, Event.CRISP)
    found = world.later(2)
    packages.check_package(found.room, code, Event.SOFT)
    cold = {**SLIGHTLY, Question.KEPT_COLD: "yes", Question.MINUTES_OUT: "30"}
    carry_out(found.room, code, cold, outcome=Outcome.USE_NOW)
    assert world.package(code).best_by == TODAY + timedelta(days=1 + 3)
    with pytest.raises(repacking.WentSoft):
        repacking.repack_packages(found.room, [code], [read_split("1xjar-475")])
    with pytest.raises(packages.SoftStands):
        packages.check_package(found.later(1).room, code, Event.CRISP)


def test_a_fault_cleared_by_a_crisp_look_is_no_longer_decided_on(world: World) -> None:
    code = _pouches(world)
    packages.check_package(world.room, code, Event.DAMAGED)
    packages.check_package(world.later(5).room, code, Event.CRISP)
    assert world.package(code).condition == "sound"
    packages.check_package(world.later(9).room, code, Event.DAMAGED)
    seen = consider(world.later(9).room, code)
    assert (seen.facts.found_on, seen.facts.last_crisp_on) == (
        TODAY + timedelta(days=9),
        TODAY + timedelta(days=5),
    )


def test_softness_felt_only_at_the_decision_is_recorded_and_doubts_the_sisters(
    world: World,
) -> None:
    code = _pouches(world, APPLE)
    packages.check_package(world.room, code, Event.DAMAGED)
    assert _conditions(world) == ["suspect", "settling", "settling"]
    done = carry_out(world.room, code, SOFT_TODAY, outcome=Outcome.HOLD)
    assert done.words.endswith("; 2 sisters of lot 26329A now suspect")
    assert done.codes == tuple(world.package(f"26329A0{number}").code for number in (1, 2, 3))
    assert _conditions(world) == ["held", "suspect", "suspect"]
    events = [line.event for line in shelves.package_detail(world.room, code).history]
    assert events == ["sealed", "damaged", "soft", "hold"]
    assert all_troubles(world.room) == []


def test_food_that_snaps_says_nothing_of_its_sisters(world: World) -> None:
    code = _pouches(world, APPLE)
    packages.check_package(world.room, code, Event.LEAK)
    carry_out(world.room, code, {FEEL: "snaps", SIGNS: "none"})
    assert _conditions(world) == ["suspect", "settling", "settling"]


def test_what_was_used_soft_is_not_packed_anew_as_crisp(world: World) -> None:
    """Found leaking, felt soft at the decision: from then on it is soft on record."""
    code = _pouches(world, APPLE)
    found = world.later(2)
    packages.check_package(found.room, code, Event.LEAK)
    carry_out(found.room, code, SLIGHTLY, outcome=Outcome.USE_NOW)
    with pytest.raises(repacking.WentSoft):
        repacking.repack_packages(found.room, [code], [read_split("1xjar-475")])


# What is never rescued


def test_time_counts_from_the_softness_not_from_a_leak_before(world: World) -> None:
    """Leaking on its first day, soft a week later: no freezer since then helps."""
    code = _pouches(world)
    packages.check_package(world.room, code, Event.LEAK)
    found = world.later(7)
    packages.check_package(found.room, code, Event.SOFT)
    seen = consider(found.room, code, {**SLIGHTLY, FROZEN: "yes", HOURS: "5"})
    assert seen.facts.found_on == found.room.today
    assert (seen.decision.row, seen.decision.choices) == (Row.LOW_ACID_NO_OXYGEN, ())
    assert seen.seal.tightness is Tightness.NEVER_TIGHT


EVERY_ANSWER = [
    dict(zip(Question, said, strict=True))
    for said in itertools.product(
        ("slightly_soft", "moist", "unknown"),
        ("none", "unknown"),
        ("yes", "no"),
        ("0", "unknown"),
        ("yes",),
        ("yes", "no"),
        ("0", "unknown"),
        ("holds", "lost"),
    )
]


KINDEST = EVERY_ANSWER[0]


@pytest.mark.parametrize("food", [PEAS, BEEF_RAW])
@pytest.mark.parametrize("soft_after", [2, 40])
def test_no_answers_rescue_low_acid_food_soft_without_oxygen(
    world: World, food: str, soft_after: int
) -> None:
    code = _pouches(world, food)
    found = world.later(soft_after)
    packages.check_package(found.room, code, Event.SOFT)
    for answers in EVERY_ANSWER:
        decision = consider(found.room, code, answers).decision
        assert (decision.outcome, decision.choices) == (Outcome.DISCARD, ()), answers
    for outcome in Outcome:
        if outcome is not Outcome.DISCARD:
            with pytest.raises(deciding.NotOffered):
                carry_out(found.room, code, SOFT_TODAY, outcome=outcome)


def _dangerous(world: World) -> World:
    """Peas in three pouches without oxygen, the first found soft on the third day: that day.

    It leaked from the first. A run is open, apples are on the shelf beside them, and there is a
    recipe.
    """
    first = _pouches(world)
    world.packed(APPLE, "2xpouch-400-foil:40,absorber=100", place="cellar")
    world.recipe()
    packages.check_package(world.room, first, Event.LEAK)
    packages.check_package(world.later(2).room, first, Event.SOFT)
    bench.start_run(world.later(2).room)
    return world.later(2)


def _check(room: Stockroom, pick: Random, code: str) -> object:
    finding = pick.choice((Event.CRISP, Event.CRISP, Event.LEAK, Event.DAMAGED))
    return packages.check_package(room, code, finding, opened=pick.random() < 0.3)


def _decide(room: Stockroom, pick: Random, code: str) -> object:
    """The kindest answers there are, some of them left out."""
    answers = pick.choice([KINDEST, KINDEST, pick.choice(EVERY_ANSWER)])
    feel = pick.choice((answers[FEEL], "snaps"))
    said = {one: answer for one, answer in {**answers, FEEL: feel}.items() if pick.random() < 0.9}
    outcome = pick.choice([one for one in Outcome if one is not Outcome.DISCARD])
    return carry_out(room, code, said, outcome=outcome, sisters_too=True)


def _load(room: Stockroom, pick: Random, code: str) -> object:
    (open_run, *_) = [run for run in bench.list_runs(room) if run.state == "open"] or [None]
    run_id = open_run.run_id if open_run else bench.start_run(room).made_id
    redrying.load_again(room, pick.randrange(1, 30), [code], gross_dg=420, run_id=run_id)
    return bench.close_run(room, run_id=run_id)


def _repack(room: Stockroom, pick: Random, code: str) -> object:
    codes = pick.choice(([code], [code, "26329A02"]))
    return repacking.repack_packages(room, codes, [read_split("1xjar-950")], despite="it snaps")


ESCAPES: dict[str, Callable[[Stockroom, Random, str], object]] = {
    "check": _check,
    "decide": _decide,
    "load": _load,
    "repack": _repack,
    "hold": lambda room, _, code: deciding.hold_package(room, code, place="freezer"),
    "draw": lambda room, _, code: packages.draw_package(room, code),
    "cook": lambda room, _, __: kitchen.cook_meal(room, "Pea soup", 4, take_short=True),
}
"""Ways to get at the food of one package."""
DAYS = (-3, -2, -1, 1, 2, 3, 9)
"""From the day it was found, which is left out: on that day itself crisp mends a slip."""


@pytest.mark.parametrize("seed", range(12))
def test_no_way_through_the_services_eats_or_repacks_it(world: World, seed: int) -> None:
    """Whatever is done, on whatever day: its food stays where it is, or is thrown away."""
    world, chance = _dangerous(world), Random(seed)
    code = world.package("26329A01").code
    for _ in range(80):
        name = chance.choice([*ESCAPES] if chance.random() < 0.7 else [*STEPS])
        room = world.later(chance.choice(DAYS)).room
        try:
            if name in ESCAPES:
                ESCAPES[name](room, chance, code)
            else:
                STEPS[name](room, chance)
        except StockroomError:
            continue
        package = world.package(code)
        assert package.condition in ("suspect", "discarded"), name
        assert package.taken_dg == 0, name
        assert shelves.package_detail(world.room, code).successors == (), name


def test_the_same_ways_do_get_at_food_that_may_be_eaten(
    room_template: Path, tmp_path: Path
) -> None:
    """The property above is worth nothing if every way is refused to any food."""
    for name in ("draw", "repack", "cook", "decide", "hold", "check"):
        world = _dangerous(copied_world(room_template, tmp_path / f"{name}.db"))
        packages.check_package(world.room, "26329A02", Event.CRISP)
        code = "26329B01"
        if name in ("decide", "hold"):
            other = "26329B02" if name == "hold" else code
            packages.check_package(world.on(TODAY).room, other, Event.SOFT)
        before = world.dump()
        for seed in range(40):
            try:
                ESCAPES[name](world.on(TODAY).room, Random(seed), code)
                break
            except StockroomError:
                continue
        assert world.dump() != before, name
        world.room.close()


def test_a_sister_that_was_never_looked_at_is_not_eaten_either(world: World) -> None:
    """Suspect until it was looked at itself; then it stands for itself."""
    code = _pouches(world)
    found = world.later(2)
    packages.check_package(found.room, code, Event.SOFT)
    with pytest.raises(StockroomError):
        packages.draw_package(found.room, "26329A02")
    packages.check_package(found.room, "26329A02", Event.CRISP)
    packages.draw_package(found.room, "26329A02")
    page = round_for_today(found.room)
    assert [one.code[:8] for one in page.suspect] == ["26329A01", "26329A03"]
