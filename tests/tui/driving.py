"""Driving the whole program by keys, on a real store."""

from __future__ import annotations

from collections.abc import AsyncGenerator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import Any

from textual import events
from textual.pilot import Pilot
from textual.screen import Screen

from stockroom.tui.app import StockroomApp
from stockroom.tui.screens.round import RoundScreen
from tests.tui.screen_text import screen_text
from tests.world import World


@dataclass(frozen=True, slots=True)
class Driver:
    """The program in a terminal of some size, and the hands on its keys."""

    app: StockroomApp
    pilot: Pilot[None]

    @property
    def screen(self) -> Screen[Any]:
        """The screen or window in front."""
        return self.app.screen

    @property
    def text(self) -> str:
        """What the person sees."""
        return screen_text(self.app)

    @property
    def words(self) -> str:
        """What the person sees, with line breaks and frames taken out, for finding sentences."""
        bare = self.text.translate(str.maketrans(dict.fromkeys("│╭╮╰╯─▌▂▃▄▅▆▇▁", " ")))
        return " ".join(bare.split())

    async def settle(self) -> None:
        """Wait until everything that was asked for is on screen."""
        await self.app.workers.wait_for_complete()
        await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        """Press keys by name, one after the other, as a person would."""
        for key in keys:
            await self.pilot.press(key)
            await self.app.workers.wait_for_complete()
        await self.settle()

    async def type(self, text: str) -> None:
        """Type a text quickly: the keys wait for nothing but their turn."""
        for sign in text:
            self.app.post_message(events.Key(sign, sign))
        await self.settle()

    async def enter(self, *texts: str) -> None:
        """Type each text and press Enter after it."""
        for text in texts:
            await self.type(text)
            await self.press("enter")

    async def clear(self) -> None:
        """Empty the line that is being typed on."""
        await self.press("end", "ctrl+u")


@asynccontextmanager
async def driving(
    world: World, size: tuple[int, int] = (80, 24), *, notices: bool = False
) -> AsyncGenerator[Driver]:
    """The program on a store; `notices` shows the passing ones as well."""
    app = StockroomApp(world.room)
    app.animation_level = "none"
    async with app.run_test(size=size, notifications=notices) as pilot:
        driver = Driver(app, pilot)
        await driver.settle()
        await _whole(driver)
        yield driver


async def _whole(driver: Driver) -> None:
    """Wait until the Round holds what follows its first paint."""
    page = driver.app.screen_stack[0]
    for _ in range(500):
        if not isinstance(page, RoundScreen) or page.whole:
            break
        await driver.pilot.pause(0.01)
    await driver.pilot.pause()
