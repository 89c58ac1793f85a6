#include "core/stats/association.h"

#include "core/stats/ranks.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace washfast::stats {

namespace {

double meanOf(std::span<const double> values)
{
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

std::size_t levelsOf(std::span<const int> choice)
{
    return choice.empty() ? 0 : static_cast<std::size_t>(*std::max_element(choice.begin(), choice.end())) + 1;
}

double occupied(const std::vector<double>& counts)
{
    return static_cast<double>(std::count_if(counts.begin(), counts.end(), [](double count) { return count > 0.0; }));
}

} // namespace

std::optional<double> pearson(std::span<const double> x, std::span<const double> y)
{
    if (x.size() < 2)
        return std::nullopt;
    const double mean_x = meanOf(x);
    const double mean_y = meanOf(y);
    double xx = 0.0, yy = 0.0, xy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        yy += (y[i] - mean_y) * (y[i] - mean_y);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    const double count = static_cast<double>(x.size());
    if (xx <= 1e-24 * mean_x * mean_x * count || yy <= 1e-24 * mean_y * mean_y * count)
        return std::nullopt;
    return std::clamp(xy / std::sqrt(xx * yy), -1.0, 1.0);
}

std::optional<double> spearman(std::span<const double> x, std::span<const double> y)
{
    return pearson(midranks(x), midranks(y));
}

std::optional<ChoiceAssociation> cramersV(std::span<const int> a, std::span<const int> b)
{
    const std::size_t rows = levelsOf(a);
    const std::size_t columns = levelsOf(b);
    const auto n = static_cast<double>(a.size());
    std::vector<double> cell(rows * columns, 0.0), row(rows, 0.0), column(columns, 0.0);
    for (std::size_t i = 0; i < a.size(); ++i) {
        const auto r = static_cast<std::size_t>(a[i]);
        const auto c = static_cast<std::size_t>(b[i]);
        cell[r * columns + c] += 1.0;
        row[r] += 1.0;
        column[c] += 1.0;
    }
    const double k = occupied(row);
    const double l = occupied(column);
    if (k < 2.0 || l < 2.0)
        return std::nullopt;
    double phi2 = -1.0;
    for (std::size_t r = 0; r < rows; ++r)
        for (std::size_t c = 0; c < columns; ++c)
            if (row[r] > 0.0 && column[c] > 0.0)
                phi2 += cell[r * columns + c] * cell[r * columns + c] / (row[r] * column[c]);
    phi2 = std::max(phi2, 0.0);
    ChoiceAssociation out;
    out.plain = std::min(1.0, std::sqrt(phi2 / (std::min(k, l) - 1.0)));
    const double phi2_less = std::max(0.0, phi2 - (k - 1.0) * (l - 1.0) / (n - 1.0));
    const double k_less = k - (k - 1.0) * (k - 1.0) / (n - 1.0);
    const double l_less = l - (l - 1.0) * (l - 1.0) / (n - 1.0);
    const double room = std::min(k_less, l_less) - 1.0;
    out.corrected = room > 1e-12 ? std::min(1.0, std::sqrt(phi2_less / room)) : 0.0;
    return out;
}

std::optional<ChoiceAssociation> correlationRatio(std::span<const int> choice, std::span<const double> values)
{
    if (values.size() < 2)
        return std::nullopt;
    std::vector<double> sum(levelsOf(choice), 0.0), count(sum.size(), 0.0);
    const double mean = meanOf(values);
    double total = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const auto level = static_cast<std::size_t>(choice[i]);
        sum[level] += values[i] - mean;
        count[level] += 1.0;
        total += (values[i] - mean) * (values[i] - mean);
    }
    const double k = occupied(count);
    const auto n = static_cast<double>(values.size());
    if (k < 2.0 || total <= 1e-24 * mean * mean * n)
        return std::nullopt;
    double between = 0.0;
    for (std::size_t level = 0; level < sum.size(); ++level)
        between += count[level] > 0.0 ? sum[level] * sum[level] / count[level] : 0.0;
    const double eta2 = std::clamp(between / total, 0.0, 1.0);
    ChoiceAssociation out;
    out.plain = std::sqrt(eta2);
    out.corrected = n > k ? std::sqrt(std::max(0.0, 1.0 - (1.0 - eta2) * (n - 1.0) / (n - k))) : 0.0;
    return out;
}

int printsThatDisagree(std::span<const int> a, std::span<const int> b)
{
    int differ = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        differ += a[i] != b[i] ? 1 : 0;
    return std::min(differ, static_cast<int>(a.size()) - differ);
}

std::optional<Cut> bestCut(std::span<const double> x, std::span<const int> level)
{
    std::vector<std::size_t> order(x.size());
    std::iota(order.begin(), order.end(), std::size_t { 0 });
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return x[a] < x[b]; });
    const int ones = static_cast<int>(std::count(level.begin(), level.end(), 1));
    const int all = static_cast<int>(x.size());
    std::optional<Cut> best;
    int ones_below = 0;
    for (std::size_t i = 0; i + 1 < order.size(); ++i) {
        ones_below += level[order[i]];
        if (x[order[i]] == x[order[i + 1]])
            continue;
        const int below = static_cast<int>(i) + 1;
        // Above the cut called 1: wrong are the ones below it and the zeros above it.
        const int wrong = ones_below + (all - below) - (ones - ones_below);
        const bool above = wrong <= all - wrong;
        const int disagree = above ? wrong : all - wrong;
        if (!best || disagree < best->disagree)
            best = Cut { (x[order[i]] + x[order[i + 1]]) / 2.0, above, disagree };
    }
    return best;
}

} // namespace washfast::stats
