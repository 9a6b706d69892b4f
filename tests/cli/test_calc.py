"""Calculations on their own: exact keys, plain numbers, no store."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from tests.cli.conftest import Cli


def test_water_has_its_keys_and_figures(nowhere: Cli) -> None:
    # 845 g from 155 g dry and a jar of 62 g; cups by the exact US cup of 231 in3/16 (NIST
    # Handbook 44, Appendix C) and water's density of 998.207 kg/m3 at 20 C (published table).
    answer = nowhere("calc", "water", "--wet", "1000", "--dry", "155", "--use", "62", "--json")
    found = answer.json
    assert {
        "water_removed_g",
        "water_per_dry_g",
        "water_to_add_g",
        "water_to_add_ml",
        "us_cups",
    } <= set(found)
    assert found["water_removed_g"] == 845
    assert found["water_per_dry_g"] == pytest.approx(845 / 155, abs=1e-12)
    assert found["water_to_add_g"] == pytest.approx(338, abs=1e-4)
    assert found["water_to_add_ml"] == pytest.approx(338 / 0.998207, abs=1e-3)
    assert found["us_cups"] == pytest.approx(338 / 0.998207 / 236.5882365, abs=1e-5)
    assert not nowhere.path.exists()


def test_water_without_a_part_is_for_all_of_it(nowhere: Cli) -> None:
    found = nowhere("calc", "water", "--wet", "1 kg", "--dry", "5.5 oz", "--json").json
    assert found["use_g"] == found["dry_g"] == 155.9
    assert found["water_to_add_g"] == pytest.approx(1000 - 155.9)


def test_water_is_explained(nowhere: Cli) -> None:
    page = nowhere("calc", "water", "--wet", "1000", "--dry", "155", "--use", "62").out
    assert "338.0 g · 339 mL · about 1½ US cups" in page
    assert "5.4516" in page and "1.43 of 236.588 mL" in page and "1.41 of 240 mL" in page
    assert "upper bound" in page and "published" in page
    assert "Follow local codes and licensed guidance." in page


weights = st.decimals(min_value="0.1", max_value="20000", places=2)


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None
)
@given(weights, weights, weights)
def test_water_agrees_with_the_mass_balance(
    nowhere: Cli, one: object, two: object, three: object
) -> None:
    use, dry, wet = sorted((Fraction(str(one)), Fraction(str(two)), Fraction(str(three))))
    line = [str(float(weight)) for weight in (wet, dry, use)]
    found = nowhere(
        "calc", "water", "--wet", line[0], "--dry", line[1], "--use", line[2], "--json"
    ).json
    assert found["water_removed_g"] == pytest.approx(float(wet - dry), abs=1e-9)
    assert found["water_per_dry_g"] == pytest.approx(float((wet - dry) / dry), abs=1e-9)
    assert found["water_to_add_g"] == pytest.approx(float((wet - dry) * use / dry), abs=2e-5)
    assert found["water_to_add_ml"] == pytest.approx(found["water_to_add_g"] / 0.998207, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "kind", "valid", "check"),
    [
        ("26329A072", "package", True, "2"),
        ("26329a07-2", "package", True, "2"),
        ("26329A07", "package", True, "2"),
        ("26329A073", "package", False, "2"),
        ("26329A", "lot", True, None),
        # The GRid of the standard's own examples, as python-stdnum has it.
        ("A12425GABC1234002M", "other", True, "M"),
        ("A1-2425G-ABC1234002-A", "other", False, "M"),
    ],
)
def test_a_code_is_checked(
    nowhere: Cli, typed: str, kind: str, valid: bool, check: str | None
) -> None:
    answer = nowhere("calc", "code", typed, "--json", code=0 if valid else 1)
    assert answer.json["kind"] == kind
    assert answer.json["valid"] is valid
    if check is not None:
        assert answer.json["check_character"] == check


@settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=80, deadline=None
)
@given(st.text(alphabet="0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=2, max_size=20))
def test_any_code_agrees_with_the_reference_library(nowhere: Cli, typed: str) -> None:
    answer = nowhere("calc", "code", "--json", "--", typed, code=None)
    if answer.json["kind"] == "other":
        assert answer.json["valid"] is mod_37_36.is_valid(typed)
        assert answer.json["check_character"] == mod_37_36.calc_check_digit(typed[:-1])
        assert answer.code == (0 if answer.json["valid"] else 1)
