"""Water, whole packages, stand-ins, raw food and the clock of a meal by commands."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, date, datetime

import pytest

from stockroom.cli import session
from stockroom.cli.main import main
from tests.cli.conftest import Answer, Cli
from tests.world import APPLE, BEEF_RAW, PEAS, World


@pytest.fixture
def jar(stocked: Cli) -> Cli:
    """A dish of one 62 g package of peas, whose lot lost 845 g of water to 155 g dry."""
    stocked("recipe", "add", "Peas", "--serves", "1", "--stored", f"{PEAS}=62 g dry")
    return stocked


# Check values: science tables of this program, computed from the density of water.


@pytest.mark.parametrize(("cup", "count"), [("us", 1.43), ("label", 1.41)])
def test_the_water_of_a_jar_in_grams_millilitres_and_cups(jar: Cli, cup: str, count: float) -> None:
    if cup != "us":
        jar("household", "--cup", cup)
    sheet = jar("cook", "Peas", "--people", "1", "--json").json
    assert sheet["water_dg"] == 3_380 and sheet["cup"] == cup
    assert sheet["water_ml"] == pytest.approx(338.6, abs=0.05)
    assert sheet["water_cups"] == pytest.approx(count, abs=0.005)
    assert sheet["water_temperature_dc"] == 200
    named = {"us": "US", "label": "label"}[cup]
    assert (
        f"338.0 g · 339 mL · about 1½ {named} cups in all, an upper bound"
        in jar("cook", "Peas", "--people", "1").out
    )


@pytest.mark.parametrize(
    ("degrees", "cup_g"),
    [("4", 236.58), ("25", 235.89), ("40", 234.74), ("60", 232.61), ("80", 229.92)],
)
def test_a_cup_of_warmer_water_weighs_less(jar: Cli, degrees: str, cup_g: float) -> None:
    jar("recipe", "edit", "Peas", "--water-at", f"{degrees} C")
    sheet = jar("cook", "Peas", "--people", "1", "--json").json
    assert sheet["water_dg"] / 10 / sheet["water_cups"] == pytest.approx(cup_g, abs=0.005)
    assert f"water at      {degrees}.0 °C" in jar("cook", "Peas", "--people", "1").out


def test_each_ingredient_has_its_own_share_held_back(stocked: Cli, world: World) -> None:
    world.packed(APPLE, "1xjar-950:100")
    stocked(
        "recipe", "add", "Mix", "--serves", "1", "--stored", f"{PEAS}=62 g dry, hold 20 %",
        "--stored", f"{APPLE}=31 g dry", "--hold-back", "50 %",
    )  # fmt: skip
    sheet = stocked("cook", "Mix", "--people", "1", "--json").json
    peas, apple = sheet["ingredients"]
    assert (peas["now_dg"], peas["held_dg"], peas["hold_back_percent"]) == (2_704, 676, 20)
    assert (apple["now_dg"], apple["held_dg"], apple["hold_back_percent"]) == (845, 845, 50)
    assert sheet["water_now_dg"] == 2_704 + 845 and sheet["water_held_dg"] == 676 + 845
    assert peas["now_ml"] == pytest.approx(270.9, abs=0.05)
    page = stocked("cook", "Mix", "--people", "1").out
    rows = [line.split() for line in page.splitlines() if "at first" in line or "hold back" in line]
    assert ["at", "first", "354.9", "g", "·", "356", "mL", "·", "about", "1½", "US", "cups"] in rows
    assert [*PEAS.split(), "at", "first", "270.4", "g", "271", "mL", "1¼", "US", "cups"] in rows
    assert ["hold", "back", "67.6", "g", "68", "mL", "¼", "US", "cup"] in rows


def test_servings_decide_the_amounts(jar: Cli) -> None:
    sheet = jar("cook", "Peas", "--servings", "1 1/2", "--json").json
    assert (sheet["servings"], sheet["people"]) == (1.5, 2)
    assert sum(pick["take_dg"] for pick in sheet["picks"]) == 930
    assert jar("cook", "Peas", "--servings", "1 1/2").lines[0] == "Peas, 1.5 servings"


def test_a_package_with_little_left_is_taken_whole_when_that_is_wished(stocked: Cli) -> None:
    stocked("recipe", "add", "Most", "--serves", "1", "--stored", f"{PEAS}=60 g dry")
    line = ("cook", "Most", "--people", "1")
    sheet = stocked(*line, "--json").json
    assert sheet["whole_packages"] == [
        {"food": PEAS, "code": "26329A01E", "more_dg": 20, "more_water_dg": 109}
    ]
    assert [(one["code"], one["left_dg"]) for one in sheet["left_open"]] == [("26329A01E", 20)]
    page = stocked(*line).out
    assert "Little would stay in these: --whole takes it" in page
    assert "Left open, and the day to use it by" in page
    whole = stocked(*line, "--whole", "--json").json
    assert whole["whole_packages"] == [] and whole["left_open"] == []
    assert whole["picks"][0]["take_dg"] == 620 and whole["water_dg"] == 3_380
    assert stocked(*line, "--whole", "--take", "--json").json["made"]
    assert stocked("show", "26329A01", "--json").json["dry_left_dg"] == 0


def test_what_is_left_open_has_the_day_the_package_then_gets(stocked: Cli) -> None:
    stocked("recipe", "add", "Half", "--serves", "1", "--stored", f"{PEAS}=31 g dry")
    (rest,) = stocked("cook", "Half", "--people", "1", "--json").json["left_open"]
    taken = stocked("cook", "Half", "--people", "1", "--take", "--json").json
    assert taken["left_open"] == [rest] and rest["why_not"] is None
    found = stocked("show", "26329A01", "--json").json
    assert (found["condition"], found["best_by"]) == ("opened", rest["use_by"])
    assert (found["dry_left_dg"], found["water_left_dg"]) == (rest["left_dg"], 1_690)


# Stand-ins


@pytest.fixture
def short(cli: Cli, world: World) -> Cli:
    """Peas for one of two; plenty of a kale and of a soybean mash."""
    world.packed(PEAS, "1xpouch-400-foil:10")
    for name, allergens in (("Our kale", ()), ("Our soy mash", ("--allergen", "soybeans"))):
        cli("food", "add", name, "--like", PEAS, *allergens)
        world.packed(name, "1xjar-950:140", wet_g=1000, dry_g=150)
    cli("recipe", "add", "Soup", "--serves", "2", "--stored", f"{PEAS}=200 g fresh")
    return cli


def test_what_could_stand_in_is_shown_and_taken_by_a_swap(short: Cli) -> None:
    sheet = short("cook", "Soup", "--json").json
    kale, mash = sheet["stand_ins"]
    assert (kale["instead_of"], kale["food"], kale["new_allergens"]) == (PEAS, "Our kale", [])
    assert (mash["food"], mash["new_allergens"]) == ("Our soy mash", ["soybeans"])
    # As much as fresh: 200 g of a food with 850 g of water to 150 g dry.
    assert (kale["dry_dg"], kale["water_dg"]) == (300, 1_700)
    page = short("cook", "Soup").out
    assert f"--swap '{PEAS}=Our kale'" in page and "brings soybeans" in page
    swapped = short("cook", "Soup", "--swap", kale["swap"], "--json").json
    assert swapped["short"] == [] and swapped["stand_ins"] == []
    assert (swapped["picks"][0]["food"], swapped["picks"][0]["take_dg"]) == ("Our kale", 300)
    assert swapped["ingredients"][0]["instead_of"] == PEAS
    # The beginning of the recipe's own food is enough.
    taken = short("cook", "Soup", "--swap", "peas=our kale", "--take")
    assert f"Our kale instead of {PEAS}" in taken.out
    assert f"Our kale stands in for {PEAS}." in taken.out


# Raw food


@pytest.fixture
def roast(stocked: Cli, world: World) -> Cli:
    """A dish of raw beef without a cooking step."""
    world.packed(BEEF_RAW, "1xjar-950", dry_g=300)
    stocked("recipe", "add", "Roast", "--serves", "2", "--stored", f"{BEEF_RAW}=100 g fresh")
    return stocked


def test_raw_food_needs_a_cooking_step_that_is_hot_enough(roast: Cli) -> None:
    # Minced meat 160 °F (USDA Food Safety and Inspection Service); a lot may be minced.
    sheet = roast("cook", "Roast", "--json").json
    (raw,) = sheet["raw"]
    assert (raw["food"], raw["least_dc"], raw["least_fahrenheit"]) == (BEEF_RAW, 711, 160)
    assert "Food Safety and Inspection Service" in raw["source"]
    assert (sheet["cook_to_dc"], sheet["raw_cooked_enough"], sheet["heat_to_dc"]) == (
        None,
        False,
        711,
    )
    page = roast("cook", "Roast").out
    assert "no cooking step; its raw food needs 160 °F (71.1 °C): say --cook-to" in page
    refused = roast("cook", "Roast", "--take", code=3)
    assert "has no cooking step." in refused.err and "160 °F (71.1 °C)" in refused.err
    refused = roast("cook", "Roast", "--take", "--cook-to", "71 C", code=3)
    assert "Roast is cooked to" in refused.err and "(71.0 °C)" in refused.err
    assert "too little for its raw food" in roast("cook", "Roast", "--cook-to", "71 C").out
    page = roast("cook", "Roast", "--cook-to", "160 F").out
    assert "71.1 °C, enough for its raw food: 160 °F (71.1 °C)" in page
    taken = roast("cook", "Roast", "--cook-to", "160 F", "--take", "--json").json
    assert taken["raw_cooked_enough"] is True and taken["codes"]
    assert "raw food cooked to 71.1 °C" in taken["done"]


def test_the_cooking_step_of_the_recipe_counts(roast: Cli) -> None:
    roast("recipe", "edit", "Roast", "--cook-to", "75 C")
    assert roast("cook", "Roast", "--json").json["raw_cooked_enough"] is True
    assert roast("cook", "Roast", "--take", "--json").json["codes"]


# The clock


@pytest.fixture
def noon_zone(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A machine two hours east of Greenwich."""
    with monkeypatch.context() as zone:
        zone.setenv("TZ", "Etc/GMT-2")
        time.tzset()
        yield
    time.tzset()


