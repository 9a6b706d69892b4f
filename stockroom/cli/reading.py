"""Small grammars of the command line: losses, ingredients and swaps.

--loss 12:tasted            --loss rest:unaccounted
--stored "Peas=240 g fresh" --stored "Peas=60 g dry"  --stored "Peas=2 servings"
--stored "Peas=2 cups"      --stored "Peas=60 g dry, hold 20 %"
--fresh "onion=2 each"      --fresh "stock=1/2 cup"   --fresh salt
--swap "Peas=Green beans"
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.ingredient_units import same_unit
from stockroom.domain.quantities import UnitSystem, read_servings, read_weight, unreadable
from stockroom.errors import BadInput
from stockroom.services.kitchen import LineRequest
from stockroom.services.packing import LossReason

_STORED_ACCEPTED = (
    "FOOD=AMOUNT with fresh, dry, servings or a measure, such as “Peas=240 g fresh”,"
    " “Peas=2 servings” or “Peas=2 cups”"
)
_SWAP_ACCEPTED = "FOOD=OTHER, a food of the recipe and the one instead, such as “Peas=Green beans”"
_FRESH_ACCEPTED = "ITEM or ITEM=AMOUNT UNIT, such as salt, onion=2 each or stock=1/2 cup"
_LOSS_ACCEPTED = f"WEIGHT:REASON or rest:REASON, with a reason of {', '.join(LossReason)}"
_LEADING_NUMBER = re.compile(
    r"([0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+)(.*)", re.ASCII | re.DOTALL
)
_HOLD = re.compile(r"(.*?)[,;]?\s+hold(?:\s+back)?(\s.*)?", re.IGNORECASE | re.DOTALL)
_WHOLE_PERCENT = re.compile(r"([0-9]{1,3}) ?%?", re.ASCII)


def read_loss(text: str, units: UnitSystem) -> tuple[int | None, LossReason]:
    """A loss: tenths of a gram (None for all that is left) and why. Raises BadInput."""
    weight, colon, reason = text.rpartition(":")
    if not colon or reason.strip().lower() not in tuple(LossReason):
        raise unreadable("loss", text, _LOSS_ACCEPTED)
    why = LossReason(reason.strip().lower())
    if weight.strip().lower() == "rest":
        return None, why
    return read_weight(weight, units, "loss"), why


def read_stored(text: str, units: UnitSystem) -> LineRequest:
    """A food from the shelves with its amount and how that is counted. Raises BadInput.

    A word that is no unit of weight names a measure of the food, as it was typed.
    """
    food, equals, said = text.rpartition("=")
    amount, held = _held_back(said)
    words = amount.split()
    if not equals or not food.strip() or not words:
        raise unreadable("ingredient", text, _STORED_ACCEPTED)
    basis, number, unit = _counted(words, f"amount of {food.strip()[:40]}", units)
    return LineRequest(
        food=food.strip(), basis=basis, amount=number, unit=unit, hold_back_percent=held
    )


def read_hold_back(text: str) -> int:
    """The share of the water to hold back, in whole per cent. Raises BadInput."""
    parts = _WHOLE_PERCENT.fullmatch(" ".join(text.split()))
    if not parts or int(parts[1]) > 100:
        raise unreadable("water held back", text, "a whole percentage from 0 to 100, such as 25 %")
    return int(parts[1])


def named_measure(typed: str, known: Iterable[str]) -> str:
    """The measure of a food that is meant: "cup" for "cups"; else as it was typed."""
    names, wanted = tuple(known), typed.casefold()
    exact = (name for name in names if name.casefold() == wanted)
    plural = (name for name in names if wanted in (f"{name.casefold()}s", f"{name.casefold()}es"))
    alike = (name for name in names if same_unit(name, typed))
    return next(exact, next(plural, next(alike, typed)))


def read_swap(text: str, foods: Iterable[str]) -> tuple[str, str]:
    """A food of the recipe, out of `foods`, and what was typed for the one instead of it.

    The first may be the beginning of a name, when only one begins so. Raises BadInput.
    """
    known = tuple(foods)
    # A food's own name may hold an equals sign, so a whole name goes before a beginning.
    halves = [(text[:place].strip(), text[place + 1 :].strip()) for place in _equals(text)]
    for meant in (_named, _beginning):
        for wanted, other in halves:
            found = meant(wanted.casefold(), known)
            if wanted and other and len(found) == 1:
                return found[0], other
    accepted = f"{_SWAP_ACCEPTED}; the recipe has {'; '.join(known)}" if known else _SWAP_ACCEPTED
    raise unreadable("swap", text, accepted)


def _equals(text: str) -> tuple[int, ...]:
    """Where the equals signs of a text stand."""
    return tuple(place for place, sign in enumerate(text) if sign == "=")


def _named(wanted: str, names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name in names if name.casefold() == wanted)


def _beginning(wanted: str, names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name in names if name.casefold().startswith(wanted))


def _held_back(said: str) -> tuple[str, int | None]:
    """An amount without the share of its water to hold back, and that share."""
    parts = _HOLD.fullmatch(said)
    return (said, None) if parts is None else (parts[1], read_hold_back((parts[2] or "").strip()))


def _counted(words: list[str], what: str, units: UnitSystem) -> tuple[Basis, Fraction, str | None]:
    """How an amount is counted, how much it is, and the measure's name where it has one."""
    last, rest = words[-1].lower(), " ".join(words[:-1])
    if last in ("serving", "servings"):
        return Basis.SERVINGS, read_servings(rest, "servings"), None
    said = last in ("dry", "fresh")
    amount = rest if said else " ".join(words)
    parts = _LEADING_NUMBER.fullmatch(amount)
    unit = parts[2].strip() if parts else ""
    if parts and unit and not _is_weight(unit):
        if said:
            raise unreadable(
                what, " ".join(words), f"a weight with {last}, or a measure alone: 2 cups"
            )
        return Basis.MEASURE, read_servings(parts[1], what), unit
    grams = Fraction(read_weight(amount, units, what), 10)
    return (Basis.DRY if last == "dry" else Basis.FRESH), grams, None


def _is_weight(unit: str) -> bool:
    """Whether a word after a number is a unit of weight."""
    try:
        read_weight(f"1 {unit.split()[0]}", UnitSystem.METRIC)
    except BadInput:
        return False
    return True


def read_fresh(text: str) -> LineRequest:
    """An ingredient that does not come from the shelves. Raises BadInput."""
    item, equals, amount = text.rpartition("=")
    if not equals:
        return LineRequest(item=text)
    parts = _LEADING_NUMBER.fullmatch(amount.strip())
    if not item.strip() or not parts:
        raise unreadable("fresh ingredient", text, _FRESH_ACCEPTED)
    number = read_servings(parts[1], f"amount of {item.strip()[:40]}")
    return LineRequest(item=item.strip(), amount=number, unit=parts[2].strip() or None)
