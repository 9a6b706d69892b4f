"""The round of using: what to take this month, place by place as one walks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Static
from textual.worker import get_current_worker

from stockroom.domain.horizon.forecast import Fate
from stockroom.domain.horizon.pages import RotationPage, Stop
from stockroom.domain.quantities import show_servings
from stockroom.errors import StockroomError
from stockroom.reports.parts import QUALITY_CAPTION
from stockroom.reports.rotation import rotation_report, stop_note
from stockroom.reports.values import Report, Table
from stockroom.services.session import Stockroom
from stockroom.tui.help import HelpScreen
from stockroom.tui.modal import BaseModal, attempt, tell
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.horizon_file import take_along
from stockroom.tui.screens.horizon_report import TAKE_ALONG, WholeHorizonWindow
from stockroom.tui.screens.horizon_words import servings_words
from stockroom.tui.screens.sections import Section, SectionTable
from stockroom.tui.screens.windows import CAUTION_SIGN
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.key_line import HELP_ID
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.widgets.window_table import WindowTable
from stockroom.tui.words import NO_PLACE, counted

COLUMNS = (
    Column("Food", 14, weight=1, look="main"),
    Column("Code", 9),
    Column("From", 12, look="tone"),
    Column("Best by", 10, priority=1),
    Column("Servings", 8, align="right", priority=2),
)
READING = "Working out the round …"
ROUND_MONTHS = 1


class RotationWindow(BaseModal[None]):
    """The stops as sections by place; below, the whole of the one under the cursor."""

    BINDINGS: ClassVar[list[BindingType]] = [
        TAKE_ALONG,
        Binding(
            "o",
            "orders",
            "Both orders",
            id="rotation-orders",
            tooltip="Show both orders of each food, by best-by and by age, and where they differ.",
        ),
        Binding(
            "question_mark,f1", "help", "Keys", id=HELP_ID, tooltip="List every key that works."
        ),
    ]
    DEFAULT_CSS = """
    RotationWindow {
        & > .box { width: 100; height: 100%; }
        & > .box > .inside { height: 1fr; padding: 0 0 0 1; }
        .above { height: auto; padding: 0 1; color: $foreground-muted; }
        SectionTable { height: 1fr; background: $surface; }
        .below { height: auto; max-height: 5; padding: 0 1; }
    }
    """

    class Found(Message):
        """The round is there, or what stood in the way."""

        def __init__(self, answer: RotationPage | StockroomError) -> None:
            super().__init__()
            self.answer = answer

    def __init__(self, room: Stockroom) -> None:
        super().__init__("What to take this month, in walking order")
        self.room = room
        self.page: RotationPage | None = None
        self.stops: dict[int, Stop] = {}
        self.table = SectionTable(COLUMNS, id="stops")
        self.table.empty = READING

    def compose_inside(self) -> ComposeResult:
        """Until when, the places, the stop under the cursor."""
        yield Static(plain(QUALITY_CAPTION), classes="above")
        yield self.table
        yield Static(classes="below")

    def on_mount(self) -> None:
        """Begin to read; the keys go to the list."""
        self.table.show_sections((), empty=READING)
        self.table.focus()
        self._read()

    @work(
        thread=True, exclusive=True, exit_on_error=False, group="rotation", description="the round"
    )
    def _read(self) -> None:
        """Work it out in a thread; it looks at all the stock."""
        from stockroom.services.horizon import rotation

        worker = get_current_worker()
        answer: RotationPage | StockroomError
        try:
            answer = rotation(self.room, months=ROUND_MONTHS)
        except StockroomError as error:
            answer = error
        if not worker.is_cancelled:
            self.post_message(self.Found(answer))

    @on(Found)
    def _show(self, message: Found) -> None:
        """Show the places, or say what stood in the way."""
        if isinstance(message.answer, StockroomError):
            tell(self.app, message.answer)
            return
        self.page = message.answer
        self.stops = {stop.package.package_id: stop for stop in (*self.page.stops, *self.page.past)}
        until = f"Until {self.page.until}. {QUALITY_CAPTION}"
        self.query_one(".above", Static).update(plain(until))
        walk = _table(self.report, "round")
        self.table.show_sections(sections_of(self.page), empty=walk.empty if walk else "")
        self._describe()
        self.refresh_bindings()

    @property
    def report(self) -> Report | None:
        """The round on paper."""
        return None if self.page is None else rotation_report(self.page)

    @on(WindowTable.RowHighlighted)
    def _describe(self) -> None:
        """Say all about the stop under the cursor."""
        stop = self.stops.get(self.table.cursor_key or 0)
        below = self.query_one(".below", Static)
        below.display = stop is not None
        below.update(plain_lines(stop_lines(stop) if stop else ()))

    @on(WindowTable.RowChosen)
    def _open(self, message: WindowTable.RowChosen) -> None:
        """Show the package under the cursor in full."""
        from stockroom.services.shelves import package_detail
        from stockroom.tui.screens.package import PackageScreen

        code = self.stops[message.key].package.code
        detail = attempt(self.app, package_detail, self.room, code)
        if detail is not None:
            self.app.push_screen(PackageScreen("horizon", detail))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There must be a round to take along."""
        if action in ("take_along", "orders"):
            return self.page is not None
        return super().check_action(action, parameters)

    def action_take_along(self) -> None:
        """Ask whether it is copied or written."""
        if self.report is not None:
            take_along(self.app, self.room, self.report, self.room.units)

    def action_orders(self) -> None:
        """Show the whole of it as it stands on paper."""
        if self.report is not None:
            self.app.push_screen(WholeHorizonWindow(self.room, self.report))

    def action_help(self) -> None:
        """List every key that works here."""
        self.app.push_screen(HelpScreen(self))


