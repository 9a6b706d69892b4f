"""The main screens in the order of the title bar, and the keys that lead to them.

The digit works wherever no text is being typed; the function key works everywhere. Letters are
left to the screens, so that one letter can mean one thing throughout.
"""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import Binding

SCREENS_GROUP = Binding.Group("Screens")


@dataclass(frozen=True, slots=True)
class Tab:
    """A main screen: its name, the mode the app knows it by, its keys and what it answers."""

    name: str
    mode: str
    digit: str
    function_key: str
    about: str

    @property
    def binding(self) -> Binding:
        """The keys that lead to this screen."""
        return Binding(
            f"{self.digit},{self.function_key}",
            f"go('{self.mode}')",
            self.name,
            show=False,
            id=f"go-{self.mode}",
            tooltip=self.about,
            group=SCREENS_GROUP,
        )


TABS = (
    Tab("Round", "round", "1", "f2", "What wants doing today."),
    Tab("Shelves", "shelves", "2", "f3", "Everything there is, by place and by food."),
    Tab("Bench", "bench", "3", "f4", "Runs, weighing, drying and packing."),
    Tab("Kitchen", "kitchen", "4", "f5", "Recipes, water and the menu."),
    Tab("Horizon", "horizon", "5", "f6", "Rotation, forecast and what it would feed."),
    Tab("Tally", "tally", "6", "f7", "Is the shelf what the book says?"),
    Tab("Upkeep", "upkeep", "7", "f8", "The machine and the supplies."),
)
