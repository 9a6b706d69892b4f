"""From nothing to a cooked meal, at a terminal, by keys alone.

Three days of one household: peas are loaded on the 23rd; weighed, closed and packed on the 24th;
squeezed, cooked for four, and put back by undo on the 25th.
"""

from __future__ import annotations

import json
from pathlib import Path

from tests.terminal.emulator import ENTER, ESCAPE, F9, Terminal, installed
from tests.terminal.hands import choose, feel_and_break, said, screens, weigh_dry

LOADED, PACKED, COOKED = "2026-11-23", "2026-11-24", "2026-11-25"
LOT = "26328A"
POUCHES = tuple(f"{LOT}0{number}" for number in (1, 2, 3, 4))
JAR = f"{LOT}05"


def start(home: Path) -> None:
    """The store and its first place, at the prompt."""
    with Terminal([installed(), "init"], home=home) as terminal:
        terminal.wait_for("Units, metric or us")
        terminal.press("metric", ENTER)
        terminal.wait_for("How many people")
        terminal.press("4", ENTER)
        assert terminal.wait_for_end() == 0
        assert "Started a stockroom" in terminal.text
    place = ["place", "add", "cellar", "--temp", "9"]
    with Terminal([installed(), *place], home=home) as terminal:
        assert terminal.wait_for_end() == 0
        assert "cellar" in terminal.text


def load(terminal: Terminal) -> None:
    """A new run with two trays of peas."""
    terminal.press("3")
    terminal.wait_for("No runs yet")
    terminal.press("n")
    terminal.wait_for("Start a run")
    terminal.press(F9)
    terminal.wait_for("Run 1", "No trays yet")
    load_tray(terminal, 1, "850", "850.0 g")
    load_tray(terminal, 2, "912", "912.0 g")


def load_tray(terminal: Terminal, tray: int, weight: str, shown: str) -> None:
    """Some letters of the food, Enter for the first that fits, and the weight."""
    terminal.press("a")
    terminal.wait_for("Add a tray to run 1")
    terminal.press("peas")
    terminal.wait_for("Split peas, boiled")
    terminal.press(ENTER)
    terminal.wait_for("Peas, green, frozen, boiled", gone=["Split peas, boiled"])
    terminal.press(weight, F9)
    terminal.wait_for(shown, f"Tray {tray}, Peas", gone=["Add a tray"])


def unload(terminal: Terminal) -> None:
    """Dry weights as digits and Enter, tray after tray, and again an hour later; then tested.

    The run is closed into its lot.
    """
    terminal.press("3")
    terminal.wait_for("Runs", "open")
    terminal.press(ENTER)
    terminal.wait_for("Run 1", "to weigh")
    weigh_dry(terminal, ("1250-1088", "162.0 g"), ("175.5", "175.5 g"))
    terminal.wait_for("one weight", "no constant weight on trays 1 and 2", gone=["to weigh"])
    weigh_dry(terminal, ("1250", "no loss seen"), ("175.5", "0.0 g"))
    feel_and_break(terminal, 2, found="Dryness is shown")
    terminal.press("c")
    terminal.wait_for("Close run 1", "dry 337.5 g, water removed 1424.5 g")
    terminal.press(F9)
    terminal.wait_for(f"closed run 1 into lot {LOT}")


def pack(terminal: Terminal) -> None:
    """Four pouches with absorbers and a jar with the rest, put in the cellar."""
    terminal.press("p")
    terminal.wait_for(f"Pack lot {LOT}", "337.5 g dry left")
    terminal.press("4", ENTER)
    choose(terminal, "475-foil", "foil pouch 475 mL", "  475 mL")
    terminal.press("60", ENTER, "100", ENTER)
    terminal.wait_for("each 60.0 g dry", "Packed 240.0 g, left 97.5 g")
    terminal.press(ENTER)
    terminal.press("1", ENTER)
    choose(terminal, "jar-475", "jar 475 mL", "  475 mL")
    terminal.press(ENTER, ENTER, ENTER)
    terminal.wait_for("97.5 g dry, 6 servings", "nothing left", "0 packages")
    choose(terminal, "cell", "cellar", "0 packages")
    terminal.press(F9)
    terminal.wait_for(f"Pack lot {LOT} so?", "Place: cellar.")
    terminal.press(ENTER)
    terminal.wait_for(f"Packed lot {LOT}", f"{LOT}01", "add 253.2 g", "quality estimate")
    terminal.press(ESCAPE)
    terminal.wait_for("p Pack", gone=[f"Packed lot {LOT}"])


