"""Computations on their own, without a store: a short explanation, and exact keys for programs."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.quantities import to_dg
from stockroom.domain.units import LABEL_CUP_ML, US_CUP_ML
from stockroom.domain.water import show_water
from stockroom.domain.water_working import MASS_BALANCE, UPPER_BOUND
from stockroom.reports.values import (
    FLAG,
    TEXT,
    Block,
    Field,
    Fields,
    Prose,
    Report,
    decimal_kind,
    document,
)


@dataclass(frozen=True, slots=True)
class WaterResult:
    """Water removed by drying and water to add to a part of the dry food, in plain grams."""

    wet_g: Fraction
    dry_g: Fraction
    use_g: Fraction
    water_removed_g: Fraction
    water_per_dry_g: Fraction
    water_to_add_g: Fraction
    water_to_add_ml: float
    us_cups: float
    label_cups: float


@dataclass(frozen=True, slots=True)
class CodeResult:
    """Whether a code's check character fits. `kind` is lot, package or other."""

    code: str
    kind: str
    valid: bool
    check_character: str


def water_result(result: WaterResult) -> Report:
    """How much water the dry food takes back."""
    tenth, fine, cups = decimal_kind(1), decimal_kind(4), decimal_kind(2)
    water = show_water(to_dg(result.water_to_add_g))
    blocks: tuple[Block, ...] = (
        Fields(
            (
                Field("wet_g", tenth, result.wet_g, "as loaded", " g"),
                Field("dry_g", tenth, result.dry_g, "dry", " g"),
                Field(
                    "water_removed_g", tenth, result.water_removed_g, "water removed",
                    " g, as loaded less dry",
                ),
                Field(
                    "water_per_dry_g", fine, result.water_per_dry_g, "for each gram dry",
                    " g, water removed divided by dry",
                ),
                Field("use_g", tenth, result.use_g, "to be used", " g of dry food"),
                Field("", TEXT, water, "water to add"),
                Field("water_to_add_g", tenth, result.water_to_add_g),
                Field("water_to_add_ml", tenth, result.water_to_add_ml),
                Field(
                    "us_cups", cups, result.us_cups, "in US cups",
                    f" of {float(US_CUP_ML):.3f} mL",
                ),
                Field(
                    "label_cups", cups, result.label_cups, "in label cups",
                    f" of {LABEL_CUP_ML} mL",
                ),
            )
        ),
        Prose(
            "",
            (
                f"{MASS_BALANCE.words}.",
                "Full restoration is an upper bound: start with two thirds to three quarters and"
                f" add to taste (engineering judgement; {UPPER_BOUND.words}).",
                "Follow local codes and licensed guidance.",
            ),
        ),
    )  # fmt: skip
    return document("Water to add", blocks)


_CHECKED = (
    "Check character after ISO/IEC 7064 MOD 37,36 (from memory; agrees with a reference library)."
)


def code_result(result: CodeResult) -> Report:
    """Whether a code is written down right."""
    named = "code" if result.kind == "other" else f"{result.kind} code"
    said = f"{result.code} is a {named}; its check character is {result.check_character}."
    if not result.valid:
        said = (
            f"{result.code} is not right as a {named}: the check character for it"
            f" is {result.check_character}."
        )
    return document(
        "",
        (
            Prose("", (said, _CHECKED)),
            Fields(
                (
                    Field("code", TEXT, result.code),
                    Field("kind", TEXT, result.kind),
                    Field("valid", FLAG, result.valid),
                    Field("check_character", TEXT, result.check_character),
                )
            ),
        ),
    )
