"""Workings read again by the tests: their figures worked out once more, their steps by title."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

import pytest

from stockroom.domain.working import Step, Working

_NUMBER = re.compile(r"[-+]?[0-9.]+(?:e[-+]?[0-9]+)?")


def titled(workings: Iterable[Working], title: str) -> Working:
    """The one working whose title begins so."""
    (found,) = (one for one in workings if one.title.startswith(title))
    return found


def step_of(working: Working, title: str) -> Step:
    """The one step whose title begins so."""
    (found,) = (step for step in working.steps if step.title.startswith(title))
    return found


def computed_again(step: Step) -> float:
    """The figures of a step worked out once more, units left out."""
    values = sorted({given.value_text for given in step.inputs}, key=len, reverse=True)
    pattern = "|".join(rf"(?<![0-9.]){re.escape(value)}(?![0-9.])" for value in values)
    text = re.sub(pattern, lambda found: _value(found[0]), step.figures)
    text = text.replace(" kPa", "").replace(" x ", " * ").replace("^", "**")
    known = {"exp": math.exp, "smaller": min, "larger": max}
    return float(eval(text, known))


def check_figures(working: Working) -> int:
    """Fail where a step's figures do not give its result; returns how many were looked at.

    Weights are shown to the tenth of a gram, and water is dealt out in whole tenths, so a product
    of several of them may be off by a little more; lives and rates have four figures.
    """
    looked = 0
    for step in working.steps:
        if not step.figures or step.result in ("never", "past 25 years"):
            continue
        again = computed_again(step)
        if step.title.startswith("containers, the next whole number"):
            again = math.ceil(again)
        given = float(_leading(step.result))
        assert again == pytest.approx(given, rel=0.01, abs=0.06), (working.title, step)
        looked += 1
    return looked


def _value(text: str) -> str:
    """A value without its unit, in grams and millilitres."""
    return f"({_leading(text)} / 1000)" if "kg/m³" in text else f"({_leading(text)})"


def _leading(text: str) -> str:
    found = _NUMBER.match(text)
    assert found, text
    return found[0]
