// Intervals for shares and shifts. The shares' worked values are published formulas evaluated independently to four
// places; the Mann-Whitney counts are those of the usual tables.
#include "core/stats/proportion.h"
#include "core/stats/ranks.h"
#include "core/stats/shift.h"

#include <gtest/gtest.h>
#include <numeric>

namespace WASHFAST_FILE {

using namespace washfast::stats;

namespace {

struct Share {
    int successes, total;
    double exact_low, exact_high, wilson_low, wilson_high;
};

} // namespace

TEST(Proportion, ClopperPearsonAndWilson)
{
    const Share shares[] = { { 0, 5, 0.0, 0.5218, 0.0, 0.4345 }, { 3, 5, 0.1466, 0.9473, 0.2307, 0.8824 },
        { 5, 5, 0.4782, 1.0, 0.5655, 1.0 }, { 0, 10, 0.0, 0.3085, 0.0, 0.2775 },
        { 8, 10, 0.4439, 0.9748, 0.4902, 0.9433 } };
    for (const Share& share : shares) {
        SCOPED_TRACE(testing::Message() << share.successes << " of " << share.total);
        const Interval exact = clopperPearson(share.successes, share.total);
        EXPECT_NEAR(exact.low, share.exact_low, 6e-5);
        EXPECT_NEAR(exact.high, share.exact_high, 6e-5);
        const Interval score = wilson(share.successes, share.total);
        EXPECT_NEAR(score.low, share.wilson_low, 6e-5);
        EXPECT_NEAR(score.high, share.wilson_high, 6e-5);
    }
}

// Newcombe, Stat. Med. 17 (1998) 873, table II, method 10: 56/70 against 48/80 gives 0.0524 to 0.3339, 9/10 against
// 3/10 gives 0.1705 to 0.8090, 10/10 against 0/10 gives 0.6075 to 1 (the published numbers quoted from memory).
TEST(Proportion, NewcombesExamples)
{
    const Difference large = riskDifference(56, 70, 48, 80);
    EXPECT_NEAR(large.value, 0.2, 1e-12);
    EXPECT_NEAR(large.interval.low, 0.0524, 6e-5);
    EXPECT_NEAR(large.interval.high, 0.3339, 6e-5);
    const Difference small = riskDifference(9, 10, 3, 10);
    EXPECT_NEAR(small.interval.low, 0.1705, 6e-5);
    EXPECT_NEAR(small.interval.high, 0.8090, 6e-5);
    const Difference full = riskDifference(10, 10, 0, 10);
    EXPECT_NEAR(full.interval.low, 0.6075, 6e-5);
    EXPECT_NEAR(full.interval.high, 1.0, 1e-12);
}

TEST(Proportion, FiveOfFiveAgainstOneOfFive)
{
    const Difference difference = riskDifference(5, 5, 1, 5);
    EXPECT_NEAR(difference.value, 0.80, 1e-12);
    EXPECT_NEAR(difference.interval.low, 0.193, 5e-4);
    EXPECT_NEAR(difference.interval.high, 0.964, 5e-4);
}

TEST(Shift, DensitiesOfThreeAndThree)
{
    const std::vector<double> kept { 1.10, 1.05, 1.20 };
    const std::vector<double> failed { 0.40, 0.70, 0.55 };
    const auto shift = hodgesLehmann(kept, failed);
    ASSERT_TRUE(shift);
    EXPECT_NEAR(shift->value, 0.55, 1e-12);
    // The smallest tail is 1/20 = 0.05: no 95 % interval exists, a 90 % interval does.
    EXPECT_FALSE(shift->low);
    const auto wider = hodgesLehmann(kept, failed, 0.90);
    ASSERT_TRUE(wider && wider->low && wider->high);
    EXPECT_NEAR(*wider->low, 0.35, 1e-12);
    EXPECT_NEAR(*wider->high, 0.80, 1e-12);
    EXPECT_NEAR(wider->achieved_confidence, 0.90, 1e-12);
}

TEST(Shift, MannWhitneyCounts)
{
    // C(5,2) = 10 orders of 2 and 3 values: counts 1 1 2 2 2 1 1 for U = 0 .. 6.
    const std::vector<double> expected { 0.1, 0.1, 0.2, 0.2, 0.2, 0.1, 0.1 };
    const std::vector<double> found = mannWhitneyDistribution(2, 3);
    ASSERT_EQ(found.size(), expected.size());
    for (std::size_t i = 0; i < found.size(); ++i)
        EXPECT_NEAR(found[i], expected[i], 1e-12);
    // Tables of the Mann-Whitney test: for 8 and 8 the two-sided 5 % point is 13, for 5 and 5 it is 2, for 10 and 10 it
    // is 23.
    for (const auto& [n, critical] : { std::pair { 8, 13 }, { 5, 2 }, { 10, 23 } }) {
        const std::vector<double> p = mannWhitneyDistribution(n, n);
        const double tail = std::accumulate(p.begin(), p.begin() + critical + 1, 0.0);
        EXPECT_LE(tail, 0.025);
        EXPECT_GT(tail + p[static_cast<std::size_t>(critical) + 1], 0.025);
        EXPECT_NEAR(std::accumulate(p.begin(), p.end(), 0.0), 1.0, 1e-12);
    }
}

TEST(Shift, AddingToOneGroupMovesTheEstimate)
{
    const std::vector<double> a { 3.1, 4.7, 2.2, 5.9, 4.4, 3.8 };
    std::vector<double> b { 2.9, 1.7, 3.3, 2.1, 4.0 };
    const auto before = hodgesLehmann(a, b);
    for (double& value : b)
        value -= 10.0;
    const auto after = hodgesLehmann(a, b);
    ASSERT_TRUE(before && after && before->low && after->low);
    EXPECT_NEAR(after->value, before->value + 10.0, 1e-12);
    EXPECT_NEAR(*after->low, *before->low + 10.0, 1e-12);
    EXPECT_NEAR(*after->high, *before->high + 10.0, 1e-12);
}

TEST(Shift, BlocksAreComparedWithinThemselves)
{
    const std::vector<ShiftStratum> blocks { { { 101, 102, 103 }, { 100, 101, 102 } }, { { 2, 3, 4 }, { 1, 2, 3 } } };
    const auto shift = hodgesLehmann(blocks);
    ASSERT_TRUE(shift);
    EXPECT_NEAR(shift->value, 1.0, 1e-12);
}

TEST(Shift, LargeGroupsByNormalApproximationAreClose)
{
    std::vector<double> a, b;
    for (int i = 0; i < 64; ++i) {
        a.push_back(i * 1.01 + 5.0);
        b.push_back(i * 0.99);
    }
    const auto approximate = hodgesLehmann(a, b);
    a.resize(62);
    b.resize(62);
    const auto exact = hodgesLehmann(a, b);
    ASSERT_TRUE(approximate && exact);
    EXPECT_FALSE(approximate->exact);
    EXPECT_TRUE(exact->exact);
    EXPECT_NEAR(*approximate->high - *approximate->low, *exact->high - *exact->low, 1.0);
}

TEST(Shift, NothingToCompare)
{
    EXPECT_FALSE(hodgesLehmann(std::vector<double> {}, std::vector<double> { 1.0 }));
}

TEST(Ranks, TiesShare)
{
    EXPECT_EQ(midranks(std::vector<double> { 3, 1, 3, 2 }), (std::vector<double> { 3.5, 1, 3.5, 2 }));
    EXPECT_EQ(*median(std::vector<double> { 4, 1, 3, 2 }), 2.5);
    EXPECT_FALSE(median(std::vector<double> {}));
}

} // namespace WASHFAST_FILE
