"""Command lines and the codes they end with."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli

TABLE = (
    # Done, or an empty list that is a fair answer.
    (0, "round"),
    (0, "find"),
    (0, "find no-such-word"),
    (0, "show 26329A01"),
    (0, "show 26329A"),
    (0, "show 26329A01 --working"),
    (0, "move 26329A01 loft"),
    (0, "draw 26329A01 --servings 1/2"),
    (0, "check 26329A01 soft"),
    (0, "recheck list"),
    (0, "recheck settings"),
    (0, "queue"),
    (0, "lot hold 26329A"),
    (0, "recipe list"),
    (0, "household --people 4"),
    (0, "undo"),
    (0, "calc water --wet 1000 --dry 155"),
    (0, "calc code 26329A072"),
    # A negative answer.
    (1, "calc code 26329A073"),
    (1, "calc code NONSENSE"),
    # Wrong use.
    (2, "run"),
    (2, "nonsense"),
    (2, "--nonsense"),
    (2, "find --nonsense"),
    (2, "show"),
    (2, "show 26329A01 26329A02"),
    (2, "show what"),
    (2, "calc code ?"),
    (2, "calc water --wet 1000"),
    (2, "calc water --wet 1000 --dry much"),
    (2, "draw 26329A01 --grams 1 --servings 1"),
    (2, "draw 26329A01 --grams -1"),
    (2, "draw 26329A01 --servings 0"),
    (2, "draw 26329A01 --grams 0"),
    (2, "check 26329A01 crunchy"),
    (2, "check crisp"),
    (2, "check"),
    (2, "check 26329A01 crisp --from -"),
    (2, "run test 1 smell ok"),
    (2, "run more soon"),
    (2, "run again 1"),
    (2, "decide 26329A01 --feel crunchy"),
    (2, "decide"),
    (2, "hold"),
    (2, "repack 26329A01"),
    (2, "recheck settings --days xday"),
    (2, "pack 26329A --into 1xjar-475:10 --packet Oct"),
    (2, "find --order size"),
    (2, "find --condition fine"),
    (2, "pack 26329A"),
    (2, "pack 26329A --into six-pouches"),
    (2, "run show 0"),
    (2, "run show 99999999999999999999"),
    (2, "household --people 0"),
    (2, "household --units stones"),
    (2, "place put loft"),
    (2, "place put loft cellar --top"),
    (2, "place set loft"),
    (2, "place add ''"),
    (2, "food add Stew"),
    (2, "food add Stew --class meal"),
    (2, "food edit Stew --allergen wheat --no-allergens"),
    (2, "recipe add Soup"),
    (2, "recipe add Soup --stored peas"),
    (2, "cook Soup --short"),
    (2, "journal --count 0"),
    # Refused, or not there.
    (3, "show 26329A99"),
    (3, "show 26329A012"),
    (3, "show 26329Z"),
    (3, "move 26329A01 nowhere"),
    (3, "draw 26329A01 --grams 63"),
    (3, "draw 26329A01 --servings 50"),
    (3, "pack 26329A --into 1xpouch-1500-foil:100"),
    (3, "pack 26329A --into 1xsack"),
    (3, "pack 26329A --into 1xpouch-1500-foil:62 --despite x"),
    (3, "run test 1 cold ok"),
    (3, "run more 4"),
    (3, "run again 1 26329A01"),
    (3, "lot release 26329A"),
    (3, "decide 26329A01"),
    (3, "hold 26329A01"),
    (3, "repack 26329A77 --into 1xjar-475"),
    (3, "recheck show 26329A01"),
    (3, "recheck settings --first 90"),
    (3, "check --from /nowhere/walk"),
    (3, "run show 12"),
    (3, "run close"),
    (3, "place remove 'rack 1'"),
    (3, "place put cellar 'cellar/rack 1'"),
    (3, "place add loft"),
    (3, "food search pea --store /nowhere.db"),
    (3, "food edit Stew --serving 200"),
    (3, "recipe show Soup"),
    (3, "recipe remove Soup"),
    (3, "cook Soup"),
    (3, "redo"),
    (3, "calc water --wet 100 --dry 155"),
    (3, "calc water --wet 100 --dry 50 --use 60"),
    (3, "calc water --wet 100 --dry 0"),
    (3, ""),
)


@pytest.mark.parametrize(("code", "line"), TABLE, ids=lambda one: str(one) or "no words")
def test_a_command_line_ends_with_its_code(stocked: Cli, code: int, line: str) -> None:
    import shlex

    answer = stocked(*shlex.split(line), code=code)
    assert "Traceback" not in answer.out + answer.err
    if code > 1:
        assert answer.out == ""
        first, *_ = answer.err.splitlines()
        assert first.strip()


@pytest.mark.parametrize(
    ("code", "line"), [row for row in TABLE if row[0] > 1], ids=lambda one: str(one) or "no words"
)
def test_what_went_wrong_is_told_in_a_sentence_and_a_next_step(
    stocked: Cli, code: int, line: str
) -> None:
    import shlex

    lines = stocked(*shlex.split(line), code=code).err.splitlines()
    if line == "run":  # a group alone shows its page of help
        return
    assert len(lines) == 2, lines
    assert all(one.endswith((".", "?")) for one in lines), lines


def test_a_refused_command_changes_nothing(stocked: Cli) -> None:
    import shlex

    before = stocked("journal", "--json").out
    for code, line in TABLE:
        if code > 1:
            stocked(*shlex.split(line), code=code)
    assert stocked("journal", "--json").out == before
