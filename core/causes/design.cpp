#include "core/causes/design.h"

#include <algorithm>
#include <numeric>

namespace washfast::causes {

namespace {

void append(Design& design, const std::vector<double>& values, const QString& term)
{
    const auto rows = static_cast<Eigen::Index>(values.size());
    design.columns.conservativeResize(rows, design.columns.cols() + 1);
    design.columns.rightCols(1) = Eigen::Map<const stats::Vector>(values.data(), rows);
    design.terms.append(term);
}

void addLevels(Design& design, const Column& column, const std::vector<std::size_t>& rows)
{
    bool first = true;
    for (std::size_t l = 0; l < column.level_names.size(); ++l) {
        std::vector<double> values;
        for (const std::size_t row : rows)
            values.push_back(column.level[row] == static_cast<int>(l) ? 1.0 : 0.0);
        if (std::accumulate(values.begin(), values.end(), 0.0) == 0.0)
            continue;
        if (!std::exchange(first, false))
            append(design, values, column.factor->name + QLatin1Char('=') + column.level_names[l]);
    }
}

/// 1 above the cut that puts most of the outcome's spread between its two sides, each of at least two prints.
std::optional<std::vector<double>> bestStep(const std::vector<double>& x, const std::vector<double>& outcome)
{
    const std::size_t n = x.size();
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t { 0 });
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return x[a] < x[b]; });
    const double mean = std::accumulate(outcome.begin(), outcome.end(), 0.0) / static_cast<double>(n);
    double sum = 0.0;
    double best = 0.0;
    std::optional<double> cut;
    for (std::size_t i = 0; i + 2 < n; ++i) {
        sum += outcome[order[i]] - mean;
        if (i < 1 || x[order[i]] == x[order[i + 1]])
            continue;
        const auto below = static_cast<double>(i + 1);
        const double between = sum * sum / below + sum * sum / (static_cast<double>(n) - below);
        if (between > best) {
            best = between;
            cut = x[order[i]];
        }
    }
    if (!cut)
        return std::nullopt;
    std::vector<double> step;
    for (const double value : x)
        step.push_back(value > *cut ? 1.0 : 0.0);
    return step;
}

} // namespace

void addColumns(Design& design, const Column& column, const std::vector<std::size_t>& rows)
{
    if (column.isChoice())
        addLevels(design, column, rows);
    else
        append(design, picked(column.value, rows), column.factor->name);
}

void addAsRival(Design& design, const Prepared& prepared, const Column& column, const std::vector<std::size_t>& rows)
{
    if (column.hasLevels()) {
        addLevels(design, column, rows);
        return;
    }
    const std::vector<double> x = picked(column.value, rows);
    append(design, x, column.factor->name);
    if (const auto step = bestStep(x, picked(prepared.outcome, rows)))
        append(design, *step, column.factor->name + QStringLiteral(" step"));
}

stats::Vector outcomeOf(const Prepared& prepared, const std::vector<std::size_t>& rows)
{
    stats::Vector out(static_cast<Eigen::Index>(rows.size()));
    for (std::size_t i = 0; i < rows.size(); ++i)
        out(static_cast<Eigen::Index>(i)) = prepared.outcome[rows[i]];
    return out;
}

} // namespace washfast::causes
