"""Packing food anew that was in packages before: dried again, or as it is.

From any main screen `begin_repacking(screen, codes)` opens the form, and afterwards the labels.
"""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.packing import LotBalance
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.water import show_water
from stockroom.services.evidence import packages_evidence, tray_evidence
from stockroom.services.repacking import Heap, heap_of, repack_packages
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.base import BaseScreen
from stockroom.tui.plaintext import say
from stockroom.tui.screens.labels import labels_screen
from stockroom.tui.screens.pack_form import LinesForm
from stockroom.tui.screens.pack_sums import PackingSum
from stockroom.tui.screens.windows import open_window
from stockroom.tui.widgets.forms import Answers
from stockroom.tui.widgets.picker import Choice

STAYS_SPENT = "The quality spent so far stays spent; its moisture counts as new."
ONLY_CRISP = "Only food that still snaps goes as it is. It keeps only as long as an opened one."


class RepackScreen(LinesForm):
    """The packing form for food of packages; it closes with what was done.

    `codes` are one or more packages of one lot. Of held ones every package that was dried on the
    same tray goes along: their food is one heap, weighed as it came off the tray. Packages that
    are not held go as they are. The gate is that of their last drying.
    """

    def __init__(self, room: Stockroom, codes: Sequence[str]) -> None:
        """Raises what `heap_of` raises of packages that cannot be packed anew."""
        self.heap = heap = heap_of(room, codes)
        total = heap.total
        named = (
            heap.packages[0].code if len(heap.packages) == 1 else f"{len(heap.packages)} packages"
        )
        super().__init__(
            room,
            f"Pack {named} anew",
            LotBalance(heap.lot.code, total.dry_dg + total.water_dg, total.dry_dg, 0, 0),
            serving_dg=heap.lot.serving_dg,
            about=heap_lines(heap, room.units),
            gate=heap.gate,
            first=heap.packages[0].container_key,
            stands=_stands(heap),
        )

    def evidence(self) -> Evidence:
        """What shows that the heap is dry: the tray it was dried on, or its last drying."""
        dried = self.heap.dried
        if dried is None or dried.tray_id is None:
            return packages_evidence(self.room, self.heap.packages)
        return tray_evidence(self.room, dried.tray_id)

    def question(self, sums: PackingSum) -> list[str]:
        """What would be packed; what goes into no package leaves the record."""
        lines = super().question(sums)
        if sums.left_dg:
            left = show_weight(sums.left_dg, self.room.units)
            lines.append(f"{left} goes into no package: it counts as gone.")
        return lines

    def pack(self, answers: Answers) -> Done:
        """Write it all down."""
        return repack_packages(
            self.room,
            [package.code for package in self.heap.packages],
            self.splits,
            place=self.where(),
            despite=self.reason,
        )


def _stands(heap: Heap) -> Choice | None:
    """Where the food stands; what was dried again comes off the machine and stands nowhere."""
    first = heap.packages[0]
    if heap.dried is not None or first.place_id is None:
        return None
    return Choice(first.place_id, first.place)


def heap_lines(heap: Heap, units: UnitSystem) -> list[str]:
    """What comes from where, what it weighs now, the water it takes up, how long it keeps."""
    codes = ", ".join(package.code for package in heap.packages)
    dry, water = show_weight(heap.total.dry_dg, units), show_water(heap.total.water_dg)
    if heap.dried is None:
        since = "" if heap.exposed_on is None else f" Room air was in since {heap.exposed_on}."
        return [
            f"{codes}, {heap.lot.food}, as it is: {dry} dry.",
            f"Water {water}.{since}",
            ONLY_CRISP,
        ]
    was = show_weight(sum(package.left_dg for package in heap.packages), units)
    tray = f"tray {heap.dried.tray_position} of run {heap.dried.run_id}"
    return [
        f"{codes}, {heap.lot.food}: {dry} dry off {tray}; {was} went in.",
        f"Water {water}. {STAYS_SPENT}",
    ]


def begin_repacking(screen: BaseScreen, codes: Sequence[str]) -> None:
    """Open the form for packages; afterwards show what to write on the labels."""
    room: Stockroom = screen.stockroom

    form = screen.attempt(RepackScreen, room, codes)
    if form is None:
        return
    lot_code = form.heap.lot.code

    def packed(done: Done | None) -> None:
        if done is not None:
            screen.announce("package", "lot")
            say(screen.app, done.words)
            open_window(screen, None, labels_screen, room, lot_code, done)

    screen.app.push_screen(form, packed)
