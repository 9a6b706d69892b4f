"""One ingredient line of a recipe as text: amount, unit, item and note read out of it.

A volume or a count is never turned into a weight here: nobody knows what a cup of a food weighs
until somebody weighs one. Only a weight that stands in the line itself counts as a weight.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from stockroom.domain.ingredient_amounts import NUMBER, Amount, exact, read_amount, with_plain_signs
from stockroom.domain.ingredient_units import (
    GRAMS,
    KNOWN,
    MILLILITRES,
    PACKED,
    grams_in,
    millilitres_in,
    unit_key,
)
from stockroom.domain.quantities import HEAVIEST_DG, to_dg

LONGEST_LINE = 300
"""Characters of a line that are looked at: engineering judgement."""

MOST_OF_ANYTHING = 1_000_000
"""The largest amount that is believed: engineering judgement."""

_ABOUT = re.compile(
    r"(?:(?:about|approximately|approx|around|roughly|ca|generous|heaped|heaping|scant|level"
    r"|rounded)(?:\. ?| |(?=[0-9]))|~ ?)(?=[0-9a-z])",
    re.ASCII | re.IGNORECASE,
)
_UNITS = "|".join(re.escape(one) for one in sorted(KNOWN, key=len, reverse=True))
_UNIT = re.compile(rf"(?P<unit>{_UNITS})(?P<stop>\.?)(?![\w])", re.IGNORECASE)
_SIZED = "|".join(
    re.escape(one) for one in sorted(GRAMS.keys() | MILLILITRES.keys(), key=len, reverse=True)
)
_BRACKETED = re.compile(
    rf"\((?:about|approx\.?|approximately|ca\.?|~)? ?(?P<number>{NUMBER}) ?-?"
    rf"(?P<unit>{_SIZED})\.?(?P<more>[^()]*)\)",
    re.ASCII | re.IGNORECASE,
)
_SECOND = re.compile(
    rf"/ ?(?P<number>{NUMBER}) ?(?P<unit>{_SIZED})\.?(?!\w)", re.ASCII | re.IGNORECASE
)
_AND_OUNCES = re.compile(
    rf"(?P<number>{NUMBER}) ?(?P<unit>oz|ounces?)\.?(?!\w)", re.ASCII | re.IGNORECASE
)
_PLUS = re.compile(r"(?:\+|plus) ?(?=[0-9])", re.IGNORECASE)
_AT_END = re.compile(
    rf"(?P<item>\D.*?)[ ,:(]+(?P<number>{NUMBER}) ?(?P<unit>{_SIZED})\.?\)?", re.IGNORECASE
)
_BRACKETS = re.compile(r"\(([^()]*)\)")
_TASTE = re.compile(
    r"[ ,]*((?:or )?(?:to taste|as needed|as required|if needed|optional|for serving|to serve"
    r"|for garnish|to garnish|divided))$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class IngredientText:
    """A line as it stands, and what was read of it.

    `amount` counts in `unit` as written, or in pieces; None when there is none. `weight_dg` is set
    only when the line names a weight. `remarks` say what was doubtful.
    """

    text: str
    item: str
    amount: Fraction | None = None
    unit: str | None = None
    note: str = ""
    weight_dg: int | None = None
    remarks: tuple[str, ...] = ()

    @property
    def whole_item(self) -> str:
        """The item with its note, so that nothing of the line is lost."""
        return f"{self.item}, {self.note}" if self.note else self.item

    @property
    def volume_ml(self) -> Fraction | None:
        """The volume, when the line names one."""
        return None if self.amount is None else millilitres_in(self.amount, self.unit)

    @property
    def is_heading(self) -> bool:
        """Whether it names a part of the recipe, such as "For the filling:"."""
        return self.amount is None and self.text.endswith(":")

    @property
    def quantity(self) -> str:
        """What the line counts in: "weight", "volume", "pieces" or "" for no amount."""
        if self.amount is None:
            return ""
        if grams_in(self.amount, self.unit) is not None:
            return "weight"
        return "pieces" if self.volume_ml is None else "volume"


def read_ingredient(text: str) -> IngredientText:
    """Read one line. It never fails: what cannot be read stays part of the item."""
    whole = " ".join(text.split())
    line = with_plain_signs(whole[:LONGEST_LINE]).lstrip("-*\u2022\u25a2 ")
    about = _ABOUT.match(line)
    first = read_amount(line[about.end() :] if about else line)
    if first.amount is None and not first.remark and not first.said:
        ending = _AT_END.fullmatch(line)
        if ending:
            line = f"{ending['number']} {ending['unit']} {ending['item']}"
            first = read_amount(line)
    remarks = [first.remark] if first.remark else []
    if len(whole) > LONGEST_LINE:
        remarks.append(f"the line is longer than {LONGEST_LINE} characters and was cut")
    words = [about[0].strip(" ~") if about else "", first.said]
    note = ", ".join(one for one in words if one)
    read = IngredientText(whole, "", first.amount, note=note, remarks=tuple(remarks))
    if not first.remark or first.amount is not None:
        read = _with_unit(read, first)
    return _believed(replace(read, item=read.item or whole[:LONGEST_LINE]))


def _with_unit(read: IngredientText, first: Amount) -> IngredientText:
    """The unit after the amount, a weight beside it, then item and note."""
    rest = first.rest
    about = _ABOUT.match(rest) if first.amount is not None else None
    rest = rest[about.end() :] if about else rest
    read, rest = _take_unit(read, rest)
    read, rest = _with_weight(read, rest)
    if read.unit is None and read.amount is not None:
        read, rest = _take_unit(read, rest)
    item, note = _item_and_note(re.sub(r"^of ", "", rest, flags=re.IGNORECASE))
    manner = about[0].strip() if about else ""
    note = ", ".join(one for one in (read.note, manner, note) if one)
    return replace(read, item=item, note=note)


def _take_unit(read: IngredientText, rest: str) -> tuple[IngredientText, str]:
    """The unit at the beginning; without a number only as in "pinch of salt"."""
    found = _UNIT.match(rest)
    if found is None or not rest[found.end() :].strip(" ."):
        return read, rest
    after = rest[found.end() :].lstrip()
    if read.amount is None:
        if not re.match(r"of ", after, re.IGNORECASE):
            return read, rest
        if not read.note:
            read = replace(read, amount=Fraction(1))
    return replace(read, unit=found["unit"]), after


def _with_weight(read: IngredientText, rest: str) -> tuple[IngredientText, str]:
    """The weight a line names: by its unit, in ounces after pounds, in brackets or after a /."""
    if read.amount is not None:
        ounces = _AND_OUNCES.match(rest) if unit_key(read.unit or "") in _POUNDS else None
        if ounces:
            more = exact(ounces["number"]) or Fraction(0)
            read = replace(read, amount=read.amount * 16 + more, unit=ounces["unit"])
            rest = rest[ounces.end() :].lstrip()
        own = grams_in(read.amount or Fraction(0), read.unit)
        if own is not None:
            read = replace(read, weight_dg=to_dg(own))
    beside = _BRACKETED.match(rest) or _SECOND.match(rest)
    if beside:
        read = _beside(read, beside)
        rest = rest[beside.end() :].lstrip()
    if _PLUS.match(rest):
        remark = "it has two amounts, of which only the first is read"
        read = replace(read, remarks=(*read.remarks, remark))
    return read, rest


_POUNDS = frozenset(("lb", "lbs", "pound", "pounds"))


def _beside(read: IngredientText, found: re.Match[str]) -> IngredientText:
    """A second measure beside the first: a weight counts, unless it may be that of each piece."""
    number = exact(found["number"])
    weight = None if number is None else grams_in(number, found["unit"])
    said = found[0].strip("()/ ")
    kept = replace(read, note=", ".join(one for one in (read.note, said) if one))
    if weight is None or read.weight_dg is not None:
        return kept
    pieces = read.unit is None or unit_key(read.unit) in PACKED
    if pieces and read.amount is not None and read.amount != 1:
        remark = f"whether {said} is each or in all cannot be told"
        return replace(kept, remarks=(*read.remarks, remark))
    return replace(kept, weight_dg=to_dg(weight))


def _item_and_note(rest: str) -> tuple[str, str]:
    """The item, and what stands in brackets, after a comma, or says how much to taste."""
    notes = [one.strip() for one in _BRACKETS.findall(rest)]
    bare = " ".join(_BRACKETS.sub(" ", rest).split()).replace(" ,", ",")
    ending = _TASTE.search(bare)
    if ending:
        bare = bare[: ending.start()]
    item, _, after = bare.partition(",")
    every = (after.strip(" ,"), *notes, ending[1] if ending else "")
    return item.strip(" ,;"), ", ".join(one for one in every if one)


def _believed(read: IngredientText) -> IngredientText:
    """The line without an amount nobody can mean: nothing, or far too much."""
    if read.amount is not None and not 0 < read.amount <= MOST_OF_ANYTHING:
        remark = "the amount is nothing or beyond belief, and was left out"
        return replace(read, amount=None, weight_dg=None, remarks=(*read.remarks, remark))
    if read.weight_dg is not None and not 0 < read.weight_dg <= HEAVIEST_DG:
        remark = "the weight is nothing or above 100 kg, and was left out"
        return replace(read, weight_dg=None, remarks=(*read.remarks, remark))
    return read
