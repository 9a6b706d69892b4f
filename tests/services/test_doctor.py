"""The doctor: each planted fault gives its finding and no other; a sound store gives none."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing, suppress
from datetime import date
from pathlib import Path
from random import Random

import pytest

from stockroom.clock import FixedClock
from stockroom.domain.findings import Finding, Severity, in_order, named
from stockroom.errors import StockroomError, StoreLocked, StoreMissing
from stockroom.services import doctor, packages
from stockroom.services.backups import back_up, backups_of
from stockroom.services.doctor import CHECKS, examine, mend
from stockroom.services.session import Stockroom
from stockroom.store.connection import Store
from tests.dumps import dump, whole_dump
from tests.invariants import all_troubles
from tests.services.planting import A_PEA, CODE, FAULTS, Planted, plant
from tests.services.steps import STEPS
from tests.world import World

DAY = date(2026, 11, 25)
CLOCK = FixedClock(DAY)


@pytest.fixture
def season(season_template: Path, tmp_path: Path) -> Path:
    """A store with a past, closed."""
    path = tmp_path / "stockroom.db"
    shutil.copyfile(season_template, path)
    return path


def fits(found: Finding, planted: Planted) -> bool:
    """Whether a finding is the one a planted fault has to give."""
    return (
        found.subject == planted.subject
        and planted.words in found.message
        and found.severity is planted.severity
        and found.mendable is planted.mendable
        and found.remedy != ""
    )


def plant_fault(path: Path, *names: str) -> None:
    """Plant faults by their names."""
    for name in names:
        plant(path, *FAULTS[name].sql, past=FAULTS[name].past)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_no_check_finds_anything_in_an_empty_store(store: Store, check: doctor.Check) -> None:
    assert check(store, DAY) == ()


def test_a_store_just_started_and_one_with_a_past_are_sound(world: World, season: Path) -> None:
    for path in (world.path, season):
        found = examine(path, clock=CLOCK)
        assert (found.findings, found.left_out) == ((), ())


@pytest.mark.parametrize("seed", range(3))
def test_whatever_is_done_by_the_services_is_sound(season: Path, seed: int) -> None:
    """Forty things done by chance, some of them refused, over some weeks."""
    pick = Random(seed)
    world = World(Stockroom(Store(season, durable=False), FixedClock(date(2026, 10, 1))))
    done = 0
    for _ in range(40):
        world = world.later(pick.randrange(2))
        with suppress(StockroomError):
            STEPS[pick.choice(sorted(STEPS))](world.room, pick)
            done += 1
    found = examine(season, clock=world.room.clock)
    world.room.close()
    assert done > 8
    assert (found.findings, found.left_out) == ((), ())


def test_looking_changes_nothing_and_leaves_nothing(season: Path) -> None:
    before = season.read_bytes()
    examine(season, clock=CLOCK)
    assert season.read_bytes() == before
    assert [path.name for path in season.parent.iterdir()] == [season.name]


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_gives_its_finding_and_no_other(season: Path, name: str) -> None:
    plant_fault(season, name)
    found = examine(season, clock=CLOCK).findings
    assert [fits(one, FAULTS[name]) for one in found] == [True], found


@pytest.mark.parametrize("name", [name for name, one in FAULTS.items() if one.mendable])
def test_what_can_be_computed_is_mended_after_a_backup(season: Path, name: str) -> None:
    before = dump(season)
    plant_fault(season, name)
    ill = whole_dump(season)
    done = mend(season, clock=CLOCK)
    assert [fits(one, FAULTS[name]) for one in done.mended] == [True]
    assert done.left.findings == ()
    assert whole_dump(Path(done.backup)) == ill
    tracked = {table: rows for table, rows in dump(season).items() if table != "projection"}
    assert tracked == {table: rows for table, rows in before.items() if table != "projection"}
    assert examine(season, clock=CLOCK).findings == ()


@pytest.mark.parametrize("name", [name for name, one in FAULTS.items() if not one.mendable])
def test_what_a_person_recorded_is_never_mended(season: Path, name: str) -> None:
    plant_fault(season, name)
    before = dump(season)
    done = mend(season, clock=CLOCK)
    assert [fits(one, FAULTS[name]) for one in done.left.findings] == [True]
    assert dump(season) == before
    assert (done.mended, done.backup) == ((), "")


def test_mending_a_sound_store_makes_no_backup(season: Path) -> None:
    done = mend(season, clock=CLOCK)
    assert (done.mended, done.backup) == ((), "")
    assert backups_of(season) == ()


def test_mended_among_what_is_left(season: Path) -> None:
    plant_fault(season, "a trigger that is missing", "taken past its draws")
    done = mend(season, clock=CLOCK)
    assert [one.subject for one in done.mended] == ["views and triggers"]
    assert [one.subject for one in done.left.findings] == [CODE]
    assert done.left.left_out == (doctor.COMPUTED_LEFT_OUT,)


def test_dates_wait_until_the_record_is_sound(season: Path) -> None:
    """A circle of places would have the model going round for ever."""
    plant_fault(season, "places in a circle", "a best-by that is stale")
    found = examine(season, clock=CLOCK)
    assert [one.subject for one in found.findings] == ["places"]
    assert found.left_out == (doctor.COMPUTED_LEFT_OUT,)


def test_another_model_is_told(season: Path) -> None:
    plant(season, f"UPDATE projection SET model = 'old model' WHERE package_id = {A_PEA}")
    messages = [one.message for one in examine(season, clock=CLOCK).findings]
    assert messages == [
        f"Computed with another model than “full model”: {CODE}.",
        f"Not what the record gives now: {CODE}.",
    ]
    assert len(mend(season, clock=CLOCK).mended) == 2


def test_a_clock_may_be_a_day_behind(season: Path) -> None:
    plant(season, "UPDATE equipment_check SET on_day = '2026-11-26' WHERE id = 1")
    assert examine(season, clock=CLOCK).findings == ()
    plant(season, "UPDATE equipment_check SET on_day = '2026-11-27' WHERE id = 1")
    assert [one.subject for one in examine(season, clock=CLOCK).findings] == ["clock"]


def test_a_store_that_does_not_open_is_told_with_its_backup(season: Path) -> None:
    made = back_up(season, now=CLOCK.now())
    season.write_bytes(b"not a store at all" * 400)
    found = examine(season, clock=CLOCK)
    (finding,) = found.findings
    assert finding.severity is Severity.FAULT and "not a database" in finding.message
    assert f"stockroom restore '{made.path}'" in finding.remedy
    assert found.left_out == (doctor.RECORD_LEFT_OUT,)
    shutil.rmtree(season.parent / "backups")
    (finding,) = examine(season, clock=CLOCK).findings
    assert "There is none in" in finding.remedy
    assert mend(season, clock=CLOCK).backup == ""


def test_a_page_that_is_spoilt_is_told(season: Path) -> None:
    """A page of zeros in the middle: SQLite's own check says so, in whatever words."""
    content = bytearray(season.read_bytes())
    start = len(content) // 2 // 4096 * 4096
    content[start : start + 4096] = bytes(4096)
    season.write_bytes(content)
    found = examine(season, clock=CLOCK)
    assert [one.subject for one in found.findings] == ["store file"]
    assert "stockroom restore" in found.findings[0].remedy
    assert found.left_out == (doctor.RECORD_LEFT_OUT,)


