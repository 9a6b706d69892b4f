"""What becomes of a soft package: the table cell by cell, and that no path rescues.

The table, its reasons and its limits are a project judgement resting on the National Center for
Home Food Preservation (moisture without spoilage: use at once or dry again; mould: discard), on
USDA FSIS (2 hours out of the cold, 1 hour above 90 °F) and on a toxin that gives no sign (Clemson
HGIC). It is written out here a second time.
"""

from __future__ import annotations

import itertools
from dataclasses import fields, replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import example, given, settings

from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.soft_decision import (
    Feel,
    Outcome,
    Row,
    Signs,
    Sisters,
    SoftDecision,
    SoftFacts,
    Tightness,
    as_answers,
    decide,
    is_acid_fruit,
    may_follow,
)
from stockroom.domain.soft_facts import soft_days, within_a_day
from tests.domain.soft_cases import ANY_FACTS, FOUND, TIMES, Time, facts_at

# The first line that fits holds. signs: bad, ok, unseen. feel: snaps, slight, moist (nobody felt
# it: moist). food: acid (fruit known to be), low (everything else). pack: air, none (no oxygen).
# soft: day (within 24 hours of sealing), few (3 days at most), late (longer, or nobody knows).
# cold: ever (chilled or frozen ever since, few as chilled food counts), short (known to be out
# within 2 hours), long.
ORACLE = """
signs feel food pack soft cold row
bad *  * * * * spoiled
ok snaps * * * * still_snaps
* snaps * * * * not_covered
* * low none few,late * low_acid_no_oxygen
* moist low * * long wet
unseen * * * * * not_covered
* slight * * day * within_a_day
* moist low * day ever,stale,short within_a_day
* * acid * day,few * soft_fruit
* * low air few,late ever kept_cold
* * * * * * not_covered
"""
HEAD, *LINES = (line.split() for line in ORACLE.strip().splitlines())

OFFERED = {
    "spoiled": "",
    "still_snaps": "repack",
    "within_a_day": "dry_again hold",
    "soft_fruit": "use_now dry_again hold",
    "low_acid_no_oxygen": "",
    "kept_cold": "use_now",
    "wet": "",
    "not_covered": "",
}

FOODS = (
    (FoodClass.FRUIT, True, "acid"),
    (FoodClass.FRUIT, False, "low"),
    (FoodClass.FRUIT, None, "low"),
    (FoodClass.VEGETABLE, None, "low"),
    (FoodClass.VEGETABLE, True, "low"),
    (FoodClass.MEAL, True, "low"),
)
SIGNS = ((None, "unseen"), (Signs.NONE, "ok"), (Signs.MOULD, "bad"))
FEELS = (
    (None, "moist"),
    (Feel.SNAPS, "snaps"),
    (Feel.SLIGHTLY_SOFT, "slight"),
    (Feel.MOIST, "moist"),
)
COLD = (
    (None, None, "long"),
    (None, 120, "short"),
    (None, 121, "long"),
    (None, -1, "long"),
    (False, None, "long"),
    (False, 0, "short"),
    (True, None, "ever"),
    (True, 120, "ever"),
    (True, 121, "long"),
)


def row_by_hand(**cell: str) -> str:
    """The first line of the oracle that fits a cell."""
    for line in LINES:
        said: dict[str, str] = dict(zip(HEAD, line, strict=True))
        if all(said[name] == "*" or value in said[name].split(",") for name, value in cell.items()):
            return said["row"]
    raise AssertionError(cell)


