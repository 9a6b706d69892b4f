"""The order in which a person walks along the places."""

from __future__ import annotations

import re

_DIGITS = re.compile(r"([0-9]+)", re.ASCII)

WalkingOrder = tuple[list[list[tuple[int, str]]], str]
"""Sorts places as they are walked along, and codes within a place."""


def walking_order(place: str, code: str) -> WalkingOrder:
    """A key to sort packages by: place by place, bin 2 before bin 10, without a place first.

    `place` is a path such as "cellar/rack 1"; a place comes before those within it.
    """
    return [_counted(part) for part in place.casefold().split("/")], code


def _counted(name: str) -> list[tuple[int, str]]:
    """A name in pieces that sort numbers by what they count."""
    pieces = _DIGITS.split(name)
    return [(int(one), "") if one.isdecimal() else (0, one) for one in pieces if one]
