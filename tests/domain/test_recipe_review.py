"""What each line of a recipe becomes: proposals, questions, and what a person decides."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from stockroom.domain.cooking import Basis
from stockroom.domain.ingredient_text import read_ingredient
from stockroom.domain.kitchen_records import FoodMeasure
from stockroom.domain.recipe_ld import RecipeDraft
from stockroom.domain.recipe_review import (
    LONGEST_NAME,
    LONGEST_STEPS,
    STEPS_CUT,
    Fate,
    KnownFood,
    LineReview,
    RecipeReview,
    as_food,
    as_fresh,
    as_water,
    kept_words,
    left_out,
    proposed,
    review_of,
    with_line,
)
from stockroom.services import names


def measure(food: str, name: str, basis: str) -> FoodMeasure:
    """One measure of a food, 100 g."""
    return FoodMeasure(1, 1, food, name, basis, 1_000)


PEAS = KnownFood("Peas, green", (measure("Peas, green", "cup", "fresh"),))
CORN = KnownFood("Sweetcorn", (measure("Sweetcorn", "cup", "dry"),))
APPLE = KnownFood("Apple, raw")
FOODS = (PEAS, CORN, APPLE)


def line(text: str) -> LineReview:
    """A line with its proposal."""
    return proposed(1, read_ingredient(text), FOODS)


def review(*lines: str, serves: int | None = 4, steps: str = "") -> RecipeReview:
    """A recipe of these lines."""
    read = tuple(read_ingredient(one) for one in lines)
    return review_of(RecipeDraft("Soup", serves, "", read, steps, "", False, ()), FOODS)


@pytest.mark.parametrize(
    ("text", "fate", "name", "basis", "amount", "unit"),
    [
        ("150 g peas", Fate.STORED, "Peas, green", Basis.FRESH, 150, None),
        ("1 cup (150 g) peas, thawed", Fate.STORED, "Peas, green", Basis.FRESH, 150, None),
        ("20 g freeze-dried peas", Fate.STORED, "Peas, green", Basis.DRY, 20, None),
        ("1 1/2 cups peas", Fate.STORED, "Peas, green", Basis.MEASURE, Fraction(3, 2), "cup"),
        ("1 cup freeze-dried sweetcorn", Fate.STORED, "Sweetcorn", Basis.MEASURE, 1, "cup"),
        ("2 onions, diced", Fate.FRESH, "onions, diced", None, 2, None),
        ("salt to taste", Fate.FRESH, "salt, to taste", None, None, None),
        ("apple juice", Fate.FRESH, "apple juice", None, None, None),
        ("500 ml warm water", Fate.WATER, "water", None, Fraction(4991, 10), None),
        ("2 lb water", Fate.WATER, "water", None, Fraction(9072, 10), None),
        ("water", Fate.FRESH, "water", None, None, None),
        ("For the top:", Fate.LEFT_OUT, "For the top:", None, None, None),
    ],
)
def test_a_line_is_proposed_as_what_it_most_likely_is(
    text: str, fate: Fate, name: str, basis: Basis | None, amount: object, unit: str | None
) -> None:
    """500 mL of water at 20 °C weigh 499.1 g (998.207 kg/m3)."""
    one = line(text)
    assert (one.fate, one.name, one.basis, one.amount, one.unit) == (
        fate, name, basis, amount, unit,
    )  # fmt: skip
    assert one.question == ""


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        (
            "1 cup apples",
            "what one cup of Apple, raw weighs is not known: weigh one, and give grams",
        ),
        ("2 apples", "what one piece of Apple, raw weighs is not known: weigh one"),
        ("1 cup sweetcorn", "one cup of Sweetcorn was weighed, but not fresh: weigh one fresh"),
        ("apples", "how much of Apple, raw is not said: give a weight or servings"),
    ],
)
def test_what_nobody_weighed_stays_a_question(text: str, asked: str) -> None:
    one = line(text)
    assert one.fate is Fate.STORED and one.amount is None
    assert one.question.startswith(asked)
    assert one.problems[0] == one.question


def test_a_question_is_answered_by_the_person() -> None:
    one = line("1 cup apples")
    assert as_food(one, APPLE, Basis.FRESH, Fraction(110)).question == ""
    served = as_food(one, APPLE, Basis.SERVINGS, Fraction(2))
    assert (served.basis, served.amount, served.question) == (Basis.SERVINGS, 2, "")
    assert as_food(one, PEAS).unit == "cup"
    assert as_food(line("150 g apples"), PEAS, Basis.DRY).amount == 150
    assert as_food(line("150 g apples"), PEAS, Basis.SERVINGS).question != ""
    fresh = as_fresh(one)
    assert (fresh.name, fresh.amount, fresh.unit, fresh.question) == ("apples", 1, "cup", "")
    assert left_out(one).question == ""


def test_water_that_says_no_amount_asks_for_one() -> None:
    asked = as_water(line("water as needed"))
    assert asked.fate is Fate.WATER and "how much water" in asked.question
    assert as_water(asked, Fraction(250)).question == ""


def test_waters_add_up_apart_from_the_ingredients() -> None:
    whole = review("500 ml water", "100 g water", "salt")
    assert whole.cooking_water_dg == 5_991
    assert whole.questions == ()
    assert review("500 ml water").questions == ("it has no ingredients",)


def test_what_stands_open_is_listed_in_order() -> None:
    whole = replace(review("1 cup apples", "salt", serves=None), name=" ")
    assert whole.questions == (
        "it has no name",
        "for how many it is was not said",
        "line 1: what one cup of Apple, raw weighs is not known: weigh one, and give grams",
    )
    decided = with_line(whole, as_fresh(whole.lines[0]))
    assert [one.name for one in decided.lines] == ["apples", "salt"]
    assert len(decided.questions) == 2


def test_words_that_have_no_place_go_into_the_steps() -> None:
    whole = review("1 cup (150 g) peas, thawed", "150 g peas", "2 eggs", "For it:", steps="Boil.")
    dropped = with_line(whole, left_out(whole.lines[2]))
    assert kept_words(dropped) == (
        "In the recipe: 1 cup (150 g) peas, thawed",
        "In the recipe: 2 eggs",
    )
    assert dropped.steps.splitlines()[0] == "Boil."


def test_a_long_item_is_shortened_and_stands_whole_in_the_steps() -> None:
    text = "1 cup " + "very " * 20 + "old cheese"
    whole = review(text)
    (one,) = whole.lines
    assert len(one.name) <= LONGEST_NAME and one.name.endswith("very…")
    assert "shortened" in one.problems[-1]
    assert whole.steps == f"In the recipe: {text}"
    assert len(review("1 " + "x" * 200).lines[0].name) == LONGEST_NAME


def test_steps_too_long_are_cut_at_a_line_and_said() -> None:
    whole = review("salt", steps="\n".join(["Stir it for a while."] * 200))
    assert len(whole.steps) <= LONGEST_STEPS
    assert whole.steps.endswith("Stir it for a while.\n…")
    assert STEPS_CUT in whole.lost
    assert len(review("salt", steps="x" * 5_000).steps) == LONGEST_STEPS


def test_the_limits_are_those_of_the_book() -> None:
    assert (LONGEST_NAME, LONGEST_STEPS) == (names.LONGEST_NAME, names.LONGEST_NOTE)


def test_an_amount_that_cannot_be_read_counts_as_lost() -> None:
    assert review("1,500 g salt").lost == (
        "line 1: 1,500 can be read two ways: write it without the comma or with a point",
    )
    assert review("2-3 eggs").lost == ()


def test_a_food_of_another_household_is_asked_for() -> None:
    one = line("240 g Zander, raw (fresh weight), freeze-dried")
    assert (one.fate, one.name, one.amount) == (Fate.STORED, "Zander, raw", 240)
    assert one.question == "there is no food of this name here: choose one"
    chosen = as_food(one, APPLE)
    assert (chosen.basis, chosen.amount, chosen.question) == (Basis.FRESH, 240, "")
    known = line("240 g PEAS, green (dry weight), freeze-dried")
    assert (known.name, known.basis, known.question) == ("Peas, green", Basis.DRY, "")
    counted = line("2 mug of Peas, green, freeze-dried")
    assert counted.question.startswith("what one mug of Peas, green weighs is not known")
