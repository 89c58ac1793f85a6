#include "core/stats/permutation.h"

#include "core/stats/blocks.h"
#include "core/stats/counting.h"
#include "core/stats/draw.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <vector>

namespace washfast::stats {

namespace {

constexpr double equally_extreme = 1e-9;

using Blocks = std::vector<std::vector<std::size_t>>;

double absoluteSum(std::span<const double> values)
{
    return std::accumulate(
        values.begin(), values.end(), 0.0, [](double sum, double value) { return sum + std::fabs(value); });
}

TestResult drawn(std::uint64_t extreme, std::uint64_t draws)
{
    return { static_cast<double>(extreme + 1) / static_cast<double>(draws + 1), false, draws };
}

TestResult enumerated(std::uint64_t extreme, std::uint64_t all)
{
    return { static_cast<double>(extreme) / static_cast<double>(all), true, all };
}

/// A block of the two-group test: its centred values, and how many of them the smaller side takes.
struct Side {
    std::vector<double> values; // sorted
    std::size_t takes = 0;
    double sign = 1.0; // -1 when the smaller side is group 0
};

void subsetSums(std::span<const double> values, std::size_t takes, double sum, std::vector<double>& out)
{
    if (takes == 0) {
        out.push_back(sum);
        return;
    }
    for (std::size_t i = 0; i + takes <= values.size(); ++i)
        subsetSums(values.subspan(i + 1), takes - 1, sum + values[i], out);
}

std::vector<double> allSums(const std::vector<Side>& sides)
{
    std::vector<double> totals { 0.0 };
    for (const Side& side : sides) {
        std::vector<double> here;
        subsetSums(side.values, side.takes, 0.0, here);
        std::vector<double> next;
        next.reserve(totals.size() * here.size());
        for (const double total : totals)
            for (const double sum : here)
                next.push_back(total + side.sign * sum);
        totals = std::move(next);
    }
    return totals;
}

/// Number of different orders of the values, equal values being the same.
double distinctArrangements(std::span<const double> values)
{
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    double ways = 1.0;
    int left = static_cast<int>(sorted.size());
    for (auto from = sorted.begin(); from != sorted.end();) {
        const auto to = std::upper_bound(from, sorted.end(), *from);
        ways *= waysToChoose(left, static_cast<int>(to - from));
        left -= static_cast<int>(to - from);
        from = to;
    }
    return ways;
}

/// Counts the arrangements of y within the blocks, all of them or random ones, that `extreme` says are extreme.
TestResult arrange(std::vector<double> y, const std::vector<std::size_t>& block_sizes,
    const PermutationOptions& options, const std::function<bool(std::span<const double>)>& extreme)
{
    double all = 1.0;
    std::vector<std::span<double>> parts;
    std::size_t start = 0;
    for (const std::size_t size : block_sizes) {
        parts.emplace_back(y.data() + start, size);
        all *= distinctArrangements(parts.back());
        start += size;
    }
    std::uint64_t count = 0;
    if (all > static_cast<double>(options.enumerate_up_to)) {
        Draw draw(options.seed);
        for (std::uint64_t i = 0; i < options.draws; ++i) {
            for (const std::span<double> part : parts)
                draw.shuffleFront(part, part.size());
            count += extreme(y) ? 1U : 0U;
        }
        return drawn(count, options.draws);
    }
    // An odometer of permutations; equal values are met once only, each in the same proportion.
    for (const std::span<double> part : parts)
        std::sort(part.begin(), part.end());
    std::uint64_t seen = 0;
    for (bool more = true; more;) {
        ++seen;
        count += extreme(y) ? 1U : 0U;
        more = false;
        for (const std::span<double> part : parts) {
            if (std::next_permutation(part.begin(), part.end())) {
                more = true;
                break;
            }
        }
    }
    return enumerated(count, seen);
}

/// Items in the order of block, then of their values, so that the draws do not depend on the order they came in.
std::vector<std::size_t> canonicalOrder(
    const Blocks& blocks, const std::function<bool(std::size_t, std::size_t)>& before)
{
    std::vector<std::size_t> order;
    for (std::vector<std::size_t> members : blocks) {
        std::sort(members.begin(), members.end(), before);
        order.insert(order.end(), members.begin(), members.end());
    }
    return order;
}

std::vector<std::size_t> sizesOf(const Blocks& blocks)
{
    std::vector<std::size_t> sizes;
    for (const auto& members : blocks)
        sizes.push_back(members.size());
    return sizes;
}

} // namespace

TestResult differenceOfMeansTest(std::span<const double> values, std::span<const int> group, std::span<const int> block,
    const PermutationOptions& options)
{
    const Blocks blocks = membersOf(block, values.size());
    const std::vector<double> centred = centredWithin(values, blocks);
    std::vector<Side> sides;
    double observed = 0.0;
    double arrangements = 1.0;
    double scale = 0.0;
    for (const auto& members : blocks) {
        Side side;
        std::size_t ones = 0;
        double sum = 0.0;
        for (const std::size_t i : members) {
            side.values.push_back(centred[i]);
            if (group[i] == 1) {
                ++ones;
                sum += centred[i];
            }
        }
        if (ones == 0 || ones == members.size())
            continue;
        std::sort(side.values.begin(), side.values.end());
        side.takes = std::min(ones, members.size() - ones);
        side.sign = side.takes == ones ? 1.0 : -1.0;
        observed += sum;
        scale += absoluteSum(side.values);
        arrangements *= waysToChoose(static_cast<int>(members.size()), static_cast<int>(side.takes));
        sides.push_back(std::move(side));
    }
    const double spread = absoluteSum(values);
    if (sides.empty() || scale <= 1e-12 * spread)
        return { 1.0, true, 1 };
    const double limit = std::fabs(observed) - equally_extreme * scale;

    std::uint64_t extreme = 0;
    if (arrangements <= static_cast<double>(options.enumerate_up_to)) {
        const std::vector<double> totals = allSums(sides);
        for (const double total : totals)
            extreme += std::fabs(total) >= limit ? 1U : 0U;
        return enumerated(extreme, totals.size());
    }
    Draw draw(options.seed);
    for (std::uint64_t i = 0; i < options.draws; ++i) {
        double total = 0.0;
        for (Side& side : sides) {
            draw.shuffleFront(std::span(side.values), side.takes);
            double sum = 0.0;
            for (std::size_t k = 0; k < side.takes; ++k)
                sum += side.values[k];
            total += side.sign * sum;
        }
        extreme += std::fabs(total) >= limit ? 1U : 0U;
    }
    return drawn(extreme, options.draws);
}

TestResult signFlipTest(std::span<const double> differences, const PermutationOptions& options)
{
    std::vector<double> sizes;
    double observed = 0.0;
    for (const double difference : differences) {
        observed += difference;
        if (difference != 0.0)
            sizes.push_back(std::fabs(difference));
    }
    if (sizes.empty())
        return { 1.0, true, 1 };
    std::sort(sizes.begin(), sizes.end());
    const double limit = std::fabs(observed) - equally_extreme * absoluteSum(sizes);
    std::uint64_t extreme = 0;
    if (std::ldexp(1.0, static_cast<int>(sizes.size())) <= static_cast<double>(options.enumerate_up_to)) {
        const std::uint64_t all = std::uint64_t { 1 } << sizes.size();
        for (std::uint64_t signs = 0; signs < all; ++signs) {
            double total = 0.0;
            for (std::size_t i = 0; i < sizes.size(); ++i)
                total += ((signs >> i) & 1U) != 0 ? sizes[i] : -sizes[i];
            extreme += std::fabs(total) >= limit ? 1U : 0U;
        }
        return enumerated(extreme, all);
    }
    Draw draw(options.seed);
    for (std::uint64_t i = 0; i < options.draws; ++i) {
        double total = 0.0;
        for (const double size : sizes)
            total += draw.below(2) == 1 ? size : -size;
        extreme += std::fabs(total) >= limit ? 1U : 0U;
    }
    return drawn(extreme, options.draws);
}

TestResult correlationTest(
    std::span<const double> x, std::span<const double> y, std::span<const int> block, const PermutationOptions& options)
{
    const Blocks blocks = membersOf(block, x.size());
    const std::vector<double> x_centred = centredWithin(x, blocks);
    const std::vector<double> y_centred = centredWithin(y, blocks);
    const double scale_x = absoluteSum(x_centred);
    const double scale_y = absoluteSum(y_centred);
    if (scale_x <= 1e-12 * absoluteSum(x) || scale_y <= 1e-12 * absoluteSum(y))
        return { 1.0, true, 1 };
    const std::vector<std::size_t> order = canonicalOrder(
        blocks, [&](std::size_t a, std::size_t b) { return x[a] != x[b] ? x[a] < x[b] : y[a] < y[b]; });
    std::vector<double> fixed;
    std::vector<double> moving;
    for (const std::size_t i : order) {
        fixed.push_back(x_centred[i]);
        moving.push_back(y_centred[i]);
    }
    const double observed = std::inner_product(fixed.begin(), fixed.end(), moving.begin(), 0.0);
    const double limit = std::fabs(observed) - equally_extreme * scale_x * scale_y / static_cast<double>(x.size());
    return arrange(moving, sizesOf(blocks), options, [&](std::span<const double> arranged) {
        return std::fabs(std::inner_product(fixed.begin(), fixed.end(), arranged.begin(), 0.0)) >= limit;
    });
}

TestResult groupMeansTest(std::span<const double> values, std::span<const int> group, std::span<const int> block,
    const PermutationOptions& options)
{
    const Blocks blocks = membersOf(block, values.size());
    const std::vector<double> centred = centredWithin(values, blocks);
    if (absoluteSum(centred) <= 1e-12 * absoluteSum(values))
        return { 1.0, true, 1 };
    const std::vector<std::size_t> order = canonicalOrder(blocks, [&](std::size_t a, std::size_t b) {
        return group[a] != group[b] ? group[a] < group[b] : values[a] < values[b];
    });
    std::vector<std::size_t> level;
    std::vector<double> moving;
    std::vector<double> size;
    for (const std::size_t i : order) {
        level.push_back(static_cast<std::size_t>(group[i]));
        moving.push_back(centred[i]);
        if (size.size() <= level.back())
            size.resize(level.back() + 1, 0.0);
        size[level.back()] += 1.0;
    }
    std::vector<double> sums(size.size());
    const auto between = [&](std::span<const double> arranged) {
        std::fill(sums.begin(), sums.end(), 0.0);
        for (std::size_t i = 0; i < arranged.size(); ++i)
            sums[level[i]] += arranged[i];
        double total = 0.0;
        for (std::size_t g = 0; g < sums.size(); ++g)
            total += size[g] > 0.0 ? sums[g] * sums[g] / size[g] : 0.0;
        return total;
    };
    const double all = std::inner_product(moving.begin(), moving.end(), moving.begin(), 0.0);
    const double limit = between(moving) - equally_extreme * all;
    return arrange(
        moving, sizesOf(blocks), options, [&](std::span<const double> arranged) { return between(arranged) >= limit; });
}

} // namespace washfast::stats
