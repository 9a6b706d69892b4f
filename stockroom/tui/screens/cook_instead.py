"""What on the shelves could stand in for the foods a dish is short of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from textual import on
from textual.app import ComposeResult
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from stockroom.domain.foods import Allergen
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.substitutes import Substitute, Substitution
from stockroom.domain.water import show_water
from stockroom.domain.water_share import WaterWay
from stockroom.services.results import CookSheet
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.cook_lines import short_text
from stockroom.tui.screens.cook_order import Order

HINT = "Enter takes the one under the cursor. Escape leaves all as it is."
NONE_ALIKE = "Nothing like it is on the shelves, as safely prepared and enough of it."


@dataclass(frozen=True, slots=True)
class Swap:
    """Another food for one of the recipe's; `other_id` is None where the swap is taken back."""

    food_id: int
    other_id: int | None


@dataclass(frozen=True, slots=True)
class Offer:
    """One way to choose: its lines, and the swap it makes; None for lines that say something."""

    lines: tuple[str, ...]
    swap: Swap | None = None


def offers(
    sheet: CookSheet, order: Order, found: Sequence[Substitution], units: UnitSystem
) -> list[Offer]:
    """The swaps that were made, to be taken back, and for each short food what could stand in."""
    shown = [*_made(sheet, order)]
    for one in found:
        shown.append(Offer((f"! {short_text(one.line, units)}",)))
        if not one.options:
            shown.append(Offer((NONE_ALIKE,)))
        shown += [
            Offer(option_lines(option, units, sheet.way), Swap(one.food_id, option.food_id))
            for option in one.options
        ]
    return shown


def _made(sheet: CookSheet, order: Order) -> Iterator[Offer]:
    """What stands in already."""
    names = {line.food_id: line.food for line in sheet.recipe.lines}
    chosen = {line.need.food_id: line.need.food_name for line in sheet.plan.lines}
    for food_id, other_id in order.swaps.items():
        text = f"Take back: {names.get(food_id)} again, not {chosen.get(other_id)}"
        yield Offer((text,), Swap(food_id, None))


def option_lines(option: Substitute, units: UnitSystem, way: WaterWay) -> tuple[str, ...]:
    """A stand-in: its name and likeness, its amount and water, and what to bear in mind."""
    alike = "same group" if option.same_group else "keeps as it does"
    lines = [
        f"{option.food} · {alike} · {option.preparation}",
        f"  {show_weight(option.dry_dg, units)} dry,"
        f" water {show_water(option.water_dg, way.at_c, way.cup)}",
    ]
    if option.new_allergens:
        named = ", ".join(Allergen(one).words for one in option.new_allergens)
        lines.append(f"  ! New allergen: {named}")
    if option.check_ingredients:
        lines.append("  ! Check what went into it for allergens")
    return tuple(lines)


class InsteadScreen(BaseModal[Swap]):
    """The stand-ins; closes with the swap that was taken, or None when left."""

    DEFAULT_CSS = """
    InsteadScreen {
        & > .box { width: 76; }
        .hint { color: $foreground-muted; margin-bottom: 1; }
        OptionList, OptionList:focus {
            height: auto;
            border: none;
            padding: 0;
            background: $surface;
            margin-bottom: 1;
            & > .option-list--option { padding: 0 1; }
            & > .option-list--option-disabled { color: $warning; }
        }
    }
    """

    def __init__(self, recipe: str, shown: Sequence[Offer]) -> None:
        super().__init__(f"Instead, in {recipe}")
        self.shown = tuple(shown)

    def compose_inside(self) -> ComposeResult:
        """The hint, then every offer under the food it is for."""
        yield Static(plain(HINT), classes="hint")
        yield OptionList(
            *(Option(plain_lines(one.lines), disabled=one.swap is None) for one in self.shown)
        )

    def on_mount(self) -> None:
        """Stand on the first that can be taken."""
        listed = self.query_one(OptionList)
        listed.focus()
        places = (place for place, one in enumerate(self.shown) if one.swap is not None)
        listed.highlighted = next(places, None)

    @on(OptionList.OptionSelected)
    def _taken(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click takes a swap."""
        event.stop()
        self.dismiss(self.shown[event.option_index].swap)
