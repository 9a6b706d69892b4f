"""The cautions in our own words, each with its source and standing, as one frozen table.

A caution resting on memory is worded as general guidance and never as a limit. Which cautions
apply where is decided in `domain.cautions`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stockroom.domain.caution_sources import (
    BEUCHAT,
    COOLING,
    DTIC,
    EGG_GUIDE,
    ESTIMATE,
    EXTENSION,
    FDA_ALLERGENS,
    FOOD_CODE,
    FREEZING,
    FSIS_COOK,
    FSIS_ZONE,
    GENERAL,
    GLASSWARE,
    HONEY,
    LEAFLET,
    NCHFP,
    OUR_CHOICE,
    PRACTICE,
    SOFT_FRUIT,
    TOXIN,
    VACUUM,
    WET_FOOD,
)
from stockroom.domain.working import Source, Standing


class Where(StrEnum):
    """The place in the work where a caution is shown."""

    LOAD = "load"
    LOT = "lot"
    PACK = "pack"
    SHELF = "shelf"
    RECHECK = "recheck"
    COOK = "cook"
    MENU = "menu"
    LABEL = "label"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution, ready to be shown."""

    key: str
    where: tuple[Where, ...]
    text: str
    source: Source
    standing: Standing

    @property
    def words(self) -> str:
        """The text with its source and standing, in one line."""
        citation, standing = self.source.citation, self.standing.words
        said = standing if citation.casefold() in standing else f"{citation}; {standing}"
        return f"{self.text} ({said})"


def _row(key: str, where: tuple[Where, ...], text: str, source: Source) -> Caution:
    """A caution whose standing is that of its source."""
    return Caution(key, where, text, source, source.standing)


