"""Options of a recipe beside its lines: water held back, cooking step, what fresh items bring."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from stockroom.cli.options import Choices, number

if TYPE_CHECKING:
    from collections.abc import Iterable

    from stockroom.cli.options import Function
    from stockroom.domain.quantities import UnitSystem
    from stockroom.services.recipes import Clear, RecipeDetails

_MOST_KCAL = 1_000_000

CLEARED = (
    "cook_to", "water_at", "fresh_kcal", "fresh_protein", "fresh_allergen", "origin", "hold_back",
)  # fmt: skip
"""What `recipe edit --clear` takes away, each named as its option."""

_KEYS = {
    "cook_to": "cook_to_dc",
    "water_at": "water_temperature_dc",
    "fresh_kcal": "fresh_kcal",
    "fresh_protein": "fresh_protein_dg",
    "fresh_allergen": "allergens",
    "origin": "origin",
    "hold_back": "hold_back_percent",
}


def _occasions() -> Iterable[str]:
    from stockroom.domain.cooking import Occasion

    return tuple(Occasion)


def _allergens() -> Iterable[str]:
    from stockroom.domain.foods import Allergen

    return tuple(Allergen)


def details(function: Function) -> Function:
    """The options; the command takes them as `**said` for `details_said`."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


_OPTIONS = (
    click.option(
        "--hold-back", metavar="PERCENT", help="Share of the water to hold back; 30 % by itself."
    ),
    click.option(
        "--cook-to", metavar="TEMP", help="What its cooking step reaches in the middle of the dish."
    ),
    click.option("--water-at", metavar="TEMP", help="How warm the water is that is measured."),
    click.option("--occasion", type=Choices(_occasions), help="What it is cooked as."),
    click.option(
        "--fresh-kcal", type=number(0, _MOST_KCAL), metavar="KCAL",
        help="Energy of its fresh items, for all it serves.",
    ),
    click.option(
        "--fresh-protein", metavar="WEIGHT", help="Protein of its fresh items, for all it serves."
    ),
    click.option(
        "--fresh-allergen", "fresh_allergens", multiple=True, type=Choices(_allergens),
        help="What its fresh items contain.",
    ),
    click.option("--origin", metavar="TEXT", help="Where it is from, such as a book."),
)  # fmt: skip


def details_said(said: dict[str, Any], units: UnitSystem) -> RecipeDetails:
    """What was said of a recipe; None for what was not. Raises BadInput."""
    from stockroom.cli.reading import read_hold_back
    from stockroom.domain.cooking import Occasion
    from stockroom.domain.foods import Allergen
    from stockroom.domain.quantities import read_weight

    held, occasion, protein = said["hold_back"], said["occasion"], said["fresh_protein"]
    allergens = [Allergen(one) for one in said["fresh_allergens"]]
    return {
        "hold_back_percent": None if held is None else read_hold_back(held),
        "cook_to_dc": _degrees(said["cook_to"], units, "cooked to"),
        "water_temperature_dc": _degrees(said["water_at"], units, "water temperature"),
        "occasion": None if occasion is None else Occasion(occasion),
        "fresh_kcal": said["fresh_kcal"],
        "fresh_protein_dg": (
            None if protein is None else read_weight(protein, units, "protein of the fresh items")
        ),
        "origin": said["origin"],
        "allergens": allergens or None,
    }


def cleared(words: tuple[str, ...], said: RecipeDetails) -> tuple[RecipeDetails, tuple[Clear, ...]]:
    """What was said with what is taken away from it, and what is left without any value.

    A usage error where both a value and its end are said.
    """
    from stockroom.domain.water_share import HOLD_BACK_PERCENT
    from stockroom.services.recipes import Clear

    for word in words:
        if said.get(_KEYS[word]) is not None:
            option = word.replace("_", "-")
            raise click.UsageError(
                f"Say --{option} or --clear {word}, not both.", click.get_current_context()
            )
    changed: RecipeDetails = {**said}
    if "hold_back" in words:
        changed["hold_back_percent"] = HOLD_BACK_PERCENT
    if "fresh_allergen" in words:
        changed["allergens"] = ()
    if "origin" in words:
        changed["origin"] = ""
    keys = tuple(Clear)
    return changed, tuple(key for key in keys if key.value in {_KEYS[word] for word in words})


def _degrees(typed: str | None, units: UnitSystem, what: str) -> int | None:
    """A temperature in the household's degrees, when it was said. Raises BadInput."""
    from stockroom.domain.quantities import read_temperature

    return None if typed is None else read_temperature(typed, units, what)
