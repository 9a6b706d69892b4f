"""docs/commands.md, written from the tree of commands and from examples that are run.

    python -m tests.cli.commands_page     writes the page anew

The examples are one story in the order of the page; each line is run on one store, and where a
command has an entry in `SHOWN` its answer stands below it.
"""

from __future__ import annotations

import contextlib
import io
import os
import shlex
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from stockroom.cli.app import SECTIONS
from stockroom.cli.main import main
from tests.cli.tree import arguments, commands, own_options

PAGE = Path(__file__).resolve().parents[2] / "docs" / "commands.md"
READINGS = """\
Date-Time,Temperature (°C),Battery
2026-01-15 06:00,9.0,3.1
2026-01-15 18:00,11.5,3.1
2026-04-15 12:00,17.0,3.0
2026-07-15 06:00,24.5,3.0
2026-07-15 18:00,n/a,3.0
2026-07-16 06:00,31.0,3.0
2026-10-15 12:00,18.5,2.9
"""
"""The story's readings.csv; one row cannot be read."""

LARDER = """\
Food;Dry weight (g);Water (g);Container;Absorber (cc);Sealed on;Place;Count
Peas, green, frozen, boiled;62,5;280;pouch-1500-foil;300;13.10.2026;attic/shelf;2
"""
"""The story's larder.csv, as a spreadsheet writes it where decimals have a comma."""

SOUP = """\
{
  "@context": "https://schema.org",
  "@type": "Recipe",
  "name": "Green soup",
  "recipeYield": "4",
  "recipeIngredient": ["240 g peas", "1 onion, chopped", "900 ml water", "a handful of thyme"],
  "recipeInstructions": "Simmer all of it for 20 minutes."
}
"""
"""The story's soup.json, a recipe as a page would hold it."""

DUE = """\
servings,best_by
6,2026-03-11
30,2026-03-31
24,2026-04-30
"""
"""The story's due.csv: what is to be eaten by when."""

TODAY = "2026-11-25"
"""Day 329, so that the story's first lot is 26329A."""

INTRODUCTION = """\
# Commands

Everything the screens do, a command does, line by line. The answer goes to standard output and
everything said beside it (cautions, hints, trouble) to standard error, so a list can be piped or
kept. Nothing is coloured and nothing moves.

Options that go with any command, before or after its own words:

| Option | Meaning |
|---|---|
| `--store PATH` | the store's file; else `STOCKROOM_STORE`, else the place for your system |
| `--today YYYY-MM-DD` | take this day for today: a what-if. Also `yesterday`, `+3`, `-2` |
| `--who NAME` | who is at it, for the journal; else `STOCKROOM_WHO`, else your login name |
| `--version` | say the version and stop |
| `--help`, `-h` | show how it goes and stop |

`--json` prints the record's own values: weights in whole tenths of a gram (`_dg`), temperatures
in whole tenths of a degree Celsius (`_dc`), volumes in millilitres (`_ml`), days as YYYY-MM-DD.
`--csv` prints plain numbers in grams (`_g`) and degrees Celsius (`_c`); a cell that a spreadsheet
would take for a formula begins with an apostrophe. When both are said, the last one counts. `calc`
prints plain grams and millilitres in JSON too. On a terminal long texts are cut to its width and
less needed columns left out; a pipe or a file gets everything.

Exit codes: 0 done, or an empty list that is a fair answer · 1 a negative answer: a check found
something · 2 wrong use · 3 store or data trouble, or a refusal · 130 interrupted. What can go
wrong, and what to do then: [errors.md](errors.md).

Weights are typed in the household's units or with their own: `62`, `62.5 g`, `1.2 kg`, `7 oz`,
`2 lb 3 oz`. Days: `YYYY-MM-DD`, `today`, `yesterday`, `+3`, `-2`. Places: a path, such as
`cellar/rack 1`, or the end of one where it is the only one. Codes: with or without the check
character at the end. A word that begins with a hyphen goes after `--`.

The examples below follow one another on a new store; readings.csv is a logger's file, soup.json a
recipe of another cook, larder.csv a spreadsheet's list and due.csv one of servings with their
best-by. Follow local codes and licensed
guidance.
"""

