"""A walk along the shelf: which packages, in which order, what was found, where it stands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from stockroom.domain.conditions import Condition, Event
from stockroom.domain.doubts import Doubt
from stockroom.domain.rechecks import settle_check_due
from stockroom.domain.records import Package, Place
from stockroom.services.session import Stockroom
from stockroom.services.shelves import ShelfFilter, find_packages, package_keys
from stockroom.services.today import doubts_of, round_for_today
from stockroom.tui.screens.round_lines import DOUBT_WORDS
from stockroom.tui.screens.round_rows import RISK_STEP
from stockroom.tui.words import GONE, walking

LOOKED_AT = (Condition.SETTLING, Condition.SOUND, Condition.SUSPECT, Condition.OPENED)
"""Conditions in which a look at a package is recorded."""
MOST_ON_A_WALK = 1_000
"""More than this nobody looks at in one go, and it would take long to read (judgement)."""
SETTLE = "its settle check is due"


@dataclass(frozen=True, slots=True)
class Step:
    """One look that was recorded on the walk."""

    package: Package
    finding: Event
    sisters: tuple[str, ...]
    """Codes of the sisters it has made doubtful."""
    entry_id: int
    """The journal's entry of it."""


@dataclass(slots=True)
class Walk:
    """The packages in the order of the shelves, the one in hand, and what was found so far."""

    name: str
    """Where it leads: a place, or today's list."""
    packages: list[Package]
    why: dict[int, str]
    """Why each is looked at, where there is more to say than its condition."""
    at: int = 0
    steps: list[Step] = field(default_factory=list[Step])
    undone: list[Step] = field(default_factory=list[Step])
    """Looks taken back, the last one last, to be done again."""

    @property
    def current(self) -> Package | None:
        """The package in hand."""
        return self.packages[self.at] if self.packages else None

    @property
    def found(self) -> dict[int, Event]:
        """What was last found of each package looked at."""
        return {step.package.package_id: step.finding for step in self.steps}

    @property
    def over(self) -> bool:
        """Whether each was looked at."""
        return len(self.found) >= len(self.packages)

    @property
    def following(self) -> Package | None:
        """The next one that was not looked at, after the one in hand."""
        place = self._next_open()
        return None if place is None else self.packages[place]

    def _next_open(self) -> int | None:
        """The line of it: below first, then from the top."""
        found, count = self.found, len(self.packages)
        ahead = ((self.at + step) % count for step in range(1, count))
        return next((at for at in ahead if self.packages[at].package_id not in found), None)

    def go_on(self) -> None:
        """Take the next one in hand that was not looked at; stay when there is none."""
        place = self._next_open()
        self.at = self.at if place is None else place

    def go(self, lines: int) -> None:
        """Go along by so many packages, looked at or not."""
        self.at = max(0, min(self.at + lines, len(self.packages) - 1))

    def go_to(self, package_id: int) -> bool:
        """Take a package of the walk in hand; False when it is not on it."""
        for at, package in enumerate(self.packages):
            if package.package_id == package_id:
                self.at = at
                return True
        return False

    def take_in(self, package: Package) -> None:
        """Put a package that stood elsewhere into the walk, in hand now."""
        self.at = min(self.at + 1, len(self.packages))
        self.packages.insert(self.at, package)

    def renew(self, packages: Iterable[Package], why: Mapping[int, str]) -> None:
        """Put in the records as they are now, and why; what is gone unseen drops out."""
        self.why |= why
        here, found = self.current, self.found
        now = {one.package_id: one for one in packages}
        read = [now.get(one.package_id, one) for one in self.packages]
        self.packages = [
            one for one in read if one.condition not in GONE or one.package_id in found
        ]
        if here is None or not self.go_to(here.package_id):
            self.go(0)

    def counts(self) -> Counter[Event]:
        """How many were found so."""
        return Counter(self.found.values())

    @property
    def to_decide(self) -> list[Step]:
        """What was found at fault and not crisp since."""
        last = {step.package.package_id: step for step in self.steps}
        return [step for step in last.values() if step.finding is not Event.CRISP]

    @property
    def doubted(self) -> list[str]:
        """Codes of sisters made doubtful on the walk and not looked at since, each once."""
        codes: dict[str, None] = {}
        for step in self.steps:
            codes |= dict.fromkeys(step.sisters)
            codes.pop(step.package.code, None)
        return list(codes)


def walk_of_today(room: Stockroom) -> Walk:
    """Everything that wants looking at today: doubts a look may settle, settle checks, rechecks."""
    page = round_for_today(room, use_first=0, with_lots=False)
    doubtful = [
        (one, doubt)
        for one, doubt in zip(page.suspect, page.doubts, strict=True)
        if not doubt.own_fault
    ]
    why = {one.package_id: DOUBT_WORDS[doubt] for one, doubt in doubtful}
    why |= {one.package_id: SETTLE for one in page.settle}
    why |= {one.package_id: f"recheck, risk {one.risk // RISK_STEP} of 10" for one in page.looks}
    packages = [*(one for one, _ in doubtful), *page.settle, *page.recheck]
    return Walk("Today's list", sorted(packages, key=walking), why)


def walk_of_place(room: Stockroom, place: Place) -> Walk:
    """Everything in a place and below it that can be looked at."""
    found = [one for one in find_packages(room, _within(place)) if not too_early(room, one)]
    return Walk(place.path, sorted(found, key=walking), reasons(room, found))


def too_far(room: Stockroom, place: Place) -> int:
    """How many packages a place holds, where they are too many for one walk; else 0."""
    count = len(package_keys(room, _within(place)))
    return count if count > MOST_ON_A_WALK else 0


def _within(place: Place) -> ShelfFilter:
    return ShelfFilter(place_id=place.place_id, conditions=LOOKED_AT, order="place")


def walk_of(room: Stockroom, name: str, packages: Sequence[Package]) -> Walk:
    """These packages."""
    return Walk(name, sorted(packages, key=walking), reasons(room, packages))


def too_early(room: Stockroom, package: Package) -> bool:
    """Whether its settle check is not due yet: it was sealed today."""
    settling = package.condition == Condition.SETTLING
    return settling and settle_check_due(package.sealed_on) > room.today


def reasons(room: Stockroom, packages: Sequence[Package]) -> dict[int, str]:
    """Why doubtful ones are in doubt, and that others wait for their settle check."""
    suspect = [one for one in packages if one.condition == Condition.SUSPECT]
    doubts: Mapping[int, Doubt] = dict(
        zip((one.package_id for one in suspect), doubts_of(room, suspect), strict=True)
    )
    why = {package_id: DOUBT_WORDS[doubt] for package_id, doubt in doubts.items()}
    settling = [one for one in packages if one.condition == Condition.SETTLING]
    return why | {one.package_id: SETTLE for one in settling}
