"""Recipes in from a file and out again by commands."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Cli
from tests.domain.recipe_pages import BANANA_BREAD, CHOWDER_PAGE
from tests.services.cases_recipe_files import SOUP
from tests.world import PEAS


@pytest.fixture
def soup(tmp_path: Path) -> str:
    """A file of one recipe that can be taken as it is proposed."""
    path = tmp_path / "soup.json"
    path.write_text(json.dumps(SOUP), encoding="utf-8")
    return str(path)


@pytest.fixture
def page(tmp_path: Path) -> str:
    """A saved page of two recipes, with a broken script before them."""
    path = tmp_path / "page.html"
    path.write_text(CHOWDER_PAGE, encoding="utf-8")
    return str(path)


def names(cli: Cli) -> list[str]:
    """The recipes in the book."""
    return [row["name"] for row in cli("recipe", "list", "--json").json]


def test_a_review_says_what_each_line_becomes_and_keeps_nothing(stocked: Cli, soup: str) -> None:
    answer = stocked("recipe", "import", soup)
    for words in ("150 g peas, thawed", "150.0 g fresh", "cooking water", "1 1/2 tbsp", "serves"):
        assert words in answer.out
    assert "Nothing was kept: --take writes it in the book." in answer.err
    assert names(stocked) == []


def test_take_writes_it_in_the_book(stocked: Cli, soup: str) -> None:
    answer = stocked("recipe", "import", soup, "--take", "--name", "Green soup", "--serves", "6")
    assert answer.lines[0] == "Imported the recipe Green soup."
    found = stocked("recipe", "show", "Green soup", "--json").json
    assert (found["serves"], found["cooking_water_dg"]) == (6, 4_991)
    assert [(one["food"], one["weight_dg"], one["item"]) for one in found["lines"]] == [
        (PEAS, 1_500, None), (None, None, "oil"), (None, None, "salt, to taste"),
    ]  # fmt: skip
    stocked("undo")
    assert names(stocked) == []


def test_lines_are_decided_by_number_and_by_words(stocked: Cli, page: str) -> None:
    found = stocked(
        "recipe", "import", page, "--only", "1", "--map", f"wine={PEAS}=62 g dry", "--fresh", "1",
        "--water", "top=200 g", "--leave-out", "cod", "--json", code=1,
    ).json  # fmt: skip
    (recipe,) = found["recipes"]
    assert [(one["becomes"], one["name"], one["amount"]) for one in recipe["lines"]] == [
        ("fresh", "peas, 150 g, thawed", 1),
        ("food", PEAS, 62),
        ("cooking water", "water", 499.1),
        ("cooking water", "water", 200),
        ("left out", "2 lbs cod – in chunks", None),
        ("fresh", "salt, to taste", None),
    ]
    assert recipe["lines"][1]["basis"] == "dry"
    assert recipe["cooking_water_dg"] == 6_991


def test_a_line_may_be_mapped_without_an_amount(stocked: Cli, page: str) -> None:
    lines = stocked(
        "recipe", "import", page, "--only", "1", "--map", "1=peas", "--map", f"2={PEAS}",
        "--json", code=1,
    ).json["recipes"][0]["lines"]  # fmt: skip
    assert (lines[0]["name"], lines[0]["amount"], lines[0]["basis"]) == (PEAS, 150, "fresh")
    assert "weigh one" in lines[1]["problems"][0]


def test_what_stands_open_ends_with_1_and_is_refused_to_be_taken(
    stocked: Cli, tmp_path: Path
) -> None:
    path = tmp_path / "bread.html"
    path.write_text(BANANA_BREAD, encoding="utf-8")
    answer = stocked("recipe", "import", str(path), code=1)
    assert "for how many it is was not said" in answer.out
    assert "of 3 or 4 the larger is taken" in answer.out
    assert "“LowFatDiet” is not taken over" in answer.out
    refused = stocked("recipe", "import", str(path), "--take", code=3)
    assert "cannot be taken yet" in refused.err and refused.out == ""
    stocked("recipe", "import", str(path), "--serves", "8")
    stocked("recipe", "import", str(path), "--serves", "8", "--take")
    assert names(stocked) == ["Mom's World Famous Banana Bread"]


def test_several_recipes_are_all_reviewed_and_decided_one_by_one(stocked: Cli, page: str) -> None:
    answer = stocked("recipe", "import", page, code=1)
    for words in ("Recipe 1 of 2", "Recipe 2 of 2", "Cod & pea chowder", "Toast", "script 1"):
        assert words in answer.out
    refused = stocked("recipe", "import", page, "--name", "Soup", code=2)
    assert "holds 2 recipes" in refused.err and "--only N" in refused.err
    assert "from 1 to 2" in stocked("recipe", "import", page, "--only", "3", code=2).err
    stocked("recipe", "import", page, "--take")
    assert names(stocked) == ["Cod & pea chowder", "Toast"]
    stocked("undo")
    assert names(stocked) == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--map", "1"), "LINE=FOOD"),
        (("--map", "1=Zander"), "one of your foods"),
        (("--map", "1=Zander=4 g"), "one of your foods"),
        (("--map", "1=peas=lots"), "a weight such as"),
        (("--map", "99=peas"), "the number of a line"),
        (("--fresh", "nothing like it"), "the number of a line"),
        (("--fresh", "a"), "the number of a line"),
        (("--fresh", ""), "the number of a line"),
        (("--leave-out", "0"), "the number of a line"),
        (("--water", "1=a splash"), "a weight such as"),
        (("--serves", "0"), "1<=x<=1000"),
        (("--only", "2"), "from 1 to 1"),
    ],
)
def test_what_cannot_be_read_is_said_and_nothing_taken(
    stocked: Cli, soup: str, words: tuple[str, ...], said: str
) -> None:
    answer = stocked("recipe", "import", soup, "--take", *words, code=2)
    assert said in " ".join(answer.err.split())
    assert names(stocked) == []


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (None, "there is no such file"),
        ("", "no schema.org Recipe"),
        ("dear reader", "no schema.org Recipe"),
        ('{"@type": "Recipe"', "is no JSON"),
        ('{"@type": "Movie"}', "no schema.org Recipe"),
    ],
)
def test_a_file_without_a_recipe_is_refused(
    stocked: Cli, tmp_path: Path, content: str | None, said: str
) -> None:
    path = tmp_path / "page.html"
    if content is not None:
        path.write_text(content, encoding="utf-8")
    assert said in stocked("recipe", "import", str(path), code=3).err


def test_a_name_that_is_taken_asks_for_another(stocked: Cli, soup: str) -> None:
    stocked("recipe", "import", soup, "--take")
    refused = stocked("recipe", "import", soup, "--take", code=3)
    assert "already a recipe" in refused.err and "another name" in refused.err


def test_control_characters_of_a_file_never_reach_the_terminal(
    stocked: Cli, tmp_path: Path
) -> None:
    path = tmp_path / "page.json"
    node = {**SOUP, "name": "S\x1b[31mp", "recipeIngredient": ["1 g \x1b]0;x\x07salt"]}
    path.write_text(json.dumps(node), encoding="utf-8")
    assert "\x1b" not in stocked("recipe", "import", str(path)).out
    assert "\x1b" not in stocked("recipe", "import", str(path), "--take").out


def test_recipes_are_written_and_read_back(stocked: Cli, soup: str, tmp_path: Path) -> None:
    stocked("recipe", "import", soup, "--take")
    out = str(tmp_path / "book.json")
    answer = stocked("recipe", "export", "--out", out, "--json").json
    assert (answer["file"], answer["recipes"]) == (out, ["Pea soup für Zoë"])
    before = stocked("recipe", "show", "Pea soup", "--json").json
    stocked("recipe", "remove", "Pea soup")
    stocked("recipe", "import", out, "--take")
    assert stocked("recipe", "show", "Pea soup", "--json").json == before
    assert stocked("recipe", "export", "Pea soup", "--out", out).lines == [
        f"Wrote 1 recipe to {out}."
    ]


def test_another_file_is_replaced_only_when_told_to(
    stocked: Cli, soup: str, tmp_path: Path
) -> None:
    stocked("recipe", "import", soup, "--take")
    path = tmp_path / "letters.txt"
    path.write_text("dear reader", encoding="utf-8")
    refused = stocked("recipe", "export", "--out", str(path), code=3)
    assert "no recipe file of stockroom's" in refused.err
    assert path.read_text(encoding="utf-8") == "dear reader"
    stocked("recipe", "export", "--out", str(path), "--force")
    assert json.loads(path.read_bytes())["name"] == "Pea soup für Zoë"
    stocked("recipe", "export", "--out", str(path))


def test_a_file_may_go_to_standard_output(stocked: Cli, soup: str) -> None:
    stocked("recipe", "import", soup, "--take")
    answer = stocked("recipe", "export", "--out", "-")
    assert answer.json["@type"] == "Recipe"
    assert "Wrote 1 recipe to standard output." in answer.err
    assert "leave out --json" in stocked("recipe", "export", "--out", "-", "--json", code=2).err
    stocked("recipe", "remove", "Pea soup")
    assert "no recipes" in stocked("recipe", "export", "--out", "-", code=3).err
