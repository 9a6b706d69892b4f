"""How dry a batch is: residual moisture with its uncertainty, planned yield, constant weight.

Moisture here is water as a share of the food's weight (wet basis). A composition table cannot
show that a batch is under 10 %: the estimate finds gross errors, ranks trays of one food and sets
the water to add. Dryness rests on the plateau and the break test.

Weights are tenths of a gram, net unless said otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import sqrt

from stockroom.domain.drying import TrayWeights, lot_totals, net_weight, refuse_impossible
from stockroom.domain.quantities import grams, nearest_whole
from stockroom.domain.working import Source, Standing
from stockroom.errors import Refused

LIMIT = 0.10
"""Wet basis, the ceiling for a low-oxygen pack, not the target: Intellectual Reserve, An Approach
to Longer-Term Food Storage, 2007 (published, secondary copy)."""
U_WATER_FROM_TABLE = 0.010
"""Standard uncertainty of a table's water fraction (engineering judgement)."""
U_WATER_FROM_CONTROL = 0.003
"""The same from a control batch of the lot dried twice to plateau (engineering judgement)."""
COVERAGE = 2
"""Expanded over standard uncertainty."""
SCALE_DG = 10
"""One digit of a kitchen scale."""

NO_PROOF = "A composition estimate cannot show dryness: go by the plateau and the break test."
"""Stands beside every residual moisture that rests on a table's water figure."""

PROPAGATION = Source(
    "uncertainty-propagation",
    "JCGM 100:2008, 5.1.2: uncertainty by first-order propagation",
    Standing.PUBLISHED,
)
GUARDED_ACCEPTANCE = Source(
    "guarded-acceptance",
    "JCGM 106:2012: accept only where value and uncertainty together keep the limit (secondary"
    " copy)",
    Standing.PUBLISHED,
)
TABLE_WATER = Source(
    "table-water-uncertainty",
    "Uncertainty of a water fraction: 0.010 from a table, 0.003 from a control batch",
    Standing.ENGINEERING_JUDGEMENT,
)
SCALE_DIGIT = Source(
    "scale-digit",
    "A net weight is taken as good to one digit of the scale, rectangular: digit / square root of"
    " 3; slightly on the safe side for its two readings",
    Standing.ENGINEERING_JUDGEMENT,
)


class Verdict(StrEnum):
    """What the estimate says against the 10 % limit."""

    WITHIN = "within"
    UNDECIDED = "undecided"
    """Not a pass."""
    OVER = "over"


class NoSuchWaterFraction(Refused):
    """A share of water that no food has."""

    def __init__(self, what: str, share: float) -> None:
        """`what` names the share."""
        super().__init__(
            f"{what} cannot be {share:g}.", "Give a share from 0 to less than 1, such as 0.85."
        )
        self.what = what
        self.share = share


class NegativeUncertainty(Refused):
    """An uncertainty or a scale's digit below zero."""

    def __init__(self, what: str, value: float) -> None:
        """`what` names it."""
        super().__init__(f"{what} cannot be {value:g}.", "Give zero or more.")
        self.what = what
        self.value = value


@dataclass(frozen=True, slots=True)
class Components:
    """What each input alone adds to the standard uncertainty of the residual moisture."""

    water_fraction: float
    dry: float
    wet: float
    tare: float = 0.0
    """Of a tray's own weight, common to both weighings."""

    @property
    def combined(self) -> float:
        """All together: the root of the sum of squares."""
        return sqrt(self.water_fraction**2 + self.dry**2 + self.wet**2 + self.tare**2)

    @property
    def water_share(self) -> float:
        """Share of the variance that is the water figure's, 0 to 1."""
        variance = self.combined**2
        return self.water_fraction**2 / variance if variance > 0 else 0.0


