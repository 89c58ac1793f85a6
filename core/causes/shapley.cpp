#include "core/causes/shapley.h"

#include <bit>

namespace washfast::causes {

std::vector<double> shapleyShares(int count, const std::function<double(std::uint32_t)>& value)
{
    const std::uint32_t all = std::uint32_t { 1 } << static_cast<unsigned>(count);
    std::vector<double> values;
    for (std::uint32_t set = 0; set < all; ++set)
        values.push_back(value(set));
    // Weight of a set of k things: k! (count - k - 1)! / count!
    std::vector<double> weight(static_cast<std::size_t>(count), 0.0);
    double chosen = 1.0; // ways to choose k out of count - 1
    for (int k = 0; k < count; ++k) {
        weight[static_cast<std::size_t>(k)] = 1.0 / (static_cast<double>(count) * chosen);
        chosen *= static_cast<double>(count - 1 - k) / static_cast<double>(k + 1);
    }
    std::vector<double> shares(static_cast<std::size_t>(count), 0.0);
    for (std::uint32_t set = 0; set < all; ++set)
        for (std::size_t i = 0; i < shares.size(); ++i) {
            const std::uint32_t bit = std::uint32_t { 1 } << i;
            if ((set & bit) == 0)
                shares[i] += weight[static_cast<std::size_t>(std::popcount(set))] * (values[set | bit] - values[set]);
        }
    return shares;
}

} // namespace washfast::causes
