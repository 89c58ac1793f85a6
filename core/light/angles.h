// Degrees, as sites and suns are written down, to radians.
#pragma once

#include <numbers>

namespace washfast::light {

inline constexpr double radians = std::numbers::pi / 180;

} // namespace washfast::light
