"""Measuring side by side: the same machine, the same minute, told as ratios.

A time in milliseconds says more about the machine than about the program, so each measurement is
set against another of the same run: 100,000 rows against 30, a page against its bare query.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from statistics import median
from time import perf_counter


@dataclass(frozen=True, slots=True)
class Timing:
    """What was measured, and how long each repetition took in milliseconds."""

    name: str
    times_ms: tuple[float, ...]

    @property
    def median_ms(self) -> float:
        """The middle time: one slow repetition does not move it."""
        return median(self.times_ms)


@dataclass(frozen=True, slots=True)
class Ratio:
    """One measurement set against another."""

    name: str
    top: Timing
    bottom: Timing

    @property
    def value(self) -> float:
        """How many times as long the first one takes."""
        return self.top.median_ms / self.bottom.median_ms


def repeat(name: str, act: Callable[[], object], times: int = 15) -> Timing:
    """Time a call. One repetition before the count fills caches and is not counted."""
    act()
    return Timing(name, tuple(_timed(act) for _ in range(times)))


def _timed(act: Callable[[], object]) -> float:
    """Milliseconds one call takes."""
    began = perf_counter()
    act()
    return (perf_counter() - began) * 1000


async def repeat_async(name: str, act: Callable[[], Awaitable[float]], times: int = 15) -> Timing:
    """Collect the milliseconds that each of several runs reports of itself, after a first one."""
    await act()
    return Timing(name, tuple([await act() for _ in range(times)]))


def timings_table(timings: Sequence[Timing]) -> list[str]:
    """The measurements as lines of text: name, median, fastest and slowest."""
    wide = max(len(timing.name) for timing in timings)
    head = f"{'measured':<{wide}}  {'median ms':>10}  {'fastest':>10}  {'slowest':>10}"
    lines = [
        f"{timing.name:<{wide}}  {timing.median_ms:>10.3f}"
        f"  {min(timing.times_ms):>10.3f}  {max(timing.times_ms):>10.3f}"
        for timing in timings
    ]
    return [head, *lines]


def ratios_table(ratios: Sequence[Ratio]) -> list[str]:
    """The ratios as lines of text."""
    wide = max(len(ratio.name) for ratio in ratios)
    head = f"{'set against each other':<{wide}}  {'ratio':>8}"
    return [head, *(f"{ratio.name:<{wide}}  {ratio.value:>8.2f}" for ratio in ratios)]
