"""Finding, moving, drawing, checking and discarding packages by commands."""

from __future__ import annotations

from tests.cli.conftest import Cli


def codes(cli: Cli, *words: str) -> list[str]:
    """Codes of what a search lists, in its order."""
    return [row["code"] for row in cli("find", *words, "--json").json]


def test_packages_are_found_by_words_food_place_and_condition(stocked: Cli) -> None:
    both = ["26329A01E", "26329A02C"]
    assert codes(stocked) == codes(stocked, "green", "PEAS") == codes(stocked, "26329a") == both
    assert codes(stocked, "--place", "cellar") == codes(stocked, "--place", "rack 1") == both
    assert codes(stocked, "--place", "loft") == codes(stocked, "apples") == []
    assert codes(stocked, "--food", "peas, GREEN, frozen, boiled") == both
    stocked("note", "26329A02", "for the crème brûlée")
    assert codes(stocked, "creme") == ["26329A02C"]
    stocked("check", "26329A01", "crisp")
    assert codes(stocked, "--condition", "sound") == ["26329A01E"]
    stocked("discard", "26329A01", "--why", "torn")
    assert codes(stocked) == ["26329A02C"]
    assert set(codes(stocked, "--gone")) == set(both)
    assert codes(stocked, "--condition", "discarded") == ["26329A01E"]


def test_the_order_is_as_asked(stocked: Cli) -> None:
    for order in ("best_by", "best-by", "food", "place", "made", "code"):
        assert codes(stocked, "--order", order) == ["26329A01E", "26329A02C"]
    stocked("draw", "26329A02", "--grams", "1")
    assert codes(stocked) == ["26329A02C", "26329A01E"]  # opened, so its best-by is near


def test_a_package_says_what_it_is_and_what_happened(stocked: Cli) -> None:
    stocked("check", "26329A01", "crisp")
    stocked.on("2026-12-01")("move", "26329A01", "loft")
    stocked.on("2026-12-02")("draw", "26329A01", "--servings", "1", "--note", "soup")
    page = stocked("show", "26329a-01").out
    assert page.startswith("Package 26329A01E · Peas, green, frozen, boiled\n")
    for words in (
        "of 62.0 g packed",
        "(quality estimate, not safety)",
        "loft",
        "foil pouch 1.5 L, absorber 300 cc",
        "sealed, put in cellar/rack 1",
        "checked crisp, now sound",
        "moved from cellar/rack 1 to loft",
        "took 13.2 g, water to add 72.0 g · 72 mL · about ¼ US cup: soup",
    ):
        assert words in page, words
    found = stocked("show", "26329A01", "--json").json
    assert (found["dry_dg"], found["dry_left_dg"], found["water_dg"]) == (620, 488, 3_380)
    assert found["best_by_is"] == "quality estimate, not safety"
    assert [line["event"] for line in found["history"]] == [
        "sealed",
        "crisp",
        "moved",
        "open",
        "draw",
    ]


def test_the_working_leads_to_its_sources(stocked: Cli) -> None:
    page = stocked("show", "26329A01", "--working").out
    for words in (
        "1. water removed: 845.0 g",
        "= 1000.0 g - 155.0 g",
        "3. water for this package: 338.0 g",
        "density of water at 20 °C: 998.207 kg/m³ (published)",
        "Sources of water to add",
        "Sources of best-by",
        "upper bound",
    ):
        assert words in page, words
    found = stocked("show", "26329A01", "--working", "--json").json
    assert [one["title"] for one in found["workings"]] == ["Water to add", "Best-by"]
    step = found["workings"][0]["steps"][0]
    assert (step["figures"], step["result"]) == ("1000.0 g - 155.0 g", "845.0 g")
    assert all(one["standing"] for one in found["workings"][1]["sources"])


def test_a_working_is_asked_of_a_code_that_is_one(stocked: Cli) -> None:
    assert "Water of the lot" in stocked("show", "26329A", "--working").out
    assert stocked("show", "26329Z", "--working", code=3).err.startswith("There is no lot")
    assert stocked("show", "peas", "--working", code=2).err.startswith("code: “peas”")


def test_drawing_says_how_much_water_the_part_takes(stocked: Cli) -> None:
    answer = stocked("draw", "26329A01", "--grams", "31")
    assert answer.out.startswith("Took 31.0 g of Peas, green, frozen, boiled from 26329A01E")
    assert "water to add  169.0 g · 169 mL · about ¾ US cup, an upper bound" in answer.out
    assert "Follow local codes and licensed guidance." in answer.out
    rest = stocked("draw", "26329A01E")
    assert "Took all 31.0 g" in rest.out and "nothing" in rest.out
    assert stocked("show", "26329A01", "--json").json["condition"] == "used"
    assert "used up on" in stocked("show", "26329A01").out


def test_the_water_of_all_parts_is_the_water_of_the_package(stocked: Cli) -> None:
    for grams in ("7", "11.3", "20.1", "0.1"):
        stocked("draw", "26329A01", "--grams", grams)
    stocked("draw", "26329A01")
    history = stocked("show", "26329A01", "--json").json["history"]
    draws = [line for line in history if line["event"] == "draw"]
    assert sum(line["dry_dg"] for line in draws) == 620
    assert sum(line["water_dg"] for line in draws) == 3_380


def test_a_check_is_recorded_for_each_package(stocked: Cli) -> None:
    answer = stocked("check", "26329A01", "26329A02", "26329A01E", "crisp", "--note", "squeezed")
    assert answer.lines == [
        "Checked 26329A01E (Peas, green, frozen, boiled): crisp, now sound.",
        "Checked 26329A02C (Peas, green, frozen, boiled): crisp, now sound.",
    ]
    assert answer.err == ""


