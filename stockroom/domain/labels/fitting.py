"""Making a label's statements fit: smaller type first, then shorter words, then less.

What gives way, in this order, and always the longest first: a shorter form of the same; words at
the end of a name or a reason; the statements of least worth; letters of a name or a reason. What
is pinned (code, dates, the raw warning, allergens) is never cut: when even so it does not fit,
nothing does. In the end whatever was taken away and would fit after all is put back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from stockroom.domain.labels.laying import Line, Words, lay
from stockroom.domain.labels.layout import Area
from stockroom.domain.labels.statements import Label, Statement

Measure = Callable[[str], float]
"""The width of a text in ems of the font it is printed in."""

SIZES_UM = tuple(halves * 25_400 // 144 for halves in range(22, 11, -1))
"""Sizes of type that are tried, from 11 down to 6 points by halves (a point is 1/72 inch). At 6
points a small x is about 1.1 mm high, above the 0.9 mm European law asks of small packages
(Regulation (EU) No 1169/2011, art. 13(3); from memory)."""
LARGEST_UM = SIZES_UM[0]
SMALLEST_UM = SIZES_UM[-1]

ELLIPSIS = "…"
LEAST_LETTERS = 3
"""A name keeps as many letters: engineering judgement."""
_TRAILING = " ,;:.·-–("


@dataclass(frozen=True, slots=True)
class Fitted:
    """The lines of one label, and what had to give way."""

    size_um: int
    lines: tuple[Line, ...]
    cut: tuple[str, ...] = ()
    """Keys of the statements whose text was cut."""
    left_out: tuple[str, ...] = ()
    """Keys of the statements that are not on the label at all."""


@dataclass(frozen=True, slots=True)
class _Said:
    """A statement as it is said now; `text` is "" when it is left out."""

    statement: Statement
    text: str
    form: int = 0

    @property
    def is_cut(self) -> bool:
        """Whether letters or words of it are gone."""
        return bool(self.text) and self.text not in self.statement.forms

    @property
    def stem(self) -> str:
        """What may not be cut off."""
        return self.statement.stem


def fit(label: Label, area: Area, measure: Measure) -> Fitted | None:
    """The label in the largest type that takes it, shortened as little as may be; else None."""
    said = tuple(_Said(one, one.forms[0]) for one in label.statements)
    while not _laid(said, area, measure, SMALLEST_UM):
        shorter = _shortened(said, measure)
        if shorter is None:
            return None
        said = shorter
    said = _put_back(said, area, measure)
    for size_um in SIZES_UM:
        lines = _laid(said, area, measure, size_um)
        if lines:
            return _fitted(said, lines, size_um)
    return None


def _fitted(said: Sequence[_Said], lines: tuple[Line, ...], size_um: int) -> Fitted:
    return Fitted(
        size_um,
        lines,
        cut=tuple(one.statement.key for one in said if one.is_cut),
        left_out=tuple(one.statement.key for one in said if not one.text),
    )


def _laid(
    said: Sequence[_Said], area: Area, measure: Measure, size_um: int
) -> tuple[Line, ...] | None:
    """The lines at one size of type, or None when they do not fit."""
    words = [
        Words(one.statement.key, one.text, one.statement.strong, one.statement.free)
        for one in said
        if one.text
    ]
    return lay(words, area, measure, size_um)


def _shortened(said: Sequence[_Said], measure: Measure) -> tuple[_Said, ...] | None:
    """The same with the next thing given way, or None when nothing may."""
    for candidates in (_by_form(said), _by_word(said), _by_worth(said), _by_letter(said)):
        changes = list(candidates)
        if changes:
            place, changed = max(changes, key=lambda change: measure(said[change[0]].text))
            return (*said[:place], changed, *said[place + 1 :])
    return None


Change = tuple[int, _Said]
"""Which statement, and what becomes of it."""


def _by_form(said: Sequence[_Said]) -> Iterator[Change]:
    """A shorter form of the same."""
    for place, one in enumerate(said):
        following = one.form + 1
        if one.text and following < len(one.statement.forms):
            yield place, _Said(one.statement, one.statement.forms[following], following)


def _by_word(said: Sequence[_Said]) -> Iterator[Change]:
    """A word less of a free text; one word at least is left, or the stem."""
    for place, one in enumerate(said):
        if one.statement.free:
            body = one.text.removesuffix(ELLIPSIS)[len(one.stem) :]
            words = body.rstrip(_TRAILING).split(" ")
            kept = " ".join(words[:-1]).rstrip(_TRAILING)
            if kept:
                yield place, replace(one, text=f"{one.stem}{kept}{ELLIPSIS}")
            elif one.stem and body:
                yield place, replace(one, text=one.stem)


def _by_worth(said: Sequence[_Said]) -> Iterator[Change]:
    """The statement of least worth left out."""
    there = [(place, one) for place, one in enumerate(said) if one.text]
    worths = [one.statement.worth for _, one in there if one.statement.droppable]
    for place, one in there:
        if one.statement.droppable and one.statement.worth == min(worths):
            yield place, replace(one, text="")


def _by_letter(said: Sequence[_Said]) -> Iterator[Change]:
    """A letter less of a free text without a stem."""
    for place, one in enumerate(said):
        if one.statement.free and not one.stem:
            kept = one.text.removesuffix(ELLIPSIS)[:-1].rstrip(_TRAILING)
            if len(kept) >= LEAST_LETTERS:
                yield place, replace(one, text=f"{kept}{ELLIPSIS}")


def _put_back(said: tuple[_Said, ...], area: Area, measure: Measure) -> tuple[_Said, ...]:
    """The same with everything back that fits after all, the most worth first."""
    order = sorted(range(len(said)), key=lambda place: -_dearness(said[place].statement))
    for place in order:
        for better in _better(said[place]):
            tried = (*said[:place], better, *said[place + 1 :])
            if _laid(tried, area, measure, SMALLEST_UM):
                said = tried
                break
    return said


def _dearness(statement: Statement) -> int:
    """What is put back first: a cut name, then what was left out, then fuller forms."""
    return 100 if statement.free else statement.worth


def _better(one: _Said) -> Iterator[_Said]:
    """Fuller versions of a statement than it is now, the fullest first."""
    forms = one.statement.forms
    for form, text in enumerate(forms):
        if text == one.text:
            return
        yield _Said(one.statement, text, form)
    if not one.statement.free:
        return
    words = forms[0][len(one.stem) :].split(" ")
    for count in range(len(words) - 1, 0, -1):
        kept = " ".join(words[:count]).rstrip(_TRAILING)
        text = f"{one.stem}{kept}{ELLIPSIS}"
        if not kept or len(text) <= len(one.text):
            return
        yield replace(one, text=text)
