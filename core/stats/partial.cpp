#include "core/stats/partial.h"

#include "core/stats/blocks.h"
#include "core/stats/draw.h"

#include <algorithm>
#include <numeric>
#include <vector>

namespace washfast::stats {

namespace {

constexpr double nothing_left = 1e-9; // share of a column's spread

std::vector<Eigen::Index> canonicalOrder(const Matrix& keys)
{
    std::vector<Eigen::Index> order(static_cast<std::size_t>(keys.rows()));
    std::iota(order.begin(), order.end(), Eigen::Index { 0 });
    std::sort(order.begin(), order.end(), [&](Eigen::Index a, Eigen::Index b) {
        for (Eigen::Index j = 0; j < keys.cols(); ++j)
            if (keys(a, j) != keys(b, j))
                return keys(a, j) < keys(b, j);
        return false;
    });
    return order;
}

Matrix blockColumns(const std::vector<std::vector<std::size_t>>& blocks, Eigen::Index rows)
{
    Matrix out = Matrix::Zero(rows, static_cast<Eigen::Index>(blocks.size()));
    for (std::size_t b = 0; b < blocks.size(); ++b)
        for (const std::size_t i : blocks[b])
            out(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(b)) = 1.0;
    return out;
}

} // namespace

TestResult partialTest(const Matrix& factor, const Matrix& others, const Vector& outcome, std::span<const int> block,
    const PermutationOptions& options)
{
    const Eigen::Index n = outcome.size();
    const TestResult undecided { 1.0, true, 1 };
    if (n < 3)
        return undecided;

    // Sorted by block, outcome, others and factor.
    Matrix all(n, 2 + others.cols() + factor.cols());
    for (Eigen::Index i = 0; i < n; ++i)
        all(i, 0) = block.empty() ? 0.0 : block[static_cast<std::size_t>(i)];
    all.col(1) = outcome;
    all.middleCols(2, others.cols()) = others;
    all.rightCols(factor.cols()) = factor;
    const std::vector<Eigen::Index> order = canonicalOrder(all);
    const Matrix sorted = all(order, Eigen::all);
    std::vector<int> sorted_block;
    for (const Eigen::Index i : order)
        sorted_block.push_back(block.empty() ? 0 : block[static_cast<std::size_t>(i)]);
    const auto blocks = membersOf(sorted_block, static_cast<std::size_t>(n));

    // Columns are centred within the blocks first, so that their distance from zero costs no accuracy.
    const Matrix indicator = blockColumns(blocks, n);
    const Vector sizes = indicator.colwise().sum();
    const auto inBlocks = [&](const Matrix& columns) -> Matrix {
        const Matrix sums = transposedProduct(indicator, columns);
        return columns - product(indicator, Matrix(sums.array().colwise() / sizes.array()));
    };
    const Matrix other_columns = inBlocks(sorted.middleCols(2, others.cols()));
    Matrix held(n, indicator.cols() + others.cols());
    held << indicator, other_columns;
    const Matrix q = orthonormalBasis(scaledToLengthOne(held), 1e-8);
    const auto without
        = [&](const Matrix& columns) -> Matrix { return columns - product(q, transposedProduct(q, columns)); };

    const Matrix factor_centred = inBlocks(sorted.rightCols(factor.cols()));
    const Matrix factor_left = without(factor_centred);
    std::vector<Eigen::Index> kept;
    for (Eigen::Index j = 0; j < factor.cols(); ++j)
        if (factor_left.col(j).squaredNorm() > nothing_left * factor_centred.col(j).squaredNorm())
            kept.push_back(j);
    Vector residual = without(inBlocks(sorted.col(1)));
    const double spread = residual.squaredNorm();
    if (kept.empty() || spread <= nothing_left * inBlocks(sorted.col(1)).squaredNorm() || q.cols() + 1 >= n)
        return undecided;
    const Matrix f = orthonormalBasis(scaledToLengthOne(factor_left(Eigen::all, kept)), 1e-8);

    // Share of what the others leave that the factor takes.
    const auto share = [&](const Vector& y) {
        const double by_factor = transposedProduct(f, y).squaredNorm();
        const double left = y.squaredNorm() - transposedProduct(q, y).squaredNorm();
        return left > nothing_left * spread ? by_factor / left : 0.0;
    };
    const double limit = share(residual) - 1e-9;
    Draw draw(options.seed);
    std::uint64_t extreme = 0;
    for (std::uint64_t i = 0; i < options.draws; ++i) {
        std::size_t start = 0;
        for (const auto& members : blocks) {
            const std::span<double> part(residual.data() + start, members.size());
            draw.shuffleFront(part, part.size());
            start += members.size();
        }
        extreme += share(residual) >= limit ? 1U : 0U;
        if (options.stop_at > 0 && extreme == options.stop_at)
            return { static_cast<double>(extreme) / static_cast<double>(i + 1), false, i + 1 };
    }
    return { static_cast<double>(extreme + 1) / static_cast<double>(options.draws + 1), false, options.draws };
}

} // namespace washfast::stats
