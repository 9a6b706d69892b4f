"""The full keeping model: temperature, oxygen and moisture with their uncertainty.

A quality estimate, not safety. `project` computes and writes nothing down; `explain` writes the
working of the same computation; `project_many` computes each distinct package once.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import partial
from math import floor

from stockroom.domain.keeping.band import LifeBand
from stockroom.domain.keeping.dates import end_day
from stockroom.domain.keeping.events import breaks, refuse_before_sealing
from stockroom.domain.keeping.explain import Explained, explain
from stockroom.domain.keeping.fat import class_by_fat
from stockroom.domain.keeping.figures import KeepingFigures
from stockroom.domain.keeping.history import History, history_of
from stockroom.domain.keeping.inputs import Inputs, inputs_of
from stockroom.domain.keeping.interface import (
    LONGEST_MONTHS,
    FoodClass,
    KeepingCase,
    LifeUsed,
    PackageKind,
    Projection,
)
from stockroom.domain.keeping.life import MONTH_DAYS, Subject, ends_of
from stockroom.domain.keeping.life_used import life_used
from stockroom.domain.keeping.outcome import Outcome, Prepared, outcome_of
from stockroom.domain.keeping.package_numbers import (
    PackageNumbers,
    package_of,
    refuse_impossible,
    refuse_moist,
)
from stockroom.domain.working import Working

_InputsKey = tuple[FoodClass, FoodClass, PackageKind, bool]
_OutcomeKey = tuple[_InputsKey, PackageNumbers, History]


class FullModel:
    """Temperature, oxygen and moisture as a keeping model."""

    __slots__ = ("_barriers", "_classes", "_inputs", "_known")

    def __init__(self, figures: KeepingFigures) -> None:
        """`figures` must have every class and every kind of package."""
        self._known = figures
        self._classes = {one.food_class: one for one in figures.classes}
        self._barriers = {one.package_kind: one for one in figures.barriers}
        # Grows to one entry for every class, fat class, package and way of closing at most.
        self._inputs: dict[_InputsKey, Inputs] = {}

    @property
    def name(self) -> str:
        """Stored beside each projection."""
        return "full model"

    def project(self, case: KeepingCase) -> Projection:
        """The projection for one package.

        Raises TooWarm, TooMoistToProject, TooMuchForContainer, VacuumBeyondBarometer,
        BeforeSealing or ImpossibleFigure, all of them CannotProject.
        """
        return self._projection(case, outcome_of(self._prepare(case)))

    def explain(self, case: KeepingCase) -> Working:
        """How that projection is reached, every step with its constants, sources and standing."""
        prepared = self._prepare(case)
        outcome = outcome_of(prepared)
        return explain(
            Explained(
                known=self._known,
                case=case,
                prepared=prepared,
                outcome=outcome,
                projection=self._projection(case, outcome),
                middle_life=self.middle_life_days,
            )
        )

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """The projections of many packages in their order, each distinct package computed once.

        Equal cases share one projection; cases that differ only in their dates share the
        computation. Raises as `project` does, for the first case that is refused.
        """
        known: dict[KeepingCase, Projection] = {}
        outcomes: dict[_OutcomeKey, Outcome] = {}
        answers: list[Projection] = []
        for case in cases:
            answer = known.get(case)
            if answer is None:
                known[case] = answer = self._projection(case, self._shared(case, outcomes))
            answers.append(answer)
        return answers

    def middle_life_days(self, case: KeepingCase) -> float:
        """The middle life alone, days from sealing and without its band; raises as `project`."""
        inputs, subject = self._prepare(case)
        return ends_of(inputs.middle, subject).life

    def life_used(self, case: KeepingCase, days: Sequence[float]) -> tuple[LifeUsed, ...]:
        """The shares of the life used by each of `days` from sealing; raises as `project`."""
        prepared = self._prepare(case)
        return life_used(prepared, outcome_of(prepared).band, days)

    def _shared(self, case: KeepingCase, outcomes: dict[_OutcomeKey, Outcome]) -> Outcome:
        """The outcome of a case, computed unless one with the same numbers was before."""
        prepared = self._prepare(case)
        subject = prepared.subject
        key = (self._inputs_key(case), subject.package, subject.history)
        outcome = outcomes.get(key)
        if outcome is None:
            outcomes[key] = outcome = outcome_of(prepared)
        return outcome

    def _prepare(self, case: KeepingCase) -> Prepared:
        """The case checked and put into numbers."""
        refuse_impossible(case)
        refuse_before_sealing(case)
        refuse_moist(case)
        key = self._inputs_key(case)
        inputs = self._inputs.get(key)
        if inputs is None:
            own, by_fat, kind, reclosed = key
            inputs = inputs_of(
                self._known,
                self._classes[own],
                self._classes[by_fat],
                self._barriers[kind],
                reclosed=reclosed,
            )
            self._inputs[key] = inputs
        package = package_of(case, self._known.residual_moisture.spread.middle)
        history = history_of(case, self._known.room_humidity.spread.middle)
        return Prepared(inputs, Subject(package, history, inputs.isotherm))

    def _inputs_key(self, case: KeepingCase) -> _InputsKey:
        """What decides which figures bear on a case."""
        by_fat = class_by_fat(case.food_class, case.fat_of_solids)
        return case.food_class, by_fat, case.package_kind, case.reclosed_with_absorber

    def _projection(self, case: KeepingCase, outcome: Outcome) -> Projection:
        """The outcome on the calendar."""
        band = outcome.band
        low, best_by, high = _days(case, band, outcome.tight)
        discard_by = None
        if outcome.discard_days < LONGEST_MONTHS * MONTH_DAYS:
            discard_by = case.sealed_on + timedelta(days=floor(outcome.discard_days))
        return Projection(
            best_by=best_by,
            low=low,
            high=high,
            recheck_by=low,
            low_months=band.low_days / MONTH_DAYS,
            mid_months=band.mid_days / MONTH_DAYS,
            high_months=band.high_days / MONTH_DAYS,
            limited_by=outcome.limited_by,
            model=self.name,
            explained=partial(self.explain, case),
            discard_by=discard_by,
        )


def _days(case: KeepingCase, band: LifeBand, tight: LifeBand | None) -> tuple[date, date, date]:
    """The three days of a band, in order; opening never moves one later than it was closed."""
    dried = [day for day in (case.redried_on,) if day is not None]
    opened = [day for day in (breaks(case).after_redrying,) if day is not None]
    low, mid, high = (
        end_day(case.sealed_on, [*dried, *opened], days)
        for days in (band.low_days, band.mid_days, band.high_days)
    )
    if tight is not None:
        low = min(low, end_day(case.sealed_on, dried, tight.low_days))
        mid = min(mid, end_day(case.sealed_on, dried, tight.mid_days))
        high = min(high, end_day(case.sealed_on, dried, tight.high_days))
    return min(low, mid), mid, max(mid, high)
