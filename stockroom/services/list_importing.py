"""A list of packages from any spreadsheet: looked at first, then taken in whole or not at all.

Rows of one food made on one day become one lot of a past run. Nothing in a list shows how dry the
food is, so its lots have no trays, and packages without oxygen carry that as their reason.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby
from typing import TypeVar

from stockroom.domain.cautions import Caution, cautions_for_packing
from stockroom.domain.codes import (
    LAST_PACKAGE_NUMBER,
    LettersUsedUp,
    lot_code,
    next_letter,
    package_code,
)
from stockroom.domain.conditions import Condition
from stockroom.domain.exchange.days import DayOrder
from stockroom.domain.exchange.figures import Decimal
from stockroom.domain.exchange.headings import Field
from stockroom.domain.exchange.listed import ListedRow, ListRead, Problem, read_list
from stockroom.domain.exchange.preview import ListedLotPreview, ListPreview
from stockroom.domain.exchange.sheet import read_sheet
from stockroom.domain.gate import override_cautions
from stockroom.domain.keeping.interface import CannotProject, PackageKind
from stockroom.domain.keeping.oxygen import SOLID_DENSITY_MG_PER_ML, gas_ml
from stockroom.domain.records import Container, Food
from stockroom.errors import BadInput, Refused
from stockroom.services.acting import acting
from stockroom.services.foods import facts_of
from stockroom.services.list_names import NAME_TROUBLE, Names, SaidFood
from stockroom.services.names import clean_note
from stockroom.services.results import Done
from stockroom.services.session import Stockroom
from stockroom.store import exchange_rows, lot_rows
from stockroom.store.exchange_rows import ListedLot, ListedPackage

Found = TypeVar("Found")

TAKEN = "Taken from the list"
"""How the notes of runs and lots begin that came from a list."""
NO_EVIDENCE = "nothing on record shows how dry it was"
CONDITIONS = (Condition.SETTLING, Condition.SOUND)
"""In what condition packages can come in: to be looked at, or sound as the list's owner says."""


class ListHasProblems(Refused):
    """Some rows of a list cannot be, so none was taken."""

    def __init__(self, count: int, line: int, why: str) -> None:
        """`line` and `why` are the first of the problems."""
        super().__init__(
            f"{count} things in the list stand in the way, the first on line {line}: {why}."
            if count != 1
            else f"One thing in the list stands in the way, on line {line}: {why}.",
            "Nothing was taken; mend the list, or say what it means, and look at it again.",
        )


