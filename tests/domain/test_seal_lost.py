"""From which day a package counts as leaking, by what was found at each check of it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.keeping.events import leak_day, seal_lost_on

SEALED = date(2026, 1, 1)

Found = tuple[tuple[int, str], ...]


def _day(days: int) -> date:
    return SEALED + timedelta(days=days)


def _lost(found: Found) -> int | None:
    lost = seal_lost_on(SEALED, [(_day(days), finding) for days, finding in found])
    return None if lost is None else (lost - SEALED).days


# Days after sealing with the finding → the day the leak counts from. Midway since the last good
# look: a project judgement, as is the rest of this table.
TABLE: tuple[tuple[Found, int | None], ...] = (
    ((), None),
    (((1, "crisp"),), None),
    (((1, "crisp"), (200, "crisp")), None),
    (((40, "soft"),), 20),
    (((41, "soft"),), 20),
    (((40, "leak"),), 20),
    (((40, "damaged"),), 20),
    (((0, "leak"),), 0),
    (((1, "crisp"), (41, "soft")), 21),
    (((1, "crisp"), (101, "crisp"), (121, "leak")), 111),
    (((40, "soft"), (45, "soft")), 20),
    (((40, "soft"), (60, "leak")), 20),
    (((40, "soft"), (45, "crisp")), None),
    (((40, "damaged"), (45, "crisp")), None),
    (((40, "soft"), (45, "crisp"), (65, "soft")), 55),
    (((40, "leak"), (45, "crisp")), 20),
    (((40, "leak"), (45, "crisp"), (65, "soft")), 20),
    (((40, "leak"), (60, "leak")), 20),
    (((10, "crisp"), (20, "damaged"), (30, "crisp"), (50, "leak"), (60, "crisp")), 40),
)


@pytest.mark.parametrize(("found", "lost"), TABLE)
def test_what_was_found_decides_from_when_it_leaks(found: Found, lost: int | None) -> None:
    assert _lost(found) == lost


CHECKS = st.lists(
    st.tuples(st.integers(0, 900), st.sampled_from(("crisp", "soft", "leak", "damaged"))),
    max_size=8,
).map(lambda some: tuple(sorted(some, key=lambda one: one[0])))


@settings(max_examples=200, deadline=None)
@given(found=CHECKS)
def test_it_lies_between_sealing_and_the_finding_and_a_leak_stays(found: Found) -> None:
    lost = _lost(found)
    faults = [days for days, finding in found if finding != "crisp"]
    if any(finding == "leak" for _, finding in found):
        assert lost is not None
    if lost is not None:
        assert 0 <= lost <= max(faults)
    if not faults or (found[-1][1] == "crisp" and all(f != "leak" for _, f in found)):
        assert lost is None
    if found and found[-1][1] != "crisp":
        assert lost is not None
    # A later crisp check never makes it leak longer.
    last = found[-1][0] if found else 0
    later = _lost((*found, (last + 5, "crisp")))
    assert later in (None, lost)


@settings(max_examples=100, deadline=None)
@given(good=st.integers(0, 900), after=st.integers(0, 900))
def test_midway_is_never_nearer_to_the_finding(good: int, after: int) -> None:
    midway = (leak_day(_day(good), _day(good + after)) - SEALED).days
    assert 0 <= (good + after) - midway - (midway - good) <= 1
