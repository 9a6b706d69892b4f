"""What is said at the machine, and beside which check."""

from __future__ import annotations

import re

import pytest

from stockroom.domain.machine_cautions import (
    MACHINE_CAUTIONS,
    cautions_beside,
    machine_cautions,
)
from stockroom.domain.working import Standing
from stockroom.reference.upkeep import upkeep_checks


def test_pump_oil_cold_walls_water_and_electricity_are_all_named() -> None:
    assert [one.key for one in MACHINE_CAUTIONS] == [
        "electricity",
        "pump",
        "used-oil",
        "cold-walls",
        "wet-floor",
    ]
    assert machine_cautions()[:-1] == MACHINE_CAUTIONS
    assert machine_cautions()[-1].key == "local-codes"


def test_what_is_from_memory_is_general_guidance_and_holds_no_figure() -> None:
    remembered = [one for one in MACHINE_CAUTIONS if one.standing is Standing.FROM_MEMORY]
    assert [one.key for one in remembered] == ["cold-walls"]
    for one in remembered:
        assert one.text.startswith("As general guidance: ")
        assert not re.search(r"\d", one.text)


def test_each_shows_its_source_and_standing_and_promises_nothing() -> None:
    for one in MACHINE_CAUTIONS:
        assert one.source.citation.casefold() in one.words.casefold()
        assert one.standing.words in one.words
        assert not re.search(r"\b(guaranteed|is safe|harmless)\b", one.text.lower())


@pytest.mark.parametrize("key", upkeep_checks())
def test_a_check_with_a_danger_names_it_and_defers(key: str) -> None:
    found = [one.key for one in cautions_beside(key)]
    if key in ("scale", "thermometer"):
        assert found == []
    else:
        assert len(found) > 1 and found[-1] == "local-codes"


def test_oil_is_named_where_oil_is_handled_and_the_plug_where_covers_come_off() -> None:
    beside = {key: {one.key for one in cautions_beside(key)} for key in upkeep_checks()}
    assert {key for key, found in beside.items() if "used-oil" in found} == {"oil", "oil_change"}
    assert {key for key, found in beside.items() if "electricity" in found} == {
        "coil",
        "hose",
        "pump",
    }


def test_an_unknown_check_has_none() -> None:
    assert cautions_beside("gaskets") == ()
