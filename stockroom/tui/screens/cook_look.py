"""One line of the cook sheet, and how it is drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Look = Literal["plain", "title", "quiet", "caution", "alarm"]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the sheet and how it is drawn; `indent` cells stand before it."""

    text: str
    look: Look = "plain"
    indent: int = 0
