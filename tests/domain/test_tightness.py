"""Never tight, or lost its tightness: the rule by table and by properties.

The rule is a project judgement: a package found crisp at its settle check (the day after sealing)
or later was tight until then.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.keeping.events import seal_lost_on
from stockroom.domain.tightness import SealFinding, Tightness, judge_seal

SEALED = date(2026, 1, 1)

Checks = tuple[tuple[int, str], ...]


def judged(
    checks: Checks, found: int, seal_whole: bool | None, vacuum_lost: bool | None
) -> SealFinding:
    """The finding for checks and a last look, in days after sealing."""
    return judge_seal(
        SEALED,
        [(SEALED + timedelta(days=day), finding) for day, finding in checks],
        SEALED + timedelta(days=found),
        seal_whole=seal_whole,
        vacuum_lost=vacuum_lost,
    )


# Checks, day of the look, seal whole, vacuum lost → tightness, day from which it counts as open.
TABLE = (
    ((), 1, None, None, "not_known", None),
    ((), 1, True, None, "holds", None),
    ((), 1, None, False, "holds", None),
    ((), 1, True, False, "holds", None),
    (((1, "crisp"), (40, "soft")), 40, True, None, "holds", None),
    ((), 0, False, None, "never_tight", 0),
    ((), 1, False, None, "never_tight", 0),
    ((), 1, None, True, "never_tight", 0),
    ((), 1, True, True, "never_tight", 0),
    ((), 1, False, False, "never_tight", 0),
    ((), 2, False, None, "not_known", 1),
    ((), 40, False, None, "not_known", 20),
    (((0, "crisp"),), 40, False, None, "not_known", 20),
    (((0, "crisp"),), 1, False, None, "never_tight", 0),
    (((1, "soft"),), 40, False, None, "not_known", 20),
    (((1, "crisp"),), 1, None, True, "lost", 1),
    (((1, "crisp"),), 41, None, True, "lost", 21),
    (((1, "crisp"), (101, "crisp")), 121, False, None, "lost", 111),
    (((1, "leak"),), 60, True, None, "never_tight", 0),
    (((1, "leak"), (30, "crisp")), 60, None, None, "never_tight", 0),
    (((1, "crisp"), (21, "leak"), (30, "crisp")), 60, True, False, "lost", 11),
    (((50, "leak"),), 60, False, None, "not_known", 25),
    (((1, "crisp"), (40, "damaged")), 40, None, None, "not_known", None),
)


@pytest.mark.parametrize(
    ("checks", "found", "seal_whole", "vacuum_lost", "tightness", "open_from"), TABLE
)
def test_history_and_what_is_seen_decide(
    checks: Checks,
    found: int,
    seal_whole: bool | None,
    vacuum_lost: bool | None,
    tightness: str,
    open_from: int | None,
) -> None:
    finding = judged(checks, found, seal_whole, vacuum_lost)
    assert finding.tightness == tightness
    assert finding.open_from == (None if open_from is None else SEALED + timedelta(days=open_from))
    assert finding.reason.endswith(".")


CHECKS = st.lists(
    st.tuples(st.integers(0, 300), st.sampled_from(("crisp", "soft", "leak", "damaged"))),
    max_size=6,
).map(lambda some: tuple(sorted(some, key=lambda one: one[0])))
SEEN = st.none() | st.booleans()


@given(CHECKS, st.integers(300, 400), SEEN, SEEN)
def test_one_sign_of_a_leak_is_enough_and_a_leak_stays_one(
    checks: Checks, found: int, seal_whole: bool | None, vacuum_lost: bool | None
) -> None:
    finding = judged(checks, found, seal_whole, vacuum_lost)
    leaking = seal_whole is False or bool(vacuum_lost) or "leak" in [one for _, one in checks]
    assert (finding.open_from is not None) is leaking
    assert (finding.tightness is Tightness.HOLDS) is (
        not leaking and (seal_whole is not None or vacuum_lost is not None)
    )
    if finding.open_from is not None:
        assert SEALED <= finding.open_from <= SEALED + timedelta(days=found)
    assert (finding.tightness is Tightness.NEVER_TIGHT) <= (finding.open_from == SEALED)


@given(st.lists(st.integers(1, 300), max_size=5).map(sorted), st.integers(300, 400))
def test_lost_is_dated_as_the_best_by_dates_it(crisp: list[int], found: int) -> None:
    # The keeping model counts a leak from midway since the last good look.
    finding = judged(tuple((day, "crisp") for day in crisp), found, False, None)
    said = [(SEALED + timedelta(days=day), "crisp") for day in crisp]
    said.append((SEALED + timedelta(days=found), "leak"))
    assert finding.open_from == seal_lost_on(SEALED, said)
    assert finding.tightness is (Tightness.LOST if crisp else Tightness.NOT_KNOWN)


def test_each_kind_has_its_words() -> None:
    assert len({one.words for one in Tightness}) == len(Tightness)
