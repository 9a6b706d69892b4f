"""Energy by age, sex and activity where nobody was measured: the table of the Dietary Guidelines.

Dietary Guidelines for Americans, 2020-2025, Table A2-2 (published, secondary copy). Each row is
for a reference person of that age and rounded to 200 kcal, so it is a planning figure and no
more. Its three columns serve the four levels of activity: moderately active is low active, and
active, more than three miles of walking a day, is the most there is.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stockroom.domain.person import Activity, Person, Sex
from stockroom.domain.units import INCH_MM, POUND_G

TABLE_EDITION = "2020-2025"
YOUNGEST_YEARS = 2
"""The first row."""
ANY_PERSON_YEARS = Fraction(40)
"""Of the people of whom only the number is known; engineering judgement."""

_MEN = """
2 1000 1000 1000|3 1000 1400 1400|4 1200 1400 1600|5 1200 1400 1600|6 1400 1600 1800
7 1400 1600 1800|8 1400 1600 2000|9 1600 1800 2000|10 1600 1800 2200|11 1800 2000 2200
12 1800 2200 2400|13 2000 2200 2600|14 2000 2400 2800|15 2200 2600 3000|16 2400 2800 3200
17 2400 2800 3200|18 2400 2800 3200|19 2600 2800 3000|21 2400 2800 3000|26 2400 2600 3000
31 2400 2600 3000|36 2400 2600 2800|41 2200 2600 2800|46 2200 2400 2800|51 2200 2400 2800
56 2200 2400 2600|61 2000 2400 2600|66 2000 2200 2600|71 2000 2200 2600|76 2000 2200 2400
"""
_WOMEN = """
2 1000 1000 1000|3 1000 1200 1400|4 1200 1400 1400|5 1200 1400 1600|6 1200 1400 1600
7 1200 1600 1800|8 1400 1600 1800|9 1400 1600 1800|10 1400 1800 2000|11 1600 1800 2000
12 1600 2000 2200|13 1600 2000 2200|14 1800 2000 2400|15 1800 2000 2400|16 1800 2000 2400
17 1800 2000 2400|18 1800 2000 2400|19 2000 2200 2400|21 2000 2200 2400|26 1800 2000 2400
31 1800 2000 2200|36 1800 2000 2200|41 1800 2000 2200|46 1800 2000 2200|51 1600 1800 2200
56 1600 1800 2200|61 1600 1800 2000|66 1600 1800 2000|71 1600 1800 2000|76 1600 1800 2000
"""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: from which birthday on, to which, and the kilocalories of its three columns."""

    from_years: int
    to_years: int | None
    """The last whole year of age; None: and up."""
    kcal: tuple[int, int, int]

    @property
    def ages(self) -> str:
        """The ages as the table heads them."""
        if self.to_years is None:
            return f"{self.from_years} and up"
        more = "" if self.to_years == self.from_years else f" to {self.to_years}"
        return f"{self.from_years}{more}"


def _rows(text: str) -> tuple[Row, ...]:
    """The rows of one sex, each up to where the next begins."""
    cells = [tuple(map(int, one.split())) for one in text.strip().replace("\n", "|").split("|")]
    ends = [later[0] - 1 for later in cells[1:]]
    return tuple(
        Row(years, end, (sedentary, moderate, active))
        for (years, sedentary, moderate, active), end in zip(cells, [*ends, None], strict=True)
    )


ENERGY_ROWS = {Sex.MALE: _rows(_MEN), Sex.FEMALE: _rows(_WOMEN)}

COLUMNS = {
    Activity.SEDENTARY: (0, "sedentary"),
    Activity.LOW: (1, "moderately active"),
    Activity.ACTIVE: (2, "active"),
    Activity.VERY: (2, "active"),
}
"""The place and the heading of the column of each level."""

_NONE_BESIDES = "only the activity of living independently"
_SOME = "as much as walking 1.5 to 3 miles (2.4 to 4.8 km) a day besides"
_MORE = "as much as walking more than 3 miles (4.8 km) a day besides"
WALKING = {
    Activity.SEDENTARY: _NONE_BESIDES,
    Activity.LOW: _SOME,
    Activity.ACTIVE: _MORE,
    Activity.VERY: _MORE,
}
"""`MEANT_BY_LEVELS`: what the columns mean, at 3 to 4 miles an hour."""

REFERENCE_WEIGHT_KG = {
    Sex.MALE: 154 * POUND_G / 1000,
    Sex.FEMALE: 126 * POUND_G / 1000,
}
"""Of the table's adults: 154 lb and 126 lb."""
REFERENCE_HEIGHT_CM = {Sex.MALE: 70 * INCH_MM / 10, Sex.FEMALE: 64 * INCH_MM / 10}
"""Of the table's adults: 5 ft 10 in and 5 ft 4 in."""


def row_for(sex: Sex, age_years: Fraction) -> Row:
    """The row of an age in completed years; ValueError below `YOUNGEST_YEARS`."""
    fitting = [row for row in ENERGY_ROWS[sex] if row.from_years <= age_years]
    if not fitting:
        raise ValueError(f"the table begins at {YOUNGEST_YEARS} years, not {age_years}")
    return fitting[-1]


def table_kcal(person: Person) -> int:
    """Kilocalories a day of the reference person; ValueError below `YOUNGEST_YEARS`."""
    place, _ = COLUMNS[person.activity]
    return row_for(person.sex, person.age_years).kcal[place]


def people_kcal(people: int, activity: Activity = Activity.LOW) -> int:
    """Kilocalories a day for so many people of whom nothing else is known.

    For each the middle of the table's man and woman of 36 to 40 (engineering judgement): 2300
    kcal when moderately active. ValueError for less than no people.
    """
    if people < 0:
        raise ValueError(f"{people} people")
    pair = sum(table_kcal(Person(sex, ANY_PERSON_YEARS, activity)) for sex in Sex)
    return people * pair // 2
