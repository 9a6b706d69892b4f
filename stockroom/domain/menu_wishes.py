"""The household's own wishes for menus: kept as JSON, typed and shown as text.

They are the wishes of `domain.menu` as a person says them. `WISHES` has one entry for each, from
which commands and forms are made, so that both read and say the same. The usual values are
engineering judgement.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass, fields, replace
from typing import Any

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.records import Dislike, OccasionWish, Share, Wishes
from stockroom.domain.quantities import read_whole, unreadable
from stockroom.errors import BadInput, Refused

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
EVERY_DAY = "every day"
ANY = "any"
MOST_DISHES = 9
MOST_PERCENT = 1_000
MOST_APART = 60
MOST_REACH = 3_650
MOST_WATER_ML = 10_000_000
MOST_HELPINGS = 5
LEFT_OPEN_POINTS = 1
"""With packages to be finished: food left open weighs as much as food saved."""


class WishesUnreadable(Refused):
    """The wishes on record are not what this program writes."""

    def __init__(self, why: str) -> None:
        """`why` names what cannot be read."""
        super().__init__(
            f"The wishes for menus on record cannot be read: {why}.",
            "Set them anew with `stockroom menu wishes --usual`, or by the form of the menu.",
        )


@dataclass(frozen=True, slots=True)
class Between:
    """From least to most, both allowed."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class MenuWishes:
    """How the household wants its menus."""

    breakfasts: Between = Between(1, 1)
    """Dishes of the occasion on each day; so too `mains` and `extras`."""
    mains: Between = Between(1, 2)
    extras: Between = Between(0, 2)
    energy: Between = Between(85, 120)
    """Percent of the need on each day."""
    plan_energy: Between = Between(95, 110)
    """Percent of the need over all days together."""
    protein_percent: int = 80
    apart_days: int = 3
    cooking_weekdays: tuple[int, ...] | None = None
    """0 is Monday; None is every day."""
    water_ml_a_day: int | None = None
    water_ml_in_all: int | None = None
    helpings_percent: tuple[int, ...] = (100, 150)
    """A dish may be cooked for so much of the household, in percent of its people."""
    reach_days: int = 30
    strict_dislikes: bool = False
    past_best_by: bool = False
    finish_packages: bool = False


USUAL = MenuWishes()


@dataclass(frozen=True, slots=True)
class WishText:
    """One wish as it is typed: its field, the option's name, a label, a hint."""

    field: str
    option: str
    label: str
    hint: str
    metavar: str
    read: Callable[[str, str], Any]
    """From the text and the wish's name to the value. Raises BadInput."""
    show: Callable[[Any], str]


def _between(low: int, high: int, unit: str) -> Callable[[str, str], Between]:
    accepted = f"a number or two of {low} to {high} {unit}, such as {_example(high)}"

    def read(text: str, what: str) -> Between:
        parts = re.fullmatch(r"(\d{1,5})(?:\s*(?:-|–|to)\s*(\d{1,5}))?", _bare(text), re.ASCII)
        if parts is None:
            raise unreadable(what, text, accepted)
        least, most = int(parts[1]), int(parts[2] or parts[1])
        if not low <= least <= most <= high:
            raise unreadable(what, text, accepted)
        return Between(least, most)

    return read


def _example(high: int) -> str:
    return "0-2" if high <= MOST_DISHES else "85-120"


def _bare(text: str) -> str:
    """The text without a percent sign and space at its ends."""
    return text.strip().removesuffix("%").strip()


def _whole(low: int, high: int) -> Callable[[str, str], int]:
    return lambda text, what: read_whole(_bare(text), what, low, high)


def _water(text: str, what: str) -> int | None:
    """Millilitres from "6 L", "6000 mL" or a bare number of litres; None for any."""
    typed = text.strip().casefold()
    if typed in (ANY, ""):
        return None
    accepted = "water such as 6 L, 1.5 L or 800 mL, or any"
    parts = re.fullmatch(r"(\d{1,8})(?:[.,](\d{1,3}))?\s*(l|ml)?", typed, re.ASCII)
    if parts is None or (parts[3] == "ml" and parts[2]):
        raise unreadable(what, text, accepted)
    amount_ml = int(parts[1])
    if parts[3] != "ml":
        amount_ml = amount_ml * 1000 + int((parts[2] or "0").ljust(3, "0"))
    if amount_ml > MOST_WATER_ML:
        raise unreadable(what, text, accepted)
    return amount_ml


