// What a field of the catalogue means in the search for causes: what can be chosen when a print is made, what can
// differ between the halves of one coated sheet. A column of a free table means nothing until somebody says which field
// it is.
#pragma once

#include "core/quantity/field.h"

namespace washfast::causes {

/// What the field says about itself, and for the rest: sessions, sites and terms are as they are; what is recorded is
/// set by hand and what is worked out follows from it; and from drying on, a sheet that is cut after coating can have
/// two values of whatever is not the weather.
[[nodiscard]] InCauses meaningOf(const Field& field);

/// The weather, the room and the people are as they are; all else can be chosen, or what it follows from. So can a
/// column of which nothing is known.
[[nodiscard]] bool canBeChosen(const InCauses& meaning);

/// Moisture, touch, dose: they follow from what is set (minutes, drying) and cannot be set themselves.
[[nodiscard]] bool isMeasuredOnly(const InCauses& meaning);

} // namespace washfast::causes
