-- Schema 2: what the shelf needs. The amount left in a bottle is worked out from what was weighed out of it, so that a count has
-- to say when it was made; bottles, mixes, papers, covers and negatives that are used up stay on record as retired.

ALTER TABLE chemical ADD COLUMN chemical_form TEXT;
ALTER TABLE chemical ADD COLUMN chemical_bottle_g REAL;
ALTER TABLE chemical ADD COLUMN chemical_counted TEXT;
ALTER TABLE chemical ADD COLUMN chemical_low_g REAL;
ALTER TABLE chemical ADD COLUMN chemical_best_before TEXT;
ALTER TABLE chemical ADD COLUMN chemical_labelled INTEGER CHECK (chemical_labelled IN (0, 1));
ALTER TABLE chemical ADD COLUMN chemical_retired INTEGER CHECK (chemical_retired IN (0, 1));

ALTER TABLE formula ADD COLUMN formula_retired INTEGER CHECK (formula_retired IN (0, 1));

ALTER TABLE mix ADD COLUMN mix_left_ml REAL;
ALTER TABLE mix ADD COLUMN mix_left_seen TEXT;
ALTER TABLE mix ADD COLUMN mix_labelled INTEGER CHECK (mix_labelled IN (0, 1));
ALTER TABLE mix ADD COLUMN mix_retired INTEGER CHECK (mix_retired IN (0, 1));

ALTER TABLE paper ADD COLUMN paper_retired INTEGER CHECK (paper_retired IN (0, 1));

ALTER TABLE cover ADD COLUMN cover_spectrum TEXT;
ALTER TABLE cover ADD COLUMN cover_retired INTEGER CHECK (cover_retired IN (0, 1));

ALTER TABLE negative ADD COLUMN negative_retired INTEGER CHECK (negative_retired IN (0, 1));
