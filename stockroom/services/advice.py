"""Packing advice for a lot: container, how many, absorber with its reason, vacuum, best-by."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from stockroom.domain.cautions import Caution, cautions_for_packing
from stockroom.domain.foods import FoodFacts
from stockroom.domain.keeping.interface import (
    CannotProject,
    FoodClass,
    KeepingCase,
    PackageKind,
)
from stockroom.domain.keeping.oxygen import absorber_figures
from stockroom.domain.packing_advice import (
    BULK,
    Fit,
    MealSize,
    best_fit,
    fit,
    loose_density,
    meal_size,
    vacuum_words,
)
from stockroom.domain.records import Container, Lot
from stockroom.reference.containers import absorber_sizes
from stockroom.services.finding import find_lot, find_place
from stockroom.services.foods import facts_of
from stockroom.services.keeping import Surroundings, stay_at, surroundings
from stockroom.services.packing import LotPackedOut
from stockroom.services.results import Packed, PackingAdvice
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, package_rows

COMPARED = (
    PackageKind.FOIL_POUCH,
    PackageKind.JAR,
    PackageKind.METALLISED_POUCH,
    PackageKind.VACUUM_BAG,
    PackageKind.ZIP_BAG,
)


def advise_lot(room: Stockroom, code: str, *, place: str | None = None) -> PackingAdvice:
    """How to pack what is left of a lot. Raises NotFound, BadInput, LotPackedOut.

    `place` is where it will stand; without one an unknown place near 21 °C is reckoned with.
    """
    lot = find_lot(room, code)
    if lot.left_dg == 0:
        raise LotPackedOut(lot.code)
    around = surroundings(room)
    place_id = None if place is None else find_place(room, place).place_id
    facts = facts_of(around.foods[lot.food_id])
    meal = meal_size(room.household.people, lot.serving_dg, lot.wet_dg, lot.dry_dg)
    density = loose_density(facts.group, package_rows.fills_of(room.store, lot.food_id))
    found = _compared(room, lot, around, place_id, meal, density)
    advised = _advised(found)
    return PackingAdvice(
        lot=lot,
        meal=meal,
        advised=advised,
        others=tuple(one for one in found if one is not advised),
        reasons=_reasons(advised, meal, facts),
        cautions=_cautions(advised, facts),
        into=_into(advised),
    )


def _compared(
    room: Stockroom,
    lot: Lot,
    around: Surroundings,
    place_id: int | None,
    meal: MealSize,
    density: tuple[int, bool],
) -> list[Packed]:
    """One way for each kind of package, in the order of `COMPARED`."""
    containers = food_rows.all_containers(room.store)
    found: list[Packed] = []
    for kind in COMPARED:
        fits = [
            one
            for one in (
                fit(container, lot.left_dg, meal, density)
                for container in containers
                if container.package_kind == kind
            )
            if one is not None
        ]
        chosen = best_fit(fits)
        if chosen is not None:
            found.append(_packed(room, lot, around, place_id, chosen))
    return found


def _packed(
    room: Stockroom, lot: Lot, around: Surroundings, place_id: int | None, chosen: Fit
) -> Packed:
    kind = PackageKind(chosen.container.package_kind)
    needs_absorber = kind in (
        PackageKind.FOIL_POUCH,
        PackageKind.JAR,
        PackageKind.METALLISED_POUCH,
    )
    packed = Packed(chosen, None, None, None, None, "")
    try:
        if needs_absorber:
            figures = absorber_figures(
                chosen.container.volume_ml,
                chosen.each_dg,
                tuple(one.size_cc for one in absorber_sizes()),
                barometer_thousandth_inhg=around.barometer_thousandth_inhg,
            )
            packed = replace(packed, absorber=figures)
        case = planned_case(
            lot,
            around,
            chosen.container,
            dry_dg=chosen.each_dg,
            absorber_cc=0 if packed.absorber is None else packed.absorber.absorber_cc,
            vacuum_tenth_inhg=None,
            place_id=place_id,
            sealed_on=room.today,
        )
        packed = replace(packed, case=case)
        found = room.model.project(case)
    except CannotProject as refusal:
        return replace(packed, why_not=str(refusal))
    return replace(
        packed,
        best_by=found.best_by,
        low=found.low,
        high=found.high,
        limited_by=found.limited_by,
    )


def planned_case(
    lot: Lot,
    around: Surroundings,
    container: Container,
    *,
    dry_dg: int,
    absorber_cc: int,
    vacuum_tenth_inhg: int | None,
    place_id: int | None,
    sealed_on: date,
) -> KeepingCase:
    """What the model is asked of one package of a lot that is not closed yet."""
    sides = container.width_mm, container.height_mm
    return KeepingCase(
        food_class=FoodClass(lot.food_class),
        fat_of_solids=around.foods[lot.food_id].fat_of_solids,
        package_kind=PackageKind(container.package_kind),
        dry_dg=dry_dg,
        volume_ml=container.volume_ml,
        area_mm2=None if sides[0] is None or sides[1] is None else 2 * sides[0] * sides[1],
        absorber_cc=absorber_cc,
        vacuum_tenth_inhg=vacuum_tenth_inhg,
        residual_moisture=None,
        sealed_on=sealed_on,
        stays=(stay_at(sealed_on, place_id, around),),
        barometer_thousandth_inhg=around.barometer_thousandth_inhg,
    )


def _advised(found: list[Packed]) -> Packed | None:
    """The way with the latest best-by, a pouch or jar before a bag; None when nothing fits."""
    dated = [one for one in found if one.best_by is not None]
    return max(dated, key=lambda one: one.best_by or date.min, default=None)


def _reasons(advised: Packed | None, meal: MealSize, facts: FoodFacts) -> tuple[str, ...]:
    if advised is None:
        return ("No container of the household suits what is left of this lot.",)
    return (
        _size_reason(advised.fit, meal),
        _absorber_reason(advised),
        vacuum_words(facts.group, PackageKind(advised.fit.container.package_kind)),
        "Ask whether a pouch is foil, metallised or clear: foil keeps oxygen and damp out for"
        " years, metallised film for one or two, clear film for weeks. Thickness in mils says"
        " nothing about that (barrier figures: engineering judgement, drawn to published ones).",
    )


def _size_reason(fit: Fit, meal: MealSize) -> str:
    learnt = (
        "your own fullest package of this food"
        if fit.own
        else f"loose weight of its kind ({BULK.standing.words})"
    )
    each = (
        f"what is left is less, and goes into one {fit.container.name}"
        if fit.count == 1 and fit.each_dg < meal.dry_dg
        else f"one {fit.container.name} holds a meal"
        if fit.to_a_meal == 1
        else f"{fit.to_a_meal} of {fit.container.name} make a meal"
    )
    return (
        f"A meal for {meal.people} is {meal.dry_dg / 10:.1f} g dry; {each}, reckoned from"
        f" {learnt}, so an opened package is finished."
    )


def _absorber_reason(advised: Packed) -> str:
    figures = advised.absorber
    if figures is None:
        return "No absorber: so much oxygen comes through this package that one is soon spent."
    several = " and ".join(f"{one} cc" for one in figures.absorbers)
    return (
        f"{figures.gas_ml:.0f} mL of gas hold {figures.oxygen_cc:.0f} cc of oxygen; with a quarter"
        f" to spare the next stock size is {several} (margin: engineering judgement)."
    )


def _cautions(advised: Packed | None, facts: FoodFacts) -> tuple[Caution, ...]:
    kind = PackageKind.FOIL_POUCH
    absorber_cc = 0
    if advised is not None:
        kind = PackageKind(advised.fit.container.package_kind)
        absorber_cc = 0 if advised.absorber is None else advised.absorber.absorber_cc
    return cautions_for_packing(
        facts.food_class,
        facts.preparation,
        kind,
        absorber_cc=absorber_cc,
        fat_of_solids=facts.fat_of_solids,
        sugars_of_solids=facts.sugars_of_solids,
        acid=facts.acid,
    )


def _into(advised: Packed | None) -> str:
    if advised is None:
        return ""
    absorber = "" if advised.absorber is None else f",absorber={advised.absorber.absorber_cc}"
    return f"{advised.fit.count}x{advised.fit.container.key}:rest{absorber}"
