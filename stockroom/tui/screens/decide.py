"""What becomes of a package found at fault: a few questions, then what the rules offer.

Every key gives one answer. What is shown meanwhile is what the rules say by the answers so far:
what nobody said counts as the stricter, so the answers to come can only make it kinder.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widgets import Static

from stockroom.domain.conditions import Condition
from stockroom.domain.records import Package
from stockroom.domain.soft_decision import (
    PROMPTS,
    Outcome,
    Prompt,
    Question,
    Sisters,
)
from stockroom.domain.soft_questions import NOT_KNOWN
from stockroom.errors import StockroomError
from stockroom.services import deciding
from stockroom.services.deciding import Consideration
from stockroom.services.packing import lot_detail
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.modal import BaseModal, tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.decide_words import (
    REASONS,
    answered_words,
    choice_lines,
    found_words,
    question_lines,
    reasons,
)
from stockroom.tui.screens.windows import Cautions
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.words import names_of

if TYPE_CHECKING:
    from stockroom.tui.screens.package_actions import PackageActions

MOST_CHOICES = 6


@dataclass(frozen=True, slots=True)
class Decided:
    """What was decided and done."""

    done: Done
    outcome: Outcome


def _number_keys() -> list[Binding]:
    """A key for each numbered answer."""
    return [
        Binding(
            str(number),
            f"pick({number})",
            "Choose",
            show=number == 1,
            id=f"decide-{number}",
            tooltip="Give this answer, or choose this way.",
        )
        for number in range(1, MOST_CHOICES + 1)
    ]


class NumberLine(Field):
    """Where a number is typed; a backspace with nothing to rub out takes the last answer back."""

    def __init__(self, back: Callable[[], object]) -> None:
        super().__init__("number", "Answer", restrict=DIGITS)
        self._back = back

    def press(self, key: str) -> bool:
        """Go back from an empty line."""
        if key == "backspace" and not self.text:
            self._back()
            return True
        return super().press(key)


class DecideScreen(BaseModal[Decided]):
    """Asks question by question, shows what the rules say so far, and carries it out.

    Closes with what was decided, or None for another time.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "do", "Do it", id="decide-do", tooltip="Do what is chosen."),
        *_number_keys(),
        Binding("0", "not_known", "Not known", id="decide-not-known", tooltip="Nobody knows."),
        Binding("y", "yes", "Yes", show=False, id="decide-yes", tooltip="Answer yes."),
        Binding("n", "no", "No", show=False, id="decide-no", tooltip="Answer no."),
        Binding(
            "backspace",
            "back",
            "Back",
            id="decide-back",
            tooltip="Take the last answer back.",
        ),
        Binding("w", "working", "Why", id="decide-working", tooltip="Show how it was reached."),
        Binding("escape", "leave", "Later", id="decide-leave", tooltip="Leave it undecided."),
    ]
    DEFAULT_CSS = """
    DecideScreen {
        & > .box { width: 76; border: round $warning; border-title-color: $warning; }
        .said { color: $warning; }
        .about { color: $foreground-muted; margin-bottom: 1; }
        .question { text-style: bold; }
        .hint { color: $foreground-muted; }
        .choices { margin: 1 0; }
        .so-far { color: $warning; }
        .answered { color: $foreground-muted; margin: 1 0; }
        .way.-chosen { background: $block-cursor-background; text-style: bold; }
        .reason { height: auto; }
        .reason .label { width: 9; color: $foreground-muted; }
        .reason .value { width: 1fr; height: auto; }
        #reason-time, #reason-why { margin-top: 1; }
        #reason-source .value { color: $foreground-muted; }
        Field { margin-top: 1; }
    }
    """

    def __init__(self, room: Stockroom, seen: Consideration, sisters: Sequence[Package]) -> None:
        """`sisters` are the other packages of its lot that are suspect."""
        super().__init__(f"What becomes of {names_of([seen.package])}")
        self.room = room
        self.seen = seen
        self.sisters = tuple(sisters)
        self.said = ""
        """What was just recorded, to be read first."""
        self.chosen = 0
        self.number = NumberLine(self.action_back)

    # What stands there

    def compose_inside(self) -> ComposeResult:
        """What was found; the question with its answers, or what to do and why."""
        yield Static(classes="said")
        yield Static(classes="about")
        yield Static(classes="question")
        yield Static(classes="hint")
        yield self.number
        yield Static(classes="choices")
        for place in range(MOST_CHOICES):
            yield Static(classes="way", id=f"way-{place}")
        for label in REASONS:
            with Horizontal(classes="reason", id=f"reason-{label.casefold()}"):
                yield Static(label, classes="label")
                yield Static(classes="value")
        yield Static(classes="so-far")
        yield Static(classes="answered")
        yield Cautions()

    def on_mount(self) -> None:
        """Show the first question, and let the arrow keys scroll."""
        self.query_one(".inside").can_focus = True
        self._show()

    @property
    def prompt(self) -> Prompt | None:
        """The question that is asked now; None when nothing more matters."""
        return None if self.seen.question is None else PROMPTS[self.seen.question]

    @property
    def ways(self) -> tuple[Outcome, ...]:
        """What may be done once all is answered; discarding always may."""
        return (*self.seen.decision.choices, Outcome.DISCARD)

    def _show(self) -> None:
        """Show the question, or the outcome."""
        prompt, today = self.prompt, self.room.today
        self._text(".said", [self.said] if self.said else [])
        self._text(".about", [found_words(self.seen, today)])
        self._text(".question", [prompt.text] if prompt else [])
        self._text(".hint", [prompt.hint] if prompt else [])
        self._text(".choices", question_lines(prompt) if prompt and not prompt.unit else [])
        self._text(".so-far", self._so_far() if prompt else [])
        self._text(".answered", answered_words(self.seen))
        self._show_reasons({} if prompt else reasons(self.seen, self.sisters))
        self._show_ways([] if prompt else choice_lines(self.ways))
        self.query_one(Cautions).show(() if prompt else self.seen.decision.cautions)
        self._show_number(prompt)
        self.refresh_bindings()

    def _text(self, selector: str, lines: Sequence[str]) -> None:
        """Fill a part, or leave it out."""
        part = self.query_one(selector, Static)
        part.display = bool(lines)
        part.update(plain_lines(lines))

    def _show_reasons(self, texts: Mapping[str, str]) -> None:
        """The time there is, why, and what it means for the sisters; an empty one is left out."""
        for label in REASONS:
            row = self.query_one(f"#reason-{label.casefold()}")
            row.display = bool(texts.get(label))
            row.query_one(".value", Static).update(plain(texts.get(label, "")))

    def _so_far(self) -> list[str]:
        """What the rules say by now, all that is open taken as the stricter."""
        return [f"So far: {self.seen.decision.words}"]

    def _show_ways(self, lines: Sequence[str]) -> None:
        """What may be done, the chosen way marked by a sign and by colour."""
        for place in range(MOST_CHOICES):
            part = self.query_one(f"#way-{place}", Static)
            part.display = place < len(lines)
            if part.display:
                is_chosen = place == self.chosen
                part.update(plain(f"{'▸' if is_chosen else ' '} {lines[place]}"))
                part.set_class(is_chosen, "-chosen")

    def _show_number(self, prompt: Prompt | None) -> None:
        """The line for a number, with the keys on it, where a number is asked for."""
        wanted = prompt is not None and bool(prompt.unit)
        self.number.display = wanted
        if wanted and prompt is not None:
            self.number.hint = f"Whole {prompt.unit}. Enter alone: not known."
            self.number.input.value = ""
            self.number.show_error("")
            self.number.begin()
        else:
            self.query_one(".inside").focus()

    # Answers

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys that mean something for what stands there."""
        prompt = self.prompt
        numbered = prompt is None or not prompt.unit
        if action == "pick":
            many = len(self.ways) if prompt is None else len(prompt.choices)
            return numbered and int(str(parameters[0])) <= many
        if action == "not_known":
            return prompt is not None and numbered
        if action in ("yes", "no"):
            return prompt is not None and action in [one.key for one in prompt.choices]
        if action == "back":
            return bool(self.seen.answers)
        if action == "do":
            return prompt is None
        return super().check_action(action, parameters)

    def action_pick(self, number: int) -> None:
        """Give an answer by its number, or choose a way on."""
        if self.prompt is None:
            self.chosen = number - 1
            self._show()
        else:
            self._answer(self.prompt.choices[number - 1].key)

    def action_not_known(self) -> None:
        """Say that nobody knows: the stricter is assumed."""
        self._answer(NOT_KNOWN)

    def action_yes(self) -> None:
        """Answer yes."""
        self._answer("yes")

    def action_no(self) -> None:
        """Answer no."""
        self._answer("no")

    @on(Field.Moved)
    def _number_given(self, message: Field.Moved) -> None:
        """Enter gives the number; nothing typed is not known."""
        message.stop()
        if message.done and self.prompt is not None and self.prompt.unit:
            self._answer(self.number.text.strip() or NOT_KNOWN)

    def action_back(self) -> None:
        """Take the last answer back."""
        answers = dict(self.seen.answers)
        if answers:
            answers.popitem()
            self._consider(answers)

    def _answer(self, answer: str) -> None:
        question = self.seen.question
        if question is not None:
            self._consider({**self.seen.answers, question: answer})

    def _consider(self, answers: dict[Question, str]) -> None:
        """See what the rules say now; an answer that cannot be is asked for again."""
        try:
            self.seen = deciding.consider(self.room, self.seen.package.code, answers)
        except StockroomError as error:
            if self.number.display:
                self.number.show_error(f"{error.message} {error.hint}")
            else:
                tell(self.app, error)
            return
        self.chosen = 0
        self._show()

    # What is done

    def action_working(self) -> None:
        """Show rule by rule how it was reached."""
        from stockroom.tui.screens.working import WorkingScreen

        self.app.push_screen(WorkingScreen("Why", (self.seen.decision.working,)))

    def action_do(self) -> None:
        """Do what is chosen; where it waits is asked for first."""
        outcome = self.ways[self.chosen]
        if outcome in (Outcome.HOLD, Outcome.DRY_AGAIN):
            self._ask_where(outcome)
            return
        try:
            done = deciding.carry_out(
                self.room, self.seen.package.code, self.seen.answers, outcome=outcome
            )
        except StockroomError as error:
            tell(self.app, error)
        else:
            self.dismiss(Decided(done, outcome))

    def _ask_where(self, outcome: Outcome) -> None:
        """Ask where it waits for the machine, and whether its sisters go along."""
        from stockroom.tui.screens.again_forms import wait_form

        together = self.sisters if self.seen.decision.sisters is Sisters.DRY_ALL else ()

        def carry_out(place: str | None, sisters_too: bool) -> Done:
            return deciding.carry_out(
                self.room,
                self.seen.package.code,
                self.seen.answers,
                outcome=outcome,
                place=place,
                sisters_too=sisters_too,
            )

        def close(done: Done | None) -> None:
            if done is not None:
                self.dismiss(Decided(done, outcome))

        try:
            form = wait_form(self.room, self.seen.package, carry_out, sisters=together)
        except StockroomError as error:
            tell(self.app, error)
        else:
            self.app.push_screen(form, close)


def open_decision(screen: PackageActions, package: Package, said: str = "") -> None:
    """Open the questions about a package over a screen; what was decided is told there.

    What is to be repacked goes straight on to the form for that.
    """
    room = screen.room
    seen = screen.attempt(deciding.consider, room, package.code)
    lot = screen.attempt(lot_detail, room, package.lot_code) if seen else None
    if seen is None or lot is None:
        return
    sisters = [
        one
        for one in lot.packages
        if one.condition == Condition.SUSPECT and one.package_id != package.package_id
    ]
    window = DecideScreen(room, seen, sisters)
    window.said = said and f"Recorded: {said}."

    def decided(answer: Decided | None) -> None:
        if answer is None:
            return
        screen.told(answer.done)
        if answer.outcome is Outcome.REPACK:
            screen.pack_anew(seen.package)

    screen.app.push_screen(window, decided)
