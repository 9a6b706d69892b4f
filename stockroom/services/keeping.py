"""Best-by dates for stored packages: the case from the record, the answer kept beside it.

Each live package has a row: the model's projection, or the model's own words why it gives none.
A refusal never stands in the way of recording what happened.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from stockroom.domain.conditions import LIVE
from stockroom.domain.records import (
    Climate,
    Food,
    Package,
    RefusedProjection,
    StoredProjection,
)
from stockroom.services.recheck_refresh import refresh_rechecks
from stockroom.store.food_rows import all_foods
from stockroom.store.package_rows import packages_by_ids
from stockroom.store.place_rows import climates
from stockroom.store.projections import (
    checks_of,
    drop_projections,
    live_package_ids,
    read_basis,
    save_basis,
    save_projections,
    stays_of,
)
from stockroom.store.queue_rows import use_by_of
from stockroom.store.settings import read_settings
from stockroom.store.writing import write

if TYPE_CHECKING:
    from stockroom.domain.keeping.interface import (
        KeepingCase,
        KeepingModel,
        LifeUsed,
        Projection,
        Stay,
    )
    from stockroom.domain.working import Working
    from stockroom.services.session import Stockroom

REVISION = 2
"""Raise when the model or its figures change: every store then computes its dates anew."""

_BATCH = 2000
_MODEL_NAME = "full model"


class StandardModel:
    """The keeping model in use, made when it is first asked: looking at lists needs none."""

    @property
    def name(self) -> str:
        """Short name of the model; that of `FullModel`, known without making it."""
        return _MODEL_NAME

    def project(self, case: KeepingCase) -> Projection:
        """The projection for one package. Raises CannotProject."""
        return _standard().project(case)

    def explain(self, case: KeepingCase) -> Working:
        """How that projection is reached. Raises CannotProject."""
        return _standard().explain(case)

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """The projections of many packages in their order. Raises CannotProject."""
        return _standard().project_many(cases)

    def life_used(self, case: KeepingCase, days: Sequence[float]) -> Sequence[LifeUsed]:
        """The shares of the life used by each of `days` from sealing. Raises CannotProject."""
        return _standard().life_used(case, days)


@cache
def _standard() -> KeepingModel:
    from stockroom.domain.keeping.full_model import FullModel
    from stockroom.reference.keeping_figures import keeping_figures

    return FullModel(keeping_figures())


def standard_model() -> KeepingModel:
    """The keeping model in use."""
    return StandardModel()


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What the cases of many packages share: foods, the climates of places, the air's weight."""

    foods: dict[int, Food]
    climates: dict[int, Climate]
    barometer_thousandth_inhg: int | None


def surroundings(room: Stockroom) -> Surroundings:
    """Read once for as many packages as wanted."""
    return Surroundings(
        foods={food.food_id: food for food in all_foods(room.store)},
        climates=climates(room.store),
        barometer_thousandth_inhg=_barometer(room),
    )


def keeping_case(
    package: Package,
    around: Surroundings,
    stays: Sequence[tuple[date, int | None]],
    findings: Sequence[tuple[date, str]] = (),
) -> KeepingCase:
    """What the model needs to know of one package, from its record.

    `stays` are days with the place moved to, `findings` days with what a check found. Food dried
    again counts from its first sealing, with what was spent by then; food packed anew without
    drying counts as opened since room air got in, closed again airtight with any absorber.
    """
    from stockroom.domain.keeping.events import seal_lost_on
    from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind

    redried, repacked = package.origin == "redried", package.origin == "repacked"
    spent = package.life_before_millionths
    return KeepingCase(
        food_class=FoodClass(package.food_class),
        fat_of_solids=around.foods[package.food_id].fat_of_solids,
        package_kind=PackageKind(package.package_kind),
        dry_dg=package.dry_dg,
        volume_ml=package.volume_ml,
        area_mm2=package.area_mm2,
        absorber_cc=package.absorber_cc,
        vacuum_tenth_inhg=package.vacuum_tenth_inhg,
        residual_moisture=None,
        sealed_on=package.first_sealed_on or package.sealed_on,
        stays=tuple(stay_at(day, place_id, around) for day, place_id in stays),
        opened_on=package.exposed_on if repacked else package.opened_on,
        seal_lost_on=seal_lost_on(package.sealed_on, findings),
        redried_on=package.sealed_on if redried else None,
        barometer_thousandth_inhg=around.barometer_thousandth_inhg,
        reclosed_with_absorber=repacked and package.absorber_cc > 0 and not package.opened_on,
        life_used_before_redrying=None if spent is None else Fraction(spent, 1_000_000),
    )


def stay_at(from_day: date, place_id: int | None, around: Surroundings) -> Stay:
    """A stay in a place, with the place's climate; nothing is known of no place."""
    from stockroom.domain.keeping.interface import Stay

    climate = None if place_id is None else around.climates.get(place_id)
    if climate is None:
        return Stay(from_day, None)
    return Stay(
        from_day,
        climate.temperature_dc,
        climate.monthly_dc,
        _share(climate.humidity_percent),
        climate.measured,
    )


def case_of(room: Stockroom, package: Package) -> KeepingCase:
    """The case of one package as it stands."""
    ids = [package.package_id]
    return keeping_case(
        package,
        surroundings(room),
        stays_of(room.store, ids)[package.package_id],
        checks_of(room.store, ids)[package.package_id],
    )


