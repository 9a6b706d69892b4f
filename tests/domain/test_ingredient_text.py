"""Ingredient lines: amounts, units, items and notes, and that no volume becomes a weight."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.domain.ingredient_amounts import exact, written_number
from stockroom.domain.ingredient_text import LONGEST_LINE, read_ingredient
from stockroom.domain.ingredient_units import GRAMS, KNOWN, MILLILITRES, same_unit

LINES = [
    ("1.5 cups flour", "3/2", "cups", "flour", "", None),
    ("1,5 kg peas", "3/2", "kg", "peas", "", 15_000),
    ("1/2 cup sugar", "1/2", "cup", "sugar", "", None),
    ("½ cup sugar", "1/2", "cup", "sugar", "", None),
    ("1 ½ cups milk", "3/2", "cups", "milk", "", None),
    ("1½ pounds ground lamb", "3/2", "pounds", "ground lamb", "", 6_804),
    ("1-1/2 cups oats", "3/2", "cups", "oats", "", None),
    ("1 and 1/2 cups water", "3/2", "cups", "water", "", None),
    ("a pinch of salt", "1", "pinch", "salt", "", None),
    ("Pinch of salt", "1", "Pinch", "salt", "", None),
    ("half a lemon", "1/2", None, "lemon", "", None),
    ("two eggs", "2", None, "eggs", "", None),
    ("3/4 cup of sugar", "3/4", "cup", "sugar", "", None),
    ("1 cup (150 g) peas", "1", "cup", "peas", "150 g", 1_500),
    ("1 cup (about 5 oz) peas, thawed", "1", "cup", "peas", "about 5 oz, thawed", 1_417),
    ("peas, thawed", None, None, "peas", "thawed", None),
    ("Peas", None, None, "Peas", "", None),
    ("1  large onion (diced)", "1", None, "large onion", "diced", None),
    ("1 lb 3 oz beef", "19", "oz", "beef", "", 5_386),
    ("2 x 400 g tins tomatoes", "800", "g", "tins tomatoes", "", 8_000),
    ("1 (14 oz) can beans", "1", "can", "beans", "14 oz", 3_969),
    ("150g/5oz peas", "150", "g", "peas", "5oz", 1_500),
    ("Pasta 100g", "100", "g", "Pasta", "", 1_000),
    ("about 2 cups rice", "2", "cups", "rice", "about", None),
    ("2 heaped tbsp. cocoa", "2", "tbsp", "cocoa", "heaped", None),
    ("12 fl oz beer", "12", "fl oz", "beer", "", None),
    ("2 l milk", "2", "l", "milk", "", None),
    ("2 large eggs", "2", None, "large eggs", "", None),
    ("a few sprigs of thyme", None, "sprigs", "thyme", "a few", None),
    ("salt to taste", None, None, "salt", "to taste", None),
    ("- 2 carrots", "2", None, "carrots", "", None),
    ("4 cups", "4", None, "cups", "", None),
]


@pytest.mark.parametrize(("text", "amount", "unit", "item", "note", "weight_dg"), LINES)
def test_a_line_is_taken_apart(
    text: str, amount: str | None, unit: str | None, item: str, note: str, weight_dg: int | None
) -> None:
    read = read_ingredient(text)
    assert (read.amount, read.unit) == (None if amount is None else Fraction(amount), unit)
    assert (read.item, read.note, read.weight_dg) == (item, note, weight_dg)
    assert read.remarks == ()


@pytest.mark.parametrize(
    ("text", "amount", "item", "said"),
    [
        ("2-3 carrots", 3, "carrots", "of 2-3 the larger is taken"),
        ("1 to 2 tsp. salt", 2, "salt", "of 1 to 2 the larger is taken"),
        ("3 or 4 ripe bananas, smashed", 4, "ripe bananas", "of 3 or 4 the larger is taken"),
        ("2 – 3 carrots", 3, "carrots", "the larger is taken"),
        ("1,500 g peas", None, "1,500 g peas", "can be read two ways"),
        ("1/0 cup milk", None, "1/0 cup milk", "1/0 is no number"),
        ("0 g salt", None, "salt", "nothing or beyond belief"),
        ("99999999 g salt", None, "salt", "nothing or beyond belief"),
        ("200 kg salt", 200, "salt", "above 100 kg"),
        ("2 (400 g) tins beans", 2, "beans", "each or in all cannot be told"),
        ("2 cans (400 g) beans", 2, "beans", "each or in all cannot be told"),
        ("1 cup plus 2 tbsp flour", 1, "plus 2 tbsp flour", "only the first is read"),
    ],
)
def test_what_is_doubtful_is_said(text: str, amount: int | None, item: str, said: str) -> None:
    read = read_ingredient(text)
    assert (read.amount, read.item) == (amount, item)
    assert said in " ".join(read.remarks)
    if "cannot be told" in said or "belief" in said or "100 kg" in said:
        assert read.weight_dg is None


def test_a_heading_is_known_by_its_colon() -> None:
    assert read_ingredient("For the filling:").is_heading
    assert not read_ingredient("2 eggs:").is_heading


@pytest.mark.parametrize("unit", sorted(MILLILITRES))
def test_a_volume_never_becomes_a_weight(unit: str) -> None:
    read = read_ingredient(f"2 {unit} peas")
    assert (read.item, read.weight_dg, read.quantity) == ("peas", None, "volume")


@pytest.mark.parametrize("unit", sorted(GRAMS))
def test_weights_are_what_another_library_makes_of_them(unit: str) -> None:
    """Against pint's own definitions."""
    named = {"gr": "gram", "kilo": "kilogram", "kilos": "kilogram", "gramme": "gram",
             "grammes": "gram", "lbs": "pound"}  # fmt: skip
    grams = pint.UnitRegistry().Quantity(3, named.get(unit, unit)).to("gram").magnitude
    assert read_ingredient(f"3 {unit} peas").weight_dg == pytest.approx(grams * 10, abs=0.5)


