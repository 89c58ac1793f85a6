// A row of steps (a wedge, a stepped strip) read in one go from its two ends: the steps between are of one width.
#pragma once

#include "core/density/sheet_picture.h"

namespace washfast::density {

struct WedgeEnds {
    Point start, end; // middles of the two outer edges, photo pixels
    double width = 0; // across, photo pixels
    int steps = 0; // 0: find out
};

/// How many steps the profile along the row has (2 to 41); nothing when no even row of edges stands out.
[[nodiscard]] std::optional<int> countSteps(const Photo& photo, const WedgeEnds& ends);

/// One region a step in order from the start, named "1", "2" ...; the outer fifth of each step is left out on every
/// side.
[[nodiscard]] Result<std::vector<Region>> wedgeRegions(const Photo& photo, const WedgeEnds& ends);

} // namespace washfast::density
