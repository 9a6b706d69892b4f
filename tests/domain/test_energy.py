"""Energy and protein of a person: the printed tables, how the figures move, what is refused."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.energy import (
    ADULT_CM,
    ADULT_KG,
    NoEnergyFigure,
    energy_need,
    protein,
    unusual_bmi,
)
from stockroom.domain.energy_equations import (
    COEFFICIENTS_2005,
    EQUATIONS_2005,
    EQUATIONS_2023,
    Edition,
    estimated_kcal,
)
from stockroom.domain.energy_remarks import FOR_WHOM, FROM_MEMORY, NO_HIGHER, remarks
from stockroom.domain.energy_sources import ENERGY_SOURCES
from stockroom.domain.person import Activity, Person, Sex
from stockroom.domain.working import Standing
from tests.domain.energy_figures import table_of_2005

CELLS = table_of_2005()


def person(
    sex: str = "F",
    years: str | int = 30,
    kg: str | int | None = 65,
    cm: str | int | None = 165,
    activity: str = "low",
) -> Person:
    """A woman of ordinary size."""
    return Person(
        Sex(sex),
        Fraction(years),
        Activity(activity),
        None if kg is None else Fraction(kg),
        None if cm is None else Fraction(cm),
    )


def kcal(who: Person, edition: Edition | None = None) -> Fraction:
    """The kilocalories of a day."""
    return energy_need(who, edition).kcal_per_day


def test_a_woman_of_thirty_by_the_equation_of_2005() -> None:
    # By hand: 354 - 6.91 x 30 + 1.12 x (9.36 x 65 + 726 x 1.65), to the last digit.
    need = energy_need(person())
    assert need.kcal_per_day == Fraction("2169.756")
    assert (need.edition, need.edition_words) == (Edition.OLD, "2005")
    assert need.source.standing is Standing.PUBLISHED


def test_the_printed_table_is_whole() -> None:
    assert len({cell[:4] for cell in CELLS}) == len(CELLS) == 48


@pytest.mark.parametrize(("sex", "activity", "height_m", "bmi", "printed"), CELLS)
def test_every_cell_of_the_printed_table_of_2005(
    sex: Sex, activity: Activity, height_m: Fraction, bmi: Fraction, printed: int
) -> None:
    # Institute of Medicine, Dietary Reference Intakes, 2002/2005, table for 30 years; to 1 kcal.
    who = Person(sex, Fraction(30), activity, bmi * height_m**2, height_m * 100)
    assert float(kcal(who)) == pytest.approx(printed, abs=1)


def test_men_have_activity_coefficients_of_their_own() -> None:
    # The table has 2513 for a low active man of 1.80 m with a body mass index of 18.5; a footnote
    # printed below it lists 1.12, 1.27 and 1.45 for everybody, and those give 2532.
    weight, height = Fraction("18.5") * Fraction("1.8") ** 2, Fraction(180)
    man = EQUATIONS_2005[Sex.MALE]
    with_womens = man.kcal(
        Fraction(30), weight, height, COEFFICIENTS_2005[Sex.FEMALE][Activity.LOW]
    )
    assert float(with_womens) == pytest.approx(2532, abs=0.1)
    own = estimated_kcal(Edition.OLD, Sex.MALE, Activity.LOW, Fraction(30), weight, height)
    assert float(own) == pytest.approx(2513, abs=1)


@pytest.mark.parametrize(
    ("who", "expected"),
    [
        # By hand from the coefficients of the 2023 report, to the hundredth.
        (person("M", 40, 80, 178, "sedentary"), "2604.87"),
        (person("M", 40, 80, 178, "low"), "2820.87"),
        (person("M", 40, 80, 178, "active"), "3004.98"),
        (person("M", 40, 80, 178, "very"), "3356.30"),
        (person("F", 40, 65, 163, "sedentary"), "1998.01"),
        (person("F", 40, 65, 163, "low"), "2160.27"),
        (person("F", 40, 65, 163, "active"), "2297.97"),
        (person("F", 40, 65, 163, "very"), "2526.24"),
        (person("M", 30, 70, 170, "sedentary"), "2520.17"),
    ],
)
def test_the_equations_of_2023(who: Person, expected: str) -> None:
    assert kcal(who, Edition.NEW) == Fraction(expected)


def test_the_edition_from_memory_is_never_the_default_nor_a_limit() -> None:
    need = energy_need(person(), Edition.NEW)
    assert need.source.standing is Standing.FROM_MEMORY
    assert not need.source.standing.may_be_a_limit
    assert FROM_MEMORY in remarks(need)
    assert energy_need(person()) == energy_need(person(), Edition.OLD)
    assert FROM_MEMORY not in remarks(energy_need(person()))


sizes = st.fractions(0, 1, max_denominator=200)
people = st.builds(
    Person,
    st.sampled_from(Sex),
    st.integers(19, 110).map(Fraction),
    st.sampled_from(Activity),
    sizes.map(lambda share: ADULT_KG[0] + share * (ADULT_KG[1] - ADULT_KG[0] - 1)),
    sizes.map(lambda share: ADULT_CM[0] + share * (ADULT_CM[1] - ADULT_CM[0] - 1)),
)


@given(people, st.sampled_from(Edition), sizes)
def test_more_weight_and_height_need_more_and_years_less(
    who: Person, edition: Edition, more: Fraction
) -> None:
    assert who.weight_kg is not None and who.height_cm is not None
    before = kcal(who, edition)
    heavier = replace(who, weight_kg=who.weight_kg + more)
    taller = replace(who, height_cm=who.height_cm + more)
    older = replace(who, age_years=who.age_years + 10 * more)
    assert (kcal(heavier, edition) > before) is (more > 0)
    assert (kcal(taller, edition) > before) is (more > 0)
    assert (kcal(older, edition) < before) is (more > 0)


@given(people)
def test_more_activity_needs_more_in_the_equation_of_2005(who: Person) -> None:
    found = [kcal(replace(who, activity=level)) for level in Activity]
    assert all(less < more for less, more in pairwise(found))


@given(people, st.sampled_from(Edition))
def test_a_year_costs_what_the_reports_say(who: Person, edition: Edition) -> None:
    # Printed below the table of 2005: about 10 kcal a year for men, 7 for women.
    older = replace(who, age_years=who.age_years + 1)
    a_year = kcal(who, edition) - kcal(older, edition)
    about = 10 if who.sex is Sex.MALE else 7
    assert float(a_year) == pytest.approx(about, abs=1)


def test_every_level_and_sex_has_an_equation() -> None:
    for sex in Sex:
        assert set(EQUATIONS_2023[sex]) == set(COEFFICIENTS_2005[sex]) == set(Activity)
    assert len({equation for level in EQUATIONS_2023.values() for equation in level.values()}) == 8


def test_protein_goes_by_weight_and_by_energy() -> None:
    # Recommended dietary allowance of 0.8 g/kg and an acceptable range of 10 to 35 % of energy
    # (Wolfe and others, Advances in Nutrition 8:266-275, 2017, after the reports of 2002/2005):
    # 56 g for 70 kg, 45.6 g for 57 kg, 50 to 175 g out of 2000 kcal.
    assert protein(Fraction(70), 2000).allowance_g == 56
    found = protein(Fraction(57), 2000)
    assert (found.allowance_g, found.low_g, found.high_g) == (Fraction("45.6"), 50, 175)


def test_without_a_size_the_reference_person_is_meant() -> None:
    need = energy_need(person("M", 40, None, None))
    assert (need.kcal_per_day, need.edition, need.edition_words) == (2600, None, "2020-2025")
    assert need.protein is not None
    # 154 lb x 0.45359237 kg x 0.8 g/kg.
    assert float(need.protein.allowance_g) == pytest.approx(55.88, abs=0.005)
    assert need.spread_kcal is None


@pytest.mark.parametrize(("sex", "expected"), [("F", 1600), ("M", 1800)])
def test_a_child_has_the_table_and_no_protein(sex: str, expected: int) -> None:
    for kg, cm in ((None, None), (28, 133)):
        need = energy_need(person(sex, 9, kg, cm))
        assert (need.kcal_per_day, need.edition, need.protein) == (expected, None, None)
        assert any("no figure is at hand" in said for said in remarks(need))


def test_the_most_active_have_no_column_of_their_own() -> None:
    active, very = (energy_need(person("M", 13, None, None, level)) for level in ("active", "very"))
    assert active.kcal_per_day == very.kcal_per_day == 2600
    assert NO_HIGHER in remarks(very) and NO_HIGHER not in remarks(active)


def test_an_unusual_body_mass_index_is_said() -> None:
    heavy = energy_need(person(kg=100))
    # 100 / 1.65^2.
    assert float(unusual_bmi(heavy) or 0) == pytest.approx(36.73, abs=0.005)
    assert "this one is 36.7" in remarks(heavy)[0]
    for kg in ("50.36625", "68.0625"):  # 18.5 and 25 x 1.65^2: both ends are usual
        assert unusual_bmi(energy_need(person(kg=kg))) is None
    assert unusual_bmi(energy_need(person(kg=100), Edition.NEW)) is None
    assert unusual_bmi(energy_need(person("F", 30, None, None))) is None


@given(people, st.sampled_from(Edition))
def test_whom_it_is_for_stands_beside_every_figure(who: Person, edition: Edition) -> None:
    assert FOR_WHOM in remarks(energy_need(who, edition))
    assert "licensed guidance" in FOR_WHOM and "pregnancy" in FOR_WHOM


@pytest.mark.parametrize(
    ("who", "edition", "said"),
    [
        (person(years=0), None, "an age of 0 years"),
        (person(years=1), None, "an age of 1 year."),
        (person(years="1.99"), None, "an age of 1.99 years"),
        (person(years=121), None, "an age of 121 years"),
        (person(kg=300), None, "a body weight of 300 kg"),
        (person(kg=29), None, "a body weight of 29 kg"),
        (person(cm="1.65"), None, "a height of 1.65 cm"),
        (person(cm=250), None, "a height of 250 cm"),
        (person(years=9, kg=300, cm=130), None, "a body weight of 300 kg"),
        (person(kg=None), None, "a height without a weight"),
        (person(cm=None), None, "a weight without a height"),
        (person(years=9), Edition.NEW, "an age of 9 years in the 2023 edition"),
        (person(years=18), Edition.OLD, "an age of 18 years in the 2005 edition"),
        (person(kg=None, cm=None), Edition.NEW, "without weight and height in the 2023 edition"),
    ],
)
def test_what_has_no_figure_is_refused(who: Person, edition: Edition | None, said: str) -> None:
    with pytest.raises(NoEnergyFigure) as refused:
        energy_need(who, edition)
    assert said in refused.value.message
    assert refused.value.message.startswith("There is no energy figure for ")
    assert refused.value.hint


@pytest.mark.parametrize(
    "who",
    [
        person(years=2, kg=None, cm=None),
        person(years=120),
        person(kg=30),
        person(kg=250),
        person(cm=120),
        person(cm=230),
        person(years=19),
    ],
)
def test_the_ends_of_what_is_believed_are_believed(who: Person) -> None:
    assert kcal(who) > 0


def test_every_source_has_a_key_of_its_own() -> None:
    assert len({one.key for one in ENERGY_SOURCES}) == len(ENERGY_SOURCES)
    assert all(one.citation.strip() for one in ENERGY_SOURCES)
