"""What services answer: frozen results that commands print and screens paint."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from stockroom.domain.records import (
    Climate,
    HistoryLine,
    Lot,
    LotLoss,
    Package,
    Place,
    RecipeRecord,
    Run,
    StoredProjection,
    StoredRecheck,
    Tray,
)

if TYPE_CHECKING:
    # What only some answers hold: the first paint and the short commands start without.
    from fractions import Fraction

    from stockroom.domain.calendar_entries import CalendarEntry
    from stockroom.domain.cautions import Caution
    from stockroom.domain.cooking import CookPlan, Recipe
    from stockroom.domain.doubts import Doubt
    from stockroom.domain.evidence_records import ExtraDrying, Inspection, QueueEntry
    from stockroom.domain.gate import Gate
    from stockroom.domain.keeping.interface import KeepingCase
    from stockroom.domain.keeping.oxygen import AbsorberFigures
    from stockroom.domain.leak_tests import LeakTest
    from stockroom.domain.logger_table import LoggerTable
    from stockroom.domain.packing_advice import Fit, MealSize
    from stockroom.domain.safe_cooking import LeastTemperature, RawCheck
    from stockroom.domain.upkeep import UpkeepItem
    from stockroom.domain.upkeep_records import EquipmentCheck
    from stockroom.domain.water_share import WaterWay
    from stockroom.domain.wetted import MealCare
    from stockroom.domain.whole_packages import LeftOpen, WholePackage
    from stockroom.domain.working import Working
    from stockroom.domain.year_profile import YearProfile


@dataclass(frozen=True, slots=True)
class Done:
    """An action carried out: its sentence, as the journal has it, and what to bear in mind."""

    words: str
    cautions: tuple[Caution, ...] = ()
    codes: tuple[str, ...] = ()
    """Codes of the packages or lots it made or touched, where that helps the next step."""
    made_id: int = 0
    """The id of the run, place or recipe it made, else 0."""
    care: MealCare | None = None
    """How long a meal may stand and keep; None where nothing was wetted."""


@dataclass(frozen=True, slots=True)
class FoodChoice:
    """A food that can be put on a tray: the household's own, or one of the reference table."""

    name: str
    food_group: str
    food_class: str
    preparation: str
    water_percent: float | None
    own: bool


@dataclass(frozen=True, slots=True)
class RunDetail:
    """A run with its trays and the lots made of it, and the cautions of its foods."""

    run: Run
    trays: tuple[Tray, ...]
    lots: tuple[Lot, ...]
    cautions: tuple[Caution, ...]
    expected_water_dg: int | None
    """Water the foods' composition lets expect in the load; None when a figure is missing."""


@dataclass(frozen=True, slots=True)
class LotDetail:
    """A lot with its trays, packages and losses."""

    lot: Lot
    trays: tuple[Tray, ...]
    packages: tuple[Package, ...]
    losses: tuple[LotLoss, ...]
    cautions: tuple[Caution, ...]
    driven_off_dg: int = 0
    """Water that drying its food again took out of it since."""
    queued: QueueEntry | None = None
    """Its place in the queue for the machine, while food of it waits there."""
    gate: Gate | None = None
    """Whether its food is shown to be dry enough to be packed without oxygen."""


@dataclass(frozen=True, slots=True)
class PackageDetail:
    """One package with its history, its best-by and what to bear in mind."""

    package: Package
    history: tuple[HistoryLine, ...]
    projection: StoredProjection | None
    no_best_by: str
    """Why the model gives no best-by; "" when it does, or when the package is gone."""
    cautions: tuple[Caution, ...]
    allergens: tuple[str, ...]
    ingredients_unknown: bool
    sisters: int
    """Other live packages of its lot."""
    recheck: StoredRecheck | None = None
    """When it is to be looked at again; None unless it is sound and sealed."""
    queued: QueueEntry | None = None
    """Its place in the queue for the machine, while it is held."""
    inspections: tuple[Inspection, ...] = ()
    """What was decided of it, in order."""
    sources: tuple[str, ...] = ()
    """Codes of the packages whose food is in it."""
    successors: tuple[str, ...] = ()
    """Codes of the packages its food went into."""


@dataclass(frozen=True, slots=True)
class WorkingPage:
    """How the figures of a package, a lot or a dish were reached. `code` names it."""

    code: str
    workings: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class RoundPage:
    """What wants doing today."""

    today: date
    settle: tuple[Package, ...]
    """Settle checks due, the longest waiting first."""
    suspect: tuple[Package, ...]
    held: tuple[Package, ...]
    opened: tuple[Package, ...]
    use_first: tuple[Package, ...]
    """Unopened usable packages with the earliest best-by; the opened ones have their own list."""
    to_pack: tuple[Lot, ...]
    """Lots with dry food neither packed nor recorded as lost."""
    open_runs: tuple[Run, ...]
    recheck: tuple[Package, ...] = ()
    """Rechecks for this day, the worst risk first."""
    recheck_waiting: int = 0
    """Overdue rechecks left for the days to come, since one day's number is full."""
    looks: tuple[StoredRecheck, ...] = ()
    """The days each of `recheck` is wanted between and its risk, in their order."""
    queue: tuple[QueueEntry, ...] = ()
    """What waits for the machine, is on it or came off it, first come first served."""
    reminders: tuple[ExtraDrying, ...] = ()
    """Extra hours of open runs after which nothing was weighed yet."""
    doubts: tuple[Doubt, ...] = ()
    """Why each of `suspect` is doubtful, in their order."""

    @property
    def packable(self) -> tuple[Lot, ...]:
        """Lots to pack, those left out whose food waits to be dried again."""
        queued = {one.lot_id for one in self.queue if one.package_id is None}
        return tuple(one for one in self.to_pack if one.lot_id not in queued)

    @property
    def empty(self) -> bool:
        """Whether nothing at all wants doing."""
        return not any(
            (
                self.settle,
                self.suspect,
                self.held,
                self.opened,
                self.use_first,
                self.to_pack,
                self.open_runs,
                self.recheck,
                self.queue,
                self.reminders,
            )
        )


