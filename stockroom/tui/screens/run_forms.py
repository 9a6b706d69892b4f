"""The forms of a run: a tray to add, and the closing of the run into lots."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.widgets import Static

from stockroom.domain.batch_evidence import Evidence
from stockroom.domain.cautions import Caution, cautions_for_load
from stockroom.domain.foods import Preparation
from stockroom.domain.quantities import UnitSystem, read_day, read_weight, read_whole
from stockroom.services import bench, dryness, foods
from stockroom.services.bench import MOST_TRAYS
from stockroom.services.redrying import load_again, machine_queue
from stockroom.services.results import Done, FoodChoice, RunDetail
from stockroom.services.session import Stockroom
from stockroom.tui.modal import attempt
from stockroom.tui.plaintext import plain_lines
from stockroom.tui.screens.again_choices import AgainChoices
from stockroom.tui.screens.dryness_words import closing_text
from stockroom.tui.screens.run_sums import closing_lines
from stockroom.tui.screens.weigh_line import read_hours
from stockroom.tui.screens.windows import CAUTION_SIGN, caution_text
from stockroom.tui.widgets.fields import Field
from stockroom.tui.widgets.forms import Answers, FormScreen
from stockroom.tui.widgets.picker import Choice, Picker, Search

MOST_MATCHES = 60


def unit_word(units: UnitSystem) -> str:
    """The unit a bare number is read in."""
    return "oz" if units is UnitSystem.US else "g"


def food_search(room: Stockroom) -> Search:
    """Finds foods by words of their name: the household's own first, then the nearest names."""

    def search(letters: str) -> Sequence[Choice]:
        found = foods.search_foods(room, letters)
        nearest = sorted(found, key=lambda food: (not food.own, nearness(food.name, letters)))
        return [Choice(food.name, food.name, _food_detail(food)) for food in nearest[:MOST_MATCHES]]

    return search


def nearness(name: str, letters: str) -> int:
    """How near a name is to what was typed: 0 begins so, 1 has a word that does, 2 the rest."""
    typed = letters.strip().casefold()
    if name.casefold().startswith(typed):
        return 0
    return 1 if f" {typed}" in f" {name.casefold()}" else 2


def _food_detail(food: FoodChoice) -> str:
    """What tells a food from others: whose it is, how it was prepared, its water."""
    water = "" if food.water_percent is None else f", {food.water_percent:.0f} % water"
    return f"{'own, ' if food.own else ''}{Preparation(food.preparation)}{water}"


def next_free(detail: RunDetail) -> int:
    """The lowest tray number not in use."""
    taken = {tray.position for tray in detail.trays}
    return next(number for number in range(1, MOST_TRAYS + 2) if number not in taken)


def last_food(detail: RunDetail) -> Choice | None:
    """The food loaded last, which the next tray often holds too; none if it was dried before."""
    latest = max(detail.trays, key=lambda tray: tray.tray_id, default=None)
    return None if latest is None or latest.again else Choice(latest.food, latest.food)


class TrayForm(FormScreen[Done]):
    """Asks for a food, its weight and a tray number; under them the cautions of the food.

    Food that waits to be dried again is offered before the foods, in the order of the queue.
    """

    DEFAULT_CSS = """
    TrayForm .care { height: auto; color: $warning; }
    """

    def __init__(self, room: Stockroom, detail: RunDetail) -> None:
        self.room = room
        self.detail = detail
        self.again = AgainChoices(machine_queue(room))
        unit = unit_word(room.units)
        self.food = Picker(
            "food",
            "Food",
            self.again.before(food_search(room)),
            last_food(detail),
            hint=self.again.hint,
        )
        fields = (
            self.food,
            Field("weight", "Loaded", unit=unit, hint="Tared or gross; it may come later."),
            Field("tare", "Empty tray", unit=unit, hint="For a gross weight; it is taken off."),
            Field("tray", "Tray", str(next_free(detail)), hint="1 is the top tray."),
        )
        super().__init__(f"Add a tray to run {detail.run.run_id}", fields, self._load)

    def compose_inside(self) -> ComposeResult:
        """The fields, then what to bear in mind for the food."""
        yield from super().compose_inside()
        yield Static(classes="care")

    def on_mount(self) -> None:
        """Show the cautions of the food that is picked at first."""
        self._show_care()

    @on(Field.Moved)
    def _show_care(self) -> None:
        """The cautions of the food that is picked now."""
        choice = self.food.choice
        name = "" if choice is None else self.again.food_of(choice) or str(choice.key)
        cautions = attempt(self.app, load_cautions, self.room, name) if name else ()
        self.query_one(".care", Static).update(plain_lines(map(caution_text, cautions or ())))

    def _load(self, answers: Answers) -> Done:
        """Put the food on the tray."""
        units = self.room.units
        food = answers.choice("food")
        weight, tare = answers.text("weight").strip(), answers.text("tare").strip()
        position = read_whole(answers.text("tray"), "tray", 1, MOST_TRAYS)
        gross_dg = read_weight(weight, units) if weight else None
        tare_dg = read_weight(tare, units, "tare") if tare else 0
        run_id = self.detail.run.run_id
        codes = () if food is None else self.again.codes_of(food)
        if codes:
            return load_again(
                self.room, position, codes, gross_dg=gross_dg, tare_dg=tare_dg, run_id=run_id
            )
        name = answers.text("food") if food is None else str(food.key)
        return bench.load_tray(
            self.room, position, name, gross_dg=gross_dg, tare_dg=tare_dg, run_id=run_id
        )


def load_cautions(room: Stockroom, name: str) -> tuple[Caution, ...]:
    """What to bear in mind when this food goes on a tray; the deferring line stands elsewhere."""
    own = {food.name: food for food in foods.list_foods(room)}
    food = own.get(name) or foods.from_reference(foods.reference_food(name))
    cautions = cautions_for_load([foods.facts_of(food)])
    return tuple(one for one in cautions if one.key != "local-codes")


def close_form(room: Stockroom, detail: RunDetail, evidence: Evidence) -> FormScreen[Done]:
    """Shows the lots a run would become and asks for the day; closes the run.

    Where dryness is not shown it says so first: a closed run is not dried on.
    """
    day = "today" if detail.run.started_on <= room.today else detail.run.started_on.isoformat()

    not_shown = closing_text(evidence)
    care = f"{CAUTION_SIGN} {not_shown}" if not_shown else ""

    def close(answers: Answers) -> Done:
        closed_on = read_day(answers.text("closed"), room.today, "closing day")
        return bench.close_run(room, run_id=detail.run.run_id, closed_on=closed_on)

    return FormScreen(
        f"Close run {detail.run.run_id}",
        (
            Field(
                "closed", "Closed on", day, hint="Enter closes the run.",
                answers_to=("closing day", "day"),
            ),
        ),
        close,
        about=[*closing_lines(detail.trays, room.units), *([care] if care else [])],
    )  # fmt: skip


def longer_form(room: Stockroom, run_id: int) -> FormScreen[Done]:
    """Asks how many more hours a run dries, and why."""

    def begin(answers: Answers) -> Done:
        hours = read_hours(answers.text("hours"))
        return dryness.dry_longer(room, hours, run_id=run_id, note=answers.text("note"))

    return FormScreen(
        f"Dry run {run_id} a few more hours",
        (
            Field("hours", "Hours more", hint="Such as 2 or 1.5; the Round reminds."),
            Field("note", "Note", hint="Why, such as: cold in the middle."),
        ),
        begin,
        about=(
            "What was weighed and tested so far counts no more then. When the hours are over,"
            " weigh and test every tray again.",
        ),
    )
