#include "core/stats/doptimal.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::stats {

namespace {

constexpr double gain_that_counts = 1e-9;
constexpr int most_exchanges = 100;

} // namespace

Matrix information(const Matrix& rows)
{
    return transposedProduct(rows, rows);
}

double logDeterminant(const Matrix& information, double ridge)
{
    const Matrix all = information + ridge * Matrix::Identity(information.rows(), information.cols());
    const Eigen::ArrayXd pivots = pivotsOf(all).array();
    if (!(pivots > 1e-12 * pivots.abs().maxCoeff()).all())
        return -std::numeric_limits<double>::infinity();
    return pivots.log().sum();
}

std::vector<std::size_t> augmentDOptimally(const Matrix& present, const Matrix& candidates, int count, double ridge)
{
    Matrix sum = information(present);
    const auto outer = [&](std::size_t i) {
        const Matrix row = candidates.row(static_cast<Eigen::Index>(i));
        return transposedProduct(row, row);
    };
    const auto all = static_cast<std::size_t>(candidates.rows());
    const auto best = [&](double& value) {
        std::size_t chosen = 0;
        value = -std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < all; ++i) {
            const double here = logDeterminant(sum + outer(i), ridge);
            if (here > value + gain_that_counts || (i == 0)) {
                value = here;
                chosen = i;
            }
        }
        return chosen;
    };
    std::vector<std::size_t> taken;
    double value = 0.0;
    for (int i = 0; i < count && all > 0; ++i) {
        taken.push_back(best(value));
        sum += outer(taken.back());
    }
    bool better = true;
    for (int round = 0; round < most_exchanges && better; ++round) {
        better = false;
        for (std::size_t& one : taken) {
            const double before = logDeterminant(sum, ridge);
            sum -= outer(one);
            const std::size_t instead = best(value);
            if (value > before + gain_that_counts) {
                one = instead;
                better = true;
            }
            sum += outer(one);
        }
    }
    std::sort(taken.begin(), taken.end());
    return taken;
}

} // namespace washfast::stats
