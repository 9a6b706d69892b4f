"""Following a package back to the machine and forward to its kin; calling packages back.

One soft package, one bad packet of absorbers, one box of torn pouches: what else shares it, where
does it stand, and what do all soft packages have in common?
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from stockroom.domain.cautions import CAUTIONS, Caution, chosen
from stockroom.domain.codes import read_code
from stockroom.domain.common_ground import CommonPage, common_page, folded_name
from stockroom.domain.conditions import Condition, Event, next_condition
from stockroom.domain.evidence_records import DrynessCheck
from stockroom.domain.gate import override_cautions
from stockroom.domain.records import Lot, Package, Tray
from stockroom.domain.trace_records import (
    RECALLABLE,
    DriedTray,
    Drying,
    Group,
    GroupKind,
    TracePage,
    group_words,
)
from stockroom.domain.walking import WalkingOrder, walking_order
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.dryness import DrynessTest, first_gate, tray_gate, words_of_test
from stockroom.services.finding import find_food, find_lot, find_package, find_run
from stockroom.services.names import clean_note
from stockroom.services.packages import record_event, refuse_early
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.shelves import doubt_cautions
from stockroom.store import (
    evidence_rows,
    lot_rows,
    package_rows,
    queue_rows,
    run_rows,
    trace_rows,
)

LISTED = 50
"""Packages of a group named one by one; the rest are counted."""
_AT_ONCE = 500


class NotRecorded(Refused):
    """Nobody wrote down out of which packet or box it came."""

    def __init__(self, kind: GroupKind, code: str) -> None:
        super().__init__(
            f"The {kind.words} of {code} is not on record.", "Recall by its lot or its run."
        )


class NothingToRecall(Refused):
    """No package of the group is sealed or opened and not in doubt already."""

    def __init__(self, group: Group) -> None:
        stand = ", ".join(f"{count} {condition}" for condition, count in group.conditions)
        super().__init__(
            f"There is nothing of {group.words} to recall: {stand or 'no package of it'}.",
            "Trace it to see what became of its packages.",
        )


class WhyMissing(Refused):
    """Packages are not called back without a word why."""

    def __init__(self) -> None:
        super().__init__(
            "A recall needs a reason.", "Say why in a few words, such as “absorbers went hard”."
        )


def trace(room: Stockroom, code: str) -> TracePage:
    """Where a package or a lot comes from, and what shares its past. Raises NotFound, BadInput."""
    lot, package = _named(room, code)
    dryings = _dryings(room, lot, package)
    package_id = package.package_id if package else 0
    return TracePage(
        code=package.code if package else lot.code,
        lot=lot,
        package=package,
        dryings=dryings,
        sources=_packages(room, trace_rows.source_ids(room.store, package_id)),
        successors=_packages(room, trace_rows.successor_ids(room.store, package_id)),
        groups=tuple(_group(room, *one) for one in _groups(room, lot, package, dryings)),
        meals=tuple(trace_rows.meals_of_lot(room.store, lot.lot_id)),
        queued=queue_rows.entry_of_package(room.store, package_id)
        if package
        else queue_rows.entry_of_lot(room.store, lot.lot_id),
        cautions=_cautions_of(room, package),
    )


def _named(room: Stockroom, code: str) -> tuple[Lot, Package | None]:
    """The lot of a typed code, and the package unless the code is a lot's."""
    package = None if read_code(code).kind == "lot" else find_package(room, code)
    return find_lot(room, package.lot_code if package else code), package


def _packages(room: Stockroom, package_ids: Sequence[int]) -> tuple[Package, ...]:
    """Packages by id, so many at a time as a query takes."""
    found: list[Package] = []
    for start in range(0, len(package_ids), _AT_ONCE):
        part = package_ids[start : start + _AT_ONCE]
        found.extend(package_rows.packages_by_ids(room.store, part))
    return tuple(found)


def _cautions_of(room: Stockroom, package: Package | None) -> tuple[Caution, ...]:
    """What to bear in mind with a package in doubt, or packed although dryness was not shown."""
    if package is None:
        return chosen(())
    doubtful = package.condition in (Condition.SUSPECT, Condition.HELD)
    found = {*(doubt_cautions(room, package) if doubtful else ())}
    found |= {*(override_cautions() if package.gate_reason else ())}
    return chosen(one.key for one in found)


