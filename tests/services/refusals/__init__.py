"""Every way a service can say no."""

from __future__ import annotations

from tests.services.refusals.base import Refusal
from tests.services.refusals.bench import BENCH
from tests.services.refusals.finding import FINDING
from tests.services.refusals.foods import FOODS
from tests.services.refusals.household import HOUSEHOLD
from tests.services.refusals.keeping import KEEPING
from tests.services.refusals.kitchen import KITCHEN
from tests.services.refusals.packages import PACKAGES
from tests.services.refusals.packing import PACKING
from tests.services.refusals.places import PLACES

REFUSALS: tuple[Refusal, ...] = (
    *BENCH,
    *FINDING,
    *HOUSEHOLD,
    *KEEPING,
    *FOODS,
    *PACKING,
    *PACKAGES,
    *PLACES,
    *KITCHEN,
)
