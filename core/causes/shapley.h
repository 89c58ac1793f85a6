// Shapley's value: a change that several things made together, shared out among them with no order preferred (Shapley,
// Contributions to the Theory of Games II, 1953). The shares add up to the whole.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

namespace washfast::causes {

/// `value`: what comes out when the things whose bits are set are in place. At most 20 things.
[[nodiscard]] std::vector<double> shapleyShares(int count, const std::function<double(std::uint32_t)>& value);

} // namespace washfast::causes