# Back


def _dryings(room: Stockroom, lot: Lot, package: Package | None) -> tuple[Drying, ...]:
    """The first drying of the food, then each later one before the package was sealed."""
    sealed_on = (package.first_sealed_on or package.sealed_on) if package else room.today
    again = trace_rows.trays_lot_dried_again(room.store, lot.lot_id, sealed_on)
    if package is not None:
        again += trace_rows.trays_dried_again(room.store, package.package_id)
    trays = run_rows.trays_of_run(room.store, lot.run_id)
    own = {tray.tray_id for tray in trays if tray.lot_id == lot.lot_id}
    first = Drying(
        run=find_run(room, lot.run_id),
        again=False,
        trays=_dried_trays(room, trays, own),
        extra=tuple(evidence_rows.extra_dryings_of(room.store, lot.run_id)),
        gate=first_gate(room, lot),
    )
    return first, *(_dried_again(room, tray_id) for tray_id in again)


def _dried_again(room: Stockroom, tray_id: int) -> Drying:
    """A later drying, on one tray."""
    trays = run_rows.trays_by_ids(room.store, [tray_id])
    run = find_run(room, trays[0].run_id)
    return Drying(
        run=run,
        again=True,
        trays=_dried_trays(room, trays, {tray_id}),
        extra=tuple(evidence_rows.extra_dryings_of(room.store, run.run_id)),
        gate=tray_gate(room, tray_id),
    )


def _dried_trays(room: Stockroom, trays: Sequence[Tray], own: set[int]) -> tuple[DriedTray, ...]:
    """Trays of one run with what was weighed and tested on each."""
    ids = [tray.tray_id for tray in trays]
    weighings = evidence_rows.weighings_of(room.store, ids)
    tests = evidence_rows.checks_of_trays(room.store, ids)
    found: list[DriedTray] = []
    for tray in trays:
        of_tray = tuple(one for one in tests if one.tray_id == tray.tray_id)
        dry = [one for one in weighings if one.tray_id == tray.tray_id and one.stage == "dry"]
        cold, broken = (_last_found(of_tray, kind) for kind in DrynessTest)
        own_food = tray.tray_id in own
        found.append(DriedTray(tray, own_food, tuple(dry), of_tray, cold, broken))
    return tuple(found)


def _last_found(tests: Sequence[DrynessCheck], kind: DrynessTest) -> str:
    """What the last test of a kind found, in words; "" without one."""
    passed = [one.passed for one in tests if one.kind == kind]
    return words_of_test(kind, passed[-1]) if passed else ""


# Forward

_Named = tuple[GroupKind, str, trace_rows.Keys]
"""A group: its kind, its name and what the store knows it by."""


def _groups(
    room: Stockroom, lot: Lot, package: Package | None, dryings: Iterable[Drying]
) -> list[_Named]:
    """Every group it belongs to: its lot, each run it was dried in, its packet, its box."""
    runs = dict.fromkeys(one.run.run_id for one in dryings)
    found: list[_Named] = [(GroupKind.LOT, lot.code, [lot.lot_id])]
    found.extend((GroupKind.RUN, str(run_id), [run_id]) for run_id in runs)
    if package is not None and package.absorber_packet.strip():
        names = trace_rows.packet_names(room.store)
        found.append(_spelt(GroupKind.PACKET, package.absorber_packet, names))
    if package is not None and package.container_box.strip():
        names = trace_rows.box_names(room.store)
        found.append(_spelt(GroupKind.BOX, package.container_box, names))
    return found


def _spelt(kind: GroupKind, name: str, names: Sequence[str]) -> _Named:
    """A packet or box in every spelling: one missed for a capital letter would stay unlooked at."""
    wanted = folded_name(name)
    alike = [one for one in names if folded_name(one) == wanted]
    return kind, " ".join(name.split()), alike


def _group(room: Stockroom, kind: GroupKind, name: str, keys: trace_rows.Keys) -> Group:
    """A group with its counts and the first page of its packages."""
    counts = trace_rows.condition_counts(room.store, kind, keys)
    ids = trace_rows.member_ids(room.store, kind, keys, limit=LISTED)
    return Group(
        kind=kind,
        name=name,
        conditions=tuple((one, counts[one]) for one in Condition if one in counts),
        listed=_packages(room, ids),
    )


