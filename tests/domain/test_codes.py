"""Lot and package codes, and the check character against a reference library."""

from __future__ import annotations

import string
from collections.abc import Sequence
from datetime import date

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36  # python-stdnum: independent implementation of the standard

from stockroom.domain.codes import (
    ALPHABET,
    LettersUsedUp,
    PackageNumbersUsedUp,
    ReadCode,
    check_character,
    is_valid,
    lot_code,
    nearest,
    next_letter,
    normalise,
    package_code,
    read_code,
)
from stockroom.errors import BadInput

bodies = st.text(ALPHABET, min_size=1, max_size=24)
days = st.dates(date(2000, 1, 1), date(2099, 12, 31))
letters = st.sampled_from(string.ascii_uppercase)


# T4. First row: an example of ISO/IEC 7064 MOD 37,36 (from memory); the others computed.
@pytest.mark.parametrize(
    ("body", "check"),
    [("A12425GABC1234002", "M"), ("26060A", "H"), ("28366B", "R"), ("26329A07", "2")],
)
def test_check_characters(body: str, check: str) -> None:
    assert check_character(body) == check == mod_37_36.calc_check_digit(body)
    assert is_valid(body + check)


@given(body=bodies)
@example(body="0")
@example(body="Z" * 24)
def test_check_character_equals_the_reference_library(body: str) -> None:
    check = check_character(body)
    assert check == mod_37_36.calc_check_digit(body)
    assert mod_37_36.is_valid(body + check)
    assert [one for one in ALPHABET if is_valid(body + one)] == [check]


@given(code=bodies)
def test_is_valid_equals_the_reference_library(code: str) -> None:
    assume(len(code) > 1)
    assert is_valid(code) == mod_37_36.is_valid(code)


@given(day=days, letter=letters, number=st.integers(1, 999), data=st.data())
def test_one_wrong_character_is_always_caught(
    day: date, letter: str, number: int, data: st.DataObject
) -> None:
    code = package_code(lot_code(day, letter), number)
    place = data.draw(st.integers(0, len(code) - 1))
    wrong = data.draw(st.sampled_from(ALPHABET.replace(code[place], "")))
    assert not is_valid(code[:place] + wrong + code[place + 1 :])


@pytest.mark.parametrize("text", ["", " ", "-", "26329Ä07", "26329A07!", "١٢٣", "ß", "ı", "ſ"])
def test_other_signs_have_no_check_character(text: str) -> None:
    assert not is_valid(text)
    with pytest.raises(BadInput):
        check_character(text)


def test_one_character_is_no_code() -> None:
    assert not is_valid("1")


# Ordinal days (ISO 8601), computed; leap days are where they go wrong.
@pytest.mark.parametrize(
    ("day", "letter", "code"),
    [
        (date(2026, 11, 25), "A", "26329A"),
        (date(2026, 3, 1), "A", "26060A"),
        (date(2028, 2, 29), "B", "28060B"),
        (date(2028, 3, 1), "C", "28061C"),
        (date(2028, 12, 31), "B", "28366B"),
        (date(2027, 12, 31), "Z", "27365Z"),
        (date(2005, 1, 1), "A", "05001A"),
        (date(2100, 1, 1), "A", "00001A"),
    ],
)
def test_lot_codes(day: date, letter: str, code: str) -> None:
    assert lot_code(day, letter) == code


@pytest.mark.parametrize("letter", ["", "a", "AB", "1", "Ä"])
def test_lot_letters_are_capitals(letter: str) -> None:
    with pytest.raises(ValueError):
        lot_code(date(2026, 11, 25), letter)


def test_the_next_letter_follows_the_highest_and_fills_no_gap() -> None:
    assert next_letter([]) == "A"
    assert next_letter(["A"]) == "B"
    assert next_letter(["C", "A"]) == "D"
    assert next_letter("b") == "C"
    assert next_letter("Y") == "Z"
    with pytest.raises(LettersUsedUp):
        next_letter("Z")


