"""A trace as sections: where it comes from, then everything that shares its past."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from textual.strip import Strip

from stockroom.domain.gate import override_words
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.domain.records import Package
from stockroom.domain.trace_records import DriedTray, Drying, Group, MealMade, TracePage
from stockroom.tui.screens.sections import Section, SectionTable
from stockroom.tui.widgets.columns import Column
from stockroom.tui.widgets.window_lines import LinePainter
from stockroom.tui.widgets.window_rows import Row, Tone
from stockroom.tui.widgets.window_table import HEADER_LINES
from stockroom.tui.words import GONE, closure_words, counted, place_words, tone_of

COLUMNS = (
    Column("Code", 10, look="main"),
    Column("Food", 12, weight=1),
    Column("State", 9, look="tone"),
    Column("Place", 10, weight=1, keep="end", look="quiet"),
)
FACT_COLUMNS = (Column("", 10, look="quiet"), Column("", 20, weight=1, look="tone"))
_SPAN = 1 << 32
"""Rows of each section have keys of their own: a package may stand in two."""
NOT_RECORDED = "not on record"


@dataclass(frozen=True, slots=True)
class Fact:
    """A name and what is on record of it."""

    label: str
    text: str
    tone: Tone = ""


Entry = Fact | Package
Part = tuple[str, str, Sequence[Entry]]
"""A section: its title, the words at its right end, its entries."""


class TraceTable(SectionTable):
    """Sections of packages and of facts; a fact has the whole line to itself."""

    def __init__(self) -> None:
        super().__init__(COLUMNS, id="trace")
        self.entries: dict[int, Entry] = {}
        self._facts: LinePainter | None = None

    @property
    def entry(self) -> Entry | None:
        """What is under the cursor."""
        return None if self.cursor_key is None else self.entries.get(self.cursor_key)

    def show_parts(self, parts: Sequence[Part], today: date) -> None:
        """Show these sections; the cursor keeps to its place."""
        self.entries = {}
        sections: list[Section] = []
        for place, (title, aside, entries) in enumerate(parts):
            keyed = {place * _SPAN + _id_of(one, at): one for at, one in enumerate(entries)}
            self.entries |= keyed
            rows = tuple(_row(key, one, today) for key, one in keyed.items())
            sections.append(Section(title, aside, rows))
        self.show_sections(sections, empty="")

    def render_line(self, y: int) -> Strip:
        """A fact over the whole line, or what the table draws."""
        row = self.scroll_offset.y + y - HEADER_LINES
        keys = self._state.keys
        if (
            y < HEADER_LINES
            or row >= len(keys)
            or not isinstance(self.entries.get(keys[row]), Fact)
        ):
            return super().render_line(y)
        return self._fact_painter().row(self._record(row), self._line_state(row), self._style)

    def _fact_painter(self) -> LinePainter:
        width = self.scrollable_content_region.width
        if self._facts is None or self._facts.width_cells != width:
            self._facts = LinePainter(FACT_COLUMNS, width)
        return self._facts


def _id_of(entry: Entry, at: int) -> int:
    """The key of an entry within its section; facts are below all packages."""
    return entry.package_id + _SPAN // 2 if isinstance(entry, Package) else at


def _row(key: int, entry: Entry, today: date) -> Row:
    """An entry as a line."""
    if isinstance(entry, Fact):
        return Row(key, (entry.label, entry.text), entry.tone)
    place = "" if entry.condition in GONE else place_words(entry)
    cells = (entry.code, entry.food, entry.condition, place)
    return Row(key, cells, tone_of(entry, today))


def parts_of(page: TracePage, units: UnitSystem) -> list[Part]:
    """The page as sections: back first, then forward."""
    parts: list[Part] = [_drying(one, units) for one in page.dryings]
    if page.package is not None:
        parts.append(_packed(page))
    parts.append(("Food out of", counted(len(page.sources), "package"), page.sources))
    parts.append(("Went into", counted(len(page.successors), "package"), page.successors))
    parts.extend(_group(group, fresh) for group, fresh in page.listed_once())
    meals = [_meal(one, units) for one in page.meals]
    parts.append((f"Meals with food of lot {page.lot.code} · {len(meals)}", "", meals))
    return parts


def _drying(drying: Drying, units: UnitSystem) -> Part:
    """The run, its trays, its extra hours and what showed dryness."""
    run = drying.run
    facts = [_tray(one, units) for one in drying.trays]
    facts += [
        Fact("more", f"{one.hours_tenths / 10:g} h more on {one.on_day}", "due")
        for one in drying.extra
    ]
    facts.append(Fact("dryness", drying.gate.words, "good" if drying.gate.open else "bad"))
    facts += [Fact("note", run.note)] if run.note else []
    how = "Dried again in" if drying.again else "Dried in"
    until = f" to {run.closed_on}" if run.closed_on not in (None, run.started_on) else ""
    return f"{how} run {run.run_id}", f"{run.started_on}{until}", facts


def _tray(dried: DriedTray, units: UnitSystem) -> Fact:
    """A tray with its weights and tests; one of other food stands back."""
    tray = dried.tray
    wet = f"{show_weight(tray.wet_dg, units)} loaded" if tray.wet_dg is not None else ""
    dry = f"{show_weight(tray.dry_dg, units)} dry" if tray.dry_dg is not None else ""
    tests = [dried.cold, dried.broken]
    said = [tray.food, *(one for one in (wet, dry, *tests) if one)]
    return Fact(f"tray {tray.position}", " · ".join(said), "" if dried.own else "quiet")


def _packed(page: TracePage) -> Part:
    """How it was closed, out of which packet and box, and where it waits."""
    package = page.package
    assert package is not None
    facts = [Fact("in", closure_words(package))]
    if package.absorber_cc:
        facts.append(Fact("packet", package.absorber_packet or NOT_RECORDED))
    facts.append(Fact("box", package.container_box or NOT_RECORDED))
    if package.tray_position is not None:
        facts.append(Fact("from", f"tray {package.tray_position}"))
    if package.gate_reason:
        facts.append(Fact("although", override_words(package.gate_reason), "bad"))
    if page.queued is not None:
        waits = f"for the machine since {page.queued.since}, {page.queued.state}"
        facts.append(Fact("waits", waits, "due"))
    return f"Sealed {package.sealed_on}", package.origin, facts


def _group(group: Group, fresh: Sequence[Package]) -> Part:
    """A group: its packages not named above, and how many are."""
    above = len(group.listed) - len(fresh)
    more = group.packages - len(group.listed)
    entries: list[Entry] = [*fresh]
    if above:
        entries.append(Fact("", f"{above:,} of them named above", "quiet"))
    if more:
        entries.append(Fact("", f"and {more:,} more, not named here", "quiet"))
    words = group.words
    title = f"{words[:1].upper()}{words[1:]} · {counted(group.packages, 'package')}"
    return title, state_words(group), entries


def state_words(group: Group) -> str:
    """How many of a group stand in which condition."""
    return " · ".join(f"{count} {condition}" for condition, count in group.conditions)


def _meal(meal: MealMade, units: UnitSystem) -> Fact:
    """A meal in a line."""
    out_of = counted(meal.packages, "package")
    text = f"{meal.name} · {show_weight(meal.dry_dg, units)} dry out of {out_of}"
    return Fact(str(meal.on_day), text)


def entry_lines(entry: Entry | None, today: date) -> list[str]:
    """What is under the cursor, whole: the table may have cut it."""
    if entry is None:
        return []
    if isinstance(entry, Fact):
        return [f"{entry.label}: {entry.text}" if entry.label else entry.text]
    gone = f"gone {entry.gone_on}" if entry.gone_on else place_words(entry)
    lot = f"lot {entry.lot_code}"
    return [
        f"{entry.code} {entry.food} · {entry.condition} · sealed {entry.sealed_on} · {lot}",
        f"{gone}. Enter opens it, b traces it.",
    ]


def fetch_lines(packages: Iterable[Package]) -> list[str]:
    """Codes by place, in the order given, as a person walks along."""
    lines: list[str] = []
    place = None
    for package in packages:
        if place_words(package) != place:
            place = place_words(package)
            lines.append(place)
        lines.append(f"  {package.code} {package.food}")
    return lines
