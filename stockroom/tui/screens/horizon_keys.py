"""The keys of the Horizon."""

from __future__ import annotations

from textual.binding import Binding

from stockroom.tui.screens.working_key import working_binding

HORIZON_BINDINGS = (
    Binding(
        "r",
        "rotation",
        "To take",
        id="horizon-rotation",
        tooltip="What to take this month, place by place as you walk.",
    ),
    Binding(
        "e", "eating", "Eating", id="horizon-eating", tooltip="Say how fast the food is eaten."
    ),
    Binding(
        "v",
        "cover",
        "Cover",
        id="horizon-cover",
        tooltip="For how long the store would feed you, with how much water; what to dry next.",
    ),
    Binding(
        "t",
        "target",
        "Target",
        id="horizon-target",
        tooltip="Say how long the store is to last, or what it is to hold of a food group.",
    ),
    Binding(
        "g",
        "plot",
        "Plot",
        id="horizon-plot",
        tooltip="Plot the stock over the coming months with the part that passes its best-by.",
    ),
    Binding(
        "o",
        "odds",
        "Odds",
        id="horizon-odds",
        tooltip="Reckon the odds that food is wasted, over many rounds of chance.",
    ),
    working_binding("horizon", "Show how the least eating rate of the food was reached."),
    Binding(
        "f",
        "whole",
        "All of it",
        id="horizon-whole",
        tooltip="Read all of it as on paper, with cautions and sources; copy it or write it.",
    ),
    Binding(
        "a",
        "again",
        "Look again",
        show=False,
        id="horizon-again",
        tooltip="Look ahead again.",
    ),
    Binding(
        "escape",
        "stop",
        "Stop",
        id="horizon-stop",
        tooltip="Stop weighing up what would save food, and show what was found.",
    ),
)
