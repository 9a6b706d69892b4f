"""Results for reports, made by hand: awkward names, gaps, every block filled."""

from __future__ import annotations

from datetime import UTC, date, datetime
from fractions import Fraction

from stockroom.domain.caution_table import Caution, Where
from stockroom.domain.quantities import UnitSystem
from stockroom.domain.records import (
    Container,
    Food,
    HistoryLine,
    JournalEntry,
    Lot,
    LotLoss,
    Package,
    Place,
    Run,
    StoredProjection,
    Tray,
)
from stockroom.domain.water_working import water_working
from stockroom.domain.working import Source, Standing
from stockroom.reports import (
    household,
    lots,
    package_page,
    packages,
    record,
    round_today,
    runs,
    workings,
)
from stockroom.reports.calculations import CodeResult, WaterResult, code_result, water_result
from stockroom.reports.done import done_report
from stockroom.reports.values import Report
from stockroom.services.results import (
    Done,
    FoodChoice,
    LotDetail,
    PackageDetail,
    RoundPage,
    RunDetail,
    WorkingPage,
)
from tests.reports import calculations, cooked, evidence, machine, outlooks, sampled, traces

DAY = date(2026, 11, 25)
AWKWARD = '[/] jar [soft] "7" 冷凍'
STEERING = "=1+1 \x1b[31mred\u202e"
METRIC, US = UnitSystem.METRIC, UnitSystem.US


SOURCE = Source("handbook", "Handbook of the pantry, 2020", Standing.PUBLISHED)
TASTE = Caution("taste", (Where.RECHECK,), "Never taste it to find out.", SOURCE, SOURCE.standing)
DRY_ENOUGH = Caution(
    "snap",
    (Where.PACK,),
    "Pack only what snaps when it is bent, in the middle of the thickest piece too.",
    SOURCE,
    Standing.COMMON_PRACTICE,
)
SOFT = (TASTE,)
PACKING = (DRY_ENOUGH, TASTE, DRY_ENOUGH)


def package(number: int = 7, **more: object) -> Package:
    """A pouch of awkward food in a rack of the cellar."""
    known: dict[str, object] = {
        "package_id": number,
        "code": f"26329A{number:02d}2",
        "lot_id": 1,
        "lot_code": "26329A",
        "food_id": 1,
        "food": AWKWARD,
        "food_class": "vegetable",
        "preparation": "raw",
        "container": "foil pouch 1.5 L",
        "container_key": "pouch-1500-foil",
        "package_kind": "foil_pouch",
        "volume_ml": 1500,
        "absorber_cc": 300,
        "vacuum": False,
        "vacuum_tenth_inhg": None,
        "dry_dg": 620,
        "water_dg": 3380,
        "taken_dg": 120,
        "taken_water_dg": 654,
        "serving_dg": 850,
        "made_on": DAY,
        "sealed_on": DAY,
        "place_id": 3,
        "place": "cellar/rack 1/bin 2",
        "condition": "opened",
        "opened_on": date(2026, 12, 1),
        "gone_on": None,
        "best_by": date(2034, 11, 25),
        "note": "squeezed twice\nsecond line \x07",
    }
    return Package(**(known | more))  # type: ignore[arg-type]


GONE = package(
    8, food="peas", place="", place_id=None, condition="discarded", gone_on=DAY, best_by=None,
    opened_on=None, preparation="cooked", absorber_cc=0, vacuum=True, vacuum_tenth_inhg=220,
    taken_dg=0, taken_water_dg=0, note=STEERING,
)  # fmt: skip
PACKAGES = (package(), GONE)

LOT = Lot(
    1, "26329A", 3, 1, AWKWARD, "vegetable", "raw", DAY, 10_000, 1_550, 1_240, 6_760, 50, 272, 2,
    850, "note of the lot",
)  # fmt: skip
TRAYS = (
    Tray(1, 3, 1, 1, AWKWARD, 1, "26329A", 5_000, 775),
    Tray(2, 3, 2, 1, "peas", None, None, 5_000, None),
    Tray(3, 3, 3, 1, "peas", None, None, None, None),
)
RUN = Run(3, DAY, None, "open", "", 3, f"{AWKWARD}, peas")

