"""The packages a menu is planned from: no more of them than any menu of its days could reach.

Whatever is at risk stays, and so does what is open. Of the rest of a food as many packages are
handed over, in the order they are used, as cover every dish with it on every day: no plan can take
more, since a dish stands at most once on a day. So the answer is that of all the stock.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from stockroom.domain.menu.plans import Finding
from stockroom.domain.menu.records import DishOption, MenuPackage
from stockroom.domain.menu_records import MenuStock
from stockroom.services.menu_dishes import MenuBook

NAMED = 5
"""Codes named of packages past their day; how many there are is said."""


def packages_for(
    book: MenuBook,
    options: Iterable[DishOption],
    days: Sequence[date],
    *,
    reach_days: int,
    past_best_by: bool,
) -> tuple[tuple[MenuPackage, ...], tuple[Finding, ...]]:
    """The packages to plan from, and what is said of those left out for their best-by."""
    most_dg = _most(options, len(days))
    at_risk_by = days[-1] + timedelta(days=reach_days)
    found: list[MenuPackage] = []
    past: list[str] = []
    for one in book.stock:
        package = as_package(one)
        if package.due is not None and package.due < days[0] and (package.firm or not past_best_by):
            past.append(package.code)
            continue
        at_risk = package.due is not None and package.due <= at_risk_by
        left_dg = most_dg.get(package.food_id, 0)
        if not at_risk:
            most_dg[package.food_id] = left_dg - package.fresh_dg
        if at_risk or package.opened or left_dg > 0:
            found.append(package)
    return tuple(found), _past(past, days[0])


def as_package(one: MenuStock) -> MenuPackage:
    """A package as the plan sees it; an open one is never used past its day."""
    return MenuPackage(
        one.package_id,
        one.code,
        one.food_id,
        one.fresh_dg,
        one.best_by,
        one.opened,
        firm=one.opened or one.goes,
    )


def _most(options: Iterable[DishOption], days: int) -> dict[int, int]:
    """The most of each food that every dish on every day would take."""
    total: dict[int, int] = {}
    for option in options:
        largest: dict[int, int] = {}
        for helping in option.helpings:
            for use in helping.uses:
                largest[use.food_id] = max(largest.get(use.food_id, 0), use.fresh_dg)
        for food_id, fresh_dg in largest.items():
            total[food_id] = total.get(food_id, 0) + fresh_dg * days
    return total


def _past(codes: Sequence[str], first: date) -> tuple[Finding, ...]:
    """What is said of packages that were due before the first day."""
    if not codes:
        return ()
    named = ", ".join(codes[:NAMED]) + (" …" if len(codes) > NAMED else "")
    packages = "1 package was" if len(codes) == 1 else f"{len(codes)} packages were"
    words = (
        f"{packages} due before {first.isoformat()} (best-by is a quality estimate, not safety)"
        f" and not planned: {named}."
    )
    return (Finding("packages", words),)
