"""Lists of the record: places, foods, containers and the journal."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from stockroom.domain.records import Container, Food, JournalEntry, Place
from stockroom.reports.parts import spoken
from stockroom.reports.values import (
    AMOUNT,
    COUNT,
    DAY,
    FLAG,
    LENGTH,
    MOMENT,
    PERCENT,
    TEMPERATURE,
    VOLUME,
    WEIGHT,
    WORDS,
    Column,
    Report,
    Row,
    Table,
    listing,
)
from stockroom.services.results import FoodChoice

_PLACES = (
    Column("path", title="place", least=20),
    Column("kind", title="kind"),
    Column("temperature", TEMPERATURE, "temperature"),
    Column("packages", COUNT, "packages"),
    Column("packages_below", COUNT, "with all below"),
    Column("own_temperature", TEMPERATURE),
    Column("name"),
    Column("note", title="note", least=8, drop=1),
)


def place_list(places: Sequence[tuple[Place, int]]) -> Report:
    """Every place in tree order with the live packages in it, and in it and below it."""
    rows = tuple(
        (
            place.path,
            place.kind,
            place.temperature_dc,
            place.packages,
            below,
            place.own_temperature_dc,
            place.name,
            place.note,
        )
        for place, below in places
    )
    return listing(Table("places", _PLACES, rows, empty="No places yet."))


_FOODS = (
    Column("name", title="food", least=16),
    Column("food_group"),
    Column("food_class"),
    Column("", title="class"),
    Column("preparation", title="prepared"),
    Column("serving", WEIGHT, "serving as eaten"),
    Column("water_percent", PERCENT, "water", drop=2),
    Column("allergens", WORDS, "allergens", least=10, drop=1),
    Column("ingredients_unknown", FLAG),
    Column("energy_kcal_per_100_g", AMOUNT),
    Column("protein_percent", PERCENT),
    Column("fat_percent", PERCENT),
    Column("carbohydrate_percent", PERCENT),
    Column("fibre_percent", PERCENT),
    Column("reference_key"),
    Column("note"),
)


def food_list(foods: Sequence[Food]) -> Report:
    """The household's own foods."""
    rows = tuple(map(_food_row, foods))
    return listing(Table("foods", _FOODS, rows, empty="No foods yet: loading a tray adds one."))


def _food_row(food: Food) -> Row:
    """One food; what is not reported is not known."""
    energy = food.energy_tenth_kcal
    return (
        food.name,
        food.food_group,
        food.food_class,
        spoken(food.food_class),
        food.preparation,
        food.serving_dg,
        _percent(food.water_cg),
        food.allergens,
        food.ingredients_unknown,
        None if energy is None else Fraction(energy, 10),
        _percent(food.protein_cg),
        _percent(food.fat_cg),
        _percent(food.carbohydrate_cg),
        _percent(food.fibre_cg),
        food.reference_key,
        food.note,
    )


def _percent(hundredths: int | None) -> Fraction | None:
    """Hundredths of a gram in 100 g as a percentage."""
    return None if hundredths is None else Fraction(hundredths, 100)


_CHOICES = (
    Column("name", title="food", least=16),
    Column("food_group"),
    Column("", title="group", drop=2),
    Column("food_class"),
    Column("", title="class"),
    Column("preparation", title="prepared"),
    Column("water_percent", PERCENT, "water"),
    Column("own", FLAG),
    Column("", title="from"),
)


def food_choices(choices: Sequence[FoodChoice]) -> Report:
    """Foods that can go on a tray: the household's own and the reference table's."""
    rows = tuple(
        (
            one.name,
            one.food_group,
            spoken(one.food_group),
            one.food_class,
            spoken(one.food_class),
            one.preparation,
            None if one.water_percent is None else Fraction(str(one.water_percent)),
            one.own,
            "own" if one.own else "reference (USDA SR28)",
        )
        for one in choices
    )
    return listing(Table("foods", _CHOICES, rows, empty="No food of that name."))


_CONTAINERS = (
    Column("key", title="container"),
    Column("name", title="name", least=12),
    Column("package_kind"),
    Column("", title="kept as"),
    Column("volume", VOLUME, "volume"),
    Column("width", LENGTH, "width"),
    Column("height", LENGTH, "height"),
)


def container_list(containers: Sequence[Container]) -> Report:
    """The pouches, bags and jars the household packs into."""
    rows = tuple(
        (
            one.key, one.name, one.package_kind, spoken(one.package_kind), one.volume_ml,
            one.width_mm, one.height_mm,
        )
        for one in containers
    )  # fmt: skip
    return listing(Table("containers", _CONTAINERS, rows, empty="No containers."))


_JOURNAL = (
    Column("entry", COUNT, "entry"),
    Column("on_day", DAY, "day"),
    Column("at", MOMENT, "written (UTC)", drop=2),
    Column("who", title="who", least=6),
    Column("kind"),
    Column("action"),
    Column("words", title="what was done", least=20),
    Column("taken_back", FLAG),
    Column("", title="since"),
    Column("reverses", COUNT),
)


def journal_list(entries: Sequence[JournalEntry]) -> Report:
    """Journal entries in the order given, each saying whether it was taken back."""
    rows = tuple(
        (
            one.entry_id,
            one.on_day,
            one.at,
            one.actor,
            one.kind,
            one.action,
            one.words,
            one.reversed,
            "taken back" if one.reversed else "",
            one.reverses_id,
        )
        for one in entries
    )
    return listing(Table("journal", _JOURNAL, rows, empty="Nothing in the journal yet."))
