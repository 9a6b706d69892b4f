"""The oxygen of a package and how long it may keep, without a store."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stockroom.domain.keeping.dates import show_life
from stockroom.domain.keeping.headspace import SOLID_DENSITY_MG_PER_ML
from stockroom.domain.keeping.interface import (
    QUALITY_NOT_SAFETY,
    KeepingCase,
    PackageKind,
    Projection,
)
from stockroom.domain.keeping.oxygen import AbsorberFigures
from stockroom.domain.keeping.oxygen_working import DENSE_GOODS
from stockroom.domain.keeping.sources import ABSORBER_ADVICE, MOISTURE_CEILING
from stockroom.reports.parts import limit_words, spoken
from stockroom.reports.values import (
    COUNT,
    TEXT,
    Data,
    Field,
    Fields,
    Prose,
    Report,
    decimal_kind,
    document,
)

_WHOLE, _TENTH, _THOUSANDTH = decimal_kind(0), decimal_kind(1), decimal_kind(3)


@dataclass(frozen=True, slots=True)
class AbsorberAsked:
    """A package as it was described; None where nothing was said."""

    volume_ml: int
    dry_dg: int
    density_mg_per_ml: int | None = None
    vacuum_tenth_inhg: int | None = None
    barometer_thousandth_inhg: int | None = None
    given_cc: int | None = None

    @property
    def solid_density(self) -> int:
        """The density reckoned with, mg/mL."""
        if self.density_mg_per_ml is None:
            return SOLID_DENSITY_MG_PER_ML
        return self.density_mg_per_ml


def absorber_result(figures: AbsorberFigures, asked: AbsorberAsked) -> Report:
    """Gas, oxygen and absorber of a package."""
    several = " + ".join(f"{one} cc" for one in figures.absorbers)
    how = (
        " (the next stock size above 1.25 times the oxygen)"
        if asked.given_cc is None
        else " (as asked)"
    )
    return document(
        "Absorber",
        (
            Fields(
                (
                    Field("volume_ml", COUNT, asked.volume_ml, "volume", " mL as closed"),
                    Field("dry_g", _TENTH, asked.dry_dg / 10, "dry food", " g"),
                    Field("gas_ml", _TENTH, figures.gas_ml, "gas", " mL, package less solids"),
                    Field("oxygen_cc", _TENTH, figures.oxygen_cc, "oxygen", " cc at closing"),
                    Field("", TEXT, several, "absorber", how),
                    Field("absorber_cc", COUNT, figures.absorber_cc),
                    Field("residual_oxygen_cc", _TENTH, figures.residual_oxygen_cc,
                          "leaves", " cc of oxygen"),
                    Field("reserve_cc", _TENTH, figures.reserve_cc, "can still take",
                          " cc"),
                    Field("oxygen_percent_after", decimal_kind(2), figures.oxygen_percent_after,
                          "oxygen then", " % of one atmosphere"),
                )
            ),
            Data("absorbers", list(figures.absorbers)),
            Prose(
                "",
                (
                    f"{ABSORBER_ADVICE.words}.",
                    DENSE_GOODS,
                    f"Only for dry food. {MOISTURE_CEILING.words}.",
                    "Follow local codes and licensed guidance.",
                ),
            ),
        ),
    )  # fmt: skip


def keep_result(found: Projection, case: KeepingCase, cautions: Sequence[str]) -> Report:
    """How long a described package may keep."""
    band = f", between {show_life(found.low_months)} and {show_life(found.high_months)}"
    discard_days = None if found.discard_by is None else (found.discard_by - case.sealed_on).days
    return document(
        "How long it may keep",
        (
            Fields(
                (
                    Field("food_class", TEXT, case.food_class.value),
                    Field("package", TEXT, case.package_kind.value),
                    Field("", TEXT, _described(case), "package"),
                    Field("", TEXT, show_life(found.mid_months), "may keep",
                          f"{band} ({QUALITY_NOT_SAFETY})"),
                    Field("low_years", _THOUSANDTH, found.low_years),
                    Field("mid_years", _THOUSANDTH, found.mid_years),
                    Field("high_years", _THOUSANDTH, found.high_years),
                    Field("limited_by", TEXT, found.limited_by.value),
                    Field("", TEXT, limit_words(found.limited_by), "limited by"),
                    Field("", TEXT, show_life(found.low_months), "recheck after"),
                    Field("discard_days", COUNT, discard_days, "discard after",
                          " days, when it may be damp"),
                    Field("quality", TEXT, QUALITY_NOT_SAFETY),
                )
            ),
            Prose("cautions", tuple(cautions), "Bear in mind", "- "),
        ),
    )  # fmt: skip


def _described(case: KeepingCase) -> str:
    """The package in a line."""
    parts = [
        f"{case.dry_dg / 10:.1f} g of {spoken(case.food_class.value)} in a"
        f" {spoken(PackageKind(case.package_kind).value)} of {case.volume_ml} mL",
        f"absorber {case.absorber_cc} cc" if case.absorber_cc else "no absorber",
    ]
    if case.vacuum_tenth_inhg:
        parts.append(f"vacuum {case.vacuum_tenth_inhg / 10:.1f} inHg")
    degrees_dc = case.stays[0].temperature_dc if case.stays else None
    if degrees_dc is not None:
        parts.append(f"at {degrees_dc / 10:.1f} °C")
    return ", ".join(parts)
