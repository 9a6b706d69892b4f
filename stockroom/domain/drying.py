"""Mass balance of drying: what each tray and each lot held before and after.

As loaded less dry is the water removed, and the same water restores the food (definition).
All weights are net, in tenths of a gram.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.quantities import grams
from stockroom.errors import Refused


class DryAboveWet(Refused):
    """The food weighs more dry than it did as loaded."""

    def __init__(self, what: str, wet_dg: int, dry_dg: int) -> None:
        """`what` names the tray or lot; both weights are net."""
        super().__init__(
            f"{what} weighs {grams(dry_dg):.1f} g dry but {grams(wet_dg):.1f} g as loaded;"
            " drying only takes weight away.",
            "Look whether the two weights were swapped, or the tray's own weight left in one.",
        )


class TareAboveGross(Refused):
    """The empty tray weighs more than the full one."""

    def __init__(self, what: str, gross_dg: int, tare_dg: int) -> None:
        """`what` names the tray; gross is with food, tare without."""
        super().__init__(
            f"{what} weighs {grams(gross_dg):.1f} g with food but {grams(tare_dg):.1f} g empty.",
            "Look whether the two were swapped, or the weight typed is already without the tray.",
        )


class WeightMissing(Refused):
    """A weight that the sum needs was not taken."""

    def __init__(self, what: str) -> None:
        """`what` names the weight, such as "tray 3 dry"."""
        super().__init__(f"The weight of {what} is missing.", "Weigh it and enter the weight.")


class NothingWeighed(Refused):
    """The food weighs nothing, so nothing can be counted per gram of it."""

    def __init__(self, what: str) -> None:
        """`what` names the weight, such as "tray 3 dry"."""
        super().__init__(
            f"The weight of {what} has to be more than 0 g.",
            "Weigh it again, and look whether the tray's own weight was taken off twice.",
        )


@dataclass(frozen=True, slots=True)
class TrayWeights:
    """One tray's food as loaded and dry, net; `position` counts from the top, from 1."""

    position: int
    wet_dg: int
    dry_dg: int

    @property
    def water_removed_dg(self) -> int:
        """Water the tray lost."""
        return self.wet_dg - self.dry_dg

    @property
    def water_per_dry(self) -> Fraction:
        """Grams of water removed for each gram of dry food."""
        return Fraction(self.water_removed_dg, self.dry_dg)


@dataclass(frozen=True, slots=True)
class LotTotals:
    """A lot's food as loaded and dry, over its trays."""

    wet_dg: int
    dry_dg: int

    @property
    def water_removed_dg(self) -> int:
        """Water the lot lost, which is also the water that restores it."""
        return self.wet_dg - self.dry_dg

    @property
    def water_per_dry(self) -> Fraction:
        """Grams of water removed for each gram of dry food."""
        return Fraction(self.water_removed_dg, self.dry_dg)

    @property
    def removed_percent(self) -> float:
        """Water removed in percent of the loaded weight (not of the water, not of the dry)."""
        return 100 * self.water_removed_dg / self.wet_dg


def net_weight(gross_dg: int, tare_dg: int, what: str) -> int:
    """Food alone: with tray less the empty tray; refuses an empty tray heavier than a full one."""
    if tare_dg > gross_dg:
        raise TareAboveGross(what, gross_dg, tare_dg)
    return gross_dg - tare_dg


def tray_weights(position: int, wet_dg: int | None, dry_dg: int | None) -> TrayWeights:
    """One tray's pair of weights; refuses a missing one, no dry food, and dry above wet."""
    if wet_dg is None:
        raise WeightMissing(f"tray {position} as loaded")
    if dry_dg is None:
        raise WeightMissing(f"tray {position} dry")
    refuse_impossible(f"Tray {position}", wet_dg, dry_dg)
    return TrayWeights(position, wet_dg, dry_dg)


def lot_totals(trays: Sequence[TrayWeights]) -> LotTotals:
    """The sums over a lot's trays; refuses a lot without any."""
    if not trays:
        raise WeightMissing("the lot's trays")
    return LotTotals(sum(tray.wet_dg for tray in trays), sum(tray.dry_dg for tray in trays))


def refuse_impossible(what: str, wet_dg: int, dry_dg: int) -> None:
    """Refuse a pair of weights that drying cannot give: nothing dry, or dry above wet."""
    if dry_dg <= 0:
        raise NothingWeighed(f"{what[:1].lower()}{what[1:]} dry")
    if dry_dg > wet_dg:
        raise DryAboveWet(what, wet_dg, dry_dg)
