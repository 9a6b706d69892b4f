"""The bench: a run from the first tray to its lots."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from fractions import Fraction
from itertools import groupby

from stockroom.domain.cautions import cautions_for_load
from stockroom.domain.codes import lot_code, next_letter
from stockroom.domain.drying import (
    TareAboveGross,
    WeightMissing,
    lot_totals,
    refuse_impossible,
    tray_weights,
)
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.packing import MOST_TRAYS
from stockroom.domain.quantities import grams, nearest_whole
from stockroom.domain.records import Food, Run, Tray
from stockroom.errors import BadInput, NotFound, Refused
from stockroom.services.acting import Act, acting
from stockroom.services.finding import find_run
from stockroom.services.foods import facts_of, food_to_load
from stockroom.services.names import clean_note
from stockroom.services.results import Done, RunDetail
from stockroom.services.session import Stockroom
from stockroom.store import food_rows, lot_rows, queue_rows, run_rows

HEAVIEST_TRAY_DG = 1_000_000
MOST_HOURS = 1000


class RunNotOpen(Refused):
    """A run that was closed or abandoned takes no more trays or weights."""

    def __init__(self, run: Run) -> None:
        super().__init__(
            f"Run {run.run_id} is {run.state}; its trays and weights cannot be changed.",
            "Undo the closing first, or start a new run.",
        )


class TrayTaken(Refused):
    """A tray can hold one food once."""

    def __init__(self, position: int, food: str) -> None:
        super().__init__(
            f"Tray {position} already holds {food} in this run.",
            "Use another tray number, or take that tray out of the run first.",
        )


class NothingLoaded(Refused):
    """A run without trays makes no lots."""

    def __init__(self, run_id: int) -> None:
        super().__init__(f"Run {run_id} has no trays.", "Load a tray, or abandon the run.")


def list_runs(room: Stockroom, *, count: int = 100) -> tuple[Run, ...]:
    """The latest runs first."""
    return tuple(run_rows.runs(room.store, count=count))


def run_detail(room: Stockroom, run_id: int | None = None) -> RunDetail:
    """A run with its trays and lots; without a number, the one open run."""
    run = find_run(room, run_id)
    trays = run_rows.trays_of_run(room.store, run.run_id)
    foods = _foods_of(room, trays)
    return RunDetail(
        run=run,
        trays=tuple(trays),
        lots=tuple(lot_rows.lots_of_run(room.store, run.run_id)),
        cautions=cautions_for_load([facts_of(food) for food in foods.values()]),
        expected_water_dg=_expected_water([one for one in trays if not one.again], foods),
    )


def start_run(room: Stockroom, *, started_on: date | None = None, note: str = "") -> Done:
    """Start a run, today unless another day is said (never a day to come)."""
    day = started_on or room.today
    _refuse_future(day, room.today)
    with acting(room, "run") as act:
        run_id = run_rows.insert_run(room.store, started_on=day, note=clean_note(note))
        act.words = f"started run {run_id}"
    return Done(act.words, made_id=run_id)


def load_tray(
    room: Stockroom,
    position: int,
    food_name: str,
    *,
    gross_dg: int | None = None,
    tare_dg: int = 0,
    run_id: int | None = None,
) -> Done:
    """Put a food on a tray, with its loaded weight when it is known.

    `gross_dg` is what the scale shows and `tare_dg` the empty tray (0 on a tared scale). A food
    new to the household is taken over from the reference table. Raises TrayTaken, RunNotOpen,
    TareAboveGross, NotFound or BadInput.
    """
    with acting(room, "load") as act:
        run = open_run(room, run_id)
        refuse_tray(room, run, position)
        food = food_to_load(room.store, food_name)
        tray_id = run_rows.insert_tray(
            room.store, run_id=run.run_id, position=position, food_id=food.food_id
        )
        act.words = f"loaded {food.name} on tray {position} of run {run.run_id}"
        if gross_dg is not None:
            record_weight(room, act, tray_id, "wet", position, gross_dg, tare_dg)
            act.words += f", {grams(gross_dg - tare_dg):.1f} g"
        cautions = cautions_for_load([facts_of(food)])
    return Done(act.words, cautions, made_id=tray_id)


def unload_tray(room: Stockroom, position: int, *, run_id: int | None = None) -> Done:
    """Take a tray out of an open run, with its weights."""
    with acting(room, "unload") as act:
        run = open_run(room, run_id)
        tray = tray_of(room, run, position)
        run_rows.delete_tray(room.store, tray.tray_id)
        act.words = f"took {tray.food} on tray {position} out of run {run.run_id}"
    return Done(act.words)


def weigh_tray(
    room: Stockroom,
    position: int,
    stage: str,
    gross_dg: int,
    *,
    tare_dg: int | None = None,
    hours: Fraction | None = None,
    run_id: int | None = None,
) -> Done:
    """Record a weight of a tray, `stage` wet (as loaded) or dry; the latest of each counts.

    `tare_dg` None uses the empty weight of the tray's last weighing. `hours` are the hours of
    drying at a dry reading: several of them show whether the food still loses weight. Raises
    DryAboveWet, TareAboveGross, RunNotOpen, NotFound or BadInput.
    """
    if stage not in ("wet", "dry"):
        raise BadInput("stage", stage, "wet or dry")
    hours_tenths = _tenths_of_hours(hours, stage)
    with acting(room, "weigh") as act:
        run = open_run(room, run_id)
        tray = tray_of(room, run, position)
        tare = run_rows.last_tare(room.store, tray.tray_id) if tare_dg is None else tare_dg
        record_weight(
            room, act, tray.tray_id, stage, position, gross_dg, tare, hours_tenths=hours_tenths
        )
        net_dg = gross_dg - tare
        wet_dg = net_dg if stage == "wet" else tray.wet_dg
        dry_dg = net_dg if stage == "dry" else tray.dry_dg
        if wet_dg is not None and dry_dg is not None:
            refuse_impossible(f"Tray {position}", wet_dg, dry_dg)
        weight = f"{stage}, {grams(net_dg):.1f} g {tray.food}"
        if hours is not None:
            weight += f" after {float(hours):g} h"
        act.words = f"weighed tray {position} of run {run.run_id} {weight}"
    return Done(act.words)


def close_run(room: Stockroom, *, run_id: int | None = None, closed_on: date | None = None) -> Done:
    """Close a run: the trays of each food become one lot, coded by the closing day.

    Raises NothingLoaded, WeightMissing, DryAboveWet, RunNotOpen or BadInput.
    """
    day = closed_on or room.today
    _refuse_future(day, room.today)
    with acting(room, "close") as act:
        run = open_run(room, run_id)
        if day < run.started_on:
            raise BadInput(
                "closing day", day.isoformat(), f"a day from {run.started_on.isoformat()} on"
            )
        trays = run_rows.trays_of_run(room.store, run.run_id)
        if not trays:
            raise NothingLoaded(run.run_id)
        codes = _make_lots(room, run, [tray for tray in trays if not tray.again], day)
        again = _end_again(room, act, [tray for tray in trays if tray.again])
        run_rows.finish_run(room.store, run.run_id, state="closed", closed_on=day)
        act.words = f"closed run {run.run_id}"
        if codes:
            act.words += f" into {_lots_word(codes)} {', '.join(codes)}"
        if again:
            act.words += f"; dried again: {', '.join(again)}"
    return Done(act.words, codes=tuple(codes), made_id=run.run_id)


def abandon_run(room: Stockroom, *, run_id: int | None = None) -> Done:
    """Give up an open run: nothing is made of it, its weights stay in the record."""
    with acting(room, "abandon") as act:
        run = open_run(room, run_id)
        queue_rows.leave_tray(room.store, run.run_id)
        run_rows.finish_run(
            room.store, run.run_id, state="abandoned", closed_on=max(room.today, run.started_on)
        )
        act.words = f"abandoned run {run.run_id}"
    return Done(act.words, made_id=run.run_id)


def _end_again(room: Stockroom, act: Act, trays: Sequence[Tray]) -> list[str]:
    """Take the trays of food dried again off the machine; whose food it was.

    A lot's food leaves the queue, its lot corrected by the water driven off; packages stay in
    the queue until they are packed anew. Or WeightMissing.
    """
    codes: list[str] = []
    for tray in trays:
        if tray.dry_dg is None:
            raise WeightMissing(f"tray {tray.position} dry")
        for entry in queue_rows.entries_on_tray(room.store, tray.tray_id):
            if entry.package_id is None:
                _correct_lot(room, act, entry, tray.wet_dg, tray.dry_dg)
            codes.append(entry.code)
    return codes


def _correct_lot(
    room: Stockroom, act: Act, entry: QueueEntry, wet_dg: int | None, dry_dg: int
) -> None:
    """A lot weighs less by the water that drying it again drove off.

    Moisture its food took up while it waited was never part of the lot's weight.
    """
    lot = lot_rows.lot_by_id(room.store, entry.lot_id)
    assert lot is not None
    loaded_dg = entry.dry_dg if wet_dg is None else min(wet_dg, entry.dry_dg)
    driven_off_dg = max(0, loaded_dg - dry_dg)
    lot_rows.set_dried_again(room.store, lot.lot_id, lot.dry_dg - driven_off_dg)
    queue_rows.end_entry(
        room.store,
        entry.entry_id,
        ended_on=act.today,
        ending="dried",
        driven_off_dg=driven_off_dg,
    )


def refuse_tray(room: Stockroom, run: Run, position: int) -> None:
    """Refuse a tray number there is not, or one that holds something. BadInput, TrayTaken."""
    if not 1 <= position <= MOST_TRAYS:
        raise BadInput("tray", str(position), f"a tray number from 1 to {MOST_TRAYS}")
    for tray in run_rows.trays_of_run(room.store, run.run_id):
        if tray.position == position:
            raise TrayTaken(position, tray.food)


def _make_lots(room: Stockroom, run: Run, trays: Sequence[Tray], day: date) -> list[str]:
    start = lot_code(day, "A")[:-1]
    codes: list[str] = []
    by_food = sorted(trays, key=lambda tray: (tray.food_id, tray.position))
    groups = [list(group) for _, group in groupby(by_food, key=lambda tray: tray.food_id)]
    for group in sorted(groups, key=lambda group: group[0].position):
        totals = lot_totals(
            [tray_weights(tray.position, tray.wet_dg, tray.dry_dg) for tray in group]
        )
        food = food_rows.food_by_id(room.store, group[0].food_id)
        assert food is not None
        used = [code[-1] for code in lot_rows.lot_codes(room.store, prefix=start)]
        code = lot_code(day, next_letter(used))
        lot_id = lot_rows.insert_lot(
            room.store,
            code=code,
            run_id=run.run_id,
            food_id=food.food_id,
            made_on=day,
            preparation=food.preparation,
            wet_dg=totals.wet_dg,
            dry_dg=totals.dry_dg,
        )
        for tray in group:
            run_rows.set_tray_lot(room.store, tray.tray_id, lot_id)
        codes.append(code)
    return codes


def record_weight(
    room: Stockroom,
    act: Act,
    tray_id: int,
    stage: str,
    position: int,
    gross_dg: int,
    tare_dg: int,
    *,
    hours_tenths: int | None = None,
) -> None:
    """Record one weighing inside an action. Raises BadInput, TareAboveGross."""
    for what, weight_dg, low in (("weight", gross_dg, 1), ("tare", tare_dg, 0)):
        if not low <= weight_dg <= HEAVIEST_TRAY_DG:
            raise BadInput(what, f"{grams(weight_dg):g} g", "a weight above 0 g and up to 100 kg")
    if tare_dg >= gross_dg:
        raise TareAboveGross(f"Tray {position}", gross_dg, tare_dg)
    run_rows.insert_weighing(
        room.store,
        tray_id=tray_id,
        stage=stage,
        gross_dg=gross_dg,
        tare_dg=tare_dg,
        on_day=act.today,
        at=room.clock.now(),
        hours_tenths=hours_tenths,
    )


def open_run(room: Stockroom, run_id: int | None) -> Run:
    """The run of this number, or the one open run. Raises RunNotOpen, NotFound, Ambiguous."""
    run = find_run(room, run_id)
    if run.state != "open":
        raise RunNotOpen(run)
    return run


def _tenths_of_hours(hours: Fraction | None, stage: str) -> int | None:
    if hours is None:
        return None
    if stage != "dry":
        raise BadInput("hours", f"{float(hours):g}", "hours of drying with a dry weight only")
    tenths = nearest_whole(hours * 10)
    if not 0 <= tenths <= MOST_HOURS * 10:
        raise BadInput("hours", f"{float(hours):g}", f"hours of drying from 0 to {MOST_HOURS}")
    return tenths


def tray_of(room: Stockroom, run: Run, position: int) -> Tray:
    """The tray of a run at a position. Raises NotFound."""
    trays = {tray.position: tray for tray in run_rows.trays_of_run(room.store, run.run_id)}
    if position not in trays:
        raise NotFound("tray", str(position), [f"tray {one}" for one in trays])
    return trays[position]


def _foods_of(room: Stockroom, trays: Sequence[Tray]) -> dict[int, Food]:
    found = (food_rows.food_by_id(room.store, food_id) for food_id in {t.food_id for t in trays})
    return {food.food_id: food for food in found if food is not None}


def _expected_water(trays: Sequence[Tray], foods: dict[int, Food]) -> int | None:
    expected = 0
    for tray in trays:
        water_cg = foods[tray.food_id].water_cg
        if tray.wet_dg is None or water_cg is None:
            return None
        expected += tray.wet_dg * water_cg // 10_000
    return expected if trays else None


def _refuse_future(day: date, today: date) -> None:
    if day > today:
        raise BadInput("day", day.isoformat(), f"today ({today.isoformat()}) or an earlier day")


def _lots_word(codes: Sequence[str]) -> str:
    return "lot" if len(codes) == 1 else "lots"
