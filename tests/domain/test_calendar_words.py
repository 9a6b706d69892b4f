"""What calendar entries say: where to go, what to look for, what to bear in mind."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import pytest

from stockroom.domain.calendar_words import (
    NO_PLACE,
    drying_entry,
    near_the_first,
    recheck_entry,
    settle_entry,
    upkeep_entry,
    use_first_entry,
)
from stockroom.domain.evidence_records import ExtraDrying
from stockroom.domain.looking import how_to_look
from stockroom.domain.machine_cautions import cautions_beside
from stockroom.domain.records import Package
from stockroom.domain.upkeep import CheckHistory, Machine, UpkeepCheck, UpkeepItem, upkeep_items
from stockroom.domain.upkeep_intervals import OFF, Every, Interval
from stockroom.domain.working import Source, Standing

DAY = date(2026, 11, 25)
LOCAL_CODES = "Follow local codes and licensed guidance"


def package(code: str, **changes: Any) -> Package:
    """A pouch of peas in the cellar."""
    one = Package(
        package_id=1, code=code, lot_id=1, lot_code="26329A", food_id=1, food="peas",
        food_class="vegetable", preparation="cooked", container="foil pouch 1.5 L",
        container_key="pouch-1500-foil", package_kind="foil_pouch", volume_ml=1500,
        absorber_cc=300, vacuum=False, vacuum_tenth_inhg=None, dry_dg=620, water_dg=3380,
        taken_dg=0, taken_water_dg=0, serving_dg=850, made_on=DAY, sealed_on=DAY, place_id=1,
        place="cellar/rack 1", condition="sound", opened_on=None, gone_on=None,
        best_by=date(2027, 3, 1), note="",
    )  # fmt: skip
    return replace(one, **changes)


def test_a_recheck_leads_from_place_to_place_in_the_order_of_the_shelves() -> None:
    entry = recheck_entry(
        DAY,
        [
            package("26329A03X", place="loft"),
            package("26329A01E"),
            package("26330B01Q", food="apple"),
            package("26329A02C"),
            package("26330B02O", food="apple", place=""),
            package("26330B03M", food="apple", place="Cellar"),
        ],
    )
    assert entry.summary == "Recheck 6 packages"
    assert entry.key == "20261125"
    assert entry.lines[: entry.lines.index("")] == (
        NO_PLACE,
        "- apple: 26330B02O",
        "Cellar",
        "- apple: 26330B03M",
        "cellar/rack 1",
        "- peas: 26329A01E, 26329A02C",
        "- apple: 26330B01Q",
        "loft",
        "- peas: 26329A03X",
    )


def test_each_kind_of_container_is_looked_at_in_its_way() -> None:
    jar = {"package_kind": "jar", "container_key": "jar-950"}
    can = {"package_kind": "jar", "container_key": "can-850"}
    metallised = {"package_kind": "metallised_pouch", "container_key": "pouch-1500-metal"}
    entry = settle_entry(
        DAY,
        [
            package("26329A01E", **jar),
            package("26329A02C", **can),
            package("26329A03X"),
            package("26329A04V", **metallised),
        ],
    )
    assert entry.summary == "Settle check of 4 packages"
    start = entry.lines.index("How to look:") + 1
    assert entry.lines[start : start + 3] == (
        f"- can: {how_to_look('jar', 'can-850')}",
        f"- foil pouch, metallised pouch: {how_to_look('foil_pouch')}",
        f"- jar: {how_to_look('jar', 'jar-950')}",
    )
    assert all(line.endswith("Never taste.") for line in entry.lines[start : start + 3])


@pytest.mark.parametrize("entry", [recheck_entry, settle_entry], ids=["recheck", "settle"])
def test_whoever_goes_to_look_has_the_cautions_along(entry: Any) -> None:
    said = "\n".join(entry(DAY, [package("26329A01E")]).lines)
    assert "do not eat from it" in said
    assert "Never taste food to test it." in said
    assert "swollen" in said and LOCAL_CODES in said


def test_use_first_says_that_the_day_is_no_limit_of_safety() -> None:
    entry = use_first_entry(
        [
            package("26329A01E"),
            package("26329A02C", condition="opened", best_by=date(2027, 3, 9)),
        ],
        keeping_longer=1,
    )
    assert entry.summary == "Use first: peas 26329A, 2 packages"
    assert (entry.on_day, entry.key) == (date(2027, 3, 1), "26329A")
    assert entry.lines[0] == "Best-by 2027-03-01, a quality estimate, not safety."
    assert "- peas: 26329A01E, 26329A02C (open)" in entry.lines
    assert "1 more package of this lot keeps longer." in entry.lines
    said = "\n".join(entry.lines)
    assert "Never taste food to test it." in said and LOCAL_CODES in said
    assert "Raw stays raw" not in said


def test_raw_food_stays_raw_in_the_calendar_too() -> None:
    entry = use_first_entry([package("26329A01E", preparation="raw")], keeping_longer=0)
    assert any("Raw stays raw: cook it after adding water." in line for line in entry.lines)
    assert not any("longer" in line for line in entry.lines)


def test_near_the_first_is_a_month() -> None:
    first = date(2027, 3, 1)
    assert near_the_first(first, first)
    assert near_the_first(first, date(2027, 3, 31))
    assert not near_the_first(first, date(2027, 4, 1))


def test_the_end_of_extra_drying_has_its_hour() -> None:
    due_at = datetime(2026, 11, 26, 1, 30, tzinfo=UTC)
    entry = drying_entry(ExtraDrying(3, 7, 25, DAY, due_at, 0, 0, "[tray 2] was cold"))
    assert entry.summary == "Run 7: weigh and test again"
    assert (entry.key, entry.at, entry.on_day) == ("run-7", due_at, date(2026, 11, 26))
    assert entry.lines[0] == "2.5 h more were begun on 2026-11-25."
    assert "[tray 2] was cold" in entry.lines


def _item(interval: Interval, history: CheckHistory, today: date = DAY) -> UpkeepItem:
    """A check of the machine as it stands, by the rules of upkeep themselves."""
    source = Source("ours", "engineering judgement", Standing.ENGINEERING_JUDGEMENT)
    check = UpkeepCheck(
        "oil_change", "pump oil", "Change the oil.", interval, (), source, source.standing, None
    )
    (item,) = upkeep_items([check], {}, {check.key: history}, Machine(date(2026, 11, 1)), today)
    return item


def test_a_check_of_the_machine_stands_on_its_day_with_its_cautions() -> None:
    item = _item(Interval(Every.DAYS, 30), CheckHistory(DAY, passed_on=DAY))
    entry = upkeep_entry(item, DAY)
    assert entry is not None
    assert (entry.summary, entry.key) == ("Upkeep: pump oil", "oil-change")
    assert entry.on_day == date(2026, 12, 25)
    assert entry.lines[:2] == ("Change the oil.", "Wanted every 30 days. Last done 2026-11-25.")
    assert entry.lines[2:] == tuple(one.text for one in cautions_beside("oil_change"))
    assert LOCAL_CODES in entry.lines[-1]


@pytest.mark.parametrize(
    ("interval", "history"),
    [
        (Interval(Every.DAYS, 10), CheckHistory()),
        (Interval(Every.HOURS, 10), CheckHistory(hours_tenths=200)),
        (Interval(Every.DAYS, 900), CheckHistory(DAY, last_passed=False, failed_on=DAY)),
    ],
    ids=["overdue", "by hours", "at fault"],
)
def test_what_is_wanted_already_stands_on_today(interval: Interval, history: CheckHistory) -> None:
    later = date(2026, 12, 30)
    entry = upkeep_entry(_item(interval, history, later), later)
    assert entry is not None and entry.on_day == later


@pytest.mark.parametrize(
    ("interval", "history"),
    [
        (Interval(Every.LOAD, 1), CheckHistory(runs_since=4)),
        (Interval(Every.HOURS, 100), CheckHistory(hours_tenths=200)),
        (OFF, CheckHistory()),
    ],
    ids=["every load", "hours not run yet", "left out"],
)
def test_what_has_no_day_is_not_in_the_calendar(interval: Interval, history: CheckHistory) -> None:
    assert upkeep_entry(_item(interval, history), DAY) is None
