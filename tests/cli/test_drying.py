"""Weighing, testing and drying longer; the gate before packing without oxygen."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import datetime, timedelta

import pytest

from tests.cli.conftest import Cli
from tests.world import APPLE, PEAS

ABSORBER = "4xpouch-1500-foil:30,absorber=300"


@pytest.fixture
def bench(nowhere: Cli) -> Cli:
    """An open run: two trays of peas, one of apple."""
    nowhere("init", "--units", "metric", "--people", "2")
    nowhere("run", "new")
    nowhere("run", "load", "1", PEAS, "1000")
    nowhere("run", "load", "2", PEAS, "1000")
    nowhere("run", "load", "3", APPLE, "1200")
    return nowhere


def _dry(cli: Cli, *weights: str) -> None:
    for tray, weight in enumerate(weights, start=1):
        cli("run", "dry", str(tray), weight)


def _shown_dry(cli: Cli) -> None:
    """Every tray weighed twice, and every food felt and broken on its slowest tray."""
    _dry(cli, "155", "157", "170")
    _dry(cli, "155", "156", "170")
    for tray in ("2", "3"):
        cli("run", "test", tray, "cold", "ok")
        cli("run", "test", tray, "break", "ok")


def test_every_dry_weighing_is_kept_and_the_last_one_counts(bench: Cli) -> None:
    bench("run", "dry", "1", "158", "--hours", "30")
    answer = bench("run", "dry", "1", "155.5", "--hours", "31,5")
    assert answer.out == f"Weighed tray 1 of run 1 dry, 155.5 g {PEAS} after 31.5 h.\n"
    assert answer.err.startswith("Tray 1: The last loss of 2.5 g is more than 1 g")
    last = bench("run", "dry", "1", "155")
    assert "This scale is too coarse to tell on this tray" in last.err
    found = bench("run", "show", "--json").json
    assert found["trays"][0]["dry_dg"] == 1_550
    rows = [
        (one["reading"], one["hours"], one["weight_dg"], one["loss_dg"], one["counts"])
        for one in found["weighings"]
    ]
    assert rows == [
        (1, 30.0, 1_580, None, "yes"),
        (2, 31.5, 1_555, 25, "yes"),
        (3, None, 1_550, 5, "yes"),
    ]
    # Losses are shares of the last weight: 2.5 g of 155 g.
    assert found["weighings"][1]["loss_percent_of_last"] == pytest.approx(100 * 2.5 / 155)


def test_a_single_weight_says_nothing_yet(bench: Cli) -> None:
    assert bench("run", "dry", "1", "155").err == ""
    assert bench("run", "dry", "2", "155", "--json").err == ""


def test_hours_have_to_be_a_number(bench: Cli) -> None:
    for hours in ("soon", "-1", "1e9", "1001"):
        answer = bench("run", "dry", "1", "155", "--hours", hours, code=2)
        assert answer.err.startswith("hours: ") and answer.out == ""
    assert "No such option" in bench("run", "weigh", "1", "900", "--hours", "1", code=2).err


def test_tests_are_recorded_in_plain_words(bench: Cli) -> None:
    for line, said in (
        ("1 cold ok", "Cold touch of tray 1 of run 1 (Peas, green, frozen, boiled): no cold spot."),
        (
            "1 cold fail",
            "Cold touch of tray 1 of run 1 (Peas, green, frozen, boiled): a cold spot.",
        ),
        ("3 BREAK OK", "Break test of tray 3 of run 1 (Apple, raw, peeled): snaps."),
        ("3 break fail", "Break test of tray 3 of run 1 (Apple, raw, peeled): does not snap."),
    ):
        assert bench("run", "test", *line.split()).out == f"{said}\n"
    bench("run", "test", "2", "cold", "ok", "--note", "thick end")
    tests = bench("run", "show", "--json").json["tests"]
    assert [(one["tray"], one["kind"], one["passed"]) for one in tests] == [
        (1, "cold", True),
        (1, "cold", False),
        (2, "cold", True),
        (3, "break", True),
        (3, "break", False),
    ]
    assert tests[2]["note"] == "thick end"


def test_a_test_is_refused_where_there_is_nothing_to_test(bench: Cli) -> None:
    assert "There is no tray “9”." in bench("run", "test", "9", "cold", "ok", code=3).err
    bench("run", "test", "31", "cold", "ok", code=2)
    bench("run", "test", "1", "smell", "ok", code=2)
    assert "none of ok, fail" in bench("run", "test", "1", "cold", "maybe", code=2).err
    bench("run", "abandon")
    assert "is abandoned" in bench("run", "test", "1", "cold", "ok", "--run", "1", code=3).err
    bench("run", "test", "1", "cold", "ok", code=3)  # no run is open


def test_a_closed_run_can_still_be_tested(bench: Cli) -> None:
    _dry(bench, "155", "156", "170")
    bench("run", "close")
    bench("run", "test", "1", "cold", "ok", code=3)
    bench("run", "test", "1", "cold", "ok", "--run", "1")
    bench("run", "dry", "1", "154", "--run", "1", code=3)


def test_a_few_more_hours_leave_older_evidence_behind(bench: Cli) -> None:
    _shown_dry(bench)
    answer = bench("run", "more", "2.5", "--note", "cold middle")
    assert answer.out == "Run 1 dries 2.5 h more, to be weighed and tested again.\n"
    assert answer.err == "The time it ends is in stockroom round and stockroom run show.\n"
    found = bench("run", "show", "--json").json
    assert {one["counts"] for one in found["weighings"] + found["tests"]} == {
        "no, before the extra hours"
    }
    assert [one["hours"] for one in found["extra_hours"]] == [2.5]
    assert not any(one["shown"] for one in found["dryness"])
    reminder = bench("round", "--json").json["reminders"]
    assert [(one["run"], one["hours"], one["note"]) for one in reminder] == [
        (1, 2.5, "cold middle")
    ]
    assert "Drying longer (1)" in bench("round").out
    bench("run", "dry", "1", "155")
    assert bench("round", "--json").json["reminders"] == []
    counts = [one["counts"] for one in bench("run", "show", "--json").json["weighings"][:3]]
    assert counts == ["no, before the extra hours", "as the start", "yes"]


@pytest.fixture
def far_east(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A clock nine hours ahead of UTC."""
    with monkeypatch.context() as patch:
        patch.setenv("TZ", "JST-9")
        time.tzset()
        yield
    time.tzset()


