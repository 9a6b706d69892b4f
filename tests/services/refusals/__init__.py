"""Every way a service can say no."""

from __future__ import annotations

from tests.services.refusals.backups import BACKUPS
from tests.services.refusals.base import Refusal
from tests.services.refusals.bench import BENCH
from tests.services.refusals.calendar import CALENDAR
from tests.services.refusals.cooking import COOKING
from tests.services.refusals.deciding import DECIDING
from tests.services.refusals.drying import DRYING
from tests.services.refusals.exchange import EXCHANGE
from tests.services.refusals.finding import FINDING
from tests.services.refusals.foods import FOODS
from tests.services.refusals.horizon import HORIZON
from tests.services.refusals.household import HOUSEHOLD
from tests.services.refusals.keeping import KEEPING
from tests.services.refusals.kitchen import KITCHEN
from tests.services.refusals.labels import LABELS
from tests.services.refusals.menu import MENU
from tests.services.refusals.packages import PACKAGES
from tests.services.refusals.packing import PACKING
from tests.services.refusals.people import PEOPLE
from tests.services.refusals.places import PLACES
from tests.services.refusals.rechecks import RECHECKS
from tests.services.refusals.recipe_files import RECIPE_FILES
from tests.services.refusals.sampling import SAMPLING
from tests.services.refusals.tracing import TRACING
from tests.services.refusals.upkeep import UPKEEP
from tests.services.refusals.workings import WORKINGS

REFUSALS: tuple[Refusal, ...] = (
    *BENCH,
    *DRYING,
    *DECIDING,
    *RECHECKS,
    *CALENDAR,
    *LABELS,
    *FINDING,
    *HOUSEHOLD,
    *KEEPING,
    *FOODS,
    *PACKING,
    *PACKAGES,
    *PEOPLE,
    *HORIZON,
    *PLACES,
    *SAMPLING,
    *KITCHEN,
    *RECIPE_FILES,
    *COOKING,
    *MENU,
    *WORKINGS,
    *UPKEEP,
    *TRACING,
    *BACKUPS,
    *EXCHANGE,
)
