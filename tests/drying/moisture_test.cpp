// Water left at a moment: which evidence counts, its interval, and the warning. Arithmetic stands in the comments; no
// published values of coated sheets were found.
#include "tests/drying/sheet_maker.h"

#include "core/quantity/catalogue.h"

#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::drying;

namespace {

void expectContained(const Bracket& bracket)
{
    EXPECT_LE(bracket.low, bracket.likely);
    EXPECT_LE(bracket.likely, bracket.high);
}

} // namespace

TEST(Touch, EveryChoiceOfTheCatalogueHasARange)
{
    const auto catalogue = standardCatalogue();
    const TouchRanges ranges;
    double wetter = 101.0;
    for (const auto& choice : catalogue.columnField(Entity::Touch, u"touch_state").choices) {
        const auto range = ranges.of(choice.key);
        ASSERT_TRUE(range) << choice.key.toStdString();
        expectContained(*range);
        EXPECT_GE(range->low, 0.0);
        EXPECT_LE(range->high, 100.0);
        EXPECT_LT(range->likely, wetter) << "the choices go from wettest to driest";
        wetter = range->likely;
    }
    EXPECT_FALSE(ranges.of(QStringLiteral("soggy")));
    EXPECT_FALSE(ranges.of(QString()));
}

TEST(Methods, EveryDryingMethodOfTheCatalogueHasAnAirSpeed)
{
    const auto catalogue = standardCatalogue();
    for (const auto& choice : catalogue.columnField(Entity::Print, u"dry_method").choices) {
        EXPECT_GT(airSpeed_m_s(choice.key), 0.0);
        EXPECT_EQ(isHeated(choice.key), choice.key == u"dryer_hot" || choice.key == u"warm_plate")
            << choice.key.toStdString();
    }
    EXPECT_GT(airSpeed_m_s(QStringLiteral("fan")), airSpeed_m_s(QStringLiteral("flat")));
}

TEST(Moisture, OfAMass)
{
    // 5.30 g: (0.30 - 0.12) / 0.48 = 37.5 %. Errors of 0.015 g in each mass and 1 % in the solids: share 0.5, so
    // 0.015 / 0.48 x sqrt(1 + 0.25 + 0.25) = 3.83 %; 0.5 / 0.8^2 x 1 % = 0.78 %; together 3.91 %.
    const auto found = moistureOfMass(coatedSheet(), knownNumber(5.3));
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->pct.likely, 37.5, 1e-9);
    EXPECT_NEAR(found->pct.high - found->pct.likely, 3.91, 0.01);
    EXPECT_NEAR(found->pct.likely - found->pct.low, 3.91, 0.01);
    EXPECT_EQ(found->evidence, Evidence::Measured);
    EXPECT_EQ(found->from, MoistureFrom::Weighing);
}

TEST(Moisture, UnknownSolidsAreAssumedAndWidenTheInterval)
{
    auto sheet = coatedSheet();
    const auto known = moistureOfMass(sheet, knownNumber(5.3));
    sheet.solids_pct = {};
    const auto assumed = moistureOfMass(sheet, knownNumber(5.3));
    // (70.5 - 21) / 120 with 35/235 of solids.
    EXPECT_NEAR(assumed->pct.likely, 41.25, 1e-9);
    EXPECT_EQ(assumed->evidence, Evidence::Assumed);
    EXPECT_GT(assumed->pct.high - assumed->pct.low, known->pct.high - known->pct.low);
    Assumptions other;
    other.solids_pct = 20.0;
    EXPECT_NEAR(moistureOfMass(sheet, knownNumber(5.3), other)->pct.likely, 37.5, 1e-9);
}

TEST(Moisture, NothingButSolidsHasNoWaterToLose)
{
    auto sheet = coatedSheet();
    for (const double solids : { 100.0, 120.0, -5.0 }) {
        sheet.solids_pct = knownNumber(solids);
        EXPECT_FALSE(moistureOfMass(sheet, knownNumber(5.3))) << solids;
        EXPECT_FALSE(curveOf(sheet)) << solids;
    }
    sheet = coatedSheet();
    sheet.coated_g = knownNumber(5.0);
    EXPECT_FALSE(moistureOfMass(sheet, knownNumber(5.0))) << "no mix on the sheet";
    EXPECT_FALSE(moistureOfMass(coatedSheet(), {})) << "not weighed";
}

