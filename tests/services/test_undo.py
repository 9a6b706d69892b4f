"""Undo puts back exactly what was there, redo exactly what came after, whoever did it."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stockroom.errors import StockroomError
from stockroom.services import bench, foods, history, packages, places, shelves
from stockroom.services.history import journal_entries, journal_keys, journal_page, redo, undo
from stockroom.services.keeping import projections_are_current, refresh_everything
from stockroom.store import journal
from stockroom.store.journal import ChangedSince, NothingToRedo, NothingToUndo
from tests.dumps import Dump, difference
from tests.invariants import all_troubles
from tests.services.cases import CASES
from tests.services.steps import STEPS
from tests.services.writing import writing_services
from tests.store.test_derived import in_step
from tests.world import APPLE, BEEF_RAW, PEAS, World, copied_world

REVERSERS = {"history.undo", "history.redo"}
FOUNDERS = {"household.create_stockroom", "importing.record_into_new_store"}


def settled(dump: Dump) -> Dump:
    """A dump without the day each projection was computed on: undo computes it anew."""
    assert len(dump["projection"][0]) == 10 if dump["projection"] else True
    return {**dump, "projection": tuple(row[:-1] for row in dump["projection"])}


def same(before: Dump, after: Dump) -> dict[str, object]:
    """What differs; empty when nothing does."""
    return dict(difference(settled(before), settled(after)))


def test_every_service_that_writes_has_a_step() -> None:
    assert set(STEPS) == set(CASES) - REVERSERS
    assert set(writing_services()) == {*STEPS, *REVERSERS, *FOUNDERS}


@pytest.mark.parametrize("service", STEPS)
def test_every_service_is_undone_and_redone(world: World, service: str) -> None:
    CASES[service].prepare(world)
    before = world.dump()
    words = CASES[service].act(world.room).words  # type: ignore[attr-defined]
    after = world.dump()
    assert same(before, after)
    for _ in range(2):
        assert undo(world.room).words == f"undid: {words}"
        assert same(world.dump(), before) == {}
        assert redo(world.room).words == f"redid: {words}"
        assert same(world.dump(), after) == {}
    assert in_step(world.room.store)


class Past:
    """What the journal should do, kept beside the store: the dumps around each action."""

    def __init__(self, world: World) -> None:
        self.world = world
        self.done: list[tuple[Dump, Dump]] = []
        self.undone: list[tuple[Dump, Dump]] = []
        self.used: set[str] = set()

    def step(self, service: str, seed: int) -> None:
        """Use a service; a refusal leaves record and journal as they were."""
        before, entries = self.world.dump(), len(journal_keys(self.world.room))
        try:
            STEPS[service](self.world.room, Random(seed))
        except StockroomError:
            assert same(self.world.dump(), before) == {}
            assert len(journal_keys(self.world.room)) == entries
            return
        self._freshen()
        self.used.add(service)
        self.done.append((before, self.world.dump()))
        self.undone.clear()

    def _freshen(self) -> None:
        """Compute everything anew where the settings ask for it, as the program does."""
        if not projections_are_current(self.world.room):
            refresh_everything(self.world.room)

    def undo(self) -> None:
        """Take back the last action, if this test did any."""
        if self.done:
            before, after = self.done.pop()
            undo(self.world.room)
            self._freshen()
            assert same(self.world.dump(), before) == {}
            self.undone.append((before, after))

    def redo(self) -> None:
        """Do again what was taken back last, or be told that there is nothing."""
        if not self.undone:
            with pytest.raises(NothingToRedo):
                redo(self.world.room)
            return
        before, after = self.undone.pop()
        redo(self.world.room)
        self._freshen()
        assert same(self.world.dump(), after) == {}
        self.done.append((before, after))


MOVES = st.lists(
    st.tuples(
        st.sampled_from([*STEPS, *STEPS, "undo", "undo", "redo", "day"]),
        st.integers(0, 2**32 - 1),
    ),
    min_size=8,
    max_size=30,
)


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(moves=MOVES)
def test_any_work_is_undone_step_by_step_and_redone(
    season_template: Path, moves: list[tuple[str, int]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        world = copied_world(season_template, Path(folder) / "stockroom.db")
        past = Past(world)
        for move, seed in moves:
            if move == "undo":
                past.undo()
            elif move == "redo":
                past.redo()
            elif move == "day":
                past.world = past.world.later(seed % 40)
            else:
                past.step(move, seed)
        assert all_troubles(world.room) == []
        done = len(past.done)
        while past.done:
            past.undo()
        for _ in range(done):
            past.redo()
        assert all_troubles(world.room) == []
        assert in_step(world.room.store)
        world.room.close()


def test_the_steps_by_chance_do_get_done(season_template: Path, tmp_path: Path) -> None:
    """The property above is worth nothing if every step is refused.

    Several short lives, since a long one uses its packages up.
    """
    used: set[str] = set()
    for life in range(MOST_LIVES):
        used |= _used_in_a_life(copied_world(season_template, tmp_path / f"{life}.db"), life, used)
        if used == set(STEPS):
            return
    assert used == set(STEPS)


MOST_LIVES = 12
ROUNDS_A_LIFE = 8


def _used_in_a_life(world: World, seed: int, before: set[str]) -> set[str]:
    """The services that were not refused in a life of some rounds, which is then undone."""
    past, chance = Past(world), Random(seed)
    for _ in range(ROUNDS_A_LIFE):
        for service in STEPS:
            known = service in past.used or service in before
            if not known or chance.random() < 0.3:
                past.step(service, chance.randrange(2**32))
    used = set(past.used)
    while past.done:
        past.undo()
    world.room.close()
    return used


def test_a_season_is_undone_to_its_first_day_and_redone(
    season_template: Path, tmp_path: Path
) -> None:
    world = copied_world(season_template, tmp_path / "stockroom.db")
    lived = world.dump()
    count = 0
    with pytest.raises(NothingToUndo):
        while True:
            undo(world.room)
            count += 1
    bare = {name for name, rows in world.dump().items() if rows}
    assert bare == {"setting", "container"}
    assert count > 20
    with pytest.raises(NothingToRedo):
        while True:
            redo(world.room)
            count -= 1
    assert count == 0
    assert same(world.dump(), lived) == {}
    world.room.close()


def test_nothing_to_undo_or_redo_in_a_stockroom_just_started(world: World) -> None:
    before = world.whole_dump()
    with pytest.raises(NothingToUndo) as caught:
        undo(world.room)
    assert "nothing to undo" in caught.value.message
    with pytest.raises(NothingToRedo) as caught_too:
        redo(world.room)
    assert "nothing to redo" in caught_too.value.message
    assert world.whole_dump() == before


def test_something_new_ends_redo_but_not_undo(world: World) -> None:
    world.places("cellar", "loft")
    undo(world.room)
    world.places("attic")
    with pytest.raises(NothingToRedo):
        redo(world.room)
    assert undo(world.room).words == "undid: added the place attic"
    assert undo(world.room).words == "undid: added the place cellar"
    assert places.list_places(world.room) == ()
    redo(world.room)
    redo(world.room)
    assert [place.path for place in places.list_places(world.room)] == ["attic", "cellar"]
    with pytest.raises(NothingToRedo):
        redo(world.room)


def test_undo_is_in_the_journal_with_its_words_and_who(world: World) -> None:
    world.places("cellar")
    undo(world.who("Ansa").room)
    redo(world.who("Birk").later(3).room)
    third, second, first = journal_page(world.room, count=3)
    assert (first.kind, first.words, first.actor) == ("do", "added the place cellar", "tester")
    assert (second.kind, second.words, second.actor) == (
        "undo",
        "undid: added the place cellar",
        "Ansa",
    )
    assert (third.kind, third.words, third.actor) == (
        "redo",
        "redid: added the place cellar",
        "Birk",
    )
    assert (first.reversed, second.reversed, third.reversed) == (True, True, False)
    assert (second.reverses_id, third.reverses_id) == (first.entry_id, second.entry_id)
    assert (third.on_day - first.on_day).days == 3


def test_words_do_not_pile_up(world: World) -> None:
    world.places("cellar")
    for _ in range(3):
        undo(world.room)
        redo(world.room)
    assert undo(world.room).words == "undid: added the place cellar"


def test_undo_takes_back_what_the_other_program_did_last(world: World) -> None:
    """The journal is one: the latest action goes first, whoever did it."""
    other = world.beside("another")
    world.places("cellar")
    other.places("loft")
    assert undo(world.room).words == "undid: added the place loft"
    assert undo(other.room).words == "undid: added the place cellar"
    assert redo(world.room).words == "redid: added the place cellar"
    assert redo(other.room).words == "redid: added the place loft"
    assert [place.path for place in places.list_places(world.room)] == ["cellar", "loft"]
    other.room.close()


def test_what_was_changed_since_is_not_undone_from_under_it(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Should an older entry be chosen though another program changed its row: refused whole."""
    (code, *_) = world.packed()
    packages.note_package(world.room, code, "first")
    older = journal_page(world.room, count=1)[0]
    other = world.beside("another")
    packages.note_package(other.room, code, "second")
    before = world.whole_dump()
    monkeypatch.setattr(journal, "next_to_undo", lambda _: older)
    with pytest.raises(ChangedSince) as caught:
        undo(world.room)
    assert older.words in caught.value.message
    assert world.whole_dump() == before
    assert world.package(code).note == "second"
    other.room.close()


