#include "core/causes/missing_prints.h"

#include "core/causes/judgement.h"
#include "core/causes/phrases.h"
#include "core/causes/words.h"
#include "core/stats/power.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace washfast::causes {

namespace {

constexpr double large_rate = 0.9, small_rate = 0.2; // a strong cause, beside failures that happen anyway
constexpr double large_correlation = 0.6;
constexpr double worth_the_name = 0.25; // difference of two shares
constexpr double shift_worth_the_name = 0.6; // in standard deviations
constexpr double correlation_worth_the_name = 0.3;
constexpr int most_per_side = 60;
constexpr double power = 0.8;

int lacking(int need, int first, int second)
{
    return std::max(0, need - first) + std::max(0, need - second);
}

QString inTen(double share)
{
    return Words::tr("%1 in 10").arg(std::lround(share * 10.0));
}

double quantiles(double alpha)
{
    const boost::math::normal normal;
    return boost::math::quantile(normal, 1.0 - alpha / 2.0) + boost::math::quantile(normal, power);
}

MoreNeeded forRates(double first, double second, int n_first, int n_second, double alpha)
{
    MoreNeeded out;
    out.assumed = Words::tr("a difference such as %1 against %2").arg(inTen(first), inTen(second));
    if (const auto need = stats::printsPerGroup(first, second, alpha, power, most_per_side))
        out.prints = lacking(*need, n_first, n_second);
    return out;
}

MoreNeeded forCorrelation(double r, int n, double alpha)
{
    MoreNeeded out;
    out.assumed = Words::tr("a correlation of %1").arg(std::fabs(r), 0, 'f', 1);
    const double need = std::ceil(std::pow(quantiles(alpha) / std::atanh(std::min(std::fabs(r), 0.95)), 2.0)) + 3.0;
    if (need <= 2.0 * most_per_side)
        out.prints = std::max(0, static_cast<int>(need) - n);
    return out;
}

/// Difference of the means of failed and kept in standard deviations within them.
double standardShift(const Prepared& prepared, std::size_t column)
{
    double n[2] {}, sum[2] {}, square[2] {};
    for (const std::size_t row : prepared.complete({ column })) {
        const int side = prepared.failed[row];
        const double value = prepared.columns[column].value[row];
        n[side] += 1.0;
        sum[side] += value;
        square[side] += value * value;
    }
    if (n[0] < 2.0 || n[1] < 2.0)
        return 0.0;
    double within = 0.0;
    for (const int side : { 0, 1 })
        within += square[side] - sum[side] * sum[side] / n[side];
    const double variance = within / (n[0] + n[1] - 2.0);
    return variance > 0.0 ? std::fabs(sum[1] / n[1] - sum[0] / n[0]) / std::sqrt(variance) : 0.0;
}

} // namespace

MoreNeeded moreNeeded(const Prepared& prepared, const FactorEvidence* lead, std::optional<std::size_t> column,
    int tested, const Options& options)
{
    const double alpha = options.alpha / std::max(tested, 1);
    if (!prepared.yesNo()) {
        const double r = lead != nullptr && lead->correlation ? *lead->correlation : 0.0;
        return forCorrelation(std::fabs(r) >= correlation_worth_the_name ? r : large_correlation, prepared.n(), alpha);
    }
    if (lead != nullptr && lead->levels.size() == 2) {
        const LevelCount& yes = lead->levels[1];
        const LevelCount& no = lead->levels[0];
        // Half a print added to each cell, so that a handful of prints does not promise 10 in 10.
        const double first = (yes.failed + 0.5) / (yes.n + 1.0);
        const double second = (no.failed + 0.5) / (no.n + 1.0);
        if (std::fabs(first - second) >= worth_the_name)
            return forRates(std::max(first, second), std::min(first, second), yes.n, no.n, alpha);
        return forRates(large_rate, small_rate, yes.n, no.n, alpha);
    }
    const int failed = prepared.nFailed();
    const int kept = prepared.n() - failed;
    if (lead != nullptr && column && lead->kind == Factor::Kind::Number) {
        const double shift = standardShift(prepared, *column);
        if (shift >= shift_worth_the_name) {
            MoreNeeded out;
            out.assumed = Words::tr("a difference like the one seen in %1").arg(quoted(*lead));
            const double need = std::ceil(2.0 * std::pow(quantiles(alpha) / std::min(shift, 2.5), 2.0)) + 1.0;
            if (need <= most_per_side)
                out.prints = lacking(static_cast<int>(need), failed, kept);
            return out;
        }
    }
    return forRates(large_rate, small_rate, failed, kept, alpha);
}

} // namespace washfast::causes
