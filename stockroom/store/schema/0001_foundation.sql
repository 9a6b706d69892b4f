-- Weights are tenths of a gram (_dg), temperatures tenths of a degree Celsius (_dc), volumes
-- millilitres (_ml), days ISO text. Composition is hundredths of a gram per 100 g (_cg).
-- date() alone lets the 31st of November pass; with '+0 days' it does not.

CREATE TABLE setting (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    value TEXT NOT NULL
) STRICT;

CREATE TABLE food (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (trim(name) <> ''),
    reference_key TEXT,
    food_group TEXT NOT NULL CHECK (food_group <> ''),
    food_class TEXT NOT NULL CHECK (food_class IN ('fruit', 'vegetable', 'starch', 'lean_meat',
        'meal', 'egg', 'nonfat_dairy', 'fatty_dairy', 'nuts')),
    preparation TEXT NOT NULL CHECK (preparation IN ('raw', 'cooked', 'ready')),
    serving_dg INTEGER NOT NULL CHECK (serving_dg BETWEEN 1 AND 1000000),
    water_cg INTEGER CHECK (water_cg BETWEEN 0 AND 10000),
    energy_tenth_kcal INTEGER CHECK (energy_tenth_kcal BETWEEN 0 AND 9100),
    protein_cg INTEGER CHECK (protein_cg BETWEEN 0 AND 10000),
    fat_cg INTEGER CHECK (fat_cg BETWEEN 0 AND 10000),
    ash_cg INTEGER CHECK (ash_cg BETWEEN 0 AND 10000),
    carbohydrate_cg INTEGER CHECK (carbohydrate_cg BETWEEN 0 AND 10000),
    fibre_cg INTEGER CHECK (fibre_cg BETWEEN 0 AND 10000),
    sugars_cg INTEGER CHECK (sugars_cg BETWEEN 0 AND 10000),
    ingredients_unknown INTEGER NOT NULL DEFAULT 0 CHECK (ingredients_unknown IN (0, 1)),
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE food_allergen (
    id INTEGER PRIMARY KEY,
    food_id INTEGER NOT NULL REFERENCES food (id),
    allergen TEXT NOT NULL CHECK (allergen IN ('milk', 'egg', 'fish', 'crustacean_shellfish',
        'tree_nuts', 'peanuts', 'wheat', 'soybeans', 'sesame')),
    UNIQUE (food_id, allergen)
) STRICT;

CREATE TABLE container (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE CHECK (key <> ''),
    name TEXT NOT NULL CHECK (trim(name) <> ''),
    package_kind TEXT NOT NULL CHECK (package_kind IN ('foil_pouch', 'metallised_pouch',
        'vacuum_bag', 'zip_bag', 'jar')),
    volume_ml INTEGER NOT NULL CHECK (volume_ml BETWEEN 1 AND 100000),
    width_mm INTEGER CHECK (width_mm > 0),
    height_mm INTEGER CHECK (height_mm > 0)
) STRICT;

CREATE TABLE location (
    id INTEGER PRIMARY KEY,
    parent_id INTEGER REFERENCES location (id),
    name TEXT NOT NULL COLLATE NOCASE CHECK (trim(name) <> '' AND instr(name, '/') = 0),
    kind TEXT NOT NULL CHECK (kind IN ('cupboard', 'cellar', 'loft', 'room', 'freezer',
        'refrigerator', 'rack', 'bin')),
    temperature_dc INTEGER CHECK (temperature_dc BETWEEN -800 AND 600),
    note TEXT NOT NULL DEFAULT '',
    CHECK (parent_id <> id)
) STRICT;
CREATE UNIQUE INDEX location_name ON location (ifnull(parent_id, 0), name);

CREATE TABLE run (
    id INTEGER PRIMARY KEY,
    started_on TEXT NOT NULL CHECK (started_on IS date(started_on, '+0 days')),
    closed_on TEXT CHECK (closed_on IS date(closed_on, '+0 days')),
    state TEXT NOT NULL CHECK (state IN ('open', 'closed', 'abandoned')),
    note TEXT NOT NULL DEFAULT '',
    CHECK ((state = 'open') = (closed_on IS NULL)),
    CHECK (closed_on >= started_on)
) STRICT;

CREATE TABLE lot (
    id INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE CHECK (code <> ''),
    run_id INTEGER NOT NULL REFERENCES run (id),
    food_id INTEGER NOT NULL REFERENCES food (id),
    made_on TEXT NOT NULL CHECK (made_on IS date(made_on, '+0 days')),
    preparation TEXT NOT NULL CHECK (preparation IN ('raw', 'cooked', 'ready')),
    wet_dg INTEGER NOT NULL CHECK (wet_dg > 0),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    note TEXT NOT NULL DEFAULT '',
    CHECK (dry_dg <= wet_dg),
    UNIQUE (id, food_id)
) STRICT;
CREATE INDEX lot_first_in ON lot (food_id, made_on, id);
CREATE INDEX lot_of_run ON lot (run_id);

CREATE TABLE tray (
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES run (id),
    position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 30),
    food_id INTEGER NOT NULL REFERENCES food (id),
    lot_id INTEGER REFERENCES lot (id),
    UNIQUE (run_id, position)
) STRICT;

