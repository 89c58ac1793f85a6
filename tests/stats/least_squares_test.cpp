// Least squares: what it gives and how it behaves at its edges; the certified problems are in
// tests/reference/least_squares_test.cpp.
#include "core/stats/least_squares.h"
#include "core/stats/monotone.h"

#include <cmath>
#include <gmock/gmock.h>
#include <limits>

namespace WASHFAST_FILE {

using namespace washfast::stats;
using testing::DoubleNear;
using testing::ElementsAre;

namespace {

using LongMatrix = Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic>;

LongMatrix lineDesign(const std::vector<double>& x)
{
    LongMatrix design(Eigen::Index(x.size()), 2);
    for (std::size_t i = 0; i < x.size(); ++i)
        design.row(Eigen::Index(i)) << 1.0L, static_cast<long double>(x[i]);
    return design;
}

} // namespace

TEST(LeastSquares, FindsAnExactLineWithoutResidual)
{
    const std::vector<double> x { 0, 1, 2, 3 }, y { 1, 3, 5, 7 };
    const auto fit = fitLinear(lineDesign(x), y);
    ASSERT_TRUE(fit.full_rank);
    EXPECT_THAT(fit.coefficients, ElementsAre(DoubleNear(1, 1e-12), DoubleNear(2, 1e-12)));
    EXPECT_NEAR(fit.residual_sd, 0, 1e-12);
    EXPECT_EQ(fit.degrees_of_freedom, 2);
}

TEST(LeastSquares, WeightsCountAsRepeats)
{
    const std::vector<double> x { 0, 1, 2 }, y { 0, 1, 3 };
    const std::vector<double> weights { 1, 1, 3 };
    const auto weighted = fitLinear(lineDesign(x), y, weights);
    const std::vector<double> repeated_x { 0, 1, 2, 2, 2 }, repeated_y { 0, 1, 3, 3, 3 };
    const auto repeated = fitLinear(lineDesign(repeated_x), repeated_y);
    ASSERT_TRUE(weighted.full_rank && repeated.full_rank);
    EXPECT_NEAR(weighted.coefficients[0], repeated.coefficients[0], 1e-12);
    EXPECT_NEAR(weighted.coefficients[1], repeated.coefficients[1], 1e-12);
    EXPECT_NEAR(weighted.sum_of_squares, repeated.sum_of_squares, 1e-12);
}

TEST(LeastSquares, SaysWhenColumnsCannotBeToldApart)
{
    LongMatrix design(3, 2);
    design << 1, 2, 2, 4, 3, 6;
    EXPECT_FALSE(fitLinear(design, std::vector<double> { 1, 2, 3 }).full_rank);
    EXPECT_FALSE(fitLinear(lineDesign({ 1 }), std::vector<double> { 1 }).full_rank);
}

TEST(LeastSquares, GivenDerivativesAndDifferencesAgree)
{
    const std::vector<double> x { 0, 0.5, 1, 1.5, 2, 3 }, y { 5.1, 3.0, 1.9, 1.1, 0.7, 0.2 };
    const auto residuals = [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < x.size(); ++i)
            r[i] = y[i] - p[0] * std::exp(-p[1] * x[i]);
    };
    LeastSquaresOptions options;
    options.jacobian = [&](std::span<const double> p, Eigen::MatrixXd& j) {
        for (std::size_t i = 0; i < x.size(); ++i) {
            j(Eigen::Index(i), 0) = -std::exp(-p[1] * x[i]);
            j(Eigen::Index(i), 1) = p[0] * x[i] * std::exp(-p[1] * x[i]);
        }
    };
    const std::vector<double> start { 1, 0.2 };
    const auto given = fitLeastSquares(start, x.size(), residuals, options);
    const auto differences = fitLeastSquares(start, x.size(), residuals);
    ASSERT_TRUE(given.ok() && differences.ok());
    for (std::size_t k = 0; k < 2; ++k) {
        EXPECT_NEAR(given.parameters[k], differences.parameters[k], 1e-8);
        EXPECT_NEAR(given.standardError(k), differences.standardError(k), 1e-8);
    }
}

TEST(LeastSquares, StepsBackFromImpossibleParameters)
{
    // The logarithm forbids p <= 0; the first full step would go there.
    const auto residuals = [](std::span<const double> p, std::span<double> r) { r[0] = std::log(p[0]) + 3; };
    const auto fit = fitLeastSquares(std::vector<double> { 50 }, 1, residuals);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit.parameters[0], std::exp(-3), 1e-9);
    EXPECT_FALSE(fit.hasErrors()); // no degrees of freedom
}

TEST(LeastSquares, RefusesABadStart)
{
    const auto residuals
        = [](std::span<const double>, std::span<double> r) { r[0] = std::numeric_limits<double>::quiet_NaN(); };
    EXPECT_EQ(fitLeastSquares(std::vector<double> { 1 }, 1, residuals).end, FitEnd::BadStart);
    const auto fine = [](std::span<const double> p, std::span<double> r) { r[0] = p[0] + p[1]; };
    EXPECT_EQ(fitLeastSquares(std::vector<double> { 1, 1 }, 1, fine).end, FitEnd::BadStart); // fewer than parameters
}

TEST(LeastSquares, GivesNoErrorsForParametersThatCannotBeToldApart)
{
    const auto residuals = [](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < 4; ++i)
            r[i] = p[0] + p[1] - double(i);
    };
    const auto fit = fitLeastSquares(std::vector<double> { 0, 0 }, 4, residuals);
    EXPECT_NEAR(fit.parameters[0] + fit.parameters[1], 1.5, 1e-6);
    EXPECT_FALSE(fit.hasErrors());
}

TEST(Monotone, PoolsWhatFalls)
{
    EXPECT_THAT(isotonicMeans(std::vector<double> { 1, 3, 2, 4 }), ElementsAre(1, 2.5, 2.5, 4));
    EXPECT_THAT(isotonicMeans(std::vector<double> { 3, 2, 1 }), ElementsAre(2, 2, 2));
    EXPECT_THAT(isotonicMeans(std::vector<double> { 3, 0 }, std::vector<double> { 1, 2 }), ElementsAre(1, 1));
}

TEST(Monotone, NeverFallsBetweenItsKnots)
{
    const MonotoneCurve curve({ 0, 1, 2, 3, 4 }, { 0, 0, 0.1, 2, 2.01 });
    double before = -1;
    for (int i = 0; i <= 4000; ++i) {
        const auto here = curve.at(i / 1000.0);
        ASSERT_TRUE(here);
        EXPECT_GE(*here, before - 1e-12);
        EXPECT_GE(*curve.slopeAt(i / 1000.0), -1e-12);
        before = *here;
    }
    for (const double x : { 0.0, 1.0, 2.0, 3.0, 4.0 })
        EXPECT_NEAR(*curve.at(curve.where(*curve.at(x)).value()), *curve.at(x), 1e-9);
}

TEST(Monotone, IsNotReadOutside)
{
    const MonotoneCurve curve({ 0, 1 }, { 0.1, 1.1 });
    EXPECT_FALSE(curve.at(-0.001));
    EXPECT_FALSE(curve.at(1.001));
    EXPECT_FALSE(curve.where(0.05));
    EXPECT_FALSE(curve.where(1.2));
    EXPECT_NEAR(*curve.where(0.6), 0.5, 1e-9);
}

} // namespace WASHFAST_FILE