TEST(Moisture, TheBestEvidenceCounts)
{
    auto sheet = coatedSheet();
    sheet.expose_start = clock(30);
    EXPECT_FALSE(moistureAtExpose(sheet)) << "nothing tells";
    EXPECT_FALSE(moistureAt(sheet, clock(30)));

    sheet.touch_at_expose = { QStringLiteral("cool"), Evidence::Estimated };
    auto found = moistureAtExpose(sheet);
    EXPECT_EQ(found->from, MoistureFrom::Touch);
    EXPECT_EQ(found->evidence, Evidence::Assumed);
    EXPECT_EQ(found->pct, TouchRanges {}.cool);

    weigh(sheet, 10, 50.0); // k = ln(98/48)/10 = 0.07138; at 30 min 2 + 98 exp(-2.1413) = 13.5 %
    found = moistureAtExpose(sheet);
    EXPECT_EQ(found->from, MoistureFrom::Curve);
    EXPECT_NEAR(found->pct.likely, 13.5, 0.1);
    EXPECT_EQ(found->evidence, Evidence::Assumed) << "one weighing, asked far beyond it";
    expectContained(found->pct);

    weigh(sheet, 27, 11.0);
    found = moistureAtExpose(sheet);
    EXPECT_EQ(found->from, MoistureFrom::Weighing) << "three minutes before";
    EXPECT_NEAR(found->pct.likely, 11.0, 1e-9);
    EXPECT_EQ(found->evidence, Evidence::Measured);

    sheet.before_expose_g = knownNumber(massOf(9.0));
    EXPECT_NEAR(moistureAtExpose(sheet)->pct.likely, 9.0, 1e-9) << "the one that was meant for it";
}

TEST(Moisture, BetweenWeighingsTheCurveIsAnEstimate)
{
    auto sheet = coatedSheet();
    sheet.expose_start = clock(20);
    weigh(sheet, 10, 50.0);
    weigh(sheet, 18, 29.0);
    weigh(sheet, 40, 7.6); // after the exposure began: it says nothing of the drying before
    const auto found = moistureAt(sheet, clock(9));
    EXPECT_EQ(found->from, MoistureFrom::Curve);
    EXPECT_EQ(found->evidence, Evidence::Estimated);
    EXPECT_EQ(curveOf(sheet)->weighings(), 2);
}

TEST(Moisture, DryingStopsWhenItWasTakenAway)
{
    auto sheet = coatedSheet();
    weigh(sheet, 10, 50.0);
    sheet.expose_start = clock(60);
    const double dried_on = moistureAtExpose(sheet)->pct.likely;
    sheet.dry_end = clock(20);
    const auto stopped = moistureAtExpose(sheet);
    // 2 + 98 exp(-0.07138 x 20) = 25.5 %
    EXPECT_NEAR(stopped->pct.likely, 25.5, 0.1);
    EXPECT_GT(stopped->pct.likely, dried_on);
    EXPECT_LE(stopped->pct.low, dried_on) << "it may have gone on drying";
}

TEST(Moisture, TheClockStartsAtTheCoatedWeighing)
{
    auto sheet = coatedSheet();
    weigh(sheet, 10, 50.0);
    const double from_start = curveOf(sheet)->rate_per_min();
    auto late = coatedSheet();
    late.weighings.push_back({ clock(5), QStringLiteral("coated"), 5.6, Evidence::Measured });
    weigh(late, 10, 50.0);
    EXPECT_NEAR(curveOf(late)->rate_per_min(), 2.0 * from_start, 1e-6) << "the same loss in half of the time";
}

