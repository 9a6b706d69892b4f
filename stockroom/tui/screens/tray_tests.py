"""The keys for the cold-touch and break test of a tray: small letter passed, capital failed."""

from __future__ import annotations

from textual.binding import Binding

from stockroom.services.dryness import DrynessTest

TEST_KEYS: tuple[tuple[str, DrynessTest, bool, str, str], ...] = (
    ("i", DrynessTest.COLD, True, "No cold spot", "felt for ice: no cold or heavy spot"),
    ("b", DrynessTest.BREAK, True, "Snaps", "thickest piece broken: it snaps, dry in the middle"),
    ("I", DrynessTest.COLD, False, "Cold spot", "felt for ice: a cold or heavy spot"),
    ("B", DrynessTest.BREAK, False, "No snap", "thickest piece broken: it bends, or is not dry"),
)
"""Key, test, whether it passed, its name and what was found; the same keys all over the Bench."""

HOW_TO_TEST = "i no cold spot, b snaps; capital I or B: failed."
AFTER_FAILING = "Dry for a few more hours (h), then weigh and test again."


def bindings_for_tests(screen: str) -> list[Binding]:
    """The keys on one screen; `screen` begins each binding's id."""
    return [
        Binding(
            key,
            f"tested('{kind}', {passed})",
            name,
            id=f"{screen}-{kind}-{'passed' if passed else 'failed'}",
            tooltip=f"For the tray under the cursor, {found}.",
        )
        for key, kind, passed, name, found in TEST_KEYS
    ]
