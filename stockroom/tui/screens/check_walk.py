"""The check walk: along a shelf with one package in hand after the other, a key for each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.widgets import Static

from stockroom.domain.conditions import Event
from stockroom.domain.records import Package
from stockroom.errors import Refused, StockroomError
from stockroom.services import history
from stockroom.services.finding import find_package
from stockroom.services.packages import check_package
from stockroom.services.results import Done
from stockroom.services.shelves import packages_for
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.findings import FINDING_KEYS, finding_bindings
from stockroom.tui.screens.package_actions import PackageActions
from stockroom.tui.screens.walk_list import (
    LOOKED_AT,
    Step,
    Walk,
    reasons,
    too_early,
)
from stockroom.tui.screens.walk_words import card_lines, progress_line, spaced, step_words
from stockroom.tui.widgets.code_line import CodeLine
from stockroom.tui.widgets.title_bar import TitleBar
from stockroom.tui.words import GONE, place_words

if TYPE_CHECKING:
    from stockroom.tui.screens.walk_end import AfterWalk


class DoneSince(Refused):
    """Something else was written down since the look that is to be taken back."""

    def __init__(self) -> None:
        super().__init__(
            "Something else was recorded since.", "Leave the walk; the journal can take it back."
        )


class CheckWalkScreen(PackageActions):
    """One package at a time, large; a finding is one key, a scanned code goes to its package."""

    BINDING_GROUP_TITLE = "On the walk"
    BINDINGS: ClassVar[list[BindingType]] = [
        *finding_bindings(show=True),
        Binding("space", "pass_by", "Pass by", id="walk-pass", tooltip="Leave it for later."),
        Binding("u", "undo_step", "Undo", id="walk-undo", tooltip="Take the last look back."),
        Binding(
            "U", "redo_step", "Redo", show=False, id="walk-redo", tooltip="Record it once more."
        ),
        Binding("up", "along(-1)", "Before", show=False, id="walk-up", tooltip="The one before."),
        Binding("down", "along(1)", "Next", show=False, id="walk-down", tooltip="The next one."),
        Binding("escape", "end", "End", id="walk-end", tooltip="End the walk and sum it up."),
        Binding(
            "0,1,2,3,4,5,6,7,8,9",
            "begin_code",
            "Code",
            show=False,
            id="walk-code",
            tooltip="A digit begins a code, typed or scanned; Enter goes to its package.",
        ),
    ]
    DEFAULT_CSS = """
    CheckWalkScreen {
        #progress { height: 1; padding: 0 1; background: $surface; }
        #card { padding: 1 2 0 2; scrollbar-size-vertical: 1; }
        #code { color: $accent; text-style: bold; }
        #food { text-style: bold; height: auto; }
        #where { color: $primary; text-style: bold; height: auto; }
        #why { color: $warning; height: auto; }
        #inside, #look { height: auto; }
        #look { margin-top: 1; }
        #next { height: 1; padding: 0 1; color: $foreground-muted; background: $surface; }
        #next { text-wrap: nowrap; text-overflow: ellipsis; }
        #said { height: auto; max-height: 2; padding: 0 1; color: $success; background: $surface; }
        #said.-bad { color: $error; text-style: bold; }
        #said.-doubt { color: $warning; }
        &.narrow #card { padding: 0 2; }
    }
    """

    def __init__(self, mode: str, walk: Walk) -> None:
        """`mode` is the main screen it was opened from, and goes back to."""
        super().__init__()
        self.from_mode = mode
        self.list = walk
        self.code = CodeLine(self.find, self._keys())
        self.after: AfterWalk | None = None
        """What is wanted once the walk is left."""
        self._touched: set[str] = set()
        """Codes of what the looks since the last reading have changed."""
        self._refused: Package | None = None
        """What stands elsewhere by the book: scanned once more, it is taken in."""

    def _keys(self) -> dict[str, Callable[[], object]]:
        """What is done at once when its key comes, before the next key of a burst."""
        keys: dict[str, Callable[[], object]] = {
            key: partial(self.action_found, finding.value) for key, finding, _, _ in FINDING_KEYS
        }
        return keys | {
            "space": self.action_pass_by,
            "u": self.action_undo_step,
            "U": self.action_redo_step,
            "up": partial(self.action_along, -1),
            "down": partial(self.action_along, 1),
        }

    @property
    def home(self) -> str:
        """The main screen it was opened from."""
        return self.from_mode

    def compose_body(self) -> ComposeResult:
        """How far it has come, the package in hand, what was done, and the line for codes."""
        yield Static(id="progress")
        with VerticalScroll(id="card", can_focus=False):
            for part in ("code", "food", "where", "why", "inside", "look"):
                yield Static(id=part)
        yield Static(id="next")
        yield Static(id="said")
        yield self.code

    def on_mount(self) -> None:
        """Show the first package."""
        self.query_one(TitleBar).here = self.from_mode
        self.code.focus()
        self._show()

    def reload(self, what: frozenset[str] = frozenset()) -> None:
        """Read the packages of the walk again: all, or those a look of its own has touched."""
        touched, self._touched = self._touched, set()
        ids = [
            one.package_id
            for one in self.list.packages
            if not what or not touched or one.code in touched
        ]
        packages = self.attempt(packages_for, self.room, ids)
        why = self.attempt(reasons, self.room, packages or ())
        if packages is not None and why is not None:
            self.list.renew(packages, why)
            self._show()

    # What stands there

    def _show(self) -> None:
        """Show the package in hand, and how far the walk has come."""
        walk, package = self.list, self.list.current
        wide = self.app.size.width - 2
        self.query_one("#progress", Static).update(progress_line(walk, wide))
        if package is None:
            return
        self.query_one("#code", Static).update(plain(spaced(package.code)))
        card = card_lines(walk, package, self.room.units, self.room.today)
        for part, lines in card.items():
            shown = self.query_one(f"#{part}", Static)
            shown.display = bool(lines)
            shown.update(plain_lines(lines))
        self.query_one("#card").scroll_home(animate=False)
        after = walk.following
        said = f"Next: {after.code}  {after.food} · {place_words(after)}" if after else "The last."
        self.query_one("#next", Static).update(plain(said))
        self.refresh_bindings()

    def _say(self, words: str, look: str = "") -> None:
        """Say something in the line above the code, where the eye is."""
        line = self.query_one("#said", Static)
        line.set_classes(look)
        line.update(plain(words))

    def _refuse(self, words: str) -> None:
        """Say why not, and ring: at the shelf nobody looks at the screen all the time."""
        self._say(f"✗ {words}", "-bad")
        self.app.bell()

    # Looks

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Letters belong to a code once one is begun; an undo needs a look."""
        may = {
            "found": self.list.current is not None,
            "pass_by": self.list.current is not None,
            "undo_step": bool(self.list.steps),
            "redo_step": bool(self.list.undone),
        }
        if action in may:
            # None keeps the key: what is not for now must not reach the program's own undo.
            return True if may[action] and not self.code.typed else None
        if action == "common":
            return False
        return super().check_action(action, parameters)

    def action_found(self, finding: str) -> None:
        """Record what the look found and take the next package in hand."""
        package, event = self.list.current, Event(finding)
        if package is None:
            return
        try:
            done = check_package(self.room, package.code, event)
            entry_id = history.journal_page(self.room, count=1)[0].entry_id
        except StockroomError as error:
            self._refuse(f"{error.message} {error.hint}")
            return
        step = Step(package, event, tuple(done.codes[1:]), entry_id)
        self._touched.update(done.codes)
        self.list.steps.append(step)
        self.list.undone.clear()
        self._say(step_words(step), "" if event is Event.CRISP else "-doubt")
        self.list.go_on()
        self.announce("package")
        self._show()
        if self.list.over:
            self.action_end()

    def action_pass_by(self) -> None:
        """Leave it for later and take the next in hand."""
        self.list.go_on()
        self._say("")
        self._show()

    def action_along(self, lines: int) -> None:
        """Go along the shelf without recording anything."""
        self.list.go(lines)
        self._say("")
        self._show()

    def action_undo_step(self) -> None:
        """Take the last look back and the package in hand again."""
        if not self.list.steps:
            self._refuse("Nothing of this walk is left to take back.")
            return
        step = self.list.steps[-1]
        try:
            if self._last_in_effect() != step.entry_id:
                raise DoneSince
            done = history.undo(self.room)
        except StockroomError as error:
            self._refuse(f"{error.message} {error.hint}")
            return
        self.list.undone.append(self.list.steps.pop())
        self._again(step, done)

    def _last_in_effect(self) -> int | None:
        """The entry of the journal that an undo would take back."""
        page = history.journal_page(self.room)
        return next((one.entry_id for one in page if one.kind != "undo" and not one.reversed), None)

    def action_redo_step(self) -> None:
        """Record once more what was taken back last."""
        if not self.list.undone:
            self._refuse("Nothing of this walk was taken back.")
            return
        try:
            done = history.redo(self.room)
            entry_id = history.journal_page(self.room, count=1)[0].entry_id
        except StockroomError as error:
            self._refuse(f"{error.message} {error.hint}")
            return
        step = replace(self.list.undone.pop(), entry_id=entry_id)
        self.list.steps.append(step)
        self._again(step, done)

    def _again(self, step: Step, done: Done) -> None:
        """Take the package of a step in hand, and say what was done about it."""
        self.list.go_to(step.package.package_id)
        self._say(done.words)
        self.announce("package")
        self._show()

    def action_begin_code(self) -> None:
        """Give the keys to the line for codes."""
        self.code.focus()

    # Codes

    def find(self, typed: str) -> None:
        """Take the package of a code in hand, or say why not."""
        before, self._refused = self._refused, None
        try:
            package = find_package(self.room, typed)
        except StockroomError as error:
            self._refuse(f"{error.message} {error.hint}")
            return
        why_not = self._why_not(package)
        if why_not:
            self._refuse(why_not)
        elif self.list.go_to(package.package_id):
            self._show_again(package)
        elif before is not None and before.package_id == package.package_id:
            self.list.take_in(package)
            self._say(f"{package.code} is taken in, though it stands in {place_words(package)}.")
            self._show()
        else:
            self._refused = package
            self._refuse(self._elsewhere(package))

    def _why_not(self, package: Package) -> str:
        """Why no look at a package can be recorded; "" when it can."""
        if package.condition in GONE:
            return f"{package.code} {package.food} is {package.condition} since {package.gone_on}."
        if package.condition not in LOOKED_AT:
            return f"{package.code} {package.food} is {package.condition}: it waits to be dried."
        if too_early(self.room, package):
            return f"{package.code} was sealed today: its settle check is due tomorrow."
        return ""

    def _elsewhere(self, package: Package) -> str:
        """That a package is not on this walk."""
        where = place_words(package)
        return f"{package.code} {package.food} is not on this walk: {where}. Again to take it in."

    def _show_again(self, package: Package) -> None:
        """Show a package of the walk; one already looked at rings."""
        finding = self.list.found.get(package.package_id)
        if finding is None:
            self._say(f"{package.code} {package.food}")
        else:
            self._refuse(f"{package.code} was looked at already: {finding}. A key records anew.")
        self._show()

    # The end

    def action_end(self) -> None:
        """Sum the walk up; without a look there is nothing to sum up."""
        from stockroom.tui.screens.walk_end import WalkEnd

        if not self.list.steps:
            self.dismiss()
            return
        doubted = [self._now(code) for code in self.list.doubted]
        end = WalkEnd(self.list, [one for one in doubted if one is not None])
        self.app.push_screen(end, self._left)

    def _now(self, code: str) -> Package | None:
        return self.attempt(find_package, self.room, code)

    def _left(self, wanted: AfterWalk | None) -> None:
        """Leave the walk with what is wanted next, or stay on it."""
        if wanted is not None:
            self.after = wanted
            self.dismiss()
