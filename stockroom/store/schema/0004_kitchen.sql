-- Household measures, what a recipe asks of the cook, who eats, and the menu.

-- As the household measured it: one such measure of the food weighs so much. Never from water's
-- density.
CREATE TABLE food_measure (
    id INTEGER PRIMARY KEY,
    food_id INTEGER NOT NULL REFERENCES food (id),
    name TEXT NOT NULL COLLATE NOCASE CHECK (trim(name) <> ''),
    basis TEXT NOT NULL CHECK (basis IN ('fresh', 'dry')),
    weight_dg INTEGER NOT NULL CHECK (weight_dg BETWEEN 1 AND 1000000),
    UNIQUE (food_id, name)
) STRICT;

-- The share of the water to keep back at first, the temperature the dish is cooked to in the
-- middle (none: it is not cooked), how warm the water is, and what its fresh items bring along.
ALTER TABLE recipe ADD COLUMN hold_back_percent INTEGER NOT NULL DEFAULT 30
    CHECK (hold_back_percent BETWEEN 0 AND 100);
ALTER TABLE recipe ADD COLUMN cook_to_dc INTEGER CHECK (cook_to_dc BETWEEN 300 AND 1500);
ALTER TABLE recipe ADD COLUMN water_temperature_dc INTEGER
    CHECK (water_temperature_dc BETWEEN 0 AND 1000);
ALTER TABLE recipe ADD COLUMN occasion TEXT NOT NULL DEFAULT 'main'
    CHECK (occasion IN ('breakfast', 'main', 'extra'));
ALTER TABLE recipe ADD COLUMN fresh_kcal INTEGER CHECK (fresh_kcal BETWEEN 0 AND 1000000);
ALTER TABLE recipe ADD COLUMN fresh_protein_dg INTEGER
    CHECK (fresh_protein_dg BETWEEN 0 AND 1000000);
ALTER TABLE recipe ADD COLUMN origin TEXT NOT NULL DEFAULT '';

-- Allergens of the fresh items, told by the cook; those of stored food come from the food.
CREATE TABLE recipe_allergen (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER NOT NULL REFERENCES recipe (id),
    allergen TEXT NOT NULL CHECK (allergen IN ('milk', 'egg', 'fish', 'crustacean_shellfish',
        'tree_nuts', 'peanuts', 'wheat', 'soybeans', 'sesame')),
    UNIQUE (recipe_id, allergen)
) STRICT;

-- A stored food may be counted in its household measures: the amount in thousandths, the measure
-- by its name. A line may keep back another share of its water than its recipe does.
CREATE TABLE recipe_line_new (
    id INTEGER PRIMARY KEY,
    recipe_id INTEGER NOT NULL REFERENCES recipe (id),
    position INTEGER NOT NULL CHECK (position >= 1),
    food_id INTEGER REFERENCES food (id),
    basis TEXT CHECK (basis IN ('fresh', 'dry', 'servings', 'measure')),
    weight_dg INTEGER CHECK (weight_dg BETWEEN 1 AND 1000000),
    servings_hundredths INTEGER CHECK (servings_hundredths BETWEEN 1 AND 100000),
    item TEXT CHECK (trim(item) <> ''),
    amount_thousandths INTEGER CHECK (amount_thousandths BETWEEN 1 AND 1000000000),
    unit TEXT,
    hold_back_percent INTEGER CHECK (hold_back_percent BETWEEN 0 AND 100),
    UNIQUE (recipe_id, position),
    CHECK ((food_id IS NULL) = (basis IS NULL)),
    CHECK ((food_id IS NULL) <> (item IS NULL)),
    CHECK ((basis IN ('fresh', 'dry')) IS (weight_dg IS NOT NULL) OR basis IS NULL),
    CHECK ((basis = 'servings') IS (servings_hundredths IS NOT NULL) OR basis IS NULL),
    CHECK ((basis = 'measure') IS (amount_thousandths IS NOT NULL AND unit IS NOT NULL)
        OR basis IS NULL),
    CHECK (basis IS NOT NULL OR (weight_dg IS NULL AND servings_hundredths IS NULL)),
    CHECK (food_id IS NOT NULL OR hold_back_percent IS NULL)
) STRICT;
INSERT INTO recipe_line_new (id, recipe_id, position, food_id, basis, weight_dg,
    servings_hundredths, item, amount_thousandths, unit)
