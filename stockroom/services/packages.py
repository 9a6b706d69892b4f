"""What a person does with packages: move, take from, check, note and throw away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from stockroom.domain.conditions import Condition, Event, next_condition
from stockroom.domain.faults import soft_since
from stockroom.domain.packing import TooMuchTaken, part_water
from stockroom.domain.quantities import grams, nearest_whole
from stockroom.domain.records import Package
from stockroom.domain.rotation import Candidate
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.finding import find_package, find_place
from stockroom.services.heaps import refuse_part_of_heap
from stockroom.services.names import clean_note
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.shelves import doubt_cautions
from stockroom.services.sisters import doubt_sisters, doubted_words
from stockroom.store import package_rows, projections, queue_rows

FINDINGS = (Event.CRISP, Event.SOFT, Event.LEAK, Event.DAMAGED)
"""What a check of a package can find."""

BY_OPENING = "looked at by opening"
"""Stands in the record of a look that opened the package."""


class AlreadyThere(Refused):
    """Every package named stands in that place already."""

    def __init__(self, path: str) -> None:
        super().__init__(f"That is already in {path}.", "Name another place.")


class StandsNowhere(Refused):
    """A package that is used up or discarded is in no place."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} is {package.condition}; it stands nowhere.",
            "If that was recorded by mistake, undo it.",
        )


class NotSealedYet(Refused):
    """Nothing can happen to a package on a day before it was sealed."""

    def __init__(self, package: Package, today: date) -> None:
        super().__init__(
            f"{package.code} was sealed on {package.sealed_on.isoformat()};"
            f" on {today.isoformat()} it was not there yet.",
            "Look at the day: the machine's clock, or the one given with --today.",
        )


class SameNote(Refused):
    """The package has that note already."""

    def __init__(self, code: str) -> None:
        super().__init__(f"That is already the note of {code}.", "Type another note.")


class SoftStands(Refused):
    """Food found soft on another day is not made crisp by another look."""

    def __init__(self, package: Package, soft_on: date) -> None:
        super().__init__(
            f"{package.code} was found soft on {soft_on.isoformat()}; a crisp look does not undo"
            " that.",
            "Decide what becomes of it. If it was recorded by mistake, undo it.",
        )


class ReasonMissing(Refused):
    """Food is not thrown away without a word why."""

    def __init__(self) -> None:
        super().__init__(
            "A discard needs a reason.", "Say why in a few words, such as “torn, went soft”."
        )


def move_packages(room: Stockroom, codes: Sequence[str], place: str) -> Done:
    """Put packages in a place; those already there are left as they are.

    Raises AlreadyThere when that is all of them, StandsNowhere, NotSealedYet, NotFound, BadInput.
    """
    if not codes:
        raise BadInput("packages", "", "one or more package codes")
    with acting(room, "move") as act:
        where = find_place(room, place)
        packages = [find_package(room, code) for code in codes]
        moving = [
            package
            for package in {package.package_id: package for package in packages}.values()
            if package.place_id != where.place_id
        ]
        if not moving:
            raise AlreadyThere(where.path)
        for package in moving:
            refuse_gone(package)
            refuse_early(package, act.today)
            package_rows.set_place(room.store, package.package_id, where.place_id)
            package_rows.insert_event(
                room.store,
                package_id=package.package_id,
                on_day=act.today,
                event="moved",
                from_condition=package.condition,
                to_condition=package.condition,
                from_place_id=package.place_id,
                to_place_id=where.place_id,
            )
        act.words = f"moved {_which(moving)} to {where.path}"
    return Done(act.words, codes=tuple(package.code for package in moving))


@dataclass(frozen=True, slots=True)
class Amount:
    """How much to take: dry grams, servings, or all that is left when both are None."""

    dry_dg: int | None = None
    servings: Fraction | None = None

    def of(self, package: Package) -> int:
        """Tenths of a gram of dry food this means for a package. Raises TooMuchTaken, BadInput.

        Servings are turned into dry weight by the package's own share of water, to the nearest
        tenth of a gram; as many servings as are left take everything, of an empty package nothing.
        """
        if self.dry_dg is not None and self.servings is not None:
            raise BadInput("amount", "grams and servings", "one of them")
        if self.servings is not None:
            if self.servings <= 0:
                raise BadInput("servings", str(self.servings), "a number above 0")
            if package.left_dg == 0:
                return 0
            share = self.servings / package.servings_left
            wanted_dg = nearest_whole(package.left_dg * share) or 1
            if share > 1:
                raise TooMuchTaken(wanted_dg, package.left_dg)
            return min(wanted_dg, package.left_dg)
        return package.left_dg if self.dry_dg is None else self.dry_dg


