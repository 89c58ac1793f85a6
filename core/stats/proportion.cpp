#include "core/stats/proportion.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace washfast::stats {

Interval wilson(int successes, int total, double confidence)
{
    const double z = boost::math::quantile(boost::math::normal(), 0.5 + confidence / 2.0);
    const double n = total;
    const double share = successes / n;
    const double middle = share + z * z / (2.0 * n);
    const double reach = z * std::sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n));
    const double scale = 1.0 + z * z / n;
    // At 0 and at n the bound is exactly 0 and 1; rounding must not step over it.
    return { successes == 0 ? 0.0 : (middle - reach) / scale, successes == total ? 1.0 : (middle + reach) / scale };
}

Interval clopperPearson(int successes, int total, double confidence)
{
    const double tail = (1.0 - confidence) / 2.0;
    Interval out { 0.0, 1.0 };
    if (successes > 0)
        out.low = boost::math::quantile(boost::math::beta_distribution<>(successes, total - successes + 1), tail);
    if (successes < total)
        out.high
            = boost::math::quantile(boost::math::beta_distribution<>(successes + 1, total - successes), 1.0 - tail);
    return out;
}

Difference riskDifference(
    int first_successes, int first_total, int second_successes, int second_total, double confidence)
{
    const double first = static_cast<double>(first_successes) / first_total;
    const double second = static_cast<double>(second_successes) / second_total;
    const Interval a = wilson(first_successes, first_total, confidence);
    const Interval b = wilson(second_successes, second_total, confidence);
    const double value = first - second;
    return { value,
        { std::max(-1.0, value - std::hypot(first - a.low, b.high - second)),
            std::min(1.0, value + std::hypot(a.high - first, second - b.low)) } };
}

} // namespace washfast::stats
