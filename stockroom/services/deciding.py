"""What becomes of a doubtful package: a few questions, one answer with its reason, carried out."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stockroom.domain.conditions import Condition, Event, NotAllowed, next_condition
from stockroom.domain.faults import Finding, soft_since, standing_faults
from stockroom.domain.foods import Preparation
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.records import Package
from stockroom.domain.soft_decision import (
    Feel,
    Outcome,
    Question,
    Sisters,
    SoftDecision,
    SoftFacts,
    decide,
    may_follow,
    next_question,
    with_answer,
)
from stockroom.domain.tightness import SealFinding, judge_seal
from stockroom.errors import Refused
from stockroom.services.acting import Act, acting
from stockroom.services.finding import find_package, find_place
from stockroom.services.foods import facts_of
from stockroom.services.names import clean_note
from stockroom.services.packages import record_event, refuse_early, throw_away
from stockroom.services.redrying import put_on_hold
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.sisters import doubt_sisters, doubted_words
from stockroom.store import food_rows, package_rows, place_rows, projections, queue_rows, run_rows

HOT_DC = 322
"""90 °F, from which food is left out for one hour at most: USDA FSIS (published)."""


class NothingFound(Refused):
    """Only a package that was itself found at fault is decided on."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} was not itself found soft, leaking or damaged.",
            "Look at it first: crisp, soft, leak or damaged.",
        )


class NotOffered(Refused):
    """The rules do not offer what was chosen."""

    def __init__(self, package: Package, chosen: Outcome, decision: SoftDecision) -> None:
        offered = " or ".join(str(one) for one in (*decision.choices, Outcome.DISCARD))
        super().__init__(
            f"{package.code} cannot be put down as {chosen}: {decision.reason}",
            f"What the rules allow: {offered}.",
        )


class HoursMissing(Refused):
    """How long after its sealing it was found decides, and nobody said."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"How many hours after sealing {package.code} was found decides what becomes of it.",
            "Say the hours, or that they are unknown, which counts as more than 24.",
        )


class FoundSoft(Refused):
    """What was found soft does not snap at the decision."""

    def __init__(self, package: Package, soft_on: date) -> None:
        super().__init__(
            f"{package.code} was found soft on {soft_on.isoformat()}; that it snaps does not undo"
            " that.",
            "Say how soft it was. If that was a slip, record it as crisp on the same day, or undo"
            " it.",
        )


class DecideFirst(Refused):
    """What was found at fault itself is held or packed anew only by a decision."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} was itself found at fault.", "Decide what becomes of it first."
        )


class LookFirst(Refused):
    """A sister sealed more than a day ago is looked at itself before it is dried again."""

    def __init__(self, package: Package) -> None:
        super().__init__(
            f"{package.code} was sealed more than a day ago and has not been looked at since its"
            " sister went soft.",
            "Look at it first: crisp, soft, leak or damaged.",
        )


@dataclass(frozen=True, slots=True)
class Consideration:
    """A doubtful package with the answers so far, the next question and the decision by them.

    Without an answer the stricter one is assumed. Where the hours since sealing would change the
    decision they are asked for before food is thrown away for want of them.
    """

    package: Package
    facts: SoftFacts
    answers: dict[Question, str]
    question: Question | None
    decision: SoftDecision
    seal: SealFinding
    """Whether it was never tight, or lost its tightness, and since when."""


def consider(
    room: Stockroom, code: str, answers: Mapping[Question, str] | None = None
) -> Consideration:
    """What is to become of a package found soft, leaking or damaged, by the answers so far.

    Raises NothingFound, FoundSoft for food on record as soft that is said to snap, NotAllowed for
    one that is not suspect, NotSealedYet, NotFound, BadInput.
    """
    package = find_package(room, code)
    return _consider(room, package, dict(answers or {}))