# Recall


def recall(room: Stockroom, code: str, by: GroupKind, why: str) -> Done:
    """Make every sealed or opened package of a group suspect: each wants looking at.

    `by` says which group of the package or lot: its lot, the run it was last dried in, its
    absorber packet or its container box. The codes come place by place, as a person walks along.
    Raises WhyMissing, NotRecorded, NothingToRecall, NotSealedYet, NotFound, BadInput.
    """
    reason = clean_note(why)
    if not reason:
        raise WhyMissing
    if by not in tuple(GroupKind):
        raise BadInput("by", str(by), f"one of {', '.join(GroupKind)}")
    with acting(room, "recall") as act:
        kind, name, keys = _wanted(room, code, GroupKind(by))
        ids = trace_rows.member_ids(room.store, kind, keys, conditions=RECALLABLE)
        if not ids:
            raise NothingToRecall(_group(room, kind, name, keys))
        packages = sorted(_packages(room, ids), key=_on_the_way)
        group = group_words(kind, name)
        for package in packages:
            refuse_early(package, act.today)
            after = next_condition(Condition(package.condition), Event.RECALL)
            package_rows.set_condition(room.store, package.package_id, after)
            record_event(room, act.today, package, Event.RECALL, after, f"{group}: {reason}")
        count = "1 package" if len(packages) == 1 else f"{len(packages)} packages"
        act.words = f"recalled {count} of {group}: {reason}{_unpacked(room, kind, keys)}"
        cautions = _cautions(room, packages)
    return Done(act.words, cautions, tuple(package.code for package in packages))


def _on_the_way(package: Package) -> WalkingOrder:
    return walking_order(package.place, package.code)


def _unpacked(room: Stockroom, kind: GroupKind, keys: trace_rows.Keys) -> str:
    """The lots of a lot or run with food in no package yet: no label of it can be called back."""
    found: list[Lot | None] = []
    if kind is GroupKind.LOT:
        found = [lot_rows.lot_by_id(room.store, int(one)) for one in keys]
    elif kind is GroupKind.RUN:
        found = [lot for one in keys for lot in lot_rows.lots_of_run(room.store, int(one))]
    left = [lot.code for lot in found if lot is not None and lot.left_dg > 0]
    if not left:
        return ""
    lots = "lot" if len(left) == 1 else "lots"
    return f"; not packed yet, look at it too: food of {lots} {', '.join(left)}"


def _wanted(room: Stockroom, code: str, by: GroupKind) -> _Named:
    """The group a recall is about. Or NotRecorded."""
    lot, package = _named(room, code)
    groups = _groups(room, lot, package, _dryings(room, lot, package))
    found = [one for one in groups if one[0] is by]
    if not found:
        raise NotRecorded(by, package.code if package else lot.code)
    return found[-1]


def recalled(room: Stockroom, done: Done) -> tuple[Package, ...]:
    """The packages of a recall just done, in the order to fetch them."""
    return tuple(find_package(room, code) for code in done.codes)


def _cautions(room: Stockroom, packages: Sequence[Package]) -> tuple[Caution, ...]:
    """What to bear in mind with any of these packages, each caution once."""
    kinds: dict[tuple[int, bool, date], Package] = {}
    for package in packages:
        kinds.setdefault((package.food_id, package.low_oxygen, package.sealed_on), package)
    keys = {caution.key for one in kinds.values() for caution in doubt_cautions(room, one)}
    return tuple(one for one in CAUTIONS if one.key in keys)


# In common


def in_common(room: Stockroom, *, food: str | None = None, since: date | None = None) -> CommonPage:
    """What the packages ever found soft have in common, among all ever looked at.

    `food` counts the packages of one food only, `since` only looks from that day on. Raises
    NotFound.
    """
    asked = None if food is None else find_food(room, food)
    looked_at = trace_rows.looked_at(
        room.store, food_id=None if asked is None else asked.food_id, since=since
    )
    return common_page(looked_at, food=asked.name if asked else "", since=since)