CAUTIONS: tuple[Caution, ...] = (
    _row(
        "soft-discard",
        (Where.RECHECK,),
        "Low-acid food (vegetable, meat, dairy, egg, mixed dish) found soft in a low-oxygen"
        " package, for more than 24 hours or for an unknown time: discard it. Do not taste it,"
        " do not dry it again.",
        OUR_CHOICE,
    ),
    _row(
        "toxin-no-sign",
        (Where.RECHECK,),
        "Toxin may be there without any sign in look, smell or taste.",
        TOXIN,
    ),
    _row("never-taste", (Where.RECHECK,), "Never taste food to test it.", OUR_CHOICE),
    _row(
        "spoiled",
        (Where.RECHECK,),
        "Mould, an off odour, gas, a swollen package or a sticky surface that smells: discard,"
        " and wash hands and surfaces.",
        NCHFP,
    ),
    _row(
        "soft-early",
        (Where.RECHECK,),
        "Soft within 24 hours of packing, with no mould and no odour: it was never dry. Dry the"
        " whole lot again, repack with new absorbers, and keep it in the freezer meanwhile.",
        OUR_CHOICE,
    ),
    _row(
        "wet-perishable",
        (Where.RECHECK, Where.COOK),
        "Low-acid food that is moist to see or wet in the middle, and out of the cold for more"
        " than 2 hours, is wet perishable food: discard it.",
        OUR_CHOICE,
    ),
    _row(
        "not-covered",
        (Where.RECHECK,),
        "What no rule here covers follows the stricter one beside it: discard.",
        OUR_CHOICE,
    ),
    _row(
        "soft-acid",
        (Where.RECHECK,),
        "Fruit that took up moisture within the last few days, with no mould and no odour, may be"
        " used now or dried again. For longer, or for an unknown time: discard it.",
        SOFT_FRUIT,
    ),
    _row(
        "soft-air",
        (Where.RECHECK,),
        "Low-acid food gone soft in a package with air is wet food now: it keeps 2 hours out of"
        " the cold. For an unknown time: discard it.",
        OUR_CHOICE,
    ),
    _row(
        "wet-now",
        (Where.RECHECK,),
        "Low-acid food gone soft in a package with air and kept cold ever since is wet food now:"
        " use it by the day shown, at most 2 hours out of the cold in all, or 1 hour in a room"
        " above 90 °F (32.2 °C). Do not dry it or freeze it again.",
        WET_FOOD,
    ),
    _row(
        "vacuum-lost",
        (Where.RECHECK,),
        "Vacuum or seal lost, and the food still snaps to the middle: the barrier was lost, the"
        " food was not. Repack it with a new absorber; from now on its best-by follows the rule"
        " for opened packages.",
        OUR_CHOICE,
    ),
    _row(
        "redry-to-plateau",
        (Where.RECHECK,),
        "Nobody has published how long drying again takes: dry to constant weight, then feel for"
        " a cold spot and break the thickest piece, as after the first drying.",
        OUR_CHOICE,
    ),
    _row(
        "freezer-wait",
        (Where.RECHECK,),
        "While it waits it stays closed in the freezer: germs stop growing there but do not die,"
        " and once thawed it is perishable food.",
        FREEZING,
    ),
    _row(
        "sisters",
        (Where.RECHECK,),
        "One soft package makes the others of its lot suspect: check them too.",
        OUR_CHOICE,
    ),
    _row(
        "raw-stays-raw",
        (Where.LOAD, Where.LOT, Where.PACK, Where.COOK, Where.MENU, Where.LABEL),
        "Freeze-drying does not kill germs. Raw stays raw: cook it after adding water.",
        EXTENSION,
    ),
    _row(
        "botulism",
        (Where.PACK, Where.RECHECK),
        "Low oxygen, low acid, moisture, warmth and time together let botulism toxin form. At"
        " room temperature dryness is the only barrier: pack only what is dry to the middle.",
        FOOD_CODE,
    ),
    _row(
        "dry-enough",
        (Where.PACK,),
        "A low-oxygen package is only for food dry inside and out, about 10 % moisture or less:"
        " the thickest piece snaps when bent.",
        LEAFLET,
    ),
    _row(
        "estimate-no-proof",
        (Where.PACK,),
        "An estimate from a composition table cannot show that this food is dry: go by constant"
        " weight, the cold spot and the break test.",
        ESTIMATE,
    ),
    _row(
        "unsuitable",
        (Where.PACK,),
        "Dried eggs, nuts, jerky, granola, pearled barley, brown rice, brown sugar and milled"
        " grain other than rolled oats are named as unsuitable for low-oxygen packages.",
        LEAFLET,
    ),
    _row(
        "glass-vacuum",
        (Where.PACK,),
        "Glass under vacuum can implode: no chips or scratches, no thin glass, none above 1 L"
        " that was not built for a vacuum; wear eye protection.",
        GLASSWARE,
    ),
    _row(
        "absorber-not-food",
        (Where.PACK, Where.LABEL),
        "The absorber holds iron powder and is not food: remove it, and keep it from children."
        " If it is swallowed, call poison control.",
        LEAFLET,
    ),
    _row(
        "no-desiccant",
        (Where.PACK,),
        "No desiccant beside an absorber: the absorber needs a little moisture to work.",
        PRACTICE,
    ),
    _row(
        "absorber-opened",
        (Where.PACK,),
        "As general guidance: absorbers work from the moment their bag is opened, so seal the"
        " rest at once and look at the indicator.",
        GENERAL,
    ),
    _row(
        "vacuum-is-not-keeping",
        (Where.PACK,),
        "A vacuum does not preserve: food that needs the cold still needs it, and sealing a jar"
        " is for dry food only and no substitute for canning.",
        VACUUM,
    ),
    _row(
        "jar-seal",
        (Where.PACK,),
        "A lid drawn down by a jar sealer is not proven airtight: its compound was not heated.",
        VACUUM,
    ),
    _row(
        "sharp-pieces",
        (Where.PACK,),
        "Brittle pieces crush and sharp ones pierce the film under a vacuum: round them off, wrap"
        " them, or use an absorber without vacuum.",
        PRACTICE,
    ),
    _row(
        "fatty",
        (Where.LOAD, Where.PACK),
        "Fatty food goes rancid (butter, oil, nut butter, mayonnaise, fatty meat, chocolate):"
        " its best-by is shortened, so use it early.",
        PRACTICE,
    ),
    _row(
        "sugary",
        (Where.LOAD, Where.PACK),
        "Sugary food may stay tacky or puff up, and softens with the least damp: test the"
        " thickest piece, and look at it sooner.",
        PRACTICE,
    ),
    _row(
        "raw-apart",
        (Where.LOAD,),
        "Raw food on its own trays with its own tools, below cooked food; clean between the two.",
        EXTENSION,
    ),
    _row(
        "raw-egg",
        (Where.LOAD, Where.COOK),
        "For use without cooking take pasteurised egg only; once wetted, use egg at once or"
        " chill it.",
        EGG_GUIDE,
    ),
    _row(
        "cook-poultry",
        (Where.COOK,),
        "Cook raw poultry, whole or minced, to 165 °F (73.9 °C).",
        FSIS_COOK,
    ),
    _row(
        "cook-meat",
        (Where.COOK,),
        "Cook raw beef, pork, lamb and veal in whole pieces to 145 °F (62.8 °C) and let it rest"
        " 3 minutes; minced meat to 160 °F (71.1 °C).",
        FSIS_COOK,
    ),
    _row(
        "cook-other",
        (Where.COOK,),
        "As general guidance: cook raw fish and shellfish until opaque throughout, game like"
        " minced meat, and egg until white and yolk are firm.",
        GENERAL,
    ),
    _row(
        "reheat",
        (Where.COOK,),
        "Reheat cooked food to 165 °F (73.9 °C).",
        FSIS_COOK,
    ),
    _row(
        "clock",
        (Where.COOK,),
        "Once water is added food may stand 2 hours out of the cold, or 1 hour in a room above"
        " 90 °F (32.2 °C): between 40 and 140 °F (4.4 and 60 °C) germs may double in 20 minutes.",
        FSIS_ZONE,
    ),
    _row(
        "soak-cold",
        (Where.COOK,),
        "Soak for longer than 30 minutes in the refrigerator; do not freeze or dry what is left.",
        OUR_CHOICE,
    ),
    _row(
        "cool-batch",
        (Where.COOK,),
        "Cool a large batch from 135 to 70 °F (57.2 to 21.1 °C) within 2 hours and to 41 °F (5 °C)"
        " within 4 hours more.",
        COOLING,
    ),
    _row(
        "honey",
        (Where.COOK, Where.MENU),
        "No honey in any form for a child under 12 months, nor inside a dish.",
        HONEY,
    ),
    _row(
        "weak-immunity",
        (Where.COOK, Where.MENU),
        "As general guidance: infants, and people who are pregnant, old or weak in immunity, eat"
        " nothing from raw lots uncooked.",
        GENERAL,
    ),
    _row(
        "check-ingredients",
        (Where.LOT, Where.MENU, Where.LABEL),
        "Check what went into it: its allergens depend on the recipe.",
        OUR_CHOICE,
    ),
    _row(
        "allergens",
        (Where.LOT, Where.MENU, Where.LABEL),
        "Name its allergens. The nine of the United States are milk, egg, fish, crustacean"
        " shellfish, tree nuts, peanuts, wheat, soybeans and sesame.",
        FDA_ALLERGENS,
    ),
    _row(
        "allergen-species",
        (Where.LABEL,),
        "As general guidance: name the kind of nut, fish or crustacean; molluscs are not among"
        " the nine, yet people react to them.",
        GENERAL,
    ),
    _row(
        "allergen-dust",
        (Where.LOAD,),
        "Drying does not remove allergens: residue on trays and powder dust carry them over.",
        OUR_CHOICE,
    ),
    _row(
        "germs-survive",
        (Where.LOT,),
        "In freeze-dried fruit germ counts fell by only 8 to 62 %, and spores resist.",
        DTIC,
    ),
    _row(
        "germs-in-cold",
        (Where.SHELF,),
        "Cold keeps germs alive: Salmonella on dried strawberry lasted longer at 4 °C than at"
        " 25 °C.",
        BEUCHAT,
    ),
    _row(
        "best-by",
        (Where.LABEL, Where.SHELF),
        "The best-by is a quality estimate, not safety.",
        OUR_CHOICE,
    ),
    _row(
        "local-codes",
        tuple(Where),
        "Follow local codes and licensed guidance: stockroom keeps records and reasons, it does"
        " not certify food as safe.",
        OUR_CHOICE,
    ),
)
"""Every caution, the gravest first; a selection keeps this order."""

CAUTION_SOURCES: tuple[Source, ...] = tuple(dict.fromkeys(one.source for one in CAUTIONS))
"""Every source the cautions name, each once."""
