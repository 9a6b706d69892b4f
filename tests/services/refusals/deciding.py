"""Refusals of decisions on doubtful packages, and of packing food anew."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

from stockroom.clock import FixedClock
from stockroom.domain.codes import PackageNumbersUsedUp
from stockroom.domain.conditions import Event, NotAllowed
from stockroom.domain.keeping.headspace import TooMuchForContainer
from stockroom.domain.packing import TooMuchPacked, read_split
from stockroom.domain.soft_decision import Outcome, Question
from stockroom.errors import BadInput, NotFound
from stockroom.services import bench, deciding, packages, redrying, repacking
from stockroom.services.dryness import GateClosed
from stockroom.services.packages import NotSealedYet, SoftStands
from stockroom.services.session import Stockroom
from tests.services.cases_rechecks import SOFT_TODAY, dried_again, held, hold, one_soft
from tests.services.refusals.base import ENDLESS, Refusal, packed
from tests.services.refusals.packages import YESTERDAY
from tests.world import APPLE, PEAS, World

LEAKS = {Question.FEEL: "snaps", Question.SIGNS: "none"}
"""The barrier was lost, the food was not."""


def later(act: Callable[[Stockroom], object], days: int = 1) -> Callable[[Stockroom], object]:
    """The same on a later day."""
    return lambda room: act(replace(room, clock=FixedClock(room.today + timedelta(days=days))))


def earlier(act: Callable[[Stockroom], object]) -> Callable[[Stockroom], object]:
    """The same by a clock that was put back."""
    return lambda room: act(replace(room, clock=FixedClock(YESTERDAY)))


def one_leaks(world: World) -> None:
    """Apples: 26329A01 leaks, 02 and 03 are as they were."""
    world.places("cellar")
    world.packed(APPLE, "3xpouch-400-foil:40,absorber=100", place="cellar")
    packages.check_package(world.room, "26329A01", Event.LEAK)


def to_repack(world: World) -> None:
    """As one_leaks, and it was decided to pack 01 anew."""
    one_leaks(world)
    deciding.carry_out(world.room, "26329A01", LEAKS)


def past_the_gate(world: World) -> None:
    """A leaking pouch of food that was never shown to be dry, to be packed anew."""
    lot = world.dry_lot(APPLE, tested=False)
    world.pack(lot, "1xpouch-400-foil:40,absorber=100")
    packages.check_package(world.room, "26329A01", Event.LEAK)
    deciding.carry_out(world.room, "26329A01", LEAKS)


def dried_untested(world: World) -> None:
    """26329A01 off the machine, weighed once and never tested."""
    held(world)
    bench.start_run(world.room)
    redrying.load_again(world.room, 1, ["26329A01"], gross_dg=430)
    bench.weigh_tray(world.room, 1, "dry", 395)
    bench.close_run(world.room)


def two_trays(world: World) -> None:
    """26329A01 and 02 dried on a tray each."""
    one_soft(world)
    hold(world, "26329A01", sisters_too=True)
    bench.start_run(world.room)
    for position, code in ((1, "26329A01"), (2, "26329A02")):
        redrying.load_again(world.room, position, [code])
        bench.weigh_tray(world.room, position, "dry", 395)
    bench.close_run(world.room)


def two_lots(world: World) -> None:
    """26329A01 of apples and 26329B01 of peas, nothing the matter with either."""
    world.packed(APPLE, "1xpouch-400-foil:40,absorber=100")
    world.packed(PEAS, "1xpouch-400-foil:40,absorber=100")


def numbers_gone(world: World) -> None:
    """998 packages of one lot, the first of them leaking and to be packed anew."""
    lot = world.dry_lot(APPLE, 9_000, 1_500)
    world.pack(lot, "499xpouch-400-foil:1")
    world.pack(lot, "499xpouch-400-foil:1")
    packages.check_package(world.room, "26329A01", Event.LEAK)
    deciding.carry_out(world.room, "26329A01", LEAKS)


def decide(
    code: str = "26329A01", answers: dict[Question, str] | None = None, **wanted: object
) -> Callable[[Stockroom], object]:
    """A decision; by the answers of softness within a day unless others are given."""
    said = SOFT_TODAY if answers is None else answers
    return lambda room: deciding.carry_out(room, code, said, **wanted)  # type: ignore[arg-type]


def consider(code: str, answers: dict[Question, str]) -> Callable[[Stockroom], object]:
    """A look at what the rules say."""
    return lambda room: deciding.consider(room, code, answers)


def repack(
    *codes: str, into: str = "1xpouch-400-foil,absorber=100", **wanted: str
) -> Callable[[Stockroom], object]:
    """Packing these anew, all of it into one pouch."""
    return lambda room: repacking.repack_packages(
        room,
        codes,
        [read_split(into)],
        **wanted,  # type: ignore[arg-type]
    )


BOTH = (
    ("deciding.consider", consider),
    ("deciding.carry_out", decide),
)

DECISIONS = (
    *(
        refusal
        for service, ask in BOTH
        for refusal in (
            Refusal(
                service,
                deciding.NothingFound,
                one_soft,
                ask("26329A02", SOFT_TODAY),
                ("26329A02", "was not itself found", "Look at it first"),
            ),
            Refusal(
                service,
                NotAllowed,
                packed,
                ask("26329A01", SOFT_TODAY),
                ("cannot be held for drying again", "settling", "Check it first"),
            ),
            Refusal(
                service,
                deciding.FoundSoft,
                one_soft,
                ask("26329A01", LEAKS),
                ("26329A01", "found soft on 2026-11-25", "how soft"),
            ),
            Refusal(
                service,
                NotFound,
                one_soft,
                ask("26329A77", SOFT_TODAY),
                ("package", "“26329A77”"),
            ),
            Refusal(
                service,
                BadInput,
                one_soft,
                ask("26329A01", {Question.FEEL: "crunchy"}),
                ("“crunchy”", "snaps, slightly_soft, moist, unknown"),
            ),
            Refusal(
                service,
                NotSealedYet,
                one_soft,
                earlier(ask("26329A01", SOFT_TODAY)),
                ("26329A01", "not there yet"),
            ),
        )
    ),
    *(
        Refusal(
            "deciding.carry_out",
            deciding.NotOffered,
            one_soft,
            decide(outcome=outcome),
            ("26329A01", f"cannot be put down as {outcome}", "dry_again or hold or discard"),
        )
        for outcome in (Outcome.USE_NOW, Outcome.REPACK)
    ),
    Refusal(
        "deciding.carry_out",
        deciding.NotOffered,
        lambda world: (one_soft(world), bench.start_run(world.room)),
        decide(outcome=Outcome.DRY_AGAIN),
        ("cannot be put down as dry_again", "hold or discard"),
    ),
    *(
        Refusal(
            "deciding.carry_out",
            deciding.HoursMissing,
            lambda world: (
                world.packed(PEAS, "1xpouch-400-foil:40,absorber=100"),
                packages.check_package(world.later(1).room, "26329A01", Event.SOFT),
            ),
            later(decide(answers=answers, outcome=Outcome.HOLD)),
            ("How many hours after sealing 26329A01", "or that they are unknown"),
        )
        for answers in (
            {Question.FEEL: "slightly_soft", Question.SIGNS: "none"},
            {Question.SIGNS: "none", Question.MINUTES_OUT: "60"},
        )
    ),
    Refusal("deciding.carry_out", NotFound, one_soft, decide(place="moon"), ("place", "“moon”")),
    Refusal("deciding.carry_out", BadInput, one_soft, decide(note=ENDLESS), ("note",)),
    Refusal(
        "packages.check_package",
        SoftStands,
        one_soft,
        later(lambda room: packages.check_package(room, "26329A01", Event.CRISP)),
        ("26329A01", "found soft on 2026-11-25", "Decide what becomes of it"),
    ),
    Refusal(
        "packages.check_package",
        SoftStands,
        lambda world: (one_leaks(world), _soft(world.later(2))),
        lambda room: packages.check_package(room, "26329A01", Event.CRISP),
        ("26329A01", "found soft on 2026-11-27"),
    ),
)


def _soft(world: World) -> None:
    packages.check_package(world.room, "26329A01", Event.SOFT)


HOLDING = (
    Refusal(
        "deciding.hold_package",
        deciding.DecideFirst,
        one_soft,
        lambda room: deciding.hold_package(room, "26329A01"),
        ("26329A01", "itself found at fault", "Decide"),
    ),
    Refusal(
        "deciding.hold_package",
        deciding.LookFirst,
        one_soft,
        later(lambda room: deciding.hold_package(room, "26329A02"), 2),
        ("26329A02", "more than a day ago", "Look at it first"),
    ),
    Refusal(
        "deciding.hold_package",
        NotAllowed,
        packed,
        lambda room: deciding.hold_package(room, "26329A01"),
        ("cannot be held", "settling"),
    ),
    Refusal(
        "deciding.hold_package",
        NotAllowed,
        held,
        lambda room: deciding.hold_package(room, "26329A01"),
        ("cannot be held", "waiting to be dried again"),
    ),
    Refusal(
        "deciding.hold_package",
        NotSealedYet,
        one_soft,
        earlier(lambda room: deciding.hold_package(room, "26329A02")),
        ("26329A02",),
    ),
    Refusal(
        "deciding.hold_package",
        NotFound,
        one_soft,
        lambda room: deciding.hold_package(room, "26329A02", place="moon"),
        ("place", "“moon”"),
    ),
    Refusal(
        "deciding.hold_package",
        BadInput,
        one_soft,
        lambda room: deciding.hold_package(room, "26329A02", why=ENDLESS),
        ("note",),
    ),
)

REPACKING = (
    *(
        Refusal(
            "repacking.repack_packages",
            BadInput,
            packed,
            lambda room, codes=codes, into=into: repacking.repack_packages(room, codes, into),
            ("packages", "what they go into"),
        )
        for codes, into in (([], [read_split("1xjar-475")]), (["26329A01"], []))
    ),
    Refusal(
        "repacking.heap_of",
        BadInput,
        packed,
        lambda room: repacking.heap_of(room, []),
        ("packages", "package codes"),
    ),
    Refusal(
        "repacking.repack_packages",
        BadInput,
        packed,
        repack("26329A01", into="1xjar-475", note=ENDLESS),
        ("note",),
    ),
    Refusal(
        "repacking.repack_packages",
        NotFound,
        packed,
        repack("26329A01", "26329A44"),
        ("package", "“26329A44”"),
    ),
    *(
        Refusal("repacking.repack_packages", NotFound, packed, act, facts)
        for act, facts in (
            (repack("26329A01", into="1xsock"), ("container", "“sock”")),
            (repack("26329A01", place="moon"), ("place", "“moon”")),
        )
    ),
    *(
        Refusal(
            "repacking.repack_packages",
            repacking.NotDriedYet,
            prepare,
            repack("26329A01"),
            ("26329A01", where, "once it has been dried"),
        )
        for prepare, where in (
            (held, "waits for the machine"),
            (
                lambda world: (
                    held(world),
                    bench.start_run(world.room),
                    redrying.load_again(world.room, 4, ["26329A01"]),
                ),
                "is on tray 4 of run 2",
            ),
        )
    ),
    Refusal(
        "repacking.repack_packages",
        repacking.WentSoft,
        one_soft,
        repack("26329A01"),
        ("26329A01", "found soft", "decide"),
    ),
    *(
        Refusal(
            "repacking.repack_packages",
            deciding.DecideFirst,
            prepare,
            repack(code),
            (code, "Decide"),
        )
        for prepare, code in ((one_leaks, "26329A01"), (one_soft, "26329A02"))
    ),
    *(
        Refusal(
            "repacking.repack_packages",
            redrying.DifferentFood,
            prepare,
            repack(*codes),
            ("one lot",),
        )
        for prepare, codes in (
            (two_lots, ("26329A01", "26329B01")),
            (two_trays, ("26329A01", "26329A02")),
            (dried_again, ("26329A01", "26329A02")),
        )
    ),
    Refusal(
        "repacking.repack_packages",
        GateClosed,
        dried_untested,
        repack("26329A01"),
        ("dryness is not shown", "no constant weight on tray 1"),
    ),
    Refusal(
        "repacking.repack_packages",
        GateClosed,
        past_the_gate,
        repack("26329A01"),
        ("dryness is not shown", "no constant weight on tray 1"),
    ),
    Refusal(
        "repacking.repack_packages",
        NotAllowed,
        packed,
        repack("26329A03"),
        ("cannot be packed anew", "used up"),
    ),
    *(
        Refusal(
            "repacking.repack_packages",
            NotSealedYet,
            prepare,
            earlier(repack("26329A01", into="1xjar-475")),
            ("26329A01", "not there yet"),
        )
        for prepare in (packed, dried_again)
    ),
    *(
        Refusal(
            "repacking.repack_packages",
            TooMuchPacked,
            prepare,
            repack("26329A01", into=into),
            ("26329A", asked, left),
        )
        for prepare, into, asked, left in (
            (dried_again, "1xjar-475:39.6", "39.6 g", "39.5 g"),
            (to_repack, "1xjar-475:41", "41.0 g", "40.0 g"),
        )
    ),
    Refusal(
        "repacking.repack_packages",
        TooMuchForContainer,
        lambda world: (
            world.packed(APPLE, "1xjar-3785:1400", wet_g=9_000, dry_g=1_500),
            packages.check_package(world.room, "26329A01", Event.LEAK),
            deciding.carry_out(world.room, "26329A01", LEAKS),
        ),
        repack("26329A01", into="1xpouch-400-foil"),
        ("1400.0 g", "400 mL"),
    ),
    Refusal(
        "repacking.repack_packages",
        PackageNumbersUsedUp,
        numbers_gone,
        repack("26329A01", into="2xpouch-400-foil"),
        ("Lot 26329A", "999"),
    ),
)

DECIDING = (*DECISIONS, *HOLDING, *REPACKING)
