"""One line of the packing form: so many of one container, how full, and how closed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Label

from stockroom.domain.packing import LARGEST_ABSORBER_CC, MOST_PACKAGES_AT_ONCE, SplitRequest
from stockroom.domain.quantities import UnitSystem, read_weight, read_whole
from stockroom.domain.records import Container
from stockroom.errors import BadInput, StockroomError
from stockroom.services.bench import MOST_TRAYS
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.picker import Choice, Picker, Search

T = TypeVar("T")

REST = "rest"
HEADINGS = (
    ("count", "Count"),
    ("container", "Container"),
    ("each", "Dry each"),
    ("absorber", "Absorber cc"),
    ("vacuum", "Vacuum"),
)


class CellTrouble(Exception):
    """What stands in one cell cannot be used: which cell, and why."""

    def __init__(self, field: Field, error: StockroomError) -> None:
        super().__init__(error.message)
        self.field = field
        self.error = error


class PackRow(Horizontal):
    """Cells side by side, the same widths in every row."""

    DEFAULT_CSS = """
    PackRow {
        height: 1;
        .cell { width: 9; height: 1; padding: 0 1 0 0; }
        .-count { width: 6; }
        .-absorber { width: 12; }
        .-container { width: 1fr; }
        .-vacuum { width: 7; padding: 0; }
    }
    """


class LineHeadings(PackRow):
    """The names of the cells, above the lines."""

    DEFAULT_CSS = """
    LineHeadings { color: $foreground-muted; }
    """

    def compose(self) -> ComposeResult:
        """A name above each cell."""
        for name, heading in HEADINGS:
            yield Label(heading, classes=f"cell -{name}")


class MoreRow(Horizontal):
    """Where the parts came from, beneath the cells; shown when it is wanted."""

    DEFAULT_CSS = """
    MoreRow {
        height: 1;
        .name { width: auto; padding: 0 1 0 0; color: $foreground-muted; }
        .first { padding: 0 1 0 2; }
        .cell { width: 1fr; height: 1; padding: 0 1 0 0; }
        .-tray { width: 6; padding: 0; }
    }
    """


class PackLine(Vertical):
    """The cells of one line. A line without a count is not in use."""

    DEFAULT_CSS = """
    PackLine {
        height: auto;
        .label, .note { display: none; }
        Matches { margin-left: 0; width: 44; }
        .-error LineInput { color: $error; text-style: bold; }
        MoreRow { display: none; }
        &.-more MoreRow { display: block; }
    }
    """

    def __init__(
        self,
        number: int,
        search: Search,
        container: Choice | None,
        *,
        before: PackLine | None = None,
    ) -> None:
        """`container` is picked at first; packet and box are those of the line `before`."""
        super().__init__()
        self.number = number
        self.count = Field(f"count-{number}", "count")
        self.container = Picker(f"container-{number}", "container", search, container)
        self.each = Field(f"each-{number}", "dry each", placeholder=REST)
        self.absorber = Field(f"absorber-{number}", "absorber", placeholder="none")
        self.vacuum = Field(f"vacuum-{number}", "vacuum", placeholder="no")
        packet, box = (before.packet.text, before.box.text) if before else ("", "")
        self.packet = Field(f"packet-{number}", "packet", packet)
        self.box = Field(f"box-{number}", "box", box)
        self.tray = Field(f"tray-{number}", "tray")
        self.set_class(before is not None and before.shows_more, "-more")

    @property
    def fields(self) -> tuple[Field, ...]:
        """The cells in order."""
        return (self.count, self.container, self.each, self.absorber, self.vacuum)

    @property
    def origins(self) -> tuple[Field, ...]:
        """The cells for where the parts came from."""
        return (self.packet, self.box, self.tray)

    @property
    def shows_more(self) -> bool:
        """Whether the cells for where the parts came from are shown."""
        return self.has_class("-more")

    @property
    def types_origin(self) -> bool:
        """Whether the typing cursor is in one of those."""
        return any(field.has_focus_within for field in self.origins)

    @property
    def shown(self) -> tuple[Field, ...]:
        """Every cell that is shown, in order."""
        return (*self.fields, *self.origins) if self.shows_more else self.fields

    def compose(self) -> ComposeResult:
        """The cells side by side, the origins beneath."""
        with PackRow():
            for field, (name, _) in zip(self.fields, HEADINGS, strict=True):
                field.add_class("cell", f"-{name}")
                yield field
        with MoreRow():
            for field, name in zip(self.origins, ("Packet", "Box", "Tray"), strict=True):
                yield Label(name, classes="name first" if name == "Packet" else "name")
                field.add_class("cell", f"-{name.casefold()}")
                yield field

    def on_descendant_blur(self) -> None:
        """Show a container's name from its beginning once the typing cursor is elsewhere."""
        if not self.container.input.has_focus:
            self.container.input.cursor_position = 0

    @property
    def in_use(self) -> bool:
        """Whether a count was typed."""
        return bool(self.count.text.strip())

    @property
    def low_oxygen(self) -> bool:
        """Whether it asks for an absorber or vacuum, as far as that can be read yet."""
        absorber, vacuum = (one.text.strip().casefold() for one in (self.absorber, self.vacuum))
        return self.in_use and (absorber not in ("", "0") or vacuum not in ("", "n", "no"))

    def fill(self, split: SplitRequest, container: Choice) -> None:
        """Put in what a split asks for, with the weight left to an even share."""
        self.container.choice = container
        for field, text in (
            (self.count, str(split.count)),
            (self.container, container.label),
            (self.each, ""),
            (self.absorber, str(split.absorber_cc) if split.absorber_cc else ""),
            (self.vacuum, "y" if split.vacuum else ""),
        ):
            field.input.value = text
            field.show_error("")

    def split(self, units: UnitSystem, containers: Mapping[str, Container]) -> SplitRequest:
        """What the line asks for. Raises CellTrouble."""
        return SplitRequest(
            _read(self.count, _count),
            _read(self.container, lambda typed: _container(self.container, typed, containers)),
            _read(self.each, lambda typed: _each(typed, units)),
            _read(self.absorber, _absorber),
            _read(self.vacuum, _yes),
            absorber_packet=self.packet.text.strip(),
            container_box=self.box.text.strip(),
            tray_position=_read(self.tray, _tray),
        )


