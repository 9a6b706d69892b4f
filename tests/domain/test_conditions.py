"""The table of conditions, pair by pair."""

from __future__ import annotations

import pytest

from stockroom.domain.conditions import (
    LIVE,
    TRANSITIONS,
    USABLE,
    Condition,
    Event,
    NotAllowed,
    events_for,
    next_condition,
    transition,
)

# Project judgement, written out a second time as a grid: what a keeper expects of each pair.
# Rows: condition now. A dot is refused.
GRID = """
now crisp soft leak damaged sister_soft recall use_now hold open use_up discard redried repacked
settling  sound  suspect suspect suspect suspect suspect . . opened used discarded . used
sound     sound  suspect suspect suspect suspect suspect . . opened used discarded . used
suspect   sound  suspect suspect suspect . . opened held . . discarded . used
held      .      . . . . . . . . . discarded used .
opened    opened suspect suspect suspect suspect suspect . . opened used discarded . used
used      . . . . . . . . . . . . .
discarded . . . . . . . . . . . . .
"""
HEAD, *ROWS = (line.split() for line in GRID.strip().splitlines())
EXPECTED = [
    (Condition(row[0]), Event(event), after)
    for row in ROWS
    for event, after in zip(HEAD[1:], row[1:], strict=True)
]


def test_the_grid_covers_every_pair() -> None:
    assert {(now, event) for now, event, _ in EXPECTED} == {
        (now, event) for now in Condition for event in Event
    }


@pytest.mark.parametrize(
    ("now", "event", "after"), EXPECTED, ids=[f"{row[0]}-{row[1]}" for row in EXPECTED]
)
def test_every_pair(now: Condition, event: Event, after: str) -> None:
    if after == ".":
        with pytest.raises(NotAllowed) as caught:
            next_condition(now, event)
        assert (caught.value.condition, caught.value.event) == (now, event)
        assert event not in events_for(now)
    else:
        assert next_condition(now, event) is Condition(after)
        assert transition(now, event).to is Condition(after)
        assert event in events_for(now)


def test_no_pair_has_two_rows_and_each_row_has_its_reason() -> None:
    pairs = [(row.from_, row.event) for row in TRANSITIONS]
    assert len(pairs) == len(set(pairs)) == sum(after != "." for _, _, after in EXPECTED)
    for row in TRANSITIONS:
        assert row.why[0].isupper()
        assert row.why.endswith(".")
        assert len(row.why.split()) >= 5


def test_live_and_usable() -> None:
    assert {now for now in Condition if now not in LIVE} == {Condition.USED, Condition.DISCARDED}
    assert {now for now in Condition if Event.USE_UP in events_for(now)} == set(USABLE)
    assert {now for now in Condition if events_for(now)} == set(LIVE)


def test_a_package_opened_before_goes_back_to_opened_not_sound() -> None:
    assert next_condition(Condition.SUSPECT, Event.CRISP, was_opened=True) is Condition.OPENED
    assert next_condition(Condition.SUSPECT, Event.CRISP, was_opened=False) is Condition.SOUND
    assert next_condition(Condition.OPENED, Event.SOFT, was_opened=True) is Condition.SUSPECT
    assert next_condition(Condition.OPENED, Event.DISCARD, was_opened=True) is Condition.DISCARDED


@pytest.mark.parametrize("event", [Event.OPEN, Event.USE_UP])
def test_suspect_and_held_packages_are_not_eaten(event: Event) -> None:
    with pytest.raises(NotAllowed) as caught:
        next_condition(Condition.SUSPECT, event)
    assert "suspect" in caught.value.message
    assert caught.value.hint == "Check it again, or decide what becomes of it."
    with pytest.raises(NotAllowed) as caught:
        next_condition(Condition.HELD, event)
    assert "waiting to be dried again" in caught.value.message
    assert "discard it" in caught.value.hint


def test_every_refusal_says_what_was_asked_and_what_stands_in_the_way() -> None:
    refused = [NotAllowed(now, event) for now, event, after in EXPECTED if after == "."]
    assert len({str(refusal) for refusal in refused}) == len(refused)
    for refusal in refused:
        assert refusal.message.startswith("This package cannot be ")
        assert refusal.condition.value.split("_")[0] in refusal.message
        assert refusal.hint.endswith(".")
        assert refusal.exit_code == 3
    for final in (Condition.USED, Condition.DISCARDED):
        assert "undo" in NotAllowed(final, Event.CRISP).hint
