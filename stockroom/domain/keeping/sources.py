"""The sources of the rules written into the keeping code; those of the tables are with them."""

from __future__ import annotations

from stockroom.domain.working import Source, Standing

AIR_OXYGEN = Source(
    "air-oxygen",
    "Oxygen is 20.95 % of dry air by volume: US Standard Atmosphere, 1976, 0.209476 rounded",
    Standing.FROM_MEMORY,
)
SEA_LEVEL = Source(
    "sea-level",
    "One atmosphere is 29.921 inches of mercury",
    Standing.COMPUTED,
)
SOLID_DENSITY = Source(
    "solid-density",
    "True density of dry food solids taken as 1.5 g/mL (about 1.4 to 1.6, fat-rich 1.1 to 1.2)",
    Standing.ENGINEERING_JUDGEMENT,
)
OXYGEN_LEFT = Source(
    "oxygen-left",
    "Oxygen the absorber leaves behind spends the life in proportion to what the food tolerates,"
    " never below its life in air",
    Standing.ENGINEERING_JUDGEMENT,
)
FAT_OF_SOLIDS = Source(
    "fat-of-solids",
    "How a dry food keeps follows the fat of its dry solids: below 5 % no action, 5 to 15 %"
    " remove oxygen, 15 to 35 % a poor candidate, above 35 % not for long storage",
    Standing.ENGINEERING_JUDGEMENT,
)
LIFE_CAP = Source(
    "life-cap",
    "No life above 25 years: no published study supports more",
    Standing.ENGINEERING_JUDGEMENT,
)
LIFE_FRACTIONS = Source(
    "life-fractions",
    "Time spent in different conditions uses up shares of one life (time-temperature-tolerance)",
    Standing.PUBLISHED,
)
REDRYING = Source(
    "redrying",
    "Drying again restores the crispness, not the quality already lost",
    Standing.ENGINEERING_JUDGEMENT,
)
WHOLE_MONTHS = Source(
    "whole-months",
    "Lives are rounded down to whole months, to days below one month, counted from sealing and"
    " held at the end of a short month",
    Standing.ENGINEERING_JUDGEMENT,
)
MOISTURE_CEILING = Source(
    "moisture-ceiling",
    "Intellectual Reserve, An Approach to Longer-Term Food Storage, product list, 2007: about"
    " 10 % moisture or less before packing without oxygen (secondary copy)",
    Standing.PUBLISHED,
)

