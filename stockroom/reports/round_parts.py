"""Parts of the Round that say more than a list of packages: doubts, rechecks, extra hours."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from stockroom.domain.doubts import Doubt
from stockroom.domain.evidence_records import ExtraDrying
from stockroom.domain.records import Package
from stockroom.reports.parts import PACKAGE_COLUMNS, package_row
from stockroom.reports.rechecks import risk_words
from stockroom.reports.values import AMOUNT, COUNT, DAY, MOMENT, Column, Row, Table
from stockroom.services.results import RoundPage

DOUBT_WORDS = {
    Doubt.SOFT: "found soft",
    Doubt.LEAK: "leaks",
    Doubt.DAMAGED: "damaged",
    Doubt.REPACK: "to be packed anew",
    Doubt.SISTER: "its sister went soft",
    Doubt.RECALL: "called back",
    Doubt.UNSAID: "not on record",
}
"""Why a package is doubtful."""


def doubts_of(page: RoundPage) -> tuple[Doubt, ...]:
    """Why each suspect package is doubtful, in their order."""
    return page.doubts or (Doubt.UNSAID,) * len(page.suspect)


def _to_do(doubt: Doubt) -> str:
    """The word of the command that settles a doubt."""
    if doubt is Doubt.REPACK:
        return "repack"
    return "decide" if doubt.own_fault else "check"


_THEN = {"repack": " --into ...", "check": " crisp|soft"}


def next_for_doubt(package: Package, doubt: Doubt) -> str:
    """The command that settles a doubt."""
    word = _to_do(doubt)
    return f"stockroom {word} {package.code}{_THEN.get(word, '')}"


def with_package_columns(
    first: Sequence[Column], packages: Iterable[Package], rows: Iterable[Row]
) -> tuple[tuple[Column, ...], tuple[Row, ...]]:
    """Columns shown first, then those of a package that are not among them, for programs.

    `rows` hold the values of `first` for each package.
    """
    named = {one.key for one in first}
    kept = [
        (place, one) for place, one in enumerate(PACKAGE_COLUMNS) if one.key not in named | {""}
    ]
    columns = (*first, *(Column(one.key, one.kind) for _, one in kept))
    whole: list[Row] = []
    for package, row in zip(packages, rows, strict=True):
        known = package_row(package)
        whole.append((*row, *(known[place] for place, _ in kept)))
    return columns, tuple(whole)


_SUSPECT = (
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("", title="because", least=10),
    Column("", title="to do"),
    Column("place", title="place", least=10, drop=1),
    Column("doubt"),
    Column("next"),
)


def suspect_table(page: RoundPage) -> Table:
    """Packages in doubt, why, and what to do about each."""
    rows = [
        (
            one.code, one.food, DOUBT_WORDS[doubt], _to_do(doubt), one.place, doubt.value,
            next_for_doubt(one, doubt),
        )
        for one, doubt in zip(page.suspect, doubts_of(page), strict=True)
    ]  # fmt: skip
    return Table("suspect", *with_package_columns(_SUSPECT, page.suspect, rows), "In doubt")


_RECHECK = (
    Column("code", title="code"),
    Column("food", title="food", least=12),
    Column("container", title="container", least=10, drop=1),
    Column("place", title="place", least=10),
    Column("", title="risk"),
    Column("latest_on", DAY, "may wait until", drop=2),
    Column("wanted_on", DAY),
    Column("risk", COUNT),
)


def recheck_table(page: RoundPage) -> Table:
    """Today's rechecks with their risk, the worst first."""
    looks = {one.package_id: one for one in page.looks}
    rows: list[Row] = []
    for one in page.recheck:
        known = (one.code, one.food, one.container, one.place)
        look = looks.get(one.package_id)
        if look is None:
            rows.append((*known, None, None, None, None))
        else:
            rows.append((*known, risk_words(look.risk), look.latest_on, look.wanted_on, look.risk))
    return Table("recheck", *with_package_columns(_RECHECK, page.recheck, rows), "Rechecks")


_REMINDERS = (
    Column("run", COUNT, "run"),
    Column("hours", AMOUNT, "hours more"),
    Column("due_at", MOMENT, "until"),
    Column("on_day", DAY, "begun on"),
    Column("note", title="note", least=10, drop=1),
)


def reminder_table(extra: Sequence[ExtraDrying]) -> Table:
    """A few more hours after which nothing was weighed yet."""
    rows = tuple(
        (one.run_id, Fraction(one.hours_tenths, 10), one.due_at, one.on_day, one.note)
        for one in extra
    )
    return Table("reminders", _REMINDERS, rows, "Drying longer")
