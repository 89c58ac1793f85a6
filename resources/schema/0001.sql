-- Schema 1 of a Washfast notebook. Times are ISO 8601 texts with an offset; units stand in the names or in the field catalogue.
-- Rows are never deleted: removed = 1 hides them. not_measured is a JSON object of the columns whose value is estimated or
-- assumed although a plain entry would count as measured.

PRAGMA application_id = 1464233570;

CREATE TABLE setting (
    key TEXT PRIMARY KEY,
    value TEXT
) STRICT;

-- One step is one thing that a person did: the unit of undo. An undo or a redo is a step of its own.
CREATE TABLE step (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    at TEXT NOT NULL,
    label TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('edit', 'undo', 'redo', 'origin')),
    target INTEGER REFERENCES step(id),
    window TEXT,
    closed INTEGER NOT NULL DEFAULT 0 CHECK (closed IN (0, 1))
) STRICT;
CREATE TRIGGER step_kept BEFORE DELETE ON step BEGIN
    SELECT RAISE(ABORT, 'the history is never deleted');
END;
CREATE TRIGGER step_same BEFORE UPDATE ON step
WHEN old.closed = 1 OR old.id IS NOT new.id OR old.uuid IS NOT new.uuid OR old.at IS NOT new.at OR old.label IS NOT new.label
    OR old.kind IS NOT new.kind OR old.target IS NOT new.target
BEGIN
    SELECT RAISE(ABORT, 'the history is never changed');
END;

-- Written by triggers: field NULL says that the row was added, else which column changed from what to what.
CREATE TABLE history (
    id INTEGER PRIMARY KEY,
    step INTEGER REFERENCES step(id),
    at TEXT NOT NULL,
    entity TEXT NOT NULL,
    row INTEGER NOT NULL,
    field TEXT,
    old ANY,
    new ANY
) STRICT;
CREATE INDEX history_of_row ON history(entity, row);
CREATE INDEX history_of_step ON history(step);
CREATE TRIGGER history_kept BEFORE DELETE ON history BEGIN
    SELECT RAISE(ABORT, 'the history is never deleted');
END;
CREATE TRIGGER history_same BEFORE UPDATE ON history BEGIN
    SELECT RAISE(ABORT, 'the history is never changed');
END;

