"""Where the figures for energy and protein come from."""

from __future__ import annotations

from stockroom.domain.working import Source, Standing

_REPORT = (
    "Institute of Medicine, Dietary Reference Intakes for energy and macronutrients, 2002/2005"
)
_GUIDELINES = (
    "U.S. Departments of Agriculture and of Health and Human Services, Dietary Guidelines for"
    " Americans, 2020-2025, Appendix 2"
)

EER_2005 = Source(
    "dri-energy-2005",
    "Institute of Medicine, Dietary Reference Intakes for Energy, Carbohydrate, Fiber, Fat, Fatty"
    " Acids, Cholesterol, Protein, and Amino Acids, 2002/2005: estimated energy requirement from 19"
    " years on (secondary copy)",
    Standing.PUBLISHED,
)
ACTIVITY_2005 = Source(
    "dri-activity-2005",
    f"{_REPORT}: activity coefficients of men 1, 1.11, 1.25 and 1.48, of women 1, 1.12, 1.27"
    " and 1.45; a footnote printed with its table gives those of women alone (secondary copy)",
    Standing.PUBLISHED,
)
LEVELS_2005 = Source(
    "dri-levels-2005",
    f"{_REPORT}: physical activity level, the energy of a day over that of lying at rest:"
    " sedentary 1 to 1.4, low active to 1.6, active to 1.9, very active to 2.5 (secondary copy)",
    Standing.PUBLISHED,
)
SPREAD_2005 = Source(
    "dri-spread-2005",
    f"{_REPORT}: standard deviation from person to person 199 kcal for men, 162 kcal for women",
    Standing.FROM_MEMORY,
)
WEIGHT_RANGE_2005 = Source(
    "dri-weight-range-2005",
    "Statistics Canada, Estimated energy requirements based on Institute of Medicine equations:"
    " these for a body mass index of 18.5 to 25, others for more (secondary copy)",
    Standing.PUBLISHED,
)
EER_2023 = Source(
    "dri-energy-2023",
    "National Academies of Sciences, Engineering, and Medicine, Dietary Reference Intakes for"
    " Energy, 2023: estimated energy requirement from 19 years on",
    Standing.FROM_MEMORY,
)
LEVELS_2023 = Source(
    "dri-levels-2023",
    "Health Canada, Dietary reference intakes tables, equations to estimate energy requirement:"
    " adults inactive 1 to 1.53, low active to 1.68, active to 1.85, very active to 2.5",
    Standing.PUBLISHED,
)
SPREAD_2023 = Source(
    "dri-spread-2023",
    "National Academies, Dietary Reference Intakes for Energy, 2023, Table 5-6: standard error of"
    " the estimate 339 kcal for men, 246 kcal for women (secondary copy)",
    Standing.PUBLISHED,
)
ENERGY_TABLE = Source(
    "dietary-guidelines-energy",
    f"{_GUIDELINES}, Table A2-2: energy by age, sex and activity, to the nearest 200 kcal, by the"
    " equations of 2002; the 2015-2020 edition has the same rows where compared (secondary copy)",
    Standing.PUBLISHED,
)
REFERENCE_PEOPLE = Source(
    "dietary-guidelines-people",
    f"{_GUIDELINES}: reference man 5 ft 10 in and 154 lb, woman 5 ft 4 in and 126 lb"
    " (secondary copy)",
    Standing.PUBLISHED,
)
MEANT_BY_LEVELS = Source(
    "dietary-guidelines-levels",
    f"{_GUIDELINES}: sedentary is living independently and no more; moderately active walks 1.5 to"
    " 3 miles a day besides, active more than 3 miles, at 3 to 4 miles an hour (secondary copy)",
    Standing.PUBLISHED,
)
SAME_LEVELS = Source(
    "energy-same-levels",
    "The table's moderately active taken for low active, its active for active and very active",
    Standing.ENGINEERING_JUDGEMENT,
)
ANY_PERSON = Source(
    "energy-any-person",
    "Where only a number of people is known: the middle of the table's man and woman of 36 to 40",
    Standing.ENGINEERING_JUDGEMENT,
)
PROTEIN_PER_KG = Source(
    "dri-protein",
    f"{_REPORT}: recommended dietary allowance of adults, 0.8 g of protein a day for each kilogram"
    " of body weight (secondary copy)",
    Standing.PUBLISHED,
)
PROTEIN_SHARE = Source(
    "dri-protein-share",
    f"{_REPORT}: acceptable range of adults, 10 to 35 % of energy from protein (secondary copy)",
    Standing.PUBLISHED,
)
PROTEIN_ENERGY = Source(
    "protein-energy",
    "21 CFR 101.9(c)(1)(i): 4 kcal for each gram of protein (secondary copy)",
    Standing.PUBLISHED,
)
BELIEVED_SIZES = Source(
    "energy-believed-sizes",
    "Ages, weights and heights that are believed; others are taken for slips of the finger",
    Standing.ENGINEERING_JUDGEMENT,
)
ENERGY_SOURCES = (
    EER_2005,
    ACTIVITY_2005,
    LEVELS_2005,
    SPREAD_2005,
    WEIGHT_RANGE_2005,
    EER_2023,
    LEVELS_2023,
    SPREAD_2023,
    ENERGY_TABLE,
    REFERENCE_PEOPLE,
    MEANT_BY_LEVELS,
    SAME_LEVELS,
    ANY_PERSON,
    PROTEIN_PER_KG,
    PROTEIN_SHARE,
    PROTEIN_ENERGY,
    BELIEVED_SIZES,
)
