"""Which cautions are shown where, what they say, and what they must never say."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.domain.cautions import (
    CAUTIONS,
    Caution,
    Where,
    cautions_at,
    cautions_for_cooking,
    cautions_for_label,
    cautions_for_load,
    cautions_for_lot,
    cautions_for_packing,
    cautions_for_soft,
    is_low_acid,
)
from stockroom.domain.foods import Allergen, FoodFacts, FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.working import Standing

CHICKEN = FoodFacts(FoodGroup.POULTRY, FoodClass.LEAN_MEAT, Preparation.RAW, Fraction(1, 10))
BEEF = FoodFacts(FoodGroup.MEAT_RAW, FoodClass.LEAN_MEAT, Preparation.RAW, Fraction(1, 10))
COD = FoodFacts(
    FoodGroup.FISH,
    FoodClass.LEAN_MEAT,
    Preparation.RAW,
    Fraction(3, 100),
    allergens=(Allergen.FISH,),
)
EGG = FoodFacts(FoodGroup.EGG, FoodClass.EGG, Preparation.RAW, allergens=(Allergen.EGG,))
APPLE = FoodFacts(
    FoodGroup.FRUIT, FoodClass.FRUIT, Preparation.READY, Fraction(1, 100), Fraction(7, 10)
)
STEW = FoodFacts(FoodGroup.MEAL, FoodClass.MEAL, Preparation.COOKED, check_ingredients=True)
LOW_ACID = [one for one in FoodClass if one is not FoodClass.FRUIT]


def keys(cautions: tuple[Caution, ...]) -> set[str]:
    """The keys of a selection."""
    return {one.key for one in cautions}


def text(key: str) -> str:
    """The text of one caution."""
    (found,) = (one.text for one in CAUTIONS if one.key == key)
    return found


def test_keys_are_unique_and_every_place_has_its_cautions() -> None:
    assert len({one.key for one in CAUTIONS}) == len(CAUTIONS)
    for where in Where:
        assert len(cautions_at(where)) >= 2
        assert cautions_at(where)[-1].key == "local-codes"


def test_each_caution_shows_its_source_and_standing() -> None:
    for one in CAUTIONS:
        assert one.source.citation.casefold() in one.words.casefold()
        assert one.standing.words in one.words


def test_what_is_from_memory_is_general_guidance_and_holds_no_figure() -> None:
    remembered = [one for one in CAUTIONS if one.standing is Standing.FROM_MEMORY]
    assert {one.key for one in remembered} == {
        "absorber-opened",
        "allergen-species",
        "cook-other",
        "weak-immunity",
    }
    for one in remembered:
        assert one.text.startswith("As general guidance: ")
        assert not re.search(r"\d", one.text)


def test_no_caution_promises_safety() -> None:
    for one in CAUTIONS:
        assert not re.search(r"\b(guaranteed|safe until|is safe|good for)\b", one.text.lower())


def test_cook_temperatures_are_those_of_the_inspection_service() -> None:
    # USDA FSIS safe minimum internal temperatures: whole cuts 145 °F and 3 minutes' rest,
    # ground meat 160 °F, poultry 165 °F, reheated food 165 °F.
    assert "165 °F" in text("cook-poultry")
    assert re.search(r"145 °F .* rest\s+3 minutes; minced meat to 160 °F", text("cook-meat"))
    assert "165 °F" in text("reheat")


@pytest.mark.parametrize("one", CAUTIONS, ids=lambda one: one.key)
def test_both_scales_agree_to_a_tenth(one: Caution) -> None:
    # °C = (°F - 32) / 1.8, exact.
    pattern = r"(\d+)(?: (?:to|and) (\d+))? °F(?: \(([\d.]+)(?: (?:to|and) ([\d.]+))? °C\))?"
    for first, second, first_c, second_c in re.findall(pattern, one.text):
        assert first_c, one.text
        assert float(first_c) == pytest.approx((int(first) - 32) / 1.8, abs=0.05)
        if second:
            assert float(second_c) == pytest.approx((int(second) - 32) / 1.8, abs=0.05)


def test_the_clock_is_two_hours_and_one_when_hot() -> None:
    # USDA FSIS danger zone, 2016.
    assert "2 hours" in text("clock")
    assert "1 hour in a room above 90 °F" in text("clock")


def test_the_nine_allergens_are_all_named() -> None:
    # FDA: FALCPA 2004 with the FASTER Act 2021.
    for allergen in Allergen:
        assert allergen.words in text("allergens")


def test_a_raw_load_is_kept_apart_and_stays_raw() -> None:
    assert keys(cautions_for_load([CHICKEN, APPLE])) >= {"raw-stays-raw", "raw-apart"}
    assert keys(cautions_for_load([STEW, APPLE])).isdisjoint({"raw-stays-raw", "raw-apart"})


def test_a_load_says_fatty_sugary_egg_and_dust_where_they_apply() -> None:
    cheese = FoodFacts(
        FoodGroup.DAIRY, FoodClass.FATTY_DAIRY, Preparation.READY, allergens=(Allergen.MILK,)
    )
    assert keys(cautions_for_load([cheese])) == {"fatty", "allergen-dust", "local-codes"}
    assert keys(cautions_for_load([APPLE])) == {"sugary", "local-codes"}
    assert "raw-egg" in keys(cautions_for_load([EGG]))


def test_fat_known_goes_before_the_class() -> None:
    skim = FoodFacts(FoodGroup.DAIRY, FoodClass.FATTY_DAIRY, Preparation.READY, Fraction(1, 100))
    sausage = FoodFacts(
        FoodGroup.MEAT_COOKED, FoodClass.LEAN_MEAT, Preparation.COOKED, Fraction(54, 100)
    )
    assert "fatty" not in keys(cautions_for_load([skim]))
    assert "fatty" in keys(cautions_for_load([sausage]))


@pytest.mark.parametrize("food_class", LOW_ACID)
@pytest.mark.parametrize(("absorber_cc", "vacuum"), [(300, False), (0, True), (300, True)])
def test_low_acid_without_oxygen_speaks_of_botulism(
    food_class: FoodClass, absorber_cc: int, vacuum: bool
) -> None:
    found = cautions_for_packing(
        food_class,
        Preparation.COOKED,
        PackageKind.FOIL_POUCH,
        absorber_cc=absorber_cc,
        vacuum=vacuum,
    )
    assert {"botulism", "dry-enough"} <= keys(found)


def test_acid_fruit_needs_no_botulism_line_but_low_acid_fruit_does() -> None:
    for acid, said in ((None, False), (True, False), (False, True)):
        found = cautions_for_packing(
            FoodClass.FRUIT, Preparation.READY, PackageKind.JAR, absorber_cc=300, acid=acid
        )
        assert ("botulism" in keys(found)) is said
        assert "dry-enough" in keys(found)


def test_air_packs_say_nothing_of_oxygen() -> None:
    found = cautions_for_packing(FoodClass.MEAL, Preparation.COOKED, PackageKind.ZIP_BAG)
    assert keys(found) == {"local-codes"}


def test_absorbers_are_not_food_and_not_for_a_desiccant() -> None:
    found = cautions_for_packing(
        FoodClass.FRUIT, Preparation.READY, PackageKind.FOIL_POUCH, absorber_cc=300
    )
    assert {"absorber-not-food", "no-desiccant", "absorber-opened"} <= keys(found)


def test_glass_under_vacuum_can_implode_and_film_can_be_pierced() -> None:
    def packed(kind: PackageKind, *, glass: bool = True) -> set[str]:
        return keys(
            cautions_for_packing(FoodClass.FRUIT, Preparation.READY, kind, vacuum=True, glass=glass)
        )

    assert "glass-vacuum" in packed(PackageKind.JAR)
    assert "jar-seal" in packed(PackageKind.JAR)
    assert "sharp-pieces" not in packed(PackageKind.JAR)
    assert "glass-vacuum" not in packed(PackageKind.JAR, glass=False)
    assert "sharp-pieces" in packed(PackageKind.VACUUM_BAG)
    assert "vacuum-is-not-keeping" in packed(PackageKind.VACUUM_BAG)


def test_eggs_and_nuts_are_named_as_unsuitable() -> None:
    # Intellectual Reserve, An Approach to Longer-Term Food Storage, 2007.
    for food_class in (FoodClass.EGG, FoodClass.NUTS):
        found = cautions_for_packing(
            food_class, Preparation.COOKED, PackageKind.FOIL_POUCH, absorber_cc=300
        )
        assert "unsuitable" in keys(found)


@pytest.mark.parametrize("food_class", LOW_ACID)
@pytest.mark.parametrize("hours", [None, 25, 1000])
def test_soft_low_acid_without_oxygen_is_discarded_and_nothing_else_offered(
    food_class: FoodClass, hours: int | None
) -> None:
    # Toxin gives no sign: Clemson HGIC; National Center for Home Food Preservation.
    found = cautions_for_soft(food_class, True, hours_since_packing=hours)
    assert {"soft-discard", "toxin-no-sign", "never-taste", "spoiled"} <= keys(found)
    assert keys(found).isdisjoint({"soft-early", "soft-acid", "soft-air"})
    assert found[0].key == "soft-discard"
    assert not any("dried again" in one.text for one in found)


def test_found_soft_within_a_day_the_whole_lot_is_dried_again() -> None:
    found = cautions_for_soft(FoodClass.MEAL, True, hours_since_packing=24)
    assert {"soft-early", "wet-perishable", "never-taste"} <= keys(found)
    assert "soft-discard" not in keys(found)


def test_soft_fruit_may_be_used_but_low_acid_fruit_may_not() -> None:
    assert "soft-acid" in keys(cautions_for_soft(FoodClass.FRUIT, True))
    assert "soft-discard" in keys(cautions_for_soft(FoodClass.FRUIT, True, acid=False))


def test_soft_low_acid_with_air_is_wet_food() -> None:
    found = keys(cautions_for_soft(FoodClass.VEGETABLE, False))
    assert "soft-air" in found
    assert "soft-discard" not in found


@given(
    st.sampled_from(FoodClass),
    st.booleans(),
    st.none() | st.integers(0, 100_000),
    st.none() | st.booleans(),
)
def test_no_soft_package_is_ever_tasted(
    food_class: FoodClass, low_oxygen: bool, hours: int | None, acid: bool | None
) -> None:
    found = cautions_for_soft(food_class, low_oxygen, hours_since_packing=hours, acid=acid)
    assert {"never-taste", "spoiled", "sisters", "local-codes"} <= keys(found)
    late = hours is None or hours > 24
    assert ("soft-discard" in keys(found)) is (
        late and low_oxygen and is_low_acid(food_class, acid)
    )


def test_a_mixed_dish_counts_as_low_acid_whatever_went_into_it() -> None:
    assert is_low_acid(FoodClass.MEAL, acid=True)
    assert not is_low_acid(FoodClass.VEGETABLE, acid=True)
    assert is_low_acid(FoodClass.VEGETABLE)


@pytest.mark.parametrize(
    ("food", "expected"),
    [
        (CHICKEN, {"cook-poultry"}),
        (BEEF, {"cook-meat", "cook-other"}),
        (COD, {"cook-other"}),
        (EGG, {"cook-other", "raw-egg"}),
        (FoodFacts(None, FoodClass.MEAL, Preparation.RAW), {"cook-poultry", "cook-meat"}),
    ],
    ids=["poultry", "meat", "fish", "egg", "unknown kind: the strictest too"],
)
def test_raw_food_names_how_it_is_cooked(food: FoodFacts, expected: set[str]) -> None:
    found = keys(cautions_for_cooking([food]))
    assert expected | {"raw-stays-raw", "weak-immunity", "clock"} <= found
    assert "reheat" not in found


def test_cooked_food_is_reheated_and_ready_food_only_watched() -> None:
    assert "reheat" in keys(cautions_for_cooking([STEW]))
    assert keys(cautions_for_cooking([APPLE], youngest_months=40)) == {
        "clock",
        "soak-cold",
        "local-codes",
    }


@pytest.mark.parametrize(("months", "said"), [(None, True), (11, True), (12, False), (400, False)])
def test_no_honey_before_the_first_birthday(months: int | None, said: bool) -> None:
    # Institut national de sante publique du Quebec: none under 12 months.
    assert ("honey" in keys(cautions_for_cooking([APPLE], youngest_months=months))) is said


def test_a_large_batch_is_cooled_in_steps() -> None:
    # Food Code cooling: 135 to 70 °F in 2 h, to 41 °F in 4 h more.
    assert "cool-batch" in keys(cautions_for_cooking([STEW], large_batch=True))
    assert re.search(r"135 to 70 °F .* 2 hours and to 41 °F .*4 hours more", text("cool-batch"))


def test_labels_name_raw_allergens_absorber_and_what_a_best_by_is() -> None:
    assert {"raw-stays-raw", "allergens", "allergen-species", "best-by"} <= keys(
        cautions_for_label(COD)
    )
    assert {"check-ingredients", "allergens"} <= keys(cautions_for_label(STEW))
    assert "absorber-not-food" in keys(cautions_for_label(APPLE, absorber_cc=300))
    assert keys(cautions_for_label(APPLE)) == {"best-by", "local-codes"}


def test_a_lot_page_says_raw_and_that_germs_survive() -> None:
    assert "raw-stays-raw" in keys(cautions_for_lot(BEEF))
    assert "germs-survive" in keys(cautions_for_lot(APPLE))


def test_a_selection_keeps_the_order_of_the_table_and_ends_by_deferring() -> None:
    order = [one.key for one in CAUTIONS]
    found = [one.key for one in cautions_for_load([CHICKEN, EGG, APPLE, STEW])]
    assert found == sorted(found, key=order.index)
    assert found[-1] == "local-codes"
    assert "local codes and licensed guidance" in text("local-codes")
