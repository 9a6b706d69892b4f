"""Where to look when the machine does not reach its vacuum, in the order to look.

Cheapest and likeliest first; common practice, no source. Stop at the step that restores the
pressure, and note the step and the pressures.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockroom.domain.working import Source, Standing

FAULT_ORDER = Source(
    "fault-order",
    "Order of looking for a lost vacuum, the cheapest and likeliest first",
    Standing.COMMON_PRACTICE,
)

STOP_HERE = (
    "Stop at the step that brings the pressure down, and note the step and the pressures before"
    " and after it."
)


@dataclass(frozen=True, slots=True)
class FaultStep:
    """One place to look: what to do there, and what shows that it is the fault."""

    where: str
    do: str
    tells: str
    """Empty where the pressure itself tells."""
    check: str = ""
    """The key of the upkeep check that looks at the same part, if there is one."""


FAULT_STEPS: tuple[FaultStep, ...] = (
    FaultStep(
        "Door seal",
        "Look for crumbs, frost and nicks; wipe it, seat it in its groove, latch the door and pump"
        " again.",
        "",
        "gasket",
    ),
    FaultStep(
        "Pump",
        "Look at the oil: change it when it is low, milky or dark, and run the pump with its gas"
        " ballast open. Then close off the pump's own inlet and read its pressure.",
        "Closed off, a sound pump goes down to its usual reading.",
        "oil",
    ),
    FaultStep(
        "Hose and clamps",
        "Look for cracks, loose ends and a worn or dirty seal ring; tighten or replace.",
        "",
        "hose",
    ),
    FaultStep(
        "Drain valve",
        "Close it. Under vacuum hold its outlet in a cup of water.",
        "Water drawn up shows that it leaks.",
        "chamber",
    ),
    FaultStep(
        "Ice or water in the chamber",
        "Defrost, dry and wipe the chamber, then pump it down empty and run a pressure-rise test.",
        "A rise that levels off is moisture; a straight one is an air leak.",
        "defrost",
    ),
    FaultStep(
        "Pressure sensor",
        "Look at the sensor and its line for oil, food dust and loose plugs; hold it against a"
        " second gauge if there is one. Then have the machine serviced.",
        "",
    ),
)
