"""What an ordinary use of a writing service is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from stockroom.services.session import Stockroom
from tests.world import World

Prepare = Callable[[World], object]
Act = Callable[[Stockroom], object]


@dataclass(frozen=True, slots=True)
class Case:
    """What has to be there, and the call."""

    prepare: Prepare
    act: Act
