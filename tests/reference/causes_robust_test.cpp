// Robust regression against a published worked example. Data: Brownlee, Statistical Theory and Methodology in Science
// and Engineering (2nd edition, 1965), p. 454, oxidation of ammonia in a plant, 21 days. Least squares: Draper and
// Smith, Applied Regression Analysis (3rd edition), chapter 8. Huber's estimate: Venables and Ripley, Modern Applied
// Statistics with S (4th edition), section 6.5. The expected values are from memory.
#include "core/stats/least_squares.h"
#include "core/stats/robust_linear.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::stats;

namespace {

constexpr int days = 21;
constexpr double air[days] = { 80, 80, 75, 62, 62, 62, 62, 62, 58, 58, 58, 58, 58, 58, 50, 50, 50, 50, 50, 56, 70 };
constexpr double water[days] = { 27, 27, 25, 24, 22, 23, 24, 24, 23, 18, 18, 17, 18, 19, 18, 18, 19, 19, 20, 20, 20 };
constexpr double acid[days] = { 89, 88, 90, 87, 87, 87, 93, 93, 87, 80, 89, 88, 82, 93, 89, 86, 72, 79, 80, 82, 91 };
constexpr double loss[days] = { 42, 37, 37, 28, 18, 18, 19, 20, 15, 14, 14, 13, 11, 12, 8, 7, 8, 8, 9, 15, 15 };

Eigen::MatrixXd columns()
{
    Eigen::MatrixXd out(days, 3);
    for (int i = 0; i < days; ++i)
        out.row(i) << air[i], water[i], acid[i];
    return out;
}

Eigen::VectorXd losses()
{
    return Eigen::Map<const Eigen::VectorXd>(loss, days);
}

} // namespace

// The data are as printed: least squares gives the published coefficients.
TEST(PublishedRobust, LeastSquaresOfTheStackLoss)
{
    Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic> design(days, 4);
    for (int i = 0; i < days; ++i)
        design.row(i) << 1.0L, air[i], water[i], acid[i];
    const LinearFit fit = fitLinear(design, loss);
    EXPECT_NEAR(fit.coefficients[0], -39.9197, 5e-4);
    EXPECT_NEAR(fit.coefficients[1], 0.7156, 5e-4);
    EXPECT_NEAR(fit.coefficients[2], 1.2953, 5e-4);
    EXPECT_NEAR(fit.coefficients[3], -0.1521, 5e-4);
    EXPECT_NEAR(fit.residual_sd, 3.243, 5e-4);
}

// The published fit stops when the residuals change by 1 part in 10^4, so its last figures are loose.
TEST(PublishedRobust, HuberOfTheStackLoss)
{
    const auto fit = robustLinear(columns(), losses());
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->terms[0].estimate, -41.0265, 5e-3);
    EXPECT_NEAR(fit->terms[1].estimate, 0.8294, 5e-4);
    EXPECT_NEAR(fit->terms[2].estimate, 0.9261, 1e-3);
    EXPECT_NEAR(fit->terms[3].estimate, -0.1278, 5e-4);
    EXPECT_NEAR(fit->scale, 2.441, 2e-3);
    EXPECT_NEAR(fit->terms[0].standard_error, 9.807, 0.02);
    EXPECT_NEAR(fit->terms[1].standard_error, 0.1112, 5e-4);
    EXPECT_NEAR(fit->terms[2].standard_error, 0.3034, 1e-3);
    EXPECT_NEAR(fit->terms[3].standard_error, 0.1289, 5e-4);
    EXPECT_EQ(fit->degrees_of_freedom, 17);
}

// Units do not matter, a wild value hardly does, and what cannot be fitted is refused.
TEST(Robust, UnitsWildValuesAndRefusals)
{
    const auto plain = robustLinear(columns(), losses());
    Eigen::MatrixXd scaled = columns();
    scaled.col(0) = scaled.col(0).array() * 25.4 + 1'000.0;
    const auto moved = robustLinear(scaled, losses());
    ASSERT_TRUE(plain && moved);
    EXPECT_NEAR(moved->terms[1].estimate * 25.4, plain->terms[1].estimate, 1e-9);
    EXPECT_NEAR(moved->terms[1].p, plain->terms[1].p, 1e-9);
    EXPECT_NEAR(moved->terms[2].low, plain->terms[2].low, 1e-9);

    Eigen::VectorXd wild = losses();
    wild(9) += 1'000.0;
    const auto hardly = robustLinear(columns(), wild);
    ASSERT_TRUE(hardly);
    EXPECT_NEAR(hardly->terms[1].estimate, plain->terms[1].estimate, 2.0 * plain->terms[1].standard_error);

    Eigen::MatrixXd twice(days, 2);
    twice << columns().col(0), 2.0 * columns().col(0);
    EXPECT_FALSE(robustLinear(twice, losses()));
    EXPECT_FALSE(robustLinear(columns().topRows(4), losses().head(4)));
    EXPECT_FALSE(robustLinear(columns(), columns().col(0))) << "no spread is left";
}

} // namespace WASHFAST_FILE
