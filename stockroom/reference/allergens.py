"""Which of the nine allergens a food plainly contains, from data/allergens.csv.

Only what the named ingredient itself contains. A dish is marked `check_ingredients`: its
allergens depend on what went into it, and the table does not claim to know.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from stockroom.domain.foods import Allergen
from stockroom.domain.working import Source, Standing
from stockroom.reference.sources import source_of, standing_of
from stockroom.reference.tables import ReferenceDamaged, Row, read_table, yes


@dataclass(frozen=True, slots=True)
class AllergenNote:
    """What is known of one food's allergens."""

    allergens: tuple[Allergen, ...]
    check_ingredients: bool
    """True for a dish: check what went into it."""
    note: str
    source: Source | None
    standing: Standing | None


NOTHING_KNOWN = AllergenNote((), False, "", None, None)
"""A single food without a row: it is none of the nine allergens itself."""


def allergens_for(food_key: str) -> AllergenNote:
    """What the table says of a food; `NOTHING_KNOWN` where it has no row."""
    return _notes().get(food_key, NOTHING_KNOWN)


@cache
def _notes() -> dict[str, AllergenNote]:
    """Every row by food key."""
    notes: dict[str, AllergenNote] = {}
    for row in read_table("allergens"):
        if row["food_key"] in notes:
            raise ReferenceDamaged("allergens", f"{row['food_key']} stands there twice")
        notes[row["food_key"]] = _note(row)
    return notes


def _note(row: Row) -> AllergenNote:
    """One row; allergens are separated by semicolons."""
    try:
        named = tuple(Allergen(word.strip()) for word in row["allergens"].split(";") if word)
    except ValueError as trouble:
        raise ReferenceDamaged("allergens", str(trouble)) from None
    return AllergenNote(
        named,
        yes("allergens", row, "check_ingredients"),
        row["note"],
        source_of("allergens", row),
        standing_of("allergens", row),
    )
