"""The names in a list against the record: foods, containers and places, each looked up once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from stockroom.domain.foods import FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.records import Container, Food
from stockroom.errors import BadInput, NotFound, StockroomError
from stockroom.services.finding import Ambiguous, find_container, find_food, find_place
from stockroom.services.foods import described_food, from_reference, reference_food
from stockroom.services.names import clean_name
from stockroom.services.places import likely_kind
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, place_rows

Found = TypeVar("Found")

NAME_TROUBLE = (NotFound, Ambiguous, BadInput)
"""What may be the matter with a name; trouble with the store itself is none of it."""
ANY_FOOD = "*"
"""Stands for every food that has no name of its own among those said."""


@dataclass(frozen=True, slots=True)
class SaidFood:
    """What is said of a food that is to be added."""

    food_class: FoodClass
    preparation: Preparation
    group: FoodGroup | None = None


@dataclass(slots=True)
class Names:
    """What the names of one list mean; a food to be added has the id 0."""

    room: Stockroom
    said: Mapping[str, SaidFood]
    add_places: bool
    taken_over: dict[str, Food] = field(default_factory=dict[str, Food])
    new_foods: dict[str, Food] = field(default_factory=dict[str, Food])
    new_places: dict[str, str] = field(default_factory=dict[str, str])
    _foods: dict[str, Food | StockroomError] = field(
        default_factory=dict[str, "Food | StockroomError"]
    )
    _containers: dict[str, Container | StockroomError] = field(
        default_factory=dict[str, "Container | StockroomError"]
    )
    _places: dict[str, int | StockroomError] = field(
        default_factory=dict[str, "int | StockroomError"]
    )

    def food(self, typed: str) -> Food:
        """The food of this name: the household's, the reference table's, or one said to be added.

        Or NotFound with the nearest names, BadInput.
        """
        key = " ".join(typed.split()).casefold()
        if not self._foods:
            every = food_rows.all_foods(self.room.store)
            self._foods.update((one.name.casefold(), one) for one in every)
        if key not in self._foods:
            self._foods[key] = self._new_food(key, typed)
        return _known(self._foods[key])

    def _new_food(self, key: str, typed: str) -> Food | StockroomError:
        try:
            name = clean_name(typed, "food")
            said = self.said.get(key)
            if said is None:
                return self._from_table(name)
            return self._described(name, said)
        except NAME_TROUBLE as error:
            return error

    def _described(self, name: str, said: SaidFood) -> Food:
        found = described_food(name, said.food_class, said.group, said.preparation)
        return self.new_foods.setdefault(name.casefold(), found)

    def _from_table(self, name: str) -> Food:
        """A food of the reference table, or one that is like every food not named. Or NotFound."""
        try:
            found = from_reference(reference_food(name))
        except NotFound as missing:
            said = self.said.get(ANY_FOOD)
            if said is None:
                raise self._nearest(name, missing) from missing
            return self._described(name, said)
        own = food_rows.food_by_name(self.room.store, found.name)
        if own is not None:
            return own
        return self.taken_over.setdefault(found.name.casefold(), found)

    def _nearest(self, name: str, missing: NotFound) -> NotFound:
        """The same refusal with the household's own nearest names before the table's."""
        try:
            find_food(self.room, name)
        except NotFound as own:
            return NotFound("food", name, (*own.nearest, *missing.nearest)[:3])
        return missing

    def container(self, typed: str) -> Container:
        """The container of this key or name. Or NotFound with the nearest keys."""
        key = " ".join(typed.split()).casefold()
        if not self._containers:
            for one in food_rows.all_containers(self.room.store):
                self._containers.setdefault(one.name.casefold(), one)
                self._containers[one.key.casefold()] = one
        if key not in self._containers:
            try:
                self._containers[key] = find_container(self.room, typed)
            except NAME_TROUBLE as error:
                self._containers[key] = error
        return _known(self._containers[key])

    def place(self, typed: str) -> int | None:
        """The place of a path or a unique ending of one; 0 for one to be added, None for "".

        Or NotFound, Ambiguous, BadInput.
        """
        key = " ".join(typed.split()).casefold()
        if not key:
            return None
        if key not in self._places:
            try:
                self._places[key] = find_place(self.room, typed).place_id
            except NotFound as missing:
                self._places[key] = self._new_place(key, typed, missing)
            except NAME_TROUBLE as error:
                self._places[key] = error
        return _known(self._places[key])

    def _new_place(self, key: str, typed: str, missing: NotFound) -> int | StockroomError:
        """Note the whole path of a place to be added, as far as it stands in one that is there."""
        if not self.add_places:
            return missing
        try:
            parts = [clean_name(part, "place name") for part in typed.split("/")]
            self.new_places[key] = self._whole_path(parts)
        except NAME_TROUBLE as error:
            return error
        return 0

    def _whole_path(self, parts: Sequence[str]) -> str:
        for count in range(len(parts) - 1, 0, -1):
            try:
                above = find_place(self.room, "/".join(parts[:count]))
            except NotFound:
                continue
            return "/".join((above.path, *parts[count:]))
        return "/".join(parts)

    def add(self) -> None:
        """Add the new foods and places inside an action; from then on they have their ids."""
        added: dict[str, Food] = {}
        for name, food in (self.taken_over | self.new_foods).items():
            food_id = food_rows.insert_food(self.room.store, food)
            added[name] = replace(food, food_id=food_id)
        for key, found in self._foods.items():
            if isinstance(found, Food) and not found.food_id:
                self._foods[key] = added[found.name.casefold()]
        for key, path in self.new_places.items():
            self._places[key] = _add_path(self.room, path)


def _known(found: Found | StockroomError) -> Found:
    if isinstance(found, StockroomError):
        raise found
    return found


def _add_path(room: Stockroom, path: str) -> int:
    """Add what of a whole path is not there yet, inside an action; the id of its last place."""
    there = {place.path.casefold(): place for place in place_rows.all_places(room.store)}
    parts, parent = path.split("/"), None
    for count in range(1, len(parts) + 1):
        found = there.get("/".join(parts[:count]).casefold())
        if found is None:
            made = place_rows.insert_place(
                room.store,
                parent_id=parent.place_id if parent else None,
                name=parts[count - 1],
                kind=likely_kind(parent),
                temperature_dc=None,
                note="",
            )
            found = place_rows.place_by_id(room.store, made)
        assert found is not None
        parent = found
    assert parent is not None
    return parent.place_id
