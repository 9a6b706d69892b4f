"""docs/errors.md, written from every error class built of example arguments.

    python -m tests.cli.errors_page     writes the page anew

A new class gets its arguments by their names from `BY_PARAMETER` or by their types from `BY_KIND`;
one that reads badly so has an entry in `EXAMPLES`.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import sys
from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

import stockroom
from stockroom.domain.conditions import Condition, Event
from stockroom.domain.cooking import Basis, CookLine, CookPlan, StoredNeed
from stockroom.domain.evidence_records import QueueEntry
from stockroom.domain.foods import Preparation
from stockroom.domain.gate import Missing, Need
from stockroom.domain.keeping.interface import FoodClass
from stockroom.domain.records import Package, Run
from stockroom.domain.safe_cooking import MINCED_MEAT, RawFood
from stockroom.domain.soft_decision import Feel, Outcome, Signs, SoftFacts, decide
from stockroom.domain.trace_records import Group, GroupKind
from stockroom.errors import StockroomError

PAGE = Path(__file__).resolve().parents[2] / "docs" / "errors.md"

INTRODUCTION = """\
# When something stands in the way

Each trouble is told in one sentence, and the next line says what to do. An action is done whole or
not at all: what was refused changed nothing. Every sentence is here, with examples filled in.

Exit codes: 2 for something typed that cannot be read, 3 for everything else here. A mistake in
the words of a command itself (a missing word, an option that does not exist) also ends with 2. A
fault of stockroom's own ends with 3 and names the log with its details; `STOCKROOM_DEBUG=1` shows
them at once.
"""

BY_PARAMETER: dict[str, Any] = {
    "code": "26329A",
    "path": "cellar/rack 1",
    "below": "cellar/rack 1/bin 2",
    "name": "Pea soup",
    "food": "peas",
    "target": "the store",
    "what": "tray 3 dry",
    "why": "no space left on the device",
    "words": "moved 26329A072 (peas) to loft",
    "kind": "place",
    "typed": "bin 2",
    "wanted": "26329A09",
    "several": ("cellar/bin 2", "loft/bin 2"),
    "bad_lines": ("line 3, best_by: “1 March” cannot be read",),
    "nearest": ("26329A072", "26329A089"),
    "nearest_codes": ("26329A072",),
    "unknown": ("0009_tally",),
    "accepted": "a weight such as 62, 62.5 g, 1.2 kg or 2 lb 3 oz",
    "run_id": 7,
    "position": 3,
    "wet_dg": 1_550,
    "dry_dg": 10_000,
    "gross_dg": 6_500,
    "tare_dg": 7_200,
    "asked_dg": 4_000,
    "left_dg": 1_550,
    "use_dg": 2_000,
    "volume_ml": 400,
    "at_c": 120.0,
    "recipe": "Pea soup",
    "dish": "Pea soup",
    "serves": 4,
    "people": 0,
    "vacuum_tenth_inhg": 310,
    "barometer_thousandth_inhg": 29_921,
    "residual_moisture": Fraction(12, 100),
    "condition": Condition.USED,
    "event": Event.OPEN,
    "temperature_c": 41.0,
    "limit_c": 38.0,
    "from_day": date(2026, 7, 1),
    "on_day": date(2026, 3, 1),
    "sealed_on": date(2026, 11, 25),
    "shown": "130 %",
    "allowed": "0 to 100 %",
    "table": "foods",
    "question": "Units, metric or us",
    "option": "--units metric or --units us",
    "entry": QueueEntry(
        3, 1, "26329A", 7, "26329A072", "peas", 620, date(2026, 11, 26), "soft", "loaded", 8, 21, 2,
        None, "freezer",
    ),
    "missing": (
        Missing(
            Need.BREAK, (2,), "no break test on tray 2, the slowest",
            "Break the thickest piece on tray 2 and look at its middle.",
        ),
    ),
    "others": ("26329A089", "26329A09F"),
    "chosen": Outcome.REPACK,
    "decision": decide(
        SoftFacts(
            FoodClass.VEGETABLE, Preparation.COOKED, True, date(2026, 11, 1), date(2026, 11, 20),
            date(2026, 11, 25), feel=Feel.SLIGHTLY_SOFT, signs=Signs.NONE,
        ),
        machine_free=True,
    ),
    "soft_on": date(2026, 11, 20),
    "run": Run(7, date(2026, 11, 24), date(2026, 11, 25), "closed", "", 4, "peas"),
    "plan": CookPlan(
        "Pea soup",
        6,
        (
            CookLine(
                StoredNeed(1, "peas", Basis.FRESH, 7_200), picks=(), dry_dg=0, water_dg=0,
                shortfall_dg=3_200,
            ),
        ),
        0,
        0,
        (),
    ),
    "package": Package(
        package_id=7, code="26329A072", lot_id=1, lot_code="26329A", food_id=1, food="peas",
        food_class="vegetable", preparation="cooked", container="foil pouch 1.5 L",
        container_key="pouch-1500-foil", package_kind="foil_pouch", volume_ml=1500,
        absorber_cc=300, vacuum=False, vacuum_tenth_inhg=None, dry_dg=620, water_dg=3380,
        taken_dg=620, taken_water_dg=3380, serving_dg=850, made_on=date(2026, 11, 25),
        sealed_on=date(2026, 11, 25), place_id=None, place="", condition="used",
        opened_on=date(2026, 12, 1), gone_on=date(2026, 12, 3), best_by=None, note="",
    ),
}  # fmt: skip
"""Name of a parameter → an example of it."""

BY_KIND: dict[str, Any] = {
    "int": 7,
    "float": 1.5,
    "str": "something",
    "Fraction": Fraction(3, 2),
    "date": date(2026, 11, 25),
}
"""Type of a parameter → an example, for a name the table above does not have."""

EXAMPLES: dict[str, dict[str, Any]] = {
    "BackupInTheWay": {"path": "copy.db"},
    "BackupMissing": {"path": "copy.db"},
    "BackupUnusable": {"path": "copy.db", "why": "it is not a stockroom store"},
    "BadInput": {"what": "weight", "typed": "a handful"},
    "NotFound": {"kind": "package"},
    "DryAboveWet": {"what": "Tray 3"},
    "ExportDamaged": {
        "path": "record.json",
        "part": "row 3 of lot",
        "why": "dry_dg is missing",
    },
    "ExportNewer": {"path": "record.json", "wanted": "version 2 of the document"},
    "ListEmpty": {"name": "larder.csv"},
    "ListHasProblems": {"count": 3, "line": 7, "why": "“6O g”: it is no number"},
    "TareAboveGross": {"what": "Tray 3"},
    "CopyUnsound": {
        "path": "/home/mia/backups/stockroom-2026-11-25T063000Z.db",
        "why": "it does not hold as many rows as the store",
    },
    "CopyUnwritable": {"path": "/home/mia/backups/stockroom-2026-11-25T063000Z.db"},
    "StoreInUse": {"path": "/home/mia/stockroom.db"},
    "CodeMistyped": {"typed": "26329A073"},
    "StoreInTheWay": {"path": "/home/mia/stockroom.db"},
    "StoreMissing": {"path": "/home/mia/stockroom.db"},
    "StoreExists": {"path": "/home/mia/stockroom.db"},
    "StoreNewer": {"path": "/home/mia/stockroom.db"},
    "StoreLocked": {"path": "/home/mia/stockroom.db"},
    "StoreDamaged": {"path": "/home/mia/stockroom.db", "why": "it is not a stockroom store"},
    "StoreUnwritable": {"path": "/home/mia/stockroom.db"},
    "StoreUnreachable": {"path": "/home/mia/stockroom.db", "why": "permission denied"},
    "ReferenceDamaged": {"why": "the key pea_raw stands there twice"},
    "BeforeSealing": {"what": "opened"},
    "BetweenDoesNotFit": {"why": "it was taken after 600 s of 600 s"},
    "ImpossibleCount": {"what": "The number of packages not looked at", "count": -1, "most": 9},
    "ImpossibleFigure": {"what": "relative humidity"},
    "ImpossibleSample": {"what": "The confidence", "shown": "100 %", "allowed": "below 100 %"},
    "FileNotText": {"path": "readings.xls"},
    "FileTooLarge": {"path": "readings.csv", "most_mib": 64},
    "FileInTheWay": {"path": "letters.txt", "kind": "calendar"},
    "FileUnreadable": {"path": "readings.csv", "why": "no such file or directory"},
    "FileUnwritable": {"path": "stockroom.ics"},
    "FoodExists": {"name": "Garden peas"},
    "MemberTaken": {"name": "Ann"},
    "NegativeUncertainty": {"what": "The uncertainty", "value": -0.01},
    "MeasureMissing": {"measure": "cup", "known": ("scoop",)},
    "RawWithoutCooking": {"raw_foods": (RawFood("raw mince", MINCED_MEAT),)},
    "CookedTooLittle": {"raw_foods": (RawFood("raw mince", MINCED_MEAT),), "cook_to_dc": 628},
    "SameMeasure": {"name": "cup"},
    "NoEnergyFigure": {
        "what": "a body weight of 300 kg",
        "hint": "Give 30 to 250 kg, or neither weight nor height for the figure of the table.",
    },
    "NoRise": {"from_mbar": Fraction(3, 5), "to_mbar": Fraction(3, 10)},
    "NoTime": {"seconds": Fraction(0)},
    "NoVolume": {"volume_l": Fraction(0)},
    "LabelsTooSmall": {"width_um": 40_000, "height_um": 12_000},
    "LinesLeftOut": {"bad": 2, "count": 9},
    "LooksADay": {"most_a_day": 0},
    "LooksOutOfOrder": {"first_days": 30, "second_days": 7, "later_days": 183},
    "MissesAndAccepts": {"accept": 1, "sensitivity": Fraction(9, 10)},
    "NoRecipeInFile": {"path": "soup.html"},
    "NotARecipeFile": {"path": "soup.json", "why": "the file is no JSON: line 3, column 5"},
    "NotDecided": {
        "questions": (
            "line 3: what one cup of Peas weighs is not known: weigh one, and give grams",
            "for how many it is was not said",
        ),
    },
    "RecipeFileTooLarge": {"path": "soup.html"},
    "RecipeFileUnreadable": {"path": "soup.html", "why": "there is no such file"},
    "NoSuchPrior": {"soft": Fraction(0), "sound": Fraction(1)},
    "NoSuchShare": {"soft": 6, "looked_at": 5},
    "NoSuchWaterFraction": {"what": "The share of water", "share": 1.5},
    "SameSheet": {"name": "Freezer"},
    "SheetNameTaken": {"name": "A4 3 × 8, 70 × 37 mm"},
    "SheetOffPage": {"side": "right", "by_um": 3_500},
    "StartOffSheet": {"start": 25, "places": 24},
    "SameLock": {"locked": True},
    "DishNotPlannable": {"why": "holds milk, which Ann must not get"},
    "MenuOutdated": {"why": "the shelves do not cover all of it any more."},
    "WishesUnreadable": {"why": "“feast” is no wish"},
    "SameInterval": {"name": "pump oil", "words": "every 30 days"},
    "NudgeTooFar": {"by_um": 25_000},
    "RateBelowOne": {"lot": 12, "rate": Fraction(1, 20)},
    "NotRecorded": {"kind": GroupKind.PACKET, "code": "26329A072"},
    "NothingToRecall": {"group": Group(GroupKind.RUN, "7", ((Condition.SUSPECT, 6),), ())},
    "SameNote": {"code": "26329A072"},
    "TextDoesNotFit": {
        "code": "26329A072",
        "size": (38_100, 21_200),
        "least": (38_100, 25_000),
    },
    "NothingToLabel": {"what": "lot 26329A"},
    "TooFewReadings": {"count": 1},
    "TooMuchForContainer": {"dry_dg": 9_000},
    "TooYoungToList": {"years": Fraction(1)},
}
"""Error class → arguments of its own, where the common example would not read well."""


def error_classes() -> list[type[StockroomError]]:
    """Every error of the program, by name; only those that word their own message."""
    for module in pkgutil.walk_packages(stockroom.__path__, "stockroom."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    return sorted(
        (one for one in set(_below(StockroomError)) if "message" not in _parameters(one)),
        key=lambda one: (one.__name__, one.__module__),
    )


def example(kind: type[StockroomError]) -> StockroomError:
    """One error built of its example arguments. Fails with the name of a missing example."""
    own = EXAMPLES.get(kind.__name__, {})
    values: dict[str, Any] = {}
    for name, parameter in inspect.signature(kind).parameters.items():
        known = {**BY_KIND, **BY_PARAMETER, **own}
        found = name if name in known else str(parameter.annotation)
        assert found in known, f"no example of {kind.__name__}({name}: {found})"
        values[name] = known[found]
    build: Callable[..., StockroomError] = kind
    return build(**values)


def page() -> str:
    """The whole page."""
    lines = [INTRODUCTION]
    for code, title in ((2, "Something typed cannot be read"), (3, "It cannot be done")):
        lines += [
            f"## {title} (exit code {code})\n",
            "| What it says | What to do | |",
            "|---|---|---|",
        ]
        lines += [_row(kind) for kind in error_classes() if kind.exit_code == code]
        lines.append("")
    return "\n".join(lines)


def _row(kind: type[StockroomError]) -> str:
    error = example(kind)
    said, hint = (text.replace("|", "\\|") for text in (error.message, error.hint))
    return f"| {said} | {hint} | `{kind.__name__}` |"


def _below(kind: type[StockroomError]) -> Iterator[type[StockroomError]]:
    for one in kind.__subclasses__():
        if one.__module__.startswith("stockroom."):
            yield one
            yield from _below(one)


def _parameters(kind: type[StockroomError]) -> tuple[str, ...]:
    return tuple(inspect.signature(kind).parameters)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    sys.exit(0)