PEAS = '"Peas, green, frozen, boiled"'

EXAMPLES: dict[str, tuple[str, ...]] = {
    "init": ("stockroom init --units metric --people 2 --name 'The mill house'",),
    "demo": ("stockroom demo",),
    "household": ("stockroom household", "stockroom household --people 3"),
    "person add": (
        "stockroom person add Ann --sex F --age 41 --activity low --weight 65 --height 165"
        " --allergen fish",
        "stockroom person add Bo --sex M --age 9 --activity active",
    ),
    "person list": (
        "stockroom person list",
        "stockroom person list --working",
        "stockroom person list --csv",
    ),
    "person change": ("stockroom person change Bo --age 10 --activity low",),
    "person remove": ("stockroom person remove Bo",),
    "place add": (
        "stockroom place add cellar --kind cellar --temperature 12",
        "stockroom place add 'cellar/rack 1'",
        "stockroom place add loft --kind loft --note 'hot in summer'",
    ),
    "place list": ("stockroom place list",),
    "place rename": ("stockroom place rename loft attic",),
    "place set": ("stockroom place set attic --temperature 24",),
    "place put": (
        "stockroom place add 'small bin' --kind bin",
        "stockroom place put 'small bin' 'cellar/rack 1'",
    ),
    "place temperature": (
        "stockroom place temperature cellar --month jan=9 --month jul=15",
        "stockroom place temperature cellar --steady 12",
        "stockroom place temperature 'cellar/rack 1' --clear",
    ),
    "place readings": (
        "stockroom place readings attic readings.csv --dry-run",
        "stockroom place readings attic readings.csv",
    ),
    "place humidity": ("stockroom place humidity cellar 60",),
    "place climate": ("stockroom place climate attic",),
    "place remove": ("stockroom place remove 'small bin'",),
    "run new": ("stockroom run new",),
    "run load": (
        f"stockroom run load 1 {PEAS} 1000",
        f"stockroom run load 2 {PEAS} 1650 --tare 650",
        'stockroom run load 3 "Apple, raw, peeled"',
    ),
    "run unload": (
        f"stockroom run load 4 {PEAS}",
        "stockroom run unload 4",
    ),
    "run weigh": ("stockroom run weigh 3 1200",),
    "run dry": (
        "stockroom run dry 1 156 --hours 30",
        "stockroom run dry 2 807 --hours 30",
        "stockroom run dry 3 '171 g'",
    ),
    "run test": ("stockroom run test 2 cold fail --note 'the thick end'",),
    "run more": (
        "stockroom run more 2 --note 'cold in the middle'",
        "stockroom run dry 1 155 --hours 32.5",
        "stockroom run dry 2 806 --hours 32.5",
        "stockroom run dry 3 170",
        "stockroom run test 1 break ok",
        "stockroom run test 2 cold ok",
        "stockroom run test 3 break ok",
        "stockroom run test 3 cold ok",
    ),
    "run show": ("stockroom run show", "stockroom run show --working"),
    "run close": ("stockroom run close",),
    "run again": (
        "stockroom lot hold 26329B --why 'a last cold spot'",
        "stockroom run new",
        "stockroom run again 1 26329B",
    ),
    "run abandon": ("stockroom run abandon",),
    "run list": ("stockroom run list",),
    "lot show": ("stockroom lot show 26329A", "stockroom lot show 26329A --working"),
    "lot list": ("stockroom lot list --to-pack",),
    "lot loss": ("stockroom lot loss 26329A 5:spilt",),
    "lot hold": ("stockroom lot hold 26329A --why 'soft in the middle'",),
    "lot release": ("stockroom lot release 26329A", "stockroom lot release 26329B"),
    "advise": (
        "stockroom advise 26329A --place 'rack 1'",
        "stockroom advise 26329A --working",
    ),
    "pack": (
        "stockroom pack 26329A --into 4xpouch-1500-foil:62,absorber=300 --loss 3:tasted"
        " --place 'rack 1' --packet October",
        "stockroom pack 26329B --into 1xjar-950:70,vacuum --into 2xjar-475:rest",
    ),
    "food list": ("stockroom food list --csv",),
    "food search": ("stockroom food search pea",),
    "food add": (
        'stockroom food add "Grandmother\'s stew" --class meal --prepared cooked --serving 250'
        " --allergen wheat",
        f"stockroom food add 'Garden peas' --like {PEAS}",
    ),
    "food edit": ("stockroom food edit 'Garden peas' --serving 90",),
    "food measure": (
        "stockroom food measure 'Garden peas' cup '31 g'",
        f"stockroom food measure {PEAS} cup '145 g' --fresh",
    ),
    "food measures": ("stockroom food measures", "stockroom food measures 'Garden peas' --csv"),
    "container list": ("stockroom container list",),
    "round": ("stockroom round",),
    "find": ("stockroom find pea --place cellar",),
    "show": ("stockroom show 26329A01", "stockroom show 26329A01 --working"),
    "check": (
        "stockroom check 26329A01 26329A02 crisp",
        "stockroom check 26329B01 soft --note 'limp at the lid'",
    ),
    "move": ("stockroom move 26329A03 26329A04 attic",),
    "draw": (
        "stockroom draw 26329A01 --servings 2",
        "stockroom draw 26329A01 --grams 20",
        "stockroom draw 26329A01",
    ),
    "discard": ("stockroom discard 26329B01 --why 'soft, seal lost'",),
    "note": ("stockroom note 26329A02 'for the walk'",),
    "whatif": ("stockroom whatif 26329A02", "stockroom whatif 26329A"),
    "gains": ("stockroom gains --most 5", "stockroom gains --most 1 --working"),
    "recheck list": ("stockroom recheck list --days 30",),
    "recheck show": (
        "stockroom recheck show 26329A02",
        "stockroom recheck show 26329A02 --working",
    ),
    "recheck settings": (
        "stockroom recheck settings",
        "stockroom recheck settings --days 'Sat Sun' --most 15",
    ),
    "sample": ("stockroom sample 26329A --at-most 1",),
    "decide": (
        "stockroom check 26329B02 soft",
        "stockroom decide 26329B02 --feel slightly-soft --signs none",
        "stockroom decide 26329B02 --feel slightly-soft --signs none --as hold --place 'rack 1'",
    ),
    "hold": ("stockroom hold 26329B03 --why 'its sister went soft'",),
    "queue": ("stockroom queue",),
    "repack": (
        "stockroom run new",
        "stockroom run again 1 26329B02 26329B03",
        "stockroom run dry 1 93",
        "stockroom run dry 1 93",
        "stockroom run close",
        "stockroom repack 26329B02 --into 1xjar-950 --place 'rack 1'",
    ),
    "trace": ("stockroom trace 26329A02", "stockroom trace 26329B --json"),
    "recall": (
        "stockroom recall 26329A02 --by lot --why 'the absorbers went hard'",
        "stockroom undo",
    ),
    "common": ("stockroom common", f"stockroom common --food {PEAS} --since 2026-01-01"),
    "cook": (
        f"stockroom recipe add 'Pea soup' --serves 4 --stored {PEAS[:-1]}=240 g fresh\""
        " --fresh 'onion=1 each' --fresh salt --water 900 --steps 'Soak, then simmer.'",
        "stockroom cook 'Pea soup' --people 6",
        "stockroom cook 'Pea soup' --people 6 --working",
        "stockroom cook 'Pea soup' --servings 1/2 --whole --cook-to '75 C'",
        "stockroom cook 'Pea soup' --people 2 --take",
        "stockroom cook 'Pea soup' --people 12 --take --short",
    ),
    "recipe import": (
        "stockroom recipe import soup.json",
        f'stockroom recipe import soup.json --map 1={PEAS[:-1]}=240 g fresh" --take',
    ),
    "recipe export": ("stockroom recipe export 'Green soup' --out book.json",),
    "meal list": ("stockroom meal list", "stockroom meal list --count 10 --csv"),
    "menu": (
        "stockroom recipe add Porridge --serves 4 --occasion breakfast --fresh 'oats=300 g'",
        "stockroom menu --days 2 --mains 0-2 --energy 0-200 --energy-in-all 0-200 --protein 0"
        " --apart 1 --keep",
        "stockroom menu --days 7 --water '6 L' --seconds 10",
    ),
    "menu show": ("stockroom menu show",),
    "menu again": ("stockroom menu again --helpings '100 200'",),
    "menu swap": (
        "stockroom recipe add 'Rice pudding' --occasion breakfast --fresh 'rice=200 g'",
        "stockroom menu swap today porridge 'Rice pudding' --keep",
    ),
    "menu lock": (
        "stockroom menu lock today rice --free",
        "stockroom menu lock today rice",
    ),
    "menu cook": ("stockroom menu cook today rice",),
    "menu wishes": (
        "stockroom menu wishes --cook-on 'Wed Sat' --helpings '100 200'",
        "stockroom menu wishes",
    ),
    "recipe add": (
        f"stockroom recipe add 'Mash' --stored {PEAS[:-1]}=2 servings\" --fresh 'butter=1/2 cup'",
        f"stockroom recipe add 'Pea porridge' --stored {PEAS[:-1]}=2 cups, hold 20 %\""
        " --cook-to '75 C' --occasion breakfast --fresh-allergen milk",
    ),
    "recipe list": ("stockroom recipe list",),
    "recipe show": ("stockroom recipe show mash",),
    "recipe edit": (
        "stockroom recipe edit mash --name 'Green mash' --serves 3",
        "stockroom recipe edit 'Pea porridge' --hold-back 25 --clear cook_to",
    ),
    "recipe remove": ("stockroom recipe remove 'Green mash'",),
    "rotate": ("stockroom rotate", "stockroom rotate --months 3 --csv"),
    "horizon": (
        f"stockroom eating set {PEAS} 4",
        "stockroom horizon --years 2",
        "stockroom horizon --months 6 --packages --csv",
        f"stockroom horizon --food {PEAS} --odds --rounds 100 --no-advice",
        f"stockroom horizon --food {PEAS} --working --no-advice",
    ),
    "target set": (
        "stockroom target set '6 months'",
        "stockroom target set 60 --group vegetable",
    ),
    "target list": ("stockroom target list",),
    "target clear": ("stockroom target clear --group vegetable",),
    "cover": ("stockroom cover", "stockroom cover --days '2 weeks' --power-out"),
    "eating set": (
        f"stockroom eating set {PEAS} 3 --per week",
        f"stockroom eating set {PEAS} 6 --every 5",
    ),
    "eating list": ("stockroom eating list",),
    "eating clear": (f"stockroom eating clear {PEAS}",),
    "upkeep list": ("stockroom upkeep list",),
    "upkeep show": ("stockroom upkeep show oil",),
    "upkeep done": (
        "stockroom upkeep done gasket",
        "stockroom upkeep done hose --failed --note 'crack at the pump end'",
    ),
    "upkeep reading": (
        "stockroom upkeep reading --volume-l 40 --from 0.30 --to 0.50 --seconds 600 --dry-empty",
        "stockroom upkeep reading --from '300 mTorr' --to '450 mTorr' --seconds 300"
        " --between '390 mTorr' --note 'not wiped'",
    ),
    "upkeep interval": (
        "stockroom upkeep interval oil_change 40h",
        "stockroom upkeep interval oil off",
    ),
    "upkeep faults": ("stockroom upkeep faults",),
    "undo": ("stockroom undo",),
    "redo": ("stockroom redo",),
    "journal": ("stockroom journal --count 5",),
    "calendar": (
        "stockroom calendar --out stockroom.ics",
        "stockroom calendar --out stockroom.ics --days 365 --alarm",
    ),
    "label": (
        "stockroom label 26329A --out labels.pdf",
        'stockroom label 26329A 26329B --out two.pdf --sheet "a4 3x8" --start 5',
        'stockroom label --place cellar --out labels.pdf --size "4 x 2 in"',
        "stockroom label 26329A --lines --width 24",
    ),
    "sheet list": ("stockroom sheet list",),
    "sheet save": (
        "stockroom sheet save freezer --size 64x34 --columns 3 --rows 8 --left 8 --top 12"
        " --across 1",
    ),
    "sheet remove": ("stockroom sheet remove freezer",),
    "backup": ("stockroom backup", "stockroom backup --keep 20", "stockroom backup --out copy.db"),
    "restore": ("stockroom restore copy.db --yes",),
    "export": (
        "stockroom export --out record.json",
        "stockroom export --out tables --csv",
        "stockroom export --out packages-as-stored.csv --table package",
    ),
    "import": (
        "stockroom import record.json --store new.db",
        "stockroom import larder.csv --what packages --add-places",
        "stockroom import larder.csv --what packages --add-places --condition sound --take",
    ),
    "doctor": ("stockroom doctor", "stockroom doctor --mend", "stockroom doctor --severity fault"),
    "calc water": ("stockroom calc water --wet 1000 --dry 155 --use 62",),
    "calc moisture": (
        "stockroom calc moisture --wet 1200 --dry 440 --water-fraction 0.65",
        "stockroom calc moisture --wet 1200 --dry 440 --water-fraction 65% --working",
    ),
    "calc plateau": (
        "stockroom calc plateau --weights 163.2,156.9,155.3,155.2,155.2 --resolution 0.1",
    ),
    "calc absorber": ("stockroom calc absorber --volume-ml 2000 --dry 180",),
    "calc keep": (
        "stockroom calc keep --food-class fruit --package foil_pouch --dry 150 --volume-ml 1500"
        " --absorber 300 --temp-c 21",
    ),
    "calc temperature": ("stockroom calc temperature --life-years 6 --q10 2 --temp-c 26",),
    "calc mkt": (
        "stockroom calc mkt --readings 20:2,2:4,25:1",
        "stockroom calc mkt --csv readings.csv",
    ),
    "calc life-used": ("stockroom calc life-used --life-years 10 --stays 16:6,26:3",),
    "calc sample": ("stockroom calc sample --lot 20 --at-most 2 --confidence 95%",),
    "calc belief": ("stockroom calc belief --checked 5 --soft 0 --remaining 15",),
    "calc eat-rate": ("stockroom calc eat-rate --csv due.csv --from 2026-03-01",),
    "calc energy": (
        "stockroom calc energy --sex F --age 30 --kg 65 --cm 165 --activity low",
        "stockroom calc energy --sex M --age 9 --activity active",
    ),
    "calc leak": (
        "stockroom calc leak --volume-l 40 --from-mbar 0.30 --to-mbar 0.60 --seconds 600"
        " --dry-empty",
        "stockroom calc leak --volume-l 30 --from-mbar '300 mTorr' --to-mbar '450 mTorr'"
        " --seconds 300",
    ),
    "calc code": ("stockroom calc code 26329A072",),
}
"""Command → the lines of the story that show it."""

