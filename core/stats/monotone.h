// Curves that only rise, when no formula fits: isotonic means (pool adjacent violators: Ayer et al., Ann. Math. Stat.
// 26 (1955) 641) and a cubic through them that stays monotone (Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980)
// 238).
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace washfast::stats {

/// The rising values closest to `values` in the weighted sum of squares; weights may be empty (all 1).
[[nodiscard]] std::vector<double> isotonicMeans(std::span<const double> values, std::span<const double> weights = {});

/// A rising cubic through knots; nothing outside them.
class MonotoneCurve {
public:
    /// `x` strictly rising, `y` not falling, both of one size and at least two.
    MonotoneCurve(std::vector<double> x, std::vector<double> y);

    [[nodiscard]] std::optional<double> at(double x) const;
    [[nodiscard]] std::optional<double> slopeAt(double x) const;
    /// The smallest x with this value.
    [[nodiscard]] std::optional<double> where(double y) const;
    [[nodiscard]] double low() const { return x_.front(); }
    [[nodiscard]] double high() const { return x_.back(); }
    [[nodiscard]] double least() const { return y_.front(); }
    [[nodiscard]] double most() const { return y_.back(); }
    [[nodiscard]] const std::vector<double>& knots() const { return x_; }

private:
    [[nodiscard]] std::size_t piece(double x) const;

    std::vector<double> x_, y_, slope_;
};

} // namespace washfast::stats
