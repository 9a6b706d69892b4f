"""Building the demo store: the written record carried out by the services, day by day.

The same build gives the same store: the clock is fixed for each step, nothing is left to chance,
and only the migration library's own time stamp differs from one file to the next.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

from seeds_demo.bench_record import bench_steps
from seeds_demo.climates import climate_steps
from seeds_demo.diary import diary_steps
from seeds_demo.doubts import doubt_steps
from seeds_demo.machine_care import care_steps
from seeds_demo.recipe_book import recipe_steps
from seeds_demo.remembering import Remembering
from seeds_demo.rounds import round_steps
from seeds_demo.setting_up import set_up_steps
from seeds_demo.steps import Step
from stockroom.clock import FixedClock
from stockroom.domain.quantities import UnitSystem
from stockroom.services.household import create_stockroom
from stockroom.services.session import Stockroom, open_stockroom

FIRST_DAY = date(2024, 11, 1)
"""The day the hut started its stockroom."""
DEMO_DAY = date(2026, 11, 25)
"""The day the demo stands still on."""
WHO = "cook"
"""Who is at the screens on the demo's day; the other name in the journal is the warden."""


def story(until: date | None = None) -> tuple[Step, ...]:
    """Everything that happened up to and including a day, in order."""
    last = until or DEMO_DAY
    steps = [step for step in _all_steps() if step.day <= last]
    return tuple(sorted(steps, key=lambda step: (step.day, step.part)))


def build_demo(path: Path, *, until: date | None = None) -> Stockroom:
    """Build the demo store at a path where there is none and open it on its last day.

    `until` ends the story earlier. The building itself does without the full sync, since a demo
    can be built again; the stockroom given back is an ordinary one. A demo half built is taken
    away. Raises StoreExists or StoreUnwritable.
    """
    building = create_stockroom(
        path,
        clock=FixedClock(FIRST_DAY),
        actor="warden",
        units=UnitSystem.METRIC,
        people=4,
        name="North hut galley",
        durable=False,
    )
    model = Remembering(building.model)
    try:
        for step in story(until):
            clock = FixedClock(step.day)
            step.act(replace(building, clock=clock, actor=step.who, model=model))
    except BaseException:
        building.close()
        path.unlink()
        raise
    building.close()
    return open_stockroom(path, clock=FixedClock(until or DEMO_DAY), actor=WHO)


def _all_steps() -> Iterator[Step]:
    yield from set_up_steps(FIRST_DAY)
    yield from recipe_steps()
    yield from care_steps(FIRST_DAY)
    yield from bench_steps()
    yield from diary_steps()
    yield from climate_steps()
    yield from doubt_steps()
    yield from round_steps(FIRST_DAY, DEMO_DAY)
