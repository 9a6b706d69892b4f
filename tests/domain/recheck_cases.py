"""Packages to be looked at again, plain ones and any at all."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from hypothesis import strategies as st

from stockroom.domain.calendar import add_months
from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.recheck_facts import RecheckFacts, RecheckSettings
from stockroom.domain.recheck_schedule import recheck
from stockroom.domain.records import StoredRecheck

SEALED = date(2026, 3, 2)

PLAIN = RecheckFacts(
    package_id=1,
    sealed_on=SEALED,
    findings=(),
    moved_on=None,
    package_kind="foil_pouch",
    vacuum=False,
    absorber_cc=0,
    food_class="vegetable",
    fat_of_solids=Fraction(2, 100),
    sugars_of_solids=Fraction(20, 100),
    best_by=add_months(SEALED, 96),
    low=add_months(SEALED, 48),
    warmest_dc=180,
    humidity_percent=50,
    sisters_soft=0,
    sisters_checked=0,
)
"""Nothing about it calls for looking sooner, and its dates are far away."""


def after(days: int) -> date:
    """The day so many days after sealing."""
    return SEALED + timedelta(days=days)


def found_crisp(*days: int, facts: RecheckFacts = PLAIN) -> RecheckFacts:
    """The package found crisp so many days after sealing."""
    return replace(facts, findings=tuple((after(day), "crisp") for day in days))


def row(facts: RecheckFacts, settings: RecheckSettings) -> StoredRecheck:
    """The row the store would hold."""
    answer = recheck(facts, settings)
    return StoredRecheck(
        facts.package_id, answer.earliest_on, answer.wanted_on, answer.latest_on, answer.risk
    )


shares = st.none() | st.integers(0, 100).map(lambda percent: Fraction(percent, 100))


@st.composite
def any_facts(draw: st.DrawFn) -> RecheckFacts:
    """Any settled package: looked at some days, with or without dates, anywhere."""
    days = sorted(draw(st.sets(st.integers(0, 900), min_size=1, max_size=5)))
    found = draw(st.lists(st.sampled_from(("crisp", "crisp", "crisp", "soft")), max_size=4))
    findings = [*found[: len(days) - 1], *["crisp"] * (len(days) - len(found[: len(days) - 1]))]
    low = draw(st.none() | st.integers(0, 1_500))
    soft = draw(st.integers(0, 4))
    return RecheckFacts(
        package_id=draw(st.integers(1, 2_000_000)),
        sealed_on=SEALED,
        findings=tuple((after(day), what) for day, what in zip(days, findings, strict=True)),
        moved_on=draw(st.none() | st.integers(0, 1_000).map(after)),
        package_kind=draw(st.sampled_from([one.value for one in PackageKind])),
        vacuum=draw(st.booleans()),
        absorber_cc=draw(st.sampled_from((0, 300))),
        food_class=draw(st.sampled_from([one.value for one in FoodClass])),
        fat_of_solids=draw(shares),
        sugars_of_solids=draw(shares),
        best_by=None if low is None else after(low + draw(st.integers(0, 1_500))),
        low=None if low is None else after(low),
        warmest_dc=draw(st.none() | st.integers(-200, 450)),
        humidity_percent=draw(st.none() | st.integers(0, 100)),
        sisters_soft=soft,
        sisters_checked=soft + draw(st.integers(0, 20)),
    )


@st.composite
def any_settings(draw: st.DrawFn) -> RecheckSettings:
    """Any wishes that may be had."""
    first, second, later = sorted(draw(st.tuples(*[st.integers(1, 366)] * 3)))
    weekdays = draw(st.sets(st.integers(0, 6), min_size=1))
    return RecheckSettings(first, second, later, frozenset(weekdays), draw(st.integers(1, 30)))
