#include "core/stats/counting.h"

#include <algorithm>
#include <cmath>

namespace washfast::stats {

LogFactorials::LogFactorials(int largest)
    : values_(static_cast<std::size_t>(std::max(largest, 0)) + 1, 0.0)
{
    for (std::size_t i = 2; i < values_.size(); ++i)
        values_[i] = values_[i - 1] + std::log(static_cast<double>(i));
}

double waysToChoose(int n, int k)
{
    if (k < 0 || k > n)
        return 0.0;
    k = std::min(k, n - k);
    double ways = 1.0;
    for (int i = 1; i <= k; ++i)
        ways = ways * (n - k + i) / i;
    return std::round(ways);
}

Discrete hypergeometric(const LogFactorials& logs, int total, int marked, int drawn)
{
    Discrete out;
    out.low = std::max(0, drawn + marked - total);
    const int high = std::min(marked, drawn);
    const double all = logs.choose(total, drawn);
    double sum = 0.0;
    for (int a = out.low; a <= high; ++a) {
        out.p.push_back(std::exp(logs.choose(marked, a) + logs.choose(total - marked, drawn - a) - all));
        sum += out.p.back();
    }
    for (double& p : out.p)
        p /= sum;
    return out;
}

Discrete convolve(const Discrete& a, const Discrete& b)
{
    Discrete out;
    out.low = a.low + b.low;
    out.p.assign(a.p.size() + b.p.size() - 1, 0.0);
    for (std::size_t i = 0; i < a.p.size(); ++i)
        for (std::size_t j = 0; j < b.p.size(); ++j)
            out.p[i + j] += a.p[i] * b.p[j];
    return out;
}

} // namespace washfast::stats
