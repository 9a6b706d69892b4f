"""What services answer: frozen results that commands print and screens paint."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from stockroom.domain.records import (
    HistoryLine,
    Lot,
    LotLoss,
    Package,
    RecipeRecord,
    Run,
    StoredProjection,
    Tray,
)

if TYPE_CHECKING:
    # What only some answers hold: the first paint and the short commands start without.
    from stockroom.domain.cautions import Caution
    from stockroom.domain.cooking import CookPlan
    from stockroom.domain.working import Working


@dataclass(frozen=True, slots=True)
class Done:
    """An action carried out: its sentence, as the journal has it, and what to bear in mind."""

    words: str
    cautions: tuple[Caution, ...] = ()
    codes: tuple[str, ...] = ()
    """Codes of the packages or lots it made or touched, where that helps the next step."""
    made_id: int = 0
    """The id of the run, place or recipe it made, else 0."""


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


@dataclass(frozen=True, slots=True)
class WorkingPage:
    """How the figures of one package were reached."""

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
            )
        )


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
