"""Packages for the tests of the horizon, by days from one first day."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from hypothesis import strategies as st

from stockroom.domain.horizon.stock import StockPackage

START = date(2026, 3, 1)


def day(number: int) -> date:
    """The day so many days after the first."""
    return START + timedelta(days=number)


def package(
    package_id: int,
    best: int,
    servings: Fraction | int = 5,
    *,
    food: int = 1,
    made: int = -100,
    packed_in: str = "",
    opened: bool = False,
    band: tuple[int, int] | None = None,
) -> StockPackage:
    """A package best by so many days after the first; `band` is that of its best-by."""
    return StockPackage(
        package_id,
        food,
        day(made),
        day(best),
        Fraction(servings),
        f"26060A{package_id:02d}",
        packed_in,
        opened,
        None if band is None else day(band[0]),
        None if band is None else day(band[1]),
    )


amounts = st.fractions(Fraction(0), Fraction(12), max_denominator=6)
rates = st.fractions(Fraction(0), Fraction(4), max_denominator=5)


@st.composite
def shelves(draw: st.DrawFn, most: int = 9, foods: int = 1) -> list[StockPackage]:
    """Packages in no order; some past already, some of the same day, some empty."""
    count = draw(st.integers(0, most))
    return [
        package(
            number,
            draw(st.integers(-3, 40)),
            draw(amounts),
            food=draw(st.integers(1, foods)),
            made=draw(st.integers(-60, -50)),
        )
        for number in draw(st.permutations(range(count)))
    ]
