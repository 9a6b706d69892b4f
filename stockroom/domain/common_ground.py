"""What packages that went soft have in common: counted, with how sure each share is.

For every run, place, container and so on the share gone soft among those looked at stands beside
the share among all the others looked at. Where the two exact intervals do not touch, the group
stands apart: a reason to look closer, never a proof of a cause.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from operator import attrgetter

from stockroom.domain.proportion import Proportion, proportion


class Ground(StrEnum):
    """What packages may have in common."""

    CONTAINER = "container"
    PACKET = "absorber packet"
    BOX = "container box"
    TRAY = "tray position"
    PLACE = "place"
    RUN = "run"
    CLOSING = "closed with"
    FOOD_CLASS = "food class"


ALWAYS_SHOWN = (Ground.CONTAINER, Ground.TRAY, Ground.CLOSING, Ground.FOOD_CLASS)
"""Grounds of few kinds: there a group without a soft package says something as well."""


class Telling(StrEnum):
    """What a group's share says beside that of the others."""

    MORE = "soft more often"
    LESS = "soft less often"
    SAME = "not told apart"
    TOO_FEW = "too few to tell"
    NOTHING = "shared by all"


@dataclass(frozen=True, slots=True)
class LookedAt:
    """A package that was looked at, with all that is compared.

    An empty text, and a tray of None, is not on record. `place` is where it stood when found.
    """

    lot_code: str
    container: str
    packet: str
    box: str
    tray_position: int | None
    place: str
    run_id: int
    closing: str
    food_class: str
    soft: bool
    """Whether it was ever found soft itself."""


@dataclass(frozen=True, slots=True)
class Common:
    """One group: so many soft of so many looked at, beside all the others looked at."""

    ground: Ground
    name: str
    here: Proportion
    elsewhere: Proportion
    soft_lots: tuple[str, ...]
    """Codes of the lots its soft packages are of."""

    @property
    def words(self) -> str:
        """The group by its name."""
        return self.name if self.ground in _NAMED_ALONE else f"{self.ground} {self.name}"

    @property
    def telling(self) -> Telling:
        """What the share says beside that of the others."""
        if not self.elsewhere.looked_at:
            return Telling.NOTHING
        if self.here.too_few_to_tell or self.elsewhere.too_few_to_tell:
            return Telling.TOO_FEW
        if not self.here.stands_apart(self.elsewhere):
            return Telling.SAME
        return Telling.MORE if self.here.low > self.elsewhere.high else Telling.LESS

    @property
    def sentence(self) -> str:
        """What can be said of it, and what cannot."""
        both = f"{_of(self.here)} here, {_of(self.elsewhere)} elsewhere"
        return f"{both}: {_SAID[self.telling]}{self._one_lot()}"

    def _one_lot(self) -> str:
        """That the soft ones are of one lot, where there are several and that explains much."""
        if len(self.soft_lots) != 1 or self.here.soft < 2:
            return ""
        return f" All its soft ones are of lot {self.soft_lots[0]}."


_NAMED_ALONE = (Ground.CONTAINER, Ground.FOOD_CLASS)
_SAID = {
    Telling.MORE: "the ranges do not touch. A reason to look closer, no proof of a cause.",
    Telling.LESS: "the ranges do not touch. That is no proof that it protects.",
    Telling.SAME: "the ranges overlap, so nothing can be said.",
    Telling.TOO_FEW: "too few to tell.",
    Telling.NOTHING: "all that were looked at share it, so there is nothing to compare.",
}


def _of(share: Proportion) -> str:
    return f"{share.soft} of {share.looked_at} soft"


@dataclass(frozen=True, slots=True)
class CommonPage:
    """What the packages that went soft have in common."""

    food: str
    """The food asked for; "" for all."""
    since: date | None
    """Only looks from that day on count; None for all."""
    overall: Proportion
    groups: tuple[Common, ...]
    """What stands out first; of what says too little, last, only what has soft packages."""
    compared: int
    """How many groups were compared in all."""

    @property
    def left_out(self) -> int:
        """Groups compared and not listed: no soft package in them, and nothing that tells."""
        return self.compared - len(self.groups)

    @property
    def notes(self) -> tuple[str, ...]:
        """What to bear in mind with every line of it."""
        return notes_of(self)


def notes_of(page: CommonPage) -> tuple[str, ...]:
    """What to bear in mind with every line of a page."""
    if not page.overall.looked_at:
        return ()
    few = () if not page.overall.too_few_to_tell else (f"In all, {page.overall.sentence}",)
    return (
        *few,
        f"{page.compared} groups were compared. Of many, a few stand out by chance alone.",
        "Packages of one lot share their drying: one wet lot can make its run, its place and its"
        " containers stand out together. No cause is shown by any line here.",
        "A package counts as soft when it was found so itself, not because a sister was.",
    )