def test_package_codes() -> None:
    assert package_code("26329A", 7) == "26329A072"
    assert package_code("26329A", 99) == "26329A99" + mod_37_36.calc_check_digit("26329A99")
    assert package_code("26329A", 100) == "26329A100" + mod_37_36.calc_check_digit("26329A100")
    assert len(package_code("26329A", 999)) == 10
    with pytest.raises(PackageNumbersUsedUp) as caught:
        package_code("26329A", 1000)
    assert "26329A" in caught.value.message
    with pytest.raises(ValueError):
        package_code("26329A", 0)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("26329a07", "26329A07"),
        (" 26329 A-07.2/ \n", "26329A072"),
        ("\u00a026329A", "26329A"),
        ("ıſß", "ıſß"),
    ],
)
def test_normalise(text: str, code: str) -> None:
    assert normalise(text) == code


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("26329A", ReadCode("lot", "26329A", None, True)),
        ("26329a", ReadCode("lot", "26329A", None, True)),
        ("26329A07", ReadCode("package", "26329A07", None, True)),
        ("26329-A07-2", ReadCode("package", "26329A07", "2", True)),
        ("26329A073", ReadCode("package", "26329A07", "3", False)),
        ("26329A07X", ReadCode("package", "26329A07", "X", False)),
        ("26329A100", ReadCode("package", "26329A100", None, True, "26329A10")),
        ("28366A01", ReadCode("package", "28366A01", None, True)),
    ],
)
def test_codes_read(text: str, reading: ReadCode) -> None:
    assert read_code(text) == reading


@given(day=days, letter=letters, number=st.integers(1, 999))
def test_a_whole_code_reads_back_as_its_package(day: date, letter: str, number: int) -> None:
    code = package_code(lot_code(day, letter), number)
    reading = read_code(code.lower())
    assert (reading.kind, reading.body, reading.check) == ("package", code[:-1], code[-1])
    assert reading.valid


@given(day=days, letter=letters, number=st.integers(1, 999))
def test_a_code_without_its_check_character_reads_as_its_package_or_names_it(
    day: date, letter: str, number: int
) -> None:
    body = package_code(lot_code(day, letter), number)[:-1]
    reading = read_code(body)
    assert reading.valid
    if is_valid(body) and number >= 100:
        assert (reading.body, reading.check, reading.other_body) == (body[:-1], body[-1], body)
    else:
        assert (reading.body, reading.check) == (body, None)
        assert reading.other_body == (body[:-1] if number >= 100 else None)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "26329",
        "2632A07",
        "26329A0",
        "26329A00",
        "26329A001",
        "26329A0001",
        "26000A01",
        "26366A01",
        "28367A",
        "26329AA07",
        "26329A07ABC",
        "26329A10000",
        "apples",
        "٢٦٣٢٩A07",
        "26329A0²",
        "26329A07" * 2000,
    ],
)
def test_other_shapes_are_bad_input(text: str) -> None:
    with pytest.raises(BadInput):
        read_code(text)


@given(text=st.text(max_size=40))
def test_no_text_gives_anything_but_a_reading_or_bad_input(text: str) -> None:
    try:
        assert read_code(text).body
    except BadInput as trouble:
        assert trouble.message.isprintable()


def test_look_alike_letters_are_offered_and_never_taken_silently() -> None:
    for typed, offered in (
        ("26O29A07", "26029A07"),
        ("2632IA0l", "26321A01"),
        ("Q6001B", "06001B"),
        ("26329AO7O", "26329A07O"),
        ("2632OL1I", "26320L11"),
    ):
        with pytest.raises(BadInput) as caught:
            read_code(typed)
        assert f"Type {offered}, if" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_code("soup")
    assert "such as 26329A" in caught.value.hint


def test_day_and_number_refusals_say_which_part() -> None:
    with pytest.raises(BadInput) as caught:
        read_code("26366A01")
    assert "day of that year" in caught.value.hint
    with pytest.raises(BadInput) as caught:
        read_code("26329A00")
    assert "from 01 up" in caught.value.hint


STOCK = tuple(
    package_code(lot_code(day, letter), number)
    for day in (date(2026, 11, 25), date(2026, 2, 1), date(2025, 6, 30))
    for letter in "AB"
    for number in range(1, 31)
)


