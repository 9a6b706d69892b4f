"""Where the rules of the horizon come from, and how far each can be trusted."""

from __future__ import annotations

from stockroom.domain.working import Source, Standing

FIRST_IN_FIRST_OUT = Source(
    "first-in-first-out",
    "North Dakota State University Extension, FN579: rotate stored food, first in, first out",
    Standing.PUBLISHED,
)
DUE_DATE_ORDER = Source(
    "due-date-order",
    "Jackson 1955, through later texts on scheduling: working in due-date order makes the worst"
    " lateness as small as it can be, and if any order is in time, this one is",
    Standing.PUBLISHED,
)
NUMBER_LATE = Source(
    "number-late",
    "Moore 1968, Management Science 15:102: the fewest late is another aim, with another order",
    Standing.PUBLISHED,
)
LEAST_RATE = Source(
    "least-eating-rate",
    "The largest of servings due by a day over the days until it; follows from due-date order",
    Standing.COMPUTED,
)
EATING_DAYS = Source(
    "eating-days",
    "Eating starts today; the best-by day itself counts only where that is asked for",
    Standing.ENGINEERING_JUDGEMENT,
)
BACKWARD_FILLING = Source(
    "backward-filling",
    "The most worth eaten in time: from the last best-by back to today, what is worth most goes"
    " first among what still keeps then; exact because food can be split (computed, and equal to"
    " a linear programme on random shelves)",
    Standing.COMPUTED,
)
RANDOM_STREAM = Source(
    "splitmix64",
    "Steele, Lea and Flood 2014, Fast splittable pseudorandom number generators, OOPSLA:"
    " SplitMix64",
    Standing.PUBLISHED,
)
NORMAL_VALUES = Source(
    "box-muller",
    "Box and Muller 1958, Annals of Mathematical Statistics 29:610: two normal values from two"
    " uniform ones",
    Standing.PUBLISHED,
)
BAND_MEANING = Source(
    "band-meaning",
    "A life is taken as log-normal with the best-by in the middle and a width of its own to"
    " either side: one in ten is over before the low edge, one in ten outlasts the high edge",
    Standing.ENGINEERING_JUDGEMENT,
)
SHARED_DOUBT = Source(
    "shared-doubt",
    "Half of the doubt about a life (by variance) is shared by all packages of a food: if the"
    " figure for the food is wrong, it is wrong for all of them",
    Standing.ENGINEERING_JUDGEMENT,
)
EATING_SPREAD = Source(
    "eating-spread",
    "Eating is taken as log-normal about its mean from year to year, a quarter of it either way"
    " where no record says otherwise",
    Standing.ENGINEERING_JUDGEMENT,
)
MONTH_ENOUGH = Source(
    "month-enough",
    "A month speaks for itself from 20 days on record, a season from 40; before that the wider"
    " one speaks for it",
    Standing.ENGINEERING_JUDGEMENT,
)
DAYS_APART = Source(
    "days-apart",
    "What is eaten on one day is taken as independent of the next, so spreads add by squares",
    Standing.ENGINEERING_JUDGEMENT,
)

FORECAST_SOURCES = (DUE_DATE_ORDER, EATING_DAYS, FIRST_IN_FIRST_OUT)
"""Behind the forecast."""
ODDS_SOURCES = (
    BAND_MEANING,
    SHARED_DOUBT,
    EATING_SPREAD,
    DUE_DATE_ORDER,
    RANDOM_STREAM,
    NORMAL_VALUES,
)
"""Behind the odds of waste."""
APPETITE_SOURCES = (DUE_DATE_ORDER, NUMBER_LATE, BACKWARD_FILLING)
"""Behind one appetite for all foods."""
PAST_EATING_SOURCES = (MONTH_ENOUGH, DAYS_APART, EATING_SPREAD)
"""Behind what was eaten in other years."""