SHOWN = (
    "place list", "place readings", "place climate", "find", "whatif", "recheck show", "decide",
    "queue", "calc water", "calc absorber", "calc keep", "calc mkt", "calc sample", "calc belief",
    "calc code", "doctor",
)  # fmt: skip
"""Commands whose answer stands in the page."""


def page() -> str:
    """The whole page; runs the story in a folder of its own."""
    with tempfile.TemporaryDirectory() as folder, _own_place(Path(folder)):
        return "\n".join([INTRODUCTION, *_sections()])


def story() -> Iterator[tuple[str, str]]:
    """Every example line with its command, in the order of the page."""
    for words, _ in commands():
        for line in EXAMPLES[" ".join(words)]:
            yield " ".join(words), line


def run_line(line: str) -> tuple[int, str, str]:
    """Run one example on the story's day: exit code, standard output, standard error."""
    words = shlex.split(line)
    assert words[0] == "stockroom", line
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main(["--today", TODAY, *words[1:]])
    return code, out.getvalue(), err.getvalue()


def _sections() -> Iterator[str]:
    titles = {section.names[0]: section.title for section in SECTIONS}
    for words, command in commands():
        if words[0] in titles:
            yield f"## {titles.pop(words[0])}\n"
        yield _section(words, command)


def _section(words: tuple[str, ...], command: click.Command) -> str:
    name = " ".join(words)
    context = click.Context(command, info_name=name)
    wanted = " ".join(one.make_metavar(context) for one in arguments(command))
    parts = [
        f"### `{f'stockroom {name} {wanted}'.rstrip()}`",
        "",
        *_help(command),
        *_options(command),
    ]
    return "\n".join([*parts, "```console", *_examples(name), "```", ""])