HISTORY = (
    HistoryLine(DAY, "sealed", "settling", "", "cellar", None, None, "", ""),
    HistoryLine(DAY, "crisp", "sound", "", "", None, None, "", "squeezed"),
    HistoryLine(DAY, "moved", "sound", "cellar", "loft", None, None, "", ""),
    HistoryLine(DAY, "moved", "sound", "", "loft", None, None, "", ""),
    HistoryLine(DAY, "open", "opened", "", "", None, None, "", ""),
    HistoryLine(DAY, "draw", "", "", "", 120, 654, "Pea soup", STEERING),
    HistoryLine(DAY, "discard", "discarded", "", "", None, None, "", "mice"),
)
PROJECTION = StoredProjection(
    7, date(2034, 11, 25), date(2030, 11, 25), date(2046, 11, 25), date(2030, 11, 25),
    "temperature", "full model", DAY, date(2040, 1, 2),
)  # fmt: skip
TOO_WARM = "48.0 °C is too warm: no life is given above 45 °C."

FOODS = (
    Food(1, AWKWARD, None, "vegetable", "vegetable", "raw", 850, None, None, None, None, None, None,
         None, None, True, STEERING, ()),
    Food(2, "peas", "pea_frozen_cooked", "vegetable", "vegetable", "cooked", 850, 7_952, 780, 515,
         27, 74, 1_426, 450, 441, False, "", ("milk", "tree_nuts")),
)  # fmt: skip


def reports(units: UnitSystem = METRIC) -> dict[str, Report]:
    """Every report the program has, by name."""
    detail = PackageDetail(package(), HISTORY, PROJECTION, "", SOFT, ("milk", "wheat"), True, 3)
    page = RoundPage(DAY, (package(1),), (package(2),), (), (package(7),), (), (LOT,), (RUN,))
    water = WaterResult(
        Fraction(1000), Fraction(155), Fraction(62), Fraction(845), Fraction(845, 155),
        Fraction(338), 338.607, 1.4312, 1.4109,
    )  # fmt: skip
    working = WorkingPage("26329A072", (water_working(10_000, 1_550, 620, 3_380),))
    return {
        "packages": packages.package_list(PACKAGES),
        "no packages": packages.package_list(()),
        "package": package_page.package_report(detail, units),
        "package gone": package_page.package_report(
            PackageDetail(GONE, (), None, "", (), (), False, 0), units
        ),
        "package without best-by": package_page.package_report(
            PackageDetail(package(9), (), None, TOO_WARM, (), (), False, 0), units
        ),
        "packages made": packages.made_list(PACKAGES[:1]),
        "drawn": packages.drawn_report(package(taken_dg=0, taken_water_dg=0), detail),
        "lots": lots.lot_list((LOT,)),
        "lot": lots.lot_report(
            LotDetail(LOT, TRAYS[:1], PACKAGES, (LotLoss(1, "tasted", 50, 272, DAY, ""),), PACKING),
            units,
        ),
        "runs": runs.run_list((RUN,)),
        "run": runs.run_report(RunDetail(RUN, TRAYS, (), (), None)),
        "round": round_today.round_report(page),
        "round empty": round_today.round_report(RoundPage(DAY, (), (), (), (), (), (), ())),
        **cooked.reports(units),
        "places": record.place_list(
            ((Place(1, None, "cellar", "cellar", 0, "cellar", 120, 120, STEERING, 0), 2),
             (Place(2, 1, "冷凍", "cellar/冷凍", 1, "freezer", None, None, "", 2), 2))
        ),
        "foods": record.food_list(FOODS),
        "choices": record.food_choices(
            (FoodChoice(AWKWARD, "vegetable", "vegetable", "raw", None, True),
             FoodChoice("peas", "legume_cooked", "starch", "cooked", 79.52, False))
        ),
        "containers": record.container_list(
            (Container(1, "jar-475", "jar 475 mL", "jar", 475, None, None),
             Container(2, "pouch", "pouch", "foil_pouch", 1500, 200, 300))
        ),
        "journal": record.journal_list(
            (JournalEntry(2, datetime(2026, 11, 25, 12, 30, tzinfo=UTC), DAY, "mia", "undo", "undo",
                          "undid: moved it", 1, False),
             JournalEntry(1, datetime(2026, 11, 25, 12, tzinfo=UTC), DAY, AWKWARD, "do", "move",
                          f"moved {STEERING}", None, True))
        ),
        "household": household.household_report(AWKWARD, 2, units, "/home/mia/stockroom.db"),
        "working": workings.working_report(working),
        "done": done_report(Done("moved it", PACKING, ("26329A072",), 4)),
        **outlooks.reports(units),
        **calculations.reports(),
        **machine.reports(),
        **evidence.reports(units),
        **sampled.reports(),
        **traces.reports(units),
        "water": water_result(water),
        "code": code_result(CodeResult("26329A072", "package", True, "2")),
        "code wrong": code_result(CodeResult("ABC", "other", False, "2")),
    }  # fmt: skip
