"""The working of a recheck: the schedule's own numbers, every choice with its source."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given, settings

from stockroom.domain.recheck_factors import RECHECK_SOURCES
from stockroom.domain.recheck_facts import STANDARD, RecheckFacts, RecheckSettings
from stockroom.domain.recheck_schedule import LEAST_SHARE, WHOLE, at_fault_since, recheck, reckon
from stockroom.domain.recheck_working import explain
from stockroom.domain.working import Standing, Step, Working
from tests.domain.recheck_cases import PLAIN, after, any_facts, any_settings, found_crisp

RISKY = replace(
    found_crisp(1, 8, 38),
    package_id=7,
    package_kind="zip_bag",
    sugars_of_solids=Fraction(60, 100),
)


def step(working: Working, title: str) -> Step:
    """The one step of that title."""
    (found,) = [one for one in working.steps if one.title == title]
    return found


def test_the_steps_of_a_risky_package() -> None:
    working = explain(RISKY)
    assert [(one.title, one.result) for one in working.steps] == [
        ("interval to the regular look", "183 days"),
        ("part of the interval", "0.280"),
        ("day by the interval", "2026-05-31"),  # 2026-04-09 and 52 days: 51.24 and a part
        ("drawn earlier, so that sisters do not fall due together", "2 days"),
        ("day wanted", "2026-05-29"),
        ("not before", "2026-05-16"),
        ("not after", "2026-06-11"),
        ("risk, for the order of the list", "720 of 1000"),
        ("what finding it crisp does", "a new day to look, the same best-by"),
    ]
    part = step(working, "part of the interval")
    assert part.figures == "the larger of 0.25 and (0.70) x (0.40)"
    assert {one.key for one in part.sources} == {
        "recheck-floor",
        "recheck-sugars",
        "recheck-barrier",
    }
    assert step(working, "day by the interval").figures.startswith("2026-04-09 + 183 days x 0.280")


def test_a_package_with_nothing_against_it() -> None:
    working = explain(found_crisp(1))
    assert step(working, "interval to the first look after the settle check").result == "7 days"
    assert step(working, "part of the interval").result == "1, nothing calls for sooner"
    assert step(working, "drawn earlier, so that sisters do not fall due together").result in (
        "0 days",
        "1 day",
    )


@pytest.mark.parametrize(
    ("facts", "title", "result", "date_behind"),
    [
        (
            replace(found_crisp(1, 8, 38), moved_on=after(100)),
            "brought forward: moved since it was last looked at",
            after(130),
            after(100),
        ),
        (
            replace(found_crisp(1, 8, 38), low=after(100)),
            "brought forward: low edge of its best-by",
            after(100),
            after(100),
        ),
        (
            replace(found_crisp(1, 8, 338), low=after(100)),
            "brought forward: near or past the low edge of its best-by: every month",
            after(368),
            after(100),
        ),
        (
            replace(found_crisp(1, 8, 338), low=after(100), best_by=after(200)),
            "brought forward: near or past its best-by: every two weeks",
            after(352),
            after(200),
        ),
        (
            replace(found_crisp(1, 8, 300), low=after(700), best_by=after(800)),
            "brought forward: past the middle of the time to its best-by",
            after(463),
            after(400),
        ),
    ],
)
def test_what_brings_the_day_forward_is_shown_with_its_date(
    facts: RecheckFacts, title: str, result: date, date_behind: date
) -> None:
    found = step(explain(facts), title)
    assert found.result == result.isoformat()
    assert date_behind.isoformat() in [one.value_text for one in found.inputs]
    assert found.sources


def test_a_package_at_fault_is_due_at_once() -> None:
    working = explain(replace(PLAIN, findings=((after(9), "soft"),)))
    assert working.steps[0].result == f"at once, from {after(9).isoformat()}"
    assert "day wanted" not in [one.title for one in working.steps]


@settings(max_examples=200, deadline=None)
@given(facts=any_facts(), wishes=any_settings())
def test_the_working_ends_on_the_days_of_the_schedule(
    facts: RecheckFacts, wishes: RecheckSettings
) -> None:
    assert at_fault_since(facts) is None
    answer, working = recheck(facts, wishes), explain(facts, wishes)
    assert step(working, "not before").result == answer.earliest_on.isoformat()
    assert step(working, "day wanted").result == answer.wanted_on.isoformat()
    assert step(working, "not after").result == answer.latest_on.isoformat()
    assert step(working, "risk, for the order of the list").result == f"{answer.risk} of 1000"
    shown = [one.title for one in working.steps] + [
        given.name for one in working.steps for given in one.inputs
    ]
    for words in answer.reasons:
        assert any(words in text for text in shown)


@settings(max_examples=100, deadline=None)
@given(facts=any_facts())
def test_the_multipliers_shown_come_to_the_part_used(facts: RecheckFacts) -> None:
    """Worked out again from the figures as a person reads them."""
    part, found = step(explain(facts), "part of the interval"), reckon(facts)
    shown = [Fraction(one) for one in re.findall(r"\((\d\.\d\d)\)", part.figures)]
    product = Fraction(1)
    for one in shown:
        product *= one
    assert len(shown) == len(found.factors)
    least = Fraction(LEAST_SHARE, WHOLE)
    assert abs(max(product, least) - Fraction(found.share, WHOLE)) < Fraction(1, 100_000)


@settings(max_examples=50, deadline=None)
@given(facts=any_facts())
def test_every_choice_names_its_standing(facts: RecheckFacts) -> None:
    working = explain(facts, STANDARD)
    assert set(working.sources) <= set(RECHECK_SOURCES)
    assert {one.standing for one in working.sources} == {
        Standing.ENGINEERING_JUDGEMENT,
        Standing.PUBLISHED,
    }
    assert any("not safety" in text for text in working.cautions)
    assert "Follow local codes and licensed guidance." in working.cautions


def test_every_source_is_there_once() -> None:
    assert len({one.key for one in RECHECK_SOURCES}) == len(RECHECK_SOURCES)