TEST(Moisture, UnderFilmNoDryingIsAssumed)
{
    auto sheet = coatedSheet();
    sheet.covered = true;
    sheet.expose_start = clock(120);
    auto found = moistureAtExpose(sheet);
    EXPECT_EQ(found->from, MoistureFrom::Covered);
    EXPECT_EQ(found->pct.likely, 100.0);
    EXPECT_EQ(found->evidence, Evidence::Assumed);
    EXPECT_TRUE(std::isinf(minutesUntilDry(sheet, clock(30))->likely));

    weigh(sheet, 30, 80.0);
    found = moistureAtExpose(sheet);
    EXPECT_EQ(found->from, MoistureFrom::Covered);
    EXPECT_NEAR(found->pct.likely, 80.0, 1e-9) << "what was last weighed";
    expectContained(found->pct);

    sheet.touch_at_expose = { QStringLiteral("clings"), Evidence::Estimated };
    EXPECT_EQ(moistureAtExpose(sheet)->from, MoistureFrom::Touch) << "felt is better than assumed";
}

TEST(Moisture, AtTheRinseAContactPrintHasNotDriedInItsFrame)
{
    auto sheet = coatedSheet();
    weigh(sheet, 10, 50.0);
    sheet.dry_end = sheet.expose_start = clock(20);
    sheet.expose_end = clock(40);
    sheet.rinse_start = clock(41);
    const auto contact = moistureAtRinse(sheet);
    EXPECT_NEAR(contact->pct.likely, 25.5, 0.1);
    sheet.print_method = QStringLiteral("objects");
    const auto open = moistureAtRinse(sheet);
    EXPECT_NEAR(open->pct.likely, 2 + 98 * std::exp(-0.07138 * 40), 0.1);
    EXPECT_LE(contact->pct.low, open->pct.likely);

    sheet.redampened = { true, Evidence::Estimated };
    EXPECT_FALSE(moistureAtRinse(sheet)) << "the curve knows nothing of water taken up again";
    sheet.touch_at_rinse = { QStringLiteral("clings"), Evidence::Estimated };
    EXPECT_TRUE(moistureAtRinse(sheet)->redampened);
    sheet.before_rinse_g = knownNumber(massOf(33.0));
    EXPECT_NEAR(moistureAtRinse(sheet)->pct.likely, 33.0, 1e-9);
}

TEST(Moisture, AWeighingBeforeTheLightSaysNothingOfTheRinse)
{
    auto sheet = coatedSheet();
    sheet.bare_g = {}; // so that there is no curve
    sheet.expose_start = clock(20);
    sheet.rinse_start = clock(23);
    weigh(sheet, 19, 12.0, "before_expose");
    EXPECT_FALSE(moistureAtRinse(sheet));
}

TEST(Moisture, NeverRisesWhileASheetDries)
{
    auto sheet = coatedSheet();
    weigh(sheet, 5, 78.0);
    weigh(sheet, 12, 44.0);
    double before = 101.0;
    for (int minute = 30; minute < 120; ++minute) {
        const auto found = moistureAt(sheet, clock(minute));
        ASSERT_TRUE(found);
        EXPECT_LE(found->pct.likely, before);
        expectContained(found->pct);
        before = found->pct.likely;
    }
}

TEST(Moisture, MinutesUntilDry)
{
    auto sheet = coatedSheet();
    weigh(sheet, 10, 50.0); // k = 0.07138: 5 % after ln(98/3)/k = 48.84 min
    const auto left = minutesUntilDry(sheet, clock(10));
    EXPECT_NEAR(left->likely, 38.84, 0.05);
    expectContained(*left);
    // In air that is twice as dry it takes half as long from now on: 20 and 0.585 kPa to 10 and 1.17 kPa.
    const Air dry { 20, 0 }; // 2.339 kPa
    const auto faster = minutesUntilDry(sheet, clock(10), {}, nullptr, dry);
    EXPECT_NEAR(faster->likely, 38.84 * 1.17 / 2.3392, 0.05);
    weigh(sheet, 60, 4.0);
    EXPECT_EQ(minutesUntilDry(sheet, clock(61))->high, 0.0) << "weighed dry";
}