@dataclass(frozen=True, slots=True)
class ResidualMoisture:
    """Moisture left in the dry food, wet basis, with its uncertainty."""

    residual: float
    """May be below zero: then the water fraction does not fit this food. Never cut off."""
    components: Components

    @property
    def standard_uncertainty(self) -> float:
        """One standard uncertainty."""
        return self.components.combined

    @property
    def expanded(self) -> float:
        """Twice the standard uncertainty."""
        return COVERAGE * self.standard_uncertainty

    @property
    def low(self) -> float:
        """The estimate less its expanded uncertainty."""
        return self.residual - self.expanded

    @property
    def high(self) -> float:
        """The estimate with its expanded uncertainty."""
        return self.residual + self.expanded

    @property
    def is_negative(self) -> bool:
        """Whether the food is lighter than its solids should be."""
        return self.residual < 0

    @property
    def verdict(self) -> Verdict:
        """Guarded acceptance at 10 %: the uncertainty decides, not the estimate alone.

        Judged as shown, to a tenth of a percent, so that "10.0 % at most" is within.
        """
        if _per_mille(self.high) <= _per_mille(LIMIT):
            return Verdict.WITHIN
        return Verdict.OVER if _per_mille(self.low) > _per_mille(LIMIT) else Verdict.UNDECIDED

    @property
    def sentence(self) -> str:
        """What the estimate means, in words."""
        if self.is_negative:
            return "Below zero: the water fraction used does not fit this food."
        return {
            Verdict.WITHIN: "At most 10 %, its uncertainty included.",
            Verdict.UNDECIDED: "It may be under 10 % or over: this estimate cannot tell.",
            Verdict.OVER: "Over 10 %, whatever its uncertainty: dry it further.",
        }[self.verdict]


@dataclass(frozen=True, slots=True)
class PlannedYield:
    """What a food should come to, for planning only: weights go before it."""

    dry_per_loaded: float
    """Grams dry for each gram loaded."""
    restore_per_dry: float
    """Grams of water to give back for each gram dry."""


def residual_moisture(
    wet_dg: int,
    dry_dg: int,
    water_fraction: float,
    *,
    u_water: float = U_WATER_FROM_TABLE,
    resolution_dg: int = SCALE_DG,
    trays: int = 1,
) -> ResidualMoisture:
    """Moisture left, r = 1 - wet (1 - w) / dry, and its uncertainty.

    `water_fraction` is that of the food as loaded, `resolution_dg` one digit of the scale. Each
    net weight counts as good to one digit, rectangular; where the weights are sums over several
    `trays`, each weighed by itself, to the root of their number times that. Refuses dry above wet
    and no dry food.
    """
    refuse_impossible("The food", wet_dg, dry_dg)
    _refuse_share("The water fraction", water_fraction)
    _refuse_below_zero("The uncertainty of the water fraction", u_water)
    _refuse_below_zero("The scale's digit", resolution_dg)
    by_water, by_dry, by_wet = _slopes(grams(wet_dg), grams(dry_dg), water_fraction)
    u_net = grams(resolution_dg) * sqrt(trays / 3)
    return ResidualMoisture(
        _residual(wet_dg, dry_dg, water_fraction),
        Components(by_water * u_water, by_dry * u_net, -by_wet * u_net),
    )


def lot_residual(
    trays: Sequence[TrayWeights],
    water_fraction: float | None,
    *,
    u_water: float = U_WATER_FROM_TABLE,
    resolution_dg: int = SCALE_DG,
) -> ResidualMoisture | None:
    """Moisture left in a lot, over all its trays; None where nobody knows its water fraction.

    Refuses a lot without trays, and what `residual_moisture` refuses.
    """
    if water_fraction is None:
        return None
    totals = lot_totals(trays)
    return residual_moisture(
        totals.wet_dg,
        totals.dry_dg,
        water_fraction,
        u_water=u_water,
        resolution_dg=resolution_dg,
        trays=len(trays),
    )


