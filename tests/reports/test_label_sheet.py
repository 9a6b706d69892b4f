"""Printed labels: every code read back at its printed size, every word as it is on record.

Symbols are decoded by ZXing-C++ from pages drawn by PDFium, and the text is taken out by pypdf:
none of them had a part in the writing.
"""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from fractions import Fraction
from importlib.util import find_spec
from pathlib import Path
from typing import Any, cast

import pypdfium2
import pytest
import zxingcpp
from pypdf import PdfReader

from stockroom.domain.foods import Allergen
from stockroom.domain.labels.content import PackageFacts, lot_label, package_label
from stockroom.domain.labels.layout import QUIET_MODULES, SYMBOL_MODULES, layout
from stockroom.domain.labels.least import TextDoesNotFit
from stockroom.domain.labels.lengths import read_size
from stockroom.domain.labels.sheets import BUILT_IN, Nudge, Sheet, StartOffSheet, single_label
from stockroom.domain.labels.statements import Label
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Food, Lot, Package
from stockroom.domain.units import Cup
from stockroom.errors import BadInput
from stockroom.reports.label_fonts import Fonts, needs_shaping
from stockroom.reports.label_sheet import PrintedLabels, is_our_label_sheet, label_pdf

DPI = 300
DAY = date(2026, 11, 25)
A4_24 = BUILT_IN[0]

FOOD = Food(
    food_id=1, name="Peas", reference_key=None, food_group="vegetable", food_class="vegetable",
    preparation="cooked", serving_dg=850, water_cg=7_900, energy_tenth_kcal=None, protein_cg=None,
    fat_cg=None, ash_cg=None, carbohydrate_cg=None, fibre_cg=None, sugars_cg=None,
    ingredients_unknown=False, note="", allergens=(),
)  # fmt: skip
PACKAGE = Package(
    package_id=1, code="26329A01E", lot_id=1, lot_code="26329A", food_id=1,
    food="Peas, green, frozen, boiled", food_class="vegetable", preparation="cooked",
    container="foil pouch 1.5 L", container_key="pouch-1500-foil", package_kind="foil_pouch",
    volume_ml=1500, absorber_cc=300, vacuum=False, vacuum_tenth_inhg=None, dry_dg=620,
    water_dg=3380, taken_dg=0, taken_water_dg=0, serving_dg=850, made_on=date(2026, 11, 20),
    sealed_on=DAY, place_id=None, place="", condition="settling", opened_on=None, gone_on=None,
    best_by=date(2034, 11, 25), note="",
)  # fmt: skip
NO_FONTS = Fonts(folders=())
"""Only the font that comes along, whatever this machine has."""


def label_of(package: Package = PACKAGE, food: Food = FOOD, **more: Any) -> Label:
    """The label of a package."""
    facts = {"discard_by": None, "units": UnitSystem.METRIC, **more}
    return package_label(PackageFacts(package, food, **facts))


def coded(count: int) -> list[Label]:
    """Labels that differ by their codes."""
    return [label_of(replace(PACKAGE, code=f"26329A{number:03d}K")) for number in range(count)]


def printed(labels: list[Label], sheet: Sheet = A4_24, **more: Any) -> PrintedLabels:
    """A file of labels in the font that comes along."""
    return label_pdf(labels, sheet, DAY, **{"fonts": NO_FONTS, **more})


def texts(made: PrintedLabels) -> list[str]:
    """The text of each page, line breaks as spaces."""
    pages = PdfReader(io.BytesIO(made.content)).pages
    return [" ".join(page.extract_text().split()) for page in pages]


def pictures(made: PrintedLabels, dpi: int = DPI) -> list[Any]:
    """Each page drawn at so many dots to the inch, in greys."""
    document = pypdfium2.PdfDocument(made.content)
    drawn = [page.render(scale=cast(Any, dpi / 72)).to_pil().convert("L") for page in document]
    document.close()
    return drawn


def decoded(picture: Any) -> list[Any]:
    """The QR symbols in a picture."""
    only: Any = zxingcpp.BarcodeFormat.QRCode
    return list(zxingcpp.read_barcodes(picture, formats=only))


def read_codes(made: PrintedLabels) -> list[list[Any]]:
    """The QR symbols of each page, drawn at 300 dots to the inch."""
    return [decoded(picture) for picture in pictures(made)]


