"""How fast foods are eaten and for how long the store is to last: said by the household."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from fractions import Fraction

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.household_eating import (
    MOST_A_DAY,
    RECORD_DAYS,
    HouseholdEating,
    eating_of_food,
)
from stockroom.domain.horizon.pages import KnownFood, SetRate, StoreTarget, TargetRow
from stockroom.domain.horizon.past_eating import PastDraw
from stockroom.domain.horizon.stock import NONE
from stockroom.domain.horizon.store_target import (
    MOST_TARGET_DAYS,
    USUAL_TARGET_DAYS,
    servings_for,
)
from stockroom.domain.quantities import MOST_SERVINGS, show_servings
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import find_food
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import horizon_rows
from stockroom.store.settings import read_settings, remove_setting, save_setting

RATE_KEY = "eat:"
TARGET_KEY = "target_days"
GROUP_KEY = "target:"
YEAR_DAYS = 365
"""Days over which `list_rates` looks ahead: a whole year of months."""


class NoRateSet(Refused):
    """There is nothing to forget of a food's eating."""

    def __init__(self, food: str) -> None:
        super().__init__(
            f"No rate is set for {food}.", "See every rate with stockroom eating list."
        )


class NoTargetSet(Refused):
    """There is no target to forget."""

    def __init__(self, target: str) -> None:
        """`target` is what it would be for: the store, or a food group."""
        super().__init__(
            f"No target is set for {target}.", "See the targets with stockroom target list."
        )


def set_rate(room: Stockroom, food: str, servings_per_day: Fraction) -> Done:
    """Say how fast a food is eaten beside the menu, in servings a day; nought is never.

    Raises NotFound or BadInput.
    """
    if not 0 <= servings_per_day <= MOST_A_DAY:
        raise BadInput("servings", str(servings_per_day), f"0 to {MOST_A_DAY} servings a day")
    with acting(room, "eating") as act:
        found = find_food(room, food)
        save_setting(room.store, f"{RATE_KEY}{found.food_id}", str(servings_per_day))
        act.words = f"set the eating of {found.name} to {_a_week(servings_per_day)}"
    return Done(act.words, made_id=found.food_id)


def clear_rate(room: Stockroom, food: str) -> Done:
    """Forget how fast a food is eaten; its record speaks again. Raises NotFound, NoRateSet."""
    with acting(room, "eating") as act:
        found = find_food(room, food)
        key = f"{RATE_KEY}{found.food_id}"
        if key not in read_settings(room.store):
            raise NoRateSet(found.name)
        remove_setting(room.store, key)
        act.words = f"cleared the eating of {found.name}"
    return Done(act.words, made_id=found.food_id)


def set_target(room: Stockroom, days: int) -> Done:
    """Say for how many days the store is to feed the household. Raises BadInput."""
    if not 1 <= days <= MOST_TARGET_DAYS:
        raise BadInput("target", str(days), f"a number of days from 1 to {MOST_TARGET_DAYS}")
    with acting(room, "target") as act:
        save_setting(room.store, TARGET_KEY, str(days))
        act.words = f"set the target of the store to {days} {'day' if days == 1 else 'days'}"
    return Done(act.words)


def set_group_target(room: Stockroom, group: FoodGroup, servings: Fraction) -> Done:
    """Say how many servings of a food group the store is to hold. Raises BadInput."""
    if not 0 < servings <= MOST_SERVINGS:
        raise BadInput("servings", str(servings), f"servings above 0, up to {MOST_SERVINGS}")
    with acting(room, "target") as act:
        save_setting(room.store, f"{GROUP_KEY}{group.value}", str(servings))
        act.words = f"set the target of {_group(group)} to {show_servings(servings)} servings"
    return Done(act.words)


def clear_target(room: Stockroom, group: FoodGroup | None = None) -> Done:
    """Forget the target of the store, or of a food group. Raises NoTargetSet."""
    key = TARGET_KEY if group is None else f"{GROUP_KEY}{group.value}"
    name = "the store" if group is None else _group(group)
    with acting(room, "target") as act:
        if key not in read_settings(room.store):
            raise NoTargetSet(name)
        remove_setting(room.store, key)
        act.words = f"cleared the target of {name}"
    return Done(act.words)


