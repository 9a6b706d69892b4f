"""Best-by dates computed anew, in view."""

from __future__ import annotations

from threading import Event
from typing import Any

import pytest
from textual.screen import Screen

from stockroom.services import keeping
from stockroom.services.keeping import projections_are_current
from stockroom.store.connection import Store
from stockroom.store.writing import write
from stockroom.tui import app as app_module
from stockroom.tui.modal import TroubleScreen
from stockroom.tui.screens import recompute
from stockroom.tui.screens.recompute import RecomputeScreen
from stockroom.tui.screens.round import RoundScreen
from tests.tui.driving import Driver, driving
from tests.tui.stocked import stock
from tests.world import World


@pytest.fixture(autouse=True)
def at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Do not wait for the first screen to stand."""
    monkeypatch.setattr(app_module, "PAINTED_SECONDS", 0.01)


async def come(driver: Driver, wanted: type[Screen[Any]]) -> None:
    """Wait until a screen is in front."""
    for _ in range(500):
        if isinstance(driver.screen, wanted):
            break
        await driver.pilot.pause(0.01)
    assert isinstance(driver.screen, wanted)
    await driver.pilot.pause()


async def current(world: World, driver: Driver) -> None:
    """Wait until the dates are those of the model in use, and the window is closed."""
    for _ in range(500):
        if projections_are_current(world.room) and isinstance(driver.screen, RoundScreen):
            break
        await driver.pilot.pause(0.01)
    assert projections_are_current(world.room)
    await driver.settle()


def outdate(world: World) -> None:
    """Make the dates those of another model, as an older version would leave them."""
    with write(world.room.store):
        world.room.store.run("UPDATE projection_basis SET basis = 'an older model'")
        world.room.store.run("DELETE FROM projection")


async def test_dates_of_an_older_model_are_computed_at_the_start(world: World) -> None:
    stock(world)
    outdate(world)
    async with driving(world, notices=True) as driver:
        await current(world, driver)
        assert "Best-by dates of 11 packages computed anew." in driver.words
        await driver.press("2")
        assert "1 of 11" in driver.text


async def test_current_dates_are_left_alone(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    stock(world)
    monkeypatch.setattr(recompute, "refresh_everything", None)
    async with driving(world) as driver:
        await driver.settle()
        assert isinstance(driver.screen, RoundScreen)


async def test_escape_leaves_the_dates_as_they_were(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    stock(world)
    outdate(world)
    begun, go_on = Event(), Event()

    def slowly(room: object, progress: object, cancelled: object) -> int:
        begun.set()
        assert go_on.wait(10)
        return keeping.refresh_everything(room, progress, cancelled)  # type: ignore[arg-type]

    monkeypatch.setattr(recompute, "refresh_everything", slowly)
    async with driving(world, notices=True) as driver:
        await come(driver, RecomputeScreen)
        assert begun.wait(10)
        await driver.pilot.press("escape")
        go_on.set()
        await come(driver, RoundScreen)
        assert not projections_are_current(world.room)
        assert "another time." in driver.words


async def test_a_store_held_by_another_program_is_said(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    stock(world)
    outdate(world)
    monkeypatch.setattr("stockroom.store.connection.LOCK_WAIT_MS", 1)
    other = Store(world.path, durable=False)
    with write(other):
        async with driving(world) as driver:
            await come(driver, TroubleScreen)
    other.close()


async def test_another_altitude_computes_the_dates_anew(world: World) -> None:
    stock(world)
    async with driving(world) as driver:
        await driver.press("comma", "enter", "enter", "enter", "enter")
        await driver.enter("1800")
        assert world.room.household.altitude_m == 1800
        await current(world, driver)