def _consider(room: Stockroom, package: Package, answers: dict[Question, str]) -> Consideration:
    if package.condition != Condition.SUSPECT:
        raise NotAllowed(Condition(package.condition), Event.HOLD)
    refuse_early(package, room.today)
    checks = projections.checks_of(room.store, [package.package_id])[package.package_id]
    faults = standing_faults(checks)
    if not faults:
        raise NothingFound(package)
    # A leak first, then soft: time for the softness counts from when that was found.
    soft_on = soft_since(checks)
    found_on = faults[0][0] if soft_on is None else soft_on
    facts = _facts(room, package, checks, found_on)
    leaks = any(what == Event.LEAK for _, what in faults)
    seal = judge_seal(
        package.sealed_on,
        [one for one in checks if one[0] < found_on],
        found_on,
        seal_whole=False if leaks else None,
        vacuum_lost=None,
    )
    if leaks:
        facts = replace(facts, tightness=seal.tightness)
    for question, answer in answers.items():
        facts = with_answer(facts, question, answer)
    if soft_on is not None and facts.feel is Feel.SNAPS:
        raise FoundSoft(package, soft_on)
    return Consideration(
        package=package,
        facts=facts,
        answers=answers,
        question=next_question(facts, tuple(answers)),
        decision=decide(facts, machine_free=machine_is_free(room)),
        seal=seal,
    )


def _facts(
    room: Stockroom,
    package: Package,
    checks: Sequence[Finding],
    found_on: date,
) -> SoftFacts:
    food = food_rows.food_by_id(room.store, package.food_id)
    assert food is not None
    crisp = [day for day, finding in checks if finding == Event.CRISP]
    return SoftFacts(
        food_class=FoodClass(package.food_class),
        preparation=Preparation(package.preparation),
        low_oxygen=package.low_oxygen,
        sealed_on=package.sealed_on,
        found_on=found_on,
        decided_on=room.today,
        acid=facts_of(food).acid,
        last_crisp_on=crisp[-1] if crisp else None,
        hot_room=_is_hot(room, package),
    )


def _is_hot(room: Stockroom, package: Package) -> bool:
    """Whether the place it stands in is above 90 °F this month."""
    if package.place_id is None:
        return False
    climate = place_rows.climates(room.store).get(package.place_id)
    if climate is None:
        return False
    month_dc = climate.monthly_dc[room.today.month - 1] if climate.monthly_dc else None
    now_dc = climate.temperature_dc if month_dc is None else month_dc
    return now_dc is not None and now_dc > HOT_DC


def machine_is_free(room: Stockroom) -> bool:
    """Whether no run is open and nothing waits before: what is to be dried again may go on it."""
    waiting = any(entry.state != "dried" for entry in queue_rows.queue(room.store))
    return not waiting and not run_rows.open_runs(room.store)


def carry_out(
    room: Stockroom,
    code: str,
    answers: Mapping[Question, str],
    *,
    outcome: Outcome | None = None,
    place: str | None = None,
    sisters_too: bool = False,
    note: str = "",
) -> Done:
    """Decide what becomes of a package and do it, in one action.

    `outcome` None takes what the rules advise. `place` is where held food waits, usually a
    freezer. `sisters_too` puts its suspect sisters in the queue as well where the whole lot is
    to be dried again. What is to be repacked stays suspect until it is. Softness that nobody had
    recorded is, and makes its sisters suspect. Raises HoursMissing, NotOffered, NothingFound,
    FoundSoft, NotAllowed, NotSealedYet, NotFound, BadInput.
    """
    with acting(room, "decide") as act:
        package = find_package(room, code)
        seen = _consider(room, package, dict(answers))
        chosen = seen.decision.outcome if outcome is None else outcome
        if _hours_decide(seen) and outcome is not Outcome.DISCARD:
            raise HoursMissing(package)
        if not seen.decision.allows(chosen):
            raise NotOffered(package, chosen, seen.decision)
        words = clean_note(note)
        queue_rows.insert_inspection(
            room.store,
            package_id=package.package_id,
            on_day=act.today,
            answers=json.dumps({str(key): answer for key, answer in seen.answers.items()}),
            outcome=chosen,
            rule=seen.decision.row,
            reason=seen.decision.reason,
            use_by=seen.decision.until if chosen is Outcome.USE_NOW else None,
            note=words,
        )
        doubted = _record_softness(room, act, package, seen)
        also = _apply(room, act, package, seen.decision, chosen, place, sisters_too)
        act.words = f"decided on {package.code} ({package.food}): {_lower(chosen.words)}"
        if also:
            act.words += f", with {', '.join(also)}"
        doubted = tuple(code for code in doubted if code not in also)
        if doubted:
            act.words += f"; {doubted_words(package, doubted)}"
    return Done(act.words, seen.decision.cautions, (package.code, *also, *doubted))


