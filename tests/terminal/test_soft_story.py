"""A pouch that goes soft, and its way back to the shelf, as a person would go it.

Commands where a command is quicker, the screens where hands are at the shelf: apples dried and
packed on the 17th; the settle check of the 18th finds one pouch soft and its sisters crisp; it is
decided, waits in the freezer, goes on the next run on the 19th, comes off on the 20th, is packed
anew and looked at on the 21st, which is undone and done again.
"""

from __future__ import annotations

import json
from pathlib import Path

from tests.terminal.emulator import ENTER, ESCAPE, F9, TAB, Terminal
from tests.terminal.hands import choose, feel_and_break, said, screens, weigh_dry

LOADED, PACKED, SOFT = "2026-11-16", "2026-11-17", "2026-11-18"
AGAIN, ANEW, LOOKED = "2026-11-19", "2026-11-20", "2026-11-21"
LOT = "26321A"
SOFT_ONE, *SISTERS = (f"{LOT}0{number}" for number in (1, 2, 3, 4))
NEW_ONE = f"{LOT}05"
APPLE, PEAS = "Apple, raw, with skin", "Peas, green, frozen, boiled"


def start(home: Path) -> None:
    """The store, its places, and a first run with two trays of apples, at the prompt."""
    for words in (
        ("init", "--units", "metric", "--people", "2"),
        ("place", "add", "cellar", "--temp", "9"),
        ("place", "add", "chest freezer", "--kind", "freezer", "--temp", "-18"),
        ("run", "new"),
        ("run", "load", "1", APPLE, "1000"),
        ("run", "load", "2", APPLE, "980"),
    ):
        said(*words, home=home, day=LOADED)


def dry_longer(home: Path) -> None:
    """A first weight of each tray, and a cold spot: it dries on for two hours."""
    said("run", "dry", "1", "158", "--hours", "22", home=home, day=PACKED)
    said("run", "dry", "2", "149", "--hours", "22", home=home, day=PACKED)
    said("run", "test", "1", "cold", "fail", home=home, day=PACKED)
    assert "dries 2 h more" in said("run", "more", "2", home=home, day=PACKED)


def unload(terminal: Terminal) -> None:
    """What was shown before the two hours counts no more: weighed twice, felt and broken."""
    terminal.wait_for("On the machine · 1", "run 1", "weigh")
    terminal.press("3")
    terminal.wait_for("Lots to pack", "open")
    terminal.press(ENTER)
    terminal.wait_for("Run 1", "Dryness is not shown")
    weigh_dry(terminal, ("152", "152.0 g"), ("148", "148.0 g"))
    weigh_dry(terminal, ("151.5", "no loss seen"), ("148", "0.0 g"))
    feel_and_break(terminal, 2, found="Dryness is shown")
    terminal.press("c")
    terminal.wait_for("Close run 1", "It makes one lot")
    terminal.press(F9)
    terminal.wait_for(f"closed run 1 into lot {LOT}")


def pack(terminal: Terminal) -> None:
    """Four pouches with absorbers share it all."""
    terminal.press("p")
    terminal.wait_for(f"Pack lot {LOT}", "Dryness is shown")
    terminal.press("4", ENTER)
    choose(terminal, "950-foil", "foil pouch 950 mL", "  946 mL")
    terminal.press(ENTER, "200", ENTER, ENTER)
    terminal.wait_for("Packed 299.5 g, nothing left", "0 packages")
    choose(terminal, "cell", "cellar", "0 packages")
    terminal.press(F9)
    terminal.wait_for(f"Pack lot {LOT} so?", "Place: cellar.")
    terminal.press(ENTER)
    terminal.wait_for(f"Packed lot {LOT}", SOFT_ONE)
    terminal.press(ESCAPE)
    terminal.wait_for("p Pack", gone=[f"Packed lot {LOT}"])


def squeeze(terminal: Terminal) -> None:
    """One is soft, so its sisters are in doubt; each is crisp by one key where it stands."""
    terminal.wait_for("4 settle checks", SOFT_ONE, *SISTERS)
    terminal.press("s")
    terminal.wait_for("soft, 3 sisters in doubt", "In doubt · 1", "Settle check · 3", "v decides")
    for left, sister in zip((2, 1), SISTERS, strict=False):
        terminal.press("c")
        terminal.wait_for(f"checked {sister}", f"Settle check · {left}")
    terminal.press("c")
    terminal.wait_for(f"checked {SISTERS[-1]}", "In doubt · 1", gone=["Settle check"])


def decide(terminal: Terminal) -> None:
    """Two questions decide: acid fruit may be used, dried again, or held in the freezer."""
    terminal.press("v")
    terminal.wait_for(f"What becomes of {SOFT_ONE}", "How does the food feel?", "So far: Discard")
    terminal.press("3")
    terminal.wait_for("Any sign of spoilage?", "You said: feels: moist")
    terminal.press("1")
    terminal.wait_for("▸ 1  Use it now.", "3  Hold it in the freezer", "Acid fruit that took up")
    terminal.press("3")
    terminal.wait_for("▸ 3  Hold it in the freezer")
    terminal.press(ENTER)
    terminal.wait_for(f"Hold {SOFT_ONE}", "Waits in", "chest freezer")
    terminal.press(F9)
    terminal.wait_for("hold it in the freezer", "Waiting for the machine · 1", gone=["In doubt"])


