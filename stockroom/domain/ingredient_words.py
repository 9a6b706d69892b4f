"""Recipe lines as words that anybody can read and this program reads back to the same line.

A stored food is written with its grams and how they count:
    240 g Peas, green (fresh weight), freeze-dried
    62.5 g Peas, green (dry weight), freeze-dried
    2 servings of Peas, green, freeze-dried
    1 1/2 cup of Peas, green, freeze-dried
    500 g water (cooking water)
Anything else is written as cooks do ("1 1/2 large onion"). Where plain words would be read back as
something else, the line is written with quotation marks: “onion”: 1 “big one, peeled”.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.ingredient_amounts import NUMBER, WRITTEN_PARTS, exact, written_number
from stockroom.domain.ingredient_text import read_ingredient
from stockroom.domain.quantities import nearest_whole
from stockroom.domain.records import RecipeLine, RecipeRecord


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """A line of our own writing: a stored food, something else, or the pot's water.

    `amount` is grams for the bases fresh and dry and for water, servings, measures, or the
    number of what is not stored. `basis` is None for what is not stored.
    """

    name: str
    basis: Basis | None = None
    amount: Fraction | None = None
    unit: str | None = None
    is_water: bool = False


_QUOTED = "“((?:[^”]|””)*)”"
_WEIGHED = re.compile(rf"({NUMBER}) g (.+) \((fresh|dry) weight\), freeze-dried", re.ASCII)
_COUNTED = re.compile(rf"({NUMBER}) (.+?) of (.+), freeze-dried", re.ASCII)
_WATER = re.compile(rf"({NUMBER}) g water \(cooking water\)", re.ASCII)
_MEASURED = re.compile(rf"{_QUOTED}: ({NUMBER}) {_QUOTED}, freeze-dried", re.ASCII)
_OTHER = re.compile(rf"{_QUOTED}(?:: (some|{NUMBER})(?: {_QUOTED})?)?", re.ASCII)
_SERVINGS = ("serving", "servings")


def read_written(text: str) -> WrittenLine | None:
    """A line of our own writing that nobody else would write so; None for any other."""
    water = _WATER.fullmatch(text)
    if water:
        return WrittenLine("water", None, exact(water[1]), is_water=True)
    weighed = _WEIGHED.fullmatch(text)
    if weighed:
        return WrittenLine(weighed[2], Basis(weighed[3]), exact(weighed[1]))
    counted = _COUNTED.fullmatch(text)
    if counted:
        if counted[2] in _SERVINGS:
            return WrittenLine(counted[3], Basis.SERVINGS, exact(counted[1]))
        return WrittenLine(counted[3], Basis.MEASURE, exact(counted[1]), counted[2])
    measured = _MEASURED.fullmatch(text)
    if measured:
        amount = exact(measured[2])
        return WrittenLine(_unquoted(measured[1]), Basis.MEASURE, amount, _unquoted(measured[3]))
    other = _OTHER.fullmatch(text)
    if other:
        amount = None if other[2] in (None, "some") else exact(other[2])
        unit = None if other[3] is None else _unquoted(other[3])
        return WrittenLine(_unquoted(other[1]), None, amount, unit)
    return None


def read_any(text: str) -> WrittenLine:
    """A line whoever wrote it, as read back: a stored food only when it says so itself."""
    own = read_written(text)
    if own is not None:
        return own
    read = read_ingredient(text)
    return WrittenLine(read.whole_item, None, read.amount, read.unit)


def line_words(line: RecipeLine) -> str:
    """A line of the book in words that `read_any` reads back to it."""
    wanted = written_line(line)
    return next(words for words in _ways(wanted) if _same(read_any(words), wanted))


def water_words(cooking_water_dg: int) -> str:
    """The pot's own water in words."""
    return f"{_grams(Fraction(cooking_water_dg, 10))} g water (cooking water)"


def recipe_lines(recipe: RecipeRecord) -> tuple[str, ...]:
    """Every line of a recipe in words, the cooking water last."""
    water = (water_words(recipe.cooking_water_dg),) if recipe.cooking_water_dg else ()
    return (*(line_words(line) for line in recipe.lines), *water)


def written_line(line: RecipeLine) -> WrittenLine:
    """A line of the book as a value to be written."""
    thousandths = line.amount_thousandths
    amount = None if thousandths is None else Fraction(thousandths, 1000)
    if line.food is None:
        return WrittenLine(line.item or "", None, amount, line.unit)
    basis = Basis(line.basis or Basis.FRESH)
    if basis is Basis.MEASURE:
        return WrittenLine(line.food, basis, amount, line.unit)
    if basis is Basis.SERVINGS:
        return WrittenLine(line.food, basis, Fraction(line.servings_hundredths or 0, 100))
    return WrittenLine(line.food, basis, Fraction(line.weight_dg or 0, 10))


def _ways(line: WrittenLine) -> Iterator[str]:
    """Ways to write a line, the plainest first; the last is never misread."""
    number = "" if line.amount is None else _number(line.amount)
    if line.basis in (Basis.FRESH, Basis.DRY):
        grams = _grams(line.amount or Fraction(0))
        yield f"{grams} g {line.name} ({line.basis} weight), freeze-dried"
    elif line.basis is Basis.SERVINGS:
        unit = "serving" if line.amount == 1 else "servings"
        yield f"{number} {unit} of {line.name}, freeze-dried"
    elif line.basis is Basis.MEASURE:
        yield f"{number} {line.unit} of {line.name}, freeze-dried"
        yield f"{_quote(line.name)}: {number} {_quote(line.unit or '')}, freeze-dried"
    else:
        yield " ".join(one for one in (number, line.unit, line.name) if one)
        unit = "" if line.unit is None else f" {_quote(line.unit)}"
        amount = f": {number or 'some'}{unit}" if number or unit else ""
        yield f"{_quote(line.name)}{amount}"


def _grams(amount: Fraction) -> str:
    """Grams as a scale shows them, with a decimal only where there is one."""
    ones, tenths = divmod(nearest_whole(amount * 10), 10)
    return f"{ones}.{tenths}" if tenths else str(ones)


def _number(amount: Fraction) -> str:
    """Thirds of a whole as such, although the book keeps thousandths; else exact decimals."""
    near = amount.limit_denominator(max(WRITTEN_PARTS))
    if near.denominator in WRITTEN_PARTS and nearest_whole(near * 1000) == amount * 1000:
        return written_number(near)
    return written_number(amount)


def _same(read: WrittenLine, wanted: WrittenLine) -> bool:
    """Whether a line would stand in the book as it was."""
    if (read.name, read.basis, read.unit, read.is_water) != (
        wanted.name,
        wanted.basis,
        wanted.unit,
        wanted.is_water,
    ):
        return False
    if read.amount is None or wanted.amount is None:
        return read.amount is wanted.amount
    return nearest_whole(read.amount * 1000) == wanted.amount * 1000


def _quote(text: str) -> str:
    return f"“{text.replace('”', '””')}”"


def _unquoted(text: str) -> str:
    return text.replace("””", "”")