@pytest.mark.parametrize(
    ("typed", "best"),
    [
        ("26329A072", "26329A072"),
        ("26329A07", "26329A072"),
        ("26329A27", "26329A27" + mod_37_36.calc_check_digit("26329A27")),
        ("26392A072", "26329A072"),
        ("2632A072", "26329A072"),
        ("263299A072", "26329A072"),
        ("26O32B05", "26032B05" + mod_37_36.calc_check_digit("26032B05")),
    ],
)
def test_nearest_finds_what_was_meant(typed: str, best: str) -> None:
    assert nearest(typed, STOCK)[0] == best


def test_nearest_gives_few_and_only_near_ones() -> None:
    assert nearest("26329A072", []) == ()
    assert nearest("", STOCK) == ()
    assert nearest("soup", STOCK) == ()
    assert nearest("9" * 4000, STOCK) == ()
    assert len(nearest("26329A072", STOCK)) == 3
    assert len(nearest("26329A072", STOCK, count=5)) == 5


def _half_edits(typed: str, code: str) -> int:
    """Optimal string alignment by its textbook recursion, look-alikes at half price."""
    alike = [set(group) for group in ("0OQ", "1IL", "17", "2Z", "5S", "6G", "8B", "UV")]
    table: dict[tuple[int, int], int] = {}
    for i in range(len(typed) + 1):
        for j in range(len(code) + 1):
            ways = [0] if i == j == 0 else []
            if i:
                ways.append(table[i - 1, j] + 2)
            if j:
                ways.append(table[i, j - 1] + 2)
            if i and j:
                pair = {typed[i - 1], code[j - 1]}
                price = 0 if len(pair) == 1 else 1 if any(pair <= group for group in alike) else 2
                ways.append(table[i - 1, j - 1] + price)
            if i > 1 and j > 1 and typed[i - 2 : i] == code[j - 2 : j][::-1]:
                ways.append(table[i - 2, j - 2] + 2)
            table[i, j] = min(ways)
    return table[len(typed), len(code)]


def _nearest_the_long_way(typed: str, codes: Sequence[str], count: int) -> tuple[str, ...]:
    found: list[tuple[int, str]] = []
    for code in codes:
        distance = _half_edits(typed, code)
        if len(typed) < len(code):
            distance = min(distance, _half_edits(typed, code[:-1]))
        if distance <= 4:
            found.append((distance, code))
    return tuple(code for _, code in sorted(found)[:count])


@given(code=st.sampled_from(STOCK), data=st.data())
def test_nearest_equals_the_long_way_round(code: str, data: st.DataObject) -> None:
    typed = list(code)
    for _ in range(data.draw(st.integers(0, 3))):
        place = data.draw(st.integers(0, len(typed) - 1))
        edit = data.draw(st.sampled_from(["wrong", "missing", "extra", "swap"]))
        sign = data.draw(st.sampled_from(ALPHABET))
        if edit == "wrong":
            typed[place] = sign
        elif edit == "missing":
            del typed[place]
        elif edit == "extra":
            typed.insert(place, sign)
        else:
            typed[place : place + 2] = typed[place : place + 2][::-1]
    text = "".join(typed)
    assert nearest(text, STOCK, 200) == _nearest_the_long_way(text, STOCK, 200)


small = st.text("0O1BA", max_size=6)


@given(typed=small, codes=st.lists(small, max_size=30, unique=True))
@example(typed="AB", codes=["BA", "0ABA", "A"])
def test_nearest_equals_the_long_way_round_among_codes_much_alike(
    typed: str, codes: list[str]
) -> None:
    assert nearest(typed, codes, 30) == _nearest_the_long_way(typed, codes, 30)


def test_one_edit_and_three_look_alikes_are_too_far() -> None:
    assert nearest("00000", ["OOOA0", "0A00A", "OOO00"]) == ("OOO00", "0A00A")


def test_a_swap_is_one_edit_from_the_first_characters_to_the_last() -> None:
    assert nearest("AB900", ["AC9O0", "BA900"]) == ("BA900", "AC9O0")
    assert nearest("900AB", ["9O0AC", "900BA"]) == ("900BA", "9O0AC")
