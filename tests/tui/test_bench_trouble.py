"""A store that cannot be read is told in a window on the Bench and in the Kitchen; no crash."""

from __future__ import annotations

from typing import Any, NoReturn

import pytest

from stockroom.errors import StoreDamaged
from stockroom.services import bench
from stockroom.store.connection import Store
from stockroom.tui.modal import TroubleScreen
from tests.tui.driving import driving
from tests.world import PEAS, World

PATHS_TO_TROUBLE: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "bench": ((), ("3",)),
    "open a run": (("3",), ("enter",)),
    "add a tray": (("3", "enter"), ("a",)),
    "cautions of a picked food": (("3", "enter", "a", "p", "e", "a", "s"), ("enter",)),
    "weigh": (("3", "enter", "5"), ("enter",)),
    "take a tray out": (("3", "enter"), ("d",)),
    "test a tray": (("3", "enter"), ("i",)),
    "readings of a tray": (("3", "enter"), ("r",)),
    "a few more hours": (("3", "enter", "h", "2", "tab"), ("enter",)),
    "open a lot": (("3", "tab"), ("enter",)),
    "the trays of a lot": (("3", "tab", "enter"), ("r",)),
    "test a tray of a lot": (("3", "tab", "enter", "r"), ("b",)),
    "queue a lot": (("3", "tab", "enter"), ("g",)),
    "record a loss": (("3", "tab", "enter"), ("l",)),
    "pack": (("3",), ("p",)),
    "dryness of a lot to pack": (("3", "p"), ("f7",)),
    "foods": (("3",), ("f",)),
    "add a food": (("3", "f"), ("n",)),
    "edit a food": (("3", "f"), ("e",)),
    "kitchen": ((), ("4",)),
    "people": (("4",), ("enter",)),
    "cook sheet": (("4", "enter"), ("enter",)),
    "one more": (("4", "enter", "enter"), ("plus",)),
    "take": (("4", "enter", "enter", "t"), ("enter",)),
    "new recipe": (("4",), ("n",)),
    "edit recipe": (("4",), ("e",)),
    "edit a line": (("4", "e"), ("enter",)),
    "add a line": (("4", "e"), ("a",)),
    "meals": (("4",), ("m",)),
    "remove a recipe": (("4", "d"), ("enter",)),
}


def open_run(world: World) -> None:
    """An open run with one tray."""
    run_id = bench.start_run(world.room).made_id
    bench.load_tray(world.room, 1, PEAS, gross_dg=10_000, run_id=run_id)


@pytest.mark.parametrize(("before", "keys"), PATHS_TO_TROUBLE.values(), ids=PATHS_TO_TROUBLE)
async def test_store_trouble_is_a_window(
    world: World, monkeypatch: pytest.MonkeyPatch, before: tuple[str, ...], keys: tuple[str, ...]
) -> None:
    world.pack(world.dry_lot(), "1xjar-950:100")
    world.recipe()
    open_run(world)

    def damaged(*_: Any, **__: Any) -> NoReturn:
        raise StoreDamaged("stockroom.db", "it is torn")

    async with driving(world) as driver:
        await driver.press(*before)
        with monkeypatch.context() as patched:
            for name in ("query", "one", "value", "run"):
                patched.setattr(Store, name, damaged)
            await driver.press(*keys)
            seen = isinstance(driver.screen, TroubleScreen) or "it is torn" in driver.words
        assert seen
        await driver.press("escape")
        assert driver.app.is_running
