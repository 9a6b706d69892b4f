"""Refusals of recipes in and out as files."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from stockroom.domain.cooking import Basis, MeasureMissing
from stockroom.errors import BadInput, NotFound
from stockroom.services import recipe_files
from stockroom.services.finding import Ambiguous
from stockroom.services.recipes import RecipeExists
from stockroom.services.session import Stockroom
from tests.services.cases_recipe_files import SOUP, reviews, with_peas
from tests.services.refusals.base import Refusal, nothing
from tests.world import World


def _file(content: bytes) -> Callable[[World], object]:
    return lambda world: world.path.with_name("page.html").write_bytes(content)


def _read(room: Stockroom) -> object:
    return recipe_files.read_recipe_file(room, room.path.with_name("page.html"))


def _twice(room: Stockroom) -> object:
    (soup,) = reviews(room)
    return recipe_files.import_recipes(room, (soup, soup))


def _import(**fields: object) -> Callable[[Stockroom], object]:
    return lambda room: recipe_files.import_recipes(room, reviews(room, {**SOUP, **fields}))


def _unknown_measure(room: Stockroom) -> object:
    (soup,) = reviews(room)
    cup = replace(soup.lines[0], basis=Basis.MEASURE, unit="cup")
    return recipe_files.import_recipes(room, (replace(soup, lines=(cup,)),))


def _two_soups(world: World) -> None:
    with_peas(world)
    world.recipe("Pea soup")
    world.recipe("Pea stew")


def _unknown_food(room: Stockroom) -> object:
    (soup,) = reviews(room)
    lines = (replace(soup.lines[0], name="Zander"), *soup.lines[1:])
    return recipe_files.import_recipes(room, (replace(soup, lines=lines),))


RECIPE_FILES = (
    Refusal(
        "recipe_files.read_recipe_file",
        recipe_files.RecipeFileUnreadable,
        nothing,
        lambda room: recipe_files.read_recipe_file(room, Path("no-such-page.html")),
        ("no-such-page.html", "no such file"),
    ),
    Refusal(
        "recipe_files.read_recipe_file",
        recipe_files.RecipeFileUnreadable,
        nothing,
        lambda room: recipe_files.read_recipe_file(room, room.path.parent),
        ("it is a folder",),
    ),
    Refusal(
        "recipe_files.read_recipe_file",
        recipe_files.RecipeFileTooLarge,
        _file(b" " * (recipe_files.MOST_BYTES + 1)),
        _read,
        ("page.html", "larger than 5 MB"),
    ),
    *(
        Refusal(
            "recipe_files.read_recipe_file",
            recipe_files.NotARecipeFile,
            _file(content),
            _read,
            facts,
        )
        for content, facts in (
            (b'{"@type": "Recipe",,}', ("page.html", "no JSON", "line 1, column 20")),
            (b'<script type="application/ld+json">{</script>', ("script 1 is no JSON",)),
            (b"\xff\xfe\x00", ("it is no text",)),
            (b"[" * 200_000, ("no JSON",)),
        )
    ),
    *(
        Refusal(
            "recipe_files.read_recipe_file",
            recipe_files.NoRecipeInFile,
            _file(content),
            _read,
            ("no schema.org Recipe", "page.html"),
        )
        for content in (b"", b"<p>Soup.</p>", b'{"@type": "WebPage"}', b"[]")
    ),
    Refusal(
        "recipe_files.import_recipes",
        recipe_files.NotDecided,
        with_peas,
        _import(recipeIngredient=["1 cup peas", "2 peas"]),
        ("Pea soup für Zoë", "line 1", "what one cup of", "and 1 more", "a food with an amount"),
    ),
    Refusal(
        "recipe_files.import_recipes",
        recipe_files.NotDecided,
        nothing,
        _import(recipeYield="1 loaf"),
        ("for how many it is was not said",),
    ),
    Refusal("recipe_files.import_recipes", RecipeExists, with_peas, _twice, ("already a recipe",)),
    Refusal(
        "recipe_files.import_recipes",
        BadInput,
        nothing,
        _import(name="x" * 81),
        ("recipe name", "at most 80"),
    ),
    Refusal(
        "recipe_files.import_recipes",
        MeasureMissing,
        with_peas,
        _unknown_measure,
        ("“cup” of Peas", "Weigh one cup"),
    ),
    Refusal(
        "recipe_files.recipes_to_write",
        Ambiguous,
        _two_soups,
        lambda room: recipe_files.recipes_to_write(room, ["pea"]),
        ("“pea”", "more than one recipe", "Pea soup, Pea stew"),
    ),
    Refusal("recipe_files.import_recipes", NotFound, with_peas, _unknown_food, ("“Zander”",)),
    Refusal(
        "recipe_files.import_recipes",
        BadInput,
        nothing,
        lambda room: recipe_files.import_recipes(room, ()),
        ("at least one recipe",),
    ),
    Refusal(
        "recipe_files.recipes_to_write",
        recipe_files.NoRecipesYet,
        nothing,
        recipe_files.recipes_to_write,
        ("no recipes",),
    ),
    Refusal(
        "recipe_files.recipes_to_write",
        NotFound,
        nothing,
        lambda room: recipe_files.recipes_to_write(room, ["cake"]),
        ("recipe", "“cake”"),
    ),
)