def list_rates(room: Stockroom) -> tuple[SetRate, ...]:
    """Every food by name with how it is eaten and where that is known from."""
    foods = horizon_rows.food_rows(room.store)
    how = household_eating(room, foods, YEAR_DAYS)
    return tuple(SetRate(known_food(row), how[row.food_id]) for row in foods)


def household_eating(
    room: Stockroom, foods: Sequence[horizon_rows.FoodLine], days: int
) -> dict[int, HouseholdEating]:
    """How each of these foods is eaten over so many days from today."""
    today = room.today
    rates = set_rates(room)
    draws = _draws(room, foods, today)
    return {
        row.food_id: eating_of_food(
            row.food_id,
            rates.get(row.food_id),
            draws.get(row.food_id, ()),
            None if row.first_made_on is None else date.fromisoformat(row.first_made_on),
            today,
            days,
        )
        for row in foods
    }


def set_rates(room: Stockroom) -> dict[int, Fraction]:
    """Servings a day by food, where they are set; what no program of ours wrote is passed over."""
    found: dict[int, Fraction] = {}
    for key, value in read_settings(room.store).items():
        food_id = key.removeprefix(RATE_KEY)
        if key.startswith(RATE_KEY) and food_id.isdecimal():
            rate = _exact(value)
            if rate is not None and 0 <= rate <= MOST_A_DAY:
                found[int(food_id)] = rate
    return found


def store_target(
    room: Stockroom, by_group: Mapping[FoodGroup, Fraction], days: int | None = None
) -> StoreTarget:
    """The target of the store and of its food groups; `days` asks for another length once.

    `by_group` is what the household eats of each group in a day: where no target is set for it,
    what is eaten of it in the target's days stands for one.
    """
    stored = read_settings(room.store)
    kept = stored.get(TARGET_KEY, "")
    was_set = days is None and kept.isdecimal() and 1 <= int(kept) <= MOST_TARGET_DAYS
    wanted = days if days is not None else int(kept) if was_set else USUAL_TARGET_DAYS
    groups: list[TargetRow] = []
    for group in FoodGroup:
        said = _exact(stored.get(f"{GROUP_KEY}{group.value}", ""))
        eaten = servings_for(wanted, by_group.get(group, NONE))
        if said is not None and said > 0:
            groups.append(TargetRow(group, said, was_set=True))
        elif eaten:
            groups.append(TargetRow(group, eaten, was_set=False))
    return StoreTarget(wanted, was_set, tuple(groups), days is not None)


def eaten_by_group(
    foods: Sequence[horizon_rows.FoodLine], how: Mapping[int, HouseholdEating]
) -> dict[FoodGroup, Fraction]:
    """Servings a day of each food group, as far as anybody said."""
    found: dict[FoodGroup, Fraction] = {}
    for row in foods:
        group, rate = FoodGroup(row.food_group), how[row.food_id].servings_per_day
        if rate:
            found[group] = found.get(group, NONE) + rate
    return found


def known_food(row: horizon_rows.FoodLine) -> KnownFood:
    """A food of the store as the horizon names it."""
    return KnownFood(row.food_id, row.name, FoodGroup(row.food_group), row.serving_dg)


def _draws(
    room: Stockroom, foods: Sequence[horizon_rows.FoodLine], today: date
) -> dict[int, list[PastDraw]]:
    """What was eaten of each food in the last year."""
    serving_dg = {row.food_id: row.serving_dg for row in foods}
    rows = horizon_rows.eaten_rows(
        room.store, today - timedelta(days=RECORD_DAYS), today - timedelta(days=1)
    )
    found: dict[int, list[PastDraw]] = {}
    for food_id, on_day, fresh_dg in rows:
        if food_id in serving_dg:
            servings = Fraction(fresh_dg, serving_dg[food_id])
            draw = PastDraw(food_id, date.fromisoformat(on_day), servings)
            found.setdefault(food_id, []).append(draw)
    return found


def _exact(text: str) -> Fraction | None:
    """A stored fraction; None for what is none."""
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        return None


def _a_week(servings_per_day: Fraction) -> str:
    """A rate in words."""
    if not servings_per_day:
        return "never"
    count = show_servings(servings_per_day * 7)
    return f"{count} {'serving' if count == '1' else 'servings'} a week"


def _group(group: FoodGroup) -> str:
    return group.value.replace("_", " ")
