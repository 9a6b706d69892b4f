"""From what a person typed to the record meant; a near miss is named, never guessed."""

from __future__ import annotations

from difflib import get_close_matches

from stockroom.domain.codes import nearest, read_code
from stockroom.domain.records import Container, Food, Lot, Package, Place, RecipeRecord, Run
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.names import storable
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, lot_rows, package_rows, place_rows, recipe_rows, run_rows


class CodeMistyped(Refused):
    """The check character does not fit the rest of the code."""

    def __init__(self, typed: str, nearest_codes: tuple[str, ...]) -> None:
        hint = (
            f"Nearest: {', '.join(nearest_codes)}."
            if nearest_codes
            else "Read the label again; the last character checks the others."
        )
        super().__init__(f"The code “{typed}” is mistyped: its check character does not fit.", hint)


class Ambiguous(Refused):
    """What was typed names more than one."""

    def __init__(self, kind: str, typed: str, several: tuple[str, ...]) -> None:
        super().__init__(
            f"“{typed}” names more than one {kind}.", f"Say which: {', '.join(several[:5])}."
        )


def find_package(room: Stockroom, typed: str) -> Package:
    """The package of a typed or scanned code, with or without its check character.

    Raises BadInput, CodeMistyped, Ambiguous or NotFound; the last names the nearest codes.
    """
    code = read_code(typed)
    if code.kind == "lot":
        raise BadInput("package code", typed, "the whole code of a package, such as 26329A07")
    if code.check is not None and code.valid:
        found = package_rows.packages_by_code(room.store, code.body + code.check)
        if found:
            return found[0]
    whole = _unchecked(room, code.body) if code.check is None else []
    other = _unchecked(room, code.other_body) if code.other_body else []
    if whole and other:
        raise Ambiguous("package", typed, tuple(one.code for one in (*other, *whole)))
    if whole or (other and code.check is not None):
        return (whole or other)[0]
    close = nearest(typed, package_rows.package_codes(room.store, prefix=code.body[:2]))
    if other or not code.valid:
        raise CodeMistyped(typed, close)
    raise NotFound("package", typed.strip(), close)


def _unchecked(room: Stockroom, body: str) -> list[Package]:
    """The package of a code typed without its check character."""
    return package_rows.packages_by_code_start(room.store, body)


def find_lot(room: Stockroom, typed: str) -> Lot:
    """The lot of a typed code; a package's code names its lot. Raises NotFound, BadInput."""
    code = read_code(typed)
    if code.kind == "package":
        return lot_by_package(room, typed)
    found = lot_rows.lot_by_code(room.store, code.body)
    if found is None:
        raise NotFound("lot", typed.strip(), nearest(typed, lot_rows.lot_codes(room.store)))
    return found


def lot_by_package(room: Stockroom, typed: str) -> Lot:
    """The lot of a typed package code."""
    found = lot_rows.lot_by_id(room.store, find_package(room, typed).lot_id)
    assert found is not None
    return found


def find_run(room: Stockroom, run_id: int | None) -> Run:
    """The run of this number, or the one open run when no number is given."""
    if run_id is not None:
        found = run_rows.run_by_id(room.store, run_id)
        if found is None:
            raise NotFound("run", str(run_id))
        return found
    open_now = run_rows.open_runs(room.store)
    if not open_now:
        raise NotFound("open run", "any")
    if len(open_now) > 1:
        raise Ambiguous("run", "the open run", tuple(str(run.run_id) for run in open_now))
    return open_now[0]


def find_place(room: Stockroom, typed: str) -> Place:
    """The place of a path ("cellar/rack 1/bin 2") or of a name or path ending that is unique."""
    wanted = [part.strip().casefold() for part in typed.split("/") if part.strip()]
    if not wanted:
        raise BadInput("place", typed, "a place, such as cellar/rack 1")
    places = place_rows.all_places(room.store)
    whole = [place for place in places if place.path.casefold().split("/") == wanted]
    if whole:
        return whole[0]
    ending = [
        place for place in places if place.path.casefold().split("/")[-len(wanted) :] == wanted
    ]
    if len(ending) == 1:
        return ending[0]
    if ending:
        raise Ambiguous("place", typed, tuple(place.path for place in ending))
    raise NotFound("place", typed, _close(typed, [place.path for place in places]))


def find_food(room: Stockroom, typed: str) -> Food:
    """The household's food of this name. Raises NotFound with the nearest names, BadInput."""
    found = food_rows.food_by_name(room.store, storable(typed, "food"))
    if found is None:
        raise NotFound("food", typed, _close(typed, food_rows.food_names(room.store)))
    return found


def find_container(room: Stockroom, typed: str) -> Container:
    """The container of this key. Raises NotFound with the nearest keys, BadInput."""
    found = food_rows.container_by_key(room.store, storable(typed, "container"))
    if found is None:
        keys = [container.key for container in food_rows.all_containers(room.store)]
        raise NotFound("container", typed, _close(typed, keys))
    return found


def find_recipe(room: Stockroom, typed: str) -> RecipeRecord:
    """The recipe of this name, or the only one whose name begins so."""
    found = recipe_rows.recipe_by_name(room.store, storable(typed, "recipe"))
    if found is not None:
        return found
    names = recipe_rows.recipe_names(room.store)
    wanted = typed.strip().casefold()
    begins = [name for name in names if wanted and name.casefold().startswith(wanted)]
    if len(begins) > 1:
        raise Ambiguous("recipe", typed, tuple(begins))
    if begins:
        found = recipe_rows.recipe_by_name(room.store, begins[0])
    if found is None:
        raise NotFound("recipe", typed, _close(typed, names))
    return found


def _close(typed: str, names: list[str]) -> tuple[str, ...]:
    folded = {name.casefold(): name for name in names}
    close = get_close_matches(typed.casefold(), folded, n=3, cutoff=0.5)
    inside = [key for key in folded if typed.strip() and typed.strip().casefold() in key][:3]
    return tuple(folded[key] for key in dict.fromkeys([*inside, *close]))[:3]
