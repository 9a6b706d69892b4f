"""Containers and absorber sizes."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.working import Standing
from stockroom.errors import NotFound
from stockroom.reference.containers import Material, absorber_sizes, container, containers

# Exact United States liquid measure: a gallon is 231 cubic inches of 2.54 cm (NIST Handbook 44).
GALLON_ML = 231 * Fraction("2.54") ** 3
US_SIZES = {
    "half pint": GALLON_ML / 16,
    "pint": GALLON_ML / 8,
    "pint and a half": GALLON_ML * 3 / 16,
    "quart": GALLON_ML / 4,
    "half gallon": GALLON_ML / 2,
    "gallon": GALLON_ML,
}


def test_keys_are_short_and_typed_by_hand() -> None:
    for key, one in containers().items():
        assert key == one.key
        assert re.fullmatch(r"(pouch|bag|jar|can)(-[a-z]+)?-\d+(-[a-z]+)?", key)
        assert len(key) <= 21


def test_every_kind_of_package_has_a_container() -> None:
    assert {one.package_kind for one in containers().values()} == set(PackageKind)


def test_the_volume_is_that_of_the_us_size_named_beside_it() -> None:
    # Household lists round (a pint to 475 mL), so within half a percent.
    for one in containers().values():
        if one.us_size in US_SIZES:
            assert one.volume_ml == pytest.approx(float(US_SIZES[one.us_size]), rel=0.005)


def test_the_key_says_about_how_much_it_holds() -> None:
    for key, one in containers().items():
        said = int(re.findall(r"\d+", key)[0])
        assert one.volume_ml == pytest.approx(said, rel=0.02)


def test_the_area_is_both_faces_or_not_known() -> None:
    # A 1.5 L pouch of 200 x 300 mm has 0.12 m2 of film.
    assert container("pouch-1500-foil").area_mm2 == 120_000
    assert container("jar-950").area_mm2 is None


def test_glass_and_steel_are_told_apart() -> None:
    jars = [one for one in containers().values() if one.package_kind is PackageKind.JAR]
    assert {one.material for one in jars} == {Material.GLASS, Material.STEEL}
    can = container("can-3300")
    assert can.material is Material.STEEL
    assert "counted with the barrier of a jar" in can.note


def test_an_unknown_container_gets_the_nearest_keys() -> None:
    with pytest.raises(NotFound) as trouble:
        container("pouch-1500")
    assert trouble.value.nearest[0] == "pouch-1500-foil"


def test_absorbers_come_in_the_usual_sizes_smallest_first() -> None:
    sizes = [one.size_cc for one in absorber_sizes()]
    assert sizes == [50, 100, 200, 300, 500, 1000, 2000]
    assert {one.standing for one in absorber_sizes()} == {Standing.COMMON_PRACTICE}
