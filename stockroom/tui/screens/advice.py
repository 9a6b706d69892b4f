"""Packing advice for a lot: how it would be packed best, why, and what to bear in mind."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

from stockroom.domain.keeping.interface import QUALITY_NOT_SAFETY
from stockroom.domain.quantities import UnitSystem, show_weight
from stockroom.services.advice import Packed, PackingAdvice, advise_lot
from stockroom.services.session import Stockroom
from stockroom.tui.modal import BaseModal
from stockroom.tui.plaintext import plain
from stockroom.tui.screens.package_words import LIMIT_WORDS
from stockroom.tui.screens.windows import Cautions


class AdviceScreen(BaseModal[PackingAdvice]):
    """The advice; Enter closes with it, for the packing form to be filled in."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter",
            "use",
            "Fill in",
            id="advice-use",
            tooltip="Fill the packing form with the advised way; nothing is packed yet.",
        ),
    ]
    DEFAULT_CSS = """
    AdviceScreen {
        & > .box { width: 78; height: 100%; }
        & > .box > .inside { height: 1fr; }
        Static { height: auto; }
        .advised { text-style: bold; }
        .section { color: $primary; text-style: bold; margin-top: 1; }
        .reason { margin-bottom: 1; }
        .warning { color: $warning; }
    }
    """

    def __init__(
        self, advice: PackingAdvice, units: UnitSystem, *, place: str | None, replaces: bool
    ) -> None:
        """`replaces` says that lines already typed would go."""
        super().__init__(f"Packing advice for lot {advice.lot.code}")
        self.advice = advice
        self.units = units
        self.place = place
        self.replaces = replaces

    def compose_inside(self) -> ComposeResult:
        """The advised way, the reasons, the other ways, the cautions."""
        for look, text in advice_lines(self.advice, self.units, self.place):
            yield Static(plain(text), classes=look)
        if self.replaces and self.advice.advised is not None:
            yield Static("! Enter replaces the lines typed so far.", classes="warning")
        if self.advice.cautions:
            yield Static("Bear in mind", classes="section")
            yield Cautions(self.advice.cautions)

    def on_mount(self) -> None:
        """Let the arrow keys scroll."""
        inside = self.query_one(".inside")
        inside.can_focus = True
        inside.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """There is nothing to fill in when no way suits."""
        if action == "use":
            return self.advice.advised is not None
        return super().check_action(action, parameters)

    def action_use(self) -> None:
        """Close with the advice."""
        self.dismiss(self.advice)


def advice_screen(
    room: Stockroom, lot_code: str, place: str | None, *, replaces: bool
) -> AdviceScreen:
    """The window for a lot. Raises as `advise_lot` does."""
    advice = advise_lot(room, lot_code, place=place)
    return AdviceScreen(advice, room.units, place=place, replaces=replaces)


def advice_lines(
    advice: PackingAdvice, units: UnitSystem, place: str | None
) -> Iterator[tuple[str, str]]:
    """The advice as lines, each with the name of its look."""
    yield "lot", f"{advice.lot.food}: {show_weight(advice.lot.left_dg, units)} dry left to pack."
    standing = f"standing in {place}" if place else "in a place near 21 °C: none is picked yet"
    if advice.advised is not None:
        yield "section", "Advised"
        yield "advised", packed_words(advice.advised, units)
        best_by = best_by_words(advice.advised)
        yield "date", f"{best_by[:1].upper()}{best_by[1:]}, {standing}."
    yield "section", "Why"
    for reason in advice.reasons:
        yield "reason", reason
    if advice.others:
        yield "section", "Other ways"
        for other in advice.others:
            yield "other", f"{packed_words(other, units)}: {best_by_words(other)}."


def packed_words(packed: Packed, units: UnitSystem) -> str:
    """So many of which container, how full, with which absorber."""
    fit = packed.fit
    each = show_weight(fit.each_dg, units)
    absorber = "no absorber"
    if packed.absorber is not None:
        absorber = f"{packed.absorber.absorber_cc} cc absorber"
    dry = "dry each" if fit.count > 1 else "dry"
    return f"{fit.count} × {fit.container.name}, {each} {dry}, {absorber}"


def best_by_words(packed: Packed) -> str:
    """The best-by with its band and limit, or why there is none."""
    if packed.best_by is None:
        return f"no best-by: {packed.why_not.rstrip('.')}"
    limit = LIMIT_WORDS.get(packed.limited_by, packed.limited_by)
    return (
        f"best by {packed.best_by}, between {packed.low} and {packed.high}"
        f" ({QUALITY_NOT_SAFETY}); {limit}"
    )
