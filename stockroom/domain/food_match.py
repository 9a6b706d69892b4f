"""Which of the household's foods an ingredient may be, by the words of their names.

Words are compared without case, accents and plural endings. The score is engineering judgement:
the share of the ingredient's words that the food has, times the share of the food's leading words
that the ingredient has, and a tenth for the rest of the food's name. So "peas" is close to "Peas,
green", while "apple juice" is far from "Apple, raw" and "tomatoes" from "Tomato soup". It only
ranks what a person then decides.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

ENOUGH = 0.6
"""A score from which a food is proposed: engineering judgement."""

FAINT = 0.2
"""A score from which a food is listed at all: engineering judgement."""

MOST_SUGGESTIONS = 5

_WORD = re.compile(r"\w+")
_LITTLE = """
    a an and of or the with without in to for about some fresh freshly frozen dried freeze raw
    cooked boiled roasted baked steamed drained thawed canned tinned large small medium big ripe
    chopped diced sliced minced ground grated peeled shredded crushed mashed smashed finely roughly
    coarsely thinly cut lean organic whole plain broiler heat moist dry
"""
_SAYING_LITTLE = frozenset(_LITTLE.split())
_WARMTH = "cold warm hot boiling lukewarm tepid cool tap drinking"
_WATER_WORDS = frozenset(_WARMTH.split())


@dataclass(frozen=True, slots=True)
class Match:
    """A food by its name, and how near it is: 1 for the same words, 0 for none in common."""

    food: str
    score: float


def suggestions(item: str, foods: Iterable[str]) -> tuple[Match, ...]:
    """The nearest foods, best first, those of equal score by name; faint likenesses are left out.

    A name that is the same but for case comes first with a score of 1.
    """
    found = (Match(food, likeness(item, food)) for food in foods)
    near = sorted(
        (one for one in found if one.score >= FAINT), key=lambda one: (-one.score, one.food)
    )
    return tuple(near[:MOST_SUGGESTIONS])


def likeness(item: str, food: str) -> float:
    """How near an ingredient is to a food's name, 0 to 1."""
    if item.strip().casefold() == food.strip().casefold():
        return 1.0
    wanted, known = word_set(item), word_set(food)
    head = word_set(food.partition(",")[0]) or known
    if not wanted or not known:
        return 0.0
    if wanted == known or _run_on(item) == _run_on(food):
        return 0.99
    common = wanted & known
    share = len(common) / len(wanted) * len(head & wanted) / len(head)
    return 0.89 * share + 0.1 * len(common) / len(known)


def is_water(item: str) -> bool:
    """Whether an ingredient is plain water, however warm."""
    words = {one for one in _words(item) if one not in _WATER_WORDS}
    return words == {"water"}


def word_set(text: str) -> frozenset[str]:
    """The words that tell one food from another, without plural endings."""
    return frozenset(_singular(one) for one in _words(text) if one not in _SAYING_LITTLE)


def _words(text: str) -> list[str]:
    bare = unicodedata.normalize("NFKD", text)
    kept = "".join(sign for sign in bare if not unicodedata.combining(sign))
    return [one for one in _WORD.findall(kept.casefold()) if not one.isdigit()]


def _run_on(text: str) -> str:
    """The leading words as one: "sweet corn" and "sweetcorn" are the same."""
    return _singular("".join(_words(text.partition(",")[0])))


def _singular(word: str) -> str:
    """A word without its plural ending, as English mostly forms it."""
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("oes", "ches", "shes", "sses", "xes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word
