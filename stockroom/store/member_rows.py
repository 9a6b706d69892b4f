"""The people of the household, with their allergens and what they would rather not eat."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from stockroom.domain.foods import Allergen
from stockroom.domain.member_records import Disliked, Figures, Member
from stockroom.domain.person import Activity, Sex
from stockroom.store.connection import Store
from stockroom.store.rows import day, marks


def all_members(store: Store) -> list[Member]:
    """Every person, in the order they were added."""
    allergens: defaultdict[int, list[Allergen]] = defaultdict(list)
    for member_id, allergen in store.query(
        "SELECT member_id, allergen FROM member_allergen ORDER BY allergen"
    ):
        allergens[member_id].append(Allergen(allergen))
    dislikes: defaultdict[int, list[Disliked]] = defaultdict(list)
    for member_id, food_id, food in store.query(
        "SELECT member_dislike.member_id, food.id, food.name FROM member_dislike"
        " JOIN food ON food.id = member_dislike.food_id ORDER BY food.name, food.id"
    ):
        dislikes[member_id].append(Disliked(food_id, food))
    rows = store.query(
        "SELECT id, name, sex, age_tenths, age_on, activity, edition, body_weight_dg, height_mm"
        " FROM household_member ORDER BY id"
    )
    return [_member(row, allergens[row[0]], dislikes[row[0]]) for row in rows]


def _member(
    row: tuple[Any, ...], allergens: Iterable[Allergen], dislikes: Iterable[Disliked]
) -> Member:
    return Member(
        member_id=row[0],
        name=row[1],
        sex=Sex(row[2]),
        age_tenths=row[3],
        age_on=day(row[4]),
        activity=Activity(row[5]),
        figures=Figures(row[6]),
        body_weight_dg=row[7],
        height_mm=row[8],
        allergens=tuple(allergens),
        dislikes=tuple(dislikes),
    )


def insert_member(store: Store, member: Member) -> int:
    """Add a person (the `member_id` is ignored); returns the new id."""
    member_id = store.run(
        "INSERT INTO household_member (name, sex, age_tenths, age_on, activity, edition,"
        f" body_weight_dg, height_mm) VALUES ({marks(8)})",
        _values(member),
    )
    _replace_avoided(store, member_id, member)
    return member_id


def update_member(store: Store, member: Member) -> None:
    """Write a person as they are now, allergens and dislikes too."""
    store.run(
        "UPDATE household_member SET name = ?, sex = ?, age_tenths = ?, age_on = ?, activity = ?,"
        " edition = ?, body_weight_dg = ?, height_mm = ? WHERE id = ?",
        (*_values(member), member.member_id),
    )
    _replace_avoided(store, member.member_id, member)


def delete_member(store: Store, member_id: int) -> None:
    """Take a person out of the record, with their allergens and dislikes."""
    store.run("DELETE FROM member_allergen WHERE member_id = ?", (member_id,))
    store.run("DELETE FROM member_dislike WHERE member_id = ?", (member_id,))
    store.run("DELETE FROM household_member WHERE id = ?", (member_id,))


def _values(member: Member) -> tuple[str | int | None, ...]:
    """The changeable columns, in the order of the statements."""
    return (
        member.name,
        member.sex.value,
        member.age_tenths,
        member.age_on.isoformat(),
        member.activity.value,
        member.figures.value,
        member.body_weight_dg,
        member.height_mm,
    )


def _replace_avoided(store: Store, member_id: int, member: Member) -> None:
    """Make allergens and dislikes exactly these; rows that stay are not touched."""
    allergens = {one.value for one in member.allergens}
    foods = {one.food_id for one in member.dislikes}
    _replace(store, "member_allergen", "allergen", member_id, allergens)
    _replace(store, "member_dislike", "food_id", member_id, foods)


def _replace(
    store: Store, table: str, column: str, member_id: int, wanted: set[str] | set[int]
) -> None:
    """Make the rows of one person in a table of single values exactly these."""
    rows = store.query(f"SELECT {column} FROM {table} WHERE member_id = ?", (member_id,))
    had = {row[0] for row in rows}
    for value in sorted(had - wanted):
        store.run(f"DELETE FROM {table} WHERE member_id = ? AND {column} = ?", (member_id, value))
    for value in sorted(set[Any](wanted) - had):
        store.run(f"INSERT INTO {table} (member_id, {column}) VALUES (?, ?)", (member_id, value))