def load_again(terminal: Terminal) -> None:
    """From the queue on the Bench onto the second tray of the next run."""
    terminal.press("3")
    terminal.wait_for("first come first served", SOFT_ONE, "Lots to pack")
    terminal.press(TAB, ENTER)
    terminal.wait_for(f"Load {SOFT_ONE}", "The open run it goes on.")
    terminal.press(ENTER, ENTER, "76", F9)
    terminal.wait_for(f"loaded {SOFT_ONE}", "on run 2", gone=["F9 Done"])


def weigh_and_test(home: Path) -> None:
    """Both trays at the prompt: two weights an hour and a half apart, felt and broken."""
    for tray, first, last in (("1", "190", "189.5"), ("2", "72.5", "72")):
        said("run", "dry", tray, first, "--hours", "22", home=home, day=ANEW)
        said("run", "dry", tray, last, "--hours", "23.5", home=home, day=ANEW)
        said("run", "test", tray, "cold", "ok", home=home, day=ANEW)
        said("run", "test", tray, "break", "ok", home=home, day=ANEW)
    shown = json.loads(said("queue", "--json", home=home, day=ANEW))
    assert [one["code"][:8] for one in shown] == [SOFT_ONE]


def close_and_pack_anew(terminal: Terminal) -> None:
    """The run makes a lot of the peas; what was dried again is packed anew at once."""
    terminal.press("3")
    terminal.wait_for("Lots to pack", "open")
    terminal.press(ENTER)
    terminal.wait_for("Run 2", f"{SOFT_ONE}", "no loss seen", "snaps")
    terminal.press("c")
    terminal.wait_for("Close run 2", "No lot is made of food dried again", "4.0 g of water")
    terminal.press(F9)
    terminal.wait_for("Dried again: what is next?", f"pack {SOFT_ONE}")
    terminal.press(ENTER)
    terminal.wait_for(f"Pack {SOFT_ONE}", "72.0 g dry off tray 2 of run 2", "Dryness is shown")
    terminal.press("1", ENTER, ENTER, ENTER, "200", ENTER, ENTER)
    terminal.wait_for("Packed 72.0 g, nothing left", "packages")
    choose(terminal, "cell", "cellar", "3 packages")
    terminal.press(F9)
    terminal.wait_for("so?", "Place: cellar.")
    terminal.press(ENTER)
    terminal.wait_for(NEW_ONE, "quality estimate")
    terminal.press(ESCAPE)
    terminal.wait_for("Run 2 · closed", gone=["quality estimate"])


def look_and_undo(terminal: Terminal) -> None:
    """The settle check of the new package; its one key is undone and pressed again."""
    terminal.wait_for("1 settle check", NEW_ONE)
    terminal.press("c")
    terminal.wait_for(f"checked {NEW_ONE}", "crisp, now sound", gone=["Settle check"])
    terminal.press("u")
    terminal.wait_for("Settle check · 1", NEW_ONE, "due today", "undid: checked")
    terminal.press("c")
    terminal.wait_for(f"checked {NEW_ONE}", gone=["Settle check"])


def undo_the_packing(home: Path) -> None:
    """Undone at the prompt, the food is off the machine and in no package; redone, it is back."""
    assert "Undid: packed" in said("undo", home=home, day=ANEW)
    (waiting,) = json.loads(said("queue", "--json", home=home, day=ANEW))
    assert (waiting["code"][:8], waiting["state"]) == (SOFT_ONE, "dried")
    assert "Redid: packed" in said("redo", home=home, day=ANEW)
    assert json.loads(said("queue", "--json", home=home, day=ANEW)) == []


def line_of(page: str, heading: str) -> str:
    """What stands beside a heading on a page."""
    (found,) = [line for line in page.splitlines() if line.startswith(heading)]
    return found.removeprefix(heading).strip()


def test_soft_and_back_on_the_shelf(tmp_path: Path) -> None:
    start(tmp_path)
    dry_longer(tmp_path)
    with screens(tmp_path, PACKED) as terminal:
        unload(terminal)
        pack(terminal)
    with screens(tmp_path, SOFT) as terminal:
        squeeze(terminal)
        decide(terminal)
    said("run", "new", home=tmp_path, day=AGAIN)
    said("run", "load", "1", PEAS, "900", home=tmp_path, day=AGAIN)
    with screens(tmp_path, AGAIN) as terminal:
        load_again(terminal)
    weigh_and_test(tmp_path)
    with screens(tmp_path, ANEW) as terminal:
        close_and_pack_anew(terminal)
    undo_the_packing(tmp_path)
    with screens(tmp_path, LOOKED) as terminal:
        look_and_undo(terminal)
    standing = json.loads(said("find", "apple", "--json", home=tmp_path, day=LOOKED))
    assert {one["code"][:8]: one["condition"] for one in standing} == dict.fromkeys(
        [*SISTERS, NEW_ONE], "sound"
    )
    page = said("show", NEW_ONE, home=tmp_path, day=LOOKED)
    assert line_of(page, "packed") == "anew, dried again"
    assert line_of(page, "first sealed") == PACKED
    assert line_of(page, "food out of").startswith(SOFT_ONE)
    page = said("show", SOFT_ONE, home=tmp_path, day=LOOKED)
    assert (line_of(page, "condition"), line_of(page, "went into")[:8]) == ("used", NEW_ONE)
