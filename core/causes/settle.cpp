#include "core/causes/levers.h"
#include "core/stats/fisher.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::causes {

namespace {

// Rates of failing that a plan reckons with are kept within these: a handful of prints promises no certainty.
constexpr double least_rate = 0.05, most_rate = 0.95;

struct Rates {
    double bad = most_rate, good = least_rate;
};

Rates ratesOf(const Lever& lever, const std::vector<std::optional<int>>& failed)
{
    double n[2] {}, f[2] {};
    for (std::size_t i = 0; i < failed.size() && i < lever.side.size(); ++i)
        if (failed[i] && lever.side[i] >= 0) {
            n[lever.side[i]] += 1.0;
            f[lever.side[i]] += *failed[i];
        }
    const auto rate = [&](int side) { return std::clamp((f[side] + 0.25) / (n[side] + 0.5), least_rate, most_rate); };
    return { rate(1), rate(0) };
}

double binomial(int n, int k, double rate)
{
    return std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) + k * std::log(rate)
        + (n - k) * std::log1p(-rate));
}

void put(stats::TwoByTwo& table, int side, int failed, int kept)
{
    (side == 1 ? table.with_failed : table.without_failed) += failed;
    (side == 1 ? table.with_kept : table.without_kept) += kept;
}

/// Chance that `truth` still goes with the outcome with `rival` held equal (or nothing, without a rival), when it is
/// the cause at these rates: summed over all that the new prints can show.
double chanceOf(const std::vector<Lever>& levers, std::size_t truth, std::optional<std::size_t> rival,
    const std::vector<Combination>& made, const std::vector<std::optional<int>>& failed, bool with_present,
    double alpha)
{
    std::map<int, stats::TwoByTwo> present;
    for (std::size_t i = 0; with_present && i < failed.size(); ++i) {
        const int own = i < levers[truth].side.size() ? levers[truth].side[i] : -1;
        const int other = !rival ? 0 : (i < levers[*rival].side.size() ? levers[*rival].side[i] : -1);
        if (failed[i] && own >= 0 && other >= 0)
            put(present[other], own, *failed[i], 1 - *failed[i]);
    }
    struct Cell {
        int stratum, side, n;
    };
    std::map<std::pair<int, int>, int> counts;
    for (const Combination& one : made)
        ++counts[{ rival ? one[*rival] : 0, one[truth] }];
    std::vector<Cell> cells;
    for (const auto& [key, n] : counts)
        cells.push_back({ key.first, key.second, n });
    const Rates rates = ratesOf(levers[truth], failed);
    double chance = 0.0;
    const auto walk = [&](auto&& self, std::size_t at, std::map<int, stats::TwoByTwo> tables, double p) -> void {
        if (at == cells.size()) {
            std::vector<stats::TwoByTwo> list;
            for (const auto& [stratum, table] : tables)
                list.push_back(table);
            const stats::FisherResult test = stats::stratifiedExact(list);
            if (test.two_sided < alpha && test.greater < test.less)
                chance += p;
            return;
        }
        const Cell& cell = cells[at];
        for (int k = 0; k <= cell.n; ++k) {
            auto next = tables;
            put(next[cell.stratum], cell.side, k, cell.n - k);
            self(self, at + 1, std::move(next), p * binomial(cell.n, k, cell.side == 1 ? rates.bad : rates.good));
        }
    };
    walk(walk, 0, present, 1.0);
    return chance;
}

} // namespace

double chanceToSettle(const std::vector<Lever>& levers, const std::vector<Combination>& made,
    const std::vector<std::optional<int>>& failed, bool with_present, double alpha)
{
    if (levers.size() == 1)
        return chanceOf(levers, 0, std::nullopt, made, failed, with_present, alpha);
    double least = 1.0;
    for (std::size_t truth = 0; truth < levers.size(); ++truth)
        for (std::size_t rival = 0; rival < levers.size(); ++rival)
            if (truth != rival)
                least = std::min(least, chanceOf(levers, truth, rival, made, failed, with_present, alpha));
    return least;
}

} // namespace washfast::causes
