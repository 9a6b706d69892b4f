"""What the working of a projection is written from."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from stockroom.domain.keeping.figures import Figure, KeepingFigures, Quantity
from stockroom.domain.keeping.inputs import Inputs
from stockroom.domain.keeping.interface import KeepingCase, Projection
from stockroom.domain.keeping.life import Subject
from stockroom.domain.keeping.outcome import Outcome, Prepared


class Explained(NamedTuple):
    """A computed case with all that led to it."""

    known: KeepingFigures
    case: KeepingCase
    prepared: Prepared
    outcome: Outcome
    projection: Projection
    middle_life: Callable[[KeepingCase], float]
    """The middle life of another case, days: for what would change it."""

    @property
    def inputs(self) -> Inputs:
        """The figures in use."""
        return self.prepared.inputs

    @property
    def subject(self) -> Subject:
        """The package and its history in numbers."""
        return self.prepared.subject

    def figure(self, quantity: Quantity) -> Figure:
        """A figure that this package has; KeyError for one it has not."""
        found = self.inputs.figure(quantity)
        if found is None:
            raise KeyError(quantity)
        return found
