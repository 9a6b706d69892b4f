"""What decides when a package is looked at again: facts of the package, wishes of the household."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from stockroom.errors import Refused

LONGEST_DAYS = 366
"""Nothing is left alone for more than a year (engineering judgement)."""
MOST_LOOKS = 1_000
"""More looks a day than this are a slip of the finger (engineering judgement)."""
EVERY_DAY = frozenset(range(7))


class LooksOutOfOrder(Refused):
    """The days between looks are out of range, or shrink as the package grows older."""

    def __init__(self, first_days: int, second_days: int, later_days: int) -> None:
        super().__init__(
            f"Looking again after {first_days}, {second_days} and {later_days} days does not work:"
            f" each is 1 to {LONGEST_DAYS} days, and none is shorter than the one before.",
            "Give three numbers of days that grow, such as 7, 30 and 183.",
        )


class NoDaySetAside(Refused):
    """No day of the week is left for looking at packages, or one is not in the week."""

    def __init__(self) -> None:
        super().__init__(
            "No day of the week is set aside for looking at packages.",
            "Set one day aside at least, such as Saturday.",
        )


class LooksADay(Refused):
    """Too few or too many packages for one day."""

    def __init__(self, most_a_day: int) -> None:
        super().__init__(
            f"{most_a_day} packages a day cannot be: it is 1 to {MOST_LOOKS:,}.",
            "Say how many packages you would look at on one day, such as 20.",
        )


@dataclass(frozen=True, slots=True)
class RecheckSettings:
    """How often, on which days and how many at most; all are the household's to change.

    The defaults are engineering judgement. Raises LooksOutOfOrder, NoDaySetAside or LooksADay.
    """

    first_days: int = 7
    """From the settle check to the next look."""
    second_days: int = 30
    later_days: int = 183
    set_aside: frozenset[int] = EVERY_DAY
    """Days of the week for looking at packages, 0 for Monday to 6 for Sunday."""
    most_a_day: int = 20

    def __post_init__(self) -> None:
        if not 1 <= self.first_days <= self.second_days <= self.later_days <= LONGEST_DAYS:
            raise LooksOutOfOrder(self.first_days, self.second_days, self.later_days)
        if not self.set_aside or not self.set_aside <= EVERY_DAY:
            raise NoDaySetAside
        if not 1 <= self.most_a_day <= MOST_LOOKS:
            raise LooksADay(self.most_a_day)

    @property
    def longest_wait_days(self) -> int:
        """Days from any day to the next one set aside, at most: 0 for every day, 6 for one."""
        days = sorted(self.set_aside)
        following = [*days[1:], days[0] + 7]
        return max(after - day for day, after in zip(days, following, strict=True)) - 1


STANDARD = RecheckSettings()


@dataclass(frozen=True, slots=True)
class RecheckFacts:
    """One sealed, settled and sound package. None means not known."""

    package_id: int
    sealed_on: date
    findings: tuple[tuple[date, str], ...]
    """Days with what a look found, in order: crisp, soft, leak or damaged."""
    moved_on: date | None
    """The last day it was moved to another place; its first place is no move."""
    package_kind: str
    vacuum: bool
    absorber_cc: int
    food_class: str
    fat_of_solids: Fraction | None
    sugars_of_solids: Fraction | None
    best_by: date | None
    """None when the keeping model gives no date; then `low` is None as well."""
    low: date | None
    """The low edge of the band of its best-by."""
    warmest_dc: int | None
    """The warmest its place gets over the year, tenths of a degree C."""
    humidity_percent: int | None
    sisters_soft: int
    """Other packages of its lot that were found soft, out of `sisters_checked` looked at."""
    sisters_checked: int
