#include "core/causes/together.h"

#include "core/causes/design.h"
#include "core/stats/association.h"
#include "core/stats/collinearity.h"
#include "core/stats/fisher.h"
#include "core/stats/partial.h"
#include "core/stats/permutation.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::causes {

namespace {

using Rows = std::vector<std::size_t>;

// Fewer disagreeing prints than this cannot tell two factors apart: one of them may be a slip of the pen.
constexpr int enough_to_disagree = 3;
// A pair of two levels that agrees less than this is not tied, however few prints disagree (both may be rare).
constexpr double tied_levels = 0.6 - 1e-9;
// The same for a number, whose cut is chosen to fit.
constexpr double tied_cut = 0.75 - 1e-9;
constexpr double same = 0.999;
constexpr int fewest_both = 4;
constexpr std::size_t fewest_to_follow = 8;
constexpr std::size_t fewest_levels_as_units = 6;

double phi(const std::vector<int>& a, const std::vector<int>& b)
{
    const auto v = stats::cramersV(a, b);
    return v ? v->plain : 0.0;
}

void lookForDisagreement(const Column& a, const std::vector<int>& level_b, const Rows& rows, Tie& tie)
{
    if (a.hasTwoLevels()) {
        const std::vector<int> level_a = picked(a.level, rows);
        tie.disagree = stats::printsThatDisagree(level_a, level_b);
        tie.cannot_be_told_apart = *tie.disagree < enough_to_disagree && phi(level_a, level_b) >= tied_levels;
        return;
    }
    if (!a.isNumber())
        return;
    const std::vector<double> x = picked(a.value, rows);
    const auto cut = stats::bestCut(x, level_b);
    if (!cut)
        return;
    std::vector<int> above;
    for (const double value : x)
        above.push_back(value > cut->at ? 1 : 0);
    tie.disagree = cut->disagree;
    tie.cannot_be_told_apart = cut->disagree < enough_to_disagree && phi(above, level_b) >= tied_cut;
}

} // namespace

std::optional<Tie> tieOf(const Prepared& prepared, std::size_t first, std::size_t second)
{
    const Column& a = prepared.columns[first];
    const Column& b = prepared.columns[second];
    const Rows rows = prepared.complete({ first, second });
    if (static_cast<int>(rows.size()) < fewest_both)
        return std::nullopt;
    Tie tie;
    tie.n_both = static_cast<int>(rows.size());
    if (!a.isChoice() && !b.isChoice()) {
        const std::vector<double> x = picked(a.value, rows);
        const std::vector<double> y = picked(b.value, rows);
        const auto straight = stats::pearson(x, y);
        const auto ranked = stats::spearman(x, y);
        if (!straight || !ranked)
            return std::nullopt;
        tie.association = std::max(std::fabs(*straight), std::fabs(*ranked));
        tie.corrected = tie.association;
    } else {
        const auto measure = a.isChoice() && b.isChoice()
            ? stats::cramersV(picked(a.level, rows), picked(b.level, rows))
            : (a.isChoice() ? stats::correlationRatio(picked(a.level, rows), picked(b.value, rows))
                            : stats::correlationRatio(picked(b.level, rows), picked(a.value, rows)));
        if (!measure)
            return std::nullopt;
        tie.association = measure->plain;
        tie.corrected = measure->corrected;
    }
    if (b.hasTwoLevels())
        lookForDisagreement(a, picked(b.level, rows), rows, tie);
    else if (a.hasTwoLevels())
        lookForDisagreement(b, picked(a.level, rows), rows, tie);
    if (tie.association >= same && tie.corrected >= same)
        tie.cannot_be_told_apart = true;
    return tie;
}

