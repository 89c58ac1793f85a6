// The S-shaped curve of density against log exposure:
//
//     D = d_min + (d_max - d_min) / (1 + exp(-slope (x - midpoint))),   x = log10 H, H in J/cm2
//
// It is the same as D = d_min + range H^n / (H50^n + H^n) with slope = n ln 10 (Hill, J. Physiol. 40 (1910) iv). The
// points are those of ISO 6846:1992 for silver-halide papers, by analogy: the toe 0.04 above d_min, the shoulder at 90
// % of the range. The standard can be read gross or net; here it is the net range, so that a fogged paper is judged
// alike.
#pragma once

#include <optional>

namespace washfast::density {

inline constexpr double toeAboveBase = 0.04;
inline constexpr double shoulderShare = 0.90;

struct Logistic {
    double d_min = 0, d_max = 1, midpoint = 0, slope = 1;

    [[nodiscard]] double at(double log_h) const;
    /// Nothing for densities that the curve never reaches.
    [[nodiscard]] std::optional<double> where(double density) const;
    [[nodiscard]] double gradientAt(double log_h) const;
    [[nodiscard]] double maxGradient() const { return (d_max - d_min) * slope / 4; }
    [[nodiscard]] std::optional<double> toe() const { return where(d_min + toeAboveBase); }
    [[nodiscard]] std::optional<double> shoulder() const { return where(d_min + shoulderShare * (d_max - d_min)); }
};

/// The same curve with exposures instead of their logarithms.
struct Hill {
    double d_min = 0, d_max = 1, h50 = 1, n = 1;
    [[nodiscard]] double at(double h) const;
};
[[nodiscard]] Hill toHill(const Logistic& curve);
[[nodiscard]] Logistic fromHill(const Hill& curve);

} // namespace washfast::density
