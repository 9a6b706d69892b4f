"""How figures of what could be done were reached: packing advice, what if, gains.

Every answer carries the case the model was asked; its working is written from the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction

from stockroom.domain.gain_working import gain_working as days_working
from stockroom.domain.keeping.interface import CannotProject, KeepingCase, PackageKind
from stockroom.domain.keeping.oxygen import absorber_figures
from stockroom.domain.keeping.oxygen_working import absorber_working
from stockroom.domain.keeping.package_numbers import film_area_m2
from stockroom.domain.packing import Share, SplitRequest
from stockroom.domain.packing_working import fit_working, no_absorber_working
from stockroom.domain.records import Lot
from stockroom.domain.water_working import water_working
from stockroom.domain.working import Working
from stockroom.reference.containers import absorber_sizes
from stockroom.reference.keeping_figures import keeping_figures
from stockroom.services.advice import planned_case
from stockroom.services.finding import find_container, find_lot, find_place
from stockroom.services.keeping import surroundings
from stockroom.services.results import (
    Choice,
    Gain,
    Packed,
    PackingAdvice,
    WhatIfPage,
    WorkingPage,
)
from stockroom.services.session import Stockroom
from stockroom.services.workings import best_by_working, refused_working

# Packing


def advice_working(room: Stockroom, advice: PackingAdvice, way: Packed) -> WorkingPage:
    """How number, absorber and best-by of one of the ways to pack are reached."""
    return WorkingPage(advice.lot.code, tuple(_way(room, advice, way)))


def advice_workings(room: Stockroom, advice: PackingAdvice) -> tuple[Working, ...]:
    """The same for every way, the advised one first, each title with the container's name."""
    ways = [*([advice.advised] if advice.advised is not None else []), *advice.others]
    return tuple(
        replace(working, title=f"{working.title}, {way.fit.container.name}")
        for way in ways
        for working in _way(room, advice, way)
    )


def _way(room: Stockroom, advice: PackingAdvice, way: Packed) -> Iterator[Working]:
    lot = advice.lot
    yield fit_working(way.fit, advice.meal, lot.wet_dg, lot.dry_dg, lot.left_dg)
    if way.case is None:
        return
    yield closing_working(way.case, None)
    yield best_by_working(room, way.case)


def planned_working(
    room: Stockroom,
    lot_code: str,
    split: SplitRequest,
    share: Share,
    *,
    place: str | None = None,
    sealed_on: date | None = None,
) -> WorkingPage:
    """How water, absorber and best-by of packages about to be closed are reached.

    `share` is what one of them would hold. Raises NotFound, BadInput.
    """
    lot = find_lot(room, lot_code)
    water = water_working(lot.wet_dg, lot.dry_dg, share.dry_dg, share.water_dg)
    case = _planned(room, lot, split, share, place, sealed_on)
    given_cc = split.absorber_cc or None
    return WorkingPage(
        lot.code, (water, closing_working(case, given_cc), best_by_working(room, case))
    )


def _planned(
    room: Stockroom,
    lot: Lot,
    split: SplitRequest,
    share: Share,
    place: str | None,
    sealed_on: date | None,
) -> KeepingCase:
    place_id = None if place is None else find_place(room, place).place_id
    return planned_case(
        lot,
        surroundings(room),
        find_container(room, split.container),
        dry_dg=share.dry_dg,
        absorber_cc=split.absorber_cc or 0,
        vacuum_tenth_inhg=split.vacuum_tenth_inhg if split.vacuum else None,
        place_id=place_id,
        sealed_on=sealed_on or room.today,
    )


def closing_working(case: KeepingCase, given_cc: int | None) -> Working:
    """The absorber of a package: the one given, else the one its gas wants, or why none."""
    sizes = tuple(one.size_cc for one in absorber_sizes())
    try:
        figures = absorber_figures(
            case.volume_ml,
            case.dry_dg,
            sizes,
            vacuum_tenth_inhg=case.vacuum_tenth_inhg,
            barometer_thousandth_inhg=case.barometer_thousandth_inhg,
            absorber_cc=given_cc,
        )
    except CannotProject as refusal:
        return refused_working(refusal, "Absorber")
    if given_cc is None and case.package_kind in (PackageKind.VACUUM_BAG, PackageKind.ZIP_BAG):
        barriers = {one.package_kind: one for one in keeping_figures().barriers}
        film = barriers[case.package_kind].oxygen_transmission
        assert film is not None
        return no_absorber_working(film, film_area_m2(case), figures, sizes)
    return absorber_working(
        figures,
        case.volume_ml,
        case.dry_dg,
        sizes,
        vacuum_tenth_inhg=case.vacuum_tenth_inhg,
        barometer_thousandth_inhg=case.barometer_thousandth_inhg,
        given_cc=given_cc,
    )


# What if and gains


def _gained(now: Choice, then: Choice, servings: Fraction | None = None) -> Iterator[Working]:
    """The gain, where both have a date and are not the same."""
    if now.best_by is not None and then.best_by is not None and then.kind != "now":
        yield days_working(now.best_by, then.best_by, servings)


def _choice(room: Stockroom, choice: Choice, of: str = "") -> Iterator[Working]:
    """The absorber of a repacking, and the date of any choice."""
    if choice.case is None:
        return
    if choice.absorber_cc:
        yield replace(closing_working(choice.case, None), title=f"Absorber{of}, {choice.words}")
    yield best_by_working(room, choice.case, f"Best-by{of}, {choice.words}")


def choice_working(room: Stockroom, page: WhatIfPage, choice: Choice) -> WorkingPage:
    """How the date of one choice is reached; the gain against leaving it as it is comes first."""
    workings = [*_gained(page.now, choice), *_choice(room, choice)]
    return WorkingPage(page.package.code, tuple(workings))


def what_if_working(room: Stockroom, pages: Sequence[WhatIfPage]) -> tuple[Working, ...]:
    """The workings of every choice shown, as it is first, then the best first."""
    workings: list[Working] = []
    for page in pages:
        of = f" of {page.package.code}" if len(pages) > 1 else ""
        for choice in (page.now, *page.choices):
            workings.extend(_choice(room, choice, of))
    return tuple(workings)


def gain_working(room: Stockroom, gain: Gain) -> WorkingPage:
    """How one piece of advice is reached: the gain, the date then, and the date as it is."""
    workings: list[Working] = []
    if gain.now is not None:
        workings += _gained(gain.now, gain.choice, gain.servings)
    workings += _choice(room, gain.choice)
    if gain.now is not None:
        workings += _choice(room, gain.now)
    return WorkingPage(gain.packages[0].code, tuple(workings))


def gains_working(room: Stockroom, gains: Sequence[Gain]) -> tuple[Working, ...]:
    """The workings of every piece of advice, in their order."""
    return tuple(one for gain in gains for one in gain_working(room, gain).workings)
