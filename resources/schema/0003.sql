-- Schema 3: lamps, cards with patches of known density, the ingredients of own formulas, what was marked in a photo, and
-- how a reading or a sign came about.

CREATE TABLE formula_part (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    formula INTEGER NOT NULL REFERENCES formula(id),
    ingredient_position REAL,
    ingredient_substance TEXT,
    ingredient_g REAL,
    ingredient_solution TEXT,
    ingredient_note TEXT
) STRICT;
CREATE INDEX formula_part_of_formula ON formula_part(formula);
ALTER TABLE formula ADD COLUMN formula_volume_ml REAL;
ALTER TABLE formula ADD COLUMN formula_steps TEXT;
ALTER TABLE formula ADD COLUMN formula_absorbance_365 REAL;
ALTER TABLE formula ADD COLUMN formula_absorbance_tail_nm REAL;

CREATE TABLE lamp (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    lamp_name TEXT,
    lamp_kind TEXT,
    lamp_spectrum TEXT,
    lamp_uva_w_m2 REAL,
    lamp_measured_at_cm REAL,
    lamp_notes TEXT,
    lamp_retired INTEGER CHECK (lamp_retired IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX lamp_named_once ON lamp(lamp_name COLLATE NOCASE) WHERE removed = 0;
ALTER TABLE exposure ADD COLUMN expose_lamp INTEGER REFERENCES lamp(id);
ALTER TABLE exposure ADD COLUMN expose_lamp_distance_cm REAL;

CREATE TABLE card (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    card_name TEXT,
    card_known_by TEXT,
    card_known_on TEXT,
    card_notes TEXT,
    card_retired INTEGER CHECK (card_retired IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX card_named_once ON card(card_name COLLATE NOCASE) WHERE removed = 0;

CREATE TABLE card_patch (
    id INTEGER PRIMARY KEY,
    uuid TEXT NOT NULL UNIQUE,
    removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
    not_measured TEXT CHECK (not_measured IS NULL OR json_valid(not_measured)),
    card INTEGER NOT NULL REFERENCES card(id),
    patch_position REAL,
    patch_density REAL,
    patch_red REAL,
    patch_green REAL,
    patch_blue REAL
) STRICT;
CREATE INDEX card_patch_of_card ON card_patch(card);

ALTER TABLE negative_step ADD COLUMN step_value REAL;

ALTER TABLE photo ADD COLUMN photo_marks TEXT;
ALTER TABLE photo ADD COLUMN photo_card INTEGER REFERENCES card(id);

ALTER TABLE reading ADD COLUMN reading_photo INTEGER REFERENCES photo(id);

ALTER TABLE sign ADD COLUMN sign_found TEXT;
ALTER TABLE sign ADD COLUMN sign_measure REAL;
ALTER TABLE sign ADD COLUMN sign_spacing_mm REAL;
ALTER TABLE sign ADD COLUMN sign_direction_deg REAL;
ALTER TABLE sign ADD COLUMN sign_photo INTEGER REFERENCES photo(id);
