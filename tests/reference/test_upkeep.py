"""The table of machine checks, row by row against what each rests on."""

from __future__ import annotations

import pytest

from stockroom.domain.upkeep_intervals import Every, Interval
from stockroom.domain.working import Standing
from stockroom.errors import NotFound
from stockroom.reference import upkeep
from stockroom.reference.tables import ReferenceDamaged, Row
from stockroom.reference.upkeep import upkeep_check, upkeep_checks

LOAD = Interval(Every.LOAD, 1)


@pytest.mark.parametrize(
    ("key", "interval", "standing"),
    [
        # University freeze-dryer procedures: each load.
        ("gasket", LOAD, Standing.PUBLISHED),
        ("chamber", LOAD, Standing.PUBLISHED),
        ("start", LOAD, Standing.PUBLISHED),
        ("defrost", LOAD, Standing.ENGINEERING_JUDGEMENT),
        # Vacuum practice, pump trade and laboratory pump practice.
        ("oil", Interval(Every.RUN, 1), Standing.PUBLISHED),
        ("oil_change", Interval(Every.HOURS, 10), Standing.PUBLISHED),
        ("pump", Interval(Every.HOURS, 3000), Standing.PUBLISHED),
        # Monthly; at least every three months by Monograph 7 of the Parenteral Society.
        ("leak", Interval(Every.DAYS, 30), Standing.ENGINEERING_JUDGEMENT),
        # 1 to 3 and 6 to 12 months, remembered.
        ("coil", Interval(Every.DAYS, 60), Standing.FROM_MEMORY),
        ("hose", Interval(Every.DAYS, 182), Standing.FROM_MEMORY),
        ("scale", Interval(Every.DAYS, 30), Standing.ENGINEERING_JUDGEMENT),
        ("thermometer", Interval(Every.DAYS, 182), Standing.ENGINEERING_JUDGEMENT),
    ],
)
def test_each_check_and_on_whose_word(key: str, interval: Interval, standing: Standing) -> None:
    found = upkeep_check(key)
    assert (found.interval, found.standing) == (interval, standing)
    assert found.look.endswith(".") and found.name == found.name.strip()


def test_there_are_no_others() -> None:
    assert len(upkeep_checks()) == 12
    assert [key for key, one in upkeep_checks().items() if key != one.key] == []


def test_the_leak_test_names_the_published_limit_and_what_it_follows() -> None:
    leak = upkeep_check("leak")
    assert leak.anchor is not None and "three months" in leak.anchor.citation
    assert leak.after_trouble_with == ("gasket", "hose")


def test_an_unknown_check_is_not_found_but_its_nearest_are_named() -> None:
    with pytest.raises(NotFound, match="no check “gaskets”") as caught:
        upkeep_check("gaskets")
    assert "gasket" in caught.value.hint


SOUND = {
    "key": "gasket", "name": "seal", "look": "Look.", "every": "load", "count": "1",
    "after_trouble_with": "", "source": "practice", "anchor": "",
    "standing": "common practice, no source",
}  # fmt: skip


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([SOUND, SOUND], "gasket stands there twice"),
        ([{**SOUND, "every": "moon"}], "nothing goes by “moon”"),
        ([{**SOUND, "count": "2"}], "gasket cannot be every 2 load"),
        ([{**SOUND, "every": "days", "count": "0"}], "gasket cannot be every 0 days"),
        ([{**SOUND, "after_trouble_with": "hose"}], "after trouble with hose"),
        ([{**SOUND, "after_trouble_with": "gasket"}], "after trouble with gasket"),
    ],
)
def test_a_table_that_cannot_be_is_damage(
    rows: list[Row], said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def torn(name: str) -> tuple[Row, ...]:
        return tuple(rows)

    monkeypatch.setattr(upkeep, "read_table", torn)
    with pytest.raises(ReferenceDamaged, match=said):
        upkeep_checks.__wrapped__()