def sections_of(page: RotationPage) -> list[Section]:
    """The places in walking order, then what is past its best-by already."""
    by_place: dict[str, list[Row]] = {}
    for stop in page.stops:
        by_place.setdefault(stop.place, []).append(_row(stop))
    found = [
        Section(place or NO_PLACE, counted(len(rows), "package"), tuple(rows))
        for place, rows in by_place.items()
    ]
    past = _table(rotation_report(page), "past")
    if past is not None:
        title, _, what_to_do = past.title.partition(": ")
        found.append(Section(title, what_to_do, tuple(_row(stop) for stop in page.past)))
    return found


def _table(report: Report | None, key: str) -> Table | None:
    """A table of the report."""
    blocks = () if report is None else report.blocks
    return next((one for one in blocks if isinstance(one, Table) and one.key == key), None)


def _row(stop: Stop) -> Row:
    """A stop on one line; one that asks for a look at the words below carries a sign."""
    package = stop.package
    tone = _tone(stop)
    days = "–" if stop.from_day is None else stop.from_day.isoformat()
    cells = (
        stop.food.name,
        package.code,
        days if tone == "good" else f"{days} {CAUTION_SIGN}",
        package.best_by.isoformat(),
        show_servings(package.servings),
    )
    return Row(package.package_id, cells, tone)


def _tone(stop: Stop) -> Tone:
    """What a stop asks of the person who walks."""
    if stop.fate is Fate.PAST:
        return "bad"
    lost = stop.fate in (Fate.UNUSED, Fate.PARTLY)
    return "due" if lost or stop.raw or not stop.known else "good"


def stop_lines(stop: Stop) -> Sequence[str]:
    """A stop in full."""
    package = stop.package
    days = "" if stop.from_day is None else f", from {stop.from_day} to {stop.to_day}"
    lines = [
        f"{package.code} {stop.food.name} in {stop.place or NO_PLACE}:"
        f" {servings_words(show_servings(package.servings))}{days}.",
    ]
    note = stop_note(stop)
    if stop.fate is Fate.PAST:
        lines.append(f"{CAUTION_SIGN} {stop.fate.value}, {package.best_by}: look at it first.")
    if note:
        lines.append(f"{note[:1].upper()}{note[1:]}.")
    return lines
