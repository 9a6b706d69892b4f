"""What to write on the labels of packages just closed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType

from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.gate import override_words
from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.packing import servings_in
from stockroom.domain.quantities import UnitSystem, show_servings, show_weight
from stockroom.domain.records import Food, Package
from stockroom.domain.water import show_water
from stockroom.services import foods, packing
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.screens.working_key import open_working, working_binding
from stockroom.tui.words import names_of

PREPARATION_WORDS = {
    Preparation.RAW: "RAW: cook after adding water",
    Preparation.COOKED: "cooked before drying",
    Preparation.READY: "ready to eat",
}
LIKE_ENOUGH_DG = 1
"""Packages whose dry food differs by no more share one label text: an even split leaves that."""


def label_lines(packages: Sequence[Package], units: UnitSystem) -> list[str]:
    """The words for the labels, packages that are alike together."""
    lines: list[str] = []
    for alike in _groups(packages):
        lines += ["", ", ".join(package.code for package in alike), *_words(alike, units)]
    return lines[1:]


def _groups(packages: Sequence[Package]) -> list[list[Package]]:
    """Runs of packages that are alike."""
    groups: list[list[Package]] = []
    for package in packages:
        if groups and _alike(groups[-1][0], package):
            groups[-1].append(package)
        else:
            groups.append([package])
    return groups


def _alike(one: Package, other: Package) -> bool:
    """Whether two packages may share a label text."""
    return (
        (one.container_key, one.best_by, one.gate_reason)
        == (other.container_key, other.best_by, other.gate_reason)
        and abs(one.dry_dg - other.dry_dg) <= LIKE_ENOUGH_DG
    )  # fmt: skip


def _words(alike: Sequence[Package], units: UnitSystem) -> list[str]:
    """Dry weight, servings, water and best-by of packages alike; that dryness was not shown."""
    first = alike[0]
    dry = sorted({package.dry_dg for package in alike})
    water = sorted({package.water_dg for package in alike})
    servings = show_servings(servings_in(first.dry_dg, first.water_dg, first.serving_dg))
    less = f"{show_weight(water[0], UnitSystem.METRIC)} to " if len(water) > 1 else ""
    weights = " to ".join(show_weight(one, units) for one in dry)
    return [
        f"  {weights} dry · {servings} servings",
        f"  add {less}{show_water(water[-1])}",
        f"  {_best_by(first)}",
        *([f"  {override_words(first.gate_reason)}"] if first.gate_reason else []),
    ]


def _best_by(package: Package) -> str:
    """The best-by with what it is worth."""
    if package.best_by is None:
        return "best by: not known"
    return f"best by {package.best_by.isoformat()} ({QUALITY_NOT_SAFETY})"


def allergen_words(food: Food) -> str:
    """The allergens of a food as a label names them, and whether there may be more."""
    named = ", ".join(Allergen(one).words for one in food.allergens)
    unknown = "check what went into it for allergens" if food.ingredients_unknown else ""
    return " · ".join(part for part in (f"contains {named}" if named else "", unknown) if part)


class LabelsScreen(ReadScreen):
    """The words for the labels, and how their figures were reached."""

    BINDINGS: ClassVar[list[BindingType]] = [
        working_binding("labels", "Show how water and best-by of the packages were reached."),
        Binding(
            "L",
            "print",
            "Print",
            show=False,
            id="labels-print",
            tooltip="Print labels of the packages into a file.",
        ),
    ]

    def __init__(
        self, room: Stockroom, lot_code: str, packages: Sequence[Package], lines: Sequence[str]
    ) -> None:
        super().__init__(f"Packed lot {lot_code}", lines)
        self.room = room
        self.lot_code = lot_code
        self.packages = tuple(packages)

    def action_print(self) -> None:
        """Ask how labels of the packages are to be printed."""
        from stockroom.tui.screens.label_form import Wanted, open_labels

        codes = tuple(package.code for package in self.packages)
        open_labels(self, self.room, Wanted(f"For {names_of(self.packages)}.", codes))

    def action_working(self) -> None:
        """Show how the figures of the packages were reached, alike ones together."""
        from stockroom.services.workings import made_working

        heading = f"Working: {names_of(self.packages)}"
        open_working(self, heading, made_working, self.room, self.lot_code, self.packages)


def labels_screen(room: Stockroom, lot_code: str, done: Done) -> LabelsScreen:
    """The window shown after packing: what belongs on every label, then each code with its own."""
    detail = packing.lot_detail(room, lot_code)
    lot = detail.lot
    packed = [package for package in detail.packages if package.code in done.codes]
    food = next((food for food in foods.list_foods(room) if food.food_id == lot.food_id), None)
    allergens = allergen_words(food) if food else ""
    prepared = PREPARATION_WORDS[Preparation(lot.preparation)]
    lines = [
        "Write on every label:",
        f"  {lot.food}",
        f"  {prepared} · made {lot.made_on.isoformat()}",
        *([f"  {allergens}"] if allergens else []),
        "",
        "and on each its code and what is in it:",
        "",
        *label_lines(packed, room.units),
        "",
        "Squeeze each one tomorrow: the settle check finds the soft ones.",
    ]
    return LabelsScreen(room, lot_code, packed, lines)
