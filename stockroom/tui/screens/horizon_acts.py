"""Doing what a piece of advice says, after asking; what was done is told to the screen."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from stockroom.domain.horizon.advice import Advice, AdviceKind
from stockroom.domain.quantities import UnitSystem
from stockroom.services.results import Done
from stockroom.tui.base import BaseScreen
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.cook import CookScreen
from stockroom.tui.screens.horizon_words import MOST_NAMED, advice_lines
from stockroom.tui.screens.windows import CareScreen, open_window
from stockroom.tui.words import caution, counted

GIVEN_AWAY = "given away"
"""The reason food is discarded for: not as eaten, or the record would take it for that."""
UNDOES = "u undoes it."

Then = Callable[[Done | None], None]
"""Takes what was done, None where nothing was."""


class AheadCookScreen(CookScreen):
    """The cook sheet of a dish that would save food; it stands over the Horizon."""

    MODE = "horizon"


def act_on(screen: BaseScreen, advice: Advice, units: UnitSystem, then: Then) -> None:
    """Ask, and do it through the services."""
    if advice.kind is AdviceKind.EAT:
        _eat(screen, advice, units, then)
    elif advice.kind is AdviceKind.COOK:
        _cook(screen, advice)
    elif advice.kind is AdviceKind.MOVE:
        _move(screen, advice, units, then)
    elif advice.kind is AdviceKind.REPACK:
        _repack(screen, advice, then)
    else:
        _give(screen, advice, units, then)


def _eat(screen: BaseScreen, advice: Advice, units: UnitSystem, then: Then) -> None:
    """Set the eating rate."""
    from stockroom.services.eating_rates import set_rate

    rate = advice.servings_per_day
    if rate is None:
        return
    lines = [*advice_lines(advice, units), "Sets how it is eaten beside the menu.", UNDOES]
    _ask(
        screen,
        ConfirmScreen(f"Eat {advice.food} so?", lines),
        lambda: then(screen.attempt(set_rate, screen.stockroom, advice.food, rate)),
    )


def _cook(screen: BaseScreen, advice: Advice) -> None:
    """Open the cook sheet, after asking for how many people."""
    from stockroom.tui.screens.kitchen import people_form

    def cook(people: int | None) -> None:
        if people is not None:
            screen.app.push_screen(AheadCookScreen(advice.recipe, people))

    open_window(screen, cook, people_form, screen.stockroom, advice.recipe)


def _move(screen: BaseScreen, advice: Advice, units: UnitSystem, then: Then) -> None:
    """Move the packages."""
    from stockroom.services.packages import move_packages

    lines = [
        f"To: {advice.place}",
        *advice_lines(advice, units),
        "The book has it there from today on: carry it there as well.",
        UNDOES,
    ]
    heading = f"Move {counted(len(advice.codes), 'package')} of {advice.food}"
    _ask(
        screen,
        ConfirmScreen(heading, lines),
        lambda: then(screen.attempt(move_packages, screen.stockroom, advice.codes, advice.place)),
    )


def _repack(screen: BaseScreen, advice: Advice, then: Then) -> None:
    """Open what becomes of the first of the packages, with every way on beside it."""
    from stockroom.services.shelves import package_detail
    from stockroom.tui.screens.whatif import what_if_screen

    found = screen.attempt(package_detail, screen.stockroom, advice.codes[0])
    if found is not None:
        open_window(screen, then, what_if_screen, screen.stockroom, found.package)


def _give(screen: BaseScreen, advice: Advice, units: UnitSystem, then: Then) -> None:
    """Take the packages off the book as given away."""
    from stockroom.services.packages import discard_packages

    lines = [
        *advice_lines(advice, units),
        *_every_code(advice.codes),
        f"Takes them off the shelves as {GIVEN_AWAY}. {UNDOES}",
        "Look at each before it goes: give only what you would eat yourself.",
    ]
    heading = f"Give away {counted(len(advice.codes), 'package')} of {advice.food}"
    _ask(
        screen,
        CareScreen(heading, lines, [caution("local-codes")]),
        lambda: then(
            screen.attempt(discard_packages, screen.stockroom, advice.codes, GIVEN_AWAY)
        ),
    )  # fmt: skip


def _every_code(codes: Sequence[str]) -> list[str]:
    """Every package where the words of the advice only count some."""
    return [f"All of them: {', '.join(codes)}."] if len(codes) > MOST_NAMED else []


def _ask(screen: BaseScreen, question: ConfirmScreen, act: Callable[[], None]) -> None:
    """Ask once; a yes does it."""

    def answered(sure: bool | None) -> None:
        if sure:
            act()

    screen.app.push_screen(question, answered)
