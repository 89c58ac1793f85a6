#include "core/stats/multiplicity.h"

#include <algorithm>
#include <numeric>

namespace washfast::stats {

std::vector<double> benjaminiHochberg(std::span<const double> p)
{
    std::vector<std::size_t> order(p.size());
    std::iota(order.begin(), order.end(), std::size_t { 0 });
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return p[a] < p[b]; });
    std::vector<double> adjusted(p.size());
    double smallest = 1.0;
    for (std::size_t rank = p.size(); rank-- > 0;) {
        smallest = std::min(smallest, p[order[rank]] * static_cast<double>(p.size()) / static_cast<double>(rank + 1));
        adjusted[order[rank]] = smallest;
    }
    return adjusted;
}

} // namespace washfast::stats