def _hours_decide(seen: Consideration) -> bool:
    """Whether the hours since sealing could still change the decision by the answers so far."""
    hours = Question.HOURS_SINCE_SEALING
    asked = [one for one in Question if one is not hours or one in seen.answers]
    return next_question(seen.facts, asked) is hours


def _record_softness(
    room: Stockroom, act: Act, package: Package, seen: Consideration
) -> tuple[str, ...]:
    """Record what was felt only now, and doubt the sisters by it; their codes.

    Of a package on record as soft that was done when it was found.
    """
    checks = projections.checks_of(room.store, [package.package_id])[package.package_id]
    if soft_since(checks) is not None or not seen.decision.sisters.doubtful:
        return ()
    if seen.facts.feel in (Feel.SLIGHTLY_SOFT, Feel.MOIST):
        record_event(room, act.today, package, Event.SOFT, Condition.SUSPECT, "")
    return doubt_sisters(room, act, package)


def _lower(words: str) -> str:
    """A sentence inside another."""
    return words[:1].lower() + words[1:].rstrip(".")


def _apply(
    room: Stockroom,
    act: Act,
    package: Package,
    decision: SoftDecision,
    chosen: Outcome,
    place: str | None,
    sisters_too: bool,
) -> tuple[str, ...]:
    """Carry out a decision; codes of the sisters it took along."""
    if chosen is Outcome.DISCARD:
        throw_away(room, act, package, decision.row.words)
    elif chosen is Outcome.USE_NOW:
        after = next_condition(Condition.SUSPECT, Event.USE_NOW)
        package_rows.set_condition(room.store, package.package_id, after, opened_on=act.today)
        record_event(room, act.today, package, Event.USE_NOW, after, decision.allowance)
    elif chosen in (Outcome.HOLD, Outcome.DRY_AGAIN):
        put_on_hold(room, act, package, place=place, why=decision.row.words)
        if sisters_too and decision.sisters is Sisters.DRY_ALL:
            return _hold_sisters(room, act, package, place)
    return ()


def _hold_sisters(
    room: Stockroom, act: Act, package: Package, place: str | None
) -> tuple[str, ...]:
    """Put the suspect sisters of a package in the queue behind it; their codes."""
    held: list[str] = []
    for sister in package_rows.packages_of_lot(room.store, package.lot_id):
        if sister.package_id != package.package_id and _may_follow(room, sister):
            why = f"{package.code} was soft within a day of sealing"
            put_on_hold(room, act, sister, place=place, why=why)
            held.append(sister.code)
    return tuple(held)


def _may_follow(room: Stockroom, sister: Package) -> bool:
    """Whether a suspect sister without a fault of its own may be dried again unopened."""
    checks = projections.checks_of(room.store, [sister.package_id])[sister.package_id]
    if sister.condition != Condition.SUSPECT or standing_faults(checks):
        return False
    return may_follow(_facts(room, sister, checks, room.today))


def hold_package(room: Stockroom, code: str, *, place: str | None = None, why: str = "") -> Done:
    """Hold a suspect sister, sealed within a day and not at fault itself, for drying again.

    It takes its place in the queue; `place` is where it waits, usually a freezer. What was found
    at fault itself is held by a decision only. Raises DecideFirst, LookFirst, NotAllowed,
    NotSealedYet, NotFound, BadInput.
    """
    with acting(room, "hold") as act:
        package = find_package(room, code)
        refuse_early(package, act.today)
        if package.condition == Condition.SUSPECT:
            checks = projections.checks_of(room.store, [package.package_id])[package.package_id]
            if standing_faults(checks):
                raise DecideFirst(package)
            if not _may_follow(room, package):
                raise LookFirst(package)
        put_on_hold(room, act, package, place=place, why=clean_note(why))
        act.words = f"held {package.code} ({package.food}) until the machine is free"
        if place is not None:
            act.words += f", in {find_place(room, place).path}"
    return Done(act.words, codes=(package.code,))