def _nothing_raw() -> RawCheck:
    from stockroom.domain.safe_cooking import RawCheck

    return RawCheck()


def _plain_water() -> WaterWay:
    from stockroom.domain.water_share import WaterWay

    return WaterWay()


@dataclass(frozen=True, slots=True)
class CookSheet:
    """A recipe for so many people: what to take, how much water, what is short."""

    recipe: RecipeRecord
    plan: CookPlan
    cautions: tuple[Caution, ...]
    allergens: tuple[str, ...]
    ingredients_unknown: tuple[str, ...]
    """Foods of the recipe whose ingredients are to be checked for allergens."""
    raw_foods: tuple[str, ...]
    unchecked: tuple[str, ...]
    """Codes of picked packages not settle-checked yet."""
    past_best_by: tuple[str, ...]
    """Codes of picked packages past their best-by."""
    written: Recipe | None = None
    """The dish as written with its swaps, before it was scaled."""
    way: WaterWay = field(default_factory=_plain_water)
    wholes: tuple[WholePackage, ...] = ()
    """Packages better taken whole; none once that was accepted."""
    left_open: tuple[LeftOpen, ...] = ()
    raw: RawCheck = field(default_factory=_nothing_raw)
    heat: LeastTemperature | None = None
    """What the dish is heated to: for its raw food, or as reheated; None where neither is in it."""
    at_once: tuple[str, ...] = ()
    """Foods of rehydrated egg: a dish with them is eaten at once."""


@dataclass(frozen=True, slots=True)
class ClimatePage:
    """A place's climate over the year.

    `months_dc` are the twelve temperatures the best-by dates reckon with, January first (a steady
    place has twelve equal ones; none when nothing is known). The mean kinetic temperatures are for
    a life that halves every 10 °C, and with the pharmacopoeia's 83.144 kJ/mol.
    """

    place: Place
    climate: Climate
    months_dc: tuple[int, ...]
    mean_c: float | None
    kinetic_c: float | None
    pharmacopoeia_kinetic_c: float | None
    readings: int
    first_reading: str
    last_reading: str


@dataclass(frozen=True, slots=True)
class LoggerPreview:
    """What a logger's file would bring, before it is kept."""

    place: Place
    table: LoggerTable
    profile: YearProfile


@dataclass(frozen=True, slots=True)
class Choice:
    """One way on for a package. `kind` is now, move or repack.

    `gain_days` is against staying as it is. A choice the model gives no date has `why_not`.
    """

    kind: str
    words: str
    best_by: date | None
    low: date | None
    high: date | None
    limited_by: str
    gain_days: int
    why_not: str = ""
    place: str = ""
    container_key: str = ""
    absorber_cc: int = 0
    vacuum: bool = False
    case: KeepingCase | None = None
    """What the model was asked: its working is written from the same."""


@dataclass(frozen=True, slots=True)
class WhatIfPage:
    """A package as it stands beside what could be done with it, the best first."""

    package: Package
    now: Choice
    choices: tuple[Choice, ...]
    alike: tuple[str, ...] = ()
    """Codes of all packages it holds for, when a lot was asked about."""


@dataclass(frozen=True, slots=True)
class Gain:
    """One piece of advice for packages alike: one lot, container and place."""

    packages: tuple[Package, ...]
    choice: Choice
    servings: Fraction
    now: Choice | None = None
    """The same packages left as they are."""

    @property
    def serving_days(self) -> Fraction:
        """What advice is ranked by: days gained times servings."""
        return self.servings * self.choice.gain_days


@dataclass(frozen=True, slots=True)
class Packed:
    """A lot in one kind of package: how it fits, the absorber and what the model says.

    `absorber` is None where none would help (a bag that lets oxygen through).
    """

    fit: Fit
    absorber: AbsorberFigures | None
    best_by: date | None
    low: date | None
    high: date | None
    limited_by: str
    why_not: str = ""
    case: KeepingCase | None = None
    """What the model was asked: its working is written from the same."""


@dataclass(frozen=True, slots=True)
class PackingAdvice:
    """What would suit a lot, the advised way first, with the reasons in words."""

    lot: Lot
    meal: MealSize
    advised: Packed | None
    others: tuple[Packed, ...]
    reasons: tuple[str, ...]
    cautions: tuple[Caution, ...]
    into: str
    """The advised way as `pack --into` takes it; "" when there is none."""


@dataclass(frozen=True, slots=True)
class UpkeepPage:
    """The machine: how every check stands, the latest leak tests, and what to bear in mind."""

    today: date
    items: tuple[UpkeepItem, ...]
    """Those at fault first, then those due, the longest overdue first."""
    tests: tuple[LeakTest, ...]
    """The latest first."""
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class UpkeepCheckPage:
    """One check of the machine in full, with the times it was done, the latest first."""

    item: UpkeepItem
    done: tuple[EquipmentCheck, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class CalendarFeed:
    """What a calendar file says, by day, and how it differs from the one before."""

    household: str
    """The household's name, "" when it has none."""
    today: date
    until: date
    alarm: bool
    """Whether each entry rings."""
    entries: tuple[CalendarEntry, ...]
    new: int
    changed: int
    cancelled: int
    """Entries taken back for the first time in this file."""
    without_best_by: int
    """Packages that may be eaten from and have no best-by: the Round names them first."""
