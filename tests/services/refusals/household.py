"""Refusals of the household, the journal and names."""

from __future__ import annotations

from dataclasses import replace

from stockroom.clock import FixedClock
from stockroom.domain.keeping.headspace import TooMuchForContainer
from stockroom.domain.quantities import UnitSystem
from stockroom.errors import (
    BadInput,
    StoreExists,
    StoreMissing,
    StoreUnwritable,
)
from stockroom.services import (
    finding,
    history,
    household,
    names,
    session,
)
from stockroom.services.keeping import keeping_case, surroundings
from stockroom.services.session import Stockroom
from stockroom.store.journal import ChangedSince, NothingToRedo, NothingToUndo
from tests.services.refusals.base import (
    ENDLESS,
    HALF_A_PAIR,
    Refusal,
    changed_since,
    nothing,
    packed,
)
from tests.world import TODAY


def _found(room: Stockroom, file: str, *, people: int = 2, title: str = "") -> object:
    return household.create_stockroom(
        room.path.parent / file,
        clock=FixedClock(TODAY),
        actor="tester",
        units=UnitSystem.METRIC,
        people=people,
        name=title,
    )


HOUSEHOLD = (
    Refusal(
        "keeping.StandardModel.project",
        TooMuchForContainer,
        packed,
        lambda room: room.model.project(
            replace(
                keeping_case(finding.find_package(room, "26329A01"), surroundings(room), []),
                dry_dg=9_000,
            )
        ),
        ("900.0 g", "400 mL"),
    ),
    *(
        Refusal(
            "household.change_household",
            BadInput,
            nothing,
            lambda room, people=people: household.change_household(room, people=people),
            ("people", f"“{people}”", "from 1 to 500"),
        )
        for people in (-1, 0, 501)
    ),
    Refusal(
        "household.change_household",
        BadInput,
        nothing,
        household.change_household,
        ("units, people, a name, an altitude or a cup",),
    ),
    Refusal(
        "household.change_household",
        BadInput,
        nothing,
        lambda room: household.change_household(room, name=HALF_A_PAIR),
        ("household name", "UTF-8"),
    ),
    Refusal(
        "household.create_stockroom",
        StoreExists,
        nothing,
        lambda room: _found(room, room.path.name),
        ("already a store", "stockroom.db"),
    ),
    Refusal(
        "household.create_stockroom",
        StoreUnwritable,
        nothing,
        lambda room: _found(room, "stockroom.db/below.db"),
        ("could not be written",),
    ),
    Refusal(
        "household.create_stockroom",
        BadInput,
        nothing,
        lambda room: _found(room, "other.db", people=0),
        ("people", "“0”"),
    ),
    Refusal(
        "household.create_stockroom",
        BadInput,
        nothing,
        lambda room: _found(room, "other.db", title=HALF_A_PAIR),
        ("household name",),
    ),
    Refusal(
        "session.open_stockroom",
        StoreMissing,
        nothing,
        lambda room: session.open_stockroom(
            room.path.with_name("no.db"), clock=room.clock, actor="x"
        ),
        ("no.db", "stockroom init"),
    ),
    Refusal("history.undo", NothingToUndo, nothing, history.undo, ("nothing to undo",)),
    Refusal("history.undo", ChangedSince, changed_since, history.undo, ("changed again since",)),
    Refusal("history.redo", NothingToRedo, nothing, history.redo, ("nothing to redo",)),
    Refusal(
        "names.clean_name",
        BadInput,
        nothing,
        lambda _: names.clean_name(" \t\n", "food name"),
        ("food name", "nothing", "at least one letter"),
    ),
    Refusal(
        "names.clean_name",
        BadInput,
        nothing,
        lambda _: names.clean_name("x" * 81, "food name"),
        ("food name", "xxx…", "at most 80"),
    ),
    Refusal(
        "names.clean_note",
        BadInput,
        nothing,
        lambda _: names.clean_note(ENDLESS),
        ("note", "at most 2000"),
    ),
    Refusal(
        "names.storable", BadInput, nothing, lambda _: names.storable("\ud800", "x"), ("UTF-8",)
    ),
)
