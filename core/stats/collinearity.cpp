#include "core/stats/collinearity.h"

#include <limits>

namespace washfast::stats {

std::vector<std::optional<double>> varianceInflation(const Matrix& columns)
{
    const Eigen::Index count = columns.cols();
    std::vector<std::optional<double>> out(static_cast<std::size_t>(count));
    if (columns.rows() <= count + 1)
        return out;
    const Matrix scaled = scaledToLengthOne(centred(columns));
    for (Eigen::Index j = 0; j < count; ++j) {
        if (scaled.col(j).squaredNorm() < 0.5)
            continue; // constant
        Matrix others(scaled.rows(), count - 1);
        others << scaled.leftCols(j), scaled.rightCols(count - 1 - j);
        double unexplained = 1.0;
        if (others.cols() > 0) {
            const Vector fitted = product(others, leastSquares(others, scaled.col(j), 1e-9));
            unexplained = (scaled.col(j) - fitted).squaredNorm();
        }
        if (unexplained > 1e-10)
            out[static_cast<std::size_t>(j)] = 1.0 / unexplained;
    }
    return out;
}

Conditioning conditioning(const Matrix& columns)
{
    const SingularValues found = rightSingular(scaledToLengthOne(columns));
    const Matrix& v = found.right;
    Conditioning out;
    out.singular_values = found.values;
    const Eigen::Index count = out.singular_values.size();
    out.condition_indices.resize(count);
    out.variance_proportions.resize(count, columns.cols());
    const double largest = out.singular_values(0);
    for (Eigen::Index k = 0; k < count; ++k) {
        const double value = out.singular_values(k);
        out.condition_indices(k) = value > 0.0 ? largest / value : std::numeric_limits<double>::infinity();
        // A tiny singular value takes all of the variance of the variables in its dependency.
        const double least = std::max(value, largest * 1e-150);
        out.variance_proportions.row(k) = (v.col(k) / least).array().square().matrix().transpose();
    }
    for (Eigen::Index j = 0; j < columns.cols(); ++j)
        out.variance_proportions.col(j) /= out.variance_proportions.col(j).sum();
    return out;
}

int rankOf(const Matrix& columns, double tolerance)
{
    if (columns.cols() == 0 || columns.rows() == 0)
        return 0;
    const Vector values = singularValues(scaledToLengthOne(columns));
    return static_cast<int>((values.array() > tolerance * values.maxCoeff()).count());
}

} // namespace washfast::stats