CREATE TABLE site (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    site_name TEXT,
    site_latitude_deg REAL,
    site_longitude_deg REAL,
    site_height_m REAL,
    site_zone TEXT,
    site_ground TEXT
) STRICT;
CREATE UNIQUE INDEX site_named_once ON site(site_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE term (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    term_name TEXT,
    term_start TEXT,
    term_end TEXT
) STRICT;
CREATE UNIQUE INDEX term_named_once ON term(term_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE session (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    session_code TEXT,
    session_start TEXT,
    session_site INTEGER REFERENCES site(id),
    session_term INTEGER REFERENCES term(id),
    session_group TEXT,
    room_temperature_c REAL,
    room_humidity_pct REAL,
    session_notes TEXT
) STRICT;
CREATE UNIQUE INDEX session_named_once ON session(session_code COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE chemical (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    chemical_name TEXT,
    chemical_formula TEXT,
    chemical_lot TEXT,
    chemical_purity_pct REAL,
    chemical_opened TEXT,
    chemical_left_g REAL
) STRICT;

CREATE TABLE formula (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    formula_name TEXT,
    formula_source TEXT,
    formula_iron_mol_l REAL,
    formula_hexacyanoferrate_mol_l REAL,
    formula_notes TEXT
) STRICT;
CREATE UNIQUE INDEX formula_named_once ON formula(formula_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE mix (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    mix_code TEXT,
    mix_formula INTEGER REFERENCES formula(id),
    mix_made TEXT,
    mix_water_ml REAL,
    mix_ph REAL,
    mix_solids_pct REAL,
    mix_stored TEXT,
    mix_notes TEXT
) STRICT;
CREATE UNIQUE INDEX mix_named_once ON mix(mix_code COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE mix_part (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    mix INTEGER NOT NULL REFERENCES mix(id),
    part_substance TEXT,
    part_chemical INTEGER REFERENCES chemical(id),
    part_mass_g REAL
) STRICT;
CREATE INDEX mix_part_of_mix ON mix_part(mix);

CREATE TABLE paper (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    paper_name TEXT,
    paper_weight_g_m2 REAL,
    paper_sizing TEXT,
    paper_buffered INTEGER CHECK (paper_buffered IN (0, 1)),
    paper_fibre TEXT,
    paper_base_density REAL,
    paper_notes TEXT
) STRICT;
CREATE UNIQUE INDEX paper_named_once ON paper(paper_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE cover (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    cover_name TEXT,
    cover_kind TEXT,
    cover_thickness_mm REAL,
    cover_uva_transmittance REAL,
    cover_notes TEXT
) STRICT;
CREATE UNIQUE INDEX cover_named_once ON cover(cover_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE negative (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    negative_name TEXT,
    negative_kind TEXT,
    negative_notes TEXT
) STRICT;
CREATE UNIQUE INDEX negative_named_once ON negative(negative_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE negative_step (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    negative INTEGER NOT NULL REFERENCES negative(id),
    step_number REAL,
    step_uv_density REAL
) STRICT;
CREATE INDEX negative_step_of_negative ON negative_step(negative);

CREATE TABLE print (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print_code TEXT,
    print_session INTEGER REFERENCES session(id),
    print_mix INTEGER REFERENCES mix(id),
    print_paper INTEGER REFERENCES paper(id),
    print_maker TEXT,
    print_width_mm REAL,
    print_height_mm REAL,
    print_sheet TEXT,
    print_half TEXT,
    print_method TEXT,
    dose_goal_j_cm2 REAL,
    print_outcome TEXT,
    print_notes TEXT,
    print_import_mark TEXT,
    coat_start TEXT,
    coat_end TEXT,
    coat_tool TEXT,
    coat_volume_ml REAL,
    coat_passes REAL,
    coat_temperature_c REAL,
    coat_humidity_pct REAL,
    coat_light TEXT,
    dry_start TEXT,
    dry_end TEXT,
    dry_method TEXT,
    dry_temperature_c REAL,
    dry_humidity_pct REAL,
    dry_covered INTEGER CHECK (dry_covered IN (0, 1)),
    hold_start TEXT,
    hold_end TEXT,
    hold_place TEXT,
    hold_humidity_pct REAL,
    rinse_start TEXT,
    rinse_end TEXT,
    rinse_tray TEXT
) STRICT;
CREATE UNIQUE INDEX print_named_once ON print(print_code COLLATE NOCASE) WHERE removed = 0;
CREATE INDEX print_of_session ON print(print_session);

CREATE TABLE weighing (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    weigh_time TEXT,
    weigh_state TEXT,
    weigh_mass_g REAL
) STRICT;
CREATE INDEX weighing_of_print ON weighing(print);

CREATE TABLE touch (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    touch_time TEXT,
    touch_moment TEXT,
    touch_state TEXT
) STRICT;
CREATE INDEX touch_of_print ON touch(print);

CREATE TABLE exposure (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    expose_number REAL,
    expose_start TEXT,
    expose_end TEXT,
    expose_pause_min REAL,
    expose_place TEXT,
    expose_sky_share REAL,
    expose_cover INTEGER REFERENCES cover(id),
    expose_cover2 INTEGER REFERENCES cover(id),
    expose_negative INTEGER REFERENCES negative(id),
    expose_tilt_deg REAL,
    expose_facing_deg REAL,
    cloud_start_eighths REAL,
    disc_start TEXT,
    cloud_middle_eighths REAL,
    disc_middle TEXT,
    cloud_end_eighths REAL,
    disc_end TEXT
) STRICT;
CREATE INDEX exposure_of_print ON exposure(print);

CREATE TABLE meter (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    meter_number REAL,
    meter_exposure REAL,
    meter_time TEXT,
    meter_uva_w_m2 REAL,
    meter_instrument TEXT
) STRICT;
CREATE INDEX meter_of_print ON meter(print);

CREATE TABLE bath (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    bath_position REAL,
    bath_water TEXT,
    bath_additive TEXT,
    bath_additive_g_l REAL,
    bath_minutes REAL,
    bath_litres REAL,
    bath_temperature_c REAL,
    bath_ph REAL,
    bath_running INTEGER CHECK (bath_running IN (0, 1))
) STRICT;
CREATE INDEX bath_of_print ON bath(print);

CREATE TABLE reading (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    reading_time TEXT,
    reading_when TEXT,
    reading_where TEXT,
    reading_step REAL,
    reading_channel TEXT,
    reading_density REAL,
    reading_spread REAL,
    reading_method TEXT,
    reading_lab_l REAL,
    reading_lab_a REAL,
    reading_lab_b REAL
) STRICT;
CREATE INDEX reading_of_print ON reading(print);

CREATE TABLE sign (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    sign_kind TEXT,
    sign_strength TEXT,
    sign_station TEXT,
    sign_notes TEXT
) STRICT;
CREATE INDEX sign_of_print ON sign(print);

CREATE TABLE photo (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    print INTEGER NOT NULL REFERENCES print(id),
    photo_time TEXT,
    photo_stage TEXT,
    photo_name TEXT,
    photo_format TEXT,
    photo_width_px REAL,
    photo_height_px REAL,
    photo_bytes REAL,
    photo_sha256 TEXT
) STRICT;
CREATE INDEX photo_of_print ON photo(print);

-- The bytes of a photo as they came; apart, so that lists of photos stay small.
CREATE TABLE photo_data (
    photo INTEGER PRIMARY KEY REFERENCES photo(id),
    data BLOB NOT NULL
) STRICT;
CREATE TRIGGER photo_data_kept BEFORE DELETE ON photo_data BEGIN
    SELECT RAISE(ABORT, 'photos are never deleted');
END;
CREATE TRIGGER photo_data_same BEFORE UPDATE ON photo_data BEGIN
    SELECT RAISE(ABORT, 'photos are never changed');
END;
