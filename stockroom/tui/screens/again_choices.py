"""Food that waits to be dried again, offered where a tray is loaded."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.evidence_records import QueueEntry
from stockroom.tui.widgets.picker import Choice, Search

START = "Dry again"


class AgainChoices:
    """What waits in the queue as choices, first come first served.

    Packages of one lot may share a tray: they are offered together first, then one by one.
    """

    def __init__(self, queue: Sequence[QueueEntry]) -> None:
        """`queue` is the whole queue; what is on the machine or off it is not offered."""
        self.waiting = tuple(entry for entry in queue if entry.state == "waiting")
        self._offers: list[tuple[QueueEntry, ...]] = []
        for entry in self.waiting:
            beside = tuple(one for one in self.waiting if _go_together(one, entry))
            if len(beside) > 1 and beside not in self._offers:
                self._offers.append(beside)
            self._offers.append((entry,))

    @property
    def hint(self) -> str:
        """That something waits, and how to find it; "" where nothing does."""
        if not self.waiting:
            return ""
        first = self.waiting[0]
        more = f" and {len(self.waiting) - 1} more" if len(self.waiting) > 1 else ""
        return f"{first.code}{more} to be dried again: type “again”, or a code."

    def before(self, foods: Search) -> Search:
        """A search that finds what waits first, then foods."""

        def search(letters: str) -> Sequence[Choice]:
            return [*self.matching(letters), *foods(letters)]

        return search

    def matching(self, letters: str) -> list[Choice]:
        """What waits and has every word in its line; several codes find just those together."""
        words = letters.casefold().split()
        found = [
            _choice(key, offer)
            for key, offer in enumerate(self._offers)
            if all(word in _line(offer).casefold() for word in words)
        ]
        return found or self._just_these(words)

    def _just_these(self, codes: Sequence[str]) -> list[Choice]:
        """Packages of one lot that were typed by their codes."""
        named = [[one for one in self.waiting if code in one.code.casefold()] for code in codes]
        if len(codes) < 2 or any(len(some) != 1 for some in named):
            return []
        offer = tuple(some[0] for some in named)
        if not all(_go_together(one, offer[0]) for one in offer):
            return []
        if offer not in self._offers:
            self._offers.append(offer)
        return [_choice(self._offers.index(offer), offer)]

    def _offer(self, choice: Choice) -> tuple[QueueEntry, ...]:
        """What a choice stands for; none for a food, whose key is its name."""
        return self._offers[choice.key] if isinstance(choice.key, int) else ()

    def codes_of(self, choice: Choice) -> tuple[str, ...]:
        """The codes a choice stands for; none for a food."""
        return tuple(one.code for one in self._offer(choice))

    def food_of(self, choice: Choice) -> str:
        """The food of what waits; "" for a food itself."""
        return next((one.food for one in self._offer(choice)), "")


def _go_together(one: QueueEntry, other: QueueEntry) -> bool:
    """Whether two entries may share a tray: packages of one lot."""
    packages = one.package_id is not None and other.package_id is not None
    return one.lot_id == other.lot_id and (packages or one.entry_id == other.entry_id)


def _choice(key: int, offer: Sequence[QueueEntry]) -> Choice:
    return Choice(key, _line(offer), f"since {offer[0].since.isoformat()}")


def _line(offer: Sequence[QueueEntry]) -> str:
    """Which codes, and what food."""
    return f"{START}: {', '.join(one.code for one in offer)} {offer[0].food}"
