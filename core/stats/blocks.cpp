#include "core/stats/blocks.h"

#include <map>
#include <numeric>

namespace washfast::stats {

std::vector<std::vector<std::size_t>> membersOf(std::span<const int> block, std::size_t count)
{
    if (block.empty()) {
        std::vector<std::size_t> all(count);
        std::iota(all.begin(), all.end(), std::size_t { 0 });
        return { all };
    }
    std::map<int, std::vector<std::size_t>> by_number;
    for (std::size_t i = 0; i < count; ++i)
        by_number[block[i]].push_back(i);
    std::vector<std::vector<std::size_t>> out;
    for (auto& [number, members] : by_number)
        out.push_back(std::move(members));
    return out;
}

std::vector<double> centredWithin(std::span<const double> values, const std::vector<std::vector<std::size_t>>& blocks)
{
    std::vector<double> out(values.begin(), values.end());
    for (const auto& members : blocks) {
        double sum = 0.0;
        for (const std::size_t i : members)
            sum += values[i];
        for (const std::size_t i : members)
            out[i] -= sum / static_cast<double>(members.size());
    }
    return out;
}

} // namespace washfast::stats
