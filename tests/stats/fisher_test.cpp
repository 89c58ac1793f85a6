// Exact tests of counts. The worked p-values are sums of hypergeometric probabilities that can be done by hand: for 3
// of 3 against 0 of 3 it is 2 / C(6,3) = 0.1.
#include "core/stats/fisher.h"
#include "core/stats/permutation.h"

#include <cmath>
#include <gtest/gtest.h>
#include <vector>

namespace WASHFAST_FILE {

using namespace washfast::stats;

namespace {

double twoSided(int a, int b, int c, int d)
{
    return fisher({ a, b, c, d }).two_sided;
}

/// A plain count over all choices of who failed, as an independent check.
double bruteForce(const std::vector<TwoByTwo>& strata)
{
    std::vector<double> ways { 1.0 };
    int observed = 0;
    for (const TwoByTwo& table : strata) {
        observed += table.with_failed;
        std::vector<double> here(static_cast<std::size_t>(table.with()) + 1, 0.0);
        for (unsigned mask = 0; mask < (1U << table.total()); ++mask) {
            if (__builtin_popcount(mask) != table.failed())
                continue;
            here[static_cast<std::size_t>(__builtin_popcount(mask & ((1U << table.with()) - 1U)))] += 1.0;
        }
        std::vector<double> next(ways.size() + here.size() - 1, 0.0);
        for (std::size_t i = 0; i < ways.size(); ++i)
            for (std::size_t j = 0; j < here.size(); ++j)
                next[i + j] += ways[i] * here[j];
        ways = next;
    }
    double all = 0.0, extreme = 0.0;
    for (const double w : ways) {
        all += w;
        extreme += w <= ways[static_cast<std::size_t>(observed)] ? w : 0.0;
    }
    return extreme / all;
}

} // namespace

TEST(Fisher, WorkedTables)
{
    EXPECT_NEAR(twoSided(3, 0, 0, 3), 2.0 / 20.0, 1e-12);
    EXPECT_NEAR(twoSided(4, 0, 0, 4), 2.0 / 70.0, 1e-12);
    EXPECT_NEAR(twoSided(5, 0, 0, 5), 2.0 / 252.0, 1e-12);
    EXPECT_NEAR(twoSided(4, 1, 1, 4), 0.20635, 5e-6);
    EXPECT_NEAR(twoSided(5, 1, 1, 5), 0.08009, 5e-6);
    EXPECT_NEAR(twoSided(7, 1, 2, 6), 0.04056, 5e-6);
    EXPECT_NEAR(twoSided(6, 0, 1, 5), 0.01515, 5e-6);
}

TEST(Fisher, OneSided)
{
    EXPECT_NEAR(fisher({ 4, 0, 0, 4 }).greater, 1.0 / 70.0, 1e-12);
    EXPECT_NEAR(fisher({ 4, 0, 0, 4 }).less, 1.0, 1e-12);
    EXPECT_NEAR(fisher({ 0, 6, 6, 0 }).less, 1.0 / 924.0, 1e-12);
}

TEST(Fisher, EmptyMarginsSayNothing)
{
    EXPECT_EQ(twoSided(0, 0, 0, 0), 1.0);
    EXPECT_EQ(twoSided(5, 0, 3, 0), 1.0);
    EXPECT_EQ(twoSided(0, 0, 3, 4), 1.0);
}

TEST(Fisher, SwappingRowsOrColumnsChangesNothing)
{
    for (int a = 0; a <= 6; ++a)
        for (int c = 0; c <= 5; ++c) {
            const double p = twoSided(a, 6 - a, c, 5 - c);
            EXPECT_NEAR(p, twoSided(c, 5 - c, a, 6 - a), 1e-12);
            EXPECT_NEAR(p, twoSided(6 - a, a, 5 - c, c), 1e-12);
            EXPECT_NEAR(p, bruteForce({ { a, 6 - a, c, 5 - c } }), 1e-9);
        }
}

TEST(Fisher, LargeTablesStayFinite)
{
    const double p = twoSided(400, 600, 600, 400);
    EXPECT_GT(p, 0.0);
    EXPECT_LT(p, 1e-15);
}

TEST(StratifiedExact, AgreesWithCounting)
{
    const std::vector<TwoByTwo> strata { { 3, 1, 1, 3 }, { 2, 2, 0, 4 }, { 4, 0, 3, 1 } };
    EXPECT_NEAR(stratifiedExact(strata).two_sided, bruteForce(strata), 1e-9);
}

TEST(StratifiedExact, OneStratumIsFisher)
{
    const std::vector<TwoByTwo> strata { { 5, 1, 1, 5 } };
    EXPECT_DOUBLE_EQ(stratifiedExact(strata).two_sided, twoSided(5, 1, 1, 5));
}

TEST(StratifiedExact, StrataWithoutInformationChangeNothing)
{
    const std::vector<TwoByTwo> some { { 3, 0, 0, 3 }, { 2, 0, 0, 2 } };
    std::vector<TwoByTwo> more = some;
    more.push_back({ 7, 0, 4, 0 }); // all failed
    more.push_back({ 2, 5, 0, 0 }); // all with
    EXPECT_NEAR(stratifiedExact(some).two_sided, stratifiedExact(more).two_sided, 1e-12);
}

// A factor that only differs between the strata has nothing to say within them.
TEST(StratifiedExact, FactorThatFollowsTheStrataIsUndecided)
{
    const std::vector<TwoByTwo> strata { { 5, 0, 0, 0 }, { 0, 0, 0, 5 } };
    EXPECT_EQ(stratifiedExact(strata).two_sided, 1.0);
}

TEST(FreemanHalton, TwoRowsAreFisher)
{
    const std::vector<FailedKept> rows { { 5, 1 }, { 1, 5 } };
    const TestResult result = freemanHalton(rows);
    EXPECT_TRUE(result.enumerated);
    EXPECT_NEAR(result.p, twoSided(5, 1, 1, 5), 1e-12);
}

// Three levels of two prints, one of them all failed: the 15 ways to choose 2 of 6 give six tables in two classes, with
// probabilities 1/15 (both in one row) and 4/15; the first class has p = 3/15.
TEST(FreemanHalton, ByHand)
{
    const std::vector<FailedKept> pure { { 2, 0 }, { 0, 2 }, { 0, 2 } };
    const TestResult result = freemanHalton(pure);
    EXPECT_NEAR(result.p, 3.0 / 15.0, 1e-12);
    EXPECT_EQ(result.arrangements, 6U);
    const std::vector<FailedKept> mixed { { 1, 1 }, { 1, 1 }, { 0, 2 } };
    EXPECT_NEAR(freemanHalton(mixed).p, 1.0, 1e-12);
}

TEST(FreemanHalton, MonteCarloAgreesWithEnumeration)
{
    const std::vector<FailedKept> rows { { 4, 2 }, { 1, 6 }, { 3, 3 }, { 0, 5 } };
    const double exact = freemanHalton(rows).p;
    const TestResult drawn = freemanHalton(rows, { .draws = 99'999 }, 1);
    EXPECT_FALSE(drawn.enumerated);
    EXPECT_NEAR(drawn.p, exact, 4.0 * std::sqrt(exact * (1.0 - exact) / 99'999.0));
}

TEST(FreemanHalton, OrderOfRowsDoesNotMatterEvenWhenDrawn)
{
    const std::vector<FailedKept> rows { { 4, 2 }, { 1, 6 }, { 3, 3 }, { 0, 5 } };
    const std::vector<FailedKept> turned { { 0, 5 }, { 3, 3 }, { 4, 2 }, { 1, 6 } };
    EXPECT_EQ(freemanHalton(rows, {}, 1).p, freemanHalton(turned, {}, 1).p);
}

} // namespace WASHFAST_FILE
