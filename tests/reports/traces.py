"""Traces, recalls and what soft packages have in common for reports, made by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

from stockroom.domain.common_ground import LookedAt, common_page
from stockroom.domain.conditions import Condition
from stockroom.domain.evidence_records import DrynessCheck, ExtraDrying, QueueEntry, Weighing
from stockroom.domain.gate import gate
from stockroom.domain.gate_evidence import fence_of, tray_evidence
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import Lot, Run, Tray
from stockroom.domain.trace_records import (
    DriedTray,
    Drying,
    Group,
    GroupKind,
    MealMade,
    TracePage,
)
from stockroom.reports.tracing import common_report, recalled_report, trace_report
from stockroom.reports.values import Report
from stockroom.services.results import Done
from tests.reports.outlooks import CAUTION, FOOD, package

DAY = date(2026, 11, 25)
AT = datetime(2026, 11, 25, 8, 30, tzinfo=UTC)
STEERING = "=1+1 \x1b[31mred\u202e"

LOT = Lot(
    1, "26329A", 3, 1, FOOD, "vegetable", "raw", DAY, 10_000, 1_550, 1_240, 6_760, 50, 272, 2,
    850, "",
)  # fmt: skip
RUN = Run(3, date(2026, 11, 23), DAY, "closed", f"door {STEERING}", 2, FOOD)
AGAIN = Run(4, date(2026, 11, 26), None, "open", "", 1, FOOD)
DRY = (Weighing(2, 1, "dry", 1_556, 240, DAY, AT), Weighing(4, 1, "dry", 1_550, 260, DAY, AT))
TESTS = (
    DrynessCheck(1, 1, "cold", False, DAY, AT, ""),
    DrynessCheck(2, 1, "cold", True, DAY, AT, STEERING),
    DrynessCheck(3, 1, "break", True, DAY, AT, ""),
)
MORE = ExtraDrying(1, 3, 25, DAY, AT, 2, 1, "")
TRAY = Tray(1, 3, 1, 1, FOOD, 1, "26329A", 10_000, 1_550)
OTHER = Tray(2, 3, 2, 2, "peas", 2, "26329B", None, None)
LATER = Tray(3, 4, 5, 1, FOOD, None, None, 620, 600, ("26329A012",))


def trace_page() -> TracePage:
    """A package dried again, with a packet, a box and kin beyond a page of them."""
    evidence = [tray_evidence(1, DRY, TESTS, wet_dg=10_000)]
    first = Drying(
        RUN,
        False,
        (
            DriedTray(TRAY, True, DRY, TESTS, "no cold spot", "snaps"),
            DriedTray(OTHER, False, (), (), "", ""),
        ),
        (MORE,),
        gate(evidence, fence=fence_of(MORE)),
    )
    again = Drying(
        AGAIN, True, (DriedTray(LATER, True, (), (), "", "does not snap"),), (), gate(())
    )
    gone = replace(package(3), condition="used", gone_on=DAY, place="", place_id=None)
    soft = replace(package(4), condition="suspect", food=STEERING)
    one = replace(
        package(2), absorber_packet=STEERING, container_box="", tray_position=1, vacuum=True,
        vacuum_tenth_inhg=250, gate_reason=f"it snapped {STEERING}", origin="redried",
    )  # fmt: skip
    lot = Group(GroupKind.LOT, "26329A", ((Condition.SOUND, 2), (Condition.USED, 1)),
                (one, package(5), gone))  # fmt: skip
    run = Group(GroupKind.RUN, "3", ((Condition.SOUND, 60), (Condition.SUSPECT, 1)), (one, soft))
    packet = Group(GroupKind.PACKET, STEERING, ((Condition.SOUND, 1),), (one,))
    queued = QueueEntry(
        1, 1, "26329A", 2, one.code, FOOD, 620, DAY, "soft", "loaded", 4, 3, 5, None, ""
    )
    return TracePage(
        code=one.code, lot=LOT, package=one, dryings=(first, again), sources=(gone,),
        successors=(), groups=(lot, run, packet), queued=queued, cautions=(CAUTION,),
        meals=(MealMade(1, FOOD, DAY, 2, 500),),
    )  # fmt: skip


def looked_at() -> list[LookedAt]:
    """Forty looked at: a bad run, a quiet jar, an awkward place, too few of a kind."""
    one = LookedAt("26329A", "foil pouch 1.5 L", FOOD, "", 1, "cellar/冷凍 [x]", 3, "absorber",
                   "vegetable", True)  # fmt: skip
    other = replace(one, lot_code="26330B", run_id=4, packet=STEERING, place="loft", soft=False)
    return [
        *[one] * 7,
        replace(one, soft=False),
        *[other] * 20,
        *[replace(other, container="jar 950 mL", tray_position=None, food_class="lean_meat")] * 9,
        *[replace(other, run_id=5, lot_code="26331C", soft=True)] * 3,
    ]


def reports(units: UnitSystem) -> dict[str, Report]:
    """Each of these reports, by name."""
    page = trace_page()
    bare = replace(
        page, code="26329A", package=None, sources=(), groups=page.groups[:1], queued=None, meals=()
    )
    fetch = (replace(package(1), place="", condition="suspect"), package(2), package(3))
    done = Done(f"recalled 3 packages of run 3: {STEERING}", (CAUTION,), ("26329A012",))
    return {
        "trace": trace_report(page, units),
        "trace of a lot": trace_report(bare, units),
        "recalled": recalled_report(done, fetch),
        "common": common_report(common_page(looked_at(), food=FOOD, since=DAY)),
        "common of nothing": common_report(common_page((), food="", since=None)),
    }