def _help(command: click.Command) -> Iterator[str]:
    """The help's paragraphs; its examples are run further down instead."""
    for paragraph in (command.help or "").split("\n\n"):
        if "\b" not in paragraph:
            yield " ".join(paragraph.split())
            yield ""


def _options(command: click.Command) -> Iterator[str]:
    rows = [_option(one) for one in own_options(command)]
    if rows:
        yield "| Option | Meaning |"
        yield "|---|---|"
        yield from rows
        yield ""


def _option(option: click.Option) -> str:
    context = click.Context(click.Command("any"))
    names = ", ".join([*option.opts, *option.secondary_opts])
    value = "" if option.is_flag else f" {option.make_metavar(context)}"
    said = option.help or ""
    if option.show_default and option.default is not None:
        said += f" Without it: {option.default}."
    # A bar inside a cell would end it.
    value = value.replace("|", " or ")
    return f"| `{names}{value}` | {said} |"


def _examples(name: str) -> Iterator[str]:
    for line in EXAMPLES[name]:
        code, out, err = run_line(line)
        assert code == 0, f"{line}: {code} {err}"
        yield f"$ {line}"
        if name in SHOWN:
            yield out.rstrip()


@contextlib.contextmanager
def _own_place(folder: Path) -> Iterator[None]:
    """A store and folders that belong to the page alone."""
    wanted = {
        "STOCKROOM_STORE": str(folder / "stockroom.db"),
        "STOCKROOM_WHO": "mia",
        "XDG_CACHE_HOME": str(folder / "cache"),
        "XDG_STATE_HOME": str(folder / "state"),
    }
    before = {name: os.environ.get(name) for name in [*wanted, "COLUMNS"]}
    here = Path.cwd()
    (folder / "readings.csv").write_text(READINGS, encoding="utf-8")
    (folder / "larder.csv").write_text(LARDER, encoding="utf-8")
    (folder / "soup.json").write_text(SOUP, encoding="utf-8")
    (folder / "due.csv").write_text(DUE, encoding="utf-8")
    os.environ.update(wanted)
    os.chdir(folder)
    os.environ.pop("COLUMNS", None)
    try:
        yield
    finally:
        os.chdir(here)
        for name, value in before.items():
            os.environ.pop(name, None)
            if value is not None:
                os.environ[name] = value


def write(arguments: Sequence[str]) -> int:
    """Write the page to its place, or elsewhere when a path is given."""
    target = Path(arguments[0]) if arguments else PAGE
    target.write_text(page(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(write(sys.argv[1:]))