def water_for(package: Package, take_dg: int) -> int:
    """Water to add to so much dry food out of a package, dg. Raises TooMuchTaken.

    The share of the water of what is left, as a pick list has it: the same tenth of a gram on
    the list and in the record. Taking everything takes all the water, so the parts add up.
    """
    return part_water(package.left_dg, package.left_water_dg, 0, take_dg)


def draw_package(
    room: Stockroom, code: str, amount: Amount | None = None, *, note: str = ""
) -> Done:
    """Take food out of a package: part of it opens it, all of it uses it up.

    Raises NotAllowed for a package that may not be eaten from, TooMuchTaken, NotSealedYet,
    BadInput.
    """
    with acting(room, "draw") as act:
        package = find_package(room, code)
        take_dg = (amount or Amount()).of(package)
        water_dg = take_from(room, act, package, take_dg, note=clean_note(note))
        all_of_it = take_dg == package.left_dg
        act.words = (
            f"took {'all ' if all_of_it else ''}{grams(take_dg):.1f} g of {package.food}"
            f" from {package.code}, water to add {grams(water_dg):.1f} g"
        )
    return Done(act.words, codes=(package.code,))


def take_from(
    room: Stockroom,
    act: Act,
    package: Package,
    take_dg: int,
    *,
    meal_id: int | None = None,
    note: str = "",
) -> int:
    """Draw dry food from a package inside an action; returns the water it needs, in dg."""
    condition = Condition(package.condition)
    finishes = take_dg == package.left_dg
    after = next_condition(condition, Event.USE_UP if finishes else Event.OPEN)
    if take_dg <= 0:
        raise BadInput("amount", f"{grams(take_dg):g} g", "a weight above 0 g")
    refuse_early(package, act.today)
    water_dg = water_for(package, take_dg)
    package_rows.insert_draw(
        room.store,
        package_id=package.package_id,
        meal_id=meal_id,
        on_day=act.today,
        dry_dg=take_dg,
        water_dg=water_dg,
        note=note,
    )
    package_rows.set_condition(
        room.store,
        package.package_id,
        after,
        opened_on=act.today if package.opened_on is None else None,
        gone_on=act.today if finishes else None,
        taken_dg=package.taken_dg + take_dg,
    )
    if after != condition:
        record_event(room, act.today, package, Event.USE_UP if finishes else Event.OPEN, after, "")
    return water_dg


def check_package(
    room: Stockroom, code: str, finding: Event, *, note: str = "", opened: bool = False
) -> Done:
    """Record what a check of a package found: crisp, soft, leak or damaged.

    Crisp settles a settling package and clears a suspect one, but not one found soft on
    another day; anything else makes it suspect, and softness its sisters too. `opened` says that
    it was looked at by opening it: from then on it counts as opened. Raises SoftStands,
    NotAllowed, NotSealedYet, NotFound, BadInput.
    """
    if finding not in FINDINGS:
        raise BadInput("finding", str(finding), f"one of {', '.join(FINDINGS)}")
    with acting(room, "check") as act:
        package = find_package(room, code)
        refuse_early(package, act.today)
        if finding is Event.CRISP:
            _refuse_soft_before(room, package)
        opens = opened and package.opened_on is None
        said = clean_note("; ".join(filter(None, (BY_OPENING if opens else "", note.strip()))))
        after = _record_look(room, act, package, finding, said, opens=opens)
        how = f", {BY_OPENING}" if opens else ""
        act.words = f"checked {package.code} ({package.food}): {finding}{how}, now {after}"
        cautions = () if finding is Event.CRISP else doubt_cautions(room, package)
        sisters = doubt_sisters(room, act, package) if finding is Event.SOFT else ()
        if sisters:
            act.words += f"; {doubted_words(package, sisters)}"
    return Done(act.words, cautions, (package.code, *sisters))


