"""Containers and absorber sizes, from data/containers.csv and data/absorbers.csv."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from functools import cache
from types import MappingProxyType

from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.working import Source, Standing
from stockroom.errors import NotFound
from stockroom.reference.sources import source_of, standing_of
from stockroom.reference.tables import Row, read_table, whole, whole_or_none


class Material(StrEnum):
    """What the container is made of, where a caution depends on it."""

    FILM = "film"
    GLASS = "glass"
    STEEL = "steel"


@dataclass(frozen=True, slots=True)
class Container:
    """One kind of container, without any maker's name."""

    key: str
    """Short, lower case, typed by hand."""
    name: str
    package_kind: PackageKind
    material: Material
    us_size: str
    """The United States size of the same container, in words; empty where there is none."""
    volume_ml: int
    width_mm: int | None
    """Inside the seals; None where not known."""
    height_mm: int | None
    note: str
    source: Source
    standing: Standing

    @property
    def area_mm2(self) -> int | None:
        """Both faces inside the seals, 2 x width x height; None where a side is not known."""
        if self.width_mm is None or self.height_mm is None:
            return None
        return 2 * self.width_mm * self.height_mm


@dataclass(frozen=True, slots=True)
class AbsorberSize:
    """One stock size of oxygen absorber."""

    size_cc: int
    """Oxygen it is sold to take up, cc."""
    source: Source
    standing: Standing


@cache
def containers() -> Mapping[str, Container]:
    """Every container by its key, in the order of the file."""
    return MappingProxyType({row["key"]: _container(row) for row in read_table("containers")})


def container(key: str) -> Container:
    """The container of this key. Raises NotFound with the nearest keys."""
    found = containers().get(key)
    if found is None:
        raise NotFound("container", key, get_close_matches(key, containers(), n=3, cutoff=0.4))
    return found


@cache
def absorber_sizes() -> tuple[AbsorberSize, ...]:
    """The stock sizes, smallest first."""
    sizes = (
        AbsorberSize(
            whole("absorbers", row, "size_cc"),
            source_of("absorbers", row),
            standing_of("absorbers", row),
        )
        for row in read_table("absorbers")
    )
    return tuple(sorted(sizes, key=lambda size: size.size_cc))


def _container(row: Row) -> Container:
    """One row of the container table."""
    table = "containers"
    return Container(
        row["key"],
        row["name"],
        PackageKind(row["package_kind"]),
        Material(row["material"]),
        row["us_size"],
        whole(table, row, "volume_ml"),
        whole_or_none(table, row, "width_mm"),
        whole_or_none(table, row, "height_mm"),
        row["note"],
        source_of(table, row),
        standing_of(table, row),
    )