def project_package(room: Stockroom, package: Package) -> Projection:
    """The model's projection of one package, as it is stored. Raises CannotProject."""
    projection = room.model.project(case_of(room, package))
    return _not_after(projection, use_by_of(room.store, [package.package_id]), package.package_id)


def _not_after(projection: Projection, use_by: Mapping[int, date], package_id: int) -> Projection:
    """A projection no later than the day a decision on the package allowed, where one did."""
    last = use_by.get(package_id)
    if last is None or last >= projection.high:
        return projection
    return replace(
        projection,
        best_by=min(projection.best_by, last),
        low=min(projection.low, last),
        high=last,
        recheck_by=min(projection.recheck_by, last),
    )


def refuse_impossible_packages(room: Stockroom, package_ids: Sequence[int]) -> None:
    """Raise CannotProject for a package that cannot be: too full, too moist, too deep a vacuum.

    Where it stands does not count: a hot place is a fact to be recorded.
    """
    around = surroundings(room)
    room.model.project_many(
        [keeping_case(one, around, ()) for one in packages_by_ids(room.store, package_ids)]
    )


def refresh_projections(room: Stockroom, package_ids: Sequence[int]) -> None:
    """Compute and store the projections of these packages, inside a unit of work.

    Packages that are used up or discarded lose theirs: the best-by index holds live ones only.
    """
    if not package_ids:
        return
    around = surroundings(room)
    for start in range(0, len(package_ids), _BATCH):
        _refresh(room, around, package_ids[start : start + _BATCH])


def _refresh(room: Stockroom, around: Surroundings, package_ids: Sequence[int]) -> None:
    store = room.store
    packages = packages_by_ids(store, package_ids)
    live = [package for package in packages if package.condition in LIVE]
    ids = [package.package_id for package in live]
    stays, checks = stays_of(store, ids), checks_of(store, ids)
    cases = [
        keeping_case(package, around, stays[package.package_id], checks[package.package_id])
        for package in live
    ]
    save_projections(store, _answers(room, ids, cases))
    kept = set(ids)
    drop_projections(store, [one.package_id for one in packages if one.package_id not in kept])
    refresh_rechecks(store, around, packages, stays, checks)


def _answers(
    room: Stockroom, package_ids: Sequence[int], cases: Sequence[KeepingCase]
) -> list[StoredProjection | RefusedProjection]:
    from stockroom.domain.keeping.interface import CannotProject

    try:
        answers: list[Projection | Exception] = list(room.model.project_many(cases))
    except CannotProject:
        answers = [_answer(room, case) for case in cases]
    use_by = use_by_of(room.store, package_ids)
    return [
        _stored(package_id, answer, use_by, room)
        for package_id, answer in zip(package_ids, answers, strict=True)
    ]


def _answer(room: Stockroom, case: KeepingCase) -> Projection | Exception:
    from stockroom.domain.keeping.interface import CannotProject

    try:
        return room.model.project(case)
    except CannotProject as refusal:
        return refusal


def _stored(
    package_id: int,
    answer: Projection | Exception,
    use_by: Mapping[int, date],
    room: Stockroom,
) -> StoredProjection | RefusedProjection:
    if isinstance(answer, Exception):
        return RefusedProjection(package_id, str(answer), room.model.name, room.today)
    answer = _not_after(answer, use_by, package_id)
    return StoredProjection(
        package_id=package_id,
        best_by=answer.best_by,
        low=answer.low,
        high=answer.high,
        recheck_by=answer.recheck_by,
        limited_by=answer.limited_by,
        model=answer.model,
        computed_on=room.today,
        discard_by=answer.discard_by,
    )


def projections_are_current(room: Stockroom) -> bool:
    """Whether every stored best-by was computed with this model and these settings."""
    return read_basis(room.store) == _basis(room)


def refresh_everything(
    room: Stockroom,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> int:
    """Compute every live package's projection anew in one unit; returns how many.

    `progress(done, of)` is called now and then. When `cancelled()` says so, nothing is kept and
    0 is returned: the dates stay as they were, and are brought up to date another time.
    """
    try:
        with write(room.store):
            ids = live_package_ids(room.store)
            around = surroundings(room)
            for start in range(0, len(ids), _BATCH):
                if cancelled is not None and cancelled():
                    raise _Cancelled
                _refresh(room, around, ids[start : start + _BATCH])
                if progress is not None:
                    progress(min(start + _BATCH, len(ids)), len(ids))
            save_basis(room.store, _basis(room))
    except _Cancelled:
        return 0
    return len(ids)


class _Cancelled(Exception):
    """Leaves the unit of work without keeping anything of it."""


def _basis(room: Stockroom) -> str:
    """What decides all dates together: the model, the altitude and the schedule of rechecks."""
    stored = read_settings(room.store)
    looks = [f"{key} {stored[key]}" for key in sorted(stored) if key.startswith("recheck.")]
    return ", ".join(
        (f"{room.model.name} {REVISION}, altitude {stored.get('altitude', '')}", *looks)
    )


def _barometer(room: Stockroom) -> int | None:
    altitude = read_settings(room.store).get("altitude", "")
    if not altitude:
        return None
    from stockroom.domain.keeping.oxygen import barometer_at

    return barometer_at(int(altitude))


def _share(percent: int | None) -> Fraction | None:
    return None if percent is None else Fraction(percent, 100)
