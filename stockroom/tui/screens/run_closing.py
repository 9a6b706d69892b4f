"""What comes off the machine when a run is closed, and the way on from there."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.codes import read_code
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Tray
from stockroom.services.results import RunDetail
from stockroom.tui.base import BaseScreen
from stockroom.tui.screens.pack import begin_packing
from stockroom.tui.screens.repack import begin_repacking
from stockroom.tui.screens.run_sums import again_text, missing_weights
from stockroom.tui.screens.windows import ChoiceScreen, ReadScreen
from stockroom.tui.widgets.picker import Choice

LATER = "later"


def cannot_close(detail: RunDetail) -> ReadScreen | None:
    """The window that names what a run still lacks; None where it can be closed."""
    missing = missing_weights(detail.trays)
    if detail.trays and not missing:
        return None
    lines = [f"· {one}" for one in missing] or ["It has no trays: add one, or abandon it."]
    head = ["These weights are still missing:"] if missing else []
    return ReadScreen(f"Run {detail.run.run_id} cannot be closed yet", [*head, *lines])


def is_lot(tray: Tray) -> bool:
    """Whether what is dried again on a tray is the unpacked food of a lot."""
    return len(tray.again) == 1 and read_code(tray.again[0]).kind == "lot"


def pack_off_tray(screen: BaseScreen, tray: Tray) -> None:
    """Pack what came off a tray: its lot, or the packages whose food was dried again on it."""
    if tray.again and not is_lot(tray):
        begin_repacking(screen, tray.again)
    elif tray.again:
        begin_packing(screen, tray.again[0])
    elif tray.lot_code:
        begin_packing(screen, tray.lot_code)


def ask_what_is_next(screen: BaseScreen, trays: Sequence[Tray], units: UnitSystem) -> None:
    """Say what was dried again in a run just closed, and ask what is packed now."""
    by_key = {str(tray.tray_id): tray for tray in trays}

    def go_on(answer: str | None) -> None:
        if answer in by_key:
            pack_off_tray(screen, by_key[answer])

    screen.app.push_screen(
        ChoiceScreen(
            "Dried again: what is next?",
            [again_text(tray, units) for tray in trays],
            [
                *(Choice(key, _way(tray)) for key, tray in by_key.items()),
                Choice(LATER, "later", "it stays in the list of what waits, and on the Round"),
            ],
        ),
        go_on,
    )


def _way(tray: Tray) -> str:
    """What to do with the food of a tray."""
    codes = ", ".join(tray.again)
    return f"pack lot {codes}" if is_lot(tray) else f"pack {codes} anew"
