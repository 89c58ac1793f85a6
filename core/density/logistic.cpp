#include "core/density/logistic.h"

#include <cmath>
#include <numbers>

namespace washfast::density {

double Logistic::at(double log_h) const
{
    return d_min + (d_max - d_min) / (1 + std::exp(-slope * (log_h - midpoint)));
}

std::optional<double> Logistic::where(double density) const
{
    const double q = (density - d_min) / (d_max - d_min);
    if (!(q > 0 && q < 1) || slope == 0)
        return {};
    return midpoint + std::log(q / (1 - q)) / slope;
}

double Logistic::gradientAt(double log_h) const
{
    const double q = 1 / (1 + std::exp(-slope * (log_h - midpoint)));
    return (d_max - d_min) * slope * q * (1 - q);
}

double Hill::at(double h) const
{
    const double power = std::pow(h, n);
    return d_min + (d_max - d_min) * power / (std::pow(h50, n) + power);
}

Hill toHill(const Logistic& curve)
{
    return { curve.d_min, curve.d_max, std::pow(10, curve.midpoint), curve.slope / std::numbers::ln10 };
}

Logistic fromHill(const Hill& curve)
{
    return { curve.d_min, curve.d_max, std::log10(curve.h50), curve.n * std::numbers::ln10 };
}

} // namespace washfast::density
