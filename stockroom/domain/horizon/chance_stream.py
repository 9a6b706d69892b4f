"""A stream of chances that is the same for the same seed, on every machine: SplitMix64.

Good for odds over a shelf, no good for secrets. The seed is the caller's, so that the same
question gives the same answer.
"""

from __future__ import annotations

from math import cos, log, pi, sin, sqrt
from typing import Protocol

_WORD = 0xFFFF_FFFF_FFFF_FFFF
_STEP = 0x9E37_79B9_7F4A_7C15
_FIRST, _SECOND = 0xBF58_476D_1CE4_E5B9, 0x94D0_49BB_1331_11EB
# Steele, Lea and Flood 2014 (`sources.RANDOM_STREAM`); the mixing constants are Stafford's.
_UNIT = 2.0**-53


class Chance(Protocol):
    """Anything that gives normal values one after the other."""

    def normals(self, count: int) -> list[float]:
        """So many independent values of mean 0 and standard deviation 1."""
        ...


class ChanceStream:
    """SplitMix64 from a seed; each call goes on where the last one ended."""

    __slots__ = ("_state",)

    def __init__(self, seed: int) -> None:
        self._state = seed & _WORD

    def words(self, count: int) -> list[int]:
        """The next whole numbers of 64 bits."""
        found: list[int] = []
        state = self._state
        for _ in range(count):
            state = (state + _STEP) & _WORD
            mixed = ((state ^ (state >> 30)) * _FIRST) & _WORD
            mixed = ((mixed ^ (mixed >> 27)) * _SECOND) & _WORD
            found.append(mixed ^ (mixed >> 31))
        self._state = state
        return found

    def normals(self, count: int) -> list[float]:
        """Normal values by Box and Muller 1958 (`sources.NORMAL_VALUES`), two from two words."""
        words = self.words(count + count % 2)
        found: list[float] = []
        for first, second in zip(words[::2], words[1::2], strict=True):
            # One is added so that the logarithm never meets nought.
            far = sqrt(-2.0 * log(((first >> 11) + 1) * _UNIT))
            turn = 2.0 * pi * (second >> 11) * _UNIT
            found.append(far * cos(turn))
            found.append(far * sin(turn))
        return found[:count]