def _show_water(amount_ml: int | None) -> str:
    if amount_ml is None:
        return ANY
    return f"{amount_ml / 1000:g} L" if amount_ml >= 1000 else f"{amount_ml} mL"


def _weekdays(text: str, what: str) -> tuple[int, ...] | None:
    """Weekdays by two letters or more; None for every day."""
    typed = text.strip().casefold()
    if typed in (EVERY_DAY, "every", "all", ANY, ""):
        return None
    words = typed.replace(",", " ").split()
    names = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    found: set[int] = set()
    for word in words:
        days = [day for day, name in enumerate(names) if len(word) > 1 and name.startswith(word)]
        if not days:
            raise unreadable(what, text, f"weekdays such as Wed Sat, or {EVERY_DAY}")
        found.update(days)
    return tuple(sorted(found))


def _show_weekdays(days: tuple[int, ...] | None) -> str:
    return EVERY_DAY if days is None else " ".join(WEEKDAYS[day] for day in days)


def _helpings(text: str, what: str) -> tuple[int, ...]:
    """Percents of the household, the least first."""
    accepted = f"up to {MOST_HELPINGS} percents of the household, such as 100 or 100 150"
    words = text.replace(",", " ").replace("%", " ").split()
    if not 1 <= len(words) <= MOST_HELPINGS:
        raise unreadable(what, text, accepted)
    try:
        return tuple(sorted({read_whole(word, what, 10, MOST_PERCENT) for word in words}))
    except BadInput:
        raise unreadable(what, text, accepted) from None


def _flag(no: str, yes: str) -> Callable[[str, str], bool]:
    def read(text: str, what: str) -> bool:
        typed = text.strip().casefold()
        if typed not in (no, yes):
            raise unreadable(what, text, f"{no} or {yes}")
        return typed == yes

    return read


def _show_between(value: Between) -> str:
    return f"{value.least}-{value.most}"


def _dishes(field: str, noun: str) -> WishText:
    return WishText(
        field, field, noun, f"{noun} on each day.", "LEAST-MOST",
        _between(0, MOST_DISHES, "dishes"), _show_between,
    )  # fmt: skip


WISHES: tuple[WishText, ...] = (
    _dishes("breakfasts", "Breakfasts"),
    _dishes("mains", "Main dishes"),
    _dishes("extras", "Extras"),
    WishText(
        "energy", "energy", "Energy a day", "Percent of the need, on each day.", "LOW-HIGH",
        _between(0, MOST_PERCENT, "percent"), _show_between,
    ),
    WishText(
        "plan_energy", "energy-in-all", "Energy in all", "Percent of the need, all days together.",
        "LOW-HIGH", _between(0, MOST_PERCENT, "percent"), _show_between,
    ),
    WishText(
        "protein_percent", "protein", "Protein", "Percent of the need, on each day at least.",
        "PERCENT", _whole(0, MOST_PERCENT), str,
    ),
    WishText(
        "apart_days", "apart", "Days apart", "The same dish comes again after so many days.",
        "DAYS", _whole(1, MOST_APART), str,
    ),
    WishText(
        "cooking_weekdays", "cook-on", "Cook on", f"Such as Wed Sat; or {EVERY_DAY}.", "WEEKDAYS",
        _weekdays, _show_weekdays,
    ),
    WishText(
        "water_ml_a_day", "water", "Water a day", "At hand for the dishes: 6 L, 800 mL; or any.",
        "WATER", _water, _show_water,
    ),
    WishText(
        "water_ml_in_all", "water-in-all", "Water in all", "At hand for all days; or any.",
        "WATER", _water, _show_water,
    ),
    WishText(
        "helpings_percent", "helpings", "Helpings", "A dish for so many percent of the household.",
        "PERCENTS", _helpings, lambda value: " ".join(map(str, value)),
    ),
    WishText(
        "reach_days", "reach", "Reach", "Food due up to so many days after it is at risk.", "DAYS",
        _whole(0, MOST_REACH), str,
    ),
    WishText(
        "strict_dislikes", "dislikes", "Dislikes", "Foods not liked: soft is rarely, strict never.",
        "soft|strict", _flag("soft", "strict"), lambda value: "strict" if value else "soft",
    ),
    WishText(
        "past_best_by", "past-best-by", "Past best-by",
        "May it be eaten; best-by is a quality estimate, not safety.",
        "no|yes", _flag("no", "yes"), lambda value: "yes" if value else "no",
    ),
    WishText(
        "finish_packages", "finish", "Finish packages", "Leave little in open packages at the end.",
        "no|yes", _flag("no", "yes"), lambda value: "yes" if value else "no",
    ),
)  # fmt: skip


