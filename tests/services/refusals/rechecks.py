"""Refusals of rechecks and their schedule."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from stockroom.domain.recheck_facts import LooksADay, LooksOutOfOrder, NoDaySetAside
from stockroom.errors import BadInput, NotFound
from stockroom.services import rechecks
from tests.services.refusals.base import Refusal, nothing, packed
from tests.world import TODAY


def _change(error: type[Exception], facts: tuple[str, ...], **wanted: Any) -> Refusal:
    return Refusal(
        "rechecks.change_schedule",
        error,  # type: ignore[arg-type]
        nothing,
        lambda room: rechecks.change_schedule(room, **wanted),
        facts,
    )


RECHECKS = (
    *(
        _change(LooksOutOfOrder, ("does not work", "such as 7, 30 and 183"), **wanted)
        for wanted in (
            {"first_days": 31},
            {"second_days": 6},
            {"later_days": 29},
            {"later_days": 367},
            {"first_days": 0},
        )
    ),
    _change(NoDaySetAside, ("No day of the week", "Saturday"), set_aside=()),
    *(
        _change(LooksADay, (f"{count} packages a day", "1 to 1,000"), most_a_day=count)
        for count in (0, -1, 1001)
    ),
    *(_change(BadInput, ("days", "Mon to Sun"), set_aside=days) for days in ([7], [-1, 0])),
    _change(BadInput, ("schedule", "to change")),
    *(
        Refusal(
            f"rechecks.{name}",
            rechecks.NoRecheck,
            packed,
            lambda room, ask=ask, code=code: ask(room, code),
            (code, "only sealed, sound packages"),
        )
        for name, ask in (
            ("recheck_working", rechecks.recheck_working),
            ("recheck_reasons", rechecks.recheck_reasons),
        )
        for code in ("26329A01", "26329A02", "26329A03")
    ),
    *(
        Refusal(
            f"rechecks.{name}",
            NotFound,
            packed,
            lambda room, ask=ask: ask(room, "26329A55"),
            ("package", "“26329A55”"),
        )
        for name, ask in (
            ("recheck_working", rechecks.recheck_working),
            ("recheck_reasons", rechecks.recheck_reasons),
        )
    ),
    *(
        Refusal(
            "rechecks.recheck_plan",
            BadInput,
            nothing,
            lambda room, day=day: rechecks.recheck_plan(room, day),
            ("day", day.isoformat(), "ten years"),
        )
        for day in (TODAY - timedelta(days=1), TODAY + timedelta(days=3661))
    ),
)
