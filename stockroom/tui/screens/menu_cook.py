"""The cook sheet of a planned dish: taking it marks it as cooked in the menu."""

from __future__ import annotations

from stockroom.domain.menu_records import MenuDish
from stockroom.services.menu import cook_planned
from stockroom.tui.screens.cook import CookScreen


class PlannedCookScreen(CookScreen):
    """As the sheet of any recipe; `t` takes it as the dish of its day, in one action."""

    def __init__(self, dish: MenuDish, recipe: str) -> None:
        """`recipe` is the name its recipe has now."""
        super().__init__(recipe, dish.people)
        self.dish = dish

    def _take(self, *, short: bool) -> None:
        """Take it off the shelves and mark it, all in one action."""
        order = self.order
        done = self.attempt(
            cook_planned,
            self.stockroom,
            self.dish.on,
            self.dish.name,
            people=order.people,
            servings=order.servings,
            take_short=short,
            whole=order.whole,
            swaps=order.swaps,
            cook_to_dc=order.cook_to_dc,
        )
        if done:
            self._taken(done)
