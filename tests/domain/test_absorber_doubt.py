"""How sure the oxygen of a package is, and from which volume on another absorber is wanted."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stockroom.domain.keeping.absorber_doubt import Closure, largest_volume_ml, oxygen_doubts
from stockroom.domain.keeping.oxygen import ABSORBER_MARGIN, absorber_figures
from stockroom.domain.keeping.oxygen_working import absorber_working
from stockroom.domain.working import Working

SIZES = (50, 100, 200, 300, 500, 1000, 2000)


def step(working: Working, title: str) -> str:
    """The result of the step of a title."""
    return next(one.result for one in working.steps if one.title == title)


@given(
    dry=st.integers(10, 3_000),
    size=st.sampled_from(SIZES),
    barometer=st.none() | st.integers(20_000, 31_000),
)
def test_the_largest_volume_is_the_last_that_the_size_suits(
    dry: int, size: int, barometer: int | None
) -> None:
    """Against the advice itself, a millilitre to either side."""
    closure = Closure(3_000, dry, barometer_thousandth_inhg=barometer)
    most = largest_volume_ml(closure, size, margin=ABSORBER_MARGIN)
    assume(most > dry // 15 + 2)
    advised = [
        absorber_figures(volume, dry, SIZES, barometer_thousandth_inhg=barometer).absorber_cc
        for volume in (most, most + 1)
    ]
    assert advised[0] <= size < advised[1]


def test_the_oxygen_at_both_ends_of_each_figure() -> None:
    """Against the oxygen of the package with that figure at its end (the same closure law)."""
    closure = Closure(1_500, 600)
    oxygen = float(closure.oxygen())
    volume, density, barometer = oxygen_doubts(closure)
    at = {
        "low": absorber_figures(1_200, 600, SIZES).oxygen_cc,
        "high": absorber_figures(1_575, 600, SIZES).oxygen_cc,
        "fat": absorber_figures(1_500, 600, SIZES, density_mg_per_ml=1_100).oxygen_cc,
        "dense": absorber_figures(1_500, 600, SIZES, density_mg_per_ml=1_600).oxygen_cc,
    }
    assert volume.less_cc == pytest.approx(oxygen - at["low"])
    assert volume.more_cc == pytest.approx(at["high"] - oxygen)
    assert density.less_cc == pytest.approx(oxygen - at["fat"])
    assert density.more_cc == pytest.approx(at["dense"] - oxygen)
    # Oxygen goes with the pressure: 3 % of it either way.
    assert (barometer.less_cc, barometer.more_cc) == pytest.approx((0.03 * oxygen,) * 2)


def test_a_density_that_was_given_is_not_in_doubt() -> None:
    assert [one.what for one in oxygen_doubts(Closure(1_500, 600, 1_400))] == [
        "volume as closed",
        "barometer",
    ]


def test_weather_counts_for_more_behind_a_vacuum() -> None:
    """A gauge is read against the air of the day: what is left inside follows it in full."""
    closed = Closure(1_500, 600, vacuum_tenth_inhg=270)
    weather = oxygen_doubts(closed)[-1]
    assert weather.more_cc / float(closed.oxygen()) > 0.25


def test_the_working_names_every_share_and_what_would_change_the_size() -> None:
    figures = absorber_figures(1_500, 600, SIZES)
    working = absorber_working(figures, 1_500, 600, SIZES)
    assert working.conclusion == f"{figures.absorber_cc} cc"
    unsure = next(one for one in working.steps if "unsure" in one.title)
    assert [one.name for one in unsure.inputs] == [
        "volume as closed",
        "density of the solids",
        "barometer",
    ]
    assert all(one.source is not None and "of the low side" in one.value_text
               for one in unsure.inputs)  # fmt: skip
    most = largest_volume_ml(Closure(1_500, 600), 500, margin=ABSORBER_MARGIN)
    enough = largest_volume_ml(Closure(1_500, 600), 300, margin=ABSORBER_MARGIN)
    assert step(working, "what would change it") == (
        f"above {most} mL as closed 500 cc is too small; up to {enough} mL 300 cc would do"
    )


def test_an_absorber_that_was_asked_about_says_what_it_leaves() -> None:
    # Check O1 of the oxygen budget: 150 g in 3,785 mL with 300 cc leaves 472.0 cc of 772.0.
    figures = absorber_figures(3_785, 1_500, SIZES, absorber_cc=300)
    working = absorber_working(figures, 3_785, 1_500, SIZES, given_cc=300)
    assert working.conclusion == "300 cc leaves 472 cc of 772 cc of oxygen"
    most = largest_volume_ml(Closure(3_785, 1_500), 300, margin=Fraction(1))
    assert step(working, "what would change it") == (
        f"above {most} mL as closed 300 cc leaves oxygen behind"
    )


def test_without_an_absorber_any_would_help() -> None:
    figures = absorber_figures(1_500, 600, SIZES, absorber_cc=0)
    working = absorber_working(figures, 1_500, 600, SIZES, given_cc=0)
    assert step(working, "what would change it") == "any absorber at all"