def test_closing_a_run_that_took_over_a_food_is_undone_to_the_beginning(world: World) -> None:
    """The food comes from the reference table with its allergens; undo takes it out again."""
    start = world.dump()
    crab = "Crab, Dungeness, moist heat"
    world.dry_run([(crab, 500, 130), (PEAS, 1000, 155)], tested=False)
    closed = world.dump()
    allergens = [food.allergens for food in foods.list_foods(world.room)]
    assert allergens == [("crustacean_shellfish",), ()]
    for _ in range(6):
        undo(world.room)
    assert same(world.dump(), start) == {}
    assert foods.list_foods(world.room) == ()
    for _ in range(6):
        redo(world.room)
    assert same(world.dump(), closed) == {}
    assert len(foods.list_foods(world.room)) == 2


def test_an_undone_closing_can_be_closed_otherwise(world: World) -> None:
    bench.start_run(world.room)
    bench.load_tray(world.room, 1, BEEF_RAW, gross_dg=9_000)
    bench.weigh_tray(world.room, 1, "dry", 2_500)
    assert bench.close_run(world.room).codes == ("26329A",)
    undo(world.room)
    bench.weigh_tray(world.room, 1, "dry", 2_400)
    assert bench.close_run(world.later(1).room).codes == ("26330A",)
    assert world.lot("26330A").dry_dg == 2_400