@pytest.mark.parametrize("time", TIMES, ids=str)
def test_every_cell_of_the_table(time: Time) -> None:
    seen: set[str] = set()
    for (food_class, acid, food), low_oxygen, (signs, sign), (
        feel,
        felt,
    ), cold in itertools.product(FOODS, (True, False), SIGNS, FEELS, COLD):
        kept_cold, minutes, stood = cold
        if stood == "ever" and time.chilled == "late":
            stood = "stale"
        row = row_by_hand(
            signs=sign,
            feel=felt,
            food=food,
            pack="none" if low_oxygen else "air",
            soft=time.comes_to,
            cold=stood,
        )
        seen.add(row)
        facts = facts_at(
            time,
            food_class=food_class,
            acid=acid,
            low_oxygen=low_oxygen,
            signs=signs,
            feel=feel,
            kept_cold=kept_cold,
            minutes_out=minutes,
        )
        free, busy = (decide(facts, machine_free=one) for one in (True, False))
        assert free.row == busy.row == row, facts
        assert " ".join(free.choices) == OFFERED[row]
        assert [one for one in free.choices if one is not Outcome.DRY_AGAIN] == list(busy.choices)
        assert (free.until, free.allowance, free.sisters) == (
            busy.until,
            busy.allowance,
            busy.sisters,
        )
    assert len(seen) >= 5


def test_the_times_cover_every_kind_of_time() -> None:
    assert {time.comes_to for time in TIMES} == {"day", "few", "late"}
    for time in TIMES:
        facts = facts_at(time)
        days = soft_days(facts, facts.counts_to)
        assert within_a_day(facts) is (time.comes_to == "day")
        assert (days is None or days > 3) is (time.comes_to == "late")


@pytest.mark.parametrize("signs", [one for one in Signs if one is not Signs.NONE])
def test_any_sign_of_spoilage_is_discarded_whatever_else(signs: Signs) -> None:
    # NCHFP: mouldy food is discarded.
    for time, feel, low_oxygen in itertools.product(TIMES, Feel, (True, False)):
        found = decide(
            facts_at(time, signs=signs, feel=feel, low_oxygen=low_oxygen, kept_cold=True),
            machine_free=True,
        )
        assert (found.outcome, found.row) == (Outcome.DISCARD, Row.SPOILED)
        assert signs.words in found.reason
        assert "spoiled" in keys(found)


def keys(found: SoftDecision) -> set[str]:
    """The keys of its cautions."""
    return {one.key for one in found.cautions}


@settings(max_examples=600)
@given(ANY_FACTS)
@example(facts_at(TIMES[10], signs=Signs.NONE, feel=Feel.SLIGHTLY_SOFT))
@example(facts_at(TIMES[23], signs=Signs.NONE, feel=Feel.SLIGHTLY_SOFT, kept_cold=True))
def test_no_path_rescues_low_acid_food_soft_without_oxygen(facts: SoftFacts) -> None:
    # The limits once more, counted here by plain days and not by the program's own helpers.
    last = facts.found_on if facts.frozen_since_found else max(facts.found_on, facts.decided_on)
    days = None if facts.sealed_on is None else (last - facts.sealed_on).days
    hours = facts.hours_since_sealing
    late = days is None or days > 1 or (hours or 0) > 24 or (hours is None and days != 0)
    low_acid = not (facts.food_class is FoodClass.FRUIT and facts.acid)
    if facts.feel is Feel.SNAPS or not (low_acid and facts.low_oxygen and late):
        return
    for machine_free in (True, False):
        found = decide(facts, machine_free=machine_free)
        assert found.outcome is Outcome.DISCARD
        assert found.choices == ()
        assert [one for one in Outcome if found.allows(one)] == [Outcome.DISCARD]
        assert "toxin-no-sign" in keys(found)
        assert found.until is None and found.allowance == ""


