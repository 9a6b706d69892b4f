"""The machine for reports: checks in every state, leak tests, one check in full."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from stockroom.domain.leak import Between, PressureRise, leak
from stockroom.domain.leak_tests import LeakTest
from stockroom.domain.leak_working import leak_working
from stockroom.domain.machine_cautions import cautions_beside, machine_cautions
from stockroom.domain.upkeep import CheckHistory, Machine, UpkeepItem, upkeep_items
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.domain.upkeep_records import EquipmentCheck
from stockroom.reference.upkeep import upkeep_checks
from stockroom.reports.calculations_machine import leak_result
from stockroom.reports.upkeep import check_report, fault_report, upkeep_report
from stockroom.reports.values import Report
from stockroom.reports.workings import with_working
from stockroom.services.results import UpkeepCheckPage, UpkeepPage

DAY = date(2026, 11, 25)
EARLIER = date(2026, 10, 1)
NOTE = '[/] jar [soft] "7" \x1b[31m冷凍\u202e'
WITHIN = PressureRise(Fraction(40), Fraction("0.30"), Fraction("0.60"), Fraction(600), True)
DAMP = PressureRise(
    Fraction(30), Fraction("0.3"), Fraction("1.2"), Fraction(600), False,
    Between(Fraction(1), Fraction(300)),
)  # fmt: skip
UNSAID = PressureRise(Fraction(40), Fraction("0.30"), Fraction("0.60"), Fraction(600))

HISTORIES = {
    "hose": CheckHistory(DAY, False, EARLIER, DAY, NOTE),
    "gasket": CheckHistory(EARLIER, True, EARLIER, None, "", 3),
    "coil": CheckHistory(DAY, True, DAY),
    "pump": CheckHistory(EARLIER, True, EARLIER, None, "", 9, 2_345, 2),
}
OWN = {"oil": OFF, "oil_change": Interval(Every.HOURS, 40), "coil": Interval(Every.DAYS, 90)}


def items() -> tuple[UpkeepItem, ...]:
    """Every check of the table in some state."""
    machine = Machine(EARLIER)
    return upkeep_items(upkeep_checks().values(), OWN, HISTORIES, machine, DAY)


def item(key: str) -> UpkeepItem:
    """One of them."""
    return next(one for one in items() if one.check.key == key)


def reports() -> dict[str, Report]:
    """Every report of the machine."""
    tests = (LeakTest(DAY, leak(WITHIN), ""), LeakTest(EARLIER, leak(DAMP), NOTE))
    done = (
        EquipmentCheck(2, "hose", DAY, False, NOTE),
        EquipmentCheck(1, "hose", EARLIER, True, ""),
    )
    leak_check = UpkeepCheckPage(item("leak"), (), cautions_beside("leak"))
    return {
        "upkeep": upkeep_report(UpkeepPage(DAY, items(), tests, machine_cautions())),
        "upkeep without tests": upkeep_report(UpkeepPage(DAY, items()[-2:], (), ())),
        "upkeep check": check_report(UpkeepCheckPage(item("hose"), done, cautions_beside("hose"))),
        "upkeep check own": check_report(UpkeepCheckPage(item("coil"), done[1:], ())),
        "upkeep check never done": check_report(leak_check),
        "vacuum faults": fault_report(),
        "leak": with_working(leak_result(leak(DAMP)), leak_working(DAMP)),
        "leak within": leak_result(leak(WITHIN)),
        "leak not said": leak_result(leak(UNSAID)),
    }
