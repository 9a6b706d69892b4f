"""What if, gains and packing advice; best-by dates brought up to date before a command."""

from __future__ import annotations

import shlex
from datetime import date
from typing import Any

import pytest

from stockroom.cli import freshness
from stockroom.errors import StoreLocked
from stockroom.services import keeping
from stockroom.services.keeping import projections_are_current
from tests.cli.conftest import Cli
from tests.world import World


@pytest.fixture
def warm(stocked: Cli) -> Cli:
    """The two pouches in a warm kitchen, with a cool cellar and a loft far too hot."""
    stocked("place", "temperature", "cellar", "--steady", "10")
    stocked("place", "temperature", "loft", "--steady", "48")
    stocked("place", "add", "kitchen", "--temperature", "24")
    stocked("move", "26329A01", "26329A02", "kitchen")
    return stocked


def choices(cli: Cli, code: str) -> list[dict[str, Any]]:
    """The rows of a what-if."""
    found: list[dict[str, Any]] = cli("whatif", code, "--json").json["choices"]
    return found


def test_every_way_stands_beside_the_present(warm: Cli) -> None:
    rows = choices(warm, "26329A01")
    assert rows[0]["kind"] == "now" and rows[0]["gain_days"] == 0
    shown = warm("show", "26329A01", "--json").json
    assert rows[0]["best_by"] == shown["best_by"]
    by_words = {row["words"]: row for row in rows}
    cellar, loft = by_words["moved to cellar"], by_words["moved to loft"]
    now = date.fromisoformat(rows[0]["best_by"])
    assert (date.fromisoformat(cellar["best_by"]) - now).days == cellar["gain_days"] > 365
    assert cellar["low"] <= cellar["best_by"] <= cellar["high"]
    assert cellar["gain"].startswith("+") and cellar["gain"].endswith(" years")
    assert loft["best_by"] is None and "no life is given above 45 °C" in loft["why_not"]
    assert any(row["kind"] == "repack" and row["container_key"].startswith("jar") for row in rows)
    assert any(row["vacuum"] for row in rows)
    page = " ".join(warm("whatif", "26329A01").out.split())
    assert "moved to cellar +" in page and "too warm" in page
    assert "quality estimate, not safety" in page


def test_the_command_beside_a_move_does_what_it_says(warm: Cli) -> None:
    (cellar,) = (row for row in choices(warm, "26329A01") if row["place"] == "cellar")
    words = shlex.split(cellar["command"])
    assert words == ["stockroom", "move", "26329A01E", "cellar"]
    warm(*words[1:])
    assert warm("show", "26329A01", "--json").json["best_by"] == cellar["best_by"]


def test_a_lot_is_asked_about_by_kind_of_package(warm: Cli) -> None:
    assert {row["package"] for row in choices(warm, "26329A")} == {"26329A01E"}
    assert "26329A01E, 26329A02C" in warm("whatif", "26329A").out
    warm("move", "26329A02", "cellar")
    rows = choices(warm, "26329A")
    assert {row["package"] for row in rows} == {"26329A01E", "26329A02C"}
    assert len(warm("whatif", "26329A", "--csv").lines) == len(rows) + 1


def test_nothing_is_asked_of_what_is_gone(warm: Cli) -> None:
    warm("draw", "26329A01")
    warm("draw", "26329A02")
    assert "used" in warm("whatif", "26329A01", code=3).err
    assert "no package on the shelves" in warm("whatif", "26329A", code=3).err
    assert warm("whatif", "26329Z", code=3).err.startswith("There is no lot")
    assert warm("whatif", "nonsense", code=2).err


def test_gains_are_ranked_with_what_to_do(warm: Cli) -> None:
    found = warm("gains", "--json").json["gains"]
    assert [row["rank"] for row in found] == list(range(1, len(found) + 1))
    worth = [row["servings"] * row["gain_days"] for row in found]
    assert worth == sorted(worth, reverse=True) and len(found) >= 2
    (move,) = (row for row in found if row["kind"] == "move")
    assert move["codes"] == ["26329A01E", "26329A02C"] and move["packages"] == 2
    page = warm("gains").out
    assert "stockroom move 26329A01E 26329A02C cellar" in page
    assert len(warm("gains", "--most", "1", "--json").json["gains"]) == 1
    warm(*shlex.split(move["command"])[1:])
    assert all(row["kind"] != "move" for row in warm("gains", "--json").json["gains"])
    assert warm("gains", "--most", "0", code=2).err


def test_the_advised_line_packs_the_lot(warm: Cli) -> None:
    advice = warm("advise", "26329A", "--place", "rack 1", "--json").json
    assert advice["reasons"] and advice["cautions"] and advice["left_dg"] == 310
    assert [way["advised"] for way in advice["ways"]].count(True) == 1
    kinds = {way["package_kind"]: way for way in advice["ways"]}
    assert set(kinds) == {"foil_pouch", "jar", "metallised_pouch", "vacuum_bag", "zip_bag"}
    assert kinds["foil_pouch"]["best_by"] > kinds["metallised_pouch"]["best_by"]
    assert kinds["metallised_pouch"]["best_by"] > kinds["zip_bag"]["best_by"]
    words = shlex.split(advice["command"])
    assert words[:3] == ["stockroom", "pack", "26329A"] and words[-2:] == ["--place", "rack 1"]
    page = " ".join(warm("advise", "26329A", "--place", "rack 1").out.split())
    assert "foil, metallised or clear" in page and "mils" in page
    assert "licensed guidance" in page and advice["command"] in page
    warm(*words[1:])
    made = warm("find", "--json").json
    newest = [row for row in made if row["code"] not in ("26329A01E", "26329A02C")]
    advised = next(way for way in advice["ways"] if way["advised"])
    assert len(newest) == advised["count"]
    assert {row["best_by"] for row in newest} == {advised["best_by"]}
    assert "packed" in warm("advise", "26329A", code=3).err