SELECT id, recipe_id, position, food_id, basis, weight_dg, servings_hundredths, item,
    amount_thousandths, unit FROM recipe_line;
DROP TABLE recipe_line;
ALTER TABLE recipe_line_new RENAME TO recipe_line;

-- When water was added, and the last day to eat what is kept cold of it.
ALTER TABLE meal ADD COLUMN wetted_at TEXT;
ALTER TABLE meal ADD COLUMN eat_by TEXT CHECK (eat_by IS date(eat_by, '+0 days'));

-- Age as told on a day, so that it grows; without weight and height the reference person is meant.
CREATE TABLE household_member (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (trim(name) <> ''),
    sex TEXT NOT NULL CHECK (sex IN ('F', 'M')),
    age_tenths INTEGER NOT NULL CHECK (age_tenths BETWEEN 0 AND 1200),
    age_on TEXT NOT NULL CHECK (age_on IS date(age_on, '+0 days')),
    body_weight_dg INTEGER CHECK (body_weight_dg BETWEEN 1 AND 5000000),
    height_mm INTEGER CHECK (height_mm BETWEEN 1 AND 3000),
    activity TEXT NOT NULL CHECK (activity IN ('sedentary', 'low', 'active', 'very')),
    edition TEXT NOT NULL CHECK (edition <> '')
) STRICT;

CREATE TABLE member_allergen (
    id INTEGER PRIMARY KEY,
    member_id INTEGER NOT NULL REFERENCES household_member (id),
    allergen TEXT NOT NULL CHECK (allergen IN ('milk', 'egg', 'fish', 'crustacean_shellfish',
        'tree_nuts', 'peanuts', 'wheat', 'soybeans', 'sesame')),
    UNIQUE (member_id, allergen)
) STRICT;

CREATE TABLE member_dislike (
    id INTEGER PRIMARY KEY,
    member_id INTEGER NOT NULL REFERENCES household_member (id),
    food_id INTEGER NOT NULL REFERENCES food (id),
    UNIQUE (member_id, food_id)
) STRICT;

-- A plan for some days with the wishes it was made by, and how far from the best it may be.
CREATE TABLE menu (
    id INTEGER PRIMARY KEY,
    made_on TEXT NOT NULL CHECK (made_on IS date(made_on, '+0 days')),
    from_day TEXT NOT NULL CHECK (from_day IS date(from_day, '+0 days')),
    days INTEGER NOT NULL CHECK (days BETWEEN 1 AND 60),
    wishes TEXT NOT NULL CHECK (json_valid(wishes)),
    gap_millionths INTEGER CHECK (gap_millionths >= 0)
) STRICT;

CREATE TABLE planned_dish (
    id INTEGER PRIMARY KEY,
    menu_id INTEGER NOT NULL REFERENCES menu (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    position INTEGER NOT NULL CHECK (position >= 1),
    recipe_id INTEGER REFERENCES recipe (id),
    name TEXT NOT NULL CHECK (trim(name) <> ''),
    people INTEGER NOT NULL CHECK (people BETWEEN 1 AND 1000),
    locked INTEGER NOT NULL DEFAULT 0 CHECK (locked IN (0, 1)),
    meal_id INTEGER REFERENCES meal (id),
    UNIQUE (menu_id, on_day, position)
) STRICT;
CREATE INDEX planned_dish_of_recipe ON planned_dish (recipe_id);
CREATE INDEX planned_dish_of_meal ON planned_dish (meal_id);
