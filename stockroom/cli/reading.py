"""Small grammars of the command line: losses and ingredients.

--loss 12:tasted            --loss rest:unaccounted
--stored "Peas=240 g fresh" --stored "Peas=60 g dry"  --stored "Peas=2 servings"
--fresh "onion=2 each"      --fresh "stock=1/2 cup"   --fresh salt
"""

from __future__ import annotations

import re
from fractions import Fraction

from stockroom.domain.cooking import Basis
from stockroom.domain.quantities import UnitSystem, read_servings, read_weight, unreadable
from stockroom.services.kitchen import LineRequest
from stockroom.services.packing import LossReason

_STORED_ACCEPTED = (
    "FOOD=AMOUNT with fresh, dry or servings, such as “Peas=240 g fresh” or “Peas=2 servings”"
)
_FRESH_ACCEPTED = "ITEM or ITEM=AMOUNT UNIT, such as salt, onion=2 each or stock=1/2 cup"
_LOSS_ACCEPTED = f"WEIGHT:REASON or rest:REASON, with a reason of {', '.join(LossReason)}"
_LEADING_NUMBER = re.compile(
    r"([0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+)(.*)", re.ASCII | re.DOTALL
)


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
    """A food from the shelves with its amount and how that is counted. Raises BadInput."""
    food, equals, amount = text.rpartition("=")
    words = amount.split()
    if not equals or not food.strip() or not words:
        raise unreadable("ingredient", text, _STORED_ACCEPTED)
    last = words[-1].lower()
    if last in ("serving", "servings"):
        servings = read_servings(" ".join(words[:-1]), "servings")
        return LineRequest(food=food.strip(), basis=Basis.SERVINGS, amount=servings)
    basis = Basis.DRY if last == "dry" else Basis.FRESH
    weight = " ".join(words[:-1]) if last in ("dry", "fresh") else " ".join(words)
    weight_dg = read_weight(weight, units, f"amount of {food.strip()[:40]}")
    return LineRequest(food=food.strip(), basis=basis, amount=Fraction(weight_dg, 10))


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
