"""Starting the screens from a command: this module itself imports next to nothing."""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stockroom.services.session import Stockroom


def run_app(room: Stockroom) -> int:
    """Show the screens until the person leaves; returns the exit code.

    A defect inside is raised again once the terminal is as it was.
    """
    # Nothing that is imported and made up to the first paint is rubbish yet: looking for some was
    # measured at a tenth of the time to it. The app turns the collector on again.
    gc.disable()
    try:
        from stockroom.tui.app import StockroomApp

        app = StockroomApp(room)
        app.run()
    finally:
        gc.enable()
    if app.defect is not None:
        raise app.defect
    return app.return_code or 0
