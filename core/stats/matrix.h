// Linear algebra as plain functions. Products and decompositions of Eigen are templates that cost seconds wherever they
// are used; behind these functions each is compiled once. Only sums, scalings and single columns are used directly.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>

namespace washfast::stats {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

[[nodiscard]] Matrix product(const Matrix& left, const Matrix& right);
[[nodiscard]] Vector product(const Matrix& left, const Vector& right);
/// left' right
[[nodiscard]] Matrix transposedProduct(const Matrix& left, const Matrix& right);
[[nodiscard]] Vector transposedProduct(const Matrix& left, const Vector& right);
/// rows' diag(weights) rows
[[nodiscard]] Matrix weightedGram(const Matrix& rows, const Vector& weights);
/// The columns less their means.
[[nodiscard]] Matrix centred(const Matrix& columns);
/// A column of ones before the columns.
[[nodiscard]] Matrix withConstant(const Matrix& columns);
/// Each column divided by its length; a column of zeros stays.
[[nodiscard]] Matrix scaledToLengthOne(const Matrix& columns);

/// The decomposition L D L' of a symmetric matrix.
struct Symmetric {
    bool ok = false; // it went through, and every pivot is above 0
    Vector pivots; // D
    Matrix solution; // of matrix x = right
};
[[nodiscard]] Symmetric solveSymmetric(const Matrix& matrix, const Matrix& right);
/// The pivots alone.
[[nodiscard]] Vector pivotsOf(const Matrix& matrix);
[[nodiscard]] Vector solveSymmetric(const Matrix& matrix, const Vector& right);

/// Least squares by QR: without pivoting for columns of full rank, else with it, taking as dependent what is below
/// `threshold` of the largest pivot.
[[nodiscard]] Vector leastSquares(const Matrix& columns, const Vector& right);
[[nodiscard]] Vector leastSquares(const Matrix& columns, const Vector& right, double threshold);
/// Orthonormal columns that span these, without those that are dependent within `threshold`.
[[nodiscard]] Matrix orthonormalBasis(const Matrix& columns, double threshold);
/// (columns' columns)^-1; empty when they are dependent within `threshold`.
[[nodiscard]] std::optional<Matrix> inverseOfGram(const Matrix& columns, double threshold);
/// An orthogonal matrix whose first column lies along `direction`, either way.
[[nodiscard]] Matrix turnTo(const Vector& direction);

struct SingularValues {
    Vector values; // largest first
    Matrix left, right; // columns; empty unless asked for
};
[[nodiscard]] Vector singularValues(const Matrix& matrix);
/// The axes on the right only.
[[nodiscard]] SingularValues rightSingular(const Matrix& matrix);

/// What a tall matrix does to the directions of its columns, for damped steps: matrix = Q U diag(values) V', and
/// along = U' Q' right.
struct Axes {
    Vector values, along;
    Matrix right; // V
};
[[nodiscard]] Axes axesOf(const Matrix& matrix, const Vector& right);

} // namespace washfast::stats
