#include "core/stats/matrix.h"

#include <Eigen/Dense>

namespace washfast::stats {

Matrix product(const Matrix& left, const Matrix& right)
{
    return left * right;
}

Vector product(const Matrix& left, const Vector& right)
{
    return left * right;
}

Matrix transposedProduct(const Matrix& left, const Matrix& right)
{
    return left.transpose() * right;
}

Vector transposedProduct(const Matrix& left, const Vector& right)
{
    return left.transpose() * right;
}

Matrix weightedGram(const Matrix& rows, const Vector& weights)
{
    return rows.transpose() * weights.asDiagonal() * rows;
}

Matrix centred(const Matrix& columns)
{
    return columns.rowwise() - columns.colwise().mean();
}

Matrix withConstant(const Matrix& columns)
{
    Matrix all(columns.rows(), columns.cols() + 1);
    all.col(0).setOnes();
    all.rightCols(columns.cols()) = columns;
    return all;
}

Matrix scaledToLengthOne(const Matrix& columns)
{
    Matrix scaled = columns;
    for (Eigen::Index j = 0; j < scaled.cols(); ++j) {
        const double length = scaled.col(j).norm();
        if (length > 0.0)
            scaled.col(j) /= length;
    }
    return scaled;
}

Symmetric solveSymmetric(const Matrix& matrix, const Matrix& right)
{
    const Eigen::LDLT<Matrix> solver(matrix);
    Symmetric out;
    out.pivots = solver.vectorD();
    out.ok = solver.info() == Eigen::Success && (out.pivots.array() > 0.0).all();
    if (out.ok)
        out.solution = solver.solve(right);
    return out;
}

Vector pivotsOf(const Matrix& matrix)
{
    return Eigen::LDLT<Matrix>(matrix).vectorD();
}

Vector solveSymmetric(const Matrix& matrix, const Vector& right)
{
    return Eigen::LDLT<Matrix>(matrix).solve(right);
}

Vector leastSquares(const Matrix& columns, const Vector& right)
{
    return Eigen::HouseholderQR<Matrix>(columns).solve(right);
}

Vector leastSquares(const Matrix& columns, const Vector& right, double threshold)
{
    Eigen::ColPivHouseholderQR<Matrix> qr(columns);
    qr.setThreshold(threshold);
    return qr.solve(right);
}

Matrix orthonormalBasis(const Matrix& columns, double threshold)
{
    Eigen::ColPivHouseholderQR<Matrix> qr(columns);
    qr.setThreshold(threshold);
    return qr.householderQ() * Matrix::Identity(columns.rows(), qr.rank());
}

std::optional<Matrix> inverseOfGram(const Matrix& columns, double threshold)
{
    const Eigen::Index n = columns.cols();
    Eigen::ColPivHouseholderQR<Matrix> qr(columns);
    qr.setThreshold(threshold);
    if (qr.rank() < n)
        return std::nullopt;
    const Matrix upper = qr.matrixR().topLeftCorner(n, n).triangularView<Eigen::Upper>();
    const Matrix turned
        = qr.colsPermutation() * Matrix(upper.triangularView<Eigen::Upper>().solve(Matrix::Identity(n, n)));
    return Matrix(turned * turned.transpose());
}

Matrix turnTo(const Vector& direction)
{
    return Eigen::HouseholderQR<Matrix>(direction).householderQ();
}

Vector singularValues(const Matrix& matrix)
{
    return Eigen::JacobiSVD<Matrix>(matrix).singularValues();
}

SingularValues rightSingular(const Matrix& matrix)
{
    const Eigen::JacobiSVD<Matrix> svd(matrix, Eigen::ComputeThinV);
    return { svd.singularValues(), {}, svd.matrixV() };
}

Axes axesOf(const Matrix& matrix, const Vector& right)
{
    const Eigen::Index n = matrix.cols();
    const Eigen::HouseholderQR<Matrix> qr(matrix);
    const Matrix upper = qr.matrixQR().topRows(n).triangularView<Eigen::Upper>();
    const Vector turned = qr.householderQ().adjoint() * right;
    const Eigen::JacobiSVD<Matrix> svd(upper, Eigen::ComputeFullU | Eigen::ComputeFullV);
    return { svd.singularValues(), svd.matrixU().transpose() * turned.head(n), svd.matrixV() };
}

} // namespace washfast::stats
