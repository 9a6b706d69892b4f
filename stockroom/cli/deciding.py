"""What becomes of a package found soft, leaking or damaged: asked, said, and carried out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stockroom.cli import asking, diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.options import Choices, json_form, working
from stockroom.cli.session import Wishes
from stockroom.errors import BadInput, Refused, StockroomError

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from stockroom.domain.soft_decision import Outcome, Prompt
    from stockroom.reports.values import Report
    from stockroom.services.deciding import Consideration
    from stockroom.services.results import Done
    from stockroom.services.session import Stockroom

Function = TypeVar("Function", bound=Callable[..., Any])

NOT_KNOWN = "unknown"
NOTHING_YET = "nothing"
_YES_OR_NO = ("yes", "no", NOT_KNOWN)


def _keys(question: str) -> Callable[[], Iterable[str]]:
    """The answers to a question with a few."""

    def load() -> Iterable[str]:
        from stockroom.domain.soft_decision import PROMPTS, Question

        return (*(one.key for one in PROMPTS[Question(question)].choices), NOT_KNOWN)

    return load


def _outcomes() -> Iterable[str]:
    from stockroom.domain.soft_decision import Outcome

    return tuple(Outcome)


_QUESTIONS = (
    click.option("--feel", type=Choices(_keys("feel")), help="How the food feels, squeezed."),
    click.option("--signs", type=Choices(_keys("signs")), help="What shows that it spoiled."),
    click.option(
        "--frozen", "frozen_since_found", type=Choices(lambda: _YES_OR_NO),
        help="Whether it went into the freezer when it was found.",
    ),
    click.option(
        "--hours", "hours_since_sealing", metavar="N|unknown",
        help="Hours from sealing to when it was found.",
    ),
    click.option(
        "--acid", type=Choices(lambda: _YES_OR_NO), help="Whether it is an acid fruit."
    ),
    click.option(
        "--cold", "kept_cold", type=Choices(lambda: _YES_OR_NO),
        help="Whether it was chilled or frozen ever since sealing.",
    ),
    click.option(
        "--minutes", "minutes_out", metavar="N|unknown",
        help="Minutes out of the cold, all together.",
    ),
    click.option(
        "--tight", "tightness", type=Choices(_keys("tightness")),
        help="Whether the package is tight.",
    ),
)  # fmt: skip


def _questions(function: Function) -> Function:
    """An option for each question; the command takes them under the names of their facts."""
    for option in reversed(_QUESTIONS):
        function = option(function)
    return function


@click.command("decide", cls=Command)
@click.argument("code", metavar="CODE")
@_questions
@click.option(
    "--as", "outcome", type=Choices(_outcomes), help="Carry out this, if the rules allow it."
)
@click.option("--place", metavar="PLACE", help="Where it waits when it is held, usually a freezer.")
@click.option(
    "--sisters", is_flag=True, help="Hold its suspect sisters too, where the whole lot is dried."
)
@click.option("--note", default="", metavar="TEXT", help="A note to keep with the decision.")
@working
@json_form
@click.pass_obj
def decide(
    wishes: Wishes,
    code: str,
    outcome: str | None,
    place: str | None,
    sisters: bool,
    note: str,
    working: bool,
    form: str | None,
    **said: str | None,
) -> None:
    """Say what becomes of a package found soft, leaking or damaged, and carry it out.

    On a terminal it asks what still matters, one question at a time, says what to do, why and by
    when, and asks before anything is recorded. Elsewhere the options answer, what is not answered
    counts as the stricter, and nothing is recorded without --as. Never taste food to decide.

    \b
    stockroom decide 26329A01
    stockroom decide 26329A01 --feel slightly-soft --signs none --hours 20 --as hold
    """
    from stockroom.domain.soft_decision import Outcome, Question
    from stockroom.services.deciding import consider

    answers = {Question(key): answer for key, answer in said.items() if answer is not None}
    asks = form is None and asking.on_a_terminal()
    chosen = None if outcome is None else Outcome(outcome)
    with wishes.room() as room:
        seen = consider(room, code, answers)
        if asks and chosen is not Outcome.DISCARD:
            seen = _ask_what_matters(room, code, seen)
        if chosen is None:
            output.show(_page(room, seen, None, working), form, room.units)
            wish = _ask_what_to_do(room, seen, place, sisters) if asks else None
            if wish is None:
                _say_nothing_recorded(seen, form)
            else:
                _say_done(seen, wish.outcome, _done(room, seen, wish, note))
            return
        wish = Wish(chosen, place, sisters)
        done = _done(room, seen, wish, note)
        output.show(_page(room, seen, done, working), form, room.units)
        if form is None:
            _say_done(seen, wish.outcome, done)


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be carried out, where the food waits, and whether its sisters go with it."""

    outcome: Outcome
    place: str | None
    sisters: bool


def _page(room: Stockroom, seen: Consideration, done: Done | None, working: bool) -> Report:
    """The decision as it stands, with its working when it is wanted."""
    from stockroom.domain.conditions import Condition
    from stockroom.reports.deciding import decision_report
    from stockroom.services.packing import lot_detail

    packages = lot_detail(room, seen.package.lot_code).packages
    report = decision_report(
        seen.package,
        seen.decision,
        seen.answers,
        seen.question,
        seen.seal,
        sisters=[
            one.code
            for one in packages
            if one.condition == Condition.SUSPECT and one.code != seen.package.code
        ],
        done=done,
    )
    if working:
        from stockroom.reports.workings import with_working

        report = with_working(report, seen.decision.working)
    return report


def _done(room: Stockroom, seen: Consideration, wish: Wish, note: str) -> Done:
    """The decision carried out."""
    from stockroom.services.deciding import carry_out

    return carry_out(
        room,
        seen.package.code,
        seen.answers,
        outcome=wish.outcome,
        place=wish.place,
        sisters_too=wish.sisters,
        note=note,
    )


