"""Labels by their command: onto a sheet in a file, as lines, and the household's own sheets."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from stockroom.domain.units import Cup
from stockroom.services.household import change_household
from tests.cli.conftest import Cli
from tests.reports.test_label_sheet import decoded
from tests.world import BEEF_RAW, World


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Where the labels go."""
    return tmp_path / "labels.pdf"


def words(file: Path) -> list[str]:
    """Every word of every page."""
    pages = PdfReader(io.BytesIO(file.read_bytes())).pages
    return [word for page in pages for word in page.extract_text().split()]


def test_a_lot_is_printed_on_the_usual_sheet(stocked: Cli, file: Path) -> None:
    answer = stocked("label", "26329A", "--out", str(file))
    assert answer.out == f"Wrote 2 labels on 1 page (A4 3 × 8, 70 × 37 mm) to {file}.\n"
    assert answer.err == (
        "Print at actual size, without fitting to the page."
        " The next free label of the last page is number 3.\n"
    )
    assert {"26329A01E", "26329A02C"} <= set(words(file))


def test_a_household_with_us_units_prints_on_letter(stocked: Cli, file: Path) -> None:
    stocked("household", "--units", "us")
    assert "US Letter" in stocked("label", "26329A01", "--out", str(file)).out
    box = PdfReader(io.BytesIO(file.read_bytes())).pages[0].mediabox
    assert (float(box.width), float(box.height)) == (612, 792)


def test_packages_lots_and_places_each_once_in_the_order_named(stocked: Cli, file: Path) -> None:
    line = ("label", "26329A02", "26329A", "--place", "cellar", "--out", str(file), "--json")
    answer = stocked(*line)
    assert answer.err == ""
    assert [one["code"] for one in answer.json["labels"]] == ["26329A02C", "26329A01E"]
    assert answer.json["file"] == str(file)
    assert answer.json["findings"] == []
    first = answer.json["labels"][0]
    assert (first["page"], first["place"], first["cut"], first["left_out"]) == (1, 1, [], [])


def test_labels_of_lots_for_their_bins(stocked: Cli, file: Path) -> None:
    stocked("label", "26329A01", "--place", "cellar", "--bins", "--out", str(file))
    assert words(file).count("26329A") == 1 and "26329A01E" not in words(file)


def test_sheet_start_and_nudge(stocked: Cli, file: Path) -> None:
    line = ("label", "26329A", "--out", str(file), "--sheet", "a4 2x7", "--start", "14")
    answer = stocked(*line, "--nudge", "-0.5,1", "--json").json
    assert answer["sheet"] == "A4 2 × 7, 99.1 × 38.1 mm"
    assert [(one["page"], one["place"]) for one in answer["labels"]] == [(1, 14), (2, 1)]


def test_single_labels_of_a_size(stocked: Cli, file: Path) -> None:
    answer = stocked("label", "26329A", "--out", str(file), "--size", "4 x 2 in").out
    assert answer.startswith("Wrote 2 labels on 2 pages (101.6 × 50.8 mm)")
    assert stocked("label", "26329A01", "--out", str(file), "--size", "70x40").err.endswith(
        "without fitting to the page.\n"
    )


def test_standard_output_gets_the_bytes_and_standard_error_the_words(
    stocked: Cli, file: Path
) -> None:
    stocked("label", "26329A", "--out", str(file))
    command = [sys.executable, "-W", "error", "-m", "stockroom", "--today", stocked.today]
    environment = {**os.environ, "PYTHONIOENCODING": "latin-1:backslashreplace"}
    done = subprocess.run(
        [*command, "label", "26329A", "--out", "-"],
        capture_output=True, check=True, timeout=60, env=environment,
    )  # fmt: skip
    assert done.stdout == file.read_bytes()
    assert b"Wrote 2 labels" in done.stderr


def test_what_did_not_fit_is_said_beside_the_answer(stocked: Cli, file: Path) -> None:
    answer = stocked("label", "26329A", "--out", str(file), "--size", "40x22")
    assert "For lack of room on 2 labels: servings left out." in answer.err
    assert "left out" not in answer.out


@pytest.mark.parametrize(
    ("line", "code", "said"),
    [
        ("label 26329A99 --out F", 3, "There is no package “26329A99”"),
        ("label 26329A01Z --out F", 3, "mistyped"),
        ("label --place loft --out F", 3, "There is no package left in loft"),
        ("label 26329A --out F --start 25", 3, "The sheet has 24 labels"),
        ("label 26329A --out F --size 20x20", 3, "does not fit on 20 × 20 mm"),
        ("label 26329A --out F --size 16x90", 3, "Take labels of"),
        ("label 26329A --out F --sheet nothing", 3, "There is no label sheet “nothing”"),
        ("label 26329A --out F --nudge 11,0", 3, "A nudge of 11 mm"),
        ("label 26329A --out F --nudge 1", 2, "nudge: “1” cannot be read"),
        ("label 26329A --out F --font F", 2, "font"),
        ("label 26329A --out F --size wide", 2, "size: “wide” cannot be read"),
        ("label 26329A --out F --start 0", 2, "--start"),
        ("label --out F", 2, "Name packages or lots"),
        ("label 26329A", 2, "--out FILE, or --lines"),
        ("label 26329A --out F --lines", 2, "--lines goes to standard output"),
        ("label 26329A --out F --width 30", 2, "--width is for --lines"),
        ("label 26329A --out F --size 70x37 --sheet a4", 2, "not both"),
        ("label 26329A --out - --json", 2, "leave out --json"),
        ("sheet save x --size 64x34 --columns 4 --rows 8", 3, "past the right edge"),
        ("sheet save x --size 64x34 --columns 3 --rows 8 --left far", 2, "left: “far”"),
        ("sheet remove x", 3, "There is no label sheet “x”"),
    ],
)
def test_refusals_say_what_is_wrong_and_write_nothing(
    stocked: Cli, file: Path, line: str, code: int, said: str
) -> None:
    answer = stocked(*line.replace("F", str(file)).split(), code=code)
    assert answer.out == ""
    assert said in answer.err
    assert not file.exists()


