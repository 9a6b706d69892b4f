"""The gate before packing without oxygen: is it shown that this lot is dry?

Open only when all hold since the last extra drying: constant weight on every tray, the thickest
piece of the slowest tray snaps, no cold spot, and the estimate of moisture does not contradict.
Standing: engineering judgement, on the ceiling of about 10 % moisture before packing without
oxygen (Intellectual Reserve, 2007, secondary copy). An estimate from a composition table alone
never opens it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from stockroom.domain.caution_sources import LEAFLET, PRACTICE
from stockroom.domain.cautions import Caution, chosen
from stockroom.domain.dryness import GUARDED_ACCEPTANCE, ResidualMoisture, Verdict
from stockroom.domain.gate_evidence import (
    Fence,
    Reading,
    TrayEvidence,
    TrayFinding,
    TrayTest,
    fence_of,
    findings,
    slowest_tray,
    tray_evidence,
)
from stockroom.domain.keeping.interface import PackageKind
from stockroom.domain.plateau import NOT_ENOUGH, PLATEAU_RULE
from stockroom.domain.working import Source, Standing, Trace, Working

__all__ = [
    "Fence",
    "Gate",
    "Missing",
    "Need",
    "Reading",
    "TrayEvidence",
    "TrayFinding",
    "TrayTest",
    "fence_of",
    "gate",
    "low_oxygen",
    "override_cautions",
    "override_words",
    "slowest_tray",
    "tray_evidence",
]

GATE_RULE = Source(
    "low-oxygen-gate",
    "Since the last extra drying: constant weight on every tray, the thickest piece of the slowest"
    " tray snaps, no cold spot, and the estimate of moisture does not contradict",
    Standing.ENGINEERING_JUDGEMENT,
)
_DRY_ON = "Dry for a few more hours, then weigh and test again."


class Need(StrEnum):
    """What the gate asks for."""

    PLATEAU = "plateau"
    BREAK = "break"
    COLD = "cold"
    MOISTURE = "moisture"


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that keeps the gate closed."""

    need: Need
    trays: tuple[int, ...]
    """Positions of the trays it is about; none where it is about the lot."""
    words: str
    """What is missing, as the end of a sentence, without a full stop."""
    next_step: str
    """What to do about it, as a sentence."""


@dataclass(frozen=True, slots=True)
class Gate:
    """Whether it is shown that a lot is dry enough to be packed without oxygen."""

    open: bool
    missing: tuple[Missing, ...]
    """In the order of Need; none when it is open."""
    trays: tuple[TrayFinding, ...]
    slowest: int | None
    """Position of the tray whose thickest piece has to snap; None where nothing was weighed."""
    residual: ResidualMoisture | None
    cautions: tuple[Caution, ...]

    @property
    def words(self) -> str:
        """The verdict in a sentence."""
        if self.open:
            return (
                f"Dryness is shown: constant weight on every tray, tray {self.slowest} snaps, no"
                " cold spot."
            )
        return f"Dryness is not shown: {'; '.join(one.words for one in self.missing)}."

    @property
    def next_steps(self) -> tuple[str, ...]:
        """What to do, each step once, in order."""
        return tuple(dict.fromkeys(one.next_step for one in self.missing))

    @property
    def working(self) -> Working:
        """How the verdict was reached, tray by tray and need by need."""
        trace = Trace("Dry enough to be packed without oxygen?")
        for tray in self.trays:
            verdict = "constant" if tray.constant else "not shown"
            said = " ".join(text for text in (tray.reason, tray.coarse) if text)
            trace.note(f"weight of tray {tray.position}", f"{verdict}: {said}", source=PLATEAU_RULE)
        for need, title, source in _NEEDS:
            lacks = [one.words for one in self.missing if one.need is need]
            trace.note(title, "; ".join(lacks) or _met(self, need), source=source)
        trace.note("verdict", self.words, source=GATE_RULE)
        trace.caution(NOT_ENOUGH)
        for caution in self.cautions:
            trace.caution(caution.words)
        return trace.finish()


_NEEDS: tuple[tuple[Need, str, Source], ...] = (
    (Need.PLATEAU, "constant weight on every tray", PLATEAU_RULE),
    (Need.BREAK, "break test on the slowest tray", LEAFLET),
    (Need.COLD, "no cold spot", PRACTICE),
    (Need.MOISTURE, "estimate of moisture does not contradict", GUARDED_ACCEPTANCE),
)