def squeeze(terminal: Terminal) -> None:
    """One key for each package: crisp, and the cursor is on the next."""
    terminal.wait_for("5 settle checks", *POUCHES, JAR)
    for left in (4, 3, 2, 1):
        terminal.press("c")
        terminal.wait_for(f"Settle check · {left}", "crisp, now sound")
    terminal.press("c")
    terminal.wait_for(f"checked {JAR}", "Use first", gone=["Settle check"])


def write_recipe(terminal: Terminal) -> None:
    """A recipe of 400 g of peas as they were before drying, and an onion."""
    terminal.press("4")
    terminal.wait_for("No recipes yet")
    terminal.press("n")
    terminal.wait_for("Name", "Cooking water")
    terminal.press("Pea supper", F9)
    terminal.wait_for("Pea supper", "No ingredients yet")
    terminal.press("a")
    terminal.wait_for("From the shelves", "Counted in")
    choose(terminal, "peas", "Peas, green, frozen, boiled")
    choose(terminal, "fresh", "fresh")
    terminal.press("400", F9)
    terminal.wait_for("400.0 g fresh")
    terminal.press("i")
    terminal.wait_for("Ingredient", "Unit")
    terminal.press("onion", ENTER, "1", F9)
    terminal.wait_for("onion", gone=["F9 Done"])
    terminal.press(F9)
    terminal.wait_for("added the recipe Pea supper")


def cook(terminal: Terminal) -> None:
    """Four keys to the pick list with its water, and two more to take it."""
    terminal.press(ENTER)
    terminal.wait_for("Cook Pea supper", "People")
    terminal.press("4", ENTER)
    sheet = terminal.wait_for("Take from the shelves", "Water to add back")
    assert JAR in sheet, "the jar without an absorber has the earliest best-by of its lot"
    assert "76.7 g dry" in sheet and "323.7 g" in sheet
    terminal.press("t")
    terminal.wait_for("Take Pea supper for 4?")
    terminal.press(ENTER)
    terminal.wait_for("Taken: Pea supper", "Out of the cold until", "use by the end of Sat 28 Nov")
    terminal.press(ENTER)
    terminal.wait_for("cooked Pea supper for 4 from 1 package", gone=["Out of the cold"])


def look_and_undo(terminal: Terminal) -> None:
    """The Shelves show what was taken, and what undo puts back."""
    terminal.press("2")
    terminal.wait_for("by best-by", "opened", "20.8 g dry")
    terminal.press("u")
    terminal.wait_for("undid: cooked Pea supper")
    terminal.wait_for("97.5 g dry", gone=["opened"])


def test_from_nothing_to_a_cooked_meal(tmp_path: Path) -> None:
    start(tmp_path)
    with screens(tmp_path, LOADED) as terminal:
        load(terminal)
    with screens(tmp_path, PACKED) as terminal:
        unload(terminal)
        pack(terminal)
    with screens(tmp_path, COOKED) as terminal:
        squeeze(terminal)
        write_recipe(terminal)
        cook(terminal)
        look_and_undo(terminal)
    listed = json.loads(said("find", "peas", "--json", home=tmp_path, day=COOKED))
    assert {one["code"][:8] for one in listed} == {*POUCHES, JAR}
    assert {one["condition"] for one in listed} == {"sound"}
    journal = said("journal", home=tmp_path, day=COOKED)
    assert "undid: cooked Pea supper for 4" in journal
    assert "tester" in journal
