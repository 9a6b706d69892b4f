"""A plan at once: day by day the dish of the best value for its energy, then one exchange.

The rule is a rule of thumb: it says nothing of how much better a plan could be.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from stockroom.domain.cooking import Occasion
from stockroom.domain.menu.choices import Choice, choices
from stockroom.domain.menu.draft import Draft
from stockroom.domain.menu.limits import limits
from stockroom.domain.menu.plans import Plan
from stockroom.domain.menu.reading import read_plan
from stockroom.domain.menu.records import Question
from stockroom.domain.menu.shelf import shelves
from stockroom.errors import Refused


class FixedBeyondStock(Refused):
    """Dishes fixed in the menu need more of a food than may be used by then."""

    def __init__(self, dish: str, on: date) -> None:
        """`dish` is the first that cannot be covered, `on` its day."""
        super().__init__(
            f"{dish}, fixed on {on}, needs more than the store has beside the other fixed dishes.",
            "Free one of the fixed dishes, or fix it for fewer people.",
        )


@dataclass(frozen=True, slots=True)
class QuickPlan:
    """A plan found at once; `fits` says whether it meets every wish."""

    chosen: tuple[Choice, ...]
    plan: Plan
    fits: bool


def quick_plan(question: Question) -> QuickPlan:
    """A plan that keeps to the store and all upper limits, and to the lower ones if it finds how.

    Raises FixedBeyondStock where the locked dishes alone are more than the store has.
    """
    shelf_of = shelves(question)
    every = choices(question, shelf_of)
    draft = Draft(question, shelf_of, limits(question, every))
    _put_locked(question, draft, every)
    free = [
        [each for each in every if each.day == day and not each.locked]
        for day in range(len(question.days))
    ]
    for day in range(len(question.days)):
        _fill(draft, question, day, free[day])
    for day in range(len(question.days)):
        _exchange(draft, day, free[day])
    return QuickPlan(draft.chosen(), read_plan(question, draft.chosen()), draft.fits())


def _put_locked(question: Question, draft: Draft, every: Sequence[Choice]) -> None:
    """Put in the locked dishes."""
    for choice in every:
        if choice.locked:
            if draft.gain(choice) is None:
                on = question.days[choice.day].on
                raise FixedBeyondStock(question.options[choice.dish].name, on)
            draft.put(choice)


def _fill(draft: Draft, question: Question, day: int, free: Sequence[Choice]) -> None:
    """Put dishes into a day until it has what it needs and nothing more is worth it."""
    reach = _Reach(free)
    wanted = _wanted_kcal(draft, question, day)
    while True:
        needed = draft.shortage(day) > 0 or draft.kcal[day] < wanted
        room = _most_kcal(draft, question, day)
        found = _best(
            draft,
            free,
            lambda each, room=room: (
                draft.kcal[day] + each.kcal <= room and reach.still_fits(draft, each)
            ),
        )
        if found is None and needed:
            found = _best(draft, free, reach.is_missing(draft, day)) or _best(draft, free, _any)
        if found is None or not (needed or found[0] > 0):
            return
        draft.put(found[1])


def _best(
    draft: Draft, free: Sequence[Choice], suits: Callable[[Choice], bool]
) -> tuple[float, Choice] | None:
    """The choice with the most gain for its energy, if any has room."""
    best: tuple[float, Choice] | None = None
    for choice in free:
        if not (draft.has_room(choice) and suits(choice)):
            continue
        gain = draft.gain(choice)
        if gain is None:
            continue
        score = gain / max(choice.kcal, 100)
        if best is None or score > best[0]:
            best = (score, choice)
    return best


def _any(_choice: Choice) -> bool:
    """Every choice suits."""
    return True


def _wanted_kcal(draft: Draft, question: Question, day: int) -> int:
    """A day's part of what the whole plan needs at least and does not have yet."""
    before = sum(draft.kcal[:day])
    return _part(question, day, draft.bounds.plan_kcal.least - before)


def _most_kcal(draft: Draft, question: Question, day: int) -> int:
    """A day's part of what the whole plan may still have, and never less than the day needs."""
    before = sum(draft.kcal[:day])
    part = _part(question, day, draft.bounds.plan_kcal.most - before)
    limits_of = draft.bounds.days[day].kcal
    return min(max(part, limits_of.least), limits_of.most)


def _part(question: Question, day: int, kcal: int) -> int:
    """The part of some energy for a day, by its need among the days from it on."""
    rest = sum(each.need_kcal for each in question.days[day:])
    return kcal * question.days[day].need_kcal // rest if rest else 0


class _Reach:
    """The least and most energy a dish of each occasion can bring on a day."""

    def __init__(self, free: Sequence[Choice]) -> None:
        kcal = [[each.kcal for each in free if each.occasion is one] for one in Occasion]
        self._least = [min(each, default=0) for each in kcal]
        self._most = [max(each, default=0) for each in kcal]

    def still_fits(self, draft: Draft, choice: Choice) -> bool:
        """Whether the day's energy can still be met with a choice put in."""
        day = draft.bounds.days[choice.day]
        low = high = draft.kcal[choice.day] + choice.kcal
        for number, occasion in enumerate(Occasion):
            span = day.dishes[number]
            there = draft.dishes[choice.day][number] + (choice.occasion is occasion)
            low += max(span.least - there, 0) * self._least[number]
            high += max(span.most - there, 0) * self._most[number]
        return low <= day.kcal.most and high >= day.kcal.least

    def is_missing(self, draft: Draft, day: int) -> Callable[[Choice], bool]:
        """Whether a choice is of an occasion the day has too few dishes of."""
        spans, there = draft.bounds.days[day].dishes, draft.dishes[day]
        missing = [
            one for one, span, now in zip(Occasion, spans, there, strict=True) if now < span.least
        ]
        return lambda choice: choice.occasion in missing


def _exchange(draft: Draft, day: int, free: Sequence[Choice]) -> None:
    """Exchange each free dish of a day for the one of its occasion that is best in its place."""
    for old in [each for each in draft.days[day] if not each.locked]:
        short = draft.shortage(day), max(draft.bounds.plan_kcal.least - sum(draft.kcal), 0)
        draft.take_out(old)
        best, best_key = old, (-sum(short), draft.gain(old) or 0)
        for choice in free:
            if choice.occasion is not old.occasion or not draft.has_room(choice):
                continue
            gain = draft.gain(choice)
            if gain is not None and (key := (-_short_with(draft, choice), gain)) > best_key:
                best, best_key = choice, key
        draft.put(best)


def _short_with(draft: Draft, choice: Choice) -> int:
    """How far the day and the plan are below their lower limits with a choice put in."""
    day, limits_of = choice.day, draft.bounds.days[choice.day]
    place = tuple(Occasion).index(choice.occasion)
    missing = sum(
        max(span.least - there - (number == place), 0)
        for number, (span, there) in enumerate(
            zip(limits_of.dishes, draft.dishes[day], strict=True)
        )
    )
    return (
        missing * 1_000
        + max(limits_of.kcal.least - draft.kcal[day] - choice.kcal, 0)
        + max(limits_of.protein_least_dg - draft.protein_dg[day] - choice.protein_dg, 0)
        + max(draft.bounds.plan_kcal.least - sum(draft.kcal) - choice.kcal, 0)
    )
