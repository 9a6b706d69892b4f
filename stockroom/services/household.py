"""Starting a stockroom, and the household's settings."""

from __future__ import annotations

from pathlib import Path

from stockroom.clock import Clock
from stockroom.domain.keeping.oxygen import barometer_at
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Container
from stockroom.domain.units import Cup
from stockroom.errors import BadInput
from stockroom.reference.containers import containers as reference_containers
from stockroom.services.acting import acting
from stockroom.services.keeping import refresh_everything
from stockroom.services.names import clean_name
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, settings
from stockroom.store.connection import create_store
from stockroom.store.journal import FOUNDING

MOST_PEOPLE = 500


def create_stockroom(
    path: Path,
    *,
    clock: Clock,
    actor: str,
    units: UnitSystem,
    people: int,
    name: str = "",
    durable: bool = True,
) -> Stockroom:
    """Make a new store with the household's settings and the reference containers.

    Raises StoreExists, StoreUnwritable or BadInput; a store half made is taken away again.
    """
    _check_people(people)
    title = _title(name)
    store = create_store(path, durable=durable)
    room = Stockroom(store, clock, actor)
    try:
        with acting(room, FOUNDING) as act:
            settings.save_setting(store, "units", units)
            settings.save_setting(store, "people", str(people))
            settings.save_setting(store, "name", title)
            food_rows.insert_containers(store, _shipped_containers())
            act.words = f"started the stockroom for {people} {_people_word(people)}"
        refresh_everything(room)
    except BaseException:
        room.close()
        path.unlink(missing_ok=True)
        raise
    return room


def change_household(
    room: Stockroom,
    *,
    units: UnitSystem | None = None,
    people: int | None = None,
    name: str | None = None,
    altitude_m: int | None = None,
    cup: Cup | None = None,
) -> Done:
    """Change units, number of people, name, height above the sea or cup; what is None stays.

    The height decides how much air a package holds: after it has changed, best-by dates are not
    current until `refresh_everything` has run. Raises BadInput, ImpossibleFigure.
    """
    wanted = {
        "units": None if units is None else str(units),
        "people": None if people is None else str(people),
        "name": None if name is None else _title(name),
        "altitude": None if altitude_m is None else str(altitude_m),
        "cup": None if cup is None else str(cup),
    }
    if people is not None:
        _check_people(people)
    if altitude_m is not None:
        barometer_at(altitude_m)
    said = {key: value for key, value in wanted.items() if value is not None}
    if not said:
        raise BadInput("household", "", "units, people, a name, an altitude or a cup to change")
    with acting(room, "settings") as act:
        for key, value in said.items():
            settings.save_setting(room.store, key, value)
        act.words = "set " + ", ".join(f"{key} to {value}" for key, value in said.items())
    return Done(act.words)


def list_containers(room: Stockroom) -> tuple[Container, ...]:
    """Every container the household packs into."""
    return tuple(food_rows.all_containers(room.store))


def _check_people(people: int) -> None:
    if not 1 <= people <= MOST_PEOPLE:
        raise BadInput("people", str(people), f"a whole number from 1 to {MOST_PEOPLE}")


def _title(typed: str) -> str:
    return clean_name(typed, "household name") if typed.strip() else ""


def _people_word(people: int) -> str:
    return "person" if people == 1 else "people"


def _shipped_containers() -> list[Container]:
    return [
        Container(
            container_id=0,
            key=one.key,
            name=one.name,
            package_kind=one.package_kind,
            volume_ml=one.volume_ml,
            width_mm=one.width_mm,
            height_mm=one.height_mm,
        )
        for one in reference_containers().values()
    ]