@pytest.mark.usefixtures("far_east")
def test_the_end_of_extra_hours_is_told_by_the_clock_on_the_wall(bench: Cli) -> None:
    bench("run", "more", "1")
    (extra,) = bench("run", "show", "--json").json["extra_hours"]
    (reminder,) = bench("round", "--json").json["reminders"]
    due_at = datetime.fromisoformat(extra["due_at"])
    assert due_at.utcoffset() == timedelta(hours=9) and reminder["due_at"] == extra["due_at"]
    assert f"{due_at:%Y-%m-%d %H:%M}" in bench("round").out


def test_more_hours_need_a_run_and_a_number(bench: Cli) -> None:
    for hours in ("0", "-2", "some", "1001"):
        bench("run", "more", hours, code=2)
    bench("run", "more", "4", "--run", "7", code=3)
    bench("run", "abandon")
    bench("run", "more", "4", code=3)
    assert "is abandoned" in bench("run", "more", "4", "--run", "1", code=3).err


def test_a_run_says_for_each_food_whether_it_is_dry(bench: Cli) -> None:
    _shown_dry(bench)
    bench("run", "dry", "3", "168")
    page = bench("run", "show").out
    for words in (
        f"Dryness of {PEAS}\nDryness is shown: constant weight on every tray, tray 2 snaps",
        "Tray 2, the slowest (cold touch: no cold spot; break test: snaps)",
        f"Dryness of {APPLE}\nDryness is not shown: no constant weight on tray 3.",
        "Next: Dry for an hour more and weigh tray 3 again.",
        "A composition estimate cannot show dryness: go by the plateau and the break test.",
    ):
        assert words in page, words
    peas, apple = bench("run", "show", "--json").json["dryness"]
    assert (peas["shown"], peas["slowest_tray"], peas["missing"]) == (True, 2, [])
    assert [one["too_coarse"] for one in peas["trays"]] == [True, True]
    assert [(one["need"], one["trays"]) for one in apple["missing"]] == [("plateau", [3])]
    assert apple["trays"][0]["losses_g"] == [0.0, 2.0]
    residual = apple["residual"]
    assert residual["low"] < residual["residual_moisture"] < residual["high"]
    working = bench("run", "show", "--working").out
    assert working.count("Dry enough to be packed without oxygen?") == 2


def test_closing_says_what_is_not_shown_to_be_dry(bench: Cli) -> None:
    _shown_dry(bench)
    bench("run", "dry", "3", "160")
    answer = bench("run", "close")
    assert "Lot 26329B: Dryness is not shown: no constant weight on tray 3." in answer.err
    assert "Lot 26329A:" not in answer.err


def test_a_lot_shows_its_gate_and_its_moisture(bench: Cli) -> None:
    _dry(bench, "155", "156", "170")
    bench("run", "close")
    page = bench("lot", "show", "26329B").out
    for words in (
        "Dryness is not shown: no constant weight on tray 3; no break test on tray 3, the slowest;"
        " no cold-touch test.",
        "Tray 3, the slowest: Weighed dry only once",
        "Moisture left by composition: 5.9 %, between",
        "A composition estimate cannot show dryness",
        "Next: Feel the food on every tray for cold or heavy spots.",
    ):
        assert words in page, words
    found = bench("show", "26329B", "--json").json
    assert found["dryness"]["shown"] is False and found["queued"] is None
    # Solids by USDA SR28: 13.33 % of 1200 g, so 1 - 160 / 170 of what came off is water.
    assert found["dryness"]["residual"]["residual_moisture"] == pytest.approx(0.059, abs=0.001)
    assert "estimate-no-proof" in [one["key"] for one in found["cautions"]]
    assert "Dry enough to be packed" in bench("lot", "show", "26329B", "--working").out