TEMPERATURE_LAW = Source(
    "temperature-law",
    "Piecewise Q10 law: no credit below 5 °C, at least Q10 5 above 32 °C, none above 45 °C; drawn"
    " toward the US Army Natick ration chart, where Q10 is 1.6 to 1.8 at 60 to 90 °F and 5 to 18"
    " above (secondary copy)",
    Standing.ENGINEERING_JUDGEMENT,
)
Q10_BAND = Source(
    "q10-band",
    "Q10 of 2, band 1.6 to 3.0: published values for dried and canned food centre near 2 below"
    " 32 °C",
    Standing.ENGINEERING_JUDGEMENT,
)
MEAN_KINETIC = Source(
    "mean-kinetic-temperature",
    "US Pharmacopeia <1160>, USP 29 text: mean kinetic temperature, here weighted by time",
    Standing.PUBLISHED,
)
ARRHENIUS = Source(
    "arrhenius",
    "Arrhenius law, R = 8.314472 J/mol/K: the energy that gives the same Q10 at 20 to 30 °C",
    Standing.COMPUTED,
)
OXYGEN_DAMAGE = Source(
    "oxygen-damage",
    "Quality is lost with time and, added to it, with the oxygen taken up, no faster than in air",
    Standing.ENGINEERING_JUDGEMENT,
)
AIR_INGRESS = Source(
    "air-ingress",
    "Film figures are per atmosphere of oxygen, so air counts 0.2095 of one; lid figures are"
    " already in air",
    Standing.COMPUTED,
)
ABSORBER_ADVICE = Source(
    "absorber-advice",
    "An absorber of 1.25 times the oxygen, for handling and age, then the next stock size",
    Standing.ENGINEERING_JUDGEMENT,
)
FILM_AREA = Source(
    "film-area",
    "Where only the volume is known both faces are taken as 0.12 m² x (volume/1500 mL)^(2/3)",
    Standing.ENGINEERING_JUDGEMENT,
)
FACE_AREA = Source(
    "face-area", "Both faces inside the seals, 2 x width x height", Standing.COMPUTED
)
SATURATION = Source(
    "saturation-pressure",
    "Vapour pressure over water, Buck's form (1981, revised 1996); steam tables agree to 0.1 %",
    Standing.FROM_MEMORY,
)
PERMEANCE = Source(
    "permeance",
    "Permeance held at its value at 38 °C and 90 % humidity, on the safe side in a cooler place",
    Standing.ENGINEERING_JUDGEMENT,
)
VAPOUR_UPTAKE = Source(
    "vapour-uptake",
    "What comes through the package is what the food takes up (conservation of mass), along its"
    " isotherm in 400 steps",
    Standing.COMPUTED,
)
FIRST_ACTIVITY = Source(
    "first-activity",
    "Water activity of freeze-dried food when packed, within the 0.08 to 0.33 of the University"
    " of Minnesota Extension",
    Standing.ENGINEERING_JUDGEMENT,
)
ROOM_HUMIDITY = Source(
    "room-humidity",
    "Humidity of a room where nobody measured it; a given one may be off by 10 points",
    Standing.ENGINEERING_JUDGEMENT,
)
RESIDUAL_MOISTURE = Source(
    "residual-moisture",
    "Moisture of freeze-dried food where the lot's was not recorded",
    Standing.ENGINEERING_JUDGEMENT,
)
STATED_TEMPERATURE = Source(
    "stated-temperature",
    "A temperature that was stated, not measured, may be off by 3 °C; a place nobody described"
    " counts as 21 °C",
    Standing.ENGINEERING_JUDGEMENT,
)
DISCARD_ACTIVITY = Source(
    "discard-activity",
    "Beuchat 1981, Cereal Foods World 26:345: no growth of microbes below water activity 0.60"
    " (secondary copy)",
    Standing.PUBLISHED,
)
BAND_RULE = Source(
    "band-rule",
    "Each figure alone at both ends of its spread; the squared logarithms of the ratios to the"
    " middle life added, shorter and longer apart",
    Standing.ENGINEERING_JUDGEMENT,
)
COUNTERS = Source(
    "counters",
    "Quality lost never comes back; moisture is counted apart and starts again when dried again",
    Standing.ENGINEERING_JUDGEMENT,
)
OPENED_PACE = Source(
    "opened-pace",
    "Once open or not tight, quality goes at the pace of the life in air",
    Standing.ENGINEERING_JUDGEMENT,
)
CLASS_BY_FAT = Source(
    "class-by-fat",
    "A fatty food keeps no longer, and bears no more oxygen, than fatty dairy from 15 % fat of its"
    " solids and than nuts above 35 %",
    Standing.ENGINEERING_JUDGEMENT,
)

KEEPING_SOURCES: tuple[Source, ...] = (
    AIR_OXYGEN,
    SEA_LEVEL,
    SOLID_DENSITY,
    OXYGEN_LEFT,
    FAT_OF_SOLIDS,
    LIFE_CAP,
    LIFE_FRACTIONS,
    REDRYING,
    WHOLE_MONTHS,
    MOISTURE_CEILING,
    TEMPERATURE_LAW,
    Q10_BAND,
    MEAN_KINETIC,
    ARRHENIUS,
    OXYGEN_DAMAGE,
    AIR_INGRESS,
    ABSORBER_ADVICE,
    FILM_AREA,
    FACE_AREA,
    SATURATION,
    PERMEANCE,
    VAPOUR_UPTAKE,
    FIRST_ACTIVITY,
    ROOM_HUMIDITY,
    RESIDUAL_MOISTURE,
    STATED_TEMPERATURE,
    DISCARD_ACTIVITY,
    BAND_RULE,
    COUNTERS,
    OPENED_PACE,
    CLASS_BY_FAT,
)
