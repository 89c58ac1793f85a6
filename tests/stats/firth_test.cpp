// Firth's logistic regression. Check A is the separated example asked about on the R-help list on 2007-03-15, its
// maximum confirmed by direct search; B is an identity (for a saturated 2 x 2 table the penalty adds one half to every
// cell); C was computed independently from the definition.
#include "core/stats/firth.h"

#include <cmath>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::stats;

namespace {

FirthFit fitted(const Eigen::MatrixXd& columns, const Eigen::VectorXd& failed)
{
    const auto result = firth(columns, failed);
    if (const auto* fit = std::get_if<FirthFit>(&result))
        return *fit;
    ADD_FAILURE() << "no fit";
    return {};
}

FirthTrouble trouble(const Eigen::MatrixXd& columns, const Eigen::VectorXd& failed)
{
    return std::get<FirthTrouble>(firth(columns, failed));
}

} // namespace

TEST(Firth, SeparatedExample)
{
    const Eigen::VectorXd x = Eigen::VectorXd::LinSpaced(10, 1, 10);
    Eigen::VectorXd y = Eigen::VectorXd::Zero(10);
    y.tail(3).setOnes();
    const FirthFit fit = fitted(x, y);
    EXPECT_NEAR(fit.terms[0].estimate, -7.07782, 1e-5);
    EXPECT_NEAR(fit.terms[1].estimate, 0.95170, 1e-5);
    EXPECT_NEAR(fit.penalised_log_likelihood, -1.140274, 1e-6);
    EXPECT_NEAR(fit.terms[1].p, 0.0122, 5e-5);
    EXPECT_NEAR(*fit.terms[1].low, 0.1362, 5e-5);
    EXPECT_NEAR(*fit.terms[1].high, 5.710, 5e-4);
}

TEST(Firth, SaturatedTableAddsHalfToEveryCell)
{
    Eigen::VectorXd x(10), y(10);
    x << 1, 1, 1, 1, 1, 0, 0, 0, 0, 0;
    y = x;
    const FirthFit fit = fitted(x, y);
    EXPECT_NEAR(fit.terms[1].estimate, 2.0 * std::log(11.0), 1e-7);
    EXPECT_NEAR(fit.terms[0].estimate, -std::log(11.0), 1e-7);
    EXPECT_NEAR(fit.terms[1].p, 0.0018, 5e-5);
    EXPECT_NEAR(*fit.terms[1].low, 1.521, 5e-4);
    EXPECT_NEAR(*fit.terms[1].high, 10.606, 5e-4);
}

TEST(Firth, TwoFactors)
{
    Eigen::MatrixXd x(8, 2);
    x << 1, 1, 1, 0, 1, 1, 1, 0, 0, 1, 0, 0, 0, 1, 0, 0;
    Eigen::VectorXd y(8);
    y << 1, 1, 1, 1, 1, 0, 0, 0;
    const FirthFit fit = fitted(x, y);
    EXPECT_NEAR(fit.terms[0].estimate, -1.50543, 1e-5);
    EXPECT_NEAR(fit.terms[1].estimate, 3.01086, 1e-5);
    EXPECT_NEAR(fit.terms[2].estimate, 1.36339, 1e-5);
    EXPECT_NEAR(fit.terms[1].p, 0.0471, 5e-5);
    EXPECT_NEAR(fit.terms[2].p, 0.4207, 5e-5);
    EXPECT_NEAR(fit.penalised_log_likelihood, -3.547838, 1e-6);
}

// Another unit or another zero changes the slope by that unit and nothing else.
TEST(Firth, UnitsDoNotMatter)
{
    const Eigen::VectorXd x = Eigen::VectorXd::LinSpaced(12, 1, 12);
    Eigen::VectorXd y(12);
    y << 0, 0, 1, 0, 0, 1, 0, 1, 1, 0, 1, 1;
    const FirthFit plain = fitted(x, y);
    const FirthFit moved = fitted((x * 1000.0).array() + 2.0e6, y);
    EXPECT_NEAR(moved.terms[1].estimate * 1000.0, plain.terms[1].estimate, 1e-6);
    EXPECT_NEAR(*moved.terms[1].low * 1000.0, *plain.terms[1].low, 1e-6);
    EXPECT_NEAR(*moved.terms[1].high * 1000.0, *plain.terms[1].high, 1e-6);
    EXPECT_NEAR(moved.terms[1].p, plain.terms[1].p, 1e-9);
}

// Failing and kept swapped: every sign turns.
TEST(Firth, SwappingTheOutcomeTurnsTheSigns)
{
    Eigen::MatrixXd x(10, 2);
    Eigen::VectorXd y(10);
    for (int i = 0; i < 10; ++i) {
        x.row(i) << i % 3, std::cos(i);
        y(i) = (i * i) % 7 < 3 ? 1.0 : 0.0;
    }
    const FirthFit one = fitted(x, y);
    const FirthFit other = fitted(x, Eigen::VectorXd::Ones(10) - y);
    for (std::size_t j = 0; j < 3; ++j) {
        EXPECT_NEAR(one.terms[j].estimate, -other.terms[j].estimate, 1e-6);
        EXPECT_NEAR(*one.terms[j].low, -*other.terms[j].high, 1e-5);
    }
}

TEST(Firth, SaysWhyItCannot)
{
    Eigen::MatrixXd x(6, 2);
    x << 1, 2, 2, 4, 3, 6, 4, 8, 5, 10, 6, 12;
    Eigen::VectorXd y(6);
    y << 0, 1, 0, 1, 0, 1;
    EXPECT_EQ(trouble(x, y), FirthTrouble::RankDeficient);
    EXPECT_EQ(trouble(Eigen::MatrixXd::Ones(6, 1), y), FirthTrouble::RankDeficient);
    EXPECT_EQ(trouble(x.leftCols(1), Eigen::VectorXd::Ones(6)), FirthTrouble::SameOutcome);
    EXPECT_EQ(trouble(x.topRows(2), y.head(2)), FirthTrouble::TooFewRows);
}

} // namespace WASHFAST_FILE
