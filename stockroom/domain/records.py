"""What the store hands out: flat, frozen records, one kind per thing a person can name.

Weights are tenths of a gram (`_dg`), temperatures tenths of a degree Celsius (`_dc`), volumes
millilitres (`_ml`), days calendar dates. `None` means not known, never zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class JournalEntry:
    """One action, or the undoing or redoing of one. `reversed`: a later entry took it back."""

    entry_id: int
    at: datetime
    on_day: date
    actor: str
    kind: str
    action: str
    words: str
    reverses_id: int | None
    reversed: bool


@dataclass(frozen=True, slots=True)
class Food:
    """A food this household dries. Composition is hundredths of a gram per 100 g as loaded."""

    food_id: int
    name: str
    reference_key: str | None
    food_group: str
    food_class: str
    preparation: str
    serving_dg: int
    water_cg: int | None
    energy_tenth_kcal: int | None
    protein_cg: int | None
    fat_cg: int | None
    ash_cg: int | None
    carbohydrate_cg: int | None
    fibre_cg: int | None
    sugars_cg: int | None
    ingredients_unknown: bool
    note: str
    allergens: tuple[str, ...]

    @property
    def fat_of_solids(self) -> Fraction | None:
        """Fat as a share of the dry solids, or None when the composition is not known."""
        return self._of_solids(self.fat_cg)

    @property
    def sugars_of_solids(self) -> Fraction | None:
        """Sugars as a share of the dry solids, or None when the composition is not known."""
        return self._of_solids(self.sugars_cg)

    def _of_solids(self, part_cg: int | None) -> Fraction | None:
        if part_cg is None or self.water_cg is None or self.water_cg >= 10_000:
            return None
        return Fraction(part_cg, 10_000 - self.water_cg)


@dataclass(frozen=True, slots=True)
class Container:
    """A pouch, bag or jar by its household name."""

    container_id: int
    key: str
    name: str
    package_kind: str
    volume_ml: int
    width_mm: int | None
    height_mm: int | None


@dataclass(frozen=True, slots=True)
class Place:
    """A node of the place tree. `temperature_dc` is its own or the nearest one above it."""

    place_id: int
    parent_id: int | None
    name: str
    path: str
    depth: int
    kind: str
    own_temperature_dc: int | None
    temperature_dc: int | None
    note: str
    packages: int


@dataclass(frozen=True, slots=True)
class Run:
    """One cycle of the machine. `state` is open, closed or abandoned."""

    run_id: int
    started_on: date
    closed_on: date | None
    state: str
    note: str
    trays: int
    foods: str


@dataclass(frozen=True, slots=True)
class Tray:
    """One tray of a run with its net weights, where weighed."""

    tray_id: int
    run_id: int
    position: int
    food_id: int
    food: str
    lot_id: int | None
    lot_code: str | None
    wet_dg: int | None
    dry_dg: int | None
    again: tuple[str, ...] = ()
    """Codes of the packages or the lot whose food is dried again on it; none for fresh food."""
    tare_dg: int = 0
    """Weight of the empty tray at its last weighing; 0 on a tared scale or when never weighed."""


@dataclass(frozen=True, slots=True)
class Lot:
    """One food out of one run, with what was packed, what was lost and so what is left."""

    lot_id: int
    code: str
    run_id: int
    food_id: int
    food: str
    food_class: str
    preparation: str
    made_on: date
    wet_dg: int
    dry_dg: int
    packed_dg: int
    packed_water_dg: int
    lost_dg: int
    lost_water_dg: int
    packages: int
    serving_dg: int
    note: str
    dealt_before_dg: int = 0
    """Dry food accounted for before the rest was dried again; 0 when it never was."""
    dealt_before_water_dg: int = 0
    """The water that went with it."""

    @property
    def water_removed_dg(self) -> int:
        """Water the run took out of the lot."""
        return self.wet_dg - self.dry_dg

    @property
    def left_dg(self) -> int:
        """Dry weight neither packed nor recorded as lost."""
        return self.dry_dg - self.packed_dg - self.lost_dg


@dataclass(frozen=True, slots=True)
class LotLoss:
    """Dry food of a lot that went into no package."""

    loss_id: int
    reason: str
    dry_dg: int
    water_dg: int
    on_day: date
    note: str


@dataclass(frozen=True, slots=True)
class Package:
    """A pouch, jar or bag of one lot. `left_dg` and `left_water_dg` are what is still in it."""

    package_id: int
    code: str
    lot_id: int
    lot_code: str
    food_id: int
    food: str
    food_class: str
    preparation: str
    container: str
    container_key: str
    package_kind: str
    volume_ml: int
    absorber_cc: int
    vacuum: bool
    vacuum_tenth_inhg: int | None
    dry_dg: int
    water_dg: int
    taken_dg: int
    taken_water_dg: int
    serving_dg: int
    made_on: date
    sealed_on: date
    place_id: int | None
    place: str
    condition: str
    opened_on: date | None
    gone_on: date | None
    best_by: date | None
    note: str
    width_mm: int | None = None
    height_mm: int | None = None
    absorber_packet: str = ""
    """The packet its absorber came out of, as the person names it."""
    container_box: str = ""
    """The box its container came out of, as the person names it."""
    tray_position: int | None = None
    """The tray its food came from, where that was said."""
    gate_reason: str = ""
    """Why it was packed without oxygen although dryness was not shown; "" when it was."""
    origin: str = "packed"
    """Packed out of the run, redried, or repacked out of another package."""
    first_sealed_on: date | None = None
    """The first sealing of food that was in a package before."""
    exposed_on: date | None = None
    """The day room air got in before it was repacked without drying."""
    life_before_millionths: int | None = None
    """Share of its quality spent before it was dried again, in millionths."""

    @property
    def low_oxygen(self) -> bool:
        """Whether it was packed with an absorber or under vacuum."""
        return self.absorber_cc > 0 or self.vacuum

    @property
    def area_mm2(self) -> int | None:
        """Both faces of the container inside its seals; None where a side is not known."""
        if self.width_mm is None or self.height_mm is None:
            return None
        return 2 * self.width_mm * self.height_mm

    @property
    def left_dg(self) -> int:
        """Dry weight still in the package."""
        return self.dry_dg - self.taken_dg

    @property
    def left_water_dg(self) -> int:
        """Water that what is left would take up."""
        return self.water_dg - self.taken_water_dg

    @property
    def servings_left(self) -> Fraction:
        """Servings of what is left, by fresh-equivalent weight."""
        return Fraction(self.left_dg + self.left_water_dg, self.serving_dg)


@dataclass(frozen=True, slots=True)
class StoredProjection:
    """The stored best-by of a package with its band and what limits it."""

    package_id: int
    best_by: date
    low: date
    high: date
    recheck_by: date
    limited_by: str
    model: str
    computed_on: date
    discard_by: date | None = None
    """The day it may have taken up so much moisture that it has to go, where that comes."""


@dataclass(frozen=True, slots=True)
class StoredRecheck:
    """When a package is to be looked at again; `risk` from 0 to 1000."""

    package_id: int
    earliest_on: date
    wanted_on: date
    latest_on: date
    risk: int


@dataclass(frozen=True, slots=True)
class RefusedProjection:
    """A package the model gives no best-by, and why, in its own words."""

    package_id: int
    why: str
    model: str
    computed_on: date


@dataclass(frozen=True, slots=True)
class Climate:
    """How warm and damp a place is: its own figures, or those of the nearest place above it.

    `monthly_dc` has twelve means, January first, or none. `measured` says that they come from a
    logger's readings. `humidity_percent` is of the room's air.
    """

    place_id: int
    temperature_dc: int | None
    monthly_dc: tuple[int, ...]
    measured: bool
    humidity_percent: int | None


@dataclass(frozen=True, slots=True)
class TemperatureReading:
    """One reading of a temperature logger, in the place's own wall-clock time."""

    at: datetime
    temperature_dc: int


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """One thing that happened to a package."""

    on_day: date
    event: str
    condition: str
    from_place: str
    to_place: str
    dry_dg: int | None
    water_dg: int | None
    meal: str
    note: str


