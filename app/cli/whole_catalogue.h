// The catalogue as the program uses it: what is recorded, and what every room works out from it.
#pragma once

#include "core/quantity/catalogue.h"

namespace washfast {

/// standardCatalogue() with the derived fields of light, drying and chemistry.
[[nodiscard]] Catalogue wholeCatalogue();

} // namespace washfast
