"""Packages: a list of them, those just made, and what was taken from one."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.records import Package
from stockroom.reports.parts import (
    QUALITY_CAPTION,
    package_table,
    prepared,
)
from stockroom.reports.values import (
    CUPS,
    DAY,
    MILLILITRES,
    SERVINGS,
    TEXT,
    WATER,
    WATER_GRAMS,
    WEIGHT,
    WORDS,
    Column,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    document,
    listing,
)
from stockroom.services.results import PackageDetail


def package_list(packages: Sequence[Package]) -> Report:
    """Packages in the order given."""
    return listing(package_table(packages, empty="No packages."))


_MADE = (
    Column("code", title="code"),
    Column("container", title="container", least=10, drop=2),
    Column("dry", WEIGHT, "dry"),
    Column("water", WATER_GRAMS, "water"),
    Column("", MILLILITRES, "or", drop=1),
    Column("", CUPS, "or about"),
    Column("servings", SERVINGS, "servings"),
    Column("best_by", DAY, "best-by"),
)


def made_list(packages: Sequence[Package]) -> Report:
    """Packages just sealed, with what to write on each."""
    rows = tuple(
        (
            one.code,
            one.container,
            one.dry_dg,
            one.water_dg,
            one.water_dg,
            one.water_dg,
            one.servings_left,
            one.best_by,
        )
        for one in packages
    )
    table = Table("packages", _MADE, rows, caption=QUALITY_CAPTION)
    despite = [one for one in packages if one.gate_reason]
    if not despite:
        return listing(table)
    from stockroom.domain.gate import override_words

    codes = ", ".join(one.code for one in despite)
    words = f"Write on {codes} as well: {override_words(despite[0].gate_reason)}"
    return document("", (table, Prose("", (words,))), table)


def drawn_report(before: Package, after: PackageDetail) -> Report:
    """What was taken from a package and what stays in it."""
    package = after.package
    left = package.left_dg or None
    return document(
        "",
        (
            Fields(
                (
                    Field("taken", WEIGHT, package.taken_dg - before.taken_dg, "taken dry"),
                    Field(
                        "water",
                        WATER,
                        package.taken_water_dg - before.taken_water_dg,
                        "water to add",
                        ", an upper bound",
                    ),
                    Field("", TEXT, prepared(package.preparation), "made from"),
                    Field("allergens", WORDS, after.allergens, "allergens"),
                    Field("left", WEIGHT, left, "left dry", missing="nothing"),
                    Field("servings_left", SERVINGS, left and package.servings_left, "servings"),
                )
            ),
            Prose("", ("Follow local codes and licensed guidance.",)),
        ),
    )
