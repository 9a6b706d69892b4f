"""A package or a lot traced back to the machine and forward to everything that shares its past."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stockroom.domain.caution_table import Caution
from stockroom.domain.conditions import LIVE, Condition, Event, events_for
from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying, QueueEntry, Weighing
from stockroom.domain.gate import Gate
from stockroom.domain.records import Lot, Package, Run, Tray

RECALLABLE = tuple(one for one in Condition if Event.RECALL in events_for(one))
"""Conditions from which a package can be called back: sealed or opened."""


class GroupKind(StrEnum):
    """What packages have in common that can be followed, and by which they can be called back."""

    LOT = "lot"
    RUN = "run"
    PACKET = "packet"
    BOX = "box"

    @property
    def words(self) -> str:
        """What it is called in a sentence."""
        return _KIND_WORDS[self]


_KIND_WORDS = {
    GroupKind.LOT: "lot",
    GroupKind.RUN: "run",
    GroupKind.PACKET: "absorber packet",
    GroupKind.BOX: "container box",
}


@dataclass(frozen=True, slots=True)
class DriedTray:
    """A tray with what was weighed and tested on it."""

    tray: Tray
    own: bool
    """Whether food of what is traced was on it."""
    weighings: tuple[Weighing, ...]
    """Dry weighings in the order taken."""
    tests: tuple[DrynessCheck, ...]
    cold: str
    """What the last cold-touch test found, in words; "" when nobody felt for a cold spot."""
    broken: str
    """What the last break test found, in words; "" when nothing was broken."""


@dataclass(frozen=True, slots=True)
class Drying:
    """One time in the machine: the run, its trays, the extra hours, and what showed dryness."""

    run: Run
    again: bool
    """Whether the food was dried again then, having been in a lot or a package before."""
    trays: tuple[DriedTray, ...]
    """Every tray of the first drying; of a later one the tray the food was on."""
    extra: tuple[ExtraDrying, ...]
    gate: Gate


@dataclass(frozen=True, slots=True)
class Group:
    """All packages that share a lot, a run, an absorber packet or a container box.

    Packages their food went into since count among them.
    """

    kind: GroupKind
    name: str
    conditions: tuple[tuple[Condition, int], ...]
    """How many stand in each condition there is one in, in the order of Condition."""
    listed: tuple[Package, ...]
    """Those still there first; no more than a page of them."""

    @property
    def packages(self) -> int:
        """How many there ever were."""
        return self._among(tuple(Condition))

    @property
    def live(self) -> int:
        """How many are still there."""
        return self._among(LIVE)

    @property
    def recallable(self) -> int:
        """How many a recall would call back: sealed or opened, and not in doubt already."""
        return self._among(RECALLABLE)

    @property
    def words(self) -> str:
        """The group by its name: "run 12"."""
        return group_words(self.kind, self.name)

    def _among(self, conditions: tuple[Condition, ...]) -> int:
        return sum(count for condition, count in self.conditions if condition in conditions)


def group_words(kind: GroupKind, name: str) -> str:
    """A group by its name: "run 12", "container box blue"."""
    return f"{kind.words} {name}"


@dataclass(frozen=True, slots=True)
class MealMade:
    """A meal cooked with food of a lot: dry grams out of so many of its packages."""

    meal_id: int
    name: str
    on_day: date
    packages: int
    dry_dg: int


@dataclass(frozen=True, slots=True)
class TracePage:
    """Where a package or a lot comes from, and where everything that shares its past is now."""

    code: str
    lot: Lot
    package: Package | None
    """None where a lot was asked for."""
    dryings: tuple[Drying, ...]
    """The first drying, then each later one in order."""
    sources: tuple[Package, ...]
    """The packages whose food is in it."""
    successors: tuple[Package, ...]
    """The packages its food went into."""
    groups: tuple[Group, ...]
    meals: tuple[MealMade, ...]
    """Meals cooked with food of the lot, the latest first."""
    queued: QueueEntry | None
    """Its place in the queue for the machine."""
    cautions: tuple[Caution, ...]

    def group(self, kind: GroupKind) -> Group | None:
        """The group of a kind that a recall would take: of runs the last one it was dried in."""
        found = [one for one in self.groups if one.kind is kind]
        return found[-1] if found else None

    def listed_once(self) -> tuple[tuple[Group, tuple[Package, ...]], ...]:
        """Each group with those of its listed packages that no group before it has listed."""
        seen: set[int] = set()
        found: list[tuple[Group, tuple[Package, ...]]] = []
        for group in self.groups:
            found.append((group, tuple(one for one in group.listed if one.package_id not in seen)))
            seen |= {one.package_id for one in group.listed}
        return tuple(found)
