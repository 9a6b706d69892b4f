"""Dryness, the queue and rechecks for reports: every verdict, every state, awkward words."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

from stockroom.domain.batch_evidence import Batch, Evidence, TrayRecord
from stockroom.domain.doubts import Doubt
from stockroom.domain.drying import TrayWeights
from stockroom.domain.dryness import lot_residual
from stockroom.domain.evidence_records import (
    DrynessCheck,
    ExtraDrying,
    Inspection,
    QueueEntry,
    Weighing,
)
from stockroom.domain.foods import Preparation
from stockroom.domain.gate import Fence, Gate, TrayEvidence, fence_of, gate, tray_evidence
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.recheck_facts import STANDARD, RecheckSettings
from stockroom.domain.recheck_spread import Planned
from stockroom.domain.records import HistoryLine, Lot, Package, Run, StoredRecheck, Tray
from stockroom.domain.soft_decision import (
    Feel,
    Outcome,
    Question,
    Signs,
    SoftFacts,
    decide,
    judge_seal,
)
from stockroom.reports.deciding import decision_report
from stockroom.reports.lots import lot_report
from stockroom.reports.package_page import package_report
from stockroom.reports.packages import made_list
from stockroom.reports.rechecks import plan_list, recheck_report, settings_report
from stockroom.reports.redrying import queue_list
from stockroom.reports.round_today import round_report
from stockroom.reports.runs import run_report
from stockroom.reports.values import Report
from stockroom.services.results import Done, LotDetail, PackageDetail, RoundPage, RunDetail

DAY = date(2026, 11, 25)
AT = datetime(2026, 11, 25, 12, tzinfo=UTC)
AWKWARD = '[/] jar [soft] "7" 冷凍'
STEERING = "=1+1 \x1b[31mred\u202e"
EXTRA = ExtraDrying(1, 3, 40, DAY, datetime(2026, 11, 25, 16, 30, tzinfo=UTC), 3, 2, STEERING)

TRAYS = (
    Tray(1, 3, 1, 1, AWKWARD, 1, None, 10_000, 1_560),
    Tray(2, 3, 2, 1, AWKWARD, 1, None, 10_000, 1_580),
    Tray(3, 3, 3, 2, "peas", None, None, None, 930, ("26329B024", "26329B032")),
    Tray(4, 3, 4, 3, "leeks", None, None, 7_000, None),
)
WEIGHINGS = (
    Weighing(1, 1, "dry", 1_580, 280, DAY, AT),
    Weighing(2, 2, "dry", 1_650, 280, DAY, AT),
    Weighing(3, 2, "dry", 1_640, 290, DAY, AT),
    Weighing(4, 1, "dry", 1_570, 325, DAY, AT),
    Weighing(5, 2, "dry", 1_600, 325, DAY, AT),
    Weighing(6, 1, "dry", 1_560, 336, DAY, AT),
    Weighing(7, 2, "dry", 1_580, 336, DAY, AT),
    Weighing(8, 3, "dry", 931, None, DAY, AT),
    Weighing(9, 3, "dry", 930, None, DAY, AT),
)
CHECKS = (
    DrynessCheck(1, 2, "cold", False, DAY, AT, "cold in the middle"),
    DrynessCheck(2, 1, "break", True, DAY, AT, ""),
    DrynessCheck(3, 1, "cold", True, DAY, AT, STEERING),
    DrynessCheck(4, 2, "break", False, DAY, AT, "bends"),
    DrynessCheck(5, 3, "cold", True, DAY, AT, ""),
    DrynessCheck(6, 3, "break", True, DAY, AT, ""),
)


def _evidence(tray: Tray) -> TrayEvidence:
    """What is on record of one tray."""
    return tray_evidence(
        tray.position,
        [one for one in WEIGHINGS if one.tray_id == tray.tray_id],
        [one for one in CHECKS if one.tray_id == tray.tray_id],
        wet_dg=tray.wet_dg,
    )


def _batch(food: str, codes: tuple[str, ...], trays: tuple[Tray, ...]) -> Batch:
    """The trays of one food with their verdict."""
    verdict = gate([_evidence(tray) for tray in trays], fence=fence_of(EXTRA))
    records = tuple(
        TrayRecord(
            tray,
            tuple(one for one in WEIGHINGS if one.tray_id == tray.tray_id),
            tuple(one for one in CHECKS if one.tray_id == tray.tray_id),
            finding,
            EXTRA.last_weighing_id,
            EXTRA.last_check_id,
        )
        for tray, finding in zip(trays, verdict.trays, strict=True)
    )
    return Batch(food, codes, records, verdict)


RUN = Run(3, DAY, None, "open", "", 4, f"{AWKWARD}, peas, leeks")
EVIDENCE = Evidence(
    RUN,
    (
        _batch(AWKWARD, (), TRAYS[:2]),
        _batch("peas", TRAYS[2].again, TRAYS[2:3]),
        _batch("leeks", (), TRAYS[3:]),
    ),
    (EXTRA,),
)


def open_gate() -> Gate:
    """A lot of two trays that is shown to be dry, with an estimate that cannot tell."""
    trays = [
        TrayEvidence(
            position,
            _evidence(TRAYS[2]).readings,
            _evidence(TRAYS[2]).cold,
            _evidence(TRAYS[2]).broken,
            5_000,
        )
        for position in (1, 2)
    ]
    weights = [TrayWeights(position, 5_000, 930) for position in (1, 2)]
    return gate(trays, residual=lot_residual(weights, 0.83), fence=Fence(0, 0))


def _package(number: int = 7, **more: object) -> Package:
    """A pouch of the awkward food."""
    known: dict[str, object] = {
        "package_id": number, "code": f"26329A{number:02d}2", "lot_id": 1, "lot_code": "26329A",
        "food_id": 1, "food": AWKWARD, "food_class": "vegetable", "preparation": "cooked",
        "container": "foil pouch 1.5 L", "container_key": "pouch-1500-foil",
        "package_kind": "foil_pouch", "volume_ml": 1500, "absorber_cc": 300, "vacuum": False,
        "vacuum_tenth_inhg": None, "dry_dg": 620, "water_dg": 3380, "taken_dg": 0,
        "taken_water_dg": 0, "serving_dg": 850, "made_on": DAY, "sealed_on": DAY, "place_id": 3,
        "place": "cellar/rack 1/bin 2", "condition": "sound", "opened_on": None, "gone_on": None,
        "best_by": date(2034, 11, 25), "note": "",
    }  # fmt: skip
    return Package(**(known | more))  # type: ignore[arg-type]


DESPITE = _package(
    8, gate_reason=STEERING, absorber_packet="October [A]", container_box="7", tray_position=2,
)  # fmt: skip
JAR = _package(
    9, code="26329A09F", food="peas", container="jar 475 mL", container_key="jar-475",
    package_kind="jar", absorber_cc=0, condition="held", place="freezer",
)  # fmt: skip
ANEW = _package(
    10, code="26329A10N", origin="redried", first_sealed_on=date(2026, 11, 1),
    exposed_on=date(2026, 11, 20), condition="settling",
)  # fmt: skip
LOOK = StoredRecheck(7, date(2026, 12, 2), date(2026, 12, 5), date(2026, 12, 20), 940)
REASONS = ("first look after the settle check", "fatty food, which goes rancid")

QUEUE = (
    QueueEntry(1, 1, "26329A", 9, "26329A09F", "peas", 620, DAY, "soft [cold]", "waiting", None,
               None, None, None, "freezer"),
    QueueEntry(2, 2, "26329B", None, "", AWKWARD, 1_260, DAY, "", "loaded", 3, 3, 3, None, ""),
    QueueEntry(3, 2, "26329B", 12, "26329B024", AWKWARD, 500, DAY, STEERING, "dried", 3, 3, 3, 930,
               ""),
    QueueEntry(4, 3, "26329C", None, "", "leeks", 400, DAY, "", "waiting", None, None, None, None,
               ""),
)  # fmt: skip
INSPECTIONS = (
    Inspection(1, 9, DAY, '{"feel": "slightly_soft", "hours_since_sealing": "20", "acid": '
               '"unknown"}', "hold", "within_a_day", "It was never dry.", None, STEERING),
    Inspection(2, 9, DAY, "{}", "use_now", "soft_fruit", "It may be used.", DAY, ""),
)  # fmt: skip

FACTS = SoftFacts(
    FoodClass.VEGETABLE, Preparation.COOKED, True, DAY, DAY, DAY, feel=Feel.SLIGHTLY_SOFT,
    signs=Signs.NONE,
)  # fmt: skip
SEAL = judge_seal(DAY, [], DAY, seal_whole=None, vacuum_lost=None)


def round_page() -> RoundPage:
    """A day with everything to do."""
    suspect = tuple(_package(number, condition="suspect") for number in range(1, 8))
    held = (JAR, _package(11, condition="held"))
    lot = Lot(
        3, "26329C", 3, 1, "leeks", "vegetable", "raw", DAY, 9_000, 400, 0, 0, 0, 0, 0, 850, ""
    )
    return RoundPage(
        DAY,
        (_package(2, condition="settling"),),
        suspect,
        held,
        (_package(4, condition="opened"),),
        (_package(5),),
        (lot, replace(lot, lot_id=4, code="26329D", food="peas")),
        (RUN,),
        recheck=(_package(7), replace(JAR, condition="sound"), _package(6)),
        recheck_waiting=3,
        looks=(LOOK, replace(LOOK, package_id=9, risk=310)),
        queue=QUEUE,
        reminders=(EXTRA,),
        doubts=tuple(Doubt),
    )


def reports(units: UnitSystem) -> dict[str, Report]:
    """Every report about dryness, the queue and rechecks."""
    lot = Lot(
        1, "26329A", 3, 1, AWKWARD, "vegetable", "cooked", DAY, 10_000, 1_550, 620, 3_380, 0, 0, 1,
        850, "",
    )  # fmt: skip
    closed = EVIDENCE.batches[0].gate
    history = (
        HistoryLine(DAY, "repacked", "used", "", "", None, None, "", ""),
        HistoryLine(DAY, "draw", "", "", "", 620, 3_380, "", ""),
        HistoryLine(DAY, "use_now", "opened", "", "", None, None, "", "today"),
    )
    held = PackageDetail(
        JAR, history, None, "", (), (), False, 1, queued=QUEUE[0], inspections=INSPECTIONS,
        successors=("26329A10N",),
    )  # fmt: skip
    sound = PackageDetail(DESPITE, (), None, "", (), (), False, 0, recheck=LOOK)
    anew = PackageDetail(ANEW, (), None, "", (), (), False, 0, sources=("26329A09F", "26329A02C"))
    soft = decide(FACTS, machine_free=True)
    unknown = decide(replace(FACTS, found_on=date(2026, 12, 9), feel=None), machine_free=False)
    plan = (Planned(7, DAY, 940), Planned(9, date(2026, 11, 28), 0), Planned(99, DAY, 5))
    saturdays = RecheckSettings(set_aside=frozenset({5}), most_a_day=8)
    return {
        "run with evidence": run_report(RunDetail(RUN, TRAYS, (), (), None), EVIDENCE),
        "lot shown dry": lot_report(LotDetail(lot, (), (), (), (), gate=open_gate()), units),
        "lot not shown dry": lot_report(
            LotDetail(lot, (), (), (), (), 155, replace(QUEUE[3], reason=STEERING), closed), units
        ),
        "package held": package_report(held, units),
        "package to look at": package_report(sound, units, REASONS),
        "package anew": package_report(anew, units),
        "packages made despite": made_list((DESPITE, _package(7))),
        "queue": queue_list(QUEUE),
        "queue empty": queue_list(()),
        "recheck plan": plan_list(plan, {7: _package(), 9: JAR}),
        "recheck plan empty": plan_list((), {}),
        "recheck": recheck_report(JAR, replace(LOOK, risk=0), REASONS),
        "recheck settings": settings_report(STANDARD),
        "recheck settings saturdays": settings_report(saturdays),
        "decision": decision_report(
            _package(), soft, {Question.FEEL: "slightly_soft", Question.SIGNS: "none"},
            Question.HOURS_SINCE_SEALING, SEAL, sisters=("26329A089", "26329A09F"),
        ),
        "decision carried out": decision_report(
            _package(), soft, {}, None, SEAL,
            done=Done(f"decided: {Outcome.HOLD.words}", (), ("26329A072",)),
        ),
        "decision to discard": decision_report(_package(), unknown, {}, Question.FEEL, SEAL),
        "round in full": round_report(round_page()),
    }  # fmt: skip
