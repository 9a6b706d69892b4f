-- What decides how long food keeps, beyond the package itself: the climate of its places, and
-- the model's answer, or the reason why it gives none.

ALTER TABLE location ADD COLUMN humidity_percent INTEGER CHECK (humidity_percent BETWEEN 1 AND 99);

-- Twelve monthly means of a place; either none or all twelve are there.
CREATE TABLE location_temperature (
    id INTEGER PRIMARY KEY,
    location_id INTEGER NOT NULL REFERENCES location (id),
    month INTEGER NOT NULL CHECK (month BETWEEN 1 AND 12),
    temperature_dc INTEGER NOT NULL CHECK (temperature_dc BETWEEN -800 AND 600),
    origin TEXT NOT NULL CHECK (origin IN ('stated', 'readings')),
    UNIQUE (location_id, month)
) STRICT;

-- A temperature logger's readings in the place's own wall-clock time.
CREATE TABLE temperature_reading (
    id INTEGER PRIMARY KEY,
    location_id INTEGER NOT NULL REFERENCES location (id),
    at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M', at, '+0 days')),
    temperature_dc INTEGER NOT NULL CHECK (temperature_dc BETWEEN -800 AND 600),
    UNIQUE (location_id, at)
) STRICT;

CREATE INDEX package_event_by_place ON package_event (to_location_id, package_id);

-- Computed anew for every live package, so nothing is carried over.
DROP TABLE projection;
CREATE TABLE projection (
    package_id INTEGER PRIMARY KEY REFERENCES package (id) ON DELETE CASCADE,
    best_by TEXT CHECK (best_by IS date(best_by, '+0 days')),
    low TEXT CHECK (low IS date(low, '+0 days')),
    high TEXT CHECK (high IS date(high, '+0 days')),
    recheck_by TEXT CHECK (recheck_by IS date(recheck_by, '+0 days')),
    discard_by TEXT CHECK (discard_by IS date(discard_by, '+0 days')),
    limited_by TEXT CHECK (limited_by IN ('temperature', 'oxygen', 'moisture', 'cap', 'opened')),
    refused TEXT NOT NULL DEFAULT '',
    model TEXT NOT NULL,
    computed_on TEXT NOT NULL CHECK (computed_on IS date(computed_on, '+0 days')),
    CHECK (low <= best_by AND best_by <= high),
    CHECK ((best_by IS NULL) = (refused <> '')),
    CHECK ((best_by IS NULL) = (low IS NULL) AND (best_by IS NULL) = (high IS NULL)
        AND (best_by IS NULL) = (recheck_by IS NULL) AND (best_by IS NULL) = (limited_by IS NULL))
) STRICT;
CREATE INDEX projection_best_by ON projection (best_by, package_id);

-- The model and settings all projections were computed with; one row once they have been.
CREATE TABLE projection_basis (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    basis TEXT NOT NULL CHECK (basis <> '')
) STRICT;
