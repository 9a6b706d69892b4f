"""The forms of what lies ahead: how fast a food is eaten, and what the store is to hold."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.foods import FoodGroup
from stockroom.domain.horizon.household_eating import Basis, Per, read_rate
from stockroom.domain.horizon.pace import rhythm
from stockroom.domain.horizon.pages import FoodHorizon, StoreTarget
from stockroom.domain.horizon.store_target import read_target_days
from stockroom.domain.quantities import read_servings, show_servings
from stockroom.errors import BadInput
from stockroom.reports.parts import spoken
from stockroom.services import eating_rates
from stockroom.services.provision import targets
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.horizon_words import how_lines
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker

MOST_DAYS = 3653
"""The longest stretch servings are said for: ten years, as at the command line."""
FORGET = "forget"
WHOLE_STORE = "store"
_WEEK = Choice(Per.WEEK.value, "week")
_FORGET = Choice(FORGET, "as before it was set", "what was eaten in the last year speaks again")


def rate_form(room: Stockroom, food: FoodHorizon) -> FormScreen[Done]:
    """Asks how fast a food is eaten beside the menu."""
    was_set = food.how.basis is Basis.SET
    servings, per = _as_set(food.how.servings_per_day if was_set else None)

    def search(letters: str) -> Sequence[Choice]:
        return _stretches(letters, was_set=was_set)

    def submit(answers: Answers) -> Done:
        chosen = str(answers.key("per") or Per.WEEK.value)
        if chosen == FORGET:
            return eating_rates.clear_rate(room, food.food.name)
        rate = read_rate(answers.text("servings"), _days(chosen))
        return eating_rates.set_rate(room, food.food.name, rate)

    fields = (
        Field("servings", "Servings", servings, hint="Such as 3, or never. Beside the menu."),
        Picker("per", "Every", search, per, hint="day, week, month, year, or a number of days."),
    )
    return FormScreen(
        f"Eating: {food.food.name}", fields, submit, about=how_lines(food)
    )  # fmt: skip


def _as_set(servings_per_day: Fraction | None) -> tuple[str, Choice]:
    """The rate set as it is typed: so many a week, else so many every few days."""
    if servings_per_day is None:
        return "", _WEEK
    a_week = show_servings(7 * servings_per_day)
    if _reads_as(a_week, 7 * servings_per_day):
        return a_week, _WEEK
    beat = rhythm(servings_per_day)
    if beat.exact:
        return str(beat.servings), _stretch(beat.days)
    return "", _WEEK


def _reads_as(shown: str, servings: Fraction) -> bool:
    """Whether what is shown of a number of servings is all of it."""
    return not shown.startswith("<") and Fraction(shown) == servings


def _stretches(letters: str, *, was_set: bool) -> Sequence[Choice]:
    """The stretches of time that some letters mean."""
    words = letters.strip().casefold()
    if words.removesuffix("days").strip().isdecimal():
        days = int(words.removesuffix("days"))
        return [_stretch(days)] if 1 <= days <= MOST_DAYS else []
    every = [*(Choice(one.value, one.value) for one in Per), *([_FORGET] if was_set else [])]
    return [one for one in every if one.label.startswith(words)]


def _stretch(days: int) -> Choice:
    """A number of days to pick."""
    return Choice(str(days), "1 day" if days == 1 else f"{days} days")


def _days(chosen: str) -> Fraction:
    """The length of a stretch."""
    return Fraction(chosen) if chosen.isdecimal() else Per(chosen).days


def target_form(room: Stockroom) -> FormScreen[Done]:
    """Asks how long the store is to last, or what it is to hold of a food group."""
    now = targets(room)
    store = Choice(WHOLE_STORE, "the whole store", _store_words(now))
    every = [store, *(_group_choice(group, now) for group in FoodGroup)]

    def search(letters: str) -> Sequence[Choice]:
        words = letters.casefold().split()
        return [one for one in every if all(word in one.label for word in words)]

    def submit(answers: Answers) -> Done:
        chosen, amount = answers.key("group"), answers.text("amount").strip()
        if chosen is None:
            raise BadInput("group", "", "the whole store or a food group")
        group = None if chosen == WHOLE_STORE else FoodGroup(str(chosen))
        if not amount:
            return eating_rates.clear_target(room, group)
        if group is None:
            return eating_rates.set_target(room, read_target_days(amount))
        servings = read_servings(amount, "servings")
        return eating_rates.set_group_target(room, group, servings)

    fields = (
        Picker("group", "For", search, store, hint="The store, or a food group."),
        Field(
            "amount", "Amount", hint="14 days or 6 months; of a group, servings. Empty forgets.",
            answers_to=("target", "servings"),
        ),
    )  # fmt: skip
    about = (f"The store is to last {_store_words(now)}.",)
    return FormScreen("Targets", fields, submit, about=about)


def _store_words(now: StoreTarget) -> str:
    """How long the store is to last."""
    days = f"{now.days:,} {'day' if now.days == 1 else 'days'}"
    return days if now.was_set else f"{days}, the usual: none is set"


def _group_choice(group: FoodGroup, now: StoreTarget) -> Choice:
    """A food group to pick, with its target."""
    found = next((one for one in now.groups if one.group is group), None)
    if found is None:
        return Choice(group.value, spoken(group.value), "no target")
    from_where = "" if found.was_set else ", as it is eaten"
    return Choice(
        group.value, spoken(group.value), f"{show_servings(found.servings)} servings{from_where}"
    )
