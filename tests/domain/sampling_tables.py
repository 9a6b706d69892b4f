"""Numbers to look at, as printed or as computed from the definition apart from this program."""

from __future__ import annotations

from fractions import Fraction

RATES = tuple(Fraction(rate, 1000) for rate in (50, 20, 10, 5, 1))
"""The columns of `FAULT_RATES`: 5, 2, 1, 0.5 and 0.1 % soft."""

FAULT_RATES = {
    80: """
    100 27 55 80 - -
    200 30 66 111 160 -
    300 30 70 125 240* -
    400 31 73 133 221 -
    500 31 74 138 277* -
    600 31 75 141 249 -
    800 31 76 146 265 -
    900 31 77 147 298* -
    1000 31 77 148 275 800
    2000 32 79 154 297 1106
    5000 32 80 158 311 1376
    10000 32 80 159 316 1486
    20000 32 80 160 319 1546
    """,
    90: """
    100 37 69 90 - -
    200 41 87 137 180 -
    300 42 95 161 270* -
    400 43 100 175 274 -
    500 43 102 184 342* -
    600 44 104 191 321 -
    800 44 107 200 350 -
    900 44 108 203 394* -
    1000 44 108 205 369 900
    2000 45 111 217 411 1368
    5000 45 113 224 439 1845
    10000 45 114 227 449 2056
    20000 45 114 228 455 2174
    """,
    95: """
    25 24* - - - -
    50 39* 48 - - -
    100 45 78 95 - -
    200 51 105 155 190 -
    300 54 117 189 285* -
    400 55 124 211 311 -
    500 56 129 225 388* -
    600 56 132 235 379 -
    800 57 136 249 421 -
    900 57 137 254 474* -
    1000 57 138 258 450 950
    2000 58 143 277 517 1553
    5000 59 147 290 564 2253
    10000 59 148 294 581 2588
    20000 59 148 296 589 2781
    """,
    99: """
    25 25* - - - -
    50 45* 50 - - -
    100 59 90 99 - -
    200 73 136 180 198 -
    300 78 160 235 297* -
    400 81 174 273 360 -
    500 83 183 300 450* -
    600 84 190 321 470 -
    800 85 199 349 546 -
    900 86 202 359 615* -
    1000 86 204 368 601 990
    2000 88 216 410 737 1800
    5000 89 223 438 840 3009
    10000 90 226 448 878 3689
    20000 90 227 453 898 4112
    """,
}
"""Confidence in percent: packages in the lot, then the number to look at for each rate.

80 and 90 %: ISPM 31, FAO/IPPC 2008, table B.2 of a national adoption of 2010, with two cells put
right (see `MISPRINTS`); 95 and 99 %: computed from the hypergeometric distribution, and equal to
the standard as remembered. A star: the number of soft packages was rounded down. A dash: less
than one package.
"""

MISPRINTS = (
    (100, Fraction(2, 100), 80, 56, 55),
    (20_000, Fraction(1, 1000), 90, 2114, 2174),
)
"""Lot, rate, confidence in percent, the number printed in ISPM 31, and the exact one."""

ANY_LOT = {
    80: (32, 80, 161, 322, 1609),
    90: (45, 114, 230, 460, 2302),
    95: (59, 149, 299, 598, 2995),
    99: (90, 228, 459, 919, 4603),
}
"""Lots without end, for the same rates: computed from the binomial distribution. 59 and 90 also in
McSorley and Littell, Nematropica 23:177, 1993."""

AT_MOST = {
    95: """
    4 4 3 2 1 -
    6 6 5 3 3 1
    8 8 6 5 4 2
    10 10 8 6 5 3
    12 12 9 7 6 4
    20 19 16 12 10 7
    24 23 19 15 12 9
    30 29 23 19 15 11
    40 38 31 25 21 15
    50 48 39 31 26 19
    80 76 62 50 42 31
    100 95 78 63 52 39
    150 143 117 95 79 58
    200 190 155 126 105 78
    """,
    90: """
    20 18 14 11 9 6
    24 22 17 13 10 7
    50 45 34 27 22 16
    100 90 69 54 44 32
    """,
}
"""Confidence in percent: packages in the lot, then the number to look at for at most 0, 1, 2, 3
and 5 soft, when none looked at is. Computed from the definition."""

ONE_ALLOWED = """
    20 - 20 17 15 11
    24 - 24 21 18 13
    50 - 49 43 37 29
    100 - 98 87 75 58
"""
"""The same at 95 %, when at most one looked at is soft. Computed from the definition."""

SHARE_GOOD = """
    10 3 5 8
    20 4 6 12
    30 4 7 15
    40 4 7 18
    50 4 8 19
    60 4 8 20
    80 5 8 22
    90 5 8 23
    100 5 8 23
    500 5 9 28
    1000 5 9 28
"""
"""All looked at good: with 95 % confidence at least 50, 70 and 90 % of the lot are. UNODC/ENFSI
ST/NAR/38, Guidelines on Representative Drug Sampling, 2009 (table from memory; computed)."""

IMPERFECT = """
    20 2 16 17 20 -
    24 3 15 17 19 -
    50 5 22 25 28 38
    100 5 45 50 56 75
    100 10 25 28 32 43
"""
"""Packages in the lot, soft ones, and the number to look at for 95 % confidence with a check that
notices 100, 90, 80 and 60 % of them. A dash: impossible. Computed from the definition."""


def rows(table: str) -> list[list[str]]:
    """The cells of a table, line by line."""
    return [line.split() for line in table.strip().splitlines()]