@pytest.mark.parametrize("sheet", BUILT_IN, ids=lambda sheet: sheet.name)
def test_every_code_of_a_full_sheet_is_read_where_it_lies(sheet: Sheet) -> None:
    labels = coded(sheet.places)
    made = printed(labels, sheet)
    (symbols,) = read_codes(made)
    assert sorted(one.text for one in symbols) == sorted(label.code for label in labels)
    spots = {one.label.code: one.spot for one in made.printed}
    for symbol in symbols:
        spot = spots[symbol.text]
        left, top = (
            25_400 * at / DPI for at in (symbol.position.top_left.x, symbol.position.top_left.y)
        )
        assert 0 < left - spot.left_um < sheet.label_width_um
        assert 0 < top - spot.top_um < sheet.label_height_um


@pytest.mark.parametrize("size", ["38.1x21.2", "2 x 1 in", "100 x 60"])
def test_a_symbol_is_ten_millimetres_at_least_with_its_margin_blank(size: str) -> None:
    sheet = single_label(*read_size(size))
    made = printed([label_of()], sheet)
    (picture,) = pictures(made, 600)
    ((symbol,),) = read_codes(made)
    assert symbol.text == PACKAGE.code
    parts = layout(sheet.label_width_um, sheet.label_height_um)
    assert parts is not None
    to_dots = Fraction(600, 25_400)
    first = parts.padding_um + QUIET_MODULES * parts.module_um
    side = SYMBOL_MODULES * parts.module_um
    assert side >= 10_000
    dark = [
        (x, y)
        for y in range(int((parts.padding_um + parts.area.symbol_um) * to_dots))
        for x in range(int((parts.padding_um + parts.area.symbol_um) * to_dots))
        if picture.getpixel((x, y)) < 128
    ]
    edge = [int(at * to_dots) for at in (first, first + side)]
    for axis in (0, 1):
        assert abs(min(dot[axis] for dot in dark) - edge[0]) <= 2
        assert abs(max(dot[axis] for dot in dark) - edge[1]) <= 2


def test_a_symbol_with_a_quarter_of_it_soiled_is_still_read() -> None:
    """Level H restores about 30 % (ISO/IEC 18004; from memory)."""
    sheet = single_label(*read_size("70x37"))
    made = printed([label_of()], sheet)
    (picture,) = pictures(made)
    parts = layout(sheet.label_width_um, sheet.label_height_um)
    assert parts is not None
    origin = (parts.padding_um + (QUIET_MODULES + 13) * parts.module_um) * DPI // 25_400
    side = 5 * parts.module_um * DPI // 25_400
    picture.paste(0, (origin, origin, origin + side, origin + side))
    (symbol,) = decoded(picture)
    assert symbol.text == PACKAGE.code
    assert symbol.ec_level == "H"


def test_the_symbol_holds_the_code_and_nothing_else() -> None:
    ((symbol,),) = read_codes(printed([label_of()]))
    assert symbol.bytes == b"26329A01E"


def test_the_words_taken_out_of_the_file_are_those_on_record() -> None:
    food = replace(FOOD, allergens=(Allergen.MILK, Allergen.TREE_NUTS), ingredients_unknown=True)
    package = replace(
        PACKAGE, preparation="raw", condition="suspect", gate_reason="it broke cleanly",
    )  # fmt: skip
    (text,) = texts(printed([label_of(package, food, discard_by=date(2030, 1, 2))], BUILT_IN[3]))
    for said in (
        "Peas, green, frozen, boiled",
        "26329A01E",
        "RAW: cook after rehydrating, to 165 °F (73.9 °C) in the middle",
        "IN DOUBT: not to be eaten before it is decided",
        "Contains: milk, tree nuts; check ingredients",
        "made 2026-11-20, packed 2026-11-25",
        "best by 2034-11-25 (quality estimate, not safety)",
        "discard by 2030-01-02",
        "add 338.0 g water, about 1½ US cups",
        "4.7 servings · 62.0 g dry",
        "dryness not shown: it broke cleanly",
        "absorber inside is not food: remove it",
    ):
        assert said in text, said


