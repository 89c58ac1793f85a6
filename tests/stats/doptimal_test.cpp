// Rows that add most to det(X'X). The determinants are of small matrices of whole numbers and can be worked by hand.
#include "core/stats/doptimal.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::stats;

namespace {

Eigen::MatrixXd rows(std::initializer_list<std::array<double, 3>> list)
{
    Eigen::MatrixXd out(static_cast<Eigen::Index>(list.size()), 3);
    Eigen::Index i = 0;
    for (const auto& row : list) {
        out.row(i) << row[0], row[1], row[2];
        ++i;
    }
    return out;
}

// Two causes that always went together: both in two prints, neither in two.
Eigen::MatrixXd tangled()
{
    return rows({ { 1, 1, 1 }, { 1, 1, 1 }, { 1, 0, 0 }, { 1, 0, 0 } });
}

double determinantWith(std::initializer_list<std::array<double, 3>> more)
{
    const double log = logDeterminant(information(tangled()) + information(rows(more)));
    return std::exp(log);
}

} // namespace

TEST(DOptimal, DeterminantsWorkedByHand)
{
    EXPECT_EQ(std::exp(logDeterminant(information(tangled()))), 0.0);
    EXPECT_EQ(determinantWith({ { 1, 1, 1 } }), 0.0);
    EXPECT_EQ(determinantWith({ { 1, 0, 0 } }), 0.0);
    EXPECT_NEAR(determinantWith({ { 1, 1, 0 } }), 4.0, 1e-9);
    EXPECT_NEAR(determinantWith({ { 1, 0, 1 } }), 4.0, 1e-9);
    EXPECT_NEAR(determinantWith({ { 1, 1, 0 }, { 1, 0, 1 } }), 12.0, 1e-9);
    EXPECT_NEAR(determinantWith({ { 1, 1, 0 }, { 1, 1, 0 } }), 8.0, 1e-9);
    EXPECT_NEAR(determinantWith({ { 1, 1, 0 }, { 1, 1, 1 } }), 6.0, 1e-9);
}

TEST(DOptimal, SplitsThePairThatWentTogether)
{
    const Eigen::MatrixXd candidates = rows({ { 1, 0, 0 }, { 1, 1, 0 }, { 1, 0, 1 }, { 1, 1, 1 } });
    EXPECT_EQ(augmentDOptimally(tangled(), candidates, 2), (std::vector<std::size_t> { 1, 2 }));
    EXPECT_EQ(augmentDOptimally(tangled(), candidates, 4), (std::vector<std::size_t> { 1, 1, 2, 2 }));
}

// With nothing there, four runs for two factors are the full square, whose determinant no other four reach.
TEST(DOptimal, FromNothingTheFullSquare)
{
    const Eigen::MatrixXd candidates = rows({ { 1, -1, -1 }, { 1, 1, -1 }, { 1, -1, 1 }, { 1, 1, 1 } });
    EXPECT_EQ(augmentDOptimally(Eigen::MatrixXd(0, 3), candidates, 4, 0.01), (std::vector<std::size_t> { 0, 1, 2, 3 }));
}

TEST(DOptimal, NoCandidatesNoRows)
{
    EXPECT_TRUE(augmentDOptimally(tangled(), Eigen::MatrixXd(0, 3), 4).empty());
}

} // namespace WASHFAST_FILE