@settings(max_examples=400)
@given(ANY_FACTS)
def test_every_decision_is_whole_and_none_is_tasted(facts: SoftFacts) -> None:
    found = decide(facts, machine_free=False)
    assert {"never-taste", "spoiled", "local-codes"} <= keys(found)
    assert Outcome.DRY_AGAIN not in found.choices
    assert found.allows(Outcome.DISCARD)
    assert (found.outcome is Outcome.DISCARD) is (not found.choices)
    assert found.freezer_meanwhile is (Outcome.HOLD in found.choices)
    assert found.reason.endswith(".") and found.sources
    assert bool(found.allowance) is bool(found.choices)
    assert ("sisters" in keys(found)) is found.sisters.doubtful
    if found.until is not None:
        assert found.until >= max(facts.found_on, facts.decided_on)
        assert found.until.isoformat() in found.allowance
    if found.choices:
        assert facts.signs is Signs.NONE
        assert ("raw-stays-raw" in keys(found)) is (facts.preparation is Preparation.RAW)
    wet = facts.feel is Feel.MOIST and not is_acid_fruit(facts.food_class, facts.acid)
    if wet and (facts.minutes_out or 0) > (60 if facts.hot_room else 120):
        assert found.choices == ()


@settings(max_examples=400)
@given(ANY_FACTS)
def test_the_reason_can_be_shown_rule_by_rule(facts: SoftFacts) -> None:
    found = decide(facts, machine_free=True)
    working = found.working
    assert len(working.steps) == len(found.looked) + 3
    for looked, step in zip(found.looked, working.steps, strict=False):
        assert step.title == looked.rule
        assert step.result == f"{'yes' if looked.holds else 'no'}: {looked.answer}"
        assert looked.source in working.sources
    assert len({one.rule for one in found.looked}) == len(found.looked)
    assert found.row.words in working.steps[-3].result
    assert working.steps[-2].result == found.words
    for source in found.sources:
        assert source.citation in found.reason_with_sources


ANSWERS: dict[str, tuple[object, ...]] = {
    "signs": tuple(Signs),
    "feel": tuple(Feel),
    "acid": (True, False),
    "frozen_since_found": (True, False),
    "kept_cold": (True, False),
    "minutes_out": (0, 60, 120, 10_000),
    "tightness": tuple(Tightness),
}


@settings(max_examples=400)
@given(ANY_FACTS)
def test_food_kept_without_knowing_would_be_kept_whatever_the_answer(facts: SoftFacts) -> None:
    # Not the hours: on the day after sealing they count as within a day until a person says more.
    if not decide(facts, machine_free=True).choices:
        return
    for name, answers in ANSWERS.items():
        # Kept cold ever since is an answer about the minutes too.
        if getattr(facts, name) is None and not (name == "minutes_out" and facts.kept_cold):
            for answer in answers:
                known: dict[str, Any] = {name: answer}
                assert decide(replace(facts, **known), machine_free=True).choices


def slight(time: Time, **known: object) -> SoftDecision:
    """The decision on food slightly soft without a sign of spoilage."""
    facts = facts_at(time, **{"signs": Signs.NONE, "feel": Feel.SLIGHTLY_SOFT, **known})
    return decide(facts, machine_free=True)


SAME_DAY, NEXT_DAY, OLD = TIMES[0], TIMES[4], TIMES[10]
CRISP_3_DAYS_AGO = TIMES[11]


def test_row_1_soft_within_a_day_dries_the_whole_lot_again() -> None:
    # No time for harm, and sisters share the fault (project judgement).
    for food_class in FoodClass:
        found = slight(NEXT_DAY, food_class=food_class)
        assert found.choices == (Outcome.DRY_AGAIN, Outcome.HOLD)
        assert found.sisters is Sisters.DRY_ALL
        assert found.until == FOUND
        assert found.freezer_meanwhile
        assert {"soft-early", "redry-to-plateau", "freezer-wait"} <= keys(found)
        assert "never dry" in found.reason
    assert slight(SAME_DAY).until == FOUND + timedelta(days=1)


@pytest.mark.parametrize("time", [one for one in TIMES if one.decided == 0], ids=str)
def test_a_sister_joins_the_lot_only_within_a_day_of_its_own_sealing(time: Time) -> None:
    # A sister sealed long before may have been soft for as long.
    unknown_on_the_day_after = (time.sealed, time.hours) == (1, None)
    assert may_follow(facts_at(time)) is (time.comes_to == "day" or unknown_on_the_day_after)