class ListEmpty(Refused):
    """There are headings and no packages below them."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"The list {name} has no packages below its headings.",
            "Check that it is the right one.",
        )


@dataclass(frozen=True, slots=True)
class ListWishes:
    """What is said about a list; None and empty where it is to be found out.

    `columns` are headings given to fields, `foods` what is said of foods to be added by their
    names in small letters ("*" for every other), `container` the one for rows without one.
    """

    name: str
    columns: Mapping[Field, str] = field(default_factory=dict[Field, str])
    order: DayOrder | None = None
    decimal: Decimal | None = None
    container: str = ""
    foods: Mapping[str, SaidFood] = field(default_factory=dict[str, SaidFood])
    add_places: bool = False
    condition: Condition = Condition.SETTLING


@dataclass(frozen=True, slots=True)
class _Row:
    """A row with what its names mean; the food may have no id yet."""

    listed: ListedRow
    food: Food
    container: Container
    water_dg: int
    note: str


@dataclass(slots=True)
class _Plan:
    """A list against the record as it is now: its lots in order, and what stands in the way."""

    read: ListRead
    names: Names
    problems: list[Problem]
    lots: list[tuple[str, list[_Row]]] = field(default_factory=list[tuple[str, list[_Row]]])
    reckoned: int = 0


def look_at_list(room: Stockroom, text: str, wishes: ListWishes) -> ListPreview:
    """What a list holds and what it would become; nothing is kept.

    Raises BadInput where its columns or its dates cannot be told, and ListEmpty.
    """
    return _preview(_plan(room, text, wishes), wishes)


def take_list(room: Stockroom, text: str, wishes: ListWishes) -> Done:
    """Take a whole list in, as one action. Raises BadInput, ListEmpty, ListHasProblems."""
    with acting(room, "import") as act:
        plan = _plan(room, text, wishes)
        if plan.problems:
            first = plan.problems[0]
            raise ListHasProblems(len(plan.problems), first.line, first.why)
        preview = _preview(plan, wishes)
        plan.names.add()
        codes = _put_in(room, plan, wishes)
        act.words = (
            f"took in {_counted(preview.packages, 'package')} in"
            f" {_counted(len(preview.lots), 'lot')} from the list {wishes.name}"
        )
    return Done(act.words, preview.cautions, tuple(codes))


def _plan(room: Stockroom, text: str, wishes: ListWishes) -> _Plan:
    if wishes.condition not in CONDITIONS:
        raise BadInput("condition", wishes.condition, " or ".join(CONDITIONS))
    sheet = read_sheet(text, wishes.columns)
    if not sheet.rows:
        raise ListEmpty(wishes.name)
    read = read_list(
        sheet, units=room.units, today=room.today, order=wishes.order, decimal=wishes.decimal
    )
    plan = _Plan(read, Names(room, wishes.foods, wishes.add_places), list(read.problems))
    rows = [found for row in read.rows if (found := _resolved(plan, row, wishes)) is not None]
    _deal_lots(room, plan, rows)
    plan.problems.sort(key=lambda one: one.line)
    return plan


def _resolved(plan: _Plan, row: ListedRow, wishes: ListWishes) -> _Row | None:
    """A row with its food, container and place looked up; None when something is amiss."""
    before = len(plan.problems)
    names = plan.names
    food = _looked_up(plan, row, Field.FOOD, lambda: names.food(row.food))
    typed = row.container or wishes.container
    if not typed:
        _trouble(plan, row, Field.CONTAINER, "no container is named: say --container for all")
    container = (
        _looked_up(plan, row, Field.CONTAINER, lambda: names.container(typed)) if typed else None
    )
    _looked_up(plan, row, Field.PLACE, lambda: names.place(row.place))
    note = _looked_up(plan, row, Field.NOTE, lambda: _note_of(row))
    if food is None or container is None:
        return None
    water_dg = _water_of(plan, row, food)
    _refuse_overfull(plan, row, container)
    if water_dg is None or len(plan.problems) > before:
        return None
    return _Row(row, food, container, water_dg, note or "")


def _looked_up(
    plan: _Plan, row: ListedRow, field: Field, look: Callable[[], Found]
) -> Found | None:
    """What a name of a row means; None when it means nothing, which is noted."""
    try:
        return look()
    except NAME_TROUBLE as error:
        _trouble(plan, row, field, f"{error.message} {error.hint}".strip().rstrip("."))
        return None


def _trouble(plan: _Plan, row: ListedRow, field: Field, why: str) -> None:
    heading = plan.read.sheet.headings.get(field)
    plan.problems.append(Problem(row.line, heading.text if heading else str(field), why))


def _note_of(row: ListedRow) -> str:
    """The note of a package: its own code in the list first."""
    own = f"own code {row.code}" if row.code else ""
    return clean_note("; ".join(part for part in (own, row.note) if part))


def _water_of(plan: _Plan, row: ListedRow, food: Food) -> int | None:
    """The water of a package: as told, else by the food's usual water, as if all of it went."""
    if row.water_dg is not None:
        return row.water_dg
    if food.water_cg is None or food.water_cg >= 10_000:
        why = "neither water nor wet weight is told, and the food's usual water is not known"
        _trouble(plan, row, Field.WATER, why)
        return None
    plan.reckoned += row.count
    return row.dry_dg * food.water_cg // (10_000 - food.water_cg)


def _refuse_overfull(plan: _Plan, row: ListedRow, container: Container) -> None:
    """Note a package that holds more than its container can."""
    try:
        gas_ml(container.volume_ml, row.dry_dg, SOLID_DENSITY_MG_PER_ML)
    except CannotProject as error:
        _trouble(plan, row, Field.DRY, str(error).rstrip("."))


def _deal_lots(room: Stockroom, plan: _Plan, rows: Sequence[_Row]) -> None:
    """Put rows of one food made on one day together, with the code each lot gets."""
    used: dict[date, list[str]] = {}
    for (day, _), group in groupby(sorted(rows, key=_lot_order), key=_lot_key):
        together = list(group)
        first = together[0].listed
        if day not in used:
            start = lot_code(day, "A")[:-1]
            used[day] = [code[-1] for code in lot_rows.lot_codes(room.store, prefix=start)]
        if sum(row.listed.count for row in together) > LAST_PACKAGE_NUMBER:
            why = f"a lot, all of one food made on one day, has {LAST_PACKAGE_NUMBER} at most"
            _trouble(plan, first, Field.COUNT, why)
        try:
            letter = next_letter(used[day])
        except LettersUsedUp as error:
            _trouble(plan, first, Field.MADE_ON, error.message.rstrip("."))
            continue
        used[day].append(letter)
        plan.lots.append((lot_code(day, letter), together))


def _lot_key(row: _Row) -> tuple[date, str]:
    return row.listed.made_on, row.food.name.casefold()


