"""How many of a lot or a place to look at, which ones, and a look by opening, by commands."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from scipy.stats import betabinom, hypergeom

from stockroom.domain.codes import package_code
from tests.cli.conftest import Cli
from tests.world import APPLE, PEAS, World


@pytest.fixture
def shelf(cli: Cli, world: World) -> Cli:
    """Twenty pouches of peas, ten in the cellar and ten in the loft, and an apple jar there."""
    world.places("cellar", "cellar/rack 1", "loft")
    lot = world.dry_lot()
    assert lot == "26329A"
    world.pack(lot, "10xpouch-400-foil:6,absorber=100", place="rack 1")
    world.pack(lot, "10xpouch-400-foil:6,absorber=100", place="loft")
    world.packed(APPLE, "1xjar-475:20", place="loft")
    return cli


def codes(*numbers: int) -> tuple[str, ...]:
    """Codes of packages of the lot."""
    return tuple(package_code("26329A", number) for number in numbers)


def picked(shelf: Cli, *more: str) -> list[str]:
    """The codes to look at."""
    return [one["code"] for one in shelf("sample", "26329A", "--json", *more).json["picks"]]


def missed(lot: int, soft: int, opened: int) -> float:
    """The chance that none of the soft ones is among those opened, by scipy."""
    return float(hypergeom.pmf(0, lot, soft, opened))


def test_the_page_for_a_person(shelf: Cli) -> None:
    answer = shelf("sample", "26329A", "--at-most", "2")
    said = " ".join(answer.out.split())
    for words in (
        f"Sample of 26329A of 26329A food {PEAS}",
        "sealed 20 packages",
        "Look at 12 of 20, picked at random: if none is found soft, then with 95 % confidence at"
        " most 2 of the 20 are soft.",
        "Picked at random, in walking order",
        "How to look - Squeeze and listen",
        "looked at 0 so far",
        "Of 20 not looked at, about 10 may be soft; a chance of 4.8 % that none is.",
        "A belief, not a guarantee.",
        "Opening a package uses it",
        "local codes and licensed guidance",
    ):
        assert words in said, words
    assert answer.out.count("to look at") == 12
    assert answer.err == ""


def test_the_number_is_the_least_that_does(shelf: Cli) -> None:
    """Least n whose chance to miss three soft ones of twenty is 5 % at most (scipy)."""
    found = shelf("sample", "26329A", "--at-most", "2", "--json").json
    assert (found["name"], found["food"], found["lot"], found["at_most"]) == (
        "26329A", PEAS, 20, 2,
    )  # fmt: skip
    assert missed(20, 3, found["inspect"]) <= 0.05 < missed(20, 3, found["inspect"] - 1)
    assert found["detection_probability"] == pytest.approx(1 - missed(20, 3, 12), abs=1e-4)
    assert (found["confidence"], found["sensitivity"]) == (0.95, 1)
    assert len(found["picks"]) == found["inspect"] == 12
    assert {one["found"] for one in found["picks"]} == {None}
    assert (found["checked"], found["soft"], found["remaining"]) == (0, 0, 20)
    assert found["by_now"] == "" and found["most_soft"] is None and found["conclusion"] == ""


def test_what_was_looked_at_counts_and_says_enough(shelf: Cli) -> None:
    first = picked(shelf)
    shelf("check", *first[:5], "crisp", "--opened")
    found = shelf("sample", "26329A", "--json").json
    assert [one["code"] for one in found["picks"]] == first
    assert [one["found"] for one in found["picks"]].count("crisp") == 5
    assert (found["lot"], found["checked"], found["remaining"]) == (20, 5, 15)
    chance = betabinom.pmf(0, 15, 1, 6)
    assert found["p_none_soft_in_remaining"] == pytest.approx(chance, abs=1e-4)
    assert found["expected_soft_in_remaining"] == pytest.approx(15 / 7, abs=0.01)
    most = found["most_soft"]
    assert missed(20, most + 1, 5) <= 0.05 < missed(20, most, 5)
    shelf("check", *first[5:], "crisp", "--opened")
    said = " ".join(shelf("sample", "26329A").out.split())
    assert "Enough: 12 of 20 looked at, none soft." in said
    assert "with 95 % confidence at most 2 of the 20 are soft." in said
    assert "not opened" not in said and "crisp, opened" in said


def test_looks_that_opened_nothing_are_not_passed_off_as_sure(shelf: Cli) -> None:
    first = picked(shelf)
    shelf("check", *first, "crisp")
    said = " ".join(shelf("sample", "26329A").out.split())
    assert "12 of 12 looked at were not opened: such a look may miss a soft one" in said
    honest = shelf("sample", "26329A", "--sensitivity", "80%")
    assert "were not opened" not in " ".join(honest.out.split())
    assert shelf("sample", "26329A", "--sensitivity", "0.8", "--json").json["inspect"] > 12


def test_a_soft_one_asks_for_all_of_them(shelf: Cli) -> None:
    first = picked(shelf)
    shelf("check", first[0], "soft", "--opened")
    shelf("discard", first[0], "--why", "mould")
    found = shelf("sample", "26329A", "--json").json
    assert (found["lot"], found["checked"], found["soft"]) == (20, 1, 1)
    assert found["conclusion"] == "1 soft: look at every package of the lot."
    every = shelf("sample", "26329A", "--all")
    assert all(code in every.out for code in codes(*range(1, 21)))
    assert "All of them, in walking order" in every.out
    assert "1 soft: look at every package of the lot." in " ".join(every.out.split())


def test_a_place_is_sampled_with_the_food_of_each(shelf: Cli) -> None:
    found = shelf("sample", "loft", "--at-most", "0", "--json").json
    assert (found["name"], found["food"], found["lot"], found["inspect"]) == ("loft", "", 11, 11)
    assert {one["food"] for one in found["picks"]} == {PEAS, APPLE}
    assert {one["place"] for one in found["picks"]} == {"loft"}
    answer = shelf("sample", "loft", "--at-most", "0")
    assert APPLE in answer.out and "Is the lid drawn down" in answer.out
    rack = shelf("sample", "cellar", "--json").json
    assert rack["lot"] == 10 and {one["place"] for one in rack["picks"]} == {"cellar/rack 1"}


def test_a_package_code_names_its_lot_no_more_than_a_place_does(shelf: Cli) -> None:
    assert "There is no place" in shelf("sample", codes(1)[0], code=3).err


def test_never_enough_is_an_answer(shelf: Cli) -> None:
    answer = shelf("sample", "26329A", "--at-most", "1", "--sensitivity", "0.6")
    said = " ".join(answer.out.split())
    assert "Impossible: even with all 20 checked in this way" in said
    assert "Use a better check: open them, weigh them, break a piece." in said
    line = ("sample", "26329A", "--at-most", "1", "--sensitivity", "60 %", "--json")
    found = shelf(*line).json
    assert found["inspect"] is None and len(found["picks"]) == 20


def test_looks_since_a_day_and_another_belief(shelf: Cli) -> None:
    shelf("check", *codes(1, 2), "crisp")
    later = shelf.on("2026-12-05")
    assert later("sample", "26329A", "--json").json["checked"] == 0
    assert later("sample", "26329A", "--since", "2026-11-25", "--json").json["checked"] == 2
    assert later("sample", "26329A", "--since", "-10", "--json").json["checked"] == 2
    found = later("sample", "26329A", "--prior", "0.5, 19", "--json").json
    chance = betabinom.pmf(0, 20, 0.5, 19)
    assert found["p_none_soft_in_remaining"] == pytest.approx(chance, abs=1e-4)


def test_the_working_ends_on_the_figures_shown(shelf: Cli) -> None:
    page = shelf("sample", "26329A", "--at-most", "2", "--working").out
    for words in ("Packages to look at", "C(20 - 3, 12) / C(20, 12)", "hypergeometric", "prior"):
        assert words in page, words
    plain = shelf("sample", "26329A", "--at-most", "2", "--json").json
    data = shelf("sample", "26329A", "--at-most", "2", "--working", "--json").json
    number, belief = data.pop("workings")
    assert data == plain
    assert any(step["result"].startswith("12") for step in number["steps"])
    results = [step["result"] for step in belief["steps"]]
    assert any(one.startswith("0.047619") for one in results)  # 1 in 21, the rule of succession


@pytest.mark.parametrize(
    ("line", "code", "words"),
    [
        ("26330A", 3, "26330A"),
        ("attic", 3, "There is no place"),
        ("26329A --at-most x", 2, "at most:"),
        ("26329A --at-most -1", 2, "at most:"),
        ("26329A --at-most 1.5", 2, "at most:"),
        ("26329A --at-most 20", 3, "It has to be 0 to 19."),
        ("26329A --confidence 95", 2, "confidence:"),
        ("26329A --confidence 100%", 3, "look at every package"),
        ("26329A --confidence 0", 3, "confidence cannot be 0 %"),
        ("26329A --sensitivity 0", 3, "sensitivity cannot be 0 %"),
        ("26329A --sensitivity two", 2, "sensitivity:"),
        ("26329A --since yesteryear", 2, "since:"),
        ("26329A --prior 1", 2, "two numbers"),
        ("26329A --prior 1,x", 2, "prior 2"),
        ("26329A --prior 0,1", 3, "0 soft and 1 sound"),
        ("26329A --csv", 2, "--csv"),
        ("", 2, "LOT|PLACE"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(
    shelf: Cli, line: str, code: int, words: str
) -> None:
    found = shelf("sample", *line.split(), code=code)
    assert words in found.err and found.out == ""


def test_an_empty_place_has_nothing_to_look_at(shelf: Cli, world: World) -> None:
    world.places("attic")
    assert "attic has no sealed package to look at." in shelf("sample", "attic", code=3).err


# A look by opening


def test_a_look_by_opening_opens_what_is_crisp(shelf: Cli) -> None:
    first, second = codes(1, 2)
    answer = shelf("check", first, second, "crisp", "--opened", "--note", "the middle")
    assert answer.lines == [
        f"Checked {code} ({PEAS}): crisp, looked at by opening, now opened."
        for code in (first, second)
    ]
    shown = shelf("show", first, "--json").json
    assert (shown["condition"], shown["opened_on"]) == ("opened", "2026-11-25")
    assert [one["event"] for one in shown["history"]] == ["sealed", "crisp", "open"]
    assert shown["history"][1]["note"] == "looked at by opening; the middle"
    shelf("undo")
    assert shelf("show", second, "--json").json["condition"] == "settling"
    assert shelf("show", first, "--json").json["condition"] == "opened"


def test_a_soft_one_found_by_opening_stays_suspect(shelf: Cli) -> None:
    answer = shelf("check", codes(1)[0], "soft", "--opened")
    said = " ".join(answer.out.split())
    assert "soft, looked at by opening, now suspect; 19 sisters of lot 26329A now suspect" in said
    assert "Never taste food to test it." in answer.err
    shown = shelf("show", codes(1)[0], "--json").json
    assert (shown["condition"], shown["opened_on"]) == ("suspect", "2026-11-25")
    assert shelf("show", codes(2)[0], "--json").json["opened_on"] is None
    shelf("undo")
    assert shelf("show", codes(1)[0], "--json").json["opened_on"] is None
    assert shelf("find", "--condition", "suspect", "--json").json == []


def test_looks_by_opening_line_by_line(shelf: Cli, tmp_path: Path) -> None:
    lines = tmp_path / "looks.txt"
    lines.write_text(f"{codes(1)[0]} c\n{codes(2)[0]} l at the seam\n", encoding="utf-8")
    shelf("check", "--from", str(lines), "--opened")
    shown = [shelf("show", code, "--json").json for code in codes(1, 2)]
    assert [one["condition"] for one in shown] == ["opened", "suspect"]
    assert [one["opened_on"] for one in shown] == ["2026-11-25"] * 2
    assert shown[1]["history"][-1]["note"] == "looked at by opening; at the seam"


def test_what_is_gone_is_not_looked_at_by_opening(shelf: Cli) -> None:
    shelf("draw", codes(1)[0])
    assert "used up" in shelf("check", codes(1)[0], "crisp", "--opened", code=3).err
    shelf("check", codes(2)[0], "soft", "--opened")
    later = shelf.on("2026-11-28")
    assert "decide" in later("check", codes(2)[0], "crisp", "--opened", code=3).err.casefold()
    rows = list(csv.DictReader(io.StringIO(shelf("find", codes(2)[0], "--csv").out)))
    assert [row["condition"] for row in rows] == ["suspect"]