@dataclass(frozen=True, slots=True)
class RecipeSummary:
    """A recipe as a list shows it."""

    recipe_id: int
    name: str
    serves: int
    stored: int
    fresh: int
    last_cooked_on: date | None
    occasion: str = "main"
    cook_to_dc: int | None = None


@dataclass(frozen=True, slots=True)
class RecipeLine:
    """One ingredient. A stored one has a food and a basis; a fresh one an item and an amount.

    A stored one in measures has its amount and unit too; a share held back is its own or None.
    """

    position: int
    food_id: int | None
    food: str | None
    basis: str | None
    weight_dg: int | None
    servings_hundredths: int | None
    item: str | None
    amount_thousandths: int | None
    unit: str | None
    hold_back_percent: int | None = None


@dataclass(frozen=True, slots=True)
class RecipeRecord:
    """A whole recipe; energy, protein and allergens are those of its fresh items, for all served.

    `cook_to_dc` is the temperature in the middle, None where it has no cooking step.
    """

    recipe_id: int
    name: str
    serves: int
    cooking_water_dg: int
    steps: str
    lines: tuple[RecipeLine, ...]
    hold_back_percent: int = 30
    cook_to_dc: int | None = None
    water_temperature_dc: int | None = None
    occasion: str = "main"
    fresh_kcal: int | None = None
    fresh_protein_dg: int | None = None
    origin: str = ""
    allergens: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Meal:
    """A cooked meal; `wetted_at` is when water was added, `eat_by` the last day to eat of it."""

    meal_id: int
    name: str
    people: int
    on_day: date
    rehydration_water_dg: int
    cooking_water_dg: int
    wetted_at: datetime | None = None
    eat_by: date | None = None
