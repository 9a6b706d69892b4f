"""calc energy: what a person needs in a day."""

from __future__ import annotations

from collections.abc import Iterable

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import Choices, json_form, working


def _sexes() -> Iterable[str]:
    from stockroom.domain.person import Sex

    return Sex


def _activities() -> Iterable[str]:
    from stockroom.domain.person import Activity

    return Activity


def _editions() -> Iterable[str]:
    from stockroom.domain.energy_equations import Edition

    return Edition


@click.command("energy", cls=Command)
@click.option("--sex", required=True, type=Choices(_sexes), help="Whose figures: F or M.")
@click.option("--age", required=True, metavar="Y", help="Age in years, from 2 on.")
@click.option("--kg", metavar="W", help="Body weight, in kg; 143 lb is taken too.")
@click.option("--cm", metavar="H", help="Height, in cm; 1.65 m, 65 in or 5 ft 5 in are taken too.")
@click.option("--activity", required=True, type=Choices(_activities), help="How much they move.")
@click.option(
    "--edition", type=Choices(_editions),
    help="The report the equation is from; 2005 when left out.",
)  # fmt: skip
@working
@json_form
def energy(
    sex: str,
    age: str,
    kg: str | None,
    cm: str | None,
    activity: str,
    edition: str | None,
    working: bool,
    form: str | None,
) -> None:
    """Energy and protein that a person needs in a day, for planning a store.

    An adult of known weight and height is reckoned by the equation of the Dietary Reference
    Intakes. Without them, and for children from 2 years, the table of the Dietary Guidelines
    speaks. The figures of the 2023 edition are from memory: to compare with.

    \b
    stockroom calc energy --sex F --age 30 --kg 65 --cm 165 --activity low
    """
    from stockroom.domain.energy import energy_need
    from stockroom.domain.energy_equations import Edition
    from stockroom.domain.energy_working import energy_working
    from stockroom.domain.person import (
        Activity,
        Person,
        Sex,
        read_age,
        read_body_weight,
        read_height,
    )
    from stockroom.reports.calculations_energy import energy_result
    from stockroom.reports.workings import with_working

    person = Person(
        Sex(sex),
        read_age(age),
        Activity(activity),
        None if kg is None else read_body_weight(kg),
        None if cm is None else read_height(cm),
    )
    by = None if edition is None else Edition(edition)
    report = energy_result(energy_need(person, by))
    output.show(with_working(report, energy_working(person, by)) if working else report, form)
