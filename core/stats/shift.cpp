#include "core/stats/shift.h"

#include "core/stats/counting.h"
#include "core/stats/ranks.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace washfast::stats {

namespace {

// Above this many pairs the count's distribution is taken as normal.
constexpr std::size_t most_pairs_exact = 4'000;

/// How many pairs may be cut at each end: the largest c with P(U <= c - 1) <= tail. Sets the tail really reached.
std::size_t cutExact(const Discrete& distribution, double tail, double& reached)
{
    std::size_t cut = 0;
    double sum = 0.0;
    reached = 0.0;
    while (cut < distribution.p.size() && sum + distribution.p[cut] <= tail * (1.0 + 1e-12)) {
        sum += distribution.p[cut];
        reached = sum;
        ++cut;
    }
    return cut;
}

} // namespace

std::vector<double> mannWhitneyDistribution(int m, int n)
{
    // P(m, n, u) = m/(m+n) P(m-1, n, u-n) + n/(m+n) P(m, n-1, u): the largest value is in the first or second group.
    if (m == 0 || n == 0)
        return { 1.0 };
    std::vector<std::vector<double>> row(static_cast<std::size_t>(n) + 1, std::vector<double> { 1.0 });
    for (int i = 1; i <= m; ++i) {
        std::vector<double> left { 1.0 }; // P(i, 0, .)
        for (int j = 1; j <= n; ++j) {
            const std::vector<double>& above = row[static_cast<std::size_t>(j)]; // P(i-1, j, .)
            std::vector<double> here(static_cast<std::size_t>(i * j) + 1, 0.0);
            for (std::size_t u = 0; u < above.size(); ++u)
                here[u + static_cast<std::size_t>(j)] += above[u] * i / (i + j);
            for (std::size_t u = 0; u < left.size(); ++u)
                here[u] += left[u] * j / (i + j);
            row[static_cast<std::size_t>(j)] = here;
            left = std::move(here);
        }
    }
    return row[static_cast<std::size_t>(n)];
}

std::optional<Shift> hodgesLehmann(std::span<const ShiftStratum> strata, double confidence)
{
    std::vector<double> differences;
    for (const ShiftStratum& stratum : strata)
        for (const double a : stratum.first)
            for (const double b : stratum.second)
                differences.push_back(a - b);
    if (differences.empty())
        return std::nullopt;
    std::sort(differences.begin(), differences.end());

    Shift out;
    out.value = medianOfSorted(differences);
    const double tail = (1.0 - confidence) / 2.0;
    std::size_t cut = 0;
    double reached = 0.0;
    if (differences.size() <= most_pairs_exact) {
        Discrete distribution { 0, { 1.0 } };
        for (const ShiftStratum& stratum : strata)
            distribution = convolve(distribution,
                { 0,
                    mannWhitneyDistribution(
                        static_cast<int>(stratum.first.size()), static_cast<int>(stratum.second.size())) });
        cut = cutExact(distribution, tail, reached);
    } else {
        double variance = 0.0;
        for (const ShiftStratum& stratum : strata) {
            const auto m = static_cast<double>(stratum.first.size());
            const auto n = static_cast<double>(stratum.second.size());
            variance += m * n * (m + n + 1.0) / 12.0;
        }
        const double z = boost::math::quantile(boost::math::normal(), 1.0 - tail);
        const double at = static_cast<double>(differences.size()) / 2.0 - z * std::sqrt(variance);
        cut = at >= 1.0 ? static_cast<std::size_t>(at) : 0;
        reached = tail;
        out.exact = false;
    }
    if (cut >= 1) {
        out.low = differences[cut - 1];
        out.high = differences[differences.size() - cut];
        out.achieved_confidence = 1.0 - 2.0 * reached;
    }
    return out;
}

std::optional<Shift> hodgesLehmann(std::span<const double> first, std::span<const double> second, double confidence)
{
    const ShiftStratum stratum { { first.begin(), first.end() }, { second.begin(), second.end() } };
    return hodgesLehmann(std::span(&stratum, 1), confidence);
}

} // namespace washfast::stats
