// What an exact or a permutation test returns, and how far it may enumerate.
#pragma once

#include <cstdint>

namespace washfast::stats {

struct TestResult {
    double p = 1.0; // two-sided unless the test says otherwise
    bool enumerated = true; // false: Monte Carlo, p = (as extreme + 1) / (draws + 1)
    std::uint64_t arrangements = 0; // how many were enumerated or drawn
};

struct PermutationOptions {
    std::uint64_t enumerate_up_to = 200'000; // arrangements; above this draws are made instead
    std::uint64_t draws = 9'999;
    std::uint64_t seed = 0x5EED'B10E;
    // Draws may stop when this many were as extreme, p = extreme / draws so far (Besag and Clifford, Biometrika 78
    // (1991) 301). Only tests that say so look at it; 0: never.
    std::uint64_t stop_at = 0;
};

} // namespace washfast::stats