class TestGate:
    """Packing without oxygen when dryness is not shown."""

    @pytest.fixture
    def once(self, bench: Cli) -> Cli:
        """Lots weighed once and never tested."""
        _dry(bench, "155", "156", "170")
        bench("run", "close")
        return bench

    def test_it_is_refused_in_one_sentence_with_the_next_step(self, once: Cli) -> None:
        answer = once("pack", "26329A", "--into", ABSORBER, code=3)
        assert answer.out == ""
        assert answer.err.splitlines() == [
            "Not packed without oxygen, because dryness is not shown: no constant weight on trays"
            " 1 and 2; no break test on tray 2, the slowest; no cold-touch test.",
            "Dry for an hour more and weigh trays 1 and 2 again. Or pack it all the same and say"
            " why (--despite).",
        ]
        once("pack", "26329A", "--into", "1xjar-950,vacuum", code=3)
        once("pack", "26329A", "--into", ABSORBER, "--despite", "  ", code=3)
        assert once("lot", "show", "26329A", "--json").json["packages"] == []

    def test_with_air_nothing_is_asked(self, once: Cli) -> None:
        once("pack", "26329A", "--into", "2xjar-950:50", "--despite", "never kept")
        found = once("show", "26329A01", "--json").json
        assert found["gate_reason"] == ""

    def test_a_reason_goes_with_every_such_package(self, once: Cli) -> None:
        answer = once(
            "pack", "26329A", "--into", "2xpouch-950-foil:40,absorber=200",
            "--into", "1xjar-950:50", "--despite", "scale flat, all snaps",
        )  # fmt: skip
        assert (
            "Write on 26329A01E, 26329A02C as well: dryness not shown: scale flat, all snaps"
            in answer.out
        )
        assert "An estimate from a composition table cannot show" in answer.err
        reasons = {
            one["code"]: one["gate_reason"]
            for one in once("lot", "show", "26329A", "--json").json["packages"]
        }
        assert list(reasons.values()) == ["scale flat, all snaps"] * 2 + [""]
        assert "although" in once("show", "26329A01").out
        assert "dryness not shown: scale flat" in once("trace", "26329A01").out
        keys = [one["key"] for one in once("show", "26329A01", "--json").json["cautions"]]
        assert keys[-1] == "local-codes" and "dry-enough" in keys

    def test_once_shown_no_reason_is_kept(self, bench: Cli) -> None:
        _shown_dry(bench)
        bench("run", "close")
        bench("pack", "26329A", "--into", ABSORBER, "--despite", "not needed")
        assert bench("show", "26329A01", "--json").json["gate_reason"] == ""


def test_packet_box_and_tray_are_kept(bench: Cli) -> None:
    _shown_dry(bench)
    bench("run", "close")
    bench(
        "pack", "26329A", "--packet", "October", "--box", "7", "--tray", "2",
        "--into", "1xpouch-950-foil:40,absorber=200",
        "--into", "1xpouch-950-foil:40,absorber=200,packet=new one,box=8,tray=1",
        "--into", "1xjar-475:30",
    )  # fmt: skip
    kept = [
        (one["absorber_packet"], one["container_box"], one["tray"])
        for one in bench("find", "--order", "code", "--json").json
    ]
    assert kept == [("October", "7", 2), ("new one", "8", 1), ("", "7", 2)]
    page = [line.split() for line in bench("show", "26329A01").lines]
    assert ["its", "packet", "October"] in page and ["from", "tray", "2"] in page
    assert "absorber_packet" in bench("find", "--csv").lines[0]


def test_packets_and_boxes_that_cannot_be_are_refused(bench: Cli) -> None:
    _shown_dry(bench)
    bench("run", "close")
    answer = bench("pack", "26329A", "--into", "1xjar-475:30", "--packet", "October", code=2)
    assert answer.err.startswith("--packet goes with absorber=CC")
    for more in (
        ("--packet", ""),
        ("--box", "\x1b[31m"),
        ("--box", "b" * 81),
        ("--tray", "0"),
        ("--tray", "31"),
    ):
        bench("pack", "26329A", "--into", "1xpouch-950-foil,absorber=200", *more, code=2)
    for into in ("1xjar-475,packet=a", "1xjar-475,box=", "1xjar-475,tray=x", "1xjar-475,shelf=2"):
        assert bench("pack", "26329A", "--into", into, code=2).out == ""
    assert bench("find", "--json").json == []
