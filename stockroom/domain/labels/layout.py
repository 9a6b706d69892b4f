"""The parts of one label: its blank edge, the code symbol with its margin, the words' area.

All measures of the layout are engineering judgement where nothing else is said.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.labels.lengths import UM_PER_MM

SYMBOL_MODULES = 21
"""Side of a QR symbol of version 1, which takes 10 letters and digits at level H: ISO/IEC 18004
(from memory)."""
QUIET_MODULES = 4
"""Blank margin round it, on every side: ISO/IEC 18004 (from memory)."""
BOX_MODULES = SYMBOL_MODULES + 2 * QUIET_MODULES
LEAST_SYMBOL_UM = 10 * UM_PER_MM
LEAST_MODULE_UM = -(-LEAST_SYMBOL_UM // SYMBOL_MODULES)
"""Modules this large make a symbol of 10 mm at least."""
LARGEST_MODULE_UM = 800
WIDEST_BOX_PERCENT = 36
"""How much of a label's width the symbol with its margin takes, unless it has to be more."""
NARROW_PADDING_UM = 1_500
PADDING_UM = 2_000
SMALL_LABEL_UM = 30 * UM_PER_MM
"""Labels lower or narrower than this keep 1.5 mm blank at their edges, others 2 mm."""


@dataclass(frozen=True, slots=True)
class Area:
    """Where the words go, from its top left; the symbol takes its top left corner away."""

    width_um: int
    height_um: int
    symbol_um: int = 0
    """Side of the square that the symbol takes with its margin; 0 for none."""


@dataclass(frozen=True, slots=True)
class Layout:
    """A label's parts: the blank edge, the size of a module of the symbol, the words' area."""

    padding_um: int
    module_um: int
    area: Area


def layout(width_um: int, height_um: int) -> Layout | None:
    """The parts of a label of this size; None when not even the symbol has room."""
    padding = NARROW_PADDING_UM if min(width_um, height_um) < SMALL_LABEL_UM else PADDING_UM
    inner_width, inner_height = width_um - 2 * padding, height_um - 2 * padding
    wanted = min(inner_height, width_um * WIDEST_BOX_PERCENT // 100) // BOX_MODULES
    module = max(LEAST_MODULE_UM, min(wanted, LARGEST_MODULE_UM))
    side = module * BOX_MODULES
    if side > min(inner_width, inner_height):
        return None
    return Layout(padding, module, Area(inner_width, inner_height, side))