def cook_at_1140(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str
) -> Answer:
    """Run a command on 1 March 2026 at 11:40 in that zone, by the machine's own clock."""

    class Clock(session.SystemClock):
        def today(self) -> date:
            return date(2026, 3, 1)

        def now(self) -> datetime:
            return datetime(2026, 3, 1, 9, 40, tzinfo=UTC)

    monkeypatch.setattr(session, "SystemClock", Clock)
    capsys.readouterr()
    code = main([*words])
    said = capsys.readouterr()
    assert code == 0, said
    return Answer(code, said.out, said.err)


@pytest.mark.usefixtures("noon_zone")
def test_the_clock_of_a_meal_runs_from_wetting(
    cli: Cli,
    world: World,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    world.on(date(2026, 3, 1)).packed(PEAS)
    cli("recipe", "add", "Peas", "--serves", "1", "--stored", f"{PEAS}=30 g dry")
    page = cook_at_1140(monkeypatch, capsys, "cook", "Peas", "--people", "1", "--take").out
    # Danger zone, USDA Food Safety and Inspection Service: 2 hours, 1 hour above 90 °F.
    assert (
        "out of the cold  until 13:40; in a room above 32.2 °C (90 °F) until 12:40; then discard it"
        in page
    )
    # Three days in the cold, the day of wetting not counted.
    assert "chilled in time  use by the end of 2026-03-04" in page
    taken = cook_at_1140(
        monkeypatch, capsys, "cook", "Peas", "--people", "1", "--take", "--json"
    ).json
    assert taken["wetted_at"] == "2026-03-01T11:40:00+02:00"
    assert taken["out_until"] == "2026-03-01T13:40:00+02:00"
    assert taken["out_until_hot"] == "2026-03-01T12:40:00+02:00"
    assert (taken["chilled_until"], taken["eat_at_once"]) == ("2026-03-04", False)
    meals = cook_at_1140(monkeypatch, capsys, "meal", "list", "--json").json
    assert [one["eat_by"] for one in meals] == ["2026-03-04", "2026-03-04"]


def test_on_another_day_the_hours_are_said_and_no_time_of_day(jar: Cli) -> None:
    page = jar("cook", "Peas", "--people", "1", "--take").out
    assert "out of the cold  2 hours at most; in a room above 32.2 °C (90 °F) 1 hour" in page
    assert "use by the end of 2026-11-28" in page


def test_rehydrated_egg_is_eaten_at_once(cli: Cli, world: World) -> None:
    cli("food", "add", "Our egg", "--class", "egg", "--group", "egg", "--prepared", "cooked")
    world.packed("Our egg")
    cli("recipe", "add", "Eggs", "--serves", "2", "--stored", "Our egg=100 g fresh")
    page = cli("cook", "Eggs").out
    assert "Our egg: rehydrated egg; keep nothing of it" in page
    assert "eat it  now, and keep nothing of it" in cli("cook", "Eggs", "--take").out
    (meal,) = cli("meal", "list", "--json").json
    assert (meal["eat_by"], meal["at_once"]) == ("2026-11-25", True)


# Meals


def test_meals_are_listed_the_latest_first(jar: Cli) -> None:
    assert jar("meal", "list").out == "No meals cooked yet.\n"
    assert jar("meal", "list", "--json").json == []
    jar("cook", "Peas", "--people", "1", "--take")
    jar("recipe", "add", "Salad", "--serves", "2", "--fresh", "lettuce")
    jar.on("2026-11-26")("cook", "Salad", "--take")
    salad, peas = jar("meal", "list", "--json").json
    assert (salad["dish"], salad["people"], salad["eat_by"]) == ("Salad", 2, None)
    assert (peas["cooked_on"], peas["dish"], peas["people"]) == ("2026-11-25", "Peas", 1)
    assert (peas["rehydration_water_dg"], peas["eat_by"]) == (3_380, "2026-11-28")
    table = [line.split(",") for line in jar("meal", "list", "--csv").lines]
    assert table[0][:5] == ["cooked_on", "dish", "people", "rehydration_water_g", "eat_by"]
    assert table[2][:5] == ["2026-11-25", "Peas", "1", "338.0", "2026-11-28"]
    page = jar("meal", "list")
    assert "Eat by: the last day" in page.lines[0] and "338.0 g  2026-11-28" in page.out
    assert [one["dish"] for one in jar("meal", "list", "--count", "1", "--json").json] == ["Salad"]


# Wrong input


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--people", "1", "--servings", "1"), 2, "Say --people or --servings, not both."),
        (("--people", "0"), 2, "--people"),
        (("--servings", "0"), 2, "servings: “0” cannot be read."),
        (("--servings", "many"), 2, "servings: “many” cannot be read."),
        (("--servings", "2000"), 2, "up to 1000"),
        (("--short",), 2, "--short goes with --take."),
        (("--cook-to", "hot"), 2, "cooked to: “hot” cannot be read."),
        (("--cook-to", "20"), 2, "a temperature from 30 to 150 °C"),
        (("--swap", "Peas"), 2, "swap: “Peas” cannot be read."),
        (("--swap", "=Apple"), 2, "swap: "),
        (("--swap", "Beans=Apple"), 2, f"the recipe has {PEAS}"),
        (("--swap", "Peas=Apples"), 3, "There is no food “Apples”."),
        (("--swap", f"Peas={PEAS}"), 2, "another food instead of the recipe's own"),
        (("--swap", f"Peas={APPLE}", "--swap", f"Peas={APPLE}"), 2, f"one swap for {PEAS}"),
    ],
)
def test_wrong_input_of_cook_is_refused_in_a_sentence(
    jar: Cli, world: World, words: tuple[str, ...], code: int, said: str
) -> None:
    world.packed(APPLE)
    for more in ((), ("--json",)):
        answer = jar("cook", "Peas", *words, *more, code=code)
        assert said in answer.err and answer.out == ""