def test_advice_without_a_place_reckons_with_21_degrees(stocked: Cli) -> None:
    advice = stocked("advise", "26329A", "--json").json
    assert advice["place"] == "" and "--place" not in advice["command"]
    assert "a place at 21 °C" in stocked("advise", "26329A").out
    assert "no place" in stocked("advise", "26329A", "--place", "moon", code=3).err
    assert "There is no lot" in stocked("advise", "26330Z", code=3).err


def test_a_package_says_why_it_has_no_best_by(warm: Cli) -> None:
    warm("move", "26329A01", "loft")
    found = warm("show", "26329A01", "--json").json
    assert found["best_by"] is None and "too warm" in found["no_best_by_because"]
    page = " ".join(warm("show", "26329A01").out.split())
    assert "best-by none: 48.0 °C" in page
    working = warm("show", "26329A01", "--working").out
    assert "no best-by" in working and "water removed" in working
    assert warm("show", "26329A02", "--json").json["no_best_by_because"] == ""


def test_a_package_shows_its_band_what_limits_it_and_when_to_look(
    warm: Cli, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = warm("show", "26329A01", "--json").json
    assert found["best_by_low"] <= found["best_by"] <= found["best_by_high"]
    assert found["recheck_by"] == found["best_by_low"]
    assert found["limited_by"] in ("temperature", "oxygen", "moisture", "cap")
    monkeypatch.setenv("COLUMNS", "80")
    working = warm("show", "26329A01", "--working")
    assert all(len(line) <= 80 for line in working.lines)
    said = " ".join(working.out.split())
    for words in ("what would lengthen it", "of the low side", "engineering judgement", "[1]"):
        assert words in said


def test_food_in_plastic_has_a_day_to_discard_it(stocked: Cli) -> None:
    keys = {row["package_kind"]: row["key"] for row in stocked("container", "list", "--json").json}
    stocked("place", "humidity", "cellar", "80")
    code = stocked(
        "pack", "26329A", "--into", f"1x{keys['zip_bag']}:20", "--place", "cellar", "--json"
    ).json["codes"][0]
    found = stocked("show", code, "--json").json
    assert found["limited_by"] == "moisture"
    assert found["best_by"] < found["discard_by"]
    assert f"discard by {found['discard_by']}" in " ".join(stocked("show", code).out.split())


def test_the_height_is_said_and_every_best_by_follows(stocked: Cli, world: World) -> None:
    # A pouch with 300 cc of absorber for 305.6 cc of oxygen: at 1,000 m there is less to take.
    before = stocked("show", "26329A01", "--json").json["best_by"]
    stocked("household", "--altitude", "3281 ft")
    assert stocked("household", "--json").json["altitude_m"] == 1000
    assert "1000 m above the sea" in stocked("household").out
    after = stocked("show", "26329A01", "--json").json["best_by"]
    assert after > before
    stocked("undo")
    assert stocked("show", "26329A01", "--json").json["best_by"] == before
    assert projections_are_current(world.room)


@pytest.mark.parametrize("typed", ["high", "", "12000", "-9000 m", "1e3"])
def test_a_height_nobody_lives_at_is_refused(stocked: Cli, typed: str) -> None:
    answer = stocked("household", f"--altitude={typed}", code=None)
    assert answer.code in (2, 3) and answer.out == ""


def test_dates_of_another_model_are_brought_up_to_date_first(
    stocked: Cli, world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping, "REVISION", keeping.REVISION + 1)
    assert not projections_are_current(world.room)
    answer = stocked("find")
    assert answer.err == "" and projections_are_current(world.room)


def test_long_work_says_how_far_it_has_come(stocked: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(freshness, "MANY", 1)
    monkeypatch.setattr(keeping, "_BATCH", 1)
    monkeypatch.setattr(keeping, "REVISION", keeping.REVISION + 1)
    assert stocked("find").err.splitlines() == [
        "Bringing best-by dates up to date: 50 %",
        "Bringing best-by dates up to date: 100 %",
    ]
    assert stocked("find").err == ""


def test_a_store_that_is_busy_is_read_as_it_is(
    stocked: Cli, world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    def locked(*_: object) -> int:
        raise StoreLocked(str(world.path))

    monkeypatch.setattr(freshness, "refresh_everything", locked)
    monkeypatch.setattr(keeping, "REVISION", keeping.REVISION + 1)
    answer = stocked("find")
    assert "26329A01E" in answer.out
    assert answer.err.startswith("Best-by dates are as they were, not up to date.")


def test_the_name_of_the_model_is_the_models_own() -> None:
    from stockroom.domain.keeping.full_model import FullModel
    from stockroom.reference.keeping_figures import keeping_figures

    assert keeping.standard_model().name == FullModel(keeping_figures()).name
