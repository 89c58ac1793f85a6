// The moment that does not come: a sheet that will not be dry in this air.
#pragma once

#include <limits>

namespace washfast::drying {

inline constexpr double never = std::numeric_limits<double>::infinity();

} // namespace washfast::drying
