"""How sure the oxygen of a package is, what makes it unsure, and what would change its absorber.

Each figure is put to its ends alone while the others stand; the changes are put together as the
root of their sum of squares, the low and the high side apart, as for the band of a best-by.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor, sqrt

from stockroom.domain.keeping.headspace import (
    OXYGEN_IN_AIR,
    SEA_LEVEL_THOUSANDTH_INHG,
    SOLID_DENSITY_MG_PER_ML,
    gas_ml,
    oxygen_cc,
    solids_ml,
)
from stockroom.domain.keeping.oxygen import ABSORBER_MARGIN
from stockroom.domain.keeping.shown import computed, number
from stockroom.domain.keeping.sources import SOLID_DENSITY
from stockroom.domain.working import Given, Source, Standing, Trace

CLOSED_VOLUME = Source(
    "closed-volume",
    "A pouch or bag pressed flat as it is closed holds up to a fifth less than its nominal volume,"
    " a container filled to the brim up to a twentieth more",
    Standing.ENGINEERING_JUDGEMENT,
)
WEATHER = Source(
    "weather-pressure",
    "The weather moves the barometer by up to 3 % either way",
    Standing.ENGINEERING_JUDGEMENT,
)
ADDED_IN_SQUARES = Source(
    "added-in-squares",
    "Each figure alone at both ends of its spread; the changes added in squares, less and more"
    " apart",
    Standing.ENGINEERING_JUDGEMENT,
)
_VOLUME_ENDS = (Fraction(4, 5), Fraction(21, 20))
_PRESSURE_ENDS = (Fraction(97, 100), Fraction(103, 100))
_DENSITY_ENDS = (1_100, 1_600)
"""Of dry food solids, fat-rich to fruit and meat, mg/mL: the ends named with SOLID_DENSITY."""


@dataclass(frozen=True, slots=True)
class Closure:
    """A package as closed: what its oxygen is computed from. None means not read or not said."""

    volume_ml: int
    dry_dg: int
    density_mg_per_ml: int | None = None
    vacuum_tenth_inhg: int | None = None
    barometer_thousandth_inhg: int | None = None

    @property
    def barometer(self) -> int:
        """The barometer, sea level where nobody said, thousandths of an inHg."""
        return self.barometer_thousandth_inhg or SEA_LEVEL_THOUSANDTH_INHG

    @property
    def density(self) -> int:
        """The density of the solids, mg/mL."""
        return self.density_mg_per_ml or SOLID_DENSITY_MG_PER_ML

    def oxygen(self) -> Fraction:
        """Oxygen at closing, cc. Raises as `gas_ml` and `oxygen_cc`."""
        gas = gas_ml(self.volume_ml, self.dry_dg, self.density)
        return oxygen_cc(gas, self.vacuum_tenth_inhg, self.barometer)

    @property
    def oxygen_per_gas(self) -> Fraction:
        """cc of oxygen in a millilitre of the gas as closed."""
        pressure = self.barometer - (self.vacuum_tenth_inhg or 0) * 100
        return OXYGEN_IN_AIR * Fraction(pressure, SEA_LEVEL_THOUSANDTH_INHG)


@dataclass(frozen=True, slots=True)
class OxygenDoubt:
    """What one figure may do to the oxygen: cc less and cc more, each zero or above."""

    what: str
    ends: str
    less_cc: float
    more_cc: float
    source: Source


def oxygen_doubts(closure: Closure) -> tuple[OxygenDoubt, ...]:
    """Each figure put to its ends alone. A density that was given is not varied."""
    oxygen = closure.oxygen()
    volume = closure.volume_ml
    gas = oxygen / closure.oxygen_per_gas
    low_gas, high_gas = (gas - volume + volume * end for end in _VOLUME_ENDS)
    found = [
        _doubt(
            "volume as closed",
            f"{_whole(volume * _VOLUME_ENDS[0])} to {_whole(volume * _VOLUME_ENDS[1])} mL",
            oxygen,
            [max(Fraction(0), one) * closure.oxygen_per_gas for one in (low_gas, high_gas)],
            CLOSED_VOLUME,
        )
    ]
    if closure.density_mg_per_ml is None:
        ends = [volume - solids_ml(closure.dry_dg, one) for one in _DENSITY_ENDS]
        found.append(
            _doubt(
                "density of the solids",
                " to ".join(f"{one / 1000:g}" for one in _DENSITY_ENDS) + " g/mL",
                oxygen,
                [max(Fraction(0), one) * closure.oxygen_per_gas for one in ends],
                SOLID_DENSITY,
            )
        )
    found.append(_weather(closure, oxygen, gas))
    return tuple(found)


def _weather(closure: Closure, oxygen: Fraction, gas: Fraction) -> OxygenDoubt:
    """What the weather does to the oxygen; a gauge is read against the same air."""
    ends = [closure.barometer * end for end in _PRESSURE_ENDS]
    gauge = (closure.vacuum_tenth_inhg or 0) * 100
    at_ends = [
        OXYGEN_IN_AIR * gas * max(Fraction(0), end - gauge) / SEA_LEVEL_THOUSANDTH_INHG
        for end in ends
    ]
    shown = " to ".join(f"{float(end) / 1000:.2f}" for end in ends)
    return _doubt("barometer", f"{shown} inHg", oxygen, at_ends, WEATHER)


def _doubt(
    what: str, ends: str, oxygen: Fraction, at_ends: Sequence[Fraction], source: Source
) -> OxygenDoubt:
    """The changes at the ends, less and more."""
    changes = [float(one - oxygen) for one in at_ends]
    return OxygenDoubt(what, ends, max(0.0, -min(changes)), max(0.0, *changes), source)


def largest_volume_ml(closure: Closure, absorber_cc: int, *, margin: Fraction) -> int:
    """The largest volume as closed whose oxygen, times `margin`, the absorber still takes."""
    gas = absorber_cc / margin / closure.oxygen_per_gas
    return floor(gas + solids_ml(closure.dry_dg, closure.density))


def add_absorber_doubt(
    trace: Trace,
    closure: Closure,
    oxygen: Given,
    absorbers: Sequence[int],
    sizes_cc: Sequence[int],
    *,
    advised: bool,
) -> None:
    """Write each figure's share of the doubt, the oxygen's band, and what would change it all.

    `absorbers` are the advised ones, or the one that was asked about.
    """
    doubts = oxygen_doubts(closure)
    less = sqrt(sum(one.less_cc**2 for one in doubts))
    more = sqrt(sum(one.more_cc**2 for one in doubts))
    trace.note(
        "what makes the oxygen unsure, one figure at a time",
        f"{number(less, 'cc')} less to {number(more, 'cc')} more",
        *(_share(one, less, more) for one in doubts),
        source=ADDED_IN_SQUARES,
    )
    at_most = trace.step(
        "oxygen at most", "{oxygen} + {more}", number(float(closure.oxygen()) + more, "cc"),
        oxygen=oxygen, more=computed("that much more", number(more, "cc")),
    )  # fmt: skip
    _change(trace, closure, at_most, absorbers, sizes_cc, advised=advised)


def _share(doubt: OxygenDoubt, less: float, more: float) -> Given:
    """One figure with its ends and its share of either side."""
    text = (
        f"{doubt.ends}: {_percent(doubt.less_cc, less)} of the low side,"
        f" {_percent(doubt.more_cc, more)} of the high side"
    )
    return Given(doubt.what, text, doubt.source)


def _change(
    trace: Trace,
    closure: Closure,
    at_most: Given,
    absorbers: Sequence[int],
    sizes_cc: Sequence[int],
    *,
    advised: bool,
) -> None:
    """Write from which volume on another size is wanted."""
    margin = ABSORBER_MARGIN if advised else Fraction(1)
    total = sum(absorbers)
    enough = largest_volume_ml(closure, total, margin=margin)
    fails = "is too small" if advised else "leaves oxygen behind"
    said = [f"above {enough} mL as closed {total} cc {fails}"] if total else ["any absorber at all"]
    smaller = max((one for one in sizes_cc if one < total), default=None)
    if advised and len(absorbers) == 1 and smaller is not None:
        enough = largest_volume_ml(closure, smaller, margin=margin)
        if enough > 0:
            said.append(f"up to {enough} mL {smaller} cc would do")
    trace.note(
        "what would change it",
        "; ".join(said),
        Given("volume as closed", f"{closure.volume_ml} mL"),
        at_most,
    )


def _percent(part: float, whole: float) -> str:
    """A share of a sum of squares in whole percent."""
    return f"{100 * part**2 / whole**2:.0f} %" if whole > 0 else "0 %"


def _whole(value: Fraction) -> int:
    return floor(value)
