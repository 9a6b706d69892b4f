"""What calculations without a store need: the keeping model, the stock sizes of absorbers.

Nothing here opens or imports the store.
"""

from __future__ import annotations

from stockroom.domain.keeping.full_model import FullModel
from stockroom.domain.keeping.interface import KeepingModel
from stockroom.reference.containers import absorber_sizes
from stockroom.reference.keeping_figures import keeping_figures


def keeping_model() -> KeepingModel:
    """The keeping model in use, with the figures of the reference tables."""
    return FullModel(keeping_figures())


def absorber_sizes_cc() -> tuple[int, ...]:
    """The stock sizes of oxygen absorbers, cc, smallest first."""
    return tuple(one.size_cc for one in absorber_sizes())