def test_drying_again_and_holding_have_the_same_allowance() -> None:
    facts = facts_at(NEXT_DAY, signs=Signs.NONE, feel=Feel.SLIGHTLY_SOFT)
    free, busy = (decide(facts, machine_free=one) for one in (True, False))
    assert (free.outcome, busy.outcome) == (Outcome.DRY_AGAIN, Outcome.HOLD)
    assert (free.allowance, free.until) == (busy.allowance, busy.until)
    assert "freezer" in busy.allowance


def test_frozen_since_it_was_found_it_waits_without_a_last_day() -> None:
    found = slight(TIMES[19])
    assert found.outcome is Outcome.DRY_AGAIN
    assert found.until is None
    assert "stays frozen" in found.allowance


def test_no_hours_of_drying_are_ever_printed() -> None:
    # No time for drying again has been published: dry to constant weight, and test again.
    found = slight(NEXT_DAY)
    assert "constant weight" in found.words
    (caution,) = (one for one in found.cautions if one.key == "redry-to-plateau")
    assert not any(letter.isdigit() for letter in caution.text)


@pytest.mark.parametrize("low_oxygen", [True, False])
@pytest.mark.parametrize("feel", [Feel.SLIGHTLY_SOFT, Feel.MOIST])
def test_row_2_acid_fruit_is_used_at_once_or_dried_again(low_oxygen: bool, feel: Feel) -> None:
    # NCHFP, Packaging and Storing Dried Foods: food affected by moisture, but not spoiled, is used
    # immediately or dried again and repackaged.
    found = slight(
        CRISP_3_DAYS_AGO,
        food_class=FoodClass.FRUIT,
        acid=True,
        low_oxygen=low_oxygen,
        feel=feel,
    )
    assert found.choices == (Outcome.USE_NOW, Outcome.DRY_AGAIN, Outcome.HOLD)
    assert found.row is Row.SOFT_FRUIT
    assert found.until == FOUND
    assert "National Center for Home Food Preservation" in found.reason_with_sources
    assert found.sisters is Sisters.SUSPECT


@pytest.mark.parametrize("acid", [False, None])
def test_fruit_not_known_to_be_acid_counts_as_low_acid(acid: bool | None) -> None:
    found = slight(CRISP_3_DAYS_AGO, food_class=FoodClass.FRUIT, acid=acid)
    assert found.row is Row.LOW_ACID_NO_OXYGEN
    assert not is_acid_fruit(FoodClass.FRUIT, acid)
    assert is_acid_fruit(FoodClass.FRUIT, True)
    assert not any(is_acid_fruit(one, True) for one in FoodClass if one is not FoodClass.FRUIT)


@pytest.mark.parametrize("food_class", [one for one in FoodClass if one is not FoodClass.FRUIT])
def test_row_3_low_acid_soft_without_oxygen_is_discarded(food_class: FoodClass) -> None:
    # Clemson HGIC; NCHFP: toxin gives no sign; drying again does not destroy it.
    for time in (OLD, CRISP_3_DAYS_AGO, TIMES[5], TIMES[23]):
        found = slight(time, food_class=food_class, kept_cold=True, acid=True)
        assert found.row is Row.LOW_ACID_NO_OXYGEN
        assert found.words == "Discard it. Do not taste it."
        assert found.cautions[0].key == "soft-discard"
        assert "does not destroy it" in found.reason
        assert {"botulism", "toxin-no-sign"} <= keys(found)


