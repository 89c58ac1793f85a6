// Permutation tests against counts done by hand and against Fisher's test, of which they are the general case.
#include "core/stats/fisher.h"
#include "core/stats/permutation.h"

#include <cmath>
#include <gtest/gtest.h>
#include <vector>

namespace WASHFAST_FILE {

using namespace washfast::stats;

// The densities {1.10, 1.05, 1.20} against {0.40, 0.70, 0.55}: the observed split and its mirror are the only two of
// the C(6,3) = 20 that are as extreme, so p = 0.1.
TEST(DifferenceOfMeans, SeparatedThreeAndThree)
{
    const std::vector<double> values { 1.10, 1.05, 1.20, 0.40, 0.70, 0.55 };
    const std::vector<int> group { 1, 1, 1, 0, 0, 0 };
    const TestResult result = differenceOfMeansTest(values, group);
    EXPECT_TRUE(result.enumerated);
    EXPECT_EQ(result.arrangements, 20U);
    EXPECT_NEAR(result.p, 0.1, 1e-12);
}

// For equal groups of zeros and ones the difference of means orders the tables as their probability does.
TEST(DifferenceOfMeans, OfZerosAndOnesIsFisher)
{
    const std::vector<double> failed { 1, 1, 1, 1, 1, 0, 1, 0, 0, 0, 0, 0 };
    const std::vector<int> group { 1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0 };
    EXPECT_NEAR(differenceOfMeansTest(failed, group).p, fisher({ 5, 1, 1, 5 }).two_sided, 1e-12);
}

TEST(DifferenceOfMeans, WithinBlocks)
{
    // Two blocks of two: 4 arrangements, the observed one and its mirror are extreme.
    const std::vector<double> values { 1.0, 2.0, 11.0, 12.0 };
    const std::vector<int> group { 0, 1, 0, 1 };
    const std::vector<int> block { 1, 1, 2, 2 };
    const TestResult result = differenceOfMeansTest(values, group, block);
    EXPECT_EQ(result.arrangements, 4U);
    EXPECT_NEAR(result.p, 0.5, 1e-12);
}

// A group that is one block against the other cannot be told from the blocks.
TEST(DifferenceOfMeans, GroupThatIsTheBlockSaysNothing)
{
    const std::vector<double> values { 1.0, 2.0, 11.0, 12.0 };
    const std::vector<int> group { 0, 0, 1, 1 };
    EXPECT_EQ(differenceOfMeansTest(values, group, group).p, 1.0);
}

TEST(DifferenceOfMeans, NothingVaries)
{
    const std::vector<double> same(8, 0.1);
    const std::vector<int> group { 0, 1, 0, 1, 0, 1, 0, 1 };
    EXPECT_EQ(differenceOfMeansTest(same, group).p, 1.0);
}

TEST(DifferenceOfMeans, OrderDoesNotMatterEvenWhenDrawn)
{
    std::vector<double> values;
    std::vector<int> group;
    for (int i = 0; i < 40; ++i) {
        values.push_back(std::sin(i * 1.7) + (i % 2) * 0.4);
        group.push_back(i % 2);
    }
    const TestResult forward = differenceOfMeansTest(values, group);
    EXPECT_FALSE(forward.enumerated);
    EXPECT_EQ(forward.arrangements, 9'999U);
    const std::vector<double> back(values.rbegin(), values.rend());
    const std::vector<int> group_back(group.rbegin(), group.rend());
    EXPECT_EQ(differenceOfMeansTest(back, group_back).p, forward.p);
}

TEST(DifferenceOfMeans, MonteCarloAgreesWithEnumeration)
{
    std::vector<double> values;
    std::vector<int> group;
    for (int i = 0; i < 16; ++i) {
        values.push_back(std::cos(i * 2.3) + (i < 8 ? 0.5 : 0.0));
        group.push_back(i < 8 ? 1 : 0);
    }
    const double exact = differenceOfMeansTest(values, group).p;
    const TestResult drawn
        = differenceOfMeansTest(values, group, {}, { .enumerate_up_to = 10, .draws = 49'999, .seed = 7 });
    EXPECT_FALSE(drawn.enumerated);
    EXPECT_NEAR(drawn.p, exact, 4.0 * std::sqrt(exact * (1.0 - exact) / 49'999.0));
}

TEST(DifferenceOfMeans, DrawnPIsNeverZero)
{
    std::vector<double> values;
    std::vector<int> group;
    for (int i = 0; i < 200; ++i) {
        values.push_back(i);
        group.push_back(i < 100 ? 0 : 1);
    }
    EXPECT_NEAR(differenceOfMeansTest(values, group).p, 1.0 / 10'000.0, 1e-12);
}

// Values far from zero and hardly different must not turn rounding into evidence.
TEST(DifferenceOfMeans, TiesSurviveRounding)
{
    const std::vector<double> values { 1e6 + 0.1, 1e6 + 0.3, 1e6 + 0.1, 1e6 + 0.3, 1e6 + 0.1, 1e6 + 0.3 };
    const std::vector<int> group { 1, 1, 1, 0, 0, 0 };
    const std::vector<double> small { 0.1, 0.3, 0.1, 0.3, 0.1, 0.3 };
    EXPECT_NEAR(differenceOfMeansTest(values, group).p, differenceOfMeansTest(small, group).p, 1e-12);
}

TEST(SignFlip, ByHand)
{
    const std::vector<double> differences { 1.0, 2.0, 3.0 };
    EXPECT_NEAR(signFlipTest(differences).p, 2.0 / 8.0, 1e-12);
    EXPECT_EQ(signFlipTest(std::vector<double> { 0.0, 0.0 }).p, 1.0);
}

// 4 values in perfect order: of 24 orders only the same and the reverse are as extreme.
TEST(Correlation, ByHand)
{
    const std::vector<double> x { 1, 2, 3, 4 };
    const std::vector<double> y { 10, 20, 30, 40 };
    const TestResult result = correlationTest(x, y);
    EXPECT_EQ(result.arrangements, 24U);
    EXPECT_NEAR(result.p, 2.0 / 24.0, 1e-12);
}

TEST(Correlation, WithZerosAndOnesIsTheDifferenceOfMeans)
{
    const std::vector<double> x { 0.3, 1.9, 0.7, 2.5, 1.1, 2.2, 0.2, 1.6 };
    const std::vector<double> y { 0, 1, 0, 1, 1, 1, 0, 0 };
    const std::vector<int> group { 0, 1, 0, 1, 1, 1, 0, 0 };
    EXPECT_NEAR(correlationTest(x, y).p, differenceOfMeansTest(x, group).p, 1e-12);
}

TEST(GroupMeans, OfTwoGroupsIsTheDifferenceOfMeans)
{
    const std::vector<double> values { 0.3, 1.9, 0.7, 2.5, 1.1, 2.2, 0.2 };
    const std::vector<int> group { 0, 1, 0, 1, 0, 1, 1 };
    EXPECT_NEAR(groupMeansTest(values, group).p, differenceOfMeansTest(values, group).p, 1e-12);
}

// Three groups of two with the pairs (1,2), (3,4), (5,6): 90 ways to deal the values, 6 of them (the orders of the
// groups) give the same pairs, and no other has as large a sum of squares between groups.
TEST(GroupMeans, ByHand)
{
    const std::vector<double> values { 1, 2, 3, 4, 5, 6 };
    const std::vector<int> group { 0, 0, 1, 1, 2, 2 };
    EXPECT_NEAR(groupMeansTest(values, group).p, 6.0 / 90.0, 1e-12);
}

} // namespace WASHFAST_FILE