def test_projections_follow_undo_and_redo(world: World) -> None:
    code = world.packed(APPLE)[0]
    sealed = world.package(code).best_by
    packages.draw_package(world.later(40).room, code, packages.Amount(dry_dg=10))
    opened = world.package(code).best_by
    assert sealed is not None and opened is not None
    assert opened < sealed
    undo(world.later(60).room)
    assert world.package(code).best_by == sealed
    redo(world.later(80).room)
    assert world.package(code).best_by == opened
    packages.draw_package(world.later(80).room, code)
    assert world.package(code).best_by is None
    undo(world.later(80).room)
    assert world.package(code).best_by == opened


def test_note_search_follows_undo_and_redo(world: World) -> None:
    code = world.packed()[0]
    packages.note_package(world.room, code, "for the Zoë shelf")
    packages.note_package(world.room, code, "went soft")
    assert world.listed("zoe") == []
    undo(world.room)
    assert world.listed("zoe") == [code]
    assert world.listed("soft") == []
    undo(world.room)
    assert world.listed("zoe") == []
    redo(world.room)
    redo(world.room)
    assert world.listed("SOFT") == [code]


def test_the_journal_page_by_page(world: World) -> None:
    world.places(*(f"place {number}" for number in range(9)))
    keys = journal_keys(world.room)
    assert list(keys) == list(range(10, 0, -1))
    first = journal_page(world.room, count=4)
    second = journal_page(world.room, count=4, before_id=first[-1].entry_id)
    third = journal_page(world.room, count=4, before_id=second[-1].entry_id)
    assert [one.entry_id for one in (*first, *second, *third)] == list(keys)
    assert journal_page(world.room, count=4, before_id=1) == ()
    assert journal_entries(world.room, keys[2:5]) == (*first[2:4], second[0])
    assert journal_entries(world.room, []) == ()
    assert third[-1].words == "started the stockroom for 2 people"


def test_undo_after_the_other_program_closed(world: World, tmp_path: Path) -> None:
    """A store copied while shut has all its undo with it."""
    code = world.packed()[0]
    packages.discard_packages(world.room, [code], "torn")
    world.room.close()
    moved = tmp_path / "moved.db"
    shutil.copyfile(world.path, moved)
    other = copied_world(moved, tmp_path / "again.db")
    history.undo(other.room)
    assert other.package(code).condition == "settling"
    assert shelves.package_detail(other.room, code).projection is not None
    other.room.close()
