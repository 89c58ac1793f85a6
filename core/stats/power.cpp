#include "core/stats/power.h"

#include "core/stats/counting.h"

#include <cmath>
#include <vector>

namespace washfast::stats {

namespace {

std::vector<double> binomial(const LogFactorials& logs, int n, double rate)
{
    std::vector<double> p(static_cast<std::size_t>(n) + 1, 0.0);
    for (int k = 0; k <= n; ++k) {
        if ((rate <= 0.0 && k > 0) || (rate >= 1.0 && k < n))
            continue;
        const double log_odds_part = (k > 0 ? k * std::log(rate) : 0.0) + (k < n ? (n - k) * std::log1p(-rate) : 0.0);
        p[static_cast<std::size_t>(k)] = std::exp(logs.choose(n, k) + log_odds_part);
    }
    return p;
}

} // namespace

double fisherPower(int per_group, double first_rate, double second_rate, double alpha)
{
    const LogFactorials logs(2 * per_group);
    const std::vector<double> first = binomial(logs, per_group, first_rate);
    const std::vector<double> second = binomial(logs, per_group, second_rate);
    double power = 0.0;
    for (int failed = 0; failed <= 2 * per_group; ++failed) {
        const Discrete tables = hypergeometric(logs, 2 * per_group, failed, per_group);
        for (std::size_t i = 0; i < tables.p.size(); ++i) {
            double p = 0.0;
            for (const double other : tables.p)
                p += other <= tables.p[i] * (1.0 + 1e-7) ? other : 0.0;
            if (p > alpha)
                continue;
            const std::size_t a = static_cast<std::size_t>(tables.low) + i;
            power += first[a] * second[static_cast<std::size_t>(failed) - a];
        }
    }
    return power;
}

std::optional<int> printsPerGroup(double first_rate, double second_rate, double alpha, double power, int most)
{
    bool last_was_enough = false;
    for (int n = 2; n <= most + 1; ++n) {
        const bool enough = fisherPower(n, first_rate, second_rate, alpha) >= power;
        if (enough && last_was_enough)
            return n - 1;
        last_was_enough = enough;
    }
    return std::nullopt;
}

} // namespace washfast::stats
