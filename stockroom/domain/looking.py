"""How to look at a package without opening it, by its container, and what to look for.

How a package is checked by hand is common practice without a source, save for the mist on glass
(National Center for Home Food Preservation, Packaging and Storing Dried Foods; published). That
food is never tasted to test it is a rule chosen for this program.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.caution_sources import NCHFP, OUR_CHOICE, PRACTICE
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.working import Source

SEAMED_CAN = "can-"
"""Keys of seamed cans begin so; by their barrier they count as jars, but nobody sees into one."""


@dataclass(frozen=True, slots=True)
class Sign:
    """One thing to look for, in a few words, and who says so."""

    words: str
    source: Source = PRACTICE


@dataclass(frozen=True, slots=True)
class Looking:
    """How to look at one kind of container: one line, then the signs in the order to look."""

    line: str
    signs: tuple[Sign, ...]


_SWOLLEN = Sign("Swollen or hissing: gas from spoiling. Discard it unopened.")
_NEVER_TASTE = Sign("Never taste food to test it.", OUR_CHOICE)
_FILM = (
    Sign("Pieces that bend, give or stick together under the fingers instead of rattling."),
    Sign("Powder in clumps that do not fall apart."),
    Sign("Pinholes at corners and folds, sharp tips pressing through."),
    Sign("A seal with a crease, a gap or food in it."),
)
_SEEN = (
    Sign("Pieces darker than before, or with mould on them.", NCHFP),
    Sign("Insects, webs or holes.", NCHFP),
)
_LOOSE = Sign(
    "Loose where it was tight: the seal is lost. With an absorber alone it may be loose from the"
    " start, as most of the air is not oxygen."
)

_SQUEEZE = "Squeeze and listen: hard and rattling is crisp. Look at the seal. Never taste."

_POUCH = Looking(_SQUEEZE, (_SWOLLEN, *_FILM, _LOOSE, _NEVER_TASTE))
_SEAMED = Looking(
    "Are both ends flat, the seam clean and dry? Shake and listen. Never taste.",
    (
        _SWOLLEN,
        Sign("An end that bulges, or clicks when pressed."),
        Sign("Rust, dents or damp along the seam."),
        Sign("A dull sound when shaken: pieces that rattle are crisp."),
        _NEVER_TASTE,
    ),
)
_BY_KIND = {
    PackageKind.FOIL_POUCH.value: _POUCH,
    PackageKind.METALLISED_POUCH.value: _POUCH,
    PackageKind.VACUUM_BAG.value: Looking(
        "Film tight on hard pieces is good; loose film is a leak. Never taste.",
        (
            _SWOLLEN,
            Sign("Film that can be lifted off the food: the vacuum is lost."),
            *_FILM,
            *_SEEN,
            _NEVER_TASTE,
        ),
    ),
    PackageKind.ZIP_BAG.value: Looking(
        "Squeeze and listen: hard and rattling is crisp. Press the zip. Never taste.",
        (
            _SWOLLEN,
            Sign("A zip that opens when pressed, or with crumbs in it."),
            *_FILM,
            *_SEEN,
            _NEVER_TASTE,
        ),
    ),
    PackageKind.JAR.value: Looking(
        "Is the lid drawn down, the glass free of mist? Shake and listen. Never taste.",
        (
            Sign("Mist or drops inside the glass: moisture is in. Look without opening.", NCHFP),
            Sign("A lid that gives when pressed where it was drawn down: the seal is lost."),
            Sign("A lid pushed up, or food that foams: gas from spoiling. Discard it unopened."),
            Sign("Pieces that stick together or move without a rattle, powder in clumps."),
            *_SEEN,
            Sign("Chips and cracks, rust on the lid."),
            _NEVER_TASTE,
        ),
    ),
}

LOOKING_SOURCES: tuple[Source, ...] = (PRACTICE, NCHFP, OUR_CHOICE)


def looking(package_kind: str, container_key: str = "") -> Looking:
    """How to look at this kind of container. KeyError for a kind there is not."""
    return _SEAMED if container_key.startswith(SEAMED_CAN) else _BY_KIND[package_kind]


def how_to_look(package_kind: str, container_key: str = "") -> str:
    """How to look at a package of this kind without opening it, in one line."""
    return looking(package_kind, container_key).line


def look_for(package_kind: str, container_key: str = "") -> tuple[str, ...]:
    """What to look for, in short sentences, the gravest first."""
    return tuple(one.words for one in looking(package_kind, container_key).signs)
