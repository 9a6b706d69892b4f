-- Dryness evidence, the queue for the machine, decisions on soft packages, rechecks, upkeep and
-- what the last calendar file held.

ALTER TABLE weighing ADD COLUMN hours_tenths INTEGER
    CHECK (hours_tenths BETWEEN 0 AND 100000);

CREATE TABLE dryness_check (
    id INTEGER PRIMARY KEY,
    tray_id INTEGER NOT NULL REFERENCES tray (id),
    kind TEXT NOT NULL CHECK (kind IN ('cold', 'break')),
    passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    at TEXT NOT NULL,
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX dryness_check_of_tray ON dryness_check (tray_id, id);

-- A few more hours: what was weighed and tested before no longer shows that the food is dry.
-- `last_weighing_id` and `last_check_id` are the last ones that came before it.
CREATE TABLE extra_drying (
    id INTEGER PRIMARY KEY,
    run_id INTEGER NOT NULL REFERENCES run (id),
    hours_tenths INTEGER NOT NULL CHECK (hours_tenths BETWEEN 1 AND 10000),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    at TEXT NOT NULL,
    due_at TEXT NOT NULL,
    last_weighing_id INTEGER NOT NULL DEFAULT 0,
    last_check_id INTEGER NOT NULL DEFAULT 0,
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX extra_drying_of_run ON extra_drying (run_id, id);

-- What was accounted for before the rest of the lot was dried again, in dry food and in water:
-- the rest is dealt out from there on.
ALTER TABLE lot ADD COLUMN dealt_before_dg INTEGER NOT NULL DEFAULT 0
    CHECK (dealt_before_dg >= 0);
ALTER TABLE lot ADD COLUMN dealt_before_water_dg INTEGER NOT NULL DEFAULT 0
    CHECK (dealt_before_water_dg >= 0);

ALTER TABLE package ADD COLUMN absorber_packet TEXT NOT NULL DEFAULT '';
ALTER TABLE package ADD COLUMN container_box TEXT NOT NULL DEFAULT '';
ALTER TABLE package ADD COLUMN tray_position INTEGER CHECK (tray_position BETWEEN 1 AND 30);
-- Why it was packed without oxygen although the gate was closed; '' when it was open.
ALTER TABLE package ADD COLUMN gate_reason TEXT NOT NULL DEFAULT '';
ALTER TABLE package ADD COLUMN origin TEXT NOT NULL DEFAULT 'packed'
    CHECK (origin IN ('packed', 'redried', 'repacked'));
-- Of food that was in a package before: its first sealing, the day room air got in, and the
-- share of its quality that was spent when it was dried again.
ALTER TABLE package ADD COLUMN first_sealed_on TEXT
    CHECK (first_sealed_on IS date(first_sealed_on, '+0 days'));
ALTER TABLE package ADD COLUMN exposed_on TEXT CHECK (exposed_on IS date(exposed_on, '+0 days'));
ALTER TABLE package ADD COLUMN life_before_millionths INTEGER
    CHECK (life_before_millionths >= 0);
CREATE INDEX package_of_packet ON package (absorber_packet) WHERE absorber_packet <> '';
CREATE INDEX package_of_box ON package (container_box) WHERE container_box <> '';

CREATE TABLE package_source (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    source_package_id INTEGER NOT NULL REFERENCES package (id),
    UNIQUE (package_id, source_package_id)
) STRICT;
CREATE INDEX package_source_of_source ON package_source (source_package_id);

ALTER TABLE draw ADD COLUMN purpose TEXT NOT NULL DEFAULT 'eat'
    CHECK (purpose IN ('eat', 'again', 'test'));

-- The queue for the machine. A row is one package's food, or food of a lot not packed yet.
-- `driven_off_dg` is the water that drying a lot's food again took out of it.
CREATE TABLE redrying (
    id INTEGER PRIMARY KEY,
    lot_id INTEGER NOT NULL REFERENCES lot (id),
    package_id INTEGER REFERENCES package (id),
    dry_dg INTEGER NOT NULL CHECK (dry_dg > 0),
    since TEXT NOT NULL CHECK (since IS date(since, '+0 days')),
    reason TEXT NOT NULL DEFAULT '',
    tray_id INTEGER REFERENCES tray (id),
    driven_off_dg INTEGER NOT NULL DEFAULT 0 CHECK (driven_off_dg >= 0),
    ended_on TEXT CHECK (ended_on IS date(ended_on, '+0 days')),
    ending TEXT NOT NULL DEFAULT ''
        CHECK (ending IN ('', 'packed', 'dried', 'discarded', 'dropped')),
    CHECK ((ended_on IS NULL) = (ending = ''))
) STRICT;
CREATE INDEX redrying_waiting ON redrying (since, id) WHERE ended_on IS NULL;
CREATE INDEX redrying_of_package ON redrying (package_id);
CREATE INDEX redrying_of_lot ON redrying (lot_id);
CREATE INDEX redrying_of_tray ON redrying (tray_id);

-- What was decided of a doubtful package, with the answers it rests on.
CREATE TABLE inspection (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    answers TEXT NOT NULL CHECK (json_valid(answers)),
    outcome TEXT NOT NULL CHECK (outcome IN ('dry_again', 'hold', 'use_now', 'repack', 'discard')),
    rule TEXT NOT NULL,
    reason TEXT NOT NULL,
    use_by TEXT CHECK (use_by IS date(use_by, '+0 days')),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX inspection_of_package ON inspection (package_id, id);

-- Two more things can happen to a package, so the list of events is made anew.
CREATE TABLE package_event_new (
    id INTEGER PRIMARY KEY,
    package_id INTEGER NOT NULL REFERENCES package (id),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    event TEXT NOT NULL CHECK (event IN ('sealed', 'moved', 'crisp', 'soft', 'leak', 'damaged',
        'sister_soft', 'recall', 'use_now', 'hold', 'open', 'use_up', 'discard', 'redried',
        'repacked', 'noted')),
    from_condition TEXT,
    to_condition TEXT NOT NULL,
    from_location_id INTEGER REFERENCES location (id),
    to_location_id INTEGER REFERENCES location (id),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
INSERT INTO package_event_new SELECT * FROM package_event;
DROP TABLE package_event;
ALTER TABLE package_event_new RENAME TO package_event;
CREATE INDEX package_event_of_package ON package_event (package_id, on_day, id);
CREATE INDEX package_event_by_place ON package_event (to_location_id, package_id);
CREATE INDEX package_event_faults ON package_event (event, package_id)
    WHERE event IN ('soft', 'leak', 'damaged');

-- When each sealed package is to be looked at again: computed beside the projection.
CREATE TABLE recheck (
    package_id INTEGER PRIMARY KEY REFERENCES package (id) ON DELETE CASCADE,
    earliest_on TEXT NOT NULL CHECK (earliest_on IS date(earliest_on, '+0 days')),
    wanted_on TEXT NOT NULL CHECK (wanted_on IS date(wanted_on, '+0 days')),
    latest_on TEXT NOT NULL CHECK (latest_on IS date(latest_on, '+0 days')),
    risk INTEGER NOT NULL CHECK (risk BETWEEN 0 AND 1000),
    CHECK (earliest_on <= wanted_on AND wanted_on <= latest_on)
) STRICT;
CREATE INDEX recheck_latest ON recheck (latest_on, package_id, wanted_on);
CREATE INDEX recheck_earliest ON recheck (earliest_on, package_id);

CREATE TABLE equipment_check (
    id INTEGER PRIMARY KEY,
    task TEXT NOT NULL CHECK (task <> ''),
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    passed INTEGER NOT NULL CHECK (passed IN (0, 1)),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX equipment_check_of_task ON equipment_check (task, on_day, id);

-- A pressure-rise test. Pressures are thousandths of a millibar.
CREATE TABLE equipment_reading (
    id INTEGER PRIMARY KEY,
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    volume_ml INTEGER NOT NULL CHECK (volume_ml > 0),
    from_microbar INTEGER NOT NULL CHECK (from_microbar >= 0),
    to_microbar INTEGER NOT NULL CHECK (to_microbar >= 0),
    seconds INTEGER NOT NULL CHECK (seconds > 0),
    dry_empty INTEGER NOT NULL CHECK (dry_empty IN (0, 1)),
    note TEXT NOT NULL DEFAULT ''
) STRICT;

-- What the last calendar file said under each name and since when, so that the next one can say
-- it again, change it or take it back.
CREATE TABLE calendar_entry (
    id INTEGER PRIMARY KEY,
    uid TEXT NOT NULL UNIQUE CHECK (uid <> ''),
    sequence INTEGER NOT NULL CHECK (sequence >= 0),
    digest TEXT NOT NULL,
    on_day TEXT NOT NULL CHECK (on_day IS date(on_day, '+0 days')),
    summary TEXT NOT NULL,
    revised_at TEXT NOT NULL,
    cancelled INTEGER NOT NULL DEFAULT 0 CHECK (cancelled IN (0, 1))
) STRICT;