def _say_done(seen: Consideration, chosen: Outcome, done: Done) -> None:
    """What was recorded, and what comes next."""
    from stockroom.domain.soft_decision import Outcome
    from stockroom.reports.done import sentence

    code = seen.package.code
    comes_next = {
        Outcome.HOLD: f"When the machine is free: stockroom run again TRAY {code}",
        Outcome.DRY_AGAIN: f"Next: stockroom run new, then stockroom run again TRAY {code}",
        Outcome.REPACK: f"Next: stockroom repack {code} --into 1xpouch-950-foil,absorber=200",
        Outcome.USE_NOW: f"Next: stockroom draw {code}",
    }
    output.write(f"\n{sentence(done.words)}\n")
    if chosen in comes_next:
        diagnostics.tell(comes_next[chosen])


def _say_nothing_recorded(seen: Consideration, form: str | None) -> None:
    """That the record stays as it was, and how the decision would be carried out."""
    if form is None:
        offered = ", ".join((*map(str, seen.decision.choices), "discard"))
        diagnostics.tell(f"Nothing was recorded. Carry it out with --as: {offered}.")


# Questions on a terminal


def _ask_what_matters(room: Stockroom, code: str, seen: Consideration) -> Consideration:
    """Ask each question whose answer can still change the decision."""
    from stockroom.domain.soft_decision import PROMPTS
    from stockroom.services.deciding import consider

    while seen.question is not None:
        answer = _ask(PROMPTS[seen.question])
        try:
            seen = consider(room, code, {**seen.answers, seen.question: answer})
        except Refused as refusal:  # an answer that does not go with the record: asked again
            diagnostics.trouble(refusal)
    return seen


def _ask(prompt: Prompt) -> str:
    """One question, with its hint and its answers by number or word."""
    from stockroom.reports.deciding import OPTION_OF

    diagnostics.tell(f"{prompt.text} {prompt.hint}")
    for number, one in enumerate(prompt.choices, start=1):
        diagnostics.tell(f"{number}: {one.words}", hanging="   ")
    return asking.ask(
        f"Answer, a number of {prompt.unit}" if prompt.unit else "Answer",
        NOT_KNOWN,
        OPTION_OF[prompt.question],
        lambda typed: read_answer(prompt, typed),
    )


def read_answer(prompt: Prompt, typed: str) -> str:
    """A typed answer as its key: by number, by word, by y or n; or unknown. Raises BadInput."""
    said = "_".join(typed.casefold().replace("-", " ").split())
    if said in ("", NOT_KNOWN):
        return NOT_KNOWN
    if prompt.unit:
        if said.isascii() and said.isdigit() and len(said) <= 6:
            return said
        raise BadInput("answer", typed, f"a whole number of {prompt.unit}, or {NOT_KNOWN}")
    keys = [one.key for one in prompt.choices]
    if said.isascii() and said.isdigit() and 1 <= int(said) <= len(keys):
        return keys[int(said) - 1]
    found = [key for key in keys if key.startswith(said)]
    if said in keys:
        return said
    if len(found) != 1:
        raise BadInput("answer", typed, f"its number, one of {', '.join(keys)}, or {NOT_KNOWN}")
    return found[0]


def _ask_what_to_do(
    room: Stockroom, seen: Consideration, place: str | None, sisters: bool
) -> Wish | None:
    """What is to be carried out, and how; None for nothing yet."""
    from stockroom.domain.soft_decision import Outcome

    chosen = _ask_outcome([*seen.decision.choices, Outcome.DISCARD])
    if chosen is None:
        return None
    if chosen in (Outcome.HOLD, Outcome.DRY_AGAIN):
        place = _ask_where(room) if place is None else place
        sisters = sisters or _ask_for_sisters(seen)
    return Wish(chosen, place, sisters)


def _ask_outcome(ways: Sequence[Outcome]) -> Outcome | None:
    """One of what may be done; None for nothing yet."""
    for number, one in enumerate(ways, start=1):
        diagnostics.tell(f"{number}: {one.words}", hanging="   ")

    def read(typed: str) -> Outcome | None:
        said = "_".join(typed.casefold().replace("-", " ").split())
        if said == NOTHING_YET:
            return None
        if said.isascii() and said.isdigit() and 1 <= int(said) <= len(ways):
            return ways[int(said) - 1]
        for one in ways:
            if said == one:
                return one
        raise BadInput("answer", typed, f"the number of what to do, or {NOTHING_YET}")

    return asking.ask("Carry out which of these?", NOTHING_YET, "--as OUTCOME", read)


def _ask_where(room: Stockroom) -> str | None:
    """The place it waits in; None to leave it where it stands."""
    from stockroom.services.finding import find_place

    def read(typed: str) -> str | None:
        if typed.strip().casefold() == "here":
            return None
        try:
            return find_place(room, typed).path
        except StockroomError as missing:
            raise BadInput("place", typed, "a place there is, or here to leave it") from missing

    return asking.ask("Where does it wait, usually a freezer?", "here", "--place PLACE", read)


def _ask_for_sisters(seen: Consideration) -> bool:
    """Whether its suspect sisters are held too, where the whole lot is to be dried again."""
    from stockroom.domain.soft_decision import Sisters

    if seen.decision.sisters is not Sisters.DRY_ALL:
        return False

    def read(typed: str) -> bool:
        said = typed.strip().casefold()
        if said not in ("y", "yes", "n", "no"):
            raise BadInput("answer", typed, "yes or no")
        return said.startswith("y")

    return asking.ask("Hold its suspect sisters too?", "yes", "--sisters", read)
