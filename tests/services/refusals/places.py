"""Refusals of places."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stockroom.errors import (
    BadInput,
    NotFound,
)
from stockroom.services import (
    places,
)
from stockroom.services.finding import Ambiguous
from stockroom.services.session import Stockroom
from tests.services.refusals.base import (
    ENDLESS,
    HALF_A_PAIR,
    Refusal,
    moved_on,
    packed,
)


def _place(path: str, **wanted: Any) -> Callable[[Stockroom], object]:
    return lambda room: places.change_place(room, path, **wanted)


PLACES = (
    *(
        Refusal(
            "places.add_place",
            BadInput,
            packed,
            lambda room, path=path: places.add_place(room, path),
            ("place name",),
        )
        for path in ("", " ", "cellar/", "/cellar", "cellar//x", "x" * 81, HALF_A_PAIR)
    ),
    *(
        Refusal(
            "places.add_place",
            BadInput,
            packed,
            lambda room, dc=dc: places.add_place(room, "attic", temperature_dc=dc),
            ("temperature", f"“{dc / 10:g} °C”", "-80 to 60 °C"),
        )
        for dc in (-801, 601)
    ),
    Refusal(
        "places.add_place",
        NotFound,
        packed,
        lambda room: places.add_place(room, "celar/new"),
        ("place", "“celar”", "Nearest: cellar"),
    ),
    Refusal(
        "places.add_place",
        Ambiguous,
        packed,
        lambda room: places.add_place(room, "rack/new"),
        ("cellar/rack, loft/rack",),
    ),
    *(
        Refusal(
            "places.add_place",
            places.PlaceTaken,
            packed,
            lambda room, path=path: places.add_place(room, path),
            ("already a place",),
        )
        for path in ("cellar", "CELLAR", "cellar/Rack", " cellar / rack ")
    ),
    Refusal(
        "places.add_place",
        BadInput,
        packed,
        lambda room: places.add_place(room, "attic", note=ENDLESS),
        ("note",),
    ),
    Refusal("places.change_place", NotFound, packed, _place("moon"), ("place", "“moon”")),
    Refusal(
        "places.change_place",
        BadInput,
        packed,
        _place("loft", new_name="a/b"),
        ("place name", "“a/b”", "without /"),
    ),
    Refusal("places.change_place", BadInput, packed, _place("loft", new_name=" "), ("name",)),
    Refusal(
        "places.change_place",
        BadInput,
        packed,
        _place("loft", temperature_dc=700),
        ("temperature", "“70 °C”"),
    ),
    Refusal("places.change_place", BadInput, packed, _place("loft"), ("what to change",)),
    Refusal("places.change_place", BadInput, packed, _place("loft", note=ENDLESS), ("note",)),
    *(
        Refusal(
            "places.change_place",
            places.PlaceTaken,
            packed,
            _place("loft", new_name=name),
            ("already a place “cellar”",),
        )
        for name in ("cellar", "CELLAR")
    ),
    *(
        Refusal(
            "places.put_place",
            places.PlaceInsideItself,
            packed,
            lambda room, into=into: places.put_place(room, "cellar", into),
            ("“cellar”", f"below “{into}”"),
        )
        for into in ("cellar", "cellar/rack")
    ),
    *(
        Refusal(
            "places.put_place",
            places.PlaceTaken,
            packed,
            lambda room, path=path, into=into: places.put_place(room, path, into),
            ("already a place",),
        )
        for path, into in (("loft/rack", "cellar"), ("cellar/rack", "cellar"), ("loft", ""))
    ),
    Refusal(
        "places.put_place",
        NotFound,
        packed,
        lambda room: places.put_place(room, "loft", "moon"),
        ("“moon”",),
    ),
    *(
        Refusal(
            "places.remove_place",
            places.PlaceInUse,
            moved_on,
            lambda room, path=path: places.remove_place(room, path),
            (f"“{path}”", "holds places or packages, or packages have stood there"),
        )
        for path in ("cellar", "loft", "loft/rack")
    ),
    Refusal(
        "places.remove_place",
        NotFound,
        packed,
        lambda room: places.remove_place(room, "moon"),
        ("“moon”",),
    ),
)
