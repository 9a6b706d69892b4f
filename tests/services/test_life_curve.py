"""A package's life as a curve: it climbs, reaches one at the best-by, and shows what happened."""

from __future__ import annotations

from datetime import timedelta

import pytest

from stockroom.domain.conditions import Event
from stockroom.services import packages, places
from stockroom.services.life_curve import MOST_POINTS, LifeCurve, life_curve
from stockroom.services.packages import Amount
from tests.world import APPLE, TODAY, World


@pytest.fixture
def moved(world: World) -> str:
    """Apples a year in a warm kitchen, since then in the cellar."""
    places.add_place(world.room, "kitchen", temperature_dc=240)
    places.add_place(world.room, "cellar", temperature_dc=100)
    (code,) = world.packed(APPLE, "1xpouch-1500-foil:150,absorber=1000", place="kitchen")
    packages.move_packages(world.later(365).room, [code], "cellar")
    return code


def _middles(curve: LifeCurve) -> list[float]:
    return [one.used.middle for one in curve.points]


def test_it_climbs_from_nothing_to_one(world: World, moved: str) -> None:
    curve = life_curve(world.later(400).room, moved)
    assert curve.points[0].day == TODAY
    assert curve.points[0].used.most == 0
    assert curve.points[-1].day >= curve.projection.high
    for wanted in ("least", "middle", "most"):
        shares = [getattr(one.used, wanted) for one in curve.points]
        assert shares == sorted(shares)
        assert all(0 <= one <= 1 for one in shares)
    assert all(one.used.least <= one.used.middle <= one.used.most for one in curve.points)
    assert len(curve.points) <= MOST_POINTS + 10


def test_the_edges_of_the_estimate_are_where_it_reaches_one(world: World, moved: str) -> None:
    """Long lives are rounded down to whole months, so up to a month's worth is missing to one."""
    curve = life_curve(world.later(400).room, moved)
    at = {mark.words: mark for mark in curve.marks}
    assert 0.96 < at["low edge"].used.most <= 1
    assert 0.96 < at["best by"].used.middle <= 1
    assert 0.96 < at["high edge"].used.least <= 1
    assert at["best by"].day == curve.projection.best_by


def test_the_warm_year_is_steeper(world: World, moved: str) -> None:
    """24 °C against 10 °C: a life that halves every 10 °C goes 2.64 times as fast (computed)."""
    curve = life_curve(world.later(400).room, moved)
    year = TODAY + timedelta(days=365)
    warm = [one for one in curve.points if one.day <= year]
    cool = [one for one in curve.points if year < one.day < curve.projection.best_by]
    per_day = [
        (part[-1].used.middle - part[0].used.middle) / (part[-1].day - part[0].day).days
        for part in (warm, cool)
    ]
    assert per_day[0] / per_day[1] == pytest.approx(2**1.4, rel=0.03)


def test_what_happened_is_marked_in_order(world: World, moved: str) -> None:
    packages.check_package(world.later(500).room, moved, Event.CRISP)
    packages.draw_package(world.later(600).room, moved, Amount(dry_dg=100))
    curve = life_curve(world.later(601).room, moved)
    happened = [mark.words for mark in curve.marks if mark.is_event]
    assert happened == ["sealed, in kitchen", "moved to cellar", "opened"]
    days = [mark.day for mark in curve.marks]
    assert days == sorted(days)
    assert {mark.words for mark in curve.marks if not mark.is_event} == {
        "today",
        "low edge",
        "best by",
        "high edge",
    }
    assert _middles(curve)[-1] == pytest.approx(1, abs=0.01)


def test_a_leak_is_marked(world: World, moved: str) -> None:
    packages.check_package(world.later(500).room, moved, Event.LEAK)
    curve = life_curve(world.later(500).room, moved)
    assert [m.day for m in curve.marks if m.words == "no longer tight"] == [
        TODAY + timedelta(days=250)
    ]
