#include "core/stats/monotone.h"

#include <algorithm>
#include <cmath>

namespace washfast::stats {

std::vector<double> isotonicMeans(std::span<const double> values, std::span<const double> weights)
{
    struct Pool {
        double sum, weight;
        std::size_t size;
    };
    std::vector<Pool> pools;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double weight = weights.empty() ? 1.0 : weights[i];
        pools.push_back({ values[i] * weight, weight, 1 });
        while (pools.size() > 1) {
            const auto& last = pools.back();
            auto& before = pools[pools.size() - 2];
            if (before.sum / before.weight <= last.sum / last.weight)
                break;
            before = { before.sum + last.sum, before.weight + last.weight, before.size + last.size };
            pools.pop_back();
        }
    }
    std::vector<double> means;
    for (const auto& pool : pools)
        means.insert(means.end(), pool.size, pool.sum / pool.weight);
    return means;
}

MonotoneCurve::MonotoneCurve(std::vector<double> x, std::vector<double> y)
    : x_(std::move(x))
    , y_(std::move(y))
    , slope_(x_.size())
{
    const std::size_t n = x_.size();
    std::vector<double> secant(n - 1);
    for (std::size_t i = 0; i + 1 < n; ++i)
        secant[i] = (y_[i + 1] - y_[i]) / (x_[i + 1] - x_[i]);
    slope_.front() = secant.front();
    slope_.back() = secant.back();
    for (std::size_t i = 1; i + 1 < n; ++i)
        slope_[i] = secant[i - 1] * secant[i] <= 0 ? 0 : (secant[i - 1] + secant[i]) / 2;
    for (std::size_t i = 0; i + 1 < n; ++i) {
        if (secant[i] == 0) {
            slope_[i] = slope_[i + 1] = 0;
            continue;
        }
        const double a = slope_[i] / secant[i], b = slope_[i + 1] / secant[i];
        if (const double length = std::hypot(a, b); length > 3) { // onto the circle of radius 3
            slope_[i] = 3 * a / length * secant[i];
            slope_[i + 1] = 3 * b / length * secant[i];
        }
    }
}

std::size_t MonotoneCurve::piece(double x) const
{
    const auto above = std::upper_bound(x_.begin(), x_.end(), x);
    return std::min(std::size_t(std::max<std::ptrdiff_t>(above - x_.begin() - 1, 0)), x_.size() - 2);
}

std::optional<double> MonotoneCurve::at(double x) const
{
    if (!(x >= low() && x <= high()))
        return {};
    const auto i = piece(x);
    const double h = x_[i + 1] - x_[i], t = (x - x_[i]) / h;
    const double t2 = t * t, t3 = t2 * t;
    return y_[i] * (2 * t3 - 3 * t2 + 1) + h * slope_[i] * (t3 - 2 * t2 + t) + y_[i + 1] * (3 * t2 - 2 * t3)
        + h * slope_[i + 1] * (t3 - t2);
}

std::optional<double> MonotoneCurve::slopeAt(double x) const
{
    if (!(x >= low() && x <= high()))
        return {};
    const auto i = piece(x);
    const double h = x_[i + 1] - x_[i], t = (x - x_[i]) / h;
    return (y_[i + 1] - y_[i]) / h * (6 * t - 6 * t * t) + slope_[i] * (3 * t * t - 4 * t + 1)
        + slope_[i + 1] * (3 * t * t - 2 * t);
}

std::optional<double> MonotoneCurve::where(double y) const
{
    if (!(y >= least() && y <= most()))
        return {};
    const auto above = std::lower_bound(y_.begin(), y_.end(), y);
    if (above == y_.begin())
        return x_.front();
    const auto i = std::size_t(above - y_.begin()) - 1;
    double low = x_[i], high = x_[i + 1];
    for (int step = 0; step < 200 && high - low > 1e-13 * (1 + std::abs(low)); ++step) {
        const double middle = (low + high) / 2;
        (*at(middle) < y ? low : high) = middle;
    }
    return (low + high) / 2;
}

} // namespace washfast::stats
