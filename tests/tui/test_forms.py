"""Forms: digits and Enter from field to field, and nothing typed is lost when it is refused."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import Any

import pytest
from textual import events
from textual.app import App
from textual.pilot import Pilot

from stockroom.errors import BadInput, NotFound, Refused, StoreLocked
from stockroom.tui.widgets.fields import DIGITS, Field
from stockroom.tui.widgets.forms import DROP_WARNING, Answers, FormScreen, pick_one
from stockroom.tui.widgets.picker import Choice, Picker
from tests.tui.screen_text import HARD_NAME, SIZES, screen_text

SameScreen = Callable[[App[Any], str], None]
PLACES = ("Galley cupboard", "Cold cellar", "Cold cellar / Rack 1", HARD_NAME, "Bad\x1b[31m place")
NOTHING = object()


@dataclass(frozen=True, slots=True)
class Weighing:
    """What the form asks for."""

    tray: int
    weight_dg: int
    place: int | str | None


class FormApp(App[None]):
    """One form over an empty screen."""

    CSS_PATH = "../../stockroom/tui/style.tcss"

    def __init__(self, form: FormScreen[Any]) -> None:
        super().__init__()
        self.form = form
        self.result: object = NOTHING

    def on_mount(self) -> None:
        """Open the form."""
        self.push_screen(self.form, self._keep)

    def _keep(self, result: object) -> None:
        self.result = result


def find(letters: str) -> Sequence[Choice]:
    """The places whose names hold the letters."""
    found = [
        Choice(number, name, f"{number * 7} packages")
        for number, name in enumerate(PLACES)
        if letters.casefold() in name.casefold()
    ]
    return found[:4]


def weigh(answers: Answers) -> Weighing:
    """Stands in for a service: reads the answers, refuses what cannot be."""
    tray, weight = answers.text("tray"), answers.text("weight")
    if not weight.replace(".", "", 1).isdigit():
        raise BadInput("Weight", weight, "grams such as 155.3")
    if tray == "9":
        raise NotFound("tray", tray, ("1", "2"))
    if tray == "8":
        raise Refused("The run is closed [/].", "Open a new run.")
    if tray == "7":
        raise StoreLocked("store.db")
    return Weighing(int(tray), int(weight.replace(".", "")), answers.key("place"))


def weighing_form() -> FormScreen[Weighing]:
    """Two numbers and a place."""
    return FormScreen(
        f"Weigh {HARD_NAME}",
        (
            Field("tray", "Tray", restrict=DIGITS),
            Field("weight", "Weight", unit="g", hint="Dish and food together.", restrict=DIGITS),
            Picker("place", "Goes to", find),
        ),
        weigh,
        about=(f"Tray 2 held {HARD_NAME}.",),
    )


@asynccontextmanager
async def opened(
    form: FormScreen[Any] | None = None, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[tuple[FormApp, Pilot[None]]]:
    """The form on screen."""
    app = FormApp(form or weighing_form())
    async with app.run_test(size=size, notifications=True) as pilot:
        await pilot.pause()
        yield app, pilot


def field(app: FormApp, name: str) -> Field:
    """A field of the form by its name."""
    return next(one for one in app.form.fields if one.name == name)


def here(app: FormApp) -> str | None:
    """The name of the field that has the typing cursor."""
    return next((one.name for one in app.form.fields if one.input.has_focus), None)


async def burst(pilot: Pilot[None], keys: str) -> None:
    """Keys that all arrive at once, as from a scanner; `\r` is Enter, `\v` the arrow down."""
    names = {"\r": "enter", "\v": "down"}
    for key in keys:
        name = names.get(key, key)
        pilot.app.post_message(events.Key(name, None if key in names else key))
    await pilot.pause()
    await pilot.pause()


# From field to field


async def test_enter_goes_on_and_the_last_field_finishes() -> None:
    async with opened() as (app, pilot):
        assert here(app) == "tray"
        await pilot.press("2", "enter")
        assert here(app) == "weight"
        await pilot.press(*"155.3", "enter", "enter")
        await pilot.pause()
        assert app.result == Weighing(2, 1553, None)


async def test_letters_do_not_get_into_a_number() -> None:
    async with opened() as (app, pilot):
        await pilot.press("a", "2", "k")
        assert field(app, "tray").text == "2"


async def test_keys_that_come_in_a_burst_stay_in_order() -> None:
    async with opened() as (app, pilot):
        await burst(pilot, "2\r155.3\rcellar\v\r")
        assert app.result == Weighing(2, 1553, 2)


async def test_f9_finishes_from_any_field() -> None:
    async with opened() as (app, pilot):
        await pilot.press("3", "enter", "9", "f9")
        await pilot.pause()
        assert app.result == Weighing(3, 9, None)


# Refusals


async def test_an_error_stands_beside_the_field_it_names_and_the_text_stays() -> None:
    async with opened() as (app, pilot):
        await pilot.press("2", "enter", *"15.", "minus", "enter", "f9")
        await pilot.pause()
        assert app.result is NOTHING
        assert field(app, "weight").error.startswith("Weight: “15.-” cannot be read.")
        assert (field(app, "tray").text, field(app, "weight").text) == ("2", "15.-")
        assert here(app) == "weight"
        assert "! Weight: “15.-” cannot be read." in screen_text(app)


async def test_a_change_takes_the_error_away() -> None:
    async with opened() as (app, pilot):
        await pilot.press("2", "f9")
        await pilot.pause()
        assert field(app, "weight").error
        await pilot.press("5")
        await pilot.pause()
        assert field(app, "weight").error == ""
        assert "Dish and food together." in screen_text(app)


async def test_something_not_found_stands_beside_its_field() -> None:
    async with opened() as (app, pilot):
        await pilot.press("9", "enter", "5", "f9")
        await pilot.pause()
        assert field(app, "tray").error == "There is no tray “9”. Nearest: 1, 2."
        assert here(app) == "tray"


@pytest.mark.parametrize(
    ("tray", "words"),
    [("8", "! The run is closed [/]. Open a new run."), ("7", "! Another program is writing")],
)
async def test_a_refusal_that_names_no_field_stands_at_the_bottom(tray: str, words: str) -> None:
    async with opened() as (app, pilot):
        await pilot.press(tray, "enter", "5", "f9")
        await pilot.pause()
        assert app.result is NOTHING
        assert words in screen_text(app)
        assert (field(app, "tray").text, field(app, "weight").text) == (tray, "5")
        await pilot.press("backspace")
        await pilot.pause()
        assert words not in screen_text(app)


async def test_an_error_after_a_burst_is_not_wiped_by_the_burst() -> None:
    async with opened() as (app, pilot):
        await burst(pilot, "9\r12\r\r")
        assert field(app, "tray").error.startswith("There is no tray “9”.")


async def test_a_burst_that_ends_in_a_refusal_leaves_the_words_standing() -> None:
    def refuse(answers: Answers) -> None:
        raise NotFound("tray", answers.text("tray"))

    async with opened(FormScreen("Tray", (Field("tray", "Tray"),), refuse)) as (app, pilot):
        await burst(pilot, "987654321\r")
        assert field(app, "tray").error.startswith("There is no tray “987654321”.")


# Leaving


async def test_escape_leaves_at_once_when_nothing_was_typed() -> None:
    async with opened() as (app, pilot):
        await pilot.press("escape")
        await pilot.pause()
        assert app.result is None


async def test_escape_asks_once_more_before_it_drops_what_was_typed() -> None:
    async with opened() as (app, pilot):
        await pilot.press("2", "escape")
        await pilot.pause()
        assert app.result is NOTHING
        assert DROP_WARNING in screen_text(app)
        await pilot.press("enter", "5", "escape")
        await pilot.pause()
        assert app.result is NOTHING
        await pilot.press("escape")
        await pilot.pause()
        assert app.result is None


# Picking


async def test_typing_finds_and_enter_takes_the_first_match() -> None:
    async with opened(pick_one("Move to", "Place", find)) as (app, pilot):
        await pilot.press(*"cell")
        await pilot.pause()
        assert "Cold cellar / Rack 1" in screen_text(app)
        await pilot.press("enter")
        await pilot.pause()
        assert app.result == Choice(1, "Cold cellar", "7 packages")


async def test_arrows_go_through_the_matches() -> None:
    async with opened(pick_one("Move to", "Place", find)) as (app, pilot):
        await pilot.press(*"c", "down", "down", "up", "enter")
        await pilot.pause()
        assert app.result == Choice(1, "Cold cellar", "7 packages")


async def test_enter_on_an_empty_line_picks_nothing() -> None:
    async with opened(pick_one("Move to", "Place", find)) as (app, pilot):
        assert "Galley cupboard" in screen_text(app)
        await pilot.press("enter")
        await pilot.pause()
        assert app.result is None


async def test_letters_that_match_nothing_are_an_error() -> None:
    async with opened(pick_one("Move to", "Place", find)) as (app, pilot):
        await pilot.press(*"zzz", "enter")
        await pilot.pause()
        assert app.result is NOTHING
        assert "! Nothing matches “zzz”." in screen_text(app)


async def test_letters_with_the_list_closed_are_no_answer() -> None:
    async with opened() as (app, pilot):
        await pilot.press("2", "enter", "5", "enter", *"cell", "escape", "f9")
        await pilot.pause()
        assert app.result is NOTHING
        assert "! Pick one of the matches" in screen_text(app)


async def test_changing_the_letters_unpicks() -> None:
    fields = (Picker("place", "Place", find), Field("note", "Note"))
    async with opened(FormScreen("Move", fields, str)) as (app, pilot):
        picker = fields[0]
        await pilot.press(*"gal", "enter")
        assert (picker.choice, here(app)) == (find("gal")[0], "note")
        await pilot.press("shift+tab", "end", "x")
        await pilot.pause()
        assert picker.choice is None
        await pilot.press("enter")
        assert picker.error == "Nothing matches “Galley cupboardx”."


async def test_escape_closes_the_list_before_the_form() -> None:
    async with opened() as (app, pilot):
        await pilot.press("2", "enter", "5", "enter")
        picker = field(app, "place")
        assert isinstance(picker, Picker)
        await pilot.pause()
        assert picker.is_open
        await pilot.press("escape")
        await pilot.pause()
        assert not picker.is_open
        assert app.result is NOTHING


async def test_a_click_takes_a_match() -> None:
    async with opened(pick_one("Move to", "Place", find)) as (app, pilot):
        await pilot.pause()
        await pilot.click("Matches", offset=(20, 1))
        await pilot.pause()
        assert field(app, "picked").text == "Cold cellar"
        await pilot.press("enter")
        await pilot.pause()
        assert app.result == Choice(1, "Cold cellar", "7 packages")


async def test_a_search_that_is_refused_says_so() -> None:
    def refuse(letters: str) -> Sequence[Choice]:
        raise Refused("The places cannot be read.")

    async with opened(pick_one("Move to", "Place", refuse)) as (app, _):
        assert "! The places cannot be read." in screen_text(app)


async def test_nothing_typed_or_pasted_brings_a_control_character() -> None:
    async with opened(FormScreen("Note", (Field("note", "Note"),), str)) as (app, pilot):
        pilot.app.post_message(events.Paste("a\x1b[31m\u202eb\nc"))
        await pilot.pause()
        await pilot.pause()
        assert field(app, "note").text == "a␛[31m·b"
        app.push_screen(FormScreen("Again", (Field("note", "Note", "x\x1by"),), str))
        await pilot.pause()
        assert app.screen.query_one(Field).text == "x␛y"


# What it looks like


@pytest.mark.parametrize("size", SIZES)
async def test_the_form_as_it_looks(size: tuple[int, int], same_screen: SameScreen) -> None:
    async with opened(size=size) as (app, pilot):
        await pilot.press("2", "f9")
        await pilot.pause()
        same_screen(app, "form-refused")
        await pilot.press("5", "enter", *"c")
        await pilot.pause()
        same_screen(app, "form-picker")


async def test_help_over_a_form_lists_its_keys() -> None:
    async with opened() as (app, pilot):
        await pilot.press("f1")
        await pilot.pause()
        seen = screen_text(app)
        assert "In this form" in seen
        assert "Finish the form from any field" in seen
        await pilot.press("escape")
        await pilot.pause()
        assert app.screen is app.form
