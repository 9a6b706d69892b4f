"""The figures of the full model: whole, as the tables have them, and damage told."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from stockroom.domain.keeping.figures import VARIED, Quantity
from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.keeping.shown import UNITS
from stockroom.reference import keeping_figures as loader
from stockroom.reference import tables
from stockroom.reference.keeping_figures import keeping_figures
from stockroom.reference.tables import ReferenceDamaged, Row, read_table

DATA = Path(tables.__file__).parent / "data"
ENDS = ("pessimistic", "middle", "optimistic")


def rows_of(name: str) -> list[dict[str, str]]:
    """A table read without the loader under test."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_every_class_and_package_is_there_once() -> None:
    known = keeping_figures()
    assert [one.food_class for one in known.classes] == list(FoodClass)
    assert [one.package_kind for one in known.barriers] == list(PackageKind)


def test_the_figures_are_those_of_the_tables() -> None:
    by_class = {one.food_class: one for one in keeping_figures().classes}
    checked = 0
    for row in rows_of("class_figures"):
        if row["quantity"].startswith("gab"):
            continue
        figure = getattr(by_class[FoodClass(row["food_class"])], row["quantity"])
        spread = (figure.spread.pessimistic, figure.spread.middle, figure.spread.optimistic)
        assert spread == tuple(float(row[end]) for end in ENDS)
        assert figure.standing.value == row["standing"]
        assert figure.source.key == row["source"]
        checked += 1
    assert checked == len(FoodClass) * 4


def test_pessimistic_to_optimistic_never_turns_round() -> None:
    # What lengthens a life rises, what shortens it falls.
    rising = {
        Quantity.LIFE_WITHOUT_OXYGEN,
        Quantity.LIFE_IN_AIR,
        Quantity.OXYGEN_TOLERANCE,
        Quantity.CRISP_LIMIT,
    }
    known = keeping_figures()
    figures = [
        figure
        for one in (*known.classes, *known.barriers)
        for name in (
            *("life_without_oxygen", "life_in_air", "oxygen_tolerance", "crisp_limit"),
            *("oxygen_transmission", "vapour_transmission", "lid_oxygen", "lid_vapour"),
        )
        if (figure := getattr(one, name, None)) is not None
    ]
    figures += [known.q10, known.room_humidity, known.first_activity, known.stated_temperature]
    for figure in figures:
        spread = figure.spread
        values = [spread.pessimistic, spread.middle, spread.optimistic]
        assert values == sorted(values, reverse=figure.quantity not in rising), figure


def test_what_holds_for_all_classes() -> None:
    # Engineering judgement, each with its anchors in the sources.
    known = keeping_figures()
    assert (known.q10.spread.pessimistic, known.q10.spread.optimistic) == (3.0, 1.6)
    assert known.room_humidity.spread.middle == 0.55
    assert known.residual_moisture.spread.middle == 0.03
    assert (known.opened.spread.middle, known.reclosed.spread.middle) == (14, 60)
    assert known.absorber_sizes_cc == (50, 100, 200, 300, 500, 1000, 2000)


def test_films_and_lids_exclude_each_other() -> None:
    for one in keeping_figures().barriers:
        is_jar = one.package_kind is PackageKind.JAR
        assert (one.lid_oxygen is not None) is (one.lid_vapour is not None) is is_jar
        assert (one.oxygen_transmission is None) is (one.vapour_transmission is None) is is_jar


def test_every_quantity_has_words_and_a_unit() -> None:
    assert all(quantity.words for quantity in Quantity)
    assert set(UNITS) == set(Quantity)
    assert len(VARIED) == len(Quantity) - 1


@pytest.mark.parametrize(
    ("table", "change", "said"),
    [
        ("class_figures", lambda rows: rows[1:], "life_without_oxygen is missing"),
        ("class_figures", lambda rows: (rows[0], *rows), "stands there twice"),
        ("barriers", lambda rows: rows[1:], "needs both figures"),
        ("keeping_figures", lambda rows: rows[1:], "q10 is missing"),
        ("opened_lives", lambda rows: rows[1:], "open is missing"),
        (
            "class_figures",
            lambda rows: tuple(
                {**row, "middle": "8"} if row["quantity"] == "gab_monolayer" else row
                for row in rows
            ),
            "isotherm of fruit cannot be",
        ),
    ],
    ids=["class row missing", "row doubled", "barrier torn", "no q10", "not opened", "swapped"],
)
def test_damage_is_told(
    table: str, change: object, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def torn(name: str) -> tuple[Row, ...]:
        rows = read_table(name)
        return tuple(change(rows)) if name == table else rows  # type: ignore[operator]

    monkeypatch.setattr(loader, "read_table", torn)
    with pytest.raises(ReferenceDamaged, match=said):
        keeping_figures.__wrapped__()
