"""The small grammars of the command line."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.cli.exact import read_grams, read_percent
from stockroom.cli.reading import (
    named_measure,
    read_fresh,
    read_hold_back,
    read_loss,
    read_stored,
    read_swap,
)
from stockroom.domain.cooking import Basis
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import BadInput
from stockroom.services.kitchen import LineRequest
from stockroom.services.packing import LossReason

METRIC, US = UnitSystem.METRIC, UnitSystem.US


@pytest.mark.parametrize(
    ("typed", "units", "meant"),
    [
        ("12:tasted", METRIC, (120, LossReason.TASTED)),
        ("12.34 g : Spilt", METRIC, (123, LossReason.SPILT)),
        ("rest:unaccounted", METRIC, (None, LossReason.UNACCOUNTED)),
        (" REST :DISCARDED ", METRIC, (None, LossReason.DISCARDED)),
        # 1 oz is 28.349523125 g by definition.
        ("1:tasted", US, (283, LossReason.TASTED)),
    ],
)
def test_a_loss_is_read(
    typed: str, units: UnitSystem, meant: tuple[int | None, LossReason]
) -> None:
    assert read_loss(typed, units) == meant


@pytest.mark.parametrize(
    "typed", ["", ":", "12", "12:", ":tasted", "12:eaten", "all:tasted", "-1:spilt"]
)
def test_what_is_no_loss_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_loss(typed, METRIC)


@pytest.mark.parametrize(
    ("typed", "units", "food", "basis", "amount"),
    [
        ("Peas=240 g fresh", METRIC, "Peas", Basis.FRESH, Fraction(240)),
        ("Peas=240g fresh", METRIC, "Peas", Basis.FRESH, Fraction(240)),
        ("Peas=240", METRIC, "Peas", Basis.FRESH, Fraction(240)),
        ("Peas = 60.5 g DRY", METRIC, "Peas", Basis.DRY, Fraction(121, 2)),
        ("Peas=2 servings", METRIC, "Peas", Basis.SERVINGS, Fraction(2)),
        ("Peas=1 1/2 servings", METRIC, "Peas", Basis.SERVINGS, Fraction(3, 2)),
        ("Peas=1 serving", US, "Peas", Basis.SERVINGS, Fraction(1)),
        ("a=b=1 kg dry", METRIC, "a=b", Basis.DRY, Fraction(1000)),
        ("Peas=8 oz dry", METRIC, "Peas", Basis.DRY, Fraction("226.8")),
        ("Peas=8 dry", US, "Peas", Basis.DRY, Fraction("226.8")),
    ],
)
def test_a_food_from_the_shelves_is_read(
    typed: str, units: UnitSystem, food: str, basis: Basis, amount: Fraction
) -> None:
    assert read_stored(typed, units) == LineRequest(food=food, basis=basis, amount=amount)


@pytest.mark.parametrize(
    ("typed", "amount", "unit", "held"),
    [
        ("Peas=2 cups", Fraction(2), "cups", None),
        ("Peas=1/2 cup, hold 20 %", Fraction(1, 2), "cup", 20),
        ("Peas=1 1/2 big scoops hold back 0", Fraction(3, 2), "big scoops", 0),
        ("Peas=2 gg", Fraction(2), "gg", None),
    ],
)
def test_a_measure_is_read_with_its_own_share_held_back(
    typed: str, amount: Fraction, unit: str, held: int | None
) -> None:
    assert read_stored(typed, METRIC) == LineRequest(
        food="Peas", basis=Basis.MEASURE, amount=amount, unit=unit, hold_back_percent=held
    )


def test_a_weight_may_have_a_share_held_back() -> None:
    read = read_stored("Peas=240 g fresh; hold 100%", METRIC)
    assert read == LineRequest(
        food="Peas", basis=Basis.FRESH, amount=Fraction(240), hold_back_percent=100
    )


@pytest.mark.parametrize(
    "typed",
    [
        "Peas=1,500 g", "Peas=200 kg", "Peas=2 lb 17 oz", "Peas=-2 cups", "Peas=0 cups",
        "Peas=1,500 cups", "Peas=2 cups fresh", "Peas=2 servings hold", "Peas=hold 20 %",
        "Peas=60 g dry hold 20.5 %", "Peas=60 g dry hold ٢٠", "Peas=60 g dry hold 101",
    ],
)  # fmt: skip
def test_a_weight_or_a_share_that_cannot_be_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_stored(typed, METRIC)


@pytest.mark.parametrize(
    ("typed", "percent"), [("0", 0), ("30", 30), (" 25 % ", 25), ("100%", 100)]
)
def test_a_share_held_back_is_read(typed: str, percent: int) -> None:
    assert read_hold_back(typed) == percent


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("cups", "Cup"), ("CUP", "Cup"), ("scoops", "scoop"), ("Boxes", "box"),
        ("tbsp", "tablespoon"), ("jug", "jug"), ("s", "s"),
    ],
)  # fmt: skip
def test_a_measure_is_known_by_its_plural_and_its_short_form(typed: str, meant: str) -> None:
    assert named_measure(typed, ("Cup", "scoop", "box", "tablespoon")) == meant


def test_a_swap_names_a_food_of_the_recipe_and_any_other() -> None:
    foods = ("Peas, green", "Peas", "a=b", "Leek, raw")
    assert read_swap("peas = Green beans", foods) == ("Peas", "Green beans")
    assert read_swap("leek=Peas", foods) == ("Leek, raw", "Peas")
    assert read_swap("a=b=c=d", foods) == ("a=b", "c=d")
    assert read_swap("A=c", ("a=b", "apple")[:1]) == ("a=b", "c")
    for typed in ("", "=", "Peas", "Peas=", "=Peas", "Kale=Peas", "p=x"):
        with pytest.raises(BadInput):
            read_swap(typed, foods)
    with pytest.raises(BadInput):
        read_swap("Peas=x", ())


@pytest.mark.parametrize(
    "typed",
    ["", "Peas", "Peas=", "=240 g", "Peas=fresh", "Peas=some", "Peas=0 servings", "Peas=servings"],
)
def test_what_is_no_food_from_the_shelves_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_stored(typed, METRIC)


@pytest.mark.parametrize(
    ("typed", "item", "amount", "unit"),
    [
        ("salt", "salt", None, None),
        ("onion=2", "onion", Fraction(2), None),
        ("onion=2 each", "onion", Fraction(2), "each"),
        ("stock=1/2 cup", "stock", Fraction(1, 2), "cup"),
        ("stock=1 1/2 cups", "stock", Fraction(3, 2), "cups"),
        ("oil=15mL", "oil", Fraction(15), "mL"),
        ("oil=1,5 dl", "oil", Fraction(3, 2), "dl"),
        ("a=b=1 jar [big]", "a=b", Fraction(1), "jar [big]"),
    ],
)
def test_a_fresh_ingredient_is_read(
    typed: str, item: str, amount: Fraction | None, unit: str | None
) -> None:
    assert read_fresh(typed) == LineRequest(item=item, amount=amount, unit=unit)


@pytest.mark.parametrize(
    "typed", ["onion=", "=2", "onion=two", "onion=-1", "onion=0", "onion=1/0 cup"]
)
def test_what_is_no_fresh_ingredient_is_refused(typed: str) -> None:
    with pytest.raises(BadInput):
        read_fresh(typed)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(typed: str) -> None:
    for read in (
        lambda text: read_loss(text, US),
        lambda text: read_stored(text, METRIC),
        read_fresh,
        lambda text: read_swap(text, ("a=b", "Peas")),
        read_hold_back,
    ):
        try:
            read(typed)
        except BadInput as refused:
            assert refused.message and refused.hint and "\n" not in refused.message


@given(st.decimals(min_value=0, max_value=99_999, places=5))
def test_grams_are_read_exactly(value: object) -> None:
    assert read_grams(f"{value} g", "weight") == Fraction(str(value))


def test_percentages_are_read_exactly() -> None:
    assert read_percent("79.52", "water") == Fraction("79.52")
    assert read_percent("79,5 %", "water") == Fraction("79.5")
    for typed in ("", "101", "-1", "half", "79.5 g", "nan"):
        with pytest.raises(BadInput):
            read_percent(typed, "water")
