"""Parts of a schema.org Recipe: for how many, the steps, times, nutrition and where it is from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from stockroom.domain.durations import duration_words, read_duration
from stockroom.domain.ingredient_amounts import with_plain_signs
from stockroom.domain.recipe_ld_values import (
    DEEPEST,
    Node,
    as_array,
    as_list,
    as_node,
    bare,
    field,
    lines_of,
    text_of,
    types_of,
)

MOST_PEOPLE = 1000

_PEOPLE = re.compile(
    r"\b(?:serv\w*|portions?|people|persons?|pers|guests?|adults?|eaters?)\b", re.IGNORECASE
)
_RANGE = re.compile(r"([0-9]{1,9})(?: ?- ?| to | or )([0-9]{1,9})")
_WHOLE = re.compile(r"(?<![0-9.,/])[0-9]{1,9}(?![0-9/]|[.,][0-9]| [0-9]+/)")
_BARE_YIELD = re.compile(
    r"(?:makes|yields?|gives|for|about|approx\.?|ca\.?)?:? ?[0-9]{1,9}(?:(?: ?- ?| to | or )"
    r"[0-9]{1,9})?\.?",
    re.IGNORECASE,
)
_TIMES = (("prepTime", "preparation"), ("cookTime", "cooking"), ("totalTime", "in all"))


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about a field of the file that a person should know.

    `place` is the number of the line in a list, 0 where there is none; `lost` says that the file
    holds something that could not be read.
    """

    field: str
    message: str
    place: int = 0
    lost: bool = False

    @property
    def words(self) -> str:
        """The finding as one line."""
        place = f", line {self.place}" if self.place else ""
        return f"{self.field}{place}: {self.message}"


@dataclass(frozen=True, slots=True)
class Yield:
    """For how many a recipe is, as the file says it; None when it names no number of people."""

    serves: int | None
    words: str
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Instructions:
    """The steps, a line each; a part of the recipe is headed by its name and a colon."""

    lines: tuple[str, ...]
    findings: tuple[Finding, ...] = ()


def read_yield(value: object) -> Yield:
    """For how many: a number, "4 servings", "Makes 12", several of these, or a QuantitativeValue.

    Of several, the one that names people is taken. Of "4-6" the smaller, so that nobody is short.
    """
    read = [_one_yield(_yield_text(one)) for one in as_list(value)]
    known = [one for one in read if one.serves is not None]
    if known:
        return min(known, key=lambda one: len(one.findings))
    words = next((one.words for one in read if one.words), "")
    if not words:
        missing = Finding("recipeYield", "it does not say for how many: say it", lost=True)
        return Yield(None, "", (missing,))
    return next(one for one in read if one.words)


def _yield_text(value: object) -> str:
    """A yield in words; that of a QuantitativeValue is its value and unit."""
    node = as_node(value)
    if node is None or "QuantitativeValue" not in types_of(node):
        return text_of(value)
    number = text_of(field(node, "value")) or text_of(field(node, "minValue"))
    unit = text_of(field(node, "unitText")) or text_of(field(node, "unitCode"))
    return f"{number} {unit}".strip()


def _one_yield(words: str) -> Yield:
    plain = with_plain_signs(words)
    first = _WHOLE.search(plain)
    ends = _RANGE.match(plain, first.start()) if first else None
    numbers = [int(one) for one in (ends.groups() if ends else [first[0]] if first else [])]
    serves = min(numbers, default=0)
    of_people = _PEOPLE.search(plain) is not None
    if not 1 <= serves <= MOST_PEOPLE or not (of_people or _BARE_YIELD.fullmatch(plain)):
        said = f"“{words}” is no number of people: say for how many" if words else ""
        return Yield(None, words, (Finding("recipeYield", said, lost=True),) if said else ())
    said = ""
    if len(set(numbers)) > 1:
        said = f"of “{words}” the smaller is taken, so that nobody is short"
    elif not of_people and not plain.isdigit():
        said = f"“{words}” is read as so many people; change it if it counts pieces"
    return Yield(serves, words, (Finding("recipeYield", said),) if said else ())


def read_instructions(value: object) -> Instructions:
    """The steps: text, a list of text, HowToStep and HowToSection, however they are nested."""
    findings: list[Finding] = []
    lines: list[str] = []
    for place, one in enumerate(as_list(value), start=1):
        found = list(_steps(one))
        lines += found
        if not found:
            findings.append(Finding("recipeInstructions", "it has no text", place, lost=True))
    if not lines and not findings:
        findings.append(Finding("recipeInstructions", "there are no steps"))
    return Instructions(tuple(lines), tuple(findings))


def _steps(value: object, depth: int = 0) -> Iterator[str]:
    """The lines of one step or part."""
    node = as_node(value)
    if depth > DEEPEST:
        return
    several = as_array(value)
    if several is not None:
        for one in several:
            yield from _steps(one, depth + 1)
        return
    if node is None:
        yield from lines_of(value)
        return
    inside = as_list(field(node, "itemListElement")) or as_list(field(node, "steps"))
    inside = inside or as_list(field(node, "item"))
    name, words = text_of(field(node, "name")), lines_of(field(node, "text"))
    below = [line for one in inside for line in _steps(one, depth + 1)]
    if below:
        yield from (f"{name.rstrip(' :')}:",) if name else ()
        yield from words
        yield from below
    else:
        yield from words or ((name,) if name else lines_of(node.get("@value")))


def time_line(node: Node) -> tuple[str, tuple[Finding, ...]]:
    """The times as a line of the steps: "Preparation 15 minutes, cooking 1 hour."."""
    said: list[str] = []
    findings: list[Finding] = []
    for name, word in _TIMES:
        text = text_of(field(node, name))
        seconds = read_duration(text) if text else None
        if text and seconds is None:
            wrong = f"“{text}” is no length of time such as PT1H15M"
            findings.append(Finding(name, wrong, lost=True))
        elif seconds:
            said.append(f"{word} {duration_words(seconds)}")
    line = ", ".join(said)
    return (f"{line[:1].upper()}{line[1:]}." if line else ""), tuple(findings)


def nutrition_line(value: object) -> tuple[str, tuple[Finding, ...]]:
    """Nutrition as the file states it, as a line of the steps; it is not reckoned with."""
    node = as_node(next(iter(as_list(value)), None))
    if node is None:
        words = text_of(value)
        return (f"Nutrition as published: {words}." if words else ""), ()
    size = text_of(field(node, "servingSize"))
    facts = [
        f"{_nutrient(key)} {text_of(one)}"
        for key, one in node.items()
        if not key.startswith("@") and bare(key) != "servingSize" and text_of(one)
    ]
    if not facts:
        return "", ()
    each = f" (a serving is {size})" if size else ""
    note = Finding("nutrition", "kept as a line of the steps; it is not reckoned with")
    return f"Nutrition as published{each}: {', '.join(facts)}.", (note,)


def _nutrient(key: str) -> str:
    """A nutrient's name in words: "saturatedFatContent" is "saturated fat"."""
    name = bare(key).removesuffix("Content")
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).lower()


def origin_words(node: Node) -> str:
    """Who wrote it and where it stands, as far as the file says."""
    names = [text_of(one) for one in as_list(field(node, "author"))]
    author = ", ".join(one for one in names if one)
    page = text_of(field(node, "url"))
    return ", ".join(one for one in (author, page) if one)
