"""Refusals of eating rates, targets, forecast, rotation and cover."""

from __future__ import annotations

from fractions import Fraction

from stockroom.domain.foods import FoodGroup
from stockroom.errors import BadInput, NotFound
from stockroom.services import eating_rates, horizon, provision
from tests.services.cases_horizon import eaten
from tests.services.cases_people import some_foods
from tests.services.refusals.base import HALF_A_PAIR, Refusal
from tests.world import APPLE, PEAS

NOT_EATEN = "Peas, green, frozen"

HORIZON = (
    *(
        Refusal("eating_rates.set_rate", BadInput, some_foods, act, ("0 to 1000 servings a day",))
        for act in (
            lambda room: eating_rates.set_rate(room, PEAS, Fraction(1001)),
            lambda room: eating_rates.set_rate(room, PEAS, Fraction(-1, 7)),
        )
    ),
    Refusal(
        "eating_rates.set_rate",
        NotFound,
        some_foods,
        lambda room: eating_rates.set_rate(room, NOT_EATEN, Fraction(1)),
        (f"no food “{NOT_EATEN}”", f"Nearest: {PEAS}"),
    ),
    Refusal(
        "eating_rates.clear_rate",
        NotFound,
        some_foods,
        lambda room: eating_rates.clear_rate(room, "frogs"),
        ("no food “frogs”",),
    ),
    Refusal(
        "eating_rates.clear_rate",
        eating_rates.NoRateSet,
        eaten,
        lambda room: eating_rates.clear_rate(room, APPLE),
        (f"No rate is set for {APPLE}", "stockroom eating list"),
    ),
    *(
        Refusal("eating_rates.set_target", BadInput, some_foods, act, ("1 to 3653",))
        for act in (
            lambda room: eating_rates.set_target(room, 0),
            lambda room: eating_rates.set_target(room, 3654),
        )
    ),
    *(
        Refusal("eating_rates.set_group_target", BadInput, some_foods, act, ("up to 10000",))
        for act in (
            lambda room: eating_rates.set_group_target(room, FoodGroup.FRUIT, Fraction(0)),
            lambda room: eating_rates.set_group_target(room, FoodGroup.FRUIT, Fraction(10_001)),
        )
    ),
    Refusal(
        "eating_rates.clear_target",
        eating_rates.NoTargetSet,
        some_foods,
        eating_rates.clear_target,
        ("No target is set for the store", "stockroom target list"),
    ),
    Refusal(
        "eating_rates.clear_target",
        eating_rates.NoTargetSet,
        eaten,
        lambda room: eating_rates.clear_target(room, FoodGroup.LEGUME_COOKED),
        ("for legume cooked",),
    ),
    *(
        Refusal(service, BadInput, eaten, act, (fact,))
        for service, act, fact in (
            ("horizon.horizon", lambda room: horizon.horizon(room, months=0), "1 to 1200"),
            ("horizon.horizon", lambda room: horizon.horizon(room, food=HALF_A_PAIR), "food"),
            (
                "horizon.horizon_odds",
                lambda room: horizon.horizon_odds(room, rounds=0),
                "1 to 100000",
            ),
            ("horizon.rotation", lambda room: horizon.rotation(room, months=1201), "1 to 1200"),
            ("provision.cover", lambda room: provision.cover(room, days=0), "1 to 3653"),
        )
    ),
    *(
        Refusal(service, NotFound, eaten, act, ("no food “frogs”",))
        for service, act in (
            ("horizon.horizon", lambda room: horizon.horizon(room, food="frogs")),
            ("horizon.horizon_odds", lambda room: horizon.horizon_odds(room, food="frogs")),
        )
    ),
)
