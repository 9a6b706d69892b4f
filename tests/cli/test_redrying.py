"""Holding, the queue for the machine, drying again and packing anew."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli
from tests.world import APPLE, PEAS

SLIGHTLY = ("--feel", "slightly-soft", "--signs", "none", "--hours", "20")


@pytest.fixture
def soft(stocked: Cli) -> Cli:
    """26329A01 found soft on the day after sealing; 26329A02 suspect, 31 g not packed yet."""
    stocked("place", "add", "freezer", "--kind", "freezer", "--temp", "-18")
    tomorrow = stocked.on("2026-11-26")
    tomorrow("check", "26329A01", "soft")
    return tomorrow


@pytest.fixture
def held(soft: Cli) -> Cli:
    """Both packages wait in the freezer, the unpacked food after them."""
    soft("decide", "26329A01", *SLIGHTLY, "--as", "hold", "--place", "freezer", "--sisters")
    soft("lot", "hold", "26329A", "--why", "soft sisters")
    return soft


def states(cli: Cli) -> list[tuple[int, str, str]]:
    """The queue as turn, code and state."""
    return [(one["turn"], one["code"], one["state"]) for one in cli("queue", "--json").json]


def test_a_suspect_sister_is_held(soft: Cli) -> None:
    answer = soft("hold", "26329A02", "--place", "freezer", "--why", "its sister")
    assert answer.out == f"Held 26329A02C ({PEAS}) until the machine is free, in freezer.\n"
    (entry,) = soft("queue", "--json").json
    assert (entry["reason"], entry["place"], entry["dry_dg"]) == ("its sister", "freezer", 620)
    assert entry["next"] == "stockroom run again TRAY 26329A02C"
    page = soft("queue").out
    assert "First come first served" in page and "run again" in page
    assert "waits for the machine" in soft("show", "26329A02").out
    assert soft("hold", "26329A02", code=3).out == ""


def test_what_was_found_at_fault_is_held_by_a_decision_only(soft: Cli) -> None:
    answer = soft("hold", "26329A01", code=3)
    assert answer.err.startswith("26329A01E was itself found at fault.")


def test_a_sister_is_looked_at_once_a_day_has_passed(soft: Cli) -> None:
    answer = soft.on("2026-12-03")("hold", "26329A02", code=3)
    assert "Look at it first" in answer.err


def test_holding_several_says_what_was_done_before_a_refusal(soft: Cli) -> None:
    answer = soft("hold", "26329A02", "26329A01", code=3)
    assert answer.lines == [f"Held 26329A02C ({PEAS}) until the machine is free."]
    soft("hold", "26329A02", "26329A77", code=3)
    soft("hold", "26329A02", "--place", "attic", code=3)
    soft("hold", "26329A", code=2)
    soft("hold", code=2)


def test_a_lot_is_held_and_released(stocked: Cli) -> None:
    answer = stocked("lot", "hold", "26329A", "--why", "a cold spot")
    assert answer.out == f"Held 31.0 g of lot 26329A ({PEAS}) until the machine is free.\n"
    assert "waits for the machine, since 2026-11-25: a cold spot" in (
        stocked("lot", "show", "26329A").out
    )
    assert stocked("round", "--json").json["to_pack"] == []
    refused = stocked("pack", "26329A", "--into", "1xjar-475", code=3)
    assert refused.err.startswith("26329A is in the queue for the machine.")
    stocked("lot", "hold", "26329A", code=3)
    released = stocked("lot", "release", "26329A")
    assert released.out == f"Took lot 26329A ({PEAS}) out of the queue for the machine.\n"
    assert "does not wait" in stocked("lot", "release", "26329A", code=3).err
    stocked("pack", "26329A", "--into", "1xjar-475")
    assert "All of lot 26329A is packed" in stocked("lot", "hold", "26329A", code=3).err
    stocked("lot", "hold", "26329Z", code=3)
    stocked("lot", "release", "nothing", code=2)


def test_the_queue_keeps_its_order_through_the_machine(held: Cli) -> None:
    assert states(held) == [
        (1, "26329A01E", "waiting"),
        (2, "26329A02C", "waiting"),
        (3, "26329A", "waiting"),
    ]
    held("run", "new")
    loaded = held("run", "again", "1", "26329A01", "26329A02", "--weight", "131")
    assert loaded.out == (
        f"Loaded 26329A01E, 26329A02C ({PEAS}) again on tray 1 of run 2, 131.0 g.\n"
    )
    held("run", "again", "2", "26329A", "--weight", "697", "--tare", "666")
    assert [state for _, _, state in states(held)] == ["loaded"] * 3
    trays = held("run", "show", "--json").json["trays"]
    assert [(one["wet_dg"], one["again"]) for one in trays] == [
        (1_310, ["26329A01E", "26329A02C"]),
        (310, ["26329A"]),
    ]
    assert "again: 26329A01E, 26329A02C" in held("run", "show").out
    assert "on tray 1 of run 2" in held("show", "26329A01").out
    held("run", "dry", "1", "121")
    held("run", "dry", "2", "696")
    held("run", "close", code=0)
    assert states(held) == [(1, "26329A01E", "dried"), (2, "26329A02C", "dried")]
    lot = held("lot", "show", "26329A", "--json").json
    assert (lot["left_dg"], lot["driven_off_dg"], lot["queued"]) == (300, 10, None)
    assert "driven off" in held("lot", "show", "26329A").out


def test_the_queue_goes_to_csv(held: Cli) -> None:
    heading, first, *_ = held("queue", "--csv").lines
    assert heading.startswith("turn,code,food,dry_g,since,reason,state,next,lot")
    assert first.startswith("1,26329A01E,") and "stockroom run again TRAY 26329A01E" in first


def test_the_round_lists_the_queue_once(held: Cli) -> None:
    page = held("round").out
    assert "Waiting for the machine (3)" in page and "Held in the freezer" not in page
    found = held("round", "--json").json
    assert [one["code"] for one in found["queue"]] == ["26329A01E", "26329A02C", "26329A"]
    assert {one["code"] for one in found["held"]} == {"26329A01E", "26329A02C"}
    rows = [row.split(",")[0] for row in held("round", "--csv").lines[1:]]
    assert rows.count("queue") == 3 and "held" not in rows


def test_loading_again_is_refused_where_it_does_not_fit(held: Cli) -> None:
    held("run", "again", "1", "26329A01", code=3)  # no run is open
    held("run", "new")
    held("run", "load", "1", APPLE)
    assert "already holds" in held("run", "again", "1", "26329A01", code=3).err
    assert "one lot only" in held("run", "again", "2", "26329A01", "26329A", code=3).err
    held("run", "again", "2", "26329A01")
    assert "already" in held("run", "again", "3", "26329A01", code=3).err
    held("run", "again", "31", "26329A02", code=2)
    held("run", "again", "3", code=2)
    held("run", "again", "3", "26329A02", "--weight", "heavy", code=2)
    held("run", "again", "3", "26329A02", "--weight", "100", "--tare", "200", code=3)
    held("lot", "release", "26329A")
    assert "does not wait" in held("run", "again", "3", "26329A", code=3).err
    held("run", "unload", "2")
    held("run", "abandon")
    assert states(held) == [(1, "26329A01E", "waiting"), (2, "26329A02C", "waiting")]


class TestRepack:
    """Packing food anew."""

    @pytest.fixture
    def dried(self, held: Cli) -> Cli:
        """Both packages dried again on one tray, weighed once and not tested."""
        held("run", "new")
        held("run", "again", "1", "26329A01", "26329A02", "--weight", "131")
        held("run", "dry", "1", "121")
        return held

    def test_food_dried_again_is_gated_as_fresh_food_is(self, dried: Cli) -> None:
        into = ("--into", "1xpouch-950-foil,absorber=200", "--place", "cellar")
        still = dried("repack", "26329A01", *into, code=3)
        assert "is on tray 1 of run 2" in still.err
        dried("run", "close")
        shut = dried("repack", "26329A01", *into, code=3)
        assert shut.err.startswith("Not packed without oxygen, because dryness is not shown")
        assert "--despite" in shut.err
        done = dried("repack", "26329A01", *into, "--despite", "scale flat", "--packet", "Oct")
        assert done.lines[0] == (
            f"Packed 26329A01E, 26329A02C ({PEAS}) anew, dried again, into 1 package, 26329A03A."
        )
        assert "Write on 26329A03A as well: dryness not shown: scale flat" in done.out
        found = dried("show", "26329A03", "--json").json
        assert (found["origin"], found["dry_dg"]) == ("redried", 1_210)
        assert (found["gate_reason"], found["absorber_packet"]) == ("scale flat", "Oct")
        assert found["sources"] == ["26329A01E", "26329A02C"]
        assert found["first_sealed_on"] == "2026-11-25"
        old = dried("show", "26329A01", "--json").json
        assert (old["condition"], old["successors"]) == ("used", ["26329A03A"])
        page = dried("show", "26329A03").out
        assert "anew, dried again" in page and "food out of" in page
        assert "62.0 g went into a new package" in dried("show", "26329A02").out

    def test_tested_food_needs_no_reason(self, dried: Cli) -> None:
        dried("run", "dry", "1", "121")
        for kind in ("cold", "break"):
            dried("run", "test", "1", kind, "ok")
        dried("run", "close")
        made = dried("repack", "26329A02", "--into", "2xpouch-950-foil,absorber=200", "--json")
        assert made.json["codes"] == ["26329A03A", "26329A048"]
        weights = [one["dry_dg"] for one in dried("find", "26329A", "--json").json]
        assert sorted(weights) == [605, 605]
        dried("undo")
        assert [state for _, _, state in states(dried)] == ["dried", "dried", "waiting"]

    def test_food_that_snaps_is_packed_anew_as_it_is(self, stocked: Cli) -> None:
        stocked("check", "26329A01", "26329A02", "crisp")
        done = stocked("repack", "26329A01", "26329A02", "--into", "1xjar-950")
        assert "anew, as it was, into 1 package" in done.lines[0]
        found = stocked("show", "26329A03", "--json").json
        assert (found["origin"], found["exposed_on"]) == ("repacked", "2026-11-25")

    def test_refusals(self, soft: Cli) -> None:
        for code, words in (
            (3, ("26329A01", "--into", "1xjar-950")),
            (3, ("26329A02", "--into", "1xjar-950")),
            (3, ("26329A77", "--into", "1xjar-950")),
            (2, ("26329A01",)),
            (2, ("--into", "1xjar-950")),
            (2, ("26329A01", "--into", "a jar")),
            (2, ("26329A", "--into", "1xjar-950")),
            (2, ("26329A02", "--into", "1xjar-950", "--packet", "Oct")),
        ):
            assert soft("repack", *words, code=code).out == "", words
        assert "was found soft" in soft("repack", "26329A01", "--into", "1xjar-950", code=3).err
        assert len(soft("find", "--json").json) == 2

    def test_food_that_waits_is_not_packed(self, held: Cli) -> None:
        answer = held("repack", "26329A01", "--into", "1xjar-950", code=3)
        assert "waits for the machine; it is packed anew once it has been dried" in answer.err
