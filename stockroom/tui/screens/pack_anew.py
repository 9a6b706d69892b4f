"""Packing the food of a package anew: dried again, or as it is when its barrier was lost."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stockroom.domain.cautions import Caution
from stockroom.domain.packing import LARGEST_ABSORBER_CC, MOST_PACKAGES_AT_ONCE, SplitRequest
from stockroom.domain.quantities import read_whole, show_weight
from stockroom.domain.records import Package
from stockroom.errors import BadInput, StockroomError
from stockroom.services.dryness import GateClosed
from stockroom.services.household import list_containers
from stockroom.services.packing import packing_cautions
from stockroom.services.repacking import heap_of, repack_packages
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.again_forms import NO, YES, either
from stockroom.tui.screens.labels import labels_screen
from stockroom.tui.screens.pack import container_search
from stockroom.tui.screens.package_forms import DoneForm, place_search
from stockroom.tui.screens.windows import CareScreen, open_window
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers
from stockroom.tui.widgets.picker import Choice, Picker
from stockroom.tui.words import closure_words, counted, names_of

if TYPE_CHECKING:
    from stockroom.tui.screens.package_actions import PackageActions


def open_pack_anew(screen: PackageActions, package: Package) -> None:
    """Ask what the food of a package goes into; then show what to write on the labels."""
    room = screen.room

    def labels(done: Done | None) -> None:
        screen.told(done, "package", "lot")
        if done is not None:
            open_window(screen, None, labels_screen, room, package.lot_code, done)

    open_window(screen, labels, PackAnewForm, room, package)


class PackAnewForm(DoneForm):
    """Asks how the food of a package is closed again, and shows the cautions before it is.

    What was dried on one tray is one heap: all of it goes into the new packages.
    """

    def __init__(self, room: Stockroom, package: Package) -> None:
        """Raises what packing it anew would be refused with."""
        self.room = room
        self.package = package
        self.heap = heap_of(room, [package.code])
        self.closed = None if self.heap.gate is None or self.heap.gate.open else self.heap.gate
        """The gate, where dryness is not shown."""
        heading = f"Pack {names_of([package])} anew"
        super().__init__(heading, self._fields(), self._repack, about=self._about())

    def _fields(self) -> list[Field]:
        """One container for all of it, as it was packed before."""
        package, containers = self.package, list_containers(self.room)
        now = next((one for one in containers if one.key == package.container_key), containers[0])
        absorber = str(package.absorber_cc) if package.absorber_cc else ""
        many = str(len(self.heap.packages))
        fields: list[Field] = [
            Picker("container", "Into", container_search(containers), Choice(now.key, now.name)),
            Field("count", "How many", many, restrict=DIGITS),
            Field("absorber", "Absorber", absorber, restrict=DIGITS, unit="cc", hint="A new one."),
            Field("packet", "Packet", hint="The packet the absorber comes out of."),
            either("vacuum", "Vacuum", _vacuum_ways(package), "yes or no."),
            Field("box", "Box", hint="The box the container comes out of."),
            Picker("place", "Place", place_search(self.room), self._where(), hint="Or none yet."),
        ]
        if self.closed is not None:
            hint = "Only to pack it without oxygen all the same: why. The label carries it."
            fields.append(Field("despite", "Despite", hint=hint))
        return fields

    def _where(self) -> Choice | None:
        """Where it stands; what was held comes out of the freezer."""
        package = self.package
        if self.heap.dried is not None or package.place_id is None:
            return None
        return Choice(package.place_id, package.place)

    def _about(self) -> list[str]:
        """What is packed anew, and what that means for how long it keeps."""
        heap, units = self.heap, self.room.units
        left = f"{show_weight(heap.total.dry_dg, units)} dry"
        if heap.dried is None:
            return [
                f"{closure_words(self.package)} · {left}",
                "Only food that still snaps. Room air was in: it keeps as an opened one does.",
            ]
        codes = ", ".join(one.code for one in heap.packages)
        tray = f"tray {heap.dried.tray_position} of run {heap.dried.run_id}"
        lines = [
            f"{left}, off {tray}, as one heap: {codes}",
            "The quality spent so far stays spent; its moisture counts as new.",
        ]
        return lines if self.closed is None else [*lines, self.closed.words]

    def action_submit(self) -> None:
        """Show what would be packed with its cautions; a yes packs it."""
        if self.stop_at_unfit():
            return
        try:
            split, place = _split(self.answers), _place(self.answers)
            cautions = self._cautions(split)
        except GateClosed as error:
            self.fields[-1].show_error(f"{error.message} Say why, or take none of the oxygen out.")
            self.fields[-1].begin()
            return
        except StockroomError as error:
            self._refuse(error)
            return
        choice = self.answers.choice("container")
        absorber = f", absorber {split.absorber_cc} cc" if split.absorber_cc else ""
        vacuum = ", vacuum" if split.vacuum else ""
        name = choice.label if choice else split.container
        lines = [
            f"{counted(split.count, 'package')}: {name}{absorber}{vacuum}",
            f"Place: {place or 'none yet'}.",
        ]
        self.app.push_screen(CareScreen("Pack it anew so?", lines, cautions), self._confirmed)

    def _confirmed(self, sure: bool | None) -> None:
        if sure:
            super().action_submit()

    def _cautions(self, split: SplitRequest) -> Sequence[Caution]:
        """What to bear in mind; at a closed gate what that risks stands first. Or GateClosed."""
        found = packing_cautions(self.room, self.package.lot_code, [split])
        if self.closed is None or not split.low_oxygen:
            return found
        if not self.answers.text("despite").strip():
            raise GateClosed(self.closed.missing)
        keys = {one.key for one in self.closed.cautions}
        return (*self.closed.cautions, *(one for one in found if one.key not in keys))

    def _repack(self, answers: Answers) -> Done:
        return repack_packages(
            self.room,
            [one.code for one in self.heap.packages],
            [_split(answers)],
            place=_place(answers),
            despite=answers.texts.get("despite", ""),
        )


def _vacuum_ways(package: Package) -> tuple[Choice, Choice]:
    ways = (Choice(YES, YES), Choice(NO, NO))
    return ways if package.vacuum else (ways[1], ways[0])


def _split(answers: Answers) -> SplitRequest:
    """What the form asks for. Raises BadInput."""
    container = answers.choice("container")
    if container is None:
        raise BadInput("into", answers.text("container"), "a container; take one of the list")
    typed = answers.text("absorber").strip()
    return SplitRequest(
        read_whole(answers.text("count"), "how many", 1, MOST_PACKAGES_AT_ONCE),
        str(container.key),
        None,
        read_whole(typed, "absorber", 0, LARGEST_ABSORBER_CC) if typed else 0,
        answers.key("vacuum") == YES,
        absorber_packet=answers.text("packet").strip(),
        container_box=answers.text("box").strip(),
    )


def _place(answers: Answers) -> str | None:
    chosen = answers.choice("place")
    return chosen.label if chosen else answers.text("place").strip() or None
