// The tables of fields that make up the standard catalogue, one function a subject.
#pragma once

#include "core/quantity/catalogue.h"

namespace washfast::fields {

void addRoutes(Catalogue& catalogue); // how the columns of other tables become fields of a print
void addPlaces(Catalogue& catalogue); // site, term, session
void addMaterials(Catalogue& catalogue); // chemicals, formulas, mixes, papers, covers, negatives
void addPrint(Catalogue& catalogue); // the print itself; coat, dry, hold
void addLight(Catalogue& catalogue); // exposure and light readings
void addRinse(Catalogue& catalogue); // baths, weighings, touch
void addReadings(Catalogue& catalogue); // density readings, signs, photos
void addDerived(Catalogue& catalogue); // what is worked out

/// Of several readings of one spot the one that counts: red before other channels (so that both tones are of one
/// channel), a measured density before an estimate or an assumption, the better instrument; the later one of equals.
[[nodiscard]] const std::vector<Preference>& countedReading();

} // namespace washfast::fields
