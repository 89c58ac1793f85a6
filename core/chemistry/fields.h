// What this room works out from the record of one print, as fields of the catalogue.
#pragma once

#include "core/quantity/catalogue.h"

namespace washfast::chemistry {

/// Adds the derived print fields of this room; one that is there already under the same key is replaced.
void addFields(Catalogue& catalogue);

} // namespace washfast::chemistry
