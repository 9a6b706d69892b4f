"""Printed figures for energy, to hold the program's own against.

The table of 2005: Institute of Medicine, Dietary Reference Intakes for Energy, Carbohydrate,
Fiber, Fat, Fatty Acids, Cholesterol, Protein, and Amino Acids, 2002/2005, estimated energy
requirements for men and women of 30 years (read in reprints). For each height in metres and
level of activity: men at a body mass index of 18.5 and of 24.99, then women.
"""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.person import Activity, Sex

BMI_COLUMNS = (Fraction("18.5"), Fraction("24.99"))

_PRINTED = """
1.50 sedentary 1848 2080 1625 1762
1.50 low       2009 2267 1803 1956
1.50 active    2215 2506 2025 2198
1.50 very      2554 2898 2291 2489
1.65 sedentary 2068 2349 1816 1982
1.65 low       2254 2566 2016 2202
1.65 active    2490 2842 2267 2477
1.65 very      2880 3296 2567 2807
1.80 sedentary 2301 2635 2015 2211
1.80 low       2513 2884 2239 2459
1.80 active    2782 3200 2519 2769
1.80 very      3225 3720 2855 3141
"""


def table_of_2005() -> list[tuple[Sex, Activity, Fraction, Fraction, int]]:
    """Every cell: sex, activity, height in metres, body mass index, kilocalories."""
    cells: list[tuple[Sex, Activity, Fraction, Fraction, int]] = []
    for line in _PRINTED.strip().splitlines():
        height, level, *kcal = line.split()
        columns = [(sex, bmi) for sex in (Sex.MALE, Sex.FEMALE) for bmi in BMI_COLUMNS]
        for (sex, bmi), printed in zip(columns, kcal, strict=True):
            cells.append((sex, Activity(level), Fraction(height), bmi, int(printed)))
    return cells
