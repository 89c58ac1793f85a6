#include "core/stats/least_squares.h"

#include <Eigen/Dense>
#include <cmath>

namespace washfast::stats {

LinearFit fitLinear(const Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>& design,
    std::span<const double> observed, std::span<const double> weights)
{
    using LongMatrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;
    using LongVector = Eigen::Matrix<long double, Eigen::Dynamic, 1>;
    LinearFit fit;
    const Eigen::Index rows = design.rows(), columns = design.cols();
    fit.degrees_of_freedom = int(rows - columns);
    if (rows < columns || columns == 0 || rows != Eigen::Index(observed.size()))
        return fit;
    LongVector right(rows);
    LongMatrix a = design;
    for (Eigen::Index i = 0; i < rows; ++i) {
        const long double root = weights.empty() ? 1.0L : std::sqrt(static_cast<long double>(weights[std::size_t(i)]));
        right[i] = root * static_cast<long double>(observed[std::size_t(i)]);
        a.row(i) *= root;
    }
    LongVector shrink(columns);
    for (Eigen::Index k = 0; k < columns; ++k) {
        const long double size = a.col(k).norm();
        if (!(size > 0))
            return fit;
        shrink[k] = 1.0L / size;
        a.col(k) *= shrink[k];
    }
    Eigen::ColPivHouseholderQR<LongMatrix> qr(a);
    qr.setThreshold(1e-17L);
    fit.full_rank = qr.rank() == columns;
    if (!fit.full_rank)
        return fit;
    LongVector solution = qr.solve(right);
    solution += qr.solve(LongVector(right - a * solution)); // one step of refinement
    const LongVector left = right - a * solution;
    fit.sum_of_squares = double(left.squaredNorm());
    const LongMatrix upper = qr.matrixR().topLeftCorner(columns, columns).triangularView<Eigen::Upper>();
    const LongMatrix inverse = upper.triangularView<Eigen::Upper>().solve(LongMatrix::Identity(columns, columns));
    const LongMatrix turned = shrink.asDiagonal() * LongMatrix(qr.colsPermutation() * inverse);
    fit.inverse_information = (turned * turned.transpose()).cast<double>();
    for (Eigen::Index k = 0; k < columns; ++k)
        fit.coefficients.push_back(double(solution[k] * shrink[k]));
    if (fit.degrees_of_freedom > 0) {
        fit.residual_sd = std::sqrt(fit.sum_of_squares / fit.degrees_of_freedom);
        for (Eigen::Index k = 0; k < columns; ++k)
            fit.standard_errors.push_back(fit.residual_sd * std::sqrt(fit.inverse_information(k, k)));
    }
    return fit;
}

} // namespace washfast::stats