def _record_look(
    room: Stockroom, act: Act, package: Package, finding: Event, note: str, *, opens: bool
) -> Condition:
    """Write what a look found, and that it opened the package; the condition after it."""
    was_opened = package.opened_on is not None
    found = next_condition(Condition(package.condition), finding, was_opened=was_opened)
    after = next_condition(found, Event.OPEN) if opens and finding is Event.CRISP else found
    if opens or after != package.condition:
        day = act.today if opens else None
        package_rows.set_condition(room.store, package.package_id, after, opened_on=day)
    record_event(room, act.today, package, finding, found, note)
    if after != found:
        record_event(room, act.today, replace(package, condition=found), Event.OPEN, after, "")
    return after


def _refuse_soft_before(room: Stockroom, package: Package) -> None:
    """Refuse crisp for food found soft on another day; on the day itself it mends a slip."""
    checks = projections.checks_of(room.store, [package.package_id])[package.package_id]
    soft_on = soft_since(checks)
    if soft_on is not None and soft_on != room.today:
        raise SoftStands(package, soft_on)


def discard_packages(room: Stockroom, codes: Sequence[str], why: str) -> Done:
    """Throw packages away with a reason.

    What lies on one tray is one heap, so it goes as a whole. Raises ReasonMissing, OneHeap,
    NotAllowed, NotSealedYet, NotFound, BadInput.
    """
    reason = clean_note(why)
    if not reason:
        raise ReasonMissing
    if not codes:
        raise BadInput("packages", "", "one or more package codes")
    with acting(room, "discard") as act:
        found = [find_package(room, code) for code in codes]
        packages = list({package.package_id: package for package in found}.values())
        refuse_part_of_heap(room, packages)
        for package in packages:
            refuse_early(package, act.today)
            throw_away(room, act, package, reason)
        act.words = f"discarded {_which(packages)}: {reason}"
    return Done(act.words, codes=tuple(package.code for package in packages))


def throw_away(room: Stockroom, act: Act, package: Package, reason: str) -> None:
    """Discard a package inside an action; a held one leaves the queue."""
    after = next_condition(Condition(package.condition), Event.DISCARD)
    package_rows.set_condition(room.store, package.package_id, after, gone_on=act.today)
    record_event(room, act.today, package, Event.DISCARD, after, reason)
    entry = queue_rows.entry_of_package(room.store, package.package_id)
    if entry is not None:
        queue_rows.end_entry(room.store, entry.entry_id, ended_on=act.today, ending="discarded")


def note_package(room: Stockroom, code: str, note: str) -> Done:
    """Replace a package's note; empty takes it away. Raises SameNote, NotFound, BadInput."""
    with acting(room, "note") as act:
        package = find_package(room, code)
        text = clean_note(note)
        if text == package.note:
            raise SameNote(package.code)
        package_rows.set_note(room.store, package.package_id, text)
        act.words = (
            f"noted on {package.code}: {text}" if text else f"cleared the note of {package.code}"
        )
    return Done(act.words, codes=(package.code,))


def candidate_of(package: Package) -> Candidate:
    """A package as the rules of rotation see it."""
    return Candidate(
        package_id=package.package_id,
        code=package.code,
        food_id=package.food_id,
        made_on=package.made_on,
        best_by=package.best_by or package.made_on,
        opened=package.opened_on is not None,
        available_dg=package.left_dg,
        water_dg=package.left_water_dg,
    )


def record_event(
    room: Stockroom, today: date, package: Package, event: Event, after: Condition, note: str
) -> None:
    """Write what happened to a package into its history, inside an action."""
    package_rows.insert_event(
        room.store,
        package_id=package.package_id,
        on_day=today,
        event=event,
        from_condition=package.condition,
        to_condition=after,
        note=note,
    )


def refuse_gone(package: Package) -> None:
    """Raise StandsNowhere for a package that was used up or discarded."""
    if package.condition in (Condition.USED, Condition.DISCARDED):
        raise StandsNowhere(package)


def refuse_early(package: Package, today: date) -> None:
    """Raise NotSealedYet for anything before the sealing."""
    if today < package.sealed_on:
        raise NotSealedYet(package, today)


def _which(packages: Sequence[Package]) -> str:
    if len(packages) == 1:
        return f"{packages[0].code} ({packages[0].food})"
    foods = {package.food for package in packages}
    of = f" of {foods.pop()}" if len(foods) == 1 else ""
    return f"{len(packages)} packages{of}, {packages[0].code} to {packages[-1].code}"