def test_row_4_low_acid_in_air_kept_cold_is_wet_food_to_be_used() -> None:
    # USDA FSIS: 2 hours out of the cold; leftovers 3 to 4 days chilled, the stricter taken.
    found = slight(CRISP_3_DAYS_AGO, low_oxygen=False, kept_cold=True, minutes_out=30)
    assert found.choices == (Outcome.USE_NOW,)
    assert found.until == FOUND
    assert "90 of 120 minutes" in found.allowance
    assert {"wet-now", "reheat"} <= keys(found)
    late = slight(CRISP_3_DAYS_AGO, low_oxygen=False, kept_cold=True, minutes_out=30, hot_room=True)
    assert "30 of 60 minutes" in late.allowance
    out = slight(CRISP_3_DAYS_AGO, low_oxygen=False, kept_cold=True, minutes_out=61, hot_room=True)
    assert out.row is Row.NOT_COVERED


def test_row_4_at_room_temperature_is_not_covered() -> None:
    for kept_cold in (False, None):
        found = slight(CRISP_3_DAYS_AGO, low_oxygen=False, kept_cold=kept_cold)
        assert found.outcome is Outcome.DISCARD
        assert found.row is Row.NOT_COVERED
        assert "not-covered" in keys(found)


@pytest.mark.parametrize(
    ("tightness", "sisters"),
    [
        (None, Sisters.LOOK_AT_SEALS),
        (Tightness.NOT_KNOWN, Sisters.LOOK_AT_SEALS),
        (Tightness.NEVER_TIGHT, Sisters.LOOK_AT_SEALS),
        (Tightness.LOST, Sisters.NONE),
        (Tightness.HOLDS, Sisters.NONE),
    ],
)
@pytest.mark.parametrize("time", [NEXT_DAY, OLD, TIMES[23]])
def test_row_6_food_that_snaps_is_repacked(
    time: Time, tightness: Tightness | None, sisters: Sisters
) -> None:
    # The barrier was lost, the food was not (project judgement).
    found = slight(time, feel=Feel.SNAPS, tightness=tightness)
    assert found.choices == (Outcome.REPACK,)
    assert found.sisters is sisters
    assert "vacuum-lost" in keys(found)
    assert "opened packages" in found.reason
    assert ("record it as crisp" in found.reason) is (tightness is Tightness.HOLDS)


@pytest.mark.parametrize(("minutes", "kept"), [(None, False), (121, False), (120, True), (0, True)])
def test_wet_low_acid_food_within_a_day_has_two_hours(minutes: int | None, kept: bool) -> None:
    # The 2-hour rule of USDA FSIS outranks the kinder row.
    found = slight(NEXT_DAY, feel=Feel.MOIST, minutes_out=minutes)
    assert found.row is (Row.WITHIN_A_DAY if kept else Row.WET)
    assert bool(found.choices) is kept
    assert "wet-perishable" in keys(found)


def test_in_a_hot_room_it_has_one_hour() -> None:
    for minutes, row in ((60, Row.WITHIN_A_DAY), (61, Row.WET)):
        found = slight(NEXT_DAY, feel=Feel.MOIST, minutes_out=minutes, hot_room=True)
        assert found.row is row


def test_nothing_is_kept_that_nobody_looked_at() -> None:
    found = slight(NEXT_DAY, signs=None)
    assert found.outcome is Outcome.DISCARD
    assert "Nobody said whether it shows mould" in found.reason


def test_raw_food_dried_again_stays_raw() -> None:
    assert "raw-stays-raw" in keys(slight(NEXT_DAY, preparation=Preparation.RAW))
    assert "raw-stays-raw" not in keys(slight(OLD, preparation=Preparation.RAW))


def test_what_was_known_can_be_kept_with_the_decision() -> None:
    facts = facts_at(NEXT_DAY, signs=Signs.NONE, feel=Feel.MOIST, minutes_out=5)
    kept = as_answers(facts)
    assert list(kept) == [one.name for one in fields(SoftFacts)]
    assert kept["sealed_on"] == "2026-11-24"
    assert (kept["feel"], kept["minutes_out"], kept["low_oxygen"]) == ("moist", 5, True)
    assert all(not isinstance(one, date) for one in kept.values())