def residual_moisture_on_tray(
    gross_wet_dg: int,
    gross_dry_dg: int,
    tare_dg: int,
    water_fraction: float,
    *,
    u_water: float = U_WATER_FROM_TABLE,
    u_reading_g: float,
    u_tare_g: float,
) -> ResidualMoisture:
    """The same from one tray weighed wet and dry, its own weight known to `u_tare_g`.

    The tare is in both net weights, so its share counts once, with both slopes added.
    """
    wet_dg = net_weight(gross_wet_dg, tare_dg, "The tray as loaded")
    dry_dg = net_weight(gross_dry_dg, tare_dg, "The dry tray")
    refuse_impossible("The food", wet_dg, dry_dg)
    _refuse_share("The water fraction", water_fraction)
    for what, value in (
        ("The uncertainty of the water fraction", u_water),
        ("The uncertainty of a reading", u_reading_g),
        ("The uncertainty of the tray's weight", u_tare_g),
    ):
        _refuse_below_zero(what, value)
    by_water, by_dry, by_wet = _slopes(grams(wet_dg), grams(dry_dg), water_fraction)
    return ResidualMoisture(
        _residual(wet_dg, dry_dg, water_fraction),
        Components(
            by_water * u_water,
            by_dry * u_reading_g,
            -by_wet * u_reading_g,
            abs(by_dry + by_wet) * u_tare_g,
        ),
    )


def dry_weight_for(wet_dg: int, water_fraction: float, target: float) -> float:
    """Grams at which the food holds the target moisture: wet (1 - w) / (1 - target)."""
    _refuse_share("The water fraction", water_fraction)
    _refuse_share("The target moisture", target)
    return grams(wet_dg) * (1 - water_fraction) / (1 - target)


def planned_yield(water_fraction: float, residual: float) -> PlannedYield:
    """What a gram of food loaded should come to at a residual moisture."""
    _refuse_share("The water fraction", water_fraction)
    _refuse_share("The residual moisture", residual)
    dry = (1 - water_fraction) / (1 - residual)
    return PlannedYield(dry, (1 - dry) / dry)


def dry_basis(residual: float) -> float:
    """Water per gram of dry solids from moisture, wet basis."""
    _refuse_share("The moisture", residual)
    return residual / (1 - residual)


def wet_basis(water_per_solids: float) -> float:
    """Moisture, wet basis, from water per gram of dry solids."""
    return water_per_solids / (1 + water_per_solids)


def residual_after_removing(water_fraction: float, share_removed: float) -> float:
    """Moisture left once a share of the water is gone; not 1 less that share.

    Of food with 85 % water, removing 98 % of the water leaves 10.2 %, not 2.
    """
    _refuse_share("The water fraction", water_fraction)
    if not 0 <= share_removed <= 1:
        raise NoSuchWaterFraction("The share of water removed", share_removed)
    left = water_fraction * (1 - share_removed)
    return left / (left + 1 - water_fraction)


def _residual(wet_dg: int, dry_dg: int, water_fraction: float) -> float:
    """1 - wet (1 - w) / dry."""
    return 1 - wet_dg * (1 - water_fraction) / dry_dg


def _slopes(wet_g: float, dry_g: float, water_fraction: float) -> tuple[float, float, float]:
    """How r changes with the water fraction, the dry and the wet weight (per gram)."""
    solids = 1 - water_fraction
    return wet_g / dry_g, wet_g * solids / dry_g**2, -solids / dry_g


def _per_mille(share: float) -> int:
    """A share in whole tenths of a percent, as it is shown."""
    return nearest_whole(Fraction(share) * 1000)


def _refuse_share(what: str, share: float) -> None:
    """Refuse what is no share from 0 to less than 1."""
    if not 0 <= share < 1:
        raise NoSuchWaterFraction(what, share)


def _refuse_below_zero(what: str, value: float) -> None:
    """Refuse a negative uncertainty, and what is no number."""
    if not 0 <= value < float("inf"):
        raise NegativeUncertainty(what, value)
