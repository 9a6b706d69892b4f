"""When a package is looked at again: the practice's numbers, its reasons, and what always holds."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.recheck_facts import (
    LooksADay,
    LooksOutOfOrder,
    NoDaySetAside,
    RecheckFacts,
    RecheckSettings,
)
from stockroom.domain.recheck_schedule import recheck, recheck_many, reckon
from stockroom.domain.rechecks import settle_check_due
from stockroom.errors import Refused
from tests.domain.recheck_cases import PLAIN, SEALED, after, any_facts, any_settings, found_crisp

UNDRAWN = 233
"""A Fibonacci number: this multiple of the golden ratio is almost a whole number, and just
above one, so that this package is never drawn earlier."""


def by(facts: RecheckFacts, **wishes: Any) -> int:
    """Days from sealing to the day before anything is drawn off for the sisters."""
    return reckon(facts, RecheckSettings(**wishes)).by - SEALED.toordinal()


def keys(facts: RecheckFacts) -> list[str]:
    return [one.key for one in recheck(facts).why]


# -- the practice's numbers ----------------------------------------------------------------------


def test_the_day_after_a_week_a_month_and_every_half_year() -> None:
    """Household practice: the day after sealing, 7 days, 1 month, then every 6 months."""
    facts = replace(PLAIN, package_id=UNDRAWN)
    days = [settle_check_due(SEALED)]
    for _ in range(5):
        facts = replace(facts, findings=tuple((day, "crisp") for day in days))
        days.append(recheck(facts).wanted_on)
    assert [(later - day).days for day, later in pairwise([SEALED, *days])] == [
        1,
        7,
        30,
        183,
        183,
        183,
    ]


@pytest.mark.parametrize(
    ("looks", "expected"),
    [
        ((), 7),  # settled, but nobody wrote down a look: counted from sealing
        ((0,), 7),
        ((1,), 1 + 7),
        ((3,), 3 + 7),  # less than half a week old: the week's look is still to come
        ((4,), 4 + 30),  # a late settle check stands for it
        ((1, 3), 3 + 7),
        ((1, 8), 8 + 30),
        ((1, 8, 22), 22 + 30),  # less than three quarters of a month
        ((1, 8, 23), 23 + 183),
        ((1, 60), 60 + 183),  # nobody looked for two months: both early looks are made up for
        ((1, 8, 38, 200), 200 + 183),
    ],
)
def test_the_interval_goes_by_how_long_it_was_sound(looks: tuple[int, ...], expected: int) -> None:
    assert by(found_crisp(*looks)) == expected


def test_other_intervals_can_be_wished_for() -> None:
    wishes = {"first_days": 3, "second_days": 14, "later_days": 90}
    assert by(found_crisp(1), **wishes) == 1 + 3
    assert by(found_crisp(1, 4), **wishes) == 4 + 14
    assert by(found_crisp(1, 4, 18), **wishes) == 18 + 90
    assert by(found_crisp(4), first_days=8) == 4 + 30  # half of it is enough
    assert by(found_crisp(4), first_days=9) == 4 + 9


# -- what makes it sooner ------------------------------------------------------------------------

REGULAR = found_crisp(1, 8, 38)
DRY_EGG: dict[str, Any] = {"food_class": "egg", "fat_of_solids": Fraction(1, 100)}


@pytest.mark.parametrize(
    ("change", "reasons", "part"),
    [
        ({}, [], "1"),
        ({"package_kind": "jar"}, [], "1"),
        ({"package_kind": "zip_bag"}, ["zip-bag"], "0.40"),
        ({"package_kind": "vacuum_bag"}, ["vacuum-bag"], "0.75"),
        ({"package_kind": "metallised_pouch"}, ["thin-pouch"], "0.90"),
        ({"sugars_of_solids": Fraction(50, 100)}, ["sugary"], "0.70"),
        ({"sugars_of_solids": Fraction(49, 100)}, [], "1"),
        ({"sugars_of_solids": None}, [], "1"),
        ({"sugars_of_solids": None, "food_class": "fruit"}, ["sugary"], "0.70"),
        ({"sugars_of_solids": Fraction(1, 10), "food_class": "fruit"}, [], "1"),
        ({"fat_of_solids": Fraction(5, 100)}, ["some-fat"], "0.85"),
        ({"fat_of_solids": Fraction(15, 100)}, ["fatty", "fat-in-air"], "0.56"),
        ({"fat_of_solids": Fraction(15, 100), "vacuum": True}, ["fatty", "low-acid"], "0.63"),
        ({"fat_of_solids": None}, [], "1"),
        ({"fat_of_solids": None, "food_class": "nuts"}, ["fatty", "fat-in-air"], "0.56"),
        ({"food_class": "nonfat_dairy"}, ["powdered"], "0.85"),
        (DRY_EGG, ["powdered"], "0.85"),
        ({"absorber_cc": 300}, ["low-acid"], "0.90"),
        ({"absorber_cc": 300, "food_class": "fruit"}, [], "1"),
        ({"warmest_dc": 259}, [], "1"),
        ({"warmest_dc": 260}, ["warm"], "0.80"),
        ({"warmest_dc": 320}, ["hot"], "0.60"),
        ({"warmest_dc": 380}, ["very-hot"], "0.40"),
        ({"warmest_dc": None, "humidity_percent": None}, [], "1"),
        ({"humidity_percent": 90}, [], "1"),  # foil lets nothing through
        ({"humidity_percent": 60, "package_kind": "zip_bag"}, ["zip-bag", "damp"], "0.34"),
        ({"humidity_percent": 75, "package_kind": "zip_bag"}, ["zip-bag", "very-damp"], "0.28"),
        ({"sisters_soft": 1, "sisters_checked": 5}, ["sister-soft"], "0.50"),
        ({"sisters_soft": 1, "sisters_checked": 4}, ["many-soft"], "0.35"),
        ({"best_by": None, "low": None}, ["without-date"], "0.50"),
    ],
)
def test_each_reason_leaves_its_part_of_the_interval(
    change: dict[str, Any], reasons: list[str], part: str
) -> None:
    facts = replace(REGULAR, **change)
    assert keys(facts) == ["later-look", *reasons]
    wait = Fraction(part) * 183
    assert by(facts) - 38 == -(-wait.numerator // wait.denominator)


def test_however_many_reasons_no_wait_is_below_a_quarter() -> None:
    worst = replace(
        REGULAR,
        package_kind="zip_bag",
        food_class="fatty_dairy",
        fat_of_solids=Fraction(40, 100),
        sugars_of_solids=Fraction(60, 100),
        warmest_dc=400,
        humidity_percent=90,
        sisters_soft=3,
        sisters_checked=3,
    )
    assert by(worst) - 38 == 46  # 183 / 4, rounded up
    assert by(replace(worst, findings=PLAIN.findings)) == 2  # 7 / 4


def test_a_package_at_risk_has_more_looks_before_it_is_left_alone() -> None:
    risky = replace(PLAIN, package_kind="zip_bag", sugars_of_solids=Fraction(60, 100))
    day, looks = 1, [1]
    while reckon(found_crisp(*looks, facts=risky)).stage.key != "later-look":
        day = by(found_crisp(*looks, facts=risky))
        looks.append(day)
    assert looks == [1, 3, 5, 14, 23]


def test_a_fault_that_was_cleared_begins_the_looks_anew() -> None:
    findings = (*REGULAR.findings, (after(100), "soft"), (after(101), "crisp"))
    facts = replace(REGULAR, findings=findings)
    assert keys(facts) == ["first-look", "was-at-fault"]
    assert by(facts) == 101 + 4  # half of 7, rounded up
    again = replace(facts, findings=(*findings, (after(105), "crisp")))
    assert keys(again) == ["second-look", "was-at-fault"]
    assert by(again) == 105 + 15


def test_a_package_last_found_at_fault_is_due_at_once() -> None:
    answer = recheck(replace(REGULAR, findings=(*REGULAR.findings, (after(50), "leak"))))
    assert answer.earliest_on == answer.wanted_on == answer.latest_on == after(50)
    assert answer.risk == 1000
    assert answer.reasons == ("found at fault, so doubtful",)


# -- moves ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("moved", "expected"),
    [
        (37, 38 + 183),  # before its last look
        (38, 38 + 30),  # on that day: a leak takes days to show
        (100, 100 + 30),
        (200, 38 + 183),  # the regular look comes first
    ],
)
def test_a_move_wants_a_look_within_a_month(moved: int, expected: int) -> None:
    facts = replace(REGULAR, moved_on=after(moved))
    assert by(facts) == expected
    assert ("moved" in keys(facts)) == (expected < 38 + 183)


def test_a_look_after_the_move_settles_it() -> None:
    facts = replace(found_crisp(1, 8, 38, 130), moved_on=after(100))
    assert by(facts) == 130 + 183


# -- low edge and best-by ------------------------------------------------------------------------


def dated(low: int, best_by: int, *looks: int) -> RecheckFacts:
    return replace(found_crisp(1, 8, 38, *looks), low=after(low), best_by=after(best_by))


@pytest.mark.parametrize(
    ("low", "best_by", "looked", "expected", "reason"),
    [
        (800, 4000, 400, 400 + 183, None),
        (500, 4000, 400, 500, "low-edge"),
        (431, 4000, 400, 431, "low-edge"),
        (430, 4000, 400, 430, "past-low-edge"),  # a month before it: this was that look
        (410, 4000, 400, 430, "past-low-edge"),
        (300, 4000, 400, 430, "past-low-edge"),
        (300, 429, 400, 429, "past-best-by"),
        (300, 414, 400, 414, "past-best-by"),
        (300, 380, 400, 414, "past-best-by"),
        (300, 300, 400, 414, "past-best-by"),
    ],
)
def test_low_edge_then_monthly_then_every_two_weeks(
    low: int, best_by: int, looked: int, expected: int, reason: str | None
) -> None:
    facts = dated(low, best_by, looked)
    assert by(facts) == expected
    assert keys(facts)[-1] == (reason or "later-look")


def test_the_second_half_of_the_life_counts_for_more() -> None:
    # Best-by on day 800: the middle is day 400. From day 300, 100 of 183 days come before it,
    # and of the other 83 three quarters are left, 62.25.
    facts = dated(700, 800, 300)
    assert by(facts) == 400 + 63
    assert "second-half" in keys(facts)
    assert by(dated(790, 800, 450)) == 450 + 138  # all of 183 in the second half


def test_a_look_sets_a_new_day_and_leaves_the_best_by_alone() -> None:
    """Idea: re-test date, ICH Q1A(R2), glossary (published)."""
    facts = dated(500, 600, 450)
    assert by(facts) == 500
    assert by(dated(500, 600, 450, 499)) == 499 + 30
    assert by(dated(500, 600, 450, 499, 590)) == 590 + 14


# -- sisters -------------------------------------------------------------------------------------


@pytest.mark.parametrize("first_id", [1, 17, 4_000, 99_990, 1_234_567])
def test_five_hundred_of_one_day_do_not_fall_due_together(first_id: int) -> None:
    wanted = Counter(
        recheck(replace(REGULAR, package_id=first_id + number)).wanted_on for number in range(500)
    )
    assert len(wanted) == 183 // 6 + 1
    assert max(wanted.values()) <= 20


@pytest.mark.parametrize("first_id", [1, 58, 12_345])
def test_sisters_of_a_lot_are_apart(first_id: int) -> None:
    days = sorted(
        recheck(replace(REGULAR, package_id=first_id + number)).wanted_on for number in range(12)
    )
    # Twelve multiples of the golden ratio lie 0.056 to 0.146 of the whole apart (three distance
    # theorem, Sos 1958, with the ratio's powers): 1.7 to 4.5 of 31 days.
    assert len(set(days)) == 12
    assert max((b - a).days for a, b in pairwise(days)) <= 5


def test_early_looks_are_drawn_a_day_at_most() -> None:
    for package_id in range(1, 60):
        early = (
            by(found_crisp(1))
            - (recheck(replace(found_crisp(1), package_id=package_id)).wanted_on - SEALED).days
        )
        assert early in (0, 1)


def test_a_package_more_moves_no_other() -> None:
    lot = [replace(REGULAR, package_id=number) for number in range(1, 30)]
    before = recheck_many(lot)
    assert recheck_many([*lot, replace(REGULAR, package_id=30)])[:29] == before
    assert recheck_many(reversed(lot)) == before[::-1]


# -- how long it may wait ------------------------------------------------------------------------


def slack(facts: RecheckFacts, **wishes: Any) -> int:
    answer = recheck(facts, RecheckSettings(**wishes))
    return (answer.latest_on - answer.wanted_on).days


def test_a_look_may_wait_a_quarter_and_for_a_day_set_aside() -> None:
    assert slack(REGULAR) == 46
    zip_bag = replace(found_crisp(1), package_kind="zip_bag")
    assert slack(zip_bag) == 1
    assert slack(zip_bag, set_aside=frozenset({5})) == 6
    assert slack(zip_bag, set_aside=frozenset({1, 4})) == 3  # Friday to Tuesday


def test_the_first_two_looks_may_wait_at_no_great_risk() -> None:
    assert slack(found_crisp(1)) == 30 - 7
    assert slack(found_crisp(1, 8)) == 30
    half = replace(found_crisp(1), sisters_soft=1, sisters_checked=9)
    assert slack(half) == 30 - 7
    assert slack(replace(half, warmest_dc=260)) == 1
    assert slack(replace(found_crisp(1), best_by=None, low=None)) == 1


def test_no_early_look_waits_past_the_low_edge() -> None:
    facts = replace(found_crisp(1), low=after(20), package_id=UNDRAWN)
    assert recheck(facts).latest_on == after(20)
    assert recheck(replace(facts, low=after(5))).latest_on == after(8 + 2)


def test_it_may_come_a_quarter_of_the_wait_sooner() -> None:
    answer = recheck(replace(REGULAR, package_id=UNDRAWN))
    assert (answer.wanted_on - answer.earliest_on).days == 183 // 4
    week = recheck(replace(found_crisp(1), package_id=UNDRAWN))
    assert (week.wanted_on - week.earliest_on).days == 7 // 4


# -- risk ----------------------------------------------------------------------------------------


def test_risk_is_how_much_shorter_the_interval_is_than_the_longest() -> None:
    risks = {
        "regular": recheck(REGULAR).risk,
        "ageing": recheck(dated(700, 800, 300)).risk,
        "half": recheck(replace(REGULAR, sisters_soft=1, sisters_checked=9)).risk,
        "month": recheck(found_crisp(1, 8)).risk,
        "moved": recheck(replace(REGULAR, moved_on=after(50))).risk,
        "past the low edge": recheck(dated(300, 4000, 400)).risk,
        "past its best-by": recheck(dated(300, 380, 400)).risk,
        "week": recheck(found_crisp(1)).risk,
    }
    assert risks == {
        "regular": 0,
        "ageing": 250,
        "half": 500,
        "month": 1000 - 30 * 1000 // 183,
        "moved": 1000 - 30 * 1000 // 183,
        "past the low edge": 1000 - 30 * 1000 // 183,
        "past its best-by": 1000 - 14 * 1000 // 183,
        "week": 1000 - 7 * 1000 // 183,
    }


# -- always --------------------------------------------------------------------------------------


@settings(max_examples=300, deadline=None)
@given(facts=any_facts(), wishes=any_settings())
def test_the_days_stand_in_order_and_a_day_set_aside_lies_in_reach(
    facts: RecheckFacts, wishes: RecheckSettings
) -> None:
    answer = recheck(facts, wishes)
    last = facts.findings[-1][0]
    assert last < answer.earliest_on <= answer.wanted_on <= answer.latest_on
    assert 0 <= answer.risk <= 1000
    reach = (answer.latest_on - answer.wanted_on).days + 1
    days = {(answer.wanted_on + timedelta(days=number)).weekday() for number in range(reach)}
    assert days & wishes.set_aside


@settings(max_examples=300, deadline=None)
@given(facts=any_facts(), wishes=any_settings())
def test_the_wait_is_never_above_its_interval_nor_past_the_edges(
    facts: RecheckFacts, wishes: RecheckSettings
) -> None:
    answer, found = recheck(facts, wishes), reckon(facts, wishes)
    last = facts.findings[-1][0]
    wait = (answer.wanted_on - last).days
    assert wait <= found.base_days <= wishes.later_days
    if facts.low is not None and facts.best_by is not None:
        low = max(facts.low, last + timedelta(days=30))
        assert answer.wanted_on <= low
        assert answer.wanted_on <= max(facts.best_by, last + timedelta(days=14))
        most = max(-(-found.wait_days // 4), wishes.longest_wait_days)
        assert answer.latest_on <= low + timedelta(days=most)


KINDS = ("foil_pouch", "metallised_pouch", "vacuum_bag", "zip_bag")


@st.composite
def worsened(draw: st.DrawFn) -> tuple[RecheckFacts, RecheckFacts]:
    """A package, and the same one with some things about it riskier, none less so."""
    facts = draw(any_facts())
    low, best_by = facts.low, facts.best_by
    if low is not None and best_by is not None:
        best_by = max(SEALED, best_by - timedelta(days=draw(st.integers(0, 400))))
        low = min(best_by, max(SEALED, low - timedelta(days=draw(st.integers(0, 400)))))
    kind = facts.package_kind
    if kind in KINDS:
        kind = draw(st.sampled_from(KINDS[KINDS.index(kind) :]))
    soft = draw(st.integers(facts.sisters_soft, facts.sisters_checked))
    moved = facts.moved_on
    return facts, replace(
        facts,
        package_kind=kind,
        fat_of_solids=_more(draw, facts.fat_of_solids),
        sugars_of_solids=_more(draw, facts.sugars_of_solids),
        best_by=best_by,
        low=low,
        warmest_dc=_higher(draw, facts.warmest_dc),
        humidity_percent=_higher(draw, facts.humidity_percent),
        sisters_soft=soft,
        moved_on=draw(st.integers(0, 1_000).map(after)) if moved is None else moved,
    )


def _more(draw: st.DrawFn, share: Fraction | None) -> Fraction | None:
    return None if share is None else share + Fraction(draw(st.integers(0, 60)), 100)


def _higher(draw: st.DrawFn, value: int | None) -> int | None:
    return None if value is None else value + draw(st.integers(0, 200))


@settings(max_examples=500, deadline=None)
@given(pair=worsened(), wishes=any_settings())
def test_what_is_riskier_is_never_looked_at_later(
    pair: tuple[RecheckFacts, RecheckFacts], wishes: RecheckSettings
) -> None:
    facts, riskier = (recheck(one, wishes) for one in pair)
    assert riskier.wanted_on <= facts.wanted_on
    assert riskier.latest_on <= facts.latest_on
    assert riskier.risk >= facts.risk


@settings(max_examples=200, deadline=None)
@given(facts=any_facts(), more=st.integers(1, 400), wishes=any_settings())
def test_a_later_look_never_brings_the_next_one_forward(
    facts: RecheckFacts, more: int, wishes: RecheckSettings
) -> None:
    last = facts.findings[-1][0]
    later = replace(
        facts,
        moved_on=None,
        findings=(*facts.findings[:-1], (last + timedelta(days=more), "crisp")),
    )
    before, then = reckon(replace(facts, moved_on=None), wishes), reckon(later, wishes)
    assert then.by >= before.by


# -- wishes --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wishes", "error", "said"),
    [
        ({"first_days": 0}, LooksOutOfOrder, "after 0, 30 and 183 days"),
        ({"first_days": 31}, LooksOutOfOrder, "none is shorter than the one before"),
        ({"later_days": 367}, LooksOutOfOrder, "1 to 366 days"),
        ({"later_days": 29}, LooksOutOfOrder, "after 7, 30 and 29 days"),
        ({"set_aside": frozenset()}, NoDaySetAside, "No day of the week is set aside"),
        ({"set_aside": frozenset({5, 7})}, NoDaySetAside, "No day of the week is set aside"),
        ({"most_a_day": 0}, LooksADay, "0 packages a day cannot be"),
        ({"most_a_day": 1001}, LooksADay, "it is 1 to 1,000"),
    ],
)
def test_wishes_that_cannot_be_are_refused(
    wishes: dict[str, Any], error: type[Refused], said: str
) -> None:
    with pytest.raises(error, match=said) as refusal:
        RecheckSettings(**wishes)
    assert refusal.value.hint


@pytest.mark.parametrize(
    ("weekdays", "wait"),
    [(range(7), 0), ({5}, 6), ({5, 6}, 5), ({0, 3}, 3), ({0, 1, 2, 3, 4}, 2)],
)
def test_the_longest_wait_for_a_day_set_aside(weekdays: set[int], wait: int) -> None:
    wishes = RecheckSettings(set_aside=frozenset(weekdays))
    assert wishes.longest_wait_days == wait
    monday = date(2026, 11, 23)
    waits = [min(n for n in range(7) if (day + n) % 7 in wishes.set_aside) for day in range(7)]
    assert monday.weekday() == 0 and max(waits) == wait
