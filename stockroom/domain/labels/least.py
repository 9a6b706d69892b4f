"""The least label that takes a text, for the refusal of one that does not."""

from __future__ import annotations

from stockroom.domain.labels.fitting import Measure, fit
from stockroom.domain.labels.layout import layout
from stockroom.domain.labels.lengths import UM_PER_MM, show_size
from stockroom.domain.labels.statements import Label
from stockroom.errors import Refused

_LARGEST_UM = 300 * UM_PER_MM

Size = tuple[int, int]
"""Width and height in micrometres."""


class TextDoesNotFit(Refused):
    """A label is too small for what must stand on it uncut."""

    def __init__(self, code: str, size: Size, least: Size) -> None:
        """`size` is the label's, `least` the least one that would do; in micrometres."""
        super().__init__(
            f"The label of {code} does not fit on {show_size(*size)}: the code, dates, the raw"
            " warning and allergens are never cut.",
            f"Take labels of {show_size(*least)} at least.",
        )


def least_size(label: Label, width_um: int, height_um: int, measure: Measure) -> Size:
    """The smallest label, to the whole millimetre, that takes the text: as wide, or as high.

    One wider and higher where neither would do.
    """
    higher = _grown(label, (width_um, height_um), (0, 1), measure)
    wider = _grown(label, (width_um, height_um), (1, 0), measure)
    both = _grown(label, (width_um, height_um), (1, 1), measure)
    found = [size for size in (higher, wider, both) if size is not None]
    return min(found, key=lambda size: size[0] * size[1], default=(_LARGEST_UM, _LARGEST_UM))


def _grown(label: Label, size: Size, by: Size, measure: Measure) -> Size | None:
    """The first size that takes the text, growing by whole millimetres in one way."""
    width, height = (_whole_mm(size[0]) if by[0] else size[0], size[1])
    height = _whole_mm(height) if by[1] else height
    while max(width, height) <= _LARGEST_UM:
        parts = layout(width, height)
        if parts is not None and fit(label, parts.area, measure) is not None:
            return width, height
        width, height = width + by[0] * UM_PER_MM, height + by[1] * UM_PER_MM
    return None


def _whole_mm(length_um: int) -> int:
    """The length up to the next whole millimetre."""
    return -(-length_um // UM_PER_MM) * UM_PER_MM
