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

} // namespace washfast::fields
