"""Best-by dates for stored packages: the case from the record, the answer kept beside it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache
from typing import TYPE_CHECKING

from stockroom.domain.conditions import LIVE
from stockroom.domain.records import Food, Package, StoredProjection
from stockroom.store.food_rows import food_by_id
from stockroom.store.package_rows import packages_by_ids
from stockroom.store.projections import drop_projections, save_projections, stays_of

if TYPE_CHECKING:
    from stockroom.domain.keeping.interface import KeepingCase, KeepingModel, Projection, Stay
    from stockroom.domain.working import Working
    from stockroom.services.session import Stockroom

_BATCH = 500


class StandardModel:
    """The keeping model in use, made when it is first asked: looking at lists needs none."""

    @property
    def name(self) -> str:
        """Short name of the model."""
        return _standard().name

    def project(self, case: KeepingCase) -> Projection:
        """The projection for one package. Raises CannotProject."""
        return _standard().project(case)

    def explain(self, case: KeepingCase) -> Working:
        """How that projection is reached. Raises CannotProject."""
        return _standard().explain(case)

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """The projections of many packages in their order. Raises CannotProject."""
        return _standard().project_many(cases)


@cache
def _standard() -> KeepingModel:
    from stockroom.domain.keeping.plain_table import PlainTable
    from stockroom.reference.lives import plain_lives

    return PlainTable(plain_lives())


def standard_model() -> KeepingModel:
    """The keeping model in use."""
    return StandardModel()


def keeping_case(package: Package, food: Food, stays: Sequence[Stay]) -> KeepingCase:
    """What the model needs to know of one package, from its record."""
    from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind

    return KeepingCase(
        food_class=FoodClass(package.food_class),
        fat_of_solids=food.fat_of_solids,
        package_kind=PackageKind(package.package_kind),
        dry_dg=package.dry_dg,
        volume_ml=package.volume_ml,
        area_mm2=None,
        absorber_cc=package.absorber_cc,
        vacuum_tenth_inhg=package.vacuum_tenth_inhg,
        residual_moisture=None,
        sealed_on=package.sealed_on,
        stays=tuple(stays),
        opened_on=package.opened_on,
        seal_lost_on=None,
        redried_on=None,
    )


def _stays(rows: Sequence[tuple[date, int | None]]) -> list[Stay]:
    from stockroom.domain.keeping.interface import Stay

    return [Stay(*row) for row in rows]


def project_package(room: Stockroom, package: Package) -> Projection:
    """The model's projection of one package, with its working."""
    food = food_by_id(room.store, package.food_id)
    if food is None:
        raise RuntimeError(f"package {package.code} names a food that is not there")
    stays = stays_of(room.store, [package.package_id])[package.package_id]
    return room.model.project(keeping_case(package, food, _stays(stays)))


def refresh_projections(room: Stockroom, package_ids: Sequence[int]) -> None:
    """Compute and store the projections of these packages, inside a unit of work.

    Packages that are used up or discarded lose theirs: the best-by index holds live ones only.
    """
    store = room.store
    foods: dict[int, Food | None] = {}
    for start in range(0, len(package_ids), _BATCH):
        packages = packages_by_ids(store, package_ids[start : start + _BATCH])
        stays = stays_of(store, [package.package_id for package in packages])
        fresh: list[StoredProjection] = []
        for package in packages:
            if package.condition not in LIVE:
                continue
            if package.food_id not in foods:
                foods[package.food_id] = food_by_id(store, package.food_id)
            food = foods[package.food_id]
            assert food is not None
            standing = _stays(stays[package.package_id])
            answer = room.model.project(keeping_case(package, food, standing))
            fresh.append(_stored(package.package_id, answer, room))
        save_projections(store, fresh)
        drop_projections(store, [one.package_id for one in packages if one.condition not in LIVE])


def _stored(package_id: int, answer: Projection, room: Stockroom) -> StoredProjection:
    return StoredProjection(
        package_id=package_id,
        best_by=answer.best_by,
        low=answer.low,
        high=answer.high,
        recheck_by=answer.recheck_by,
        limited_by=answer.limited_by,
        model=answer.model,
        computed_on=room.today,
    )
