// The numbers of the teaching sheet, worked out by hand, and half equations that balance.
#include "core/chemistry/teaching.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;

namespace {

Audit traditional()
{
    Batch batch;
    batch.volume_ml = 200;
    batch.parts = { { QStringLiteral("ammonium iron(III) citrate green"), 25.0, std::nullopt },
        { QStringLiteral("K3[Fe(CN)6]"), 10.0, std::nullopt } };
    return audit(batch);
}

} // namespace

TEST(Teaching, EveryEquationBalances)
{
    Batch oxalate;
    oxalate.volume_ml = 100;
    oxalate.parts = { { QStringLiteral("(NH4)3[Fe(C2O4)3].3H2O"), 30.0, std::nullopt } };
    for (const auto& one : { traditional(), audit(oxalate) })
        for (const auto& equation : equationsFor(one))
            EXPECT_TRUE(equation.balanced()) << equation.pretty().toStdString();
    Equation wrong { {}, { { 1, QStringLiteral("Fe^3+") } }, { { 1, QStringLiteral("Fe^2+") } }, {} };
    EXPECT_FALSE(wrong.balanced());
}

// 15 mL/m2 of the traditional mix: iron 0.33575 x 15 = 5.036, hexacyanoferrate 0.15186 x 15 = 2.278 mmol/m2, which
// limits; blue 2.278 x 306.90 = 699 mg/m2; A5 is 0.03108 m2: 21.7 mg; carbon dioxide 2.278 / 2 x 24.055 = 27.4 mL/m2.
TEST(Teaching, NumbersOfTheTraditionalMix)
{
    const auto n = teachingNumbers(traditional(), 15, std::pair(148.0, 210.0));
    ASSERT_TRUE(n);
    EXPECT_NEAR(n->iron_mmol_m2, 5.036, 0.001);
    EXPECT_NEAR(n->hexacyanoferrate_mmol_m2, 2.278, 0.001);
    EXPECT_EQ(n->limiting, Limiting::Hexacyanoferrate);
    EXPECT_NEAR(n->left_over_mmol_m2, 2.758, 0.001);
    EXPECT_NEAR(n->blue_g_m2, 0.699, 0.001);
    EXPECT_NEAR(n->blue_mg_sheet.value(), 21.7, 0.05);
    EXPECT_NEAR(n->carbon_dioxide_ml_m2, 27.4, 0.05);
    EXPECT_FALSE(teachingNumbers(audit({}), 15)); // nothing weighed: nothing known
}

} // namespace WASHFAST_FILE
