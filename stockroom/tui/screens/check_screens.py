"""The window of a check: choosing what was found."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.conditions import Condition, Event, events_for
from stockroom.domain.looking import look_for
from stockroom.domain.records import Package
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain, plain_lines
from stockroom.tui.screens.findings import FINDING_KEYS, finding_bindings
from stockroom.tui.widgets.window_lines import CURSOR_SIGN
from stockroom.tui.words import names_of, place_words


class CheckScreen(BaseModal[Event | None]):
    """Asks what a check found, and says how to check; closes with the finding.

    A letter chooses and Enter records, so that a key pressed once too often records nothing.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        *finding_bindings(show=False),
        Binding("enter", "record", "Record", id="check-record", tooltip="Record what is chosen."),
    ]
    DEFAULT_CSS = """
    CheckScreen {
        .where { color: $foreground-muted; margin-bottom: 1; }
        .finding.-chosen { background: $block-cursor-background; text-style: bold; }
        .doubt { color: $warning; margin-bottom: 1; }
        .how { margin-top: 1; }
    }
    """

    def __init__(self, package: Package, finding: Event | None = None) -> None:
        """`finding` is chosen at first."""
        super().__init__(f"Check {names_of([package])}")
        self.package = package
        self.finding = finding if finding in self._possible else None

    @property
    def _possible(self) -> tuple[Event, ...]:
        """What the package's condition allows to be found."""
        return events_for(Condition(self.package.condition))

    def compose_inside(self) -> ComposeResult:
        """Where it is, what is doubtful, the findings, and how to look."""
        package = self.package
        yield Static(plain(f"{package.condition} · {place_words(package)}"), classes="where")
        if package.condition == Condition.SUSPECT:
            yield Static(
                "Suspect: it, its seal or a sister was found at fault. Crisp clears the doubt, so"
                " look at this very package; what was soft on an earlier day it does not clear.",
                classes="doubt",
            )
        for _key, finding, _name, _looks in FINDING_KEYS:
            yield Static(classes="finding", id=f"finding-{finding}")
        signs = look_for(package.package_kind, package.container_key)
        yield Static(plain_lines(("Look for:", *signs)), classes="how")

    def on_mount(self) -> None:
        """Show what is chosen, and let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()
        self._show_chosen()

    def _show_chosen(self) -> None:
        """Mark the finding that Enter would record, by a sign and by colour."""
        for key, finding, name, looks in FINDING_KEYS:
            chosen = finding is self.finding
            line = self.query_one(f"#finding-{finding}", Static)
            line.update(plain(f"{CURSOR_SIGN if chosen else ' '} {key}  {name:<8} {looks}"))
            line.set_class(chosen, "-chosen")
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Only what the package's condition allows can be found; Enter needs a choice."""
        if action == "found":
            return Event(str(parameters[0])) in self._possible
        if action == "record":
            return self.finding is not None
        return super().check_action(action, parameters)

    def action_found(self, finding: str) -> None:
        """Choose what was found."""
        self.finding = Event(finding)
        self._show_chosen()

    def action_record(self) -> None:
        """Close with what was chosen."""
        self.dismiss(self.finding)