double pHeldEqual(const Prepared& prepared, std::size_t factor, const std::vector<std::size_t>& rivals,
    const std::vector<std::size_t>& also_known, const Options& options)
{
    std::vector<std::size_t> all = rivals;
    all.insert(all.end(), also_known.begin(), also_known.end());
    all.push_back(factor);
    const Rows rows = prepared.complete(all);
    const Column& column = prepared.columns[factor];
    const bool discrete = std::all_of(
        rivals.begin(), rivals.end(), [&](std::size_t rival) { return prepared.columns[rival].hasLevels(); });
    if (prepared.yesNo() && column.hasTwoLevels() && discrete) {
        std::map<std::vector<int>, stats::TwoByTwo> strata;
        for (const std::size_t row : rows) {
            std::vector<int> key { prepared.block.empty() ? 0 : prepared.block[row] };
            for (const std::size_t rival : rivals)
                key.push_back(prepared.columns[rival].level[row]);
            stats::TwoByTwo& table = strata[key];
            const bool bad = prepared.failed[row] == 1;
            if (column.level[row] == 1)
                ++(bad ? table.with_failed : table.with_kept);
            else
                ++(bad ? table.without_failed : table.without_kept);
        }
        std::vector<stats::TwoByTwo> tables;
        for (const auto& [key, table] : strata)
            tables.push_back(table);
        return stats::stratifiedExact(tables).two_sided;
    }
    Design of_factor, of_rivals;
    addColumns(of_factor, column, rows);
    of_rivals.columns.resize(static_cast<Eigen::Index>(rows.size()), 0);
    for (const std::size_t rival : rivals)
        addAsRival(of_rivals, prepared, prepared.columns[rival], rows);
    stats::PermutationOptions draws = permutationOptions(options);
    draws.draws = std::min<std::uint64_t>(draws.draws, 1'999);
    draws.stop_at = 200; // p is 0.1 or more by then
    return stats::partialTest(
        of_factor.columns, of_rivals.columns, outcomeOf(prepared, rows), picked(prepared.block, rows), draws)
        .p;
}

std::optional<double> pBetweenLevels(
    const Prepared& prepared, std::size_t factor, std::size_t rival, const Options& options)
{
    const Column& levels = prepared.columns[rival];
    const Column& column = prepared.columns[factor];
    if (!levels.isChoice() || column.isChoice() || levels.level_names.size() < fewest_levels_as_units
        || !prepared.block.empty())
        return std::nullopt;
    struct Means {
        double count = 0.0, factor = 0.0, outcome = 0.0;
    };
    std::map<int, Means> means;
    for (const std::size_t row : prepared.complete({ factor, rival })) {
        Means& mean = means[levels.level[row]];
        mean.count += 1.0;
        mean.factor += column.value[row];
        mean.outcome += prepared.outcome[row];
    }
    if (means.size() < fewest_levels_as_units)
        return std::nullopt;
    std::vector<double> x, y;
    for (const auto& [level, mean] : means) {
        x.push_back(mean.factor / mean.count);
        y.push_back(mean.outcome / mean.count);
    }
    return stats::correlationTest(x, y, {}, permutationOptions(options)).p;
}

bool followsFrom(const Prepared& prepared, std::size_t factor, std::size_t first, std::size_t second)
{
    for (const std::size_t at : { factor, first, second })
        if (prepared.columns[at].isChoice() && !prepared.columns[at].hasTwoLevels())
            return false;
    const Rows rows = prepared.complete({ factor, first, second });
    if (rows.size() < fewest_to_follow)
        return false;
    const auto variesIn = [&](std::size_t at) {
        const Column& column = prepared.columns[at];
        return std::any_of(rows.begin(), rows.end(), [&](std::size_t row) {
            return column.isChoice() ? column.level[row] != column.level[rows.front()]
                                     : column.value[row] != column.value[rows.front()];
        });
    };
    if (!variesIn(factor) || !variesIn(first) || !variesIn(second))
        return false;
    Design two, three;
    for (Design* design : { &two, &three })
        for (const std::size_t at : { first, second })
            addColumns(*design, prepared.columns[at], rows);
    addColumns(three, prepared.columns[factor], rows);
    const auto rank
        = [](const stats::Matrix& columns) { return stats::rankOf(stats::withConstant(stats::centred(columns))); };
    return rank(three.columns) == rank(two.columns);
}

std::vector<std::optional<double>> inflation(const Prepared& prepared)
{
    std::vector<std::optional<double>> out(prepared.columns.size());
    std::vector<std::size_t> which;
    for (std::size_t c = 0; c < prepared.columns.size(); ++c)
        if (!prepared.columns[c].isChoice() && prepared.columns[c].n_known * 5 >= prepared.n() * 4)
            which.push_back(c);
    if (which.size() < 2)
        return out;
    const Rows rows = prepared.complete(which);
    if (rows.size() <= which.size() + 1)
        return out;
    Design design;
    for (const std::size_t c : which)
        addColumns(design, prepared.columns[c], rows);
    const auto found = stats::varianceInflation(design.columns);
    for (std::size_t i = 0; i < which.size(); ++i)
        out[which[i]] = found[i];
    return out;
}

} // namespace washfast::causes