@pytest.mark.parametrize(
    ("unit", "name"),
    [("cup", "cup"), ("tbsp", "tablespoon"), ("tsp", "teaspoon"), ("fl oz", "fluid_ounce"),
     ("pint", "pint"), ("quart", "quart"), ("ml", "milliliter"), ("l", "liter")],
)  # fmt: skip
def test_volumes_are_what_another_library_makes_of_them(unit: str, name: str) -> None:
    """Against pint's own definitions, which are US customary."""
    read = read_ingredient(f"3 {unit} milk")
    volume = pint.UnitRegistry().Quantity(3, name).to("milliliter").magnitude
    assert read.volume_ml is not None
    assert float(read.volume_ml) == pytest.approx(volume, rel=1e-9)


def test_units_of_one_size_are_the_same() -> None:
    assert same_unit("Cups", "cup") and same_unit("tablespoon", "tbsp.")
    assert not same_unit("cup", "pint") and not same_unit("scoop", "scoops of")


@given(st.text(max_size=LONGEST_LINE * 2))
@settings(max_examples=150)
def test_any_text_is_read_without_a_fault(text: str) -> None:
    read = read_ingredient(text)
    assert read.text == " ".join(text.split())
    assert read.amount is None or read.amount > 0
    assert read.item or not read.text


@given(
    st.fractions(min_value=Fraction(1, 8), max_value=9999, max_denominator=8),
    st.sampled_from([*sorted(KNOWN), ""]),
)
@settings(max_examples=150)
def test_what_is_written_plainly_is_read_as_it_was(amount: Fraction, unit: str) -> None:
    thousandth = Fraction(int(amount * 1000), 1000)
    read = read_ingredient(" ".join(f"{written_number(thousandth)} {unit} turnips".split()))
    assert (read.amount, read.unit or "", read.item) == (thousandth, unit, "turnips")


@given(st.integers(1, 10**9))
def test_a_number_of_thousandths_reads_back(thousandths: int) -> None:
    assert exact(written_number(Fraction(thousandths, 1000))) == Fraction(thousandths, 1000)
