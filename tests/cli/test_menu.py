"""The menu by commands: planned, kept, changed, cooked; a search that Ctrl-C ends."""

from __future__ import annotations

import csv
import io
import os
import signal
import threading
from dataclasses import fields
from typing import Any

import pytest

from stockroom.cli import menu_options
from stockroom.domain.menu_wishes import WISHES, MenuWishes
from stockroom.services import menu as menu_service
from stockroom.services.menu_shown import shown_menu
from stockroom.services.menu_solver import Progress
from tests.cli.conftest import Cli
from tests.menus import kept, larder
from tests.world import World

KEPT = ("menu", "--days", "3", "--keep")


def test_a_menu_is_planned_and_nothing_is_recorded(cli: Cli, world: World) -> None:
    larder(world)
    before = world.whole_dump()
    page = cli("menu", "--days", "3").out
    assert world.whole_dump() == before
    words = " ".join(page.split())
    assert "Menu from 2026-11-25 to 2026-11-27" in words
    assert "Not kept: --keep keeps it." in words
    assert "Proven: no menu can save more." in words
    assert "Used that would have been wasted" in words
    assert "Due by best-by (quality estimate, not safety) or by being open." in words
    assert "Planning figures: energy, protein and water" in words
    assert "Once water is added food may stand 2 hours" in words
    assert "Follow local codes and licensed guidance" in words
    assert "To buy or to have in the kitchen" in words and "rice" in words


def test_keep_records_it_and_show_shows_it(cli: Cli, world: World) -> None:
    larder(world)
    assert "Kept a menu of" in cli(*KEPT).out
    page = cli("menu", "show", "--json").json
    assert (page["from"], page["to"], page["kept"]) == ("2026-11-25", "2026-11-27", True)
    assert {one["day"] for one in page["dishes"]} == {"2026-11-25", "2026-11-26", "2026-11-27"}
    assert [day["need_kcal"] for day in page["days"]] == [4_600] * 3
    assert {one["key"] for one in page["cautions"]} >= {"clock", "best-by", "local-codes"}
    rows = list(csv.DictReader(io.StringIO(cli("menu", "show", "--csv").out)))
    assert [row["dish"] for row in rows] == [one["dish"] for one in page["dishes"]]
    assert rows[0]["energy_kcal"] == str(page["dishes"][0]["energy_kcal"])


def test_the_options_are_wishes_for_this_once(cli: Cli, world: World) -> None:
    larder(world)
    page = cli("menu", "--days", "2", "--water", "300 mL", "--json").json
    assert page["give_up"] and any(one.startswith("--water ") for one in page["options"])
    text = " ".join(cli("menu", "--days", "2", "--water", "300 mL").out.split())
    assert "Not everything wished for fits" in text and "Plan again with --" in text
    assert "any" in cli("menu", "wishes").out
    assert "water a day: “much”" in cli("menu", "--water", "much", code=2).err


def test_dishes_are_locked_cooked_and_swapped(cli: Cli, world: World) -> None:
    larder(world, dishes=5)
    cli(*KEPT)
    assert "Locked Porridge" in cli("menu", "lock", "today", "porr").out
    assert "Freed Porridge" in cli("menu", "lock", "today", "porr", "--free").out
    answer = cli("menu", "cook", "today", "porr")
    assert "as planned for 2026-11-25" in answer.out
    assert "2 hours out of the cold" in answer.err
    states = [one["state"] for one in cli("menu", "show", "--json").json["dishes"]]
    assert states.count("cooked") == 1
    pea = next(one["dish"] for one in cli("menu", "show", "--json").json["dishes"]
               if one["day"] == "2026-11-26" and one["dish"].startswith("Pea"))  # fmt: skip
    other = next(f"Pea dish {n}" for n in range(5) if f"Pea dish {n}" != pea)
    assert "Kept a menu" in cli("menu", "swap", "tomorrow", pea, other, "--keep").out
    shown = {(one["day"], one["dish"]): one["state"]
             for one in cli("menu", "show", "--json").json["dishes"]}  # fmt: skip
    assert shown["2026-11-26", other] == "locked"
    again = cli("menu", "again", "--json").json
    assert {(one["day"], one["dish"]) for one in again["dishes"]} >= {("2026-11-26", other)}


