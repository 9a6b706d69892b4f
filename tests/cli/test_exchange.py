"""The record out and in at the command line, and lists of packages."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from tests.cli.conftest import Cli

LIST = """\
Our larder,,,,,
Food,Dry weight (g),Water (mL),Bag,Sealed,Where
Leek soup,62.5,300,pouch-400-foil,01/13/2026,attic
"Peas, green, frozen, boiled",60,280,pouch-400-foil,01/14/2026,attic
"""
SOUP = ("--add-foods", "Leek soup=meal,cooked")


@pytest.fixture
def larder(tmp_path: Path) -> str:
    """A list as a spreadsheet writes it on Windows."""
    path = tmp_path / "larder.csv"
    path.write_bytes(LIST.replace("\n", "\r\n").encode("utf-8-sig"))
    return str(path)


def test_the_record_goes_out_and_makes_a_new_store(stocked: Cli, tmp_path: Path) -> None:
    file, new = str(tmp_path / "record.json"), str(tmp_path / "new.db")
    said = stocked("export", "--out", file).out
    assert said.startswith("Wrote ") and "package " in said
    assert "Took in the whole record" in stocked("import", file, "--store", new).out
    assert stocked("find", "--store", new, "--json").json == stocked("find", "--json").json
    assert stocked("undo", "--store", new, code=3).err.startswith("There is nothing to undo.")
    stocked("export", "--out", file, "--with-journal")
    stocked("import", file, "--store", str(tmp_path / "past.db"))
    assert "Undid" in stocked("undo", "--store", str(tmp_path / "past.db")).out


def test_a_store_that_is_there_and_a_later_version_are_refused(
    stocked: Cli, tmp_path: Path
) -> None:
    file = tmp_path / "record.json"
    stocked("export", "--out", str(file))
    before = stocked.path.read_bytes()
    assert "already a store" in stocked("import", str(file), code=3).err
    assert stocked.path.read_bytes() == before
    document = json.loads(file.read_text(encoding="utf-8"))
    for change, words in (({"version": 9}, "later version"), ({"format": "x"}, "no export")):
        file.write_text(json.dumps(document | change), encoding="utf-8")
        new = tmp_path / "new.db"
        assert words in stocked("import", str(file), "--store", str(new), code=3).err
        assert not new.exists()
    assert "only --store" in stocked("import", str(file), "--take", code=2).err


def test_no_other_file_is_written_over(stocked: Cli, tmp_path: Path) -> None:
    file, folder = tmp_path / "mine.json", tmp_path / "tables"
    folder.mkdir()
    for path, words in ((file, ()), (folder / "package.csv", ("--csv",))):
        path.write_text("mine", encoding="utf-8")
        target = str(file if path == file else folder)
        assert "left as it is" in stocked("export", "--out", target, *words, code=3).err
        assert path.read_text(encoding="utf-8") == "mine"
        assert [one.name for one in folder.iterdir()] in ([], ["package.csv"])
        stocked("export", "--out", target, *words, "--force")
        stocked("export", "--out", target, *words)
    assert "is the store itself" in stocked("export", "--out", str(stocked.path), code=3).err
    assert "folder is needed" in stocked("export", "--out", str(file), "--csv", code=3).err


def test_tables_go_out_as_csv(stocked: Cli, tmp_path: Path) -> None:
    folder = tmp_path / "tables"
    answer = stocked("export", "--out", str(folder), "--csv", "--json").json
    written = {path.stem for path in folder.iterdir()}
    assert {"package", "lot", "food", "journal"} <= written and "change" not in written
    assert {row["table"] for row in answer["tables"]} <= written
    one = stocked("export", "--out", "-", "--table", "package")
    rows = list(csv.DictReader(io.StringIO(one.out)))
    assert [(row["code"], row["dry_dg"]) for row in rows] == [
        ("26329A01E", "620"), ("26329A02C", "620"),
    ]  # fmt: skip
    assert one.err == "Wrote 2 rows of 1 table to standard output.\n"
    assert (folder / "package.csv").read_text(encoding="utf-8") == one.out
    whole = stocked("export", "--out", "-")
    assert len(whole.json["tables"]["package"]) == 2 and "standard output" in whole.err
    assert "There is no table" in stocked("export", "--out", "-", "--table", "pakage", code=3).err
    for words in (("--csv",), ("--json",)):
        assert "one file" in stocked("export", "--out", "-", *words, code=2).err


def test_a_list_is_looked_at_and_taken(stocked: Cli, larder: str) -> None:
    before = stocked("find", "--json").json
    looked = stocked("import", larder, "--what", "packages", *SOUP, "--add-places")
    assert "month first: 03/04/2025 is 2025-03-04" in looked.out
    assert "Nothing in a list shows how dry the food is" in looked.out
    assert "Nothing was taken: --take takes the list in." in looked.err
    assert stocked("find", "--json").json == before
    words = ("import", larder, "--what", "packages", *SOUP, "--add-places", "--take")
    done = stocked(*words, "--json").json
    assert done["done"] == "took in 2 packages in 2 lots from the list larder.csv"
    assert (done["dates"], done["problems"]) == ("month first: 03/04/2025 is 2025-03-04", [])
    found = {row["food"]: row for row in stocked("find", "--place", "attic", "--json").json}
    assert set(found) == {"Leek soup", "Peas, green, frozen, boiled"}
    shown = stocked("show", found["Leek soup"]["code"], "--json").json
    assert (shown["dry_dg"], shown["sealed_on"]) == (625, "2026-01-13")
    assert "Undid: took in 2 packages" in stocked("undo").out
    assert stocked("find", "--json").json == before


def test_what_stands_in_the_way_is_told_and_nothing_is_taken(stocked: Cli, larder: str) -> None:
    before = stocked("find", "--json").json
    answer = stocked("import", larder, "--what", "packages", "--take", code=1)
    assert answer.err.splitlines()[-1] == "Nothing was taken."
    found = stocked("import", larder, "--what", "packages", "--take", "--json", code=1).json
    assert [(one["line"], one["column"]) for one in found["problems"]] == [
        (3, "Food"), (3, "Where"), (4, "Where"),
    ]  # fmt: skip
    assert found["done"] is None
    assert stocked("find", "--json").json == before


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((), 2, "--what packages"),
        (("--what", "runs"), 2, "none of packages"),
        (("--what", "packages", "--dates", "ymd"), 2, "none of dmy, mdy"),
        (("--what", "packages", "--column", "food"), 2, "FIELD=HEADING"),
        (("--what", "packages", "--column", "food=Was"), 2, "a heading of the list"),
        (("--what", "packages", "--add-foods", "soup"), 2, "NAME=CLASS,PREPARATION"),
        (("--what", "packages", "--add-foods", "soup=hot,cooked"), 2, "nonfat_dairy"),
        (("--what", "packages", "--condition", "used"), 2, "none of settling, sound"),
    ],
)
def test_what_cannot_be_said_is_refused(
    stocked: Cli, larder: str, words: tuple[str, ...], code: int, said: str
) -> None:
    answer = stocked("import", larder, *words, code=code)
    assert said in answer.err and answer.out == ""


def test_a_file_that_cannot_be_read_is_named(stocked: Cli, tmp_path: Path) -> None:
    picture = tmp_path / "picture.png"
    picture.write_bytes(b"\x89PNG\0\0\0")
    for path, words in ((tmp_path / "none.csv", "No such file"), (picture, "is not text")):
        assert words in stocked("import", str(path), "--what", "packages", code=3).err