def _lot_order(row: _Row) -> tuple[tuple[date, str], int]:
    return _lot_key(row), row.listed.line


def _preview(plan: _Plan, wishes: ListWishes) -> ListPreview:
    names = plan.names
    return ListPreview(
        name=wishes.name,
        read=plan.read,
        problems=tuple(plan.problems),
        lots=tuple(_lot_preview(code, rows) for code, rows in plan.lots),
        taken_over=tuple(food.name for food in names.taken_over.values()),
        new_foods=tuple(food.name for food in names.new_foods.values()),
        new_places=tuple(dict.fromkeys(names.new_places.values())),
        reckoned=plan.reckoned,
        condition=wishes.condition,
        cautions=_cautions(plan),
    )


def _lot_preview(code: str, rows: Sequence[_Row]) -> ListedLotPreview:
    first = rows[0]
    return ListedLotPreview(
        code=code,
        food=first.food.name,
        made_on=first.listed.made_on,
        packages=sum(row.listed.count for row in rows),
        dry_dg=sum(row.listed.count * row.listed.dry_dg for row in rows),
        water_dg=sum(row.listed.count * row.water_dg for row in rows),
    )


def _cautions(plan: _Plan) -> tuple[Caution, ...]:
    """What to bear in mind of all packages of the list, each caution once."""
    found: dict[str, Caution] = {}
    kinds = {
        (row.food.name, row.container.package_kind, row.listed.absorber_cc, row.listed.vacuum): row
        for _, rows in plan.lots
        for row in rows
    }
    for row in kinds.values():
        facts, listed = facts_of(row.food), row.listed
        for caution in (
            *cautions_for_packing(
                facts.food_class,
                facts.preparation,
                PackageKind(row.container.package_kind),
                absorber_cc=listed.absorber_cc,
                vacuum=listed.vacuum,
                fat_of_solids=facts.fat_of_solids,
                sugars_of_solids=facts.sugars_of_solids,
                acid=facts.acid,
            ),
            *(override_cautions() if _low_oxygen(listed) else ()),
        ):
            found.setdefault(caution.key, caution)
    return tuple(found.values())


def _low_oxygen(row: ListedRow) -> bool:
    return row.absorber_cc > 0 or row.vacuum


def _put_in(room: Stockroom, plan: _Plan, wishes: ListWishes) -> list[str]:
    """Write everything, inside an action; the codes of the packages in order."""
    note = f"{TAKEN} {wishes.name}"
    days = {rows[0].listed.made_on for _, rows in plan.lots}
    runs = {day: exchange_rows.insert_listed_run(room.store, day, note) for day in sorted(days)}
    lots = [_lot(plan, code, rows, runs, f"{note}: {NO_EVIDENCE}") for code, rows in plan.lots]
    packages = [
        one for at, (code, rows) in enumerate(plan.lots) for one in _packages(plan, code, at, rows)
    ]
    exchange_rows.insert_listed(room.store, lots, packages)
    codes = [package.code for package in packages]
    if wishes.condition is Condition.SOUND:
        words = f"sound by the list {wishes.name}, not looked at here"
        exchange_rows.say_sound(room.store, codes, room.today, words)
    return codes


def _lot(
    plan: _Plan, code: str, rows: Sequence[_Row], runs: Mapping[date, int], note: str
) -> ListedLot:
    whole, day = _lot_preview(code, rows), rows[0].listed.made_on
    return ListedLot(
        code=code,
        run_id=runs[day],
        food_id=plan.names.food(rows[0].listed.food).food_id,
        made_on=day,
        preparation=rows[0].food.preparation,
        wet_dg=whole.dry_dg + whole.water_dg,
        dry_dg=whole.dry_dg,
        note=note,
    )


def _packages(plan: _Plan, code: str, at: int, rows: Sequence[_Row]) -> list[ListedPackage]:
    """The packages of a lot, numbered in the order of the list."""
    alike = [row for row in rows for _ in range(row.listed.count)]
    return [
        ListedPackage(
            code=package_code(code, number),
            lot_at=at,
            food_id=plan.names.food(row.listed.food).food_id,
            number=number,
            container_id=row.container.container_id,
            absorber_cc=row.listed.absorber_cc,
            vacuum=row.listed.vacuum,
            dry_dg=row.listed.dry_dg,
            water_dg=row.water_dg,
            sealed_on=row.listed.sealed_on,
            place_id=plan.names.place(row.listed.place),
            note=row.note,
            gate_reason=f"{TAKEN.lower()}: {NO_EVIDENCE}" if _low_oxygen(row.listed) else "",
        )
        for number, row in enumerate(alike, start=1)
    ]


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