def test_a_gone_package_is_refused_by_name(stocked: Cli, file: Path) -> None:
    stocked("discard", "26329A01", "--why", "torn")
    answer = stocked("label", "26329A01", "--out", str(file), code=3)
    assert "26329A01E" in answer.err and "discarded" in answer.err
    stocked("label", "26329A", "--out", str(file))
    assert "26329A01E" not in words(file) and "26329A02C" in words(file)


def test_another_file_is_left_alone_unless_forced(stocked: Cli, file: Path) -> None:
    file.write_bytes(b"%PDF-1.4 a letter\n")
    answer = stocked("label", "26329A", "--out", str(file), code=3)
    assert "no label sheet of stockroom's" in answer.err and "--force" in answer.err
    assert file.read_bytes() == b"%PDF-1.4 a letter\n"
    stocked("label", "26329A", "--out", str(file), "--force")
    stocked("label", "26329A01", "--out", str(file))
    assert "26329A02C" not in words(file), "an earlier sheet of ours gives way unasked"


def test_the_store_is_never_replaced(stocked: Cli) -> None:
    answer = stocked("label", "26329A", "--out", str(stocked.path), "--force", code=3)
    assert "is the store itself" in answer.err


def test_lines_to_write_by_hand(stocked: Cli) -> None:
    answer = stocked("label", "26329A", "--lines")
    first, second = answer.out.split("\n\n")
    assert first.splitlines() == [
        "Peas, green, frozen, boiled",
        "26329A01E",
        "made and packed 2026-11-25",
        "best by 2031-05-25 (quality estimate)",
        "add 338.0 g water, about 1½ US cups",
        "4.7 servings · 62.0 g dry",
        "cooked before drying",
        "absorber inside is not food: remove it",
    ]
    assert "26329A02C" in second and answer.err == ""
    narrow = stocked("label", "26329A01", "--lines", "--width", "20").lines
    assert all(len(line) <= 20 for line in narrow) and narrow[0] == "Peas, green, frozen…"
    found = stocked("label", "26329A01", "--lines", "--json").json
    assert [one["code"] for one in found] == ["26329A01E"]
    assert found[0]["lines"] == first.splitlines()


def test_the_household_s_cup_is_named(stocked: Cli, world: World) -> None:
    change_household(world.room, cup=Cup.LABEL)
    assert "1½ label cups" in stocked("label", "26329A01", "--lines", "--width", "60").out


def test_raw_food_names_its_least_temperature(cli: Cli, world: World) -> None:
    """USDA FSIS: minced meat 160 °F; a lot does not say whether its meat was minced."""
    world.packed(BEEF_RAW, "1xjar-475,absorber=100")
    text = cli("label", "26329A", "--lines", "--width", "80").out
    assert "RAW: cook after rehydrating, to 160 °F (71.1 °C) in the middle" in text


def test_own_sheets_are_saved_used_changed_removed_and_undone(stocked: Cli, file: Path) -> None:
    line = ("sheet", "save", "Freezer [2]", "--size", "64x34", "--columns", "3", "--rows", "8",
            "--left", "8", "--top", "0.5 in", "--across", "1")  # fmt: skip
    assert "Saved the label sheet Freezer [2]" in stocked(*line).out
    assert stocked(*line, code=3).err.startswith("The sheet “Freezer [2]” has these measures")
    rows = stocked("sheet", "list", "--json").json
    assert rows[0]["sheet"] == "Freezer [2]" and rows[0]["own"] is True
    assert (rows[0]["left_um"], rows[0]["top_um"], rows[0]["labels"]) == (8_000, 12_700, 24)
    assert len(rows) == 9
    made = stocked("label", "26329A", "--out", str(file), "--sheet", "freez", "--json").json
    assert made["sheet"] == "Freezer [2]"
    changed = ("sheet", "save", "freezer [2]", "--size", "64x34", "--columns", "2", "--rows", "8")
    assert "Changed the label sheet freezer [2]" in stocked(*changed).out
    assert len(stocked("sheet", "list", "--json").json) == 9
    stocked("undo")
    assert stocked("sheet", "list", "--json").json[0]["columns"] == 3
    stocked("sheet", "remove", "Freezer [2]")
    assert len(stocked("sheet", "list", "--json").json) == 8
    stocked("undo")
    assert len(stocked("sheet", "list", "--json").json) == 9


def test_a_sheet_of_inches_on_letter(stocked: Cli) -> None:
    stocked("sheet", "save", "cards", "--page", "letter", "--size", "4 x 3 in", "--columns", "2",
            "--rows", "3", "--left", "0.25in", "--top", "1 in")  # fmt: skip
    text = stocked("sheet", "list", "--csv").lines[1]
    assert text == "cards,yes,6,6.35,25.4,0,0,101.6,76.2,2,3,215.9,279.4"


def test_a_printed_code_finds_its_package(stocked: Cli, file: Path) -> None:
    """From the shelf back to the record: what a scanner sends is what `show` takes."""
    import pypdfium2

    stocked("label", "26329A01", "--out", str(file))
    page = pypdfium2.PdfDocument(file.read_bytes())[0]
    (symbol,) = decoded(page.render(scale=4).to_pil())
    assert stocked("show", symbol.text, "--json").json["code"] == "26329A01E"
