"""Tracing back and forward, recalls, and what soft packages have in common."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from scipy.stats import binomtest

from stockroom.domain.common_ground import Common, CommonPage, Ground, Telling
from stockroom.domain.conditions import Condition, Event, NotAllowed
from stockroom.domain.soft_decision import Outcome
from stockroom.domain.trace_records import Group, GroupKind, TracePage
from stockroom.services import (
    bench,
    deciding,
    history,
    kitchen,
    packages,
    places,
    redrying,
    repacking,
    shelves,
    tracing,
)
from tests.invariants import all_troubles
from tests.traced import (
    SOFT_TODAY,
    WHY,
    Traced,
    dried_again,
    found_soft,
    split,
    traced,
)
from tests.world import APPLE, PEAS, TODAY, World


@pytest.fixture
def shelf(world: World) -> Traced:
    """Two runs on the shelves."""
    return traced(world)


def group(page: TracePage, kind: GroupKind) -> Group:
    """The group of a kind; it has to be there."""
    found = page.group(kind)
    assert found is not None
    return found


def codes_of(found: Group) -> set[str]:
    """The codes listed of a group."""
    return {one.code for one in found.listed}


# Back


def test_a_package_is_traced_back_to_its_trays_and_what_showed_dryness(
    world: World, shelf: Traced
) -> None:
    page = tracing.trace(world.room, shelf.peas[0])
    (drying,) = page.dryings
    assert (drying.run.run_id, drying.run.started_on, drying.again) == (
        1,
        TODAY - timedelta(days=60),
        False,
    )
    assert [(one.tray.position, one.tray.food, one.own) for one in drying.trays] == [
        (1, PEAS, True),
        (2, APPLE, False),
    ]
    tray = drying.trays[0]
    assert (tray.tray.wet_dg, tray.tray.dry_dg) == (10_000, 1_550)
    assert [one.net_dg for one in tray.weighings] == [1_550, 1_550]
    assert (tray.cold, tray.broken) == ("no cold spot", "snaps")
    assert drying.gate.open and drying.extra == ()
    assert page.package is not None
    assert (page.package.absorber_packet, page.package.gate_reason) == ("P7", "")
    assert page.sources == page.successors == ()


def test_an_override_of_the_gate_is_kept_with_its_reason_and_cautions(
    world: World, shelf: Traced
) -> None:
    page = tracing.trace(world.room, shelf.wet[0])
    assert page.package is not None and page.package.gate_reason == WHY
    assert not page.dryings[0].gate.open
    keys = [one.key for one in page.cautions]
    assert {"botulism", "dry-enough"} < set(keys) and keys[-1] == "local-codes"
    sound = tracing.trace(world.room, shelf.peas[0])
    assert [one.key for one in sound.cautions] == ["local-codes"]


@pytest.mark.usefixtures("shelf")
def test_food_dried_again_is_traced_through_both_runs(world: World) -> None:
    old, new = dried_again(world)
    page = tracing.trace(world.room, new)
    first, again = page.dryings
    assert (first.run.run_id, first.again, again.run.run_id, again.again) == (3, False, 4, True)
    assert [one.tray.position for one in again.trays] == [3]
    assert [one.hours_tenths for one in again.extra] == [20]
    assert again.run.note == "only what was soft"
    assert again.gate.open
    assert [one.code for one in page.sources] == [old]
    back = tracing.trace(world.room, old)
    assert [one.code for one in back.successors] == [new]
    assert len(back.dryings) == 1
    assert codes_of(group(page, GroupKind.RUN)) == {new, old}
    assert [one.name for one in page.groups if one.kind is GroupKind.RUN] == ["3", "4"]


@pytest.mark.usefixtures("shelf")
def test_food_packed_anew_twice_keeps_all_its_past(world: World) -> None:
    old, jar = dried_again(world)
    pouch = repacking.repack_packages(
        world.later(-5).room, [jar], [split(1, "", "")], despite="it snaps"
    ).codes[0]
    page = tracing.trace(world.room, pouch)
    assert [one.run.run_id for one in page.dryings] == [3, 4]
    assert [one.code for one in page.sources] == [jar]
    assert codes_of(group(page, GroupKind.RUN)) == {pouch, jar, old}
    # The absorbers of packet P9 went into the jar alone, but its food went on.
    assert codes_of(group(tracing.trace(world.room, jar), GroupKind.PACKET)) == {jar, pouch}


def test_a_lot_dried_again_before_it_was_packed(world: World) -> None:
    lot = world.dry_lot(PEAS, 1000, 155, tested=False)
    before = world.pack(lot, "1xjar-475:20")[0]
    later = world.later(1)
    redrying.hold_lot(later.room, lot, why="a cold spot")
    run_id = bench.start_run(later.room).made_id
    redrying.load_again(later.room, 4, [lot], run_id=run_id)
    bench.weigh_tray(later.room, 4, "dry", 1_300, run_id=run_id)
    later.show_dry(4, 1_300, run_id)
    bench.close_run(later.room, run_id=run_id)
    after = later.pack(lot, "2xpouch-400-foil:20,absorber=100")
    assert [one.run.run_id for one in tracing.trace(later.room, before).dryings] == [1]
    page = tracing.trace(later.room, after[0])
    assert [(one.run.run_id, one.again) for one in page.dryings] == [(1, False), (run_id, True)]
    assert page.dryings[1].gate.open and not page.dryings[0].gate.open
    assert codes_of(group(page, GroupKind.RUN)) == set(after)
    assert [one.run.run_id for one in tracing.trace(later.room, lot).dryings] == [1, run_id]


# Forward


def test_everything_that_shares_its_past_is_found(world: World, shelf: Traced) -> None:
    packages.draw_package(world.later(-3).room, shelf.peas[0])
    packages.discard_packages(world.later(-2).room, [shelf.apples[3]], "torn")
    page = tracing.trace(world.room, shelf.peas[1])
    lot, run = group(page, GroupKind.LOT), group(page, GroupKind.RUN)
    packet, box = group(page, GroupKind.PACKET), group(page, GroupKind.BOX)
    assert codes_of(lot) == set(shelf.peas)
    assert (lot.packages, lot.live, lot.recallable) == (6, 5, 5)
    assert lot.conditions == ((Condition.SOUND, 5), (Condition.USED, 1))
    assert lot.listed[-1].code == shelf.peas[0]
    assert codes_of(run) == {*shelf.peas, *shelf.apples}
    assert (run.packages, run.live) == (10, 8)
    # A capital letter or a space makes no other packet and no other box.
    assert codes_of(packet) == set(shelf.peas)
    assert codes_of(box) == {*shelf.peas, *shelf.apples}
    assert (packet.words, box.words) == ("absorber packet P7", "container box Blue")
    other = tracing.trace(world.room, shelf.peas[5])
    assert codes_of(group(other, GroupKind.PACKET)) == set(shelf.peas)


def test_a_packet_or_box_nobody_wrote_down_makes_no_group(world: World) -> None:
    code = world.packed(PEAS, "2xpouch-400-foil:20,absorber=100")[0]
    page = tracing.trace(world.room, code)
    assert [one.kind for one in page.groups] == [GroupKind.LOT, GroupKind.RUN]
    assert page.group(GroupKind.PACKET) is None


def test_each_package_is_listed_once_by_its_narrowest_group(world: World, shelf: Traced) -> None:
    page = tracing.trace(world.room, shelf.peas[0])
    fresh = [(one.kind, {each.code for each in new}) for one, new in page.listed_once()]
    assert fresh == [
        (GroupKind.LOT, set(shelf.peas)),
        (GroupKind.RUN, set(shelf.apples)),
        (GroupKind.PACKET, set()),
        (GroupKind.BOX, set()),
    ]


def test_a_long_list_is_cut_and_its_whole_number_named(world: World) -> None:
    lot = world.dry_lot(wet_g=5_000, dry_g=900)
    codes = world.pack(lot, f"{tracing.LISTED + 7}xjar-475:5")
    packages.discard_packages(world.room, [codes[0]], "cracked")
    found = group(tracing.trace(world.room, codes[1]), GroupKind.LOT)
    assert (found.packages, len(found.listed)) == (tracing.LISTED + 7, tracing.LISTED)
    assert codes[0] not in codes_of(found)
    done = tracing.recall(world.room, codes[1], GroupKind.LOT, "lids from one bad batch")
    assert len(done.codes) == tracing.LISTED + 6


def test_a_lot_is_traced_like_a_package(world: World, shelf: Traced) -> None:
    code = world.package(shelf.peas[0]).lot_code
    page = tracing.trace(world.room, code)
    assert (page.code, page.package) == (code, None)
    assert [one.kind for one in page.groups] == [GroupKind.LOT, GroupKind.RUN]
    assert codes_of(group(page, GroupKind.LOT)) == set(shelf.peas)


def test_meals_cooked_with_food_of_the_lot_are_named(world: World, shelf: Traced) -> None:
    world.recipe("Pea soup", 2)
    kitchen.cook_meal(world.room, "Pea soup", 2, take_short=True)
    meals = tracing.trace(world.room, shelf.peas[0]).meals
    lines = shelves.package_detail(world.room, shelf.peas[0]).history
    drawn = sum(line.dry_dg or 0 for line in lines)
    assert [(one.name, one.on_day) for one in meals] == [("Pea soup", TODAY)]
    assert meals[0].packages > 1 and meals[0].dry_dg > drawn > 0
    assert tracing.trace(world.room, shelf.apples[0]).meals == ()


def test_what_waits_for_the_machine_says_so(world: World) -> None:
    world.places("freezer")
    code = world.packed(APPLE, "2xpouch-400-foil:20,absorber=100")[0]
    packages.check_package(world.room, code, Event.SOFT)
    deciding.carry_out(world.room, code, SOFT_TODAY, outcome=Outcome.HOLD, place="freezer")
    page = tracing.trace(world.room, code)
    assert page.queued is not None and page.queued.state == "waiting"
    assert "never-taste" in [one.key for one in page.cautions]


# Recall


@pytest.mark.parametrize(
    ("by", "recalled", "words"),
    [
        (GroupKind.LOT, "peas", "of lot 26269A"),
        (GroupKind.RUN, "peas apples", "of run 1"),
        (GroupKind.PACKET, "peas", "of absorber packet P7"),
        (GroupKind.BOX, "peas apples", "of container box Blue"),
    ],
)
def test_a_recall_makes_the_whole_group_suspect_in_one_action(
    world: World, shelf: Traced, by: GroupKind, recalled: str, words: str
) -> None:
    wanted = {code for name in recalled.split() for code in getattr(shelf, name)}
    entries = len(history.journal_keys(world.room))
    before = world.dump()
    done = tracing.recall(world.room, shelf.peas[0], by, " door seal [torn] ")
    assert set(done.codes) == wanted
    assert f"recalled {len(wanted)} packages {words}: door seal [torn]" in done.words
    assert len(history.journal_keys(world.room)) == entries + 1
    for code in (*shelf.peas, *shelf.apples, *shelf.wet):
        now = world.package(code).condition
        assert now == ("suspect" if code in wanted else "sound"), code
    last = shelves.package_detail(world.room, shelf.peas[0]).history[-1]
    assert (last.event, last.condition) == ("recall", "suspect")
    assert last.note == f"{words.removeprefix('of ')}: door seal [torn]"
    assert all_troubles(world.room) == []
    history.undo(world.room)
    assert world.dump()["package"] == before["package"]
    assert world.dump()["package_event"] == before["package_event"]
    history.redo(world.room)
    assert world.package(shelf.peas[0]).condition == "suspect"


def test_a_recall_goes_place_by_place(world: World, shelf: Traced) -> None:
    world.places("cellar/bin 10", "cellar/bin 9")
    packages.move_packages(world.room, [shelf.peas[5]], "cellar")
    packages.move_packages(world.room, [shelf.peas[0]], "bin 10")
    packages.move_packages(world.room, [shelf.peas[1]], "bin 9")
    done = tracing.recall(world.room, shelf.peas[0], GroupKind.RUN, "the door")
    fetch = tracing.recalled(world.room, done)
    assert [one.place for one in fetch] == [
        "cellar",
        *["cellar/bin"] * 3,
        "cellar/bin 9",
        "cellar/bin 10",
        *["loft"] * 4,
    ]
    order = (5, 2, 3, 4, 1, 0)
    assert [one.code for one in fetch] == [*(shelf.peas[at] for at in order), *shelf.apples]


def test_a_recall_leaves_alone_what_is_in_doubt_held_or_gone(world: World, shelf: Traced) -> None:
    packages.check_package(world.room, shelf.apples[0], Event.LEAK)
    packages.discard_packages(world.room, [shelf.apples[1]], "torn")
    packages.draw_package(world.room, shelf.apples[2])
    packages.draw_package(world.room, shelf.apples[3], packages.Amount(dry_dg=10))
    done = tracing.recall(world.room, shelf.apples[0], GroupKind.LOT, "tacky")
    assert done.codes == (shelf.apples[3],)
    conditions = [world.package(code).condition for code in shelf.apples]
    assert conditions == ["suspect", "discarded", "used", "suspect"]
    # Looked at and crisp, the opened one is opened again.
    packages.check_package(world.room, shelf.apples[3], Event.CRISP)
    assert world.package(shelf.apples[3]).condition == "opened"


def test_a_recall_leaves_what_is_held_in_the_freezer(world: World) -> None:
    world.places("freezer")
    held, other = world.packed(APPLE, "2xpouch-400-foil:20,absorber=100")
    packages.check_package(world.room, held, Event.SOFT)
    deciding.carry_out(world.room, held, SOFT_TODAY, outcome=Outcome.HOLD, place="freezer")
    packages.check_package(world.room, other, Event.CRISP)
    done = tracing.recall(world.room, held, GroupKind.RUN, "the pump failed")
    assert done.codes == (other,)
    assert world.package(held).condition == "held"


def test_a_recall_says_which_food_has_no_label_yet(world: World, shelf: Traced) -> None:
    by_run = tracing.recall(world.room, shelf.peas[0], GroupKind.RUN, "the door")
    assert by_run.words.endswith("look at it too: food of lots 26269A, 26269B")
    by_lot = tracing.recall(world.room, shelf.wet[0], GroupKind.LOT, "wet")
    assert by_lot.words.endswith("look at it too: food of lot 26289A")


@pytest.mark.usefixtures("shelf")
def test_a_recall_by_run_takes_the_run_it_was_last_dried_in(world: World) -> None:
    _, new = dried_again(world)
    assert tracing.recall(world.room, new, GroupKind.RUN, "the pump failed").codes == (new,)


def test_a_recall_brings_the_cautions_of_every_food_in_it(world: World, shelf: Traced) -> None:
    done = tracing.recall(world.room, shelf.peas[0], GroupKind.RUN, "the door")
    keys = [one.key for one in done.cautions]
    assert keys[0] == "soft-discard"  # peas in low oxygen
    assert "soft-acid" in keys  # apples
    assert keys[-1] == "local-codes" and len(keys) == len(set(keys))


def test_a_recalled_package_is_not_eaten_from(world: World, shelf: Traced) -> None:
    tracing.recall(world.room, shelf.peas[0], GroupKind.LOT, "absorbers went hard")
    with pytest.raises(NotAllowed):
        packages.draw_package(world.room, shelf.peas[0])


# In common


def line(page: CommonPage, ground: Ground, name: str) -> Common:
    """One group of a page."""
    (found,) = [one for one in page.groups if (one.ground, one.name) == (ground, name)]
    return found


def test_nothing_looked_at_is_nothing_to_compare(world: World) -> None:
    world.packed()
    page = tracing.in_common(world.room)
    assert (page.overall.looked_at, page.groups, page.compared, page.notes) == (0, (), 0, ())


def test_what_soft_packages_share_stands_out_first(world: World, shelf: Traced) -> None:
    """Five of the six of run 2 against none of ten, by the exact interval as scipy has it.

    Clopper and Pearson by the beta distribution; for none of ten it is 1 - 0.025 ** (1 / 10).
    """
    found_soft(world, shelf.wet[:5])
    page = tracing.in_common(world.room)
    assert (page.overall.soft, page.overall.looked_at) == (5, 16)
    first = page.groups[0]
    assert first.telling is Telling.MORE
    run = line(page, Ground.RUN, "2")
    assert (run.here.soft, run.here.looked_at) == (5, 6)
    outside = binomtest(5, 6).proportion_ci(0.95, method="exact")
    assert (run.here.low, run.here.high) == pytest.approx((outside.low, outside.high), abs=1e-9)
    assert (run.elsewhere.soft, run.elsewhere.looked_at) == (0, 10)
    assert run.elsewhere.high == pytest.approx(1 - 0.025**0.1, abs=1e-9)
    assert run.telling is Telling.MORE
    assert run.soft_lots == ("26289A",)
    assert "no proof of a cause" in run.sentence and "lot 26289A" in run.sentence
    ranks = [one.telling for one in page.groups]
    assert ranks == sorted(ranks, key=[Telling.MORE, Telling.LESS, Telling.SAME,
                                       Telling.NOTHING, Telling.TOO_FEW].index)  # fmt: skip


def test_overlapping_ranges_claim_nothing(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:2])
    page = tracing.in_common(world.room)
    assert {one.telling for one in page.groups} <= {
        Telling.SAME,
        Telling.NOTHING,
        Telling.TOO_FEW,
    }
    run = line(page, Ground.RUN, "2")
    assert run.telling is Telling.SAME and "overlap" in run.sentence
    assert "cause" not in run.sentence


def test_a_sister_made_suspect_is_not_soft_itself(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:1])
    assert world.package(shelf.wet[1]).condition == "suspect"
    assert tracing.in_common(world.room).overall.soft == 1
    # Nor is one called back.
    tracing.recall(world.room, shelf.peas[0], GroupKind.LOT, "tacky")
    assert tracing.in_common(world.room).overall.soft == 1


def test_each_ground_is_read_off_the_record(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet)
    found_soft(world, shelf.peas[:1])
    page = tracing.in_common(world.room)
    said = {(one.ground, one.name): (one.here.soft, one.here.looked_at) for one in page.groups}
    assert said[Ground.PACKET, "P7"] == (1, 6)
    assert said[Ground.PACKET, "P8"] == (6, 10)
    assert said[Ground.BOX, "Blue"] == (1, 10)
    assert said[Ground.CONTAINER, "foil pouch 400 mL"] == (7, 16)
    assert said[Ground.CLOSING, "absorber"] == (7, 16)
    assert said[Ground.FOOD_CLASS, "vegetable"] == (7, 12)
    # Peas of run 1 said their tray, those of run 2 had only the one; apples had only the second.
    assert said[Ground.TRAY, "1"] == (7, 12)
    assert said[Ground.PLACE, "loft"] == (6, 10)
    assert (Ground.FOOD_CLASS, "fruit") not in said  # four looked at and none soft: too few
    assert page.left_out == page.compared - len(page.groups) > 0


def test_the_place_is_where_it_stood_when_found(world: World, shelf: Traced) -> None:
    """Moved after it was found soft, the next room is not to blame."""
    packages.move_packages(world.later(-20).room, list(shelf.wet[:3]), "cellar")
    found_soft(world, shelf.wet[:3])
    packages.move_packages(world.later(-5).room, list(shelf.wet[:3]), "freezer")
    page = tracing.in_common(world.room)
    places_named = {one.name: one.here.soft for one in page.groups if one.ground is Ground.PLACE}
    assert places_named["cellar"] == 3
    assert "freezer" not in places_named


def test_a_place_counts_for_the_places_above_it(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.peas[:2])
    packages.move_packages(world.room, [shelf.apples[0]], "cellar")
    packages.check_package(world.room, shelf.apples[0], Event.SOFT)
    page = tracing.in_common(world.room)
    below, above = line(page, Ground.PLACE, "cellar/bin"), line(page, Ground.PLACE, "cellar")
    assert (below.here.soft, below.here.looked_at) == (2, 6)
    assert (above.here.soft, above.here.looked_at) == (3, 7)


def test_a_place_with_no_more_than_one_within_it_is_named_once(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.peas)
    named = [one.name for one in tracing.in_common(world.room).groups if one.ground is Ground.PLACE]
    assert "cellar/bin" in named and "cellar" not in named


@pytest.mark.usefixtures("shelf")
def test_the_run_of_food_dried_again_is_the_last_one(world: World) -> None:
    _, new = dried_again(world)
    packages.check_package(world.room, new, Event.SOFT)
    page = tracing.in_common(world.room)
    assert line(page, Ground.RUN, "3").here.looked_at == 1
    assert line(page, Ground.RUN, "4").here.looked_at == 1


def test_only_one_food_or_only_since_a_day(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:5])
    peas = tracing.in_common(world.room, food=PEAS.upper())
    assert (peas.food, peas.overall.soft, peas.overall.looked_at) == (PEAS, 5, 12)
    day = TODAY - timedelta(days=10)
    since = tracing.in_common(world.room, since=day)
    assert (since.since, since.overall.looked_at) == (day, 5)
    assert tracing.in_common(world.room, since=day + timedelta(days=1)).overall.looked_at == 0
    assert tracing.in_common(world.room, since=date(2020, 1, 1)).overall.looked_at == 16
    assert any("too few to tell" in one for one in since.notes)


def test_a_slip_mended_on_its_day_is_no_soft_package(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:2])
    packages.check_package(world.later(-10).room, shelf.wet[0], Event.CRISP)
    page = tracing.in_common(world.room)
    assert (page.overall.soft, page.overall.looked_at) == (1, 16)


def test_that_many_groups_are_compared_is_said(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:2])
    page = tracing.in_common(world.room)
    assert any(f"{page.compared} groups were compared" in one for one in page.notes)
    assert any("No cause is shown" in one for one in page.notes)


def test_a_renamed_place_keeps_its_packages(world: World, shelf: Traced) -> None:
    found_soft(world, shelf.wet[:2])
    places.change_place(world.room, "loft", new_name="Attic")
    page = tracing.in_common(world.room)
    assert line(page, Ground.PLACE, "Attic").here.soft == 2
