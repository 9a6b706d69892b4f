"""The way to the machine again: hold what is not dry, load it on a tray."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from stockroom.domain.conditions import Condition, Event, transition
from stockroom.domain.doubts import Doubt
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.quantities import read_weight, read_whole
from stockroom.domain.records import Package, Run
from stockroom.services import bench, deciding, redrying
from stockroom.services.places import PlaceKind, list_places
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.services.today import doubts_of
from stockroom.tui.screens.confirm import ConfirmScreen
from stockroom.tui.screens.package_forms import DoneForm, place_choice, place_search
from stockroom.tui.screens.windows import open_window
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search
from stockroom.tui.words import counted, left_words, names_of, place_words

if TYPE_CHECKING:
    from stockroom.tui.screens.package_actions import PackageActions

YES, NO = "yes", "no"
HoldAct = Callable[[str | None, bool], Done]
"""Holds a package: where it waits, and whether its sisters go along."""


# Holding


def open_hold(screen: PackageActions, package: Package) -> None:
    """Ask where a doubtful package waits for the machine.

    One found at fault itself is decided on first: not all of it may be dried again.
    """
    room = screen.room
    if screen.attempt(transition, Condition(package.condition), Event.HOLD) is None:
        return
    doubts = screen.attempt(doubts_of, room, [package])
    if doubts is None:
        return
    if doubts[0].own_fault:
        screen.decide(package)
        return
    why = "a sister went soft" if doubts[0] is Doubt.SISTER else "in doubt"

    def hold(place: str | None, _sisters_too: bool) -> Done:
        return deciding.hold_package(room, package.code, place=place, why=why)

    open_window(screen, screen.told, wait_form, room, package, hold)


def wait_form(
    room: Stockroom, package: Package, hold: HoldAct, *, sisters: Sequence[Package] = ()
) -> DoneForm:
    """Asks where a package waits for the machine; of its suspect sisters, whether they do too."""

    def submit(answers: Answers) -> Done:
        chosen = answers.choice("place")
        where = chosen.label if chosen else answers.text("place").strip()
        return hold(where or None, bool(sisters) and answers.key("sisters") == YES)

    fields: list[Field] = [
        Picker(
            "place",
            "Waits in",
            place_search(room),
            _freezer(room, package),
            hint="A freezer, so that nothing grows meanwhile. Empty: where it stands.",
        )
    ]
    if sisters:
        ways = (Choice(YES, YES, "those sealed within a day"), Choice(NO, NO, "only this one"))
        hint = f"With its {counted(len(sisters), 'suspect sister')}: dried together, packed anew."
        fields.insert(0, either("sisters", "Whole lot", ways, hint))
    about = [f"{place_words(package)} · {left_words(package, room.units)}"]
    return FormScreen(f"Hold {names_of([package])}", fields, submit, about=about)


def _freezer(room: Stockroom, package: Package) -> Choice | None:
    """The freezer it stands in, or the first there is."""
    freezers = [one for one in list_places(room) if one.kind == PlaceKind.FREEZER]
    here = [one for one in freezers if one.place_id == package.place_id]
    return place_choice((here or freezers)[0]) if freezers else None


def either(name: str, label: str, ways: Sequence[Choice], hint: str) -> Picker:
    """A field with a few ways to choose from, the first of them chosen."""
    return Picker(name, label, _among(ways), ways[0], hint=hint)


def _among(ways: Sequence[Choice]) -> Search:
    def search(letters: str) -> Sequence[Choice]:
        typed = letters.strip().casefold()
        return [one for one in ways if one.label.casefold().startswith(typed)]

    return search


# Loading


def open_load(screen: PackageActions, codes: Sequence[str]) -> None:
    """Ask for the tray that food from the queue goes on; without an open run, start one first."""
    room = screen.room
    runs = screen.attempt(_open_runs, room)
    if runs is None:
        return
    if runs:
        open_window(screen, screen.told, load_form, room, codes, runs)
        return

    def start(sure: bool | None) -> None:
        done = screen.attempt(bench.start_run, room) if sure else None
        if done is not None:
            screen.told(done, "run")
            open_load(screen, codes)

    lines = [f"No run is open. Start one today and load {', '.join(codes)} on it?"]
    screen.app.push_screen(ConfirmScreen("Start a run", lines), start)


def _open_runs(room: Stockroom) -> list[Run]:
    return [run for run in bench.list_runs(room) if run.state == "open"]


def load_form(room: Stockroom, codes: Sequence[str], runs: Sequence[Run]) -> DoneForm:
    """Asks for tray and weight; held packages of one lot that wait may go on together."""
    entries = _together(redrying.machine_queue(room), codes)
    units = room.units
    ways = tuple(_run_choice(run) for run in runs)

    def submit(answers: Answers) -> Done:
        gross = answers.text("weight").strip()
        tare = answers.text("tare").strip()
        run_id = answers.key("run")
        together = answers.key("with") == YES if len(entries) > 1 else False
        return redrying.load_again(
            room,
            read_whole(answers.text("tray"), "tray", 1, bench.MOST_TRAYS),
            [one.code for one in entries] if together else list(codes),
            gross_dg=read_weight(gross, units, "weight") if gross else None,
            tare_dg=read_weight(tare, units, "empty tray") if tare else 0,
            run_id=run_id if isinstance(run_id, int) else runs[0].run_id,
        )

    fields: list[Field] = [
        either("run", "Run", ways, "The open run it goes on."),
        Field("tray", "Tray", str(_free_tray(room, runs[0])), restrict=DIGITS, hint="Its number."),
        Field("weight", "Weight", hint="With the tray, as loaded. May be typed later."),
        Field("tare", "Empty tray", hint="Nothing on a scale set to zero with it."),
    ]
    if len(entries) > 1:
        others = (
            Choice(YES, YES, f"all {len(entries)} of the lot that wait"),
            Choice(NO, NO, "only this one"),
        )
        fields.insert(0, either("with", "Together", others, "One tray takes one lot."))
    about = [f"{one.code}  {one.food} · {one.place or 'no place yet'}" for one in entries]
    return FormScreen(f"Load {', '.join(codes)} again", fields, submit, about=about)


def _together(queue: Sequence[QueueEntry], codes: Sequence[str]) -> list[QueueEntry]:
    """What waits under these codes, and the packages of the same lot that wait beside them."""
    asked = [one for one in queue if one.code in codes and one.state == "waiting"]
    lots = {one.lot_id for one in asked if one.package_id is not None}
    beside = [one for one in queue if one.package_id is not None and one.state == "waiting"]
    return asked + [one for one in beside if one.lot_id in lots and one not in asked]


def _run_choice(run: Run) -> Choice:
    return Choice(run.run_id, f"run {run.run_id}", run.foods or "nothing loaded yet")


def _free_tray(room: Stockroom, run: Run) -> int:
    """The lowest tray number that holds nothing in a run."""
    taken = {tray.position for tray in bench.run_detail(room, run.run_id).trays}
    return next(one for one in range(1, len(taken) + 2) if one not in taken)
