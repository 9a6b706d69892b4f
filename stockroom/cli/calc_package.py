"""calc absorber and calc keep: the oxygen of a package, and how long it may keep."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stockroom.cli import output
from stockroom.cli.base import Command
from stockroom.cli.options import LARGEST_NUMBER, Choices, json_form, working
from stockroom.cli.session import Wishes

if TYPE_CHECKING:
    from collections.abc import Iterable
    from fractions import Fraction

    from stockroom.domain.keeping.interface import KeepingCase
    from stockroom.domain.keeping.oxygen import AbsorberFigures
    from stockroom.domain.working import Working
    from stockroom.reports.calculations_package import AbsorberAsked

MOST_ML = 1_000_000
MOST_CC = 100_000


def _classes() -> Iterable[str]:
    from stockroom.domain.keeping.interface import FoodClass

    return tuple(FoodClass)


def _packages() -> Iterable[str]:
    from stockroom.domain.keeping.interface import PackageKind

    return tuple(PackageKind)


_dry = click.option("--dry", required=True, metavar="G", help="Dry food in it, in grams.")
_volume = click.option(
    "--volume-ml", required=True, metavar="V", help="Volume of the package as closed, in mL."
)
_vacuum = click.option(
    "--vacuum-inhg", metavar="X", help="Vacuum read on a gauge at closing, in inches of mercury."
)


@click.command("absorber", cls=Command)
@_volume
@_dry
@click.option(
    "--density", metavar="D", help="True density of the dry solids in g/mL; 1.5 when left out."
)
@_vacuum
@click.option(
    "--barometer-inhg", metavar="B", help="Barometer where it is closed; else 29.921, sea level."
)
@click.option("--absorber", metavar="CC", help="Look at this absorber instead of advising one.")
@working
@json_form
def absorber(
    volume_ml: str,
    dry: str,
    density: str | None,
    vacuum_inhg: str | None,
    barometer_inhg: str | None,
    absorber: str | None,
    working: bool,
    form: str | None,
) -> None:
    """Gas and oxygen in a closed package, and the absorber for it.

    The gas is the package less the true volume of the solids: the pores of freeze-dried food
    hold air.

    \b
    stockroom calc absorber --volume-ml 2000 --dry 180
    """
    from stockroom.reports.calculations_package import AbsorberAsked, absorber_result
    from stockroom.reports.workings import with_working

    asked = AbsorberAsked(
        volume_ml=_whole(volume_ml, "volume", MOST_ML),
        dry_dg=_weight_dg(dry),
        density_mg_per_ml=None if density is None else _in(1000, density, "density", 100),
        vacuum_tenth_inhg=_vacuum_read(vacuum_inhg),
        barometer_thousandth_inhg=(
            None if barometer_inhg is None else _in(1000, barometer_inhg, "barometer", 100)
        ),
        given_cc=None if absorber is None else _whole(absorber, "absorber", MOST_CC),
    )
    figures, derived = _absorber(asked)
    report = absorber_result(figures, asked)
    output.show(with_working(report, derived) if working else report, form)


def _absorber(asked: AbsorberAsked) -> tuple[AbsorberFigures, Working]:
    """The figures and how they are reached. Raises CannotProject for what cannot be."""
    from stockroom.domain.keeping.oxygen import absorber_figures
    from stockroom.domain.keeping.oxygen_working import absorber_working
    from stockroom.services.calculations import absorber_sizes_cc

    sizes = absorber_sizes_cc()
    figures = absorber_figures(
        asked.volume_ml,
        asked.dry_dg,
        sizes,
        density_mg_per_ml=asked.solid_density,
        vacuum_tenth_inhg=asked.vacuum_tenth_inhg,
        barometer_thousandth_inhg=asked.barometer_thousandth_inhg,
        absorber_cc=asked.given_cc,
    )
    return figures, absorber_working(
        figures,
        asked.volume_ml,
        asked.dry_dg,
        sizes,
        density_mg_per_ml=asked.density_mg_per_ml,
        vacuum_tenth_inhg=asked.vacuum_tenth_inhg,
        barometer_thousandth_inhg=asked.barometer_thousandth_inhg,
        given_cc=asked.given_cc,
    )


@click.command("keep", cls=Command)
@click.option("--food-class", required=True, type=Choices(_classes), help="How the food keeps.")
@click.option("--package", required=True, type=Choices(_packages), help="What it is closed in.")
@_dry
@_volume
@click.option(
    "--absorber", default="0", show_default=True, metavar="CC", help="Absorbers together, in cc."
)
@click.option(
    "--temp-c", "--temperature", "temp_c", default="21", show_default=True, metavar="T",
    help="How warm it stands, in degrees Celsius, or such as 70 F.",
)  # fmt: skip
@_vacuum
@click.option("--rh", metavar="R", help="Humidity of the room: 0.55 or 55 %; 0.55 when left out.")
@click.option(
    "--area-m2", metavar="A", help="Both faces of a pouch; reckoned from its volume when left out."
)
@click.option(
    "--residual-moisture", metavar="R", help="Moisture of the dry food: 0.03 or 3 %; else 0.03."
)
@working
@json_form
@click.pass_obj
def keep(wishes: Wishes, form: str | None, working: bool, **typed: str | None) -> None:
    """How long a package may keep: years, with the band and what limits it.

    A quality estimate, not safety. The temperature counts as measured, day and night.

    \b
    stockroom calc keep --food-class fruit --package foil_pouch --dry 150
        --volume-ml 1500 --absorber 300 --temp-c 21
    """
    from stockroom.reports.calculations_package import keep_result
    from stockroom.reports.workings import with_working
    from stockroom.services.calculations import keeping_model

    case = _case(wishes, {name: said for name, said in typed.items() if said is not None})
    found = keeping_model().project(case)
    derived = found.working
    report = keep_result(found, case, derived.cautions)
    output.show(with_working(report, derived) if working else report, form)


def _case(wishes: Wishes, typed: dict[str, str]) -> KeepingCase:
    """The package that was described, sealed today. Raises BadInput."""
    from stockroom.cli.exact import read_degrees, read_share
    from stockroom.domain.keeping.interface import FoodClass, KeepingCase, PackageKind, Stay
    from stockroom.domain.quantities import nearest_whole

    def share(name: str, what: str) -> Fraction | None:
        return read_share(typed[name], what) if name in typed else None

    temperature_dc = nearest_whole(read_degrees(typed["temp_c"]) * 10)
    today = wishes.clock.today()
    return KeepingCase(
        food_class=FoodClass(typed["food_class"]),
        fat_of_solids=None,
        package_kind=PackageKind(typed["package"]),
        dry_dg=_weight_dg(typed["dry"]),
        volume_ml=_whole(typed["volume_ml"], "volume", MOST_ML),
        area_mm2=_in(1_000_000, typed["area_m2"], "area", 100) if "area_m2" in typed else None,
        absorber_cc=_whole(typed["absorber"], "absorber", MOST_CC),
        vacuum_tenth_inhg=_vacuum_read(typed.get("vacuum_inhg")),
        residual_moisture=share("residual_moisture", "residual moisture"),
        sealed_on=today,
        stays=(Stay(today, temperature_dc, (), share("rh", "humidity"), measured=True),),
    )


def _weight_dg(typed: str) -> int:
    """Grams of dry food in tenths. Raises BadInput."""
    from stockroom.cli.exact import read_grams
    from stockroom.domain.quantities import to_dg

    return to_dg(read_grams(typed, "dry"))


def _vacuum_read(typed: str | None) -> int | None:
    """A gauge reading in tenths of an inch of mercury. Raises BadInput."""
    return None if typed is None else _in(10, typed, "vacuum", 100)


def _whole(typed: str, what: str, most: int) -> int:
    """A whole number of mL or cc, a finer one to the nearest. Raises BadInput."""
    return _in(1, typed, what, min(most, LARGEST_NUMBER))


def _in(parts: int, typed: str, what: str, most: int) -> int:
    """A number in whole parts, the nearest. Raises BadInput."""
    from stockroom.cli.exact import read_number
    from stockroom.domain.quantities import nearest_whole

    return nearest_whole(read_number(typed, what, most=most) * parts)
