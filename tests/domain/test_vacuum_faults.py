"""Where to look when the vacuum is not reached."""

from __future__ import annotations

from stockroom.domain.vacuum_faults import FAULT_ORDER, FAULT_STEPS
from stockroom.domain.working import Standing
from stockroom.reference.upkeep import upkeep_checks


def test_the_order_is_cheapest_and_likeliest_first() -> None:
    assert [step.where for step in FAULT_STEPS] == [
        "Door seal",
        "Pump",
        "Hose and clamps",
        "Drain valve",
        "Ice or water in the chamber",
        "Pressure sensor",
    ]
    assert FAULT_ORDER.standing is Standing.COMMON_PRACTICE


def test_each_step_says_what_to_do_and_names_a_check_there_is() -> None:
    for step in FAULT_STEPS:
        assert step.do.endswith(".") and step.tells[-1:] in (".", "")
        assert step.check in (*upkeep_checks(), "")


def test_water_drawn_up_means_the_drain_leaks() -> None:
    (drain,) = (step for step in FAULT_STEPS if step.where == "Drain valve")
    assert "cup of water" in drain.do
    assert drain.tells == "Water drawn up shows that it leaks."