CREATE TABLE weighing (
    id INTEGER PRIMARY KEY,
    tray_id INTEGER NOT NULL REFERENCES tray (id),
    stage TEXT NOT NULL CHECK (stage IN ('wet', 'dry')),
    gross_dg INTEGER NOT NULL CHECK (gross_dg BETWEEN 1 AND 1000000),
    tare_dg INTEGER NOT NULL CHECK (tare_dg BETWEEN 0 AND 1000000),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    at TEXT NOT NULL,
    CHECK (gross_dg > tare_dg)
) STRICT;
CREATE INDEX weighing_of_tray ON weighing (tray_id, stage, id);

CREATE TABLE lot_loss (
    id INTEGER PRIMARY KEY,
    lot_id INTEGER NOT NULL REFERENCES lot (id),
    reason TEXT NOT NULL CHECK (reason IN ('tasted', 'spilt', 'discarded', 'unaccounted')),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    water_dg INTEGER NOT NULL CHECK (water_dg >= 0),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX lot_loss_of_lot ON lot_loss (lot_id);

CREATE TABLE package (
    id INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE CHECK (code <> ''),
    lot_id INTEGER NOT NULL,
    food_id INTEGER NOT NULL,
    number INTEGER NOT NULL CHECK (number BETWEEN 1 AND 999),
    container_id INTEGER NOT NULL REFERENCES container (id),
    absorber_cc INTEGER NOT NULL DEFAULT 0 CHECK (absorber_cc BETWEEN 0 AND 20000),
    vacuum INTEGER NOT NULL DEFAULT 0 CHECK (vacuum IN (0, 1)),
    vacuum_tenth_inhg INTEGER CHECK (vacuum_tenth_inhg BETWEEN 1 AND 310),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    water_dg INTEGER NOT NULL CHECK (water_dg >= 0),
    taken_dg INTEGER NOT NULL DEFAULT 0,
    sealed_on TEXT NOT NULL CHECK (sealed_on IS date(sealed_on, '+0 days')),
    location_id INTEGER REFERENCES location (id),
    condition TEXT NOT NULL CHECK (condition IN ('settling', 'sound', 'suspect', 'held',
        'opened', 'used', 'discarded')),
    opened_on TEXT CHECK (opened_on IS date(opened_on, '+0 days')),
    gone_on TEXT CHECK (gone_on IS date(gone_on, '+0 days')),
    note TEXT NOT NULL DEFAULT '',
    FOREIGN KEY (lot_id, food_id) REFERENCES lot (id, food_id),
    UNIQUE (lot_id, number),
    CHECK (vacuum = 1 OR vacuum_tenth_inhg IS NULL),
    CHECK (taken_dg BETWEEN 0 AND dry_dg),
    CHECK ((condition IN ('used', 'discarded')) = (gone_on IS NOT NULL)),
    CHECK (condition <> 'used' OR taken_dg = dry_dg),
    CHECK (condition <> 'opened' OR opened_on IS NOT NULL)
) STRICT;
CREATE INDEX package_of_food ON package (food_id, condition, lot_id);
CREATE INDEX package_of_place ON package (location_id, condition);
CREATE INDEX package_by_condition ON package (condition, sealed_on, id);

CREATE TABLE package_event (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    event TEXT NOT NULL CHECK (event IN ('sealed', 'moved', 'crisp', 'soft', 'leak', 'damaged',
        'sister_soft', 'hold', 'open', 'use_up', 'discard', 'redried', 'noted')),
    from_condition TEXT,
    to_condition TEXT NOT NULL,
    from_location_id INTEGER REFERENCES location (id),
    to_location_id INTEGER REFERENCES location (id),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX package_event_of_package ON package_event (package_id, on_day, id);

CREATE TABLE recipe (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (trim(name) <> ''),
    serves INTEGER NOT NULL CHECK (serves BETWEEN 1 AND 1000),
    cooking_water_dg INTEGER NOT NULL DEFAULT 0 CHECK (cooking_water_dg BETWEEN 0 AND 1000000),
    steps TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE recipe_line (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER NOT NULL REFERENCES recipe (id),
    position INTEGER NOT NULL CHECK (position >= 1),
    food_id INTEGER REFERENCES food (id),
    basis TEXT CHECK (basis IN ('fresh', 'dry', 'servings')),
    weight_dg INTEGER CHECK (weight_dg BETWEEN 1 AND 1000000),
    servings_hundredths INTEGER CHECK (servings_hundredths BETWEEN 1 AND 100000),
    item TEXT CHECK (trim(item) <> ''),
    amount_thousandths INTEGER CHECK (amount_thousandths BETWEEN 1 AND 1000000000),
    unit TEXT,
    UNIQUE (recipe_id, position),
    CHECK ((food_id IS NULL) = (basis IS NULL)),
    CHECK ((food_id IS NULL) <> (item IS NULL)),
    CHECK ((basis IN ('fresh', 'dry')) IS (weight_dg IS NOT NULL) OR basis IS NULL),
    CHECK ((basis = 'servings') IS (servings_hundredths IS NOT NULL) OR basis IS NULL),
    CHECK (basis IS NOT NULL OR (weight_dg IS NULL AND servings_hundredths IS NULL))
) STRICT;

CREATE TABLE meal (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER REFERENCES recipe (id),
    name TEXT NOT NULL,
    people INTEGER NOT NULL CHECK (people BETWEEN 1 AND 1000),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    rehydration_water_dg INTEGER NOT NULL CHECK (rehydration_water_dg >= 0),
    cooking_water_dg INTEGER NOT NULL CHECK (cooking_water_dg >= 0)
) STRICT;
CREATE INDEX meal_of_recipe ON meal (recipe_id);

CREATE TABLE draw (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    meal_id INTEGER REFERENCES meal (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    water_dg INTEGER NOT NULL CHECK (water_dg >= 0),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX draw_of_package ON draw (package_id, id);
CREATE INDEX draw_of_meal ON draw (meal_id);

-- What the model says of each live package: computed, never typed, so outside undo.
CREATE TABLE projection (
    package_id INTEGER PRIMARY KEY REFERENCES package (id) ON DELETE CASCADE,
    best_by TEXT NOT NULL CHECK (best_by IS date(best_by, '+0 days')),
    low TEXT NOT NULL CHECK (low IS date(low, '+0 days')),
    high TEXT NOT NULL CHECK (high IS date(high, '+0 days')),
    recheck_by TEXT NOT NULL CHECK (recheck_by IS date(recheck_by, '+0 days')),
    limited_by TEXT NOT NULL CHECK (limited_by IN ('temperature', 'oxygen', 'moisture', 'cap',
        'opened', 'table')),
    model TEXT NOT NULL,
    computed_on TEXT NOT NULL CHECK (computed_on IS date(computed_on, '+0 days')),
    CHECK (low <= best_by AND best_by <= high)
) STRICT;
CREATE INDEX projection_best_by ON projection (best_by, package_id);

CREATE TABLE journal (
    id INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    actor TEXT NOT NULL CHECK (trim(actor) <> ''),
    kind TEXT NOT NULL CHECK (kind IN ('do', 'undo', 'redo')),
    action TEXT NOT NULL CHECK (action <> ''),
    words TEXT NOT NULL DEFAULT '',
    reverses_id INTEGER UNIQUE REFERENCES journal (id),
    CHECK ((kind = 'do') = (reverses_id IS NULL))
) STRICT;

CREATE TABLE change (
    id INTEGER PRIMARY KEY,
    journal_id INTEGER NOT NULL REFERENCES journal (id),
    table_name TEXT NOT NULL,
    row_id INTEGER NOT NULL,
    before TEXT CHECK (before IS NULL OR json_valid(before)),
    after TEXT CHECK (after IS NULL OR json_valid(after)),
    CHECK (before IS NOT NULL OR after IS NOT NULL)
) STRICT;
CREATE INDEX change_of_journal ON change (journal_id, id);