def _met(found: Gate, need: Need) -> str:
    """What to say of a need that is met."""
    if need is not Need.MOISTURE:
        return "yes"
    if found.residual is None:
        return "yes: there is no estimate"
    return f"yes: {found.residual.sentence}"


def gate(
    trays: Sequence[TrayEvidence],
    *,
    residual: ResidualMoisture | None = None,
    fence: Fence | None = None,
) -> Gate:
    """What shows that a lot is dry, and what is missing.

    `trays` are all trays of the lot, `fence` is the last extra drying: what came before it shows
    nothing any more. `residual` None is no estimate, which is no objection. Raises NoWeight and
    NoScaleDigit as `plateau` does.
    """
    slowest = slowest_tray(trays, fence)
    found = findings(trays, fence, slowest)
    lacking: tuple[Callable[[], Missing | None], ...] = (
        lambda: _plateau_missing(found),
        lambda: _break_missing(found, slowest),
        lambda: _cold_missing(found),
        lambda: _moisture_against(residual),
    )
    missing = tuple(one for one in (look() for look in lacking) if one is not None)
    return Gate(not missing, missing, found, slowest, residual, override_cautions())


def low_oxygen(package_kind: PackageKind, absorber_cc: int, vacuum: bool) -> bool:
    """Whether a package has its oxygen taken away: by an absorber or by vacuum.

    The kind makes no difference: a zip bag lets air in again, but nobody knows how soon, and a
    vacuum bag closed with neither holds air.
    """
    return absorber_cc > 0 or vacuum


def override_words(reason: str) -> str:
    """What a package says that was packed without oxygen although the gate was closed."""
    return f"dryness not shown: {reason}"


def override_cautions() -> tuple[Caution, ...]:
    """The cautions at the gate, and beside every package packed past it."""
    return chosen({"botulism", "dry-enough", "estimate-no-proof"})


def _plateau_missing(found: Sequence[TrayFinding]) -> Missing | None:
    """Trays whose weight is not shown to be constant."""
    if not found:
        return Missing(
            Need.PLATEAU, (), "no tray of it is on record", "Weigh and test the trays of a run."
        )
    lacking = tuple(tray.position for tray in found if not tray.constant)
    if not lacking:
        return None
    named = _named(lacking)
    return Missing(
        Need.PLATEAU,
        lacking,
        f"no constant weight on {named}",
        f"Dry for an hour more and weigh {named} again.",
    )


def _break_missing(found: Sequence[TrayFinding], slowest: int | None) -> Missing | None:
    """A piece that did not snap on any tray, or no test of the slowest tray."""
    failed = tuple(tray.position for tray in found if tray.broken is False)
    if failed:
        return Missing(
            Need.BREAK, failed, f"a piece that does not snap on {_named(failed)}", _DRY_ON
        )
    if slowest is None:
        return Missing(
            Need.BREAK,
            (),
            "no break test on the slowest tray",
            "Weigh the trays, then break the thickest piece of the slowest.",
        )
    if any(tray.position == slowest and tray.broken for tray in found):
        return None
    return Missing(
        Need.BREAK,
        (slowest,),
        f"no break test on tray {slowest}, the slowest",
        f"Break the thickest piece on tray {slowest} and look at its middle.",
    )


def _cold_missing(found: Sequence[TrayFinding]) -> Missing | None:
    """A cold spot on any tray, or nobody felt for one."""
    failed = tuple(tray.position for tray in found if tray.cold is False)
    if failed:
        return Missing(Need.COLD, failed, f"a cold spot on {_named(failed)}", _DRY_ON)
    if any(tray.cold for tray in found):
        return None
    return Missing(
        Need.COLD,
        (),
        "no cold-touch test",
        "Feel the food on every tray for cold or heavy spots.",
    )


def _moisture_against(residual: ResidualMoisture | None) -> Missing | None:
    """An estimate over the limit whatever its uncertainty; undecided is no objection."""
    if residual is None or residual.verdict is not Verdict.OVER:
        return None
    return Missing(
        Need.MOISTURE,
        (),
        f"the estimate of moisture is over 10 % even at its lower edge, {100 * residual.low:.1f} %",
        "Dry it further, or correct a wrong weight or water figure.",
    )


def _named(positions: Sequence[int]) -> str:
    """Trays by their numbers: "tray 3", "trays 1, 2 and 5"."""
    if len(positions) == 1:
        return f"tray {positions[0]}"
    *first, last = (str(one) for one in positions)
    return f"trays {', '.join(first)} and {last}"
