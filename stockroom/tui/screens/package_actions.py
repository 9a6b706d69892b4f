"""What can be done with packages, the same on every screen that shows some.

Windows, forms and the services behind them are imported when they are first wanted: the first
paint of the Round does without, and is quicker by a fifth of what the program itself adds to it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.binding import Binding

from stockroom.domain.conditions import Condition, Event, transition
from stockroom.domain.records import Package, Place
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import say
from stockroom.tui.screens.working_key import open_working
from stockroom.tui.words import names_of

if TYPE_CHECKING:
    from stockroom.tui.screens.package_forms import DoneForm

UNDO_HINT = "u undoes"


def package_binding(key: str, action: str, name: str, tooltip: str, *, show: bool) -> Binding:
    """A key for something done with packages."""
    return Binding(key, action, name, show=show, id=f"package-{action}", tooltip=tooltip)


def trace_binding(tooltip: str, *, show: bool) -> Binding:
    """The key that traces a package, the same on every screen."""
    return package_binding("b", "trace", "Trace", tooltip, show=show)


def common_binding(*, show: bool) -> Binding:
    """The key that shows what soft packages have in common, the same on every screen."""
    tooltip = "What packages that went soft have in common."
    return package_binding("C", "common", "In common", tooltip, show=show)


class PackageActions(BaseScreen):
    """A main screen that can check, move, take, discard, note and open packages."""

    @property
    def room(self) -> Stockroom:
        """The open stockroom."""
        room: Stockroom = self.stockroom
        return room

    @property
    def home(self) -> str:
        """The main screen that pages opened from here go back to."""
        return self.MODE

    def told(self, done: Done | None, *what: str) -> None:
        """Say what was done and have every screen read again; None means nothing was done."""
        if done is not None:
            say(self.app, f"{done.words} · {UNDO_HINT}")
            self.announce(*(what or ("package",)))

    def open_package(self, code: str) -> None:
        """Show a package in full."""
        from stockroom.services import shelves
        from stockroom.tui.screens.package import PackageScreen

        detail = self.attempt(shelves.package_detail, self.room, code)
        if detail is not None:
            self.app.push_screen(PackageScreen(self.home, detail))

    def check(self, package: Package, chosen: Event | None = None) -> None:
        """Ask what a check found and record it; `chosen` needs only to be confirmed."""
        from stockroom.tui.screens.check_screens import CheckScreen

        def record(finding: Event | None) -> None:
            if finding is not None:
                self.record_finding(package, finding)

        asked = chosen or Event.CRISP
        if self.attempt(transition, Condition(package.condition), asked) is not None:
            self.app.push_screen(CheckScreen(package, chosen), record)

    def record_finding(
        self,
        package: Package,
        finding: Event,
        *,
        told: Callable[[Done], None] | None = None,
        opened: bool = False,
    ) -> bool:
        """Record what a check found; False when refused. `opened`: it was looked at by opening.

        A bad finding leads on to what becomes of the package. `told` says what was recorded in
        its own way instead, and nothing opens: in a run of checks the next key is a check again.
        """
        from stockroom.services.packages import check_package

        done = self.attempt(check_package, self.room, package.code, finding, opened=opened)
        if done is None:
            return False
        self.announce("package")
        if told is not None:
            told(done)
        elif finding is Event.CRISP:
            self._notice(done)
        else:
            self.decide(package, done.words)
        return True

    def _notice(self, done: Done) -> None:
        say(self.app, f"{done.words} · {UNDO_HINT}")

    def decide(self, package: Package, said: str = "") -> None:
        """Ask what is to be known of a package found at fault, and do what the rules allow.

        `said` is what was just recorded, to be read above the questions.
        """
        from stockroom.tui.screens.decide import open_decision

        open_decision(self, package, said)

    def hold(self, package: Package) -> None:
        """Hold a doubtful package until the machine is free."""
        from stockroom.tui.screens.again_forms import open_hold

        open_hold(self, package)

    def load_again(self, codes: Sequence[str]) -> None:
        """Put food that waits for the machine on a tray of an open run."""
        from stockroom.tui.screens.again_forms import open_load

        open_load(self, codes)

    def pack_anew(self, package: Package) -> None:
        """Put the food of a package into new ones."""
        from stockroom.tui.screens.repack import begin_repacking

        begin_repacking(self, [package.code])

    def show_look(self, package: Package) -> None:
        """Show why a package is looked at again when it is."""
        from stockroom.services.rechecks import recheck_working
        from stockroom.tui.screens.working import WorkingScreen

        working = self.attempt(recheck_working, self.room, package.code)
        if working is not None:
            self.app.push_screen(WorkingScreen(f"Next look: {names_of([package])}", (working,)))

    def walk(self, place: Place | None = None) -> None:
        """Go along a place, or along today's list, one package at a time."""
        from stockroom.tui.screens.walk_begin import open_walk

        open_walk(self, place)

    def list_words(self, words: str) -> None:
        """List on the Shelves what these words find."""
        from stockroom.tui.screens.shelves import ShelvesScreen

        self.app.switch_mode("shelves")
        screen, *above = self.app.screen_stack
        for _ in above:
            self.app.pop_screen()
        if isinstance(screen, ShelvesScreen):
            screen.search_for(words)

    def show_working(self, package: Package) -> None:
        """Show how a package's water and best-by were reached."""
        from stockroom.services.workings import package_working

        open_working(
            self, f"Working: {names_of([package])}", package_working, self.room, package.code
        )

    def show_what_if(self, package: Package) -> None:
        """Show what would become of a package elsewhere or packed otherwise."""
        from stockroom.tui.screens.whatif import what_if_screen

        window = self.attempt(what_if_screen, self.room, package)
        if window is not None:
            self.app.push_screen(window, self.told)

    def show_trace(self, code: str) -> None:
        """Show where a package or a lot comes from, and what shares its past."""
        from stockroom.services.tracing import trace
        from stockroom.tui.screens.trace import TraceScreen

        page = self.attempt(trace, self.room, code)
        if page is not None:
            self.app.push_screen(TraceScreen(self.home, page))

    def action_common(self) -> None:
        """Show what packages that went soft have in common."""
        from stockroom.tui.screens.common import CommonScreen

        self.app.push_screen(CommonScreen(self.room))

    def show_life(self, package: Package) -> None:
        """Show how much of a package's life is used, over time."""
        from stockroom.tui.screens.life_plot import life_plot_screen

        window = self.attempt(life_plot_screen, self.room, package)
        if window is not None:
            self.app.push_screen(window)

    def take(self, package: Package) -> None:
        """Ask how much to take out of a package."""
        from stockroom.tui.screens.package_forms import take_form

        self._ask(take_form, package)

    def write_note(self, package: Package) -> None:
        """Ask for a package's note."""
        from stockroom.tui.screens.package_forms import note_form

        self._ask(note_form, package)

    def move(self, packages: Sequence[Package]) -> None:
        """Ask where packages go."""
        from stockroom.tui.screens.package_forms import move_form

        if packages:
            self._ask(move_form, packages)

    def discard(self, packages: Sequence[Package]) -> None:
        """Ask why packages are thrown away."""
        from stockroom.tui.screens.package_forms import discard_form

        if packages:
            self._ask(discard_form, packages)

    def print_labels(self, packages: Sequence[Package]) -> None:
        """Ask how labels of packages are to be printed."""
        from stockroom.tui.screens.label_form import Wanted, open_labels

        if packages:
            words = f"For {names_of(packages)}."
            open_labels(self, self.room, Wanted(words, tuple(one.code for one in packages)))

    def _ask(self, form: Callable[..., DoneForm], about: Package | Sequence[Package]) -> None:
        """Open a form and tell what came of it."""
        opened = self.attempt(form, self.room, about)
        if opened is not None:
            self.app.push_screen(opened, self.told)

    def read(self, package_ids: Sequence[int]) -> tuple[Package, ...]:
        """Packages by id as they are now; none when the store cannot be read."""
        from stockroom.services import shelves

        return self.attempt(shelves.packages_for, self.room, package_ids) or ()