def test_the_wishes_are_shown_and_set(cli: Cli) -> None:
    assert "Set the wishes" in cli("menu", "wishes", "--cook-on", "Wed Sat", "--reach", "9").out
    rows = {row["wish"]: row for row in cli("menu", "wishes", "--json").json}
    assert (rows["Cook on"]["value"], rows["Cook on"]["usual"]) == ("Wed Sat", "every day")
    cli("menu", "wishes", "--usual")
    assert "these already" in cli("menu", "wishes", "--usual", code=3).err


def test_every_wish_is_an_option_and_reads_so() -> None:
    assert [name for name, _, _ in menu_options._OPTIONS] == [one.option for one in WISHES]
    assert [metavar for _, metavar, _ in menu_options._OPTIONS] == [one.metavar for one in WISHES]
    assert len(WISHES) == len(fields(MenuWishes))


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("menu", "show"), 3, "No menu is kept"),
        (("menu", "again"), 3, "No menu is kept"),
        (("menu", "--days", "0"), 2, "0 is not in the range"),
        (("menu", "--days", "61"), 2, "61 is not in the range"),
        (("menu", "--from", "yesterday"), 2, "today or a later day"),
        (("menu", "--from", "Mar"), 2, "“Mar”"),
        (("menu", "--days", "3", "show"), 2, "Say the options after show"),
        (("menu", "lock", "today", "gruel"), 3, "no planned dish"),
        (("menu", "cook", "today"), 3, "no planned dish"),
    ],
)
def test_what_cannot_be_is_said(
    cli: Cli, world: World, words: tuple[str, ...], code: int, said: str
) -> None:
    larder(world, dishes=1)
    assert said in cli(*words, code=code).err


def test_no_recipes_are_said(cli: Cli) -> None:
    assert "no recipes to plan a menu from" in cli("menu", "--days", "7", code=3).err


def test_ctrl_c_keeps_the_best_found(
    cli: Cli, world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The real signal while the search runs: the menu found so far is shown and kept."""
    larder(world)
    plan = menu_service.plan_menu

    def slowly(room: Any, request: Any, **more: Any) -> Any:
        more["progress"](Progress(1, 2, 500_000, 6.0))
        threading.Timer(0.05, os.kill, (os.getpid(), signal.SIGINT)).start()
        for _ in range(500):
            if more["cancelled"]():
                return plan(room, request, **more)
            threading.Event().wait(0.01)
        raise AssertionError("the signal was not heard")

    monkeypatch.setattr(menu_service, "plan_menu", slowly)
    before = signal.getsignal(signal.SIGINT)
    answer = cli(*KEPT)
    assert signal.getsignal(signal.SIGINT) is before
    assert "Searching, 6 s: value 1, at most 50.0 % more to save" in answer.err
    assert "Stopped: this is the best found so far." in answer.err
    assert "Kept a menu of" in answer.out
    assert shown_menu(world.room).dishes


def test_the_second_ctrl_c_interrupts(
    cli: Cli, world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    larder(world)

    def stubborn(room: Any, request: Any, **more: Any) -> Any:
        os.kill(os.getpid(), signal.SIGINT)
        os.kill(os.getpid(), signal.SIGINT)
        raise AssertionError("the second signal was not heard")

    monkeypatch.setattr(menu_service, "plan_menu", stubborn)
    assert "Interrupted." in cli("menu", "--days", "1", code=130).err


def test_a_menu_that_changed_is_said(cli: Cli, world: World) -> None:
    codes = larder(world)
    kept(world)
    cli("draw", codes[3], "--grams", "5")
    words = " ".join(cli("menu", "show").out.split())
    assert "1 package has come, gone or been taken from" in words
