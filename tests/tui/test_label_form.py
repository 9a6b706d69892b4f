"""Labels from the screens: for a package, a lot, a place; which sheet, and into what file."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader
from textual.app import App

from stockroom.services import packages
from stockroom.services.shelves import package_detail
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.label_form import LabelForm
from stockroom.tui.screens.labels import LabelsScreen
from stockroom.tui.screens.lot import LotScreen
from stockroom.tui.screens.package import PackageScreen
from stockroom.tui.screens.shelves import ShelvesScreen
from tests.tui.driving import Driver, driving
from tests.tui.screen_text import SIZES
from tests.world import PEAS, World

SameScreen = Callable[[App[Any], str], None]


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A home of the test's own, where labels usually go."""
    path = tmp_path / "home"
    path.mkdir()
    monkeypatch.setenv("HOME", str(path))
    return path


@pytest.fixture
def peas(world: World) -> tuple[str, ...]:
    """Two packages of one lot in the cellar, one in the loft."""
    world.places("cellar", "loft")
    lot = world.dry_lot(PEAS)
    cellar = world.pack(lot, "2xpouch-1500-foil:40,absorber=300", place="cellar")
    return (*cellar, *world.pack(lot, "1xpouch-1500-foil:40,absorber=300", place="loft"))


def codes_in(file: Path, codes: tuple[str, ...]) -> set[str]:
    """Which of these codes stand as words in a printed file."""
    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(file.read_bytes())).pages)
    return {code for code in codes if code in text.split()}


async def to_package(driver: Driver, code: str) -> None:
    """Open a package from the Shelves."""
    await driver.press("2", "slash", *code, "enter", "enter")
    assert isinstance(driver.screen, PackageScreen)


@pytest.mark.parametrize("size", SIZES)
async def test_the_form(
    world: World, peas: tuple[str, ...], size: tuple[int, int], same_screen: SameScreen
) -> None:
    async with driving(world, size) as driver:
        await to_package(driver, peas[0])
        await driver.press("L")
        assert isinstance(driver.screen, LabelForm)
        same_screen(driver.app, "label-form")
        await driver.press("escape")
        assert isinstance(driver.screen, PackageScreen)


async def test_two_keys_print_the_label_of_a_package(
    world: World, peas: tuple[str, ...], home: Path
) -> None:
    async with driving(world, notices=True) as driver:
        await to_package(driver, peas[0])
        await driver.press("L", "f9")
        assert isinstance(driver.screen, PackageScreen)
        assert "Wrote 1 label on 1 page (A4 3 × 8, 70 × 37 mm)" in driver.words
        assert "Print at actual size" in driver.words
    assert codes_in(home / "labels.pdf", peas) == {peas[0]}


async def test_the_labels_of_a_lot_on_another_sheet_from_another_place(
    world: World, peas: tuple[str, ...], tmp_path: Path
) -> None:
    file = tmp_path / "lot.pdf"
    async with driving(world) as driver:
        await driver.app.push_screen(LotScreen("26329A"))
        await driver.settle()
        await driver.press("L")
        await driver.press("enter")
        await driver.clear()
        await driver.enter("a4 2x7")
        await driver.clear()
        await driver.enter("14")
        await driver.clear()
        await driver.enter(str(file))
        assert isinstance(driver.screen, LotScreen)
    assert codes_in(file, peas) == set(peas)
    pages = PdfReader(io.BytesIO(file.read_bytes())).pages
    assert peas[0] in pages[0].extract_text() and peas[1] in pages[1].extract_text()


async def test_a_lot_gets_one_label_for_its_bin(
    world: World, peas: tuple[str, ...], home: Path
) -> None:
    async with driving(world) as driver:
        await driver.app.push_screen(LotScreen("26329A"))
        await driver.settle()
        await driver.press("L")
        await driver.clear()
        await driver.enter("lots")
        await driver.press("f9")
        assert isinstance(driver.screen, LotScreen)
    assert codes_in(home / "labels.pdf", (*peas, "26329A")) == {"26329A"}


async def test_a_lot_not_packed_yet_is_offered_its_bin_label_first(
    world: World, home: Path
) -> None:
    world.dry_lot(PEAS)
    async with driving(world) as driver:
        await driver.app.push_screen(LotScreen("26329A"))
        await driver.settle()
        await driver.press("L", "f9")
        assert isinstance(driver.screen, LotScreen)
    assert codes_in(home / "labels.pdf", ("26329A",)) == {"26329A"}


async def test_the_panel_prints_a_place_and_the_list_what_is_marked(
    world: World, peas: tuple[str, ...], home: Path
) -> None:
    file = home / "labels.pdf"
    async with driving(world, (100, 30)) as driver:
        await driver.press("2", "p", "down", "L")
        assert isinstance(driver.screen, LabelForm)
        assert "every package in cellar" in driver.words
        await driver.press("f9")
        assert isinstance(driver.screen, ShelvesScreen)
        assert codes_in(file, peas) == set(peas[:2])
        await driver.press("escape", "space", "down", "down", "space", "L", "f9")
        assert isinstance(driver.screen, ShelvesScreen)
    assert len(codes_in(file, peas)) == 2


async def test_the_words_after_packing_lead_to_the_print(world: World, home: Path) -> None:
    lot = world.dry_lot(PEAS)
    codes = world.pack(lot, "1xpouch-1500-foil,absorber=300")
    package = world.package(codes[0])
    async with driving(world) as driver:
        driver.app.push_screen(LabelsScreen(world.room, lot, [package], ["peas"]))
        await driver.settle()
        await driver.press("L", "f9")
        assert isinstance(driver.screen, LabelsScreen)
    assert codes_in(home / "labels.pdf", codes) == set(codes)


async def test_another_file_is_replaced_only_when_told_to(
    world: World, peas: tuple[str, ...], home: Path
) -> None:
    file = home / "labels.pdf"
    file.write_bytes(b"%PDF-1.4 a letter\n")
    async with driving(world) as driver:
        await to_package(driver, peas[0])
        await driver.press("L", "f9")
        assert isinstance(driver.screen, ConfirmScreen)
        await driver.press("escape")
        assert file.read_bytes() == b"%PDF-1.4 a letter\n"
        await driver.press("f9", "enter")
        assert isinstance(driver.screen, PackageScreen)
        assert codes_in(file, peas) == {peas[0]}
        await driver.press("L", "f9")
        assert isinstance(driver.screen, PackageScreen), "a sheet of ours gives way unasked"


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        (2, "25", "printing cannot start at number 25"),
        (2, "0", "a whole number from 1 to 3200"),
        (3, "~", "it is a folder"),
        (3, "", "the path of a file"),
    ],
)
async def test_a_refusal_keeps_what_was_typed(
    world: World, peas: tuple[str, ...], field: int, typed: str, said: str
) -> None:
    async with driving(world) as driver:
        await to_package(driver, peas[0])
        await driver.press("L", *["enter"] * field)
        await driver.clear()
        await driver.type(typed)
        await driver.press("f9")
        form = driver.screen
        assert isinstance(form, LabelForm)
        assert said in f"{form.fields[field].error} {driver.words}"
        assert form.fields[field].text == typed


async def test_a_gone_package_has_no_label_key(world: World, peas: tuple[str, ...]) -> None:
    packages.discard_packages(world.room, [peas[0]], "torn")
    async with driving(world) as driver:
        driver.app.push_screen(PackageScreen("round", package_detail(world.room, peas[0])))
        await driver.settle()
        await driver.press("L")
        assert isinstance(driver.screen, PackageScreen)
