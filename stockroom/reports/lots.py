"""Lots: what a run made of one food, and what became of it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.caution_table import Caution
from stockroom.domain.packing import balance_of
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Lot, LotLoss
from stockroom.reports.dryness import gate_data, gate_lines
from stockroom.reports.parts import caution_blocks, counted, package_table, prepared
from stockroom.reports.plain import clean_lines
from stockroom.reports.redrying import queued_data, queued_words
from stockroom.reports.runs import tray_table
from stockroom.reports.values import (
    COUNT,
    DAY,
    PERCENT,
    RATIO,
    TEXT,
    WATER,
    WEIGHT,
    Block,
    Column,
    Data,
    Field,
    Fields,
    Prose,
    Report,
    Row,
    Table,
    document,
    listing,
)
from stockroom.services.results import LotDetail

LOT_COLUMNS = (
    Column("code", title="lot"),
    Column("food", title="food", least=12),
    Column("made_on", DAY, "made on"),
    Column("dry", WEIGHT, "dry", drop=2),
    Column("left", WEIGHT, "left to pack"),
    Column("packages", COUNT, "packages"),
    Column("water_removed", WATER, "water removed", drop=3),
    Column("run", COUNT),
    Column("food_class"),
    Column("preparation"),
    Column("wet", WEIGHT),
    Column("packed", WEIGHT),
    Column("packed_water", WATER),
    Column("lost", WEIGHT),
    Column("lost_water", WATER),
    Column("serving", WEIGHT),
    Column("note"),
)


def lot_row(lot: Lot) -> Row:
    """A lot under `LOT_COLUMNS`."""
    return (
        lot.code,
        lot.food,
        lot.made_on,
        lot.dry_dg,
        lot.left_dg,
        lot.packages,
        lot.water_removed_dg,
        lot.run_id,
        lot.food_class,
        lot.preparation,
        lot.wet_dg,
        lot.packed_dg,
        lot.packed_water_dg,
        lot.lost_dg,
        lot.lost_water_dg,
        lot.serving_dg,
        lot.note,
    )


def lot_table(lots: Sequence[Lot], *, key: str = "lots", title: str = "", empty: str = "") -> Table:
    """Lots as a table."""
    return Table(key, LOT_COLUMNS, tuple(lot_row(one) for one in lots), title, empty=empty)


def lot_list(lots: Sequence[Lot]) -> Report:
    """Lots in the order given."""
    return listing(lot_table(lots, empty="No lots yet: closing a run makes them."))


def lot_report(detail: LotDetail, units: UnitSystem) -> Report:
    """One lot: its mass balance, trays, packages and losses."""
    lot = detail.lot
    blocks: tuple[Block, ...] = (
        Fields((*_lot_facts(lot), *_balance(lot, units), *_again(detail))),
        Prose("", clean_lines(lot.note), "Note"),
        *_dryness(detail),
        tray_table(detail.trays),
        package_table(detail.packages, title="Packages", empty="Nothing packed yet."),
        _loss_table(detail.losses),
        *caution_blocks(_cautions(detail)),
    )
    return document(f"Lot {lot.code} · {lot.food}", blocks)


def _lot_facts(lot: Lot) -> tuple[Field, ...]:
    """Code, food and where it came from."""
    return (
        Field("code", TEXT, lot.code, "code"),
        Field("food", TEXT, lot.food, "food"),
        Field("food_class", TEXT, lot.food_class),
        Field("preparation", TEXT, lot.preparation),
        Field("", TEXT, prepared(lot.preparation), "made from"),
        Field("made_on", DAY, lot.made_on, "made on"),
        Field("run", COUNT, lot.run_id, "run"),
        Field("note", TEXT, lot.note),
    )


def _balance(lot: Lot, units: UnitSystem) -> tuple[Field, ...]:
    """Where the lot's weight went."""
    left = balance_of(lot)
    sums = f" ({show_weight(lot.wet_dg, units)} less {show_weight(lot.dry_dg, units)})"
    percent = Fraction(100 * lot.water_removed_dg, lot.wet_dg)
    packages = f" in {counted(lot.packages, 'package')}"
    each = Fraction(lot.water_removed_dg, lot.dry_dg)
    return (
        Field("wet", WEIGHT, lot.wet_dg, "as loaded"),
        Field("dry", WEIGHT, lot.dry_dg, "dry"),
        Field("water_removed", WEIGHT, lot.water_removed_dg, "water removed", sums),
        Field("water_removed_percent", PERCENT, percent, "which is", " of the loaded weight"),
        Field("water_per_dry", RATIO, each, "and", " g of water for each gram of dry food"),
        Field("packed", WEIGHT, lot.packed_dg, "packed", packages),
        Field("packed_water", WATER, lot.packed_water_dg),
        Field("lost", WEIGHT, lot.lost_dg, "lost"),
        Field("lost_water", WATER, lot.lost_water_dg),
        Field("left", WEIGHT, lot.left_dg, "left to pack"),
        Field("left_water", WATER, left.left_water_dg, "water for that"),
    )


def _again(detail: LotDetail) -> tuple[Field, ...]:
    """The water that drying it again took out, and its place in the queue."""
    queued = detail.queued
    return (
        Field("driven_off", WEIGHT, detail.driven_off_dg),
        Field("", WEIGHT, detail.driven_off_dg or None, "driven off", " by drying it again"),
        Field("", TEXT, None if queued is None else queued_words(queued), "in the queue"),
    )


def _dryness(detail: LotDetail) -> tuple[Block, ...]:
    """Whether it is shown to be dry, what is missing and what to do; its place in the queue."""
    queued = Data("queued", queued_data(detail.queued))
    if detail.gate is None:
        return (queued,)
    gate = detail.gate
    return (Prose("", gate_lines(gate), "Dryness"), Data("dryness", gate_data(gate)), queued)


def _cautions(detail: LotDetail) -> tuple[Caution, ...]:
    """Those of the food, and while there is something to pack those of a closed gate."""
    if detail.gate is None or detail.gate.open or detail.lot.left_dg <= 0:
        return detail.cautions
    return (*detail.cautions, *detail.gate.cautions)


_LOSSES = (
    Column("on_day", DAY, "day"),
    Column("reason", title="lost as"),
    Column("dry", WEIGHT, "dry"),
    Column("water", WATER),
    Column("note", title="note", least=10),
)


def _loss_table(losses: Sequence[LotLoss]) -> Table:
    """Dry food that went into no package."""
    rows = tuple((one.on_day, one.reason, one.dry_dg, one.water_dg, one.note) for one in losses)
    return Table("losses", _LOSSES, rows, "Losses", empty="None recorded.")
