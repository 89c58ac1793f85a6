#include "core/stats/ranks.h"

#include <algorithm>
#include <numeric>

namespace washfast::stats {

std::vector<double> midranks(std::span<const double> values)
{
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t { 0 });
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    std::vector<double> ranks(values.size());
    for (std::size_t from = 0; from < order.size();) {
        std::size_t to = from + 1;
        while (to < order.size() && values[order[to]] == values[order[from]])
            ++to;
        for (std::size_t i = from; i < to; ++i)
            ranks[order[i]] = (static_cast<double>(from + to) + 1.0) / 2.0;
        from = to;
    }
    return ranks;
}

double medianOfSorted(std::span<const double> sorted)
{
    const std::size_t half = sorted.size() / 2;
    return sorted.size() % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2.0;
}

std::optional<double> median(std::span<const double> values)
{
    if (values.empty())
        return std::nullopt;
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    return medianOfSorted(sorted);
}

} // namespace washfast::stats
