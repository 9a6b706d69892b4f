"""A first best-by, read from a plain table of food class by package at 21 °C.

Only an absorber counts as removing oxygen: a vacuum alone leaves some (a jar pumped to 22 inHg
still holds a quarter of it). An absorber too small for the gas in the package removes what it
can, and what it leaves shortens the life. The storage temperature is not in the table, and the
working says so. A quality estimate, not safety.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial

from stockroom.domain.keeping.dates import show_life
from stockroom.domain.keeping.events import breaks
from stockroom.domain.keeping.interface import (
    LONGEST_MONTHS,
    FoodClass,
    KeepingCase,
    LimitedBy,
    PackageKind,
    Projection,
)
from stockroom.domain.keeping.package_numbers import refuse_moist
from stockroom.domain.keeping.plain_cautions import add_cautions
from stockroom.domain.keeping.plain_events import (
    Edge,
    opened_edge,
    redried_edge,
    sealed_edge,
    share_used,
)
from stockroom.domain.keeping.plain_lives import Band, PlainLife, PlainLives
from stockroom.domain.keeping.plain_steps import class_by_fat, share_kept
from stockroom.domain.keeping.sources import LIFE_FRACTIONS, REDRYING, WHOLE_MONTHS
from stockroom.domain.working import Given, Trace, Working

Edges = tuple[Edge, Edge, Edge]


class PlainTable:
    """The plain table as a keeping model."""

    __slots__ = ("_lives", "_rows", "_tolerances")

    def __init__(self, lives: PlainLives) -> None:
        """`lives` must have a row for every class, kind of package and oxygen state."""
        self._lives = lives
        self._rows: Mapping[tuple[FoodClass, PackageKind, bool], PlainLife] = {
            (row.food_class, row.package_kind, row.oxygen_removed): row for row in lives.rows
        }
        self._tolerances = {one.food_class: one for one in lives.tolerances}

    @property
    def name(self) -> str:
        """Stored beside each projection."""
        return "plain table"

    def project(self, case: KeepingCase) -> Projection:
        """The projection for one package.

        Raises TooMoistToProject for food above 10 % moisture under vacuum or with an absorber,
        TooMuchForContainer or VacuumBeyondBarometer for figures that cannot be.
        """
        return self._traced(case, Trace("Best-by"))

    def explain(self, case: KeepingCase) -> Working:
        """How that projection is reached. Raises as `project` does."""
        trace = Trace("Best-by")
        self._traced(case, trace)
        return trace.finish()

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """The projections of many packages in their order; equal cases are computed once."""
        known: dict[KeepingCase, Projection] = {}
        for case in cases:
            if case not in known:
                known[case] = self.project(case)
        return [known[case] for case in cases]

    def _traced(self, case: KeepingCase, trace: Trace) -> Projection:
        """The projection, its steps written into the trace."""
        refuse_moist(case)
        _note_case(case, trace)
        as_class = class_by_fat(case, trace)
        sealed = self._sealed(case, as_class, trace)
        edges = self._redried(case, as_class, sealed, trace)
        opened = self._opened(case, edges, trace)
        low, mid, high = opened
        _note_dates(case, opened, trace)
        add_cautions(case, high, trace)
        return Projection(
            best_by=mid.day,
            low=low.day,
            high=high.day,
            recheck_by=low.day,
            low_months=float(low.months),
            mid_months=float(mid.months),
            high_months=float(high.months),
            limited_by=_limit(edges[1], mid),
            model=self.name,
            explained=partial(self.explain, case),
        )

    def _sealed(self, case: KeepingCase, as_class: FoodClass, trace: Trace) -> Band:
        """The life sealed throughout, in months."""
        in_air = self._row(case, as_class, case.package_kind, removed=False)
        if case.absorber_cc == 0:
            self._note_row(case, as_class, in_air, False, trace)
            return in_air
        free = self._row(case, as_class, case.package_kind, removed=True)
        self._note_row(case, as_class, free, True, trace)
        kept = share_kept(case, self._tolerances[as_class], trace)
        if kept.low == 1:
            return free
        sealed = free.joined(kept, lambda months, share: months * share).longer_of(in_air)
        trace.step(
            "life with the oxygen left (low - middle - high)",
            "{free} x {kept}, not below {air}",
            sealed.life,
            free=Given("oxygen-free life", show_life(free.mid)),
            kept=Given("share kept", f"{float(kept.mid):.2f}"),
            air=Given("life in air", show_life(in_air.mid)),
        )
        return sealed

    def _row(
        self, case: KeepingCase, as_class: FoodClass, kind: PackageKind, *, removed: bool
    ) -> Band:
        """The row of the named class held back by the class its fat puts it in."""
        named = self._rows[case.food_class, kind, removed].months
        return named.shorter_of(self._rows[as_class, kind, removed].months)

    def _note_row(
        self, case: KeepingCase, as_class: FoodClass, months: Band, removed: bool, trace: Trace
    ) -> None:
        """Write which row was used, its source and its standing."""
        row = self._rows[case.food_class, case.package_kind, removed]
        oxygen = "oxygen removed by an absorber" if removed else "no absorber, so oxygen remains"
        inputs = [
            Given("food class", _spoken(case.food_class)),
            Given("package", _spoken(case.package_kind)),
            Given("oxygen", oxygen),
            Given("row of the table", row.months.life, row.source, row.standing),
        ]
        if as_class is not case.food_class:
            other = self._rows[as_class, case.package_kind, removed]
            inputs.append(Given("row by its fat", other.months.life, other.source, other.standing))
        trace.note("life at 21 °C (low - middle - high)", months.life, *inputs)

    def _redried(self, case: KeepingCase, as_class: FoodClass, sealed: Band, trace: Trace) -> Edges:
        """The edges of the band tight throughout, or after drying again."""
        if case.redried_on is None:
            low, mid, high = (sealed_edge(case.sealed_on, one) for one in sealed.values)
            return low, mid, high
        in_air = self._row(case, as_class, PackageKind.JAR, removed=False)
        row = self._rows[case.food_class, case.package_kind, case.absorber_cc > 0]
        moist = row.limited_by is LimitedBy.MOISTURE
        quality = sealed.longer_of(in_air) if moist else sealed
        used = Band(
            *(
                share_used(case, case.redried_on, life, air)
                for life, air in zip(quality.values, in_air.values, strict=True)
            )
        )
        _note_redried(case, quality, used, trace)
        left = quality.joined(used, lambda months, share: months * (1 - share))
        held = left.shorter_of(sealed) if moist else left
        return _in_order(
            tuple(redried_edge(case.sealed_on, case.redried_on, one) for one in held.values)
        )

    def _opened(self, case: KeepingCase, edges: Edges, trace: Trace) -> Edges:
        """The edges after opening or a lost seal; unchanged while it is tight."""
        opened_on = breaks(case).after_redrying
        if opened_on is None:
            return edges
        rule = self._lives.reclosed if case.reclosed_with_absorber else self._lives.opened
        how = "closed again with an absorber" if case.reclosed_with_absorber else "open"
        trace.note(
            f"life from opening or losing the seal, {how} (low - middle - high)",
            f"{rule.low_days} - {rule.mid_days} - {rule.high_days} days,"
            " and never longer than it had sealed",
            Given("open or not tight since", opened_on.isoformat()),
            Given("rule", f"{rule.mid_days} days", rule.source, rule.standing),
        )
        return _in_order(
            tuple(
                opened_edge(case.sealed_on, edge, opened_on, days)
                for edge, days in zip(edges, rule.days, strict=True)
            )
        )


def _in_order(edges: tuple[Edge, ...]) -> Edges:
    """The three edges with the low never after the middle, nor the middle after the high."""
    low, mid, high = edges
    low = Edge(min(low.day, mid.day), min(low.months, mid.months))
    return low, mid, Edge(max(mid.day, high.day), max(mid.months, high.months))


def _limit(tight: Edge, edge: Edge) -> LimitedBy:
    """What ended the middle life: the opening, the 25 years or the table."""
    if edge.day < tight.day:
        return LimitedBy.OPENED
    return LimitedBy.CAP if edge.months >= LONGEST_MONTHS else LimitedBy.TABLE


def _note_case(case: KeepingCase, trace: Trace) -> None:
    """Write what is known of the package and its oxygen."""
    vacuum = "none read"
    if case.vacuum_tenth_inhg is not None:
        vacuum = f"{case.vacuum_tenth_inhg / 10:.1f} inHg"
    trace.note(
        "the package",
        f"{_spoken(case.food_class)} in a {_spoken(case.package_kind)}",
        Given("sealed on", case.sealed_on.isoformat()),
        Given("dry food", f"{case.dry_dg / 10:.1f} g"),
        Given("volume", f"{case.volume_ml} mL"),
        Given("absorber", f"{case.absorber_cc} cc" if case.absorber_cc else "none"),
        Given("gauge vacuum", vacuum),
    )


def _note_redried(case: KeepingCase, quality: Band, used: Band, trace: Trace) -> None:
    """Write the share of the life spent by the day it was dried again."""
    trace.step(
        "quality life left after drying again (middle)",
        "{life} x (1 - {used})",
        show_life(quality.mid * (1 - used.mid)),
        sources=(LIFE_FRACTIONS, REDRYING),
        life=Given("quality life sealed", show_life(quality.mid)),
        used=Given("share of it used before", f"{float(used.mid):.2f}"),
    )


def _note_dates(case: KeepingCase, edges: Edges, trace: Trace) -> None:
    """Write the three dates."""
    low, mid, high = edges
    trace.note(
        "best-by",
        f"{mid.day.isoformat()}, may be as early as {low.day.isoformat()}"
        f" or as late as {high.day.isoformat()}; look at it again by {low.day.isoformat()}",
        Given("sealed on", case.sealed_on.isoformat()),
        source=WHOLE_MONTHS,
    )


def _spoken(word: FoodClass | PackageKind) -> str:
    """A class or kind as a person says it."""
    return word.value.replace("_", " ")
