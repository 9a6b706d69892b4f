"""Samples of a lot and of a place for reports, made by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

from stockroom.domain.belief import believe, others
from stockroom.domain.conditions import Event
from stockroom.domain.records import Package
from stockroom.domain.sample_page import SamplePage, Wish
from stockroom.domain.sampling import most_soft, sample_size
from stockroom.reports.sampling import sample_report
from stockroom.reports.values import Report
from tests.reports.outlooks import FOOD, package

DAY = date(2026, 11, 25)
STEERING = "=1+1 \x1b[31mred\u202e"


def _page(name: str, food: str, wish: Wish, of: int, found: dict[str, str]) -> SamplePage:
    """A page whose figures are those of the domain, the first of its packages picked."""
    one = replace(package(1), food=STEERING, opened_on=DAY, condition="opened", place="冷凍 [x]")
    jar = replace(package(2), package_kind="jar", container="jar 475 mL", container_key="jar-475")
    group: tuple[Package, ...] = (one, jar, *(package(number) for number in range(3, of + 1)))
    sample = sample_size(of, wish.at_most or 0, wish.confidence, sensitivity=wish.sensitivity)
    looked, soft = len(found), sum(what == Event.SOFT for what in found.values())
    known = None
    if looked and not (soft and wish.sensitivity < 1):
        known = most_soft(of, looked, soft, wish.confidence, sensitivity=wish.sensitivity)
    return SamplePage(
        name=name,
        food=food,
        wish=wish,
        sample=sample,
        picks=group[: sample.inspect],
        packages=group,
        found=found,
        checked=looked,
        soft=soft,
        left=others(believe(looked, soft, wish.prior), of - looked),
        by_now=known,
    )


def reports() -> dict[str, Report]:
    """Each of these reports, by name."""
    first, second, third = (package(number).code for number in (1, 2, 3))
    squeezed = Wish(at_most=0, sensitivity=Fraction(8, 10), since=DAY)
    begun = {first: "crisp", second: "crisp", third: "leak"}
    return {
        "sample of a lot": sample_report(_page("26329A", FOOD, Wish(at_most=1), 8, begun)),
        "sample with a soft one": sample_report(
            _page("26329A", FOOD, Wish(at_most=1, sensitivity=Fraction(9, 10)), 5, {first: "soft"}),
            everything=True,
        ),
        "sample of a place": sample_report(_page("cellar/冷凍 [x]", "", squeezed, 4, {})),
    }
