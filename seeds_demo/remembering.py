"""The keeping model with a memory: over two years the same packages are reckoned again and again.

A look that finds a package crisp changes nothing that the model goes by, so what it said of the
same case before is what it says again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from stockroom.domain.keeping.interface import KeepingCase, KeepingModel, LifeUsed, Projection
from stockroom.domain.working import Working


@dataclass(frozen=True, slots=True)
class Remembering:
    """A keeping model that works out each case once."""

    model: KeepingModel
    _known: dict[KeepingCase, Projection] = field(default_factory=dict[KeepingCase, Projection])

    @property
    def name(self) -> str:
        """That of the model behind it."""
        return self.model.name

    def project(self, case: KeepingCase) -> Projection:
        """The projection for one package. Raises CannotProject."""
        return self.project_many([case])[0]

    def explain(self, case: KeepingCase) -> Working:
        """How that projection is reached. Raises CannotProject."""
        return self.model.explain(case)

    def project_many(self, cases: Sequence[KeepingCase]) -> list[Projection]:
        """The projections of many packages in their order. Raises CannotProject."""
        new = list(dict.fromkeys(case for case in cases if case not in self._known))
        self._known.update(zip(new, self.model.project_many(new), strict=True))
        return [self._known[case] for case in cases]

    def life_used(self, case: KeepingCase, days: Sequence[float]) -> Sequence[LifeUsed]:
        """The shares of the life used by each of `days` from sealing. Raises CannotProject."""
        return self.model.life_used(case, days)