_Members = list[LookedAt]


def common_page(looked_at: Sequence[LookedAt], *, food: str, since: date | None) -> CommonPage:
    """Count every group and set them out, what stands out first."""
    total, soft = len(looked_at), sum(one.soft for one in looked_at)
    known: dict[tuple[int, int], Proportion] = {}

    def share(soft: int, looked_at: int) -> Proportion:
        # Among thousands of runs the same few counts come again and again.
        if (soft, looked_at) not in known:
            known[soft, looked_at] = proportion(soft, looked_at)
        return known[soft, looked_at]

    groups: list[Common] = []
    for ground, name, members in _groups(looked_at):
        of, lots = len(members), [one.lot_code for one in members if one.soft]
        here, elsewhere = share(len(lots), of), share(soft - len(lots), total - of)
        groups.append(Common(ground, name, here, elsewhere, tuple(sorted(set(lots)))))
    listed = sorted((one for one in groups if _is_listed(one)), key=_order)
    return CommonPage(food, since, share(soft, total), tuple(listed), len(groups))


def _groups(looked_at: Sequence[LookedAt]) -> Iterator[tuple[Ground, str, _Members]]:
    """Every group with its name and its members. What is not on record makes no group."""
    for ground, read in _GROUNDS:
        by_value: dict[str | int | None, _Members] = {}
        for one in looked_at:
            by_value.setdefault(read(one), []).append(one)
        texts = {str(value): found for value, found in by_value.items() if value not in ("", None)}
        spread = _place_by_place(texts) if ground is Ground.PLACE else _spelt_alike(texts)
        for name, members in spread.items():
            yield ground, name, members


_GROUNDS: tuple[tuple[Ground, Callable[[LookedAt], str | int | None]], ...] = (
    (Ground.CONTAINER, attrgetter("container")),
    (Ground.PACKET, attrgetter("packet")),
    (Ground.BOX, attrgetter("box")),
    (Ground.TRAY, attrgetter("tray_position")),
    (Ground.PLACE, attrgetter("place")),
    (Ground.RUN, attrgetter("run_id")),
    (Ground.CLOSING, attrgetter("closing")),
    (Ground.FOOD_CLASS, lambda one: one.food_class.replace("_", " ")),
)


def _spelt_alike(texts: Mapping[str, _Members]) -> dict[str, _Members]:
    """One group for names that differ by case and space alone, under the first spelling."""
    spelling: dict[str, str] = {}
    found: dict[str, _Members] = {}
    for text, members in texts.items():
        name = spelling.setdefault(folded_name(text), " ".join(text.split()))
        found.setdefault(name, []).extend(members)
    return {name: members for name, members in found.items() if name}


def folded_name(name: str) -> str:
    """A packet's or a box's name as it is compared: case and space make no other name."""
    return " ".join(name.split()).casefold()


def _place_by_place(texts: Mapping[str, _Members]) -> dict[str, _Members]:
    """A group for each place, what is in the places below it included.

    A place that holds no more than one place within it is left out: said once is enough.
    """
    found: dict[str, _Members] = {}
    for place, members in texts.items():
        parts = place.split("/")
        for depth in range(1, len(parts) + 1):
            found.setdefault("/".join(parts[:depth]), []).extend(members)
    sizes = {place: len(members) for place, members in found.items()}
    return {place: members for place, members in found.items() if not _is_repeated(place, sizes)}


def _is_repeated(place: str, sizes: Mapping[str, int]) -> bool:
    """Whether a place within this one has all there is in it."""
    return any(
        within.startswith(f"{place}/") and size == sizes[place] for within, size in sizes.items()
    )


def _is_listed(one: Common) -> bool:
    telling = one.telling
    return (
        one.here.soft > 0
        or telling in (Telling.MORE, Telling.LESS)
        or (one.ground in ALWAYS_SHOWN and telling is not Telling.TOO_FEW)
    )


_RANKS = (Telling.MORE, Telling.LESS, Telling.SAME, Telling.NOTHING, Telling.TOO_FEW)


def _order(one: Common) -> tuple[int, float, float, int, str, str]:
    """What stands out first; among equals the share that is high for sure, then the count.

    Of groups that are soft less often the one whose share is low for sure comes first.
    """
    counted = one.here.soft / one.here.looked_at
    surely = one.here.high if one.telling is Telling.LESS else -one.here.low
    rank = _RANKS.index(one.telling)
    return rank, surely, -counted, -one.here.looked_at, one.ground, one.name
