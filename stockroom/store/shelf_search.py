"""Which packages a search names, in which order: ids first, rows only for what is looked at.

A list of 100,000 is a list of ids (about 20 ms by an index); the screen then asks for the forty
rows it shows. Words are looked up among the few foods and places first, then joined through
indexes, and in the note index; so typing stays fast however full the shelves are.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from typing import Any

from stockroom.store.connection import Store
from stockroom.store.food_rows import food_ids_matching
from stockroom.store.place_rows import ids_below, place_paths
from stockroom.store.projections import read_basis
from stockroom.store.rows import folded, like_inside, like_prefix, note_words

ORDERS = {
    "best_by": "projection.best_by NULLS LAST, package.id",
    "food": "food.name, lot.made_on, package.id",
    "place": "place_path.path IS NULL, place_path.path, food.name, lot.made_on, package.id",
    "made": "lot.made_on, package.id",
    "code": "package.code, package.id",
}
"""Order name → ORDER BY, each ending in the unique id."""

_JOINS = {
    "best_by": "LEFT JOIN projection ON projection.package_id = package.id",
    "food": "JOIN food ON food.id = package.food_id JOIN lot ON lot.id = package.lot_id",
    "place": "JOIN food ON food.id = package.food_id JOIN lot ON lot.id = package.lot_id"
    " LEFT JOIN place_path ON place_path.id = package.location_id",
    "made": "JOIN lot ON lot.id = package.lot_id",
    "code": "",
}


@dataclass(frozen=True, slots=True)
class ShelfFilter:
    """What to show. Empty `words` shows all; `place_id` includes everything below it."""

    words: str = ""
    food_id: int | None = None
    place_id: int | None = None
    conditions: tuple[str, ...] = ("settling", "sound", "suspect", "held", "opened")
    order: str = "best_by"


def package_ids(store: Store, wanted: ShelfFilter, *, limit: int | None = None) -> array[int]:
    """Ids of the packages the filter names, in its order, at most `limit` of them."""
    # Every live package, and no other, has a projection once all have been computed: its index
    # alone gives the commonest list. Before that (a store just migrated) they have to be sought.
    if wanted == ShelfFilter() and read_basis(store):
        sql = "SELECT package_id FROM projection ORDER BY best_by NULLS LAST, package_id"
        parameters: list[Any] = []
    else:
        where, parameters = _where(store, wanted)
        sql = (
            f"SELECT package.id FROM package {_JOINS[wanted.order]} WHERE {where}"
            f" ORDER BY {ORDERS[wanted.order]}"
        )
    if limit is not None:
        sql += " LIMIT ?"
        parameters.append(limit)
    return array("q", (row[0] for row in store.query(sql, parameters)))


def _where(store: Store, wanted: ShelfFilter) -> tuple[str, list[Any]]:
    clauses = [f"package.condition IN ({', '.join('?' * len(wanted.conditions))})"]
    parameters: list[Any] = list(wanted.conditions)
    if wanted.food_id is not None:
        clauses.append("package.food_id = ?")
        parameters.append(wanted.food_id)
    if wanted.place_id is not None:
        clauses.append(_among("package.location_id", ids_below(store, wanted.place_id)))
    paths = place_paths(store)
    for word in wanted.words.split():
        clause, values = _word(store, word, paths)
        clauses.append(clause)
        parameters.extend(values)
    return " AND ".join(clauses), parameters


def _word(store: Store, word: str, paths: dict[int, str]) -> tuple[str, list[Any]]:
    wanted = folded(word)
    places = [place_id for place_id, path in paths.items() if wanted in folded(path)]
    clauses = [
        "package.code LIKE ? ESCAPE '!'",
        _among("package.food_id", food_ids_matching(store, word)),
        _among("package.location_id", places),
    ]
    values: list[Any] = [like_prefix(word.upper())]
    if any(sign.isalnum() for sign in word):
        clauses.append("package.id IN (SELECT rowid FROM package_note WHERE package_note MATCH ?)")
        values.append(note_words(word))
    else:
        # The index holds no signs, so one that stands alone is looked for in the notes themselves.
        clauses.append("package.note LIKE ? ESCAPE '!'")
        values.append(like_inside(word))
    return "(" + " OR ".join(clauses) + ")", values


def _among(column: str, ids: list[int]) -> str:
    # Ids are our own integers, so they may stand in the text; a list can exceed the
    # parameter limit.
    return f"{column} IN ({', '.join(str(int(one)) for one in ids)})"
