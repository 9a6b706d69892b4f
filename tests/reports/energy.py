"""Energy of people for reports: by both equations and by the table."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.energy import energy_need
from stockroom.domain.energy_equations import Edition
from stockroom.domain.energy_working import energy_working
from stockroom.domain.person import Activity, Person, Sex
from stockroom.reports.calculations_energy import energy_result
from stockroom.reports.values import Report
from stockroom.reports.workings import with_working

WOMAN = Person(Sex.FEMALE, Fraction(30), Activity.LOW, Fraction(65), Fraction(165))
MAN = Person(Sex.MALE, Fraction(72), Activity.SEDENTARY, Fraction(110), Fraction(178))
BOY = Person(Sex.MALE, Fraction(9), Activity.VERY, Fraction(28), Fraction(133))
ANY_WOMAN = Person(Sex.FEMALE, Fraction(40), Activity.ACTIVE)


def reports() -> dict[str, Report]:
    """Every way a figure for energy is reached."""
    return {
        "energy": with_working(energy_result(energy_need(WOMAN)), energy_working(WOMAN)),
        "energy of 2023": with_working(
            energy_result(energy_need(MAN, Edition.NEW)), energy_working(MAN, Edition.NEW)
        ),
        "energy unusual": energy_result(energy_need(MAN)),
        "energy of a child": with_working(energy_result(energy_need(BOY)), energy_working(BOY)),
        "energy of the table": energy_result(energy_need(ANY_WOMAN)),
    }
