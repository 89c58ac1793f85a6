// A factor with others held equal. Checked by its properties: it is right about made-up data whose cause is known, and
// says 1 when there is nothing left to tell.
#include "core/stats/draw.h"
#include "core/stats/partial.h"
#include "core/stats/permutation.h"

#include <cmath>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::stats;

namespace {

struct Data {
    Eigen::MatrixXd factor, other;
    Eigen::VectorXd outcome;
};

/// The other one makes the outcome; the factor only follows the other one.
Data followed(int n, std::uint64_t seed)
{
    Draw draw(seed);
    Data data { Eigen::MatrixXd(n, 1), Eigen::MatrixXd(n, 1), Eigen::VectorXd(n) };
    for (int i = 0; i < n; ++i) {
        data.other(i, 0) = draw.unit();
        data.factor(i, 0) = data.other(i, 0) + 0.3 * draw.unit();
        data.outcome(i) = 2.0 * data.other(i, 0) + 0.5 * draw.unit();
    }
    return data;
}

} // namespace

TEST(Partial, HoldingTheRealCauseEqualTakesTheOtherAway)
{
    int small_without = 0, small_with = 0;
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const Data data = followed(30, seed);
        const Eigen::MatrixXd none(30, 0);
        small_without += partialTest(data.factor, none, data.outcome, {}, { .draws = 199 }).p <= 0.05 ? 1 : 0;
        small_with += partialTest(data.factor, data.other, data.outcome, {}, { .draws = 199 }).p <= 0.05 ? 1 : 0;
    }
    EXPECT_EQ(small_without, 100);
    EXPECT_LE(small_with, 11); // 5 expected; 11 is passed by chance once in 200 times
}

TEST(Partial, TheRealCauseStaysWithTheOtherHeldEqual)
{
    const Data data = followed(30, 5);
    EXPECT_LE(partialTest(data.other, data.factor, data.outcome).p, 0.001);
}

TEST(Partial, WithNothingHeldItIsTheCorrelationTest)
{
    const Data data = followed(8, 3);
    const std::vector<double> x(data.factor.data(), data.factor.data() + 8);
    std::vector<double> y(data.outcome.data(), data.outcome.data() + 8);
    std::swap(y[0], y[7]);
    std::swap(y[2], y[5]);
    const Eigen::VectorXd outcome = Eigen::Map<const Eigen::VectorXd>(y.data(), 8);
    const double exact = correlationTest(x, y).p;
    const double drawn = partialTest(data.factor, Eigen::MatrixXd(8, 0), outcome, {}, { .draws = 39'999 }).p;
    EXPECT_NEAR(drawn, exact, 4.0 * std::sqrt(exact * (1.0 - exact) / 39'999.0));
}

TEST(Partial, WhatTheOthersGiveExactlyIsUndecided)
{
    const Data data = followed(20, 9);
    const Eigen::MatrixXd same = data.other * 3.0 + Eigen::MatrixXd::Constant(20, 1, 1.0e6);
    EXPECT_EQ(partialTest(data.other, same, data.outcome).p, 1.0);
    std::vector<int> block;
    for (int i = 0; i < 20; ++i)
        block.push_back(data.other(i, 0) > 0.5 ? 1 : 0);
    Eigen::MatrixXd of_block(20, 1);
    for (int i = 0; i < 20; ++i)
        of_block(i, 0) = block[static_cast<std::size_t>(i)];
    EXPECT_EQ(partialTest(of_block, Eigen::MatrixXd(20, 0), data.outcome, block).p, 1.0);
}

TEST(Partial, OrderDoesNotMatter)
{
    const Data data = followed(25, 11);
    const double forward = partialTest(data.factor, data.other, data.outcome).p;
    EXPECT_EQ(partialTest(data.factor.colwise().reverse(), data.other.colwise().reverse(), data.outcome.reverse()).p,
        forward);
}

TEST(Partial, MayStopEarly)
{
    const Data data = followed(30, 21);
    const TestResult full = partialTest(data.factor, data.other, data.outcome, {}, { .draws = 9'999 });
    const TestResult early = partialTest(data.factor, data.other, data.outcome, {}, { .draws = 9'999, .stop_at = 200 });
    ASSERT_GT(full.p, 0.05);
    EXPECT_LT(early.arrangements, full.arrangements);
    EXPECT_NEAR(early.p, full.p, 4.0 * full.p / std::sqrt(200.0));
}

} // namespace WASHFAST_FILE