def _read(field: Field, read: Callable[[str], T]) -> T:
    """What a cell says. Raises CellTrouble with the cell."""
    try:
        return read(field.text.strip())
    except StockroomError as error:
        raise CellTrouble(field, error) from error


def _count(typed: str) -> int:
    """How many packages."""
    return read_whole(typed, "count", 1, MOST_PACKAGES_AT_ONCE)


def _container(field: Picker, typed: str, containers: Mapping[str, Container]) -> str:
    """The key of the container, picked or typed in full."""
    if field.choice is not None:
        return str(field.choice.key)
    if typed.casefold() in containers:
        return typed.casefold()
    raise BadInput("container", typed, "a few letters of a container and take one of the list")


def _each(typed: str, units: UnitSystem) -> int | None:
    """The dry weight of each package, or None for an even share of the rest."""
    return None if typed.casefold() in ("", REST) else read_weight(typed, units, "dry each")


def _absorber(typed: str) -> int:
    """The absorber in cc, 0 for none."""
    return read_whole(typed, "absorber", 0, LARGEST_ABSORBER_CC) if typed else 0


def _tray(typed: str) -> int | None:
    """The tray the food came from, where that is said."""
    return read_whole(typed, "tray", 1, MOST_TRAYS) if typed else None


def _yes(typed: str) -> bool:
    """Yes or no."""
    if typed.casefold() in ("y", "yes", "v", "vacuum"):
        return True
    if typed.casefold() in ("", "n", "no"):
        return False
    raise BadInput("vacuum", typed, "y for yes, or n for no")