TEST(Moisture, OtherPrintsTellWhenThisOneDoesNot)
{
    Sheet sheet;
    sheet.dry_start = clock(0);
    sheet.paper = QStringLiteral("paper P");
    sheet.dry_method = QStringLiteral("flat");
    const LearntRates learnt(
        { { sheet.paper, sheet.dry_method, 0.07, 1.17, {} }, { sheet.paper, sheet.dry_method, 0.08, 1.17, {} } });
    const Air room { 20, 50 };
    EXPECT_FALSE(moistureAt(sheet, clock(20), {}, &learnt)) << "the air is not known";
    const auto found = moistureAt(sheet, clock(20), {}, &learnt, room);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->from, MoistureFrom::Learnt);
    EXPECT_EQ(found->evidence, Evidence::Estimated);
    EXPECT_NEAR(found->pct.likely, 2 + 98 * std::exp(-0.0748 * 20), 0.5);
    EXPECT_EQ(moistureAt(sheet, clock(20), {}, nullptr, room)->evidence, Evidence::Assumed) << "physics only";
    EXPECT_GT(minutesUntilDry(sheet, clock(0), {}, &learnt, room)->likely,
        minutesUntilDry(sheet, clock(20), {}, &learnt, room)->likely);
    touch(sheet, 18, "crisp");
    EXPECT_EQ(minutesUntilDry(sheet, clock(20), {}, &learnt, room)->likely, 0.0);
}

TEST(DampWarning, ComesWithTheNumber)
{
    const auto damp = moistureOfMass(coatedSheet(), knownNumber(massOf(37.5)));
    const auto exposure = dampWarning(*damp, NextStep::Exposure);
    ASSERT_TRUE(exposure);
    EXPECT_THAT(exposure->toStdString(), testing::HasSubstr("about 38 %"));
    EXPECT_THAT(exposure->toStdString(), testing::HasSubstr("by weighing"));
    EXPECT_NE(*exposure, *dampWarning(*damp, NextStep::Rinse));
    EXPECT_FALSE(dampWarning(*moistureOfMass(coatedSheet(), knownNumber(massOf(4.0))), NextStep::Rinse));
    EXPECT_FALSE(dampWarning({ TouchRanges {}.dry, Evidence::Assumed, MoistureFrom::Touch, false }, NextStep::Rinse));
    EXPECT_TRUE(dampWarning({ TouchRanges {}.cool, Evidence::Assumed, MoistureFrom::Touch, false }, NextStep::Rinse));
    Assumptions stricter;
    stricter.damp_pct = 3.0;
    EXPECT_TRUE(dampWarning(*moistureOfMass(coatedSheet(), knownNumber(massOf(4.0))), NextStep::Rinse, stricter));
}

TEST(DampWarning, AfterDampAirACurveIsNotBelieved)
{
    Moisture dry { { 1, 3, 6 }, Evidence::Estimated, MoistureFrom::Curve, true };
    const auto warning = dampWarning(dry, NextStep::Exposure);
    ASSERT_TRUE(warning);
    EXPECT_THAT(warning->toStdString(), testing::HasSubstr("about 3 %"));
    EXPECT_THAT(warning->toStdString(), testing::HasSubstr("above 75 % humidity"));
    dry.from = MoistureFrom::Weighing;
    EXPECT_FALSE(dampWarning(dry, NextStep::Exposure)) << "weighed after all that";
}

TEST(Assumptions, AreSaidWithTheirNumbers)
{
    Assumptions assumed;
    assumed.dry_pct = 7.0;
    const auto text = assumed.sentences().join(QLatin1Char('\n')).toStdString();
    EXPECT_THAT(text, testing::HasSubstr("dry at 7 %"));
    EXPECT_THAT(text, testing::HasSubstr("14.9 % solids"));
    EXPECT_THAT(text, testing::HasSubstr("above 75 % humidity"));
}

} // namespace WASHFAST_FILE
