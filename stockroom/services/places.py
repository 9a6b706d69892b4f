"""Places as a tree: where things stand and how warm it is there."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum

from stockroom.domain.records import Place
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.acting import acting
from stockroom.services.finding import find_place
from stockroom.services.names import clean_name, clean_note
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import place_rows


class PlaceKind(StrEnum):
    """What kind of place it is."""

    CUPBOARD = "cupboard"
    CELLAR = "cellar"
    LOFT = "loft"
    ROOM = "room"
    FREEZER = "freezer"
    REFRIGERATOR = "refrigerator"
    RACK = "rack"
    BIN = "bin"


class PlaceTaken(Refused):
    """Two places of one name in one place could not be told apart."""

    def __init__(self, path: str) -> None:
        super().__init__(f"There is already a place “{path}”.", "Choose another name.")


class PlaceInUse(Refused):
    """A place with packages, places or a history cannot be taken out of the record."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"“{path}” holds places or packages, or packages have stood there.",
            "Move what is in it; a place that was used stays in the record, rename it if need be.",
        )


class PlaceInsideItself(Refused):
    """A place cannot be put below itself."""

    def __init__(self, path: str, below: str) -> None:
        super().__init__(f"“{path}” cannot be put below “{below}”.", "Choose a place outside it.")


def list_places(room: Stockroom) -> tuple[Place, ...]:
    """Every place in tree order."""
    return tuple(place_rows.all_places(room.store))


def add_place(
    room: Stockroom,
    path: str,
    *,
    kind: PlaceKind | None = None,
    temperature_dc: int | None = None,
    note: str = "",
) -> Done:
    """Add the place at the end of a path; everything before it must be there.

    A place without a temperature has that of the place above it. Raises NotFound, PlaceTaken,
    BadInput.
    """
    parts = [clean_name(part, "place name") for part in path.split("/")]
    _check_temperature(temperature_dc)
    with acting(room, "place") as act:
        parent = find_place(room, "/".join(parts[:-1])) if parts[:-1] else None
        whole = f"{parent.path}/{parts[-1]}" if parent else parts[-1]
        _refuse_taken(room, whole)
        made = place_rows.insert_place(
            room.store,
            parent_id=parent.place_id if parent else None,
            name=parts[-1],
            kind=kind or likely_kind(parent),
            temperature_dc=temperature_dc,
            note=clean_note(note),
        )
        act.words = f"added the place {whole}"
    return Done(act.words, made_id=made)


def change_place(
    room: Stockroom,
    path: str,
    *,
    new_name: str | None = None,
    kind: PlaceKind | None = None,
    temperature_dc: int | None = None,
    note: str | None = None,
) -> Done:
    """Rename a place or correct its kind, temperature or note; what is None stays."""
    _check_temperature(temperature_dc)
    with acting(room, "place") as act:
        place = find_place(room, path)
        name = place.name if new_name is None else clean_name(new_name, "place name")
        if "/" in name:
            raise BadInput("place name", name, "a name without /")
        own_dc = place.own_temperature_dc if temperature_dc is None else temperature_dc
        changed = replace(
            place,
            name=name,
            kind=kind or place.kind,
            own_temperature_dc=own_dc,
            note=place.note if note is None else clean_note(note),
        )
        if changed == place:
            raise BadInput("place", "", "what to change: name, kind, temperature or note")
        if name.casefold() != place.name.casefold():
            _refuse_taken(room, "/".join([*place.path.split("/")[:-1], name]))
        place_rows.update_place(room.store, changed)
        act.words = f"changed the place {place.path}" + (
            f" to {name}" if name != place.name else ""
        )
    return Done(act.words, made_id=place.place_id)


def put_place(room: Stockroom, path: str, into: str) -> Done:
    """Put a place, with everything in it, below another; into "" for the top of the tree."""
    with acting(room, "place") as act:
        place = find_place(room, path)
        parent = find_place(room, into) if into.strip() else None
        if parent and parent.place_id in place_rows.ids_below(room.store, place.place_id):
            raise PlaceInsideItself(place.path, parent.path)
        whole = f"{parent.path}/{place.name}" if parent else place.name
        _refuse_taken(room, whole)
        place_rows.update_place(
            room.store, replace(place, parent_id=parent.place_id if parent else None)
        )
        act.words = f"put the place {place.path} at {whole}"
    return Done(act.words, made_id=place.place_id)


def remove_place(room: Stockroom, path: str) -> Done:
    """Take an unused place out of the record. Raises PlaceInUse."""
    with acting(room, "place") as act:
        place = find_place(room, path)
        if place_rows.place_is_used(room.store, place.place_id):
            raise PlaceInUse(place.path)
        place_rows.delete_place(room.store, place.place_id)
        act.words = f"removed the place {place.path}"
    return Done(act.words)


def _refuse_taken(room: Stockroom, path: str) -> None:
    try:
        found = find_place(room, path)
    except (NotFound, Refused):
        return
    if found.path.casefold() == path.casefold():
        raise PlaceTaken(found.path)


def likely_kind(parent: Place | None) -> str:
    """The kind of a place of which nothing is said, by the place it stands in."""
    if parent is None:
        return PlaceKind.ROOM
    return PlaceKind.BIN if parent.kind == PlaceKind.RACK else PlaceKind.RACK


def _check_temperature(temperature_dc: int | None) -> None:
    if temperature_dc is not None and not -800 <= temperature_dc <= 600:
        raise BadInput(
            "temperature", f"{temperature_dc / 10:g} °C", "a temperature from -80 to 60 °C"
        )
