"""The table of the Dietary Guidelines: its rows, its text, and the equation behind it."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.energy_equations import Edition, estimated_kcal
from stockroom.domain.energy_table import (
    ENERGY_ROWS,
    REFERENCE_HEIGHT_CM,
    REFERENCE_WEIGHT_KG,
    Row,
    people_kcal,
    row_for,
    table_kcal,
)
from stockroom.domain.person import Activity, Person, Sex

COLUMNS = (Activity.SEDENTARY, Activity.LOW, Activity.ACTIVE)
ADULT_ROWS = [(sex, row) for sex in Sex for row in ENERGY_ROWS[sex] if row.from_years >= 19]


def kcal(sex: str, years: int | str, activity: str = "low") -> int:
    """The figure of a reference person."""
    return table_kcal(Person(Sex(sex), Fraction(years), Activity(activity)))


@pytest.mark.parametrize(
    ("years", "men", "women"),
    [
        # Dietary Guidelines for Americans, 2015-2020, Appendix 2: rows of that edition, which the
        # next one took over.
        (2, "1000/1000/1000", "1000/1000/1000"),
        (9, "1600/1800/2000", "1400/1600/1800"),
        (13, "2000/2200/2600", "1600/2000/2200"),
        (19, "2600/2800/3000", "2000/2200/2400"),
        (20, "2600/2800/3000", "2000/2200/2400"),
        (21, "2400/2800/3000", "2000/2200/2400"),
        (26, "2400/2600/3000", "1800/2000/2400"),
        (31, "2400/2600/3000", "1800/2000/2200"),
        (36, "2400/2600/2800", "1800/2000/2200"),
        (41, "2200/2600/2800", "1800/2000/2200"),
        (46, "2200/2400/2800", "1800/2000/2200"),
        (51, "2200/2400/2800", "1600/1800/2200"),
        (56, "2200/2400/2600", "1600/1800/2200"),
        (61, "2000/2400/2600", "1600/1800/2000"),
        (66, "2000/2200/2600", "1600/1800/2000"),
        (75, "2000/2200/2600", "1600/1800/2000"),
        (76, "2000/2200/2400", "1600/1800/2000"),
        (99, "2000/2200/2400", "1600/1800/2000"),
    ],
)
def test_rows_of_the_edition_before(years: int, men: str, women: str) -> None:
    for sex, printed in (("M", men), ("F", women)):
        found = [kcal(sex, years, level) for level in COLUMNS]
        assert found == [int(one) for one in printed.split("/")]


def test_the_ranges_named_in_the_text_of_the_appendix() -> None:
    # Dietary Guidelines for Americans, 2020-2025, Appendix 2: 1,600 to 2,400 kcal for women, 2,000
    # to 3,000 for men, 1,000 to 2,000 from 2 to 8 years, 1,400 to 3,200 for older children.
    def ends(sexes: tuple[Sex, ...], low: int, high: int) -> tuple[int, int]:
        found = [
            cell
            for sex in sexes
            for row in ENERGY_ROWS[sex]
            if low <= row.from_years <= high
            for cell in row.kcal
        ]
        return min(found), max(found)

    assert ends((Sex.FEMALE,), 19, 99) == (1600, 2400)
    assert ends((Sex.MALE,), 19, 99) == (2000, 3000)
    assert ends(tuple(Sex), 2, 8) == (1000, 2000)
    assert ends(tuple(Sex), 9, 18) == (1400, 3200)


def test_the_ranges_of_children_in_another_print() -> None:
    # Pediatrics, Table 5-2, after the Dietary Guidelines for Americans, 2010: ranges by group.
    printed = {
        ("F", 4, 8): ((1200, 1400), (1400, 1600), (1400, 1800)),
        ("F", 9, 13): ((1400, 1600), (1600, 2000), (1800, 2200)),
        ("F", 14, 18): ((1800, 1800), (2000, 2000), (2400, 2400)),
        ("M", 4, 8): ((1200, 1400), (1400, 1600), (1600, 2000)),
        ("M", 9, 13): ((1600, 2000), (1800, 2200), (2000, 2600)),
        ("M", 14, 18): ((2000, 2400), (2400, 2800), (2800, 3200)),
    }
    for (sex, low, high), columns in printed.items():
        for place, ends in enumerate(columns):
            found = [
                row.kcal[place] for row in ENERGY_ROWS[Sex(sex)] if low <= row.from_years <= high
            ]
            assert (min(found), max(found)) == ends, (sex, low, place)


@pytest.mark.parametrize(("sex", "row"), ADULT_ROWS)
def test_adults_follow_from_the_equation_of_2002(sex: Sex, row: Row) -> None:
    # The table says it was reckoned so and rounded to 200 kcal, which is 100 either way; the
    # weights and heights of its people are themselves rounded, to the pound and the inch.
    oldest = Fraction(row.to_years or row.from_years + 4)
    for activity, printed in zip(COLUMNS, row.kcal, strict=True):
        size = (REFERENCE_WEIGHT_KG[sex], REFERENCE_HEIGHT_CM[sex])
        equation = estimated_kcal(Edition.OLD, sex, activity, oldest, *size)
        assert abs(equation - printed) <= 120, (row.ages, activity)


def test_the_reference_people_have_their_size() -> None:
    # 154 lb and 126 lb, 5 ft 10 in and 5 ft 4 in; 70 kg and 57 kg, 178 cm and 163 cm.
    assert float(REFERENCE_WEIGHT_KG[Sex.MALE]) == pytest.approx(69.853, abs=0.0005)
    assert float(REFERENCE_WEIGHT_KG[Sex.FEMALE]) == pytest.approx(57.153, abs=0.0005)
    assert REFERENCE_HEIGHT_CM[Sex.MALE] == Fraction("177.8")
    assert REFERENCE_HEIGHT_CM[Sex.FEMALE] == Fraction("162.56")


def test_rows_follow_one_another_without_a_gap() -> None:
    for rows in ENERGY_ROWS.values():
        assert rows[0].from_years == 2 and rows[-1].to_years is None
        for row, after in pairwise(rows):
            assert row.to_years is not None
            assert after.from_years == row.to_years + 1 > row.from_years
        for row in rows:
            assert all(cell % 200 == 0 for cell in row.kcal)
            assert list(row.kcal) == sorted(row.kcal)
    heads = [row.ages for row in ENERGY_ROWS[Sex.MALE]]
    assert heads[0] == "2" and heads[17] == "19 to 20" and heads[-1] == "76 and up"


@given(st.fractions(2, 110, max_denominator=365), st.sampled_from(Sex))
def test_an_age_has_the_row_of_its_completed_years(years: Fraction, sex: Sex) -> None:
    row = row_for(sex, years)
    assert row.from_years <= int(years)
    assert row.to_years is None or int(years) <= row.to_years


def test_below_two_years_there_is_no_row() -> None:
    with pytest.raises(ValueError, match="begins at 2 years"):
        row_for(Sex.FEMALE, Fraction(199, 100))


def test_a_household_of_four_for_a_fortnight() -> None:
    # 2600 + 2000 + 1600 + 2200 = 8400 kcal a day, 117,600 in fourteen days.
    found = kcal("M", 40) + kcal("F", 38) + kcal("F", 9) + kcal("M", 13)
    assert found == 8_400
    assert 14 * found == 117_600


def test_people_of_whom_only_the_number_is_known() -> None:
    # (2600 + 2000) / 2 for each.
    assert people_kcal(1) == 2_300
    assert people_kcal(4) == 9_200
    assert people_kcal(3, Activity.SEDENTARY) == 6_300
    assert people_kcal(0) == 0
    with pytest.raises(ValueError, match="-1 people"):
        people_kcal(-1)
