"""What the weights of a run add up to, in words: by tray, by food, and what is still missing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.drying import LotTotals
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Tray
from stockroom.services.results import RunDetail

PRIOR_NOT_PROOF = "Composition is a prior, never proof of dryness."


@dataclass(frozen=True, slots=True)
class FoodSum:
    """The trays of one food. The totals are None while a weight is missing."""

    food: str
    positions: tuple[int, ...]
    wet_dg: int | None
    dry_dg: int | None

    @property
    def totals(self) -> LotTotals | None:
        """What the lot of this food would hold, once every tray has both weights."""
        if self.wet_dg is None or not self.dry_dg:
            return None
        return LotTotals(self.wet_dg, self.dry_dg)


def food_sums(trays: Sequence[Tray]) -> tuple[FoodSum, ...]:
    """The sums by food, in the order of each food's first tray; food dried again is in none."""
    groups: dict[int, list[Tray]] = {}
    for tray in trays:
        if not tray.again:
            groups.setdefault(tray.food_id, []).append(tray)
    return tuple(
        FoodSum(
            group[0].food,
            tuple(tray.position for tray in group),
            _sum([tray.wet_dg for tray in group]),
            _sum([tray.dry_dg for tray in group]),
        )
        for group in groups.values()
    )


def _sum(weights: Sequence[int | None]) -> int | None:
    """The sum, or None when a weight is missing."""
    known = [weight for weight in weights if weight is not None]
    return sum(known) if len(known) == len(weights) else None


def missing_weights(trays: Sequence[Tray]) -> tuple[str, ...]:
    """Every weight a run still needs before it can be closed; food dried again only its last."""
    return tuple(
        f"tray {tray.position}, {tray.food}: {stage} weight"
        for tray in trays
        for stage, weight in (("loaded", tray.wet_dg), ("dry", tray.dry_dg))
        if weight is None and not (tray.again and stage == "loaded")
    )


def ratio_text(ratio: Fraction) -> str:
    """Grams of water for each gram of dry food, two decimals."""
    return f"{float(ratio):.2f}"


def water_text(wet_dg: int, dry_dg: int, units: UnitSystem) -> str:
    """Water removed and its ratio to the dry food."""
    totals = LotTotals(wet_dg, dry_dg)
    return (
        f"water removed {show_weight(totals.water_removed_dg, units)},"
        f" {ratio_text(totals.water_per_dry)} g per g dry"
    )


def tray_text(tray: Tray, units: UnitSystem) -> str:
    """One tray with all that is known of it."""
    parts = [f"Tray {tray.position}, {tray.food}:"]
    if tray.wet_dg is not None:
        parts.append(f"loaded {show_weight(tray.wet_dg, units)},")
    if tray.dry_dg is not None:
        parts.append(f"dry {show_weight(tray.dry_dg, units)},")
    if tray.wet_dg is not None and tray.dry_dg:
        parts.append(water_text(tray.wet_dg, tray.dry_dg, units))
    elif tray.wet_dg is None and tray.dry_dg is None:
        parts.append("not weighed yet")
    else:
        parts.append("loaded weight missing" if tray.wet_dg is None else "not weighed dry yet")
    return " ".join(parts) + "."


def sum_text(one: FoodSum, units: UnitSystem) -> str:
    """The sums of one food: what its lot would be."""
    trays = "tray" if len(one.positions) == 1 else "trays"
    start = f"{one.food}, {trays} {', '.join(map(str, one.positions))}:"
    wet = "" if one.wet_dg is None else f" loaded {show_weight(one.wet_dg, units)},"
    totals = one.totals
    if totals is None:
        missing = "loaded" if one.wet_dg is None else "dry"
        return f"{start}{wet} {missing} weights not complete."
    return (
        f"{start}{wet} dry {show_weight(totals.dry_dg, units)},"
        f" {water_text(totals.wet_dg, totals.dry_dg, units)}"
        f" ({totals.removed_percent:.1f} % of the loaded weight)."
    )


def again_text(tray: Tray, units: UnitSystem) -> str:
    """A tray of food that is dried again: whose food it is, and the water driven off."""
    start = f"Dried again on tray {tray.position}: {', '.join(tray.again)}, {tray.food},"
    if tray.dry_dg is None:
        return f"{start} not weighed dry yet."
    weighed = f"{start} {show_weight(tray.dry_dg, units)} dry"
    if tray.wet_dg is None or tray.wet_dg < tray.dry_dg:
        return f"{weighed}."
    return f"{weighed}, {show_weight(tray.wet_dg - tray.dry_dg, units)} of water driven off."


def load_lines(trays: Sequence[Tray], units: UnitSystem) -> list[str]:
    """The sums of each food, then each tray of food dried again."""
    again = [again_text(tray, units) for tray in trays if tray.again]
    return [*(sum_text(one, units) for one in food_sums(trays)), *again]


def expected_text(detail: RunDetail, units: UnitSystem) -> str:
    """The water that composition lets expect, and what that is worth."""
    if all(tray.again for tray in detail.trays) or detail.run.state != "open":
        return ""
    if detail.expected_water_dg is None:
        return "Expected water: not known until every tray and every food's water is."
    expected = show_weight(detail.expected_water_dg, units)
    return f"Expected water {expected}, from the foods' composition. {PRIOR_NOT_PROOF}"


def closing_lines(trays: Sequence[Tray], units: UnitSystem) -> list[str]:
    """What closing would make: a lot of each food; food dried again makes none."""
    sums = food_sums(trays)
    lines = [f"· {sum_text(one, units)}" for one in sums]
    if sums:
        many = f"{len(sums)} lots, one of each food"
        lines.insert(0, f"It makes {'one lot' if len(sums) == 1 else many}:")
    again = [tray for tray in trays if tray.again]
    if again:
        lines.append("No lot is made of food dried again; what is next is asked after closing:")
        lines += [f"· {again_text(tray, units)}" for tray in again]
    return lines
