"""Refusals of packages."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from typing import Any

from stockroom.clock import FixedClock
from stockroom.domain.conditions import Event, NotAllowed
from stockroom.domain.packing import (
    TooMuchTaken,
)
from stockroom.errors import (
    BadInput,
    NotFound,
)
from stockroom.services import (
    finding,
    packages,
)
from stockroom.services.finding import CodeMistyped
from stockroom.services.packages import Amount
from stockroom.services.session import Stockroom
from tests.services.refusals.base import (
    ENDLESS,
    Refusal,
    doubtful,
    packed,
)
from tests.world import TODAY

YESTERDAY = TODAY - timedelta(days=1)


def _draw(code: str, **amount: Any) -> Callable[[Stockroom], object]:
    return lambda room: packages.draw_package(room, code, Amount(**amount))


PACKAGES = (
    *(
        Refusal(
            service,
            packages.NotSealedYet,
            packed,
            lambda room, act=act: act(replace(room, clock=FixedClock(YESTERDAY))),
            ("26329A01", "sealed on 2026-11-25", "on 2026-11-24", "--today"),
        )
        for service, act in (
            (
                "packages.move_packages",
                lambda room: packages.move_packages(room, ["26329A01"], "loft"),
            ),
            ("packages.draw_package", lambda room: packages.draw_package(room, "26329A01")),
            (
                "packages.check_package",
                lambda room: packages.check_package(room, "26329A01", Event.CRISP),
            ),
            (
                "packages.discard_packages",
                lambda room: packages.discard_packages(room, ["26329A01"], "torn"),
            ),
        )
    ),
    Refusal(
        "packages.move_packages",
        BadInput,
        packed,
        lambda room: packages.move_packages(room, [], "loft"),
        ("packages", "one or more package codes"),
    ),
    Refusal(
        "packages.move_packages",
        NotFound,
        packed,
        lambda room: packages.move_packages(room, ["26329A01"], "moon"),
        ("place", "“moon”"),
    ),
    Refusal(
        "packages.move_packages",
        NotFound,
        packed,
        lambda room: packages.move_packages(room, ["26329A01", "26329A77"], "loft"),
        ("package", "“26329A77”"),
    ),
    Refusal(
        "packages.move_packages",
        packages.AlreadyThere,
        packed,
        lambda room: packages.move_packages(room, ["26329A01", "26329A02"], "CELLAR"),
        ("already in cellar",),
    ),
    Refusal(
        "packages.move_packages",
        packages.StandsNowhere,
        packed,
        lambda room: packages.move_packages(room, ["26329A01", "26329A03"], "loft"),
        ("26329A03", "is used", "undo"),
    ),
    *(
        Refusal("packages.draw_package", NotAllowed, doubtful, _draw(code, **amount), facts)
        for amount in ({}, {"dry_dg": 10}, {"servings": Fraction(1, 10)}, {"dry_dg": 0})
        for code, facts in (
            ("26329A01", ("suspect",)),
            ("26329A02", ("discarded", "final")),
            ("26329A03", ("used up", "final")),
        )
    ),
    Refusal(
        "packages.draw_package",
        TooMuchTaken,
        packed,
        _draw("26329A01", dry_dg=201),
        ("20.0 g", "20.1 g"),
    ),
    Refusal(
        "packages.draw_package",
        TooMuchTaken,
        packed,
        _draw("26329A01", servings=Fraction(3)),
        ("20.0 g", "39.5 g"),
    ),
    Refusal(
        "packages.draw_package",
        BadInput,
        packed,
        _draw("26329A01", dry_dg=10, servings=Fraction(1)),
        ("grams and servings", "one of them"),
    ),
    *(
        Refusal("packages.draw_package", BadInput, packed, _draw("26329A01", **amount), facts)
        for amount, facts in (
            ({"dry_dg": 0}, ("amount", "“0 g”", "above 0 g")),
            ({"dry_dg": -10}, ("amount", "“-1 g”")),
            ({"servings": Fraction(0)}, ("servings", "above 0")),
            ({"servings": Fraction(-1, 2)}, ("servings", "“-1/2”")),
        )
    ),
    Refusal("packages.draw_package", NotFound, packed, _draw("26329A44"), ("package",)),
    Refusal("packages.draw_package", CodeMistyped, packed, _draw("26329A019"), ("mistyped",)),
    Refusal(
        "packages.Amount.of",
        BadInput,
        packed,
        lambda room: Amount(10, Fraction(1)).of(finding.find_package(room, "26329A01")),
        ("one of them",),
    ),
    Refusal(
        "packages.Amount.of",
        TooMuchTaken,
        packed,
        lambda room: Amount(servings=Fraction(9)).of(finding.find_package(room, "26329A01")),
        ("20.0 g",),
    ),
    Refusal(
        "packages.water_for",
        TooMuchTaken,
        packed,
        lambda room: packages.water_for(finding.find_package(room, "26329A01"), 201),
        ("20.0 g", "20.1 g"),
    ),
    *(
        Refusal(
            "packages.check_package",
            BadInput,
            packed,
            lambda room, event=event: packages.check_package(room, "26329A01", event),
            ("finding", f"“{event}”", "crisp, soft, leak, damaged"),
        )
        for event in (Event.OPEN, Event.USE_UP, Event.DISCARD, Event.SISTER_SOFT)
    ),
    *(
        Refusal(
            "packages.check_package",
            NotAllowed,
            doubtful,
            lambda room, code=code, event=event: packages.check_package(room, code, event),
            ("final",),
        )
        for code in ("26329A02", "26329A03")
        for event in (Event.CRISP, Event.SOFT, Event.LEAK, Event.DAMAGED)
    ),
    *(
        Refusal(
            "packages.check_package",
            NotAllowed,
            doubtful,
            lambda room, event=event: packages.check_package(room, "26329A02", event, opened=True),
            ("final",),
        )
        for event in (Event.CRISP, Event.SOFT)
    ),
    Refusal(
        "packages.check_package",
        NotFound,
        packed,
        lambda room: packages.check_package(room, "26329A66", Event.CRISP),
        ("package",),
    ),
    Refusal(
        "packages.check_package",
        BadInput,
        packed,
        lambda room: packages.check_package(room, "26329A01", Event.SOFT, note=ENDLESS),
        ("note",),
    ),
    *(
        Refusal(
            "packages.discard_packages",
            packages.ReasonMissing,
            packed,
            lambda room, why=why: packages.discard_packages(room, ["26329A01"], why),
            ("needs a reason",),
        )
        for why in ("", " \n")
    ),
    Refusal(
        "packages.discard_packages",
        BadInput,
        packed,
        lambda room: packages.discard_packages(room, [], "torn"),
        ("packages",),
    ),
    Refusal(
        "packages.discard_packages",
        NotAllowed,
        packed,
        lambda room: packages.discard_packages(room, ["26329A01", "26329A03"], "torn"),
        ("discarded", "used up"),
    ),
    Refusal(
        "packages.discard_packages",
        NotFound,
        packed,
        lambda room: packages.discard_packages(room, ["26329A01", "26329A88"], "torn"),
        ("“26329A88”",),
    ),
    Refusal(
        "packages.note_package",
        packages.SameNote,
        packed,
        lambda room: packages.note_package(room, "26329A01", " "),
        ("already the note of 26329A01",),
    ),
    Refusal(
        "packages.note_package",
        NotFound,
        packed,
        lambda room: packages.note_package(room, "26329A55", "x"),
        ("package",),
    ),
    Refusal(
        "packages.note_package",
        BadInput,
        packed,
        lambda room: packages.note_package(room, "26329A01", ENDLESS),
        ("note",),
    ),
)
