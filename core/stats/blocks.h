// Items grouped by block, in the order of the block numbers. Values are exchanged within a block only.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace washfast::stats {

/// The positions 0 .. count-1 by block. `block` holds one number an item; empty means one block of all.
[[nodiscard]] std::vector<std::vector<std::size_t>> membersOf(std::span<const int> block, std::size_t count);

/// The values with each block's own mean taken away.
[[nodiscard]] std::vector<double> centredWithin(
    std::span<const double> values, const std::vector<std::vector<std::size_t>>& blocks);

} // namespace washfast::stats
