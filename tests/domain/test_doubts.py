"""Why a suspect package is doubtful: the fault that stands, a sister's, or a call back."""

from __future__ import annotations

from datetime import date

import pytest

from stockroom.domain.doubts import Doubt, doubt_of

DAY, LATER = date(2026, 11, 24), date(2026, 11, 25)


@pytest.mark.parametrize(
    ("events", "doubt"),
    [
        (["crisp", "soft"], Doubt.SOFT),
        (["leak"], Doubt.LEAK),
        (["damaged"], Doubt.DAMAGED),
        (["leak", "soft"], Doubt.SOFT),
        (["leak", "damaged"], Doubt.LEAK),
        (["soft", "crisp", "sister_soft"], Doubt.SISTER),
        (["sister_soft"], Doubt.SISTER),
        (["sister_soft", "recall"], Doubt.RECALL),
        (["sister_soft", "soft"], Doubt.SOFT),
        (["soft", "sister_soft"], Doubt.SOFT),
        (["recall", "crisp", "leak", "crisp", "recall"], Doubt.RECALL),
        (["sealed", "moved", "sister_soft", "moved"], Doubt.SISTER),
        (["sister_soft", "crisp"], Doubt.UNSAID),
        ([], Doubt.UNSAID),
    ],
)
def test_the_fault_that_stands_outweighs_what_others_did(events: list[str], doubt: Doubt) -> None:
    assert doubt_of([(DAY, event) for event in events]) is doubt


def test_a_decision_to_repack_counts_from_the_fault_on() -> None:
    found = [(LATER, "leak")]
    assert doubt_of(found, (LATER, "repack")) is Doubt.REPACK
    assert doubt_of(found, (DAY, "repack")) is Doubt.LEAK
    assert doubt_of(found, (LATER, "hold")) is Doubt.LEAK
    assert doubt_of([(LATER, "sister_soft")], (LATER, "repack")) is Doubt.SISTER


def test_only_a_fault_of_its_own_is_decided_on() -> None:
    own = {Doubt.SOFT, Doubt.LEAK, Doubt.DAMAGED, Doubt.REPACK}
    assert {doubt for doubt in Doubt if doubt.own_fault} == own
