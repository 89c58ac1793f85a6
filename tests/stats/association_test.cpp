// Association between columns, and what moves together.
#include "core/stats/association.h"
#include "core/stats/collinearity.h"

#include <cmath>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::stats;

TEST(Association, Correlations)
{
    const std::vector<double> x { 1, 2, 3, 4, 5 };
    const std::vector<double> cubes { 1, 8, 27, 64, 125 };
    const std::vector<double> down { 5, 4, 3, 2, 1 };
    EXPECT_NEAR(*spearman(x, cubes), 1.0, 1e-12);
    EXPECT_LT(*pearson(x, cubes), 1.0);
    EXPECT_NEAR(*pearson(x, down), -1.0, 1e-12);
    EXPECT_FALSE(pearson(x, std::vector<double>(5, 0.3)));
}

// Two yes/no columns that agree in 7 of 8 trials, 4 and 5 of them yes: r = 0.7746, and one trial carries it all.
TEST(Association, SevenOfEight)
{
    const std::vector<int> a { 1, 1, 1, 1, 0, 0, 0, 0 };
    const std::vector<int> b { 1, 1, 1, 1, 1, 0, 0, 0 };
    EXPECT_NEAR(cramersV(a, b)->plain, 0.7746, 5e-5);
    EXPECT_EQ(printsThatDisagree(a, b), 1);
    Eigen::MatrixXd columns(8, 2);
    for (int i = 0; i < 8; ++i) {
        columns(i, 0) = a[static_cast<std::size_t>(i)];
        columns(i, 1) = b[static_cast<std::size_t>(i)];
    }
    const auto vif = varianceInflation(columns);
    EXPECT_NEAR(*vif[0], 2.5, 1e-9);
    EXPECT_NEAR(*vif[1], 2.5, 1e-9);
}

TEST(Association, OppositesDoNotDisagree)
{
    EXPECT_EQ(printsThatDisagree(std::vector<int> { 1, 0, 1, 0 }, std::vector<int> { 0, 1, 0, 1 }), 0);
}

TEST(Association, CramersVOfChoices)
{
    const std::vector<int> a { 0, 0, 1, 1, 2, 2 };
    EXPECT_NEAR(cramersV(a, a)->plain, 1.0, 1e-12);
    const std::vector<int> halves { 0, 1, 0, 1, 0, 1 };
    EXPECT_NEAR(cramersV(a, halves)->plain, 0.0, 1e-7);
    EXPECT_FALSE(cramersV(a, std::vector<int>(6, 0)));
}

// Nearly as many choices as prints: the plain measure is large by chance alone, the corrected one is not.
TEST(Association, ManyChoicesAreCorrectedFor)
{
    std::vector<int> many, halves;
    std::vector<double> values;
    for (int i = 0; i < 20; ++i) {
        many.push_back(i / 2);
        halves.push_back(i % 4 == 0 || i % 8 == 5 ? 1 : 0);
        values.push_back(std::sin(i * i * 7.3));
    }
    EXPECT_GT(cramersV(many, halves)->plain, 0.5);
    EXPECT_LT(cramersV(many, halves)->corrected, 0.6 * cramersV(many, halves)->plain);
    EXPECT_LT(correlationRatio(many, values)->corrected, 0.6 * correlationRatio(many, values)->plain);
}

TEST(Association, CorrelationRatio)
{
    const std::vector<int> choice { 0, 0, 1, 1 };
    EXPECT_NEAR(correlationRatio(choice, std::vector<double> { 1, 1, 5, 5 })->plain, 1.0, 1e-12);
    // Means 2 and 4 about 3: between 4, within 4, so eta^2 = 1/2.
    EXPECT_NEAR(correlationRatio(choice, std::vector<double> { 1, 3, 3, 5 })->plain, std::sqrt(0.5), 1e-12);
}

TEST(Association, BestCut)
{
    const std::vector<double> x { 5, 1, 3, 4, 2 };
    const auto cut = bestCut(x, std::vector<int> { 1, 0, 0, 1, 0 });
    ASSERT_TRUE(cut);
    EXPECT_EQ(cut->disagree, 0);
    EXPECT_TRUE(cut->above_is_one);
    EXPECT_DOUBLE_EQ(cut->at, 3.5);
    EXPECT_FALSE(bestCut(x, std::vector<int> { 0, 1, 1, 0, 1 })->above_is_one);
    EXPECT_FALSE(bestCut(std::vector<double> { 2, 2 }, std::vector<int> { 0, 1 }));
}

// Belsley, Kuh and Welsch, Regression Diagnostics (1980), example of p. 161: singular values and condition indices.
TEST(Collinearity, BelsleyKuhWelsch)
{
    Eigen::MatrixXd x(6, 5);
    x << -74, 80, 18, -56, -112, 14, -69, 21, 52, 104, 66, -72, -5, 764, 1528, -12, 66, -30, 4096, 8192, 3, 8, -7,
        -13276, -26552, 4, -12, 4, 8421, 16842;
    const Conditioning all = conditioning(x);
    const double values[] = { 1.414214, 1.361734, 1.066707, 0.088404 };
    const double indices[] = { 1.0, 1.0385, 1.3258, 15.997 };
    for (int k = 0; k < 4; ++k) {
        EXPECT_NEAR(all.singular_values(k), values[k], 1e-6);
        EXPECT_NEAR(all.condition_indices(k), indices[k], k == 3 ? 5e-4 : 5e-5);
    }
    EXPECT_GT(all.condition_indices(4), 1e12);
    EXPECT_EQ(rankOf(x), 4);
    EXPECT_FALSE(varianceInflation(x)[4]); // no more rows than columns and a constant

    const Conditioning four = conditioning(x.leftCols(4));
    const double proportions[] = { .994, .994, .953, .000 };
    for (int j = 0; j < 4; ++j)
        EXPECT_NEAR(four.variance_proportions(3, j), proportions[j], 6e-4);
    EXPECT_NEAR(four.condition_indices(3), 15.4035, 5e-5);
}

TEST(Collinearity, ExactDependencyHasNoInflation)
{
    Eigen::MatrixXd x(8, 3);
    for (int i = 0; i < 8; ++i)
        x.row(i) << i, i * i % 5, 2.0 * i + 7.0;
    const auto vif = varianceInflation(x);
    EXPECT_FALSE(vif[0]);
    EXPECT_TRUE(vif[1]);
    EXPECT_FALSE(vif[2]);
}

} // namespace WASHFAST_FILE
