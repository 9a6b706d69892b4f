"""The demo's record is sound: the doctor has nothing to say of it."""

from __future__ import annotations

from pathlib import Path

from seeds_demo.build import DEMO_DAY
from stockroom.clock import FixedClock
from stockroom.services.backups import back_up
from stockroom.services.doctor import examine
from stockroom.services.session import Stockroom
from tests.dumps import whole_dump


def test_the_doctor_finds_nothing_in_the_demo(demo: Stockroom) -> None:
    found = examine(demo.path, clock=FixedClock(DEMO_DAY))
    assert (found.findings, found.left_out) == ((), ())


def test_a_backup_of_the_demo_is_the_demo(demo: Stockroom) -> None:
    made = back_up(demo.path, now=demo.clock.now())
    assert whole_dump(Path(made.path)) == whole_dump(demo.path)
    assert made.facts.entries > 1000 and 0 < made.facts.live < made.facts.packages
