"""The forms for a household's foods: a new one, and changes to one."""

from __future__ import annotations

from collections.abc import Sequence

from stockroom.domain.foods import Allergen, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.quantities import read_weight, show_weight
from stockroom.domain.records import Food
from stockroom.errors import BadInput
from stockroom.services import foods
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.tui.screens.run_forms import MOST_MATCHES, nearness, unit_word
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

NONE = "none"
ALLERGEN_HINT = "Such as milk, wheat; or none. Others: egg, fish, soybeans, peanuts …"

AS_LIKE = "Empty: as the one it is like."

PREPARATIONS = (
    Choice(Preparation.RAW.value, "raw", "must be cooked after adding water"),
    Choice(Preparation.COOKED.value, "cooked", "was cooked before drying"),
    Choice(Preparation.READY.value, "ready", "eaten as it is"),
)
FOOD_CLASSES = tuple(Choice(one.value, one.value.replace("_", " ")) for one in FoodClass)


def among(choices: Sequence[Choice]) -> Search:
    """Finds one of a few choices by the beginning of its name."""

    def search(letters: str) -> Sequence[Choice]:
        wanted = letters.strip().casefold()
        return [one for one in choices if one.label.startswith(wanted)]

    return search


def like_search(room: Stockroom) -> Search:
    """Finds reference foods by words of their name."""

    def search(letters: str) -> Sequence[Choice]:
        found = [food for food in foods.search_foods(room, letters) if not food.own]
        found.sort(key=lambda food: nearness(food.name, letters))
        return [Choice(food.name, food.name, food.preparation) for food in found[:MOST_MATCHES]]

    return search


def read_allergens(typed: str) -> tuple[Allergen, ...]:
    """Allergens from "milk, wheat" or "none". Raises BadInput with the nine names."""
    words = [word.strip().casefold() for word in typed.split(",") if word.strip()]
    if words == [NONE]:
        return ()
    found = [one for word in words for one in Allergen if one.words.startswith(word)]
    if not words or len(found) != len(words):
        names = ", ".join(one.words for one in Allergen)
        raise BadInput("allergens", typed, f"{NONE}, or some of: {names}")
    return tuple(dict.fromkeys(found))


def show_allergens(food: Food) -> str:
    """The allergens of a food as they would be typed; empty when nobody has said."""
    named = ", ".join(Allergen(one).words for one in food.allergens)
    return named or ("" if food.ingredients_unknown else NONE)


def add_form(room: Stockroom) -> FormScreen[Done]:
    """Asks for a new food; what it is like fills in what is not said."""
    units = room.units

    def add(answers: Answers) -> Done:
        serving = answers.text("serving").strip()
        allergens = answers.text("allergens").strip()
        like = answers.choice("like")
        food_class = _picked(answers, "class", FOOD_CLASSES)
        prepared = _picked(answers, "preparation", PREPARATIONS)
        return foods.add_food(
            room,
            answers.text("name"),
            like=str(like.key) if like else answers.text("like").strip() or None,
            food_class=FoodClass(food_class) if food_class else None,
            preparation=Preparation(prepared) if prepared else None,
            serving_dg=_serving(serving, room) if serving else None,
            allergens=read_allergens(allergens) if allergens else (),
            note=answers.text("note"),
        )

    return FormScreen(
        "New food",
        (
            Field("name", "Name", answers_to=("food name",)),
            Picker("like", "Like", like_search(room), hint="Takes its composition; may be empty.",
                   answers_to=("food",)),
            Picker("class", "Keeps as", among(FOOD_CLASSES), hint=AS_LIKE,
                   answers_to=("food class",)),
            Picker("preparation", "Prepared", among(PREPARATIONS), hint=AS_LIKE),
            Field("serving", "Serving", unit=unit_word(units), hint="As eaten, with its water."),
            Field("allergens", "Allergens", hint=ALLERGEN_HINT),
            Field("note", "Note"),
        ),
        add,
    )  # fmt: skip


def edit_form(room: Stockroom, food: Food) -> FormScreen[Done]:
    """Asks what to change about a food."""
    units = room.units
    prepared = next(one for one in PREPARATIONS if one.key == food.preparation)
    allergens_before = show_allergens(food)
    serving_before = show_weight(food.serving_dg, units)

    def change(answers: Answers) -> Done:
        allergens, serving = answers.text("allergens").strip(), answers.text("serving")
        preparation = _picked(answers, "preparation", PREPARATIONS)
        return foods.change_food(
            room,
            food.name,
            new_name=answers.text("name"),
            preparation=Preparation(preparation) if preparation else None,
            serving_dg=None if serving == serving_before else _serving(serving, room),
            allergens=None if allergens == allergens_before else read_allergens(allergens),
            note=answers.text("note"),
        )

    return FormScreen(
        f"Edit {food.name}",
        (
            Field("name", "Name", food.name, answers_to=("food name",)),
            Picker(
                "preparation", "Prepared", among(PREPARATIONS), prepared,
                hint="Lots made before keep what they had.",
            ),
            Field("serving", "Serving", serving_before, hint="As eaten, with its water."),
            Field("allergens", "Allergens", allergens_before, hint=ALLERGEN_HINT),
            Field("note", "Note", food.note),
        ),
        change,
    )  # fmt: skip


def _serving(typed: str, room: Stockroom) -> int:
    """The weight of a serving. Raises BadInput for nothing."""
    serving_dg = read_weight(typed, room.units, "serving")
    if not serving_dg:
        raise BadInput("serving", typed, "a weight above 0")
    return serving_dg


def _picked(answers: Answers, name: str, choices: Sequence[Choice]) -> str | None:
    """What was picked in a field, or None when it is empty. Raises BadInput for other letters."""
    key = answers.key(name)
    typed = answers.text(name).strip()
    if key is None and typed:
        raise BadInput(name, typed, f"one of {', '.join(one.label for one in choices)}")
    return None if key is None else str(key)
