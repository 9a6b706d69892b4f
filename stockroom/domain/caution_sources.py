"""Where the cautions come from: publications, practice, or a rule chosen for this program."""

from __future__ import annotations

from stockroom.domain.working import Source, Standing


def _published(key: str, citation: str) -> Source:
    """A source that has been published."""
    return Source(key, citation, Standing.PUBLISHED)


EXTENSION = _published(
    "extension-freeze-drying",
    "Kansas State University Extension, 2021; University of Minnesota Extension, Freeze-drying"
    " food; Utah State University Extension FN/Preservation/2019-02pr, 2019",
)
FSIS_COOK = _published(
    "fsis-temperatures",
    "USDA Food Safety and Inspection Service, safe minimum internal temperatures",
)
FSIS_ZONE = _published(
    "fsis-danger-zone",
    "USDA Food Safety and Inspection Service, danger zone, 2016; here counted from wetting",
)
TOXIN = _published(
    "toxin-no-sign",
    "Clemson University Home and Garden Information Center, vacuum packaging; National Center for"
    " Home Food Preservation (secondary copy)",
)
NCHFP = _published(
    "nchfp-dried",
    "National Center for Home Food Preservation, Packaging and Storing Dried Foods",
)
LEAFLET = _published(
    "storage-leaflet",
    "Intellectual Reserve, An Approach to Longer-Term Food Storage, 2007 (secondary copy)",
)
FOOD_CODE = _published(
    "food-code-tables",
    "US Food and Drug Administration, Food Code, tables for time and temperature control"
    " (through a state rule)",
)
COOLING = _published(
    "cooling-rule", "Code of Maryland Regulations 10.15.03.11, after the Food Code"
)
VACUUM = _published(
    "vacuum-packaging",
    "Utah State University Extension, vacuum packaging; University of Minnesota and Kansas State"
    " University Extension",
)
GLASSWARE = _published(
    "glass-vacuum",
    "University laboratory glassware procedures, such as University of Pennsylvania, 2023",
)
EGG_GUIDE = _published("egg-guide", "Utah State University Extension booklet, 2013, and others")
HONEY = _published("honey-infants", "Institut national de sante publique du Quebec")
FDA_ALLERGENS = _published(
    "nine-allergens",
    "US Food and Drug Administration: major food allergens, with sesame from 2023",
)
DTIC = _published("germs-survive", "DTIC AD0770532, 1973: counts in freeze-dried fruit")
BEUCHAT = _published("germs-in-cold", "Beuchat and Mann 2014, Journal of Food Protection 77:1102")
SOFT_FRUIT = Source(
    "soft-fruit",
    "National Center for Home Food Preservation for using or drying again; the days are a rule"
    " chosen for this program",
    Standing.ENGINEERING_JUDGEMENT,
)
FREEZING = _published(
    "fsis-freezing",
    "USDA Food Safety and Inspection Service, Freezing and Food Safety (secondary copy)",
)
WET_FOOD = Source(
    "wet-food",
    "USDA Food Safety and Inspection Service for the 2 hours and for 3 to 4 days chilled; that they"
    " count for food gone soft, and 3 days, are a rule chosen for this program",
    Standing.ENGINEERING_JUDGEMENT,
)
ESTIMATE = Source(
    "estimate-no-proof",
    "Worked out after JCGM 100:2008: for food of 85 % water a table's water figure alone leaves"
    " about 13 percentage points in doubt",
    Standing.COMPUTED,
)
OUR_CHOICE = Source("our-choice", "A rule chosen for this program", Standing.ENGINEERING_JUDGEMENT)
PRACTICE = Source("practice", "Common practice", Standing.COMMON_PRACTICE)
GENERAL = Source("general-guidance", "General guidance", Standing.FROM_MEMORY)
