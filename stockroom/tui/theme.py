"""The two colour themes: lichen and frost on slate for the cellar, the same on paper for the day.

Screens and widgets name theme variables only, so that either theme, or another of the person's
choice, changes everything at once.
"""

from __future__ import annotations

from textual.theme import Theme

CELLAR = Theme(
    name="cellar",
    primary="#7FB7BE",
    secondary="#8E9AAF",
    accent="#E3B967",
    warning="#E0A458",
    error="#E07A6B",
    success="#9CC28B",
    foreground="#E3E7E4",
    background="#171C1F",
    surface="#1F262A",
    panel="#2A3338",
    dark=True,
    variables={
        "block-cursor-background": "#33484D",
        "block-cursor-foreground": "#F4F7F4",
        "block-cursor-text-style": "none",
        "border": "#5C8086",
        "border-blurred": "#3A464B",
        "input-selection-background": "#7FB7BE 35%",
    },
)

PANTRY = Theme(
    name="pantry",
    primary="#2F6F78",
    secondary="#5A6678",
    accent="#8A5A00",
    warning="#8F5600",
    error="#A8342A",
    success="#3C6B2E",
    foreground="#22292B",
    background="#F4F1EA",
    surface="#ECE8DE",
    panel="#DEDACD",
    dark=False,
    variables={
        "block-cursor-background": "#C9DDDC",
        "block-cursor-foreground": "#14191B",
        "block-cursor-text-style": "none",
        "border": "#6E9498",
        "border-blurred": "#BDB8AA",
        "input-selection-background": "#2F6F78 30%",
    },
)

THEMES = (CELLAR, PANTRY)
"""Both themes, in the order they are offered; the first is the one to start with."""