def with_texts(wishes: MenuWishes, typed: Iterable[tuple[WishText, str]]) -> MenuWishes:
    """The wishes with what was typed for some of them. Raises BadInput, naming the wish."""
    said = {one.field: one.read(text, one.label.casefold()) for one, text in typed}
    return replace(wishes, **said)


def changed_options(before: MenuWishes, after: MenuWishes) -> tuple[str, ...]:
    """What differs, as the options to type: "--energy 70-120"."""
    found: list[str] = []
    for one in WISHES:
        value = getattr(after, one.field)
        if value != getattr(before, one.field):
            text = one.show(value)
            found.append(f"--{one.option} " + (f'"{text}"' if " " in text else text))
    return tuple(found)


def wishes_json(wishes: MenuWishes) -> str:
    """The wishes as they are stored."""
    return json.dumps(asdict(wishes), sort_keys=True)


def wishes_from_json(text: str) -> MenuWishes:
    """The wishes as stored; what is not there is usual. Raises WishesUnreadable."""
    values = _json_object(text)
    known = {one.name for one in fields(MenuWishes)}
    if not known.issuperset(values):
        raise WishesUnreadable(f"“{sorted(set(values) - known)[0]}” is no wish")
    wishes = USUAL
    for one in WISHES:
        if one.field in values:
            wishes = replace(wishes, **{one.field: _stored(one, values[one.field])})
    return wishes


def _json_object(text: str) -> dict[str, Any]:
    """A JSON object. Raises WishesUnreadable."""
    try:
        stored: Any = json.loads(text)
    except ValueError:
        raise WishesUnreadable("they are no JSON") from None
    if not isinstance(stored, dict):
        raise WishesUnreadable("they are no list of names")
    return {str(key): value for key, value in stored.items()}  # pyright: ignore[reportUnknownVariableType, reportUnknownArgumentType, reportUnknownMemberType]


def _stored(one: WishText, value: Any) -> Any:
    """A stored value, read back by the rule for what is typed."""
    usual = getattr(USUAL, one.field)
    try:
        if isinstance(usual, Between):
            value = Between(value["least"], value["most"])
        elif isinstance(value, list):
            value = tuple(value)  # pyright: ignore[reportUnknownArgumentType, reportUnknownVariableType]
        found = one.read(one.show(value), one.label.casefold())
    except (BadInput, TypeError, KeyError, ValueError, IndexError):
        raise WishesUnreadable(one.label.casefold()) from None
    if found != value or type(found) is not type(value):
        raise WishesUnreadable(one.label.casefold())
    return found


def planned_wishes(wishes: MenuWishes, disliked_foods: Iterable[int]) -> Wishes:
    """The wishes as the plan keeps to them; `disliked_foods` are of the people who eat."""
    hard = wishes.strict_dislikes
    return Wishes(
        occasions=(
            OccasionWish(Occasion.BREAKFAST, wishes.breakfasts.least, wishes.breakfasts.most),
            OccasionWish(Occasion.MAIN, wishes.mains.least, wishes.mains.most),
            OccasionWish(Occasion.EXTRA, wishes.extras.least, wishes.extras.most),
        ),
        energy=Share(wishes.energy.least, wishes.energy.most),
        plan_energy=Share(wishes.plan_energy.least, wishes.plan_energy.most),
        protein_percent=wishes.protein_percent,
        apart_days=wishes.apart_days,
        cooking_weekdays=wishes.cooking_weekdays,
        water_ml_a_day=wishes.water_ml_a_day,
        water_ml_in_all=wishes.water_ml_in_all,
        dislikes=tuple(Dislike(food_id=food_id, hard=hard) for food_id in disliked_foods),
        reach_days=wishes.reach_days,
        past_due_may_be_eaten=wishes.past_best_by,
        left_open_points=LEFT_OPEN_POINTS if wishes.finish_packages else 0,
    )