def test_a_store_of_a_later_version_is_told(season: Path) -> None:
    plant(
        season,
        "INSERT INTO _sqlite_migrations (migration_set, name, applied_at)"
        " VALUES ('stockroom', '9999_later', '2030-01-01')",
    )
    (finding,) = examine(season, clock=CLOCK).findings
    assert "9999_later" in finding.message and "newer version" in finding.remedy


def test_what_a_crash_left_behind_is_a_note(season: Path) -> None:
    back_up(season, now=CLOCK.now())
    half = season.parent / "backups" / "stockroom-2026-11-20T063000Z.db.part"
    half.write_bytes(b"half")
    (season.parent / "letters.part").touch()
    (finding,) = examine(season, clock=CLOCK).findings
    assert (finding.severity, finding.mendable) == (Severity.NOTE, False)
    assert finding.message.endswith(f"cut short: {half}.")


def test_mending_while_others_keep_the_log_off(season: Path) -> None:
    """A program that reads a store without its log keeps it off; the rest is mended."""
    plant_fault(season, "the log turned off", "a trigger that is missing")
    with closing(sqlite3.connect(season, isolation_level=None)) as other:
        other.execute("BEGIN")
        other.execute("SELECT count(*) FROM setting").fetchone()
        with suppress(StoreLocked):
            mend(season, clock=CLOCK)
        other.execute("COMMIT")
    assert mend(season, clock=CLOCK).left.findings == ()
    assert examine(season, clock=CLOCK).findings == ()


def test_a_store_that_is_not_there_is_no_finding(tmp_path: Path) -> None:
    with pytest.raises(StoreMissing):
        examine(tmp_path / "stockroom.db", clock=CLOCK)


def test_another_program_goes_on_writing_meanwhile(
    season: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While a store is looked through another program writes, and neither waits."""
    room = Stockroom(Store(season, durable=False), CLOCK)
    wrote: list[object] = []

    def write_meanwhile(*_: object) -> tuple[Finding, ...]:
        wrote.append(packages.note_package(room, CODE, f"seen {len(wrote)}"))
        return ()

    monkeypatch.setattr(doctor, "RECORD_CHECKS", (write_meanwhile, *doctor.RECORD_CHECKS))
    assert examine(season, clock=CLOCK).findings == ()
    assert len(wrote) == 1
    assert all_troubles(room) == []
    room.close()


def test_the_gravest_come_first_and_long_lists_are_counted() -> None:
    made = [Finding("a", one, "m", "r") for one in reversed(Severity)]
    assert [one.severity for one in in_order(made)] == list(Severity)
    assert [Severity.WARNING.reaches(one) for one in Severity] == [False, True, True]
    assert named(["a", "b"]) == "a, b"
    assert named("abcdefg") == "a, b, c, d, e and 2 more"
