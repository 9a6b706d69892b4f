"""calc energy through the command line: keys, editions, the table, units, refusals."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli

WOMAN = "--sex F --age 30 --kg 65 --cm 165 --activity low"


def test_the_figure_has_its_keys(nowhere: Cli) -> None:
    # By hand: 354 - 6.91 x 30 + 1.12 x (9.36 x 65 + 726 x 1.65), Dietary Reference Intakes 2005.
    found = nowhere("calc", "energy", *WOMAN.split(), "--json").json
    assert found["kcal_per_day"] == pytest.approx(2169.756, abs=1e-9)
    assert (found["edition"], found["basis"], found["standing"]) == (
        "2005", "equation", "published",
    )  # fmt: skip
    assert found["protein_g"] == pytest.approx(52)
    assert found["protein_low_g"] == pytest.approx(2169.756 * 0.10 / 4)
    assert found["protein_high_g"] == pytest.approx(2169.756 * 0.35 / 4)
    assert (found["sex"], found["age_years"], found["activity"]) == ("F", 30, "low")
    assert found["body_mass_index"] == pytest.approx(65 / 1.65**2)
    assert any("licensed guidance" in said for said in found["remarks"])
    assert not nowhere.path.exists()


def test_the_edition_is_chosen_and_its_standing_stands_beside_the_figure(nowhere: Cli) -> None:
    same = nowhere("calc", "energy", *WOMAN.split(), "--edition", "2005", "--json").json
    assert same == nowhere("calc", "energy", *WOMAN.split(), "--json").json
    man = "--sex M --age 30 --kg 70 --cm 170 --activity sedentary --edition 2023"
    found = nowhere("calc", "energy", *man.split(), "--json").json
    # 753.07 - 10.83 x 30 + 6.50 x 170 + 14.10 x 70.
    assert found["kcal_per_day"] == pytest.approx(2520.17, abs=1e-9)
    assert (found["edition"], found["standing"]) == ("2023", "from memory, not confirmed")
    page = nowhere("calc", "energy", *man.split()).out
    assert "2520 kcal a day (from memory, not confirmed)" in page
    assert "never a limit" in page


@pytest.mark.parametrize(
    ("words", "kcal"),
    [
        # Dietary Guidelines for Americans, 2020-2025, Table A2-2.
        ("--sex M --age 40 --activity low", 2600),
        ("--sex F --age 38 --activity low", 2000),
        ("--sex F --age 9 --activity low", 1600),
        ("--sex M --age 13 --kg 45 --cm 156 --activity low", 2200),
        ("--sex f --age 2 --activity VERY", 1000),
    ],
)
def test_the_table_speaks_for_children_and_reference_people(
    nowhere: Cli, words: str, kcal: int
) -> None:
    found = nowhere("calc", "energy", *words.split(), "--json").json
    assert (found["kcal_per_day"], found["basis"]) == (kcal, "table")
    assert found["edition"] == "2020-2025"


def test_units_make_no_difference(nowhere: Cli) -> None:
    def kcal(kg: str, cm: str) -> float:
        words = ("--sex", "M", "--age", "40", "--activity", "active", "--kg", kg, "--cm", cm)
        return float(nowhere("calc", "energy", *words, "--json").json["kcal_per_day"])

    # 154 lb = 69.85322498 kg and 5 ft 10 in = 177.8 cm, both exact.
    plain = kcal("69.85322498", "177.8")
    for kg, cm in (("154 lb", "70 in"), ("154lbs", "5'10\""), ("69,85322498 kg", "1.778 m")):
        assert kcal(kg, cm) == pytest.approx(plain, abs=1e-9)


def test_a_child_is_told_what_there_is_not(nowhere: Cli) -> None:
    words = "--sex F --age 9 --kg 28 --cm 133 --activity low"
    page = nowhere("calc", "energy", *words.split()).out
    assert "28.0 kg, not used" in page
    assert "no figure at hand for a child" in page
    assert "girl, 9 years" in page


def test_the_working_names_formula_and_sources(nowhere: Cli) -> None:
    answer = nowhere("calc", "energy", *WOMAN.split(), "--working")
    page = " ".join(answer.out.split())
    assert "354 kcal - 6.91 kcal x 30 years + 1.12 x (9.36 kcal/kg x 65 kg" in page
    assert "Institute of Medicine" in page and "(secondary copy) (published)" in page
    assert "10 years older: 2100.7 kcal/day" in page
    data = nowhere("calc", "energy", *WOMAN.split(), "--working", "--json").json
    (working,) = data["workings"]
    assert working["conclusion"] == "2170 kcal a day (published)"


@pytest.mark.parametrize(
    ("more", "code", "said"),
    [
        ("--age 0", 3, "no energy figure for an age of 0 years"),
        ("--age 130", 3, "an age of 130 years"),
        ("--age thirty", 2, "age: “thirty” cannot be read"),
        ("--kg 300", 3, "no energy figure for a body weight of 300 kg"),
        ("--kg heavy", 2, "body weight: “heavy” cannot be read"),
        ("--kg -65", 2, "body weight"),
        ("--cm 1.65", 3, "a height of 1.65 cm"),
        ("--cm tall", 2, "height: “tall” cannot be read"),
        ("--sex X", 2, "“X” is none of F, M"),
        ("--activity lazy", 2, "“lazy” is none of sedentary, low, active, very"),
        ("--edition 1989", 2, "“1989” is none of 2005, 2023"),
        ("--age 9 --edition 2023", 3, "an age of 9 years in the 2023 edition"),
    ],
)
def test_what_has_no_figure_is_refused(nowhere: Cli, more: str, code: int, said: str) -> None:
    answer = nowhere("calc", "energy", *WOMAN.split(), *more.split(), code=code)
    assert answer.out == "" and said in answer.err


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ("--sex F --age 30 --kg 65 --activity low", 3, "a weight without a height"),
        ("--sex F --age 30 --activity low --edition 2023", 3, "without weight and height"),
        ("--age 30 --activity low", 2, "--sex"),
        ("--sex F --activity low", 2, "--age"),
        ("--sex F --age 30", 2, "--activity"),
    ],
)
def test_what_is_missing_is_named(nowhere: Cli, words: str, code: int, said: str) -> None:
    answer = nowhere("calc", "energy", *words.split(), code=code)
    assert answer.out == "" and said in answer.err