def test_a_mistyped_code_stops_every_check(stocked: Cli) -> None:
    stocked("check", "26329A01", "26329A77", "crisp", code=3)
    assert stocked("show", "26329A01", "--json").json["condition"] == "settling"


def test_checks_before_a_refused_one_are_said(stocked: Cli) -> None:
    stocked("draw", "26329A02")
    answer = stocked("check", "26329A01", "26329A02", "crisp", code=3)
    assert answer.lines == ["Checked 26329A01E (Peas, green, frozen, boiled): crisp, now sound."]
    assert "used up, and that is final" in answer.err
    written = stocked("check", "26329A01", "26329A02", "crisp", "--json", code=3)
    assert written.json["codes"] == ["26329A01E"]


def test_a_soft_package_is_told_with_its_reasons(stocked: Cli) -> None:
    answer = stocked.on("2026-12-05")("check", "26329A01", "soft")
    assert "now suspect" in answer.out
    assert "Never taste food to test it." in answer.err
    assert "discard" in answer.err and "published)" in answer.err
    said = answer.err.splitlines()
    assert said[-3].startswith("- Follow local codes and licensed guidance")
    assert said[-2:] == [
        "Suspect now, look at each: 26329A02C.",
        "What becomes of it: stockroom decide 26329A01E",
    ]
    keys = [one["key"] for one in stocked("show", "26329A01", "--json").json["cautions"]]
    assert keys[-1] == "local-codes" and "never-taste" in keys
    assert "Bear in mind" in stocked("show", "26329A01").out


def test_packages_are_moved_together(stocked: Cli) -> None:
    answer = stocked("move", "26329A01", "26329A02", "LOFT", "--json")
    assert answer.json["codes"] == ["26329A01E", "26329A02C"]
    assert codes(stocked, "--place", "loft") == ["26329A01E", "26329A02C"]
    assert "already in loft" in stocked("move", "26329A01", "loft", code=3).err
    stocked("undo")
    assert codes(stocked, "--place", "loft") == []
    stocked("redo")
    assert len(codes(stocked, "--place", "loft")) == 2


def test_a_discard_needs_its_reason(stocked: Cli) -> None:
    assert "Missing option '--why'" in stocked("discard", "26329A01", code=2).err
    assert stocked("discard", "26329A01", "--why", " ", code=3).err.startswith("A discard needs")
    stocked("discard", "26329A01", "26329A02", "--why", "mice")
    assert "discarded: mice" in stocked("show", "26329A02").out


def test_a_note_is_written_and_taken_away(stocked: Cli) -> None:
    stocked("note", "26329A01", "--", "-5 °C for a night\nthen back")
    assert "-5 °C for a night" in stocked("show", "26329A01").out
    assert stocked("note", "26329A01", "").out == "Cleared the note of 26329A01E.\n"


def test_the_round_names_what_wants_doing(stocked: Cli) -> None:
    stocked("run", "new")
    today = stocked.on("2026-11-26")("round")
    for words in ("Settle checks due (2)", "Use first", "To pack (1)", "Open runs (1)"):
        assert words in today.out, words
    assert "Best-by is a quality estimate, not safety." in today.out
    stocked("check", "26329A01", "leak")
    stocked("draw", "26329A02", "--grams", "5")
    page = stocked.on("2026-11-26")("round", "--json").json
    assert [one["code"] for one in page["suspect"]] == ["26329A01E"]
    assert [one["code"] for one in page["opened"]] == ["26329A02C"]
    assert page["settle"] == []
    rows = stocked.on("2026-11-26")("round", "--csv").lines
    assert rows[0].startswith("what,code,food,place,due_on,best_by")
    assert [row.split(",")[0] for row in rows[1:]] == ["suspect", "opened", "to_pack", "open_run"]


def test_places_make_a_tree(stocked: Cli) -> None:
    stocked("place", "set", "cellar", "--temp", "-5", "--kind", "freezer", "--note", "cold")
    rows = {row["path"]: row for row in stocked("place", "list", "--json").json}
    assert rows["cellar"]["temperature_dc"] == rows["cellar/rack 1"]["temperature_dc"] == -50
    assert rows["cellar/rack 1"]["own_temperature_dc"] is None
    assert (rows["cellar"]["packages"], rows["cellar"]["packages_below"]) == (0, 2)
    stocked("place", "rename", "rack 1", "rack A")
    stocked("place", "put", "rack A", "loft")
    assert codes(stocked, "--place", "loft/rack a") == ["26329A01E", "26329A02C"]
    stocked("place", "put", "rack A", "--top")
    assert [row["path"] for row in stocked("place", "list", "--json").json] == [
        "cellar",
        "loft",
        "rack A",
    ]
    stocked("place", "remove", "loft")
    stocked("place", "remove", "rack A", code=3)


def test_the_journal_tells_who_did_what(stocked: Cli) -> None:
    stocked("draw", "26329A01", "--grams", "5")
    stocked("undo")
    latest = stocked("journal", "--count", "2", "--json").json
    assert latest[0]["words"].startswith("undid: took 5.0 g")
    assert (latest[0]["kind"], latest[0]["reverses"]) == ("undo", latest[1]["entry"])
    assert latest[1]["taken_back"] is True
    assert "taken back" in stocked("journal").out
    before = stocked("journal", "--before", str(latest[1]["entry"]), "--json").json
    assert before[0]["entry"] == latest[1]["entry"] - 1
