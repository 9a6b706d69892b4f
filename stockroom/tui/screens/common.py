"""What soft packages have in common: a table of groups, what stands out first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import ClassVar

from textual import on, work
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.chances import percent_words
from stockroom.domain.common_ground import Common, CommonPage, Telling
from stockroom.domain.proportion import EXACT_INTERVAL, TOO_FEW, Proportion
from stockroom.domain.quantities import read_day
from stockroom.errors import StockroomError
from stockroom.services.session import Stockroom
from stockroom.services.tracing import in_common
from stockroom.tui.modal import tell
from stockroom.tui.plaintext import plain_lines
from stockroom.tui.screens.recipe_forms import own_food_search
from stockroom.tui.screens.table_window import TableWindow
from stockroom.tui.screens.windows import ReadScreen
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.widgets.window_rows import Row, Tone

COLUMNS = (
    Column("In common", 22, weight=1, look="main", keep="end"),
    Column("Soft", 9, align="right"),
    Column("Between", 14, align="right", priority=1, look="quiet"),
    Column("Elsewhere", 9, align="right", priority=2, look="quiet"),
    Column("It is", 15, look="tone"),
)
LOOKING = "Counting every package that was looked at …"
NOTHING = "No package was ever looked at, so there is nothing to compare."
NO_CAUSE = "No line here shows a cause."
_TONES: dict[Telling, Tone] = {Telling.MORE: "bad", Telling.LESS: "good", Telling.SAME: ""}

Wanted = tuple[str | None, date | None]
"""The food, and the day from which looks count; None for all."""


class CommonScreen(TableWindow[None]):
    """The groups, counted in a thread."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "f",
            "narrow",
            "Narrow",
            id="common-narrow",
            tooltip="Count one food only, or only what was looked at since a day.",
        ),
    ]

    class Counted(Message):
        """The page is there, or what stood in the way."""

        def __init__(self, answer: CommonPage | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, room: Stockroom, *, food: str | None = None) -> None:
        """`food` counts that food only at first."""
        super().__init__(room, "What soft packages have in common", COLUMNS, above=[LOOKING])
        self.wanted: Wanted = (food, None)
        self.page: CommonPage | None = None

    def on_mount(self) -> None:
        """Begin to count."""
        super().on_mount()
        self._count(self.wanted)

    @work(thread=True, exclusive=True, exit_on_error=False, group="common", description="in common")
    def _count(self, wanted: Wanted) -> None:
        """Count in a thread; an answer that comes too late is dropped."""
        worker = get_current_worker()
        food, since = wanted
        answer: CommonPage | StockroomError
        try:
            answer = in_common(self.room, food=food, since=since)
        except StockroomError as error:
            answer = error
        if not worker.is_cancelled:
            self.post_message(self.Counted(answer))

    @on(Counted)
    def _show(self, message: Counted) -> None:
        """Show what was counted, or say what stood in the way."""
        if isinstance(message.answer, StockroomError):
            tell(self.app, message.answer)
            return
        self.page = message.answer
        self.query_one(".above", Static).update(plain_lines(above_lines(self.page)))
        self.table.empty = "" if self.page.overall.looked_at else NOTHING
        self.show_rows([_row(key, one) for key, one in enumerate(self.page.groups)])

    def words_of(self, key: int) -> Sequence[str]:
        """The group in full."""
        return group_lines(self.page.groups[key]) if self.page else ()

    def chosen(self, key: int) -> None:
        """Show the group with all there is to bear in mind, and the sources."""
        if self.page is not None:
            one = self.page.groups[key]
            lines = [*group_lines(one), "", *self.page.notes, ""]
            lines += [f"{EXACT_INTERVAL.words}.", f"{TOO_FEW.words}."]
            self.app.push_screen(ReadScreen(one.words, lines))

    def action_narrow(self) -> None:
        """Ask for the food and the day, and count again."""
        self.app.push_screen(narrow_form(self.room, self.wanted), self._narrowed)

    def _narrowed(self, wanted: Wanted | None) -> None:
        if wanted is not None:
            self.wanted = wanted
            self._count(wanted)


def narrow_form(room: Stockroom, wanted: Wanted) -> FormScreen[Wanted]:
    """Asks which food counts, and from which day looks do."""
    food, since = wanted

    def read(answers: Answers) -> Wanted:
        chosen, typed = answers.choice("food"), answers.text("since").strip()
        day = read_day(typed, room.today, "since") if typed else None
        return (str(chosen.key) if chosen else None, day)

    return FormScreen(
        "Count only",
        (
            Picker(
                "food", "Food", own_food_search(room), Choice(food, food) if food else None,
                hint="Empty: every food.",
            ),
            Field(
                "since", "Looked at since", since.isoformat() if since else "",
                hint="A day such as 2026-03-01 or -365; empty: ever.",
            ),
        ),
        read,
    )  # fmt: skip


def above_lines(page: CommonPage) -> list[str]:
    """How many went soft in all, and what no line can say."""
    overall = page.overall
    of = f" of {page.food}" if page.food else ""
    since = f" since {page.since}" if page.since else ""
    lines = [f"{overall.soft:,} of {overall.looked_at:,} packages{of} looked at{since} went soft."]
    if overall.looked_at:
        lines[0] += f" That is {between(overall)}."
        lines.append(
            f"{page.compared:,} groups compared: of many, a few stand out by chance. {NO_CAUSE}"
        )
    return lines


def between(share: Proportion) -> str:
    """The interval of a share."""
    return f"{percent_words(share.low)} to {percent_words(share.high)}"


def group_lines(one: Common) -> list[str]:
    """A group in full: what it is, what can be said of it."""
    said = f"{one.sentence[:1].upper()}{one.sentence[1:]}"
    lines = [f"{one.words[:1].upper()}{one.words[1:]}", said, f"Here {between(one.here)}."]
    if one.elsewhere.looked_at:
        lines.append(f"Elsewhere {between(one.elsewhere)}.")
    return lines


def _row(key: int, one: Common) -> Row:
    cells = (
        one.words,
        f"{one.here.soft} of {one.here.looked_at}",
        between(one.here).replace(" % to", " to"),
        f"{one.elsewhere.soft} of {one.elsewhere.looked_at}",
        one.telling.value,
    )
    return Row(key, cells, _TONES.get(one.telling, "quiet"))
