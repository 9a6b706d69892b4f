"""Recipes in and out as files: `recipe import` and `recipe export`."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from stockroom.cli import diagnostics, output
from stockroom.cli.base import Command
from stockroom.cli.options import json_form, number
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from stockroom.domain.quantities import UnitSystem
    from stockroom.domain.recipe_review import (
        ImportPreview,
        KnownFood,
        LineReview,
        RecipeReview,
    )

STANDARD_OUTPUT = "-"
_LINE_ACCEPTED = "the number of a line, or words that only one line has"


@click.command("import", cls=Command)
@click.argument("file", metavar="FILE")
@click.option(
    "--map", "foods", multiple=True, metavar="LINE=FOOD[=AMOUNT]",
    help="A line is a food of yours: “2=Peas” or “2=Peas=150 g fresh”.",
)  # fmt: skip
@click.option("--fresh", multiple=True, metavar="LINE", help="A line is not from the shelves.")
@click.option(
    "--water", multiple=True, metavar="LINE[=WEIGHT]", help="A line is the pot's cooking water."
)
@click.option("--leave-out", "dropped", multiple=True, metavar="LINE", help="A line is left out.")
@click.option("--name", metavar="TEXT", help="Its name in your book.")
@click.option("--serves", type=number(1, 1000), metavar="N", help="For how many it is.")
@click.option(
    "--only",
    type=number(),
    metavar="N",
    help="Of several recipes, the one of this number.",
)
@click.option("--take", is_flag=True, help="Write it in the book; without this it is only shown.")
@json_form
@click.pass_obj
def import_recipe(
    wishes: Wishes,
    file: str,
    foods: tuple[str, ...],
    fresh: tuple[str, ...],
    water: tuple[str, ...],
    dropped: tuple[str, ...],
    name: str | None,
    serves: int | None,
    only: int | None,
    take: bool,
    form: str | None,
) -> int:
    """Bring in recipes from a file of schema.org JSON-LD, or a saved page that holds it.

    Shows each line with what was read of it and what it becomes; nothing is kept without --take.
    LINE is the number of a line, or words that only one line has. A cup or a piece of a food of
    yours is not turned into grams by itself: weigh one. Ends with 1 when something could not be
    read or is still to be decided, and nothing was taken.

    \b
    stockroom recipe import soup.html
    stockroom recipe import soup.html --map "2=Peas=150 g fresh" --fresh onion --take
    """
    from stockroom.reports.recipe_files import import_report
    from stockroom.services.recipe_files import import_recipes, known_foods, read_recipe_file
    from stockroom.services.written_files import path_of

    with wishes.room() as room:
        units, known = room.units, known_foods(room)
        preview = _chosen(read_recipe_file(room, path_of(file)), only)
        decisions = [
            *(_mapped(text, known, units) for text in foods),
            *((_line_words(text), _fresh) for text in fresh),
            *(_watered(text, units) for text in water),
            *((_line_words(text), _left_out) for text in dropped),
        ]
        preview = _decided(preview, decisions, name, serves)
        done = import_recipes(room, preview.recipes) if take else None
        output.show(import_report(preview, units, done), form, units)
    if done is not None:
        return 0
    if form is None:
        diagnostics.tell("Nothing was kept: --take writes it in the book.")
    open_ends = any(one.questions or one.lost for one in preview.recipes)
    return 1 if open_ends or preview.troubles else 0


def _chosen(preview: ImportPreview, only: int | None) -> ImportPreview:
    """The file with the one recipe that was asked for. Raises BadInput."""
    from stockroom.errors import BadInput

    if only is None:
        return preview
    if only > len(preview.recipes):
        raise BadInput("recipe", str(only), f"a number from 1 to {len(preview.recipes)}")
    return replace(preview, recipes=(preview.recipes[only - 1],))


def _decided(
    preview: ImportPreview,
    decisions: Sequence[tuple[str, Callable[[LineReview], LineReview]]],
    name: str | None,
    serves: int | None,
) -> ImportPreview:
    """The file with what was said of it; of several recipes nothing can be said at once."""
    from stockroom.domain.recipe_review import with_line

    if not decisions and name is None and serves is None:
        return preview
    if len(preview.recipes) > 1:
        raise click.UsageError(
            f"The file holds {len(preview.recipes)} recipes: say which with --only N.",
            click.get_current_context(),
        )
    review = next(iter(preview.recipes))
    for words, decide in decisions:
        review = with_line(review, decide(_find_line(review, words)))
    review = replace(
        review,
        name=review.name if name is None else name,
        serves=review.serves if serves is None else serves,
    )
    return replace(preview, recipes=(review,))


def _find_line(review: RecipeReview, words: str) -> LineReview:
    """The line of this number, or the only one that has the words. Raises BadInput."""
    from stockroom.domain.quantities import unreadable

    if words.isascii() and words.isdigit():
        found = [line for line in review.lines if line.place == int(words[:9])]
    else:
        found = [line for line in review.lines if words.casefold() in line.read.text.casefold()]
    if not words or len(found) != 1:
        raise unreadable("line", words, _LINE_ACCEPTED)
    return found[0]


def _line_words(text: str) -> str:
    return text.strip()


def _fresh(line: LineReview) -> LineReview:
    from stockroom.domain.recipe_review import as_fresh

    return as_fresh(line)


def _left_out(line: LineReview) -> LineReview:
    from stockroom.domain.recipe_review import left_out

    return left_out(line)


def _watered(text: str, units: UnitSystem) -> tuple[str, Callable[[LineReview], LineReview]]:
    """A line that is water, with its weight if that is said. Raises BadInput."""
    from fractions import Fraction

    from stockroom.domain.quantities import read_weight
    from stockroom.domain.recipe_review import as_water

    words, equals, weight = text.rpartition("=")
    if not equals:
        return text.strip(), as_water
    grams = Fraction(read_weight(weight, units, "water"), 10)
    return words.strip(), lambda line: as_water(line, grams)


def _mapped(
    text: str, known: Sequence[KnownFood], units: UnitSystem
) -> tuple[str, Callable[[LineReview], LineReview]]:
    """A line that is a food of the household, with its amount if that is said. Raises BadInput."""
    from stockroom.cli.reading import named_measure, read_stored
    from stockroom.domain.quantities import unreadable
    from stockroom.domain.recipe_review import as_food

    words, equals, rest = text.partition("=")
    # A food's own name may hold an equals sign.
    whole = _food_of(rest, known, near="=" not in rest)
    if whole is not None:
        return words.strip(), lambda line: as_food(line, whole)
    if not equals or "=" not in rest:
        raise unreadable("--map", text, f"LINE=FOOD with a food of yours; {_names(rest, known)}")
    asked = read_stored(rest, units)
    food = _food_of(asked.food or "", known)
    if food is None:
        raise unreadable("food", asked.food or "", _names(asked.food or "", known))
    if asked.hold_back_percent is not None:
        raise unreadable("--map", text, "it without hold; recipe edit takes that")
    if asked.unit is None:
        return words.strip(), lambda line: as_food(line, food, asked.basis, asked.amount)
    unit = named_measure(asked.unit, (one.name for one in food.measures))
    return words.strip(), lambda line: replace(
        as_food(line, food, asked.basis, asked.amount), unit=unit
    )


def _food_of(name: str, known: Sequence[KnownFood], *, near: bool = True) -> KnownFood | None:
    """The food of this name, or with `near` the only one near enough to be it."""
    from stockroom.domain.food_match import ENOUGH, suggestions

    wanted = name.strip().casefold()
    same = [one for one in known if one.name.casefold() == wanted]
    if same or not near:
        return same[0] if same else None
    found = [one for one in suggestions(name, (one.name for one in known)) if one.score >= ENOUGH]
    return next(one for one in known if one.name == found[0].food) if len(found) == 1 else None


def _names(name: str, known: Sequence[KnownFood]) -> str:
    """What is near a name, for an error."""
    from stockroom.domain.food_match import suggestions

    near = [one.food for one in suggestions(name, (one.name for one in known))]
    return f"one of your foods, such as {' or '.join(near)}" if near else "one of your foods"


@click.command("export", cls=Command)
@click.argument("names", metavar="[RECIPE]...", nargs=-1)
@click.option(
    "--out", "file", required=True, metavar="FILE", help="The file to write; - for standard output."
)
@click.option("--force", is_flag=True, help="Replace the file even if it is something else.")
@json_form
@click.pass_obj
def export_recipes(
    wishes: Wishes, names: tuple[str, ...], file: str, force: bool, form: str | None
) -> None:
    """Write recipes as schema.org JSON-LD, all of them when none is named.

    Other programs read the file. Grams of stored foods are written in words, as “240 g Peas (fresh
    weight), freeze-dried”, and `recipe import` reads them back as the same lines. Water held back
    and what a dish is cooked to have no place in such a file.

    \b
    stockroom recipe export "Pea soup" --out pea-soup.json
    """
    from stockroom.reports.recipe_files import (
        KIND,
        is_our_recipe_file,
        recipe_file,
        written_report,
        written_words,
    )
    from stockroom.services.recipe_files import recipes_to_write
    from stockroom.services.written_files import check_target, path_of, write_file

    if file == STANDARD_OUTPUT and form is not None:
        raise click.UsageError(
            "The file itself goes to standard output: leave out --json.",
            click.get_current_context(),
        )
    with wishes.room() as room:
        recipes = recipes_to_write(room, names)
        if file == STANDARD_OUTPUT:
            output.write_bytes(recipe_file(recipes))
            diagnostics.tell(written_words(recipes, "standard output"))
            return
        path = path_of(file)
        check_target(room, path, KIND, is_ours=is_our_recipe_file, replace=force)
        write_file(path, recipe_file(recipes))
        output.show(written_report(recipes, str(path)), form)
