"""What makes a package want looking at sooner: each reason with its multiplier and its standing.

Sooner for sugary, powdered or fatty food, for zip or thin pouches, after a move, a warm spell, or
when a sister package fails. That these count is common sense; by how much is engineering
judgement throughout, drawn toward the anchors named beside each. No multiplier is above one:
nothing makes a package safe to leave alone for longer.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from stockroom.domain.cautions import FATTY_FROM, SUGARY_FROM
from stockroom.domain.keeping.fat import FAT_CAUTION
from stockroom.domain.keeping.interface import FoodClass, PackageKind
from stockroom.domain.recheck_facts import RecheckFacts
from stockroom.domain.working import Source, Standing

WARM_DC = 260
"""Just below 80 °F (26.7 °C), the warm end of published keeping times for dried food."""
HOT_DC = 320
"""Above 32 °C food ages faster than twice for ten degrees: the bend of the temperature law."""
VERY_HOT_DC = 380
"""The keeping model warns from here on."""
DAMP_PERCENT = 60
"""Above the 55 % a room is taken to have."""
VERY_DAMP_PERCENT = 75
"""As damp as a cellar without airing."""
MANY_SISTERS = Fraction(1, 4)
"""From this share of the sisters looked at on, softness is the rule and not the exception."""


def _judged(key: str, citation: str) -> Source:
    """A choice of this program, with what it was drawn toward."""
    return Source(key, citation, Standing.ENGINEERING_JUDGEMENT)


LOOKS = _judged(
    "recheck-looks",
    "Settle check the day after sealing, then looked at after 7 days, after a month and every"
    " 6 months; for dried food: check often (National Center for Home Food Preservation,"
    " Packaging and Storing Dried Foods)",
)
NEARLY = _judged(
    "recheck-nearly",
    "A look after half of the week, or three quarters of the month, counts for the whole of it",
)
FLOOR = _judged("recheck-floor", "However many reasons there are, no wait below a quarter")
BARRIER = _judged(
    "recheck-barrier",
    "By what the film lets through: water vapour about 9 g/(m² day) for a zip bag, 5 for a vacuum"
    " bag, 0.6 for a metallised pouch, 0.02 for foil",
)
SUGARS = _judged(
    "recheck-sugars",
    "Sugars half of the solids or more; freeze-dried apple has its glass transition near 4.5 °C"
    " when bone dry (published abstract), so sugary fruit softens early",
)
FAT = _judged("recheck-fat", "Fat by the limits of the keeping model: 5 and 15 % of the solids")
POWDER = _judged(
    "recheck-powder",
    "Egg and milk are kept as powders; the sugar of milk powder changes near 43 % humidity"
    " (published abstract)",
)
LOW_ACID = _judged(
    "recheck-low-acid",
    "Low-acid food found soft in a low-oxygen package after a day is discarded, so a leak wants"
    " finding early",
)
WARMTH = _judged(
    "recheck-warmth",
    "The warmest month of its place: 26 °C is the warm end of published keeping times, above 32 °C"
    " ageing speeds up, above 38 °C the keeping model warns",
)
DAMPNESS = _judged(
    "recheck-dampness", "Vapour passes a film in proportion to the room's humidity; 55 % is usual"
)
SISTERS = _judged("recheck-sisters", "Sisters of one lot share a fault in drying")
OWN_FAULT = _judged("recheck-own-fault", "What was found at fault once is trusted less")
NO_DATE = _judged("recheck-no-date", "Where the keeping model gives no date less is known")
MOVE = _judged(
    "recheck-move", "A knock may open a seam: a month after a move a leak can be felt or seen"
)
AGEING = _judged(
    "recheck-ageing",
    "Past the middle of the time to its best-by, four days count for three waited",
)
LOW_EDGE = _judged(
    "recheck-low-edge",
    "No later than the low edge of the best-by; from a month before it on, every month",
)
PAST_BEST_BY = _judged(
    "recheck-past-best-by", "From two weeks before its best-by on, every two weeks"
)
STAGGER = _judged(
    "recheck-stagger",
    "Drawn earlier by up to a sixth of the wait, spread by multiples of the golden ratio, as in"
    " Fibonacci hashing (Knuth, The Art of Computer Programming, volume 3, 6.4)",
)
SLACK = _judged(
    "recheck-slack",
    "May wait a quarter of the wait more, and as long as it takes to reach a day set aside; where"
    " the reasons leave half of the interval or more the first look may wait for the second, and"
    " the second another month, though not past the low edge",
)
RISK = _judged(
    "recheck-risk", "How much shorter than the longest interval: 0 as long, 1000 at once"
)
RETEST = Source(
    "recheck-retest",
    "ICH Q1A(R2), glossary, re-test date: what passes is used, its first date is not moved",
    Standing.PUBLISHED,
)

RECHECK_SOURCES: tuple[Source, ...] = (
    LOOKS,
    NEARLY,
    FLOOR,
    BARRIER,
    SUGARS,
    FAT,
    POWDER,
    LOW_ACID,
    WARMTH,
    DAMPNESS,
    SISTERS,
    OWN_FAULT,
    NO_DATE,
    MOVE,
    AGEING,
    LOW_EDGE,
    PAST_BEST_BY,
    STAGGER,
    SLACK,
    RISK,
    RETEST,
)


class Reason(NamedTuple):
    """Why a package is looked at when it is. `percent` of the interval is what it leaves."""

    key: str
    words: str
    percent: int
    source: Source


FIRST_LOOK = Reason("first-look", "first look after the settle check", 100, LOOKS)
SECOND_LOOK = Reason("second-look", "second look after the settle check", 100, LOOKS)
LATER_LOOK = Reason("later-look", "regular look", 100, LOOKS)
AT_FAULT = Reason("at-fault", "found at fault, so doubtful", 100, OWN_FAULT)

ZIP_BAG = Reason("zip-bag", "zip bag, which lets damp and air through", 40, BARRIER)
VACUUM_BAG = Reason("vacuum-bag", "vacuum bag, which lets some damp and air through", 75, BARRIER)
THIN_POUCH = Reason("thin-pouch", "metallised pouch, which is thin", 90, BARRIER)
SUGARY = Reason("sugary", "sugary food, which softens with the least damp", 70, SUGARS)
FATTY = Reason("fatty", "fatty food, which goes rancid", 70, FAT)
SOME_FAT = Reason("some-fat", "some fat, which goes rancid", 85, FAT)
FAT_IN_AIR = Reason("fat-in-air", "fat with air beside it: no absorber, no vacuum", 80, FAT)
POWDERED = Reason("powdered", "powder, which clumps with little damp", 85, POWDER)
SEALED_LOW_ACID = Reason(
    "low-acid", "low-acid food without oxygen, which has to go once soft", 90, LOW_ACID
)
WARM = Reason("warm", "warm place, 26 °C or more", 80, WARMTH)
HOT = Reason("hot", "hot place, 32 °C or more", 60, WARMTH)
VERY_HOT = Reason("very-hot", "very hot place, 38 °C or more", 40, WARMTH)
DAMP = Reason("damp", "damp place, 60 % or more, and a film that lets it in", 85, DAMPNESS)
VERY_DAMP = Reason(
    "very-damp",
    "very damp place, 75 % or more, and a film that lets it in",
    70,
    DAMPNESS,
)
SISTER_SOFT = Reason("sister-soft", "sister package gone soft", 50, SISTERS)
MANY_SOFT = Reason("many-soft", "a quarter or more of its sisters gone soft", 35, SISTERS)
WAS_AT_FAULT = Reason("was-at-fault", "earlier fault of its own", 50, OWN_FAULT)
WITHOUT_DATE = Reason("without-date", "no best-by can be given", 50, NO_DATE)

MOVED = Reason("moved", "moved since it was last looked at", 100, MOVE)
SECOND_HALF = Reason("second-half", "past the middle of the time to its best-by", 100, AGEING)
AT_LOW_EDGE = Reason("low-edge", "low edge of its best-by", 100, LOW_EDGE)
PAST_LOW_EDGE = Reason(
    "past-low-edge", "near or past the low edge of its best-by: every month", 100, LOW_EDGE
)
PAST_BEST = Reason("past-best-by", "near or past its best-by: every two weeks", 100, PAST_BEST_BY)

_POWDERS = frozenset(
    one.value for one in (FoodClass.EGG, FoodClass.NONFAT_DAIRY, FoodClass.FATTY_DAIRY)
)
_FATTY = frozenset(one.value for one in (FoodClass.EGG, FoodClass.NUTS, FoodClass.FATTY_DAIRY))
_FILMS = {
    PackageKind.ZIP_BAG.value: ZIP_BAG,
    PackageKind.VACUUM_BAG.value: VACUUM_BAG,
    PackageKind.METALLISED_POUCH.value: THIN_POUCH,
}
_FRUIT = FoodClass.FRUIT.value


def risk_factors(facts: RecheckFacts, was_at_fault: bool) -> tuple[Reason, ...]:
    """Every reason to look sooner that goes by food, package, place and sisters."""
    found = _by_food(facts)
    film = _FILMS.get(facts.package_kind)
    if film is not None:
        found.append(film)
    _by_place(facts, film is not None, found)
    soft = facts.sisters_soft
    if soft:
        many = soft * MANY_SISTERS.denominator >= facts.sisters_checked * MANY_SISTERS.numerator
        found.append(MANY_SOFT if many else SISTER_SOFT)
    if was_at_fault:
        found.append(WAS_AT_FAULT)
    if facts.best_by is None:
        found.append(WITHOUT_DATE)
    return tuple(found)


def _by_food(facts: RecheckFacts) -> list[Reason]:
    """Sugar, fat, powder, and what a leak would mean. What is not known goes by the class."""
    found: list[Reason] = []
    food_class, sealed = facts.food_class, facts.absorber_cc > 0 or facts.vacuum
    sugars, fat = facts.sugars_of_solids, facts.fat_of_solids
    if food_class == _FRUIT if sugars is None else _reaches(sugars, SUGARY_FROM):
        found.append(SUGARY)
    if food_class in _FATTY if fat is None else _reaches(fat, FATTY_FROM):
        found.append(FATTY)
        if not sealed:
            found.append(FAT_IN_AIR)
    elif fat is not None and _reaches(fat, FAT_CAUTION):
        found.append(SOME_FAT)
    if food_class in _POWDERS:
        found.append(POWDERED)
    if sealed and food_class != _FRUIT:
        found.append(SEALED_LOW_ACID)
    return found


def _by_place(facts: RecheckFacts, film: bool, found: list[Reason]) -> None:
    """Warmth, and damp where there is a film that lets it through; what is not known adds none."""
    warmest = facts.warmest_dc
    if warmest is not None and warmest >= WARM_DC:
        found.append(WARM if warmest < HOT_DC else HOT if warmest < VERY_HOT_DC else VERY_HOT)
    humidity = facts.humidity_percent
    if film and humidity is not None and humidity >= DAMP_PERCENT:
        found.append(DAMP if humidity < VERY_DAMP_PERCENT else VERY_DAMP)


def _reaches(share: Fraction, limit: Fraction) -> bool:
    """Whether a share is at or above a limit; ten times quicker than comparing the fractions."""
    return share.numerator * limit.denominator >= limit.numerator * share.denominator
