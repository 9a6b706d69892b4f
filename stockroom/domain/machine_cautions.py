"""What to bear in mind at the machine itself: pump, oil, cold walls, electricity.

They stand beside the checks they belong to rather than beside food, and like all others end with
the line that defers to local codes and licensed guidance.
"""

from __future__ import annotations

from stockroom.domain.caution_sources import GENERAL, OUR_CHOICE
from stockroom.domain.caution_table import CAUTIONS, Caution
from stockroom.domain.working import Source, Standing

PUMP_GUIDES = Source(
    "pump-guides", "University laboratory vacuum pump guides (secondary copies)", Standing.PUBLISHED
)


def _row(key: str, text: str, source: Source) -> Caution:
    """A caution whose standing is that of its source."""
    return Caution(key, (), text, source, source.standing)


MACHINE_CAUTIONS: tuple[Caution, ...] = (
    _row(
        "electricity",
        "Use a grounded circuit and a dry outlet; unplug before you open the machine or reach"
        " behind a guard.",
        OUR_CHOICE,
    ),
    _row(
        "pump",
        "Keep the pump's guards on and its cord sound; its case is hot. Give it air and lead its"
        " oil mist away.",
        PUMP_GUIDES,
    ),
    _row(
        "used-oil",
        "Put a drip tray under the pump. Hand used oil in apart: never down a drain or in the"
        " rubbish.",
        PUMP_GUIDES,
    ),
    _row(
        "cold-walls",
        "As general guidance: walls and trays are far below freezing after a run; wear dry"
        " insulated gloves.",
        GENERAL,
    ),
    _row(
        "wet-floor",
        "Defrosting wets the floor: lead the water into a bucket, away from plugs and cords.",
        OUR_CHOICE,
    ),
)
"""The gravest first."""

_BESIDE = {
    "gasket": ("cold-walls",),
    "chamber": ("cold-walls", "wet-floor"),
    "start": ("pump",),
    "defrost": ("cold-walls", "wet-floor"),
    "oil": ("pump", "used-oil"),
    "oil_change": ("pump", "used-oil"),
    "leak": ("pump",),
    "coil": ("electricity",),
    "hose": ("electricity", "pump"),
    "pump": ("electricity", "pump"),
}
"""Key of a check → keys of what to bear in mind while doing it."""


def machine_cautions() -> tuple[Caution, ...]:
    """All of them, and the line that defers to local codes."""
    return (*MACHINE_CAUTIONS, _local_codes())


def cautions_beside(check_key: str) -> tuple[Caution, ...]:
    """Those that belong to one check, with the deferring line; none for one without a danger."""
    wanted = _BESIDE.get(check_key, ())
    found = tuple(one for one in MACHINE_CAUTIONS if one.key in wanted)
    return (*found, _local_codes()) if found else ()


def _local_codes() -> Caution:
    """The deferring line."""
    return next(one for one in CAUTIONS if one.key == "local-codes")
