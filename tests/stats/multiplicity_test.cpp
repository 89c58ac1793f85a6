// Adjusted p-values and honest sample sizes.
#include "core/stats/multiplicity.h"
#include "core/stats/power.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::stats;

TEST(BenjaminiHochberg, WorkedByHand)
{
    const std::vector<double> q = benjaminiHochberg(std::vector<double> { 0.01, 0.04, 0.03, 0.005 });
    const std::vector<double> expected { 0.02, 0.04, 0.04, 0.02 };
    for (std::size_t i = 0; i < q.size(); ++i)
        EXPECT_NEAR(q[i], expected[i], 1e-12);
}

TEST(BenjaminiHochberg, NeverSmallerNeverAboveOne)
{
    const std::vector<double> p { 0.9, 0.2, 1.0, 0.0001, 0.2 };
    const std::vector<double> q = benjaminiHochberg(p);
    for (std::size_t i = 0; i < p.size(); ++i) {
        EXPECT_GE(q[i], p[i]);
        EXPECT_LE(q[i], 1.0);
    }
    EXPECT_TRUE(benjaminiHochberg(std::vector<double> {}).empty());
}

namespace {

struct Power {
    int per_group;
    double a, b, c, d; // .95 v .05, .90 v .20, .80 v .30, .70 v .40
};

} // namespace

// Exact power of Fisher's test at 0.05, computed independently from the binomial and hypergeometric definitions and
// given to two places. A value that prints as a half-way case is allowed 0.006.
TEST(Power, TableOfExactPower)
{
    const Power table[] = { { 4, .66, .27, .10, .03 }, { 5, .91, .54, .24, .09 }, { 6, .88, .44, .16, .04 },
        { 8, .99, .79, .40, .13 }, { 10, 1.0, .84, .43, .12 }, { 12, 1.0, .95, .61, .21 }, { 20, 1.0, 1.0, .85, .35 } };
    for (const Power& row : table) {
        SCOPED_TRACE(row.per_group);
        EXPECT_NEAR(fisherPower(row.per_group, .95, .05), row.a, 0.006);
        EXPECT_NEAR(fisherPower(row.per_group, .90, .20), row.b, 0.006);
        EXPECT_NEAR(fisherPower(row.per_group, .80, .30), row.c, 0.006);
        EXPECT_NEAR(fisherPower(row.per_group, .70, .40), row.d, 0.006);
    }
}

TEST(Power, NothingToFindIsFoundRarely)
{
    for (int n = 3; n <= 20; ++n)
        EXPECT_LE(fisherPower(n, 0.4, 0.4), 0.05);
}

TEST(Power, PrintsPerGroupReallyReachesIt)
{
    const auto n = printsPerGroup(0.9, 0.2);
    ASSERT_TRUE(n);
    EXPECT_GE(fisherPower(*n, 0.9, 0.2), 0.8);
    EXPECT_LT(fisherPower(*n - 1, 0.9, 0.2), 0.8);
    EXPECT_FALSE(printsPerGroup(0.5, 0.45, 0.05, 0.8, 30));
}

} // namespace WASHFAST_FILE