def test_what_is_in_it_now_counts_after_some_was_taken() -> None:
    opened = replace(
        PACKAGE, condition="opened", opened_on=date(2026, 12, 1), taken_dg=310,
        taken_water_dg=1690, best_by=None, absorber_cc=0,
    )  # fmt: skip
    (text,) = texts(printed([label_of(opened, cup=Cup.LABEL)], BUILT_IN[3]))
    assert "add 169.0 g water, about ¾ label cup" in text
    assert "2.4 servings · 31.0 g dry" in text
    assert "opened 2026-12-01" in text and "best by: not known" in text
    assert "absorber" not in text


def test_a_lot_label_for_a_bin() -> None:
    lot = Lot(
        lot_id=1, code="26329A", run_id=1, food_id=1, food="Peas", food_class="vegetable",
        preparation="cooked", made_on=DAY, wet_dg=10_000, dry_dg=1_550, packed_dg=0,
        packed_water_dg=0, lost_dg=0, lost_water_dg=0, packages=0, serving_dg=850, note="",
    )  # fmt: skip
    made = printed([lot_label(lot, FOOD, date(2034, 1, 1), 1), lot_label(lot, FOOD, None, 0)])
    (text,) = texts(made)
    assert "lot 26329A made 2026-11-25" in text
    assert "earliest best by 2034-01-01 (quality estimate, not safety)" in text
    # 8450 g of water to 1550 g of dry food.
    assert "add 5.45 g water to each gram dry" in text and "1 package" in text
    assert text.count("best by") == 1, "nothing packed, nothing to be best by"
    assert [one.text for one in read_codes(made)[0]] == ["26329A", "26329A"]


def test_labels_begin_where_they_are_told_and_go_on_over_pages() -> None:
    made = printed(coded(30), start=20)
    assert made.pages == 3
    assert [(one.spot.page, one.spot.place) for one in made.printed][:6] == [
        (1, 20), (1, 21), (1, 22), (1, 23), (1, 24), (2, 1),
    ]  # fmt: skip
    assert [len(one) for one in read_codes(made)] == [5, 24, 1]
    sizes = {
        (float(page.mediabox.width), float(page.mediabox.height))
        for page in PdfReader(io.BytesIO(made.content)).pages
    }
    ((width, height),) = sizes
    assert width == pytest.approx(210 / 25.4 * 72, abs=0.01)
    assert height == pytest.approx(297 / 25.4 * 72, abs=0.01)
    with pytest.raises(StartOffSheet):
        printed(coded(1), start=25)


def test_a_single_label_wider_than_high_stays_so() -> None:
    page = PdfReader(io.BytesIO(printed([label_of()], single_label(80_000, 40_000)).content)).pages
    box = page[0].mediabox
    found = float(box.width), float(box.height)
    assert found == pytest.approx((80 / 25.4 * 72, 40 / 25.4 * 72), abs=0.01)


def test_a_nudge_moves_everything_by_as_much() -> None:
    at = []
    for nudge in (Nudge(), Nudge(2_000, -1_000)):
        ((symbol,),) = read_codes(printed([label_of()], start=5, nudge=nudge))
        at.append(symbol.position.top_left)
    dot_um = 25_400 / DPI
    assert (at[1].x - at[0].x) * dot_um == pytest.approx(2_000, abs=2 * dot_um)
    assert (at[1].y - at[0].y) * dot_um == pytest.approx(-1_000, abs=2 * dot_um)


def test_too_small_a_label_is_refused_with_the_least_that_does() -> None:
    raw = replace(PACKAGE, preparation="raw", gate_reason="it broke")
    food = replace(FOOD, allergens=tuple(Allergen))
    with pytest.raises(TextDoesNotFit) as caught:
        printed([label_of(raw, food)], single_label(35_000, 20_000))
    assert "does not fit on 35 × 20 mm" in caught.value.message
    least = caught.value.hint.removeprefix("Take labels of ").removesuffix(" at least.")
    wide, high = read_size(least)
    made = printed([label_of(raw, food)], single_label(wide, high))
    text = texts(made)[0]
    for allergen in Allergen:
        assert allergen.words in text


def test_what_gave_way_is_told() -> None:
    made = printed(coded(2), BUILT_IN[4])
    assert "For lack of room on 2 labels: servings left out." in made.findings
    text = texts(made)[0]
    assert "servings" not in text and text.count("best by 2034-11-25") == 2


