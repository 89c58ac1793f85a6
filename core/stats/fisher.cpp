#include "core/stats/fisher.h"

#include "core/stats/counting.h"
#include "core/stats/draw.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace washfast::stats {

namespace {

constexpr double equally_likely = 1.0 + 1e-7;

FisherResult fromDistribution(const Discrete& distribution, int observed)
{
    const auto at = static_cast<std::size_t>(observed - distribution.low);
    const double limit = distribution.p[at] * equally_likely;
    FisherResult result { 0.0, 0.0, 0.0 };
    for (std::size_t i = 0; i < distribution.p.size(); ++i) {
        const double p = distribution.p[i];
        if (p <= limit)
            result.two_sided += p;
        if (i >= at)
            result.greater += p;
        if (i <= at)
            result.less += p;
    }
    return { std::min(result.two_sided, 1.0), std::min(result.greater, 1.0), std::min(result.less, 1.0) };
}

/// Walks all k x 2 tables with the given row totals and number failed.
class TableWalk {
public:
    TableWalk(const std::vector<int>& row_totals, int failed)
        : rows_(row_totals)
        , failed_(failed)
        , after_(row_totals.size() + 1, 0)
        , logs_(std::accumulate(row_totals.begin(), row_totals.end(), 0))
    {
        for (std::size_t i = rows_.size(); i-- > 0;)
            after_[i] = after_[i + 1] + rows_[i];
        all_ = logs_.choose(after_[0], failed_);
    }

    [[nodiscard]] double logProbability(std::span<const FailedKept> table) const
    {
        double sum = -all_;
        for (const FailedKept& row : table)
            sum += logs_.choose(row.failed + row.kept, row.failed);
        return sum;
    }

    void sumUpTo(double log_limit)
    {
        log_limit_ = log_limit;
        walk(0, failed_, -all_);
    }

    double p = 0.0;
    std::uint64_t tables = 0;

private:
    void walk(std::size_t row, int left, double log_p)
    {
        const int low = std::max(0, left - after_[row + 1]);
        const int high = std::min(left, rows_[row]);
        for (int f = low; f <= high; ++f) {
            const double here = log_p + logs_.choose(rows_[row], f);
            if (row + 1 < rows_.size()) {
                walk(row + 1, left - f, here);
                continue;
            }
            ++tables;
            if (here <= log_limit_)
                p += std::exp(here);
        }
    }

    std::vector<int> rows_;
    int failed_;
    std::vector<int> after_;
    LogFactorials logs_;
    double all_ = 0.0;
    double log_limit_ = 0.0;
};

TestResult drawTables(const std::vector<int>& row_totals, const TableWalk& walk, int failed, double log_limit,
    const PermutationOptions& options)
{
    std::vector<int> row_of;
    for (std::size_t r = 0; r < row_totals.size(); ++r)
        row_of.insert(row_of.end(), static_cast<std::size_t>(row_totals[r]), static_cast<int>(r));
    Draw draw(options.seed);
    std::vector<FailedKept> table(row_totals.size());
    std::uint64_t extreme = 0;
    for (std::uint64_t i = 0; i < options.draws; ++i) {
        draw.shuffleFront(std::span(row_of), static_cast<std::size_t>(failed));
        for (std::size_t r = 0; r < table.size(); ++r)
            table[r] = { 0, row_totals[r] };
        for (int k = 0; k < failed; ++k) {
            FailedKept& row = table[static_cast<std::size_t>(row_of[static_cast<std::size_t>(k)])];
            ++row.failed;
            --row.kept;
        }
        extreme += walk.logProbability(table) <= log_limit ? 1U : 0U;
    }
    return { static_cast<double>(extreme + 1) / static_cast<double>(options.draws + 1), false, options.draws };
}

} // namespace

FisherResult fisher(const TwoByTwo& table)
{
    return stratifiedExact(std::span(&table, 1));
}

FisherResult stratifiedExact(std::span<const TwoByTwo> strata)
{
    int largest = 0;
    for (const TwoByTwo& table : strata)
        largest = std::max(largest, table.total());
    const LogFactorials logs(largest);
    Discrete distribution { 0, { 1.0 } };
    int observed = 0;
    for (const TwoByTwo& table : strata) {
        observed += table.with_failed;
        distribution = convolve(distribution, hypergeometric(logs, table.total(), table.failed(), table.with()));
    }
    return fromDistribution(distribution, observed);
}

TestResult freemanHalton(std::span<const FailedKept> rows, const PermutationOptions& options, std::uint64_t most_tables)
{
    std::vector<FailedKept> table;
    std::copy_if(rows.begin(), rows.end(), std::back_inserter(table),
        [](const FailedKept& row) { return row.failed + row.kept > 0; });
    std::sort(table.begin(), table.end(), [](const FailedKept& a, const FailedKept& b) {
        return a.failed + a.kept != b.failed + b.kept ? a.failed + a.kept > b.failed + b.kept : a.failed > b.failed;
    });
    if (table.size() < 2)
        return { 1.0, true, 1 };
    std::vector<int> totals;
    int failed = 0;
    double bound = 1.0;
    for (const FailedKept& row : table) {
        totals.push_back(row.failed + row.kept);
        failed += row.failed;
        bound *= totals.back() + 1;
    }
    // The last row follows from the others.
    bound /= totals.front() + 1;

    TableWalk walk(totals, failed);
    const double log_limit = walk.logProbability(table) + std::log(equally_likely);
    if (bound > static_cast<double>(most_tables))
        return drawTables(totals, walk, failed, log_limit, options);
    walk.sumUpTo(log_limit);
    return { std::min(walk.p, 1.0), true, walk.tables };
}

} // namespace washfast::stats
