"""The keys for what a check of a package finds: the same on every screen."""

from __future__ import annotations

from textual.binding import Binding

from stockroom.domain.conditions import Event

FINDING_KEYS: tuple[tuple[str, Event, str, str], ...] = (
    ("c", Event.CRISP, "Crisp", "hard, it rattles, the seal holds"),
    ("s", Event.SOFT, "Soft", "bends, sticks together, makes no sound"),
    ("l", Event.LEAK, "Leak", "the seal or the lid is open"),
    ("d", Event.DAMAGED, "Damaged", "torn, pierced, cracked or chewed"),
)
"""Key, finding, its name and what it looks like; the same keys on every screen."""


def finding_bindings(*, show: bool) -> list[Binding]:
    """A key for each finding."""
    return [
        Binding(
            key,
            f"found('{finding}')",
            name,
            show=show,
            id=f"found-{finding}",
            tooltip=f"Record what you found: {looks}.",
        )
        for key, finding, name, looks in FINDING_KEYS
    ]


def decide_binding(tooltip: str, *, show: bool) -> Binding:
    """The key that asks what becomes of a package found at fault, the same on every screen."""
    return Binding("v", "decide", "Decide", show=show, id="package-decide", tooltip=tooltip)


def walk_binding(tooltip: str, *, show: bool) -> Binding:
    """The key that begins a walk along the shelf, the same on every screen."""
    return Binding("k", "walk", "Walk", show=show, id="check-walk", tooltip=tooltip)
