"""Rechecks: the plan day by day, why a package is looked at when it is, and the settings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from stockroom.domain.looking import how_to_look, look_for
from stockroom.domain.recheck_facts import EVERY_DAY, RecheckSettings
from stockroom.domain.recheck_spread import Planned
from stockroom.domain.records import Package, StoredRecheck
from stockroom.reports.values import (
    COUNT,
    DAY,
    TEXT,
    WORDS,
    Column,
    Field,
    Fields,
    Json,
    Prose,
    Report,
    Table,
    document,
    listing,
)

DAY_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WORST_RISK = 1000
NEVER_TASTE = "Never taste food to test it."

_PLAN = (
    Column("on_day", DAY, "day"),
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("container", title="container", least=10, drop=1),
    Column("place", title="place", least=10),
    Column("", title="risk"),
    Column("risk", COUNT),
    Column("best_by", DAY),
    Column("how"),
    Column("lot"),
)


def plan_list(plan: Sequence[Planned], packages: Mapping[int, Package]) -> Report:
    """Which package on which day, the worst risk of each day first."""
    rows = tuple(
        (
            one.on_day, package.code, package.food, package.container, package.place,
            risk_words(one.risk), one.risk, package.best_by, _how(package), package.lot_code,
        )
        for one in plan
        if (package := packages.get(one.package_id)) is not None
    )  # fmt: skip
    return listing(Table("rechecks", _PLAN, rows, empty="No rechecks in this time."))


def risk_words(risk: int) -> str:
    """A risk as people say it: "7 of 10"."""
    return f"{10 * risk // WORST_RISK} of 10"


def _how(package: Package) -> str:
    return how_to_look(package.package_kind, package.container_key)


def how_lines(packages: Iterable[Package]) -> tuple[str, ...]:
    """How to look at each kind of container among packages, each once."""
    found: dict[str, list[str]] = {}
    for one in packages:
        kinds = found.setdefault(_how(one), [])
        kind = "can" if one.container_key.startswith("can-") else one.package_kind
        if (name := kind.replace("_", " ")) not in kinds:
            kinds.append(name)
    return tuple(f"{_capital(', '.join(kinds))}: {how}" for how, kinds in found.items())


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def recheck_report(package: Package, recheck: StoredRecheck, reasons: Sequence[str]) -> Report:
    """When one package is looked at again, why then, and how to look at it."""
    signs = look_for(package.package_kind, package.container_key)
    return document(
        f"Recheck of {package.code} · {package.food}",
        (
            Fields(
                (
                    Field("code", TEXT, package.code, "code"),
                    Field("food", TEXT, package.food, "food"),
                    Field("container", TEXT, package.container, "container"),
                    Field("place", TEXT, package.place, "place", missing="in no place yet"),
                    Field("wanted_on", DAY, recheck.wanted_on, "look at it"),
                    Field("earliest_on", DAY, recheck.earliest_on, "not before"),
                    Field("latest_on", DAY, recheck.latest_on, "may wait until"),
                    Field("risk", COUNT, recheck.risk),
                    Field("", TEXT, risk_words(recheck.risk), "risk"),
                    Field("how", TEXT, _how(package), "how"),
                )
            ),
            Prose("reasons", tuple(reasons), "Why then", "- "),
            Prose("look_for", signs, "What to look for", "- "),
            Prose("", (f"Record it: stockroom check {package.code} crisp (or soft, leak).",)),
        ),
    )


def recheck_words(recheck: StoredRecheck) -> str:
    """When it is looked at again, in a few words."""
    return (
        f"{recheck.wanted_on.isoformat()}, at the latest {recheck.latest_on.isoformat()}"
        f" (risk {risk_words(recheck.risk)})"
    )


def recheck_data(recheck: StoredRecheck | None, reasons: Sequence[str]) -> Json:
    """A recheck for JSON; null when none is due."""
    if recheck is None:
        return None
    return {
        "earliest_on": recheck.earliest_on.isoformat(),
        "wanted_on": recheck.wanted_on.isoformat(),
        "latest_on": recheck.latest_on.isoformat(),
        "risk": recheck.risk,
        "reasons": list(reasons),
    }


def settings_report(settings: RecheckSettings) -> Report:
    """How often the household looks, on which days and at how many packages."""
    days = tuple(DAY_NAMES[day] for day in sorted(settings.set_aside))
    every = settings.set_aside == EVERY_DAY
    return document(
        "Rechecks",
        (
            Fields(
                (
                    Field("first_days", COUNT, settings.first_days, "first look",
                          " days after the settle check"),
                    Field("second_days", COUNT, settings.second_days, "second look",
                          " days after the one before"),
                    Field("later_days", COUNT, settings.later_days, "then every", " days"),
                    Field("days", WORDS, days),
                    Field("", TEXT, "every day" if every else " ".join(days), "on"),
                    Field("most_a_day", COUNT, settings.most_a_day, "at most",
                          " packages a day"),
                )
            ),
            Prose(
                "",
                (
                    "Every wait is shortened by what makes a package riskier: stockroom recheck"
                    " show CODE --working names it.",
                ),
            ),
        ),
    )  # fmt: skip