@pytest.mark.parametrize(
    "name",
    [
        "Łosoś wędzony, żółty",
        "Щи с грибами",
        "Φασολάκια λαδερά",
        "Phở gà, ăn liền",
        "Zoë’s Crème ½",
    ],
)
def test_names_in_other_alphabets_come_out_again(name: str) -> None:
    made = printed([label_of(replace(PACKAGE, food=name))])
    assert made.findings == ()
    assert name in texts(made)[0]


def test_a_name_in_decomposed_letters_is_composed() -> None:
    made = printed([label_of(replace(PACKAGE, food="Cre\u0300me"))])
    assert "Crème" in texts(made)[0]


def _arabic_font() -> Path:
    package = find_spec("fontpkg_noto_sans_arabic")
    assert package is not None and package.origin is not None
    (font,) = (Path(package.origin).parent / "files").glob("*.ttf")
    return font


PEAS_IN_ARABIC = "بازلاء خضراء"


@pytest.mark.parametrize("way", ["named", "found"])
def test_a_script_the_usual_font_lacks_is_printed_in_one_that_has_it(way: str) -> None:
    font = _arabic_font()
    fonts = Fonts(named=font, folders=()) if way == "named" else Fonts(folders=(font.parent,))
    made = printed([label_of(replace(PACKAGE, food=PEAS_IN_ARABIC))], fonts=fonts)
    assert made.findings == ()
    # The font draws the dots of a letter as signs of their own, which come out between letters.
    letters = sorted(sign for sign in texts(made)[0] if "\u0600" <= sign <= "\u06ff")
    assert letters == sorted(PEAS_IN_ARABIC.replace(" ", ""))


def test_a_name_no_font_can_print_gets_a_line_to_write_it_on() -> None:
    package = replace(PACKAGE, food="冷凍 えんどう豆", gate_reason="折れた")
    made = printed([label_of(package)])
    assert [finding.split(";")[0] for finding in made.findings] == [
        "26329A01E: no font here has “冷凍えんどう豆”",
        "26329A01E: no font here has “折れた”",
    ]
    assert "--font" in made.findings[0]
    (text,) = texts(made)
    assert "name: ____________" in text and "dryness not shown: ____________" in text
    assert "26329A01E" in text and "冷" not in text


def test_pictures_in_a_name_are_left_out_and_told() -> None:
    made = printed([label_of(replace(PACKAGE, food="\U0001f353 Strawberries \u2764\ufe0f"))])
    assert "Strawberries" in texts(made)[0] and "name:" not in texts(made)[0]
    (finding,) = made.findings
    assert "\U0001f353" in finding and finding.endswith("it is left out.")


def test_control_signs_in_a_name_are_shown_not_obeyed() -> None:
    made = printed([label_of(replace(PACKAGE, food="red\x1b[31m peas\u202e"))])
    (text,) = texts(made)
    assert "\x1b" not in text and "\u202e" not in text
    assert "red" in text and "peas" in text


def test_a_file_that_is_no_font_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "font.ttf"
    path.write_text("not a font", encoding="utf-8")
    with pytest.raises(BadInput, match="font"):
        Fonts(named=path)
    assert Fonts(folders=(tmp_path,)).for_text("冷") is None, "found ones are passed over"


def test_joining_and_right_to_left_letters_are_shaped() -> None:
    for text in (PEAS_IN_ARABIC, "אפונה", "मटर की दाल"):
        assert needs_shaping(text)
    for text in ("Peas", "Щи", "Phở", "冷凍"):
        assert not needs_shaping(text)


def test_a_file_of_ours_is_known_by_its_beginning() -> None:
    made = printed(coded(200))
    assert is_our_label_sheet(made.content[:4096])
    assert not is_our_label_sheet(b"%PDF-1.4\n1 0 obj << /Lang (en) >>")
    assert not is_our_label_sheet(b"/Lang (en-x-stockroom)")


def test_the_same_labels_make_the_same_file() -> None:
    assert printed(coded(3)).content == printed(coded(3)).content


def test_no_labels_is_a_defect() -> None:
    with pytest.raises(ValueError, match="one label"):
        printed([])
