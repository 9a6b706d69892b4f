"""Residual moisture and constant weight, without a store."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.dryness import (
    COVERAGE,
    GUARDED_ACCEPTANCE,
    LIMIT,
    NO_PROOF,
    PROPAGATION,
    ResidualMoisture,
)
from stockroom.domain.plateau import NOT_ENOUGH, PLATEAU_RULE, Plateau
from stockroom.domain.quantities import grams
from stockroom.reports.values import (
    COUNT,
    FLAG,
    TEXT,
    Column,
    Data,
    Field,
    Fields,
    Prose,
    Report,
    Table,
    decimal_kind,
    document,
)

_TENTH, _SHARE, _THOUSANDTH = decimal_kind(1), decimal_kind(5), decimal_kind(3)


def moisture_result(
    found: ResidualMoisture, wet_dg: int, dry_dg: int, water_fraction: float
) -> Report:
    """What is left in the food, how sure that is, and what it means against 10 %."""
    shown = f"{_percent(found.residual)}, between {_percent(found.low)} and {_percent(found.high)}"
    return document(
        "Residual moisture",
        (
            Fields(
                (
                    Field("wet_g", _TENTH, grams(wet_dg), "as loaded", " g"),
                    Field("dry_g", _TENTH, grams(dry_dg), "dry", " g"),
                    Field("water_fraction", _SHARE, water_fraction, "water share"),
                    Field("", TEXT, shown, "moisture left", ", wet basis"),
                    Field("residual_moisture", _SHARE, found.residual),
                    Field(
                        "standard_uncertainty", _SHARE, found.standard_uncertainty,
                        "uncertainty", f", standard; counted {COVERAGE} times in the band",
                    ),
                    Field("low", _SHARE, found.low),
                    Field("high", _SHARE, found.high),
                    Field("", TEXT, _percent(found.components.water_share), "of its square",
                          " is the water figure's"),
                    Field("water_share", _SHARE, found.components.water_share),
                    Field("limit", _SHARE, LIMIT),
                    Field("verdict", TEXT, found.verdict.value, "verdict", f": {found.sentence}"),
                    Field("negative", FLAG, found.is_negative),
                )
            ),
            Prose(
                "",
                (
                    f"{NO_PROOF}",
                    "10 % is the ceiling for a low-oxygen pack, not the target: 1 to 4 % is.",
                    f"{PROPAGATION.words}; {GUARDED_ACCEPTANCE.words}.",
                    "Follow local codes and licensed guidance.",
                ),
            ),
        ),
    )  # fmt: skip


def plateau_result(
    found: Plateau, weights_dg: Sequence[int], hours: Sequence[Fraction] | None
) -> Report:
    """Whether the weight is constant, with every loss."""
    weights: Data = Data("weights_g", [grams(one) for one in weights_dg])
    return document(
        "Constant weight",
        (
            _readings(found, weights_dg, hours),
            Fields(
                (
                    Field("plateau", FLAG, found.reached, "constant"),
                    Field("reason", TEXT, found.reason, "because"),
                )
            ),
            weights,
            Data("losses_g", list(found.losses_g)),
            Data("losses_percent", list(found.losses_percent)),
            Prose("", (NOT_ENOUGH, f"{PLATEAU_RULE.words}.")),
        ),
    )


def _readings(found: Plateau, weights_dg: Sequence[int], hours: Sequence[Fraction] | None) -> Table:
    """Each reading with what was lost since the one before."""
    columns = (
        Column("reading", COUNT, "reading"),
        Column("hours", _TENTH, "hours" if hours else ""),
        Column("weight_g", _TENTH, "weight, g"),
        Column("loss_g", _TENTH, "loss, g"),
        Column("loss_percent", _THOUSANDTH, "% of the last weight"),
    )
    losses: list[tuple[float | None, float | None]] = [(None, None)]
    losses.extend(zip(found.losses_g, found.losses_percent, strict=True))
    rows = tuple(
        (place + 1, None if hours is None else hours[place], grams(weight), *losses[place])
        for place, weight in enumerate(weights_dg)
    )
    return Table("readings", columns, rows)


def _percent(share: float) -> str:
    """A share in percent with a tenth."""
    return f"{100 * share:.1f} %"
